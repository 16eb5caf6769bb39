/* The methods page tells of what the dossier uses, and of nothing else. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "story/help_charts.h"

#define MAN "coverage=\"1\" read=\"1\" "
#define ZONE "coverage=\"3\" read=\"1\" "

static int open_world(void **state) {
    *state = reader_world_new();
    return 0;
}

static int close_world(void **state) {
    reader_world_free(*state);
    return 0;
}

static const SnapGroup GROUPS[] = {
    {9, MAN "result=\"complete\" gain=\"5\""},  {1, MAN "result=\"incomplete\" gain=\"0\""},
    {3, ZONE "result=\"complete\" gain=\"4\""}, {9, ZONE "result=\"incomplete\" gain=\"0\""},
    {3, ZONE "result=\"complete\" gain=\"9\""},
};

#define CLAIM(id, more)                                                                                                \
    "<strength id=\"" id "\" title=\"Claim\" " more "><p>Seen.</p><cite snap=\"g1.1\">It</cite></strength>"

static const char *methods(void **state, size_t groups, const char *claims) {
    const Charted charted = {.groups = GROUPS, .group_count = groups, .claims = claims};
    return charted_section(*state, charted_findings(*state, &charted), SECTION_METHODS);
}

/* Without film, measurements and grades no figure needs a word. */
static void test_nothing(void **state) {
    assert_silent(methods(state, 0, NULL), "section");
}

static void test_counts_alone(void **state) {
    const char *text = methods(state, 5, NULL);
    assert_says(text, "*Counting.*");
    assert_says(text, "*Rates.* With each rate stands its 95% Wilson score interval");
    assert_says(text, "*Small samples.*");
    assert_says(text, "row Completions"); /* the definitions */
    static const char *const NOT[] = {"*Verdicts.*",    "*Differences.*", "*Tests.*",   "settle it",
                                      "*Percentiles.*", "*Nearest",       "*Agreement", "very film that tests them",
                                      "*Success.*",     "*Single games.*"};
    for (size_t i = 0; i < sizeof NOT / sizeof *NOT; i++) assert_silent(text, NOT[i]);
}

/* A measure that nothing answered is not defined: nobody charted a depth. */
static void test_unanswered_measure(void **state) {
    const char *text = methods(state, 5, NULL);
    assert_silent(text, "row Depth");
    assert_says(text, "row Yards an attempt");
}

static void test_rate_claims(void **state) {
    const char *text = methods(state, 5, CLAIM("a", "slice=\"man\" against=\"zone\" measure=\"completion-rate\""));
    assert_says(text, "*Verdicts.*");
    assert_says(text, "his method 10");
    assert_says(text, "*Tests.* For two rates p is Fisher\u2019s exact test");
    assert_says(text, "Every test is two-sided.\n"); /* one claim needs no adjusting */
    assert_says(text, "very film that tests them");
    assert_silent(text, "binomial");
    assert_silent(text, "the larger of two");
    assert_silent(text, "settle it"); /* it is borne out */
}

static void test_other_claims(void **state) {
    const char *text = methods(state, 5,
                               CLAIM("a", "slice=\"zone\" against=\"standard\" measure=\"completion-rate\"")
                                   CLAIM("b", "slice=\"zone\" against=\"man\" measure=\"yards-per-attempt\""));
    assert_says(text, "For a rate against a standard p is the exact binomial test.");
    assert_says(text, "less the standard.");
    assert_says(text, "For figures that are no rates p is the larger of two");
    assert_says(text, "adjusted over the two claims tested here (Benjamini and Hochberg 1995");
    assert_says(text, "*What would settle it.*");
    assert_silent(text, "Fisher");
}

/* Claims of too few snaps have a verdict in words, and no test. */
static void test_too_few(void **state) {
    const char *text = methods(state, 1, CLAIM("a", "slice=\"man\" against=\"zone\" measure=\"completion-rate\""));
    assert_says(text, "*Verdicts.*");
    assert_silent(text, "*Tests.*");
}

static void test_means(void **state) {
    const char *text = methods(state, 5, NULL);
    assert_says(text, "BCa; Efron 1987");
    assert_says(text, "Hesterberg 2015, The American Statistician 69:371\u2013386");
}

static void test_single_games(void **state) {
    reader_world_change(*state, "profiles/passer.xml", "<figure kind=\"interval-rows\"",
                        "<figure kind=\"game-trend\" title=\"Trend\" measures=\"yards-per-attempt\"/>"
                        "<figure kind=\"interval-rows\"");
    assert_says(methods(state, 5, NULL), "*Single games.*");
}

static const char *success(void **state) {
    reader_world_change(*state, "profiles/passer.xml", "of=\"@thrown='yes'\" where=\"@risk='yes'\"",
                        "of=\"@thrown='yes'\" where=\"@success='yes'\"");
    return methods(state, 5, NULL);
}

static void test_success(void **state) {
    assert_says(success(state),
                "*Success.* This house calls a play a success that gains 40% of the distance on first down, "
                "60% on second");
}

static void test_success_of_another_house(void **state) {
    reader_world_change(*state, "houses/plain.xml", "success=\"40-60-100\"", "success=\"50-70-100\"");
    assert_says(success(state),
                "*Success.* This house calls a play a success that gains 50% of the distance on first down, "
                "70% on second");
}

/* The house's caution on use stands below. */
static void test_caution(void **state) {
    assert_says(methods(state, 5, NULL), "One reading.");
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_nothing),
        IN_WORLD(test_counts_alone),
        IN_WORLD(test_unanswered_measure),
        IN_WORLD(test_rate_claims),
        IN_WORLD(test_other_claims),
        IN_WORLD(test_too_few),
        IN_WORLD(test_means),
        IN_WORLD(test_single_games),
        IN_WORLD(test_success),
        IN_WORLD(test_caution),
        IN_WORLD(test_success_of_another_house),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
