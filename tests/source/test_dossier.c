/* What a dossier is once it is read: known, unknown and not applicable; exceptions; derived fields; prose, claims,
 * grades. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <math.h>
#include <string.h>

#include <cmocka.h>

#include "source/help_reader.h"

static int open_world(void **state) {
    *state = reader_world_new();
    return 0;
}

static int close_world(void **state) {
    reader_world_free(*state);
    return 0;
}

static Dossier *load(void **state) {
    Dossier *dossier = reader_dossier(*state);
    assert_string_equal(reader_said(*state), "");
    assert_non_null(dossier);
    return dossier;
}

/* A cell as text: its word or number, "?" unknown, "-" not applicable. */
static const char *cell(void **state, const Dossier *dossier, const char *snap, const char *id) {
    const Profile *profile = dossier->profile;
    int row = dossier_snap(dossier, snap), index = profile_field(profile, id);
    assert_true(row >= 0 && index >= 0);
    const Column *column = &dossier->columns.columns[index];
    if (column->state[row] == VALUE_UNKNOWN) return "?";
    if (column->state[row] == VALUE_NOT_APPLICABLE) return "-";
    if (profile->fields[index].value_count) return profile->words[(int)column->number[row]];
    return arena_printf(reader_arena(*state), "%g", column->number[row]);
}

typedef struct Cell {
    const char *snap, *field, *value;
} Cell;

static void check_cells(void **state, const Cell *cells, size_t count) {
    const Dossier *dossier = load(state);
    for (size_t i = 0; i < count; i++) {
        const char *value = cell(state, dossier, cells[i].snap, cells[i].field);
        if (strcmp(value, cells[i].value) == 0) continue;
        fail_msg("%s of %s is %s, not %s", cells[i].field, cells[i].snap, value, cells[i].value);
    }
}

#define CHECK_CELLS(state, cells) check_cells((state), (cells), sizeof(cells) / sizeof *(cells))

static void test_charted(void **state) {
    static const Cell cells[] = {
        {"g1.1", "clock", "900"},      {"g1.2", "clock", "545"},  {"g1.1", "spot", "75"},    {"g1.3", "spot", "50"},
        {"g2.1", "spot", "40"},        {"g1.1", "gain", "4"},     {"g1.3", "gain", "-7"},    {"g1.1", "coverage", "1"},
        {"g1.1", "in", "1300.2"},      {"g1.7", "distance", "8"}, {"g1.8", "distance", "3"}, {"g2.1", "distance", "3"},
        {"g1.1", "throw-time", "2.4"},
    };
    CHECK_CELLS(state, cells);
    const Dossier *dossier = load(state);
    const Snap *snap = &dossier->snaps[dossier_snap(dossier, "g1.7")];
    assert_string_equal(snap->texts[profile_field(dossier->profile, "note")], "well blocked");
    assert_string_equal(snap->texts[profile_field(dossier->profile, "distance")], "goal");
    assert_null(snap->texts[profile_field(dossier->profile, "clock")]);
}

/* A blank is unknown where the field applies and not applicable where it does not. */
static void test_blanks(void **state) {
    static const Cell cells[] = {
        {"g1.3", "clock", "?"},         {"g1.2", "throw-time", "?"},    {"g1.3", "throw-time", "-"},
        {"g1.3", "read", "-"},          {"g1.7", "coverage", "-"},      {"g1.9", "gain", "-"},
        {"g2.2", "gain", "-"},          {"g1.10", "down", "-"},         {"g1.10", "distance", "-"},
        {"g1.1", "penalty-yards", "-"}, {"g1.9", "penalty-yards", "5"},
    };
    CHECK_CELLS(state, cells);
}

/* Only a chart that says it marks an exception has its blanks read as the first value, and only where the field
 * applies. */
static void test_exceptions(void **state) {
    static const Cell cells[] = {
        {"g1.1", "touchdown", "no"},    {"g1.7", "touchdown", "yes"},   {"g1.1", "penalty", "none"},
        {"g1.9", "penalty", "defence"}, {"g1.1", "risk", "no"},         {"g1.2", "risk", "yes"},
        {"g1.3", "risk", "-"},          {"g2.1", "touchdown", "?"},     {"g2.1", "risk", "?"},
        {"g2.1", "penalty", "?"},       {"g2.1", "penalty-yards", "?"},
    };
    CHECK_CELLS(state, cells);
}

/* Where it is unknown whether a field applies, a blank is unknown and what was charted stands; nothing is reported
 * missing. */
static void test_unknown_condition(void **state) {
    static const Cell cells[] = {
        {"g2.1", "result", "?"}, {"g2.1", "passing", "?"},    {"g2.1", "coverage", "2"},
        {"g2.1", "gain", "27"},  {"g2.1", "throw-time", "?"}, {"g2.1", "family", "zone"},
    };
    ReaderWorld *world = *state;
    reader_world_change(world, "sets/common.xml", "<field id=\"result\" type=\"choice\" required=\"yes\">",
                        "<field id=\"result\" type=\"choice\">");
    reader_world_change(world, "dossier.xml", "play=\"pass\" result=\"complete\" gain=\"27\"",
                        "play=\"pass\" gain=\"27\"");
    CHECK_CELLS(state, cells);
}

