/* Games and their charts: rows, names and official box scores. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "source/dossier_parts.h"

static const XmlNode *chart_of(const XmlNode *game) {
    return xml_child(game, "chart");
}

static size_t count_snaps(const XmlNode *root) {
    size_t count = 0;
    for (const XmlNode *game = xml_child(root, "game"); game; game = xml_next(game, "game")) {
        const XmlNode *chart = chart_of(game);
        if (chart) count += attr_children(chart, "snap");
    }
    return count;
}

static bool within_bounds(DossierReader *reader, const XmlNode *root, size_t games, size_t snaps) {
    if (games <= DOSSIER_MOST_GAMES && snaps <= DOSSIER_MOST_SNAPS) return true;
    diag_report(reader->diagnostics, RULE_XML_LIMIT, root->place, NULL,
                "a dossier has at most %d games and %d snaps; this has %zu and %zu", DOSSIER_MOST_GAMES,
                DOSSIER_MOST_SNAPS, games, snaps);
    return false;
}

/* One block for the numbers of all fields, one for the states, one for the texts. Nothing is charted yet. */
static void make_columns(DossierReader *reader, size_t rows) {
    Dossier *dossier = reader->dossier;
    size_t fields = reader->profile->field_count;
    Columns *columns = &dossier->columns;
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
    dossier->snaps = ARENA_ARRAY(reader->arena, rows, Snap);
    for (size_t row = 0; row < rows; row++) dossier->snaps[row].texts = texts + row * fields;
    reader->snap_nodes = ARENA_ARRAY(reader->arena, rows, const XmlNode *);
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

static void name_snap(DossierReader *reader, const XmlNode *node, size_t row, const char *game) {
    Dossier *dossier = reader->dossier;
    Snap *snap = &dossier->snaps[row];
    snap->name = arena_printf(reader->arena, "%s.%d", game, snap->number);
    int first = names_add(reader->snaps, snap->name, (int)row);
    if (first < 0 || snap->number == 0) return;
    bool same_game = dossier->snaps[first].game == snap->game; /* else the game's own id is the trouble, and told */
    if (!same_game || !dossier_may_report(reader)) return;
    diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, "n"), NULL, "snap %s stands twice",
                snap->name);
    diag_also(reader->diagnostics, dossier->snaps[first].place, "it first stands here");
}

static void read_snaps(DossierReader *reader, const XmlNode *chart, int game_index) {
    Dossier *dossier = reader->dossier;
    Game *game = &dossier->games[game_index];
    game->first_row = dossier->snap_count;
    for (const XmlNode *node = xml_child(chart, "snap"); node; node = xml_next(node, "snap")) {
        size_t row = dossier->snap_count++;
        Snap *snap = &dossier->snaps[row];
        snap->game = game_index;
        snap->place = node->place;
        snap->number = read_snap_number(reader, node);
        dossier->columns.game[row] = (uint16_t)game_index;
        reader->snap_nodes[row] = node;
        name_snap(reader, node, row, game->id);
        dossier_read_snap(reader, node, row);
    }
    game->row_count = dossier->snap_count - game->first_row;
}

/* ---- exceptions ---- */

