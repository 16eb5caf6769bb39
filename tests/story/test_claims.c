/* Strengths and concerns: what stands under the test of a claim, for every verdict. The values of p are Fisher's exact
 * test, two-sided, as R 4.2 gives it (fisher.test); intervals are Wilson's and Newcombe's and have tests of their own.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "story/help_charts.h"

#define MAN "coverage=\"1\" read=\"1\" "
#define ZONE "coverage=\"3\" read=\"1\" "
#define CAUGHT "result=\"complete\" gain=\"5\" "
#define MISSED "result=\"incomplete\" gain=\"0\" "
#define P "p\u00a0"

static const char STRENGTH[] =
    "<strength id=\"man\" title=\"Better against man\" slice=\"man\" against=\"zone\" measure=\"completion-rate\">"
    "<p>Seen often.</p><cite snap=\"g1.1\">A catch</cite></strength>";

static int open_world(void **state) {
    *state = reader_world_new();
    return 0;
}

static int close_world(void **state) {
    reader_world_free(*state);
    return 0;
}

static const char *section_of(ReaderWorld *world, SectionKind kind, const SnapGroup *groups, size_t count,
                              const char *claims) {
    const Charted charted = {.groups = groups, .group_count = count, .claims = claims};
    return charted_section(world, charted_findings(world, &charted), kind);
}

#define SECTION(state, kind, groups, claims)                                                                           \
    section_of(*(state), (kind), (groups), sizeof(groups) / sizeof *(groups), (claims))

/* A strength tested on passes caught and missed against man, and against zone. */
static const char *caught(void **state, int man_caught, int man_missed, int zone_caught, int zone_missed) {
    const SnapGroup groups[] = {
        {man_caught, MAN CAUGHT}, {man_missed, MAN MISSED}, {zone_caught, ZONE CAUGHT}, {zone_missed, ZONE MISSED}};
    return SECTION(state, SECTION_STRENGTHS, groups, STRENGTH);
}

/* p = .00024 */
static void test_borne_out(void **state) {
    const char *text = caught(state, 18, 2, 6, 14);
    assert_says(text, "section \"Strengths\" (one claim, tested on every charted snap;");
    assert_says(text, "figure: *Borne out.* Completions 60 points higher against man. Adjusted " P
                      "under 0.001. Cites 1 of 20.");
    assert_says(text,
                "<Man 18/20, 90% (70\u201397); Zone 6/20, 30% (15\u201352); difference +60 (+30 to +77); borne out.>");
    assert_silent(text, "settle");
}

static void test_contradicted(void **state) {
    const char *text = caught(state, 6, 14, 18, 2);
    assert_says(text, "(one claim; one contradicted by the tape, and kept;");
    assert_says(text, "figure: *Contradicted.* Completions 60 points lower against man. Adjusted " P
                      "under 0.001. Cites 1 of 20.");
    assert_says(text, "difference \u221260 (\u221277 to \u221230); contradicted.>");
}

/* p = .527 */
static void test_leaning(void **state) {
    const char *text = caught(state, 12, 8, 9, 11);
    assert_says(text,
                "figure: *Leaning.* Completions 15 points higher against man. Not clear of chance: adjusted " P "0.53. "
                "To settle it would take more than a season can show. Cites 1 of 20.");
    assert_silent(text, "claims tested");
}

static void test_leaning_against(void **state) {
    const char *text = caught(state, 9, 11, 12, 8);
    assert_says(text,
                "figure: *Leaning against.* Completions 15 points lower against man. Not clear of chance: adjusted " P
                "0.53.");
}

/* Seven answered snaps are too few however clear they are; eight are enough. p = .0070 of 8/8 and 3/10. */
static void test_too_few(void **state) {
    const char *seven = caught(state, 7, 0, 3, 7);
    assert_says(seven, "figure: *Too few to say.* Completions 70 points higher against man. 7 answered on one side; "
                       "8 are the least we speak on. 1 more, were these rates true, would settle it. Cites 1 of 7.");
    assert_says(caught(state, 8, 0, 3, 7),
                "figure: *Borne out.* Completions 70 points higher against man. Adjusted " P "0.004.");
    const char *few_others = caught(state, 20, 0, 3, 4);
    assert_says(few_others,
                "figure: *Too few to say.* Completions 57 points higher against man. 7 answered on one side;");
    assert_silent(few_others, "would settle it"); /* more of man would not */
}

static void test_other_side_is_empty(void **state) {
    const char *text = caught(state, 9, 3, 0, 0);
    assert_says(text, "figure: *Too few to say.*");
    assert_says(text, "Cites 1 of 12.");
    assert_silent(text, "higher");
}

/* What nobody charted is left out, and said. */
static void test_unknown(void **state) {
    static const SnapGroup groups[] = {
        {9, MAN CAUGHT "risk=\"no\""}, {3, MAN CAUGHT "risk=\"yes\""}, {4, MAN CAUGHT}, {9, ZONE CAUGHT "risk=\"no\""}};
    static const char claim[] =
        "<concern id=\"r\" title=\"Risks\" slice=\"man\" against=\"zone\" measure=\"risk-rate\">"
        "<p>Seen.</p><cite snap=\"g1.10\">A hand on it</cite></concern>";
    reader_world_change(*state, "profiles/passer.xml", "label=\"At risk\"", "label=\"At risk\" noun=\"throws\"");
    const Charted charted = {.groups = groups, .group_count = 4, .claims = claim, .marks = "touchdown penalty"};
    const char *text = charted_section(*state, charted_findings(*state, &charted), SECTION_CONCERNS);
    assert_says(text, "At risk 25 points higher against man.");
    assert_says(text, "Not charted, left out: 4 and 0. Cites 1 of 12.");
    assert_says(text, "<Man 3/12, 25%");
}

