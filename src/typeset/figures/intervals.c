/* Interval rows: label, k/n, axis, rate, interval in columns; nothing is written over the axis. */
#include <math.h>

#include "typeset/figures/columns.h"
#include "typeset/figures/kit.h"
#include "typeset/figures/markers.h"

#define PITCH 14.0
#define LEADING 10.0
#define GROUP_GAP 8.0
#define HEAD 2.0 /* guides start above the first row by this */
#define FOOT 4.0 /* from the last row to the axis */

typedef struct Plan {
    const IntervalRows *rows;
    RowColumns columns;
    AxisPlace axis;
    double bottom; /* where the axis line is */
} Plan;

static double row_top(const IntervalRows *rows, size_t index) {
    return index && rows->rows[index].starts_group ? GROUP_GAP : 0;
}

static Plan plan_intervals(Canvas *canvas, const IntervalRows *rows, double width) {
    Plan plan = {.rows = rows};
    RowNeeds needs = {0};
    for (size_t i = 0; i < rows->count; i++) columns_need(canvas, &needs, &rows->rows[i]);
    plan.columns = columns_fit(&needs, width);
    plan.axis =
        axis_place(rows->axis, plan.columns.axis_left, plan.columns.axis_right - plan.columns.axis_left, 0, width);
    plan.bottom = HEAD;
    for (size_t i = 0; i < rows->count; i++) {
        size_t lines = columns_label(canvas, &plan.columns, TYPE_LABEL, &rows->rows[i]).count;
        plan.bottom += row_top(rows, i) + PITCH + LEADING * (double)(lines - 1);
    }
    plan.bottom += FOOT;
    return plan;
}

double intervals_height(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.intervals.count) return KIT_EMPTY_HEIGHT;
    return plan_intervals(canvas, &figure->as.intervals, width).bottom + AXIS_DEPTH;
}

static void draw_reference(Canvas *canvas, const Plan *plan) {
    double reference = plan->rows->reference;
    if (!isfinite(reference) || axis_side(&plan->axis, reference)) return;
    double x = axis_x(&plan->axis, reference);
    canvas_line(canvas, x, 0, x, plan->bottom, LINE_REFERENCE, ink_tint(TINT_REFERENCE));
}

void intervals_draw(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.intervals.count) {
        kit_empty(canvas, width, "nothing charted");
        return;
    }
    Plan plan = plan_intervals(canvas, &figure->as.intervals, width);
    axis_guides(canvas, &plan.axis, 0, plan.bottom);
    draw_reference(canvas, &plan);
    double top = HEAD;
    for (size_t i = 0; i < plan.rows->count; i++) {
        const IntervalRow *row = &plan.rows->rows[i];
        top += row_top(plan.rows, i);
        size_t lines =
            columns_draw(canvas, &plan.columns, row, top + PITCH / 2, TYPE_LABEL, TYPE_LABEL_STRONG, LEADING);
        marker_row(canvas, &plan.axis, top + PITCH / 2, row, MARKER_DOT);
        top += PITCH + LEADING * (double)(lines - 1);
    }
    axis_draw(canvas, &plan.axis, plan.bottom);
}
