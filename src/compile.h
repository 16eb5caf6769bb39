/* One dossier through all passes. */
#ifndef TB_COMPILE_H
#define TB_COMPILE_H

#include <stdbool.h>

#include "base/buf.h"
#include "base/diag.h"
#include "stats/findings.h"

/* What --dump prints instead of writing a PDF: the result of one stage. */
typedef enum Dump { DUMP_NONE, DUMP_MODEL, DUMP_STATS, DUMP_STORY, DUMP_PAGES } Dump;

typedef struct CompilerOptions {
    const char *share;  /* folder that holds templates/ and fonts/ */
    const char *house;  /* path, NULL: the plain house */
    const char *layout; /* name or path, NULL: full */
    const char *omit;   /* what the copy is without, words parted by commas; may be NULL */
} CompilerOptions;

/* What is loaded once and shared by all dossiers of a run: templates, house, layout, fonts. */
typedef struct Compiler Compiler;

/* Never NULL: after reports of errors it may only be freed, and only once they are printed, since their places lie in
 * it. Fonts are opened when the first page is set. */
Compiler *compiler_new(const CompilerOptions *options, Diagnostics *diagnostics) __attribute__((warn_unused_result));
void compiler_free(Compiler *compiler);
struct SourceContext *compiler_source(Compiler *compiler);

/* In all of these the dossier lives in `arena`, which must outlast the printing of `diagnostics`. */

/* Source, checks: what `check` does. The file may also be a profile or a set. False when it has errors. */
bool compiler_check(Compiler *compiler, Arena *arena, const char *path, Diagnostics *diagnostics);

/* Source, checks, statistics. NULL when the dossier has errors. */
const Findings *compiler_findings(Compiler *compiler, Arena *arena, const char *path, Diagnostics *diagnostics);

/* Whether the layout may hold several dossiers in one document. */
bool compiler_joins(const Compiler *compiler);

/* All passes over several dossiers, at least one, to one document. Every dossier lives in `arena`; nothing is written
 * when any of them has errors. */
bool compiler_compile_joined(Compiler *compiler, Arena *arena, const char *const *paths, size_t count, const char *out,
                             Diagnostics *diagnostics);

/* All passes: a PDF at `out`, whole or not at all; or the dump of a stage into `dumped`. */
bool compiler_compile(Compiler *compiler, Arena *arena, const char *path, const char *out, Dump dump, Buf *dumped,
                      Diagnostics *diagnostics);

#endif
