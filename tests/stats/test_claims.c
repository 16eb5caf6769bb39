/* The tape test of claims: sides, tests, verdicts, snaps needed. */
#include "stats/findings.h"
#include "stats/help_near.h"
#include "stats/help_stats.h"
#include "stats/interval.h"
#include "stats/power.h"
#include "stats/tests.h"

/* A chart of `man` snaps against man, `man_on` of them on target, and likewise against zone. */
static Help rates(int man_on, int man, int zone_on, int zone) {
    Help help = help_new();
    help_rows(&help, (size_t)(man + zone), 2);
    for (int row = 0; row < man + zone; row++) {
        bool on = row < man ? row < man_on : row - man < zone_on;
        help_word(&help, (size_t)row, HELP_SHELL, row < man ? "man" : "zone");
        help_word(&help, (size_t)row, HELP_PLACEMENT, on ? "on" : "off");
        help_set(&help, (size_t)row, HELP_GAIN, on ? 5 + row % 7 : 0);
        help_set(&help, (size_t)row, HELP_DEPTH, row % 11);
    }
    return help;
}

static const ClaimFinding *compute(Help *help) {
    return findings_compute(help->arena, help->dossier, NULL)->claims;
}

static void test_borne_out(void **state) {
    (void)state;
    Help help = rates(27, 30, 20, 40);
    help_claims(&help, 1)->against = HELP_ZONE;
    const ClaimFinding *claim = compute(&help);
    assert_int_equal(claim->a.k, 27);
    assert_int_equal(claim->b.n, 40);
    help_near(claim->difference, .9 - .5, 1e-15);
    Interval interval = interval_newcombe(27, 30, 20, 40, .95);
    help_near(claim->low, interval.low, 0);
    help_near(claim->high, interval.high, 0);
    help_near(claim->p, test_fisher(27, 30, 20, 40), 0);
    help_near(claim->p_adjusted, claim->p, 0);
    assert_int_equal(claim->verdict, VERDICT_BORNE_OUT);
    assert_int_equal(claim->snaps, 30);
    assert_int_equal(claim->snaps_needed, 0);
    help_free(&help);
}

static void test_the_rest(void **state) {
    (void)state;
    Help help = rates(27, 30, 20, 40);
    for (size_t row = 60; row < 70; row++) help.dossier->columns.columns[HELP_SHELL].state[row] = VALUE_UNKNOWN;
    help_claims(&help, 1);
    const ClaimFinding *claim = compute(&help);
    assert_int_equal(claim->b.n, 30); /* snaps whose coverage nobody charted are on neither side */
    assert_int_equal(claim->b.unknown, 0);
    assert_int_equal(claim->a.unknown, 10);
    help_free(&help);
}

static void test_other_verdicts(void **state) {
    (void)state;
    Help help = rates(27, 30, 20, 40);
    help_claims(&help, 1)->direction = -1;
    const ClaimFinding *claim = compute(&help);
    assert_int_equal(claim->verdict, VERDICT_CONTRADICTED);
    assert_int_equal(claim->snaps_needed, 0);
    help_free(&help);

    help = rates(12, 20, 20, 40);
    Claim *claims = help_claims(&help, 2);
    claims[1].direction = -1;
    claim = compute(&help);
    assert_int_equal(claim[0].verdict, VERDICT_LEANING);
    assert_int_equal(claim[1].verdict, VERDICT_LEANING_AGAINST);
    int more = power_more_fisher(help.arena, 12, 20, 20, 40, 1, MOST_SNAPS_NEEDED);
    assert_int_equal(claim[0].snaps_needed, more);
    help_free(&help);

    help = rates(10, 20, 20, 40);
    help_claims(&help, 1);
    claim = compute(&help);
    assert_int_equal(claim->verdict, VERDICT_LEANING_AGAINST); /* no difference at all */
    assert_int_equal(claim->snaps_needed, MOST_SNAPS_NEEDED + 1);
    help_free(&help);
}

