/* Small samples look small: what the figures are told of few snaps, and what stands where there is nothing to count. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "story/dossier_story.h"
#include "story/help_charts.h"

#define MAN "coverage=\"1\" read=\"1\" "
#define ZONE "coverage=\"3\" read=\"1\" "
#define CAUGHT "result=\"complete\" gain=\"5\" "

static int open_world(void **state) {
    *state = reader_world_new();
    return 0;
}

static int close_world(void **state) {
    reader_world_free(*state);
    return 0;
}

static const Findings *findings_of(void **state, const SnapGroup *groups, size_t count) {
    const Charted charted = {.groups = groups, .group_count = count};
    return charted_findings(*state, &charted);
}

static const Figure *find_figure(const Block *block, FigureKind kind) {
    if (block->figure && block->figure->kind == kind) return block->figure;
    const Figure *found = NULL;
    for (size_t i = 0; i < block->child_count && !found; i++) found = find_figure(block->children[i], kind);
    return found;
}

/* A figure of "the tape in figures". */
static const Figure *tape_figure(void **state, const Findings *findings, FigureKind kind) {
    static LayoutSection section = {.kind = SECTION_FIGURES};
    const Layout layout = {.sections = &section, .section_count = 1};
    const Figure *figure = find_figure(story_dossier(reader_arena(*state), findings, &layout)->root, kind);
    assert_non_null(figure);
    return figure;
}

/* Four snaps are hatched, five are drawn. */
static void test_interval_rows(void **state) {
    static const SnapGroup groups[] = {{4, MAN CAUGHT}, {5, ZONE CAUGHT}};
    const Figure *figure = tape_figure(state, findings_of(state, groups, 2), FIGURE_INTERVAL_ROWS);
    const IntervalRow *rows = figure->as.intervals.rows;
    assert_int_equal(figure->as.intervals.count, 3);
    assert_string_equal(rows[0].label, "Man");
    assert_string_equal(rows[0].count, "4/4");
    assert_true(rows[0].hatched);
    assert_string_equal(rows[1].count, "5/5");
    assert_false(rows[1].hatched);
    assert_false(rows[1].starts_group);
    assert_true(rows[2].starts_group);
}

/* Cells keep their own counts, so that the page tints by them; an empty cell has no value. */
static void test_field(void **state) {
    static const SnapGroup groups[] = {{4, MAN CAUGHT "side=\"left\" depth=\"5\""},
                                       {6, MAN CAUGHT "side=\"right\" depth=\"25\""},
                                       {2, MAN CAUGHT "side=\"right\""}};
    const Figure *figure = tape_figure(state, findings_of(state, groups, 3), FIGURE_THROW_FIELD);
    const ThrowFieldFigure *field = &figure->as.field;
    assert_int_equal(field->lane_count, 3);
    assert_int_equal(field->band_count, 3);
    assert_int_equal(field->cells[1 * 3 + 0].n, 4);
    assert_int_equal(field->cells[2 * 3 + 2].n, 6);
    assert_int_equal(field->cells[0].n, 0);
    assert_true(isnan(field->cells[0].value));
    assert_int_equal(field->lanes[2].total.n, 6);
    assert_says(figure->alt, "left 4 of 4");
    const char *text = charted_section(*state, findings_of(state, groups, 3), SECTION_FIGURES);
    assert_says(text, "not charted on 2, left out.");
}

/* A claim of few snaps has a test without a verdict, its interval hatched. */
static void test_claim(void **state) {
    static const SnapGroup groups[] = {{4, MAN CAUGHT}, {20, ZONE CAUGHT}};
    static const char claim[] =
        "<strength id=\"m\" title=\"Man\" slice=\"man\" against=\"zone\" measure=\"completion-rate\">"
        "<p>Seen.</p><cite snap=\"g1.1\">A catch</cite></strength>";
    static LayoutSection section = {.kind = SECTION_STRENGTHS};
    const Layout layout = {.sections = &section, .section_count = 1};
    const Charted charted = {.groups = groups, .group_count = 2, .claims = claim};
    const Findings *findings = charted_findings(*state, &charted);
    const Story *story = story_dossier(reader_arena(*state), findings, &layout);
    const TapeTest *test = &find_figure(story->root, FIGURE_TAPE_TEST)->as.test;
    assert_int_equal(test->mark, MARK_TOO_FEW);
    assert_string_equal(test->verdict, "too few to say");
    assert_true(test->a.hatched);
    assert_false(test->b.hatched);
    assert_true(test->difference.hatched);
}