/* p = .0248 alone; among three claims, the others at 1, it is adjusted to .0745. The interval is clear all the same. */
static void test_one_of_many(void **state) {
    static const SnapGroup groups[] = {{15, MAN CAUGHT}, {5, MAN MISSED}, {7, ZONE CAUGHT}, {13, ZONE MISSED}};
    Buf claims = {0};
    buf_puts(&claims, STRENGTH);
    for (int i = 0; i < 2; i++) {
        buf_printf(&claims,
                   "<strength id=\"c%d\" title=\"Risks little\" slice=\"man\" against=\"zone\" measure=\"risk-rate\">"
                   "<p>Seen.</p><cite snap=\"g1.1\">A catch</cite></strength>",
                   i);
    }
    const char *text = SECTION(state, SECTION_STRENGTHS, groups, buf_text(&claims));
    assert_says(text, "*Leaning.* Completions 40 points higher against man. Not clear of chance: adjusted " P
                      "0.075, one of 3 claims tested.");
    buf_free(&claims);
}

/* Against the rest of the throws, and against the profile's standard of 60 per cent. */
static void test_other_sides(void **state) {
    static const SnapGroup groups[] = {{12, MAN CAUGHT}, {6, ZONE CAUGHT}, {6, ZONE MISSED}};
    static const char rest[] = "<strength id=\"m\" title=\"Man\" slice=\"man\" measure=\"completion-rate\"><p>Seen.</p>"
                               "<cite snap=\"g1.1\">A catch</cite></strength>";
    static const char standard[] =
        "<strength id=\"m\" title=\"Man\" slice=\"man\" against=\"standard\" "
        "measure=\"completion-rate\"><p>Seen.</p><cite snap=\"g1.1\">A catch</cite></strength>";
    assert_says(SECTION(state, SECTION_STRENGTHS, groups, rest),
                "<Man 12/12, 100% (76\u2013100); The rest 6/12, 50% (25\u201375);");
    const char *text = SECTION(state, SECTION_STRENGTHS, groups, standard);
    assert_says(text, "; Standard, 60%");
    assert_says(text, "Completions 40 points higher against man. Adjusted " P);
}

/* A mean is said in its unit and places, without points. */
static void test_mean(void **state) {
    static const SnapGroup groups[] = {
        {10, MAN CAUGHT "depth=\"9\""}, {10, MAN CAUGHT "depth=\"10\""}, {20, ZONE CAUGHT "depth=\"4\""}};
    static const char claim[] =
        "<strength id=\"d\" title=\"Deeper\" slice=\"man\" against=\"zone\" measure=\"target-depth\" "
        "expect=\"more\"><p>Seen.</p><cite snap=\"g1.1\">A catch</cite></strength>";
    const char *text = SECTION(state, SECTION_STRENGTHS, groups, claim);
    assert_says(text, "Depth 5.50 yards higher against man.");
    assert_says(text, "<Man 20, 9.50 (");
    assert_silent(text, "points");
}

/* Which snaps are cited, with what they show, and those against. */
static void test_cites(void **state) {
    static const SnapGroup groups[] = {{9, MAN CAUGHT "clock=\"9:05\" in=\"0:21:40.2\""}, {9, ZONE MISSED}};
    static const char claim[] =
        "<strength id=\"man\" title=\"Better against man\" slice=\"man\" against=\"zone\" "
        "measure=\"completion-rate\"><p>As on <cite snap=\"g1.2\"/>.</p><cite snap=\"g1.1\">A catch</cite>"
        "<cite snap=\"g1.3\" against=\"yes\">A lucky one</cite></strength>";
    const char *text = SECTION(state, SECTION_STRENGTHS, groups, claim);
    assert_says(text, "head 3 \"Better against man\" #claim-man");
    assert_says(text, "paragraph: As on @g1.2@[snap-g1.2].");
    assert_says(text, "row @g1.1@[snap-g1.1] | ");
    assert_says(text, " | 1st\u00a0&\u00a010 | \u221225 | A catch | 0:21:40\n");
    assert_says(text, "row @g1.3@[snap-g1.3] | ");
    assert_says(text, "*Against: *A lucky one");
    assert_says(text, "Cites 2 of 9.");
}

/* A section without claims is left out. */
static void test_no_claims(void **state) {
    static const SnapGroup groups[] = {{3, MAN CAUGHT}};
    assert_silent(SECTION(state, SECTION_STRENGTHS, groups, NULL), "section");
    assert_silent(SECTION(state, SECTION_CONCERNS, groups, STRENGTH), "section");
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_borne_out),   IN_WORLD(test_contradicted),
        IN_WORLD(test_leaning),     IN_WORLD(test_leaning_against),
        IN_WORLD(test_too_few),     IN_WORLD(test_other_side_is_empty),
        IN_WORLD(test_unknown),     IN_WORLD(test_one_of_many),
        IN_WORLD(test_other_sides), IN_WORLD(test_mean),
        IN_WORLD(test_cites),       IN_WORLD(test_no_claims),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
