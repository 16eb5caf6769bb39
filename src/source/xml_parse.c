#include <libxml/SAX2.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>
#include <stdint.h>
#include <string.h>

#include "source/xml_parts.h"

static const char instance_namespace[] = "http://www.w3.org/2001/XMLSchema-instance";
static const char include_namespace[] = "http://www.w3.org/2001/XInclude";

/* Elements whose text is prose: white space between their parts separates words. */
static const char *const mixed_elements[] = {"p", "item", "em", "strong", "term"};

/* ---- running the parser ---- */

/* What the handlers need; the parser's _private. */
typedef struct Run {
    const Text *text;
    Diagnostics *diagnostics;
    bool reported;
    bool refused; /* a construct that would leave the document well-formed in libxml2's eyes */
} Run;

static bool is_fatal(const xmlError *error) {
    return error->level >= XML_ERR_ERROR || error->domain == XML_FROM_NAMESPACE;
}

/* The parser's words without its line end. */
static int words_length(const char *words) {
    size_t length = strlen(words);
    while (length > 0 && (words[length - 1] == '\n' || words[length - 1] == ' ')) length--;
    return (int)length;
}

/* What the scanner lets pass to the parser, in words of ours; other errors are told in the parser's own. */
static const struct {
    int code;
    const char *words, *hint;
} parser_errors[] = {
    {XML_ERR_DOCUMENT_EMPTY, "the file does not begin with an element", NULL},
    {XML_ERR_DOCUMENT_END, "something stands behind the end of the root element", "a file holds one root element"},
    {XML_ERR_INVALID_HEX_CHARREF, "this is no number of a character", "write the character itself"},
    {XML_ERR_INVALID_DEC_CHARREF, "this is no number of a character", "write the character itself"},
    {XML_ERR_INVALID_CHAR, "a character of this number may not stand in a file", "write the character itself"},
    {XML_ERR_HYPHEN_IN_COMMENT, "'--' may not stand within a comment", NULL},
    {XML_ERR_RESERVED_XML_NAME, "<?xml …?> stands at the very start of a file, or not at all", NULL},
    {XML_ERR_NAME_REQUIRED, "a name was expected here", NULL},
    {XML_ERR_LT_IN_ATTRIBUTE, "a bare '<' in a value", "write &lt; for it"},
    {XML_ERR_MISPLACED_CDATA_END, "']]>' may stand only at the end of a CDATA section", "write ]]&gt; for it"},
};

static void report_error(Run *run, const xmlError *error, Place place) {
    for (size_t i = 0; i < sizeof parser_errors / sizeof parser_errors[0]; i++) {
        if (parser_errors[i].code != error->code) continue;
        diag_report(run->diagnostics, RULE_XML_SYNTAX, place, parser_errors[i].hint, "%s", parser_errors[i].words);
        return;
    }
    const char *words = error->message ? error->message : "";
    diag_report(run->diagnostics, RULE_XML_SYNTAX, place, NULL, "the XML is not well-formed: %.*s", words_length(words),
                words);
}

/* Only the first error is told: what follows it is mostly its echo. */
static void on_error(void *data, xmlErrorPtr error) {
    xmlParserCtxtPtr parser = data;
    Run *run = parser->_private;
    if (run->reported || !is_fatal(error)) return;
    run->reported = true;
    long at = xmlByteConsumed(parser);
    size_t offset = at < 0 ? 0 : (size_t)at;
    report_error(run, error, xml_place(run->text, offset, 1));
}

/* A second wall behind the scanner's: no document type reaches the parser. */
static void on_document_type(void *data, const xmlChar *name, const xmlChar *external, const xmlChar *system) {
    (void)name, (void)external, (void)system;
    xmlParserCtxtPtr parser = data;
    ((Run *)parser->_private)->refused = true;
    xmlStopParser(parser);
}

xmlDocPtr xml_parse_document(const Text *text, Diagnostics *diagnostics) {
    Run run = {.text = text, .diagnostics = diagnostics};
    xmlParserCtxtPtr parser = xmlNewParserCtxt();
    if (!parser) return NULL;
    parser->_private = &run;
    parser->sax->serror = on_error;
    parser->sax->internalSubset = on_document_type;
    xmlDocPtr document =
        xmlCtxtReadMemory(parser, text->bytes, (int)text->length, NULL, "UTF-8", XML_PARSE_NONET | XML_PARSE_COMPACT);
    bool good = document && parser->wellFormed && !run.refused && !run.reported;
    xmlFreeParserCtxt(parser);
    if (good) return document;
    if (document) xmlFreeDoc(document);
    if (!run.reported) {
        Rule rule = run.refused ? RULE_XML_UNSAFE : RULE_XML_SYNTAX;
        diag_report(diagnostics, rule, xml_place(text, 0, 1), NULL, "the file cannot be read as XML");
    }
    return NULL;
}

