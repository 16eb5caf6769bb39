/* Tables: CSV files as open feeds really write them, read through libcsv. A byte-order mark, CRLF, a missing last
 * newline, quoted fields, doubled quotes, line breaks inside quotes and an unnamed first column are all read; words for
 * "missing" become no cell at all. Every cell remembers where it stands in the file. */
#ifndef TB_SOURCE_TABLE_H
#define TB_SOURCE_TABLE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/diag.h"

/* Bounds that no real table comes near; each is reported when hit. */
enum {
    TABLE_MOST_FIELD = 64 * 1024, /* bytes of one field as written */
    TABLE_MOST_COLUMNS = 1000,
    TABLE_MOST_ROWS = 2000000,
    TABLE_MOST_PROBLEMS = 50 /* reported for one table; the rest are counted */
};

typedef struct TableFormat {
    char delimiter;      /* ',' or '\t' or what the table has */
    bool header;         /* the first row names the columns */
    const char *missing; /* words that stand for nothing, separated by spaces; an empty or blank field always does */
} TableFormat;

typedef struct TableColumn {
    const char *title; /* as written; "" without one */
    const char *name; /* as an expression calls it: other characters than A-Z a-z 0-9 _ . - become _, a column without a
                       * title is "column-3", a second "x" is "x_2" */
} TableColumn;

typedef struct TableCell {
    uint32_t at;   /* offset of the field in the file */
    uint32_t text; /* offset in `contents`; 0: missing */
} TableCell;

typedef struct Table {
    const Text *text;
    TableColumn *columns;
    size_t column_count;
    size_t row_count; /* without the header */
    TableCell *cells; /* by row and column */
    char *contents;
    uint32_t *numbers;       /* by row: its number as people count, the header being row 1 */
    size_t repeated_headers; /* rows left out because they are the header again */
    size_t problems;         /* reported through table_may_report, or counted by it */
} Table;

/* NULL after reports. The file's text lives in `arena`; the cells until table_free. */
Table *table_read(Arena *arena, const char *path, const TableFormat *format, Diagnostics *diagnostics)
    __attribute__((warn_unused_result));
void table_free(Table *table);

/* Index of a column by title or name, -1 when there is none. */
int table_column(const Table *table, const char *title);

/* NULL: missing. */
const char *table_cell(const Table *table, size_t row, size_t column);
Place table_place(const Table *table, size_t row, size_t column);

/* A number as tables write them: decimals, exponents, TRUE and FALSE (1 and 0). */
bool table_number(const char *text, double *number);

/* Counts a problem; false when the table has had its share of reports. */
bool table_may_report(Table *table);

/* Says how many problems were counted but not reported. */
void table_report_rest(Table *table, Diagnostics *diagnostics);

#endif
