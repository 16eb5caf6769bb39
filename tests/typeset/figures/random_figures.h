/* Figures of every kind filled with random data: usual numbers mostly, now and then none, infinite ones, ones far
 * outside their axis, words too long for their column. The same seed gives the same figure. */
#ifndef TB_TESTS_RANDOM_FIGURES_H
#define TB_TESTS_RANDOM_FIGURES_H

#include <math.h>
#include <stdint.h>

#include "base/arena.h"
#include "story/figures.h"

enum { RANDOM_MOST_ROWS = 14 };

typedef struct Dice {
    uint64_t state;
    Arena *arena;
} Dice;

static inline unsigned roll(Dice *dice, unsigned sides) {
    dice->state = dice->state * 6364136223846793005u + 1442695040888963407u;
    return (unsigned)(dice->state >> 33) % sides;
}

static inline double roll_between(Dice *dice, double low, double high) {
    return low + (high - low) * roll(dice, 10001) / 10000;
}

/* Mostly a sensible number; now and then none, or one far outside. */
static inline double roll_number(Dice *dice, double low, double high) {
    switch (roll(dice, 14)) {
    case 0:
        return NAN;
    case 1:
        return INFINITY;
    case 2:
        return -INFINITY;
    case 3:
        return high + (high - low) * 20;
    case 4:
        return low - (high - low) * 20;
    default:
        return roll_between(dice, low, high);
    }
}

static const char *roll_text(Dice *dice, unsigned most_words) {
    static const char *const words[] = {"man",         "zone",
                                        "anticipated", "against",
                                        "Bødø",        "4th",
                                        "of",          "pressure",
                                        "½-field",     "a",
                                        "unhurried",   "a\u00a0no-break\u00a0pair",
                                        "Pākehau’s",   "Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichen"};
    unsigned count = roll(dice, most_words + 1);
    const char *text = "";
    for (unsigned i = 0; i < count; i++)
        text = arena_printf(dice->arena, "%s%s%s", text, i ? " " : "", words[roll(dice, roll(dice, 8) ? 11 : 14)]);
    return text;
}

static inline IntervalRow roll_row(Dice *dice, const Axis *axis) {
    unsigned n = roll(dice, 4) ? roll(dice, 900) : roll(dice, 6);
    double point = roll_number(dice, axis->from, axis->to);
    double reach = roll_between(dice, 0, (axis->to - axis->from) / 2);
    return (IntervalRow){
        .label = roll_text(dice, 5),
        .count = arena_printf(dice->arena, "%u/%u", n ? roll(dice, n + 1) : 0, n),
        .value = isfinite(point) ? arena_printf(dice->arena, "%.0f%%", fmin(fmax(point * 100, -100), 100)) : "–",
        .interval = isfinite(point) ? arena_printf(dice->arena, "%u–%u", roll(dice, 60), roll(dice, 101)) : "",
        .point = point,
        .low = roll(dice, 9) ? point - reach : NAN,
        .high = roll(dice, 9) ? point + reach : NAN,
        .hatched = n < 5,
        .open = roll(dice, 2),
        .starts_group = roll(dice, 3) == 0,
    };
}

static inline Axis roll_axis(Dice *dice) {
    switch (roll(dice, 8)) {
    case 0:
        return (Axis){0.2, 1, 0.2, "%", 100};
    case 1:
        return (Axis){-0.6, 0.6, 0.3, "", 100};
    case 2:
        return (Axis){3, 18, 0.25, " yards", 1};
    case 3:
        return (Axis){0, 1, 0, NULL, 0};
    case 4:
        return (Axis){roll_number(dice, 0, 1), roll_number(dice, 0, 9), roll_number(dice, 0, 1), "%", 1};
    default:
        return (Axis){0, 1, 0.25, "%", 100};
    }
}

static inline RateCell roll_cell(Dice *dice) {
    int n = (int)(roll(dice, 3) ? roll(dice, 9) : roll(dice, 400));
    int k = n ? (int)roll(dice, (unsigned)n + 1) : 0;
    double rate = n ? (double)k / n : NAN;
    return (RateCell){k, n, rate, rate * roll_between(dice, 0.2, 1), fmin(1, rate * 1.4)};
}

/* ---- a figure of each kind with random data ---- */