/* ---- copying the tree, with the place of everything from the scanner's list ---- */

/* Names are copied once: libxml2 keeps one string for each, so that its address tells it. */
enum { NAME_CACHE = 256 };

typedef struct CachedName {
    const xmlChar *original;
    const char *copy;
} CachedName;

typedef struct Copier {
    Arena *arena;
    CachedName names[NAME_CACHE];
    const Text *text;
    const Markup *items;
    size_t count, next; /* markup in order; the next one to come */
    size_t text_at;     /* where character data after the last markup begins */
    Diagnostics *diagnostics;
    bool namespaces; /* names in a namespace are let pass */
    bool good;
} Copier;

/* Takes the next markup, which is what the tree says comes next. */
static Markup take(Copier *copier) {
    if (copier->next == copier->count) return (Markup){0};
    Markup item = copier->items[copier->next++];
    copier->text_at = item.end;
    return item;
}

static const char *copy_name(Copier *copier, const xmlChar *name) {
    CachedName *cached = &copier->names[((uintptr_t)name >> 3) % NAME_CACHE];
    if (cached->original != name) *cached = (CachedName){name, arena_string(copier->arena, (const char *)name)};
    return cached->copy;
}

static bool is_blank(const char *text) {
    return text[strspn(text, " \t\r\n")] == '\0';
}

bool xml_is_mixed(const char *element) {
    for (size_t i = 0; i < sizeof mixed_elements / sizeof mixed_elements[0]; i++) {
        if (strcmp(element, mixed_elements[i]) == 0) return true;
    }
    return false;
}

static void refuse_namespace(Copier *copier, const xmlNode *element, Place place) {
    copier->good = false;
    const char *uri = (const char *)element->ns->href;
    if (strcmp(uri, include_namespace) == 0) {
        diag_report(copier->diagnostics, RULE_XML_UNSAFE, place, NULL, "includes are not read");
    } else {
        diag_report(copier->diagnostics, RULE_ELEMENT_UNKNOWN, place, "the files have no namespace",
                    "'%s' stands in the namespace '%s'", (const char *)element->name, uri);
    }
}

/* Attributes for editors (where the schema is) are not the dossier's; other foreign ones are refused. */
static bool is_foreign(Copier *copier, const xmlAttr *attribute, const RawAttribute *raw) {
    if (!attribute->ns || copier->namespaces) return false;
    const char *name = (const char *)attribute->name;
    bool instance = strcmp((const char *)attribute->ns->href, instance_namespace) == 0;
    if (instance && (strcmp(name, "noNamespaceSchemaLocation") == 0 || strcmp(name, "schemaLocation") == 0))
        return true;
    copier->good = false;
    Place place = xml_place(copier->text, raw->name_at, raw->name_length);
    diag_report(copier->diagnostics, RULE_ATTRIBUTE_UNKNOWN, place, NULL, "%s has no attribute '%.*s'",
                (const char *)attribute->parent->name, (int)raw->name_length, copier->text->bytes + raw->name_at);
    return true;
}

/* True for xmlns and xmlns:x, which libxml2 keeps apart from attributes. */
static bool declares_namespace(const Text *text, const RawAttribute *raw) {
    const char *name = text->bytes + raw->name_at;
    if (raw->name_length < 5 || memcmp(name, "xmlns", 5) != 0) return false;
    return raw->name_length == 5 || name[5] == ':';
}

static const char *attribute_value(Arena *arena, xmlAttr *attribute) {
    xmlNode *only = attribute->children;
    if (!only) return "";
    if (!only->next && only->type == XML_TEXT_NODE) return arena_string(arena, (const char *)only->content);
    xmlChar *joined = xmlNodeListGetString(attribute->doc, only, 1);
    const char *value = arena_string(arena, joined ? (const char *)joined : "");
    xmlFree(joined);
    return value;
}

static size_t count_attributes(const xmlNode *element) {
    size_t count = 0;
    for (const xmlAttr *attribute = element->properties; attribute; attribute = attribute->next) count++;
    return count;
}

