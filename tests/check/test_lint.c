/* The profile's linter: each source of tests/check/lint with what must be said of it, beside it. Every rule of it has a
 * source that breaks it, and sound.xml keeps each just so. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <glob.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/file.h"
#include "check/lint.h"
#include "compile.h"

static const char *findings_of(Arena *arena, const char *path) {
    Diagnostics *diagnostics = diag_new();
    const CompilerOptions options = {.share = "."};
    Compiler *compiler = compiler_new(&options, diagnostics);
    compiler_check(compiler, arena, path, diagnostics);
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    diag_print(diagnostics, out, false);
    fclose(out);
    diag_free(diagnostics);
    compiler_free(compiler);
    const char *copy = arena_string(arena, text);
    free(text);
    return copy;
}

static const char *expected_of(Arena *arena, const char *path) {
    Diagnostics *unheard = diag_new();
    const char *beside = arena_printf(arena, "%.*s.expected", (int)(strlen(path) - strlen(".xml")), path);
    const Text *text = file_read(arena, beside, unheard);
    diag_free(unheard);
    return text ? arena_copy(arena, text->bytes, text->length) : "(there is no such file)\n";
}

static size_t count_wrong(const char *path) {
    Arena *arena = arena_new();
    const char *found = findings_of(arena, path), *wanted = expected_of(arena, path);
    bool same = strcmp(found, wanted) == 0;
    if (!same) printf("--- %s wants\n%s--- got\n%s---\n", path, wanted, found);
    arena_free(arena);
    return !same;
}

static size_t count_all_wrong(const char *pattern) {
    glob_t found = {0};
    assert_int_equal(glob(pattern, 0, NULL, &found), 0);
    assert_true(found.gl_pathc > 0);
    size_t wrong = 0;
    for (size_t i = 0; i < found.gl_pathc; i++) wrong += count_wrong(found.gl_pathv[i]);
    globfree(&found);
    return wrong;
}

static void test_sources(void **state) {
    (void)state;
    assert_int_equal(count_all_wrong("tests/check/lint/*.xml"), 0);
}

/* What ships is clean. */
static void expect_clean(const char *pattern) {
    glob_t found = {0};
    assert_int_equal(glob(pattern, 0, NULL, &found), 0);
    for (size_t i = 0; i < found.gl_pathc; i++) {
        Arena *arena = arena_new();
        const char *said = findings_of(arena, found.gl_pathv[i]);
        if (*said) fail_msg("%s", said);
        arena_free(arena);
    }
    globfree(&found);
}

static void test_shipped_profiles(void **state) {
    (void)state;
    expect_clean("templates/profiles/*.xml");
}

static void test_shipped_sets(void **state) {
    (void)state;
    expect_clean("templates/sets/*.xml");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sources),
        cmocka_unit_test(test_shipped_profiles),
        cmocka_unit_test(test_shipped_sets),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
