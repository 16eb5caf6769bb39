/* What all statistics of a dossier cost: processor time of findings_compute, the least and the median of many runs.
 *
 *     stats_time [DOSSIER.xml ...]        the demonstration dossiers when none is given
 */
#include <glob.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "stats/findings.h"
#include "stats/quantile.h"

enum { RUNS = 40 };

static double milliseconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

/* `arena` must live as long as the diagnostics, which point into what was read. */
static void time_dossier(Arena *arena, SourceContext *context, const char *path, Diagnostics *diagnostics) {
    size_t errors = diag_errors(diagnostics);
    const Dossier *dossier = dossier_load(arena, context, path, diagnostics);
    if (!dossier || diag_errors(diagnostics) > errors) {
        printf("%s: has errors\n", path);
    } else {
        const Scale *scale = scale_load(arena, "templates", dossier->profile->id, diagnostics);
        double times[RUNS];
        for (size_t i = 0; i < RUNS; i++) {
            Arena *own = arena_new();
            double start = milliseconds();
            findings_compute(own, dossier, scale);
            times[i] = milliseconds() - start;
            arena_free(own);
        }
        quantile_sort(times, RUNS);
        printf("%-36s %4zu snaps, %2zu claims: least %6.3f ms, median %6.3f ms\n", path, dossier->snap_count,
               dossier->claim_count, times[0], quantile_type7(times, RUNS, .5));
    }
}

int main(int argc, char **argv) {
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    SourceContext *context = source_context_new("templates", NULL, diagnostics);
    glob_t found = {0};
    for (int i = 1; i < argc; i++) time_dossier(arena, context, argv[i], diagnostics);
    if (argc == 1 && glob("dossiers/*.xml", 0, NULL, &found) == 0) {
        for (size_t i = 0; i < found.gl_pathc; i++) time_dossier(arena, context, found.gl_pathv[i], diagnostics);
        globfree(&found);
    }
    source_context_free(context);
    diag_free(diagnostics);
    arena_free(arena);
    return 0;
}
