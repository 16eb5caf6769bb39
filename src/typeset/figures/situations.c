/* The situation table: a rate by row and column, each cell with its k/n and interval; under five snaps hatched, k/n
 * only. */
#include <math.h>

#include "stats/findings.h"
#include "typeset/figures/kit.h"

#define HEAD_HEIGHT 16.0
#define HEAD_LEADING 9.0
#define LEADING 9.0
#define PAD_TOP 2.2
#define PAD_BOTTOM 2.0
#define TOTAL_GAP 1.5
#define LABEL_GAP 8.0
#define COLUMN_GAP 5.0
#define LABEL_MOST 0.25
#define LABEL_LEAST 12.0
#define HATCH_PITCH 3.2
#define HATCH_LINE 0.35

static const Ink PAPER = {INK_PAPER, 100};

typedef struct Plan {
    const Situations *table;
    double label_width;
    double *right; /* right edge of each column */
    double *left;  /* where its cells may begin */
    Lines *heads, *labels;
    double head_height;
    bool stacked; /* k/n on a line of its own, where both do not fit beside each
                     other */
    double height;
} Plan;

static const char *rate_text(Canvas *canvas, const RateCell *cell) {
    return arena_printf(canvas->arena, "%s%%", kit_percent(canvas, cell->value));
}

/* Width of "50% 4/8". */
static double beside_width(Canvas *canvas, const RateCell *cell) {
    double rate = canvas_width(canvas, TYPE_LABEL_STRONG, rate_text(canvas, cell));
    return rate + canvas_width(canvas, TYPE_SMALL, "\u00a0") +
           canvas_width(canvas, TYPE_SMALL, kit_count(canvas, *cell));
}

static double cell_width(Canvas *canvas, const Plan *plan, const RateCell *cell) {
    double count = canvas_width(canvas, TYPE_SMALL, kit_count(canvas, *cell));
    if (cell->n < FEW_FOR_A_TINT) return count + 2;
    double rate = canvas_width(canvas, TYPE_LABEL_STRONG, rate_text(canvas, cell));
    double width = plan->stacked ? fmax(rate, count) : beside_width(canvas, cell);
    return kit_wider(canvas, TYPE_NOTE, kit_interval(canvas, *cell), width);
}

/* Natural widths of the columns into `widths`; returns their sum with gaps. */
static double measure_columns(Canvas *canvas, const Plan *plan, double *widths) {
    const Situations *table = plan->table;
    double sum = 0;
    for (size_t c = 0; c < table->column_count; c++) {
        widths[c] = 0;
        for (size_t r = 0; r < table->row_count; r++)
            widths[c] = fmax(widths[c], cell_width(canvas, plan, &table->cells[r * table->column_count + c]));
        sum += widths[c] + COLUMN_GAP;
    }
    return sum;
}

/* Columns take what they need, and share what is left so that they come as near to equal as it allows. */
static void place_columns(Canvas *canvas, Plan *plan, double width) {
    size_t count = plan->table->column_count;
    double *widths = ARENA_ARRAY(canvas->arena, count, double);
    double start = plan->label_width + LABEL_GAP;
    plan->stacked = measure_columns(canvas, plan, widths) > width - start;
    if (plan->stacked) {
        double needed = measure_columns(canvas, plan, widths);
        plan->label_width = fmax(fmin(plan->label_width, width - needed - LABEL_GAP), LABEL_LEAST);
        start = plan->label_width + LABEL_GAP;
    }
    double equal = (width - start) / (double)count;
    double over = 0;
    double free = 0;
    for (size_t c = 0; c < count; c++) {
        double needed = widths[c] + COLUMN_GAP;
        if (needed > equal) over += needed - equal;
        if (needed < equal) free += equal - needed;
    }
    double share = free > 0 ? fmin(over / free, 1) : 0;
    plan->right = ARENA_ARRAY(canvas->arena, count, double);
    plan->left = ARENA_ARRAY(canvas->arena, count, double);
    double x = start;
    for (size_t c = 0; c < count; c++) {
        double needed = widths[c] + COLUMN_GAP;
        plan->left[c] = x + COLUMN_GAP;
        x += needed > equal ? needed : equal - (equal - needed) * share;
        plan->right[c] = x;
    }
}

static double row_height(const Plan *plan, size_t row) {
    size_t cell = plan->stacked ? 3 : 2;
    size_t lines = plan->labels[row].count > cell ? plan->labels[row].count : cell;
    bool total = plan->table->totals && row + 1 == plan->table->row_count;
    return PAD_TOP + LEADING * (double)lines + PAD_BOTTOM + (total ? TOTAL_GAP : 0);
}

