/* The passing formulas of the quarterback profile against published values. */
#include "source/dossier.h"
#include "stats/estimate.h"
#include "stats/help_near.h"

typedef struct Line {
    double attempts, completions, yards, touchdowns, interceptions;
} Line;

static double value_of(const Profile *profile, const char *measure, Line line) {
    double totals[PROFILE_MOST_TOTALS] = {0};
    totals[profile_total(profile, "attempts")] = line.attempts;
    totals[profile_total(profile, "completions")] = line.completions;
    totals[profile_total(profile, "yards")] = line.yards;
    totals[profile_total(profile, "touchdowns")] = line.touchdowns;
    totals[profile_total(profile, "interceptions")] = line.interceptions;
    return estimate_from_totals(&profile->measures[profile_measure(profile, measure)], totals);
}

static const Profile *load(SourceContext **context, Diagnostics *diagnostics) {
    *context = source_context_new("templates", NULL, diagnostics);
    const Profile *profile = source_profile(*context, "quarterback", (Place){0}, diagnostics);
    assert_non_null(profile);
    return profile;
}

static void test_rating(void **state) {
    (void)state;
    static const struct {
        Line line;
        double wanted;
    } ROWS[] = {
        {{461, 324, 3969, 35, 10}, 112.7937455}, /* worked example of the league's record and fact book: 112.8 */
        {{8, 8, 100, 1, 0}, 158.3333333},        /* the greatest there is */
        {{1, 0, 0, 0, 1}, 0},                    /* the least */
        {{10, 0, 0, 0, 0}, 39.58333333},         /* ten incompletions, well known */
        {{35, 22, 280, 2, 1}, 94.94047619},      /* worked examples on the web: 94.9 */
        {{529, 342, 4095, 20, 12}, 91.36342155}, /* 91.4 */
        {{34, 20, 199, 2, 0}, 95.09803922},      /* 95.1 */
        {{20, 5, 35, 0, 4}, 0},                  /* 0.0 */
    };
    SourceContext *context;
    Diagnostics *diagnostics = diag_new();
    const Profile *profile = load(&context, diagnostics);
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        help_near(value_of(profile, "pro-rating", ROWS[i].line), ROWS[i].wanted, 6e-8);
    }
    assert_true(isnan(value_of(profile, "pro-rating", (Line){0})));
    source_context_free(context);
    diag_free(diagnostics);
}

static void test_efficiency(void **state) {
    (void)state;
    static const struct {
        Line line;
        double wanted;
    } ROWS[] = {
        {{1, 1, 99, 1, 0}, 1261.6}, /* the extremes of the college formula, well known */
        {{1, 1, -99, 0, 0}, -731.6},
        {{1, 0, 0, 0, 1}, -200},
        {{20, 18, 355, 3, 1}, 278.6}, /* worked example of a glossary on the web */
    };
    SourceContext *context;
    Diagnostics *diagnostics = diag_new();
    const Profile *profile = load(&context, diagnostics);
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        help_near(value_of(profile, "college-efficiency", ROWS[i].line), ROWS[i].wanted, 1e-10);
    }
    assert_true(isnan(value_of(profile, "college-efficiency", (Line){0})));
    source_context_free(context);
    diag_free(diagnostics);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_rating), cmocka_unit_test(test_efficiency)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
