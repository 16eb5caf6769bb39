/* Real play records through the shipped map, the loader and the statistics, against figures computed elsewhere.
 *
 * The data is not part of the project: it is looked for in TAPEBOUND_DATA or ../shared/data. plays_expected.tsv there
 * was computed with plain arithmetic and statsmodels (Wilson intervals). */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/file.h"
#include "source/import.h"
#include "stats/findings.h"

enum { MOST_COLUMNS = 16, MANY_ROWS = 100000 };

static const char map_path[] = "templates/maps/play-records.xml";

typedef struct World {
    Arena *arena;
    Diagnostics *diagnostics;
    SourceContext *context;
    const char *folder; /* of the data; NULL: not there */
    const char *out;
} World;

static const char *temporary_folder(void) {
    const char *folder = getenv("TMPDIR");
    return folder ? folder : P_tmpdir;
}

static const char *data_folder(void) {
    const char *folder = getenv("TAPEBOUND_DATA");
    if (!folder) folder = "../shared/data";
    char path[4096];
    snprintf(path, sizeof path, "%s/plays_expected.tsv", folder);
    return access(path, R_OK) == 0 ? folder : NULL;
}

static int world_begin(void **state) {
    World *world = calloc(1, sizeof *world);
    world->arena = arena_new();
    world->diagnostics = diag_new();
    world->context = source_context_new("templates", NULL, world->diagnostics);
    world->folder = data_folder();
    world->out = arena_printf(world->arena, "%s/test-play-records-%ld.xml", temporary_folder(), (long)getpid());
    *state = world;
    return world->context ? 0 : -1;
}

static int world_end(void **state) {
    World *world = *state;
    unlink(world->out);
    diag_free(world->diagnostics);
    source_context_free(world->context);
    arena_free(world->arena);
    free(world);
    return 0;
}

static const char *data_path(const World *world, const char *name) {
    return arena_printf(world->arena, "%s/%s", world->folder, name);
}

static void skip_without_data(const World *world) {
    if (world->folder) return;
    printf("skipped: no play records at TAPEBOUND_DATA or ../shared/data\n");
    skip();
}

static void expect_clean(const World *world) {
    if (diag_errors(world->diagnostics) == 0) return;
    diag_print(world->diagnostics, stderr, false);
    fail_msg("%zu errors", diag_errors(world->diagnostics));
}

static const Findings *findings_of(World *world, const char *passer) {
    const char *where = arena_printf(world->arena, "@passer='%s'", passer);
    bool good =
        import_table(world->context, data_path(world, "plays.csv"), map_path, where, world->out, world->diagnostics);
    expect_clean(world);
    assert_true(good);
    const Dossier *dossier = dossier_load(world->arena, world->context, world->out, world->diagnostics);
    expect_clean(world);
    assert_non_null(dossier);
    assert_string_equal(dossier->family, passer);
    return findings_compute(world->arena, dossier, NULL);
}

/* ---- the expected table ---- */

typedef struct Expected {
    char *names[MOST_COLUMNS];
    char *cells[MOST_COLUMNS];
    size_t count;
} Expected;

static size_t split(char *line, char **cells) {
    size_t count = 0;
    char *rest = NULL;
    for (char *cell = strtok_r(line, "\t\r\n", &rest); cell && count < MOST_COLUMNS;
         cell = strtok_r(NULL, "\t\r\n", &rest)) {
        cells[count++] = cell;
    }
    return count;
}

static double expected_number(const Expected *expected, const char *name) {
    for (size_t i = 0; i < expected->count; i++) {
        if (strcmp(expected->names[i], name) == 0) return strtod(expected->cells[i], NULL);
    }
    fail_msg("no column %s", name);
    return NAN;
}

static void compare(const Expected *expected, const char *name, double ours) {
    double theirs = expected_number(expected, name);
    if (!(fabs(ours - theirs) <= 1e-6))
        fail_msg("%s, %s: ours %.9g, expected %.9g", expected->cells[0], name, ours, theirs);
}