static inline void roll_strips(Dice *dice, Figure *figure) {
    ScaleStrips *strips = &figure->as.strips;
    strips->count = roll(dice, RANDOM_MOST_ROWS + 1);
    strips->rows = ARENA_ARRAY(dice->arena, strips->count, StripRow);
    for (size_t i = 0; i < strips->count; i++) {
        double q[5];
        for (int k = 0; k < 5; k++) q[k] = 60 + 4 * k + roll_between(dice, 0, 3);
        bool known = roll(dice, 5);
        strips->rows[i] = (StripRow){.label = roll_text(dice, 3),
                                     .notation = roll(dice, 2) ? "6043" : "4.81h",
                                     .plain = roll(dice, 2) ? "6 ft 4⅜ in" : "226 lb",
                                     .low_text = roll(dice, 3) ? "5 ft 11⅜" : "",
                                     .high_text = roll(dice, 3) ? "10 ft 11" : NULL,
                                     .q5 = known ? q[0] : NAN,
                                     .q25 = roll(dice, 5) ? q[1] : NAN,
                                     .q50 = roll(dice, 5) ? q[2] : NAN,
                                     .q75 = q[3],
                                     .q95 = q[4],
                                     .value = roll_number(dice, 55, 85),
                                     .flipped = roll(dice, 2),
                                     .open = roll(dice, 2),
                                     .percentile = known ? "100" : "",
                                     .of = known ? "of 1320" : NULL};
    }
}

static inline void roll_field(Dice *dice, Figure *figure) {
    ThrowFieldFigure *field = &figure->as.field;
    field->lane_count = roll(dice, 7);
    field->band_count = roll(dice, 7);
    field->lanes = ARENA_ARRAY(dice->arena, field->lane_count, FieldLane);
    field->bands = ARENA_ARRAY(dice->arena, field->band_count, FieldBand);
    field->cells = ARENA_ARRAY(dice->arena, field->lane_count * field->band_count, RateCell);
    double at = 0;
    for (size_t i = 0; i < field->lane_count; i++) {
        double next = at + (53.33 - at) / (double)(field->lane_count - i);
        field->lanes[i] = (FieldLane){roll_text(dice, 3), at, next, roll_cell(dice)};
        at = next;
    }
    at = roll(dice, 4) ? -10 : -INFINITY;
    for (size_t i = 0; i < field->band_count; i++) {
        double from = isfinite(at) ? at : 0;
        double next = i + 1 == field->band_count && roll(dice, 2) ? INFINITY : from + 1 + roll(dice, 14);
        field->bands[i] = (FieldBand){roll_text(dice, 2), at, next, roll_cell(dice)};
        at = next;
    }
    for (size_t i = 0; i < field->lane_count * field->band_count; i++) field->cells[i] = roll_cell(dice);
}

static inline void roll_intervals(Dice *dice, Figure *figure) {
    IntervalRows *rows = &figure->as.intervals;
    rows->count = roll(dice, RANDOM_MOST_ROWS + 1);
    rows->rows = ARENA_ARRAY(dice->arena, rows->count, IntervalRow);
    rows->axis = roll_axis(dice);
    rows->reference = roll_number(dice, rows->axis.from, rows->axis.to);
    for (size_t i = 0; i < rows->count; i++) rows->rows[i] = roll_row(dice, &rows->axis);
}

static inline void roll_traits(Dice *dice, Figure *figure) {
    TraitBars *traits = &figure->as.traits;
    traits->count = roll(dice, RANDOM_MOST_ROWS + 1);
    traits->rows = ARENA_ARRAY(dice->arena, traits->count, TraitRow);
    traits->low = 1;
    traits->high = roll(dice, 4) ? 10 : 100;
    traits->bar = roll_number(dice, 1, 10);
    for (size_t i = 0; i < traits->count; i++) {
        double value = roll_number(dice, 1, 10);
        traits->rows[i] = (TraitRow){.label = roll_text(dice, 3),
                                     .weight = "15",
                                     .grade = isfinite(value) ? "10.0" : "–",
                                     .says = roll_text(dice, 30),
                                     .value = value,
                                     .low = value - roll(dice, 2),
                                     .high = roll(dice, 3) ? value + roll(dice, 2) : NAN};
    }
}

static inline void roll_grade(Dice *dice, Figure *figure) {
    GradeRule *rule = &figure->as.grade;
    rule->count = roll(dice, 10);
    rule->ticks = ARENA_ARRAY(dice->arena, rule->count, GradeTick);
    rule->from = 1;
    rule->to = 10;
    for (size_t i = 0; i < rule->count; i++) {
        double at = 1 + 9 * (double)i / (double)rule->count;
        rule->ticks[i] = (GradeTick){at, arena_printf(dice->arena, "%.1f", at), roll_text(dice, 3)};
    }
    rule->value = roll_number(dice, 1, 10);
    rule->low = roll(dice, 3) ? rule->value - roll(dice, 3) : NAN;
    rule->high = rule->value + roll(dice, 3);
    rule->note = roll_text(dice, roll(dice, 5) ? 6 : 40);
}

