/* The ground: yard lines, hashes and numbers, the lines of scrimmage and to gain, and the zones of a coverage. */
#include <math.h>

#include "typeset/figures/play.h"

#define TICK 2.2
#define HASH_TICK 3.2
#define GOAL_LINE 0.9
#define GAIN_LINE 0.9
#define ZONE_LINE 0.5
#define ZONE_HATCH_PITCH 3.4 /* 4.8 along an edge */
#define ZONE_HATCH_LINE 0.3
#define ZONE_LEAST 5.0 /* points; less of a zone is not drawn */
#define NUMBER_ABOVE 1.8
#define NUMBER_MARGIN 1.6
#define NUMBER_BESIDE 3.0
#define DIGIT_HEIGHT 0.72 /* of the size */

enum { FIELD_YARDS = 100, YARDS_A_LINE = 5, YARDS_A_NUMBER = 10, END_ZONE_TINT = 8, ELLIPSE_POINTS = 28 };

static const double full_turn = 2 * 3.14159265358979323846;
static const TextStyle TYPE_YARDS = {FACE_PLAIN, 9.0f, {INK_BLACK, TINT_REFERENCE}, 0};

static double right_of(Box box) {
    return box.x + box.width;
}

static double bottom_of(Box box) {
    return box.y + box.height;
}

static double y_of(const PlayPlan *plan, double yards) {
    return play_point(plan, (YardPoint){0, yards}).y;
}

/* ---- lines ---- */

static void draw_end_zones(Canvas *canvas, const PlayPlan *plan) {
    const PlayFigure *play = plan->play;
    const Box *field = &plan->field;
    double goal = fmax(y_of(plan, play->goal), field->y);
    double own = fmin(y_of(plan, play->goal - 100), bottom_of(*field));
    Ink tint = ink_tint(END_ZONE_TINT);
    if (goal > field->y + 1)
        canvas_rect(canvas, (Box){field->x, field->y, field->width, goal - field->y}, tint, 0, INK_NONE);
    if (own < bottom_of(*field) - 1) {
        canvas_rect(canvas, (Box){field->x, own, field->width, bottom_of(*field) - own}, tint, 0, INK_NONE);
    }
}

/* A tick at every yard, as one line as wide as a tick is long, dashed; none in the end zones. */
static void draw_ticks(Canvas *canvas, const PlayPlan *plan, double x, double length) {
    const PlayFigure *play = plan->play;
    double first = ceil(fmax(play->from, play->goal - 99) - play->goal + 1e-9) + play->goal;
    double last = floor(fmin(play->to, play->goal - 1) - play->goal - 1e-9) + play->goal;
    if (first > last) return;
    double from = y_of(plan, last) - LINE_AXIS / 2;
    double to = y_of(plan, first) + LINE_AXIS / 2;
    canvas_dashed(canvas, x, from, x, to, length, ink_tint(TINT_REFERENCE), LINE_AXIS, plan->scale - LINE_AXIS);
}

static void draw_yard_lines(Canvas *canvas, const PlayPlan *plan) {
    const PlayFigure *play = plan->play;
    const Box *field = &plan->field;
    for (int to_goal = 0; to_goal <= FIELD_YARDS; to_goal += YARDS_A_LINE) {
        double y = y_of(plan, play->goal - to_goal);
        if (y < field->y + 0.5 || y > bottom_of(*field) - 0.5) continue;
        bool goal = to_goal == 0 || to_goal == FIELD_YARDS;
        canvas_line(canvas, field->x, y, right_of(*field), y, goal ? GOAL_LINE : LINE_AXIS,
                    goal ? INK : ink_tint(TINT_GUIDE));
    }
}

void play_draw_field(Canvas *canvas, const PlayPlan *plan) {
    const Box *field = &plan->field;
    draw_end_zones(canvas, plan);
    draw_yard_lines(canvas, plan);
    for (int i = 0; i < 2; i++) {
        draw_ticks(canvas, plan, play_point(plan, (YardPoint){plan->play->hashes[i], 0}).x, HASH_TICK);
    }
    draw_ticks(canvas, plan, field->x + TICK / 2, TICK);
    draw_ticks(canvas, plan, right_of(*field) - TICK / 2, TICK);
    canvas_rect(canvas, *field, INK_NONE, LINE_FRAME, INK);
}

void play_draw_scrimmage(Canvas *canvas, PlayPlan *plan) {
    const Box *field = &plan->field;
    double right = right_of(*field);
    double gain = y_of(plan, plan->play->gain);
    if (isfinite(gain) && gain > field->y && gain < bottom_of(*field)) {
        canvas_dashed(canvas, field->x, gain, right, gain, GAIN_LINE, INK, 4.5, 2.5);
        play_take_line(canvas, &plan->taken, (Point){field->x, gain}, (Point){right, gain});
    }
    canvas_line(canvas, field->x, plan->scrimmage, right, plan->scrimmage, LINE_SCRIMMAGE, INK);
    play_take_line(canvas, &plan->taken, (Point){field->x, plan->scrimmage}, (Point){right, plan->scrimmage});
}

/* ---- zones ---- */

/* Lines at 45 degrees, each from edge to edge of the ellipse: (t / a)^2 + ((t - s) / b)^2 = 1 for a line that is `s`
 * above the one through the middle. */
