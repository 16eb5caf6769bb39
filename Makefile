# Tapebound: the only build file. `make help` lists what it makes.
#
#   B       folder of the build            build
#   CC      compiler                       gcc
#   OPT     optimisation                   -O2 -g
#   SAN     sanitizer flags                (none)
#   WERROR  -Werror when set to 1          (set in CI)
#   JOBS    how much runs at once          2
#   V       whole commands when set to 1
#   PREFIX, DESTDIR                        where `make install` puts things

B ?= build
CC = gcc
OPT ?= -O2 -g
SAN ?=
WERROR ?=
JOBS ?= 2
V ?=
PREFIX ?= /usr/local
DESTDIR ?=
VERSION := 0.1.0

PKGS := libxml-2.0 harfbuzz harfbuzz-subset gsl jansson libdeflate
DEPS_BUILD := gcc libc6-dev make pkg-config libhpdf-dev libxml2-dev libharfbuzz-dev libunibreak-dev libqrencode-dev libcsv-dev libjansson-dev \
	libdeflate-dev libgsl-dev hyphen-en-us
DEPS_TEST := libcmocka-dev libhyphen-dev qpdf poppler-utils libxml2-utils mandoc python3 r-base-core
DEPS_LINT := clang clang-format clang-tidy libclang-rt-14-dev

WARN := -Wall -Wextra -Wpedantic -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wconversion -Wno-sign-conversion \
	-Wpointer-arith -Wcast-qual -Wwrite-strings -Wformat=2 -Wvla -Wundef $(if $(filter 1,$(WERROR)),-Werror)
DEFS := -D_GNU_SOURCE -DTB_VERSION='"$(VERSION)"' -DTB_SHARE='"$(PREFIX)/share/tapebound"'
# Asked once, and only by what compiles or links: `make deps` runs where pkg-config is not installed yet.
PKG_CFLAGS = $(eval PKG_CFLAGS := $(shell pkg-config --cflags $(PKGS) | sed 's/-I/-isystem /g'))$(PKG_CFLAGS)
PKG_LIBS = $(eval PKG_LIBS := $(shell pkg-config --libs $(PKGS)))$(PKG_LIBS)
CFLAGS_ALL = -std=c17 $(OPT) -ffp-contract=off $(WARN) $(SAN) $(DEFS) -Isrc -I$(B)/generated $(PKG_CFLAGS) $(CFLAGS)
LIBS = -lhpdf $(PKG_LIBS) -lunibreak -lqrencode -lcsv -lm

