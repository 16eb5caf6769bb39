/* The importer: a table, and behind a line that is only "%%" a selection, through the map of play records. */
#include <string.h>

#include "fuzz/help_fuzz.h"
#include "source/import.h"

enum { KEPT_FOR = 256 }; /* imports in one context, which keeps the files that its messages point into */

static const char SEPARATOR[] = "\n%%\n";

static SourceContext *context_now(void) {
    static SourceContext *context;
    static int used;
    if (context && used++ < KEPT_FOR) return context;
    source_context_free(context);
    Diagnostics *unheard = diag_new();
    context = source_context_new("templates", NULL, unheard);
    diag_free(unheard);
    used = 0;
    return context;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    Arena *arena = arena_new();
    const uint8_t *cut = length ? memmem(bytes, length, SEPARATOR, sizeof SEPARATOR - 1) : NULL;
    size_t table = cut ? (size_t)(cut - bytes) + 1 : length;
    const uint8_t *rest = cut ? cut + sizeof SEPARATOR - 1 : NULL;
    const char *where = rest ? arena_copy(arena, (const char *)rest, length - (size_t)(rest - bytes)) : NULL;
    Diagnostics *diagnostics = diag_new();
    bool good = import_table(context_now(), fuzz_file(bytes, table), "templates/maps/play-records.xml", where,
                             "/dev/null", diagnostics);
    if (!good && !diag_errors(diagnostics)) __builtin_trap();
    fuzz_finish(diagnostics);
    arena_free(arena);
    return 0;
}