static inline void roll_claims(Dice *dice, Figure *figure) {
    ClaimRows *claims = &figure->as.claims;
    claims->count = roll(dice, RANDOM_MOST_ROWS + 1);
    claims->rows = ARENA_ARRAY(dice->arena, claims->count, ClaimRow);
    claims->axis = roll_axis(dice);
    for (size_t i = 0; i < claims->count; i++) {
        bool tested = roll(dice, 6);
        claims->rows[i] = (ClaimRow){.group = i == 0          ? "WHY"
                                              : roll(dice, 4) ? NULL
                                                              : "WHY NOT",
                                     .title = roll_text(dice, 9),
                                     .measure = roll_text(dice, 5),
                                     .target = "claim-a",
                                     .a = roll_row(dice, &claims->axis),
                                     .b = roll_row(dice, &claims->axis),
                                     .mark = (VerdictMark)(tested ? roll(dice, MARK_BORNE_OUT + 1) : MARK_NONE),
                                     .verdict = tested ? "leaning against" : "",
                                     .detail = roll_text(dice, 6)};
    }
}

static inline void roll_test(Dice *dice, Figure *figure) {
    TapeTest *test = &figure->as.test;
    *test = (TapeTest){.axis = roll_axis(dice),
                       .difference_axis = {-0.6, 0.6, 0.3, "", 100},
                       .testable = roll(dice, 4),
                       .direction = roll(dice, 2) ? 1 : -1,
                       .mark = (VerdictMark)roll(dice, MARK_BORNE_OUT + 1),
                       .verdict = roll(dice, 5) ? "too few to say" : ""};
    test->a = roll_row(dice, &test->axis);
    test->b = roll(dice, 5) ? roll_row(dice, &test->axis) : (IntervalRow){.point = NAN, .low = NAN, .high = NAN};
    test->difference = roll_row(dice, &test->difference_axis);
    test->difference.interval = roll(dice, 4) ? "−43 to −11" : "";
}

static inline void roll_key(Dice *dice, Figure *figure) {
    (void)dice;
    (void)figure;
}

static inline void roll_trend(Dice *dice, Figure *figure) {
    GameTrend *trend = &figure->as.trend;
    trend->game_count = roll(dice, 8) ? roll(dice, RANDOM_MOST_ROWS + 1) : roll(dice, 60);
    trend->panel_count = roll(dice, 6);
    trend->games = ARENA_ARRAY(dice->arena, trend->game_count, TrendGame);
    trend->panels = ARENA_ARRAY(dice->arena, trend->panel_count, TrendPanel);
    for (size_t i = 0; i < trend->game_count; i++)
        trend->games[i] = (TrendGame){arena_printf(dice->arena, "g%zu", i + 1), roll_text(dice, 4), "27 Sep"};
    for (size_t p = 0; p < trend->panel_count; p++) {
        TrendPanel *panel = &trend->panels[p];
        *panel = (TrendPanel){.title = roll_text(dice, 4), .axis = roll_axis(dice), .season = roll_number(dice, 0, 1)};
        panel->points = ARENA_ARRAY(dice->arena, trend->game_count, TrendPoint);
        for (size_t i = 0; i < trend->game_count; i++) {
            IntervalRow row = roll_row(dice, &panel->axis);
            const char *n = arena_printf(dice->arena, "%u", roll(dice, 200));
            panel->points[i] = (TrendPoint){n, row.point, row.low, row.high, row.hatched};
        }
    }
}

static inline void roll_ladder(Dice *dice, Figure *figure) {
    ReadLadder *ladder = &figure->as.ladder;
    ladder->count = roll(dice, 7);
    ladder->part_count = roll(dice, LADDER_MOST_PARTS + 1);
    ladder->rungs = ARENA_ARRAY(dice->arena, ladder->count, LadderRung);
    for (size_t i = 0; i < ladder->part_count; i++) ladder->parts[i] = roll_text(dice, 3);
    for (size_t i = 0; i < ladder->count; i++) {
        LadderRung *rung = &ladder->rungs[i];
        *rung = (LadderRung){.label = roll_text(dice, 2), .reached = "134 of 244 reached", .note = roll_text(dice, 5)};
        for (size_t p = 0; p < LADDER_MOST_PARTS; p++) rung->parts[p] = (int)roll(dice, roll(dice, 3) ? 9 : 200);
    }
}

