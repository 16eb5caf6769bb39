/* Kappa and intraclass correlation against published worked examples; the values to ten digits were computed with R and
 * Python. */
#include "stats/help_near.h"
#include "stats/icc.h"
#include "stats/kappa.h"

#define TEN_DIGITS 1.5e-10

static void test_kappa_1960(void **state) {
    (void)state;
    /* J. Cohen 1960, Educ Psychol Meas 20:37-46, Table 1: agreement .29, by chance .35, kappa -.09 */
    static const double TABLE[] = {.25, .13, .12, .12, .02, .16, .03, .15, .02};
    Arena *arena = arena_new();
    Kappa kappa = kappa_from_table(arena, TABLE, kappa_weights(arena, 3, KAPPA_PLAIN), 3);
    help_near(kappa.observed, .29, 1e-15);
    help_near(kappa.chance, .35, 1e-15);
    help_near(kappa.kappa, -0.09230769231, TEN_DIGITS);
    arena_free(arena);
}

/* Cohen's table of 200 diagnoses: 1960, Table 2, and 1968. */
static const double DIAGNOSES[] = {88, 14, 18, 10, 40, 10, 2, 6, 12};

static void test_kappa_200(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Kappa kappa = kappa_from_table(arena, DIAGNOSES, kappa_weights(arena, 3, KAPPA_PLAIN), 3);
    help_near(kappa.observed, .7, 1e-15);
    help_near(kappa.chance, .41, 1e-15);
    help_near(kappa.kappa, 0.4915254237, TEN_DIGITS);
    /* statsmodels, by the formula of Fleiss, Cohen & Everitt 1969 */
    help_near(kappa.error, 0.05100181558, TEN_DIGITS);
    help_near(kappa.kappa - 1.959963985 * kappa.error, 0.3915637021, TEN_DIGITS);
    help_near(kappa.kappa + 1.959963985 * kappa.error, 0.5914871454, TEN_DIGITS);
    arena_free(arena);
}

static void test_kappa_weighted(void **state) {
    (void)state;
    /* J. Cohen 1968, Psychol Bull 70:213-220: .348; psych::cohen.kappa's help */
    static const double WEIGHTS[] = {0, 1, 3, 1, 0, 6, 3, 6, 0};
    Arena *arena = arena_new();
    help_near(kappa_from_table(arena, DIAGNOSES, WEIGHTS, 3).kappa, 0.347826087, TEN_DIGITS);
    Kappa linear = kappa_from_table(arena, DIAGNOSES, kappa_weights(arena, 3, KAPPA_LINEAR), 3);
    Kappa quadratic = kappa_from_table(arena, DIAGNOSES, kappa_weights(arena, 3, KAPPA_QUADRATIC), 3);
    help_near(linear.kappa, 0.4736842105, TEN_DIGITS);
    help_near(quadratic.kappa, 0.4545454545, TEN_DIGITS);
    arena_free(arena);
}

static void test_kappa_ends(void **state) {
    (void)state;
    static const double PERFECT[] = {5, 0, 0, 7};
    static const double ONE_VALUE[] = {9, 0, 0, 0};
    static const double NONE[] = {0, 0, 0, 0};
    Arena *arena = arena_new();
    const double *weights = kappa_weights(arena, 2, KAPPA_PLAIN);
    Kappa perfect = kappa_from_table(arena, PERFECT, weights, 2);
    help_near(perfect.kappa, 1, 1e-15);
    help_near(perfect.error, 0, 1e-8);
    assert_true(isnan(kappa_from_table(arena, ONE_VALUE, weights, 2).kappa));
    help_near(kappa_from_table(arena, ONE_VALUE, weights, 2).observed, 1, 0);
    assert_true(isnan(kappa_from_table(arena, NONE, weights, 2).observed));
    arena_free(arena);
}

static void test_tabulate(void **state) {
    (void)state;
    static const int FIRST[] = {0, 1, 1, -1, 2, 2};
    static const int SECOND[] = {0, 1, 2, 1, -1, 2};
    static const double WANTED[] = {1, 0, 0, 0, 1, 1, 0, 0, 1};
    double table[9] = {7};
    assert_int_equal(kappa_tabulate(FIRST, SECOND, 6, 3, table), 4);
    for (int i = 0; i < 9; i++) help_near(table[i], WANTED[i], 0);
}

static void test_icc_published(void **state) {
    (void)state;
    /* Shrout & Fleiss 1979, Psychol Bull 86:420-428, Tables 2 to 4; intervals of psych::ICC */
    static const double RATINGS[] = {9, 2, 5, 8, 6, 1, 3, 2, 8, 4, 6, 8, 7, 1, 2, 6, 10, 5, 6, 9, 6, 2, 4, 7};
    Icc icc = icc_two_way(RATINGS, 6, 4, .95);
    help_near(icc.between, 11.24166667, 5e-9);
    help_near(icc.within, 6.263888889, 5e-10);
    help_near(icc.judges, 32.48611111, 5e-9);
    help_near(icc.error, 1.019444444, 5e-10);
    help_near(icc.single, 0.2897637795, TEN_DIGITS);
    help_near(icc.average, 0.6200505476, TEN_DIGITS);
    help_near(icc.single_interval.low, 0.01878651337, TEN_DIGITS);
    help_near(icc.single_interval.high, 0.7610843696, TEN_DIGITS);
    help_near(icc.average_interval.low, 0.0711368153, TEN_DIGITS);
    help_near(icc.average_interval.high, 0.9272320402, TEN_DIGITS);
}

static void test_icc_ends(void **state) {
    (void)state;
    static const double AGREED[] = {5, 5, 7, 7, 4, 4};
    static const double SAME[] = {5, 5, 5, 5};
    help_near(icc_two_way(AGREED, 3, 2, .95).single, 1, 1e-15);
    assert_true(isnan(icc_two_way(SAME, 2, 2, .95).single));
    assert_true(isnan(icc_two_way(AGREED, 1, 2, .95).single));
    assert_true(isnan(icc_two_way(AGREED, 6, 1, .95).average));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_kappa_1960), cmocka_unit_test(test_kappa_200), cmocka_unit_test(test_kappa_weighted),
        cmocka_unit_test(test_kappa_ends), cmocka_unit_test(test_tabulate),  cmocka_unit_test(test_icc_published),
        cmocka_unit_test(test_icc_ends),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
