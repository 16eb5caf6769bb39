/* Snaps as pictures: who stands where by the words of the chart, which route goes where, who rushes and drops, and that
 * nothing is off the field whatever is charted. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "story/play.h"

#define COUNT_OF(array) (sizeof(array) / sizeof *(array))

typedef struct World {
    Arena *arena;
    Diagnostics *diagnostics;
    SourceContext *context;
    const Plays *plays;
} World;

static int open_world(void **state) {
    World *world = mem_alloc(sizeof *world);
    world->arena = arena_new();
    world->diagnostics = diag_new();
    world->context = source_context_new("templates", NULL, world->diagnostics);
    world->plays = source_plays(world->context, (Place){0}, world->diagnostics);
    *state = world;
    return world->plays ? 0 : -1;
}

static int close_world(void **state) {
    World *world = *state;
    diag_free(world->diagnostics);
    source_context_free(world->context);
    arena_free(world->arena);
    free(world);
    return 0;
}

/* ---- asking a picture ---- */

/* A snap of which everything that these tests do not speak of is usual. */
static PlaySnap usual(void) {
    return (PlaySnap){.hash = "M",
                      .personnel = "11",
                      .backfield = "gun",
                      .formation = "2x2",
                      .motion = "none",
                      .drop = "3",
                      .shell = "2-high",
                      .coverage = "3",
                      .front = "even",
                      .sub = "nickel",
                      .to_goal = 60,
                      .distance = 10,
                      .depth = NAN,
                      .read = NAN,
                      .rushers = 4,
                      .box = NAN};
}

static const PlayFigure *draw(World *world, const PlaySnap *snap, const KeySnap *key) {
    return &play_figure(world->arena, world->plays, LEVEL_COLLEGE, snap, key, "g1.1")->as.play;
}

static const PlayMan *man_of(const PlayFigure *play, const char *letter, bool defence) {
    for (size_t i = 0; i < play->man_count; i++) {
        const PlayMan *man = &play->men[i];
        if ((man->mark == PLAY_DEFENDER) == defence && strcmp(man->letter, letter) == 0) return man;
    }
    return NULL;
}

static void assert_at(const PlayFigure *play, const char *letter, bool defence, double x, double y) {
    const PlayMan *man = man_of(play, letter, defence);
    if (!man) fail_msg("there is no %s", letter);
    if (fabs(man->at.x - x) > 0.01 || fabs(man->at.y - y) > 0.01) {
        fail_msg("%s at %.2f %.2f, not %.2f %.2f", letter, man->at.x, man->at.y, x, y);
    }
}

static size_t count_men(const PlayFigure *play, bool defence) {
    size_t count = 0;
    for (size_t i = 0; i < play->man_count; i++) count += (play->men[i].mark == PLAY_DEFENDER) == defence;
    return count;
}

static size_t count_lines(const PlayFigure *play, PlayWay way) {
    size_t count = 0;
    for (size_t i = 0; i < play->line_count; i++) count += play->lines[i].way == way;
    return count;
}

static const PlayLine *line_of(const PlayFigure *play, PlayWay way) {
    for (size_t i = 0; i < play->line_count; i++) {
        if (play->lines[i].way == way) return &play->lines[i];
    }
    return NULL;
}

static YardPoint end_of(const PlayLine *line) {
    return line->points[line->count - 1];
}

/* ---- the field ---- */

/* Rule books: 160 ft wide; hashes 60 ft, 70 ft 9 in and 53 ft 4 in from each sideline. */
static void test_hashes(void **state) {
    World *world = *state;
    static const struct {
        FieldLevel level;
        double feet;
    } levels[] = {{LEVEL_COLLEGE, 60}, {LEVEL_PROFESSIONAL, 70.75}, {LEVEL_HIGH_SCHOOL, 53 + 4.0 / 12}};
    for (size_t i = 0; i < COUNT_OF(levels); i++) {
        PlaySnap snap = usual();
        snap.hash = "L";
        const PlayFigure *play = &play_figure(world->arena, world->plays, levels[i].level, &snap, NULL, "")->as.play;
        assert_true(fabs((play->right - play->left) * 3 - 160) < 1e-9);
        assert_true(fabs(-play->left * 3 - levels[i].feet) < 1e-9);
        assert_true(fabs(play->hashes[0]) < 1e-9);
        assert_true(fabs((play->right - play->hashes[1]) * 3 - levels[i].feet) < 1e-9);
        snap.hash = "R";
        play = &play_figure(world->arena, world->plays, levels[i].level, &snap, NULL, "")->as.play;
        assert_true(fabs(play->hashes[1]) < 1e-9);
    }
}

