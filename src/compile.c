/* The passes, top to bottom:
 *
 *     path -> dossier -> checks -> findings -> story -> pages -> PDF
 */
#include "compile.h"

#include <stdlib.h>
#include <string.h>

#include "base/task.h"
#include "check/check.h"
#include "check/lint.h"
#include "device/device.h"
#include "pdf/pdf.h"
#include "source/dossier.h"
#include "source/xml.h"
#include "story/dossier_story.h"
#include "typeset/typeset.h"

enum { MOST_SCALES = 64 };

typedef struct ScaleSlot {
    const char *profile;
    const Scale *scale; /* NULL: there is none for the profile */
} ScaleSlot;

struct Compiler {
    Arena *arena;
    const char *templates;
    const char *fonts;
    SourceContext *source;
    const Layout *layout;
    Task *opening;  /* the fonts; NULL when it has not begun or is over */
    FontBook *book; /* NULL until a page is set */
    ScaleSlot scales[MOST_SCALES];
    size_t scale_count;
};

/* ---- what a copy is without ---- */

static void omit_part(Compiler *compiler, const char *word, bool *omitted, Diagnostics *diagnostics) {
    const char *hint = NULL;
    int part = layout_part(compiler->arena, word, &hint);
    if (part >= 0) {
        omitted[part] = true;
    } else {
        diag_report(diagnostics, RULE_CALL, (Place){0}, hint, "--omit: there is no section '%s'", word);
    }
}

/* The layout without the parts named in `words`, parted by commas. */
static const Layout *layout_for_copy(Compiler *compiler, const Layout *layout, const char *words,
                                     Diagnostics *diagnostics) {
    bool omitted[LAYOUT_PARTS] = {false};
    for (const char *at = words; at; at = strchr(at, ',') ? strchr(at, ',') + 1 : NULL) {
        omit_part(compiler, arena_copy(compiler->arena, at, strcspn(at, ",")), omitted, diagnostics);
    }
    const Layout *copy = layout_without(compiler->arena, layout, omitted);
    if (copy->section_count) return copy;
    diag_report(diagnostics, RULE_CALL, (Place){0}, NULL, "--omit leaves no section of the layout '%s'", layout->id);
    return NULL;
}

Compiler *compiler_new(const CompilerOptions *options, Diagnostics *diagnostics) {
    Compiler *compiler = mem_alloc(sizeof *compiler);
    compiler->arena = arena_new();
    compiler->templates = arena_printf(compiler->arena, "%s/templates", options->share);
    compiler->fonts = arena_printf(compiler->arena, "%s/fonts", options->share);
    compiler->source = source_context_new(compiler->templates, options->house, diagnostics);
    const char *layout = options->layout ? options->layout : "full";
    compiler->layout = layout_load(compiler->arena, compiler->templates, layout, diagnostics);
    if (compiler->layout && options->omit) {
        compiler->layout = layout_for_copy(compiler, compiler->layout, options->omit, diagnostics);
    }
    return compiler;
}

void compiler_free(Compiler *compiler) {
    if (!compiler) return;
    task_join(compiler->opening);
    if (compiler->book) fonts_close(compiler->book);
    source_context_free(compiler->source);
    arena_free(compiler->arena);
    free(compiler);
}

SourceContext *compiler_source(Compiler *compiler) {
    return compiler->source;
}

/* Scales are loaded once for each profile. One that has none of its own is compared as what it extends. */
static const Scale *find_scale(Compiler *compiler, const Profile *profile, Diagnostics *diagnostics) {
    for (size_t i = 0; i < compiler->scale_count; i++) {
        if (strcmp(compiler->scales[i].profile, profile->id) == 0) return compiler->scales[i].scale;
    }
    const House *house = source_house(compiler->source);
    const Scale *scale = scale_load_for_house(compiler->arena, compiler->templates, house, profile->id, diagnostics);
    for (size_t i = 0; !scale && i < profile->base_count; i++) {
        scale = scale_load_for_house(compiler->arena, compiler->templates, house, profile->bases[i], diagnostics);
    }
    if (compiler->scale_count < MOST_SCALES) {
        compiler->scales[compiler->scale_count++] = (ScaleSlot){arena_string(compiler->arena, profile->id), scale};
    }
    return scale;
}

/* The dossier when it has no errors, else NULL. */
static const Dossier *checked_dossier(Compiler *compiler, Arena *arena, const char *path, Checked *checked,
                                      Diagnostics *diagnostics) {
    size_t before = diag_errors(diagnostics);
    const House *house = source_house(compiler->source);
    if (house) house_set_severities(house, diagnostics);
    const Dossier *dossier = dossier_load(arena, compiler->source, path, diagnostics);
    if (dossier) *checked = check_dossier(dossier, diagnostics);
    return dossier && diag_errors(diagnostics) == before ? dossier : NULL;
}

/* ---- check ---- */

static bool check_profile(Compiler *compiler, Arena *arena, const char *path, Diagnostics *diagnostics) {
    const Profile *profile = source_profile_file(compiler->source, arena, path, diagnostics);
    if (profile) lint_profile(profile, NULL, diagnostics);
    return profile && !diag_errors(diagnostics);
}

