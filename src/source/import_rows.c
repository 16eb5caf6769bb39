/* Which rows of the table become snaps, and in which order. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "source/dossier_parts.h"
#include "source/import_parts.h"

enum { MOST_LISTED = 6 };

/* ---- selections ---- */

/* Takes out the rows for which `expr` does not hold; false when it cannot be said of some. */
static bool narrow(Import *import, const Expr *expr, bool *chosen) {
    const uint8_t *truth = import_truths(import, expr);
    bool sure = true;
    for (size_t row = 0; row < import->table->row_count; row++) {
        if (!chosen[row]) continue;
        if (truth[row] == TRUTH_UNKNOWN) import_unknown(import, expr, row);
        sure = sure && truth[row] != TRUTH_UNKNOWN;
        chosen[row] = truth[row] == TRUTH_TRUE;
    }
    return sure;
}

/* The selection of the call first: a bad row of somebody else is no matter. */
static bool narrow_all(Import *import, bool *chosen) {
    const XmlNode *rows = xml_child(import->map, "rows");
    bool good = !import->where_expr || narrow(import, import->where_expr, chosen);
    if (!rows) return good;
    const Expr *expr = import_compile(import, rows, "where", EXPR_SELECTION);
    return expr && narrow(import, expr, chosen) && good;
}

/* ---- keys ---- */

static bool read_number(Import *import, size_t row, int *number) {
    double value;
    const char *cell = table_cell(import->table, row, import->number);
    bool read = cell && table_number(cell, &value) && value == trunc(value);
    if (read && value >= 1 && value <= DOSSIER_MOST_SNAP_NUMBER) {
        *number = (int)value;
        return true;
    }
    const char *hint = arena_printf(import->arena, "it is a whole number from 1 to %d", DOSSIER_MOST_SNAP_NUMBER);
    import_bad_cell(import, row, import->number, hint, "the snap has no number that can be used");
    return false;
}

static bool read_row(Import *import, Names *games, size_t row) {
    ChosenRow *chosen = &import->rows[import->row_count];
    const char *game = table_cell(import->table, row, import->game);
    bool good = read_number(import, row, &chosen->number);
    if (!game || !import_readable(game)) {
        import_bad_cell(import, row, import->game, NULL, "the snap has no game");
        return false;
    }
    if (!good) return false;
    int found = names_find(games, game);
    chosen->game = found >= 0 ? (size_t)found : import->game_count;
    if (found < 0) (void)names_add(games, game, (int)import->game_count++);
    chosen->row = row;
    import->row_count++;
    return true;
}

static bool collect(Import *import, const bool *chosen) {
    Names *games = names_new(import->arena, 0);
    import->rows = ARENA_ARRAY(import->arena, import->table->row_count, ChosenRow);
    bool good = true;
    for (size_t row = 0; row < import->table->row_count; row++) {
        if (chosen[row]) good = read_row(import, games, row) && good;
    }
    return good;
}

/* ---- order ---- */

static int in_order(const void *left, const void *right) {
    const ChosenRow *a = left, *b = right;
    if (a->game != b->game) return a->game < b->game ? -1 : 1;
    if (a->number != b->number) return a->number < b->number ? -1 : 1;
    return (a->row > b->row) - (a->row < b->row);
}

static bool same_cells(const Table *table, size_t a, size_t b) {
    for (size_t column = 0; column < table->column_count; column++) {
        if (!text_equal(table_cell(table, a, column), table_cell(table, b, column))) return false;
    }
    return true;
}

/* Leaves out rows that stand in the table twice; false when two differ. */
static bool drop_repeats(Import *import) {
    bool good = true;
    size_t kept = 0;
    for (size_t i = 0; i < import->row_count; i++) {
        const ChosenRow *row = &import->rows[i];
        const ChosenRow *last = &import->rows[kept ? kept - 1 : 0];
        if (!kept || last->game != row->game || last->number != row->number) {
            import->rows[kept++] = *row;
        } else if (same_cells(import->table, last->row, row->row)) {
            import->repeats++;
        } else {
            good = false;
            import_bad_cell(import, row->row, import->number, NULL, "row %u has the same game and number %d",
                            (unsigned)import->table->numbers[last->row], row->number);
        }
    }
    import->row_count = kept;
    return good;
}

/* ---- whole ---- */

static bool report_several(Import *import, Place place) {
    Names *seen = names_new(import->arena, 0);
    const char *title = import->table->columns[import->one].name;
    const char *first = NULL;
    Buf list = {0};
    int count = 0;
    for (size_t i = 0; i < import->row_count; i++) {
        const char *cell = table_cell(import->table, import->rows[i].row, import->one);
        if (!cell || names_add(seen, cell, count) >= 0) continue;
        if (!first) first = cell;
        if (count < MOST_LISTED) buf_printf(&list, "%s%s", count ? ", " : "", cell);
        count++;
    }
    if (count > MOST_LISTED) buf_puts(&list, " …");
    const char *hint = count ? arena_printf(import->arena, "choose one, as --where \"@%s='%s'\"", title, first) : NULL;
    diag_report(import->diagnostics, RULE_IMPORT_MAP, place, hint, "the rows are not all of one %s: %s", title,
                count ? buf_text(&list) : "none is given");
    buf_free(&list);
    return false;
}

/* A dossier is one player's. */
static bool check_one(Import *import) {
    if (import->one == import->table->column_count) return true;
    const char *first = table_cell(import->table, import->rows[0].row, import->one);
    for (size_t i = 0; i < import->row_count; i++) {
        const char *cell = table_cell(import->table, import->rows[i].row, import->one);
        if (cell && text_equal(cell, first)) continue;
        return report_several(import, xml_value_place(xml_child(import->map, "player"), "one"));
    }
    return true;
}

static bool check_count(Import *import) {
    if (import->row_count > 0 && import->row_count <= DOSSIER_MOST_SNAPS && import->game_count <= DOSSIER_MOST_GAMES) {
        return true;
    }
    Place place = import->where ? import->where_place : xml_value_place(xml_child(import->map, "rows"), "where");
    if (import->row_count == 0) {
        diag_report(import->diagnostics, RULE_IMPORT_MAP, place, NULL, "no row of the table is chosen");
    } else {
        diag_report(import->diagnostics, RULE_IMPORT_MAP, place, "choose fewer with --where",
                    "%zu snaps of %zu games are chosen; a dossier holds %d of %d", import->row_count,
                    import->game_count, (int)DOSSIER_MOST_SNAPS, (int)DOSSIER_MOST_GAMES);
    }
    return false;
}

bool import_choose(Import *import) {
    size_t count = import->table->row_count;
    bool *chosen = ARENA_ARRAY(import->arena, count, bool);
    memset(chosen, true, count);
    if (!narrow_all(import, chosen) || !collect(import, chosen)) return false;
    if (!check_count(import)) return false;
    qsort(import->rows, import->row_count, sizeof *import->rows, in_order);
    return check_one(import) && drop_repeats(import);
}