static void test_lines_of_the_field(void **state) {
    PlaySnap snap = usual();
    const PlayFigure *play = draw(*state, &snap, NULL);
    assert_true(play->goal == 60 && play->gain == 10);
    assert_true(play->to - play->from >= 28 && play->to - play->from <= 40);
    snap.to_goal = snap.distance = 7;
    play = draw(*state, &snap, NULL);
    assert_true(isnan(play->gain));
    assert_true(play->to <= 17);
}

/* ---- the offence ---- */

static void test_two_by_two(void **state) {
    PlaySnap snap = usual();
    const PlayFigure *play = draw(*state, &snap, NULL);
    assert_int_equal(count_men(play, false), 11);
    assert_at(play, "X", false, -20, 0);
    assert_at(play, "H", false, -10, -1);
    assert_at(play, "Y", false, 4.8, 0);
    assert_at(play, "Z", false, 20, -1);
    assert_at(play, "Q", false, 0, -5);
    assert_at(play, "R", false, -1.9, -5);
}

/* The strong side is the wide side of the field; a wide man stays two yards inside the sideline. */
static void test_strength(void **state) {
    PlaySnap snap = usual();
    snap.hash = "R";
    const PlayFigure *play = draw(*state, &snap, NULL);
    assert_at(play, "Y", false, -4.8, 0);
    assert_at(play, "X", false, 18, 0);
    assert_at(play, "Z", false, -20, -1);
    KeySnap key = {.strength = 1, .aim = {NAN, NAN}, .window = NAN};
    play = draw(*state, &snap, &key);
    assert_at(play, "Y", false, 4.8, 0);
    assert_at(play, "Z", false, 18, -1);
    assert_at(play, "X", false, -20, 0);
}

static void test_formations(void **state) {
    static const struct {
        const char *formation, *personnel, *letter;
        double x, y;
    } places[] = {
        {"3x1", "11", "H", 13, -1},     {"3x1", "10", "A", 7, -1},     {"3x1", "12", "U", 6.4, -1.5},
        {"trips", "11", "Y", 7, -1},    {"bunch", "11", "Y", 7.5, 0},  {"bunch", "11", "H", 6.3, -1.5},
        {"stack", "11", "H", 15, -1.5}, {"empty", "01", "A", -10, -1}, {"empty", "11", "R", -10, 0},
        {"i", "21", "F", 0, -4},        {"i", "21", "R", 0, -7},       {"split", "20", "F", 2.5, -5.5},
        {"wing", "12", "U", 6.4, -1.5}, {"tight", "11", "X", -8, 0},   {"heavy", "13", "V", 6.4, -1.5},
        {"trips", "01", "Y", -4.8, 0},
    };
    for (size_t i = 0; i < COUNT_OF(places); i++) {
        PlaySnap snap = usual();
        snap.formation = places[i].formation;
        snap.personnel = places[i].personnel;
        if (strcmp(snap.formation, "i") == 0) snap.backfield = "under";
        const PlayFigure *play = draw(*state, &snap, NULL);
        assert_int_equal(count_men(play, false), 11);
        assert_at(play, places[i].letter, false, places[i].x, places[i].y);
    }
}

/* Nobody is placed whose place is not charted. */
static void test_uncharted(void **state) {
    PlaySnap snap = usual();
    snap.formation = snap.backfield = snap.front = NULL;
    const PlayFigure *play = draw(*state, &snap, NULL);
    assert_int_equal(count_men(play, false), 5);
    assert_null(man_of(play, "E", true));
    PlaySnap nothing = {.to_goal = NAN, .distance = NAN, .depth = NAN, .read = NAN, .rushers = NAN, .box = NAN};
    play = draw(*state, &nothing, NULL);
    assert_int_equal(count_men(play, false), 5);
    assert_int_equal(play->line_count, 0);
    assert_int_equal(play->zone_count, 0);
}

/* A sixth lineman takes a receiver's place. */
static void test_jumbo(void **state) {
    PlaySnap snap = usual();
    snap.jumbo = true;
    const PlayFigure *play = draw(*state, &snap, NULL);
    assert_int_equal(count_men(play, false), 11);
    assert_null(man_of(play, "H", false));
}