/* Without snaps there are no figures, and the page says why. */
static void test_nothing(void **state) {
    const Findings *findings = findings_of(state, NULL, 0);
    const char *text = charted_section(*state, findings, SECTION_FIGURES);
    assert_says(text, "(no film charted)");
    assert_says(text, "No snaps have been charted yet");
    assert_silent(text, "table");
    text = charted_section(*state, findings, SECTION_FRONT);
    assert_says(text, "Film: none charted");
    assert_says(text, "No overall grade is filed yet.");
    assert_says(text, "Nothing has been measured yet.");
    assert_silent(charted_section(*state, findings, SECTION_SNAP_LOG), "section");
    assert_silent(charted_section(*state, findings, SECTION_MEASURABLES), "section");
    assert_silent(charted_section(*state, findings, SECTION_GRADES), "section");
}

/* What was not charted is said beside the measure, and stands in no count. */
static void test_unknown(void **state) {
    static const SnapGroup groups[] = {{6, MAN CAUGHT "depth=\"5\""}, {3, MAN CAUGHT}};
    reader_world_change(*state, "profiles/passer.xml", "unit=\"yards\" places=\"2\"",
                        "unit=\"yards\" places=\"2\" print=\"yes\"");
    const char *text = charted_section(*state, findings_of(state, groups, 2), SECTION_FIGURES);
    assert_says(text, "row Depth | 6 | 5.00 | ");
    assert_says(text, "Not charted on 3.");
}

/* Under five a rate is its count alone, wherever it stands: tables, alternatives, sentences, prose. */
static void test_counts_alone(void **state) {
    static const SnapGroup groups[] = {{4, MAN CAUGHT}, {5, ZONE CAUGHT}};
    const Findings *findings = findings_of(state, groups, 2);
    const char *text = charted_section(*state, findings, SECTION_FIGURES);
    assert_says(text, "Man 4/4, too few to say; Zone 5/5, 100% (57\u2013100);");
    assert_says(text, "row Completions | 9/9 | 100% | 70\u2013100 | ");
    static const SnapGroup sacked[] = {{4, MAN CAUGHT}, {3, "coverage=\"1\" result=\"sack\" gain=\"-5\""}};
    text = charted_section(*state, findings_of(state, sacked, 2), SECTION_FIGURES);
    assert_says(text, "row Completions | 4/4 | \u2013 |  | ");
    assert_says(text, "(all attempts: 4/4, too few for a line behind)");
    text = charted_section(*state, findings_of(state, groups, 1), SECTION_FIGURES);
    assert_says(text, "Four dropbacks are too few to draw");
}

static void test_prose(void **state) {
    static const SnapGroup groups[] = {{4, MAN CAUGHT}, {5, ZONE CAUGHT}};
    const Charted charted = {.groups = groups,
                             .group_count = 2,
                             .bottom_line = "<p>He caught <stat measure=\"completion-rate\" slice=\"man\"/>, "
                                            "<stat measure=\"completion-rate\" slice=\"man\" as=\"interval\"/>, "
                                            "<stat measure=\"completion-rate\" slice=\"zone\"/>.</p>"};
    const char *text = charted_section(*state, charted_findings(*state, &charted), SECTION_FRONT);
    assert_says(text, "He caught #4\u00a0of\u00a04#, #4\u00a0of\u00a04#, #100%#.");
}

/* The sentence under a test of four snaps names no difference, nor does its alternative. */
static void test_claim_words(void **state) {
    static const SnapGroup groups[] = {{4, MAN CAUGHT}, {20, ZONE CAUGHT}};
    static const char claim[] =
        "<strength id=\"m\" title=\"Man\" slice=\"man\" against=\"zone\" measure=\"completion-rate\">"
        "<p>Seen.</p><cite snap=\"g1.1\">A catch</cite></strength>";
    const Charted charted = {.groups = groups, .group_count = 2, .claims = claim};
    const Findings *findings = charted_findings(*state, &charted);
    const char *text = charted_section(*state, findings, SECTION_STRENGTHS);
    assert_says(text, "figure: *Too few to say.* 4 answered on one side; 8 are the least we speak on.");
    assert_says(text, "<Man 4/4, too few to say; Zone 20/20, 100% (84\u2013100); too few to say.>");
    assert_says(charted_section(*state, findings, SECTION_WATCH), "| too few to say | 4/4 |");
    assert_says(charted_section(*state, findings, SECTION_FRONT), "Man: man 4/4, too few to say; zone 20/20, 100%");
}

