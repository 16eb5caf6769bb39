/* The throw field from above, at one scale both ways: lanes across, bands of depth upward, the line of scrimmage heavy.
 * A cell's tint follows the lower end of its interval, so that few throws stay pale; under five are hatched and have no
 * rate. */
#include <math.h>

#include "stats/findings.h"
#include "typeset/figures/kit.h"
#include "typeset/figures/spread.h"

#define FIELD_WIDTH 53.33 /* yards between the sidelines, rule book */
#define MOST_SCALE 5.0    /* points a yard */
#define OPEN_YARDS 15.0   /* drawn of a band that has no end */
#define LONG_BAND 25.0    /* yards; a longer one has no end */
#define HASHES 10.0       /* a lane border this near the middle, in yards, is a line of hash marks */

#define MARGIN 7.0
#define MARGIN_LEAST 41.0
#define LINE_PITCH 9.2
#define LABEL_LINES 2
#define SCRIMMAGE_OVERHANG 2.5
#define TICK 2.2
#define HATCH_PITCH 3.2 /* 4.5 along an edge */
#define HATCH_LINE 0.35
#define RATE_SIZE 9.5f
#define TALL_CELL 19.0 /* room for the rate above k/n */
#define LOW_CELL 9.5   /* room for one line */
#define LEAST_TINT 3.0
#define TINT_RANGE 40.0
/* Lower ends of an interval with the palest and the darkest tint. Fixed, so that fields of different men compare. */
#define PALEST_LOW 0.1
#define DARKEST_LOW 0.7

static const Ink PAPER = {INK_PAPER, 100};
static const TextStyle TYPE_RATE = {FACE_STRONG, RATE_SIZE, {INK_BLACK, 100}, 0};

typedef struct Plan {
    const ThrowFieldFigure *field;
    double scale;       /* points a yard */
    double *lane_edges; /* x of each border, lane_count + 1 */
    double *band_edges; /* y of each border from the bottom up, band_count + 1 */
    double scrimmage;   /* y; NaN when not in the field */
    double hash_centre; /* x of the middle of the field */
    Lines *lane_labels; /* NULL: not printed */
    double top, bottom; /* of the field */
    double margin_left, margin_width;
    Spread *margins; /* band totals, by band */
    double height;
} Plan;

static bool is_empty(const ThrowFieldFigure *field) {
    int n = 0;
    for (size_t i = 0; i < field->lane_count * field->band_count; i++) n += field->cells[i].n;
    return n == 0;
}

/* Yards from one border to the next: to where the next begins, so that 10–19 and 20–29 touch. */
static double lane_yards(const ThrowFieldFigure *field, size_t lane) {
    const FieldLane *lanes = field->lanes;
    double to = lane + 1 < field->lane_count ? lanes[lane + 1].from : lanes[lane].to;
    double yards = to - lanes[lane].from;
    return isfinite(yards) && yards > 0 && yards <= FIELD_WIDTH + 1 ? yards : FIELD_WIDTH / (double)field->lane_count;
}

static double band_yards(const ThrowFieldFigure *field, size_t band) {
    const FieldBand *bands = field->bands;
    double to = band + 1 < field->band_count ? bands[band + 1].from : bands[band].to;
    double yards = to - bands[band].from;
    return isfinite(yards) && yards > 0 && yards <= LONG_BAND ? yards : OPEN_YARDS;
}

/* The rate of a margin, "" under five throws: k/n stands alone there as it does in a cell. */
static const char *total_rate(Canvas *canvas, RateCell total) {
    return total.n < FEW_FOR_A_TINT ? "" : arena_printf(canvas->arena, "%s%%", kit_percent(canvas, total.value));
}

/* "82% 9/11" is drawn in two weights; this is the strong half. */
static const char *total_start(Canvas *canvas, RateCell total) {
    const char *rate = total_rate(canvas, total);
    return *rate ? arena_printf(canvas->arena, "%s\u00a0", rate) : rate;
}

static double total_width(Canvas *canvas, RateCell total) {
    if (!total.n) return 0;
    double rate = canvas_width(canvas, TYPE_SMALL_STRONG, total_start(canvas, total));
    return rate + canvas_width(canvas, TYPE_SMALL, kit_count(canvas, total));
}

static double margin_width(Canvas *canvas, const ThrowFieldFigure *field) {
    double width = fmax(MARGIN_LEAST, canvas_width(canvas, TYPE_NOTE, "95% interval"));
    for (size_t i = 0; i < field->band_count; i++) {
        width = fmax(width, total_width(canvas, field->bands[i].total));
        width = kit_wider(canvas, TYPE_NOTE, kit_interval(canvas, field->bands[i].total), width);
    }
    return width;
}

