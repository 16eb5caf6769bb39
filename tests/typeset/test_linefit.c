/* Optimum fit against exhaustive search: on small random paragraphs the total demerits must be the least of all ways to
 * break. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/arena.h"
#include "typeset/linefit.h"

enum { PARAGRAPHS = 3000, MOST_BREAKS = 13 };

static const double none = 1e300;

/* A small generator with a fixed seed, so that a failure can be repeated. */
static uint32_t next_random(uint32_t *seed) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 17;
    *seed ^= *seed << 5;
    return *seed;
}

static double random_between(uint32_t *seed, double low, double high) {
    return low + (high - low) * (next_random(seed) % 10000) / 10000.0;
}

/* Words of 10 to 40 points; between them spaces, or hyphens inside a word. */
static size_t random_paragraph(uint32_t *seed, FitBreak *breaks) {
    size_t count = 4 + next_random(seed) % (MOST_BREAKS - 3);
    double at = 0;
    double stretch = 0;
    double shrink = 0;
    breaks[0] = (FitBreak){.hang_start = random_between(seed, 0, 1)};
    for (size_t i = 1; i < count; i++) {
        at += random_between(seed, 10, 40);
        breaks[i] = (FitBreak){.end = at, .end_stretch = stretch, .end_shrink = shrink};
        breaks[i].hang_end = random_between(seed, 0, 2);
        breaks[i].hang_start = random_between(seed, 0, 1);
        if (i + 1 < count && next_random(seed) % 3 == 0) {
            breaks[i].flagged = true;
            breaks[i].penalty = 50;
            breaks[i].end += 3;
        } else {
            at += 3;
            stretch += 1.5;
            shrink += 1;
        }
        breaks[i].start = at;
        breaks[i].start_stretch = stretch;
        breaks[i].start_shrink = shrink;
    }
    return count;
}

/* Least demerits of breaking from `from` to the paragraph's end, after a line of fitness `before`. */
static double least(const FitMeasure *measure, const FitBreak *breaks, size_t count, size_t from, int before) {
    if (from == count - 1) return 0;
    double best = none;
    for (size_t to = from + 1; to < count; to++) {
        FitLine line;
        bool last = to == count - 1;
        if (!linefit_line(measure, &breaks[from], &breaks[to], last, &line)) continue;
        double rest = least(measure, breaks, count, to, line.fitness);
        if (rest >= none) continue;
        double sum = line.demerits + linefit_join(&breaks[from], before, &breaks[to], &line, last) + rest;
        if (sum < best) best = sum;
    }
    return best;
}

static double path_demerits(const FitMeasure *measure, const FitBreak *breaks, size_t count, const uint32_t *path,
                            size_t lines) {
    double sum = 0;
    size_t from = 0;
    int before = FIT_FIRST;
    for (size_t i = 0; i < lines; i++) {
        FitLine line;
        bool last = path[i] == count - 1;
        assert_true(path[i] > from);
        assert_true(linefit_line(measure, &breaks[from], &breaks[path[i]], last, &line));
        sum += line.demerits + linefit_join(&breaks[from], before, &breaks[path[i]], &line, last);
        before = line.fitness;
        from = path[i];
    }
    assert_int_equal(from, count - 1);
    return sum;
}

/* Returns whether there was a way. */
static bool compare(Arena *arena, FitScratch *scratch, const FitMeasure *measure, const FitBreak *breaks,
                    size_t count) {
    uint32_t path[MOST_BREAKS + 1];
    double demerits = none;
    size_t lines = linefit(arena, scratch, measure, breaks, count, path, &demerits);
    double reference = least(measure, breaks, count, 0, FIT_FIRST);
    if (!lines) {
        assert_true(reference >= none);
        return false;
    }
    assert_true(fabs(demerits - reference) <= 1e-9 * reference);
    assert_true(fabs(path_demerits(measure, breaks, count, path, lines) - reference) <= 1e-9 * reference);
    return true;
}

static void compare_many(bool ragged, size_t least_fitting) {
    Arena *arena = arena_new();
    FitScratch scratch = {0};
    FitBreak breaks[MOST_BREAKS + 1];
    uint32_t seed = 20311118;
    size_t fitting = 0;
    for (int i = 0; i < PARAGRAPHS; i++) {
        size_t count = random_paragraph(&seed, breaks);
        FitMeasure measure = {.width = random_between(&seed, 60, 160),
                              .tolerance = random_between(&seed, 1, 9),
                              .emergency = i % 3 ? 0 : 6,
                              .short_last = i % 2 ? 25 : 0,
                              .margin = 6,
                              .ragged = ragged};
        fitting += compare(arena, &scratch, &measure, breaks, count);
    }
    assert_true(fitting >= least_fitting);
    arena_free(arena);
}

static void test_justified_is_optimal(void **state) {
    (void)state;
    compare_many(false, PARAGRAPHS / 3);
}

static void test_ragged_is_optimal(void **state) {
    (void)state;
    compare_many(true, PARAGRAPHS * 9 / 10);
}

/* Three words, the middle one wider than the measure: it gets a line of its own. */
static void test_forced_line(void **state) {
    (void)state;
    Arena *arena = arena_new();
    FitScratch scratch = {0};
    uint32_t path[4];
    FitBreak breaks[] = {{0}, {.end = 20, .start = 23}, {.end = 223, .start = 226}, {.end = 246, .start = 249}};
    FitMeasure measure = {.width = 100, .tolerance = none, .emergency = 3, .margin = 5};
    assert_int_equal(linefit(arena, &scratch, &measure, breaks, 4, path, NULL), 0);
    measure.force = true;
    assert_int_equal(linefit(arena, &scratch, &measure, breaks, 4, path, NULL), 3);
    assert_int_equal(path[0], 1);
    assert_int_equal(path[1], 2);
    assert_int_equal(path[2], 3);
    arena_free(arena);
}

static void test_nothing_to_break(void **state) {
    (void)state;
    Arena *arena = arena_new();
    FitScratch scratch = {0};
    uint32_t path[2];
    FitBreak breaks[] = {{0}, {.end = 20}};
    FitMeasure measure = {.width = 100, .tolerance = 1};
    assert_int_equal(linefit(arena, &scratch, &measure, breaks, 1, path, NULL), 0);
    assert_int_equal(linefit(arena, &scratch, &measure, breaks, 2, path, NULL), 1);
    assert_int_equal(path[0], 1);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_justified_is_optimal),
        cmocka_unit_test(test_ragged_is_optimal),
        cmocka_unit_test(test_forced_line),
        cmocka_unit_test(test_nothing_to_break),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
