/* Partial pooling, quantiles of distributions, and distances in a population. */
#include "stats/dist.h"
#include "stats/help_near.h"
#include "stats/help_stats.h"
#include "stats/mahalanobis.h"
#include "stats/pooling.h"

/* Tumours in 71 groups of rats: R. E. Tarone 1982, Biometrics 38:215-220, as in Gelman and others, Bayesian Data
 * Analysis, Table 5.1; the last is the current experiment. */
static const int TUMOURS[] = {0, 0, 0, 0,  0, 0, 0, 0, 0,  0,  0, 0, 0, 0, 1, 1, 1, 1, 1,  1,  1,  1, 2, 2,
                              2, 2, 2, 2,  2, 2, 2, 1, 5,  2,  5, 3, 2, 7, 7, 3, 3, 2, 9,  10, 4,  4, 4, 4,
                              4, 4, 4, 10, 4, 4, 4, 5, 11, 12, 5, 5, 6, 5, 6, 6, 6, 6, 16, 15, 15, 9, 4};
static const int RATS[] = {20, 20, 20, 20, 20, 20, 20, 19, 19, 19, 19, 18, 18, 17, 20, 20, 20, 20,
                           19, 19, 18, 18, 25, 24, 23, 20, 20, 20, 20, 20, 20, 10, 49, 19, 46, 27,
                           17, 49, 47, 20, 20, 13, 48, 50, 20, 20, 20, 20, 20, 20, 20, 48, 19, 19,
                           19, 22, 46, 49, 20, 20, 23, 19, 22, 20, 20, 20, 52, 46, 47, 24, 14};
enum { GROUPS = sizeof RATS / sizeof *RATS };

static void test_moments(void **state) {
    (void)state;
    assert_int_equal(GROUPS, 71);
    /* Bayesian Data Analysis, section 5.1: alpha 1.4, beta 8.6, and 0.223 with deviation 0.083 for 4 of 14 */
    Pool pool = pooling_moments(TUMOURS, RATS, GROUPS - 1);
    help_near(pool.alpha, 1.356149391, 5e-10);
    help_near(pool.beta, 8.615057891, 5e-10);
    Pooled pooled = pooling_posterior(&pool, 4, 14, .95);
    help_near(pooled.mean, 0.2234409526, 5e-11);
    help_near(pooled.deviation, 0.08335830195, 5e-12);
    assert_true(pooled.interval.low < pooled.mean && pooled.mean < pooled.interval.high);
}

static void test_likelihood(void **state) {
    (void)state;
    /* maximum likelihood computed in R */
    Pool pool = pooling_fit(TUMOURS, RATS, GROUPS - 1);
    help_near(pool.alpha, 2.304782589, 2e-5);
    help_near(pool.beta, 14.07980447, 2e-4);
    pool = pooling_fit(TUMOURS, RATS, GROUPS);
    help_near(pool.alpha, 2.341608786, 2e-5);
    help_near(pool.beta, 14.11477075, 2e-4);
    assert_false(pool.alike);
}

static void test_pool_ends(void **state) {
    (void)state;
    static const int K[] = {5, 10, 20};
    static const int N[] = {10, 20, 40};
    Pool alike = pooling_fit(K, N, 3);
    assert_true(alike.alike);
    help_near(pooling_posterior(&alike, 9, 10, .95).mean, .5, .01);
    static const int ALL[] = {12, 0, 9, 0};
    static const int OF[] = {12, 15, 9, 11};
    Pool apart = pooling_fit(ALL, OF, 4);
    assert_true(apart.alpha > 0 && apart.alpha < .1 && !apart.alike);
    static const int NOTHING[] = {0, 0};
    assert_true(isnan(pooling_fit(NOTHING, NOTHING, 2).alpha));
    assert_true(isnan(pooling_moments(K, N, 1).alpha));
    Pool none = {NAN, NAN, false};
    assert_true(isnan(pooling_posterior(&none, 1, 2, .95).mean));
    static const int NEVER[] = {0, 0, 0};
    Pool never = pooling_fit(NEVER, N, 3);
    assert_true(never.alpha >= 0 && pooling_posterior(&never, 0, 10, .95).mean < .1);
}

static void test_shrinks(void **state) {
    (void)state;
    Pool pool = pooling_fit(TUMOURS, RATS, GROUPS);
    double common = pool.alpha / (pool.alpha + pool.beta);
    double few = pooling_posterior(&pool, 2, 4, .95).mean;
    double many = pooling_posterior(&pool, 50, 100, .95).mean;
    assert_true(common < few && few < many && many < .5);
}