static inline void roll_situations(Dice *dice, Figure *figure) {
    Situations *table = &figure->as.situations;
    table->column_count = roll(dice, 7);
    table->row_count = roll(dice, 7);
    table->columns = ARENA_ARRAY(dice->arena, table->column_count, const char *);
    table->rows = ARENA_ARRAY(dice->arena, table->row_count, const char *);
    table->cells = ARENA_ARRAY(dice->arena, table->column_count * table->row_count, RateCell);
    table->totals = roll(dice, 2);
    for (size_t c = 0; c < table->column_count; c++) table->columns[c] = roll_text(dice, 3);
    for (size_t r = 0; r < table->row_count; r++) table->rows[r] = roll_text(dice, 3);
    for (size_t i = 0; i < table->column_count * table->row_count; i++) table->cells[i] = roll_cell(dice);
}

static inline void roll_ribbon(Dice *dice, Figure *figure) {
    DriveRibbon *ribbon = &figure->as.ribbon;
    ribbon->count = roll(dice, 120);
    ribbon->snaps = ARENA_ARRAY(dice->arena, ribbon->count, RibbonSnap);
    static const char *const gains[] = {"·", "s4", "td", "−12", "100", "int"};
    for (size_t i = 0; i < ribbon->count; i++) {
        RibbonSnap *snap = &ribbon->snaps[i];
        *snap = (RibbonSnap){.mark = (int)roll(dice, 3) - 1,
                             .unmarked = roll(dice, 9) == 0,
                             .down = "3",
                             .to_go = roll(dice, 9) ? "10" : "goal",
                             .gain = gains[roll(dice, 6)],
                             .notable = roll(dice, 9) == 0};
        if (roll(dice, 5) == 0) snap->drive = arena_printf(dice->arena, "%u", roll(dice, 14));
        if (roll(dice, 25) == 0) snap->quarter = "Q3";
        if (roll(dice, 3) == 0) snap->flag = arena_printf(dice->arena, "%u", roll(dice, roll(dice, 2) ? 99 : 12000));
        if (roll(dice, 2)) snap->target = "snap-g1.3";
    }
}

static inline void roll_season(Dice *dice, Figure *figure) {
    SeasonRibbon *season = &figure->as.season;
    season->count = roll(dice, RANDOM_MOST_ROWS + 1);
    season->games = ARENA_ARRAY(dice->arena, season->count, SeasonGame);
    for (size_t i = 0; i < season->count; i++) {
        SeasonGame *game = &season->games[i];
        game->label = arena_printf(dice->arena, "g%zu", i + 1);
        game->opponent = roll_text(dice, 4);
        game->count = roll(dice, roll(dice, 5) ? 70 : 300);
        signed char *marks = ARENA_ARRAY(dice->arena, game->count, signed char);
        unsigned char *drives = ARENA_ARRAY(dice->arena, game->count, unsigned char);
        for (size_t k = 0; k < game->count; k++) {
            marks[k] = (signed char)((int)roll(dice, 3) - 1);
            drives[k] = roll(dice, 5) == 0;
        }
        game->marks = marks;
        game->drives = roll(dice, 5) ? drives : NULL;
    }
}

typedef struct Roll {
    const char *name;
    void (*fill)(Dice *, Figure *);
} Roll;

/* Drawn snaps have letters on discs, and tests of their own. */
static const Roll ROLLS[FIGURE_KIND_COUNT] = {
    [FIGURE_SCALE_STRIPS] = {"scale strips", roll_strips},
    [FIGURE_THROW_FIELD] = {"throw field", roll_field},
    [FIGURE_INTERVAL_ROWS] = {"interval rows", roll_intervals},
    [FIGURE_TRAIT_BARS] = {"trait bars", roll_traits},
    [FIGURE_GRADE_RULE] = {"grade rule", roll_grade},
    [FIGURE_CLAIM_ROWS] = {"claim rows", roll_claims},
    [FIGURE_TAPE_TEST] = {"tape test", roll_test},
    [FIGURE_VERDICT_KEY] = {"verdict key", roll_key},
    [FIGURE_GAME_TREND] = {"game trend", roll_trend},
    [FIGURE_READ_LADDER] = {"read ladder", roll_ladder},
    [FIGURE_SITUATIONS] = {"situations", roll_situations},
    [FIGURE_DRIVE_RIBBON] = {"drive ribbon", roll_ribbon},
    [FIGURE_SEASON_RIBBON] = {"season ribbon", roll_season},
};

#endif
