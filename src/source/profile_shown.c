/* What a profile grades and measures: traits, measurables, standards; and the columns of the snap log. */
#include <string.h>

#include "source/lists.h"
#include "source/notation.h"
#include "source/profile_parts.h"

/* Which snaps show a trait: a selection for counting, and the same in words for the page. */
static void read_seen(ProfileReader *reader, const XmlNode *node, Trait *trait) {
    trait->shown = xml_value(node, "shown");
    if (xml_value(node, "seen")) trait->seen = profile_compile(reader, node, "seen", EXPR_SELECTION);
    if (!xml_value(node, "seen") == !trait->shown) return;
    const char *given = trait->shown ? "shown" : "seen";
    diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, given),
                "seen=\"…\" selects the snaps that show the trait, shown=\"…\" says in words what they are",
                "trait '%s' has only one of 'seen' and 'shown'", trait->id);
}

static void read_trait(ProfileReader *reader, const XmlNode *node, bool common) {
    (void)common;
    Profile *profile = reader->profile;
    const char *id = attr_text(node, "id", "");
    int known = profile_trait(profile, id);
    Place first = known >= 0 ? profile->traits[known].place : node->place;
    if (!profile_take_id(reader, reader->names->traits, node, (int)profile->trait_count, first)) return;
    double weight = attr_number(node, "weight", 1, reader->diagnostics);
    if (weight <= 0) {
        diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "weight"), NULL,
                    "the weight of trait '%s' is not above 0", id);
    }
    Trait *trait = &profile->traits[profile->trait_count++];
    *trait = (Trait){
        .id = id,
        .label = attr_text(node, "label", id),
        .says = profile_says(reader, node),
        .weight = weight,
        .place = node->place,
    };
    read_seen(reader, node, trait);
}

/* ---- measurables ---- */

static bool check_measurable(ProfileReader *reader, const XmlNode *node, const MeasurableKind *kind) {
    const Profile *profile = reader->profile;
    for (size_t i = 0; i < profile->measurable_count; i++) {
        if (strcmp(profile->measurables[i].id, kind->id) != 0) continue;
        diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, "kind"), NULL,
                    "the measurable '%s' stands twice", kind->id);
        diag_also(reader->diagnostics, profile->measurables[i].place, "it first stands here");
        return false;
    }
    if (!measurable_info(kind->id)) {
        diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "kind"),
                    profile_measurable_hint(reader->arena, kind->id), "the trade has no measurable '%s'", kind->id);
    }
    if (kind->low > kind->high) {
        diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "low"), NULL,
                    "the low end of '%s' is above its high end", kind->id);
    }
    return true;
}

static void read_measurable(ProfileReader *reader, const XmlNode *node, bool common) {
    (void)common;
    Profile *profile = reader->profile;
    MeasurableKind kind = {
        .id = attr_text(node, "kind", ""),
        .better = profile_better(node),
        .low = attr_number(node, "low", 0, reader->diagnostics),
        .high = attr_number(node, "high", 0, reader->diagnostics),
        .place = node->place,
    };
    if (check_measurable(reader, node, &kind)) profile->measurables[profile->measurable_count++] = kind;
}

/* ---- standards and the log ---- */

static void read_standard(ProfileReader *reader, const XmlNode *node, bool common) {
    (void)common;
    Profile *profile = reader->profile;
    int measure = profile_find_measure(reader, node, "measure");
    if (measure < 0) return;
    for (size_t i = 0; i < profile->standard_count; i++) {
        if (profile->standards[i].measure != measure) continue;
        diag_report(reader->diagnostics, RULE_DUPLICATE, node->place, NULL, "measure '%s' has two standards",
                    profile->measures[measure].id);
    }
    profile->standards[profile->standard_count++] = (Standard){
        .measure = measure,
        .value = attr_number(node, "value", 0, reader->diagnostics),
        .source = xml_value(node, "source"),
    };
}

static void add_log_field(ProfileReader *reader, ListWord word) {
    Profile *profile = reader->profile;
    int index = profile_field(profile, word.id);
    if (index < 0) {
        diag_report(reader->diagnostics, RULE_PROFILE, word.place,
                    NAMES_HINT(reader->arena, word.id, profile->fields, profile->field_count),
                    "the profile has no field '%s'", word.id);
        return;
    }
    profile->log_fields[profile->log_field_count++] = index;
}

/* A later log replaces an earlier one, so that a profile can have its own in place of a set's. */
static void read_log(ProfileReader *reader, const XmlNode *node, bool common) {
    (void)common;
    Profile *profile = reader->profile;
    profile->log_fields = ARENA_ARRAY(reader->arena, list_count(reader->arena, node, "fields"), int);
    profile->log_field_count = 0;
    List list = list_open(reader->arena, node, "fields");
    ListWord word;
    while (list_next(&list, &word)) add_log_field(reader, word);
}

void profile_read_shown(ProfileReader *reader) {
    Profile *profile = reader->profile;
    Arena *arena = reader->arena;
    profile->traits = ARENA_ARRAY(arena, profile_count(reader, "trait"), Trait);
    profile->measurables = ARENA_ARRAY(arena, profile_count(reader, "measurable"), MeasurableKind);
    profile->standards = ARENA_ARRAY(arena, profile_count(reader, "standard"), Standard);
    profile_each(reader, "trait", read_trait);
    profile_each(reader, "measurable", read_measurable);
    profile_read_figures(reader);
    profile_each(reader, "standard", read_standard);
    profile_each(reader, "log", read_log);
}
