/* Ways of men and of the ball: cut where they leave what is shown, from the edge of a man's mark, with a head. */
#include <math.h>
#include <string.h>

#include "typeset/figures/markers.h"
#include "typeset/figures/play.h"

#define HEAD_HALF 0.42 /* half the width of a head, as a share of its length */
#define SETTLE_HALF 3.2
#define SHARP -0.2 /* cosine of a turn */
#define EDGE 0.6   /* white between a mark and a line */
#define INSET 3.0  /* lines end so far inside the frame: their heads are half as wide */
#define DIAMOND 3.8

const PlayStroke PLAY_STROKES[PLAY_WAY_COUNT] = {
    [PLAY_TARGET] = {PLAY_TARGET_LINE, 0, 0, 6},  [PLAY_ROUTE] = {PLAY_LINE, 0, 0, 5},
    [PLAY_MOTION] = {PLAY_LINE, 3.6, 2, 4.4},     [PLAY_DROP] = {PLAY_LINE, 1.5, 1.5, 4},
    [PLAY_COVER] = {PLAY_THIN_LINE, 1.5, 1.5, 4}, [PLAY_RUSH] = {PLAY_THIN_LINE, 0, 0, 4},
};

/* ---- cutting ---- */

/* The share of the way from a to b at which it leaves the box; 1 when b is inside. a is inside. */
static double leaves_at(Box box, Point a, Point b) {
    double share = 1;
    double starts[] = {a.x - box.x, a.y - box.y};
    double ways[] = {b.x - a.x, b.y - a.y};
    double sizes[] = {box.width, box.height};
    for (int i = 0; i < 2; i++) {
        double end = starts[i] + ways[i];
        if (end > sizes[i]) share = fmin(share, (sizes[i] - starts[i]) / ways[i]);
        if (end < 0) share = fmin(share, -starts[i] / ways[i]);
    }
    return fmax(share, 0);
}

static bool is_in(Box box, Point at) {
    return at.x >= box.x && at.x <= box.x + box.width && at.y >= box.y && at.y <= box.y + box.height;
}

size_t play_clip(Box box, const Point *points, size_t count, Point *clipped, bool *whole) {
    *whole = false;
    if (!count || !is_in(box, points[0])) return 0;
    clipped[0] = points[0];
    for (size_t i = 1; i < count; i++) {
        double share = leaves_at(box, points[i - 1], points[i]);
        clipped[i] = (Point){points[i - 1].x + share * (points[i].x - points[i - 1].x),
                             points[i - 1].y + share * (points[i].y - points[i - 1].y)};
        if (share < 1) return i + 1;
    }
    *whole = true;
    return count;
}

/* ---- strokes ---- */

/* Moves the end of the last stretch back by `yards`, as far as there is any. Returns its direction. */
static Point draw_back(Point *points, size_t count, double by) {
    Point *end = &points[count - 1];
    Point before = points[count - 2];
    double length = hypot(end->x - before.x, end->y - before.y);
    if (length < 1e-6) return (Point){0, -1};
    Point way = {(end->x - before.x) / length, (end->y - before.y) / length};
    double back = fmin(by, length);
    end->x -= way.x * back;
    end->y -= way.y * back;
    return way;
}

static void draw_head(Canvas *canvas, Point tip, Point way, double length) {
    double half = length * HEAD_HALF;
    Point back = {tip.x - way.x * length, tip.y - way.y * length};
    const Point corners[] = {
        tip, {back.x - way.y * half, back.y + way.x * half}, {back.x + way.y * half, back.y - way.x * half}};
    canvas_shape(canvas, corners, 3, INK, 0, INK_NONE);
}

static void draw_bar(Canvas *canvas, Point at, Point way, double width) {
    canvas_line(canvas, at.x - way.y * SETTLE_HALF, at.y + way.x * SETTLE_HALF, at.x + way.y * SETTLE_HALF,
                at.y - way.x * SETTLE_HALF, width, INK);
}

/* Sharp turns are drawn in two strokes, so that no mitre sticks out of them. */
static bool is_sharp(Point before, Point at, Point after) {
    double dot = (at.x - before.x) * (after.x - at.x) + (at.y - before.y) * (after.y - at.y);
    double lengths = hypot(at.x - before.x, at.y - before.y) * hypot(after.x - at.x, after.y - at.y);
    return dot < lengths * SHARP;
}

static void draw_path(Canvas *canvas, const PlayStroke *stroke, const Point *points, size_t count) {
    for (size_t first = 0, end; first + 1 < count; first = end) {
        end = first + 1;
        while (end + 1 < count && !is_sharp(points[end - 1], points[end], points[end + 1])) end++;
        if (stroke->dash > 0) {
            canvas_dashed_path(canvas, points + first, end - first + 1, stroke->width, INK, stroke->dash, stroke->gap);
        } else {
            canvas_path(canvas, points + first, end - first + 1, stroke->width, INK);
        }
        if (end + 1 < count) canvas_disc(canvas, points[end].x, points[end].y, stroke->width / 2, INK, 0, INK_NONE);
    }
}

void play_draw_stroke(Canvas *canvas, const PlayStroke *stroke, const Point *points, size_t count, bool settles) {
    if (count < 2) return;
    Point *drawn = ARENA_ARRAY(canvas->arena, count, Point);
    memcpy(drawn, points, count * sizeof *points);
    Point way = draw_back(drawn, count, settles ? 0 : stroke->head * 0.8);
    draw_path(canvas, stroke, drawn, count);
    if (settles) {
        draw_bar(canvas, points[count - 1], way, stroke->width);
    } else {
        draw_head(canvas, points[count - 1], way, stroke->head);
    }
}

/* ---- ways of men ---- */

