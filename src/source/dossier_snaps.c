/* The charted attributes of a snap, into the columns. */
#include <string.h>

#include "source/dossier_parts.h"

static Place place_of_value(const XmlNode *node, const XmlAttribute *attribute) {
    size_t length = attribute->value_length ? attribute->value_length : 1;
    return (Place){node->place.text, attribute->value_at, length};
}

static Place place_of_name(const XmlNode *node, const XmlAttribute *attribute) {
    return (Place){node->place.text, attribute->name_at, strlen(attribute->name)};
}

/* The ids of charted fields, for hints: a derived field is no help to a charter. */
static const char *field_hint(DossierReader *reader, const char *word) {
    const Profile *profile = reader->profile;
    const char **ids = ARENA_ARRAY(reader->arena, profile->field_count, const char *);
    size_t count = 0;
    for (size_t i = 0; i < profile->field_count; i++) {
        if (profile->fields[i].derived == DERIVED_NONE) ids[count++] = profile->fields[i].id;
    }
    return names_hint(reader->arena, word, ids, count, sizeof *ids);
}

static void report_unknown(DossierReader *reader, const XmlNode *node, const XmlAttribute *attribute, int field) {
    if (!dossier_may_report(reader)) return;
    if (field >= 0) {
        diag_report(reader->diagnostics, RULE_FIELD_UNKNOWN, place_of_name(node, attribute), NULL,
                    "'%s' is worked out from other fields and cannot be charted", attribute->name);
        return;
    }
    diag_report(reader->diagnostics, RULE_FIELD_UNKNOWN, place_of_name(node, attribute),
                field_hint(reader, attribute->name), "a %s is not charted by '%s'", reader->profile->id,
                attribute->name);
}

static void report_fault(DossierReader *reader, const XmlNode *node, const XmlAttribute *attribute, const Field *field,
                         ValueFault fault) {
    if (!dossier_may_report(reader)) return;
    const char *hint = charted_hint(reader->arena, field, attribute->value);
    bool wrong = fault == VALUE_WRONG;
    diag_report(reader->diagnostics, wrong ? RULE_FIELD_VALUE : RULE_FIELD_RANGE, place_of_value(node, attribute), hint,
                wrong ? "'%s' has no value '%s'" : "'%s' cannot be %s", field->id, attribute->value);
}

static void take(DossierReader *reader, const XmlNode *node, const XmlAttribute *attribute, size_t row, int index) {
    const Field *field = &reader->profile->fields[index];
    Column *column = &reader->dossier->columns.columns[index];
    reader->dossier->snaps[row].texts[index] = attribute->value;
    double number;
    ValueFault fault = charted_read(reader->profile, field, attribute->value, &number);
    if (fault != VALUE_FINE) {
        report_fault(reader, node, attribute, field, fault);
        return;
    }
    column->number[row] = number;
    column->state[row] = VALUE_KNOWN;
}

void dossier_read_snap(DossierReader *reader, const XmlNode *node, size_t row) {
    for (size_t i = 0; i < node->attribute_count; i++) {
        const XmlAttribute *attribute = &node->attributes[i];
        int field = profile_field(reader->profile, attribute->name);
        if (field >= 0 && reader->profile->fields[field].derived == DERIVED_NONE) {
            take(reader, node, attribute, row, field);
        } else if (strcmp(attribute->name, "n") != 0) {
            report_unknown(reader, node, attribute, field);
        }
    }
}
