/* Claim rows of the front page: each claim in two lines, its side above the other's, on one axis shared by all, with
 * the verdict drawn and said. From left to right: title over measure, slice, k/n, axis, rate, verdict over detail. */
#include <math.h>

#include "typeset/figures/columns.h"
#include "typeset/figures/kit.h"
#include "typeset/figures/markers.h"

#define GROUP_HEIGHT 13.0
#define GROUP_GAP 10.0
#define PAD_TOP 7.8    /* from the row rule to the middle of the first line */
#define PAD_BOTTOM 9.6 /* from the middle of the last line to the row rule */
#define SECOND 12.3    /* from the first line to the second */
#define LEADING 10.0
#define TITLE_LEADING 12.5
#define FOOT 6.0
#define GUIDE_RISE 7.0

#define GAP 8.0
#define TITLE_GAP 10.0
#define VALUE_GAP 11.0
#define WORD_INSET 32.0 /* of the verdict's word from its mark's left end */
#define VERDICT_LEAST 90.0
#define VERDICT_MOST 0.28
#define LABEL_MOST 0.2
#define COUNT_LEAST 28.0
#define VALUE_LEAST 15.5
#define AXIS_WIDTH 0.229

static const TextStyle TYPE_TITLE = {FACE_HEAD, 10.5f, {INK_BLACK, 100}, 0};
static const TextStyle TYPE_GROUP = {FACE_MEDIUM, 7.5f, {INK_BLACK, 100}, 60};

typedef struct ClaimLines {
    Lines title, measure, a, b, verdict, detail;
    bool other;      /* there is a second side */
    double b_middle; /* middle of side b's first line, from the first line */
    double last;     /* middle of the lowest line, from the first line */
} ClaimLines;

typedef struct Plan {
    const ClaimRows *claims;
    ClaimLines *lines;
    double label_width;
    double label_right, count_right, value_right;
    double mark_left, verdict_left;
    AxisPlace axis;
    double bottom; /* of the axis line */
} Plan;

typedef struct Needs {
    double label, count, value, verdict, detail;
} Needs;

static void need_side(Canvas *canvas, Needs *needs, const IntervalRow *row) {
    needs->label = kit_wider(canvas, TYPE_LABEL, row->label, needs->label);
    needs->count = kit_wider(canvas, TYPE_LABEL, row->count, needs->count);
    needs->value = kit_wider(canvas, TYPE_LABEL_STRONG, columns_value(row), needs->value);
}

static void place_columns(Canvas *canvas, Plan *plan, double width) {
    Needs needs = {0};
    for (size_t i = 0; i < plan->claims->count; i++) {
        const ClaimRow *row = &plan->claims->rows[i];
        need_side(canvas, &needs, &row->a);
        need_side(canvas, &needs, &row->b);
        needs.verdict = kit_wider(canvas, TYPE_VERDICT, row->verdict, needs.verdict);
        needs.detail = kit_wider(canvas, TYPE_NOTE, row->detail, needs.detail);
    }
    double verdict = fmax(WORD_INSET + needs.verdict, needs.detail);
    plan->mark_left = width - fmax(fmin(verdict, VERDICT_MOST * width), fmin(VERDICT_LEAST, VERDICT_MOST * width));
    plan->verdict_left = plan->mark_left + WORD_INSET;
    plan->value_right = plan->mark_left - VALUE_GAP;
    double axis_right = plan->value_right - fmax(needs.value, VALUE_LEAST) - VALUE_GAP;
    double axis_left = axis_right - AXIS_WIDTH * width;
    plan->count_right = axis_left - GAP;
    plan->label_right = plan->count_right - fmax(needs.count, COUNT_LEAST) - GAP;
    plan->label_width = fmin(needs.label, LABEL_MOST * width);
    plan->axis = axis_place(plan->claims->axis, axis_left, axis_right - axis_left, 0, width);
}

/* Middle of the lowest line when a block of `first` lines stands over one of `second`. */
static double stacked(const Lines *first, double first_leading, const Lines *second, double second_leading) {
    double middle = first_leading * (double)(first->count - 1);
    if (second->width > 0) middle += SECOND + second_leading * (double)(second->count - 1);
    return middle;
}

static ClaimLines claim_lines(Canvas *canvas, const Plan *plan, const ClaimRow *row, double width) {
    ClaimLines lines = {
        .a = kit_wrap(canvas, TYPE_LABEL, row->a.label, plan->label_width),
        .b = kit_wrap(canvas, TYPE_LABEL, row->b.label, plan->label_width),
        .verdict = kit_wrap(canvas, TYPE_VERDICT, row->verdict, width - plan->verdict_left),
        .detail = kit_wrap(canvas, TYPE_NOTE, row->detail, width - plan->mark_left),
        .other = !kit_blank(row->b.label) || !kit_blank(row->b.count),
    };
    double title_width = fmax(plan->label_right - fmax(lines.a.width, lines.b.width) - TITLE_GAP, 1);
    lines.title = kit_wrap(canvas, TYPE_TITLE, row->title, title_width);
    lines.measure = kit_wrap(canvas, TYPE_NOTE, row->measure, title_width);
    lines.b_middle = SECOND + LEADING * (double)(lines.a.count - 1);
    double sides =
        lines.other ? lines.b_middle + LEADING * (double)(lines.b.count - 1) : LEADING * (double)(lines.a.count - 1);
    double words = stacked(&lines.verdict, LEADING, &lines.detail, LEADING);
    lines.last = fmax(fmax(sides, words), stacked(&lines.title, TITLE_LEADING, &lines.measure, LEADING));
    return lines;
}

