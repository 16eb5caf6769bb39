/* Trait bars: each trait's grade on the house scale as a wedge, the range between evaluators as a bar, the position's
 * bar as a line behind all, its weight and the evaluator's words. */
#include <math.h>

#include "typeset/figures/kit.h"
#include "typeset/figures/markers.h"

#define HEAD 12.0
#define PITCH 15.0
#define LEADING 10.0
#define NOTE_LEADING 9.0
#define GAP 9.0
#define SAYS_GAP 16.0
#define AXIS_SHARE 0.3 /* of the width, beside the words */
#define LABEL_MOST 0.24
#define LEAST_SAYS 150.0 /* narrower: the words go under their row */
#define LINE_DROP 3.2    /* the row's line stands this far below the middle of its text */
#define RANGE_HEIGHT 4.4
#define WEDGE_WIDTH 8.0
#define WEDGE_HEIGHT 7.0
#define FOOT 2.0
enum { MOST_STEPS = 12 };

typedef struct Plan {
    const TraitBars *traits;
    Lines *labels, *says;
    double label_width, weight_right, grade_right, says_left, says_width;
    bool beside; /* words beside the row, not under it */
    AxisPlace axis;
    double bottom;
} Plan;

static void place_columns(Canvas *canvas, Plan *plan, double width) {
    const TraitBars *traits = plan->traits;
    double label = 0;
    double weight = canvas_width(canvas, TYPE_NOTE, "weight");
    double grade = canvas_width(canvas, TYPE_NOTE, "grade");
    for (size_t i = 0; i < traits->count; i++) {
        label = kit_wider(canvas, TYPE_LABEL, traits->rows[i].label, label);
        weight = kit_wider(canvas, TYPE_LABEL_MUTED, traits->rows[i].weight, weight);
        grade = kit_wider(canvas, TYPE_LABEL_STRONG, traits->rows[i].grade, grade);
    }
    plan->label_width = fmin(label, LABEL_MOST * width);
    plan->weight_right = plan->label_width + GAP + weight;
    double axis_left = plan->weight_right + GAP + WEDGE_WIDTH / 2;
    double axis_width = AXIS_SHARE * width;
    plan->says_left = axis_left + axis_width + WEDGE_WIDTH / 2 + GAP + grade + SAYS_GAP;
    plan->beside = width - plan->says_left >= LEAST_SAYS;
    if (!plan->beside) {
        plan->says_left = 0;
        axis_width = width - axis_left - WEDGE_WIDTH / 2 - GAP - grade;
    }
    plan->says_width = width - plan->says_left;
    plan->grade_right = axis_left + axis_width + WEDGE_WIDTH / 2 + GAP + grade;
    double span = traits->high - traits->low;
    Axis axis = {
        .from = traits->low, .to = traits->high, .step = span > MOST_STEPS ? span / MOST_STEPS : 1, .scale = 1};
    plan->axis = axis_place(axis, axis_left, axis_width, 0, width);
}

static double row_height(const Plan *plan, size_t index) {
    double label = LEADING * (double)(plan->labels[index].count - 1);
    const Lines *says = &plan->says[index];
    if (plan->beside) return PITCH + fmax(label, NOTE_LEADING * (double)(says->count - 1));
    return PITCH + label + (says->width > 0 ? NOTE_LEADING * (double)says->count + 3 : 0);
}

static Plan plan_traits(Canvas *canvas, const TraitBars *traits, double width) {
    Plan plan = {.traits = traits};
    plan.labels = ARENA_ARRAY(canvas->arena, traits->count, Lines);
    plan.says = ARENA_ARRAY(canvas->arena, traits->count, Lines);
    place_columns(canvas, &plan, width);
    plan.bottom = HEAD;
    for (size_t i = 0; i < traits->count; i++) {
        plan.labels[i] = kit_wrap(canvas, TYPE_LABEL, traits->rows[i].label, plan.label_width);
        plan.says[i] = kit_wrap(canvas, TYPE_NOTE, traits->rows[i].says, plan.says_width);
        plan.bottom += row_height(&plan, i);
    }
    plan.bottom += FOOT;
    return plan;
}

