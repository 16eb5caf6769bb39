/* Derived fields: what a snap shows without being charted. */
#include <math.h>
#include <string.h>

#include "source/lists.h"
#include "source/profile_parts.h"

static const struct {
    const char *attribute; /* the one that a derived field of this kind has */
    DerivedKind kind;
    FieldType type;
} derived_kinds[] = {
    {"test", DERIVED_TEST, FIELD_YESNO},  {"map", DERIVED_MAP, FIELD_CHOICE},   {"band", DERIVED_BAND, FIELD_ORDERED},
    {"calc", DERIVED_CALC, FIELD_NUMBER}, {"read", DERIVED_READ, FIELD_NUMBER},
};

enum { DERIVED_KINDS = sizeof derived_kinds / sizeof *derived_kinds };

static const char *attribute_of(DerivedKind kind) {
    for (size_t i = 0; i < DERIVED_KINDS; i++) {
        if (derived_kinds[i].kind == kind) return derived_kinds[i].attribute;
    }
    return "";
}

static void read_values(ProfileReader *reader, const XmlNode *node, Field *field) {
    size_t count = attr_children(node, "value");
    bool lists = field->derived == DERIVED_MAP || field->derived == DERIVED_BAND;
    if (lists != (count > 0)) {
        diag_report(reader->diagnostics, RULE_PROFILE, node->place, NULL,
                    lists ? "derived field '%s' has no values" : "derived field '%s' cannot have values", field->id);
        return;
    }
    if (field->derived == DERIVED_TEST) profile_yes_no_values(reader, field);
    if (!lists) return;
    field->values = ARENA_ARRAY(reader->arena, count, FieldValue);
    const XmlNode *value = xml_child(node, "value");
    for (; value; value = xml_next(value, "value")) profile_add_value(reader, field, value);
}

void profile_read_derived(ProfileReader *reader, const XmlNode *node, Field *field) {
    size_t kinds = 0;
    for (size_t i = 0; i < DERIVED_KINDS; i++) {
        if (!xml_value(node, derived_kinds[i].attribute)) continue;
        field->derived = derived_kinds[i].kind;
        field->type = derived_kinds[i].type;
        kinds++;
    }
    field->low = -INFINITY;
    field->high = INFINITY;
    if (kinds != 1) {
        diag_report(reader->diagnostics, RULE_PROFILE, node->place, NULL,
                    "derived field '%s' needs one of test, map, band, calc, read", field->id);
        return;
    }
    read_values(reader, node, field);
}

/* ---- connecting ---- */

static int value_index(const Field *field, const char *id) {
    for (size_t i = 0; i < field->value_count; i++) {
        if (strcmp(field->values[i].id, id) == 0) return (int)i;
    }
    return -1;
}

/* The words of one value's `from`: each must be a value of the field read, and belong to one value only. */
static void map_words(ProfileReader *reader, Field *field, const XmlNode *node, int to) {
    const Field *from = &reader->profile->fields[field->from];
    List list = list_open(reader->arena, node, "from");
    ListWord word;
    while (list_next(&list, &word)) {
        int index = value_index(from, word.id);
        if (index < 0) {
            diag_report(reader->diagnostics, RULE_PROFILE, word.place,
                        NAMES_HINT(reader->arena, word.id, from->values, from->value_count),
                        "field '%s' has no value '%s'", from->id, word.id);
        } else if (field->map[index] >= 0) {
            diag_report(reader->diagnostics, RULE_PROFILE, word.place, NULL, "'%s' is already mapped to '%s'", word.id,
                        field->values[field->map[index]].id);
        } else {
            field->map[index] = to;
        }
    }
}

static void connect_map(ProfileReader *reader, Field *field, const XmlNode *node) {
    const Field *from = &reader->profile->fields[field->from];
    if (from->value_count == 0) {
        diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "map"), NULL,
                    "'%s' is not a choice, so it cannot be mapped", from->id);
        return;
    }
    field->map = ARENA_ARRAY(reader->arena, from->value_count, int);
    for (size_t i = 0; i < from->value_count; i++) field->map[i] = -1;
    int to = 0;
    const XmlNode *value = xml_child(node, "value");
    for (; value; value = xml_next(value, "value")) map_words(reader, field, value, to++);
}

