/* A horizontal axis placed in a figure: mapping, guides, ticks and labels that never run into each other. */
#ifndef TB_TYPESET_FIGURES_AXIS_H
#define TB_TYPESET_FIGURES_AXIS_H

#include <stddef.h>

#include "story/figures.h"
#include "typeset/canvas.h"

typedef struct AxisPlace {
    Axis axis;          /* usable: finite, from < to, at least one step */
    double x, width;    /* where `from` stands and how far `to` is from it */
    double left, right; /* labels stay between these */
} AxisPlace;

/* From the axis line to under its labels. */
#define AXIS_DEPTH 12.5

enum { AXIS_MOST_TICKS = 60 };

/* Repairs an axis that cannot be drawn (not finite, empty, steps without number) rather than trusting it. */
AxisPlace axis_place(Axis axis, double x, double width, double left, double right);

double axis_x(const AxisPlace *place, double value); /* a value outside stands at the nearer end */
int axis_side(const AxisPlace *place, double value); /* -1 outside at the left, 0 on the axis, 1 outside at the right */
size_t axis_ticks(const AxisPlace *place);
double axis_tick(const AxisPlace *place, size_t index); /* value of a tick */

/* The label of a tick with the suffix of the last; a negative one has a true minus, and then positive ones a plus. */
const char *axis_label(Canvas *canvas, const AxisPlace *place, size_t index);

/* One dotted hairline behind the data: a solid reference line beside it is told apart on any screen. */
void axis_guide(Canvas *canvas, double x1, double y1, double x2, double y2);

/* Guides behind the data at every tick. */
void axis_guides(Canvas *canvas, const AxisPlace *place, double top, double bottom);

/* The line at `y` with its ticks and labels below. */
void axis_draw(Canvas *canvas, const AxisPlace *place, double y);

#endif
