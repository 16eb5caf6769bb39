#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/text.h"
#include "source/attributes.h"
#include "source/house.h"
#include "source/lists.h"
#include "source/names.h"
#include "source/notation.h"
#include "source/profile.h"

enum { MOST_PLAYERS = 1000000 };

typedef struct ScaleReader {
    Arena *arena;
    Diagnostics *diagnostics;
    Scale *scale;
} ScaleReader;

static void complain(ScaleReader *reader, const XmlNode *node, const char *attribute, const char *message) {
    diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(node, attribute), NULL, "%s", message);
}

static void check_kind(ScaleReader *reader, const char *kind, Place place) {
    if (measurable_info(kind)) return;
    diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, place, profile_measurable_hint(reader->arena, kind),
                "the trade has no measurable '%s'", kind);
}

/* ---- quantiles ---- */

static void read_quantiles(ScaleReader *reader, const XmlNode *node, ScaleMeasurable *measurable) {
    measurable->quantiles = ARENA_ARRAY(reader->arena, attr_children(node, "q"), ScaleQuantile);
    const ScaleQuantile *before = NULL;
    for (const XmlNode *q = xml_child(node, "q"); q; q = xml_next(q, "q")) {
        ScaleQuantile *quantile = &measurable->quantiles[measurable->quantile_count++];
        *quantile = (ScaleQuantile){attr_number(q, "p", 0, reader->diagnostics),
                                    attr_number(q, "value", 0, reader->diagnostics)};
        if (quantile->p < 0 || quantile->p > 100) complain(reader, q, "p", "a quantile is from 0 to 100 percent");
        if (before && quantile->p <= before->p) complain(reader, q, "p", "the quantiles do not rise");
        if (before && quantile->value < before->value) complain(reader, q, "value", "the values of the quantiles fall");
        before = quantile;
    }
}

static void read_measurable(ScaleReader *reader, const XmlNode *node) {
    Scale *scale = reader->scale;
    const char *kind = attr_text(node, "kind", "");
    check_kind(reader, kind, xml_value_place(node, "kind"));
    if (scale_measurable(scale, kind)) {
        diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, "kind"), NULL,
                    "the measurable '%s' stands twice", kind);
        return;
    }
    double n = attr_number(node, "n", 0, reader->diagnostics);
    if (n < 1 || n > MOST_PLAYERS || n != (double)(int)n) {
        complain(reader, node, "n", "the number of players is a whole number above 0");
        n = 1;
    }
    ScaleMeasurable *measurable = &scale->measurables[scale->count++];
    *measurable = (ScaleMeasurable){.kind = kind, .n = (int)n};
    read_quantiles(reader, node, measurable);
}

/* ---- players row by row ---- */

static bool has_kind(const ScaleRows *rows, const char *kind) {
    for (size_t i = 0; i < rows->kind_count; i++) {
        if (strcmp(rows->kinds[i], kind) == 0) return true;
    }
    return false;
}

static void read_kinds(ScaleReader *reader, const XmlNode *node, ScaleRows *rows) {
    rows->kinds = ARENA_ARRAY(reader->arena, list_count(reader->arena, node, "kinds"), const char *);
    List list = list_open(reader->arena, node, "kinds");
    ListWord word;
    while (list_next(&list, &word)) {
        check_kind(reader, word.id, word.place);
        if (has_kind(rows, word.id)) {
            diag_report(reader->diagnostics, RULE_DUPLICATE, word.place, NULL, "the measurable '%s' stands twice",
                        word.id);
        }
        rows->kinds[rows->kind_count++] = word.id;
    }
}

/* "-" stands for a measurement that was not taken. */
static double read_value(ScaleReader *reader, const ListWord *word, const char *kind) {
    double value;
    if (strcmp(word->id, "-") == 0) return NAN;
    const MeasurableInfo *info = measurable_info(kind);
    if (text_number(word->id, &value) && (!info || (value >= info->human_low && value <= info->human_high)))
        return value;
    diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, word->place,
                "values are plain inches, pounds, seconds or repetitions, in the order of the kinds",
                "'%s' is no %s that a player shows", word->id, kind);
    return NAN;
}

static void read_row(ScaleReader *reader, const XmlNode *node, ScaleRows *rows, Names *names) {
    size_t row = rows->count++;
    rows->ids[row] = attr_text(node, "id", "");
    rows->labels[row] = attr_text(node, "label", rows->ids[row]);
    if (names_add(names, rows->ids[row], 0) >= 0) {
        diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, "id"), NULL, "the row '%s' stands twice",
                    rows->ids[row]);
    }
    List list = list_open(reader->arena, node, "values");
    size_t given = 0;
    for (ListWord word; list_next(&list, &word); given++) {
        if (given < rows->kind_count) rows->columns[given][row] = read_value(reader, &word, rows->kinds[given]);
    }
    if (given == rows->kind_count) return;
    diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(node, "values"),
                "write - for a measurement that was not taken", "the row has %zu values for %zu kinds", given,
                rows->kind_count);
}

static int by_value(const void *left, const void *right) {
    double a = *(const double *)left;
    double b = *(const double *)right;
    return (a > b) - (a < b);
}