static Plan plan_table(Canvas *canvas, const Situations *table, double width) {
    Plan plan = {.table = table};
    double widest = 0;
    for (size_t r = 0; r < table->row_count; r++) widest = kit_wider(canvas, TYPE_LABEL, table->rows[r], widest);
    plan.label_width = fmin(widest, LABEL_MOST * width);
    place_columns(canvas, &plan, width);
    plan.labels = ARENA_ARRAY(canvas->arena, table->row_count, Lines);
    for (size_t r = 0; r < table->row_count; r++)
        plan.labels[r] = kit_wrap(canvas, TYPE_LABEL, table->rows[r], plan.label_width);
    plan.heads = ARENA_ARRAY(canvas->arena, table->column_count, Lines);
    size_t lines = 1;
    for (size_t c = 0; c < table->column_count; c++) {
        plan.heads[c] = kit_wrap(canvas, TYPE_NOTE, table->columns[c], plan.right[c] - plan.left[c]);
        if (plan.heads[c].count > lines) lines = plan.heads[c].count;
    }
    plan.head_height = HEAD_HEIGHT + HEAD_LEADING * (double)(lines - 1);
    plan.height = plan.head_height;
    for (size_t r = 0; r < table->row_count; r++) plan.height += row_height(&plan, r);
    return plan;
}

static bool is_empty(const Situations *table) {
    int n = 0;
    for (size_t i = 0; i < table->row_count * table->column_count; i++) n += table->cells[i].n;
    return n == 0;
}

double situations_height(Canvas *canvas, const Figure *figure, double width) {
    if (is_empty(&figure->as.situations)) return KIT_EMPTY_HEIGHT;
    return plan_table(canvas, &figure->as.situations, width).height;
}

static void draw_few(Canvas *canvas, const RateCell *cell, Box box) {
    double right = box.x + box.width;
    const char *count = kit_count(canvas, *cell);
    double white = canvas_width(canvas, TYPE_SMALL, count) + 4;
    double y = box.y + box.height / 2;
    canvas_hatch(canvas, box, HATCH_PITCH, HATCH_LINE, INK);
    canvas_rect(canvas, (Box){right - white, y - LEADING / 2, white, LEADING}, PAPER, 0, INK_NONE);
    kit_text(canvas, TYPE_SMALL, right, kit_centre(canvas, TYPE_SMALL, y), ALIGN_RIGHT, count);
}

static void draw_cell(Canvas *canvas, const Plan *plan, const RateCell *cell, Box box) {
    double right = box.x + box.width;
    double y = box.y + LEADING - 1.6;
    if (!cell->n) {
        kit_text(canvas, TYPE_SMALL, right, y, ALIGN_RIGHT, "–");
        return;
    }
    if (cell->n < FEW_FOR_A_TINT) {
        draw_few(canvas, cell, box);
        return;
    }
    double x = plan->stacked ? right : right - beside_width(canvas, cell);
    kit_text(canvas, TYPE_LABEL_STRONG, x, y, plan->stacked ? ALIGN_RIGHT : ALIGN_LEFT, rate_text(canvas, cell));
    if (plan->stacked) y += LEADING;
    kit_text(canvas, TYPE_SMALL, right, y, ALIGN_RIGHT, kit_count(canvas, *cell));
    kit_text(canvas, TYPE_NOTE, right, y + LEADING, ALIGN_RIGHT, kit_interval(canvas, *cell));
}

static void draw_row(Canvas *canvas, const Plan *plan, size_t row, double top, double width) {
    const Situations *table = plan->table;
    double height = row_height(plan, row);
    bool total = table->totals && row + 1 == table->row_count;
    if (total) canvas_line(canvas, 0, top, width, top, LINE_FRAME, INK);
    double y = top + PAD_TOP + (total ? TOTAL_GAP : 0);
    kit_lines(canvas, TYPE_LABEL, 0, y + LEADING - 1.6, ALIGN_LEFT, plan->labels[row], LEADING);
    for (size_t c = 0; c < table->column_count; c++) {
        Box box = {plan->left[c], y, plan->right[c] - plan->left[c], height - (y - top) - PAD_BOTTOM};
        draw_cell(canvas, plan, &table->cells[row * table->column_count + c], box);
    }
}

void situations_draw(Canvas *canvas, const Figure *figure, double width) {
    const Situations *table = &figure->as.situations;
    if (is_empty(table)) {
        kit_empty(canvas, width, "nothing charted");
        return;
    }
    Plan plan = plan_table(canvas, table, width);
    for (size_t c = 0; c < table->column_count; c++) {
        double first = plan.head_height - 6.5 - HEAD_LEADING * (double)(plan.heads[c].count - 1);
        kit_lines(canvas, TYPE_NOTE, plan.right[c], first, ALIGN_RIGHT, plan.heads[c], HEAD_LEADING);
    }
    canvas_line(canvas, 0, plan.head_height, width, plan.head_height, LINE_REFERENCE, INK);
    double y = plan.head_height;
    for (size_t r = 0; r < table->row_count; r++) {
        draw_row(canvas, &plan, r, y, width);
        y += row_height(&plan, r);
    }
}
