/* Loading a dossier: the order of its parts, and all that is neither chart nor claim nor grade. */
#include "source/dossier.h"

#include <string.h>

#include "source/dossier_parts.h"

bool dossier_may_report(DossierReader *reader) {
    if (++reader->problems < XML_MOST_PROBLEMS) return true;
    if (!reader->told) {
        diag_report(reader->diagnostics, RULE_XML_LIMIT, reader->dossier->place, NULL,
                    "more than %d problems in the chart and the references; the rest is not told",
                    XML_MOST_PROBLEMS - 1);
    }
    reader->told = true;
    return false;
}

static const char *optional_text(DossierReader *reader, const XmlNode *parent, const char *name) {
    const XmlNode *node = parent ? xml_child(parent, name) : NULL;
    return node ? xml_text(reader->arena, node) : "";
}

static void read_player(DossierReader *reader, const XmlNode *root) {
    Dossier *dossier = reader->dossier;
    const XmlNode *player = xml_child(root, "player");
    if (!player) return;
    const XmlNode *name = xml_child(player, "name");
    dossier->given = optional_text(reader, name, "given");
    dossier->family = optional_text(reader, name, "family");
    dossier->school = optional_text(reader, player, "school");
    dossier->position = xml_value(player, "position");
    dossier->class_ = xml_value(player, "class");
    dossier->jersey = xml_value(player, "jersey");
    dossier->born = xml_value(player, "born");
    dossier->throws = xml_value(player, "throws");
}

static void read_filing(DossierReader *reader, const XmlNode *root) {
    Filing *filing = &reader->dossier->filing;
    const XmlNode *node = xml_child(root, "filing");
    *filing = (Filing){.by = "", .on = "", .revision = 1, .place = root->place};
    if (!node) return;
    filing->by = attr_text(node, "by", "");
    filing->on = attr_text(node, "on", "");
    filing->note = node->first ? xml_text(reader->arena, node) : NULL;
    filing->place = node->place;
    double revision = attr_number(node, "revision", 1, reader->diagnostics);
    if (revision >= 1 && revision <= 9999) filing->revision = (int)revision;
    dossier_refer_evaluator(reader, node, "by");
}

/* ---- media ---- */

/* Seconds; 0 when it is not given or no time. */
static double film_length(DossierReader *reader, const XmlNode *node) {
    static const Field time = {.type = FIELD_TIME, .high = 24 * 3600};
    const char *text = xml_value(node, "length");
    double seconds = 0;
    if (!text || charted_read(reader->profile, &time, text, &seconds) == VALUE_FINE) return seconds;
    if (dossier_may_report(reader)) {
        diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(node, "length"), NULL,
                    "'%s' is not a length such as 2:31:10", text);
    }
    return 0;
}

static void read_medium(DossierReader *reader, const XmlNode *node) {
    Dossier *dossier = reader->dossier;
    Media *medium = &dossier->media[dossier->media_count];
    medium->id = attr_text(node, "id", "");
    medium->href = attr_text(node, "href", "");
    medium->fps = attr_number(node, "fps", 0, reader->diagnostics);
    medium->length = film_length(reader, node);
    medium->place = node->place;
    int first = names_add(reader->media, medium->id, (int)dossier->media_count++);
    if (first >= 0) dossier_report_twice(reader, node, "id", "media", dossier->media[first].place);
    const char *why = attr_unsafe_path(medium->href);
    if (!why || !dossier_may_report(reader)) return;
    diag_report(reader->diagnostics, RULE_XML_UNSAFE, xml_value_place(node, "href"), why,
                "the film is not below the dossier's own folder");
}

static void read_media(DossierReader *reader, const XmlNode *root) {
    size_t most = attr_children(root, "media");
    reader->media = names_new(reader->arena, most);
    reader->dossier->media = ARENA_ARRAY(reader->arena, most, Media);
    for (const XmlNode *node = xml_child(root, "media"); node; node = xml_next(node, "media")) {
        read_medium(reader, node);
    }
}

/* ---- measurables ---- */

static const char *const notation_hints[] = {
    [UNIT_INCH] =
        "write inches such as 76.375 or 76 3/8, centimetres such as 194 cm, or the trade's digits such as 6043",
    [UNIT_POUND] = "write pounds such as 226 or kilograms such as 102.5 kg",
    [UNIT_SECOND] = "write seconds such as 4.81, or 4.81h when timed by hand",
    [UNIT_COUNT] = "write a whole number",
};

static const MeasurableKind *profile_kind(const Profile *profile, const char *id) {
    for (size_t i = 0; i < profile->measurable_count; i++) {
        if (strcmp(profile->measurables[i].id, id) == 0) return &profile->measurables[i];
    }
    return NULL;
}

