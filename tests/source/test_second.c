/* Second charts: read like the chart that counts, matched by snap number, and counted nowhere. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "source/dossier_parts.h"
#include "source/help_reader.h"

#define GAME_END "</chart>\n  </game>\n  <game id=\"g2\""

/* A further chart of the first game: what stands in place of GAME_END. */
#define SECOND(chart) "</chart>" chart "\n  </game>\n  <game id=\"g2\""

static const char second[] = SECOND("<chart by=\"ob\" marks=\"risk\">"
                                    "<snap n=\"1\" play=\"pass\" result=\"complete\" read=\"2\" side=\"left\"/>"
                                    "<snap n=\"2\" play=\"pass\" result=\"incomplete\" read=\"2\" risk=\"yes\"/>"
                                    "<snap n=\"3\" play=\"pass\" result=\"complete\" gain=\"1\" coverage=\"0\"/>"
                                    "<snap n=\"5\" play=\"run\" result=\"run\" gain=\"3\"/></chart>");

static int open_world(void **state) {
    ReaderWorld *world = reader_world_new();
    reader_world_change(world, "dossier.xml", GAME_END, second);
    *state = world;
    return 0;
}

static int close_world(void **state) {
    reader_world_free(*state);
    return 0;
}

/* What a second charter leaves out is not missed: nothing is said. */
static const Dossier *load(void **state) {
    const Dossier *dossier = reader_dossier(*state);
    assert_string_equal(reader_said(*state), "");
    assert_non_null(dossier);
    return dossier;
}

static void test_model(void **state) {
    const Dossier *dossier = load(state);
    assert_int_equal(dossier->second_chart_count, 1);
    const SecondChart *chart = &dossier->second_charts[0];
    static const int match[] = {0, 1, 2, -1};
    assert_int_equal(chart->game, 0);
    assert_string_equal(chart->by, "ob");
    assert_string_equal(chart->marks, "risk");
    assert_int_equal(chart->count, 4);
    assert_int_equal(chart->columns.rows, 4);
    for (size_t i = 0; i < 4; i++) assert_int_equal(chart->match[i], match[i]);
    assert_int_equal(chart->snaps[3].number, 5);
    assert_string_equal(chart->snaps[3].name, "g1.5");
}

/* The first chart stands as it did. */
static void test_first_counts(void **state) {
    const Dossier *dossier = load(state);
    assert_int_equal(dossier->snap_count, 9);
    assert_int_equal(dossier->columns.rows, 9);
    assert_string_equal(dossier->games[0].by, "rk");
    assert_int_equal(dossier->games[0].row_count, 7);
    assert_int_equal(dossier->games[1].first_row, 7);
    assert_int_equal(dossier_snap(dossier, "g1.5"), -1);
    assert_true(dossier->columns.columns[profile_field(dossier->profile, "gain")].number[2] == -7);
}

/* The word of a cell of the second chart, "?" unknown, "-" not applicable. */
static const char *cell(void **state, const Dossier *dossier, size_t row, const char *id) {
    int index = profile_field(dossier->profile, id);
    assert_true(index >= 0);
    const Column *column = &dossier->second_charts[0].columns.columns[index];
    if (column->state[row] == VALUE_UNKNOWN) return "?";
    if (column->state[row] == VALUE_NOT_APPLICABLE) return "-";
    if (dossier->profile->fields[index].value_count) return dossier->profile->words[(int)column->number[row]];
    return arena_printf(reader_arena(*state), "%g", column->number[row]);
}

/* Blanks, exceptions and derived fields are settled by the second chart's own words, not by the first's. */
static void test_values(void **state) {
    static const struct {
        size_t row;
        const char *field, *value;
    } cells[] = {
        {0, "read", "2"},     {0, "side", "left"}, {0, "risk", "no"},  {1, "risk", "yes"},    {1, "side", "?"},
        {0, "coverage", "?"}, {0, "gain", "?"},    {2, "gain", "1"},   {2, "family", "man"},  {2, "thrown", "yes"},
        {3, "read", "-"},     {3, "risk", "-"},    {0, "family", "?"}, {0, "touchdown", "?"}, {3, "passing", "no"},
    };
    const Dossier *dossier = load(state);
    for (size_t i = 0; i < sizeof cells / sizeof *cells; i++) {
        const char *value = cell(state, dossier, cells[i].row, cells[i].field);
        if (strcmp(value, cells[i].value) == 0) continue;
        fail_msg("%s of snap %zu is %s, not %s", cells[i].field, cells[i].row, value, cells[i].value);
    }
}

static void test_dump(void **state) {
    Buf dump = {0};
    dossier_dump(load(state), &dump);
    const char *at = strstr(buf_text(&dump), " second chart of g1 by=ob marks=\"risk\"\n");
    assert_non_null(at);
    assert_non_null(strstr(at, "  snap g1.3 play=pass result=complete gain=1 coverage=0\n"));
    assert_true(at < strstr(buf_text(&dump), "game g2"));
    assert_null(strstr(at + 2, "second chart"));
    buf_free(&dump);
}

#define SNAP "<snap n=\"1\" play=\"pass\" result=\"complete\"/>"