/* ---- drops and motion ---- */

static void test_drops(void **state) {
    static const struct {
        const char *backfield, *drop;
        double y;
    } drops[] = {{"under", "3", -4.5}, {"under", "5", -7}, {"under", "7", -9}, {"gun", "3", -8}};
    for (size_t i = 0; i < COUNT_OF(drops); i++) {
        PlaySnap snap = usual();
        snap.personnel = "10";
        snap.formation = "empty"; /* nobody stands in the way */
        snap.backfield = drops[i].backfield;
        snap.drop = drops[i].drop;
        const PlayFigure *play = draw(*state, &snap, NULL);
        assert_true(fabs(end_of(line_of(play, PLAY_DROP)).y - drops[i].y) < 0.01);
        assert_true(fabs(play->release.y - drops[i].y) < 0.01);
    }
}

/* A drop does not end on the back. */
static void test_drop_beside_back(void **state) {
    PlaySnap snap = usual();
    snap.backfield = "under";
    snap.drop = "5";
    const PlayFigure *play = draw(*state, &snap, NULL);
    const PlayMan *back = man_of(play, "R", false);
    assert_true(hypot(back->at.x - play->release.x, back->at.y - play->release.y) > 2);
}

static void test_motion(void **state) {
    PlaySnap snap = usual();
    snap.motion = "jet";
    const PlayFigure *play = draw(*state, &snap, NULL);
    const PlayLine *line = line_of(play, PLAY_MOTION);
    assert_string_equal(play->men[line->man].letter, "H");
    assert_false(line->to_man);
    assert_true(end_of(line).x > 0);
    snap.motion = "in";
    line = line_of(draw(*state, &snap, NULL), PLAY_MOTION);
    assert_true(line->to_man);
    assert_true(fabs(line->points[0].x + 16) < 0.01);
    snap.motion = "shift";
    assert_null(line_of(draw(*state, &snap, NULL), PLAY_MOTION));
}

/* ---- routes ---- */

static PlaySnap thrown(const char *runner, const char *route, double depth, const char *side) {
    PlaySnap snap = usual();
    snap.runner = runner;
    snap.route = route;
    snap.depth = depth;
    snap.side = side;
    snap.read = 2;
    snap.caught = true;
    snap.window = "closing";
    return snap;
}

/* The man who lined up so whose route comes nearest to the charted side. */
static void test_target(void **state) {
    static const struct {
        const char *runner, *route;
        double depth;
        const char *side, *letter;
    } targets[] = {{"WR", "out", 6, "wide-left", "X"},    {"WR", "out", 6, "wide-right", "Z"},
                   {"slot", "seam", 18, "left", "H"},     {"TE", "stick", 5, "middle", "Y"},
                   {"RB", "swing", -2, "wide-left", "R"}, {"WR", "dig", 13, "right", "Z"}};
    for (size_t i = 0; i < COUNT_OF(targets); i++) {
        PlaySnap snap = thrown(targets[i].runner, targets[i].route, targets[i].depth, targets[i].side);
        const PlayFigure *play = draw(*state, &snap, NULL);
        const PlayLine *line = line_of(play, PLAY_TARGET);
        assert_non_null(line);
        assert_string_equal(play->men[line->man].letter, targets[i].letter);
        assert_string_equal(line->read, "2");
        assert_int_equal(count_lines(play, PLAY_TARGET) + count_lines(play, PLAY_ROUTE), 1);
        assert_true(fabs(end_of(line).y - targets[i].depth) < 0.01);
        assert_true(end_of(line).x == play->aim.x && end_of(line).y == play->aim.y);
    }
}

/* Every route of the table, at any charted depth and side, ends there. */
static void test_all_routes_reach(void **state) {
    World *world = *state;
    static const char *const runners[] = {"WR", "slot", "TE", "RB"};
    static const double depths[] = {-5, -1, 0, 3, 7, 12, 18, 27};
    for (size_t r = 0; r < world->plays->routes.count; r++) {
        for (size_t i = 0; i < COUNT_OF(runners) * COUNT_OF(depths) * world->plays->lanes.count; i++) {
            double depth = depths[i % COUNT_OF(depths)];
            const PlayLane *lane = &world->plays->lanes.rows[i / COUNT_OF(depths) % world->plays->lanes.count];
            PlaySnap snap = thrown(runners[i % COUNT_OF(runners)], world->plays->routes.rows[r].id, depth, lane->id);
            const PlayFigure *play = draw(world, &snap, NULL);
            const PlayLine *line = line_of(play, PLAY_TARGET);
            assert_non_null(line);
            YardPoint end = end_of(line);
            bool there =
                fabs(end.y - depth) < 0.06 && end.x >= play->left + lane->from && end.x <= play->left + lane->to;
            if (!there) fail_msg("%s to %s at %g ends at %.2f %.2f", snap.route, lane->id, depth, end.x, end.y);
        }
    }
}

