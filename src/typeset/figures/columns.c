#include "typeset/figures/columns.h"

#include <math.h>

#define GAP 8.0
#define LABEL_GAP 7.0

/* Preferred places as parts of the width; on wide figures they stop growing. */
#define COUNT_RIGHT 0.36
#define COUNT_MOST 130.0
#define VALUE_WIDTH 15.0
#define INTERVAL_WIDTH 21.5
#define LEAST_AXIS 0.34

void columns_need(Canvas *canvas, RowNeeds *needs, const IntervalRow *row) {
    needs->label = kit_wider(canvas, TYPE_LABEL_STRONG, row->label, needs->label);
    needs->count = kit_wider(canvas, TYPE_LABEL, row->count, needs->count);
    needs->value = kit_wider(canvas, TYPE_LABEL_STRONG, columns_value(row), needs->value);
    needs->interval = kit_wider(canvas, TYPE_NOTE, row->interval, needs->interval);
}

RowColumns columns_fit(const RowNeeds *needs, double width) {
    RowColumns columns = {.interval_right = width};
    columns.value_right = width - fmax(needs->interval, INTERVAL_WIDTH) - GAP;
    columns.axis_right = columns.value_right - fmax(needs->value, VALUE_WIDTH) - GAP;
    double most = columns.axis_right - LEAST_AXIS * width - GAP; /* the count may end here at the latest */
    double natural = needs->label + LABEL_GAP + needs->count;
    columns.count_right =
        fmin(fmax(natural, fmin(COUNT_RIGHT * width, COUNT_MOST)), fmax(most, needs->count + LABEL_GAP));
    columns.label_width = fmax(columns.count_right - needs->count - LABEL_GAP, 1);
    columns.axis_left = columns.count_right + GAP;
    columns.axis_right = fmax(columns.axis_right, columns.axis_left + 1);
    return columns;
}

Lines columns_label(Canvas *canvas, const RowColumns *columns, TextStyle style, const IntervalRow *row) {
    return kit_wrap(canvas, style, row->label, columns->label_width);
}

const char *columns_value(const IntervalRow *row) {
    return row->hatched || kit_blank(row->value) ? "–" : row->value;
}

size_t columns_draw(Canvas *canvas, const RowColumns *columns, const IntervalRow *row, double y, TextStyle label,
                    TextStyle value, double leading) {
    double baseline = kit_centre(canvas, TYPE_LABEL, y);
    Lines lines = columns_label(canvas, columns, label, row);
    kit_lines(canvas, label, 0, baseline, ALIGN_LEFT, lines, leading);
    kit_text(canvas, TYPE_LABEL, columns->count_right, baseline, ALIGN_RIGHT, row->count);
    kit_text(canvas, value, columns->value_right, baseline, ALIGN_RIGHT, columns_value(row));
    kit_text(canvas, TYPE_NOTE, columns->interval_right, baseline, ALIGN_RIGHT, row->interval);
    return lines.count;
}
