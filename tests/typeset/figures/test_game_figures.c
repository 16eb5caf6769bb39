/* Figures of games and situations with usual, extreme and empty data, against the text files beside this one. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "typeset/figures/golden.h"

#define COUNT_OF(array) (sizeof(array) / sizeof *(array))

/* ---- game trend ---- */

static TrendGame GAMES[] = {
    {"g1", "Tarn County", "6 Sep"}, {"g2", "at Brackwater", "13 Sep"}, {"g3", "Windle A&M", "20 Sep"}};
static TrendPoint ON_TARGET[] = {
    {"31", 0.55, 0.38, 0.71, false}, {"26", 0.77, 0.58, 0.89, false}, {"3", 0.33, 0.06, 0.79, true}};
static TrendPoint YARDS[] = {{"31", 4.6, 2.3, 7.1, false}, {"28", 9, 5.2, 19.3, false}, {"0", NAN, NAN, NAN, false}};
static TrendPanel PANELS[] = {{"On target, %", {0.2, 1, 0.2, "", 100}, 0.68, ON_TARGET},
                              {"Yards an attempt", {2, 18, 4, "", 1}, 7.9, YARDS}};

enum { SEASON_GAMES = 30 };

static TrendPanel LONG_PANEL[] = {{"A measure whose name is longer than its panel is wide, so that it takes "
                                   "more than one line of the head",
                                   {0, 10, 0.25, " yards", 1},
                                   NAN,
                                   NULL}};

static Figure long_trend(Arena *arena) {
    Figure figure = {.kind = FIGURE_GAME_TREND, .alt = "thirty games"};
    GameTrend *trend = &figure.as.trend;
    *trend = (GameTrend){ARENA_ARRAY(arena, SEASON_GAMES, TrendGame), SEASON_GAMES, LONG_PANEL, 1};
    LONG_PANEL[0].points = ARENA_ARRAY(arena, SEASON_GAMES, TrendPoint);
    for (int i = 0; i < SEASON_GAMES; i++) {
        const char *opponent = i % 7 ? "at Cadder Ridge" : "a school with a name that is long enough to wrap";
        trend->games[i] = (TrendGame){arena_printf(arena, "g%d", i + 1), opponent, "27 Sep"};
        double point = i % 5 * 3 - 1.0;
        LONG_PANEL[0].points[i] = (TrendPoint){arena_printf(arena, "%d", 90 + i), point, point - 2, point + 2, false};
    }
    return figure;
}

/* ---- read ladder ---- */

static LadderRung RUNGS[] = {{"First read", "134 of 244 reached", "success 63/134, 47% (39–55)", {65, 6, 40, 18, 5}},
                             {"Second", "52 of 110 reached", "success 25/52, 48% (35–61)", {30, 5, 10, 2, 5}},
                             {"Outlet", "26 of 26 reached", "success 6/26, 23% (11–42)", {21, 3, 1, 1, 0}}};
static LadderRung ONE_RUNG[] = {{"First read", "9 of 9 reached", "success 9/9, 100% (70–100)", {9, 0, 0, 0, 0}},
                                {"Second", "0 of 0 reached", "", {0, 0, 0, 0, 0}}};
#define PARTS                                                                                                          \
    { "complete", "on target, not caught", "off target", "thrown away or run", "sacked" }

/* ---- situations ---- */

static const char *COLUMNS[] = {"1–3 to go", "4–6", "7–10", "all"};
static const char *ROWS[] = {"1st", "3rd", "all"};
static RateCell CELLS[] = {
    {0, 0, NAN, NAN, NAN},     {1, 1, 1, 0.21, 1},         {39, 83, 0.47, 0.37, 0.58}, {40, 84, 0.48, 0.37, 0.58},
    {8, 18, 0.44, 0.25, 0.66}, {16, 24, 0.67, 0.47, 0.82}, {7, 29, 0.24, 0.12, 0.42},  {31, 71, 0.44, 0.33, 0.55},
    {8, 18, 0.44, 0.25, 0.66}, {17, 25, 0.68, 0.48, 0.83}, {46, 112, 0.41, 0.32, 0.5}, {71, 155, 0.46, 0.38, 0.54},
};
static RateCell NO_CELLS[COUNT_OF(CELLS)];

/* ---- ribbons ---- */

static RibbonSnap SNAPS[] = {
    {.mark = -1, .quarter = "Q1", .drive = "1", .down = "1", .to_go = "10", .gain = "s4"},
    {.mark = 0, .down = "2", .to_go = "14", .gain = "·", .flag = "2", .target = "snap-g1.2"},
    {.mark = 1, .down = "3", .to_go = "14", .gain = "7", .flag = "3"},
    {.mark = 1, .drive = "2", .down = "2", .to_go = "6", .gain = "td", .notable = true, .flag = "104"},
    {.mark = 1, .down = "1", .to_go = "goal", .gain = "·", .flag = "105", .target = "snap-g1.105"},
    {.unmarked = true, .quarter = "Q2", .down = "1", .to_go = "10", .gain = "−2"},
};