static void test_quantiles(void **state) {
    (void)state;
    /* tables: 2.571, 2.365, 2.042; digits computed in R */
    help_near(dist_student_upper(.025, 5), 2.570581836, 5e-10);
    help_near(dist_student_upper(.025, 7), 2.364624252, 5e-10);
    help_near(dist_student_upper(.025, 30), 2.042272456, 5e-10);
    help_near(dist_student_upper(.025, 1), 12.70620474, 5e-9);
    /* computed in R and Python */
    help_near(dist_beta_lower(.025, 14.5, 134.5), 0.05525621411, 5e-12);
    help_near(dist_beta_lower(.975, .5, 20.5), 0.1166389829, 5e-11);
    help_near(dist_beta_lower(.5, 2.4, 14.3), 0.1294302457, 5e-11);
    help_near(dist_beta_lower(.5, 5e3, 5e3), .5, 1e-12);
    /* the 95 % point of F(4, 10) in the tables is 3.48; F(1, d) is the square of Student's t */
    help_near(dist_f_upper(.05, 4, 10), 3.478, 5e-4);
    help_near(dist_f_upper(.05, 1, 7), pow(dist_student_upper(.025, 7), 2), 1e-9);
}

static void test_distance_in_one(void **state) {
    (void)state;
    static const double HEIGHTS[] = {70, 72, 74, 76, NAN};
    static const double PLAYER[] = {75};
    double distance[5];
    Arena *arena = arena_new();
    assert_int_equal(mahalanobis(arena, HEIGHTS, 5, 1, PLAYER, distance), 4);
    for (int i = 0; i < 4; i++) help_near(distance[i], fabs(HEIGHTS[i] - 75) / sqrt(20.0 / 3), 1e-13);
    assert_true(isnan(distance[4]));
    size_t nearest[3];
    assert_int_equal(mahalanobis_nearest(arena, distance, 5, 3, nearest), 3);
    assert_int_equal(nearest[0], 2); /* 74 and 76 are as near: the earlier row first */
    assert_int_equal(nearest[1], 3);
    assert_int_equal(nearest[2], 1);
    arena_free(arena);
}

/* Distances do not depend on units, nor on mixing kinds. */
static void test_distance_is_invariant(void **state) {
    (void)state;
    enum { ROWS = 40, KINDS = 3 };
    double plain[ROWS * KINDS], mixed[ROWS * KINDS], first[ROWS], second[ROWS];
    uint64_t seed = 5;
    for (int row = 0; row < ROWS; row++) {
        double *x = plain + row * KINDS;
        double *y = mixed + row * KINDS;
        for (int kind = 0; kind < KINDS; kind++) x[kind] = help_random(&seed) + (kind ? .5 * x[kind - 1] : 0);
        y[0] = 2540 * x[0] + 7;
        y[1] = x[1] - .001 * x[0];
        y[2] = x[2] / 1000 + 3 * x[1];
    }
    Arena *arena = arena_new();
    assert_int_equal(mahalanobis(arena, plain, ROWS, KINDS, plain + 3 * KINDS, first), ROWS);
    assert_int_equal(mahalanobis(arena, mixed, ROWS, KINDS, mixed + 3 * KINDS, second), ROWS);
    for (int row = 0; row < ROWS; row++) help_near(first[row], second[row], 1e-6);
    help_near(first[3], 0, 0);
    arena_free(arena);
}

static void test_distance_ends(void **state) {
    (void)state;
    static const double TWINS[] = {1, 2, 2, 4, 3, 6, 5, 10};
    static const double PLAYER[] = {1, 1};
    static const double UNMEASURED[] = {NAN, NAN};
    static const double HALF[] = {NAN, 4};
    double distance[4];
    Arena *arena = arena_new();
    assert_int_equal(mahalanobis(arena, TWINS, 4, 2, PLAYER, distance), 0); /* one kind follows from the other */
    assert_true(isnan(distance[0]));
    assert_int_equal(mahalanobis(arena, TWINS, 4, 2, UNMEASURED, distance), 0);
    assert_int_equal(mahalanobis(arena, TWINS, 4, 2, HALF, distance), 4);
    help_near(distance[1], 0, 0);
    assert_int_equal(mahalanobis(arena, TWINS, 2, 2, PLAYER, distance), 0);
    assert_int_equal(mahalanobis_nearest(arena, distance, 2, 5, (size_t[5]){0}), 0);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_moments),
        cmocka_unit_test(test_likelihood),
        cmocka_unit_test(test_pool_ends),
        cmocka_unit_test(test_shrinks),
        cmocka_unit_test(test_quantiles),
        cmocka_unit_test(test_distance_in_one),
        cmocka_unit_test(test_distance_is_invariant),
        cmocka_unit_test(test_distance_ends),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