static void test_route_shapes(void **state) {
    PlaySnap snap = thrown("WR", "out", 6, "wide-left");
    const PlayLine *line = line_of(draw(*state, &snap, NULL), PLAY_TARGET);
    assert_int_equal(line->count, 2);
    assert_true(fabs(line->points[0].x + 20) < 0.01 && fabs(line->points[0].y - 6) < 0.01);
    snap = thrown("WR", "curl", 11, "wide-left");
    line = line_of(draw(*state, &snap, NULL), PLAY_TARGET);
    assert_true(line->settles);
    assert_true(line->points[0].y > 12 && fabs(end_of(line).y - 11) < 0.01);
    snap = thrown("WR", "post", 22, "left");
    line = line_of(draw(*state, &snap, NULL), PLAY_TARGET);
    assert_true(line->points[0].y > 9 && line->points[0].y < 14);
}

/* Near the goal the stem is shortened first. */
static void test_route_at_the_goal(void **state) {
    PlaySnap snap = thrown("WR", "corner", 11, "wide-left");
    snap.to_goal = snap.distance = 3;
    const PlayFigure *play = draw(*state, &snap, NULL);
    const PlayLine *line = line_of(play, PLAY_TARGET);
    assert_true(fabs(end_of(line).y - 11) < 0.01);
    assert_true(line->points[0].y > 1 && line->points[0].y < 9);
    assert_true(play->to <= 13.01);
}

/* Without a route there is still a ball; without a throw there is none. */
static void test_ball(void **state) {
    PlaySnap snap = thrown("WR", NULL, 12, "right");
    const PlayFigure *play = draw(*state, &snap, NULL);
    assert_null(line_of(play, PLAY_TARGET));
    assert_true(fabs(play->aim.y - 12) < 0.01 && play->aim.x > 6 && play->aim.x < 18);
    assert_true(play->caught && play->window > 3);
    snap = usual();
    play = draw(*state, &snap, NULL);
    assert_true(isnan(play->aim.x));
    assert_true(play->window == 0);
}

/* ---- the defence ---- */

static void test_shells(void **state) {
    PlaySnap snap = usual();
    const PlayFigure *play = draw(*state, &snap, NULL);
    assert_int_equal(count_men(play, true), 11);
    assert_at(play, "F", true, -13, 13);
    assert_at(play, "R", true, 13, 13);
    snap.shell = "1-high";
    play = draw(*state, &snap, NULL);
    assert_at(play, "F", true, 0, 14);
    assert_true(man_of(play, "R", true)->at.y < 9);
}

static void test_corners(void **state) {
    PlaySnap snap = usual();
    const PlayFigure *play = draw(*state, &snap, NULL);
    assert_true(fabs(man_of(play, "C", true)->at.y - 7) < 0.01);
    snap.coverage = "1";
    play = draw(*state, &snap, NULL);
    assert_true(man_of(play, "C", true)->at.y < 2);
    assert_true(fabs(man_of(play, "N", true)->at.x + 8.2) < 0.01); /* inside the slot */
}

static void test_fronts(void **state) {
    static const struct {
        const char *front, *letter;
        double x;
    } men[] = {{"over", "T", 2.1}, {"under", "T", -2.1}, {"odd", "N", 0}, {"bear", "N", 0}, {"tite", "N", 0}};
    for (size_t i = 0; i < COUNT_OF(men); i++) {
        PlaySnap snap = usual();
        snap.front = men[i].front;
        const PlayFigure *play = draw(*state, &snap, NULL);
        assert_int_equal(count_men(play, true), 11);
        assert_at(play, men[i].letter, true, men[i].x, 0);
    }
}

