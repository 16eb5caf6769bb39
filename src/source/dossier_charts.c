/* Charts: rows for their snaps, the snaps, and the exceptions that a chart says it marks. */
#include <math.h>
#include <string.h>

#include "source/dossier_parts.h"

/* One block for the numbers of all fields, one for the states, one for the texts. Nothing is charted yet. */
ChartRows chart_rows_new(DossierReader *reader, Columns *columns, size_t rows) {
    size_t fields = reader->profile->field_count;
    ChartRows made = {.columns = columns};
    double *numbers = ARENA_ARRAY(reader->arena, rows * fields, double);
    uint8_t *states = ARENA_ARRAY(reader->arena, rows * fields, uint8_t);
    const char **texts = ARENA_ARRAY(reader->arena, rows * fields, const char *);
    memset(states, VALUE_UNKNOWN, rows * fields);
    columns->rows = rows;
    columns->count = fields;
    columns->columns = ARENA_ARRAY(reader->arena, fields, Column);
    for (size_t i = 0; i < fields; i++) columns->columns[i] = (Column){numbers + i * rows, states + i * rows};
    columns->counted = ARENA_ARRAY(reader->arena, rows, uint8_t);
    columns->game = ARENA_ARRAY(reader->arena, rows, uint16_t);
    made.snaps = ARENA_ARRAY(reader->arena, rows, Snap);
    for (size_t row = 0; row < rows; row++) made.snaps[row].texts = texts + row * fields;
    made.nodes = ARENA_ARRAY(reader->arena, rows, const XmlNode *);
    made.names = names_new(reader->arena, rows);
    return made;
}

/* ---- snaps ---- */

static int read_snap_number(DossierReader *reader, const XmlNode *node) {
    double number = attr_number(node, "n", 0, reader->diagnostics);
    if (number >= 1 && number <= DOSSIER_MOST_SNAP_NUMBER && number == floor(number)) return (int)number;
    if (dossier_may_report(reader)) {
        diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(node, "n"), NULL,
                    "a snap's number is a whole one from 1 to %d", DOSSIER_MOST_SNAP_NUMBER);
    }
    return 0;
}

static void name_snap(DossierReader *reader, ChartRows *rows, const XmlNode *node, size_t row) {
    Snap *snap = &rows->snaps[row];
    snap->name = arena_printf(reader->arena, "%s.%d", reader->dossier->games[snap->game].id, snap->number);
    int first = names_add(rows->names, snap->name, (int)row);
    if (first < 0 || snap->number == 0) return;
    bool same_game = rows->snaps[first].game == snap->game; /* else the game's own id is the trouble, and told */
    if (!same_game || !dossier_may_report(reader)) return;
    diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, "n"), NULL, "snap %s stands twice",
                snap->name);
    diag_also(reader->diagnostics, rows->snaps[first].place, "it first stands here");
}

static void read_snap(DossierReader *reader, ChartRows *rows, const XmlNode *node, int game) {
    size_t row = rows->count++;
    Snap *snap = &rows->snaps[row];
    snap->game = game;
    snap->place = node->place;
    snap->number = read_snap_number(reader, node);
    rows->columns->game[row] = (uint16_t)game;
    rows->nodes[row] = node;
    name_snap(reader, rows, node, row);
    dossier_read_snap(reader, rows, node, row);
}

/* ---- exceptions ---- */

/* In a chart that says that it marks them, a blank exception is the field's first value: it did not happen. */
static void fill_exception(DossierReader *reader, ChartRows *rows, size_t first, int index) {
    const Field *field = &reader->profile->fields[index];
    Column *column = &rows->columns->columns[index];
    for (size_t row = first; row < rows->count; row++) {
        if (rows->snaps[row].texts[index]) continue;
        column->number[row] = field->values[0].word;
        column->state[row] = VALUE_KNOWN;
    }
}

static const char *exception_hint(DossierReader *reader, const char *word) {
    const Profile *profile = reader->profile;
    const char **ids = ARENA_ARRAY(reader->arena, profile->field_count, const char *);
    size_t count = 0;
    for (size_t i = 0; i < profile->field_count; i++) {
        if (profile->fields[i].exception) ids[count++] = profile->fields[i].id;
    }
    return names_hint(reader->arena, word, ids, count, sizeof *ids);
}

static void read_marks(DossierReader *reader, const XmlNode *chart, ChartRows *rows, size_t first) {
    List list = list_open(reader->arena, chart, "marks");
    ListWord word;
    while (list_next(&list, &word)) {
        int index = profile_field(reader->profile, word.id);
        if (index >= 0 && reader->profile->fields[index].exception) {
            fill_exception(reader, rows, first, index);
        } else if (dossier_may_report(reader)) {
            diag_report(reader->diagnostics, RULE_REFERENCE, word.place, exception_hint(reader, word.id),
                        index < 0 ? "the profile has no field '%s'"
                                  : "'%s' is not a field that is marked when it happens",
                        word.id);
        }
    }
}

size_t chart_read(DossierReader *reader, const XmlNode *chart, int game, ChartRows *rows) {
    size_t first = rows->count;
    for (const XmlNode *node = xml_child(chart, "snap"); node; node = xml_next(node, "snap")) {
        read_snap(reader, rows, node, game);
    }
    read_marks(reader, chart, rows, first);
    return rows->count - first;
}
