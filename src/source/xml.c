#include "source/xml.h"

#include <math.h>
#include <string.h>

#include "base/file.h"
#include "base/task.h"
#include "base/text.h"
#include "source/xml_parts.h"

enum { FORMAT_KNOWN = 1 };

/* ---- nodes ---- */

const XmlAttribute *xml_attribute(const XmlNode *node, const char *name) {
    for (size_t i = 0; i < node->attribute_count; i++) {
        if (strcmp(node->attributes[i].name, name) == 0) return &node->attributes[i];
    }
    return NULL;
}

const char *xml_value(const XmlNode *node, const char *name) {
    const XmlAttribute *attribute = xml_attribute(node, name);
    return attribute ? attribute->value : NULL;
}

Place xml_value_place(const XmlNode *node, const char *name) {
    const XmlAttribute *attribute = xml_attribute(node, name);
    return attribute ? xml_place(node->place.text, attribute->value_at, attribute->value_length) : node->place;
}

Place xml_name_place(const XmlNode *node, const char *name) {
    const XmlAttribute *attribute = xml_attribute(node, name);
    return attribute ? xml_place(node->place.text, attribute->name_at, strlen(attribute->name)) : node->place;
}

Place xml_tag_value_place(Place element, const char *name) {
    if (!element.text) return element;
    size_t at = element.offset + element.length, length = strlen(name);
    RawAttribute raw;
    while (xml_next_attribute(element.text, &at, &raw)) {
        bool same = raw.name_length == length && memcmp(element.text->bytes + raw.name_at, name, length) == 0;
        if (same) return xml_place(element.text, raw.value_at, raw.value_length);
    }
    return element;
}

static const XmlNode *named(const XmlNode *node, const char *name) {
    while (node && !text_equal(node->name, name)) node = node->next;
    return node;
}

const XmlNode *xml_child(const XmlNode *node, const char *name) {
    return named(node->first, name);
}

const XmlNode *xml_next(const XmlNode *node, const char *name) {
    return named(node->next, name);
}

static void put_text(Buf *text, const XmlNode *node) {
    if (node->text) buf_puts(text, node->text);
    for (const XmlNode *child = node->first; child; child = child->next) put_text(text, child);
}

/* Runs of white space become one space; none stays at the ends. */
static size_t fold_space(char *text) {
    size_t length = 0;
    for (const char *at = text; *at; at++) {
        bool space = *at == ' ' || *at == '\t' || *at == '\n' || *at == '\r';
        if (!space) {
            text[length++] = *at;
        } else if (length && text[length - 1] != ' ') {
            text[length++] = ' ';
        }
    }
    if (length && text[length - 1] == ' ') length--;
    return length;
}

const char *xml_text(Arena *arena, const XmlNode *node) {
    Buf text = {0};
    put_text(&text, node);
    char *copy = arena_string(arena, buf_text(&text));
    copy[fold_space(copy)] = '\0';
    buf_free(&text);
    return copy;
}

/* ---- loading ---- */

/* A root that belongs to another kind of file. */
static bool check_root(const XmlNode *root, XmlKind kind, Diagnostics *diagnostics) {
    const char *wanted = xml_kind_name(kind);
    if (strcmp(root->name, wanted) == 0) return true;
    diag_report(diagnostics, RULE_ELEMENT_UNKNOWN, root->place, NULL, "this file is a '%s'; a '%s' was expected",
                root->name, wanted);
    return false;
}

/* A newer format is told of before validation, which could only say that everything is wrong. */
static bool check_format(const XmlNode *root, Diagnostics *diagnostics) {
    const char *format = xml_value(root, "format");
    double number;
    if (!format || !text_number(format, &number) || number <= FORMAT_KNOWN || floor(number) != number) return true;
    diag_report(diagnostics, RULE_FORMAT_VERSION, xml_value_place(root, "format"), "a newer tapebound reads it",
                "this file needs a program that knows format %s; this one knows format %d", format, FORMAT_KNOWN);
    return false;
}

/* Through libxml2 as a whole: any XML, and all that can be said of what is wrong. */
static XmlNode *load_any(Arena *arena, XmlSchema *schema, XmlKind kind, const Text *text, Diagnostics *diagnostics) {
    XmlFile file;
    if (!xml_parse(arena, text, false, &file, diagnostics)) return NULL;
    bool good = check_root(file.root, kind, diagnostics) && check_format(file.root, diagnostics) &&
                xml_validate(arena, schema, &file, diagnostics);
    xml_file_free(&file);
    return good ? file.root : NULL;
}

/* A file being judged beside other work. */
typedef struct Judging {
    const XmlSchema *schema;
    XmlEvents events;
    bool valid;
} Judging;

static void judge(void *data) {
    Judging *judging = data;
    judging->valid = xml_judge(judging->schema, &judging->events);
}

static void judge_beside(Judging *judging, const XmlNode *root, const XmlMeanwhile *meanwhile) {
    Task *task = task_start(judge, judging);
    meanwhile->run(meanwhile->data, root);
    task_join(task);
}

/* NULL without a report when it is not plain or not valid. */
static XmlNode *load_plain(Arena *arena, const XmlSchema *schema, XmlKind kind, const Text *text,
                           const XmlMeanwhile *meanwhile) {
    Judging judging = {.schema = schema};
    XmlNode *root = xml_read_plain(arena, text, xml_kind_name(kind), &judging.events);
    if (root && meanwhile)
        judge_beside(&judging, root, meanwhile);
    else if (root)
        judge(&judging);
    xml_events_free(&judging.events);
    return judging.valid ? root : NULL;
}

XmlNode *xml_load_text(Arena *arena, XmlSchemas *schemas, XmlKind kind, const Text *text, const XmlMeanwhile *meanwhile,
                       Diagnostics *diagnostics) {
    XmlSchema *schema = xml_schema(schemas, kind, diagnostics);
    if (!schema || !xml_check_bytes(text, diagnostics)) return NULL;
    XmlNode *root = load_plain(arena, schema, kind, text, meanwhile);
    if (!root) return load_any(arena, schema, kind, text, diagnostics);
    return check_format(root, diagnostics) ? root : NULL;
}

const XmlNode *xml_load_meanwhile(Arena *arena, XmlSchemas *schemas, XmlKind kind, const char *path,
                                  const XmlMeanwhile *meanwhile, Diagnostics *diagnostics) {
    const Text *text = file_read(arena, path, diagnostics);
    XmlNode *root = text ? xml_load_text(arena, schemas, kind, text, meanwhile, diagnostics) : NULL;
    if (!root || kind != XML_DOSSIER) return root;
    return xml_include_charts(arena, schemas, root, diagnostics) ? root : NULL;
}

const XmlNode *xml_load(Arena *arena, XmlSchemas *schemas, XmlKind kind, const char *path, Diagnostics *diagnostics) {
    return xml_load_meanwhile(arena, schemas, kind, path, NULL, diagnostics);
}

const char *xml_root_name(Arena *arena, const char *path, Diagnostics *diagnostics) {
    const Text *text = file_read(arena, path, diagnostics);
    if (!text || !xml_check_bytes(text, diagnostics)) return NULL;
    const Markup *root = xml_scan_root(arena, text, diagnostics);
    return root ? arena_copy(arena, text->bytes + root->at + 1, root->name_length) : NULL;
}