static void read_notation(DossierReader *reader, const XmlNode *node, Measurable *measurable) {
    const MeasurableInfo *info = measurable_info(measurable->id);
    bool hand = false;
    if (info && notation_read(info, measurable->notation, &measurable->value, &hand)) {
        measurable->hand_timed = hand || strcmp(attr_text(node, "timing", ""), "hand") == 0;
    } else if (dossier_may_report(reader) && info) {
        diag_report(reader->diagnostics, RULE_NOTATION, xml_value_place(node, "value"), notation_hints[info->unit],
                    "'%s' cannot be read as a %s", measurable->notation, measurable->id);
    } else if (!info && !reader->told) {
        diag_report(reader->diagnostics, RULE_REFERENCE, xml_value_place(node, "kind"),
                    profile_measurable_hint(reader->arena, measurable->id), "the trade has no measurable '%s'",
                    measurable->id);
    }
}

static void read_measurable(DossierReader *reader, const XmlNode *node) {
    Measurable *measurable = &reader->dossier->measurables[reader->dossier->measurable_count++];
    measurable->id = attr_text(node, "kind", "");
    measurable->kind = profile_kind(reader->profile, measurable->id);
    measurable->notation = attr_text(node, "value", "");
    measurable->verified = strcmp(attr_text(node, "status", ""), "verified") == 0;
    measurable->on = xml_value(node, "on");
    measurable->where = xml_value(node, "where");
    measurable->place = node->place;
    read_notation(reader, node, measurable);
}

static void read_measurables(DossierReader *reader, const XmlNode *root) {
    const XmlNode *parent = xml_child(root, "measurables");
    if (!parent) return;
    reader->dossier->measurables = ARENA_ARRAY(reader->arena, attr_children(parent, "measurable"), Measurable);
    const XmlNode *node = xml_child(parent, "measurable");
    for (; node; node = xml_next(node, "measurable")) read_measurable(reader, node);
}

/* ---- the whole ---- */

void dossier_read_head(DossierReader *reader, const XmlNode *root) {
    read_player(reader, root);
    read_filing(reader, root);
    read_media(reader, root);
    read_measurables(reader, root);
}

static void read_sections(DossierReader *reader, const XmlNode *root) {
    Dossier *dossier = reader->dossier;
    const struct {
        const char *element;
        Prose *prose;
    } sections[] = {
        {"bottom-line", &dossier->bottom_line},
        {"background", &dossier->background},
        {"medical", &dossier->medical},
        {"personal", &dossier->personal},
    };
    for (size_t i = 0; i < sizeof sections / sizeof *sections; i++) {
        const XmlNode *node = xml_child(root, sections[i].element);
        if (node) dossier_read_prose(reader, node, sections[i].prose);
    }
}

/* Reads what the dossier will ask for while it is validated. What goes wrong is told when it is asked for. */
static void read_ahead(void *data, const XmlNode *root) {
    Diagnostics *unheard = diag_new();
    (void)source_profile(data, attr_text(root, "profile", ""), root->place, unheard);
    if (xml_child(root, "key-snap")) (void)source_plays(data, root->place, unheard);
    diag_free(unheard);
}

Dossier *dossier_load(Arena *arena, SourceContext *context, const char *path, Diagnostics *diagnostics) {
    if (!source_house(context)) return NULL;
    const XmlMeanwhile ahead = {read_ahead, context};
    const XmlNode *root = xml_load_meanwhile(arena, source_schemas(context), XML_DOSSIER, path,
                                             source_is_fresh(context) ? &ahead : NULL, diagnostics);
    if (!root) return NULL;
    const char *profile_id = attr_text(root, "profile", "");
    const Profile *profile = source_profile(context, profile_id, xml_value_place(root, "profile"), diagnostics);
    if (!profile) return NULL;
    Dossier *dossier = ARENA_NEW(arena, Dossier);
    DossierReader reader = {.arena = arena,
                            .diagnostics = diagnostics,
                            .profile = profile,
                            .house = source_house(context),
                            .dossier = dossier};
    dossier->id = attr_text(root, "id", "");
    dossier->path = arena_string(arena, path);
    dossier->profile = profile;
    dossier->house = reader.house;
    dossier->place = root->place;
    dossier_read_head(&reader, root);
    if (!dossier_read_games(&reader, root)) return NULL;
    dossier_read_second_charts(&reader, root);
    dossier_read_claims(&reader, root);
    if (xml_child(root, "key-snap")) dossier->plays = source_plays(context, root->place, diagnostics);
    dossier_read_keys(&reader, root);
    dossier_read_grades(&reader, root);
    read_sections(&reader, root);
    return dossier;
}

int dossier_snap(const Dossier *dossier, const char *name) {
    return names_find(dossier->snap_names, name);
}
