/* Widths of a table's columns. Points. */
#ifndef TB_TYPESET_TABLE_H
#define TB_TYPESET_TABLE_H

#include <stddef.h>

#include "story/story.h"

/* Stores the width of every column: what it asks for, but not less than its longest word while the table as a whole has
 * room. `needs` holds the widths of the longest words; all widths include the gutter at a column's right. */
void table_widths(const TableColumn *columns, size_t count, const double *needs, double width, double *widths);

#endif
