/* Every call on the system that a compile makes, failing in turn: the output is whole and new or whole and old, the
 * status is that of a system that failed, and it is said.
 *
 * The program's own definitions of the calls stand before the C library's, for the libraries too. Each fault is one
 * child process. Of allocations every one is made to fail when TB_ALL_FAULTS is in the environment, else a sample. */
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <link.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/file.h"
#include "command.h"

#if defined(__SANITIZE_ADDRESS__)
#define SANITIZED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define SANITIZED 1
#endif
#endif
#ifndef SANITIZED
#define SANITIZED 0
#endif

enum { SAMPLED_ALLOCATIONS = 400, STATUS_TEXT = 64 };

typedef enum Kind {
    FAULT_NONE,
    FAULT_ALLOCATE,
    FAULT_OPEN,
    FAULT_READ,
    FAULT_WRITE,
    FAULT_SYNC,
    FAULT_RENAME,
    KINDS
} Kind;

/* Which call is to fail, and how many were made. In memory that parent and child share. */
typedef struct Plan {
    Kind kind;
    long at;     /* the call that fails, from 1; 0: none */
    int why;     /* errno */
    bool lasts;  /* all after it fail too */
    bool counts; /* the compile is under way */
    long made[KINDS];
} Plan;

static Plan *plan;

/* The subsetter of HarfBuzz does not look at what it is given (6.0.0): where its own allocation fails it crashes, which
 * the output survives. Its allocations succeed here. */
static const char spared_library[] = "libharfbuzz-subset";
static uintptr_t spared_from, spared_to;

static int find_spared(struct dl_phdr_info *info, size_t size, void *data) {
    (void)size, (void)data;
    if (!strstr(info->dlpi_name, spared_library)) return 0;
    for (int i = 0; i < info->dlpi_phnum; i++) {
        uintptr_t end = info->dlpi_addr + info->dlpi_phdr[i].p_vaddr + info->dlpi_phdr[i].p_memsz;
        if (end > spared_to) spared_to = end;
    }
    spared_from = info->dlpi_addr;
    return 1;
}

/* ---- the calls ---- */

#if !SANITIZED
static bool fails(Kind kind) {
    if (!plan || !plan->counts) return false;
    long call = ++plan->made[kind];
    bool now = plan->kind == kind && plan->at && (call == plan->at || (plan->lasts && call > plan->at));
    if (now) errno = plan->why;
    return now;
}

static bool is_spared(const void *caller) {
    return (uintptr_t)caller >= spared_from && (uintptr_t)caller < spared_to;
}

#define ALLOCATION_FAILS() (!is_spared(__builtin_return_address(0)) && fails(FAULT_ALLOCATE))

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *memory, size_t size);

void *malloc(size_t size) {
    return ALLOCATION_FAILS() ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size) {
    return ALLOCATION_FAILS() ? NULL : __libc_calloc(count, size);
}

void *realloc(void *memory, size_t size) {
    return ALLOCATION_FAILS() ? NULL : __libc_realloc(memory, size);
}

void *mmap(void *address, size_t length, int protection, int flags, int file, off_t offset) {
    if (fails(FAULT_ALLOCATE)) return MAP_FAILED;
    return (void *)syscall(SYS_mmap, address, length, protection, flags, file, offset);
}

int open(const char *path, int flags, ...) {
    va_list args;
    va_start(args, flags);
    mode_t mode = flags & O_CREAT ? (mode_t)va_arg(args, int) : 0;
    va_end(args);
    return fails(FAULT_OPEN) ? -1 : (int)syscall(SYS_openat, AT_FDCWD, path, flags, mode);
}

ssize_t read(int file, void *bytes, size_t length) {
    return fails(FAULT_READ) ? -1 : syscall(SYS_read, file, bytes, length);
}

/* Messages are written through another call of the library's own. */
ssize_t write(int file, const void *bytes, size_t length) {
    return file > STDERR_FILENO && fails(FAULT_WRITE) ? -1 : syscall(SYS_write, file, bytes, length);
}

int fsync(int file) {
    return fails(FAULT_SYNC) ? -1 : (int)syscall(SYS_fsync, file);
}