static void hatch_ellipse(Canvas *canvas, Box box) {
    double a = box.width / 2;
    double b = box.height / 2;
    double x = box.x + a;
    double y = box.y + b;
    double step = ZONE_HATCH_PITCH * sqrt(2.0);
    double most = sqrt(a * a + b * b);
    int lines = (int)(most / step);
    for (int i = -lines; i <= lines; i++) {
        double shift = i * step;
        double square = 1 / (a * a) + 1 / (b * b);
        double linear = shift / (b * b);
        double rest = shift * shift / (b * b) - 1;
        double root = linear * linear - square * rest;
        if (root <= 0) continue;
        double from = (linear - sqrt(root)) / square;
        double to = (linear + sqrt(root)) / square;
        canvas_line(canvas, x + from, y - (from - shift), x + to, y - (to - shift), ZONE_HATCH_LINE,
                    ink_tint(TINT_REFERENCE));
    }
}

void play_draw_ellipse(Canvas *canvas, Box box) {
    Point points[ELLIPSE_POINTS + 1];
    for (int i = 0; i <= ELLIPSE_POINTS; i++) {
        double turn = full_turn * (i % ELLIPSE_POINTS) / ELLIPSE_POINTS;
        points[i] = (Point){box.x + box.width / 2 * (1 + cos(turn)), box.y + box.height / 2 * (1 - sin(turn))};
    }
    hatch_ellipse(canvas, box);
    canvas_dashed_path(canvas, points, ELLIPSE_POINTS + 1, ZONE_LINE, INK, 3, 2);
}

/* The part of a zone that is shown. */
static Box zone_box(const PlayPlan *plan, const YardZone *zone) {
    Point low = play_point(plan, (YardPoint){zone->middle.x - zone->width / 2, zone->middle.y + zone->depth / 2});
    Point high = play_point(plan, (YardPoint){zone->middle.x + zone->width / 2, zone->middle.y - zone->depth / 2});
    const Box *field = &plan->field;
    double left = fmax(low.x, field->x + 1);
    double top = fmax(low.y, field->y + 1);
    return (Box){left, top, fmin(high.x, right_of(*field) - 1) - left, fmin(high.y, bottom_of(*field) - 1) - top};
}

void play_draw_zones(Canvas *canvas, PlayPlan *plan) {
    for (size_t i = 0; i < plan->play->zone_count; i++) {
        Box box = zone_box(plan, &plan->play->zones[i]);
        if (box.width >= ZONE_LEAST && box.height >= ZONE_LEAST) play_draw_ellipse(canvas, box);
    }
}

/* ---- numbers ---- */

static bool touch(Box a, Box b) {
    return a.x < right_of(b) && b.x < right_of(a) && a.y < bottom_of(b) && b.y < bottom_of(a);
}

static bool on_zone(const PlayPlan *plan, Box number) {
    for (size_t i = 0; i < plan->play->zone_count; i++) {
        if (touch(number, zone_box(plan, &plan->play->zones[i]))) return true;
    }
    return plan->play->window > 0 && touch(number, play_window(plan));
}

typedef struct Number {
    const char *text;
    double width, height;
    double line; /* y of its yard line */
    bool left;   /* of the middle of the field */
} Number;

/* Draws it on its line, or under it, so far from the sideline; false where something else stands. */
static bool try_number(Canvas *canvas, PlayPlan *plan, const Number *number, double from_sideline, bool under) {
    double x = number->left ? plan->play->left + from_sideline : plan->play->right - from_sideline;
    double middle = play_point(plan, (YardPoint){x, 0}).x;
    double baseline = under ? number->line + number->height + NUMBER_ABOVE : number->line - NUMBER_ABOVE;
    Box box = {middle - number->width / 2 - NUMBER_BESIDE, baseline - number->height - NUMBER_MARGIN + 0.2,
               number->width + 2 * NUMBER_BESIDE, number->height + 2 * NUMBER_MARGIN - 0.4};
    bool inside = box.y > plan->field.y && bottom_of(box) < bottom_of(plan->field);
    if (!inside || on_zone(plan, box) || !play_is_clear(&plan->taken, box)) return false;
    kit_text(canvas, TYPE_YARDS, middle, baseline, ALIGN_CENTRE, number->text);
    play_take_box(canvas, &plan->taken, box);
    return true;
}

/* Where it is painted, then along its line, then under the line; or not at all. */
static void draw_number(Canvas *canvas, PlayPlan *plan, double yards, int value, bool left) {
    static const double FROM_SIDELINE[] = {10.5, 9, 12, 7.5, 13.5, 6, 15, 4.5, 16.5, 3, 18};
    Number number = {.text = arena_printf(canvas->arena, "%d", value), .left = left, .line = y_of(plan, yards)};
    number.width = canvas_width(canvas, TYPE_YARDS, number.text);
    number.height = DIGIT_HEIGHT * (double)TYPE_YARDS.size;
    for (int under = 0; under < 2; under++) {
        for (size_t i = 0; i < sizeof FROM_SIDELINE / sizeof *FROM_SIDELINE; i++) {
            if (try_number(canvas, plan, &number, FROM_SIDELINE[i], under)) return;
        }
    }
}

void play_draw_numbers(Canvas *canvas, PlayPlan *plan) {
    const PlayFigure *play = plan->play;
    for (int to_goal = YARDS_A_NUMBER; to_goal < FIELD_YARDS; to_goal += YARDS_A_NUMBER) {
        double yards = play->goal - to_goal;
        int number = to_goal > FIELD_YARDS / 2 ? FIELD_YARDS - to_goal : to_goal;
        if (yards < play->from || yards > play->to) continue;
        draw_number(canvas, plan, yards, number, true);
        draw_number(canvas, plan, yards, number, false);
    }
}
