/* Fields that several sets of a profile declare: one vocabulary, so that a run's scheme is coded once, whether the
 * player carries or blocks. */
#include <string.h>

#include "source/profile_parts.h"

/* ---- the same field? ---- */

static bool differs(ProfileReader *reader, const Field *field, Place place, const char *what) {
    diag_report(reader->diagnostics, RULE_PROFILE, place, NULL, "field '%s' is declared by two sets with %s", field->id,
                what);
    diag_also(reader->diagnostics, field->place, "the other is here");
    return false;
}

static bool same_type(ProfileReader *reader, const XmlNode *node, const Field *field) {
    FieldType type;
    if (!profile_read_type(reader, node, &type)) return false;
    return type == field->type || differs(reader, field, xml_value_place(node, "type"), "different types");
}

/* None listed: those of the first. That the first lists none has been told. */
static bool same_values(ProfileReader *reader, const XmlNode *node, const Field *field) {
    const XmlNode *value = xml_child(node, "value");
    if (!value || !field->value_count) return true;
    for (size_t i = 0; i < field->value_count; i++) {
        if (!value) return differs(reader, field, node->place, "fewer values");
        if (strcmp(attr_text(value, "id", ""), field->values[i].id) != 0)
            return differs(reader, field, xml_value_place(value, "id"), "different values");
        value = xml_next(value, "value");
    }
    return !value || differs(reader, field, value->place, "more values");
}

static bool same_number(ProfileReader *reader, const XmlNode *node, const Field *field, const char *attribute,
                        double number) {
    if (!xml_value(node, attribute) || attr_number(node, attribute, number, reader->diagnostics) == number) return true;
    return differs(reader, field, xml_value_place(node, attribute), "different ranges");
}

static bool may_be_marked(ProfileReader *reader, const XmlNode *node, const Field *field) {
    if (!attr_yes(node, "exception") || field->value_count) return true;
    return differs(reader, field, xml_value_place(node, "exception"), "no choice that could be marked when it happens");
}

static bool same_range(ProfileReader *reader, const XmlNode *node, const Field *field) {
    return same_number(reader, node, field, "low", field->low) &&
           same_number(reader, node, field, "high", field->high) &&
           same_number(reader, node, field, "step", field->step);
}

bool profile_join_field(ProfileReader *reader, const XmlNode *node, int known) {
    Field *field = &reader->profile->fields[known];
    Declaration *first = &reader->declarations[known];
    bool charted = field->derived == DERIVED_NONE && strcmp(node->name, "field") == 0;
    if (!charted || !first->common) return false;
    bool same = same_type(reader, node, field) && same_values(reader, node, field) && same_range(reader, node, field) &&
                may_be_marked(reader, node, field);
    if (!same) return true;
    Declaration *last = first;
    while (last->next) last = last->next;
    last->next = ARENA_NEW(reader->arena, Declaration);
    *last->next = (Declaration){.node = node, .common = true};
    field->required |= attr_yes(node, "required");
    field->exception |= attr_yes(node, "exception");
    return true;
}

/* ---- where it applies ---- */

/* "(a) or (b)", or NULL when one declaration applies always. */
static const char *either(ProfileReader *reader, const Declaration *declared) {
    const char *all = NULL;
    for (; declared; declared = declared->next) {
        const char *when = xml_value(declared->node, "when");
        if (!when) return NULL;
        all = all ? arena_printf(reader->arena, "%s or (%s)", all, when) : arena_printf(reader->arena, "(%s)", when);
    }
    return all;
}

/* Each condition is compiled where it stands, so that its faults are told there. */
void profile_compile_when(ProfileReader *reader, Field *field, const Declaration *declared) {
    size_t errors = diag_errors(reader->diagnostics);
    const Declaration *at = declared;
    do {
        field->when = profile_compile(reader, at->node, "when", EXPR_SELECTION);
        at = at->next;
    } while (at);
    if (!declared->next || diag_errors(reader->diagnostics) > errors) return;
    field->when = NULL;
    field->when_source = either(reader, declared);
    if (!field->when_source) return;
    field->when = expr_compile(reader->arena, reader->profile, reader->profile->field_count, EXPR_SELECTION,
                               field->when_source, xml_value_place(declared->node, "when"), reader->diagnostics);
}
