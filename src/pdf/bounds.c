#include "pdf/bounds.h"

#include <math.h>

#include "base/text.h"

static const double THOUSAND = 1000;
static const double DEGREE = 0.017453292519943295;
static const double ASCENT = 0.75; /* of the size, about what letters reach */
static const double DESCENT = 0.25;

static double text_width(const Mark *mark) {
    double thousandths = 0;
    size_t characters = mark->count;
    for (uint32_t at = 0; at < mark->count; at++) {
        thousandths += mark->words[at]->width;
        if (mark->tracking != 0) characters += text_characters(mark->words[at]->text, mark->words[at]->length);
    }
    if (!mark->count) return 0;
    double gaps = (double)(mark->count - 1) * mark->word_space + (double)(characters - 1) * mark->tracking;
    return thousandths * mark->size / THOUSAND + gaps;
}

static Box around(const Point *points, size_t count, double margin) {
    double left = points[0].x, right = points[0].x;
    double top = points[0].y, bottom = points[0].y;
    for (size_t at = 1; at < count; at++) {
        left = fmin(left, points[at].x);
        right = fmax(right, points[at].x);
        top = fmin(top, points[at].y);
        bottom = fmax(bottom, points[at].y);
    }
    return (Box){left - margin, top - margin, right - left + 2 * margin, bottom - top + 2 * margin};
}

static Box text_bounds(const Mark *mark) {
    bool upright = mark->rotate == 0;
    double along_x = upright ? 1 : cos(mark->rotate * DEGREE), along_y = upright ? 0 : -sin(mark->rotate * DEGREE);
    double width = text_width(mark);
    double heights[2] = {ASCENT * mark->size, -DESCENT * mark->size};
    Point corners[4];
    for (int corner = 0; corner < 4; corner++) {
        double out = corner & 1 ? width : 0;
        double up = heights[corner >> 1];
        corners[corner].x = mark->points[0].x + along_x * out + along_y * up;
        corners[corner].y = mark->points[0].y + along_y * out - along_x * up;
    }
    return around(corners, 4, 0);
}

Box bounds_of(const Mark *mark) {
    double margin = mark->stroke.tint ? mark->stroke_width / 2 : 0;
    if (mark->kind == MARK_TEXT) return text_bounds(mark);
    if (mark->kind == MARK_DISC) return around(mark->points, 1, mark->size + margin);
    if (mark->kind != MARK_RECT) return around(mark->points, mark->count, margin);
    Point corners[2] = {{mark->box.x, mark->box.y}, {mark->box.x + mark->box.width, mark->box.y + mark->box.height}};
    return around(corners, 2, margin);
}