static void compare_totals(const Findings *findings, const Expected *expected) {
    static const char *const totals[] = {"attempts", "completions", "yards", "touchdowns", "interceptions", "sacks"};
    const Profile *profile = findings->dossier->profile;
    for (size_t i = 0; i < sizeof totals / sizeof *totals; i++) {
        int total = profile_total(profile, totals[i]);
        assert_true(total >= 0);
        compare(expected, totals[i], findings->totals[total]);
    }
    compare(expected, "games", (double)findings->dossier->game_count);
}

static const Estimate *estimate(const Findings *findings, const char *measure) {
    int index = profile_measure(findings->dossier->profile, measure);
    assert_true(index >= 0);
    return findings_estimate(findings, index, ESTIMATE_ALL);
}

static void compare_measures(const Findings *findings, const Expected *expected) {
    compare(expected, "passer_rating", estimate(findings, "pro-rating")->value);
    compare(expected, "ncaa_efficiency", estimate(findings, "college-efficiency")->value);
    compare(expected, "yards_per_attempt", estimate(findings, "yards-per-attempt")->value);
    compare(expected, "target_depth_n", estimate(findings, "target-depth")->n);
    compare(expected, "target_depth_mean", estimate(findings, "target-depth")->value);
    const Estimate *completion = estimate(findings, "completion-rate");
    compare(expected, "completion_low", completion->low);
    compare(expected, "completion_high", completion->high);
    compare(expected, "attempts", completion->n);
    compare(expected, "completions", completion->k);
}

static void every_passer_equals_the_expected_figures(void **state) {
    World *world = *state;
    skip_without_data(world);
    const Text *text = file_read(world->arena, data_path(world, "plays_expected.tsv"), world->diagnostics);
    assert_non_null(text);
    Expected expected = {0};
    size_t passers = 0;
    char *rest = NULL;
    char *lines = arena_copy(world->arena, text->bytes, text->length);
    expected.count = split(strtok_r(lines, "\n", &rest), expected.names);
    for (char *line = strtok_r(NULL, "\n", &rest); line; line = strtok_r(NULL, "\n", &rest)) {
        assert_int_equal(split(line, expected.cells), expected.count);
        const Findings *findings = findings_of(world, expected.cells[0]);
        compare_totals(findings, &expected);
        compare_measures(findings, &expected);
        passers++;
    }
    assert_true(passers >= 9);
}

/* ---- size ---- */

/* The records, written again and again as further games. */
static const char *many_rows(World *world) {
    Arena *arena = world->arena;
    const Text *text = file_read(arena, data_path(world, "plays.csv"), world->diagnostics);
    const char *body = strchr(text->bytes, '\n') + 1;
    Buf table = {0};
    buf_put(&table, text->bytes, (size_t)(body - text->bytes));
    char *lines = arena_string(arena, body);
    size_t rows = 0;
    for (int copy = 0; rows < MANY_ROWS; copy++) {
        for (char *line = lines; *line && rows < MANY_ROWS; rows++) {
            size_t length = strcspn(line, "\n") + 1;
            if (copy) buf_printf(&table, "%d", copy);
            buf_put(&table, line, length);
            line += length;
        }
    }
    const char *path = arena_printf(arena, "%s/test-many-plays-%ld.csv", temporary_folder(), (long)getpid());
    FileWriter *writer = file_create(path);
    assert_true(writer && file_write(writer, table.bytes, table.length) && file_commit(writer));
    buf_free(&table);
    return path;
}

static double seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static void a_hundred_thousand_rows_are_quick(void **state) {
    World *world = *state;
    skip_without_data(world);
    const char *path = many_rows(world);
    double start = seconds();
    bool good = import_table(world->context, path, map_path, "@passer='P171'", world->out, world->diagnostics);
    double taken = seconds() - start;
    unlink(path);
    expect_clean(world);
    assert_true(good);
    printf("100,000 rows: %.2f s\n", taken);
    assert_true(taken < 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(every_passer_equals_the_expected_figures, world_begin, world_end),
        cmocka_unit_test_setup_teardown(a_hundred_thousand_rows_are_quick, world_begin, world_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