# Programs of the build itself and the table they make stand apart from what is linked.
MAKERS := $(wildcard src/*/*_make.c)
SOURCES := $(filter-out $(MAKERS),$(wildcard src/*.c src/*/*.c src/*/*/*.c))
OBJECTS := $(SOURCES:src/%.c=$(B)/obj/%.o)
PARTS := $(filter-out $(B)/obj/main.o,$(OBJECTS))
TEST_SOURCES := $(wildcard tests/*/test_*.c tests/*/*/test_*.c)
TEST_HELP := $(wildcard tests/*/mock_*.c tests/*/help_*.c tests/*/*/help_*.c)
TEST_HELP_OBJECTS := $(TEST_HELP:tests/%.c=$(B)/tests/%.o)
TESTS := $(TEST_SOURCES:tests/%.c=$(B)/tests/%)
BENCHES := $(patsubst tests/bench/%.c,$(B)/bench/%,$(wildcard tests/bench/*.c))
TOOLS := $(patsubst tests/tools/%.c,$(B)/tools/%,$(wildcard tests/tools/*.c))
FUZZERS := $(patsubst tests/fuzz/fuzz_%.c,$(B)/fuzz/%,$(wildcard tests/fuzz/fuzz_*.c))
GENERATED := $(B)/generated/hyphen_table.h $(B)/generated/common_table.h
DICTIONARY := /usr/share/hyphen/hyph_en_US.dic

Q := $(if $(filter 1,$(V)),,@)
TELL = $(if $(Q),@echo '  $(1)  $@';)

all: $(B)/tapebound

$(B)/tapebound: $(OBJECTS)
	$(call TELL,link)
	$(Q)$(CC) $(SAN) $(LDFLAGS) -o $@ $^ $(LIBS)

$(B)/obj/typeset/hyphen.o: $(B)/generated/hyphen_table.h
$(B)/obj/pdf/common_tables.o: $(B)/generated/common_table.h
$(B)/obj/%.o: src/%.c
	$(call TELL,$(CC))
	@mkdir -p $(@D)
	$(Q)$(CC) $(CFLAGS_ALL) -MMD -MP -c -o $@ $<

$(B)/generated/hyphen_table.h: $(B)/hyphen_make $(DICTIONARY)
	$(call TELL,make)
	@mkdir -p $(@D)
	$(Q)$(B)/hyphen_make $(DICTIONARY) >$@.new && mv $@.new $@

$(B)/hyphen_make: src/typeset/hyphen_make.c src/base/arena.c src/base/buf.c
	$(call TELL,$(CC))
	@mkdir -p $(@D)
	$(Q)$(CC) -std=c17 -O1 -D_GNU_SOURCE $(WARN) -Isrc -o $@ $^ -lm

$(B)/generated/common_table.h: $(B)/common_make $(wildcard fonts/*.ttf)
	$(call TELL,make)
	@mkdir -p $(@D)
	$(Q)$(B)/common_make fonts >$@.new && mv $@.new $@

$(B)/common_make: src/pdf/common_make.c src/pdf/common.c src/pdf/face.c src/base/arena.c
	$(call TELL,$(CC))
	@mkdir -p $(@D)
	$(Q)$(CC) -std=c17 -O1 -D_GNU_SOURCE $(WARN) -Isrc $(PKG_CFLAGS) -o $@ $^ $(PKG_LIBS)

$(B)/parts.a: $(PARTS)
	$(call TELL,ar)
	@rm -f $@
	$(Q)ar rcs $@ $^

$(B)/tests/help.a: $(TEST_HELP_OBJECTS)
	$(call TELL,ar)
	@rm -f $@
	$(Q)ar rcs $@ $^

$(TEST_HELP_OBJECTS): $(B)/tests/%.o: tests/%.c
	$(call TELL,$(CC))
	@mkdir -p $(@D)
	$(Q)$(CC) $(CFLAGS_ALL) -Itests -MMD -MP -c -o $@ $<

$(TESTS): $(B)/tests/%: tests/%.c $(B)/tests/help.a $(B)/parts.a
	$(call TELL,$(CC))
	@mkdir -p $(@D)
	$(Q)$(CC) $(CFLAGS_ALL) -Itests -MMD -MP -MF $@.d -o $@ $< $(B)/tests/help.a $(B)/parts.a $(LDFLAGS) $(LIBS) -lhyphen -lcmocka

$(B)/bench/%: tests/bench/%.c $(B)/parts.a
	$(call TELL,$(CC))
	@mkdir -p $(@D)
	$(Q)$(CC) $(CFLAGS_ALL) -Itests -MMD -MP -MF $@.d -o $@ $< $(B)/parts.a $(LDFLAGS) $(LIBS)

$(B)/tools/%: tests/tools/%.c $(B)/parts.a
	$(call TELL,$(CC))
	@mkdir -p $(@D)
	$(Q)$(CC) $(CFLAGS_ALL) -MMD -MP -MF $@.d -o $@ $< $(B)/parts.a $(LDFLAGS) $(LIBS)

$(B)/fuzz/%: tests/fuzz/fuzz_%.c $(B)/tests/help.a $(B)/parts.a
	$(call TELL,$(CC))
	@mkdir -p $(@D)
	$(Q)$(CC) $(CFLAGS_ALL) -fsanitize=fuzzer -Itests -MMD -MP -MF $@.d -o $@ $< $(B)/tests/help.a $(B)/parts.a $(LDFLAGS) $(LIBS) -lhyphen -lcmocka

-include $(OBJECTS:.o=.d) $(TEST_HELP_OBJECTS:.o=.d) $(TESTS:=.d) $(BENCHES:=.d) $(TOOLS:=.d)

# ---- what people call ----

help:
	@echo 'make            build build/tapebound'
	@echo 'make deps       install the Debian packages that are missing'
	@echo 'make demo       install, build, compile the demo dossiers'
	@echo 'make test       install, build, run every test'
	@echo 'make asan       run every test under AddressSanitizer and UndefinedBehaviorSanitizer'
	@echo 'make tsan       compile the demo dossiers under ThreadSanitizer'
	@echo 'make clang      build and test with clang'
	@echo 'make fuzz       run each fuzz target for TIME=60 seconds'
	@echo 'make mutate     switch off each rule in turn (or RULES=...): a test must fail'
	@echo 'make coverage   lines and branches that the tests take'
	@echo 'make lint       clang-format and clang-tidy'
	@echo 'make bench      measure, as ratios in one run'
	@echo 'make scales     remake the comparison scales where their data is (DATA=folder)'
	@echo 'make install    to PREFIX (/usr/local), under DESTDIR; make uninstall takes it away'
	@echo 'make clean'

# Installs what dpkg does not know as installed, and says what.
define INSTALL
missing=''; for package in $(1); do \
	dpkg-query -W -f='$${Status}' $$package 2>/dev/null | grep -q 'install ok installed' || missing="$$missing $$package"; done; \
[ -n "$$missing" ] || exit 0; echo "installing:$$missing"; \
sudo=''; [ "$$(id -u)" = 0 ] || sudo=sudo; \
$$sudo apt-get update -q && $$sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends $$missing
endef

deps:
	@$(call INSTALL,$(DEPS_BUILD))

deps-test:
	@$(call INSTALL,$(DEPS_BUILD) $(DEPS_TEST))

deps-lint:
	@$(call INSTALL,$(DEPS_BUILD) $(DEPS_TEST) $(DEPS_LINT))

# A build may stand outside the tree.
demo tsan: export TAPEBOUND_SHARE = $(CURDIR)

demo: deps
	@$(MAKE) --no-print-directory -j$(JOBS) all
	@mkdir -p $(B)/demo
	$(B)/tapebound compile dossiers/*.xml --house dossiers/house/harbour.xml -o $(B)/demo
	@echo; echo 'The demo dossiers:'; ls $(B)/demo/*.pdf

test: deps-test
	@$(MAKE) --no-print-directory run-tests

build-tests: all $(TESTS) $(B)/tools/make_scales

run-tests:
	@$(MAKE) --no-print-directory -j$(JOBS) build-tests
	@B=$(B) JOBS=$(JOBS) tests/run $(TESTS)

asan: deps-test
	@$(MAKE) --no-print-directory run-tests B=$(B)/asan OPT='-O1 -g -fno-omit-frame-pointer' \
		SAN='-fsanitize=address,undefined -fno-sanitize-recover=undefined'

# Only what runs in threads: the libraries beneath are not built for this sanitizer.
tsan: deps-test
	@$(MAKE) --no-print-directory -j$(JOBS) all B=$(B)/tsan OPT='-O1 -g -fno-omit-frame-pointer' SAN=-fsanitize=thread
	@mkdir -p $(B)/tsan/out
	@TSAN_OPTIONS=halt_on_error=1 $(B)/tsan/tapebound compile dossiers/*.xml --house dossiers/house/harbour.xml \
		-o $(B)/tsan/out 2>$(B)/tsan/said || { grep -E -A 20 'WARNING: Thread|error:' $(B)/tsan/said; exit 1; }

clang: deps-lint
	@$(MAKE) --no-print-directory run-tests B=$(B)/clang CC=clang

# Each target for so many seconds; new inputs are kept in the build.
TIME ?= 60
fuzzers: $(FUZZERS)
fuzz: deps-lint
	@$(MAKE) --no-print-directory -j$(JOBS) fuzzers B=$(B)/fuzzing CC=clang OPT='-O1 -g -fno-omit-frame-pointer' \
		SAN='-fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=undefined'
	@B=$(B)/fuzzing tests/fuzz/run $(TIME)

# Lines and branches that the tests take, a folder a line; the least that source, check and stats must have.
coverage: deps-lint
	@$(MAKE) --no-print-directory -j$(JOBS) build-tests B=$(B)/coverage CC=clang OPT='-O1 -g' SAN='-fprofile-instr-generate -fcoverage-mapping'
	@B=$(B)/coverage tests/coverage

# Each rule switched off in turn: a test must fail.
mutate: deps-test
	@$(MAKE) --no-print-directory -j$(JOBS) $(B)/mutate/parts.a $(B)/mutate/tests/help.a $(B)/mutate/obj/main.o B=$(B)/mutate OPT='-O1 -fPIC'
	@B=$(B)/mutate CC='$(CC)' CFLAGS='$(CFLAGS_ALL) -fPIC' LIBS='$(LIBS)' tests/mutate $(RULES)

# One file a call: clang-tidy 14 takes every va_list after its first file for uninitialised.
LINTED := $(wildcard src/*.[ch] src/*/*.[ch] src/*/*/*.[ch] tests/*/*.[ch] tests/*/*/*.[ch])
lint: deps-lint
	@$(MAKE) --no-print-directory $(GENERATED)
	$(Q)clang-format --dry-run --Werror $(LINTED)
	$(Q)printf '%s\n' $(SOURCES) | \
		xargs -I FILE -P $(JOBS) clang-tidy --quiet FILE -- -std=c17 $(DEFS) -Isrc -I$(B)/generated $(PKG_CFLAGS)

bench: deps
	@$(MAKE) --no-print-directory -j$(JOBS) all $(BENCHES)
	@B=$(B) tests/bench/run $(BENCHES)

DATA ?= ../shared/data
scales: $(B)/tools/make_scales
	$(B)/tools/make_scales $(DATA) templates/scales

SHARE = $(DESTDIR)$(PREFIX)/share
install: all
	install -d $(DESTDIR)$(PREFIX)/bin $(SHARE)/tapebound $(SHARE)/man/man1 $(SHARE)/bash-completion/completions \
		$(SHARE)/zsh/site-functions $(SHARE)/fish/vendor_completions.d
	install -m 755 $(B)/tapebound $(DESTDIR)$(PREFIX)/bin/tapebound
	cp -R templates fonts $(SHARE)/tapebound/
	install -m 644 src/tapebound.1 $(SHARE)/man/man1/tapebound.1
	install -m 644 src/completions/tapebound.bash $(SHARE)/bash-completion/completions/tapebound
	install -m 644 src/completions/_tapebound $(SHARE)/zsh/site-functions/_tapebound
	install -m 644 src/completions/tapebound.fish $(SHARE)/fish/vendor_completions.d/tapebound.fish

uninstall:
	rm -f $(DESTDIR)$(PREFIX)/bin/tapebound $(SHARE)/man/man1/tapebound.1 $(SHARE)/bash-completion/completions/tapebound \
		$(SHARE)/zsh/site-functions/_tapebound $(SHARE)/fish/vendor_completions.d/tapebound.fish
	rm -rf $(SHARE)/tapebound

clean:
	rm -rf $(B)

.PHONY: all help deps deps-test deps-lint demo test build-tests run-tests asan tsan clang fuzzers fuzz coverage mutate lint bench scales install uninstall clean
.DELETE_ON_ERROR:
