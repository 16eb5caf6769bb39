/* The grade rule: a ruler of the house's scale with half-step ticks, its words below, the range between evaluators as a
 * band and the grade as a wedge standing on it. */
#include <math.h>

#include "typeset/figures/kit.h"
#include "typeset/figures/markers.h"

#define HEAD 12.0 /* above the rule: wedge, band and note */
#define MINOR 4.0
#define MAJOR 7.0
#define MINOR_STEP 0.5
#define BAND_HEIGHT 4.8
#define BAND_END 7.0
#define WEDGE_WIDTH 10.0
#define WEDGE_HEIGHT 8.5
#define LABEL_INSET 2.7
#define LABEL_BASELINE 13.2
#define WORD_BASELINE 22.7
#define WORD_PITCH 9.0
#define TEXT_GAP 4.0
#define NOTE_GAP 6.0
#define NOTE_RISE 3.6

typedef struct Placed {
    double x;     /* left end of the text */
    Lines lines;  /* of a word: one, unless it is wider than the figure */
    size_t level; /* words that would touch step down a line */
    bool hidden;
} Placed;

typedef struct Plan {
    const GradeRule *rule;
    AxisPlace axis;
    Placed *labels, *words; /* by tick */
    size_t levels;
    Lines note;
    double note_x;
    double y; /* of the rule */
} Plan;

/* The stretch above the rule that wedge and band take. */
static void taken(const Plan *plan, double *left, double *right) {
    const GradeRule *rule = plan->rule;
    *left = INFINITY;
    *right = -INFINITY;
    if (isfinite(rule->value)) {
        double x = axis_x(&plan->axis, rule->value);
        *left = x - WEDGE_WIDTH / 2;
        *right = x + WEDGE_WIDTH / 2;
    }
    if (!isfinite(rule->low) || !isfinite(rule->high)) return;
    *left = fmin(*left, axis_x(&plan->axis, rule->low));
    *right = fmax(*right, axis_x(&plan->axis, rule->high));
}

/* The note stands right of the band, else left of it, else on lines above. */
static void place_note(Canvas *canvas, Plan *plan, double width) {
    double left;
    double right;
    plan->note = kit_wrap(canvas, TYPE_SMALL, plan->rule->note, width);
    double note = plan->note.width;
    bool single = plan->note.count == 1;
    taken(plan, &left, &right);
    plan->y = HEAD;
    if (note == 0 || (left > right && single)) return;
    if (single && right + NOTE_GAP + note <= width) {
        plan->note_x = right + NOTE_GAP;
    } else if (single && left - NOTE_GAP - note >= 0) {
        plan->note_x = left - NOTE_GAP - note;
    } else {
        plan->y = HEAD + WORD_PITCH * (double)plan->note.count;
    }
}

static double text_x(const Plan *plan, size_t tick, double text_width, double width) {
    return fmax(fmin(axis_x(&plan->axis, plan->rule->ticks[tick].at) + LABEL_INSET, width - text_width), 0);
}

static void place_labels(Canvas *canvas, Plan *plan, double width) {
    double end = -INFINITY;
    for (size_t i = 0; i < plan->rule->count; i++) {
        double text = kit_wider(canvas, TYPE_SMALL_STRONG, plan->rule->ticks[i].label, 0);
        Placed *label = &plan->labels[i];
        label->x = text_x(plan, i, text, width);
        label->hidden = text == 0 || label->x < end + TEXT_GAP / 2;
        if (!label->hidden) end = label->x + text;
    }
}

/* The first level from which `lines` lines are free at `x`. */
static size_t free_level(const double *ends, size_t levels, double x, size_t lines) {
    size_t level = 0;
    for (size_t i = 0; i < levels && i < level + lines; i++)
        if (x < ends[i] + TEXT_GAP) level = i + 1;
    return level;
}

static void place_words(Canvas *canvas, Plan *plan, double width) {
    size_t most = 0;
    for (size_t i = 0; i < plan->rule->count; i++) {
        plan->words[i].lines = kit_wrap(canvas, TYPE_NOTE, plan->rule->ticks[i].word, width);
        most += plan->words[i].lines.count;
    }
    double *ends = ARENA_ARRAY(canvas->arena, most, double);
    for (size_t i = 0; i < plan->rule->count; i++) {
        Placed *word = &plan->words[i];
        word->hidden = word->lines.width <= 0;
        if (word->hidden) continue;
        word->x = text_x(plan, i, word->lines.width, width);
        word->level = free_level(ends, plan->levels, word->x, word->lines.count);
        size_t below = word->level + word->lines.count;
        for (; plan->levels < below; plan->levels++) ends[plan->levels] = -INFINITY;
        for (size_t k = word->level; k < below; k++) ends[k] = word->x + word->lines.width;
    }
}

