#include <math.h>
#include <stdbool.h>

#include "typeset/table.h"

static const double least_width = 1;

static bool is_fixed(const TableColumn *column) {
    return column->width > 0;
}

static double weight_of(const TableColumn *column) {
    return column->width < 0 ? -column->width : 1;
}

/* A column whose width is not settled has width 0. Returns what a unit of weight gets of the room that is left. */
static double unit_share(const TableColumn *columns, size_t count, double room, const double *widths) {
    double weights = 0;
    for (size_t i = 0; i < count; i++) {
        room -= widths[i];
        if (widths[i] <= 0) weights += weight_of(&columns[i]);
    }
    return weights > 0 ? fmax(0, room) / weights : 0;
}

/* Columns without a width of their own share the room by weight. One whose share is less than it needs gets what it
 * needs, and the others share the rest. */
static void share(const TableColumn *columns, size_t count, const double *needs, double room, double *widths) {
    bool settled;
    double unit;
    for (size_t i = 0; i < count; i++) {
        if (!is_fixed(&columns[i])) widths[i] = 0;
    }
    do {
        settled = true;
        unit = unit_share(columns, count, room, widths);
        for (size_t i = 0; i < count; i++) {
            if (widths[i] > 0 || unit * weight_of(&columns[i]) >= needs[i]) continue;
            widths[i] = fmax(needs[i], least_width);
            settled = false;
        }
    } while (!settled);
    for (size_t i = 0; i < count; i++) {
        if (widths[i] <= 0) widths[i] = fmax(least_width, unit * weight_of(&columns[i]));
    }
}

/* Fixed columns get what they ask for, or what they need when `generous`; the others what they need. Returns the total.
 */
static double ask(const TableColumn *columns, size_t count, const double *needs, bool generous, double *widths) {
    double total = 0;
    for (size_t i = 0; i < count; i++) {
        widths[i] = needs[i];
        if (is_fixed(&columns[i])) widths[i] = generous ? fmax(columns[i].width, needs[i]) : columns[i].width;
        total += widths[i];
    }
    return total;
}

void table_widths(const TableColumn *columns, size_t count, const double *needs, double width, double *widths) {
    double asked = ask(columns, count, needs, true, widths);
    if (asked > width) asked = ask(columns, count, needs, false, widths);
    if (asked <= width) {
        share(columns, count, needs, width, widths);
        return;
    }
    for (size_t i = 0; i < count; i++) widths[i] = fmax(least_width, widths[i] * width / asked);
}
