/* A sound dossier broken in one place, again and again. Each tests/check/broken/NAME.case says what stands instead of
 * what ("- old", "+ new", \n for a line's end), and below "=" what must be found: one finding of one rule, or as many
 * as there are slips in a case called several-….
 *
 * With TB_BLESS in the environment the findings are written anew, to be read. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/file.h"
#include "base/help_golden.h"
#include "check/check.h"

enum { LEAST_CASES = 150 };

static const char folder[] = "tests/check/broken";

typedef struct Bench {
    Arena *arena;
    SourceContext *context;
    Diagnostics *diagnostics; /* of reading what the tests need */
    const char *base;
    const char *work; /* the broken copy */
    int failures;
} Bench;

typedef struct Case {
    const char *path;
    const char *name;
    const char *changes; /* "- …\n+ …\n" */
    size_t changes_length;
    const char *wanted; /* "" when it is not known yet */
} Case;

static const char *slurp(Bench *bench, const char *path) {
    const Text *text = file_read(bench->arena, path, bench->diagnostics);
    if (!text) fail_msg("cannot read %s", path);
    return arena_copy(bench->arena, text->bytes, text->length);
}

static void spill(const char *path, const char *text) {
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

static Case read_case(Bench *bench, const char *path) {
    const char *text = slurp(bench, path);
    const char *rule = strstr(text, "\n=\n");
    Case one = {.path = path, .name = strrchr(path, '/') + 1, .changes = text, .wanted = rule ? rule + 3 : ""};
    one.changes_length = rule ? (size_t)(rule - text) + 1 : strlen(text);
    return one;
}

/* The text of one line behind its sign, with line ends put in; moves on to the next line. */
static const char *read_line(Bench *bench, const char **at, char sign) {
    if ((*at)[0] != sign || (*at)[1] != ' ') fail_msg("a line begins with '%c ', not: %.20s", sign, *at);
    size_t length = strcspn(*at, "\n") - 2;
    char *line = arena_copy(bench->arena, *at + 2, length);
    *at += 2 + length + 1;
    for (char *escape; (escape = strstr(line, "\\n"));) {
        *escape = '\n';
        memmove(escape + 1, escape + 2, strlen(escape + 2) + 1);
    }
    return line;
}

static const char *broken(Bench *bench, const Case *one) {
    const char *text = bench->base;
    for (const char *at = one->changes; at < one->changes + one->changes_length;) {
        const char *old = read_line(bench, &at, '-'), *fresh = read_line(bench, &at, '+');
        const char *found = strstr(text, old);
        if (!found || strstr(found + 1, old)) fail_msg("%s: not once in the dossier: %s", one->name, old);
        text = arena_printf(bench->arena, "%.*s%s%s", (int)(found - text), text, fresh, found + strlen(old));
    }
    return text;
}

/* The name of the copy is not the same in every run. */
static const char *without_path(Bench *bench, const char *said) {
    Buf out = {0};
    size_t length = strlen(bench->work);
    for (const char *next; (next = strstr(said, bench->work)); said = next + length) {
        buf_put(&out, said, (size_t)(next - said));
        BUF_PUT(&out, "dossier.xml");
    }
    buf_puts(&out, said);
    const char *text = arena_string(bench->arena, buf_text(&out));
    buf_free(&out);
    return text;
}

static const char *findings_of(Bench *bench, const char *source, size_t *count) {
    spill(bench->work, source);
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    Dossier *dossier = dossier_load(arena, bench->context, bench->work, diagnostics);
    if (dossier) check_dossier(dossier, diagnostics);
    *count = 0;
    for (int rule = 0; rule < RULE_COUNT; rule++) *count += diag_reported(diagnostics, (Rule)rule);
    char *said = golden_print(diagnostics);
    const char *text = without_path(bench, said);
    free(said);
    diag_free(diagnostics);
    arena_free(arena);
    return text;
}

static size_t slips(const Case *one) {
    if (strncmp(one->name, "several-", 8) != 0) return 1;
    size_t count = 0;
    for (size_t i = 0; i < one->changes_length; i++) {
        count += one->changes[i] == '-' && (i == 0 || one->changes[i - 1] == '\n');
    }
    return count;
}

static void check_case(const char *path, void *data) {
    Bench *bench = data;
    Case one = read_case(bench, path);
    size_t count;
    const char *got = findings_of(bench, broken(bench, &one), &count);
    if (getenv("TB_BLESS")) {
        spill(path, arena_printf(bench->arena, "%.*s=\n%s", (int)one.changes_length, one.changes, got));
    } else if (strcmp(got, one.wanted) != 0) {
        printf("--- %s wants\n%s--- got\n%s---\n", one.name, one.wanted, got);
        bench->failures++;
    }
    if (count != slips(&one)) {
        printf("--- %s: %zu findings of %zu slips\n%s---\n", one.name, count, slips(&one), got);
        bench->failures++;
    }
}

static Bench bench_new(void) {
    Bench bench = {.arena = arena_new(), .diagnostics = diag_new()};
    const char *temporary = getenv("TMPDIR");
    bench.work = arena_printf(bench.arena, "%s/test-broken-%ld.xml", temporary ? temporary : P_tmpdir, (long)getpid());
    bench.context = source_context_new("templates", NULL, bench.diagnostics);
    bench.base = slurp(&bench, arena_printf(bench.arena, "%s/base.xml", folder));
    return bench;
}

static void bench_free(Bench *bench) {
    unlink(bench->work);
    source_context_free(bench->context);
    diag_free(bench->diagnostics);
    arena_free(bench->arena);
}

static void test_sound(void **state) {
    (void)state;
    Bench bench = bench_new();
    size_t count;
    assert_string_equal(findings_of(&bench, bench.base, &count), "");
    bench_free(&bench);
}

static void test_broken(void **state) {
    (void)state;
    Bench bench = bench_new();
    assert_true(golden_each(folder, ".case", check_case, &bench) >= LEAST_CASES);
    assert_int_equal(bench.failures, 0);
    bench_free(&bench);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_sound), cmocka_unit_test(test_broken)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
