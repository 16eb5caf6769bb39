/* How long each stage of a compile takes, in one process: medians over runs that each start with nothing loaded. Shares
 * of the whole, beside microseconds of this machine. Reported, never asserted.
 *
 *     stages [DOSSIER [HOUSE [RUNS]]]
 */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

#include "check/check.h"
#include "pdf/pdf.h"
#include "source/dossier.h"
#include "stats/findings.h"
#include "story/dossier_story.h"
#include "typeset/typeset.h"

typedef enum Stage { OPEN, LOAD, CHECK, SCALE, COUNT, STORY, FONTS, TYPESET, WRITE, CLOSE, STAGE_COUNT } Stage;

static const char *const NAMES[STAGE_COUNT] = {
    [OPEN] = "house and layout", [LOAD] = "dossier and profile", [CHECK] = "checks",
    [SCALE] = "scale",           [COUNT] = "statistics",         [STORY] = "story",
    [FONTS] = "fonts opened",    [TYPESET] = "typesetting",      [WRITE] = "PDF",
    [CLOSE] = "freeing",
};

enum { RUNS = 200 };

typedef struct Bench {
    const char *dossier, *house, *out;
    double *times[STAGE_COUNT]; /* microseconds, by run */
    double *whole;
    double last;
    size_t run;
} Bench;

static double now(void) {
    struct timespec at;
    clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec * 1e6 + (double)at.tv_nsec / 1e3;
}

static void lap(Bench *bench, Stage stage) {
    double at = now();
    bench->times[stage][bench->run] = at - bench->last;
    bench->last = at;
}

static void fail(Diagnostics *diagnostics) {
    diag_print(diagnostics, stderr, false);
    exit(EXIT_FAILURE);
}

static void run_once(Bench *bench) {
    double start = now();
    bench->last = start;
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    SourceContext *context = source_context_new("templates", bench->house, diagnostics);
    const Layout *layout = layout_load(arena, "templates", "full", diagnostics);
    lap(bench, OPEN);
    const Dossier *dossier = dossier_load(arena, context, bench->dossier, diagnostics);
    lap(bench, LOAD);
    Audit audit = {0};
    if (dossier) audit.checked = check_dossier(dossier, diagnostics);
    lap(bench, CHECK);
    if (!layout || diag_errors(diagnostics)) fail(diagnostics);
    const Scale *scale = scale_load(arena, "templates", dossier->profile->id, diagnostics);
    lap(bench, SCALE);
    const Findings *findings = findings_compute(arena, dossier, scale);
    lap(bench, COUNT);
    const Story *story = story_dossier_audited(arena, findings, &audit, layout);
    lap(bench, STORY);
    FontBook *book = fonts_open("fonts", diagnostics);
    if (!book) fail(diagnostics);
    lap(bench, FONTS);
    const Pages *pages = typeset_story(arena, story, layout, fonts_metrics(book), diagnostics);
    lap(bench, TYPESET);
    if (!pdf_write(pages, book, bench->out, diagnostics)) fail(diagnostics);
    lap(bench, WRITE);
    fonts_close(book);
    diag_free(diagnostics);
    source_context_free(context);
    arena_free(arena);
    lap(bench, CLOSE);
    bench->whole[bench->run] = now() - start;
}

static int by_size(const void *a, const void *b) {
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median(double *values, size_t count) {
    qsort(values, count, sizeof *values, by_size);
    return values[count / 2];
}

int main(int argc, char **argv) {
    size_t runs = argc > 3 ? strtoul(argv[3], NULL, 10) : RUNS;
    if (!runs) return EXIT_FAILURE;
    char out[] = P_tmpdir "/tapebound-bench-XXXXXX";
    int file = mkstemp(out);
    if (file < 0) return EXIT_FAILURE;
    close(file);
    Bench bench = {
        .dossier = argc > 1 ? argv[1] : "dossiers/vashti.xml", .house = argc > 2 ? argv[2] : NULL, .out = out};
    for (int stage = 0; stage < STAGE_COUNT; stage++) bench.times[stage] = calloc(runs, sizeof(double));
    bench.whole = calloc(runs, sizeof(double));
    for (bench.run = 0; bench.run < runs; bench.run++) run_once(&bench);
    unlink(out);
    double whole = median(bench.whole, runs);
    printf("stages of %s, medians of %zu runs\n", bench.dossier, runs);
    for (int stage = 0; stage < STAGE_COUNT; stage++) {
        double time = median(bench.times[stage], runs);
        printf("  %-20s %5.1f%% %9.0f us\n", NAMES[stage], 100 * time / whole, time);
        free(bench.times[stage]);
    }
    printf("  %-20s        %9.0f us\n", "all", whole);
    free(bench.whole);
    return EXIT_SUCCESS;
}