static void place_lanes(Canvas *canvas, Plan *plan, double width) {
    size_t count = plan->field->lane_count;
    double yards = 0;
    for (size_t i = 0; i < count; i++) yards += lane_yards(plan->field, i);
    plan->scale = fmin(width / yards, MOST_SCALE);
    plan->lane_edges = ARENA_ARRAY(canvas->arena, count + 1, double);
    for (size_t i = 0; i < count; i++)
        plan->lane_edges[i + 1] = plan->lane_edges[i] + lane_yards(plan->field, i) * plan->scale;
    plan->hash_centre = plan->lane_edges[count] / 2;
    plan->margin_left = plan->lane_edges[count] + MARGIN;
}

/* Names of the lanes stand above them when every one fits its lane. */
static void place_lane_labels(Canvas *canvas, Plan *plan) {
    size_t count = plan->field->lane_count;
    Lines *labels = ARENA_ARRAY(canvas->arena, count, Lines);
    size_t lines = 0;
    for (size_t i = 0; i < count; i++) {
        double width = plan->lane_edges[i + 1] - plan->lane_edges[i] - 2;
        if (!kit_words_fit(canvas, TYPE_NOTE, plan->field->lanes[i].label, width)) return;
        labels[i] = kit_wrap(canvas, TYPE_NOTE, plan->field->lanes[i].label, width);
        if (labels[i].count > LABEL_LINES) return;
        if (labels[i].width > 0 && labels[i].count > lines) lines = labels[i].count;
    }
    if (!lines) return;
    plan->lane_labels = labels;
    plan->top = LINE_PITCH * (double)lines + 2;
}

static void place_bands(Canvas *canvas, Plan *plan) {
    const ThrowFieldFigure *field = plan->field;
    size_t count = field->band_count;
    plan->band_edges = ARENA_ARRAY(canvas->arena, count + 1, double);
    double yards = 0;
    for (size_t i = 0; i < count; i++) yards += band_yards(field, i);
    plan->bottom = plan->top + yards * plan->scale;
    plan->band_edges[0] = plan->bottom;
    plan->scrimmage = NAN;
    for (size_t i = 0; i < count; i++) {
        double deep = band_yards(field, i);
        plan->band_edges[i + 1] = plan->band_edges[i] - deep * plan->scale;
        double from = field->bands[i].from;
        if (!isfinite(from)) from = i + 1 < count ? field->bands[i + 1].from - deep : 0;
        if (from <= 0 && from + deep >= 0) plan->scrimmage = plan->band_edges[i] + from * plan->scale;
    }
}

static void place_margins(Canvas *canvas, Plan *plan) {
    size_t count = plan->field->band_count;
    plan->margins = ARENA_ARRAY(canvas->arena, count, Spread);
    for (size_t i = 0; i < count; i++) {
        const FieldBand *band = &plan->field->bands[count - 1 - i];
        size_t lines = kit_wrap(canvas, TYPE_SMALL, band->label, plan->margin_width).count + (band->total.n ? 2 : 1);
        double centre = (plan->band_edges[count - 1 - i] + plan->band_edges[count - i]) / 2;
        plan->margins[i] = (Spread){.centre = centre, .size = LINE_PITCH * (double)lines};
    }
    spread_apart(plan->margins, count, plan->top, plan->bottom + LINE_PITCH * 2);
}

static Plan plan_field(Canvas *canvas, const ThrowFieldFigure *field, double width) {
    Plan plan = {.field = field};
    plan.margin_width = margin_width(canvas, field);
    place_lanes(canvas, &plan, fmax(width - plan.margin_width - MARGIN, 1));
    place_lane_labels(canvas, &plan);
    place_bands(canvas, &plan);
    place_margins(canvas, &plan);
    const Spread *last = &plan.margins[field->band_count - 1];
    double note = fmax(plan.bottom + LINE_PITCH * 2, last->centre + last->size / 2);
    plan.height = note + LINE_PITCH + 3;
    return plan;
}

/* ---- cells ---- */

static void draw_ground(Canvas *canvas, const RateCell *cell, Box box) {
    if (!cell->n) return;
    if (cell->n < FEW_FOR_A_TINT) {
        canvas_hatch(canvas, box, HATCH_PITCH, HATCH_LINE, INK);
        return;
    }
    double at = (kit_finite(cell->low, 0) - PALEST_LOW) / (DARKEST_LOW - PALEST_LOW);
    double tint = LEAST_TINT + TINT_RANGE * fmin(fmax(at, 0), 1);
    canvas_rect(canvas, box, ink_tint((int)lround(tint)), 0, INK_NONE);
}

