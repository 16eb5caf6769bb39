#include <math.h>
#include <stdbool.h>

#include "typeset/table.h"

static const double least_width = 1;
static const double slack = 1e-6; /* sums are not exact */

static bool is_fixed(const TableColumn *column) {
    return column->width > 0;
}

static double weight_of(const TableColumn *column) {
    if (is_fixed(column)) return 0;
    return column->width < 0 ? -column->width : 1;
}

/* How far a table goes to give columns what their words take, from the most to the least. */
typedef enum Generosity { GIVE_HEADS, GIVE_PIECES, GIVE_WORDS, GIVE_LEAST, GENEROSITY_COUNT } Generosity;

static double head_of(const ColumnNeed *need, Generosity generosity) {
    return generosity == GIVE_HEADS ? need->head : generosity == GIVE_PIECES ? need->piece : 0;
}

/* In a dense table a row in one line comes before all else, and what a column asks for counts last. */
static double least_of(const TableColumn *column, const ColumnNeed *need, bool dense, Generosity generosity) {
    double head = head_of(need, generosity);
    if (dense) return fmax(least_width, fmax(head, generosity < GIVE_LEAST ? need->whole : need->least));
    if (!is_fixed(column)) return fmax(least_width, fmax(head, need->least));
    return generosity < GIVE_LEAST ? fmax(column->width, fmax(head, need->least)) : column->width;
}

/* Sets the least widths as generously as the table's width allows; returns their sum, which may still be too much. */
static double give_least(const TableColumn *columns, size_t count, const ColumnNeed *needs, bool dense, double width,
                         double *widths) {
    double sum = 0;
    for (Generosity generosity = GIVE_HEADS; generosity < GENEROSITY_COUNT; generosity++) {
        sum = 0;
        for (size_t i = 0; i < count; i++) {
            widths[i] = least_of(&columns[i], &needs[i], dense, generosity);
            sum += widths[i];
        }
        if (sum <= width + slack) break;
    }
    return sum;
}

/* What a column is short of its widest cell in one line, or in a dense table of what it asks for. */
static double lack_of(const TableColumn *column, const ColumnNeed *need, bool dense, double width) {
    double wish = is_fixed(column) ? (dense ? column->width : 0) : need->whole;
    return fmax(0, wish - width);
}

/* Gives columns what they lack, or a fair part of it; returns what is left to share. */
static double give_lacking(const TableColumn *columns, size_t count, const ColumnNeed *needs, bool dense, double spare,
                           double *widths) {
    double lack = 0;
    for (size_t i = 0; i < count; i++) lack += lack_of(&columns[i], &needs[i], dense, widths[i]);
    double part = lack > 0 && lack > spare ? fmax(0, spare) / lack : 1;
    for (size_t i = 0; i < count; i++) widths[i] += part * lack_of(&columns[i], &needs[i], dense, widths[i]);
    return fmax(0, spare - lack);
}

void table_widths(const Table *table, const ColumnNeed *needs, double width, double *widths) {
    const TableColumn *columns = table->columns;
    size_t count = table->column_count;
    double sum = give_least(columns, count, needs, table->dense, width, widths);
    double weights = 0;
    for (size_t i = 0; i < count; i++) weights += weight_of(&columns[i]);
    if (sum > width + slack) {
        for (size_t i = 0; i < count; i++) widths[i] = fmax(least_width, widths[i] * width / sum);
        return;
    }
    double rest = give_lacking(columns, count, needs, table->dense, width - sum, widths);
    for (size_t i = 0; i < count && weights > 0; i++) widths[i] += rest * weight_of(&columns[i]) / weights;
}
