/* The blank charting sheet: boxes for what is the same all day, then a grid as high as the page allows. */
#include <math.h>

#include "typeset/figures/kit.h"

#define BOX_HEIGHT 30.0
#define BOX_GAP 10.0
#define LABEL_BASELINE 7.0
#define HEAD_GAP 8.0 /* above the heads of the columns */
#define HEAD_PAD 4.0
#define HEAD_MOST 66.0
#define ROW_PITCH 17.0
#define LEAST_ROWS 5

enum { ROWS_A_BAND = 5 }; /* a heavier line so often leads the eye across */

typedef struct Plan {
    const ChartForm *form;
    double width;
    double head_top, head_height, grid_top;
    size_t rows;
    double weights; /* of all columns */
} Plan;

static double column_width(const Plan *plan, size_t column) {
    return plan->width * plan->form->columns[column].weight / plan->weights;
}

/* A label stands upright where it does not fit across. */
static bool is_turned(Canvas *canvas, const Plan *plan, size_t column) {
    double room = column_width(plan, column) - HEAD_PAD;
    return kit_wider(canvas, TYPE_COUNT, plan->form->columns[column].label, 0) > room;
}

static Plan plan_form(Canvas *canvas, const ChartForm *form, double width) {
    Plan plan = {.form = form, .width = width, .head_top = BOX_HEIGHT + HEAD_GAP, .head_height = 14};
    for (size_t i = 0; i < form->column_count; i++) plan.weights += form->columns[i].weight;
    for (size_t i = 0; i < form->column_count; i++) {
        if (!is_turned(canvas, &plan, i)) continue;
        double label = kit_wider(canvas, TYPE_COUNT, form->columns[i].label, 0);
        plan.head_height = fmax(plan.head_height, fmin(HEAD_MOST, label) + 2 * HEAD_PAD);
    }
    plan.grid_top = plan.head_top + plan.head_height;
    double rows = floor((canvas->room - plan.grid_top - 1) / ROW_PITCH);
    plan.rows = rows < LEAST_ROWS ? LEAST_ROWS : (size_t)rows;
    if (form->most_rows && plan.rows > (size_t)form->most_rows) plan.rows = (size_t)form->most_rows;
    return plan;
}

double form_height(Canvas *canvas, const Figure *figure, double width) {
    Plan plan = plan_form(canvas, &figure->as.form, width);
    return plan.grid_top + ROW_PITCH * (double)plan.rows;
}

static void draw_boxes(Canvas *canvas, const Plan *plan) {
    const ChartForm *form = plan->form;
    double step = plan->width / (double)form->box_count;
    for (size_t i = 0; i < form->box_count; i++) {
        double x = step * (double)i;
        double end = i + 1 < form->box_count ? x + step - BOX_GAP : plan->width;
        kit_text(canvas, TYPE_NOTE, x, LABEL_BASELINE, ALIGN_LEFT, form->boxes[i]);
        canvas_line(canvas, x, BOX_HEIGHT - 2, end, BOX_HEIGHT - 2, LINE_FRAME, INK);
    }
}

static void draw_label(Canvas *canvas, const Plan *plan, size_t column, double x) {
    const char *label = plan->form->columns[column].label;
    double bottom = plan->grid_top - HEAD_PAD;
    if (!is_turned(canvas, plan, column)) {
        kit_text(canvas, TYPE_COUNT, x + HEAD_PAD / 2, bottom, ALIGN_LEFT, label);
        return;
    }
    double middle = x + column_width(plan, column) / 2;
    const char *cut = kit_cut(canvas, TYPE_COUNT, label, HEAD_MOST);
    canvas_turned(canvas, TYPE_COUNT, kit_centre(canvas, TYPE_COUNT, middle), bottom, 90, cut);
}

static void draw_grid(Canvas *canvas, const Plan *plan) {
    double bottom = plan->grid_top + ROW_PITCH * (double)plan->rows;
    double x = 0;
    for (size_t i = 0; i < plan->form->column_count; i++) {
        if (i) canvas_line(canvas, x, plan->head_top, x, bottom, LINE_GRID, INK_MUTED);
        draw_label(canvas, plan, i, x);
        x += column_width(plan, i);
    }
    for (size_t row = 1; row < plan->rows; row++) {
        double y = plan->grid_top + ROW_PITCH * (double)row;
        bool heavy = row % ROWS_A_BAND == 0;
        canvas_line(canvas, 0, y, plan->width, y, heavy ? LINE_REFERENCE : LINE_GRID, INK_MUTED);
    }
    canvas_line(canvas, 0, plan->grid_top, plan->width, plan->grid_top, LINE_REFERENCE, INK);
    canvas_rect(canvas, (Box){0, plan->head_top, plan->width, bottom - plan->head_top}, INK_NONE, LINE_REFERENCE, INK);
}

void form_draw(Canvas *canvas, const Figure *figure, double width) {
    Plan plan = plan_form(canvas, &figure->as.form, width);
    draw_boxes(canvas, &plan);
    draw_grid(canvas, &plan);
}