static double group_height(const ClaimRows *claims, size_t index) {
    if (!claims->rows[index].group) return 0;
    return GROUP_HEIGHT + (index ? GROUP_GAP : 0);
}

static Plan plan_claims(Canvas *canvas, const ClaimRows *claims, double width) {
    Plan plan = {.claims = claims, .lines = ARENA_ARRAY(canvas->arena, claims->count, ClaimLines)};
    place_columns(canvas, &plan, width);
    for (size_t i = 0; i < claims->count; i++) {
        plan.lines[i] = claim_lines(canvas, &plan, &claims->rows[i], width);
        plan.bottom += group_height(claims, i) + PAD_TOP + plan.lines[i].last + PAD_BOTTOM;
    }
    plan.bottom += FOOT - PAD_BOTTOM + 4;
    return plan;
}

double claims_height(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.claims.count) return KIT_EMPTY_HEIGHT;
    return plan_claims(canvas, &figure->as.claims, width).bottom + AXIS_DEPTH;
}

static void draw_side(Canvas *canvas, const Plan *plan, const IntervalRow *row, Lines label, double y, bool own) {
    TextStyle plain = own ? TYPE_LABEL : TYPE_LABEL_MUTED;
    double baseline = kit_centre(canvas, TYPE_LABEL, y);
    kit_lines(canvas, plain, plan->label_right, baseline, ALIGN_RIGHT, label, LEADING);
    kit_text(canvas, plain, plan->count_right, baseline, ALIGN_RIGHT, row->count);
    kit_text(canvas, own ? TYPE_LABEL_STRONG : plain, plan->value_right, baseline, ALIGN_RIGHT, columns_value(row));
    marker_row(canvas, &plan->axis, y, row, MARKER_DOT);
}

static void draw_title(Canvas *canvas, const ClaimRow *row, const ClaimLines *lines, double y) {
    double baseline = kit_centre(canvas, TYPE_TITLE, y);
    double below = y + SECOND + TITLE_LEADING * (double)(lines->title.count - 1);
    kit_lines(canvas, TYPE_TITLE, 0, baseline, ALIGN_LEFT, lines->title, TITLE_LEADING);
    kit_lines(canvas, TYPE_NOTE, 0, kit_centre(canvas, TYPE_NOTE, below), ALIGN_LEFT, lines->measure, LEADING);
    if (kit_blank(row->target)) return;
    Box box = {0, y - 6, lines->title.width, TITLE_LEADING * (double)lines->title.count};
    canvas_link(canvas, box, row->target);
}

static void draw_words(Canvas *canvas, const Plan *plan, const ClaimRow *row, const ClaimLines *lines, double y) {
    bool verdict = lines->verdict.width > 0;
    double below = verdict ? y + SECOND + LEADING * (double)(lines->verdict.count - 1) : y;
    marker_verdict(canvas, plan->mark_left, y, row->mark);
    kit_lines(canvas, TYPE_VERDICT, plan->verdict_left, kit_centre(canvas, TYPE_VERDICT, y), ALIGN_LEFT, lines->verdict,
              LEADING);
    double baseline = kit_centre(canvas, TYPE_NOTE, below);
    kit_lines(canvas, TYPE_NOTE, plan->mark_left, baseline, ALIGN_LEFT, lines->detail, LEADING);
}

static double draw_claim(Canvas *canvas, const Plan *plan, size_t index, double top) {
    const ClaimRow *row = &plan->claims->rows[index];
    const ClaimLines *lines = &plan->lines[index];
    double y = top + PAD_TOP;
    draw_title(canvas, row, lines, y);
    draw_side(canvas, plan, &row->a, lines->a, y, true);
    if (lines->other) draw_side(canvas, plan, &row->b, lines->b, y + lines->b_middle, false);
    draw_words(canvas, plan, row, lines, y);
    return y + lines->last + PAD_BOTTOM;
}

void claims_draw(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.claims.count) {
        kit_empty(canvas, width, "no claim is made");
        return;
    }
    Plan plan = plan_claims(canvas, &figure->as.claims, width);
    axis_guides(canvas, &plan.axis, group_height(plan.claims, 0) + PAD_TOP - GUIDE_RISE, plan.bottom);
    double y = 0;
    for (size_t i = 0; i < plan.claims->count; i++) {
        double head = group_height(plan.claims, i);
        if (i && !plan.claims->rows[i].group) canvas_line(canvas, 0, y, width, y, LINE_GRID, INK_MUTED);
        kit_text(canvas, TYPE_GROUP, 0, y + head - 4, ALIGN_LEFT, plan.claims->rows[i].group);
        y = draw_claim(canvas, &plan, i, y + head);
    }
    axis_draw(canvas, &plan.axis, plan.bottom);
}
