/* Scale strips: each measurable against its population. From left to right: label, notation, plain words, the strip
 * with the population's 5th and 95th percentile at its ends, percentile, n. */
#include <math.h>

#include "typeset/figures/kit.h"
#include "typeset/figures/markers.h"

#define PITCH 14.4
#define LEADING 10.0
#define GAP 10.0         /* between columns */
#define END_GAP 5.0      /* between the strip and its end values */
#define END_MOST 11.0    /* an end value further from its end is left out */
#define SIDE 0.18        /* the axis goes on past both ends by this part of the strip */
#define LEAST_STRIP 60.0 /* shorter: the end values go, then the plain words */
#define BAR_HEIGHT 4.4
#define MEDIAN_HEIGHT 8.4
#define END_HEIGHT 4.0
#define NOTATION_RIGHT 0.178 /* of the width, where columns allow */
#define AXIS_LEFT 0.339

typedef struct Plan {
    const ScaleStrips *strips;
    Lines *labels;
    double notation_right, plain_left, plain_right;
    double axis_left, axis_right; /* where markers may stand */
    double line_left, line_right; /* 5th and 95th percentile */
    double percentile_right, of_right;
    bool plain, ends;
    double height;
} Plan;

typedef struct Widths {
    double label, notation, plain, ends, percentile, of;
} Widths;

static Widths measure(Canvas *canvas, const ScaleStrips *strips) {
    Widths widths = {0};
    for (size_t i = 0; i < strips->count; i++) {
        const StripRow *row = &strips->rows[i];
        widths.label = kit_wider(canvas, TYPE_LABEL, row->label, widths.label);
        widths.notation = kit_wider(canvas, TYPE_LABEL_STRONG, row->notation, widths.notation);
        widths.plain = kit_wider(canvas, TYPE_LABEL, row->plain, widths.plain);
        widths.percentile = kit_wider(canvas, TYPE_LABEL_STRONG, row->percentile, widths.percentile);
        widths.of = kit_wider(canvas, TYPE_LABEL_MUTED, row->of, widths.of);
        if (!isfinite(row->q5) || !isfinite(row->q95)) continue;
        widths.ends = kit_wider(canvas, TYPE_NOTE, row->low_text, widths.ends);
        widths.ends = kit_wider(canvas, TYPE_NOTE, row->high_text, widths.ends);
    }
    return widths;
}

static void place_columns(Plan *plan, const Widths *widths, double label_width, double width) {
    plan->notation_right = fmax(label_width + GAP + widths->notation, width * NOTATION_RIGHT);
    plan->plain_left = plan->notation_right + GAP;
    plan->plain_right = plan->plain ? plan->plain_left + widths->plain : plan->notation_right;
    plan->axis_left = plan->plain_right + GAP;
    if (plan->plain) plan->axis_left = fmax(plan->axis_left, width * AXIS_LEFT);
    plan->of_right = width;
    plan->percentile_right = width - widths->of - fmin(26, fmax(GAP / 2, width * 0.05));
    plan->axis_right = plan->percentile_right - widths->percentile - GAP;
    double room = fmax(plan->axis_right - plan->axis_left, 1);
    double side = room * SIDE / (1 + 2 * SIDE);
    if (plan->ends) side = fmax(side, widths->ends + END_GAP);
    plan->line_left = plan->axis_left + side;
    plan->line_right = plan->axis_right - side;
}

static Plan plan_strips(Canvas *canvas, const ScaleStrips *strips, double width) {
    Plan plan = {.strips = strips, .plain = true, .ends = true};
    Widths widths = measure(canvas, strips);
    double label_width = fmin(widths.label, width * 0.3);
    place_columns(&plan, &widths, label_width, width);
    if (plan.line_right - plan.line_left < LEAST_STRIP) {
        plan.ends = false;
        place_columns(&plan, &widths, label_width, width);
    }
    if (plan.line_right - plan.line_left < LEAST_STRIP) {
        plan.plain = false;
        place_columns(&plan, &widths, label_width, width);
    }
    plan.labels = ARENA_ARRAY(canvas->arena, strips->count, Lines);
    for (size_t i = 0; i < strips->count; i++) {
        plan.labels[i] = kit_wrap(canvas, TYPE_LABEL, strips->rows[i].label, label_width);
        plan.height += PITCH + LEADING * (double)(plan.labels[i].count - 1);
    }
    return plan;
}

static bool has_population(const StripRow *row) {
    return isfinite(row->q5) && isfinite(row->q95) && row->q95 > row->q5;
}

/* Where a value of the row stands, not clamped. */
static double strip_x(const Plan *plan, const StripRow *row, double value) {
    double at = (value - row->q5) / (row->q95 - row->q5);
    if (row->flipped) at = 1 - at;
    return plan->line_left + at * (plan->line_right - plan->line_left);
}

static void draw_population(Canvas *canvas, const Plan *plan, const StripRow *row, double y) {
    canvas_line(canvas, plan->line_left, y, plan->line_right, y, LINE_FRAME, INK);
    double ends[] = {plan->line_left, plan->line_right};
    for (int i = 0; i < 2; i++)
        canvas_line(canvas, ends[i], y - END_HEIGHT / 2, ends[i], y + END_HEIGHT / 2, LINE_FRAME, INK);
    if (isfinite(row->q25) && isfinite(row->q75)) {
        double from = strip_x(plan, row, row->flipped ? row->q75 : row->q25);
        double to = strip_x(plan, row, row->flipped ? row->q25 : row->q75);
        canvas_rect(canvas, (Box){from, y - BAR_HEIGHT / 2, to - from, BAR_HEIGHT}, ink_tint(TINT_MIDDLE), 0, INK_NONE);
        canvas_line(canvas, from, y, to, y, LINE_FRAME, INK);
    }
    if (isfinite(row->q50)) {
        double x = strip_x(plan, row, row->q50);
        canvas_line(canvas, x, y - MEDIAN_HEIGHT / 2, x, y + MEDIAN_HEIGHT / 2, LINE_REFERENCE, INK);
    }
}

