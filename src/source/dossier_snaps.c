/* The charted attributes of a snap, into the columns. */
#include <string.h>

#include "base/text.h"
#include "source/dossier_parts.h"

static Place place_of_value(const XmlNode *node, const XmlAttribute *attribute) {
    size_t length = attribute->value_length ? attribute->value_length : 1;
    return (Place){node->place.text, attribute->value_at, length};
}

static Place place_of_name(const XmlNode *node, const XmlAttribute *attribute) {
    return (Place){node->place.text, attribute->name_at, strlen(attribute->name)};
}

/* Charted fields only: a derived one is no help to a charter. */
static size_t charted_ids(DossierReader *reader, const char **ids) {
    const Profile *profile = reader->profile;
    size_t count = 0;
    for (size_t i = 0; i < profile->field_count; i++) {
        if (profile->fields[i].derived == DERIVED_NONE) ids[count++] = profile->fields[i].id;
    }
    return count;
}

static void excuse(DossierReader *reader, size_t row, const char *field) {
    if (reader->excuse_count == XML_MOST_PROBLEMS) return;
    reader->excuses[reader->excuse_count++] = (Excuse){row, profile_field(reader->profile, field)};
}

static const char *report_misspelt(DossierReader *reader, const XmlNode *node, const XmlAttribute *attribute) {
    const char **ids = ARENA_ARRAY(reader->arena, reader->profile->field_count, const char *);
    size_t count = charted_ids(reader, ids);
    const char *nearest = text_nearest(attribute->name, (const char *const *)ids, count);
    diag_report(reader->diagnostics, RULE_FIELD_UNKNOWN, place_of_name(node, attribute),
                nearest ? arena_printf(reader->arena, "did you mean '%s'?", nearest) : NULL,
                "a %s is not charted by '%s'", reader->profile->id, attribute->name);
    return nearest;
}

static void report_unknown(DossierReader *reader, ChartRows *rows, const XmlNode *node, const XmlAttribute *attribute,
                           size_t row) {
    if (!dossier_may_report(reader)) return;
    if (profile_field(reader->profile, attribute->name) < 0) {
        const char *nearest = report_misspelt(reader, node, attribute);
        if (nearest && !rows->second) excuse(reader, row, nearest);
    } else {
        diag_report(reader->diagnostics, RULE_FIELD_UNKNOWN, place_of_name(node, attribute), NULL,
                    "'%s' is worked out from other fields and cannot be charted", attribute->name);
    }
}

static void report_fault(DossierReader *reader, const XmlNode *node, const XmlAttribute *attribute, const Field *field,
                         ValueFault fault) {
    if (!dossier_may_report(reader)) return;
    Rule rule = fault == VALUE_WRONG ? RULE_FIELD_VALUE : RULE_FIELD_RANGE;
    diag_report(reader->diagnostics, rule, place_of_value(node, attribute),
                charted_hint(reader->arena, field, attribute->value),
                field->value_count ? "'%s' has no value '%s'" : "'%s' cannot be '%s'", field->id, attribute->value);
}

static void take(DossierReader *reader, ChartRows *rows, const XmlNode *node, const XmlAttribute *attribute, size_t row,
                 int index) {
    const Field *field = &reader->profile->fields[index];
    Column *column = &rows->columns->columns[index];
    rows->snaps[row].texts[index] = attribute->value;
    double number;
    ValueFault fault = charted_read(reader->profile, field, attribute->value, &number);
    if (fault != VALUE_FINE) {
        report_fault(reader, node, attribute, field, fault);
        return;
    }
    column->number[row] = number;
    column->state[row] = VALUE_KNOWN;
}

void dossier_read_snap(DossierReader *reader, ChartRows *rows, const XmlNode *node, size_t row) {
    for (size_t i = 0; i < node->attribute_count; i++) {
        const XmlAttribute *attribute = &node->attributes[i];
        int field = profile_field(reader->profile, attribute->name);
        if (field >= 0 && reader->profile->fields[field].derived == DERIVED_NONE) {
            take(reader, rows, node, attribute, row, field);
        } else if (strcmp(attribute->name, "n") != 0) {
            report_unknown(reader, rows, node, attribute, row);
        }
    }
}
