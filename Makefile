# Tapebound: the only build file. `make help` lists what it makes.
#
#   B       folder of the build            build
#   CC      compiler                       gcc
#   OPT     optimisation                   -O2 -g
#   SAN     sanitizer flags                (none)
#   WERROR  -Werror when set to 1          (set in CI)
#   PREFIX, DESTDIR                        where `make install` puts things

B ?= build
CC = gcc
OPT ?= -O2 -g
SAN ?=
WERROR ?=
PREFIX ?= /usr/local
DESTDIR ?=
VERSION := 0.1.0

PKGS := libxml-2.0 harfbuzz harfbuzz-subset gsl jansson libdeflate
DEPS_BUILD := gcc libc6-dev make pkg-config libhpdf-dev libxml2-dev libharfbuzz-dev libhyphen-dev hyphen-en-us \
	libunibreak-dev libcsv-dev libjansson-dev libdeflate-dev libgsl-dev
DEPS_TEST := libcmocka-dev qpdf poppler-utils mandoc r-base-core python3
DEPS_LINT := clang clang-format clang-tidy libclang-rt-14-dev

WARN := -Wall -Wextra -Wpedantic -Wshadow -Wstrict-prototypes -Wmissing-prototypes -Wconversion -Wno-sign-conversion \
	-Wpointer-arith -Wcast-qual -Wwrite-strings -Wformat=2 -Wvla -Wundef $(if $(filter 1,$(WERROR)),-Werror)
DEFS := -D_GNU_SOURCE -DTB_VERSION='"$(VERSION)"' -DTB_SHARE='"$(PREFIX)/share/tapebound"'
PKG_CFLAGS = $(shell pkg-config --cflags $(PKGS) | sed 's/-I/-isystem /g')
PKG_LIBS = $(shell pkg-config --libs $(PKGS))
CFLAGS_ALL = -std=c17 $(OPT) -ffp-contract=off $(WARN) $(SAN) $(DEFS) -Isrc -I$(B)/generated $(PKG_CFLAGS) $(CFLAGS)
LIBS = -lhpdf $(PKG_LIBS) -lunibreak -lcsv -lm