static const signed char MARKS[] = {1, 1, 0, -1, 1, -1, -1, 0, 1};
static const unsigned char DRIVES[] = {1, 0, 0, 1, 0, 0, 0, 1, 0};
static SeasonGame SEASON[] = {{"g1", "Tarn County", MARKS, DRIVES, COUNT_OF(MARKS)}, {"g2", "a bye", NULL, NULL, 0}};

static Figure long_ribbon(Arena *arena) {
    Figure figure = {.kind = FIGURE_DRIVE_RIBBON, .alt = "ninety snaps"};
    enum { LONG = 90, DRIVE = 7 };
    figure.as.ribbon = (DriveRibbon){ARENA_ARRAY(arena, LONG, RibbonSnap), LONG};
    for (int i = 0; i < LONG; i++) {
        RibbonSnap *snap = &figure.as.ribbon.snaps[i];
        *snap = (RibbonSnap){.mark = i % 3 - 1, .down = "3", .to_go = "10", .gain = "12"};
        if (i % DRIVE == 0) snap->drive = arena_printf(arena, "%d", i / DRIVE + 1);
        if (i % 25 == 0) snap->quarter = arena_printf(arena, "Q%d", i / 25 + 1);
        if (i % 11 == 0) snap->flag = arena_printf(arena, "%d", i + 1);
    }
    return figure;
}

/* ---- the cases ---- */

typedef struct Case {
    const char *name;
    double width;
    Figure figure;
} Case;

static const Case CASES[] = {
    {"trend-usual",
     506,
     {FIGURE_GAME_TREND, "three games", .as.trend = {GAMES, COUNT_OF(GAMES), PANELS, COUNT_OF(PANELS)}}},
    {"trend-empty", 506, {FIGURE_GAME_TREND, "none", .as.trend = {NULL, 0, PANELS, 0}}},
    {"ladder-usual", 248, {FIGURE_READ_LADDER, "reads", .as.ladder = {PARTS, 5, RUNGS, COUNT_OF(RUNGS)}}},
    {"ladder-extreme", 248, {FIGURE_READ_LADDER, "one read", .as.ladder = {PARTS, 5, ONE_RUNG, COUNT_OF(ONE_RUNG)}}},
    {"ladder-empty", 248, {FIGURE_READ_LADDER, "none", .as.ladder = {PARTS, 5, ONE_RUNG + 1, 1}}},
    {"situations-usual", 248, {FIGURE_SITUATIONS, "success", .as.situations = {COLUMNS, 4, ROWS, 3, CELLS, true}}},
    {"situations-narrow", 120, {FIGURE_SITUATIONS, "success", .as.situations = {COLUMNS, 4, ROWS, 3, CELLS, false}}},
    {"situations-empty", 248, {FIGURE_SITUATIONS, "none", .as.situations = {COLUMNS, 4, ROWS, 3, NO_CELLS, true}}},
    {"ribbon-usual", 506, {FIGURE_DRIVE_RIBBON, "six snaps", .as.ribbon = {SNAPS, COUNT_OF(SNAPS)}}},
    {"ribbon-empty", 506, {FIGURE_DRIVE_RIBBON, "none", .as.ribbon = {NULL, 0}}},
    {"season-usual", 506, {FIGURE_SEASON_RIBBON, "two games", .as.season = {SEASON, COUNT_OF(SEASON)}}},
    {"season-empty", 506, {FIGURE_SEASON_RIBBON, "none", .as.season = {NULL, 0}}},
};

static void check_case(void **state) {
    const Case *item = *state;
    check_golden(item->name, &item->figure, item->width);
}

static void check_long(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Figure trend = long_trend(arena);
    check_golden("trend-long", &trend, 248);
    Figure ribbon = long_ribbon(arena);
    check_golden("ribbon-long", &ribbon, 506);
    arena_free(arena);
}

int main(void) {
    struct CMUnitTest tests[COUNT_OF(CASES) + 1];
    for (size_t i = 0; i < COUNT_OF(CASES); i++)
        tests[i] = (struct CMUnitTest){
            .name = CASES[i].name, .test_func = check_case, .initial_state = (void *)(uintptr_t)&CASES[i]};
    tests[COUNT_OF(CASES)] = (struct CMUnitTest){.name = "long games and seasons", .test_func = check_long};
    return cmocka_run_group_tests_name("figures of games equal their goldens", tests, NULL, NULL);
}
