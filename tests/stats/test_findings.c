/* Findings of small charts worked by hand: every state of a value, every kind of measure. */
#include <string.h>

#include "stats/findings.h"
#include "stats/help_near.h"
#include "stats/help_stats.h"
#include "stats/interval.h"

static const char *const CHART[] = {
    /* game thrown shell depth placement gain down band side */
    "0 yes man 12 on 15 1 long left",   /*  0 */
    "0 yes man 5 off 0 2 long right",   /*  1 */
    "0 yes zone 22 on 22 3 short left", /*  2 */
    "0 no man - - 4 1 long -",          /*  3: not thrown */
    "0 yes zone 8 ? 3 2 long left",     /*  4: placement not charted */
    "0 ? man 3 on 5 1 long left",       /*  5: thrown or not, who knows */
    "!0 yes man 9 on 30 1 long left",   /*  6: wiped out */
    "1 yes ? 30 on 31 1 long right",    /*  7: coverage not charted */
    "1 yes ? 2 ? 1 2 short right",      /*  8: neither charted */
    "1 yes man ? off 0 3 ? left",       /*  9: depth and band not charted */
    "1 yes zone - on ? 1 long left",    /* 10: no depth, gain not charted */
    "1 yes man 6 on 6 ? long ?",        /* 11: down and side not charted */
    "1 ? ? ? ? ? ? ? ?",                /* 12: nothing charted */
};

static Help chart(void) {
    Help help = help_new();
    help_chart(&help, CHART, sizeof CHART / sizeof *CHART);
    return help;
}

static void assert_counts(const Estimate *estimate, int k, int n, int unknown) {
    if (estimate->k != k || estimate->n != n || estimate->unknown != unknown) {
        fail_msg("%d of %d, %d unknown; not %d of %d, %d unknown", estimate->k, estimate->n, estimate->unknown, k, n,
                 unknown);
    }
}

static void test_rates(void **state) {
    (void)state;
    Help help = chart();
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    assert_int_equal(findings->snaps, 13);
    assert_int_equal(findings->counted, 12);
    /* Thrown and placement known: 0 1 2 7 9 10 11; on: 0 2 7 10 11. Unknown: 4 8 for the placement, 5 12 for the throw.
     */
    const Estimate *all = findings_estimate(findings, HELP_ON_TARGET, ESTIMATE_ALL);
    assert_counts(all, 5, 7, 4);
    help_near(all->value, 5.0 / 7, 1e-15);
    help_near(all->low, interval_wilson(5, 7, .95).low, 0);
    help_near(all->high, interval_wilson(5, 7, .95).high, 0);
    /* Man: 0 1 9 11 answered; 5 unknown; 7 8 12 may be man. */
    assert_counts(findings_estimate(findings, HELP_ON_TARGET, HELP_MAN), 2, 4, 4);
    /* Zone: 2 10 answered; 4 unknown; 7 8 12 may be zone. */
    assert_counts(findings_estimate(findings, HELP_ON_TARGET, HELP_ZONE), 2, 2, 4);
    /* Deep: 2 7; row 9 answers and may be deep, row 12 may be all; row 10 has no depth and is not deep. */
    assert_counts(findings_estimate(findings, HELP_ON_TARGET, HELP_DEEP), 2, 2, 2);
    help_free(&help);
}

static void test_means(void **state) {
    (void)state;
    Help help = chart();
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    /* Thrown with a depth: 0 1 2 4 7 8 11. Unknown: 9 for its depth, 5 and 12 for the throw. 10 has none. */
    const Estimate *all = findings_estimate(findings, HELP_TARGET_DEPTH, ESTIMATE_ALL);
    assert_counts(all, 0, 7, 3);
    help_near(all->value, (12 + 5 + 22 + 8 + 30 + 2 + 6) / 7.0, 1e-14);
    /* Man: 0 1 11; 9 and 5 unknown; 7 8 12 may be man. */
    const Estimate *man = findings_estimate(findings, HELP_TARGET_DEPTH, HELP_MAN);
    assert_counts(man, 0, 3, 5);
    help_near(man->value, (12 + 5 + 6) / 3.0, 1e-14);
    assert_true(isnan(man->low)); /* too few to resample */
    help_free(&help);
}

