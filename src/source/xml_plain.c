/* The plain part of XML, read in one pass: elements and attributes with names in ASCII and in no
 * namespace, text, comments and the five named references, in lines that end with a line feed. What else there is, and
 * everything wrong, is left to libxml2 (xml_parse.c), which knows all of XML and says what is wrong. So all that is
 * read here must be well-formed, and must give the nodes that libxml2 gives. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "source/xml_parts.h"

enum {
    PLAIN_MOST_BYTES = 1024 * 1024, /* libxml2 has limits of its own for what larger files could hold */
    PLAIN_MOST_NAME = 100,
    FIRST_EVENTS = 256
};

/* Names, values and texts stand in a copy of the file, which is cut where they end. A cut falls on a byte that has been
 * read. The zero after the last byte ends every loop. */
typedef struct Plain {
    Arena *arena;
    const Text *text;
    char *bytes, *end;
    char *at;
    XmlEvents *events;
    XmlNode *open[XML_MOST_DEPTH + 1];  /* the innermost last; [0] stands for the document */
    XmlNode **next[XML_MOST_DEPTH + 1]; /* where the next child of each goes */
    size_t depth;
    size_t elements;
} Plain;

static size_t offset_of(const Plain *plain, const char *at) {
    return (size_t)(at - plain->bytes);
}

static bool is_space(char byte) {
    return byte == ' ' || byte == '\n' || byte == '\t';
}

static bool is_name_start(char byte) {
    return (unsigned)((byte | 0x20) - 'a') < 26 || byte == '_';
}

static bool is_name(char byte) {
    return is_name_start(byte) || (unsigned)(byte - '0') < 10 || byte == '-' || byte == '.';
}

static void skip_space(Plain *plain) {
    while (is_space(*plain->at)) plain->at++;
}

/* The length of the name at the reader's place, 0 when it is not a plain one. */
static size_t name_length(const Plain *plain) {
    const char *at = plain->at;
    if (!is_name_start(*at)) return 0;
    while (is_name(*at)) at++;
    size_t length = (size_t)(at - plain->at);
    return length <= PLAIN_MOST_NAME ? length : 0;
}

/* ---- references ---- */

static const struct {
    char name[6];
    char stands_for;
} references[] = {{"amp;", '&'}, {"lt;", '<'}, {"gt;", '>'}, {"quot;", '"'}, {"apos;", '\''}};

/* What the reference at `at`, behind its ampersand, stands for; its length. 0: none of the five. */
static size_t read_reference(const char *at, char *stands_for) {
    for (size_t i = 0; i < sizeof references / sizeof *references; i++) {
        size_t length = strlen(references[i].name);
        *stands_for = references[i].stands_for;
        if (strncmp(at, references[i].name, length) == 0) return length;
    }
    return 0;
}

/* Ends `text` with a zero and replaces its references; false when one is not plain. libxml2's validator reads "&#38;"
 * as an ampersand, so nothing may come out as that. */
static bool cut(char *text, size_t length) {
    text[length] = '\0';
    char *to = memchr(text, '&', length);
    if (!to) return true;
    for (const char *from = to; *from; to++) {
        size_t skip = 0;
        if (*from == '&' && (skip = read_reference(from + 1, to)) == 0) return false;
        if (*from != '&') *to = *from;
        from += 1 + skip;
    }
    *to = '\0';
    return !strstr(text, "&#38;");
}

/* ---- attributes ---- */

/* Finds the closing quote, turning line ends and tabs to spaces on the way; NULL when the value is not plain. */
static char *value_end(char *at, char quote) {
    for (; *at != quote; at++) {
        if (*at == '<' || *at == '\0') return NULL;
        if (is_space(*at)) *at = ' ';
    }
    return at;
}

/* The attributes of one element, and the first eight bytes of each one's name, which are soon compared. */
typedef struct Found {
    XmlAttribute attributes[XML_MOST_ATTRIBUTES];
    uint64_t heads[XML_MOST_ATTRIBUTES];
    size_t count;
} Found;

static uint64_t head_of(const char *name) {
    uint64_t head = 0;
    for (size_t i = 0; i < sizeof head && name[i]; i++) head = head << 8 | (unsigned char)name[i];
    return head;
}

/* Whether the newest has the name of another. */
static bool stands_twice(Found *found) {
    size_t last = found->count - 1;
    const char *name = found->attributes[last].name;
    uint64_t head = found->heads[last] = head_of(name);
    for (size_t i = 0; i < last; i++)
        if (found->heads[i] == head && strcmp(found->attributes[i].name, name) == 0) return true;
    return false;
}

/* Reads name="value" at the reader's place. */
static bool read_attribute(Plain *plain, XmlAttribute *attribute) {
    char *name = plain->at;
    size_t length = name_length(plain);
    plain->at += length;
    char *name_end = plain->at;
    skip_space(plain);
    if (!length || *plain->at != '=') return false;
    plain->at++;
    skip_space(plain);
    char quote = *plain->at;
    if (quote != '"' && quote != '\'') return false;
    char *value = plain->at + 1;
    char *close = value_end(value, quote);
    if (!close) return false;
    plain->at = close + 1;
    size_t raw_length = (size_t)(close - value);
    *attribute = (XmlAttribute){name, value, offset_of(plain, value), raw_length, offset_of(plain, name)};
    *name_end = '\0';
    return cut(value, raw_length) && strcmp(name, "xmlns") != 0;
}