/* The tree's attributes and the tag's stand in the same order. */
static void copy_attributes(Copier *copier, const xmlNode *element, Markup tag, XmlNode *node) {
    node->attributes = ARENA_ARRAY(copier->arena, count_attributes(element), XmlAttribute);
    size_t at = tag.at + 1 + tag.name_length;
    for (xmlAttr *attribute = element->properties; attribute; attribute = attribute->next) {
        RawAttribute raw = {0};
        while (xml_next_attribute(copier->text, &at, &raw) && declares_namespace(copier->text, &raw)) {
        }
        if (is_foreign(copier, attribute, &raw)) continue;
        node->attributes[node->attribute_count++] = (XmlAttribute){
            .name = copy_name(copier, attribute->name),
            .value = attribute_value(copier->arena, attribute),
            .value_at = raw.value_at,
            .value_length = raw.value_length,
            .name_at = raw.name_at,
        };
    }
}

/* An element without its children. */
static XmlNode *copy_element(Copier *copier, xmlNode *element, Markup tag) {
    XmlNode *node = ARENA_NEW(copier->arena, XmlNode);
    node->name = copy_name(copier, element->name);
    node->place = xml_place(copier->text, tag.at, 1 + tag.name_length);
    element->_private = node;
    if (element->ns && !copier->namespaces) refuse_namespace(copier, element, node->place);
    copy_attributes(copier, element, tag, node);
    return node;
}

/* Character data, or NULL where it only lays out the file. */
static XmlNode *copy_text(Copier *copier, const xmlNode *text, size_t at) {
    const char *content = text->content ? (const char *)text->content : "";
    if (is_blank(content) && !xml_is_mixed((const char *)text->parent->name)) return NULL;
    XmlNode *node = ARENA_NEW(copier->arena, XmlNode);
    node->text = arena_string(copier->arena, content);
    node->place = xml_place(copier->text, at, 1);
    return node;
}

static XmlNode *copy_children(Copier *copier, const xmlNode *element);

static XmlNode *copy_node(Copier *copier, xmlNode *child) {
    if (child->type == XML_TEXT_NODE) return copy_text(copier, child, copier->text_at);
    Markup item = take(copier);
    if (child->type == XML_CDATA_SECTION_NODE) return copy_text(copier, child, item.at + sizeof "<![CDATA[" - 1);
    if (child->type != XML_ELEMENT_NODE) return NULL;
    XmlNode *node = copy_element(copier, child, item);
    node->first = copy_children(copier, child);
    if (item.kind == MARKUP_START) (void)take(copier);
    return node;
}

static XmlNode *copy_children(Copier *copier, const xmlNode *element) {
    XmlNode *first = NULL, **end = &first;
    for (xmlNode *child = element->children; child; child = child->next) {
        *end = copy_node(copier, child);
        if (*end) end = &(*end)->next;
    }
    return first;
}

/* The XML declaration is markup for the scanner and nothing in the tree. */
static void skip_declaration(Copier *copier) {
    if (copier->count == 0 || copier->items[0].kind != MARKUP_INSTRUCTION) return;
    const char *at = copier->text->bytes + copier->items[0].at;
    if (strncmp(at, "<?xml", 5) == 0 && strchr(" \t\r\n", at[5])) (void)take(copier);
}

static bool copy_document(Copier *copier, XmlFile *file) {
    skip_declaration(copier);
    for (xmlNode *node = file->document->children; node; node = node->next) {
        XmlNode *copy = copy_node(copier, node);
        if (copy) file->root = copy;
    }
    return copier->good && file->root;
}

bool xml_parse(Arena *arena, const Text *text, bool namespaces, XmlFile *file, Diagnostics *diagnostics) {
    *file = (XmlFile){.text = text};
    MarkupList list;
    if (!xml_check_bytes(text, diagnostics) || !xml_scan(arena, text, &list, diagnostics)) return false;
    file->document = xml_parse_document(text, diagnostics);
    if (!file->document) return false;
    Copier copier = {.arena = arena, .text = text, .items = list.items, .count = list.count};
    copier.diagnostics = diagnostics;
    copier.namespaces = namespaces;
    copier.good = true;
    if (copy_document(&copier, file)) return true;
    xml_file_free(file);
    return false;
}

void xml_file_free(XmlFile *file) {
    if (file->document) xmlFreeDoc(file->document);
    file->document = NULL;
}