static bool check_set(Compiler *compiler, Arena *arena, const char *path, Diagnostics *diagnostics) {
    const Profile *profile = source_set_file(compiler->source, arena, path, diagnostics);
    if (profile) lint_profile(profile, path, diagnostics);
    return !diag_errors(diagnostics);
}

static bool check_one_dossier(Compiler *compiler, Arena *arena, const char *path, Diagnostics *diagnostics) {
    Checked checked;
    return checked_dossier(compiler, arena, path, &checked, diagnostics) != NULL;
}

/* What a file is, by its root element; standard input, which is read once, is taken for a dossier. What is wrong with
 * the file is told by whoever reads it. */
static bool is_kind(Arena *arena, const char *path, const char *kind) {
    if (strcmp(path, "-") == 0) return false;
    Diagnostics *unheard = diag_new();
    const char *root = xml_root_name(arena, path, unheard);
    diag_free(unheard);
    return root && strcmp(root, kind) == 0;
}

bool compiler_check(Compiler *compiler, Arena *arena, const char *path, Diagnostics *diagnostics) {
    if (is_kind(arena, path, "profile")) return check_profile(compiler, arena, path, diagnostics);
    if (is_kind(arena, path, "set")) return check_set(compiler, arena, path, diagnostics);
    return check_one_dossier(compiler, arena, path, diagnostics);
}

static const Findings *find(Compiler *compiler, Arena *arena, const char *path, Checked *checked,
                            Diagnostics *diagnostics) {
    size_t before = diag_errors(diagnostics);
    const Dossier *dossier = checked_dossier(compiler, arena, path, checked, diagnostics);
    if (!dossier) return NULL;
    const Scale *scale = find_scale(compiler, dossier->profile, diagnostics);
    return diag_errors(diagnostics) == before ? findings_compute(arena, dossier, scale) : NULL;
}

const Findings *compiler_findings(Compiler *compiler, Arena *arena, const char *path, Diagnostics *diagnostics) {
    Checked checked;
    return find(compiler, arena, path, &checked, diagnostics);
}

/* ---- fonts ---- */

static void open_unheard(void *data) {
    Compiler *compiler = data;
    Diagnostics *unheard = diag_new();
    compiler->book = fonts_open(compiler->fonts, unheard);
    diag_free(unheard);
}

/* The fonts are opened beside the telling of the story. When that fails open_fonts tries again and says why. */
static void begin_fonts(Compiler *compiler) {
    if (!compiler->book && !compiler->opening) compiler->opening = task_start(open_unheard, compiler);
}

static bool open_fonts(Compiler *compiler, Diagnostics *diagnostics) {
    task_join(compiler->opening);
    compiler->opening = NULL;
    if (!compiler->book) compiler->book = fonts_open(compiler->fonts, diagnostics);
    return compiler->book != NULL;
}

/* ---- printing ---- */

/* From findings to a PDF, or to the dump of a later stage. */
static bool print(Compiler *compiler, Arena *arena, const Findings *findings, const Checked *checked, const char *out,
                  Dump dump, Buf *dumped, Diagnostics *diagnostics) {
    if (dump == DUMP_MODEL) dossier_dump(findings->dossier, dumped);
    if (dump == DUMP_STATS) findings_json(findings, dumped);
    if (dump == DUMP_MODEL || dump == DUMP_STATS) return true;
    if (dump != DUMP_STORY) begin_fonts(compiler);
    Audit audit = {.checked = *checked};
    audit.found = diag_list(diagnostics, arena, &audit.found_count);
    const Story *story = story_dossier_audited(arena, findings, &audit, compiler->layout);
    if (dump == DUMP_STORY) story_dump(story, dumped);
    if (dump == DUMP_STORY) return true;
    if (!open_fonts(compiler, diagnostics)) return false;
    const Pages *pages = typeset_story(arena, story, compiler->layout, fonts_metrics(compiler->book), diagnostics);
    if (dump == DUMP_PAGES) device_text(pages, dumped);
    return dump == DUMP_PAGES || pdf_write(pages, compiler->book, out, diagnostics);
}

bool compiler_compile(Compiler *compiler, Arena *arena, const char *path, const char *out, Dump dump, Buf *dumped,
                      Diagnostics *diagnostics) {
    Checked checked;
    const Findings *findings = find(compiler, arena, path, &checked, diagnostics);
    return findings && print(compiler, arena, findings, &checked, out, dump, dumped, diagnostics);
}

bool compiler_joins(const Compiler *compiler) {
    return compiler->layout && compiler->layout->joined;
}

bool compiler_compile_joined(Compiler *compiler, Arena *arena, const char *const *paths, size_t count, const char *out,
                             Diagnostics *diagnostics) {
    const Findings **findings = ARENA_ARRAY(arena, count, const Findings *);
    bool whole = true;
    for (size_t i = 0; i < count; i++) {
        findings[i] = compiler_findings(compiler, arena, paths[i], diagnostics);
        if (!findings[i]) whole = false;
    }
    if (!whole) return false;
    begin_fonts(compiler);
    const Story *story = story_dossiers(arena, findings, count, compiler->layout);
    if (!open_fonts(compiler, diagnostics)) return false;
    const Pages *pages = typeset_story(arena, story, compiler->layout, fonts_metrics(compiler->book), diagnostics);
    return pdf_write(pages, compiler->book, out, diagnostics);
}
