/* Widths of a table's columns. Points. */
#ifndef TB_TYPESET_TABLE_H
#define TB_TYPESET_TABLE_H

#include <stddef.h>

#include "story/story.h"

/* What a column's words take, with the gutter at its right. */
typedef struct ColumnNeed {
    double least; /* its longest word */
    double head;  /* its head in one line, or the longest word of a long one */
    double piece; /* the longest piece of a word of its head, hyphens allowed */
    double whole; /* its widest cell in one line */
} ColumnNeed;

/* Stores the width of every column, gutters included: what it asks for, but not less than its words take while the
 * table as a whole has room. Columns without a width of their own share the rest: first so that no cell needs a second
 * line, then by weight. In a dense table no cell needs a second line before any column gets more than its words take.
 */
void table_widths(const Table *table, const ColumnNeed *needs, double width, double *widths);

#endif