/* As many stand in the box as were charted, wherever enough may move. */
static void test_box(void **state) {
    for (int box = 5; box <= 8; box++) {
        PlaySnap snap = usual();
        snap.shell = "1-high";
        snap.box = box;
        const PlayFigure *play = draw(*state, &snap, NULL);
        int found = 0;
        for (size_t i = 0; i < play->man_count; i++) {
            const PlayMan *man = &play->men[i];
            found += man->mark == PLAY_DEFENDER && man->at.y <= 7 && fabs(man->at.x) <= 5.91;
        }
        assert_int_equal(found, box);
        assert_int_equal(count_men(play, true), 11);
    }
}

static void test_rush(void **state) {
    for (int rushers = 3; rushers <= 7; rushers++) {
        PlaySnap snap = usual();
        snap.rushers = rushers;
        assert_int_equal(count_lines(draw(*state, &snap, NULL), PLAY_RUSH), (size_t)rushers);
    }
    PlaySnap snap = usual();
    snap.call = "creeper";
    const PlayFigure *play = draw(*state, &snap, NULL);
    int from_depth = 0;
    for (size_t i = 0; i < play->line_count; i++) {
        from_depth += play->lines[i].way == PLAY_RUSH && play->men[play->lines[i].man].at.y > 2;
    }
    assert_int_equal(from_depth, 1);
    assert_int_equal(count_lines(play, PLAY_RUSH), 4);
}

/* Zones that have a man: all of them with four rushers, the last of the list empty with more. */
static void test_zones(void **state) {
    static const struct {
        const char *coverage;
        double rushers;
        size_t zones;
    } cases[] = {{"3", 4, 7}, {"3", 6, 5}, {"3-fire", 5, 6},   {"2", 4, 7},     {"4", 3, 7},     {"6", 4, 7},
                 {"1", 4, 1}, {"0", 6, 0}, {"1-robber", 4, 2}, {"2-man", 4, 2}, {"other", 4, 0}, {"prevent", 3, 8}};
    for (size_t i = 0; i < COUNT_OF(cases); i++) {
        PlaySnap snap = usual();
        snap.coverage = cases[i].coverage;
        snap.rushers = cases[i].rushers;
        const PlayFigure *play = draw(*state, &snap, NULL);
        if (play->zone_count != cases[i].zones) fail_msg("%s has %zu zones", cases[i].coverage, play->zone_count);
    }
}

/* A safety drops deep and a linebacker short, not the other way round. */
static void test_who_drops(void **state) {
    PlaySnap snap = usual();
    snap.shell = "1-high";
    const PlayFigure *play = draw(*state, &snap, NULL);
    for (size_t i = 0; i < play->line_count; i++) {
        const PlayLine *line = &play->lines[i];
        if (line->way != PLAY_COVER) continue;
        const PlayMan *man = &play->men[line->man];
        if (strcmp(man->letter, "F") == 0 || strcmp(man->letter, "C") == 0) assert_true(end_of(line).y > 13);
        if (strcmp(man->letter, "M") == 0 || strcmp(man->letter, "W") == 0) assert_true(end_of(line).y < 13);
    }
}

/* ---- what the author gives ---- */

static KeyMan given_man(const char *id, bool defence, double x, double y) {
    return (KeyMan){.id = id, .defence = defence, .at = {x, y}, .read = -1, .rush = -1};
}

static void test_given(void **state) {
    YardPoint way[] = {{3, 6}};
    KeyMan men[] = {given_man("X", false, -15, 0), given_man("N", true, -6, 5.5), given_man("K", true, 9, 9),
                    given_man("Z", false, NAN, NAN)};
    men[0].route = "dig";
    men[0].read = 1;
    men[1].to = (YardPoints){way, 1};
    men[3].route = "go";
    YardZone zone = {{0, 17}, 18, 9};
    KeyNote note = {{1, 2}, "spins down"};
    KeySnap key = {.men = men,
                   .man_count = 4,
                   .zones = &zone,
                   .zone_count = 1,
                   .notes = &note,
                   .note_count = 1,
                   .aim = {-9, 14},
                   .window = 0};
    PlaySnap snap = thrown("slot", "dig", 13, "left");
    snap.read = 1;
    const PlayFigure *play = draw(*state, &snap, &key);
    assert_at(play, "X", false, -15, 0);
    assert_at(play, "N", true, -6, 5.5);
    assert_at(play, "K", true, 9, 9);
    assert_int_equal(play->zone_count, 1);
    assert_true(play->window == 0);
    assert_int_equal(play->note_count, 1);
    const PlayLine *target = line_of(play, PLAY_TARGET);
    assert_string_equal(play->men[target->man].letter, "X"); /* his is the charted route and read */
    assert_true(fabs(end_of(target).x + 9) < 0.01 && fabs(end_of(target).y - 14) < 0.01);
    const PlayLine *other = line_of(play, PLAY_ROUTE);
    assert_string_equal(play->men[other->man].letter, "Z");
    assert_null(other->read);
    const PlayLine *cover = line_of(play, PLAY_COVER);
    assert_string_equal(play->men[cover->man].letter, "N");
}

