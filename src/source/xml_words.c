#include <string.h>

#include "base/text.h"
#include "source/xml_parts.h"

enum { NAMES_MOST = 16 }; /* names listed in a hint */

typedef struct Teller {
    Arena *arena;
    const Text *text;
    const XmlNode *schema;
    Problems *problems;
    Diagnostics *diagnostics;
} Teller;

/* ---- lists of names ---- */

static const char *name_list(Arena *arena, const char *lead, const char *const *names, size_t count) {
    Buf text = {0};
    buf_puts(&text, lead);
    for (size_t i = 0; i < count && i < NAMES_MOST; i++) {
        const char *before = i == 0 ? "" : i + 1 == count ? " or " : ", ";
        buf_printf(&text, "%s%s", before, names[i]);
    }
    if (count > NAMES_MOST) buf_puts(&text, ", …");
    const char *kept = arena_string(arena, buf_text(&text));
    buf_free(&text);
    return kept;
}

static const char **names_of(Arena *arena, const GrammarList *list) {
    const char **names = ARENA_ARRAY(arena, list->count, const char *);
    for (size_t i = 0; i < list->count; i++) names[i] = list->items[i].name;
    return names;
}

/* "did you mean …?", or all that may stand, or nothing. */
static const char *name_hint(Arena *arena, const char *word, const char *lead, const char *const *names, size_t count) {
    const char *nearest = text_nearest(word, names, count);
    if (nearest) return arena_printf(arena, "did you mean '%s'?", nearest);
    return count ? name_list(arena, lead, names, count) : NULL;
}

/* ---- what a problem is about ---- */

static const XmlNode *node_of(const xmlNode *element) {
    return element->_private;
}

/* As the author wrote it. */
static const char *element_name(const Problem *problem) {
    return node_of(problem->element)->name;
}

static const XmlNode *declaration_of(const Teller *teller, const Problem *problem) {
    return grammar_element(teller->arena, teller->schema, problem->parent, (const char *)problem->element->name);
}

/* ---- attributes ---- */

static void tell_attribute_unknown(const Teller *teller, const Problem *problem) {
    GrammarList list = grammar_attributes(teller->arena, teller->schema, declaration_of(teller, problem));
    const char *hint =
        name_hint(teller->arena, problem->attribute, "it may have ", names_of(teller->arena, &list), list.count);
    diag_report(teller->diagnostics, RULE_ATTRIBUTE_UNKNOWN,
                xml_name_place(node_of(problem->element), problem->attribute), hint, "%s has no attribute '%s'",
                element_name(problem), problem->attribute);
}

static void tell_attribute_missing(const Teller *teller, const Problem *problem) {
    GrammarList list = grammar_attributes(teller->arena, teller->schema, declaration_of(teller, problem));
    const GrammarItem *item = grammar_find(&list, problem->attribute);
    const char *hint = item ? grammar_says(teller->arena, item->declaration) : NULL;
    diag_report(teller->diagnostics, RULE_ATTRIBUTE_MISSING, node_of(problem->element)->place, hint,
                "%s needs an attribute '%s'", element_name(problem), problem->attribute);
}

/* `where`: the attribute or element whose value it is. */
static void tell_value(const Teller *teller, Rule rule, const XmlNode *declaration, Place place, const char *where,
                       const char *value) {
    GrammarType type = grammar_type(teller->arena, teller->schema, declaration);
    if (type.value_count) {
        const char *hint = name_hint(teller->arena, value, "it may be ", type.values, type.value_count);
        diag_report(teller->diagnostics, rule, place, hint, "'%s' is not a value of '%s'", value, where);
    } else if (value[strspn(value, " \t\r\n")] == '\0') {
        diag_report(teller->diagnostics, rule, place, NULL, "'%s' is empty", where);
    } else if (type.says) {
        diag_report(teller->diagnostics, rule, place, NULL, "'%s' in '%s' is not %s", value, where, type.says);
    } else {
        diag_report(teller->diagnostics, rule, place, NULL, "'%s' cannot be a value of '%s'", value, where);
    }
}

static void tell_attribute_value(const Teller *teller, const Problem *problem) {
    GrammarList list = grammar_attributes(teller->arena, teller->schema, declaration_of(teller, problem));
    const GrammarItem *item = grammar_find(&list, problem->attribute);
    const XmlNode *node = node_of(problem->element);
    const char *value = xml_value(node, problem->attribute);
    tell_value(teller, RULE_ATTRIBUTE_VALUE, item ? item->declaration : NULL, xml_value_place(node, problem->attribute),
               problem->attribute, value ? value : "");
}

/* ---- elements and text ---- */

