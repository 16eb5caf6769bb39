/* What the chart implies: where fields apply, and derived fields. Whole columns at a time, each field after those it
 * needs. */
#include <math.h>
#include <string.h>

#include "source/dossier_parts.h"

typedef struct Deriver {
    DossierReader *reader;
    const Profile *profile;
    ChartRows *rows;
    const Stretch *stretches;
    size_t stretch_count;
    Columns *columns;
    uint8_t *truth; /* Truth of each row: scratch */
} Deriver;

/* ---- charted fields ---- */

/* Snaps of one chart that are to be named in one message. */
typedef struct Found {
    size_t count;
    size_t first; /* row */
} Found;

static void found_add(Found *found, size_t row) {
    if (found->count++ == 0) found->first = row;
}

static const char *where_hint(Deriver *deriver, const Field *field) {
    return field->when_source ? arena_printf(deriver->reader->arena, "it applies where %s", field->when_source) : NULL;
}

static void report_missing(Deriver *deriver, const Field *field, const Stretch *stretch, Found found) {
    if (found.count == 0 || !dossier_may_report(deriver->reader)) return;
    const Snap *first = &deriver->rows->snaps[found.first];
    Diagnostics *diagnostics = deriver->reader->diagnostics;
    const char *hint = where_hint(deriver, field);
    if (found.count == 1) {
        diag_report(diagnostics, RULE_FIELD_MISSING, first->place, hint, "'%s' is not charted on %s", field->id,
                    first->name);
    } else {
        diag_report(diagnostics, RULE_FIELD_MISSING, first->place, hint,
                    "'%s' is not charted on %zu snaps of %s, first %s", field->id, found.count, stretch->label,
                    first->name);
    }
}

static void report_idle(Deriver *deriver, const Field *field, const Stretch *stretch, Found found) {
    if (found.count == 0 || !dossier_may_report(deriver->reader)) return;
    const Snap *first = &deriver->rows->snaps[found.first];
    Diagnostics *diagnostics = deriver->reader->diagnostics;
    Place place = xml_name_place(deriver->rows->nodes[found.first], field->id);
    const char *hint = where_hint(deriver, field);
    if (found.count == 1) {
        diag_report(diagnostics, RULE_FIELD_NOT_APPLICABLE, place, hint,
                    "'%s' is charted on %s, where it does not apply", field->id, first->name);
    } else {
        diag_report(diagnostics, RULE_FIELD_NOT_APPLICABLE, place, hint,
                    "'%s' is charted on %zu snaps of %s where it does not apply, first %s", field->id, found.count,
                    stretch->label, first->name);
    }
}

static bool excused(const DossierReader *reader, size_t row, int field) {
    for (size_t i = 0; i < reader->excuse_count; i++) {
        if (reader->excuses[i].row == row && reader->excuses[i].field == field) return true;
    }
    return false;
}

/* Settles one chart's rows of a charted field: `truth` says where the field applies. A blank where that is unknown is
 * unknown; a value charted there stands. */
static void settle_stretch(Deriver *deriver, int index, const Stretch *stretch) {
    const Field *field = &deriver->profile->fields[index];
    const Snap *snaps = deriver->rows->snaps;
    bool asked = field->required && !deriver->rows->second;
    uint8_t *state = deriver->columns->columns[index].state;
    Found missing = {0}, idle = {0};
    for (size_t row = stretch->first_row; row < stretch->first_row + stretch->row_count; row++) {
        bool blank = !snaps[row].texts[index];
        if (deriver->truth[row] == TRUTH_FALSE) {
            if (!blank && state[row] == VALUE_KNOWN) found_add(&idle, row);
            state[row] = VALUE_NOT_APPLICABLE;
        } else if (blank && deriver->truth[row] == TRUTH_UNKNOWN) {
            state[row] = VALUE_UNKNOWN;
        } else if (blank && state[row] == VALUE_UNKNOWN && asked && !excused(deriver->reader, row, index)) {
            found_add(&missing, row);
        }
    }
    report_missing(deriver, field, stretch, missing);
    report_idle(deriver, field, stretch, idle);
}

/* "goal" is the yards left. */
static void settle_goal(Deriver *deriver, int index) {
    const Field *field = &deriver->profile->fields[index];
    Column *column = &deriver->columns->columns[index];
    const Column *spot = field->from >= 0 ? &deriver->columns->columns[field->from] : NULL;
    for (size_t row = 0; row < deriver->columns->rows; row++) {
        if (!isnan(column->number[row])) continue;
        bool known = spot && spot->state[row] == VALUE_KNOWN;
        column->number[row] = known ? spot->number[row] : 0;
        if (!known && column->state[row] == VALUE_KNOWN) column->state[row] = VALUE_UNKNOWN;
    }
}