static const ReaderFault faults[] = {
    {"dossier.xml", GAME_END, SECOND("\n<chart by=\"rk\">" SNAP "</chart>"),
     "dossier.xml:24:12: error: game g1 is charted twice by 'rk' [duplicate] (a second chart is another evaluator's) "
     "+ dossier.xml:15:5"},
    {"dossier.xml", GAME_END, SECOND("\n<chart by=\"ob\">" SNAP "</chart>\n<chart by=\"ob\">" SNAP "</chart>"),
     "dossier.xml:25:12: error: game g1 is charted twice by 'ob' [duplicate] (a second chart is another evaluator's) "
     "+ dossier.xml:24:1"},
    {"dossier.xml", GAME_END, SECOND("\n<chart by=\"obb\">" SNAP "</chart>"),
     "dossier.xml:24:12: error: there is no evaluator 'obb' [reference] (did you mean 'ob'?)"},
    {"dossier.xml", GAME_END, SECOND("\n<chart>" SNAP "</chart>"),
     "dossier.xml:24:1: error: a game with several charts says who charted each [attribute-missing] (write by=\"…\" "
     "with the evaluator's id)"},
    {"dossier.xml", GAME_END, SECOND("\n<chart by=\"ob\" media=\"wk9\">" SNAP "</chart>"),
     "dossier.xml:24:23: error: there is no media 'wk9' [reference] (did you mean 'wk4'?)"},
    {"dossier.xml", GAME_END, SECOND("\n<chart by=\"ob\" marks=\"down\">" SNAP "</chart>"),
     "dossier.xml:24:23: error: 'down' is not a field that is marked when it happens [reference] (it is one of: "
     "touchdown, penalty, risk)"},
    {"dossier.xml", GAME_END, SECOND("\n<chart by=\"ob\">" SNAP "\n" SNAP "</chart>"),
     "dossier.xml:25:10: error: snap g1.1 stands twice [duplicate] + dossier.xml:24:16"},
    {"dossier.xml", GAME_END, SECOND("\n<chart by=\"ob\"><snap n=\"1\" covrage=\"3\"/></chart>"),
     "dossier.xml:24:28: error: a passer is not charted by 'covrage' [field-unknown] (did you mean 'coverage'?)"},
    {"dossier.xml", GAME_END, SECOND("\n<chart by=\"ob\"><snap n=\"1\" read=\"7\"/></chart>"),
     "dossier.xml:24:34: error: 'read' cannot be '7' [field-range] (it is a whole number from 0 to 6)"},
    {"dossier.xml", GAME_END,
     SECOND("\n<chart by=\"ob\"><snap n=\"1\" result=\"run\" read=\"1\"/>"
            "<snap n=\"2\" result=\"run\" read=\"1\"/></chart>"),
     "dossier.xml:24:41: note: 'read' is charted on 2 snaps of g1 as ob charted it where it does not apply, first "
     "g1.1 [field-not-applicable] (it applies where @thrown='yes')"},
};

static void test_faults(void **state) {
    (void)state;
    READER_CHECK_FAULTS(faults);
}

/* The first chart must be signed too. */
static void test_unsigned_first(void **state) {
    reader_world_change(*state, "dossier.xml", "<chart by=\"rk\"", "<chart");
    reader_dossier(*state);
    assert_string_equal(reader_said(*state),
                        "dossier.xml:15:5: error: a game with several charts says who charted each "
                        "[attribute-missing] (write by=\"…\" with the evaluator's id)");
}

/* A misspelt field of a second chart does not excuse the first chart's blank. */
static void test_no_excuse(void **state) {
    reader_world_change(*state, "dossier.xml", " read=\"1\" depth=\"6\"", " depth=\"6\"");
    reader_world_change(*state, "dossier.xml", " read=\"2\" side=\"left\"/>", " raed=\"2\" side=\"left\"/>");
    reader_dossier(*state);
    const char *said = reader_said(*state);
    assert_non_null(strstr(said, "'read' is not charted on g1.1"));
    assert_non_null(strstr(said, "did you mean 'read'?"));
}

static void test_too_many(void **state) {
    ReaderWorld *world = *state;
    Buf charts = {0};
    BUF_PUT(&charts, "</chart>");
    for (int i = 0; i < DOSSIER_MOST_SECOND_CHARTS; i++) BUF_PUT(&charts, "<chart by=\"ob\"/>");
    BUF_PUT(&charts, "\n  </game>\n  <game id=\"g2\"");
    reader_world_change(world, "dossier.xml", GAME_END, buf_text(&charts));
    assert_null(reader_dossier(world));
    assert_string_equal(reader_said(world), "dossier.xml:2:1: error: a dossier has at most 1000 second charts of its "
                                            "games; this has 1001 [xml-limit]");
    buf_free(&charts);
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_model),          IN_WORLD(test_first_counts),   IN_WORLD(test_values),    IN_WORLD(test_dump),
        cmocka_unit_test(test_faults), IN_WORLD(test_unsigned_first), IN_WORLD(test_no_excuse), IN_WORLD(test_too_many),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