/* One line in the middle of a hatched cell, on white; a cell without a throw is white. */
static void draw_few(Canvas *canvas, const RateCell *cell, Box box) {
    const char *text = cell->n ? kit_count(canvas, *cell) : "–";
    double width = canvas_width(canvas, TYPE_COUNT, text);
    if (box.height < LOW_CELL || width + 2 > box.width) return;
    double x = box.x + box.width / 2;
    double y = box.y + box.height / 2;
    double white = fmin(width + 8, box.width - 2);
    canvas_rect(canvas, (Box){x - white / 2, y - 4.75, white, 9.5}, PAPER, 0, INK_NONE);
    kit_text(canvas, TYPE_COUNT, x, kit_centre(canvas, TYPE_COUNT, y), ALIGN_CENTRE, text);
}

static void draw_rate(Canvas *canvas, const RateCell *cell, Box box) {
    const char *rate = kit_percent(canvas, cell->value);
    const char *count = kit_count(canvas, *cell);
    double x = box.x + box.width / 2;
    double y = box.y + box.height / 2;
    double widest = kit_wider(canvas, TYPE_COUNT, count, canvas_width(canvas, TYPE_RATE, rate));
    if (widest + 2 > box.width || box.height < LOW_CELL) return;
    if (box.height >= TALL_CELL) {
        kit_text(canvas, TYPE_RATE, x, y - 0.9, ALIGN_CENTRE, rate);
        kit_text(canvas, TYPE_COUNT, x, y + 7.8, ALIGN_CENTRE, count);
    } else {
        kit_text(canvas, TYPE_COUNT, x, kit_centre(canvas, TYPE_COUNT, y), ALIGN_CENTRE, count);
    }
}

static Box cell_box(const Plan *plan, size_t band, size_t lane) {
    double x = plan->lane_edges[lane];
    double y = plan->band_edges[band + 1];
    return (Box){x, y, plan->lane_edges[lane + 1] - x, plan->band_edges[band] - y};
}

/* A band on both sides of the line of scrimmage has its words on the wider side. */
static Box words_box(const Plan *plan, Box box) {
    double above = plan->scrimmage - box.y;
    double below = box.height - above;
    if (!(above > 0) || !(below > 0)) return box;
    if (above >= below) return (Box){box.x, box.y, box.width, above};
    return (Box){box.x, plan->scrimmage, box.width, below};
}

static void draw_grounds(Canvas *canvas, const Plan *plan) {
    const ThrowFieldFigure *field = plan->field;
    for (size_t band = 0; band < field->band_count; band++)
        for (size_t lane = 0; lane < field->lane_count; lane++)
            draw_ground(canvas, &field->cells[band * field->lane_count + lane], cell_box(plan, band, lane));
}

static void draw_rates(Canvas *canvas, const Plan *plan) {
    const ThrowFieldFigure *field = plan->field;
    for (size_t band = 0; band < field->band_count; band++) {
        for (size_t lane = 0; lane < field->lane_count; lane++) {
            const RateCell *cell = &field->cells[band * field->lane_count + lane];
            Box box = words_box(plan, cell_box(plan, band, lane));
            if (cell->n < FEW_FOR_A_TINT) {
                draw_few(canvas, cell, box);
            } else {
                draw_rate(canvas, cell, box);
            }
        }
    }
}

/* ---- lines of the field ---- */

/* A tick at every yard from the line of scrimmage, from x1 to x2: one line as wide as a tick is long, dashed. */
static void draw_yards(Canvas *canvas, const Plan *plan, double x1, double x2) {
    double zero = kit_finite(plan->scrimmage, plan->bottom);
    double yards = floor((zero - plan->top) / plan->scale - 0.1);
    double x = (x1 + x2) / 2;
    double y = zero - plan->scale * yards - LINE_AXIS / 2;
    canvas_dashed(canvas, x, y, x, plan->bottom - 1, x2 - x1, ink_tint(TINT_REFERENCE), LINE_AXIS,
                  plan->scale - LINE_AXIS);
}

