/* The columns of a row with an axis: label at the left, count before the axis, value and interval after it. Figures
 * that stand beside each other keep the same columns as long as their texts allow. */
#ifndef TB_TYPESET_FIGURES_COLUMNS_H
#define TB_TYPESET_FIGURES_COLUMNS_H

#include "story/figures.h"
#include "typeset/canvas.h"
#include "typeset/figures/kit.h"

/* Natural widths of the texts that must fit. */
typedef struct RowNeeds {
    double label, count, value, interval;
} RowNeeds;

typedef struct RowColumns {
    double label_width; /* labels wrap in it */
    double count_right;
    double axis_left, axis_right;
    double value_right, interval_right;
} RowColumns;

void columns_need(Canvas *canvas, RowNeeds *needs, const IntervalRow *row);
RowColumns columns_fit(const RowNeeds *needs, double width);

Lines columns_label(Canvas *canvas, const RowColumns *columns, TextStyle style, const IntervalRow *row);

/* Draws the texts of a row around its first line's middle `y`; returns how many lines its label takes. */
size_t columns_draw(Canvas *canvas, const RowColumns *columns, const IntervalRow *row, double y, TextStyle label,
                    TextStyle value, double leading);

/* What stands for the value: "–" without one or with too few snaps. */
const char *columns_value(const IntervalRow *row);

#endif
