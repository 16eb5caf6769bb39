/* Who stands where on paper when two would stand on each other, and where labels go. */
#include <math.h>
#include <string.h>

#include "typeset/figures/play.h"

#define APART 0.7 /* white between two marks */
#define INSET 0.6 /* of marks and labels from the frame */
#define RING 1.0  /* from one ring of places to the next */
#define LABEL_RING 2.0

/* A man moves no farther than the last of his rings. A label goes no farther than CLEAR_RINGS to be clear of lines. */
enum { ANGLES = 16, MEN_RINGS = 60, LABEL_RINGS = 75, CLEAR_RINGS = 22, FIRST_ROOM = 64 };

static const double full_turn = 2 * 3.14159265358979323846;

/* ---- what is taken ---- */

static void *grown(Canvas *canvas, const void *old, size_t count, size_t *room, size_t size) {
    *room = *room ? *room * 2 : FIRST_ROOM;
    void *fresh = arena_array(canvas->arena, *room, size);
    if (count) memcpy(fresh, old, count * size);
    return fresh;
}

void play_take_box(Canvas *canvas, PlayTaken *taken, Box box) {
    if (taken->box_count == taken->box_room) {
        taken->boxes = grown(canvas, taken->boxes, taken->box_count, &taken->box_room, sizeof *taken->boxes);
    }
    taken->boxes[taken->box_count++] = box;
}

void play_take_disc(Canvas *canvas, PlayTaken *taken, Point middle, double radius) {
    play_take_box(canvas, taken, (Box){middle.x - radius, middle.y - radius, 2 * radius, 2 * radius});
}

void play_take_line(Canvas *canvas, PlayTaken *taken, Point from, Point to) {
    if (taken->line_count + 2 > taken->line_room) {
        taken->lines = grown(canvas, taken->lines, taken->line_count, &taken->line_room, sizeof *taken->lines);
    }
    taken->lines[taken->line_count++] = from;
    taken->lines[taken->line_count++] = to;
}

