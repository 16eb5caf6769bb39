/* Compiled schemas, kept for a run. A few are compiled beside what the run begins with, since that takes as long as
 * reading what they are for. */
#include <libxml/parser.h>
#include <libxml/xmlschemas.h>
#include <libxml/xmlschemastypes.h>
#include <pthread.h>
#include <stdlib.h>

#include "base/file.h"
#include "base/task.h"
#include "base/text.h"
#include "source/xml_parts.h"

struct XmlSchema {
    const Text *text;
    xmlDocPtr document; /* the compiled schema points into it */
    xmlSchemaPtr compiled;
    Arena *explained;       /* holds the grammar */
    const XmlNode *grammar; /* read when there is something to explain */
};

/* While the task runs, the arena belongs to it, and so do the schemas that it has not marked as done. */
struct XmlSchemas {
    Arena *arena;
    const char *templates;
    XmlSchema *kinds[XML_KIND_COUNT];
    Task *task;
    pthread_mutex_t lock; /* over `awaited` and the kinds that it names */
    pthread_cond_t done;
    bool awaited[XML_KIND_COUNT]; /* the task is yet to compile it */
};

const char *xml_kind_name(XmlKind kind) {
    static const char *const names[] = {
        [XML_DOSSIER] = "dossier", [XML_PROFILE] = "profile", [XML_SET] = "set",
        [XML_HOUSE] = "house",     [XML_LAYOUT] = "layout",   [XML_SCALE] = "scale",
        [XML_MAP] = "map",         [XML_CHART] = "chart",     [XML_PLAYS] = "plays",
    };
    _Static_assert(sizeof names / sizeof names[0] == XML_KIND_COUNT, "a name for each kind");
    return names[kind];
}

/* What a run needs, in the order in which it does. */
static const XmlKind usual_kinds[] = {XML_HOUSE, XML_DOSSIER, XML_PROFILE, XML_PLAYS};

enum { USUAL_KINDS = sizeof usual_kinds / sizeof *usual_kinds };

static void *allocate(size_t size) {
    return mem_resize(NULL, size);
}

/* Without memory libxml2 would take a good file for a bad one: it ends the process as everything else does. Nothing is
 * parsed without schemas. */
static void set_up_library(void) {
    xmlMemSetup(free, allocate, mem_resize, mem_string);
    xmlInitParser();
    xmlSchemaInitTypes();
}

XmlSchemas *xml_schemas_new(const char *templates) {
    static pthread_once_t once = PTHREAD_ONCE_INIT;
    pthread_once(&once, set_up_library);
    XmlSchemas *schemas = mem_alloc(sizeof *schemas);
    schemas->arena = arena_new();
    schemas->templates = arena_string(schemas->arena, templates);
    pthread_mutex_init(&schemas->lock, NULL);
    pthread_cond_init(&schemas->done, NULL);
    return schemas;
}

static void end_task(XmlSchemas *schemas) {
    task_join(schemas->task);
    schemas->task = NULL;
}

static void free_schema(XmlSchema *schema) {
    if (!schema) return;
    xmlSchemaFree(schema->compiled);
    xmlFreeDoc(schema->document);
    arena_free(schema->explained);
}

void xml_schemas_free(XmlSchemas *schemas) {
    if (!schemas) return;
    end_task(schemas);
    for (int kind = 0; kind < XML_KIND_COUNT; kind++) free_schema(schemas->kinds[kind]);
    pthread_mutex_destroy(&schemas->lock);
    pthread_cond_destroy(&schemas->done);
    arena_free(schemas->arena);
    free(schemas);
}

/* ---- one schema ---- */

static void ignore_error(void *data, xmlErrorPtr error) {
    (void)data, (void)error;
}

/* A schema stands alone: nothing else is read for it. */
static bool reads_others(const xmlDoc *document) {
    static const char *const readers[] = {"include", "import", "redefine"};
    for (const xmlNode *node = xmlDocGetRootElement(document)->children; node; node = node->next) {
        for (size_t i = 0; i < sizeof readers / sizeof readers[0]; i++) {
            if (node->type == XML_ELEMENT_NODE && text_equal((const char *)node->name, readers[i])) return true;
        }
    }
    return false;
}

