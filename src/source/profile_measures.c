/* What a profile computes from its fields: slices, totals and measures. */
#include <math.h>
#include <string.h>

#include "source/lists.h"
#include "source/profile_parts.h"

enum { MOST_PLACES = 6 };

static void read_slice(ProfileReader *reader, const XmlNode *node, bool common) {
    Profile *profile = reader->profile;
    const char *id = attr_text(node, "id", "");
    int known = profile_slice(profile, id);
    Place first = known >= 0 ? profile->slices[known].place : node->place;
    if (!profile_take_id(reader, reader->names->slices, node, (int)profile->slice_count, first)) return;
    const char *label = attr_text(node, "label", id);
    profile->slices[profile->slice_count++] = (Slice){
        .id = id,
        .label = label,
        .phrase = attr_text(node, "phrase", label),
        .where = profile_compile(reader, node, "where", EXPR_SELECTION),
        .common = common,
        .place = node->place,
    };
}

static void read_total(ProfileReader *reader, const XmlNode *node, bool common) {
    (void)common;
    Profile *profile = reader->profile;
    const char *id = attr_text(node, "id", "");
    int known = profile_total(profile, id);
    Place first = known >= 0 ? profile->totals[known].place : node->place;
    if (!profile_take_id(reader, reader->names->totals, node, (int)profile->total_count, first)) return;
    profile->totals[profile->total_count++] = (Total){
        .id = id,
        .label = attr_text(node, "label", id),
        .where = profile_compile(reader, node, "where", EXPR_SELECTION),
        .sum = profile_compile(reader, node, "sum", EXPR_ARITHMETIC),
        .official = attr_yes(node, "official"),
        .place = node->place,
    };
}

/* ---- measures ---- */

static bool has(ProfileReader *reader, const XmlNode *node, const char *attribute) {
    if (xml_value(node, attribute)) return true;
    diag_report(reader->diagnostics, RULE_PROFILE, node->place, NULL, "a measure of kind '%s' needs '%s'",
                attr_text(node, "kind", ""), attribute);
    return false;
}

static void read_rate(ProfileReader *reader, const XmlNode *node, Measure *measure) {
    if (has(reader, node, "where")) measure->where = profile_compile(reader, node, "where", EXPR_SELECTION);
}

static void read_mean(ProfileReader *reader, const XmlNode *node, Measure *measure) {
    if (has(reader, node, "x")) measure->x = profile_compile(reader, node, "x", EXPR_ARITHMETIC);
}

static void read_ratio(ProfileReader *reader, const XmlNode *node, Measure *measure) {
    if (has(reader, node, "over")) measure->over = profile_find_total(reader, node, "over");
    if (has(reader, node, "under")) measure->under = profile_find_total(reader, node, "under");
}

static void read_part(ProfileReader *reader, const XmlNode *node, Measure *measure) {
    FormulaPart *part = &measure->parts[measure->part_count++];
    part->expr = profile_compile(reader, node, "formula", EXPR_FORMULA);
    part->low = attr_number(node, "low", -INFINITY, reader->diagnostics);
    part->high = attr_number(node, "high", INFINITY, reader->diagnostics);
    if (part->low > part->high) {
        diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "low"), NULL,
                    "the low end of a part of '%s' is above its high end", measure->id);
    }
}

static void read_formula(ProfileReader *reader, const XmlNode *node, Measure *measure) {
    size_t count = 0;
    const XmlNode *part = xml_child(node, "part");
    for (const XmlNode *at = part; at; at = xml_next(at, "part")) count++;
    if (count == 0) {
        diag_report(reader->diagnostics, RULE_PROFILE, node->place, NULL, "the formula of '%s' has no part",
                    measure->id);
    }
    if (has(reader, node, "n")) measure->under = profile_find_total(reader, node, "n");
    measure->scale = attr_number(node, "scale", 1, reader->diagnostics);
    measure->parts = ARENA_ARRAY(reader->arena, count, FormulaPart);
    for (; part; part = xml_next(part, "part")) read_part(reader, part, measure);
}

static const struct {
    const char *word;
    MeasureKind kind;
    void (*read)(ProfileReader *reader, const XmlNode *node, Measure *measure);
} measure_kinds[] = {
    {"rate", MEASURE_RATE, read_rate},
    {"mean", MEASURE_MEAN, read_mean},
    {"ratio", MEASURE_RATIO, read_ratio},
    {"formula", MEASURE_FORMULA, read_formula},
};

enum { MEASURE_KINDS = sizeof measure_kinds / sizeof *measure_kinds };

/* What only some kinds have. */
static const struct {
    const char *attribute;
    unsigned kinds; /* bits by MeasureKind */
} kind_attributes[] = {
    {"of", 1u << MEASURE_RATE | 1u << MEASURE_MEAN},
    {"where", 1u << MEASURE_RATE},
    {"x", 1u << MEASURE_MEAN},
    {"over", 1u << MEASURE_RATIO},
    {"under", 1u << MEASURE_RATIO},
    {"n", 1u << MEASURE_FORMULA},
    {"scale", 1u << MEASURE_FORMULA},
};

static void check_attributes(ProfileReader *reader, const XmlNode *node, const Measure *measure) {
    for (size_t i = 0; i < sizeof kind_attributes / sizeof *kind_attributes; i++) {
        const char *attribute = kind_attributes[i].attribute;
        if (kind_attributes[i].kinds >> measure->kind & 1u || !xml_value(node, attribute)) continue;
        diag_report(reader->diagnostics, RULE_PROFILE, xml_name_place(node, attribute), NULL,
                    "a measure of kind '%s' has no '%s'", attr_text(node, "kind", ""), attribute);
    }
}

