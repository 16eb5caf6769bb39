/* References: every name in a dossier is looked up, and a name that nothing has is reported with what it may have
 * meant. */
#include <stdlib.h>
#include <string.h>

#include "source/dossier_parts.h"

static int report(DossierReader *reader, const XmlNode *node, const char *attribute, const char *what,
                  const char *hint) {
    if (dossier_may_report(reader)) {
        diag_report(reader->diagnostics, RULE_REFERENCE, xml_value_place(node, attribute), hint, "there is no %s '%s'",
                    what, attr_text(node, attribute, ""));
    }
    return -1;
}

int dossier_refer_slice(DossierReader *reader, const XmlNode *node, const char *attribute) {
    const char *id = attr_text(node, attribute, "");
    const Profile *profile = reader->profile;
    int index = profile_slice(profile, id);
    if (index >= 0) return index;
    return report(reader, node, attribute, "slice",
                  NAMES_HINT(reader->arena, id, profile->slices, profile->slice_count));
}

int dossier_refer_measure(DossierReader *reader, const XmlNode *node, const char *attribute) {
    const char *id = attr_text(node, attribute, "");
    const Profile *profile = reader->profile;
    int index = profile_measure(profile, id);
    if (index >= 0) return index;
    return report(reader, node, attribute, "measure",
                  NAMES_HINT(reader->arena, id, profile->measures, profile->measure_count));
}

int dossier_refer_total(DossierReader *reader, const XmlNode *node, const char *attribute) {
    const char *id = attr_text(node, attribute, "");
    const Profile *profile = reader->profile;
    int index = profile_total(profile, id);
    if (index >= 0) return index;
    return report(reader, node, attribute, "total",
                  NAMES_HINT(reader->arena, id, profile->totals, profile->total_count));
}

int dossier_refer_trait(DossierReader *reader, const XmlNode *node, const char *attribute) {
    const char *id = attr_text(node, attribute, "");
    const Profile *profile = reader->profile;
    int index = profile_trait(profile, id);
    if (index >= 0) return index;
    return report(reader, node, attribute, "trait",
                  NAMES_HINT(reader->arena, id, profile->traits, profile->trait_count));
}

void dossier_refer_media(DossierReader *reader, const XmlNode *node, const char *attribute) {
    const char *id = xml_value(node, attribute);
    const Dossier *dossier = reader->dossier;
    if (!id || names_find(reader->media, id) >= 0) return;
    const char *hint = dossier->media_count ? NAMES_HINT(reader->arena, id, dossier->media, dossier->media_count)
                                            : "the dossier declares no media";
    report(reader, node, attribute, "media", hint);
}

/* A house that lists nobody lets anybody sign. */
void dossier_refer_evaluator(DossierReader *reader, const XmlNode *node, const char *attribute) {
    const char *id = xml_value(node, attribute);
    const House *house = reader->house;
    if (!id || house->evaluator_count == 0 || house_evaluator(house, id)) return;
    report(reader, node, attribute, "evaluator",
           NAMES_HINT(reader->arena, id, house->evaluators, house->evaluator_count));
}

/* ---- snaps ---- */

/* The snap of `game` whose number is nearest. */
static const char *nearest_snap(DossierReader *reader, const Game *game, int number) {
    const Snap *nearest = NULL;
    for (size_t row = game->first_row; row < game->first_row + game->row_count; row++) {
        const Snap *snap = &reader->dossier->snaps[row];
        if (!nearest || abs(snap->number - number) < abs(nearest->number - number)) nearest = snap;
    }
    if (!nearest) return arena_printf(reader->arena, "game %s has no charted snaps", game->id);
    return arena_printf(reader->arena, "the nearest charted snap is %s", nearest->name);
}

static int small_number(const char *digits) {
    long number = strtol(digits, NULL, 10);
    return number < 0 || number > DOSSIER_MOST_SNAP_NUMBER ? DOSSIER_MOST_SNAP_NUMBER : (int)number;
}

static const char *snap_hint(DossierReader *reader, const char *name) {
    const Dossier *dossier = reader->dossier;
    const char *dot = strrchr(name, '.');
    if (!dot) return "a snap is named by its game and number, such as g1.14";
    const char *game_id = arena_copy(reader->arena, name, (size_t)(dot - name));
    for (size_t i = 0; i < dossier->game_count; i++) {
        const Game *game = &dossier->games[i];
        if (strcmp(game->id, game_id) == 0) return nearest_snap(reader, game, small_number(dot + 1));
    }
    const char *hint = NAMES_HINT(reader->arena, game_id, dossier->games, dossier->game_count);
    return hint ? arena_printf(reader->arena, "for the game, %s", hint) : NULL;
}

int dossier_refer_snap(DossierReader *reader, const XmlNode *node, const char *attribute) {
    const char *name = attr_text(node, attribute, "");
    int row = names_find(reader->rows.names, name);
    return row >= 0 ? row : report(reader, node, attribute, "snap", snap_hint(reader, name));
}

void dossier_report_twice(DossierReader *reader, const XmlNode *node, const char *attribute, const char *what,
                          Place first) {
    if (!dossier_may_report(reader)) return;
    diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, attribute), NULL, "%s '%s' stands twice",
                what, attr_text(node, attribute, ""));
    diag_also(reader->diagnostics, first, "it first stands here");
}
