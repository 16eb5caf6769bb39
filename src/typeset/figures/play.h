/* How a snap is drawn: shared by play*.c only. Points, y downward, from the figure's top left corner. */
#ifndef TB_TYPESET_FIGURES_PLAY_H
#define TB_TYPESET_FIGURES_PLAY_H

#include "typeset/figures/kit.h"

#define PLAY_SCALE 4.65 /* points a yard, at most */
#define PLAY_LINEMAN_RADIUS 2.9
#define PLAY_ELIGIBLE_RADIUS 5.0
#define PLAY_DEFENDER_RADIUS 4.6
#define PLAY_READ_RADIUS 4.9
#define PLAY_MAN_LINE 0.8

/* Weights and dashes of ways. */
#define PLAY_TARGET_LINE 1.7
#define PLAY_LINE 0.9
#define PLAY_THIN_LINE 0.7
#define PLAY_DOT 0.9 /* of the ball's flight */
#define PLAY_DOT_GAP 2.2

typedef struct PlayStroke {
    double width, dash, gap; /* dash 0: solid */
    double head;             /* length of the arrow's head */
} PlayStroke;

extern const PlayStroke PLAY_STROKES[PLAY_WAY_COUNT];

/* What stands in the drawing already: marks and texts, which nothing else may cover, and lines, which a label keeps
 * clear of where it can. */
typedef struct PlayTaken {
    Box *boxes;
    size_t box_count, box_room;
    Point *lines; /* two points each */
    size_t line_count, line_room;
} PlayTaken;

typedef struct PlayPlan {
    const PlayFigure *play;
    double scale;     /* points a yard */
    Box field;        /* all that is shown */
    double scrimmage; /* y of the line */
    Point *men;       /* middles */
    double *radii;
    PlayTaken taken;
} PlayPlan;

Point play_point(const PlayPlan *plan, YardPoint at);

/* ---- places (play_place.c) ---- */
void play_take_box(Canvas *canvas, PlayTaken *taken, Box box);
void play_take_disc(Canvas *canvas, PlayTaken *taken, Point middle, double radius);
void play_take_line(Canvas *canvas, PlayTaken *taken, Point from, Point to);
bool play_is_free(const PlayTaken *taken, Box box);  /* of marks and texts */
bool play_is_clear(const PlayTaken *taken, Box box); /* of lines too */

/* The nearest place around `anchor`, at least `least` from it, where a box of that size is free and inside the field;
 * clear of lines where there is such a place. False: there is none. */
bool play_find_place(const PlayPlan *plan, Point anchor, double least, double width, double height, Point *middle);

/* Places all men: those on the line exactly, the others as near to their places as leaves them apart. */
void play_place_men(Canvas *canvas, PlayPlan *plan);

/* ---- lines (play_lines.c) ---- */

/* The part of a path before it leaves the box; returns how many points. `clipped` has room for `count`. `*whole` tells
 * whether it is all. */
size_t play_clip(Box box, const Point *points, size_t count, Point *clipped, bool *whole);

void play_draw_stroke(Canvas *canvas, const PlayStroke *stroke, const Point *points, size_t count, bool settles);
void play_draw_lines(Canvas *canvas, PlayPlan *plan);
void play_draw_flight(Canvas *canvas, PlayPlan *plan);
void play_draw_ball(Canvas *canvas, PlayPlan *plan); /* where it comes down, or how deep where that is not shown */

/* ---- the field (play_field.c) ---- */
void play_draw_field(Canvas *canvas, const PlayPlan *plan);
void play_draw_scrimmage(Canvas *canvas, PlayPlan *plan);
void play_draw_zones(Canvas *canvas, PlayPlan *plan);
void play_draw_ellipse(Canvas *canvas, Box box); /* a zone */
void play_draw_numbers(Canvas *canvas, PlayPlan *plan);

/* ---- marks (play.c) ---- */
Box play_window(const PlayPlan *plan); /* the room at the aim, as far as it is shown */
void play_draw_mark(Canvas *canvas, PlayMark mark, Point at, double radius, const char *letter);
void play_draw_read(Canvas *canvas, Point at, const char *number);

#endif
