/* Two charts of one game held against each other, and grades of several evaluators: worked by hand. */
#include <jansson.h>
#include <string.h>

#include "stats/findings.h"
#include "stats/help_near.h"
#include "stats/help_stats.h"

/* Of both charters: "game thrown shell depth placement gain down band side". */
static const char *const FIRST[] = {
    "0 yes man 12 on 15 1 long left",  "0 yes man 5 on 0 1 long left",    "0 yes man 22 on 22 1 short left",
    "0 yes man 3 on 4 2 long left",    "0 yes man 8 off 3 2 long left",   "0 yes zone 3 on 5 2 long left",
    "0 yes zone 9 on 30 3 long right", "0 yes zone 30 ? 31 3 long right", "0 yes zone 2 off 1 3 short ?",
    "0 yes zone 4 on 0 3 - ?",         "0 yes man 1 on 1 1 long ?",
};
/* Shell: four of five man and three of five zone alike. Snap 8's placement is charted by this one alone; the last snap,
 * all different, is of a number that the first chart does not have. */
static const char *const SECOND[] = {
    "0 yes man 12 on 15 1 long left",  "0 yes man 5 on 0 1 long left",     "0 yes man 22 on 22 2 short left",
    "0 yes man 4 on 4 2 long left",    "0 yes zone 8 on 3 2 long left",    "0 yes zone 3 on 5 3 long left",
    "0 yes zone 9 on 30 3 long right", "0 yes zone 30 on 31 3 long right", "0 yes man 2 off 1 1 short left",
    "0 yes man 4 on 0 3 long left",    "0 no zone 9 off 9 4 short right",
};
enum { SNAPS = 11, MATCHED = 10 };

/* A second chart of the first game; `unmatched` is the snap that only it has. */
static void add_chart(Help *help, SecondChart *chart, const char *const *lines, int unmatched) {
    Dossier read = *help->dossier;
    Help other = *help;
    other.dossier = &read;
    help_chart(&other, lines, SNAPS);
    *chart = (SecondChart){.by = "ob", .count = SNAPS, .columns = read.columns};
    chart->match = ARENA_ARRAY(help->arena, SNAPS, int);
    for (int i = 0; i < SNAPS; i++) chart->match[i] = i == unmatched ? -1 : i;
}

static Help two_charts(void) {
    Help help = help_new();
    Field *down = &help.profile->fields[HELP_DOWN];
    down->low = 1;
    down->high = 4;
    down->step = 1;
    help_chart(&help, FIRST, SNAPS);
    help.dossier->snap_count = SNAPS;
    help.dossier->second_charts = ARENA_ARRAY(help.arena, 2, SecondChart);
    help.dossier->second_chart_count = 1;
    add_chart(&help, &help.dossier->second_charts[0], SECOND, SNAPS - 1);
    return help;
}

static const FieldAgreement *field_of(const Agreement *agreement, HelpField field) {
    for (size_t i = 0; i < agreement->field_count; i++) {
        if (agreement->fields[i].field == (int)field) return &agreement->fields[i];
    }
    return NULL;
}

static void assert_field(const Agreement *agreement, HelpField field, int n, int equal, double kappa) {
    const FieldAgreement *found = field_of(agreement, field);
    assert_non_null(found);
    assert_int_equal(found->n, n);
    assert_int_equal(found->equal, equal);
    help_near(found->kappa, kappa, 1e-15);
}

static void test_fields(void **state) {
    (void)state;
    Help help = two_charts();
    const Agreement *agreement = agreement_new(help.arena, help.dossier);
    assert_int_equal(agreement->games, 1);
    assert_int_equal(agreement->snaps, MATCHED);
    /* Always thrown: nothing to tell from chance. */
    assert_field(agreement, HELP_THROWN, 10, 10, NAN);
    /* Seven of ten alike; by chance .5 x .6 + .5 x .4: (.7 - .5) / .5. */
    assert_field(agreement, HELP_SHELL, 10, 7, .4);
    assert_false(field_of(agreement, HELP_SHELL)->weighted);
    /* Steps apart: 1 + 1 + 2 over ten snaps, .4; by chance, margins .3 .3 .4 of both: .9. So 1 - .4 / .9. */
    assert_field(agreement, HELP_DOWN, 10, 7, 5. / 9);
    assert_true(field_of(agreement, HELP_DOWN)->weighted);
    /* Nine charted by both. On, off: both on 7, both off 1, one apart: .8889; by chance (7 x 8 + 2 x 1) / 81. */
    assert_field(agreement, HELP_PLACEMENT, 9, 8, (8. / 9 - 58. / 81) / (1 - 58. / 81));
    /* Numbers of many values: how many are the same, and no kappa. */
    assert_field(agreement, HELP_DEPTH, 10, 9, NAN);
    assert_field(agreement, HELP_GAIN, 10, 10, NAN);
    help_free(&help);
}

