#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "source/attributes.h"
#include "source/house.h"
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
    if (!measurable_info(kind)) {
        diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(node, "kind"),
                    profile_measurable_hint(reader->arena, kind), "the trade has no measurable '%s'", kind);
    }
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
    scale->measurables = ARENA_ARRAY(arena, attr_children(root, "measurable"), ScaleMeasurable);
    const XmlNode *node = xml_child(root, "measurable");
    for (; node; node = xml_next(node, "measurable")) read_measurable(&reader, node);
    return diag_errors(diagnostics) > errors ? NULL : scale;
}

const ScaleMeasurable *scale_measurable(const Scale *scale, const char *kind) {
    for (size_t i = 0; i < scale->count; i++) {
        if (strcmp(scale->measurables[i].kind, kind) == 0) return &scale->measurables[i];
    }
    return NULL;
}

const Scale *scale_load(Arena *arena, const char *templates, const char *profile, Diagnostics *diagnostics) {
    const char *path = arena_printf(arena, "%s/scales/%s.xml", templates, profile);
    if (access(path, F_OK) != 0) return NULL;
    XmlSchemas *schemas = xml_schemas_new(templates);
    const XmlNode *root = xml_load(arena, schemas, XML_SCALE, path, diagnostics);
    xml_schemas_free(schemas);
    return root ? read_scale(arena, root, diagnostics) : NULL;
}
