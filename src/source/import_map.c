/* What a map says for each field, compiled against the table and the profile. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "source/attributes.h"
#include "source/dossier_parts.h"
#include "source/import_parts.h"

/* ---- helpers ---- */

int import_column(Import *import, const XmlNode *node, const char *attribute) {
    const Table *table = import->table;
    const char *title = xml_value(node, attribute);
    int column = table_column(table, title);
    if (column >= 0) return column;
    const char *hint = NAMES_HINT(import->arena, title, table->columns, table->column_count);
    diag_report(import->diagnostics, RULE_IMPORT_MAP, xml_value_place(node, attribute), hint,
                "the table has no column '%s'", title);
    return -1;
}

const Expr *import_compile(Import *import, const XmlNode *node, const char *attribute, ExprKind kind) {
    return expr_compile(import->arena, &import->columns_profile, import->columns_profile.field_count, kind,
                        xml_value(node, attribute), xml_value_place(node, attribute), import->diagnostics);
}

const uint8_t *import_truths(Import *import, const Expr *expr) {
    size_t count = import->table->row_count;
    uint8_t *truth = ARENA_ARRAY(import->arena, count, uint8_t);
    expr_select(expr, &import->columns, 0, count, truth);
    return truth;
}

/* ---- cases ---- */

/* A text that the map itself writes must be a value of the field. */
static bool check_text(Import *import, const MapTarget *target, const XmlNode *node, const char *attribute) {
    double number;
    const Field *field = &import->profile->fields[target->field];
    const char *text = xml_value(node, attribute);
    if (target->to_goal || charted_read(import->profile, field, text, &number) == VALUE_FINE) return true;
    diag_report(import->diagnostics, RULE_IMPORT_MAP, xml_value_place(node, attribute),
                charted_hint(import->arena, field, text), "'%s' cannot be '%s'", field->id, text);
    return false;
}

static bool read_calc(Import *import, const XmlNode *node, MapCase *one) {
    one->calc = import_compile(import, node, "calc", EXPR_ARITHMETIC);
    if (!one->calc) return false;
    size_t count = import->table->row_count;
    double *number = ARENA_ARRAY(import->arena, count, double);
    uint8_t *state = ARENA_ARRAY(import->arena, count, uint8_t);
    expr_values(one->calc, &import->columns, 0, count, number, state);
    one->number = number;
    one->state = state;
    one->kind = CASE_CALC;
    return true;
}

/* What `node` writes: a value, a column or arithmetic. */
static bool read_content(Import *import, const MapTarget *target, const XmlNode *node, MapCase *one) {
    one->text = xml_value(node, "value");
    if (one->text) {
        one->kind = CASE_TEXT;
        return check_text(import, target, node, "value");
    }
    if (xml_value(node, "calc")) return read_calc(import, node, one);
    if (!xml_value(node, "column")) return true;
    int column = import_column(import, node, "column");
    one->kind = CASE_COLUMN;
    one->column = column < 0 ? 0 : (size_t)column;
    return column >= 0;
}

static bool read_case(Import *import, MapTarget *target, const XmlNode *node) {
    MapCase *one = &target->cases[target->case_count++];
    if (xml_value(node, "test")) {
        one->test = import_compile(import, node, "test", EXPR_SELECTION);
        if (!one->test) return false;
        one->truth = import_truths(import, one->test);
    }
    return read_content(import, target, node, one);
}

static bool read_word(Import *import, MapTarget *target, const XmlNode *node) {
    MapWord *word = &target->words[target->word_count++];
    *word = (MapWord){xml_value(node, "from"), xml_value(node, "to")};
    return !word->to || check_text(import, target, node, "to");
}

static bool read_cases(Import *import, MapTarget *target, const XmlNode *node) {
    size_t whens = attr_children(node, "when"), otherwises = attr_children(node, "otherwise");
    bool good = true;
    target->cases = ARENA_ARRAY(import->arena, whens + otherwises + 1, MapCase);
    target->words = ARENA_ARRAY(import->arena, attr_children(node, "value"), MapWord);
    for (const XmlNode *child = node->first; child; child = child->next) {
        if (!child->name) continue;
        bool word = text_equal(child->name, "value");
        good = (word ? read_word(import, target, child) : read_case(import, target, child)) && good;
    }
    return read_content(import, target, node, &target->cases[target->case_count++]) && good;
}

/* ---- targets ---- */

static bool field_given(const Import *import, int field) {
    for (size_t i = 0; i < import->target_count; i++) {
        if (import->targets[i].field == field) return true;
    }
    return false;
}

static bool read_target(Import *import, const XmlNode *node) {
    const Profile *profile = import->profile;
    const char *id = xml_value(node, "field");
    Place place = xml_value_place(node, "field");
    int field = profile_field(profile, id);
    if (field < 0 || profile->fields[field].derived != DERIVED_NONE) {
        const char *hint = NAMES_HINT(import->arena, id, profile->fields, profile->field_count);
        diag_report(import->diagnostics, RULE_IMPORT_MAP, place, field < 0 ? hint : NULL,
                    field < 0 ? "a %s is not charted by '%s'" : "a %s has '%s' worked out from other fields",
                    profile->id, id);
        return false;
    }
    if (field_given(import, field)) {
        diag_report(import->diagnostics, RULE_IMPORT_MAP, place, NULL, "'%s' is filled twice", id);
        return false;
    }
    MapTarget *target = &import->targets[import->target_count++];
    *target = (MapTarget){.field = field, .to_goal = xml_value(node, "from") != NULL};
    if (target->to_goal && profile->fields[field].type != FIELD_SPOT) {
        diag_report(import->diagnostics, RULE_IMPORT_MAP, xml_value_place(node, "from"), NULL, "'%s' is not a spot",
                    id);
        return false;
    }
    return read_cases(import, target, node);
}

static int by_field(const void *left, const void *right) {
    const MapTarget *a = left, *b = right;
    return (a->field > b->field) - (a->field < b->field);
}

static bool read_keys(Import *import) {
    const XmlNode *player = xml_child(import->map, "player");
    bool has_one = xml_value(player, "one") != NULL;
    int one = has_one ? import_column(import, player, "one") : (int)import->table->column_count;
    int game = import_column(import, xml_child(import->map, "game"), "column");
    int number = import_column(import, xml_child(import->map, "chart"), "number");
    if (one < 0 || game < 0 || number < 0) return false;
    import->one = (size_t)one;
    import->game = (size_t)game;
    import->number = (size_t)number;
    return true;
}

bool import_read_map(Import *import) {
    bool good = read_keys(import);
    import->targets = ARENA_ARRAY(import->arena, attr_children(import->map, "to"), MapTarget);
    for (const XmlNode *node = xml_child(import->map, "to"); node; node = xml_next(node, "to")) {
        good = read_target(import, node) && good;
    }
    qsort(import->targets, import->target_count, sizeof *import->targets, by_field);
    return good;
}