static Box inner_field(const PlayPlan *plan) {
    const Box *field = &plan->field;
    return (Box){field->x + INSET, field->y + INSET, field->width - 2 * INSET, field->height - 2 * INSET};
}

static Point toward(Point from, Point to, double by) {
    double length = hypot(to.x - from.x, to.y - from.y);
    double share = length > 0 ? fmin(by / length, 1) : 0;
    return (Point){from.x + (to.x - from.x) * share, from.y + (to.y - from.y) * share};
}

/* All points in order, beginning or ending at the edge of the man's mark. */
static Point *points_of(Canvas *canvas, const PlayPlan *plan, const PlayLine *line) {
    Point *points = ARENA_ARRAY(canvas->arena, line->count + 1, Point);
    size_t shift = line->to_man ? 0 : 1;
    size_t own = line->to_man ? line->count : 0;
    for (size_t i = 0; i < line->count; i++) points[i + shift] = play_point(plan, line->points[i]);
    double edge = plan->radii[line->man] + PLAY_MAN_LINE / 2 + (line->to_man ? EDGE : 0);
    points[own] = toward(plan->men[line->man], points[line->to_man ? own - 1 : 1], edge);
    return points;
}

static void draw_way(Canvas *canvas, PlayPlan *plan, const PlayLine *line) {
    Point *points = points_of(canvas, plan, line);
    Point *clipped = ARENA_ARRAY(canvas->arena, line->count + 1, Point);
    bool whole;
    size_t count = play_clip(inner_field(plan), points, line->count + 1, clipped, &whole);
    play_draw_stroke(canvas, &PLAY_STROKES[line->way], clipped, count, line->settles && whole);
    for (size_t i = 0; i + 1 < count; i++) play_take_line(canvas, &plan->taken, clipped[i], clipped[i + 1]);
}

/* The thin ones first, so that the target's route is on top. */
void play_draw_lines(Canvas *canvas, PlayPlan *plan) {
    static const PlayWay ORDER[] = {PLAY_COVER, PLAY_RUSH, PLAY_DROP, PLAY_MOTION, PLAY_ROUTE, PLAY_TARGET};
    for (size_t k = 0; k < sizeof ORDER / sizeof *ORDER; k++) {
        for (size_t i = 0; i < plan->play->line_count; i++) {
            if (plan->play->lines[i].way == ORDER[k]) draw_way(canvas, plan, &plan->play->lines[i]);
        }
    }
}

/* ---- the ball ---- */

static void draw_diamond(Canvas *canvas, Point at, bool open) {
    const Point corners[] = {
        {at.x, at.y - DIAMOND}, {at.x + DIAMOND, at.y}, {at.x, at.y + DIAMOND}, {at.x - DIAMOND, at.y}};
    const Ink paper = {INK_PAPER, 100};
    canvas_shape(canvas, corners, 4, open ? paper : INK, open ? LINE_OWN : 0, open ? INK : INK_NONE);
}

/* A ball that goes farther than is shown ends at the edge, with its depth beside it. */
static void label_depth(Canvas *canvas, PlayPlan *plan, Point at) {
    const char *text = arena_printf(canvas->arena, "%.0f deep", round(plan->play->aim.y));
    double width = canvas_width(canvas, TYPE_LABEL, text) + 3;
    Point middle;
    if (!play_find_place(plan, at, width / 2 + 3, width, 9, &middle)) return;
    Box box = {middle.x - width / 2, middle.y - 4.5, width, 9};
    canvas_rect(canvas, box, (Ink){INK_PAPER, 100}, 0, INK_NONE);
    kit_text(canvas, TYPE_LABEL, middle.x, kit_centre(canvas, TYPE_LABEL, middle.y), ALIGN_CENTRE, text);
    play_take_box(canvas, &plan->taken, box);
}

static bool aim_is_shown(const PlayPlan *plan) {
    return isfinite(plan->play->aim.x) && is_in(inner_field(plan), play_point(plan, plan->play->aim));
}

/* The aim where a whole diamond fits. */
static Point aim_of(const PlayPlan *plan) {
    Point aim = play_point(plan, plan->play->aim);
    Box inner = inner_field(plan);
    if (!aim_is_shown(plan)) return aim;
    aim.x = fmax(inner.x + DIAMOND, fmin(aim.x, inner.x + inner.width - DIAMOND));
    aim.y = fmax(inner.y + DIAMOND, fmin(aim.y, inner.y + inner.height - DIAMOND));
    return aim;
}

/* The way of the ball as far as it is shown; returns how many points. */
static size_t flight_of(const PlayPlan *plan, Point *points) {
    if (!isfinite(plan->play->aim.x) || !isfinite(plan->play->release.x)) return 0;
    Point ways[] = {play_point(plan, plan->play->release), aim_of(plan)};
    bool whole;
    return play_clip(inner_field(plan), ways, 2, points, &whole);
}

void play_draw_flight(Canvas *canvas, PlayPlan *plan) {
    Point points[2];
    if (flight_of(plan, points) < 2) return;
    canvas_dashed_path(canvas, points, 2, PLAY_DOT, INK, PLAY_DOT, PLAY_DOT_GAP);
    play_take_line(canvas, &plan->taken, points[0], points[1]);
}

void play_draw_ball(Canvas *canvas, PlayPlan *plan) {
    Point points[2];
    if (aim_is_shown(plan)) {
        Point aim = aim_of(plan);
        draw_diamond(canvas, aim, !plan->play->caught);
        play_take_disc(canvas, &plan->taken, aim, DIAMOND + 0.6);
    } else if (flight_of(plan, points) == 2) {
        label_depth(canvas, plan, points[1]);
    }
}
