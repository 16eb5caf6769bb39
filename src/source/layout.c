#include <string.h>

#include "source/attributes.h"
#include "source/house.h"
#include "source/names.h"

static const struct {
    const char *word;
    const char *title; /* where the layout gives none */
} section_kinds[] = {
    [SECTION_FRONT] = {"front", "Front page"},
    [SECTION_MEASURABLES] = {"measurables", "Measurables"},
    [SECTION_FIGURES] = {"figures", "The tape in figures"},
    [SECTION_STRENGTHS] = {"strengths", "Strengths"},
    [SECTION_CONCERNS] = {"concerns", "Concerns"},
    [SECTION_KEYS] = {"key-snaps", "Key snaps"},
    [SECTION_GRADES] = {"grades", "Grades"},
    [SECTION_WATCH] = {"watch", "What to watch next"},
    [SECTION_CROSS] = {"cross", "Two charters"},
    [SECTION_BACKGROUND] = {"background", "Background"},
    [SECTION_SNAP_LOG] = {"snap-log", "Snap log"},
    [SECTION_AUDIT] = {"audit", "Audit"},
    [SECTION_METHODS] = {"methods", "Methods"},
    [SECTION_GLOSSARY] = {"glossary", "Glossary"},
    [SECTION_CLAIMS] = {"claims", "Claims"},
    [SECTION_EVALUATORS] = {"evaluators", "Side by side"},
    [SECTION_CLIPS] = {"clips", "Clips"},
    [SECTION_CARD] = {"card", "Wall cards"},
    [SECTION_FORM] = {"form", "Charting sheet"},
    [SECTION_CODES] = {"codes", "Codes"},
};

_Static_assert(sizeof section_kinds / sizeof *section_kinds == SECTION_KIND_COUNT, "every kind of section has a word");

typedef struct LayoutReader {
    Arena *arena;
    Diagnostics *diagnostics;
    Layout *layout;
} LayoutReader;

/* Points, from `least` up to `most`. */
static double points(LayoutReader *reader, const XmlNode *node, const char *attribute, double otherwise, double least,
                     double most) {
    double value = attr_number(node, attribute, otherwise, reader->diagnostics);
    if (value >= least && value <= most) return value;
    diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(node, attribute), NULL,
                "'%s' is from %g to %g points", attribute, least, most);
    return otherwise;
}

/* A4 is given the text block of Letter: it is narrower by 16.72 points at the free edge and higher by 49.89 at the
 * foot. */
#define A4_OUTER 26.88
#define A4_FOOT 79.89

static void read_page(LayoutReader *reader, const XmlNode *root) {
    Layout *layout = reader->layout;
    layout->id = attr_text(root, "id", "");
    layout->name = attr_text(root, "name", layout->id);
    layout->paper = strcmp(attr_text(root, "paper", "letter"), "a4") == 0 ? PAPER_A4 : PAPER_LETTER;
    layout->landscape = attr_yes(root, "landscape");
    layout->duplex = attr_yes(root, "duplex");
    layout->joined = attr_yes(root, "joined");
    layout->inner = points(reader, root, "inner", 62.4, 18, 144);
    layout->outer = points(reader, root, "outer", layout->paper == PAPER_A4 ? A4_OUTER : 43.6, 18, 144);
    layout->head = points(reader, root, "head", 34, 18, 144);
    layout->foot = points(reader, root, "foot", layout->paper == PAPER_A4 ? A4_FOOT : 30, 18, 144);
    layout->prose_size = points(reader, root, "prose-size", 9.5, 6, 18);
    layout->prose_leading = points(reader, root, "prose-leading", 12, 6, 36);
    if (layout->prose_leading < layout->prose_size) {
        diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(root, "prose-leading"), NULL,
                    "lines %g points apart are closer than the type is high", layout->prose_leading);
    }
}

static int section_kind(const char *word) {
    for (int kind = 0; kind < SECTION_KIND_COUNT; kind++) {
        if (strcmp(section_kinds[kind].word, word) == 0) return kind;
    }
    return -1;
}

static SectionPage page_word(const char *word) {
    if (strcmp(word, "new") == 0) return PAGE_NEW;
    if (strcmp(word, "same") == 0) return PAGE_SAME;
    if (strcmp(word, "fit") == 0) return PAGE_FIT;
    return strcmp(word, "beside") == 0 ? PAGE_BESIDE : PAGE_AS_KIND;
}

