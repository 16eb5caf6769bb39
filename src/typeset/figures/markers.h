/* Dots, diamonds, wedges, intervals and verdict marks. Every one reads without colour: they differ by shape and fill.
 */
#ifndef TB_TYPESET_FIGURES_MARKERS_H
#define TB_TYPESET_FIGURES_MARKERS_H

#include <stdbool.h>

#include "story/figures.h"
#include "typeset/canvas.h"
#include "typeset/figures/axis.h"

#define DOT_RADIUS 2.6
#define PLAYER_RADIUS 3.0
#define VERDICT_WIDTH 26.0

typedef enum MarkerShape { MARKER_DOT, MARKER_DIAMOND } MarkerShape;

void marker_dot(Canvas *canvas, double x, double y, double radius, Ink ink, bool open);
void marker_diamond(Canvas *canvas, double x, double y, bool open);

/* Points down to (x, y). */
void marker_wedge(Canvas *canvas, double x, double y, double width, double height, Ink ink);

/* Says "further out": a head at the end of an axis, pointing left (side -1) or right (1). */
void marker_beyond(Canvas *canvas, double x, double y, int side, Ink ink);

/* The same at an upward axis: -1 below it, 1 above it. */
void marker_upright(Canvas *canvas, double x, double y, int side, Ink ink);

/* Too few to say: hatched on white. */
void marker_few(Canvas *canvas, Box box);

/* One row of an axis: its interval, hatched when too few, and its point. What lies outside the axis ends in an
 * arrowhead. */
void marker_row(Canvas *canvas, const AxisPlace *place, double y, const IntervalRow *row, MarkerShape shape);

/* The drawn verdict, VERDICT_WIDTH wide from `x`, around `y`. */
void marker_verdict(Canvas *canvas, double x, double y, VerdictMark mark);

#endif