static void check_band(ProfileReader *reader, const Field *field, size_t index, Place place) {
    BandRange band = field->bands[index];
    if (band.low > band.high) {
        diag_report(reader->diagnostics, RULE_PROFILE, place, NULL, "the low end of band '%s' is above its high end",
                    field->values[index].id);
    }
    for (size_t i = 0; i < index; i++) {
        if (field->bands[i].high < band.low || band.high < field->bands[i].low) continue;
        diag_report(reader->diagnostics, RULE_PROFILE, place, NULL, "band '%s' overlaps band '%s'",
                    field->values[index].id, field->values[i].id);
    }
}

static void connect_band(ProfileReader *reader, Field *field, const XmlNode *node) {
    const Field *from = &reader->profile->fields[field->from];
    if (from->value_count > 0 || from->type == FIELD_TEXT) {
        diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "band"), NULL,
                    "'%s' is not a number, so it has no bands", from->id);
        return;
    }
    field->bands = ARENA_ARRAY(reader->arena, field->value_count, BandRange);
    size_t index = 0;
    const XmlNode *value = xml_child(node, "value");
    for (; value && index < field->value_count; value = xml_next(value, "value"), index++) {
        field->bands[index].low = attr_number(value, "low", -INFINITY, reader->diagnostics);
        field->bands[index].high = attr_number(value, "high", INFINITY, reader->diagnostics);
        check_band(reader, field, index, value->place);
    }
}

static void connect_read(ProfileReader *reader, Field *field, const XmlNode *node) {
    const Field *from = &reader->profile->fields[field->from];
    if (from->value_count == 0 && from->type != FIELD_TEXT) return;
    diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "read"), NULL,
                "there is no number behind '%s'", from->id);
}

void profile_connect_derived(ProfileReader *reader, Field *field, const XmlNode *node) {
    if (field->derived == DERIVED_NONE || field->derived == DERIVED_TEST || field->derived == DERIVED_CALC) return;
    field->from = profile_find_field(reader, node, attribute_of(field->derived));
    if (field->from < 0) return;
    if (field->derived == DERIVED_MAP) connect_map(reader, field, node);
    if (field->derived == DERIVED_BAND) connect_band(reader, field, node);
    if (field->derived == DERIVED_READ) connect_read(reader, field, node);
}

/* ---- expressions ---- */

static const Expr *compile_from(ProfileReader *reader, const Field *field, const XmlNode *node) {
    const char *attribute = attribute_of(field->derived);
    if (!xml_value(node, attribute)) {
        diag_report(reader->diagnostics, RULE_PROFILE, node->place, NULL, "an alternative of '%s' needs a '%s'",
                    field->id, attribute);
        return NULL;
    }
    return profile_compile(reader, node, attribute, field->derived == DERIVED_TEST ? EXPR_SELECTION : EXPR_CALC);
}

/* The field's own expression, or its alternative for the house's rule of success. All are compiled, so that a profile
 * is right for every house. */
static void compile_derived(ProfileReader *reader, Field *field, const XmlNode *node) {
    field->expr = compile_from(reader, field, node);
    const XmlNode *other = xml_child(node, "alternative");
    for (; other; other = xml_next(other, "alternative")) {
        const Expr *expr = compile_from(reader, field, other);
        SuccessRule rule;
        if (house_success_rule(attr_text(other, "house", ""), &rule) && rule == reader->success) field->expr = expr;
    }
}

void profile_compile_fields(ProfileReader *reader) {
    Profile *profile = reader->profile;
    for (size_t i = 0; i < profile->field_count; i++) {
        Field *field = &profile->fields[i];
        const Declaration *declared = &reader->declarations[i];
        if (field->derived == DERIVED_NONE) profile_compile_when(reader, field, declared);
        if (field->derived == DERIVED_TEST || field->derived == DERIVED_CALC)
            compile_derived(reader, field, declared->node);
    }
}
