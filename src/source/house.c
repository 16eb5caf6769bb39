#include "source/house.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/diag_explain.h"
#include "source/attributes.h"
#include "source/names.h"

/* Grades are written in decimals, which doubles only come near. */
static const double grade_slack = 1e-9;

static const struct {
    const char *word;
    SuccessRule rule;
} success_rules[] = {{"40-60-100", SUCCESS_40_60_100}, {"50-70-100", SUCCESS_50_70_100}};

bool house_success_rule(const char *word, SuccessRule *rule) {
    for (size_t i = 0; i < sizeof success_rules / sizeof *success_rules; i++) {
        if (strcmp(success_rules[i].word, word) != 0) continue;
        *rule = success_rules[i].rule;
        return true;
    }
    return false;
}

const GradeWord *house_grade_word(const House *house, double grade) {
    const GradeWord *found = NULL;
    for (size_t i = 0; i < house->word_count && house->words[i].from <= grade + grade_slack; i++) {
        found = &house->words[i];
    }
    return found;
}

const Evaluator *house_evaluator(const House *house, const char *id) {
    for (size_t i = 0; i < house->evaluator_count; i++) {
        if (strcmp(house->evaluators[i].id, id) == 0) return &house->evaluators[i];
    }
    return NULL;
}

/* ---- reading ---- */

typedef struct HouseReader {
    Arena *arena;
    Diagnostics *diagnostics;
    House *house;
} HouseReader;

static void complain(HouseReader *reader, const XmlNode *node, const char *attribute, const char *message) {
    diag_report(reader->diagnostics, RULE_GRADE_SCALE, xml_value_place(node, attribute), NULL, "%s", message);
}

static void check_scale(HouseReader *reader, const XmlNode *node) {
    const House *house = reader->house;
    if (house->grade_low >= house->grade_high)
        complain(reader, node, "low", "the scale's low end is not below its high end");
    if (house->grade_step <= 0) complain(reader, node, "step", "the step of a grade scale is above 0");
    if (house->overall_step <= 0) complain(reader, node, "overall-step", "the step of a grade scale is above 0");
    if (house->grade_bar < house->grade_low || house->grade_bar > house->grade_high) {
        complain(reader, node, "bar", "the starter's bar is not on the scale");
    }
}

static int by_from(const void *a, const void *b) {
    double left = ((const GradeWord *)a)->from, right = ((const GradeWord *)b)->from;
    return (left > right) - (left < right);
}

static void read_words(HouseReader *reader, const XmlNode *node) {
    House *house = reader->house;
    house->words = ARENA_ARRAY(reader->arena, attr_children(node, "word"), GradeWord);
    for (const XmlNode *word = xml_child(node, "word"); word; word = xml_next(word, "word")) {
        double from = attr_number(word, "from", house->grade_low, reader->diagnostics);
        if (from < house->grade_low || from > house->grade_high) {
            complain(reader, word, "from", "the word begins outside the scale");
        }
        for (size_t i = 0; i < house->word_count; i++) {
            if (house->words[i].from == from) complain(reader, word, "from", "two words begin at the same grade");
        }
        house->words[house->word_count++] =
            (GradeWord){from, attr_text(word, "word", ""), xml_text(reader->arena, word)};
    }
    qsort(house->words, house->word_count, sizeof *house->words, by_from);
}

static void read_scale(HouseReader *reader, const XmlNode *root) {
    House *house = reader->house;
    const XmlNode *node = xml_child(root, "grade-scale");
    if (!node) {
        diag_report(reader->diagnostics, RULE_ELEMENT_MISSING, root->place, NULL, "a house needs a grade-scale");
        return;
    }
    house->scale_name = attr_text(node, "name", "");
    house->grade_low = attr_number(node, "low", 1, reader->diagnostics);
    house->grade_high = attr_number(node, "high", 10, reader->diagnostics);
    house->grade_step = attr_number(node, "step", 1, reader->diagnostics);
    house->overall_step = attr_number(node, "overall-step", house->grade_step, reader->diagnostics);
    house->grade_bar = attr_number(node, "bar", house->grade_low, reader->diagnostics);
    check_scale(reader, node);
    read_words(reader, node);
}

