#include <string.h>

#include "base/text.h"
#include "source/xml_parts.h"

enum { MOST_NESTING = 32 }; /* of groups and base types; our schemas have three */

/* What the values of XML Schema's own types are, in plain words. */
static const struct {
    const char *type, *says;
} own_types[] = {
    {"xs:decimal", "a number"},
    {"xs:integer", "a whole number"},
    {"xs:nonNegativeInteger", "a whole number, 0 or more"},
    {"xs:positiveInteger", "a whole number, 1 or more"},
};

/* Top-level component of the schema, "complexType" called `name` for instance. */
static const XmlNode *component(const XmlNode *schema, const char *kind, const char *name) {
    if (!name) return NULL;
    for (const XmlNode *node = xml_child(schema, kind); node; node = xml_next(node, kind)) {
        if (text_equal(xml_value(node, "name"), name)) return node;
    }
    return NULL;
}

static const XmlNode *type_of(const XmlNode *schema, const XmlNode *declaration, const char *kind) {
    if (!declaration) return NULL;
    const XmlNode *own = xml_child(declaration, kind);
    return own ? own : component(schema, kind, xml_value(declaration, "type"));
}

/* ---- content ---- */

typedef struct Walk {
    Arena *arena;
    const XmlNode *schema;
    const char *kind; /* "element" or "attribute" */
    GrammarItem *items;
    size_t count, room;
    int nesting;
} Walk;

typedef struct Occurs {
    bool optional, repeated;
} Occurs;

static Occurs occurs(const XmlNode *node, Occurs outer) {
    const char *least = xml_value(node, "minOccurs"), *most = xml_value(node, "maxOccurs");
    outer.optional = outer.optional || text_equal(least, "0") || text_equal(node->name, "choice");
    outer.repeated = outer.repeated || (most && !text_equal(most, "1"));
    return outer;
}

static void add_item(Walk *walk, const XmlNode *node, Occurs outer) {
    if (walk->count == walk->room) {
        size_t room = walk->room * 2 + 16;
        GrammarItem *items = ARENA_ARRAY(walk->arena, room, GrammarItem);
        if (walk->count) memcpy(items, walk->items, walk->count * sizeof *items);
        walk->items = items;
        walk->room = room;
    }
    Occurs own = occurs(node, outer);
    bool attribute = text_equal(walk->kind, "attribute");
    walk->items[walk->count++] = (GrammarItem){
        .name = xml_value(node, "name"),
        .declaration = node,
        .required = attribute ? text_equal(xml_value(node, "use"), "required") : !own.optional,
        .once = !own.repeated,
    };
}

static void walk_content(Walk *walk, const XmlNode *node, Occurs outer);

static void walk_child(Walk *walk, const XmlNode *child, Occurs outer) {
    static const char *const inner[] = {"sequence", "choice", "all", "complexContent", "simpleContent", "extension"};
    if (text_equal(child->name, walk->kind)) {
        if (xml_value(child, "name")) add_item(walk, child, outer);
        return;
    }
    const char *ref = xml_value(child, "ref");
    if (ref) walk_content(walk, component(walk->schema, child->name, ref), occurs(child, outer));
    if (text_equal(child->name, "extension")) {
        walk_content(walk, component(walk->schema, "complexType", xml_value(child, "base")), outer);
    }
    for (size_t i = 0; i < sizeof inner / sizeof inner[0]; i++) {
        if (text_equal(child->name, inner[i])) walk_content(walk, child, occurs(child, outer));
    }
}

static void walk_content(Walk *walk, const XmlNode *node, Occurs outer) {
    if (!node || walk->nesting == MOST_NESTING) return;
    walk->nesting++;
    for (const XmlNode *child = node->first; child; child = child->next) {
        if (child->name) walk_child(walk, child, outer);
    }
    walk->nesting--;
}