/* A standard has a value and no count, however few it is held against. */
static void test_standard(void **state) {
    static const SnapGroup groups[] = {{9, MAN CAUGHT}};
    static const char claim[] = "<strength id=\"m\" title=\"Man\" slice=\"man\" against=\"standard\" "
                                "measure=\"completion-rate\"><p>Seen.</p><cite snap=\"g1.1\">A catch</cite></strength>";
    static LayoutSection section = {.kind = SECTION_STRENGTHS};
    const Layout layout = {.sections = &section, .section_count = 1};
    const Charted charted = {.groups = groups, .group_count = 1, .claims = claim};
    const Findings *findings = charted_findings(*state, &charted);
    const Story *story = story_dossier(reader_arena(*state), findings, &layout);
    const TapeTest *test = &find_figure(story->root, FIGURE_TAPE_TEST)->as.test;
    assert_false(test->b.hatched);
    assert_true(test->b.open);
    assert_string_equal(test->b.count, "");
    assert_string_equal(test->b.value, "60%");
}

/* What a claim's other side does not know is said as well. */
static void test_unknown_sides(void **state) {
    static const SnapGroup groups[] = {
        {9, MAN CAUGHT "risk=\"no\""}, {2, MAN CAUGHT}, {9, ZONE CAUGHT "risk=\"no\""}, {3, ZONE CAUGHT}};
    static const char claim[] =
        "<concern id=\"r\" title=\"Risks\" slice=\"man\" against=\"zone\" measure=\"risk-rate\">"
        "<p>Seen.</p><cite snap=\"g1.1\">A hand on it</cite></concern>";
    reader_world_change(*state, "profiles/passer.xml", "label=\"At risk\"", "label=\"At risk\" noun=\"throws\"");
    for (size_t first = 0; first < 3; first += 2) {
        const Charted charted = {
            .groups = groups + first, .group_count = 4 - first, .claims = claim, .marks = "touchdown penalty"};
        const char *text = charted_section(*state, charted_findings(*state, &charted), SECTION_CONCERNS);
        assert_says(text, first ? "Not charted, left out: 0 and 3." : "Not charted, left out: 2 and 3.");
    }
}

/* Figures by place say what found no answer. */
static void test_unknown_in_figures(void **state) {
    static const SnapGroup groups[] = {{6, MAN CAUGHT "risk=\"no\""}, {3, MAN CAUGHT}};
    reader_world_change(*state, "profiles/passer.xml", "<figure kind=\"throw-field\" title=\"Where\"",
                        "<figure kind=\"situations\" title=\"Downs\" measure=\"risk-rate\"/>"
                        "<figure kind=\"throw-field\" title=\"Risks\" lateral=\"side\" depth=\"depth-band\" "
                        "measure=\"risk-rate\"/><figure kind=\"throw-field\" title=\"Where\"");
    const Charted charted = {.groups = groups, .group_count = 2, .marks = "touchdown penalty"};
    const char *text = charted_section(*state, charted_findings(*state, &charted), SECTION_FIGURES);
    assert_says(text, "figure \"Downs\" (at risk / dropbacks): Not charted and left out: at risk on 3.");
    assert_says(text, "Depth or side not charted on 6, left out. At risk not charted on 3, left out.");
}

/* A claim that the film contradicts is counted on the front page beside those it bears out. */
static void test_front_counts(void **state) {
    static const SnapGroup groups[] = {{12, MAN "result=\"incomplete\" gain=\"0\""}, {12, ZONE CAUGHT}};
    static const char claim[] =
        "<strength id=\"m\" title=\"Man\" slice=\"man\" against=\"zone\" measure=\"completion-rate\">"
        "<p>Seen.</p><cite snap=\"g1.1\">A miss</cite></strength>";
    const Charted charted = {.groups = groups, .group_count = 2, .claims = claim};
    const char *text = charted_section(*state, charted_findings(*state, &charted), SECTION_FRONT);
    assert_says(text, "Claims: 1; 0 borne out, 1 contradicted, 0 open");
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_interval_rows), IN_WORLD(test_field),        IN_WORLD(test_claim),
        IN_WORLD(test_nothing),       IN_WORLD(test_unknown),      IN_WORLD(test_counts_alone),
        IN_WORLD(test_prose),         IN_WORLD(test_claim_words),  IN_WORLD(test_standard),
        IN_WORLD(test_unknown_sides), IN_WORLD(test_front_counts), IN_WORLD(test_unknown_in_figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
