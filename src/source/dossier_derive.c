/* What the chart implies: where fields apply, and derived fields. Whole columns at a time, each field after those it
 * needs. */
#include <math.h>
#include <string.h>

#include "source/derive.h"
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

/* ---- all of it ---- */

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
            derive_field(reader->arena, profile, index, columns, truth);
    }
    derive_counted(profile, columns, truth);
}
