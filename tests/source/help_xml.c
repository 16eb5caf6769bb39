#include "source/help_xml.h"

#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "base/buf.h"

static void write_all(int file, const char *bytes, size_t length) {
    while (length > 0) {
        ssize_t written = write(file, bytes, length);
        if (written <= 0) abort();
        bytes += written;
        length -= (size_t)written;
    }
}

Loaded xml_load_bytes(XmlKind kind, const char *bytes, size_t length) {
    Loaded loaded = {arena_new(), xml_schemas_new("templates"), diag_new(), NULL};
    int file = memfd_create("source", MFD_CLOEXEC);
    if (file < 0) abort();
    write_all(file, bytes, length);
    const char *path = arena_printf(loaded.arena, "/proc/self/fd/%d", file);
    loaded.root = xml_load(loaded.arena, loaded.schemas, kind, path, loaded.diagnostics);
    close(file);
    return loaded;
}

void loaded_free(Loaded *loaded) {
    xml_schemas_free(loaded->schemas);
    diag_free(loaded->diagnostics);
    arena_free(loaded->arena);
}

bool loaded_has(Loaded *loaded, Rule rule) {
    Buf json = {0}, wanted = {0};
    diag_json(loaded->diagnostics, &json);
    buf_printf(&wanted, "\"rule\": \"%s\"", diag_rule(rule)->id);
    bool found = strstr(buf_text(&json), buf_text(&wanted)) != NULL;
    buf_free(&json);
    buf_free(&wanted);
    return found;
}