static bool overlap(Box a, Box b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

bool play_is_free(const PlayTaken *taken, Box box) {
    for (size_t i = 0; i < taken->box_count; i++) {
        if (overlap(box, taken->boxes[i])) return false;
    }
    return true;
}

/* Whether the stretch of a line from a to b has a point in the box. */
static bool crosses(Box box, Point a, Point b) {
    double from = 0;
    double to = 1;
    double starts[] = {a.x - box.x, a.y - box.y};
    double ways[] = {b.x - a.x, b.y - a.y};
    double sizes[] = {box.width, box.height};
    for (int i = 0; i < 2; i++) {
        if (fabs(ways[i]) < 1e-9) {
            if (starts[i] < 0 || starts[i] > sizes[i]) return false;
            continue;
        }
        double enters = (0 - starts[i]) / ways[i];
        double leaves = (sizes[i] - starts[i]) / ways[i];
        from = fmax(from, fmin(enters, leaves));
        to = fmin(to, fmax(enters, leaves));
    }
    return from <= to;
}

bool play_is_clear(const PlayTaken *taken, Box box) {
    for (size_t i = 0; i + 1 < taken->line_count; i += 2) {
        if (crosses(box, taken->lines[i], taken->lines[i + 1])) return false;
    }
    return play_is_free(taken, box);
}

/* ---- labels ---- */

static bool is_inside(Box field, Box box) {
    return box.x >= field.x + INSET && box.y >= field.y + INSET && box.x + box.width <= field.x + field.width - INSET &&
           box.y + box.height <= field.y + field.height - INSET;
}

static Point around(Point anchor, double distance, int angle) {
    double turn = full_turn * (angle + 0.5) / ANGLES;
    return (Point){anchor.x + distance * cos(turn), anchor.y - distance * sin(turn)};
}

bool play_find_place(const PlayPlan *plan, Point anchor, double least, double width, double height, Point *middle) {
    bool found = false;
    for (int ring = 0; ring < LABEL_RINGS; ring++) {
        double distance = least + ring * LABEL_RING;
        for (int angle = 0; angle < ANGLES; angle++) {
            Point at = around(anchor, distance, angle);
            Box box = {at.x - width / 2, at.y - height / 2, width, height};
            if (!is_inside(plan->field, box) || !play_is_free(&plan->taken, box)) continue;
            bool clear = play_is_clear(&plan->taken, box);
            if (clear || !found) *middle = at;
            found = true;
            if (clear) return true;
        }
        if (found && ring >= CLEAR_RINGS) return true;
    }
    return found;
}

/* ---- men ---- */

/* The offence stays behind the line, the defence beyond it. */
static bool on_his_side(const PlayPlan *plan, size_t index, Point at) {
    double clear = plan->radii[index] + LINE_SCRIMMAGE / 2;
    double wanted = plan->play->men[index].at.y;
    if (plan->play->men[index].mark == PLAY_DEFENDER) return wanted < 0 || at.y <= plan->scrimmage - clear + 0.01;
    return wanted > 0.5 || at.y >= plan->scrimmage + clear - 0.01;
}

static bool man_fits(const PlayPlan *plan, size_t index, Point at) {
    double radius = plan->radii[index];
    Box box = {at.x - radius, at.y - radius, 2 * radius, 2 * radius};
    if (!is_inside(plan->field, box) || !on_his_side(plan, index, at)) return false;
    for (size_t i = 0; i < index; i++) {
        if (isnan(plan->men[i].x)) continue;
        if (hypot(plan->men[i].x - at.x, plan->men[i].y - at.y) < plan->radii[i] + radius + APART) return false;
    }
    return true;
}

/* His own place, his body on his side of the line, inside what is shown. */
static Point own_place(const PlayPlan *plan, size_t index) {
    const PlayMan *man = &plan->play->men[index];
    double radius = plan->radii[index];
    Point at = play_point(plan, man->at);
    double clear = radius + LINE_SCRIMMAGE / 2;
    if (man->mark == PLAY_DEFENDER && man->at.y >= 0 && man->at.y < 2) at.y -= radius;
    if (man->mark != PLAY_DEFENDER && man->at.y <= 0 && man->at.y > -4) at.y += radius;
    if (man->mark == PLAY_DEFENDER && man->at.y >= 0) at.y = fmin(at.y, plan->scrimmage - clear);
    if (man->mark != PLAY_DEFENDER && man->at.y <= 0) at.y = fmax(at.y, plan->scrimmage + clear);
    const Box *field = &plan->field;
    at.x = fmax(field->x + radius + INSET, fmin(at.x, field->x + field->width - radius - INSET));
    at.y = fmax(field->y + radius + INSET, fmin(at.y, field->y + field->height - radius - INSET));
    return at;
}

static void place_man(PlayPlan *plan, size_t index) {
    Point own = own_place(plan, index);
    plan->men[index] = own;
    if (man_fits(plan, index, own)) return;
    for (int ring = 1; ring < MEN_RINGS; ring++) {
        double distance = ring * RING;
        for (int angle = 0; angle < ANGLES; angle++) {
            double turn = full_turn * angle / ANGLES;
            Point at = {own.x + distance * cos(turn), own.y - distance * sin(turn)};
            if (!man_fits(plan, index, at)) continue;
            plan->men[index] = at;
            return;
        }
    }
}

static double radius_of(Canvas *canvas, const PlayMan *man) {
    if (man->mark == PLAY_LINEMAN || man->mark == PLAY_CENTRE) return PLAY_LINEMAN_RADIUS;
    double half = canvas_width(canvas, TYPE_LABEL_STRONG, man->letter) / 2 + 1;
    return fmax(man->mark == PLAY_DEFENDER ? PLAY_DEFENDER_RADIUS : PLAY_ELIGIBLE_RADIUS, half);
}

void play_place_men(Canvas *canvas, PlayPlan *plan) {
    size_t count = plan->play->man_count;
    plan->men = ARENA_ARRAY(canvas->arena, count, Point);
    plan->radii = ARENA_ARRAY(canvas->arena, count, double);
    for (size_t i = 0; i < count; i++) {
        plan->radii[i] = radius_of(canvas, &plan->play->men[i]);
        place_man(plan, i);
        play_take_disc(canvas, &plan->taken, plan->men[i], plan->radii[i] + PLAY_MAN_LINE / 2);
    }
}
