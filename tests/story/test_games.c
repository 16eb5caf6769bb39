/* The games, and opponents met again, in numbers. */
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

typedef struct GamePlan {
    const char *attributes;       /* of the game */
    int caught, missed, unmarked; /* throws; the last of which nobody noted how they ended */
} GamePlan;

static void put_snaps(Buf *xml, int *number, int count, const char *attributes) {
    for (int i = 0; i < count; i++) {
        buf_printf(xml, "<snap n=\"%d\" down=\"1\" distance=\"10\" spot=\"-25\" play=\"pass\" %s/>", ++*number,
                   attributes);
    }
}

static const char *story_of(ReaderWorld *world, const GamePlan *games, size_t count) {
    Buf xml = {0};
    buf_puts(&xml, "<dossier format=\"1\" id=\"x\" profile=\"passer\"><player position=\"QB\"><name><given>T</given>"
                   "<family>V</family></name><school>H</school></player><filing by=\"rk\" on=\"2031-11-18\"/>");
    for (size_t g = 0; g < count; g++) {
        int number = 0;
        buf_printf(&xml, "<game id=\"g%zu\" %s><chart by=\"rk\" marks=\"touchdown penalty\">", g + 1,
                   games[g].attributes);
        put_snaps(&xml, &number, games[g].caught, "coverage=\"1\" read=\"1\" result=\"complete\" gain=\"5\"");
        put_snaps(&xml, &number, games[g].missed, "coverage=\"1\" read=\"1\" result=\"incomplete\" gain=\"0\"");
        put_snaps(&xml, &number, games[g].unmarked,
                  "coverage=\"1\" read=\"1\" result=\"complete\" gain=\"5\" risk=\"yes\"");
        buf_puts(&xml, "</chart></game>");
    }
    buf_puts(&xml, "<bottom-line><p>Draft him.</p></bottom-line></dossier>");
    reader_world_write(world, "dossier.xml", buf_text(&xml));
    buf_free(&xml);
    const Dossier *dossier = reader_dossier(world);
    assert_string_equal(reader_said(world), "");
    return charted_section(world, findings_compute(reader_arena(world), dossier, NULL), SECTION_FIGURES);
}

static const GamePlan SEASON[] = {
    {"on=\"2031-09-06\" opponent=\"Fenwick\" site=\"home\" result=\"W 20-17\"", 8, 2, 0},
    {"on=\"2031-09-13\" opponent=\"Sallow Creek\" site=\"away\"", 3, 1, 0},
    {"on=\"2031-11-29\" opponent=\"Fenwick\" site=\"away\" result=\"L 3-6\"", 5, 5, 0},
};

/* Counts as wilson's interval (R: binom::binom.wilson(8, 10) gives 0.490 to 0.943). */
static void test_games(void **state) {
    const char *text = story_of(*state, SEASON, 3);
    assert_says(text, "head 2 \"The games in numbers\"");
    assert_says(text, "row *g1 Fenwick*~ 6\u00a0Sep, W 20\u201317~ | 8/10\u00a0*80%*~ 49\u201394~\n");
    assert_says(text, "row *g2 at Sallow Creek*~ 13\u00a0Sep~ | 3/4\n"); /* too few for a rate */
    assert_says(text, "row *g3 at Fenwick*~ 29\u00a0Nov, L 3\u20136~ | 5/10\u00a0*50%*~ 24\u201376~\n");
    assert_says(text, "row *All games* | 16/24\u00a0*67%*~ 47\u201382~\n");
    assert_says(text, "Counted, rate and its 95% interval; under 5 the count alone.");
    assert_silent(text, "Not charted and left out");
}

static void test_opponents(void **state) {
    const char *text = story_of(*state, SEASON, 3);
    assert_says(text, "head 2 \"By opponent\" (met more than once)");
    assert_says(text, "row *Fenwick*~ g1, g3~ | 13/20\u00a0*65%*~ 43\u201382~\n");
    assert_silent(text, "row *Sallow Creek*");
    text = story_of(*state, SEASON, 2); /* nobody is met twice */
    assert_says(text, "The games in numbers");
    assert_silent(text, "By opponent");
}

static void test_one_game(void **state) {
    assert_silent(story_of(*state, SEASON, 1), "The games in numbers");
}

/* The tables stand under the trend where the profile draws one, and once. */
static void test_under_the_trend(void **state) {
    reader_world_change(*state, "profiles/passer.xml", "<figure kind=\"interval-rows\"",
                        "<figure kind=\"game-trend\" title=\"Trend\" measures=\"completion-rate\"/>"
                        "<figure kind=\"interval-rows\"");
    const char *text = story_of(*state, SEASON, 3);
    const char *trend = strstr(text, "\"Trend\"");
    const char *games = strstr(text, "The games in numbers");
    assert_non_null(trend);
    assert_non_null(games);
    assert_true(trend < games && games < strstr(text, "\"When\""));
    assert_null(strstr(games + 1, "The games in numbers"));
}

/* A printed rate of which nothing is known in a game has a dash; what was not charted is said below. */
static void test_not_charted(void **state) {
    static const GamePlan games[] = {
        {"on=\"2031-09-06\" opponent=\"Fenwick\" site=\"home\"", 3, 3, 2},
        {"on=\"2031-09-13\" opponent=\"Sallow Creek\" site=\"away\"", 0, 2, 0},
    };
    reader_world_change(*state, "profiles/passer.xml", "of=\"@thrown='yes'\" where=\"@risk='yes'\"",
                        "of=\"@result='complete'\" where=\"@risk='yes'\" print=\"yes\" noun=\"throws\"");
    const char *text = story_of(*state, games, 2);
    assert_says(text, "row *g1 Fenwick*~ 6\u00a0Sep~ | 5/8\u00a0*63%*~ 31\u201386~ | 2/2\n");
    assert_says(text, "row *g2 at Sallow Creek*~ 13\u00a0Sep~ | 0/2 | ~\u2013~\n");
    assert_says(text, "Not charted and left out. At risk: g1 3.");
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_games),           IN_WORLD(test_opponents),   IN_WORLD(test_one_game),
        IN_WORLD(test_under_the_trend), IN_WORLD(test_not_charted),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