static void test_too_few(void **state) {
    (void)state;
    Help help = rates(7, 7, 5, 60);
    help_claims(&help, 1);
    const ClaimFinding *claim = compute(&help);
    assert_int_equal(claim->verdict, VERDICT_TOO_FEW);
    assert_true(isnan(claim->p) && isnan(claim->p_adjusted));
    assert_false(isnan(claim->low)); /* the interval stands, the verdict does not */
    assert_int_equal(claim->snaps_needed, 1);
    help_free(&help);

    help = rates(20, 30, 1, 7);
    help_claims(&help, 1);
    claim = compute(&help);
    assert_int_equal(claim->verdict, VERDICT_TOO_FEW);
    assert_int_equal(claim->snaps_needed, -1); /* more of the slice do not help the other side */
    help_free(&help);

    help = rates(0, 0, 9, 30);
    help_claims(&help, 1);
    claim = compute(&help);
    assert_int_equal(claim->verdict, VERDICT_TOO_FEW);
    assert_true(isnan(claim->difference));
    assert_int_equal(claim->snaps_needed, -1);
    help_free(&help);
}

/* Many claims: the verdict goes by the adjusted p, and claims that cannot be tested do not count. */
static void test_adjusted(void **state) {
    (void)state;
    Help help = rates(17, 20, 22, 40);
    Claim *claims = help_claims(&help, 4);
    claims[1].slice = HELP_ZONE;
    claims[1].direction = -1;
    claims[2].slice = HELP_DEEP; /* no throw is deep */
    claims[3].measure = HELP_TARGET_DEPTH;
    const ClaimFinding *found = compute(&help);
    assert_int_equal(found[2].verdict, VERDICT_TOO_FEW);
    double p[4];
    for (int i = 0; i < 4; i++) p[i] = found[i].p;
    test_adjust(help.arena, p, 4, p);
    for (int i = 0; i < 4; i++) help_near(found[i].p_adjusted, p[i], 0);
    help_near(found[0].p, found[1].p, 1e-12);
    assert_true(found[0].p <= .05);
    assert_true(found[0].p_adjusted > found[0].p * 1.2);
    help_free(&help);
}

static void test_cites(void **state) {
    (void)state;
    Help help = rates(10, 20, 20, 40);
    help.dossier->columns.counted[3] = 0;
    Cite cites[] = {{.snap = 0}, {.snap = 1, .against = true}, {.snap = 1}, {.snap = 3}, {.snap = 30}, {.snap = -1}};
    Claim *claims = help_claims(&help, 2);
    claims[0].cites = cites;
    claims[0].cite_count = sizeof cites / sizeof *cites;
    claims[1].cites = cites;
    claims[1].cite_count = 1;
    const ClaimFinding *found = compute(&help);
    assert_int_equal(found[0].cited, 2); /* 1 once; 3 is not counted; 30 is zone */
    assert_int_equal(found[0].cited_against, 1);
    assert_int_equal(found[1].cited, 1);
    assert_int_equal(found[0].snaps, 19);
    help_free(&help);
}

static void test_standard(void **state) {
    (void)state;
    Help help = rates(19, 20, 20, 40);
    Standard standard = {.measure = HELP_ON_TARGET, .value = .6};
    help.profile->standards = &standard;
    help.profile->standard_count = 1;
    Claim *claims = help_claims(&help, 2);
    claims[0].against = claims[1].against = CLAIM_AGAINST_STANDARD;
    claims[1].measure = HELP_TARGET_DEPTH; /* has no standard */
    const ClaimFinding *found = compute(&help);
    help_near(found[0].p, test_binomial(19, 20, .6), 0);
    help_near(found[0].difference, .35, 1e-14);
    help_near(found[0].low, interval_wilson(19, 20, .95).low - .6, 1e-15);
    assert_int_equal(found[0].verdict, VERDICT_BORNE_OUT);
    assert_int_equal(found[1].verdict, VERDICT_TOO_FEW);
    assert_int_equal(found[1].snaps_needed, -1);
    help_free(&help);
}