static void test_derived(void **state) {
    static const Cell cells[] = {
        {"g1.1", "to-goal", "75"},      {"g1.1", "clock-seconds", "900"}, {"g1.3", "clock-seconds", "?"},
        {"g1.1", "to-go-band", "long"}, {"g1.2", "to-go-band", "medium"}, {"g1.7", "to-go-band", "long"},
        {"g1.10", "to-go-band", "-"},   {"g1.1", "passing", "yes"},       {"g1.3", "passing", "yes"},
        {"g1.7", "passing", "no"},      {"g1.1", "family", "man"},        {"g1.2", "family", "zone"},
        {"g1.3", "family", "?"},        {"g1.7", "family", "-"},          {"g1.2", "depth-band", "deep"},
        {"g2.1", "depth-band", "?"},    {"g2.2", "depth-band", "behind"}, {"g1.3", "depth-band", "-"},
        {"g1.1", "after", "-2"},        {"g1.3", "after", "-7"},          {"g1.8", "after", "?"},
    };
    CHECK_CELLS(state, cells);
}

/* Four of ten yards are a success for one house and none for the other. */
static void test_success_rules(void **state) {
    static const Cell cells[] = {{"g1.1", "success", "yes"}, {"g1.2", "success", "no"}, {"g2.1", "success", "yes"}};
    CHECK_CELLS(state, cells);
}

static void test_success_of_another_house(void **state) {
    static const Cell cells[] = {{"g1.1", "success", "no"}, {"g1.2", "success", "no"}, {"g2.1", "success", "yes"}};
    reader_world_change(*state, "houses/plain.xml", "success=\"40-60-100\"", "success=\"50-70-100\"");
    CHECK_CELLS(state, cells);
}

static void test_counted(void **state) {
    const Dossier *dossier = load(state);
    static const int counted[] = {1, 1, 1, 1, 0, 0, 1, 1, 1};
    assert_int_equal(dossier->snap_count, 9);
    for (size_t row = 0; row < 9; row++) assert_int_equal(dossier->columns.counted[row], counted[row]);
}

/* ---- the rest of the model ---- */

static void test_games(void **state) {
    const Dossier *dossier = load(state);
    assert_int_equal(dossier->game_count, 2);
    assert_int_equal(dossier->games[1].first_row, 7);
    assert_int_equal(dossier->games[1].row_count, 2);
    assert_int_equal(dossier->columns.game[7], 1);
    assert_int_equal(dossier->snaps[7].number, 1);
    const double *official = dossier->games[0].official;
    assert_true(official[profile_total(dossier->profile, "yards")] == 31);
    assert_true(isnan(official[profile_total(dossier->profile, "dropbacks")]));
    assert_null(dossier->games[1].official);
    assert_int_equal(dossier_snap(dossier, "g1.4"), -1);
}

static void test_prose(void **state) {
    const Dossier *dossier = load(state);
    const Paragraph *paragraph = &dossier->claims[0].prose.paragraphs[0];
    static const struct {
        RunKind kind;
        const char *text;
    } runs[] = {
        {RUN_TEXT, "He completed "},
        {RUN_STAT, NULL},
        {RUN_TEXT, " against man: "},
        {RUN_EMPHASIS, "on time"},
        {RUN_TEXT, ", "},
        {RUN_STRONG, "every time "},
        {RUN_TEXT, "("},
        {RUN_CITE, "g1.1"},
        {RUN_TEXT, ")."},
    };
    assert_int_equal(paragraph->run_count, sizeof runs / sizeof *runs);
    for (size_t i = 0; i < paragraph->run_count; i++) {
        assert_int_equal(paragraph->runs[i].kind, runs[i].kind);
        if (runs[i].text) assert_string_equal(paragraph->runs[i].text, runs[i].text);
    }
    assert_int_equal(paragraph->runs[7].snap, 0);
    assert_false(paragraph->item);
    assert_true(dossier->claims[0].prose.paragraphs[2].item);
    assert_int_equal(dossier->claims[0].prose.count, 3);
}

static void test_stats(void **state) {
    const Dossier *dossier = load(state);
    const StatRef *stat = &dossier->claims[0].prose.paragraphs[0].runs[1].stat;
    assert_int_equal(stat->measure, profile_measure(dossier->profile, "completion-rate"));
    assert_int_equal(stat->slice, profile_slice(dossier->profile, "man"));
    assert_true(stat->total == -1 && stat->where == NULL && stat->format == STAT_K_OF_N);
    stat = &dossier->claims[0].prose.paragraphs[2].runs[0].stat;
    assert_int_equal(stat->total, profile_total(dossier->profile, "yards"));
    assert_true(stat->measure == -1 && stat->format == STAT_VALUE);
    stat = &dossier->claims[1].prose.paragraphs[0].runs[0].stat;
    assert_non_null(stat->where);
}