static void test_given_whole(void **state) {
    KeyMan men[] = {given_man("F", true, 0, 12), given_man("C", true, -20, 5)};
    men[1].rush = 1;
    KeySnap key = {.men = men, .man_count = 2, .defence_complete = true, .aim = {NAN, NAN}, .window = NAN};
    PlaySnap snap = usual();
    const PlayFigure *play = draw(*state, &snap, &key);
    assert_int_equal(count_men(play, true), 2);
    assert_int_equal(count_lines(play, PLAY_RUSH), 2); /* four were charted: both */
    assert_int_equal(play->zone_count, 0);
    key.offence_complete = true;
    assert_int_equal(count_men(draw(*state, &snap, &key), false), 5);
}

/* Two men of one letter: each is the one that stands nearer. */
static void test_given_twins(void **state) {
    KeyMan men[] = {given_man("C", true, 17, 3), given_man("C", true, -17, 4)};
    KeySnap key = {.men = men, .man_count = 2, .aim = {NAN, NAN}, .window = NAN};
    PlaySnap snap = usual();
    const PlayFigure *play = draw(*state, &snap, &key);
    assert_int_equal(count_men(play, true), 11);
    for (size_t i = 0; i < play->man_count; i++) {
        if (strcmp(play->men[i].letter, "C") == 0) assert_true(fabs(play->men[i].at.x) == 17);
    }
}

/* ---- in words ---- */

static void test_words(void **state) {
    World *world = *state;
    PlaySnap snap = thrown("WR", "out", 6, "wide-left");
    snap.caught = false;
    const char *alt = play_figure(world->arena, world->plays, LEVEL_COLLEGE, &snap, NULL, "g1.19, 3rd & 10")->alt;
    static const char *const parts[] = {"g1.19, 3rd & 10.",     "X 20 left;",        "Q 5 behind;",
                                        "F 13 left, 13 deep;",  "X runs to",         "read 2, the target",
                                        "Q drops to 8 behind.", "Rush: E, T, T, E.", "6 deep, not caught."};
    for (size_t i = 0; i < COUNT_OF(parts); i++) {
        if (!strstr(alt, parts[i])) fail_msg("\"%s\" is not in \"%s\"", parts[i], alt);
    }
}

static void test_parts(void **state) {
    PlaySnap snap = thrown("WR", "out", 6, "wide-left");
    PlayKey key = {0};
    play_parts(draw(*state, &snap, NULL), &key);
    assert_true(key.parts[PLAY_PART_TARGET] && key.parts[PLAY_PART_ZONE] && key.parts[PLAY_PART_BALL]);
    assert_false(key.parts[PLAY_PART_MOTION]);
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_hashes),
        IN_WORLD(test_lines_of_the_field),
        IN_WORLD(test_two_by_two),
        IN_WORLD(test_strength),
        IN_WORLD(test_formations),
        IN_WORLD(test_uncharted),
        IN_WORLD(test_jumbo),
        IN_WORLD(test_drops),
        IN_WORLD(test_drop_beside_back),
        IN_WORLD(test_motion),
        IN_WORLD(test_target),
        IN_WORLD(test_all_routes_reach),
        IN_WORLD(test_route_shapes),
        IN_WORLD(test_route_at_the_goal),
        IN_WORLD(test_ball),
        IN_WORLD(test_shells),
        IN_WORLD(test_corners),
        IN_WORLD(test_fronts),
        IN_WORLD(test_box),
        IN_WORLD(test_rush),
        IN_WORLD(test_zones),
        IN_WORLD(test_who_drops),
        IN_WORLD(test_given),
        IN_WORLD(test_given_whole),
        IN_WORLD(test_given_twins),
        IN_WORLD(test_words),
        IN_WORLD(test_parts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