double traits_height(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.traits.count) return KIT_EMPTY_HEIGHT;
    return plan_traits(canvas, &figure->as.traits, width).bottom + AXIS_DEPTH;
}

static void draw_range(Canvas *canvas, const Plan *plan, const TraitRow *row, double y) {
    if (!isfinite(row->low) || !isfinite(row->high)) return;
    double left = axis_x(&plan->axis, row->low);
    double right = axis_x(&plan->axis, row->high);
    if (right - left > 0)
        canvas_rect(canvas, (Box){left, y - RANGE_HEIGHT, right - left, RANGE_HEIGHT}, ink_tint(TINT_MIDDLE), 0,
                    INK_NONE);
}

static void draw_grade(Canvas *canvas, const Plan *plan, const TraitRow *row, double y) {
    const Ink accent = {INK_ACCENT, 100};
    if (!isfinite(row->value)) return;
    double x = axis_x(&plan->axis, row->value);
    int side = axis_side(&plan->axis, row->value);
    if (side) {
        marker_beyond(canvas, x, y - RANGE_HEIGHT / 2, side, accent);
    } else {
        marker_wedge(canvas, x, y, WEDGE_WIDTH, WEDGE_HEIGHT, accent);
    }
}

static void draw_row(Canvas *canvas, const Plan *plan, size_t index, double top) {
    const TraitRow *row = &plan->traits->rows[index];
    double middle = top + PITCH / 2;
    double line = middle + LINE_DROP;
    double baseline = kit_centre(canvas, TYPE_LABEL, middle);
    kit_lines(canvas, TYPE_LABEL, 0, baseline, ALIGN_LEFT, plan->labels[index], LEADING);
    kit_text(canvas, TYPE_LABEL_MUTED, plan->weight_right, baseline, ALIGN_RIGHT, row->weight);
    draw_range(canvas, plan, row, line);
    canvas_line(canvas, plan->axis.x, line, plan->axis.x + plan->axis.width, line, LINE_AXIS, ink_tint(TINT_GUIDE));
    draw_grade(canvas, plan, row, line);
    kit_text(canvas, TYPE_LABEL_STRONG, plan->grade_right, baseline, ALIGN_RIGHT, row->grade);
    double says = baseline;
    if (!plan->beside) says += LEADING * (double)(plan->labels[index].count - 1) + NOTE_LEADING + 2;
    kit_lines(canvas, TYPE_NOTE, plan->says_left, says, ALIGN_LEFT, plan->says[index], NOTE_LEADING);
}

/* The position's bar stands behind the rows, and only beside their lines: words under a row stay clear. */
static void draw_bar(Canvas *canvas, const Plan *plan) {
    double bar = plan->traits->bar;
    if (!isfinite(bar) || axis_side(&plan->axis, bar)) return;
    double x = axis_x(&plan->axis, bar);
    double top = HEAD;
    for (size_t i = 0; i < plan->traits->count; i++) {
        double bottom = top + row_height(plan, i);
        canvas_line(canvas, x, top, x, plan->beside ? bottom : top + PITCH, LINE_REFERENCE, ink_tint(TINT_REFERENCE));
        top = bottom;
    }
}

void traits_draw(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.traits.count) {
        kit_empty(canvas, width, "no trait is graded");
        return;
    }
    Plan plan = plan_traits(canvas, &figure->as.traits, width);
    double head = kit_centre(canvas, TYPE_NOTE, HEAD / 2 - 1);
    kit_text(canvas, TYPE_NOTE, plan.weight_right, head, ALIGN_RIGHT, "weight");
    kit_text(canvas, TYPE_NOTE, plan.grade_right, head, ALIGN_RIGHT, "grade");
    draw_bar(canvas, &plan);
    double top = HEAD;
    for (size_t i = 0; i < plan.traits->count; i++) {
        draw_row(canvas, &plan, i, top);
        top += row_height(&plan, i);
    }
    axis_draw(canvas, &plan.axis, plan.bottom);
}