/* What the rows show of one kind takes the place of quantiles that the scale may have as well. */
static void add_column(ScaleReader *reader, const char *kind, const double *column, size_t rows) {
    Scale *scale = reader->scale;
    double *rising = ARENA_ARRAY(reader->arena, rows, double);
    int n = 0;
    for (size_t row = 0; row < rows; row++) {
        if (!isnan(column[row])) rising[n++] = column[row];
    }
    if (!n) return;
    qsort(rising, (size_t)n, sizeof *rising, by_value);
    size_t at = 0;
    while (at < scale->count && strcmp(scale->measurables[at].kind, kind) != 0) at++;
    if (at == scale->count) scale->count++;
    scale->measurables[at] = (ScaleMeasurable){.kind = kind, .n = n, .rising = rising};
}

static void make_room(ScaleReader *reader, ScaleRows *rows, size_t count) {
    rows->ids = ARENA_ARRAY(reader->arena, count, const char *);
    rows->labels = ARENA_ARRAY(reader->arena, count, const char *);
    rows->columns = ARENA_ARRAY(reader->arena, rows->kind_count, double *);
    for (size_t kind = 0; kind < rows->kind_count; kind++) {
        rows->columns[kind] = ARENA_ARRAY(reader->arena, count, double);
        for (size_t row = 0; row < count; row++) rows->columns[kind][row] = NAN;
    }
}

static void read_rows(ScaleReader *reader, const XmlNode *node) {
    ScaleRows *rows = &reader->scale->rows;
    size_t count = attr_children(node, "row");
    if (count > SCALE_MOST_ROWS) {
        diag_report(reader->diagnostics, RULE_XML_LIMIT, node->place, NULL,
                    "a scale has at most %d rows, this one has %zu", SCALE_MOST_ROWS, count);
        return;
    }
    read_kinds(reader, node, rows);
    make_room(reader, rows, count);
    Names *names = names_new(reader->arena, count);
    for (const XmlNode *row = xml_child(node, "row"); row; row = xml_next(row, "row")) {
        read_row(reader, row, rows, names);
    }
    for (size_t kind = 0; kind < rows->kind_count; kind++) {
        add_column(reader, rows->kinds[kind], rows->columns[kind], count);
    }
}

/* ---- the scale ---- */

static const Scale *read_scale(Arena *arena, const XmlNode *root, Diagnostics *diagnostics) {
    size_t errors = diag_errors(diagnostics);
    Scale *scale = ARENA_NEW(arena, Scale);
    ScaleReader reader = {arena, diagnostics, scale};
    scale->id = attr_text(root, "id", "");
    scale->name = attr_text(root, "name", scale->id);
    scale->profile = attr_text(root, "profile", "");
    scale->years = attr_text(root, "years", "");
    scale->source = attr_text(root, "source", "");
    scale->licence = attr_text(root, "licence", "");
    const XmlNode *rows = xml_child(root, "rows");
    size_t most = attr_children(root, "measurable") + (rows ? list_count(arena, rows, "kinds") : 0);
    scale->measurables = ARENA_ARRAY(arena, most, ScaleMeasurable);
    const XmlNode *node = xml_child(root, "measurable");
    for (; node; node = xml_next(node, "measurable")) read_measurable(&reader, node);
    if (rows) read_rows(&reader, rows);
    if (!most) diag_report(diagnostics, RULE_ELEMENT_MISSING, root->place, NULL, "a scale has measurables or rows");
    return diag_errors(diagnostics) > errors ? NULL : scale;
}

const ScaleMeasurable *scale_measurable(const Scale *scale, const char *kind) {
    for (size_t i = 0; i < scale->count; i++) {
        if (strcmp(scale->measurables[i].kind, kind) == 0) return &scale->measurables[i];
    }
    return NULL;
}

static const Scale *load(Arena *arena, const char *templates, const char *path, Diagnostics *diagnostics) {
    XmlSchemas *schemas = xml_schemas_new(templates);
    const XmlNode *root = xml_load(arena, schemas, XML_SCALE, path, diagnostics);
    xml_schemas_free(schemas);
    return root ? read_scale(arena, root, diagnostics) : NULL;
}

const Scale *scale_load(Arena *arena, const char *templates, const char *profile, Diagnostics *diagnostics) {
    const char *path = arena_printf(arena, "%s/scales/%s.xml", templates, profile);
    return access(path, F_OK) == 0 ? load(arena, templates, path, diagnostics) : NULL;
}

const Scale *scale_load_for_house(Arena *arena, const char *templates, const House *house, const char *profile,
                                  Diagnostics *diagnostics) {
    for (size_t i = 0; i < house->scale_count; i++) {
        const HouseScale *own = &house->scales[i];
        if (strcmp(own->profile, profile) != 0) continue;
        const Scale *scale = load(arena, templates, own->path, diagnostics);
        if (scale && strcmp(scale->profile, profile) != 0) {
            diag_report(diagnostics, RULE_REFERENCE, own->place, NULL, "this scale compares the profile '%s', not '%s'",
                        scale->profile, profile);
            return NULL;
        }
        return scale;
    }
    return scale_load(arena, templates, profile, diagnostics);
}
