/* Imports, one folder a case below tests/import/cases: map.xml, table.csv and perhaps where, the selection of the call;
 * then dossier.xml, what must be written, and said.txt, what must be said. With RENEW set they are written afresh, to
 * be read. */
#include <dirent.h>
#include <errno.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/buf.h"
#include "source/import.h"

enum { PATH_MOST = 512, MUTATIONS = 1500 };

static const char cases_folder[] = "tests/import/cases";

typedef struct World {
    Arena *arena;
    Diagnostics *diagnostics;
    SourceContext *context;
    const char *out;
} World;

static const char *temporary_folder(void) {
    const char *folder = getenv("TMPDIR");
    return folder ? folder : P_tmpdir;
}

static World *world_new(void) {
    World *world = calloc(1, sizeof *world);
    world->arena = arena_new();
    world->diagnostics = diag_new();
    world->context = source_context_new("tests/import/templates", NULL, world->diagnostics);
    assert_non_null(world->context);
    world->out = arena_printf(world->arena, "%s/test-import-%ld.xml", temporary_folder(), (long)getpid());
    unlink(world->out);
    return world;
}

static void world_free(World *world) {
    unlink(world->out);
    diag_free(world->diagnostics);
    source_context_free(world->context);
    arena_free(world->arena);
    free(world);
}

static const char *said(World *world) {
    char *text = NULL;
    size_t length;
    FILE *stream = open_memstream(&text, &length);
    diag_print(world->diagnostics, stream, false);
    fclose(stream);
    char *copy = arena_copy(world->arena, text, length);
    free(text);
    return copy;
}

/* The whole file, or NULL without one. */
static char *slurp(Arena *arena, const char *path, size_t *length) {
    FILE *file = fopen(path, "rb");
    if (!file) return NULL;
    Buf text = {0};
    for (int byte; (byte = fgetc(file)) != EOF;) buf_putc(&text, (char)byte);
    fclose(file);
    char *copy = arena_copy(arena, text.bytes, text.length);
    if (length) *length = text.length;
    buf_free(&text);
    return copy;
}

static void spill(const char *path, const char *text, size_t length) {
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
}

static void compare_or_renew(World *world, const char *path, const char *ours) {
    const char *expected = slurp(world->arena, path, NULL);
    if (getenv("RENEW")) {
        if (ours) spill(path, ours, strlen(ours));
        if (!ours) unlink(path);
    } else if (!expected || !ours) {
        if (expected != ours) fail_msg("%s: %s", path, expected ? "nothing was written" : ours);
    } else if (strcmp(expected, ours) != 0) {
        fail_msg("%s\nexpected\n%s\nours\n%s", path, expected, ours);
    }
}

static void check_loads(World *world) {
    const Dossier *dossier = dossier_load(world->arena, world->context, world->out, world->diagnostics);
    if (!dossier || diag_errors(world->diagnostics)) fail_msg("%s", said(world));
}

static void check_case(const char *name) {
    char folder[PATH_MOST];
    snprintf(folder, sizeof folder, "%s/%s", cases_folder, name);
    World *world = world_new();
    Arena *arena = world->arena;
    char *where = slurp(arena, arena_printf(arena, "%s/where", folder), NULL);
    if (where) where[strcspn(where, "\n")] = '\0';
    bool good = import_table(world->context, arena_printf(arena, "%s/table.csv", folder),
                             arena_printf(arena, "%s/map.xml", folder), where, world->out, world->diagnostics);
    compare_or_renew(world, arena_printf(arena, "%s/said.txt", folder), said(world));
    compare_or_renew(world, arena_printf(arena, "%s/dossier.xml", folder), slurp(arena, world->out, NULL));
    assert_int_equal(good, diag_errors(world->diagnostics) == 0);
    assert_int_equal(good, access(world->out, F_OK) == 0);
    if (good) check_loads(world);
    world_free(world);
}