static int read_most(LayoutReader *reader, const XmlNode *node) {
    double most = attr_number(node, "most", 0, reader->diagnostics);
    if (most >= 0 && most <= LAYOUT_MOST) return (int)most;
    diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(node, "most"), NULL,
                "'most' is from 1 to %d", LAYOUT_MOST);
    return 0;
}

static void read_section(LayoutReader *reader, const XmlNode *node) {
    Layout *layout = reader->layout;
    const char *word = attr_text(node, "kind", "");
    int kind = section_kind(word);
    if (kind < 0) {
        diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(node, "kind"),
                    NAMES_HINT(reader->arena, word, section_kinds, SECTION_KIND_COUNT), "there is no section '%s'",
                    word);
        return;
    }
    for (size_t i = 0; i < layout->section_count; i++) {
        if (layout->sections[i].kind != (SectionKind)kind) continue;
        diag_report(reader->diagnostics, RULE_DUPLICATE, node->place, NULL, "the section '%s' stands twice", word);
        diag_also(reader->diagnostics, layout->sections[i].place, "it first stands here");
        return;
    }
    layout->sections[layout->section_count++] = (LayoutSection){
        .kind = (SectionKind)kind,
        .title = attr_text(node, "title", section_kinds[kind].title),
        .brief = strcmp(attr_text(node, "form", "full"), "short") == 0,
        .most = read_most(reader, node),
        .page = page_word(attr_text(node, "page", "")),
        .place = node->place,
    };
}

static void read_sections(LayoutReader *reader, const XmlNode *root) {
    reader->layout->sections = ARENA_ARRAY(reader->arena, SECTION_KIND_COUNT, LayoutSection);
    for (const XmlNode *node = xml_child(root, "section"); node; node = xml_next(node, "section")) {
        read_section(reader, node);
    }
    if (reader->layout->section_count > 0) return;
    diag_report(reader->diagnostics, RULE_ELEMENT_MISSING, root->place, NULL, "a layout needs at least one section");
}

static const Layout *read_layout(Arena *arena, const XmlNode *root, Diagnostics *diagnostics) {
    size_t errors = diag_errors(diagnostics);
    LayoutReader reader = {arena, diagnostics, ARENA_NEW(arena, Layout)};
    read_page(&reader, root);
    read_sections(&reader, root);
    return diag_errors(diagnostics) > errors ? NULL : reader.layout;
}

const Layout *layout_load(Arena *arena, const char *templates, const char *name, Diagnostics *diagnostics) {
    const char *path = name;
    if (!strchr(name, '/')) path = templates_path(arena, templates, "layouts", name, (Place){0}, diagnostics);
    if (!path) return NULL;
    XmlSchemas *schemas = xml_schemas_new(templates);
    const XmlNode *root = xml_load(arena, schemas, XML_LAYOUT, path, diagnostics);
    xml_schemas_free(schemas);
    return root ? read_layout(arena, root, diagnostics) : NULL;
}

/* ---- copies that leave something out ---- */

static const struct { const char *word; } notes_kinds[] = {{"personal"}, {"medical"}};

enum { NOTES_KINDS = sizeof notes_kinds / sizeof *notes_kinds };
_Static_assert(LAYOUT_PARTS == SECTION_KIND_COUNT + NOTES_KINDS, "every kind of notes has its word");

const char *layout_part_word(int part) {
    return part < SECTION_KIND_COUNT ? section_kinds[part].word : notes_kinds[part - SECTION_KIND_COUNT].word;
}

int layout_part(Arena *arena, const char *word, const char **hint) {
    const char **parts = ARENA_ARRAY(arena, LAYOUT_PARTS, const char *); /* as structs of one member, for the hint */
    for (int part = 0; part < LAYOUT_PARTS; part++) {
        parts[part] = layout_part_word(part);
        if (strcmp(parts[part], word) == 0) return part;
    }
    *hint = NAMES_HINT(arena, word, parts, LAYOUT_PARTS);
    return -1;
}

const Layout *layout_without(Arena *arena, const Layout *layout, const bool omitted[LAYOUT_PARTS]) {
    Layout *copy = ARENA_NEW(arena, Layout);
    *copy = *layout;
    copy->sections = ARENA_ARRAY(arena, layout->section_count, LayoutSection);
    copy->section_count = 0;
    for (size_t i = 0; i < layout->section_count; i++) {
        if (!omitted[layout->sections[i].kind]) copy->sections[copy->section_count++] = layout->sections[i];
    }
    memcpy(copy->omitted, omitted, sizeof copy->omitted);
    return copy;
}
