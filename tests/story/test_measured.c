/* Measurables on the page: percentiles, the nearest players, and what has no population. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "story/help_charts.h"

static int open_world(void **state) {
    *state = reader_world_new();
    return 0;
}

static int close_world(void **state) {
    reader_world_free(*state);
    return 0;
}

#define SCALE_HEAD                                                                                                     \
    "<scale format=\"1\" id=\"own\" name=\"passers of the league\" profile=\"passer\" years=\"2020\" source=\"The "    \
    "league\""

/* 32 players at the corners of a box of height, weight and forty, of whom the first nine benched. */
static const char *rows_scale(ReaderWorld *world) {
    Buf xml = {0};
    buf_puts(&xml, SCALE_HEAD "><rows kinds=\"bench height weight forty\">");
    for (int row = 0; row < 32; row++) {
        buf_printf(&xml, "<row id=\"r%d\"", row);
        if (row % 2) buf_printf(&xml, " label=\"PA %d\"", 2000 + row);
        buf_printf(&xml, " values=\"%s %d %d %s\"/>", row < 9 ? "20" : "-", row & 1 ? 77 : 73, row & 2 ? 230 : 210,
                   row & 4 ? "4.9" : "4.7");
    }
    buf_puts(&xml, "</rows></scale>");
    const char *text = arena_copy(reader_arena(world), xml.bytes, xml.length);
    buf_free(&xml);
    return text;
}

static const char *story_with(ReaderWorld *world, const char *scale, const char *measurables, SectionKind kind) {
    if (scale) reader_world_write(world, "scales/passer.xml", scale);
    reader_world_change(world, "profiles/passer.xml", "<measurable kind=\"forty\" better=\"less\"/>",
                        "<measurable kind=\"forty\" better=\"less\"/><measurable kind=\"weight\"/>"
                        "<measurable kind=\"bench\"/>");
    reader_world_change(world, "dossier.xml", "<measurable kind=\"forty\" value=\"4.81\" timing=\"hand\"/>",
                        measurables);
    const Dossier *dossier = reader_dossier(world);
    const Scale *found =
        scale ? scale_load(reader_arena(world), reader_folder(world), "passer", reader_diagnostics(world)) : NULL;
    assert_string_equal(reader_said(world), "");
    assert_true(!scale == !found);
    return charted_section(world, findings_compute(reader_arena(world), dossier, found), kind);
}

static const char MEASURED[] = "<measurable kind=\"forty\" value=\"4.85\" timing=\"hand\"/>"
                               "<measurable kind=\"weight\" value=\"226\"/><measurable kind=\"bench\" value=\"19\"/>";

static void test_nearest(void **state) {
    const char *text = story_with(*state, rows_scale(*state), MEASURED, SECTION_MEASURABLES);
    assert_says(text, "head 2 \"Nearest in build and test\" (passers of the league)");
    assert_says(text, "row Vashti | 6044 | 226 | 4.85 | \u2013\n");
    assert_says(text, "row PA 2007~ \u00b7 r7~ | 6050 | 230 | 4.90 | 0.");
    assert_silent(text, "r0"); /* at the far corner */
    assert_says(text, "Mahalanobis distance over height, weight and 40 yards");
    assert_says(text, "in the 32\u00a0rows of the population, of 32\u00a0rows, that have all three kinds");
    assert_says(text,
                "Hand-timed, taken as timed: 40 yards. Not verified: weight. Left out, because with it fewer than 30 "
                "rows are complete: bench press.");
}

/* A row without a label is known by its id. */
static void test_bare_rows(void **state) {
    Buf bare = {0};
    for (const char *at = rows_scale(*state); *at;) {
        const char *label = strstr(at, " label=");
        buf_put(&bare, at, label ? (size_t)(label - at) : strlen(at));
        at = label ? strstr(label, " values=") : "";
    }
    const char *text = story_with(*state, buf_text(&bare), MEASURED, SECTION_MEASURABLES);
    assert_says(text, "row r7 | 6050 | 230 | 4.90 | 0.");
    buf_free(&bare);
}

/* Two kinds are no comparison, and without one nothing is said of it. */
static void test_no_nearest(void **state) {
    const char *text =
        story_with(*state, rows_scale(*state), "<measurable kind=\"weight\" value=\"226\"/>", SECTION_MEASURABLES);
    assert_silent(text, "Nearest in build");
    assert_says(text, "ties counted half");
}

/* Of 32 rows 16 weigh less than 226; 4.85 beats the 16 that ran 4.9, and a lower time is the better one. */
static void test_percentiles(void **state) {
    const char *text = story_with(*state, rows_scale(*state), MEASURED, SECTION_MEASURABLES);
    assert_says(text, "Weight 226 lb, percentile 50 of 32");
    assert_says(text, "40 yards 4.85 s, hand, percentile 50 of 32");
    assert_says(text, "Bench press 19, percentile 0 of 9");
    assert_says(text, "row Height | 76.5 | 6 ft 4\u00bd in | 50 | 32 | verified");
    assert_says(text, "Source: The league. A percentile");
}

static void test_quantiles(void **state) {
    const char *text =
        story_with(*state,
                   SCALE_HEAD " licence=\"free\"><measurable kind=\"height\" n=\"9\">"
                              "<q p=\"5\" value=\"75.5\"/><q p=\"95\" value=\"77.5\"/></measurable></scale>",
                   MEASURED, SECTION_MEASURABLES);
    assert_says(text, "Height 6 ft 4\u00bd in, percentile 50 of 9");
    assert_says(text, "40 yards 4.85 s, hand, no comparison population");
    assert_says(text, "read between its published quantiles");
    assert_says(text, "Source: The league (free).");
    assert_silent(text, "Nearest in build");
}

static void test_no_scale(void **state) {
    const char *text = story_with(*state, NULL, MEASURED, SECTION_MEASURABLES);
    assert_says(text, "Height 6 ft 4\u00bd in, no comparison population");
    assert_says(text, "No comparison scale is at hand for this position");
}

/* The strips show what speaks most for a kind: the verified time, not the hand time before it. */
static void test_strips_show_the_best(void **state) {
    const char *text = story_with(*state, rows_scale(*state),
                                  "<measurable kind=\"forty\" value=\"4.60\" timing=\"hand\"/>"
                                  "<measurable kind=\"forty\" value=\"4.75\" status=\"verified\"/>",
                                  SECTION_FRONT);
    assert_says(text, "40 yards 4.75 s, percentile 50 of 32");
    assert_silent(text, "4.60 s");
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_nearest),
        IN_WORLD(test_bare_rows),
        IN_WORLD(test_no_nearest),
        IN_WORLD(test_percentiles),
        IN_WORLD(test_quantiles),
        IN_WORLD(test_no_scale),
        IN_WORLD(test_strips_show_the_best),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