static void draw_lines(Canvas *canvas, const Plan *plan) {
    const ThrowFieldFigure *field = plan->field;
    double right = plan->lane_edges[field->lane_count];
    for (size_t i = 1; i < field->lane_count; i++) {
        double x = plan->lane_edges[i];
        canvas_dashed(canvas, x, plan->top, x, plan->bottom, LINE_AXIS, ink_tint(TINT_REFERENCE), 3, 2.4);
        if (fabs(x - plan->hash_centre) < HASHES * plan->scale) draw_yards(canvas, plan, x - TICK / 2, x + TICK / 2);
    }
    draw_yards(canvas, plan, 0, TICK);
    draw_yards(canvas, plan, right - TICK, right);
    for (size_t i = 1; i < field->band_count; i++)
        canvas_line(canvas, 0, plan->band_edges[i], right, plan->band_edges[i], LINE_FRAME, INK);
    canvas_rect(canvas, (Box){0, plan->top, right, plan->bottom - plan->top}, INK_NONE, LINE_FRAME, INK);
    if (isfinite(plan->scrimmage))
        canvas_line(canvas, -SCRIMMAGE_OVERHANG, plan->scrimmage, right + SCRIMMAGE_OVERHANG, plan->scrimmage,
                    LINE_SCRIMMAGE, INK);
}

/* ---- margins ---- */

static void draw_lane_margins(Canvas *canvas, const Plan *plan) {
    for (size_t i = 0; i < plan->field->lane_count; i++) {
        double x = (plan->lane_edges[i] + plan->lane_edges[i + 1]) / 2;
        double room = plan->lane_edges[i + 1] - plan->lane_edges[i] - 2;
        if (plan->lane_labels) {
            const Lines *label = &plan->lane_labels[i];
            double first = plan->top - 4 - LINE_PITCH * (double)(label->count - 1);
            kit_lines(canvas, TYPE_NOTE, x, first, ALIGN_CENTRE, *label, LINE_PITCH);
        }
        RateCell total = plan->field->lanes[i].total;
        const char *interval = total.n ? kit_interval(canvas, total) : "";
        const char *count = total.n ? kit_count(canvas, total) : "–";
        if (kit_wider(canvas, TYPE_NOTE, interval, canvas_width(canvas, TYPE_SMALL, count)) > room) continue;
        double y = plan->bottom + LINE_PITCH + 0.5;
        const char *rate = total_rate(canvas, total);
        kit_text(canvas, TYPE_SMALL_STRONG, x, y, ALIGN_CENTRE, rate);
        if (*rate) y += LINE_PITCH;
        kit_text(canvas, TYPE_SMALL, x, y, ALIGN_CENTRE, count);
        kit_text(canvas, TYPE_NOTE, x, y + LINE_PITCH, ALIGN_CENTRE, interval);
    }
}

static void draw_band_margin(Canvas *canvas, const Plan *plan, const FieldBand *band, const Spread *place) {
    double x = plan->margin_left;
    double y = place->centre - place->size / 2 + LINE_PITCH * 0.78;
    Lines label = kit_wrap(canvas, TYPE_SMALL, band->label, plan->margin_width);
    kit_lines(canvas, TYPE_SMALL, x, y, ALIGN_LEFT, label, LINE_PITCH);
    y += LINE_PITCH * (double)label.count;
    if (!band->total.n) {
        kit_text(canvas, TYPE_SMALL, x, y, ALIGN_LEFT, "–");
        return;
    }
    x += canvas_text(canvas, TYPE_SMALL_STRONG, x, y, ALIGN_LEFT, total_start(canvas, band->total));
    kit_text(canvas, TYPE_SMALL, x, y, ALIGN_LEFT, kit_count(canvas, band->total));
    kit_text(canvas, TYPE_NOTE, plan->margin_left, y + LINE_PITCH, ALIGN_LEFT, kit_interval(canvas, band->total));
}

static void draw_band_margins(Canvas *canvas, const Plan *plan) {
    size_t count = plan->field->band_count;
    for (size_t i = 0; i < count; i++)
        draw_band_margin(canvas, plan, &plan->field->bands[count - 1 - i], &plan->margins[i]);
    kit_text(canvas, TYPE_NOTE, plan->margin_left, plan->height - 2.5, ALIGN_LEFT, "95% interval");
}

double field_height(Canvas *canvas, const Figure *figure, double width) {
    if (is_empty(&figure->as.field)) return KIT_EMPTY_HEIGHT;
    return plan_field(canvas, &figure->as.field, width).height;
}

void field_draw(Canvas *canvas, const Figure *figure, double width) {
    if (is_empty(&figure->as.field)) {
        kit_empty(canvas, width, "no throws charted");
        return;
    }
    Plan plan = plan_field(canvas, &figure->as.field, width);
    draw_grounds(canvas, &plan);
    draw_lines(canvas, &plan);
    draw_rates(canvas, &plan);
    draw_lane_margins(canvas, &plan);
    draw_band_margins(canvas, &plan);
}