static xmlSchemaPtr compile(xmlDocPtr document) {
    if (reads_others(document)) return NULL;
    xmlSchemaParserCtxtPtr parser = xmlSchemaNewDocParserCtxt(document);
    if (!parser) return NULL;
    xmlSchemaSetParserStructuredErrors(parser, ignore_error, NULL);
    xmlSchemaPtr compiled = xmlSchemaParse(parser);
    xmlSchemaFreeParserCtxt(parser);
    return compiled;
}

static bool load_schema(Arena *arena, XmlSchema *schema, const char *path, Diagnostics *diagnostics) {
    schema->text = file_read(arena, path, diagnostics);
    if (!schema->text) return false;
    schema->document = xml_parse_document(schema->text, diagnostics);
    if (!schema->document) return false;
    schema->compiled = compile(schema->document);
    if (schema->compiled) return true;
    diag_report(diagnostics, RULE_TEMPLATE_MISSING, xml_place(schema->text, 0, 1), NULL,
                "this is not a usable XML Schema");
    xmlFreeDoc(schema->document);
    return false;
}

/* NULL after a report. */
static XmlSchema *new_schema(const XmlSchemas *schemas, XmlKind kind, Diagnostics *diagnostics) {
    const char *path = arena_printf(schemas->arena, "%s/schema/%s.xsd", schemas->templates, xml_kind_name(kind));
    XmlSchema *schema = ARENA_NEW(schemas->arena, XmlSchema);
    return load_schema(schemas->arena, schema, path, diagnostics) ? schema : NULL;
}

/* ---- the usual ones ---- */

/* A schema that does not compile is tried again, and reported, by who asks for it. */
static void compile_usual(void *data) {
    XmlSchemas *schemas = data;
    Diagnostics *unheard = diag_new();
    for (size_t i = 0; i < USUAL_KINDS; i++) {
        XmlSchema *schema = new_schema(schemas, usual_kinds[i], unheard);
        pthread_mutex_lock(&schemas->lock);
        schemas->kinds[usual_kinds[i]] = schema;
        schemas->awaited[usual_kinds[i]] = false;
        pthread_cond_broadcast(&schemas->done);
        pthread_mutex_unlock(&schemas->lock);
    }
    diag_free(unheard);
}

void xml_schemas_begin(XmlSchemas *schemas) {
    for (size_t i = 0; i < USUAL_KINDS; i++) schemas->awaited[usual_kinds[i]] = true;
    schemas->task = task_start(compile_usual, schemas);
}

/* The schema of a kind as far as the task has to do with it; NULL also when it failed. */
static XmlSchema *await(XmlSchemas *schemas, XmlKind kind) {
    pthread_mutex_lock(&schemas->lock);
    while (schemas->awaited[kind]) pthread_cond_wait(&schemas->done, &schemas->lock);
    XmlSchema *schema = schemas->kinds[kind];
    pthread_mutex_unlock(&schemas->lock);
    return schema;
}

XmlSchema *xml_schema(XmlSchemas *schemas, XmlKind kind, Diagnostics *diagnostics) {
    if (kind == XML_SET) kind = XML_PROFILE; /* one schema has both roots */
    XmlSchema *schema = await(schemas, kind);
    if (schema) return schema;
    end_task(schemas);
    return schemas->kinds[kind] = new_schema(schemas, kind, diagnostics);
}

xmlSchemaPtr xml_schema_compiled(const XmlSchema *schema) {
    return schema->compiled;
}

const XmlNode *xml_schema_grammar(XmlSchema *schema, Diagnostics *diagnostics) {
    if (schema->grammar) return schema->grammar;
    XmlFile file;
    if (!schema->explained) schema->explained = arena_new();
    if (!xml_parse(schema->explained, schema->text, true, &file, diagnostics)) return NULL;
    xml_file_free(&file);
    schema->grammar = file.root;
    return schema->grammar;
}