static void test_totals(void **state) {
    (void)state;
    Help help = chart();
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    help_near(findings->totals[HELP_ATTEMPTS], 9, 0);    /* 0 1 2 4 7 8 9 10 11 */
    help_near(findings->totals[HELP_COMPLETIONS], 6, 0); /* 0 2 5 7 10 11 */
    help_near(findings->totals[HELP_YARDS], 15 + 22 + 3 + 31 + 1 + 6, 0);
    help_near(findings->game_totals[HELP_ATTEMPTS * 2], 4, 0);
    help_near(findings->game_totals[HELP_ATTEMPTS * 2 + 1], 5, 0);
    help_near(findings->game_totals[HELP_YARDS * 2], 40, 0);
    help_free(&help);
}

static void test_ratios(void **state) {
    (void)state;
    Help help = chart();
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    const Estimate *all = findings_estimate(findings, HELP_PER_ATTEMPT, ESTIMATE_ALL);
    assert_counts(all, 0, 9, 3); /* 5 and 12 may be attempts, 10 has yards nobody charted */
    help_near(all->value, 78.0 / 9, 1e-14);
    const Estimate *zone = findings_estimate(findings, HELP_PER_ATTEMPT, HELP_ZONE);
    help_near(zone->value, 25.0 / 3, 1e-14);
    assert_int_equal(zone->n, 3);
    help_free(&help);
}

static void test_formulas(void **state) {
    (void)state;
    Help help = chart();
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    const Estimate *all = findings_estimate(findings, HELP_EFFICIENCY, ESTIMATE_ALL);
    help_near(all->value, .5 * (8.4 * 78 / 9 + 100.0 * 6 / 9), 1e-12);
    /* Zone: completions 2 10 of attempts 2 4 10: 66.7, under the bound of 80. Man: attempts 0 1 9 11, on target 0 5 11.
     */
    const Estimate *man = findings_estimate(findings, HELP_EFFICIENCY, HELP_MAN);
    help_near(man->value, .5 * (8.4 * 21 / 4 + 75), 1e-12);
    const Estimate *deep = findings_estimate(findings, HELP_EFFICIENCY, HELP_DEEP);
    help_near(deep->value, .5 * (8.4 * 53 / 2 + 80), 1e-12); /* 100 is held to 80 */
    assert_int_equal(deep->n, 2);
    help_free(&help);
}

static void test_nothing_charted(void **state) {
    (void)state;
    Help help = help_new();
    help_chart(&help, NULL, 0);
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    for (int measure = 0; measure < HELP_MEASURES; measure++) {
        for (int slice = ESTIMATE_ALL; slice < HELP_SLICES; slice++) {
            const Estimate *estimate = findings_estimate(findings, measure, slice);
            assert_counts(estimate, 0, 0, 0);
            assert_true(isnan(estimate->value) && isnan(estimate->low) && isnan(estimate->high));
        }
    }
    help_near(findings->totals[HELP_YARDS], 0, 0);
    assert_true(isnan(findings->composite));
    help_free(&help);
}

static void test_games_and_opponents(void **state) {
    (void)state;
    static const char *const LINES[] = {
        "0 yes man 1 on 5 1 long left", "1 yes man 1 off 5 1 long left", "1 yes man 1 on 7 1 long left",
        "2 yes man 1 ? 5 1 long left",  "2 yes man 1 on 9 1 long left",
    };
    Help help = help_new();
    help_chart(&help, LINES, 5);
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    const Estimate *games = &findings->game_estimates[HELP_ON_TARGET * 3];
    assert_counts(&games[0], 1, 1, 0);
    assert_counts(&games[1], 1, 2, 0);
    assert_counts(&games[2], 1, 1, 1);
    assert_int_equal(findings->opponent_count, 2);
    assert_string_equal(findings->opponents[0], "North");
    const Estimate *opponents = &findings->opponent_estimates[HELP_ON_TARGET * 2];
    assert_counts(&opponents[0], 2, 2, 1);
    assert_counts(&opponents[1], 1, 2, 0);
    help_near(findings->opponent_estimates[HELP_PER_ATTEMPT * 2].value, 19.0 / 3, 1e-14);
    help_free(&help);
}

