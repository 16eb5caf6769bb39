/* Second charts: a game that another evaluator has charted too. */
#include <string.h>

#include "source/dossier_parts.h"

/* The place of the chart of this game by the same evaluator that stands before `second`, or none. */
static const Place *earlier_chart(const Dossier *dossier, const SecondChart *second, const XmlNode *first) {
    const char *by = dossier->games[second->game].by;
    if (by && strcmp(by, second->by) == 0) return &first->place;
    for (const SecondChart *chart = dossier->second_charts; chart < second; chart++) {
        if (chart->game == second->game && strcmp(chart->by, second->by) == 0) return &chart->place;
    }
    return NULL;
}

static void report_unsigned(DossierReader *reader, const XmlNode *chart) {
    if (!dossier_may_report(reader)) return;
    diag_report(reader->diagnostics, RULE_ATTRIBUTE_MISSING, chart->place, "write by=\"…\" with the evaluator's id",
                "a game with several charts says who charted each");
}

static void check_charter(DossierReader *reader, const XmlNode *node, const SecondChart *second, const XmlNode *first) {
    if (!*second->by) {
        report_unsigned(reader, node);
        return;
    }
    dossier_refer_evaluator(reader, node, "by");
    const Place *earlier = earlier_chart(reader->dossier, second, first);
    if (!earlier || !dossier_may_report(reader)) return;
    diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, "by"),
                "a second chart is another evaluator's", "game %s is charted twice by '%s'",
                reader->dossier->games[second->game].id, second->by);
    diag_also(reader->diagnostics, *earlier, "the other chart stands here");
}

/* Snaps are matched by their number in the game, which their name tells. */
static void match_snaps(DossierReader *reader, SecondChart *second) {
    second->match = ARENA_ARRAY(reader->arena, second->count, int);
    for (size_t i = 0; i < second->count; i++) {
        int row = names_find(reader->rows.names, second->snaps[i].name);
        bool same_game = row >= 0 && reader->rows.snaps[row].game == second->game;
        second->match[i] = same_game ? row : -1;
    }
}

static void read_second_chart(DossierReader *reader, const XmlNode *node, int game, const XmlNode *first) {
    Dossier *dossier = reader->dossier;
    SecondChart *second = &dossier->second_charts[dossier->second_chart_count++];
    second->game = game;
    second->by = attr_text(node, "by", "");
    second->media = xml_value(node, "media");
    second->marks = xml_value(node, "marks");
    second->place = node->place;
    check_charter(reader, node, second, first);
    dossier_refer_media(reader, node, "media");
    ChartRows rows = chart_rows_new(reader, &second->columns, attr_children(node, "snap"));
    rows.second = true;
    second->count = chart_read(reader, node, game, &rows);
    second->snaps = rows.snaps;
    const char *label = arena_printf(reader->arena, "%s as %s charted it", dossier->games[game].id, second->by);
    Stretch stretch = {label, 0, second->count};
    dossier_derive(reader, &rows, &stretch, 1);
    match_snaps(reader, second);
}

void dossier_read_second_charts(DossierReader *reader, const XmlNode *root) {
    int index = 0;
    for (const XmlNode *game = xml_child(root, "game"); game; game = xml_next(game, "game"), index++) {
        const XmlNode *first = xml_child(game, "chart");
        const XmlNode *node = first ? xml_next(first, "chart") : NULL;
        if (node && !reader->dossier->games[index].by) report_unsigned(reader, first);
        for (; node; node = xml_next(node, "chart")) read_second_chart(reader, node, index, first);
    }
}