static GrammarList list_of(Arena *arena, const XmlNode *schema, const XmlNode *declaration, const char *kind) {
    Walk walk = {.arena = arena, .schema = schema, .kind = kind};
    walk_content(&walk, type_of(schema, declaration, "complexType"), (Occurs){0});
    return (GrammarList){walk.items, walk.count};
}

GrammarList grammar_children(Arena *arena, const XmlNode *schema, const XmlNode *declaration) {
    return list_of(arena, schema, declaration, "element");
}

GrammarList grammar_attributes(Arena *arena, const XmlNode *schema, const XmlNode *declaration) {
    return list_of(arena, schema, declaration, "attribute");
}

const GrammarItem *grammar_find(const GrammarList *list, const char *name) {
    for (size_t i = 0; i < list->count; i++) {
        if (text_equal(list->items[i].name, name)) return &list->items[i];
    }
    return NULL;
}

const char *grammar_nearest(Arena *arena, const GrammarList *list, const char *word) {
    const char **names = ARENA_ARRAY(arena, list->count, const char *);
    for (size_t i = 0; i < list->count; i++) names[i] = list->items[i].name;
    return text_nearest(word, names, list->count);
}

GrammarList grammar_children_of(Arena *arena, const XmlNode *schema, const xmlNode *parent) {
    const XmlNode *declaration = grammar_element(arena, schema, parent->parent, (const char *)parent->name);
    return grammar_children(arena, schema, declaration);
}

const XmlNode *grammar_element(Arena *arena, const XmlNode *schema, const xmlNode *parent, const char *name) {
    if (!parent || parent->type != XML_ELEMENT_NODE) return component(schema, "element", name);
    GrammarList children = grammar_children_of(arena, schema, parent);
    const GrammarItem *found = grammar_find(&children, name);
    return found ? found->declaration : NULL;
}

/* ---- values ---- */

const char *grammar_says(Arena *arena, const XmlNode *declaration) {
    const XmlNode *annotation = declaration ? xml_child(declaration, "annotation") : NULL;
    const XmlNode *documentation = annotation ? xml_child(annotation, "documentation") : NULL;
    return documentation ? xml_text(arena, documentation) : NULL;
}

static const char *own_type_says(const char *type) {
    for (size_t i = 0; i < sizeof own_types / sizeof own_types[0]; i++) {
        if (text_equal(own_types[i].type, type)) return own_types[i].says;
    }
    return NULL;
}

static void read_values(Arena *arena, const XmlNode *restriction, GrammarType *type) {
    size_t count = 0;
    const XmlNode *first = xml_child(restriction, "enumeration");
    for (const XmlNode *node = first; node; node = xml_next(node, "enumeration")) count++;
    type->values = ARENA_ARRAY(arena, count, const char *);
    for (const XmlNode *node = first; node; node = xml_next(node, "enumeration")) {
        type->values[type->value_count++] = xml_value(node, "value");
    }
}

/* The simple type of a declaration: its own, a named one, or the base of a complex type with text only. */
static const XmlNode *simple_type(const XmlNode *schema, const XmlNode *declaration, const char **name) {
    *name = xml_value(declaration, "type");
    const XmlNode *complex = type_of(schema, declaration, "complexType");
    const XmlNode *content = complex ? xml_child(complex, "simpleContent") : NULL;
    const XmlNode *extension = content ? xml_child(content, "extension") : NULL;
    if (!extension) return type_of(schema, declaration, "simpleType");
    *name = xml_value(extension, "base");
    return component(schema, "simpleType", *name);
}

GrammarType grammar_type(Arena *arena, const XmlNode *schema, const XmlNode *declaration) {
    GrammarType found = {0};
    if (!declaration) return found;
    const char *name;
    const XmlNode *type = simple_type(schema, declaration, &name);
    if (!type) {
        found.says = own_type_says(name);
        return found;
    }
    found.says = grammar_says(arena, type);
    const XmlNode *restriction = xml_child(type, "restriction");
    if (restriction) read_values(arena, restriction, &found);
    return found;
}