static void settle_charted(Deriver *deriver, int index) {
    const Field *field = &deriver->profile->fields[index];
    size_t rows = deriver->columns->rows;
    if (field->when)
        expr_select(field->when, deriver->columns, 0, rows, deriver->truth);
    else
        memset(deriver->truth, TRUTH_TRUE, rows);
    for (size_t i = 0; i < deriver->stretch_count; i++) settle_stretch(deriver, index, &deriver->stretches[i]);
    if (field->type == FIELD_DISTANCE) settle_goal(deriver, index);
}

/* ---- derived fields ---- */

static void derive_test(Deriver *deriver, const Field *field, Column *column) {
    expr_select(field->expr, deriver->columns, 0, deriver->columns->rows, deriver->truth);
    for (size_t row = 0; row < deriver->columns->rows; row++) {
        column->number[row] = deriver->truth[row] == TRUTH_TRUE ? deriver->profile->yes : deriver->profile->no;
        column->state[row] = deriver->truth[row] == TRUTH_UNKNOWN ? VALUE_UNKNOWN : VALUE_KNOWN;
    }
}

/* Words of the field read to words of this one; -1 where a word belongs to none. */
static const int *word_map(Deriver *deriver, const Field *field) {
    const Profile *profile = deriver->profile;
    const Field *from = &profile->fields[field->from];
    int *words = ARENA_ARRAY(deriver->reader->arena, profile->word_count, int);
    for (size_t i = 0; i < profile->word_count; i++) words[i] = -1;
    for (size_t i = 0; i < from->value_count; i++) {
        if (field->map[i] >= 0) words[from->values[i].word] = field->values[field->map[i]].word;
    }
    return words;
}

static void derive_map(Deriver *deriver, const Field *field, Column *column) {
    const Column *from = &deriver->columns->columns[field->from];
    const int *words = word_map(deriver, field);
    for (size_t row = 0; row < deriver->columns->rows; row++) {
        column->state[row] = from->state[row];
        if (from->state[row] != VALUE_KNOWN) continue;
        int word = words[(int)from->number[row]];
        column->number[row] = word;
        if (word < 0) column->state[row] = VALUE_UNKNOWN;
    }
}

static void derive_band(Deriver *deriver, const Field *field, Column *column) {
    const Column *from = &deriver->columns->columns[field->from];
    for (size_t row = 0; row < deriver->columns->rows; row++) {
        column->state[row] = from->state[row];
        if (from->state[row] != VALUE_KNOWN) continue;
        column->state[row] = VALUE_UNKNOWN;
        for (size_t i = 0; i < field->value_count; i++) {
            double number = from->number[row];
            if (number < field->bands[i].low || number > field->bands[i].high) continue;
            column->number[row] = field->values[i].word;
            column->state[row] = VALUE_KNOWN;
        }
    }
}

static void derive_calc(Deriver *deriver, const Field *field, Column *column) {
    expr_values(field->expr, deriver->columns, 0, deriver->columns->rows, column->number, column->state);
}

static void derive_read(Deriver *deriver, const Field *field, Column *column) {
    const Column *from = &deriver->columns->columns[field->from];
    memcpy(column->number, from->number, deriver->columns->rows * sizeof *column->number);
    memcpy(column->state, from->state, deriver->columns->rows * sizeof *column->state);
}

static void (*const derivations[])(Deriver *deriver, const Field *field, Column *column) = {
    [DERIVED_TEST] = derive_test, [DERIVED_MAP] = derive_map,   [DERIVED_BAND] = derive_band,
    [DERIVED_CALC] = derive_calc, [DERIVED_READ] = derive_read,
};

/* ---- all of it ---- */

static void derive_counted(Deriver *deriver) {
    Columns *columns = deriver->columns;
    if (deriver->profile->counted) {
        expr_select(deriver->profile->counted, columns, 0, columns->rows, deriver->truth);
    } else {
        memset(deriver->truth, TRUTH_TRUE, columns->rows);
    }
    for (size_t row = 0; row < columns->rows; row++) columns->counted[row] = deriver->truth[row] != TRUTH_FALSE;
}

void dossier_derive(DossierReader *reader, ChartRows *rows, const Stretch *stretches, size_t count) {
    const Profile *profile = reader->profile;
    Columns *columns = rows->columns;
    if (columns->rows == 0) return;
    uint8_t *truth = ARENA_ARRAY(reader->arena, columns->rows, uint8_t);
    Deriver deriver = {reader, profile, rows, stretches, count, columns, truth};
    for (size_t i = 0; i < profile->field_count; i++) {
        int index = profile->order[i];
        const Field *field = &profile->fields[index];
        if (field->derived == DERIVED_NONE)
            settle_charted(&deriver, index);
        else
            derivations[field->derived](&deriver, field, &columns->columns[index]);
    }
    derive_counted(&deriver);
}
