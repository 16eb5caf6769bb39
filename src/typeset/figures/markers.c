#include "typeset/figures/markers.h"

#include <math.h>

#include "typeset/figures/kit.h"

#define OPEN_STROKE 1.1
#define DIAMOND_HALF 3.5
#define ARROW_LENGTH 4.0
#define ARROW_HALF 2.4
#define HATCH_HEIGHT 5.0
#define HATCH_PITCH 2.2 /* 3.1 along an edge */
#define HATCH_LINE 0.4

static const Ink PAPER = {INK_PAPER, 100};

void marker_dot(Canvas *canvas, double x, double y, double radius, Ink ink, bool open) {
    if (open) {
        canvas_disc(canvas, x, y, radius - OPEN_STROKE / 4, PAPER, OPEN_STROKE, ink);
    } else {
        canvas_disc(canvas, x, y, radius, ink, 0, INK_NONE);
    }
}

void marker_diamond(Canvas *canvas, double x, double y, bool open) {
    const Point corners[] = {
        {x, y - DIAMOND_HALF}, {x + DIAMOND_HALF, y}, {x, y + DIAMOND_HALF}, {x - DIAMOND_HALF, y}};
    canvas_shape(canvas, corners, 4, open ? PAPER : INK, open ? OPEN_STROKE : 0, open ? INK : INK_NONE);
}

void marker_wedge(Canvas *canvas, double x, double y, double width, double height, Ink ink) {
    const Point corners[] = {{x, y}, {x - width / 2, y - height}, {x + width / 2, y - height}};
    canvas_shape(canvas, corners, 3, ink, 0, INK_NONE);
}

void marker_beyond(Canvas *canvas, double x, double y, int side, Ink ink) {
    double back = x - side * ARROW_LENGTH;
    const Point corners[] = {{x, y}, {back, y - ARROW_HALF}, {back, y + ARROW_HALF}};
    canvas_shape(canvas, corners, 3, ink, 0, INK_NONE);
}

void marker_upright(Canvas *canvas, double x, double y, int side, Ink ink) {
    double back = y + side * ARROW_LENGTH;
    const Point corners[] = {{x, y}, {x - ARROW_HALF, back}, {x + ARROW_HALF, back}};
    canvas_shape(canvas, corners, 3, ink, 0, INK_NONE);
}

void marker_few(Canvas *canvas, Box box) {
    if (!(box.width > 0) || !(box.height > 0)) return;
    canvas_rect(canvas, box, PAPER, 0, INK_NONE);
    canvas_hatch(canvas, box, HATCH_PITCH, HATCH_LINE, INK);
}

static void draw_interval(Canvas *canvas, const AxisPlace *place, double y, double low, double high, double width) {
    canvas_line(canvas, axis_x(place, low), y, axis_x(place, high), y, width, INK);
    double ends[] = {low, high};
    for (int i = 0; i < 2; i++) {
        int side = axis_side(place, ends[i]);
        if (side) marker_beyond(canvas, axis_x(place, ends[i]), y, side, INK);
    }
}

void marker_row(Canvas *canvas, const AxisPlace *place, double y, const IntervalRow *row, MarkerShape shape) {
    bool interval = isfinite(row->low) && isfinite(row->high) && row->low <= row->high;
    if (row->hatched) {
        double left = axis_x(place, row->low);
        Box box = {left, y - HATCH_HEIGHT / 2, axis_x(place, row->high) - left, HATCH_HEIGHT};
        if (interval) marker_few(canvas, box);
        return;
    }
    if (interval) draw_interval(canvas, place, y, row->low, row->high, row->open ? LINE_OTHER : LINE_OWN);
    if (!isfinite(row->point)) return;
    int side = axis_side(place, row->point);
    double x = axis_x(place, row->point);
    if (side) {
        marker_beyond(canvas, x, y, side, INK);
    } else if (shape == MARKER_DIAMOND) {
        marker_diamond(canvas, x, y, row->open);
    } else {
        marker_dot(canvas, x, y, DOT_RADIUS, INK, row->open);
    }
}

/* A verdict is an interval against a tick in the middle: right of it as claimed, across it undecided. */
typedef struct VerdictShape {
    double from, to; /* of the box, from the left end of the mark */
    bool solid, hatched;
} VerdictShape;

#define VERDICT_HALF_BOX 2.5
#define VERDICT_HALF_TICK 4.9

void marker_verdict(Canvas *canvas, double x, double y, VerdictMark mark) {
    static const VerdictShape shapes[] = {
        [MARK_NONE] = {0, 0, false, false},           [MARK_TOO_FEW] = {2, 24, false, true},
        [MARK_CONTRADICTED] = {1.3, 10, true, false}, [MARK_LEANING_AGAINST] = {2.4, 16.6, false, false},
        [MARK_LEANING] = {9.4, 23.6, false, false},   [MARK_BORNE_OUT] = {16, 24.7, true, false},
    };
    _Static_assert(sizeof shapes / sizeof *shapes == MARK_BORNE_OUT + 1, "a shape for every verdict");
    const VerdictShape *shape = &shapes[mark];
    if (shape->to <= shape->from) return;
    Box box = {x + shape->from, y - VERDICT_HALF_BOX, shape->to - shape->from, 2 * VERDICT_HALF_BOX};
    double middle = x + VERDICT_WIDTH / 2;
    canvas_line(canvas, x, y, x + VERDICT_WIDTH, y, LINE_FRAME, INK);
    canvas_rect(canvas, box, shape->solid ? INK : PAPER, shape->solid ? 0 : LINE_REFERENCE,
                shape->solid ? INK_NONE : INK);
    if (shape->hatched) canvas_hatch(canvas, box, HATCH_PITCH, HATCH_LINE, INK);
    canvas_line(canvas, middle, y - VERDICT_HALF_TICK, middle, y + VERDICT_HALF_TICK, LINE_REFERENCE, INK);
}
