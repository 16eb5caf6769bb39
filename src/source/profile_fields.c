/* The fields of a profile. First all are declared, so that any may name any other; then derived fields are connected to
 * what they read; then expressions are compiled. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "source/profile_parts.h"

enum { CLOCK_MOST_SECONDS = 15 * 60, DISTANCE_MOST_YARDS = 99 };

static const struct {
    const char *word;
    FieldType type;
} field_types[] = {
    {"choice", FIELD_CHOICE}, {"ordered", FIELD_ORDERED},   {"yes-no", FIELD_YESNO},
    {"number", FIELD_NUMBER}, {"text", FIELD_TEXT},         {"clock", FIELD_CLOCK},
    {"spot", FIELD_SPOT},     {"distance", FIELD_DISTANCE}, {"time", FIELD_TIME},
};

enum { FIELD_TYPES = sizeof field_types / sizeof *field_types };

static bool is_choice(FieldType type) {
    return type == FIELD_CHOICE || type == FIELD_ORDERED || type == FIELD_YESNO;
}

bool profile_read_type(ProfileReader *reader, const XmlNode *node, FieldType *type) {
    const char *word = attr_text(node, "type", "");
    for (size_t i = 0; i < FIELD_TYPES; i++) {
        if (strcmp(field_types[i].word, word) != 0) continue;
        *type = field_types[i].type;
        return true;
    }
    diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "type"),
                names_hint(reader->arena, word, field_types, FIELD_TYPES, sizeof *field_types),
                "there is no type of field '%s'", word);
    return false;
}

/* ---- values ---- */

static int intern(ProfileReader *reader, const char *word) {
    Profile *profile = reader->profile;
    int known = names_add(reader->names->words, word, (int)profile->word_count);
    if (known >= 0) return known;
    profile->words[profile->word_count] = word;
    return (int)profile->word_count++;
}

static void put_value(ProfileReader *reader, Field *field, FieldValue value) {
    value.word = intern(reader, value.id);
    field->values[field->value_count++] = value;
}

void profile_add_value(ProfileReader *reader, Field *field, const XmlNode *node) {
    const char *id = attr_text(node, "id", "");
    for (size_t i = 0; i < field->value_count; i++) {
        if (strcmp(field->values[i].id, id) != 0) continue;
        diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, "id"), NULL,
                    "field '%s' has the value '%s' twice", field->id, id);
    }
    put_value(reader, field,
              (FieldValue){.id = id, .label = attr_text(node, "label", id), .says = profile_says(reader, node)});
}

/* Worst or least first, as in every ordered field: a blank exception reads "no". */
void profile_yes_no_values(ProfileReader *reader, Field *field) {
    field->values = ARENA_ARRAY(reader->arena, 2, FieldValue);
    put_value(reader, field, (FieldValue){.id = "no", .label = "no"});
    put_value(reader, field, (FieldValue){.id = "yes", .label = "yes"});
}

static void read_values(ProfileReader *reader, const XmlNode *node, Field *field) {
    size_t count = attr_children(node, "value");
    bool lists = field->type == FIELD_CHOICE || field->type == FIELD_ORDERED;
    if (lists != (count > 0)) {
        diag_report(reader->diagnostics, RULE_PROFILE, node->place, NULL,
                    lists ? "field '%s' is a choice without values" : "field '%s' lists values but is not a choice",
                    field->id);
        return;
    }
    if (field->type == FIELD_YESNO) profile_yes_no_values(reader, field);
    if (!lists) return;
    field->values = ARENA_ARRAY(reader->arena, count, FieldValue);
    const XmlNode *value = xml_child(node, "value");
    for (; value; value = xml_next(value, "value")) profile_add_value(reader, field, value);
}

/* ---- declaration ---- */

static void read_range(ProfileReader *reader, const XmlNode *node, Field *field) {
    double least = -INFINITY, most = INFINITY;
    if (field->type == FIELD_CLOCK) least = 0, most = CLOCK_MOST_SECONDS;
    if (field->type == FIELD_DISTANCE) least = 1, most = DISTANCE_MOST_YARDS;
    field->low = attr_number(node, "low", least, reader->diagnostics);
    field->high = attr_number(node, "high", most, reader->diagnostics);
    field->step = attr_number(node, "step", field->type == FIELD_NUMBER ? 1 : 0, reader->diagnostics);
    if (field->low > field->high) {
        diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "low"), NULL,
                    "the low end of field '%s' is above its high end", field->id);
    }
    if (field->step < 0) {
        diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "step"), NULL,
                    "the step of field '%s' is negative", field->id);
    }
}

