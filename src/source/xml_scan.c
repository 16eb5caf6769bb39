#include <stdlib.h>
#include <string.h>

#include "source/xml_parts.h"

enum { FIRST_ROOM = 512 };

typedef struct Scanner {
    const Text *text;
    const char *bytes;
    size_t at, end;
    Markup *items;
    size_t count, room, elements;
    Markup open[XML_MOST_DEPTH];
    size_t depth;
    Diagnostics *diagnostics;
} Scanner;

Place xml_place(const Text *text, size_t offset, size_t length) {
    return (Place){text, offset, length};
}

static Place place_of(const Scanner *scanner, size_t at, size_t length) {
    return xml_place(scanner->text, at, length);
}

enum { BYTE_SPACE = 1, BYTE_NAME_END = 2 };

static const unsigned char byte_kinds[256] = {
    [' '] = BYTE_SPACE | BYTE_NAME_END,
    ['\t'] = BYTE_SPACE | BYTE_NAME_END,
    ['\n'] = BYTE_SPACE | BYTE_NAME_END,
    ['\r'] = BYTE_SPACE | BYTE_NAME_END,
    ['='] = BYTE_NAME_END,
    ['/'] = BYTE_NAME_END,
    ['>'] = BYTE_NAME_END,
    ['\''] = BYTE_NAME_END,
    ['"'] = BYTE_NAME_END,
    ['<'] = BYTE_NAME_END,
    ['&'] = BYTE_NAME_END,
};

static bool is_space(char byte) {
    return byte_kinds[(unsigned char)byte] & BYTE_SPACE;
}

/* A name ends at any byte that cannot be in one; whether it is a good name is the parser's to say. */
static size_t name_end(const char *bytes, size_t at, size_t end) {
    while (at < end && !(byte_kinds[(unsigned char)bytes[at]] & BYTE_NAME_END)) at++;
    return at;
}

static size_t skip_space(const char *bytes, size_t at, size_t end) {
    while (at < end && is_space(bytes[at])) at++;
    return at;
}

static bool starts(const Scanner *scanner, const char *with) {
    size_t length = strlen(with);
    return scanner->end - scanner->at >= length && memcmp(scanner->bytes + scanner->at, with, length) == 0;
}

static bool limit(const Scanner *scanner, Markup tag, int most, const char *what) {
    diag_report(scanner->diagnostics, RULE_XML_LIMIT, place_of(scanner, tag.at, 1 + tag.name_length), NULL,
                "more than %d %s", most, what);
    return false;
}

/* ---- references ---- */

static bool is_predefined(const char *name, size_t length) {
    static const char *const names[] = {"amp", "lt", "gt", "quot", "apos"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strlen(names[i]) == length && memcmp(names[i], name, length) == 0) return true;
    }
    return false;
}

/* `at` is at an ampersand. */
static bool check_reference(const Scanner *scanner, size_t at) {
    size_t end = name_end(scanner->bytes, at + 1, scanner->end);
    const char *name = scanner->bytes + at + 1;
    const char *stop = memchr(name, ';', end - at - 1);
    if (!stop || stop == name) {
        diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place_of(scanner, at, 1), "write &amp; for it",
                    "a bare '&'");
        return false;
    }
    size_t length = (size_t)(stop - name);
    if (*name == '#' || is_predefined(name, length)) return true;
    diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place_of(scanner, at, length + 2), "write the character itself",
                "there is no '&%.*s;'", (int)length, name);
    return false;
}

static bool check_references(const Scanner *scanner, size_t from, size_t to) {
    const char *bytes = scanner->bytes;
    for (const char *at; (at = memchr(bytes + from, '&', to - from)); from = (size_t)(at - bytes) + 1) {
        if (!check_reference(scanner, (size_t)(at - bytes))) return false;
    }
    return true;
}

/* ---- attributes ---- */

static bool wrong_attribute(const Scanner *scanner, RawAttribute found, const char *hint, const char *what) {
    diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place_of(scanner, found.name_at, found.name_length), hint,
                "the attribute '%.*s' %s", (int)found.name_length, scanner->bytes + found.name_at, what);
    return false;
}

/* Reads name, '=' and the quoted value at the scanner's place. */
static bool read_attribute(Scanner *scanner, RawAttribute *found) {
    const char *bytes = scanner->bytes;
    size_t name = name_end(bytes, scanner->at, scanner->end);
    *found = (RawAttribute){.name_at = scanner->at, .name_length = name - scanner->at};
    if (found->name_length == 0) {
        diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place_of(scanner, scanner->at, 1),
                    "is a quote missing before this?", "an attribute was expected here");
        return false;
    }
    size_t at = skip_space(bytes, name, scanner->end);
    if (at == scanner->end || bytes[at] != '=') return wrong_attribute(scanner, *found, NULL, "has no value");
    at = skip_space(bytes, at + 1, scanner->end);
    if (at == scanner->end || (bytes[at] != '"' && bytes[at] != '\'')) {
        return wrong_attribute(scanner, *found, NULL, "has its value not in quotes");
    }
    const char *quote = memchr(bytes + at + 1, bytes[at], scanner->end - at - 1);
    if (!quote) return wrong_attribute(scanner, *found, NULL, "has no closing quote");
    found->value_at = at + 1;
    found->value_length = (size_t)(quote - bytes) - at - 1;
    if (memchr(bytes + at + 1, '<', found->value_length)) {
        return wrong_attribute(scanner, *found, "close the quote, or write &lt;", "has a '<' in its value");
    }
    scanner->at = (size_t)(quote - bytes) + 1;
    return check_references(scanner, found->value_at, found->value_at + found->value_length);
}

