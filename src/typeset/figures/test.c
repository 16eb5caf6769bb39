/* The tape test of a claim: its side and the other on one axis, under them the difference on an axis whose claimed half
 * is tinted, so that a contradiction is seen before it is read. */
#include <math.h>

#include "typeset/figures/columns.h"
#include "typeset/figures/kit.h"
#include "typeset/figures/markers.h"

#define VERDICT_HEIGHT 19.0
#define VERDICT_BASELINE 11.5
#define VERDICT_GAP 10.0
#define PITCH 15.0
#define LEADING 10.0
#define FOOT 2.5
#define DIFFERENCE_GAP 9.0
#define DIFFERENCE_HEIGHT 13.0
#define DIFFERENCE_TEXT_GAP 9.0
#define AXIS_LABEL_ROOM 16.0 /* the first label of an axis reaches this far left of it */
#define TYPE_BIG ((TextStyle){FACE_STRONG, 10.0f, {INK_BLACK, 100}, 0})

typedef struct Plan {
    const TapeTest *test;
    RowColumns columns;
    Lines difference;        /* its label */
    double difference_right; /* of its value */
    AxisPlace axis, difference_axis;
    double rows_top, axis_y, band_top;
    double height;
} Plan;

static bool has_other(const TapeTest *test) {
    return !kit_blank(test->b.label) || !kit_blank(test->b.count);
}

static double row_height(Canvas *canvas, const Plan *plan, const IntervalRow *row, TextStyle style) {
    return PITCH + LEADING * (double)(columns_label(canvas, &plan->columns, style, row).count - 1);
}

static Plan plan_test(Canvas *canvas, const TapeTest *test, double width) {
    Plan plan = {.test = test};
    RowNeeds needs = {0};
    columns_need(canvas, &needs, &test->a);
    if (has_other(test)) columns_need(canvas, &needs, &test->b);
    plan.columns = columns_fit(&needs, width);
    if (test->testable) {
        double interval = kit_wider(canvas, TYPE_NOTE, test->difference.interval, 0);
        double value = kit_wider(canvas, TYPE_LABEL_STRONG, test->difference.value, 0);
        plan.difference_right = width - interval - (interval > 0 ? DIFFERENCE_TEXT_GAP : 0);
        double most = plan.difference_right - value - DIFFERENCE_TEXT_GAP;
        plan.columns.axis_right = fmax(fmin(plan.columns.axis_right, most), plan.columns.axis_left + 1);
    }
    double axis_width = plan.columns.axis_right - plan.columns.axis_left;
    plan.axis = axis_place(test->axis, plan.columns.axis_left, axis_width, 0, width);
    plan.difference_axis = axis_place(test->difference_axis, plan.columns.axis_left, axis_width, 0, width);
    plan.rows_top = kit_blank(test->verdict) ? 0 : VERDICT_HEIGHT;
    plan.axis_y = plan.rows_top + row_height(canvas, &plan, &test->a, TYPE_LABEL_STRONG) + FOOT;
    if (has_other(test)) plan.axis_y += row_height(canvas, &plan, &test->b, TYPE_LABEL);
    plan.band_top = plan.axis_y + AXIS_DEPTH + DIFFERENCE_GAP;
    plan.height = plan.axis_y + AXIS_DEPTH;
    if (!test->testable) return plan;
    plan.difference = kit_wrap(canvas, TYPE_LABEL, test->difference.label, plan.columns.axis_left - AXIS_LABEL_ROOM);
    double label = LEADING * (double)plan.difference.count - LEADING / 2 + 2;
    plan.height = plan.band_top + fmax(DIFFERENCE_HEIGHT + AXIS_DEPTH, DIFFERENCE_HEIGHT / 2 + label);
    return plan;
}

double test_height(Canvas *canvas, const Figure *figure, double width) {
    return plan_test(canvas, &figure->as.test, width).height;
}

static void draw_verdict(Canvas *canvas, const TapeTest *test, double width) {
    if (kit_blank(test->verdict)) return;
    double words = canvas_text(canvas, TYPE_BIG, width, VERDICT_BASELINE, ALIGN_RIGHT, test->verdict);
    double middle = VERDICT_BASELINE - 3.3;
    marker_verdict(canvas, width - words - VERDICT_GAP - VERDICT_WIDTH, middle, test->mark);
}

static void draw_sides(Canvas *canvas, const Plan *plan) {
    const TapeTest *test = plan->test;
    double y = plan->rows_top + PITCH / 2;
    axis_guides(canvas, &plan->axis, plan->rows_top, plan->axis_y);
    columns_draw(canvas, &plan->columns, &test->a, y, TYPE_LABEL_STRONG, TYPE_LABEL_STRONG, LEADING);
    marker_row(canvas, &plan->axis, y, &test->a, MARKER_DOT);
    if (has_other(test)) {
        y += row_height(canvas, plan, &test->a, TYPE_LABEL_STRONG);
        columns_draw(canvas, &plan->columns, &test->b, y, TYPE_LABEL, TYPE_LABEL, LEADING);
        marker_row(canvas, &plan->axis, y, &test->b, MARKER_DOT);
    }
    axis_draw(canvas, &plan->axis, plan->axis_y);
}

/* The half of the axis that the claim predicts, and the line of no difference. */
static void draw_claimed_half(Canvas *canvas, const Plan *plan) {
    const AxisPlace *axis = &plan->difference_axis;
    double zero = axis_x(axis, 0);
    double end = plan->test->direction < 0 ? axis->x : axis->x + axis->width;
    Box half = {fmin(zero, end), plan->band_top, fabs(end - zero), DIFFERENCE_HEIGHT};
    if (half.width > 0) canvas_rect(canvas, half, ink_tint(TINT_CLAIMED), 0, INK_NONE);
    canvas_line(canvas, zero, plan->band_top, zero, plan->band_top + DIFFERENCE_HEIGHT, LINE_REFERENCE, INK);
}

static void draw_difference(Canvas *canvas, const Plan *plan, double width) {
    IntervalRow difference = plan->test->difference;
    double y = plan->band_top + DIFFERENCE_HEIGHT / 2;
    double baseline = kit_centre(canvas, TYPE_LABEL, y);
    if (plan->test->mark == MARK_TOO_FEW) difference.hatched = true;
    draw_claimed_half(canvas, plan);
    marker_row(canvas, &plan->difference_axis, y, &difference, MARKER_DIAMOND);
    axis_draw(canvas, &plan->difference_axis, plan->band_top + DIFFERENCE_HEIGHT);
    kit_lines(canvas, TYPE_LABEL, 0, baseline, ALIGN_LEFT, plan->difference, LEADING);
    const char *value = kit_blank(difference.value) ? "–" : difference.value;
    kit_text(canvas, TYPE_LABEL_STRONG, plan->difference_right, baseline, ALIGN_RIGHT, value);
    kit_text(canvas, TYPE_NOTE, width, baseline, ALIGN_RIGHT, difference.interval);
}

void test_draw(Canvas *canvas, const Figure *figure, double width) {
    Plan plan = plan_test(canvas, &figure->as.test, width);
    draw_verdict(canvas, plan.test, width);
    draw_sides(canvas, &plan);
    if (plan.test->testable) draw_difference(canvas, &plan, width);
}
