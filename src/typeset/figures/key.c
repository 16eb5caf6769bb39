/* The key of verdicts: every mark with its word and its rule. */
#include <math.h>

#include "typeset/figures/kit.h"
#include "typeset/figures/markers.h"

#define RULE_HEIGHT 7.0 /* from the rule above to the first entry */
#define WORD_GAP 6.0
#define ENTRY_GAP 12.0
#define ENTRY_HEIGHT 24.0
#define SECOND_LINE 11.0

typedef struct Entry {
    VerdictMark mark;
    const char *word, *rule;
} Entry;

static const Entry ENTRIES[] = {
    {MARK_BORNE_OUT, "borne out", "as claimed, adjusted p ≤ 0.05"},
    {MARK_LEANING, "leaning", "as claimed, p above 0.05"},
    {MARK_TOO_FEW, "too few to say", "under 8 snaps on a side"},
    {MARK_LEANING_AGAINST, "leaning against", "reverse, p above 0.05"},
    {MARK_CONTRADICTED, "contradicted", "reverse, adjusted p ≤ 0.05"},
};
enum { ENTRY_COUNT = sizeof ENTRIES / sizeof *ENTRIES };

typedef struct Plan {
    double width[ENTRY_COUNT];
    size_t row_start[ENTRY_COUNT + 1]; /* first entry of each row */
    size_t rows;
} Plan;

static double entry_width(Canvas *canvas, const Entry *entry) {
    double word = VERDICT_WIDTH + WORD_GAP + canvas_width(canvas, TYPE_LABEL_STRONG, entry->word);
    return kit_wider(canvas, TYPE_NOTE, entry->rule, word);
}

static Plan plan_key(Canvas *canvas, double width) {
    Plan plan = {.rows = 1};
    double used = 0;
    for (size_t i = 0; i < ENTRY_COUNT; i++) {
        plan.width[i] = entry_width(canvas, &ENTRIES[i]);
        double needed = plan.width[i] + (i > plan.row_start[plan.rows - 1] ? ENTRY_GAP : 0);
        if (i && used + needed > width) {
            plan.row_start[plan.rows++] = i;
            used = plan.width[i];
        } else {
            used += needed;
        }
    }
    plan.row_start[plan.rows] = ENTRY_COUNT;
    return plan;
}

double key_height(Canvas *canvas, const Figure *figure, double width) {
    (void)figure;
    return RULE_HEIGHT + ENTRY_HEIGHT * (double)plan_key(canvas, width).rows;
}

static void draw_entry(Canvas *canvas, const Entry *entry, double x, double top) {
    double y = top + 5;
    double baseline = kit_centre(canvas, TYPE_LABEL_STRONG, y);
    marker_verdict(canvas, x, y, entry->mark);
    kit_text(canvas, TYPE_LABEL_STRONG, x + VERDICT_WIDTH + WORD_GAP, baseline, ALIGN_LEFT, entry->word);
    kit_text(canvas, TYPE_NOTE, x, baseline + SECOND_LINE, ALIGN_LEFT, entry->rule);
}

/* Entries keep their natural widths; a full row spreads over the width. */
static void draw_key_row(Canvas *canvas, const Plan *plan, size_t row, double top, double width) {
    size_t first = plan->row_start[row];
    size_t end = plan->row_start[row + 1];
    double used = 0;
    for (size_t i = first; i < end; i++) used += plan->width[i];
    double gap = end - first > 1 ? (width - used) / (double)(end - first - 1) : 0;
    if (plan->rows > 1) gap = fmin(gap, 2 * ENTRY_GAP);
    double x = 0;
    for (size_t i = first; i < end; i++) {
        draw_entry(canvas, &ENTRIES[i], x, top);
        x += plan->width[i] + gap;
    }
}

void key_draw(Canvas *canvas, const Figure *figure, double width) {
    (void)figure;
    Plan plan = plan_key(canvas, width);
    canvas_line(canvas, 0, 0, width, 0, LINE_GRID, INK_MUTED);
    for (size_t row = 0; row < plan.rows; row++)
        draw_key_row(canvas, &plan, row, RULE_HEIGHT + ENTRY_HEIGHT * (double)row, width);
}