static void each_case_gives_what_stands_beside_it(void **state) {
    (void)state;
    struct dirent **names;
    int count = scandir(cases_folder, &names, NULL, alphasort);
    assert_true(count > 2);
    for (int i = 0; i < count; i++) {
        if (names[i]->d_name[0] != '.') check_case(names[i]->d_name);
        free(names[i]);
    }
    free(names);
}

/* ---- files ---- */

static bool import_case(World *world, const char *name, const char *table, const char *out) {
    const char *map = arena_printf(world->arena, "%s/%s/map.xml", cases_folder, name);
    const char *own = arena_printf(world->arena, "%s/%s/table.csv", cases_folder, name);
    return import_table(world->context, table ? table : own, map, NULL, out, world->diagnostics);
}

static void a_bad_import_leaves_the_old_file(void **state) {
    (void)state;
    World *world = world_new();
    spill(world->out, "old", 3);
    assert_false(import_case(world, "bad-values", NULL, world->out));
    assert_string_equal(slurp(world->arena, world->out, NULL), "old");
    assert_true(import_case(world, "quirks", NULL, world->out));
    assert_string_not_equal(slurp(world->arena, world->out, NULL), "old");
    world_free(world);
}

static void what_cannot_be_written_is_said(void **state) {
    (void)state;
    World *world = world_new();
    assert_false(import_case(world, "quirks", NULL, "/nowhere/at/all.xml"));
    assert_int_equal(diag_reported(world->diagnostics, RULE_FILE_WRITE), 1);
    world_free(world);
}

static void what_cannot_be_read_is_said(void **state) {
    (void)state;
    World *world = world_new();
    assert_false(import_case(world, "quirks", "/nowhere/at/all.csv", world->out));
    assert_int_equal(diag_reported(world->diagnostics, RULE_FILE_READ), 1);
    world_free(world);
}

/* ---- damage: a table with bytes changed, cut or doubled is either refused with a report or gives a dossier that loads
 * ---- */

static unsigned next(uint64_t *seed) {
    *seed = *seed * UINT64_C(6364136223846793005) + 1442695040888963407u;
    return (unsigned)(*seed >> 33);
}

static size_t damage(char *text, size_t length, uint64_t *seed) {
    static const char bytes[] = "\",\n\r0-9.\xC3\xFFNA\0e;'<";
    for (unsigned changes = next(seed) % 4 + 1; changes > 0; changes--) {
        text[next(seed) % length] = bytes[next(seed) % (sizeof bytes - 1)];
    }
    return next(seed) % 4 ? length : next(seed) % length + 1;
}

static void damaged_tables_never_crash(void **state) {
    (void)state;
    uint64_t seed = 5;
    int good = 0;
    size_t length;
    World *whole = world_new();
    const char *text = slurp(whole->arena, "tests/import/cases/selection/table.csv", &length);
    const char *path = arena_printf(whole->arena, "%s/test-damaged-%ld.csv", temporary_folder(), (long)getpid());
    for (int i = 0; i < MUTATIONS; i++) {
        World *world = world_new();
        char *copy = arena_copy(world->arena, text, length);
        spill(path, copy, damage(copy, length, &seed));
        bool imported = import_table(world->context, path, "tests/import/cases/selection/map.xml", "@who='Bo'",
                                     world->out, world->diagnostics);
        assert_int_equal(imported, diag_errors(world->diagnostics) == 0);
        if (imported) check_loads(world);
        good += imported;
        world_free(world);
    }
    unlink(path);
    world_free(whole);
    assert_true(good > MUTATIONS / 20 && good < MUTATIONS);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_case_gives_what_stands_beside_it),
        cmocka_unit_test(a_bad_import_leaves_the_old_file),
        cmocka_unit_test(what_cannot_be_written_is_said),
        cmocka_unit_test(what_cannot_be_read_is_said),
        cmocka_unit_test(damaged_tables_never_crash),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
