/* With any data no text of a figure touches another, leaves the figure, or stands on its markers. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "typeset/figures/fixed_canvas.h"

enum { SEEDS = 1000, MOST_ROWS = 14 };

typedef struct Dice {
    uint64_t state;
    Arena *arena;
} Dice;

static unsigned roll(Dice *dice, unsigned sides) {
    dice->state = dice->state * 6364136223846793005u + 1442695040888963407u;
    return (unsigned)(dice->state >> 33) % sides;
}

static double roll_between(Dice *dice, double low, double high) {
    return low + (high - low) * roll(dice, 10001) / 10000;
}

/* Mostly a sensible number; now and then none, or one far outside. */
static double roll_number(Dice *dice, double low, double high) {
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

static IntervalRow roll_row(Dice *dice, const Axis *axis) {
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

static Axis roll_axis(Dice *dice) {
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

static RateCell roll_cell(Dice *dice) {
    int n = (int)(roll(dice, 3) ? roll(dice, 9) : roll(dice, 400));
    int k = n ? (int)roll(dice, (unsigned)n + 1) : 0;
    double rate = n ? (double)k / n : NAN;
    return (RateCell){k, n, rate, rate * roll_between(dice, 0.2, 1), fmin(1, rate * 1.4)};
}

/* ---- a figure of each kind with random data ---- */

static void roll_strips(Dice *dice, Figure *figure) {
    ScaleStrips *strips = &figure->as.strips;
    strips->count = roll(dice, MOST_ROWS + 1);
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

static void roll_field(Dice *dice, Figure *figure) {
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

static void roll_intervals(Dice *dice, Figure *figure) {
    IntervalRows *rows = &figure->as.intervals;
    rows->count = roll(dice, MOST_ROWS + 1);
    rows->rows = ARENA_ARRAY(dice->arena, rows->count, IntervalRow);
    rows->axis = roll_axis(dice);
    rows->reference = roll_number(dice, rows->axis.from, rows->axis.to);
    for (size_t i = 0; i < rows->count; i++) rows->rows[i] = roll_row(dice, &rows->axis);
}

static void roll_traits(Dice *dice, Figure *figure) {
    TraitBars *traits = &figure->as.traits;
    traits->count = roll(dice, MOST_ROWS + 1);
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

static void roll_grade(Dice *dice, Figure *figure) {
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

static void roll_claims(Dice *dice, Figure *figure) {
    ClaimRows *claims = &figure->as.claims;
    claims->count = roll(dice, MOST_ROWS + 1);
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

static void roll_test(Dice *dice, Figure *figure) {
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

static void roll_key(Dice *dice, Figure *figure) {
    (void)dice;
    (void)figure;
}

typedef struct Roll {
    const char *name;
    void (*fill)(Dice *, Figure *);
} Roll;

static const Roll ROLLS[FIGURE_KIND_COUNT] = {
    [FIGURE_SCALE_STRIPS] = {"scale strips", roll_strips},
    [FIGURE_THROW_FIELD] = {"throw field", roll_field},
    [FIGURE_INTERVAL_ROWS] = {"interval rows", roll_intervals},
    [FIGURE_TRAIT_BARS] = {"trait bars", roll_traits},
    [FIGURE_GRADE_RULE] = {"grade rule", roll_grade},
    [FIGURE_CLAIM_ROWS] = {"claim rows", roll_claims},
    [FIGURE_TAPE_TEST] = {"tape test", roll_test},
    [FIGURE_VERDICT_KEY] = {"verdict key", roll_key},
};

/* ---- what must hold ---- */

/* Capitals and descenders of a text; its baseline leading is never less. */
static Box text_box(const Mark *mark) {
    double width = 0;
    for (uint32_t i = 0; i < mark->count; i++) width += mark->words[i]->width * (double)mark->size / 1000;
    width += (double)mark->word_space * (double)(mark->count - 1);
    double size = (double)mark->size;
    return (Box){mark->points[0].x, mark->points[0].y - 0.7 * size, width, 0.9 * size};
}

static bool overlap(Box a, Box b) {
    const double slack = 0.01;
    return a.x + slack < b.x + b.width && b.x + slack < a.x + a.width && a.y + slack < b.y + b.height &&
           b.y + slack < a.y + a.height;
}

static const char *said(const Mark *mark) {
    return mark->count ? mark->words[0]->text : "";
}

static void check_inside(const Mark *mark, Box box, double width, double height, unsigned seed) {
    if (box.x >= -0.01 && box.x + box.width <= width + 0.01 && box.y >= -0.5 && box.y + box.height <= height + 0.5)
        return;
    fail_msg("seed %u: \"%s…\" at %.1f %.1f, %.1f wide, leaves %.1f x %.1f", seed, said(mark), box.x, box.y, box.width,
             width, height);
}

static void check_texts(const Page *page, double width, double height, unsigned seed) {
    for (size_t i = 0; i < page->count; i++) {
        if (page->marks[i].kind != MARK_TEXT) continue;
        Box box = text_box(&page->marks[i]);
        check_inside(&page->marks[i], box, width, height, seed);
        for (size_t k = 0; k < i; k++) {
            if (page->marks[k].kind != MARK_TEXT || !overlap(box, text_box(&page->marks[k]))) continue;
            fail_msg("seed %u: \"%s…\" touches \"%s…\" at %.1f %.1f in width %.1f", seed, said(&page->marks[i]),
                     said(&page->marks[k]), box.x, box.y, width);
        }
    }
}

static void points_box(const Mark *mark, Box *box) {
    double left = INFINITY, right = -INFINITY, top = INFINITY, bottom = -INFINITY;
    for (uint32_t i = 0; i < mark->count; i++) {
        left = fmin(left, mark->points[i].x);
        right = fmax(right, mark->points[i].x);
        top = fmin(top, mark->points[i].y);
        bottom = fmax(bottom, mark->points[i].y);
    }
    double half = (double)mark->stroke_width / 2;
    *box = (Box){left - half, top - half, right - left + 2 * half, bottom - top + 2 * half};
}

/* The box of a marker: a disc or a filled shape. */
static bool marker_box(const Mark *mark, Box *box) {
    if (mark->kind != MARK_DISC && mark->kind != MARK_SHAPE) return false;
    points_box(mark, box);
    if (mark->kind == MARK_SHAPE) return true;
    double radius = (double)mark->size;
    *box = (Box){box->x - radius, box->y - radius, box->width + 2 * radius, box->height + 2 * radius};
    return true;
}

static void check_markers(const Page *page, unsigned seed) {
    for (size_t i = 0; i < page->count; i++) {
        Box marker;
        if (!marker_box(&page->marks[i], &marker)) continue;
        for (size_t k = 0; k < page->count; k++) {
            if (page->marks[k].kind != MARK_TEXT || !overlap(marker, text_box(&page->marks[k]))) continue;
            fail_msg("seed %u: \"%s…\" stands on a marker at %.1f %.1f", seed, said(&page->marks[k]), marker.x,
                     marker.y);
        }
    }
}

/* Data are drawn in lines of 0.7 and more; hairlines behind them may pass under a text's white. */
static void check_lines(const Page *page, unsigned seed) {
    for (size_t i = 0; i < page->count; i++) {
        const Mark *mark = &page->marks[i];
        if (mark->kind != MARK_LINE || mark->stroke_width < 0.7f || mark->dash > 0) continue;
        Box line;
        points_box(mark, &line);
        for (size_t k = 0; k < page->count; k++) {
            if (page->marks[k].kind != MARK_TEXT || !overlap(line, text_box(&page->marks[k]))) continue;
            fail_msg("seed %u: a line runs through \"%s…\" at %.1f %.1f", seed, said(&page->marks[k]), line.x, line.y);
        }
    }
}

static void check_finite(const Page *page, unsigned seed) {
    for (size_t i = 0; i < page->count; i++) {
        const Mark *mark = &page->marks[i];
        bool good =
            isfinite(mark->box.x) && isfinite(mark->box.y) && isfinite(mark->box.width) && isfinite(mark->box.height);
        good = good && mark->box.width >= 0 && mark->box.height >= 0;
        for (uint32_t k = 0; mark->points && k < (mark->kind == MARK_TEXT ? 1 : mark->count); k++)
            good = good && isfinite(mark->points[k].x) && isfinite(mark->points[k].y);
        if (!good) fail_msg("seed %u: mark %zu of kind %d has no place", seed, i, (int)mark->kind);
    }
}

static void check_type(const Page *page, unsigned seed) {
    for (size_t i = 0; i < page->count; i++)
        if (page->marks[i].kind == MARK_TEXT && page->marks[i].size < 7.5f)
            fail_msg("seed %u: type under 7.5 pt", seed);
}

static void check_figure(FigureKind kind, unsigned seed) {
    Arena *arena = arena_new();
    Dice dice = {.state = seed * 2654435761u + (unsigned)kind, .arena = arena};
    for (int i = 0; i < 8; i++) roll(&dice, 2);
    static const double widths[] = {506, 248, 323, 525, 230};
    double width = widths[roll(&dice, 5)];
    if (kind == FIGURE_CLAIM_ROWS || kind == FIGURE_GRADE_RULE) width = fmax(width, 323);
    Figure figure = {.kind = kind, .alt = "random"};
    ROLLS[kind].fill(&dice, &figure);
    Canvas *canvas = fixed_canvas(arena);
    double height = figure_height(canvas, &figure, width);
    assert_true(canvas->page->count == 0);
    assert_true(fabs(figure_draw(canvas, &figure, width) - height) < 1e-9);
    check_finite(canvas->page, seed);
    check_type(canvas->page, seed);
    check_texts(canvas->page, width, height, seed);
    check_markers(canvas->page, seed);
    check_lines(canvas->page, seed);
    arena_free(arena);
}

static void check_kind(void **state) {
    FigureKind kind = *(const FigureKind *)*state;
    for (unsigned seed = 1; seed <= SEEDS; seed++) check_figure(kind, seed);
}

int main(void) {
    static FigureKind kinds[FIGURE_KIND_COUNT];
    struct CMUnitTest tests[FIGURE_KIND_COUNT];
    for (int i = 0; i < FIGURE_KIND_COUNT; i++) {
        kinds[i] = (FigureKind)i;
        tests[i] = (struct CMUnitTest){.name = ROLLS[i].name, .test_func = check_kind, .initial_state = &kinds[i]};
    }
    return cmocka_run_group_tests_name("figures keep their texts apart", tests, NULL, NULL);
}
