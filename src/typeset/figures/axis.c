#include "typeset/figures/axis.h"

#include <math.h>
#include <string.h>

#include "typeset/figures/kit.h"

#define TICK_LENGTH 2.6
#define GUIDE_DASH 1.0
#define LABEL_BASELINE 9.6 /* below the line */
#define LABEL_GAP 4.0      /* least space between labels */

typedef struct TickLabel {
    const char *text;
    double x;           /* middle of the number */
    double left, right; /* with its suffix */
} TickLabel;

AxisPlace axis_place(Axis axis, double x, double width, double left, double right) {
    if (!isfinite(axis.from)) axis.from = 0;
    if (!isfinite(axis.to) || axis.to <= axis.from) axis.to = axis.from + 1;
    double span = axis.to - axis.from;
    if (!(axis.step > 0) || axis.step > span || span / axis.step > AXIS_MOST_TICKS) axis.step = span;
    if (!isfinite(axis.scale) || axis.scale == 0) axis.scale = 1;
    return (AxisPlace){.axis = axis, .x = x, .width = fmax(width, 1), .left = left, .right = right};
}

double axis_x(const AxisPlace *place, double value) {
    double at = (value - place->axis.from) / (place->axis.to - place->axis.from);
    return place->x + place->width * fmin(fmax(at, 0), 1);
}

int axis_side(const AxisPlace *place, double value) {
    double slack = (place->axis.to - place->axis.from) * 1e-9;
    if (value < place->axis.from - slack) return -1;
    return value > place->axis.to + slack ? 1 : 0;
}

size_t axis_ticks(const AxisPlace *place) {
    return (size_t)((place->axis.to - place->axis.from) / place->axis.step + 1e-6) + 1;
}

double axis_tick(const AxisPlace *place, size_t index) {
    return place->axis.from + place->axis.step * (double)index;
}

void axis_guide(Canvas *canvas, double x1, double y1, double x2, double y2) {
    canvas_dashed(canvas, x1, y1, x2, y2, LINE_GRID, ink_tint(TINT_GUIDE), GUIDE_DASH, GUIDE_DASH);
}

void axis_guides(Canvas *canvas, const AxisPlace *place, double top, double bottom) {
    for (size_t i = 0; i < axis_ticks(place); i++) {
        double x = axis_x(place, axis_tick(place, i));
        axis_guide(canvas, x, top, x, bottom);
    }
}

/* Decimals that tell the ticks apart. */
static int places(const Axis *axis) {
    for (int count = 0; count < 3; count++) {
        double scaled = axis->step * axis->scale * pow(10, count);
        double from = axis->from * axis->scale * pow(10, count);
        if (fabs(scaled - round(scaled)) < 1e-6 && fabs(from - round(from)) < 1e-6) return count;
    }
    return 3;
}

static const char *number(Canvas *canvas, const Axis *axis, double value) {
    Buf text = {0};
    bool is_signed = axis->from * axis->scale < 0;
    double printed = value * axis->scale;
    buf_number(&text, fabs(printed), places(axis));
    const char *digits = buf_text(&text);
    const char *sign = "";
    if (strcmp(digits, "0") != 0) sign = printed < 0 ? "\u2212" : is_signed ? "+" : "";
    const char *label = arena_printf(canvas->arena, "%s%s", sign, digits);
    buf_free(&text);
    return label;
}

static const char *suffix(const AxisPlace *place, size_t index) {
    bool last = index + 1 == axis_ticks(place);
    return last && place->axis.suffix ? place->axis.suffix : "";
}

const char *axis_label(Canvas *canvas, const AxisPlace *place, size_t index) {
    const char *text = number(canvas, &place->axis, axis_tick(place, index));
    return arena_printf(canvas->arena, "%s%s", text, suffix(place, index));
}

static TickLabel label(Canvas *canvas, const AxisPlace *place, size_t index) {
    TickLabel tick = {.text = axis_label(canvas, place, index), .x = axis_x(place, axis_tick(place, index))};
    double half = canvas_width(canvas, TYPE_NOTE, number(canvas, &place->axis, axis_tick(place, index))) / 2;
    double after = kit_wider(canvas, TYPE_NOTE, suffix(place, index), 0);
    double over = tick.x + half + after - place->right;
    if (over > 0) tick.x -= over;
    if (tick.x - half < place->left) tick.x = place->left + half;
    tick.left = tick.x - half;
    tick.right = tick.x + half + after;
    return tick;
}

/* True when labels at every `stride`th tick, counted back from the last, leave each other space. */
static bool apart(const TickLabel *labels, size_t count, size_t stride) {
    for (size_t i = count - 1; i >= stride; i -= stride)
        if (labels[i].left - labels[i - stride].right < LABEL_GAP) return false;
    return true;
}

static void draw_labels(Canvas *canvas, const AxisPlace *place, double y) {
    size_t count = axis_ticks(place);
    TickLabel *labels = ARENA_ARRAY(canvas->arena, count, TickLabel);
    for (size_t i = 0; i < count; i++) labels[i] = label(canvas, place, i);
    size_t stride = 1;
    while (stride < count && (!apart(labels, count, stride) || (count - 1) % stride != 0)) stride++;
    for (size_t i = (count - 1) % stride; i < count; i += stride) {
        kit_text(canvas, TYPE_NOTE, labels[i].left, y + LABEL_BASELINE, ALIGN_LEFT, labels[i].text);
    }
}

void axis_draw(Canvas *canvas, const AxisPlace *place, double y) {
    canvas_line(canvas, place->x, y, place->x + place->width, y, LINE_AXIS, INK);
    for (size_t i = 0; i < axis_ticks(place); i++) {
        double x = axis_x(place, axis_tick(place, i));
        canvas_line(canvas, x, y, x, y + TICK_LENGTH, LINE_AXIS, INK);
    }
    draw_labels(canvas, place, y);
}