static Plan plan_rule(Canvas *canvas, const GradeRule *rule, double width) {
    Axis axis = {.from = rule->from, .to = rule->to, .step = MINOR_STEP, .scale = 1};
    Plan plan = {.rule = rule, .axis = axis_place(axis, 0, width, 0, width)};
    plan.labels = ARENA_ARRAY(canvas->arena, rule->count, Placed);
    plan.words = ARENA_ARRAY(canvas->arena, rule->count, Placed);
    place_labels(canvas, &plan, width);
    place_words(canvas, &plan, width);
    place_note(canvas, &plan, width);
    return plan;
}

double grade_height(Canvas *canvas, const Figure *figure, double width) {
    Plan plan = plan_rule(canvas, &figure->as.grade, width);
    double last = plan.levels ? WORD_BASELINE + WORD_PITCH * (double)(plan.levels - 1) : LABEL_BASELINE;
    return plan.y + last + 2.5;
}

static void draw_ruler(Canvas *canvas, const Plan *plan) {
    const AxisPlace *axis = &plan->axis;
    double end = axis->x + axis->width;
    canvas_line(canvas, axis->x, plan->y, end, plan->y, LINE_FRAME, INK);
    for (size_t i = 0; i < axis_ticks(axis); i++) {
        double x = axis_x(axis, axis_tick(axis, i));
        canvas_line(canvas, x, plan->y, x, plan->y + MINOR, LINE_FRAME, INK);
    }
    for (size_t i = 0; i < plan->rule->count; i++) {
        double x = axis_x(axis, plan->rule->ticks[i].at);
        canvas_line(canvas, x, plan->y, x, plan->y + MAJOR, LINE_FRAME, INK);
    }
    canvas_line(canvas, end, plan->y, end, plan->y + MAJOR, LINE_FRAME, INK);
}

static void draw_range(Canvas *canvas, const Plan *plan) {
    if (!isfinite(plan->rule->low) || !isfinite(plan->rule->high)) return;
    double left = axis_x(&plan->axis, plan->rule->low);
    double right = axis_x(&plan->axis, plan->rule->high);
    Box band = {left, plan->y - BAND_HEIGHT, right - left, BAND_HEIGHT};
    if (band.width > 0) canvas_rect(canvas, band, ink_tint(TINT_MIDDLE), 0, INK_NONE);
    canvas_line(canvas, left, plan->y - BAND_END, left, plan->y, LINE_FRAME, INK);
    canvas_line(canvas, right, plan->y - BAND_END, right, plan->y, LINE_FRAME, INK);
}

static void draw_grade(Canvas *canvas, const Plan *plan) {
    const Ink accent = {INK_ACCENT, 100};
    if (!isfinite(plan->rule->value)) return;
    double x = axis_x(&plan->axis, plan->rule->value);
    int side = axis_side(&plan->axis, plan->rule->value);
    if (side) {
        marker_beyond(canvas, x, plan->y - BAND_HEIGHT / 2, side, accent);
    } else {
        marker_wedge(canvas, x, plan->y, WEDGE_WIDTH, WEDGE_HEIGHT, accent);
    }
}

static void draw_words(Canvas *canvas, const Plan *plan) {
    for (size_t i = 0; i < plan->rule->count; i++) {
        const GradeTick *tick = &plan->rule->ticks[i];
        const Placed *label = &plan->labels[i];
        const Placed *word = &plan->words[i];
        if (!label->hidden)
            kit_text(canvas, TYPE_SMALL_STRONG, label->x, plan->y + LABEL_BASELINE, ALIGN_LEFT, tick->label);
        double y = plan->y + WORD_BASELINE + WORD_PITCH * (double)word->level;
        if (!word->hidden) kit_lines(canvas, TYPE_NOTE, word->x, y, ALIGN_LEFT, word->lines, WORD_PITCH);
    }
}

void grade_draw(Canvas *canvas, const Figure *figure, double width) {
    Plan plan = plan_rule(canvas, &figure->as.grade, width);
    draw_range(canvas, &plan);
    draw_ruler(canvas, &plan);
    draw_grade(canvas, &plan);
    draw_words(canvas, &plan);
    double note_y = plan.y > HEAD ? WORD_PITCH - 2.5 : plan.y - NOTE_RISE;
    kit_lines(canvas, TYPE_SMALL, plan.note_x, note_y, ALIGN_LEFT, plan.note, WORD_PITCH);
}
