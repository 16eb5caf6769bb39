/* Intervals and tests on counts against published worked examples; the values to ten digits were computed with R and
 * agree with what is printed there. */

#include "stats/help_near.h"
#include "stats/interval.h"
#include "stats/quantile.h"
#include "stats/tests.h"

#define TEN_DIGITS 1.5e-10

static void test_wilson(void **state) {
    (void)state;
    static const struct {
        int k, n;
        double low, high;
    } ROWS[] = {
        /* Newcombe 1998, Stat Med 17:857-872, Table I, method 3 */
        {81, 263, 0.2552885199, 0.366209577},
        {15, 148, 0.06238639953, 0.1604872417},
        {0, 20, 0, 0.1611251581},
        {1, 29, 0.006113214293, 0.1717552188},
        /* computed in R and Python: the counts of Conover 1971, p. 97f */
        {682, 925, 0.7079959876, 0.764635801},
    };
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        Interval interval = interval_wilson(ROWS[i].k, ROWS[i].n, .95);
        help_near(interval.low, ROWS[i].low, TEN_DIGITS);
        help_near(interval.high, ROWS[i].high, TEN_DIGITS);
    }
}

static void test_wilson_ends(void **state) {
    (void)state;
    assert_true(isnan(interval_wilson(0, 0, .95).low));
    assert_true(isnan(interval_wilson(0, 0, .95).high));
    assert_true(interval_wilson(7, 7, .95).high == 1);
    assert_true(interval_wilson(0, 7, .95).low == 0);
    Interval wide = interval_wilson(4, 9, .99);
    Interval narrow = interval_wilson(4, 9, .95);
    assert_true(wide.low < narrow.low && narrow.high < wide.high);
}

static void test_newcombe(void **state) {
    (void)state;
    static const struct {
        int k1, n1, k2, n2;
        double low, high;
    } ROWS[] = {
        /* Newcombe 1998, Stat Med 17:873-890, Table II, method 10 */
        {56, 70, 48, 80, 0.0524314724, 0.333872654},
        {9, 10, 3, 10, 0.1705227239, 0.8090179735},
        {6, 7, 2, 7, 0.05822792748, 0.8062496375},
        {5, 56, 0, 29, -0.0381371479, 0.1925600139},
        {0, 10, 0, 20, -0.1611251581, 0.2775327999},
        {0, 10, 0, 10, -0.2775327999, 0.2775327999},
        {10, 10, 0, 20, 0.6790860371, 1},
        {10, 10, 0, 10, 0.6075093504, 1},
    };
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        Interval interval = interval_newcombe(ROWS[i].k1, ROWS[i].n1, ROWS[i].k2, ROWS[i].n2, .95);
        help_near(interval.low, ROWS[i].low, TEN_DIGITS);
        help_near(interval.high, ROWS[i].high, TEN_DIGITS);
    }
    assert_true(isnan(interval_newcombe(1, 2, 0, 0, .95).low));
}

static void test_fisher_published(void **state) {
    (void)state;
    /* the lady tasting tea: Fisher 1935; Agresti 1990, p. 61; R's help of fisher.test: 0.4857, 17/35 */
    help_near(test_fisher(3, 4, 1, 4), 17.0 / 35, 1e-14);
    /* convictions of like-sex twins: Fisher 1962 (1970), p. 165; R's help of fisher.test: 0.0005367 */
    help_near(test_fisher(2, 12, 15, 18), 0.0005367241191, 1e-13);
}

static void test_fisher_edges(void **state) {
    (void)state;
    assert_true(isnan(test_fisher(0, 0, 1, 2)));
    help_near(test_fisher(0, 5, 0, 9), 1, 0);
    help_near(test_fisher(5, 5, 9, 9), 1, 0);
    help_near(test_fisher(3, 10, 3, 10), 1, 1e-12);
    help_near(test_fisher(7, 9, 2, 11), test_fisher(2, 11, 7, 9), 1e-14);
    help_near(test_fisher(7, 9, 2, 11), test_fisher(2, 9, 9, 11), 1e-14);
    /* 0 of 30 against 30 of 30: one table either way, 2 / C(60, 30) */
    help_near(test_fisher(0, 30, 30, 30) / (2 / 118264581564861424.0), 1, 1e-12);
}

