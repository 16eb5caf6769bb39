/* The audit page of a dossier with slips that do not stop it. */
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
#include "compile.h"

static const char sound[] = "tests/check/broken/base.xml";

/* The sound dossier with each `old` replaced, ended by NULL. */
static const char *changed(Arena *arena, Diagnostics *diagnostics, const char *const *changes) {
    const Text *text = file_read(arena, sound, diagnostics);
    assert_non_null(text);
    const char *source = arena_copy(arena, text->bytes, text->length);
    for (; changes[0]; changes += 2) {
        const char *at = strstr(source, changes[0]);
        if (!at) fail_msg("not in the dossier: %s", changes[0]);
        source = arena_printf(arena, "%.*s%s%s", (int)(at - source), source, changes[1], at + strlen(changes[0]));
    }
    return source;
}

/* The audit section of the story of the changed dossier. */
static char *audit_of(const char *const *changes) {
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    const char *folder = getenv("TMPDIR");
    const char *path = arena_printf(arena, "%s/test-audit-%ld.xml", folder ? folder : P_tmpdir, (long)getpid());
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs(changed(arena, diagnostics, changes), file);
    assert_int_equal(fclose(file), 0);
    Compiler *compiler = compiler_new(&(CompilerOptions){.share = "."}, diagnostics);
    Buf dump = {0};
    if (!compiler_compile(compiler, arena, path, NULL, DUMP_STORY, &dump, diagnostics)) {
        diag_print(diagnostics, stdout, false);
        fail_msg("the dossier does not compile");
    }
    unlink(path);
    const char *start = strstr(buf_text(&dump), "section \"Audit\"");
    assert_non_null(start);
    const char *end = strstr(start, "section \"Methods\"");
    char *section = strndup(start, end ? (size_t)(end - start) : strlen(start));
    buf_free(&dump);
    compiler_free(compiler);
    diag_free(diagnostics);
    arena_free(arena);
    return section;
}

static void test_clean(void **state) {
    (void)state;
    static const char *const none[] = {NULL};
    char *got = audit_of(none);
    assert_true(golden_matches("tests/story/audit-clean.expected", got));
    assert_non_null(strstr(got, "Nothing: every check above came out clean."));
    free(got);
}

static void test_let_pass(void **state) {
    (void)state;
    static const char *const slips[] = {"yards=\"33\"",
                                        "yards=\"20\"",
                                        "timing=\"late\" ",
                                        "",
                                        "clock=\"12:20\"",
                                        "clock=\"11:30\"",
                                        "<p>Second of three sons.</p>",
                                        "<p>TBD</p>",
                                        NULL};
    char *got = audit_of(slips);
    assert_true(golden_matches("tests/story/audit.expected", got));
    static const char *const parts[] = {"box-score", "chart-clock", "report-placeholder", "field-missing"};
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        if (!strstr(got, parts[i])) fail_msg("the audit does not say %s", parts[i]);
    }
    free(got);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_clean), cmocka_unit_test(test_let_pass)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
