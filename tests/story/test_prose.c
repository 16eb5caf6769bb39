/* The author's prose with its figures computed: every format of a figure, cites, lists. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "story/help_charts.h"

#define NO_BREAK "\u00a0"

/* Against man 6 of 8 for 48 yards, against zone 2 of 4 for 10; depths 5 and, on the missed, 20. */
static const SnapGroup SNAPS[] = {
    {6, "result=\"complete\" gain=\"8\" coverage=\"1\" read=\"1\" depth=\"5\""},
    {2, "result=\"incomplete\" gain=\"0\" coverage=\"1\" read=\"2\" depth=\"20\""},
    {2, "result=\"complete\" gain=\"5\" coverage=\"3\" read=\"1\" depth=\"5\""},
    {2, "result=\"incomplete\" gain=\"0\" coverage=\"3\" read=\"2\" depth=\"20\""},
};

static int open_world(void **state) {
    *state = reader_world_new();
    return 0;
}

static int close_world(void **state) {
    reader_world_free(*state);
    return 0;
}

/* The bottom line as the front page has it. */
static const char *front(void **state, const char *bottom_line) {
    const Charted charted = {.groups = SNAPS, .group_count = 4, .bottom_line = bottom_line};
    return charted_section(*state, charted_findings(*state, &charted), SECTION_FRONT);
}

static void test_rate(void **state) {
    assert_says(front(state, "<p>Caught <stat measure=\"completion-rate\"/> of them.</p>"),
                "paragraph: Caught #67%# of them.\n");
    assert_says(front(state, "<p><stat measure=\"completion-rate\" as=\"rate\" slice=\"man\"/></p>"),
                "paragraph: #75%#\n");
    assert_says(front(state, "<p><stat measure=\"completion-rate\" as=\"k-of-n\" slice=\"zone\"/></p>"),
                "paragraph: #2" NO_BREAK "of" NO_BREAK "4#\n");
    assert_says(front(state, "<p><stat measure=\"completion-rate\" as=\"interval\" slice=\"man\"/></p>"),
                "paragraph: #75%" NO_BREAK "(41\u201393)#\n");
}

static void test_mean(void **state) {
    assert_says(front(state, "<p><stat measure=\"target-depth\"/> yards</p>"), "paragraph: #10.00# yards\n");
    assert_says(front(state, "<p><stat measure=\"target-depth\" slice=\"man\" as=\"value\"/></p>"),
                "paragraph: #8.75#\n");
}

static void test_selection(void **state) {
    assert_says(front(state, "<p><stat measure=\"completion-rate\" when=\"@read=2\" as=\"k-of-n\"/></p>"),
                "paragraph: #0" NO_BREAK "of" NO_BREAK "4#\n");
    assert_says(front(state, "<p><stat measure=\"completion-rate\" slice=\"man\" when=\"@read=1\" as=\"k-of-n\"/></p>"),
                "paragraph: #6" NO_BREAK "of" NO_BREAK "6#\n");
    /* Nothing is counted: no figure is made up. */
    assert_says(front(state, "<p><stat measure=\"completion-rate\" when=\"@down=4\"/></p>"), "paragraph: #\u2013#\n");
}

static void test_totals(void **state) {
    assert_says(front(state, "<p><stat total=\"yards\"/> on <stat total=\"attempts\"/>, <stat total=\"yards\" "
                             "slice=\"zone\"/> of them</p>"),
                "paragraph: #58# on #12#, #10# of them\n");
}

static void test_words(void **state) {
    const char *text = front(
        state, "<p>He is <em>quick</em>, <strong>sure</strong> and a <term>drifter</term> (<cite snap=\"g1.3\"/>).</p>"
               "<list><item>First <stat total=\"attempts\"/>.</item><item>Second.</item></list><p>Last.</p>");
    assert_says(text, "paragraph: He is /quick/, *sure* and a /drifter/ (@g1.3@[snap-g1.3]).\n");
    assert_says(text,
                "list\n          paragraph: First #12#.\n          paragraph: Second.\n        paragraph: Last.\n");
}

/* Two lists with a paragraph between them stay two. */
static void test_lists(void **state) {
    const char *text = front(state, "<list><item>A.</item></list><p>B.</p><list><item>C.</item></list>");
    const char *first = strstr(text, "list\n");
    assert_non_null(first);
    assert_non_null(strstr(first + 1, "list\n          paragraph: C."));
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_rate),   IN_WORLD(test_mean),  IN_WORLD(test_selection),
        IN_WORLD(test_totals), IN_WORLD(test_words), IN_WORLD(test_lists),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
