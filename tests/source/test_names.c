/* The table of names and the hints for misspelt ones. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include "source/names.h"

enum { MANY = 5000 };

static void test_table(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Names *names = names_new(arena, 0);
    assert_int_equal(names_find(names, ""), -1);
    for (int i = 0; i < MANY; i++) assert_int_equal(names_add(names, arena_printf(arena, "g%d.%d", i % 7, i), i), -1);
    for (int i = 0; i < MANY; i++) assert_int_equal(names_find(names, arena_printf(arena, "g%d.%d", i % 7, i)), i);
    assert_int_equal(names_find(names, "g7.0"), -1);
    assert_int_equal(names_add(names, "g3.3", 9), 3);
    assert_int_equal(names_find(names, "g3.3"), 3);
    assert_int_equal(names_add(names, "", 8), -1);
    assert_int_equal(names_find(names, ""), 8);
    arena_free(arena);
}

typedef struct Thing {
    const char *id;
    double weight;
} Thing;

static const Thing things[] = {{"coverage", 1}, {"clock", 2}, {"route", 3}};

static void test_hints(void **state) {
    (void)state;
    Arena *arena = arena_new();
    assert_string_equal(NAMES_HINT(arena, "covrage", things, 3), "did you mean 'coverage'?");
    assert_string_equal(NAMES_HINT(arena, "pressure", things, 3), "it is one of: coverage, clock, route");
    assert_string_equal(NAMES_HINT(arena, "covrage", things, 1), "did you mean 'coverage'?");
    assert_null(NAMES_HINT(arena, "covrage", things, 0));
    arena_free(arena);
}

/* Of a word of one or two letters any other is one slip away, so nothing is guessed. */
static void test_short_words(void **state) {
    (void)state;
    static const Thing codes[] = {{"0", 0}, {"1", 1}, {"boot", 2}};
    Arena *arena = arena_new();
    assert_string_equal(NAMES_HINT(arena, "5", codes, 3), "it is one of: 0, 1, boot");
    arena_free(arena);
}

static void test_long_lists_are_not_listed(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Thing many[21];
    for (int i = 0; i < 21; i++) many[i] = (Thing){arena_printf(arena, "value-%d", i), i};
    assert_non_null(NAMES_HINT(arena, "x", many, 20));
    assert_null(NAMES_HINT(arena, "x", many, 21));
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_table),
        cmocka_unit_test(test_hints),
        cmocka_unit_test(test_short_words),
        cmocka_unit_test(test_long_lists_are_not_listed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