/* The value at an end of the strip (side -1 left, 1 right). Where the marker stands on it, it moves outward a little,
 * or goes: further out it would read as the marker's own. */
static void draw_end(Canvas *canvas, const Plan *plan, const char *text, int side, double y, double marker) {
    double end = side < 0 ? plan->line_left : plan->line_right;
    double out = side * (marker - end); /* of the marker, past the end */
    double width = kit_wider(canvas, TYPE_NOTE, text, 0);
    double reach = PLAYER_RADIUS + END_GAP / 2;
    double from = END_GAP; /* of the text, past the end */
    if (out + reach > from && out - reach < from + width) from = out + reach;
    double room = side < 0 ? plan->line_left - plan->plain_right : plan->axis_right - plan->line_right + END_GAP;
    bool shown = width > 0 && from <= END_MOST && from + width + (side < 0 ? END_GAP : 0) <= room;
    double clear = shown ? from + width + END_GAP / 2 : 0; /* the leader to a marker further out starts here */
    if (shown)
        kit_text(canvas, TYPE_NOTE, end + side * from, kit_centre(canvas, TYPE_NOTE, y),
                 side < 0 ? ALIGN_RIGHT : ALIGN_LEFT, text);
    if (out - PLAYER_RADIUS > clear)
        canvas_dashed(canvas, end + side * clear, y, marker - side * PLAYER_RADIUS, y, LINE_FRAME, INK, 0.8, 1.6);
}

static void draw_ends(Canvas *canvas, const Plan *plan, const StripRow *row, double y, double marker) {
    const char *left = row->flipped ? row->high_text : row->low_text;
    const char *right = row->flipped ? row->low_text : row->high_text;
    draw_end(canvas, plan, plan->ends ? left : "", -1, y, marker);
    draw_end(canvas, plan, plan->ends ? right : "", 1, y, marker);
}

static void draw_strip(Canvas *canvas, const Plan *plan, const StripRow *row, double y) {
    const Ink accent = {INK_ACCENT, 100};
    draw_population(canvas, plan, row, y);
    double x = isfinite(row->value) ? strip_x(plan, row, row->value) : (plan->line_left + plan->line_right) / 2;
    double low = plan->axis_left + PLAYER_RADIUS;
    double high = plan->axis_right - PLAYER_RADIUS;
    int side = x < low ? -1 : x > high ? 1 : 0;
    x = fmin(fmax(x, low), high);
    draw_ends(canvas, plan, row, y, x);
    if (!isfinite(row->value)) return;
    if (side) {
        marker_beyond(canvas, x + side * PLAYER_RADIUS, y, side, accent);
    } else {
        marker_dot(canvas, x, y, PLAYER_RADIUS, accent, row->open);
    }
}

/* Says why there is no strip, as far as the words find room where it would be. */
static void draw_without(Canvas *canvas, const Plan *plan, const StripRow *row, double y) {
    static const char *const NONE[] = {"no comparison population", "no comparison", "\u2013"};
    static const char *const UNSPREAD[] = {"spread not known", "no spread", "\u2013"};
    enum { SAYINGS = sizeof NONE / sizeof *NONE };
    const char *const *says = kit_blank(row->percentile) ? NONE : UNSPREAD;
    double room = plan->axis_right - plan->line_left;
    int at = 0;
    while (at + 1 < SAYINGS && kit_wider(canvas, TYPE_NOTE, says[at], 0) > room) at++;
    kit_text(canvas, TYPE_NOTE, plan->line_left, kit_centre(canvas, TYPE_NOTE, y), ALIGN_LEFT, says[at]);
}

static double draw_row(Canvas *canvas, const Plan *plan, size_t index, double top) {
    const StripRow *row = &plan->strips->rows[index];
    double y = top + PITCH / 2;
    double baseline = kit_centre(canvas, TYPE_LABEL, y);
    kit_lines(canvas, TYPE_LABEL, 0, baseline, ALIGN_LEFT, plan->labels[index], LEADING);
    kit_text(canvas, TYPE_LABEL_STRONG, plan->notation_right, baseline, ALIGN_RIGHT, row->notation);
    if (plan->plain) kit_text(canvas, TYPE_LABEL, plan->plain_left, baseline, ALIGN_LEFT, row->plain);
    if (has_population(row))
        draw_strip(canvas, plan, row, y);
    else
        draw_without(canvas, plan, row, y);
    kit_text(canvas, TYPE_LABEL_STRONG, plan->percentile_right, baseline, ALIGN_RIGHT, row->percentile);
    kit_text(canvas, TYPE_LABEL_MUTED, plan->of_right, baseline, ALIGN_RIGHT, row->of);
    return PITCH + LEADING * (double)(plan->labels[index].count - 1);
}

double strips_height(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.strips.count) return KIT_EMPTY_HEIGHT;
    return plan_strips(canvas, &figure->as.strips, width).height;
}

void strips_draw(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.strips.count) {
        kit_empty(canvas, width, "nothing measured");
        return;
    }
    Plan plan = plan_strips(canvas, &figure->as.strips, width);
    double y = 0;
    for (size_t i = 0; i < plan.strips->count; i++) y += draw_row(canvas, &plan, i, y);
}
