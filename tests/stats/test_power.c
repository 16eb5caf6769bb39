/* Power by another road: every table enumerated with the test itself, and snaps simulated. */
#include "stats/help_near.h"
#include "stats/help_stats.h"
#include "stats/power.h"
#include "stats/tests.h"

static double binomial(int k, int n, double p) {
    double log_choose = lgamma(n + 1.0) - lgamma(k + 1.0) - lgamma(n - k + 1.0);
    if (p == 0 || p == 1) return k == (p == 1 ? n : 0);
    return exp(log_choose + k * log(p) + (n - k) * log1p(-p));
}

static double enumerated_fisher(int n1, double p1, int n2, double p2) {
    double power = 0;
    for (int k1 = 0; k1 <= n1; k1++) {
        for (int k2 = 0; k2 <= n2; k2++) {
            if (test_fisher(k1, n1, k2, n2) <= POWER_LEVEL) power += binomial(k1, n1, p1) * binomial(k2, n2, p2);
        }
    }
    return power;
}

static void test_fisher_power(void **state) {
    (void)state;
    static const struct {
        int n1, n2;
        double p1, p2;
    } CASES[] = {{8, 8, .9, .2}, {20, 35, .8, .5}, {41, 12, .25, .75}, {60, 60, .7, .5}, {15, 70, 0, .3},
                 {15, 9, 1, .5}, {30, 30, .5, .5}, {1, 1, .5, .5},     {25, 25, 1, 0},   {33, 8, 0, 0}};
    Arena *arena = arena_new();
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        double power = power_fisher(arena, CASES[i].n1, CASES[i].p1, CASES[i].n2, CASES[i].p2);
        help_near(power, enumerated_fisher(CASES[i].n1, CASES[i].p1, CASES[i].n2, CASES[i].p2), 1e-7);
    }
    arena_free(arena);
}

static void test_binomial_power(void **state) {
    (void)state;
    static const struct {
        int n;
        double p, standard;
    } CASES[] = {{20, .8, .5}, {50, .3, .5}, {9, 1, .6}, {40, .7, .7}, {100, .75, .6}, {12, 0, .4}};
    Arena *arena = arena_new();
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        double wanted = 0;
        for (int k = 0; k <= CASES[i].n; k++) {
            bool rejected = test_binomial(k, CASES[i].n, CASES[i].standard) <= POWER_LEVEL;
            if (rejected) wanted += binomial(k, CASES[i].n, CASES[i].p);
        }
        help_near(power_binomial(arena, CASES[i].n, CASES[i].p, CASES[i].standard), wanted, 1e-7);
    }
    help_near(power_binomial(arena, 10, .3, 0), 1, 0);
    help_near(power_binomial(arena, 10, 0, 0), 0, 0);
    arena_free(arena);
}

/* The exact test is never too eager. */
static void test_power_without_difference(void **state) {
    (void)state;
    Arena *arena = arena_new();
    for (int n = 5; n <= 80; n += 5) {
        for (double p = .1; p < .95; p += .1) assert_true(power_fisher(arena, n, p, 60, p) <= POWER_LEVEL);
    }
    arena_free(arena);
}

/* The number is enough, and one fewer is not. */
static void test_more_is_least(void **state) {
    (void)state;
    enum { CASES = 400, MOST = 200 };
    Arena *arena = arena_new();
    uint64_t seed = 41;
    int found = 0;
    for (int i = 0; i < CASES; i++) {
        int n1 = 8 + (int)(help_random(&seed) * 60);
        int n2 = 8 + (int)(help_random(&seed) * 120);
        int k1 = (int)(help_random(&seed) * (n1 + 1));
        int k2 = (int)(help_random(&seed) * (n2 + 1));
        double p1 = (double)k1 / n1;
        double p2 = (double)k2 / n2;
        int more = power_more_fisher(arena, k1, n1, k2, n2, 1, MOST);
        assert_in_range(more, 1, MOST + 1);
        if (more <= MOST) {
            found++;
            assert_true(power_fisher(arena, n1 + more, p1, n2, p2) >= POWER_WANTED);
        }
        if (more > 1) assert_true(power_fisher(arena, n1 + more - 1, p1, n2, p2) < POWER_WANTED);
    }
    assert_true(found > CASES / 3);
    arena_free(arena);
}

