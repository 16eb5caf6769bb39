/* Games: their official box scores and the charts that count. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "source/dossier_parts.h"

/* What all charts of a dossier hold. */
typedef struct Extent {
    size_t games, snaps, first_snaps, second_charts;
} Extent;

static Extent measure_extent(const XmlNode *root) {
    Extent extent = {0};
    for (const XmlNode *game = xml_child(root, "game"); game; game = xml_next(game, "game")) {
        extent.games++;
        size_t charts = 0;
        for (const XmlNode *chart = xml_child(game, "chart"); chart; chart = xml_next(chart, "chart")) {
            size_t snaps = attr_children(chart, "snap");
            extent.snaps += snaps;
            if (charts == 0) extent.first_snaps += snaps;
            if (charts++ > 0) extent.second_charts++;
        }
    }
    return extent;
}

static bool within_bounds(DossierReader *reader, const XmlNode *root, const Extent *extent) {
    if (extent->games > DOSSIER_MOST_GAMES || extent->snaps > DOSSIER_MOST_SNAPS) {
        diag_report(reader->diagnostics, RULE_XML_LIMIT, root->place, NULL,
                    "a dossier has at most %d games and %d snaps; this has %zu and %zu", DOSSIER_MOST_GAMES,
                    DOSSIER_MOST_SNAPS, extent->games, extent->snaps);
        return false;
    }
    if (extent->second_charts <= DOSSIER_MOST_SECOND_CHARTS) return true;
    diag_report(reader->diagnostics, RULE_XML_LIMIT, root->place, NULL,
                "a dossier has at most %d second charts of its games; this has %zu", DOSSIER_MOST_SECOND_CHARTS,
                extent->second_charts);
    return false;
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
    game->row_count = chart_read(reader, chart, index, &reader->rows);
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
    game->first_row = reader->rows.count;
    int first = names_add(names, game->id, index);
    if (first >= 0) dossier_report_twice(reader, node, "id", "game", dossier->games[first].place);
    read_official(reader, node, game);
    const XmlNode *chart = xml_child(node, "chart");
    if (chart) read_chart(reader, chart, index);
}

static void derive_games(DossierReader *reader) {
    const Dossier *dossier = reader->dossier;
    Stretch *stretches = ARENA_ARRAY(reader->arena, dossier->game_count, Stretch);
    for (size_t i = 0; i < dossier->game_count; i++) {
        const Game *game = &dossier->games[i];
        stretches[i] = (Stretch){game->id, game->first_row, game->row_count};
    }
    dossier_derive(reader, &reader->rows, stretches, dossier->game_count);
}

bool dossier_read_games(DossierReader *reader, const XmlNode *root) {
    Dossier *dossier = reader->dossier;
    Extent extent = measure_extent(root);
    if (!within_bounds(reader, root, &extent)) return false;
    reader->rows = chart_rows_new(reader, &dossier->columns, extent.first_snaps);
    dossier->games = ARENA_ARRAY(reader->arena, extent.games, Game);
    dossier->second_charts = ARENA_ARRAY(reader->arena, extent.second_charts, SecondChart);
    Names *names = names_new(reader->arena, extent.games);
    for (const XmlNode *node = xml_child(root, "game"); node; node = xml_next(node, "game")) {
        read_game(reader, node, names);
    }
    dossier->snaps = reader->rows.snaps;
    dossier->snap_count = reader->rows.count;
    dossier->snap_names = reader->rows.names;
    derive_games(reader);
    return true;
}