static const XmlNode *text_child(const XmlNode *node) {
    for (const XmlNode *child = node->first; child; child = child->next) {
        if (child->text) return child;
    }
    return NULL;
}

static void tell_text_value(const Teller *teller, const Problem *problem) {
    const XmlNode *node = node_of(problem->element);
    const XmlNode *text = text_child(node);
    tell_value(teller, RULE_CONTENT, declaration_of(teller, problem), text ? text->place : node->place,
               element_name(problem), xml_text(teller->arena, node));
}

static void tell_content(const Teller *teller, const Problem *problem) {
    const XmlNode *node = node_of(problem->element);
    const XmlNode *text = text_child(node);
    GrammarList list = grammar_children(teller->arena, teller->schema, declaration_of(teller, problem));
    const char *hint = grammar_find(&list, "p") ? "put it in a paragraph, <p>…</p>" : NULL;
    if (text) {
        diag_report(teller->diagnostics, RULE_CONTENT, text->place, hint, "text cannot stand here, directly in %s",
                    element_name(problem));
    } else {
        diag_report(teller->diagnostics, RULE_CONTENT, node->place, NULL, "%s cannot hold elements",
                    element_name(problem));
    }
}

/* The element of the same name that stands before it in the same parent. */
static const XmlNode *earlier_twin(const Problem *problem) {
    const XmlNode *own = node_of(problem->element);
    const XmlNode *twin = xml_child(node_of(problem->parent), own->name);
    return twin == own ? NULL : twin;
}

/* Whether `name` is one of the names of "a, b or c". */
static bool lists_name(const char *names, const char *name) {
    size_t length = strlen(name);
    for (const char *at = names; (at = strstr(at, name)); at += length) {
        bool begins = at == names || at[-1] == ' ';
        if (begins && (at[length] == '\0' || at[length] == ',' || at[length] == ' ')) return true;
    }
    return false;
}

const char *xml_missing_before(const Problem *problem, const GrammarList *siblings) {
    const GrammarItem *own = grammar_find(siblings, element_name(problem));
    if (!problem->expected || !own || (own->once && earlier_twin(problem))) return NULL;
    for (size_t i = 0; i < siblings->count; i++) {
        const GrammarItem *item = &siblings->items[i];
        if (!item->required || xml_child(node_of(problem->parent), item->name)) continue;
        if (lists_name(problem->expected, item->name)) return item->name;
    }
    return NULL;
}

static void tell_misplaced(const Teller *teller, const Problem *problem, const GrammarList *siblings) {
    const char *name = element_name(problem), *missing = xml_missing_before(problem, siblings);
    const GrammarItem *item = grammar_find(siblings, name);
    const XmlNode *twin = earlier_twin(problem);
    Place place = node_of(problem->element)->place;
    if (problem->before) {
        diag_report(teller->diagnostics, RULE_ELEMENT_UNKNOWN, place, NULL,
                    "'%s' stands too early: it belongs behind '%s'", name, problem->before);
    } else if (missing) {
        const char *hint = grammar_says(teller->arena, grammar_find(siblings, missing)->declaration);
        diag_report(teller->diagnostics, RULE_ELEMENT_MISSING, place, hint, "%s needs an element '%s' before '%s'",
                    (const char *)problem->parent->name, missing, name);
    } else if (item->once && twin) {
        diag_report(teller->diagnostics, RULE_ELEMENT_UNKNOWN, place, NULL, "'%s' stands twice in %s", name,
                    (const char *)problem->parent->name);
        diag_also(teller->diagnostics, twin->place, "the first is here");
    } else if (problem->expected) {
        diag_report(teller->diagnostics, RULE_ELEMENT_UNKNOWN, place, NULL, "'%s' cannot stand here; expected %s", name,
                    problem->expected);
    } else {
        diag_report(teller->diagnostics, RULE_ELEMENT_UNKNOWN, place, NULL, "'%s' cannot stand here", name);
    }
}

static void tell_element_unexpected(const Teller *teller, const Problem *problem) {
    const char *name = element_name(problem);
    GrammarList list = grammar_children_of(teller->arena, teller->schema, problem->parent);
    if (grammar_find(&list, name)) {
        tell_misplaced(teller, problem, &list);
        return;
    }
    const char *hint = name_hint(teller->arena, name, "it may hold ", names_of(teller->arena, &list), list.count);
    diag_report(teller->diagnostics, RULE_ELEMENT_UNKNOWN, node_of(problem->element)->place, hint,
                "%s has no element '%s'", (const char *)problem->parent->name, name);
}