/* The jackknife of a mean is its Student interval; of a ratio over counted snaps too. */
static void test_game_intervals(void **state) {
    (void)state;
    static const double GAINS[] = {3, 0, 12, 7, 0, 25, 4};
    Help help = help_new();
    help_rows(&help, 7, 1);
    double sum = 0;
    double squares = 0;
    for (size_t row = 0; row < 7; row++) {
        help_set(&help, row, HELP_GAIN, GAINS[row]);
        help_set(&help, row, HELP_DEPTH, GAINS[row]);
        sum += GAINS[row];
    }
    for (size_t row = 0; row < 7; row++) squares += (GAINS[row] - sum / 7) * (GAINS[row] - sum / 7);
    double spread = 2.446911851 * sqrt(squares / 6 / 7); /* Student's t of 6 degrees in the tables: 2.447 */
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    for (int measure = HELP_TARGET_DEPTH; measure <= HELP_PER_ATTEMPT; measure++) {
        help_near(findings->game_estimates[measure].low, sum / 7 - spread, 1e-7);
        help_near(findings->game_estimates[measure].high, sum / 7 + spread, 1e-7);
        help_near(findings->opponent_estimates[measure].high, sum / 7 + spread, 1e-7);
    }
    const Estimate *formula = &findings->game_estimates[HELP_EFFICIENCY];
    help_near((formula->high - formula->low) / 2, .5 * 8.4 * spread, 1e-6); /* the rate part does not vary */
    help_free(&help);
}

static void test_field(void **state) {
    (void)state;
    Help help = chart();
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    const FieldFinding *field = &findings->fields[0];
    assert_int_equal(field->lanes, 2);
    assert_int_equal(field->bands, 2);
    /* bands: short, long; lanes: left, right */
    assert_counts(&field->cells[0], 1, 1, 0); /* short left: 2 */
    assert_counts(&field->cells[1], 0, 0, 1); /* short right: 8 */
    assert_counts(&field->cells[2], 2, 2, 2); /* long left: 0 10; 4 5 unknown */
    assert_counts(&field->cells[3], 1, 2, 0); /* long right: 1 7 */
    assert_counts(&field->lane_totals[0], 3, 3, 2);
    assert_counts(&field->band_totals[1], 3, 4, 2);
    assert_int_equal(field->unplaced, 2); /* 9 11 */
    assert_int_equal(findings->fields[1].lanes, 0);
    help_free(&help);
}

static void test_situation(void **state) {
    (void)state;
    Help help = chart();
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    const SituationFinding *situation = &findings->situation;
    assert_int_equal(situation->bands, 2);
    const Estimate *cells = &situation->cells[HELP_ON_TARGET * SITUATION_DOWNS * 2];
    assert_counts(&cells[0 * 2 + 1], 3, 3, 1); /* first and long: 0 7 10; 5 unknown */
    assert_counts(&cells[1 * 2 + 1], 0, 1, 1); /* second and long: 1; 4 unknown */
    assert_counts(&cells[2 * 2 + 0], 1, 1, 0); /* third and short: 2 */
    assert_counts(&cells[3 * 2 + 0], 0, 0, 0);
    help_free(&help);
}

static void test_stats(void **state) {
    (void)state;
    Help help = chart();
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    StatRef stat = {
        .measure = HELP_ON_TARGET, .total = -1, .slice = HELP_MAN, .where = help_selection(&help, "@gain > 0")};
    Estimate estimate = findings_stat(help.arena, findings, &stat);
    assert_counts(&estimate, 2, 2, 4); /* 0 11 of man; 5 unknown; 7 8 12 may be man */
    stat = (StatRef){.measure = HELP_ON_TARGET, .total = -1, .slice = -1};
    estimate = findings_stat(help.arena, findings, &stat);
    assert_counts(&estimate, 5, 7, 4);
    stat = (StatRef){.measure = -1, .total = HELP_YARDS, .slice = HELP_ZONE};
    estimate = findings_stat(help.arena, findings, &stat);
    help_near(estimate.value, 25, 0);
    assert_counts(&estimate, 0, 2, 4); /* 10 is zone with no gain charted; 7 8 12 may be zone */
    help_free(&help);
}