/* Snaps simulated: with as many more as are said to be needed, the test finds the difference four times in five. */
static void test_more_by_simulation(void **state) {
    (void)state;
    static const struct {
        int k1, n1, k2, n2;
    } CASES[] = {{15, 20, 30, 60}, {10, 16, 70, 80}, {21, 30, 46, 100}, {9, 10, 60, 110}};
    enum { TRIALS = 4000 };
    Arena *arena = arena_new();
    uint64_t seed = 7;
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        double p1 = (double)CASES[i].k1 / CASES[i].n1;
        double p2 = (double)CASES[i].k2 / CASES[i].n2;
        int more = power_more_fisher(arena, CASES[i].k1, CASES[i].n1, CASES[i].k2, CASES[i].n2, 1, 200);
        assert_in_range(more, 1, 200);
        int settled = 0;
        for (int trial = 0; trial < TRIALS; trial++) {
            int k1 = 0;
            int k2 = 0;
            for (int snap = 0; snap < CASES[i].n1 + more; snap++) k1 += help_random(&seed) < p1;
            for (int snap = 0; snap < CASES[i].n2; snap++) k2 += help_random(&seed) < p2;
            settled += test_fisher(k1, CASES[i].n1 + more, k2, CASES[i].n2) <= POWER_LEVEL;
        }
        help_near((double)settled / TRIALS, .8, .03); /* four standard errors and the step of one snap */
    }
    arena_free(arena);
}

static void test_more_ends(void **state) {
    (void)state;
    Arena *arena = arena_new();
    assert_int_equal(power_more_fisher(arena, 0, 0, 5, 10, 1, 200), -1);
    assert_int_equal(power_more_fisher(arena, 5, 10, 0, 0, 1, 200), -1);
    assert_int_equal(power_more_fisher(arena, 5, 10, 50, 100, 1, 200), 201); /* no difference to find */
    assert_int_equal(power_more_fisher(arena, 19, 20, 1, 40, 1, 200), 1);
    assert_int_equal(power_more_fisher(arena, 3, 3, 1, 40, 5, 200), 5); /* not before there are enough for a verdict */
    assert_int_equal(power_more_fisher(arena, 3, 3, 1, 40, 300, 200), 201);
    assert_int_equal(power_more_binomial(arena, 0, 0, .5, 1, 200), -1);
    assert_int_equal(power_more_binomial(arena, 5, 10, .5, 1, 200), 201);
    int more = power_more_binomial(arena, 15, 20, .5, 1, 200);
    assert_true(power_binomial(arena, 20 + more, .75, .5) >= POWER_WANTED);
    assert_true(power_binomial(arena, 20 + more - 1, .75, .5) < POWER_WANTED);
    arena_free(arena);
}

static void test_more_normal(void **state) {
    (void)state;
    /* (1.959964 + 0.841621)^2 = 7.848879; difference 1, variances 0.2 of 20 snaps and 0.05: 4 / (1 / 7.848879 - 0.05)
     * = 51.7 */
    assert_int_equal(power_more_normal(1, .2, 20, .05, 1, 200), 52 - 20);
    assert_int_equal(power_more_normal(-1, .2, 20, .05, 1, 200), 52 - 20);
    assert_int_equal(power_more_normal(.1, .2, 20, .05, 1, 200), 201); /* the other side alone is too uncertain */
    assert_int_equal(power_more_normal(9, .2, 20, .05, 1, 200), 1);
    assert_int_equal(power_more_normal(NAN, .2, 20, .05, 1, 200), -1);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fisher_power),
        cmocka_unit_test(test_binomial_power),
        cmocka_unit_test(test_power_without_difference),
        cmocka_unit_test(test_more_is_least),
        cmocka_unit_test(test_more_by_simulation),
        cmocka_unit_test(test_more_ends),
        cmocka_unit_test(test_more_normal),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
