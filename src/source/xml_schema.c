#include <libxml/xmlschemas.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "source/xml_parts.h"

enum {
    MOST_ROUNDS = 16,         /* of validation after taking out elements that cannot stand */
    ROUND_BYTES = 1024 * 1024 /* larger files are validated once: a hostile one could make every round slow */
};

/* ---- problems ---- */

static const struct {
    int code;
    ProblemKind kind;
} codes[] = {
    {XML_SCHEMAV_CVC_COMPLEX_TYPE_3_2_1, PROBLEM_ATTRIBUTE_UNKNOWN},
    {XML_SCHEMAV_CVC_COMPLEX_TYPE_3_2_2, PROBLEM_ATTRIBUTE_UNKNOWN},
    {XML_SCHEMAV_CVC_TYPE_3_1_1, PROBLEM_ATTRIBUTE_UNKNOWN},
    {XML_SCHEMAV_CVC_COMPLEX_TYPE_4, PROBLEM_ATTRIBUTE_MISSING},
    {XML_SCHEMAV_ELEMENT_CONTENT, PROBLEM_ELEMENT_UNEXPECTED},
    {XML_SCHEMAV_CVC_COMPLEX_TYPE_2_1, PROBLEM_CONTENT},
    {XML_SCHEMAV_CVC_COMPLEX_TYPE_2_2, PROBLEM_CONTENT},
    {XML_SCHEMAV_CVC_COMPLEX_TYPE_2_3, PROBLEM_CONTENT},
    {XML_SCHEMAV_CVC_TYPE_3_1_2, PROBLEM_CONTENT},
};

/* The name in quotes that follows `lead` in the validator's message, if it stands before any value of the file. */
static const char *quoted_name(Arena *arena, const char *message, const char *lead) {
    const char *quote = strchr(message, '\'');
    quote = quote ? strchr(quote + 1, '\'') : NULL;
    size_t length = strlen(lead);
    if (!quote || strncmp(quote + 1, lead, length) != 0) return NULL;
    const char *name = quote + 1 + length;
    const char *end = strchr(name, '\'');
    return end ? arena_copy(arena, name, (size_t)(end - name)) : NULL;
}

/* "one of ( a, b )" of the validator as "a or b". */
static const char *expected_names(Arena *arena, const char *message) {
    const char *lead = strstr(message, "Expected is ");
    const char *open = lead ? strstr(lead, "( ") : NULL;
    const char *close = open ? strstr(open, " )") : NULL;
    if (!close) return NULL;
    open += 2;
    const char *comma = memrchr(open, ',', (size_t)(close - open));
    if (!comma) return arena_copy(arena, open, (size_t)(close - open));
    return arena_printf(arena, "%.*s or%.*s", (int)(comma - open), open, (int)(close - comma - 1), comma + 1);
}

/* What every validation error says, told from the validator's own message. */
static Problem problem_of(Arena *arena, const xmlError *error, xmlNode *element) {
    const char *message = error->message ? error->message : "";
    Problem problem = {.element = element, .parent = element->parent};
    problem.attribute = quoted_name(arena, message, ", attribute '");
    problem.kind = problem.attribute ? PROBLEM_ATTRIBUTE_VALUE : PROBLEM_TEXT_VALUE;
    for (size_t i = 0; i < sizeof codes / sizeof codes[0]; i++) {
        if (codes[i].code == error->code) problem.kind = codes[i].kind;
    }
    if (problem.kind == PROBLEM_ATTRIBUTE_MISSING) problem.attribute = quoted_name(arena, message, ": The attribute '");
    if (problem.kind != PROBLEM_ELEMENT_UNEXPECTED) return problem;
    problem.expected = expected_names(arena, message);
    if (strstr(message, ": Missing child element(s)")) problem.kind = PROBLEM_ELEMENT_MISSING;
    return problem;
}

typedef struct Collector {
    Arena *arena;
    Problems problems;
} Collector;

static void add_problem(Arena *arena, Problems *problems, Problem problem) {
    if (problems->count == XML_MOST_PROBLEMS) {
        problems->full = true;
        return;
    }
    if (!problems->items) problems->items = ARENA_ARRAY(arena, XML_MOST_PROBLEMS, Problem);
    problems->items[problems->count++] = problem;
}

static void collect(void *data, xmlErrorPtr error) {
    Collector *collector = data;
    xmlNode *element = error->node;
    if (element && element->type == XML_ATTRIBUTE_NODE) element = element->parent;
    if (!element || element->type != XML_ELEMENT_NODE || !element->_private) return;
    add_problem(collector->arena, &collector->problems, problem_of(collector->arena, error, element));
}

/* 0 valid, more than 0 invalid, less than 0 the validator failed. */
static int validate_once(Arena *arena, const XmlSchema *schema, const XmlFile *file, Problems *problems) {
    Collector collector = {.arena = arena};
    xmlSchemaValidCtxtPtr validator = xmlSchemaNewValidCtxt(xml_schema_compiled(schema));
    if (!validator) return -1;
    xmlSchemaSetValidStructuredErrors(validator, collect, &collector);
    int status = xmlSchemaValidateDoc(validator, file->document);
    xmlSchemaFreeValidCtxt(validator);
    *problems = collector.problems;
    return status;
}

/* ---- all problems of a file ---- */