static bool check_twice(const Scanner *scanner, const RawAttribute *found, size_t count) {
    const RawAttribute *last = &found[count - 1];
    for (size_t i = 0; i + 1 < count; i++) {
        if (found[i].name_length != last->name_length) continue;
        if (memcmp(scanner->bytes + found[i].name_at, scanner->bytes + last->name_at, last->name_length) != 0) continue;
        wrong_attribute(scanner, *last, NULL, "stands twice in one element");
        diag_also(scanner->diagnostics, place_of(scanner, found[i].name_at, found[i].name_length), "the first is here");
        return false;
    }
    return true;
}

/* Reads attributes up to '>' or '/>'. Counted here because the parser's own check for doubles is quadratic in them. */
static bool read_attributes(Scanner *scanner, Markup *tag) {
    RawAttribute found[XML_MOST_ATTRIBUTES];
    for (size_t count = 0;;) {
        size_t at = skip_space(scanner->bytes, scanner->at, scanner->end);
        bool spaced = at > scanner->at;
        scanner->at = at;
        if (at == scanner->end) {
            diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place_of(scanner, tag->at, 1 + tag->name_length), NULL,
                        "the tag has no '>'");
            return false;
        }
        if (starts(scanner, ">") || starts(scanner, "/>")) return true;
        if (!spaced) {
            diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place_of(scanner, at, 1),
                        "attributes stand apart; is a quote missing before this?", "a space was expected here");
            return false;
        }
        if (count == XML_MOST_ATTRIBUTES) return limit(scanner, *tag, XML_MOST_ATTRIBUTES, "attributes in one element");
        if (!read_attribute(scanner, &found[count++]) || !check_twice(scanner, found, count)) return false;
    }
}

bool xml_next_attribute(const Text *text, size_t *at, RawAttribute *attribute) {
    const char *bytes = text->bytes;
    size_t name = skip_space(bytes, *at, text->length);
    size_t stop = name_end(bytes, name, text->length);
    if (stop == name) return false;
    const char *quote = bytes + stop;
    while (*quote != '"' && *quote != '\'') quote++;
    size_t value = (size_t)(quote - bytes) + 1;
    const char *close = memchr(bytes + value, *quote, text->length - value);
    *attribute = (RawAttribute){name, stop - name, value, (size_t)(close - bytes) - value};
    *at = (size_t)(close - bytes) + 1;
    return true;
}

/* ---- markup ---- */

static void add(Scanner *scanner, Markup item) {
    if (scanner->count == scanner->room) {
        scanner->room = scanner->room * 2 + FIRST_ROOM;
        scanner->items = mem_resize(scanner->items, scanner->room * sizeof *scanner->items);
    }
    scanner->items[scanner->count++] = item;
}

static bool scan_start(Scanner *scanner) {
    Markup tag = {.kind = MARKUP_START, .at = scanner->at};
    size_t name = scanner->at + 1;
    scanner->at = name_end(scanner->bytes, name, scanner->end);
    tag.name_length = scanner->at - name;
    if (tag.name_length == 0) {
        diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place_of(scanner, tag.at, 1), "write &lt; for it",
                    "a bare '<'");
        return false;
    }
    if (++scanner->elements > XML_MOST_ELEMENTS) return limit(scanner, tag, XML_MOST_ELEMENTS, "elements in one file");
    if (!read_attributes(scanner, &tag)) return false;
    if (starts(scanner, "/>")) {
        tag.kind = MARKUP_EMPTY;
        scanner->at++;
    }
    tag.end = ++scanner->at;
    add(scanner, tag);
    if (tag.kind == MARKUP_EMPTY) return true;
    if (scanner->depth == XML_MOST_DEPTH) return limit(scanner, tag, XML_MOST_DEPTH, "levels of elements");
    scanner->open[scanner->depth++] = tag;
    return true;
}

static bool wrong_end(const Scanner *scanner, Markup tag) {
    Place place = place_of(scanner, tag.at, 2 + tag.name_length);
    const char *name = scanner->bytes + tag.at + 2;
    if (scanner->depth == 0) {
        diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place, NULL, "</%.*s> closes nothing", (int)tag.name_length,
                    name);
        return false;
    }
    const Markup *open = &scanner->open[scanner->depth - 1];
    int length = (int)open->name_length;
    const char *open_name = scanner->bytes + open->at + 1;
    diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place, NULL, "</%.*s> stands where </%.*s> was expected",
                (int)tag.name_length, name, length, open_name);
    diag_also(scanner->diagnostics, place_of(scanner, open->at, 1 + open->name_length), "<%.*s> is open since here",
              length, open_name);
    return false;
}