/* Reads attributes up to '>' or '/>'. */
static bool read_attributes(Plain *plain, XmlNode *node) {
    Found found;
    for (found.count = 0;;) {
        bool spaced = is_space(*plain->at);
        skip_space(plain);
        if (*plain->at == '>' || *plain->at == '/') break;
        if (!spaced || found.count == XML_MOST_ATTRIBUTES) return false;
        if (!read_attribute(plain, &found.attributes[found.count++]) || stands_twice(&found)) return false;
    }
    node->attributes = ARENA_ARRAY(plain->arena, found.count, XmlAttribute);
    node->attribute_count = found.count;
    if (found.count) memcpy(node->attributes, found.attributes, found.count * sizeof *found.attributes);
    return true;
}

/* ---- markup ---- */

void xml_events_free(XmlEvents *events) {
    free(events->items);
    *events = (XmlEvents){0};
}

static void add_event(Plain *plain, XmlEvent event) {
    XmlEvents *events = plain->events;
    if (events->count == events->room) {
        events->room = events->room * 2 + FIRST_EVENTS;
        events->items = mem_resize(events->items, events->room * sizeof *events->items);
    }
    events->items[events->count++] = event;
}

static void add_node(Plain *plain, XmlNode *node) {
    *plain->next[plain->depth] = node;
    plain->next[plain->depth] = &node->next;
}

static void close_element(Plain *plain) {
    add_event(plain, (XmlEvent){XML_EVENT_END, plain->open[plain->depth], NULL});
    plain->depth--;
}

/* The reader stands behind '<'. The root may not have a sibling. */
static bool read_start(Plain *plain) {
    size_t length = name_length(plain);
    bool too_many = ++plain->elements > XML_MOST_ELEMENTS || plain->depth == XML_MOST_DEPTH;
    if (!length || too_many || (plain->depth == 0 && plain->open[0]->first)) return false;
    XmlNode *node = ARENA_NEW(plain->arena, XmlNode);
    char *name_end = plain->at + length;
    node->name = plain->at;
    node->place = xml_place(plain->text, offset_of(plain, plain->at) - 1, 1 + length);
    plain->at = name_end;
    if (!read_attributes(plain, node)) return false;
    bool is_empty = *plain->at == '/';
    plain->at += is_empty;
    if (*plain->at++ != '>') return false;
    *name_end = '\0';
    add_node(plain, node);
    plain->open[++plain->depth] = node;
    plain->next[plain->depth] = &node->first;
    add_event(plain, (XmlEvent){XML_EVENT_START, node, NULL});
    if (is_empty) close_element(plain);
    return true;
}

/* The reader stands behind '</'. */
static bool read_end(Plain *plain) {
    const char *name = plain->open[plain->depth]->name;
    size_t length = name_length(plain);
    if (plain->depth == 0 || strncmp(plain->at, name, length) != 0 || name[length]) return false;
    plain->at += length;
    skip_space(plain);
    if (*plain->at++ != '>') return false;
    close_element(plain);
    return true;
}

/* The reader stands behind '<!'. */
static bool read_comment(Plain *plain) {
    if (strncmp(plain->at, "--", 2) != 0) return false;
    char *close = strstr(plain->at + 2, "--");
    if (!close || close[2] != '>') return false;
    plain->at = close + 3;
    return true;
}

static bool read_markup(Plain *plain) {
    switch (*plain->at) {
    case '/':
        plain->at++;
        return read_end(plain);
    case '!':
        plain->at++;
        return read_comment(plain);
    default:
        return read_start(plain);
    }
}

/* Character data; what stands behind it has been read. Outside the root it must be blank. */
static bool read_text(Plain *plain, char *text, size_t length) {
    bool is_blank = strspn(text, " \n\t") >= length;
    if (!length || plain->depth == 0) return is_blank;
    if (memmem(text, length, "]]>", 3) || !cut(text, length)) return false;
    add_event(plain, (XmlEvent){XML_EVENT_TEXT, NULL, text});
    if (is_blank && !xml_is_mixed(plain->open[plain->depth]->name)) return true;
    XmlNode *node = ARENA_NEW(plain->arena, XmlNode);
    node->text = text;
    node->place = xml_place(plain->text, offset_of(plain, text), 1);
    add_node(plain, node);
    return true;
}

static bool read_all(Plain *plain) {
    for (;;) {
        char *text = plain->at;
        char *stop = strchrnul(text, '<');
        bool is_last = *stop == '\0';
        plain->at = stop + 1;
        if (!read_text(plain, text, (size_t)(stop - text))) return false;
        if (is_last) return stop == plain->end && plain->depth == 0 && plain->open[0]->first;
        if (!read_markup(plain)) return false;
    }
}

/* Of the ways to write a declaration, the usual two. */
static void skip_declaration(Plain *plain) {
    static const char *const declarations[] = {"<?xml version=\"1.0\" encoding=\"UTF-8\"?>", "<?xml version=\"1.0\"?>"};
    for (size_t i = 0; i < sizeof declarations / sizeof *declarations; i++) {
        size_t length = strlen(declarations[i]);
        if (strncmp(plain->bytes, declarations[i], length) == 0) plain->at = plain->bytes + length;
    }
}

XmlNode *xml_read_plain(Arena *arena, const Text *text, const char *root, XmlEvents *events) {
    if (text->length > PLAIN_MOST_BYTES || memchr(text->bytes, '\r', text->length)) return NULL;
    XmlNode document = {0};
    Plain plain = {.arena = arena, .text = text, .events = events};
    plain.open[0] = &document;
    plain.next[0] = &document.first;
    plain.bytes = plain.at = arena_copy(arena, text->bytes, text->length);
    plain.end = plain.bytes + text->length;
    skip_declaration(&plain);
    bool good = read_all(&plain);
    return good && strcmp(document.first->name, root) == 0 ? document.first : NULL;
}
