/* Charts in files of their own: <chart href="charts/g1.xml"/> stands for the root of that file. One level, below the
 * dossier's own folder, through no link; how many and how large is bounded. */
#include <string.h>

#include "base/file.h"
#include "base/text.h"
#include "source/attributes.h"
#include "source/xml_parts.h"

typedef struct Includer {
    Arena *arena;
    XmlSchemas *schemas;
    Diagnostics *diagnostics;
    size_t files;
    size_t left; /* bytes that all files may still have */
} Includer;

static bool refuse(const Includer *includer, Rule rule, const XmlNode *chart, const char *why) {
    diag_report(includer->diagnostics, rule, xml_value_place(chart, "href"), NULL, "the chart file is not read: %s",
                why);
    return false;
}

/* What the file says stands in the file. */
static bool check_alone(const Includer *includer, const XmlNode *chart) {
    for (size_t i = 0; i < chart->attribute_count; i++) {
        const char *name = chart->attributes[i].name;
        if (strcmp(name, "href") == 0 || strcmp(name, "media") == 0) continue;
        diag_report(includer->diagnostics, RULE_ATTRIBUTE_UNKNOWN, xml_name_place(chart, name), NULL,
                    "'%s' belongs in the chart's own file", name);
        return false;
    }
    if (!chart->first) return true;
    diag_report(includer->diagnostics, RULE_CONTENT, chart->first->place, NULL,
                "a chart with a file of its own has its snaps there");
    return false;
}

static const Text *read_file(Includer *includer, const XmlNode *chart) {
    static const Rule rules[] = {
        [BELOW_UNSAFE] = RULE_XML_UNSAFE, [BELOW_UNREADABLE] = RULE_FILE_READ, [BELOW_TOO_LARGE] = RULE_XML_LIMIT};
    const char *name = xml_value(chart, "href"), *why = attr_unsafe_path(name);
    if (why) {
        diag_report(includer->diagnostics, RULE_XML_UNSAFE, xml_value_place(chart, "href"), why,
                    "the chart file is not below the dossier's own folder");
        return NULL;
    }
    const Text *text = NULL;
    BelowFault fault = file_read_below(includer->arena, chart->place.text->path, name, includer->left, &text, &why);
    if (fault != BELOW_FINE) {
        refuse(includer, rules[fault], chart, why);
        return NULL;
    }
    includer->left -= text->length;
    return text;
}

/* The film may be named where the chart is included: the names of films are the dossier's. */
static void take_attributes(const Includer *includer, XmlNode *chart, const XmlNode *root) {
    const XmlAttribute *media = xml_attribute(chart, "media");
    XmlAttribute *attributes = ARENA_ARRAY(includer->arena, root->attribute_count + 1, XmlAttribute);
    size_t count = 0;
    for (size_t i = 0; i < root->attribute_count; i++) {
        bool replaced = media && strcmp(root->attributes[i].name, "media") == 0;
        if (!replaced) attributes[count++] = root->attributes[i];
    }
    if (media) attributes[count++] = *media;
    chart->attributes = attributes;
    chart->attribute_count = count;
}

static bool include(Includer *includer, XmlNode *chart) {
    if (!check_alone(includer, chart)) return false;
    if (includer->files++ == XML_MOST_CHART_FILES)
        return refuse(includer, RULE_XML_LIMIT, chart,
                      arena_printf(includer->arena, "a dossier has at most %d", XML_MOST_CHART_FILES));
    const Text *text = read_file(includer, chart);
    if (!text) return false;
    const XmlNode *root =
        xml_load_text(includer->arena, includer->schemas, XML_CHART, text, NULL, includer->diagnostics);
    if (!root) return false;
    take_attributes(includer, chart, root);
    chart->first = root->first;
    chart->place = root->place;
    return true;
}

/* All files are tried, so that all their problems are told, until there are too many. */
static bool include_all(Includer *includer, XmlNode *game) {
    bool good = true;
    for (XmlNode *chart = game->first; chart && includer->files <= XML_MOST_CHART_FILES; chart = chart->next) {
        bool named = text_equal(chart->name, "chart") && xml_value(chart, "href");
        if (named && !include(includer, chart)) good = false;
    }
    return good;
}

bool xml_include_charts(Arena *arena, XmlSchemas *schemas, XmlNode *dossier, Diagnostics *diagnostics) {
    Includer includer = {.arena = arena, .schemas = schemas, .diagnostics = diagnostics, .left = XML_MOST_BYTES};
    bool good = true;
    for (XmlNode *game = dossier->first; game; game = game->next) {
        if (text_equal(game->name, "game") && !include_all(&includer, game)) good = false;
    }
    return good;
}
