/* A row's value for a field: the first case that holds, put into the words of the chart and held against the profile.
 */
#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "base/text.h"
#include "source/dossier_parts.h"
#include "source/import_parts.h"

enum { MIDFIELD = 50, FIELD_YARDS = 100, MINUTE = 60, MOST_PLACES = 6 };

static const char unreadable[] = "bytes that are not UTF-8 text";
static const char unreadable_hint[] = "save the table as UTF-8";

/* ---- reports ---- */

void import_bad_cell(Import *import, size_t row, size_t column, const char *hint, const char *format, ...) {
    Table *table = import->table;
    if (!table_may_report(table)) return;
    va_list args;
    va_start(args, format);
    const char *message = arena_vprintf(import->arena, format, args);
    va_end(args);
    diag_report(import->diagnostics, RULE_IMPORT_ROW, table_place(table, row, column), hint, "row %u, %s: %s",
                (unsigned)table->numbers[row], table->columns[column].name, message);
}

void import_unknown(Import *import, const Expr *expr, size_t row) {
    for (size_t column = 0; column < import->columns.count; column++) {
        if (!expr_uses_field(expr, (int)column)) continue;
        if (import->columns.columns[column].state[row] != VALUE_UNKNOWN) continue;
        const Field *field = &import->columns_profile.fields[column];
        const char *text = table_cell(import->table, row, column);
        bool number = field->type == FIELD_NUMBER;
        const char *hint = number ? "the map says that this column holds numbers"
                                  : NAMES_HINT(import->arena, text, field->values, field->value_count);
        if (!import_readable(text)) {
            import_bad_cell(import, row, column, unreadable_hint, "%s", unreadable);
        } else {
            import_bad_cell(import, row, column, hint, number ? "'%s' is not a number" : "'%s' cannot be used", text);
        }
        return;
    }
}

/* ---- into the words of the chart ---- */

/* Binary noise such as 4.530000000000001 is rounded to the step of the field. */
static void put_number(const Field *field, double number, Buf *value) {
    int places = 0;
    double step = field->step > 0 ? field->step : 1e-6;
    while (places < MOST_PLACES && fabs(step - round(step)) > 1e-9) {
        step *= 10;
        places++;
    }
    double noise = fabs(number * pow(10, places) - round(number * pow(10, places)));
    buf_number(value, number, noise < 1e-3 ? places : MOST_PLACES);
}

static void put_spot(double to_goal, Buf *value) {
    int yards = (int)to_goal;
    if (yards == MIDFIELD) {
        BUF_PUT(value, "50");
    } else {
        buf_printf(value, yards < MIDFIELD ? "+%d" : "-%d", yards < MIDFIELD ? yards : FIELD_YARDS - yards);
    }
}

static bool is_whole(double number, double low, double high) {
    return number == trunc(number) && number >= low && number <= high;
}

/* The form that the chart wants where a table has another; false: the text is taken as it is. */
static bool put_converted(const MapTarget *target, const Field *field, const char *text, Buf *value) {
    double number;
    if (!table_number(text, &number)) return false;
    switch (field->type) {
    case FIELD_NUMBER:
        put_number(field, number, value);
        return true;
    case FIELD_DISTANCE:
        buf_number(value, number, MOST_PLACES);
        return true;
    case FIELD_YESNO:
        if (!is_whole(number, 0, 1)) return false;
        buf_puts(value, number == 1 ? "yes" : "no");
        return true;
    case FIELD_SPOT:
        if (!target->to_goal || !is_whole(number, 1, FIELD_YARDS - 1)) return false;
        put_spot(number, value);
        return true;
    default:
        return false;
    }
}

/* 08:38 is charted as 8:38. */
static const char *without_leading_zero(const Field *field, const char *text) {
    bool zero = field->type == FIELD_CLOCK && text[0] == '0' && text[1] >= '0' && text[1] <= '9';
    return zero ? text + 1 : text;
}

static void put_text(const MapTarget *target, const Field *field, const char *text, Buf *value) {
    if (!put_converted(target, field, text, value)) buf_puts(value, without_leading_zero(field, text));
}

/* ---- cases ---- */

/* The case that holds, or NULL with `sure` false after a report. */
static const MapCase *case_of(Import *import, const MapTarget *target, size_t row, bool *sure) {
    for (size_t i = 0; i < target->case_count; i++) {
        const MapCase *one = &target->cases[i];
        if (!one->test || one->truth[row] == TRUTH_TRUE) return one;
        if (one->truth[row] == TRUTH_FALSE) continue;
        import_unknown(import, one->test, row);
        *sure = false;
        return NULL;
    }
    return NULL;
}

static const MapWord *word_of(const MapTarget *target, const char *text) {
    for (size_t i = 0; i < target->word_count; i++) {
        if (text_equal(target->words[i].from, text)) return &target->words[i];
    }
    return NULL;
}

static bool check_value(Import *import, const MapTarget *target, size_t row, size_t column, const char *text,
                        const char *cell) {
    const Field *field = &import->profile->fields[target->field];
    double number;
    if (!import_readable(cell)) {
        import_bad_cell(import, row, column, unreadable_hint, "%s", unreadable);
        return false;
    }
    if (charted_read(import->profile, field, text, &number) == VALUE_FINE) return true;
    const char *hint =
        target->to_goal ? "it is yards to the goal line, 1 to 99" : charted_hint(import->arena, field, text);
    import_bad_cell(import, row, column, hint, "'%s' cannot be '%s'", field->id, cell);
    return false;
}

static bool copy_column(Import *import, const MapTarget *target, size_t row, size_t column, Buf *value, bool *charted) {
    const Field *field = &import->profile->fields[target->field];
    const char *cell = table_cell(import->table, row, column);
    if (!cell) return true;
    const char *text = cell;
    if (target->word_count) {
        const MapWord *word = word_of(target, cell);
        if (!word) {
            const char *hint = NAMES_HINT(import->arena, cell, target->words, target->word_count);
            import_bad_cell(import, row, column, hint, "the map has no value '%s' for '%s'", cell, field->id);
            return false;
        }
        if (!word->to) return true;
        text = word->to;
    }
    *charted = true;
    put_text(target, field, text, value);
    return check_value(import, target, row, column, buf_text(value), cell);
}

static bool put_calc(Import *import, const MapTarget *target, const MapCase *one, size_t row, Buf *value,
                     bool *charted) {
    const Field *field = &import->profile->fields[target->field];
    if (one->state[row] == VALUE_UNKNOWN) import_unknown(import, one->calc, row);
    if (one->state[row] != VALUE_KNOWN) return one->state[row] != VALUE_UNKNOWN;
    Buf text = {0};
    buf_number(&text, one->number[row], MOST_PLACES);
    *charted = true;
    put_text(target, field, buf_text(&text), value);
    size_t column = 0;
    while (column + 1 < import->columns.count && !expr_uses_field(one->calc, (int)column)) column++;
    bool good = check_value(import, target, row, column, buf_text(value), buf_text(&text));
    buf_free(&text);
    return good;
}

bool import_value(Import *import, const MapTarget *target, size_t row, Buf *value, bool *charted) {
    bool sure = true;
    value->length = 0;
    *charted = false;
    const MapCase *one = case_of(import, target, row, &sure);
    if (!one || one->kind == CASE_NOTHING) return sure;
    if (one->kind == CASE_COLUMN) return copy_column(import, target, row, one->column, value, charted);
    if (one->kind == CASE_CALC) return put_calc(import, target, one, row, value, charted);
    *charted = true;
    put_text(target, &import->profile->fields[target->field], one->text, value);
    return true;
}