static void test_claims(void **state) {
    const Dossier *dossier = load(state);
    const Claim *man = &dossier->claims[0], *risk = &dossier->claims[1];
    assert_int_equal(man->against, profile_slice(dossier->profile, "zone"));
    assert_true(man->kind == CLAIM_STRENGTH && man->direction == 1 && man->cite_count == 1);
    assert_string_equal(man->cites[0].text, "The glance on time");
    assert_int_equal(risk->against, CLAIM_AGAINST_REST);
    assert_true(risk->kind == CLAIM_CONCERN && risk->direction == 1 && risk->cites[0].against);
    assert_int_equal(risk->cites[0].snap, 1);
}

/* The direction follows from the kind of claim and the measure's better side, or from what the claim expects. */
static void test_directions(void **state) {
    (void)state;
    static const struct {
        const char *old, *fresh;
        int claim, direction;
    } cases[] = {
        {"<concern id=\"risk\"", "<concern id=\"risk\"", 1, 1},
        {"measure=\"risk-rate\">", "measure=\"completion-rate\">", 1, -1},
        {"against=\"zone\" measure=\"completion-rate\"", "against=\"zone\" measure=\"risk-rate\"", 0, -1},
        {"measure=\"risk-rate\">", "measure=\"target-depth\" expect=\"less\">", 1, -1},
        {"measure=\"risk-rate\">", "measure=\"target-depth\" expect=\"more\">", 1, 1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ReaderWorld *world = reader_world_new();
        reader_world_change(world, "dossier.xml", cases[i].old, cases[i].fresh);
        const Dossier *dossier = reader_dossier(world);
        assert_string_equal(reader_said(world), "");
        assert_int_equal(dossier->claims[cases[i].claim].direction, cases[i].direction);
        reader_world_free(world);
    }
}

static void test_against_standard(void **state) {
    reader_world_change(*state, "dossier.xml", "against=\"zone\"", "against=\"standard\"");
    assert_int_equal(load(state)->claims[0].against, CLAIM_AGAINST_STANDARD);
}

/* Who files comes first, wherever his grades stand. */
static void test_grades(void **state) {
    const Dossier *dossier = load(state);
    assert_int_equal(dossier->grades_count, 2);
    assert_string_equal(dossier->grades[0].by, "rk");
    assert_true(dossier->grades[0].overall == 6.2 && dossier->grades[0].grades[0].value == 6.5);
    assert_string_equal(dossier->grades[0].says, "Worth the wait.");
    assert_string_equal(dossier->grades[0].when, "second-year");
    assert_null(dossier->grades[0].grades[1].note);
    assert_true(isnan(dossier->grades[1].overall));
}

static void test_measurables(void **state) {
    const Dossier *dossier = load(state);
    const Measurable *height = &dossier->measurables[0], *forty = &dossier->measurables[1];
    assert_true(height->value == 76.5 && height->verified && !height->hand_timed);
    assert_ptr_equal(height->kind, &dossier->profile->measurables[0]);
    assert_true(forty->value == 4.81 && !forty->verified && forty->hand_timed);
}

static void test_dump(void **state) {
    Buf dump = {0};
    dossier_dump(load(state), &dump);
    FILE *file = fopen("tests/source/reader/dossier.dump", "rb");
    assert_non_null(file);
    char expected[16384];
    size_t length = fread(expected, 1, sizeof expected - 1, file);
    fclose(file);
    expected[length] = '\0';
    assert_string_equal(buf_text(&dump), expected);
    buf_free(&dump);
}

/* No game, no claim, nothing measured: still a dossier. */
static void test_empty(void **state) {
    ReaderWorld *world = *state;
    reader_world_write(
        world, "dossier.xml",
        "<dossier format=\"1\" id=\"x\" profile=\"passer\"><player position=\"QB\"><name><given>A</given>"
        "<family>B</family></name><school>C</school></player><filing by=\"rk\" on=\"2031-11-18\"/>"
        "<game id=\"g1\"/><bottom-line><p/></bottom-line></dossier>");
    const Dossier *dossier = load(state);
    assert_int_equal(dossier->snap_count, 0);
    assert_int_equal(dossier_snap(dossier, "g1.1"), -1);
    assert_int_equal(dossier->filing.revision, 1);
    assert_int_equal(dossier->bottom_line.paragraphs[0].run_count, 0);
    Buf dump = {0};
    dossier_dump(dossier, &dump);
    buf_free(&dump);
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_charted),
        IN_WORLD(test_blanks),
        IN_WORLD(test_exceptions),
        IN_WORLD(test_unknown_condition),
        IN_WORLD(test_derived),
        IN_WORLD(test_success_rules),
        IN_WORLD(test_success_of_another_house),
        IN_WORLD(test_counted),
        IN_WORLD(test_games),
        IN_WORLD(test_prose),
        IN_WORLD(test_stats),
        IN_WORLD(test_claims),
        cmocka_unit_test(test_directions),
        IN_WORLD(test_against_standard),
        IN_WORLD(test_grades),
        IN_WORLD(test_measurables),
        IN_WORLD(test_dump),
        IN_WORLD(test_empty),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
