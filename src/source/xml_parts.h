/* The parts of the XML loader, seen only by source/xml*.c: bytes, markup, the parser, the schema and its wording. */
#ifndef TB_SOURCE_XML_PARTS_H
#define TB_SOURCE_XML_PARTS_H

#include <libxml/tree.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/diag.h"
#include "source/xml.h"

/* ---- xml_bytes.c: what may be in the file at all ---- */

/* True when the bytes are UTF-8 text of a bearable size, declared as nothing else; else false after one report. */
bool xml_check_bytes(const Text *text, Diagnostics *diagnostics);

/* ---- xml_scan.c: where everything stands ---- */

typedef enum MarkupKind {
    MARKUP_START, /* <name …> */
    MARKUP_EMPTY, /* <name …/> */
    MARKUP_END,   /* </name> */
    MARKUP_COMMENT,
    MARKUP_CDATA,
    MARKUP_INSTRUCTION /* <?…?> */
} MarkupKind;

typedef struct Markup {
    MarkupKind kind;
    size_t at, end;     /* offsets of '<' and after '>' */
    size_t name_length; /* START, EMPTY, END */
} Markup;

typedef struct MarkupList {
    Markup *items; /* in order of place */
    size_t count;
} MarkupList;

/* Lists the markup of a file, or false after one report: of a construct that is refused, a limit that is passed, or of
 * the common mistakes against XML. What it lets pass may still not be well-formed: that is the parser's to say. */
bool xml_scan(Arena *arena, const Text *text, MarkupList *list, Diagnostics *diagnostics);

/* The first start tag, or NULL after a report. */
const Markup *xml_scan_root(Arena *arena, const Text *text, Diagnostics *diagnostics);

/* One attribute as written. */
typedef struct RawAttribute {
    size_t name_at, name_length;
    size_t value_at, value_length; /* between the quotes */
} RawAttribute;

/* The next attribute of a well-formed tag from `*at` (first after the name), which moves behind it; false at the tag's
 * end. */
bool xml_next_attribute(const Text *text, size_t *at, RawAttribute *attribute);

Place xml_place(const Text *text, size_t offset, size_t length);

/* ---- xml_parse.c: libxml2's tree and ours ---- */

/* A parsed file. Every element of `document` has the XmlNode that was made of it in _private. */
typedef struct XmlFile {
    const Text *text;
    xmlDocPtr document;
    XmlNode *root;
} XmlFile;

/* False after a report. Names in a namespace are refused unless `namespaces`. xml_file_free releases the document; the
 * nodes stay in the arena. */
xmlDocPtr xml_parse_document(const Text *text,
                             Diagnostics *diagnostics); /* libxml2's part alone; NULL after a report */
bool xml_parse(Arena *arena, const Text *text, bool namespaces, XmlFile *file, Diagnostics *diagnostics);
bool xml_is_mixed(const char *element); /* one in which white space between parts separates words */
void xml_file_free(XmlFile *file);

/* ---- xml_schemas.c: compiled schemas ---- */

typedef struct XmlSchema XmlSchema;

/* The compiled schema of a kind, NULL after a report. */
XmlSchema *xml_schema(XmlSchemas *schemas, XmlKind kind, Diagnostics *diagnostics);

const char *xml_kind_name(XmlKind kind); /* "dossier": its root element */

struct _xmlSchema *xml_schema_compiled(const XmlSchema *schema);

/* The schema's own text as plain nodes, or NULL after a report. */
const XmlNode *xml_schema_grammar(XmlSchema *schema, Diagnostics *diagnostics);

/* ---- xml_schema.c: the judge ---- */

/* True when the file is valid; else false after reports, and then the document is no longer whole. */
bool xml_validate(Arena *arena, XmlSchema *schema, XmlFile *file, Diagnostics *diagnostics);

/* ---- xml_plain.c: the quick reader ---- */

typedef enum XmlEventKind { XML_EVENT_START, XML_EVENT_TEXT, XML_EVENT_END } XmlEventKind;

typedef struct XmlEvent {
    XmlEventKind kind;
    const XmlNode *element; /* START, with its attributes, and END */
    const char *text;       /* TEXT, also where it only lays out the file */
} XmlEvent;