int rename(const char *from, const char *to) {
    return fails(FAULT_RENAME) ? -1 : (int)syscall(SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, 0);
}
#endif

/* ---- one compile ---- */

typedef struct Bench {
    char folder[PATH_MAX];
    char out[PATH_MAX + 16], said[PATH_MAX + 16];
    char *fresh; /* the output of a compile in which nothing fails */
    size_t fresh_length;
} Bench;

static const char old_content[] = "what stood here before\n";

static void spill(const char *path, const char *text) {
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

static char *slurp(const char *path, size_t *length) {
    FILE *file = fopen(path, "rb");
    if (!file) return NULL;
    Buf bytes = {0};
    char step[4096];
    for (size_t got; (got = fread(step, 1, sizeof step, file)) > 0;) buf_put(&bytes, step, got);
    fclose(file);
    (void)buf_text(&bytes);
    *length = bytes.length;
    return bytes.bytes;
}

/* What the command line does, in this process. */
static int compile(char *out) {
    char source[] = "tests/check/broken/base.xml", option[] = "-o";
    char *arguments[] = {source, option, out, NULL};
    Call call = {.command = &command_compile, .arena = arena_new()};
    const char *problem;
    if (!options_parse(call.arena, command_compile.specs, command_compile.spec_count, 3, arguments, &call.options,
                       &problem))
        return STATUS_TEXT;
    command_compile.run(&call);
    int status = (int)call.status;
    buf_free(&call.json);
    arena_free(call.arena);
    return status;
}

/* Its wait status. Messages go to bench->said. */
static int run(Bench *bench) {
    memset(plan->made, 0, sizeof plan->made);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        static const int crashes[] = {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT}; /* which the test library catches */
        for (size_t i = 0; i < sizeof crashes / sizeof crashes[0]; i++) signal(crashes[i], SIG_DFL);
        int said = open(bench->said, O_WRONLY | O_CREAT | O_TRUNC, 0600);
        dup2(said, STDERR_FILENO);
        close(said);
        plan->counts = true;
        int status = compile(bench->out);
        plan->counts = false;
        fflush(stderr);
        _exit(status);
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    plan->counts = false;
    return status;
}

static bool has_leftover(const Bench *bench) {
    char command[PATH_MAX + 64];
    snprintf(command, sizeof command, "ls -A '%s' | grep -q '^.tapebound-'", bench->folder);
    return system(command) == 0;
}

static void sweep(const Bench *bench) {
    char command[PATH_MAX + 64];
    snprintf(command, sizeof command, "rm -f '%s'/.tapebound-*", bench->folder);
    assert_int_equal(system(command), 0);
}

static Bench bench_new(void) {
    Bench bench;
    const char *folder = getenv("TMPDIR");
    snprintf(bench.folder, sizeof bench.folder, "%s/test-faults-XXXXXX", folder ? folder : P_tmpdir);
    assert_non_null(mkdtemp(bench.folder));
    snprintf(bench.out, sizeof bench.out, "%s/out.pdf", bench.folder);
    snprintf(bench.said, sizeof bench.said, "%s/said", bench.folder);
    plan = mmap(NULL, sizeof *plan, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    assert_true(plan != MAP_FAILED);
    dl_iterate_phdr(find_spared, NULL);
    assert_true(spared_to > spared_from);
    setenv("TAPEBOUND_SHARE", ".", 1);
    assert_int_equal(run(&bench), 0);
    bench.fresh = slurp(bench.out, &bench.fresh_length);
    assert_non_null(bench.fresh);
    return bench;
}

static void bench_free(Bench *bench) {
    unlink(bench->out);
    unlink(bench->said);
    sweep(bench);
    assert_int_equal(rmdir(bench->folder), 0);
    free(bench->fresh);
}

/* ---- every call of a kind ---- */

/* Whether the output is what stood there before, or the new one. */
static bool is_old(const Bench *bench) {
    size_t length;
    char *got = slurp(bench->out, &length);
    assert_non_null(got);
    bool old = length == sizeof old_content - 1 && memcmp(got, old_content, length) == 0;
    bool fresh = length == bench->fresh_length && memcmp(got, bench->fresh, length) == 0;
    free(got);
    if (!old && !fresh) fail_msg("the output is torn: %zu bytes, a whole one has %zu", length, bench->fresh_length);
    return old;
}

typedef struct Outcome {
    long calls, tolerated; /* the compile went on and its output is whole */
    long left;             /* temporary files that stayed behind */
} Outcome;

/* A failure leaves the old file and is told. Only memory may also give out when the new file already stands whole. */
static void check_one(Bench *bench, Outcome *outcome) {
    spill(bench->out, old_content);
    int status = run(bench);
    long at = plan->at;
    if (!WIFEXITED(status)) fail_msg("call %ld: killed by signal %d", at, WTERMSIG(status));
    bool old = is_old(bench);
    size_t length = 0;
    char *said = slurp(bench->said, &length);
    if (WEXITSTATUS(status) == 0) {
        if (old) fail_msg("call %ld: no output, and status 0", at);
        outcome->tolerated++;
    } else if (WEXITSTATUS(status) != STATUS_SYSTEM || length == 0 || (!old && !strstr(said, "out of memory"))) {
        fail_msg("call %ld: status %d, %s output, said: %s", at, WEXITSTATUS(status), old ? "old" : "new", said);
    }
    outcome->left += has_leftover(bench);
    if (has_leftover(bench)) sweep(bench);
    free(said);
    outcome->calls++;
}

static Outcome check_kind(Bench *bench, Kind kind, int why, bool lasts, long step) {
    Outcome outcome = {0};
    *plan = (Plan){.kind = kind};
    assert_int_equal(run(bench), 0);
    long calls = plan->made[kind];
    assert_true(calls > 0);
    for (long at = 1; at <= calls; at += step) {
        *plan = (Plan){.kind = kind, .at = at, .why = why, .lasts = lasts};
        check_one(bench, &outcome);
    }
    return outcome;
}

static void check(Kind kind, int why, bool lasts, long tolerated) {
    if (SANITIZED) skip();
    Bench bench = bench_new();
    Outcome outcome = check_kind(&bench, kind, why, lasts, 1);
    print_message("%ld calls, %ld of them needed by nothing\n", outcome.calls, outcome.tolerated);
    assert_int_equal(outcome.left, 0);
    assert_true(outcome.tolerated <= tolerated);
    bench_free(&bench);
}

/* What a thread ahead of the passes cannot open or read is tried again when it is needed: a single failure may be got
 * over, one that lasts may not, but for the few calls that the thread happened to make last. Opening the folder to sync
 * the new name may fail unheard. */
enum { MADE_AHEAD = 6 };

static void test_open(void **state) {
    (void)state;
    check(FAULT_OPEN, EMFILE, false, LONG_MAX);
    check(FAULT_OPEN, EMFILE, true, 1 + MADE_AHEAD);
}

static void test_read(void **state) {
    (void)state;
    check(FAULT_READ, EIO, false, LONG_MAX);
    check(FAULT_READ, EIO, true, MADE_AHEAD);
}

static void test_write(void **state) {
    (void)state;
    check(FAULT_WRITE, ENOSPC, false, 0);
}

static void test_sync(void **state) {
    (void)state;
    check(FAULT_SYNC, EIO, false, 1); /* the folder's */
}

static void test_rename(void **state) {
    (void)state;
    check(FAULT_RENAME, EACCES, false, 0);
}

/* Memory that is gone stays gone. */
static void test_allocate(void **state) {
    (void)state;
    if (SANITIZED) skip();
    Bench bench = bench_new();
    *plan = (Plan){.kind = FAULT_ALLOCATE};
    assert_int_equal(run(&bench), 0);
    long calls = plan->made[FAULT_ALLOCATE];
    long step = getenv("TB_ALL_FAULTS") ? 1 : calls / SAMPLED_ALLOCATIONS + 1;
    Outcome outcome = check_kind(&bench, FAULT_ALLOCATE, ENOMEM, true, step);
    print_message("%ld of %ld allocations, %ld of them needed by nothing, %ld temporary files left\n", outcome.calls,
                  calls, outcome.tolerated, outcome.left);
    bench_free(&bench);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_open), cmocka_unit_test(test_read),   cmocka_unit_test(test_write),
        cmocka_unit_test(test_sync), cmocka_unit_test(test_rename), cmocka_unit_test(test_allocate),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