/* In a chart that says that it marks them, a blank exception is the field's first value: it did not happen. */
static void fill_exception(DossierReader *reader, const Game *game, int index) {
    const Field *field = &reader->profile->fields[index];
    Column *column = &reader->dossier->columns.columns[index];
    for (size_t row = game->first_row; row < game->first_row + game->row_count; row++) {
        if (reader->dossier->snaps[row].texts[index]) continue;
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

static void read_marks(DossierReader *reader, const XmlNode *chart, const Game *game) {
    List list = list_open(reader->arena, chart, "marks");
    ListWord word;
    while (list_next(&list, &word)) {
        int index = profile_field(reader->profile, word.id);
        if (index >= 0 && reader->profile->fields[index].exception) {
            fill_exception(reader, game, index);
        } else if (dossier_may_report(reader)) {
            diag_report(reader->diagnostics, RULE_REFERENCE, word.place, exception_hint(reader, word.id),
                        index < 0 ? "the profile has no field '%s'"
                                  : "'%s' is not a field that is marked when it happens",
                        word.id);
        }
    }
}

/* ---- the official box score ---- */

static const char *official_hint(DossierReader *reader, const char *word) {
    const Profile *profile = reader->profile;
    const char **ids = ARENA_ARRAY(reader->arena, profile->total_count, const char *);
    size_t count = 0;
    for (size_t i = 0; i < profile->total_count; i++) {
        if (profile->totals[i].official) ids[count++] = profile->totals[i].id;
    }
    return names_hint(reader->arena, word, ids, count, sizeof *ids);
}

static void read_official_total(DossierReader *reader, const XmlNode *node, const XmlAttribute *attribute, Game *game) {
    int total = profile_total(reader->profile, attribute->name);
    if (total < 0 || !reader->profile->totals[total].official) {
        if (!dossier_may_report(reader)) return;
        diag_report(reader->diagnostics, RULE_REFERENCE, xml_name_place(node, attribute->name),
                    official_hint(reader, attribute->name), "the profile has no official total '%s'", attribute->name);
        return;
    }
    game->official[total] = attr_number(node, attribute->name, NAN, reader->diagnostics);
}

static void read_official(DossierReader *reader, const XmlNode *parent, Game *game) {
    const XmlNode *node = xml_child(parent, "official");
    if (!node) return;
    size_t totals = reader->profile->total_count;
    game->official = ARENA_ARRAY(reader->arena, totals, double);
    game->official_place = node->place;
    for (size_t i = 0; i < totals; i++) game->official[i] = NAN;
    for (size_t i = 0; i < node->attribute_count; i++) {
        read_official_total(reader, node, &node->attributes[i], game);
    }
}

/* ---- games ---- */

static void read_chart(DossierReader *reader, const XmlNode *chart, int index) {
    Game *game = &reader->dossier->games[index];
    game->by = xml_value(chart, "by");
    game->media = xml_value(chart, "media");
    game->marks = xml_value(chart, "marks");
    dossier_refer_evaluator(reader, chart, "by");
    dossier_refer_media(reader, chart, "media");
    read_snaps(reader, chart, index);
    read_marks(reader, chart, game);
}

static void read_game(DossierReader *reader, const XmlNode *node, Names *names) {
    Dossier *dossier = reader->dossier;
    int index = (int)dossier->game_count++;
    Game *game = &dossier->games[index];
    game->id = attr_text(node, "id", "");
    game->on = attr_text(node, "on", "");
    game->opponent = attr_text(node, "opponent", "");
    game->site = attr_text(node, "site", "");
    game->result = xml_value(node, "result");
    game->place = node->place;
    game->first_row = dossier->snap_count;
    int first = names_add(names, game->id, index);
    if (first >= 0) dossier_report_twice(reader, node, "id", "game", dossier->games[first].place);
    read_official(reader, node, game);
    const XmlNode *chart = chart_of(node);
    if (chart) read_chart(reader, chart, index);
}

bool dossier_read_games(DossierReader *reader, const XmlNode *root) {
    Dossier *dossier = reader->dossier;
    size_t games = attr_children(root, "game");
    size_t snaps = count_snaps(root);
    if (!within_bounds(reader, root, games, snaps)) return false;
    make_columns(reader, snaps);
    dossier->games = ARENA_ARRAY(reader->arena, games, Game);
    reader->snaps = names_new(reader->arena, snaps);
    dossier->snap_names = reader->snaps;
    Names *names = names_new(reader->arena, games);
    for (const XmlNode *node = xml_child(root, "game"); node; node = xml_next(node, "game")) {
        read_game(reader, node, names);
    }
    return true;
}
