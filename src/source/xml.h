/* XML in, plain trees out: the only place that knows libxml2. A file is read whole, parsed with everything dangerous
 * refused, validated against the W3C XML Schema of its kind, and copied into plain nodes that remember where they
 * stand. */
#ifndef TB_SOURCE_XML_H
#define TB_SOURCE_XML_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/diag.h"

/* Bounds that no real dossier comes near; each is reported by name when hit. */
enum {
    XML_MOST_BYTES = 16 * 1024 * 1024,
    XML_MOST_DEPTH = 32,
    XML_MOST_ATTRIBUTES = 128, /* of one element */
    XML_MOST_ELEMENTS = 200000,
    XML_MOST_PROBLEMS = 200,   /* reported for one file */
    XML_MOST_CHART_FILES = 200 /* of one dossier; together at most XML_MOST_BYTES */
};

typedef struct XmlAttribute {
    const char *name;
    const char *value;   /* after entity expansion */
    size_t value_at;     /* offset of the first byte of the value in the file */
    size_t value_length; /* bytes as written */
    size_t name_at;
} XmlAttribute;

typedef struct XmlNode XmlNode;
struct XmlNode {
    const char *name; /* NULL: character data */
    const char *text; /* character data, else NULL */
    XmlAttribute *attributes;
    size_t attribute_count;
    XmlNode *first, *next; /* first child, next sibling; comments and blank text between elements are left out */
    Place place;           /* element: from '<' over the name; text: its first byte */
};

typedef enum XmlKind {
    XML_DOSSIER,
    XML_PROFILE,
    XML_SET,
    XML_HOUSE,
    XML_LAYOUT,
    XML_SCALE,
    XML_MAP,
    XML_CHART,
    XML_PLAYS,
    XML_KIND_COUNT
} XmlKind;

/* Compiled schemas, kept for a run. */
typedef struct XmlSchemas XmlSchemas;
XmlSchemas *xml_schemas_new(
    const char *templates); /* reads templates/schema/KIND.xsd when first needed; sets share the profile's */
void xml_schemas_free(XmlSchemas *schemas);

/* Begins to compile those that every dossier needs, beside the caller's own work. */
void xml_schemas_begin(XmlSchemas *schemas);

/* The root of a valid file of `kind`, or NULL after at least one report. All problems of the file come in one call. A
 * file that is well-formed but invalid gives NULL too. In a dossier each `chart` with an href is replaced by the root
 * of the chart file that it names. */
const XmlNode *xml_load(Arena *arena, XmlSchemas *schemas, XmlKind kind, const char *path, Diagnostics *diagnostics)
    __attribute__((warn_unused_result));

/* What can be done while a file is validated, from its root: which may yet turn out to be invalid, or not even to be
 * the root of such a file. Not called for every file. */
typedef struct XmlMeanwhile {
    void (*run)(void *data, const XmlNode *root);
    void *data;
} XmlMeanwhile;

/* The same with something to do meanwhile, or NULL. */
const XmlNode *xml_load_meanwhile(Arena *arena, XmlSchemas *schemas, XmlKind kind, const char *path,
                                  const XmlMeanwhile *meanwhile, Diagnostics *diagnostics)
    __attribute__((warn_unused_result));

/* Root element name of a file ("dossier", "profile", …) without validating, or NULL after a report. */
const char *xml_root_name(Arena *arena, const char *path, Diagnostics *diagnostics);

const char *xml_value(const XmlNode *node, const char *name); /* NULL: not given */
const XmlAttribute *xml_attribute(const XmlNode *node, const char *name);
Place xml_value_place(const XmlNode *node, const char *name); /* of the value; of the element when not given */
Place xml_name_place(const XmlNode *node, const char *name);
/* Place of the value of an attribute in the tag of an element, read again from the file; the element's place when it
 * has none. */
Place xml_tag_value_place(Place element, const char *name);
const XmlNode *xml_child(const XmlNode *node, const char *name);
const XmlNode *xml_next(const XmlNode *node, const char *name); /* next sibling so called */
const char *xml_text(Arena *arena, const XmlNode *node);        /* all character data below, white space folded */

#endif
