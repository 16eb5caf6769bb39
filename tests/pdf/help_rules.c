#include "pdf/help_rules.h"

#include <jansson.h>
#include <math.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "pdf/help_stream.h"

enum { READ_BYTES = 65536, DEEPEST = 40 };

typedef struct Checker {
    json_t *objects;
    Buf *faults;
    size_t fault_count;
    int heading; /* level of the last */
    size_t elements;
} Checker;

static void fault(Checker *checker, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void fault(Checker *checker, const char *format, ...) {
    char text[512];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    buf_printf(checker->faults, "%s\n", text);
    checker->fault_count++;
}

/* ---- objects ---- */

static bool is_reference(const json_t *value) {
    size_t length = json_is_string(value) ? json_string_length(value) : 0;
    const char *text = json_string_value(value);
    return length > 4 && !strcmp(text + length - 4, " 0 R") && text[0] >= '0' && text[0] <= '9';
}

static json_t *object_called(const Checker *checker, const char *reference) {
    char key[64];
    snprintf(key, sizeof key, "obj:%s", reference);
    return json_object_get(checker->objects, key);
}

/* What a value stands for, references followed; a stream stands for its dictionary. */
static json_t *resolve(const Checker *checker, json_t *value) {
    if (!is_reference(value)) return value;
    json_t *object = object_called(checker, json_string_value(value));
    json_t *plain = json_object_get(object, "value");
    return plain ? plain : json_object_get(json_object_get(object, "stream"), "dict");
}

static json_t *get(const Checker *checker, const json_t *dictionary, const char *key) {
    return resolve(checker, json_object_get(dictionary, key));
}

static const char *text_of(const Checker *checker, const json_t *dictionary, const char *key) {
    const char *text = json_string_value(get(checker, dictionary, key));
    return text ? text : "";
}

static bool is(const Checker *checker, const json_t *dictionary, const char *key, const char *wanted) {
    return !strcmp(text_of(checker, dictionary, key), wanted);
}

/* Bytes of a stream; qpdf gives them in base 64. */
static void read_stream(const Checker *checker, const json_t *reference, Buf *out) {
    static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    json_t *stream = json_object_get(object_called(checker, json_string_value(reference)), "stream");
    const char *data = json_string_value(json_object_get(stream, "data"));
    unsigned bits = 0;
    int held = 0;
    for (; data && *data && *data != '='; data++) {
        bits = bits << 6 | (unsigned)(strchr(digits, *data) - digits);
        held += 6;
        if (held < 8) continue;
        held -= 8;
        buf_putc(out, (char)(bits >> held));
    }
}

/* ---- the document ---- */

static json_t *catalog_of(const Checker *checker) {
    json_t *trailer = json_object_get(json_object_get(checker->objects, "trailer"), "value");
    return get(checker, trailer, "/Root");
}

static void check_metadata(Checker *checker, const json_t *catalog) {
    Buf packet = {0};
    read_stream(checker, json_object_get(catalog, "/Metadata"), &packet);
    const char *text = buf_text(&packet);
    if (!strstr(text, "<pdfuaid:part>1</pdfuaid:part>")) fault(checker, "the metadata does not say PDF/UA-1");
    if (!strstr(text, "<pdfaid:part>2</pdfaid:part>")) fault(checker, "the metadata does not say PDF/A-2");
    if (!strstr(text, "<dc:title>")) fault(checker, "the metadata has no title");
    if (!strstr(text, "pdfaExtension:schemas")) fault(checker, "PDF/A: a schema without a description");
    buf_free(&packet);
    json_t *trailer = json_object_get(json_object_get(checker->objects, "trailer"), "value");
    if (json_array_size(json_object_get(trailer, "/ID")) != 2) fault(checker, "PDF/A: no file identifier");
}

static void check_catalog(Checker *checker, const json_t *catalog) {
    if (strlen(text_of(checker, catalog, "/Lang")) < 4) fault(checker, "no language");
    if (!json_is_true(get(checker, get(checker, catalog, "/MarkInfo"), "/Marked")))
        fault(checker, "not marked as tagged");
    if (!json_is_true(get(checker, get(checker, catalog, "/ViewerPreferences"), "/DisplayDocTitle")))
        fault(checker, "the title is not shown");
    json_t *intent = resolve(checker, json_array_get(get(checker, catalog, "/OutputIntents"), 0));
    Buf profile = {0};
    read_stream(checker, json_object_get(intent, "/DestOutputProfile"), &profile);
    if (profile.length < 128 || memcmp(profile.bytes + 36, "acsp", 4)) fault(checker, "PDF/A: no colour profile");
    buf_free(&profile);
    check_metadata(checker, catalog);
}

/* ---- the structure ---- */

typedef struct Kind {
    const char *name;
    const char *parents; /* names that may stand above it, NULL any that holds blocks */
} Kind;

static const Kind kinds[] = {
    {"/Document", "/StructTreeRoot"},
    {"/Sect", "/Document /Sect"},
    {"/H1", "/Document /Sect"},
    {"/H2", "/Document /Sect"},
    {"/H3", "/Document /Sect"},
    {"/P", "/Document /Sect /TD /TH /LBody"},
    {"/L", "/Document /Sect /LBody /TD"},
    {"/LI", "/L"},
    {"/LBody", "/LI"},
    {"/Table", "/Document /Sect /TD"},
    {"/TR", "/Table"},
    {"/TH", "/TR"},
    {"/TD", "/TR"},
    {"/Figure", "/Document /Sect /P /TD /TH /LBody"},
    {"/Link", "/P /TD /TH /LBody /H1 /H2 /H3 /Figure /Sect /Document"},
    {"/Span", "/P /TD /TH /LBody /H1 /H2 /H3 /Figure"},
};

static void check_kind(Checker *checker, const char *name, const char *above) {
    for (size_t at = 0; at < sizeof kinds / sizeof *kinds; at++) {
        if (strcmp(kinds[at].name, name)) continue;
        const char *found = strstr(kinds[at].parents, above);
        if (!found || !strchr(" ", found[strlen(above)])) fault(checker, "%s stands in %s", name, above);
        return;
    }
    fault(checker, "%s is not a structure type we use", name);
}

/* The value of `key` among the attributes of an element. */
static json_t *attribute(const Checker *checker, const json_t *element, const char *key) {
    return get(checker, get(checker, element, "/A"), key);
}

static void check_figure(Checker *checker, const json_t *element) {
    if (strlen(text_of(checker, element, "/Alt")) < 3) fault(checker, "a figure without an alternative");
    json_t *box = attribute(checker, element, "/BBox");
    double edges[4];
    if (json_array_size(box) != 4) {
        fault(checker, "a figure without bounds");
        return;
    }
    for (size_t at = 0; at < 4; at++) edges[at] = json_number_value(json_array_get(box, at));
    if (edges[0] >= edges[2] || edges[1] >= edges[3]) fault(checker, "a figure with empty bounds");
}

static void check_heading(Checker *checker, const char *name) {
    int level = name[2] - '0';
    if (level > checker->heading + 1) fault(checker, "%s follows a heading of level %d", name, checker->heading);
    checker->heading = level;
}

static void check_head_cell(Checker *checker, const json_t *element) {
    const char *scope = json_string_value(attribute(checker, element, "/Scope"));
    if (!scope || (strcmp(scope, "/Column") && strcmp(scope, "/Row"))) fault(checker, "a head cell without scope");
}

static json_t *kids_of(const Checker *checker, const json_t *element, json_t *holder) {
    json_t *kids = get(checker, element, "/K");
    if (json_is_array(kids)) return kids;
    json_array_clear(holder);
    json_t *raw = json_object_get(element, "/K");
    if (raw) json_array_append(holder, raw);
    return holder;
}

static int row_width(const Checker *checker, const json_t *row) {
    json_t *holder = json_array();
    json_t *kids = kids_of(checker, row, holder);
    int width = 0;
    for (size_t at = 0; at < json_array_size(kids); at++) {
        json_t *span = attribute(checker, resolve(checker, json_array_get(kids, at)), "/ColSpan");
        width += span ? (int)json_integer_value(span) : 1;
    }
    json_decref(holder);
    return width;
}

static void check_table(Checker *checker, const json_t *table) {
    json_t *holder = json_array();
    json_t *kids = kids_of(checker, table, holder);
    int width = 0;
    for (size_t at = 0; at < json_array_size(kids); at++) {
        int cells = row_width(checker, resolve(checker, json_array_get(kids, at)));
        if (at && cells != width) fault(checker, "row %zu of a table has %d columns, not %d", at, cells, width);
        width = cells;
    }
    json_decref(holder);
}

static void check_link(Checker *checker, const json_t *element) {
    json_t *holder = json_array();
    json_t *kids = kids_of(checker, element, holder);
    size_t annotations = 0;
    for (size_t at = 0; at < json_array_size(kids); at++)
        if (is(checker, resolve(checker, json_array_get(kids, at)), "/Type", "/OBJR")) annotations++;
    if (!annotations) fault(checker, "a link without an annotation");
    json_decref(holder);
}

static void check_rules_of(Checker *checker, const json_t *element, const char *name) {
    if (!strcmp(name, "/Figure")) check_figure(checker, element);
    if (!strcmp(name, "/TH")) check_head_cell(checker, element);
    if (!strcmp(name, "/Table")) check_table(checker, element);
    if (!strcmp(name, "/Link")) check_link(checker, element);
    if (name[1] == 'H' && name[2] >= '1' && name[2] <= '6') check_heading(checker, name);
}

static void check_element(Checker *checker, json_t *reference, const char *parent, const char *above, int depth);

/* A kid is a content item, an object, or an element below. */
static void check_kid(Checker *checker, json_t *kid, const char *self, const char *name, int depth) {
    json_t *value = resolve(checker, kid);
    if (json_is_integer(value) || is(checker, value, "/Type", "/MCR") || is(checker, value, "/Type", "/OBJR")) {
        static const char grouping[] = "/Document /Sect /L /LI /Table /TR";
        const char *found = strstr(grouping, name);
        if (found && strchr(" ", found[strlen(name)])) fault(checker, "%s has content of its own", name);
        return;
    }
    check_element(checker, kid, self, name, depth + 1);
}

static void check_element(Checker *checker, json_t *reference, const char *parent, const char *above, int depth) {
    const json_t *element = resolve(checker, reference);
    const char *name = text_of(checker, element, "/S");
    const char *self = json_string_value(reference);
    const char *told = json_string_value(json_object_get(element, "/P"));
    checker->elements++;
    if (depth == DEEPEST || !self) {
        fault(checker, "the structure is too deep or holds an element that is no object");
        return;
    }
    if (!told || strcmp(told, parent)) fault(checker, "%s %s names %s as its parent, not %s", name, self, told, parent);
    check_kind(checker, name, above);
    check_rules_of(checker, element, name);
    json_t *holder = json_array();
    json_t *kids = kids_of(checker, element, holder);
    for (size_t at = 0; at < json_array_size(kids); at++)
        check_kid(checker, json_array_get(kids, at), self, name, depth);
    json_decref(holder);
}

static void check_structure(Checker *checker, const json_t *catalog) {
    json_t *raw = json_object_get(catalog, "/StructTreeRoot");
    json_t *root = resolve(checker, raw);
    json_t *kids = get(checker, root, "/K");
    if (!json_array_size(kids)) fault(checker, "no structure");
    for (size_t at = 0; at < json_array_size(kids); at++)
        check_element(checker, json_array_get(kids, at), json_string_value(raw), "/StructTreeRoot", 0);
}

/* ---- pages ---- */

/* The value of `key` in a number tree, not resolved, or NULL. */
static json_t *number_tree(const Checker *checker, const json_t *node, long long key) {
    json_t *kids = get(checker, node, "/Kids");
    for (size_t at = 0; at < json_array_size(kids); at++) {
        json_t *kid = resolve(checker, json_array_get(kids, at));
        json_t *limits = get(checker, kid, "/Limits");
        long long low = json_integer_value(json_array_get(limits, 0));
        long long high = json_integer_value(json_array_get(limits, 1));
        if (key >= low && key <= high) return number_tree(checker, kid, key);
    }
    json_t *numbers = get(checker, node, "/Nums");
    for (size_t at = 0; at + 1 < json_array_size(numbers); at += 2)
        if (json_integer_value(json_array_get(numbers, at)) == key) return json_array_get(numbers, at + 1);
    return NULL;
}

static bool holds_item(const Checker *checker, const json_t *element, const char *page, int item) {
    json_t *holder = json_array();
    json_t *kids = kids_of(checker, element, holder);
    bool found = false;
    for (size_t at = 0; at < json_array_size(kids) && !found; at++) {
        json_t *kid = resolve(checker, json_array_get(kids, at));
        const json_t *own = json_is_integer(kid) ? element : kid;
        json_t *number = json_is_integer(kid) ? kid : json_object_get(kid, "/MCID");
        const char *on = json_string_value(json_object_get(own, "/Pg"));
        found = json_is_integer(number) && json_integer_value(number) == item && on && !strcmp(on, page);
    }
    json_decref(holder);
    return found;
}

static void check_items(Checker *checker, const StreamReport *report, json_t *parents, const char *page) {
    if ((int)json_array_size(parents) != report->item_end)
        fault(checker, "page %s: %d content items, %zu in the parent tree", page, report->item_end,
              json_array_size(parents));
    for (int item = 0; item < report->item_end; item++) {
        if (!report->items[item]) fault(checker, "page %s: content item %d is not there", page, item);
        json_t *element = resolve(checker, json_array_get(parents, (size_t)item));
        if (!holds_item(checker, element, page, item)) fault(checker, "page %s: no element holds item %d", page, item);
    }
}

static bool has_annotation(const Checker *checker, const json_t *element, const char *annotation) {
    json_t *holder = json_array();
    json_t *kids = kids_of(checker, element, holder);
    bool found = false;
    for (size_t at = 0; at < json_array_size(kids) && !found; at++) {
        const char *object = json_string_value(json_object_get(resolve(checker, json_array_get(kids, at)), "/Obj"));
        found = object && !strcmp(object, annotation);
    }
    json_decref(holder);
    return found;
}

static void check_annotation(Checker *checker, const json_t *tree, json_t *reference) {
    const char *self = json_string_value(reference);
    json_t *annotation = resolve(checker, reference);
    json_t *key = json_object_get(annotation, "/StructParent");
    if (!is(checker, annotation, "/Subtype", "/Link")) fault(checker, "annotation %s is not a link", self);
    if (strlen(text_of(checker, annotation, "/Contents")) < 3) fault(checker, "link %s says nothing", self);
    if (json_integer_value(json_object_get(annotation, "/F")) != 4)
        fault(checker, "PDF/A: link %s is not printed", self);
    json_t *action = get(checker, annotation, "/A");
    if (!json_object_get(annotation, "/Dest") && !is(checker, action, "/S", "/URI"))
        fault(checker, "link %s leads nowhere", self);
    json_t *element =
        json_is_integer(key) ? resolve(checker, number_tree(checker, tree, json_integer_value(key))) : NULL;
    if (!is(checker, element, "/S", "/Link")) fault(checker, "link %s is not in a Link", self);
    if (!has_annotation(checker, element, self)) fault(checker, "the Link of %s does not hold it", self);
}

static void check_page(Checker *checker, const json_t *tree, const char *self, const json_t *page) {
    StreamReport *report = calloc(1, sizeof *report);
    if (!report) abort();
    Buf content = {0};
    read_stream(checker, json_object_get(page, "/Contents"), &content);
    report->faults = checker->faults;
    report->where = self;
    stream_check(content.bytes, content.length, report);
    checker->fault_count += report->fault_count;
    if (!is(checker, page, "/Tabs", "/S")) fault(checker, "page %s: tabs do not follow the structure", self);
    json_t *key = json_object_get(page, "/StructParents");
    json_t *parents =
        json_is_integer(key) ? resolve(checker, number_tree(checker, tree, json_integer_value(key))) : NULL;
    check_items(checker, report, parents, self);
    json_t *annotations = get(checker, page, "/Annots");
    for (size_t at = 0; at < json_array_size(annotations); at++)
        check_annotation(checker, tree, json_array_get(annotations, at));
    buf_free(&content);
    free(report);
}

/* ---- fonts ---- */

static void check_program(Checker *checker, const json_t *descendant, const char *self) {
    json_t *descriptor = get(checker, descendant, "/FontDescriptor");
    Buf program = {0};
    read_stream(checker, json_object_get(descriptor, "/FontFile2"), &program);
    if (program.length < 12 || memcmp(program.bytes, "\0\1\0\0", 4)) fault(checker, "font %s is not embedded", self);
    buf_free(&program);
    static const char *const keys[] = {"/Flags",   "/FontBBox",  "/ItalicAngle", "/Ascent",
                                       "/Descent", "/CapHeight", "/StemV"};
    for (size_t at = 0; at < sizeof keys / sizeof *keys; at++)
        if (!json_object_get(descriptor, keys[at])) fault(checker, "font %s has no %s", self, keys[at]);
    if (!is(checker, descendant, "/BaseFont", text_of(checker, descriptor, "/FontName")))
        fault(checker, "font %s has two names", self);
}

static void check_font(Checker *checker, const char *self, const json_t *font) {
    json_t *descendant = resolve(checker, json_array_get(get(checker, font, "/DescendantFonts"), 0));
    Buf map = {0};
    read_stream(checker, json_object_get(font, "/ToUnicode"), &map);
    if (!strstr(buf_text(&map), "begincmap")) fault(checker, "font %s has no text", self);
    if (strstr(buf_text(&map), "<>") || strstr(buf_text(&map), "<0000>\n"))
        fault(checker, "font %s has empty text", self);
    map.length = 0;
    read_stream(checker, json_object_get(descendant, "/CIDToGIDMap"), &map);
    if (!map.length || map.length % 2) fault(checker, "PDF/A: font %s has no glyph map", self);
    buf_free(&map);
    check_program(checker, descendant, self);
}

static void check_objects(Checker *checker, const json_t *catalog) {
    const json_t *tree = get(checker, get(checker, catalog, "/StructTreeRoot"), "/ParentTree");
    const char *key;
    json_t *object;
    size_t pages = 0;
    json_object_foreach(checker->objects, key, object) {
        json_t *value = json_object_get(object, "value");
        if (strncmp(key, "obj:", 4)) continue;
        if (is(checker, value, "/Type", "/Page")) check_page(checker, tree, key + 4, value);
        if (is(checker, value, "/Type", "/Page")) pages++;
        if (is(checker, value, "/Subtype", "/Type0")) check_font(checker, key + 4, value);
    }
    if (!pages) fault(checker, "no pages");
}

/* ---- */

static json_t *load(const char *path) {
    Buf command = {0}, all = {0};
    buf_printf(&command, "qpdf --json=2 --json-key=qpdf --json-stream-data=inline --decode-level=generalized '%s'",
               path);
    FILE *pipe = popen(buf_text(&command), "r");
    for (size_t got = 1; pipe && got; all.length += got)
        got = fread(buf_reserve(&all, READ_BYTES), 1, READ_BYTES, pipe);
    if (pipe) pclose(pipe);
    json_t *document = json_loadb(all.bytes, all.length, 0, NULL);
    buf_free(&command);
    buf_free(&all);
    return document;
}

size_t rules_check(const char *path, Buf *faults) {
    json_t *document = load(path);
    Checker checker = {.faults = faults};
    checker.objects = json_array_get(json_object_get(document, "qpdf"), 1);
    if (!checker.objects) {
        fault(&checker, "%s cannot be read", path);
        json_decref(document);
        return checker.fault_count;
    }
    const json_t *catalog = catalog_of(&checker);
    check_catalog(&checker, catalog);
    check_structure(&checker, catalog);
    check_objects(&checker, catalog);
    json_decref(document);
    return checker.fault_count;
}
