/* The XML loader: bytes as a dossier, or as the kind of template that their root element names. */
#include <string.h>

#include "fuzz/help_fuzz.h"
#include "source/xml.h"

static XmlKind kind_of(const char *root) {
    static const char *const names[XML_KIND_COUNT] = {
        [XML_DOSSIER] = "dossier", [XML_PROFILE] = "profile", [XML_SET] = "set", [XML_HOUSE] = "house",
        [XML_LAYOUT] = "layout",   [XML_SCALE] = "scale",     [XML_MAP] = "map", [XML_CHART] = "chart"};
    for (int kind = 0; root && kind < XML_KIND_COUNT; kind++) {
        if (names[kind] && strcmp(root, names[kind]) == 0) return (XmlKind)kind;
    }
    return XML_DOSSIER;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    static XmlSchemas *schemas;
    if (!schemas) schemas = xml_schemas_new("templates");
    Arena *arena = arena_new();
    const char *path = fuzz_file(bytes, length);
    Diagnostics *unheard = diag_new(), *diagnostics = diag_new();
    XmlKind kind = kind_of(xml_root_name(arena, path, unheard));
    const XmlNode *root = xml_load(arena, schemas, kind, path, diagnostics);
    if (!root && !diag_errors(diagnostics)) __builtin_trap(); /* refused without a word */
    fuzz_finish(diagnostics);
    fuzz_finish(unheard);
    arena_free(arena);
    return 0;
}