/* A field that is unknown or does not apply to one of the two is left out of its snaps: band on 9, side on 8. */
static void test_left_out(void **state) {
    (void)state;
    Help help = two_charts();
    const Agreement *agreement = agreement_new(help.arena, help.dossier);
    assert_field(agreement, HELP_BAND, 9, 9, 1);
    assert_field(agreement, HELP_SIDE, 8, 8, 1);
    /* One less is too few to tell. */
    help.dossier->columns.columns[HELP_SIDE].state[0] = VALUE_UNKNOWN;
    assert_null(field_of(agreement_new(help.arena, help.dossier), HELP_SIDE));
    /* Derived fields, texts and film times are nobody's word. */
    help.profile->fields[HELP_SHELL].derived = DERIVED_TEST;
    help.profile->fields[HELP_DEPTH].type = FIELD_TEXT;
    help.profile->fields[HELP_GAIN].type = FIELD_TIME;
    agreement = agreement_new(help.arena, help.dossier);
    assert_null(field_of(agreement, HELP_SHELL));
    assert_null(field_of(agreement, HELP_DEPTH));
    assert_null(field_of(agreement, HELP_GAIN));
    help_free(&help);
}

static void test_differences(void **state) {
    (void)state;
    static const int ROWS[] = {4, 8, 9};
    Help help = two_charts();
    const FieldAgreement *shell = field_of(agreement_new(help.arena, help.dossier), HELP_SHELL);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(shell->differences[i].row, ROWS[i]);
        assert_int_equal(shell->differences[i].second, ROWS[i]);
        assert_int_equal(shell->differences[i].chart, 0);
    }
    help_free(&help);
}

/* Kappas: 0.4, 5/9, 0.6087 of the placement, 1, 1: the middle one, and with four of them half of the middle two. */
static void test_median(void **state) {
    (void)state;
    Help help = two_charts();
    double placement = (8. / 9 - 58. / 81) / (1 - 58. / 81);
    const Agreement *agreement = agreement_new(help.arena, help.dossier);
    assert_int_equal(agreement->kappa_count, 5);
    help_near(agreement->median_kappa, placement, 1e-15);
    help.profile->fields[HELP_SHELL].derived = DERIVED_TEST;
    agreement = agreement_new(help.arena, help.dossier);
    assert_int_equal(agreement->kappa_count, 4);
    help_near(agreement->median_kappa, (placement + 1) / 2, 1e-15);
    help_free(&help);
}

/* The interval of kappa by its standard error, inside what kappa can be. */
static void test_interval(void **state) {
    (void)state;
    Help help = two_charts();
    const Agreement *agreement = agreement_new(help.arena, help.dossier);
    const FieldAgreement *shell = field_of(agreement, HELP_SHELL);
    /* The formula of Fleiss, Cohen & Everitt 1969 over the counts 4 1 2 3, worked apart from the program. */
    help_near(shell->high - shell->low, 2 * 1.959963985 * 0.28397182958878, 1e-9);
    help_near((shell->high + shell->low) / 2, .4, 1e-12);
    help_near(field_of(agreement, HELP_PLACEMENT)->high, 1, 0);
    assert_true(isnan(field_of(agreement, HELP_BAND)->low)); /* full agreement has no error to go by */
    assert_true(isnan(field_of(agreement, HELP_THROWN)->low));
    help_free(&help);
}

/* A third charter of the same game adds comparisons with the first, not games or snaps. */
static void test_third_chart(void **state) {
    (void)state;
    Help help = two_charts();
    help.dossier->second_chart_count = 2;
    add_chart(&help, &help.dossier->second_charts[1], FIRST, -1);
    const Agreement *agreement = agreement_new(help.arena, help.dossier);
    assert_int_equal(agreement->games, 1);
    assert_int_equal(agreement->snaps, SNAPS);
    assert_int_equal(field_of(agreement, HELP_SHELL)->n, MATCHED + SNAPS);
    assert_int_equal(field_of(agreement, HELP_SHELL)->equal, 7 + SNAPS);
    help_free(&help);
}

/* ---- grades ---- */

enum { TRAITS = 7, GRADERS = 4 };

/* Shrout & Fleiss 1979, Psychol Bull 86:420-428, Table 2: four judges rate six targets. The seventh trait lacks a
 * grade. */
static void add_grades(Help *help) {
    static const double RATINGS[TRAITS * GRADERS] = {9, 2, 5,  8, 6, 1, 3, 2, 8, 4, 6, 8, 7, 1,
                                                     2, 6, 10, 5, 6, 9, 6, 2, 4, 7, 1, 9, 1, NAN};
    help->profile->traits = ARENA_ARRAY(help->arena, TRAITS, Trait);
    help->profile->trait_count = TRAITS;
    for (int i = 0; i < TRAITS; i++) help->profile->traits[i] = (Trait){.id = "trait", .weight = 1};
    help->dossier->grades = ARENA_ARRAY(help->arena, GRADERS + 1, Grades);
    help->dossier->grades_count = GRADERS + 1;
    for (int g = 0; g < GRADERS; g++) {
        Grades *grades = &help->dossier->grades[g];
        grades->overall = NAN;
        grades->grades = ARENA_ARRAY(help->arena, TRAITS, Grade);
        for (int t = 0; t < TRAITS; t++) {
            double value = RATINGS[t * GRADERS + g];
            if (!isnan(value)) grades->grades[grades->count++] = (Grade){.trait = t, .value = value};
        }
    }
    help->dossier->grades[GRADERS].overall = 6; /* one who gives no trait a grade is no grader of traits */
}