static void read_charted(ProfileReader *reader, const XmlNode *node, Field *field) {
    if (!profile_read_type(reader, node, &field->type)) return;
    field->required = attr_yes(node, "required");
    field->exception = attr_yes(node, "exception");
    field->when_source = xml_value(node, "when");
    read_range(reader, node, field);
    read_values(reader, node, field);
    if (field->exception && !is_choice(field->type)) {
        diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "exception"), NULL,
                    "only a choice or a yes-no field can be marked when it happens, not '%s'", field->id);
    }
}

static void declare(ProfileReader *reader, const XmlNode *node, bool common) {
    Profile *profile = reader->profile;
    size_t index = profile->field_count;
    const char *id = attr_text(node, "id", "");
    int known = profile_field(profile, id);
    if (known >= 0 && common && profile_join_field(reader, node, known)) return;
    Place first = known >= 0 ? profile->fields[known].place : node->place;
    if (!profile_take_id(reader, reader->names->fields, node, (int)index, first)) return;
    Field *field = &profile->fields[index];
    field->id = id;
    field->label = attr_text(node, "label", id);
    field->says = profile_says(reader, node);
    field->place = node->place;
    field->from = -1;
    reader->declarations[index] = (Declaration){.node = node, .common = common};
    profile->field_count++;
    if (strcmp(node->name, "derived") == 0)
        profile_read_derived(reader, node, field);
    else
        read_charted(reader, node, field);
}

static size_t count_values(const ProfileReader *reader) {
    size_t count = 0;
    for (size_t i = 0; i < reader->part_count; i++) count += attr_children(reader->parts[i].node, "value");
    return count;
}

static bool within_bounds(ProfileReader *reader, size_t fields, size_t words) {
    const XmlNode *root = reader->roots[0];
    if (fields > PROFILE_MOST_FIELDS) {
        diag_report(reader->diagnostics, RULE_PROFILE, root->place, NULL,
                    "a profile has at most %d fields, this has %zu", PROFILE_MOST_FIELDS, fields);
    }
    if (words > PROFILE_MOST_WORDS) {
        diag_report(reader->diagnostics, RULE_PROFILE, root->place, NULL,
                    "a profile has at most %d values, this has %zu", PROFILE_MOST_WORDS, words);
    }
    return fields <= PROFILE_MOST_FIELDS && words <= PROFILE_MOST_WORDS;
}

static void declare_all(ProfileReader *reader) {
    for (size_t i = 0; i < reader->part_count; i++) {
        const ProfilePart *part = &reader->parts[i];
        bool field = strcmp(part->node->name, "field") == 0 || strcmp(part->node->name, "derived") == 0;
        if (field) declare(reader, part->node, part->common);
    }
}

/* ---- what needs other fields ---- */

/* "goal" is read as the yards left, which the spot tells: the field named by `of`, or the first spot field. */
static void connect_distance(ProfileReader *reader, Field *field, const XmlNode *node) {
    Profile *profile = reader->profile;
    if (xml_value(node, "of")) field->from = profile_find_field(reader, node, "of");
    for (size_t i = 0; field->from < 0 && !xml_value(node, "of") && i < profile->field_count; i++) {
        if (profile->fields[i].type == FIELD_SPOT) field->from = (int)i;
    }
    if (field->from >= 0 && profile->fields[field->from].type != FIELD_SPOT) {
        diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "of"), NULL,
                    "'%s' is not a spot, so '%s' cannot be counted from it", profile->fields[field->from].id,
                    field->id);
    }
}

static void connect_all(ProfileReader *reader) {
    Profile *profile = reader->profile;
    for (size_t i = 0; i < profile->field_count; i++) {
        Field *field = &profile->fields[i];
        if (field->derived != DERIVED_NONE)
            profile_connect_derived(reader, field, reader->declarations[i].node);
        else if (field->type == FIELD_DISTANCE)
            connect_distance(reader, field, reader->declarations[i].node);
    }
}

void profile_read_fields(ProfileReader *reader) {
    Profile *profile = reader->profile;
    size_t fields = profile_count(reader, "field") + profile_count(reader, "derived");
    size_t words = count_values(reader) + 2;
    if (!within_bounds(reader, fields, words)) return;
    profile->fields = ARENA_ARRAY(reader->arena, fields, Field);
    profile->words = ARENA_ARRAY(reader->arena, words, const char *);
    reader->declarations = ARENA_ARRAY(reader->arena, fields, Declaration);
    profile->no = intern(reader, "no");
    profile->yes = intern(reader, "yes");
    declare_all(reader);
    connect_all(reader);
}