/* What a reader met, in order. `{0}` is empty; to be freed. */
typedef struct XmlEvents {
    XmlEvent *items;
    size_t count, room;
} XmlEvents;

void xml_events_free(XmlEvents *events);

/* The root of a file of plain XML whose root element is called `root`, not yet judged, or NULL without a report: then
 * it may still be a good file, and xml_parse has to say. Requires bytes that xml_check_bytes let pass. */
XmlNode *xml_read_plain(Arena *arena, const Text *text, const char *root, XmlEvents *events);

/* ---- xml_judge.c: the judge of what was met ---- */

/* True when it is valid. Changes nothing but memory of its own. */
bool xml_judge(const XmlSchema *schema, const XmlEvents *events);

/* ---- xml_grammar.c: what a schema allows, read from the schema's own text, for words and hints ---- */

typedef struct GrammarItem { /* an element or attribute that may stand somewhere */
    const char *name;
    const XmlNode *declaration;
    bool required;
    bool once; /* an element that may stand only once */
} GrammarItem;

typedef struct GrammarList {
    GrammarItem *items;
    size_t count;
} GrammarList;

typedef struct GrammarType { /* what a text or attribute value must be */
    const char *says;        /* "a date such as 2031-09-27", may be NULL */
    const char **values;     /* the allowed words, when they are listed */
    size_t value_count;
} GrammarType;

/* Declaration of the element called `name` in `parent` (NULL or the document: the root); NULL when it has none. */
const XmlNode *grammar_element(Arena *arena, const XmlNode *schema, const xmlNode *parent, const char *name);

/* A declaration NULL has neither children nor attributes. */
GrammarList grammar_children(Arena *arena, const XmlNode *schema, const XmlNode *declaration);
GrammarList grammar_attributes(Arena *arena, const XmlNode *schema, const XmlNode *declaration);
GrammarType grammar_type(Arena *arena, const XmlNode *schema, const XmlNode *declaration);
const char *grammar_says(Arena *arena, const XmlNode *declaration); /* its documentation, or NULL */
const GrammarItem *grammar_find(const GrammarList *list, const char *name);
const char *grammar_nearest(Arena *arena, const GrammarList *list, const char *word); /* NULL: none is near */

/* What may stand in the element `parent` of a document. */
GrammarList grammar_children_of(Arena *arena, const XmlNode *schema, const xmlNode *parent);

/* ---- xml_words.c: schema errors as an author understands them ---- */

typedef enum ProblemKind {
    PROBLEM_ATTRIBUTE_UNKNOWN,
    PROBLEM_ATTRIBUTE_MISSING,
    PROBLEM_ATTRIBUTE_VALUE,
    PROBLEM_ELEMENT_UNEXPECTED,
    PROBLEM_ELEMENT_MISSING,
    PROBLEM_TEXT_VALUE,
    PROBLEM_CONTENT
} ProblemKind;

typedef struct Problem {
    ProblemKind kind;
    xmlNode *element;      /* of the document */
    const xmlNode *parent; /* its parent, also when the element has been taken out */
    const char *attribute; /* its name, for attribute problems */
    const char *expected;  /* what the validator says could stand, "one of ( a, b )"; may be NULL */
    const char *before;    /* the element stands too early: before this one, which belongs before it; may be NULL */
    bool dropped;          /* told by another problem */
} Problem;

typedef struct Problems {
    Problem *items;
    size_t count, room;
    bool full; /* XML_MOST_PROBLEMS were met */
} Problems;

/* The required element whose absence is why the problem's own cannot stand, or NULL. */
const char *xml_missing_before(const Problem *problem, const GrammarList *siblings);

void xml_report_problems(Arena *arena, const XmlFile *file, const XmlNode *schema, Problems *problems,
                         Diagnostics *diagnostics);

/* ---- xml.c ---- */

/* The root of a text that is a valid file of `kind`, or NULL after reports. */
XmlNode *xml_load_text(Arena *arena, XmlSchemas *schemas, XmlKind kind, const Text *text, const XmlMeanwhile *meanwhile,
                       Diagnostics *diagnostics);

/* ---- xml_include.c: charts in files of their own ---- */

/* False after reports. */
bool xml_include_charts(Arena *arena, XmlSchemas *schemas, XmlNode *dossier, Diagnostics *diagnostics);

#endif