static void test_grades(void **state) {
    (void)state;
    Help help = help_new();
    add_grades(&help);
    const Agreement *agreement = agreement_new(help.arena, help.dossier);
    assert_int_equal(agreement->evaluators, GRADERS);
    assert_int_equal(agreement->traits, 6);
    help_near(agreement->grades.single, 0.2897637795, 1.5e-10);
    help_near(agreement->grades.average, 0.6200505476, 1.5e-10);
    help_free(&help);
}

/* One chart and one grader: nothing to agree with. */
static void test_none(void **state) {
    (void)state;
    Help help = help_new();
    assert_null(agreement_new(help.arena, help.dossier));
    add_grades(&help);
    help.dossier->grades_count = 1;
    assert_null(agreement_new(help.arena, help.dossier));
    help_free(&help);
}

/* Counted snaps that surely show a trait: deep throws of the first chart are 2, one of them wiped out. */
static void test_trait_snaps(void **state) {
    (void)state;
    Help help = two_charts();
    add_grades(&help);
    help.profile->traits[0].seen = help_selection(&help, "@depth >= 20");
    help.profile->traits[1].seen = help_selection(&help, "@placement='on'");
    const Findings *findings = findings_compute(help.arena, help.dossier, NULL);
    assert_int_equal(findings->traits[0].snaps, 2);
    assert_int_equal(findings->traits[1].snaps, 8);
    assert_int_equal(findings->traits[2].snaps, -1);
    help.dossier->columns.counted[2] = 0;
    findings = findings_compute(help.arena, help.dossier, NULL);
    assert_int_equal(findings->traits[0].snaps, 1);
    help_free(&help);
}

/* Second charts change no other figure. */
static void test_nothing_counted(void **state) {
    (void)state;
    Help help = two_charts();
    const Findings *with = findings_compute(help.arena, help.dossier, NULL);
    help.dossier->second_chart_count = 0;
    const Findings *without = findings_compute(help.arena, help.dossier, NULL);
    assert_int_equal(with->snaps, without->snaps);
    assert_int_equal(with->counted, without->counted);
    for (int i = 0; i < HELP_TOTALS; i++) help_near(with->totals[i], without->totals[i], 0);
    assert_non_null(with->agreement);
    assert_null(without->agreement);
    help_free(&help);
}

static json_t *json_of(const Findings *findings) {
    Buf out = {0};
    findings_json(findings, &out);
    json_t *root = json_loadb(out.bytes, out.length, 0, NULL);
    assert_non_null(root);
    buf_free(&out);
    return root;
}

static void test_json(void **state) {
    (void)state;
    Help help = two_charts();
    add_grades(&help);
    json_t *root = json_of(findings_compute(help.arena, help.dossier, NULL));
    const char *field;
    int n, equal, weighted, evaluators, traits;
    double kappa, icc1, icck;
    json_t *shell = json_array_get(json_object_get(root, "agreement"), 1);
    int read = json_unpack(shell, "{s:s, s:i, s:i, s:F, s:b}", "field", &field, "n", &n, "equal", &equal, "kappa",
                           &kappa, "weighted", &weighted);
    assert_int_equal(read, 0);
    assert_string_equal(field, "shell");
    assert_true(n == 10 && equal == 7 && kappa == .4 && !weighted);
    json_t *thrown = json_array_get(json_object_get(root, "agreement"), 0);
    assert_true(json_is_null(json_object_get(thrown, "kappa")));
    read = json_unpack(json_object_get(root, "grade_agreement"), "{s:F, s:F, s:i, s:i}", "icc1", &icc1, "icck", &icck,
                       "evaluators", &evaluators, "traits", &traits);
    assert_int_equal(read, 0);
    assert_true(evaluators == GRADERS && traits == 6);
    help_near(icc1, 0.2897637795, 1.5e-10);
    help_near(icck, 0.6200505476, 1.5e-10);
    json_decref(root);
    help_free(&help);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fields),          cmocka_unit_test(test_left_out), cmocka_unit_test(test_differences),
        cmocka_unit_test(test_median),          cmocka_unit_test(test_interval), cmocka_unit_test(test_third_chart),
        cmocka_unit_test(test_grades),          cmocka_unit_test(test_none),     cmocka_unit_test(test_trait_snaps),
        cmocka_unit_test(test_nothing_counted), cmocka_unit_test(test_json),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