/* The validator passes over what follows an element that cannot stand. So such an element is told of, then given the
 * name that was meant or taken out, and the rest is validated again. Elements of the same name beside an unknown one
 * share its fate at once. Where an element is missing, one without a node of ours takes its place, of which nothing is
 * told; and where one stands too early, it is told of and not all those that should stand before it. */
typedef struct Rounds {
    Arena *arena;
    const XmlNode *grammar;
    Problems all;
    xmlNode *out; /* taken out, linked by `next` */
} Rounds;

static void take_out(Rounds *rounds, xmlNode *element) {
    xmlUnlinkNode(element);
    element->next = rounds->out;
    rounds->out = element;
}

/* Place of a sibling in the grammar, -1 for one that it does not know, and for one that stands for a missing element.
 */
static int order_of(const GrammarList *list, const xmlNode *node) {
    if (node->type != XML_ELEMENT_NODE || !node->_private) return -1;
    const GrammarItem *item = grammar_find(list, (const char *)node->name);
    return item ? (int)(item - list->items) : -1;
}

/* The first sibling that stands before `element` and belongs behind it, when fewer do so than stand too late. */
static xmlNode *too_early(const GrammarList *list, xmlNode *element) {
    int own = order_of(list, element), highest = -1;
    xmlNode *first = NULL;
    size_t early = 0, late = 0;
    for (xmlNode *node = element->prev; node; node = node->prev) {
        int order = order_of(list, node);
        if (order <= own) continue;
        early++;
        first = node;
        if (order > highest) highest = order;
    }
    for (const xmlNode *node = element; node; node = node->next) {
        int order = order_of(list, node);
        late += order >= 0 && order < highest;
    }
    return early < late ? first : NULL;
}

/* An element that the grammar knows, in the wrong place. */
static void mend_known(Rounds *rounds, const GrammarList *list, Problem problem) {
    const char *missing = xml_missing_before(&problem, list);
    xmlNode *element = problem.element, *early = missing ? NULL : too_early(list, element);
    if (early) {
        problem.before = arena_string(rounds->arena, (const char *)element->name);
        problem.element = element = early;
    }
    add_problem(rounds->arena, &rounds->all, problem);
    if (missing) {
        xmlAddPrevSibling(element, xmlNewDocNode(element->doc, NULL, (const xmlChar *)missing, NULL));
    } else {
        take_out(rounds, element);
    }
}

static void mend(Rounds *rounds, Problem problem) {
    GrammarList list = grammar_children_of(rounds->arena, rounds->grammar, problem.parent);
    const char *name = arena_string(rounds->arena, (const char *)problem.element->name);
    if (grammar_find(&list, name)) {
        mend_known(rounds, &list, problem);
        return;
    }
    const char *meant = grammar_nearest(rounds->arena, &list, name);
    for (xmlNode *node = problem.element, *next; node; node = next) {
        next = node->next;
        if (node->type != XML_ELEMENT_NODE || strcmp((const char *)node->name, name) != 0) continue;
        problem.element = node;
        add_problem(rounds->arena, &rounds->all, problem);
        if (meant) {
            xmlNodeSetName(node, (const xmlChar *)meant);
        } else {
            take_out(rounds, node);
        }
    }
}

/* True when something was mended, so that another round may find more. */
static bool mend_all(Rounds *rounds, const Problems *found) {
    bool any = false;
    for (size_t i = 0; i < found->count; i++) {
        if (found->items[i].kind != PROBLEM_ELEMENT_UNEXPECTED) continue;
        mend(rounds, found->items[i]);
        any = true;
    }
    return any;
}

static void keep_all(Rounds *rounds, const Problems *found) {
    for (size_t i = 0; i < found->count; i++) add_problem(rounds->arena, &rounds->all, found->items[i]);
    rounds->all.full = rounds->all.full || found->full;
}

static void free_rounds(Rounds *rounds) {
    for (xmlNode *node = rounds->out, *next; node; node = next) {
        next = node->next;
        node->next = NULL;
        xmlFreeNode(node);
    }
}

static bool is_large(const XmlFile *file) {
    return file->text->length > ROUND_BYTES;
}

/* Mends and validates until no round finds more, then tells everything. */
static void explain(Rounds *rounds, const XmlSchema *schema, XmlFile *file, Problems *found, Diagnostics *diagnostics) {
    int most = is_large(file) ? 1 : MOST_ROUNDS;
    for (int round = 1; round < most && !rounds->all.full && mend_all(rounds, found); round++) {
        if (validate_once(rounds->arena, schema, file, found) < 0) break;
    }
    keep_all(rounds, found);
    xml_report_problems(rounds->arena, file, rounds->grammar, &rounds->all, diagnostics);
    free_rounds(rounds);
}

bool xml_validate(Arena *arena, XmlSchema *schema, XmlFile *file, Diagnostics *diagnostics) {
    Problems found = {0};
    int status = validate_once(arena, schema, file, &found);
    if (status == 0 && found.count == 0) return true;
    Rounds rounds = {.arena = arena, .grammar = xml_schema_grammar(schema, diagnostics)};
    if (!rounds.grammar) return false;
    if (found.count == 0) {
        diag_report(diagnostics, RULE_CONTENT, file->root->place, NULL, "the file could not be validated (%d)", status);
        return false;
    }
    explain(&rounds, schema, file, &found, diagnostics);
    return false;
}