static bool scan_end(Scanner *scanner) {
    Markup tag = {.kind = MARKUP_END, .at = scanner->at};
    size_t name = scanner->at + 2;
    size_t stop = name_end(scanner->bytes, name, scanner->end);
    tag.name_length = stop - name;
    const Markup *open = scanner->depth ? &scanner->open[scanner->depth - 1] : NULL;
    bool matches = open && open->name_length == tag.name_length &&
                   memcmp(scanner->bytes + open->at + 1, scanner->bytes + name, tag.name_length) == 0;
    if (!matches) return wrong_end(scanner, tag);
    stop = skip_space(scanner->bytes, stop, scanner->end);
    if (stop == scanner->end || scanner->bytes[stop] != '>') {
        diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place_of(scanner, tag.at, 2 + tag.name_length), NULL,
                    "the closing tag has no '>'");
        return false;
    }
    scanner->at = tag.end = stop + 1;
    scanner->depth--;
    add(scanner, tag);
    return true;
}

/* Comments, CDATA and instructions: everything up to their closing mark. */
static bool scan_until(Scanner *scanner, MarkupKind kind, const char *open, const char *close) {
    size_t opened = strlen(open), closes = strlen(close);
    const char *from = scanner->bytes + scanner->at + opened;
    const char *stop = memmem(from, scanner->end - scanner->at - opened, close, closes);
    if (!stop) {
        diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place_of(scanner, scanner->at, opened), NULL,
                    "no '%s' closes this", close);
        return false;
    }
    Markup item = {.kind = kind, .at = scanner->at, .end = (size_t)(stop - scanner->bytes) + closes};
    scanner->at = item.end;
    add(scanner, item);
    return true;
}

static bool scan_declaration(const Scanner *scanner) {
    diag_report(scanner->diagnostics, RULE_XML_UNSAFE, place_of(scanner, scanner->at, 2),
                "take it out; characters are written as themselves",
                "document types and entity declarations are not read");
    return false;
}

static bool scan_markup(Scanner *scanner) {
    if (starts(scanner, "<!--")) return scan_until(scanner, MARKUP_COMMENT, "<!--", "-->");
    if (starts(scanner, "<![CDATA[")) return scan_until(scanner, MARKUP_CDATA, "<![CDATA[", "]]>");
    if (starts(scanner, "<!")) return scan_declaration(scanner);
    if (starts(scanner, "<?")) return scan_until(scanner, MARKUP_INSTRUCTION, "<?", "?>");
    return starts(scanner, "</") ? scan_end(scanner) : scan_start(scanner);
}

static bool scan_item(Scanner *scanner) {
    const char *next = memchr(scanner->bytes + scanner->at, '<', scanner->end - scanner->at);
    size_t stop = next ? (size_t)(next - scanner->bytes) : scanner->end;
    if (!check_references(scanner, scanner->at, stop)) return false;
    scanner->at = stop;
    return stop == scanner->end || scan_markup(scanner);
}

static bool scan_end_of_file(const Scanner *scanner) {
    if (scanner->depth == 0) return true;
    const Markup *open = &scanner->open[scanner->depth - 1];
    diag_report(scanner->diagnostics, RULE_XML_SYNTAX, place_of(scanner, open->at, 1 + open->name_length), NULL,
                "<%.*s> is never closed", (int)open->name_length, scanner->bytes + open->at + 1);
    return false;
}

static Scanner scanner_of(const Text *text, Diagnostics *diagnostics) {
    return (Scanner){.text = text, .bytes = text->bytes, .end = text->length, .diagnostics = diagnostics};
}

bool xml_scan(Arena *arena, const Text *text, MarkupList *list, Diagnostics *diagnostics) {
    Scanner scanner = scanner_of(text, diagnostics);
    bool good = true;
    while (good && scanner.at < scanner.end) good = scan_item(&scanner);
    good = good && scan_end_of_file(&scanner);
    list->items = ARENA_ARRAY(arena, scanner.count, Markup);
    list->count = scanner.count;
    if (scanner.count) memcpy(list->items, scanner.items, scanner.count * sizeof(Markup));
    free(scanner.items);
    return good;
}

const Markup *xml_scan_root(Arena *arena, const Text *text, Diagnostics *diagnostics) {
    Scanner scanner = scanner_of(text, diagnostics);
    bool good = true;
    while (good && scanner.elements == 0 && scanner.at < scanner.end) good = scan_item(&scanner);
    Markup *root = NULL;
    if (good && scanner.elements) {
        root = ARENA_NEW(arena, Markup);
        *root = scanner.items[scanner.count - 1];
    } else if (good) {
        diag_report(diagnostics, RULE_XML_SYNTAX, place_of(&scanner, 0, 1), NULL, "there is no element in the file");
    }
    free(scanner.items);
    return root;
}