static void read_kind(ProfileReader *reader, const XmlNode *node, Measure *measure) {
    const char *word = attr_text(node, "kind", "");
    for (size_t i = 0; i < MEASURE_KINDS; i++) {
        if (strcmp(measure_kinds[i].word, word) != 0) continue;
        measure->kind = measure_kinds[i].kind;
        measure_kinds[i].read(reader, node, measure);
        check_attributes(reader, node, measure);
        return;
    }
    diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "kind"),
                names_hint(reader->arena, word, measure_kinds, MEASURE_KINDS, sizeof *measure_kinds),
                "there is no kind of measure '%s'", word);
}

static int read_places(ProfileReader *reader, const XmlNode *node) {
    double places = attr_number(node, "places", 1, reader->diagnostics);
    if (places >= 0 && places <= MOST_PLACES && places == floor(places)) return (int)places;
    diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "places"), NULL,
                "a measure is printed with 0 to %d decimals", MOST_PLACES);
    return 1;
}

static void read_measure(ProfileReader *reader, const XmlNode *node, bool common) {
    (void)common;
    Profile *profile = reader->profile;
    const char *id = attr_text(node, "id", "");
    int known = profile_measure(profile, id);
    Place first = known >= 0 ? profile->measures[known].place : node->place;
    if (!profile_take_id(reader, reader->names->measures, node, (int)profile->measure_count, first)) return;
    Measure *measure = &profile->measures[profile->measure_count++];
    *measure = (Measure){
        .id = id,
        .label = attr_text(node, "label", id),
        .noun = attr_text(node, "noun", profile->snap_noun),
        .unit = attr_text(node, "unit", ""),
        .says = profile_says(reader, node),
        .source = xml_value(node, "source"),
        .better = profile_better(node),
        .places = read_places(reader, node),
        .of = profile_compile(reader, node, "of", EXPR_SELECTION),
        .over = -1,
        .under = -1,
        .scale = 1,
        .printed = attr_yes(node, "print"),
        .place = node->place,
    };
    read_kind(reader, node, measure);
}

/* ---- which are printed ---- */

/* The <print> that holds: the last, so that a profile's own does. NULL: measures say so themselves. */
static const XmlNode *find_print(const ProfileReader *reader) {
    const XmlNode *print = NULL;
    for (size_t i = 0; i < reader->part_count; i++) {
        if (strcmp(reader->parts[i].node->name, "print") == 0) print = reader->parts[i].node;
    }
    return print;
}

static const ProfilePart *find_measure(const ProfileReader *reader, const char *id) {
    for (size_t i = 0; i < reader->part_count; i++) {
        const ProfilePart *part = &reader->parts[i];
        if (strcmp(part->node->name, "measure") == 0 && strcmp(attr_text(part->node, "id", ""), id) == 0) return part;
    }
    return NULL;
}

static void report_unprinted(ProfileReader *reader, ListWord word) {
    const char **ids = ARENA_ARRAY(reader->arena, profile_count(reader, "measure"), const char *);
    size_t count = 0;
    for (size_t i = 0; i < reader->part_count; i++) {
        const XmlNode *node = reader->parts[i].node;
        if (strcmp(node->name, "measure") == 0) ids[count++] = attr_text(node, "id", "");
    }
    diag_report(reader->diagnostics, RULE_PROFILE, word.place,
                names_hint(reader->arena, word.id, ids, count, sizeof *ids), "the profile has no measure '%s'",
                word.id);
}

/* Measures in their order, those that are printed first. */
static void read_printed(ProfileReader *reader, const XmlNode *print) {
    List list = list_open(reader->arena, print, "measures");
    ListWord word;
    while (list_next(&list, &word)) {
        const ProfilePart *part = find_measure(reader, word.id);
        if (!part)
            report_unprinted(reader, word);
        else if (profile_measure(reader->profile, word.id) < 0)
            read_measure(reader, part->node, part->common);
    }
    Profile *profile = reader->profile;
    size_t printed = profile->measure_count;
    for (size_t i = 0; i < reader->part_count; i++) {
        const ProfilePart *part = &reader->parts[i];
        if (strcmp(part->node->name, "measure") != 0) continue;
        int known = profile_measure(profile, attr_text(part->node, "id", ""));
        bool read = known >= 0 && profile->measures[known].place.offset == part->node->place.offset &&
                    profile->measures[known].place.text == part->node->place.text;
        if (!read) read_measure(reader, part->node, part->common);
    }
    for (size_t i = 0; i < profile->measure_count; i++) profile->measures[i].printed = i < printed;
}

bool profile_read_measures(ProfileReader *reader) {
    Profile *profile = reader->profile;
    size_t totals = profile_count(reader, "total");
    if (totals > PROFILE_MOST_TOTALS) {
        diag_report(reader->diagnostics, RULE_PROFILE, reader->roots[0]->place, NULL,
                    "a profile has at most %d totals, this has %zu", PROFILE_MOST_TOTALS, totals);
        return false;
    }
    profile->slices = ARENA_ARRAY(reader->arena, profile_count(reader, "slice"), Slice);
    profile->totals = ARENA_ARRAY(reader->arena, totals, Total);
    profile->measures = ARENA_ARRAY(reader->arena, profile_count(reader, "measure"), Measure);
    profile_each(reader, "slice", read_slice);
    profile_each(reader, "total", read_total);
    const XmlNode *print = find_print(reader);
    if (print)
        read_printed(reader, print);
    else
        profile_each(reader, "measure", read_measure);
    return true;
}