static void test_grades(void **state) {
    (void)state;
    Help help = help_new();
    help_chart(&help, NULL, 0);
    Trait traits[3] = {{.id = "a", .weight = 50}, {.id = "b", .weight = 25}, {.id = "c", .weight = 25}};
    Grade first[2] = {{.trait = 0, .value = 6}, {.trait = 1, .value = 9}};
    Grade second[2] = {{.trait = 0, .value = 7}, {.trait = 2, .value = 4}};
    Grades grades[2] = {{.grades = first, .count = 2, .overall = 6.2}, {.grades = second, .count = 2, .overall = NAN}};
    help.profile->traits = traits;
    help.profile->trait_count = 3;
    help.dossier->grades = grades;
    help.dossier->grades_count = 2;
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    assert_int_equal(findings->traits[0].evaluators, 2);
    help_near(findings->traits[0].house, 6, 0);
    help_near(findings->traits[0].low, 6, 0);
    help_near(findings->traits[0].high, 7, 0);
    assert_true(isnan(findings->traits[2].house));
    help_near(findings->traits[2].low, 4, 0);
    help_near(findings->composite, 7, 1e-15); /* 75 % of the weight: (50 * 6 + 25 * 9) / 75 */
    assert_int_equal(findings->overall_count, 1);
    help_near(findings->overall_low, 6.2, 0);
    grades[0].count = 1;
    findings = findings_compute(help.arena, help.dossier, NULL);
    assert_true(isnan(findings->composite)); /* half the weight */
    help_free(&help);
}

static void test_measurables(void **state) {
    (void)state;
    Help help = help_new();
    help_chart(&help, NULL, 0);
    ScaleQuantile quantiles[] = {{10, 4.5}, {50, 4.8}, {90, 5.1}};
    ScaleMeasurable forty = {.kind = "forty", .n = 320, .quantiles = quantiles, .quantile_count = 3};
    Scale scale = {.id = "thrower", .measurables = &forty, .count = 1};
    MeasurableKind kind = {.id = "forty", .better = BETTER_LESS};
    Measurable measurables[] = {
        {.kind = &kind, .id = "forty", .value = 4.65, .notation = "4.65"},
        {.kind = &kind, .id = "forty", .value = 4.2, .notation = "4.20"},
        {.id = "hand", .value = 9.5, .notation = "0950"},
    };
    help.dossier->measurables = measurables;
    help.dossier->measurable_count = 3;
    const Findings *findings = findings_compute(help.arena, help.dossier, &scale);
    help_near(findings->measurables[0].percentile, 70, 1e-10); /* low is good */
    help_near(findings->measurables[1].percentile, 90, 0);     /* beyond the outermost quantile */
    assert_ptr_equal(findings->measurables[0].population, &forty);
    assert_null(findings->measurables[2].population);
    assert_true(isnan(findings->measurables[2].percentile));
    kind.better = BETTER_MORE;
    findings = findings_compute(help.arena, help.dossier, &scale);
    help_near(findings->measurables[0].percentile, 30, 1e-10);
    help_free(&help);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rates),
        cmocka_unit_test(test_means),
        cmocka_unit_test(test_totals),
        cmocka_unit_test(test_ratios),
        cmocka_unit_test(test_formulas),
        cmocka_unit_test(test_nothing_charted),
        cmocka_unit_test(test_games_and_opponents),
        cmocka_unit_test(test_game_intervals),
        cmocka_unit_test(test_field),
        cmocka_unit_test(test_situation),
        cmocka_unit_test(test_stats),
        cmocka_unit_test(test_grades),
        cmocka_unit_test(test_measurables),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
