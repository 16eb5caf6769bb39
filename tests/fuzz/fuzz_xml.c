/* The XML loader: bytes as a dossier, or as the kind of template that their root element names. What the plain reader
 * takes, libxml2 must take too. */
#include <string.h>

#include "base/file.h"
#include "fuzz/help_fuzz.h"
#include "source/xml_parts.h"

static XmlKind kind_of(const char *root) {
    static const char *const names[XML_KIND_COUNT] = {
        [XML_DOSSIER] = "dossier", [XML_PROFILE] = "profile", [XML_SET] = "set",
        [XML_HOUSE] = "house",     [XML_LAYOUT] = "layout",   [XML_SCALE] = "scale",
        [XML_MAP] = "map",         [XML_CHART] = "chart",     [XML_PLAYS] = "plays"};
    for (int kind = 0; root && kind < XML_KIND_COUNT; kind++) {
        if (names[kind] && strcmp(root, names[kind]) == 0) return (XmlKind)kind;
    }
    return XML_DOSSIER;
}

static void check_with_libxml2(Arena *arena, XmlSchemas *schemas, XmlKind kind, const char *path) {
    Diagnostics *diagnostics = diag_new();
    XmlFile file;
    const Text *text = file_read(arena, path, diagnostics);
    XmlSchema *schema = xml_schema(schemas, kind, diagnostics);
    if (!text || !schema || !xml_parse(arena, text, false, &file, diagnostics)) __builtin_trap();
    if (!xml_validate(arena, schema, &file, diagnostics)) __builtin_trap();
    xml_file_free(&file);
    diag_free(diagnostics);
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
    if (root) check_with_libxml2(arena, schemas, kind, path);
    fuzz_finish(diagnostics);
    fuzz_finish(unheard);
    arena_free(arena);
    return 0;
}