static void test_binomial_published(void **state) {
    (void)state;
    /* Conover 1971, p. 97f; R's help of binom.test: 0.3825 */
    help_near(test_binomial(682, 925, .75), 0.3824915596, TEN_DIGITS);
    help_near(test_binomial(5, 10, .5), 1, 1e-14);
    help_near(test_binomial(0, 10, .5), 2 / 1024.0, 1e-15);
    help_near(test_binomial(0, 4, 0), 1, 0);
    help_near(test_binomial(1, 4, 0), 0, 0);
    help_near(test_binomial(4, 4, 1), 1, 0);
    assert_true(isnan(test_binomial(0, 0, .5)));
    assert_true(isnan(test_binomial(1, 2, 1.5)));
}

static void test_adjustment(void **state) {
    (void)state;
    /* Benjamini & Hochberg 1995, JRSS B 57:289-300, section 3.2: four are rejected at .05 */
    static const double P[] = {.0001, .0004, .0019, .0095, .0201, .0278, .0298, .0344,
                               .0459, .3240, .4262, .5719, .6528, .7590, 1.000};
    static const double WANTED[] = {0.0015,        0.003,         0.0095,       0.035625,     0.0603,
                                    0.06385714286, 0.06385714286, 0.0645,       0.0765,       0.486,
                                    0.5811818182,  0.714875,      0.7532307692, 0.8132142857, 1};
    enum { COUNT = sizeof P / sizeof *P };
    Arena *arena = arena_new();
    double mixed[COUNT + 1];
    double adjusted[COUNT + 1];
    for (size_t i = 0; i < COUNT; i++) mixed[(i * 7) % COUNT] = P[i]; /* in another order */
    mixed[COUNT] = NAN;
    test_adjust(arena, mixed, COUNT + 1, adjusted);
    int rejected = 0;
    for (size_t i = 0; i < COUNT; i++) {
        help_near(adjusted[(i * 7) % COUNT], WANTED[i], TEN_DIGITS);
        rejected += adjusted[(i * 7) % COUNT] <= .05;
    }
    assert_int_equal(rejected, 4);
    assert_true(isnan(adjusted[COUNT]));
    test_adjust(arena, mixed, 0, adjusted);
    arena_free(arena);
}

static void test_quantiles(void **state) {
    (void)state;
    /* Hyndman & Fan 1996, Am Stat 50:361-365, type 7; R's quantile */
    double values[] = {21, 2, 4, 15, 4, 5, 12, 7, 9, 10};
    static const double AT[] = {.05, .1, .25, .5, .75, .9, .95};
    static const double WANTED[] = {2.9, 3.8, 4.25, 8, 11.5, 15.6, 18.3};
    quantile_sort(values, 10);
    for (size_t i = 0; i < 7; i++) help_near(quantile_type7(values, 10, AT[i]), WANTED[i], 1e-13);
    help_near(quantile_type7(values, 10, 0), 2, 0);
    help_near(quantile_type7(values, 10, 1), 21, 0);
    assert_true(isnan(quantile_type7(values, 0, .5)));
}

static void test_midrank(void **state) {
    (void)state;
    static const double RISING[] = {1, 2, 2, 2, 5};
    help_near(quantile_midrank(RISING, 5, 0), 0, 0);
    help_near(quantile_midrank(RISING, 5, 1), 10, 1e-13);
    help_near(quantile_midrank(RISING, 5, 2), 50, 1e-13);
    help_near(quantile_midrank(RISING, 5, 3), 80, 1e-13);
    help_near(quantile_midrank(RISING, 5, 6), 100, 0);
    assert_true(isnan(quantile_midrank(RISING, 0, 1)));
}

static void test_percentile(void **state) {
    (void)state;
    static const ScaleQuantile Q[] = {{5, 10}, {25, 20}, {50, 20}, {75, 20}, {95, 40}};
    help_near(quantile_percentile(Q, 5, 3), 5, 0);
    help_near(quantile_percentile(Q, 5, 10), 5, 0);
    help_near(quantile_percentile(Q, 5, 15), 15, 1e-13);
    help_near(quantile_percentile(Q, 5, 20), 50, 1e-13); /* the middle of the run */
    help_near(quantile_percentile(Q, 5, 25), 80, 1e-13);
    help_near(quantile_percentile(Q, 5, 40), 95, 0);
    help_near(quantile_percentile(Q, 5, 99), 95, 0);
    assert_true(isnan(quantile_percentile(Q, 0, 1)));
    assert_true(isnan(quantile_percentile(Q, 5, NAN)));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_wilson),       cmocka_unit_test(test_wilson_ends),
        cmocka_unit_test(test_newcombe),     cmocka_unit_test(test_fisher_published),
        cmocka_unit_test(test_fisher_edges), cmocka_unit_test(test_binomial_published),
        cmocka_unit_test(test_adjustment),   cmocka_unit_test(test_quantiles),
        cmocka_unit_test(test_midrank),      cmocka_unit_test(test_percentile),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
