/* One snap on the field, to scale: both sides' men, their ways, the zones, the ball. Nothing leaves the field that is
 * shown, no two letters meet, and the numbers of the yards give way to everything. */
#include "typeset/figures/play.h"

#include <math.h>

#define ABOVE 5.0 /* white above the frame, so that rows of drawings stand apart */
#define READ_LEAST (PLAY_READ_RADIUS + 3.5)
#define NOTE_HEIGHT 9.0
#define NOTE_LEAST 7.0

static const Ink PAPER = {INK_PAPER, 100};
static const TextStyle TYPE_LETTER = {FACE_STRONG, 7.5f, {INK_BLACK, 100}, 0};
static const TextStyle TYPE_DEFENDER = {FACE_STRONG, 8.5f, {INK_BLACK, 100}, 0};
static const TextStyle TYPE_READ = {FACE_STRONG, 7.5f, {INK_PAPER, 100}, 0};

Point play_point(const PlayPlan *plan, YardPoint at) {
    return (Point){plan->field.x + (at.x - plan->play->left) * plan->scale,
                   plan->field.y + (plan->play->to - at.y) * plan->scale};
}

static PlayPlan plan_play(const PlayFigure *play, double width) {
    PlayPlan plan = {.play = play};
    double yards = play->right - play->left;
    plan.scale = fmin(width / yards, PLAY_SCALE);
    plan.field =
        (Box){(width - yards * plan.scale) / 2, ABOVE, yards * plan.scale, (play->to - play->from) * plan.scale};
    plan.scrimmage = plan.field.y + play->to * plan.scale;
    return plan;
}

double play_height(Canvas *canvas, const Figure *figure, double width) {
    (void)canvas;
    PlayPlan plan = plan_play(&figure->as.play, width);
    return ABOVE + plan.field.height;
}

/* ---- marks ---- */

void play_draw_mark(Canvas *canvas, PlayMark mark, Point at, double radius, const char *letter) {
    TextStyle type = mark == PLAY_DEFENDER ? TYPE_DEFENDER : TYPE_LETTER;
    switch (mark) {
    case PLAY_CENTRE:
        canvas_rect(canvas, (Box){at.x - radius, at.y - radius, 2 * radius, 2 * radius}, PAPER, PLAY_MAN_LINE, INK);
        break;
    case PLAY_LINEMAN:
    case PLAY_ELIGIBLE:
        canvas_disc(canvas, at.x, at.y, radius, PAPER, PLAY_MAN_LINE, INK);
        break;
    case PLAY_DEFENDER:
        canvas_disc(canvas, at.x, at.y, radius, PAPER, 0, INK_NONE);
        break;
    }
    kit_text(canvas, type, at.x, kit_centre(canvas, type, at.y), ALIGN_CENTRE, letter);
}

void play_draw_read(Canvas *canvas, Point at, const char *number) {
    canvas_disc(canvas, at.x, at.y, PLAY_READ_RADIUS, INK, 0, INK_NONE);
    kit_text(canvas, TYPE_READ, at.x, kit_centre(canvas, TYPE_READ, at.y), ALIGN_CENTRE, number);
}

static void draw_men(Canvas *canvas, const PlayPlan *plan) {
    for (size_t i = 0; i < plan->play->man_count; i++) {
        const PlayMan *man = &plan->play->men[i];
        play_draw_mark(canvas, man->mark, plan->men[i], plan->radii[i], man->letter);
    }
}

/* ---- labels ---- */

/* The last bend of a way; the middle of one without a bend. */
static Point bend_of(const PlayPlan *plan, const PlayLine *line) {
    if (line->count > 1) return play_point(plan, line->points[line->count - 2]);
    Point end = play_point(plan, line->points[0]);
    Point start = plan->men[line->man];
    return (Point){(start.x + end.x) / 2, (start.y + end.y) / 2};
}

static void draw_reads(Canvas *canvas, PlayPlan *plan) {
    for (size_t i = 0; i < plan->play->line_count; i++) {
        const PlayLine *line = &plan->play->lines[i];
        Point at;
        if (!line->read) continue;
        double size = 2 * PLAY_READ_RADIUS + 1;
        if (!play_find_place(plan, bend_of(plan, line), READ_LEAST, size, size, &at)) continue;
        play_draw_read(canvas, at, line->read);
        play_take_disc(canvas, &plan->taken, at, PLAY_READ_RADIUS + 0.5);
    }
}

static void draw_notes(Canvas *canvas, PlayPlan *plan) {
    for (size_t i = 0; i < plan->play->note_count; i++) {
        const PlayNote *note = &plan->play->notes[i];
        double width = canvas_width(canvas, TYPE_LABEL, note->text) + 3;
        Point at;
        if (!play_find_place(plan, play_point(plan, note->at), NOTE_LEAST, width, NOTE_HEIGHT, &at)) continue;
        Box box = {at.x - width / 2, at.y - NOTE_HEIGHT / 2, width, NOTE_HEIGHT};
        canvas_rect(canvas, box, PAPER, 0, INK_NONE);
        kit_text(canvas, TYPE_LABEL, at.x, kit_centre(canvas, TYPE_LABEL, at.y), ALIGN_CENTRE, note->text);
        play_take_box(canvas, &plan->taken, box);
    }
}

/* ---- the whole ---- */

Box play_window(const PlayPlan *plan) {
    double half = plan->play->window * plan->scale / 2;
    Point aim = play_point(plan, plan->play->aim);
    const Box *field = &plan->field;
    double left = fmax(aim.x - half, field->x);
    double top = fmax(aim.y - half, field->y);
    double right = fmin(aim.x + half, field->x + field->width);
    double bottom = fmin(aim.y + half, field->y + field->height);
    return (Box){left, top, right - left, bottom - top};
}

static void draw_window(Canvas *canvas, const PlayPlan *plan) {
    Box box = play_window(plan);
    if (!(plan->play->window > 0) || box.width <= 0 || box.height <= 0) return;
    canvas_rect(canvas, box, ink_tint(TINT_MIDDLE), 0, INK_NONE);
}

void play_draw(Canvas *canvas, const Figure *figure, double width) {
    const PlayFigure *play = &figure->as.play;
    PlayPlan plan = plan_play(play, width);
    play_place_men(canvas, &plan);
    play_draw_field(canvas, &plan);
    play_draw_zones(canvas, &plan);
    draw_window(canvas, &plan);
    play_draw_scrimmage(canvas, &plan);
    play_draw_lines(canvas, &plan);
    play_draw_flight(canvas, &plan);
    draw_men(canvas, &plan);
    play_draw_ball(canvas, &plan);
    draw_reads(canvas, &plan);
    draw_notes(canvas, &plan);
    play_draw_numbers(canvas, &plan);
}
