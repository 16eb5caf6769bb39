/* How a table becomes a dossier: shared by the import*.c files only. */
#ifndef TB_SOURCE_IMPORT_PARTS_H
#define TB_SOURCE_IMPORT_PARTS_H

#include "base/buf.h"
#include "source/dossier.h"
#include "source/names.h"
#include "source/table.h"
#include "source/xml.h"

/* What is written for a field where a condition holds. */
typedef enum CaseKind { CASE_NOTHING, CASE_TEXT, CASE_COLUMN, CASE_CALC } CaseKind;

typedef struct MapCase {
    const Expr *test;     /* NULL: always */
    const uint8_t *truth; /* of `test`, by row */
    CaseKind kind;
    const char *text;     /* CASE_TEXT */
    size_t column;        /* CASE_COLUMN */
    const Expr *calc;     /* CASE_CALC */
    const double *number; /* of `calc`, by row */
    const uint8_t *state;
} MapCase;

/* A value of the table and what becomes of it. */
typedef struct MapWord {
    const char *from;
    const char *to; /* NULL: not charted */
} MapWord;

/* What goes to one field: the first case that holds. */
typedef struct MapTarget {
    int field;
    bool to_goal; /* the table has yards to the goal, the field is a spot */
    MapCase *cases;
    size_t case_count;
    MapWord *words; /* none: values are taken as they are */
    size_t word_count;
} MapTarget;

/* A chosen row, in the order of the dossier. */
typedef struct ChosenRow {
    size_t game; /* in order of appearance */
    int number;
    size_t row;
} ChosenRow;

typedef struct Import {
    Arena *arena;
    Diagnostics *diagnostics;
    const XmlNode *map;
    const Profile *profile;
    Table *table;
    Place where_place; /* of the selection given in the call */
    const char *where;
    const Expr *where_expr;  /* NULL: none was given */
    Profile columns_profile; /* the table's columns as fields */
    size_t *value_counts;    /* by column: its words and those that only the map names */
    Columns columns;         /* VALUE_UNKNOWN: a cell that cannot be read */
    MapTarget *targets;      /* in order of the profile's fields */
    size_t target_count;
    size_t one, game, number; /* columns; `one` is column_count without one */
    ChosenRow *rows;
    size_t row_count, game_count;
    Names *game_ids; /* rows by id */
    size_t repeats;  /* rows left out because they stand in the table twice */
} Import;

/* ---- the passes, in order; false after reports ---- */
bool import_read_columns(Import *import);    /* import_columns.c; the selection of the call included */
bool import_read_map(Import *import);        /* import_map.c */
bool import_choose(Import *import);          /* import_rows.c */
bool import_write(Import *import, Buf *xml); /* import_write.c */

/* ---- helpers ---- */

/* Text that XML can hold. */
bool import_readable(const char *text);

/* Reports a cell. */
void import_bad_cell(Import *import, size_t row, size_t column, const char *hint, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* Reports the cell that leaves `expr` unknown in this row. */
void import_unknown(Import *import, const Expr *expr, size_t row);

/* Index of the column that an attribute names; -1 after a report. */
int import_column(Import *import, const XmlNode *node, const char *attribute);

/* Compiles an attribute over the table's columns; NULL after a report. */
const Expr *import_compile(Import *import, const XmlNode *node, const char *attribute, ExprKind kind);

/* Truth by row. */
const uint8_t *import_truths(Import *import, const Expr *expr);

/* What a row says for a target, as it is charted; NULL: nothing. False after a report (import_values.c). */
bool import_value(Import *import, const MapTarget *target, size_t row, Buf *value, bool *charted);

#endif