# Programs of the build itself and the table they make stand apart from what is linked.
MAKERS := $(wildcard src/*/*_make.c)
SOURCES := $(filter-out $(MAKERS),$(wildcard src/*.c src/*/*.c src/*/*/*.c))
OBJECTS := $(SOURCES:src/%.c=$(B)/obj/%.o)
PARTS := $(filter-out $(B)/obj/main.o,$(OBJECTS))
TEST_SOURCES := $(wildcard tests/*/test_*.c tests/*/*/test_*.c)
TEST_HELP := $(wildcard tests/*/mock_*.c tests/*/help_*.c)
TESTS := $(TEST_SOURCES:tests/%.c=$(B)/tests/%)
BENCHES := $(patsubst tests/bench/%.c,$(B)/bench/%,$(wildcard tests/bench/*.c))
TOOLS := $(patsubst tests/tools/%.c,$(B)/tools/%,$(wildcard tests/tools/*.c))
GENERATED := $(B)/generated/hyphen_table.h
DICTIONARY := /usr/share/hyphen/hyph_en_US.dic

all: $(B)/tapebound

$(B)/tapebound: $(OBJECTS)
	$(CC) $(SAN) $(LDFLAGS) -o $@ $^ $(LIBS)

$(B)/obj/typeset/hyphen.o: $(GENERATED)
$(B)/obj/%.o: src/%.c
	@mkdir -p $(@D)
	$(CC) $(CFLAGS_ALL) -MMD -MP -c -o $@ $<

$(B)/generated/hyphen_table.h: $(B)/hyphen_make $(DICTIONARY)
	@mkdir -p $(@D)
	$(B)/hyphen_make $(DICTIONARY) >$@.new && mv $@.new $@

$(B)/hyphen_make: src/typeset/hyphen_make.c src/base/arena.c src/base/buf.c
	@mkdir -p $(@D)
	$(CC) -std=c17 -O1 -D_GNU_SOURCE $(WARN) -Isrc -o $@ $^ -lm

$(B)/parts.a: $(PARTS)
	@rm -f $@
	ar rcs $@ $^

$(B)/tests/%: tests/%.c $(TEST_HELP) $(B)/parts.a
	@mkdir -p $(@D)
	$(CC) $(CFLAGS_ALL) -Itests -MMD -MP -MF $@.d -o $@ $< $(TEST_HELP) $(B)/parts.a $(LDFLAGS) $(LIBS) -lhyphen -lcmocka

$(B)/bench/%: tests/bench/%.c $(B)/parts.a
	@mkdir -p $(@D)
	$(CC) $(CFLAGS_ALL) -Itests -o $@ $< $(B)/parts.a $(LDFLAGS) $(LIBS)

$(B)/tools/%: tests/tools/%.c $(B)/parts.a
	@mkdir -p $(@D)
	$(CC) $(CFLAGS_ALL) -o $@ $< $(B)/parts.a $(LDFLAGS) $(LIBS)

-include $(OBJECTS:.o=.d) $(TESTS:=.d)

# ---- what people call ----

help:
	@echo 'make            build build/tapebound'
	@echo 'make deps       install the Debian packages that are missing'
	@echo 'make demo       install, build, compile the demo dossiers'
	@echo 'make test       install, build, run every test'
	@echo 'make asan       run every test under AddressSanitizer and UndefinedBehaviorSanitizer'
	@echo 'make clang      build and test with clang'
	@echo 'make lint       clang-format and clang-tidy'
	@echo 'make bench      measure, as ratios in one run'
	@echo 'make scales     remake the comparison scales where their data is (DATA=folder)'
	@echo 'make install    to PREFIX (/usr/local), under DESTDIR; make uninstall takes it away'
	@echo 'make clean'

# Installs what dpkg does not know as installed, and says what.
INSTALL_DEPS = missing=""; for p in $(1); do dpkg-query -W -f='$${Status}' $$p 2>/dev/null | grep -q 'install ok installed' || missing="$$missing $$p"; done; \
	if [ -n "$$missing" ]; then echo "installing:$$missing"; sudo=""; [ "$$(id -u)" = 0 ] || sudo=sudo; \
	$$sudo apt-get update -q && DEBIAN_FRONTEND=noninteractive $$sudo apt-get install -y -q --no-install-recommends $$missing; fi

deps:
	@$(call INSTALL_DEPS,$(DEPS_BUILD))

deps-test: deps
	@$(call INSTALL_DEPS,$(DEPS_TEST))

deps-lint: deps-test
	@$(call INSTALL_DEPS,$(DEPS_LINT))

demo: deps
	@$(MAKE) --no-print-directory all
	@mkdir -p $(B)/demo
	$(B)/tapebound compile dossiers/*.xml --house dossiers/house/harbour.xml -o $(B)/demo
	@echo; echo 'The demo dossiers:'; ls $(B)/demo/*.pdf

test: deps-test
	@$(MAKE) --no-print-directory run-tests

run-tests: all $(TESTS)
	@B=$(B) tests/run $(TESTS)

asan: deps-lint
	@$(MAKE) --no-print-directory run-tests B=build/asan OPT='-O1 -g -fno-omit-frame-pointer' SAN='-fsanitize=address,undefined -fno-sanitize-recover=undefined'

clang: deps-lint
	@$(MAKE) --no-print-directory run-tests B=build/clang CC=clang

lint: deps-lint $(GENERATED)
	clang-format --dry-run --Werror $(wildcard src/*.c src/*/*.[ch] src/*/*/*.[ch] tests/*/*.[ch])
	clang-tidy --quiet $(SOURCES) -- -std=c17 $(DEFS) -Isrc -I$(B)/generated $(PKG_CFLAGS)

bench: all $(BENCHES)
	@B=$(B) tests/bench/run $(BENCHES)

DATA ?= ../shared/data
scales: $(B)/tools/make_scales
	$(B)/tools/make_scales $(DATA) templates/scales

install: all
	install -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(PREFIX)/share/tapebound $(DESTDIR)$(PREFIX)/share/man/man1
	install -m 755 $(B)/tapebound $(DESTDIR)$(PREFIX)/bin/tapebound
	cp -R templates fonts $(DESTDIR)$(PREFIX)/share/tapebound/
	install -m 644 src/tapebound.1 $(DESTDIR)$(PREFIX)/share/man/man1/tapebound.1

uninstall:
	rm -f $(DESTDIR)$(PREFIX)/bin/tapebound $(DESTDIR)$(PREFIX)/share/man/man1/tapebound.1
	rm -rf $(DESTDIR)$(PREFIX)/share/tapebound

clean:
	rm -rf build

.PHONY: all help deps deps-test deps-lint demo test run-tests asan clang lint bench scales install uninstall clean
.DELETE_ON_ERROR:
