/* The bootstrap: fair draws inside strata, the same everywhere; BCa and its p on cases worked by hand. */
#include <gsl/gsl_cdf.h>

#include "stats/bootstrap.h"
#include "stats/help_near.h"
#include "stats/help_stats.h"
#include "stats/quantile.h"

enum { ROWS = 12, WIDTH = BOOTSTRAP_LANES };

/* Column r is 1 at row r only: its sum is how often the row was drawn. */
static BootstrapTable indicators(Arena *arena, const size_t *strata, size_t count) {
    float *values = ARENA_ARRAY(arena, ROWS * WIDTH, float);
    for (size_t row = 0; row < ROWS; row++) values[row * WIDTH + row] = 1;
    return (BootstrapTable){values, WIDTH, strata, count, ROWS};
}

static void test_strata(void **state) {
    (void)state;
    static const size_t STRATA[] = {5, 1, 6};
    Arena *arena = arena_new();
    BootstrapTable table = indicators(arena, STRATA, 3);
    Bootstrap *bootstrap = bootstrap_new(&table, 1);
    for (int i = 0; i < 500; i++) {
        double sums[WIDTH];
        bootstrap_draw(bootstrap, sums);
        double first = sums[0] + sums[1] + sums[2] + sums[3] + sums[4];
        double last = sums[6] + sums[7] + sums[8] + sums[9] + sums[10] + sums[11];
        help_near(first, 5, 0);
        help_near(sums[5], 1, 0);
        help_near(last, 6, 0);
    }
    bootstrap_free(bootstrap);
    arena_free(arena);
}

/* Chi-square of how often each row was drawn, and of pairs within a replicate, against equal chances. */
static void test_fair_draws(void **state) {
    (void)state;
    static const size_t STRATA[] = {ROWS};
    enum { REPLICATES = 20000 };
    Arena *arena = arena_new();
    BootstrapTable table = indicators(arena, STRATA, 1);
    Bootstrap *bootstrap = bootstrap_new(&table, 20310927);
    double drawn[ROWS] = {0};
    double squares = 0;
    for (int i = 0; i < REPLICATES; i++) {
        double sums[WIDTH];
        bootstrap_draw(bootstrap, sums);
        for (int row = 0; row < ROWS; row++) {
            drawn[row] += sums[row];
            squares += sums[row] * sums[row];
        }
    }
    double chi_square = 0;
    for (int row = 0; row < ROWS; row++)
        chi_square += (drawn[row] - REPLICATES) * (drawn[row] - REPLICATES) / REPLICATES;
    double p = gsl_cdf_chisq_Q(chi_square, ROWS - 1);
    assert_true(p > 1e-4 && p < 1 - 1e-4);
    /* a multinomial count of n draws over n rows has the second moment 2 - 1/n */
    help_near(squares / (ROWS * REPLICATES), 2 - 1.0 / ROWS, .02);
    bootstrap_free(bootstrap);
    arena_free(arena);
}

/* Frozen: the same numbers on every compiler and machine, from the same id. */
static void test_same_everywhere(void **state) {
    (void)state;
    static const size_t STRATA[] = {7, 5};
    static const double FIRST[ROWS] = {1, 0, 1, 4, 0, 0,
                                       1, 0, 1, 2, 2, 0}; /* by a generator written apart from GSL's */
    Arena *arena = arena_new();
    BootstrapTable table = indicators(arena, STRATA, 2);
    assert_int_equal(bootstrap_seed(""), 2166136261u);       /* FNV-1a of nothing */
    assert_int_equal(bootstrap_seed("foobar"), 0xbf9cf968u); /* FNV-1a, test vector of its authors' draft RFC */
    Bootstrap *bootstrap = bootstrap_new(&table, bootstrap_seed("qb-vashti"));
    double sums[WIDTH];
    bootstrap_draw(bootstrap, sums);
    for (int row = 0; row < ROWS; row++) help_near(sums[row], FIRST[row], 0);
    bootstrap_free(bootstrap);
    arena_free(arena);
}

static void test_acceleration(void **state) {
    (void)state;
    /* influences -1 -1 2 about their mean 0: squares 6, cubes 6 */
    static const double INFLUENCE[] = {-1, -1, 2};
    help_near(bootstrap_acceleration(INFLUENCE, 3), 6 / (6 * 6 * sqrt(6)), 1e-15);
    help_near(bootstrap_variance(INFLUENCE, 3), 6 * 2.0 / 3, 1e-15);
    static const double EVEN[] = {-1, 1, -1, 1};
    help_near(bootstrap_acceleration(EVEN, 4), 0, 0);
    static const double NOTHING[] = {0, 0};
    help_near(bootstrap_acceleration(NOTHING, 2), 0, 0);
}

/* The jackknife variance of a mean is s^2 / n. */
static void test_variance_of_mean(void **state) {
    (void)state;
    static const double X[] = {3, 8, 1, 9, 9, 4};
    double sum = 34;
    double influence[6];
    double squares = 0;
    for (int i = 0; i < 6; i++) {
        influence[i] = sum / 6 - (sum - X[i]) / 5;
        squares += (X[i] - sum / 6) * (X[i] - sum / 6);
    }
    help_near(bootstrap_variance(influence, 6), squares / 5 / 6, 1e-14);
}

/* 1 .. 1999 with no skew and no bias: the ends are plain order statistics, and p comes back from the level. */
static void test_symmetric(void **state) {
    (void)state;
    enum { COUNT = 1999 };
    double replicates[COUNT];
    for (int i = 0; i < COUNT; i++) replicates[(i * 7) % COUNT] = i + 1;
    BootstrapStatistic statistic = {1000, replicates, COUNT, 0, INFINITY, 1};
    Interval interval = bootstrap_interval(&statistic, .95);
    help_near(interval.low, 50, 1e-9);
    help_near(interval.high, 1950, 1e-9);
    help_near(bootstrap_p(&statistic, 50), .05, .001);
    help_near(bootstrap_p(&statistic, 1950), .05, .001);
    help_near(bootstrap_p(&statistic, 1000), 1, 1e-12);
    /* Student's quantile of 9 degrees and the divisor widen it: t = 2.262157 (tables), times sqrt(10 / 9) */
    statistic.degrees = 9;
    statistic.expansion = sqrt(10.0 / 9);
    interval = bootstrap_interval(&statistic, .95);
    help_near(interval.low, 2000 * gsl_cdf_ugaussian_P(-2.262157163 * sqrt(10.0 / 9)), .01);
    help_near(bootstrap_p(&statistic, interval.low), .05, .005);
}

/* BCa by its definition: the shares of Efron 1987, equation 2.3. */
static void test_skewed(void **state) {
    (void)state;
    enum { COUNT = 1999 };
    double replicates[COUNT];
    for (int i = 0; i < COUNT; i++) replicates[(i * 11) % COUNT] = i + 1;
    BootstrapStatistic statistic = {1100, replicates, COUNT, .04, INFINITY, 1};
    double z0 = gsl_cdf_ugaussian_Pinv(1099.5 / COUNT);
    double low = z0 + (z0 - 1.959963985) / (1 - .04 * (z0 - 1.959963985));
    double high = z0 + (z0 + 1.959963985) / (1 - .04 * (z0 + 1.959963985));
    Interval interval = bootstrap_interval(&statistic, .95);
    help_near(interval.low, 2000 * gsl_cdf_ugaussian_P(low), 1e-5);
    help_near(interval.high, 2000 * gsl_cdf_ugaussian_P(high), 1e-5);
    help_near(bootstrap_p(&statistic, interval.low), .05, .002);
    help_near(bootstrap_p(&statistic, interval.high), .05, .002);
}

static void test_degenerate(void **state) {
    (void)state;
    double same[] = {4, 4, 4, 4};
    BootstrapStatistic statistic = {4, same, 4, 0, 3, 1};
    assert_true(isnan(bootstrap_interval(&statistic, .95).low));
    assert_true(isnan(bootstrap_p(&statistic, 0)));
    statistic.count = 0;
    assert_true(isnan(bootstrap_interval(&statistic, .95).high));
    double far[] = {4, 5, 4, 5};
    statistic = (BootstrapStatistic){4.5, far, 4, 0, INFINITY, 1};
    double p = bootstrap_p(&statistic, -100);
    assert_true(p > 0 && p < .3);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_strata),           cmocka_unit_test(test_fair_draws),
        cmocka_unit_test(test_same_everywhere),  cmocka_unit_test(test_acceleration),
        cmocka_unit_test(test_variance_of_mean), cmocka_unit_test(test_symmetric),
        cmocka_unit_test(test_skewed),           cmocka_unit_test(test_degenerate),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