static bool take_id(HouseReader *reader, Names *names, const XmlNode *node) {
    const char *id = attr_text(node, "id", "");
    if (names_add(names, id, 0) < 0) return true;
    diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, "id"), NULL, "the id '%s' is used twice",
                id);
    return false;
}

static void read_people(HouseReader *reader, const XmlNode *root) {
    House *house = reader->house;
    size_t most = attr_children(root, "evaluator");
    Names *names = names_new(reader->arena, most);
    house->evaluators = ARENA_ARRAY(reader->arena, most, Evaluator);
    for (const XmlNode *node = xml_child(root, "evaluator"); node; node = xml_next(node, "evaluator")) {
        if (!take_id(reader, names, node)) continue;
        const char *id = attr_text(node, "id", "");
        house->evaluators[house->evaluator_count++] =
            (Evaluator){id, attr_text(node, "name", id), attr_text(node, "role", NULL)};
    }
}

static void read_whens(HouseReader *reader, const XmlNode *root) {
    House *house = reader->house;
    size_t most = attr_children(root, "when");
    Names *names = names_new(reader->arena, most);
    house->whens = ARENA_ARRAY(reader->arena, most, WhenWord);
    for (const XmlNode *node = xml_child(root, "when"); node; node = xml_next(node, "when")) {
        if (!take_id(reader, names, node)) continue;
        house->whens[house->when_count++] = (WhenWord){attr_text(node, "id", ""), xml_text(reader->arena, node)};
    }
}

/* ---- scales of its own ---- */

/* Scales stand in the house's folder or below it. */
static void read_own_scale(HouseReader *reader, const XmlNode *node, const char *house_path, HouseScale *scale) {
    const char *href = attr_text(node, "href", "");
    const char *slash = strrchr(house_path, '/');
    int folder = slash ? (int)(slash + 1 - house_path) : 0;
    *scale = (HouseScale){.profile = attr_text(node, "profile", ""), .place = xml_value_place(node, "href")};
    scale->path = arena_printf(reader->arena, "%.*s%s", folder, house_path, href);
    const char *why = attr_unsafe_path(href);
    if (why) {
        diag_report(reader->diagnostics, RULE_XML_UNSAFE, scale->place, why,
                    "the scale is not below the house's own folder");
    } else if (access(scale->path, F_OK) != 0) {
        diag_report(reader->diagnostics, RULE_TEMPLATE_MISSING, scale->place, NULL, "there is no scale file '%s'",
                    scale->path);
    }
}

static void read_own_scales(HouseReader *reader, const XmlNode *root, const Templates *templates, const char *path) {
    House *house = reader->house;
    size_t most = attr_children(root, "scale");
    Names *names = names_new(reader->arena, most);
    house->scales = ARENA_ARRAY(reader->arena, most, HouseScale);
    for (const XmlNode *node = xml_child(root, "scale"); node; node = xml_next(node, "scale")) {
        const char *profile = attr_text(node, "profile", "");
        Place place = xml_value_place(node, "profile");
        if (names_add(names, profile, 0) >= 0) {
            diag_report(reader->diagnostics, RULE_DUPLICATE, place, NULL, "the profile '%s' has two scales", profile);
        } else if (templates_path(reader->arena, templates->folder, "profiles", profile, place, reader->diagnostics)) {
            read_own_scale(reader, node, path, &house->scales[house->scale_count++]);
        }
    }
}

/* ---- severities of rules ---- */

static void report_rule(HouseReader *reader, const XmlNode *node, const char *id) {
    const char *nearest = diag_nearest_rule(id);
    diag_report(reader->diagnostics, RULE_REFERENCE, xml_value_place(node, "id"),
                nearest ? arena_printf(reader->arena, "did you mean '%s'?", nearest) : "check --list-rules prints all",
                "there is no rule '%s'", id);
}

static Severity severity_of(const char *word) {
    for (int severity = SEVERITY_NOTE; severity < SEVERITY_ERROR; severity++) {
        if (strcmp(diag_severity_word((Severity)severity), word) == 0) return (Severity)severity;
    }
    return SEVERITY_ERROR;
}

