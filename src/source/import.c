/* The passes of an import, top to bottom. */
#include "source/import.h"

#include <errno.h>
#include <string.h>

#include "base/file.h"
#include "base/text.h"
#include "source/attributes.h"
#include "source/dossier_parts.h"
#include "source/import_parts.h"

static TableFormat table_format(const XmlNode *map) {
    const XmlNode *node = xml_child(map, "table");
    TableFormat format = {.delimiter = ',', .header = true, .missing = "NA NULL"};
    if (!node) return format;
    const char *delimiter = attr_text(node, "delimiter", ",");
    format.delimiter = text_equal(delimiter, "tab") ? '\t' : *delimiter;
    format.header = !text_equal(xml_value(node, "header"), "no");
    format.missing = attr_text(node, "missing", format.missing);
    return format;
}

/* The selection of the call as a text of its own, so that errors point into it. */
static void take_where(Import *import, const char *where) {
    if (!where) return;
    Text *text = ARENA_NEW(import->arena, Text);
    *text = (Text){"--where", arena_string(import->arena, where), strlen(where)};
    import->where = text->bytes;
    import->where_place = (Place){text, 0, text->length};
}

static bool save(const char *path, const Buf *xml, Diagnostics *diagnostics) {
    FileWriter *writer = file_create(path);
    if (writer && !file_write(writer, xml->bytes, xml->length)) {
        file_report_write(diagnostics, path);
        file_abandon(writer);
        return false;
    }
    if (writer && file_commit(writer)) return true;
    file_report_write(diagnostics, path);
    return false;
}

static void report_repeats(Import *import) {
    if (!import->repeats) return;
    Place start = {import->table->text, 0, 1};
    diag_report(import->diagnostics, RULE_IMPORT_REPEAT, start, NULL,
                "%zu rows stand in the table twice and are taken once", import->repeats);
}

static bool run(Import *import, const char *out_path) {
    Buf xml = {0};
    bool good =
        import_read_columns(import) && import_read_map(import) && import_choose(import) && import_write(import, &xml);
    if (good) report_repeats(import);
    if (!good) table_report_rest(import->table, import->diagnostics);
    good = good && save(out_path, &xml, import->diagnostics);
    buf_free(&xml);
    return good;
}

bool import_table(SourceContext *context, const char *csv_path, const char *map_path, const char *where,
                  const char *out_path, Diagnostics *diagnostics) {
    Import import = {.arena = source_arena(context), .diagnostics = diagnostics};
    import.map = xml_load(import.arena, source_schemas(context), XML_MAP, map_path, diagnostics);
    if (!import.map) return false;
    import.profile =
        source_profile(context, xml_value(import.map, "profile"), xml_value_place(import.map, "profile"), diagnostics);
    if (!import.profile) return false;
    TableFormat format = table_format(import.map);
    import.table = table_read(import.arena, csv_path, &format, diagnostics);
    if (!import.table) return false;
    take_where(&import, where);
    bool good = run(&import, out_path);
    table_free(import.table);
    return good;
}