/* Whether an element was told of that stands in `parent` and is, or was meant to be, the one called `name`. */
static bool told_of(const Teller *teller, const xmlNode *parent, const GrammarList *list, const char *name) {
    for (size_t i = 0; i < teller->problems->count; i++) {
        const Problem *other = &teller->problems->items[i];
        if (other->kind != PROBLEM_ELEMENT_UNEXPECTED || other->parent != parent) continue;
        if (text_equal(element_name(other), name) || text_equal(xml_missing_before(other, list), name)) return true;
        if (text_equal(grammar_nearest(teller->arena, list, element_name(other)), name)) return true;
    }
    return false;
}

static void tell_element_missing(const Teller *teller, const Problem *problem) {
    const XmlNode *node = node_of(problem->element);
    GrammarList list = grammar_children(teller->arena, teller->schema, declaration_of(teller, problem));
    bool found = false;
    for (size_t i = 0; i < list.count; i++) {
        const GrammarItem *item = &list.items[i];
        if (!item->required || xml_child(node, item->name)) continue;
        found = true;
        if (told_of(teller, problem->element, &list, item->name)) continue;
        diag_report(teller->diagnostics, RULE_ELEMENT_MISSING, node->place,
                    grammar_says(teller->arena, item->declaration), "%s needs an element '%s'", element_name(problem),
                    item->name);
    }
    if (found) return;
    diag_report(teller->diagnostics, RULE_ELEMENT_MISSING, node->place, NULL, "%s is not complete; it needs %s",
                element_name(problem), problem->expected ? problem->expected : "more");
}

/* ---- all of them ---- */

typedef void Tell(const Teller *teller, const Problem *problem);

static Tell *const tellers[] = {
    [PROBLEM_ATTRIBUTE_UNKNOWN] = tell_attribute_unknown,
    [PROBLEM_ATTRIBUTE_MISSING] = tell_attribute_missing,
    [PROBLEM_ATTRIBUTE_VALUE] = tell_attribute_value,
    [PROBLEM_ELEMENT_UNEXPECTED] = tell_element_unexpected,
    [PROBLEM_ELEMENT_MISSING] = tell_element_missing,
    [PROBLEM_TEXT_VALUE] = tell_text_value,
    [PROBLEM_CONTENT] = tell_content,
};

/* A misspelt attribute is not also a missing one. */
static void drop_echo(const Teller *teller, const Problem *unknown) {
    GrammarList list = grammar_attributes(teller->arena, teller->schema, declaration_of(teller, unknown));
    const char *meant = grammar_nearest(teller->arena, &list, unknown->attribute);
    for (size_t i = 0; i < teller->problems->count; i++) {
        Problem *other = &teller->problems->items[i];
        if (other->kind != PROBLEM_ATTRIBUTE_MISSING || other->element != unknown->element) continue;
        if (text_equal(other->attribute, meant)) other->dropped = true;
    }
}

/* A value that fails two rules of its type is one mistake; two elements missing before one are two. */
static void drop_repeats(Problems *problems, size_t index) {
    const Problem *problem = &problems->items[index];
    for (size_t i = index + 1; i < problems->count; i++) {
        Problem *other = &problems->items[i];
        if (other->kind != problem->kind || other->element != problem->element) continue;
        if (!text_equal(other->attribute, problem->attribute)) continue;
        if (text_equal(other->expected, problem->expected)) other->dropped = true;
    }
}

/* Text where a paragraph should be is not also a missing paragraph. */
static void drop_missing(Problems *problems, const Problem *content) {
    for (size_t i = 0; i < problems->count; i++) {
        Problem *other = &problems->items[i];
        if (other->kind == PROBLEM_ELEMENT_MISSING && other->element == content->element) other->dropped = true;
    }
}

static void drop_echoes(const Teller *teller) {
    Problems *problems = teller->problems;
    for (size_t i = 0; i < problems->count; i++) {
        drop_repeats(problems, i);
        const Problem *problem = &problems->items[i];
        if (problem->kind == PROBLEM_ATTRIBUTE_UNKNOWN) drop_echo(teller, problem);
        if (problem->kind == PROBLEM_CONTENT) drop_missing(problems, problem);
    }
}

void xml_report_problems(Arena *arena, const XmlFile *file, const XmlNode *schema, Problems *problems,
                         Diagnostics *diagnostics) {
    Teller teller = {arena, file->text, schema, problems, diagnostics};
    drop_echoes(&teller);
    for (size_t i = 0; i < problems->count; i++) {
        const Problem *problem = &problems->items[i];
        if (!problem->dropped) tellers[problem->kind](&teller, problem);
    }
    if (!problems->full) return;
    diag_report(diagnostics, RULE_XML_LIMIT, file->root->place, NULL,
                "only the first %d problems of the file are shown", XML_MOST_PROBLEMS);
}