static void test_resampled(void **state) {
    (void)state;
    Help help = rates(36, 40, 10, 60);
    Claim *claims = help_claims(&help, 3);
    claims[0].measure = HELP_PER_ATTEMPT;
    claims[1].measure = HELP_EFFICIENCY;
    claims[2].measure = HELP_TARGET_DEPTH;
    const ClaimFinding *found = compute(&help);
    for (int i = 0; i < 3; i++) {
        assert_true(found[i].low < found[i].difference && found[i].difference < found[i].high);
        assert_true(found[i].a.low < found[i].a.value && found[i].a.value < found[i].a.high);
        assert_true(found[i].b.low < found[i].b.value && found[i].b.value < found[i].b.high);
    }
    assert_int_equal(found[0].verdict, VERDICT_BORNE_OUT);
    assert_int_equal(found[1].verdict, VERDICT_BORNE_OUT);
    assert_true(found[2].p > .3); /* depth has nothing to do with coverage here */
    assert_true(found[2].snaps_needed > 50);
    const ClaimFinding *again = compute(&help);
    for (int i = 0; i < 3; i++) {
        assert_true(again[i].low == found[i].low && again[i].high == found[i].high && again[i].p == found[i].p);
    }
    help.dossier->id = "another";
    const ClaimFinding *another = compute(&help);
    assert_true(another[0].low != found[0].low); /* its own draws */
    help_near(another[0].low, found[0].low, .3);
    help_free(&help);
}

/* A printed interval of a single figure is the same as in the table. */
static void test_interval_of_a_stat(void **state) {
    (void)state;
    Help help = rates(36, 40, 10, 60);
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    const Estimate *all = findings_estimate(findings, HELP_EFFICIENCY, ESTIMATE_ALL);
    StatRef stat = {.measure = HELP_EFFICIENCY,
                    .total = -1,
                    .slice = -1,
                    .format = STAT_INTERVAL,
                    .where = help_selection(&help, "@gain >= 0")};
    Estimate estimate = findings_stat(help.arena, findings, &stat);
    help_near(estimate.value, all->value, 0);
    help_near(estimate.low, all->low, 0);
    help_near(estimate.high, all->high, 0);
    /* man and zone stand in a figure of the profile: their yards an attempt have intervals, efficiency has none until
     * asked */
    assert_false(isnan(findings_estimate(findings, HELP_PER_ATTEMPT, HELP_ZONE)->low));
    assert_true(isnan(findings_estimate(findings, HELP_EFFICIENCY, HELP_ZONE)->low));
    stat = (StatRef){.measure = HELP_EFFICIENCY, .total = -1, .slice = HELP_ZONE, .format = STAT_INTERVAL};
    estimate = findings_stat(help.arena, findings, &stat);
    assert_true(estimate.low < estimate.value && estimate.value < estimate.high);
    help_free(&help);
}

/* Nothing varies: no interval, no test, and no verdict that pretends there was one. */
static void test_no_variation(void **state) {
    (void)state;
    Help help = rates(20, 20, 20, 20);
    for (size_t row = 0; row < 40; row++) help_set(&help, row, HELP_GAIN, row < 20 ? 6 : 5);
    help_claims(&help, 1)->measure = HELP_PER_ATTEMPT;
    const ClaimFinding *claim = compute(&help);
    help_near(claim->difference, 1, 1e-15);
    assert_true(isnan(claim->low) && isnan(claim->p) && isnan(claim->a.low));
    assert_int_equal(claim->verdict, VERDICT_LEANING);
    help_free(&help);
}

static void test_words(void **state) {
    (void)state;
    assert_string_equal(verdict_word(VERDICT_BORNE_OUT), "borne out");
    assert_string_equal(verdict_word(VERDICT_TOO_FEW), "too few to say");
    assert_string_equal(verdict_key(VERDICT_LEANING_AGAINST), "leaning-against");
    assert_true(VERDICT_CONTRADICTED < VERDICT_LEANING_AGAINST && VERDICT_LEANING < VERDICT_BORNE_OUT);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_borne_out),
        cmocka_unit_test(test_the_rest),
        cmocka_unit_test(test_other_verdicts),
        cmocka_unit_test(test_too_few),
        cmocka_unit_test(test_adjusted),
        cmocka_unit_test(test_cites),
        cmocka_unit_test(test_standard),
        cmocka_unit_test(test_resampled),
        cmocka_unit_test(test_interval_of_a_stat),
        cmocka_unit_test(test_no_variation),
        cmocka_unit_test(test_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