static void read_rule(HouseReader *reader, const XmlNode *node, Place *first) {
    House *house = reader->house;
    const char *id = attr_text(node, "id", "");
    Rule rule;
    if (!diag_find_rule(id, &rule)) {
        report_rule(reader, node, id);
    } else if (!diag_may_override(rule)) {
        diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(node, "id"), NULL,
                    "the rule '%s' is an error in every house: figures rest on it", id);
    } else if (first[rule].text) {
        diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, "id"), NULL,
                    "the rule '%s' is given two severities", id);
        diag_also(reader->diagnostics, first[rule], "the first is here");
    } else {
        first[rule] = xml_value_place(node, "id");
        Severity severity = severity_of(attr_text(node, "severity", ""));
        house->rules[house->rule_count++] = (RuleSeverity){rule, severity};
    }
}

static void read_rules(HouseReader *reader, const XmlNode *root) {
    Place *first = ARENA_ARRAY(reader->arena, RULE_COUNT, Place);
    reader->house->rules = ARENA_ARRAY(reader->arena, attr_children(root, "rule"), RuleSeverity);
    for (const XmlNode *node = xml_child(root, "rule"); node; node = xml_next(node, "rule")) {
        read_rule(reader, node, first);
    }
}

void house_set_severities(const House *house, Diagnostics *diagnostics) {
    for (size_t i = 0; i < house->rule_count; i++) {
        diag_set_severity(diagnostics, house->rules[i].rule, house->rules[i].severity);
    }
}

static void read_cautions(HouseReader *reader, const XmlNode *root) {
    House *house = reader->house;
    const XmlNode *readers = xml_child(root, "readers");
    if (readers) house->readers = xml_text(reader->arena, readers);
    const XmlNode *film = xml_child(root, "film");
    if (film) house->film_base = attr_text(film, "base", NULL);
    for (const XmlNode *node = xml_child(root, "caution"); node; node = xml_next(node, "caution")) {
        const char *kind = attr_text(node, "kind", "");
        const char **caution = strcmp(kind, "medical") == 0    ? &house->caution_medical
                               : strcmp(kind, "personal") == 0 ? &house->caution_personal
                                                               : &house->caution_use;
        *caution = xml_text(reader->arena, node);
    }
}

/* "#123f52" */
static bool tint_of(const char *text, unsigned *tint) {
    if (text[0] != '#' || strspn(text + 1, "0123456789abcdefABCDEF") != 6 || text[7]) return false;
    *tint = (unsigned)strtoul(text + 1, NULL, 16);
    return true;
}

static void read_level(HouseReader *reader, const XmlNode *root) {
    static const char *const WORDS[LEVEL_COUNT] = {"college", "professional", "high-school"};
    const char *word = attr_text(root, "level", WORDS[LEVEL_COLLEGE]);
    for (int i = 0; i < LEVEL_COUNT; i++) {
        if (strcmp(WORDS[i], word) == 0) reader->house->level = (FieldLevel)i;
    }
}

static void read_head(HouseReader *reader, const XmlNode *root) {
    House *house = reader->house;
    house->name = attr_text(root, "name", "");
    house->place = root->place;
    read_level(reader, root);
    const char *success = attr_text(root, "success", "40-60-100");
    if (!house_success_rule(success, &house->success)) {
        diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(root, "success"),
                    "it is 40-60-100 or 50-70-100", "there is no rule of success '%s'", success);
    }
    const char *tint = attr_text(root, "tint", "#000000");
    if (!tint_of(tint, &house->tint)) {
        diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(root, "tint"),
                    "write it as #123f52: red, green and blue in two digits each", "'%s' is not a colour", tint);
    }
}

const House *house_load(Arena *arena, const Templates *templates, const char *path, Diagnostics *diagnostics) {
    size_t errors = diag_errors(diagnostics);
    const XmlNode *root = xml_load(arena, templates->schemas, XML_HOUSE, path, diagnostics);
    if (!root) return NULL;
    HouseReader reader = {arena, diagnostics, ARENA_NEW(arena, House)};
    read_head(&reader, root);
    read_scale(&reader, root);
    read_people(&reader, root);
    read_whens(&reader, root);
    read_cautions(&reader, root);
    read_own_scales(&reader, root, templates, path);
    read_rules(&reader, root);
    return diag_errors(diagnostics) > errors ? NULL : reader.house;
}
