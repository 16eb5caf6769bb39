#include "source/help_reader.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/buf.h"

static const struct {
    const char *from, *to;
} files[] = {
    {"passer.xml", "profiles/passer.xml"}, {"common.xml", "sets/common.xml"},  {"house.xml", "houses/plain.xml"},
    {"layout.xml", "layouts/short.xml"},   {"scale.xml", "scales/passer.xml"}, {"dossier.xml", "dossier.xml"},
};

static const char *const folders[] = {"profiles", "sets", "houses", "layouts", "scales"};

enum { PATH_MOST = 512 };

struct ReaderWorld {
    Arena *arena;
    Diagnostics *diagnostics;
    SourceContext *context;
    char folder[256];
};

static void path_of(const ReaderWorld *world, const char *file, char *path, size_t size) {
    int length = snprintf(path, size, "%s/%s", world->folder, file);
    assert_true(length > 0 && (size_t)length < size);
}

static char *slurp(Arena *arena, const char *path) {
    FILE *in = fopen(path, "rb");
    assert_non_null(in);
    assert_int_equal(fseek(in, 0, SEEK_END), 0);
    size_t length = (size_t)ftell(in);
    rewind(in);
    char *text = arena_alloc(arena, length + 1);
    assert_int_equal(fread(text, 1, length, in), length);
    fclose(in);
    return text;
}

void reader_world_write(ReaderWorld *world, const char *file, const char *text) {
    char path[PATH_MOST];
    path_of(world, file, path, sizeof path);
    FILE *out = fopen(path, "wb");
    assert_non_null(out);
    assert_int_equal(fwrite(text, 1, strlen(text), out), strlen(text));
    assert_int_equal(fclose(out), 0);
}

static void make_folders(ReaderWorld *world) {
    char path[PATH_MOST], *schema = realpath("templates/schema", NULL);
    assert_non_null(schema);
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++) {
        path_of(world, folders[i], path, sizeof path);
        assert_int_equal(mkdir(path, 0700), 0);
    }
    path_of(world, "schema", path, sizeof path);
    assert_int_equal(symlink(schema, path), 0);
    free(schema);
}

ReaderWorld *reader_world_new(void) {
    ReaderWorld *world = mem_alloc(sizeof *world);
    world->arena = arena_new();
    world->diagnostics = diag_new();
    const char *base = getenv("TMPDIR");
    snprintf(world->folder, sizeof world->folder, "%s/tapebound-reader-XXXXXX", base ? base : P_tmpdir);
    assert_non_null(mkdtemp(world->folder));
    make_folders(world);
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        const char *from = arena_printf(world->arena, "tests/source/reader/%s", files[i].from);
        reader_world_write(world, files[i].to, slurp(world->arena, from));
    }
    return world;
}

void reader_world_free(ReaderWorld *world) {
    static const char *const more[] = {"schema", "profiles", "sets", "houses", "layouts", "scales", ""};
    char path[PATH_MOST];
    source_context_free(world->context);
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        path_of(world, files[i].to, path, sizeof path);
        unlink(path);
    }
    for (size_t i = 0; i < sizeof more / sizeof *more; i++) {
        path_of(world, more[i], path, sizeof path);
        assert_int_equal(remove(path), 0);
    }
    diag_free(world->diagnostics);
    arena_free(world->arena);
    free(world);
}

void reader_world_change(ReaderWorld *world, const char *file, const char *old, const char *fresh) {
    char path[PATH_MOST];
    path_of(world, file, path, sizeof path);
    const char *text = slurp(world->arena, path);
    const char *at = strstr(text, old);
    if (!at || strstr(at + 1, old)) fail_msg("'%s' does not stand once in %s", old, file);
    reader_world_write(world, file,
                       arena_printf(world->arena, "%.*s%s%s", (int)(at - text), text, fresh, at + strlen(old)));
}

Arena *reader_arena(ReaderWorld *world) {
    return world->arena;
}

Diagnostics *reader_diagnostics(ReaderWorld *world) {
    return world->diagnostics;
}

const char *reader_folder(const ReaderWorld *world) {
    return world->folder;
}

static SourceContext *context_of(ReaderWorld *world) {
    if (!world->context) world->context = source_context_new(world->folder, NULL, world->diagnostics);
    return world->context;
}

Dossier *reader_dossier(ReaderWorld *world) {
    char path[PATH_MOST];
    path_of(world, "dossier.xml", path, sizeof path);
    return dossier_load(world->arena, context_of(world), path, world->diagnostics);
}

const Profile *reader_profile(ReaderWorld *world, const char *id) {
    return source_profile(context_of(world), id, (Place){0}, world->diagnostics);
}

/* ---- what was said ---- */

static const char *printed(ReaderWorld *world) {
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    assert_non_null(out);
    diag_print(world->diagnostics, out, false);
    assert_int_equal(fclose(out), 0);
    const char *copy = arena_string(world->arena, text);
    free(text);
    return copy;
}

/* The text with the temporary folder's own name taken out. */
static const char *without_folder(const ReaderWorld *world, const char *text) {
    Buf out = {0};
    size_t length = strlen(world->folder);
    while (*text) {
        bool folder = strncmp(text, world->folder, length) == 0;
        if (folder && text[length] != '/') BUF_PUT(&out, "the folder");
        if (!folder) buf_putc(&out, *text);
        text += folder ? length + (text[length] == '/') : 1;
    }
    const char *copy = arena_copy(world->arena, out.bytes, out.length);
    buf_free(&out);
    return copy;
}

/* Messages begin their line. Hints, second places and source lines are indented. */
static void put_line(Buf *said, const char *line, size_t length) {
    static const char hint[] = "hint: ", note[] = ": note: ";
    size_t indent = strspn(line, " ");
    const char *start = line + indent, *second = strstr(start, note);
    if (indent == 0) {
        buf_printf(said, "%s%.*s", said->length ? "\n" : "", (int)length, line);
    } else if (strncmp(start, hint, sizeof hint - 1) == 0) {
        buf_printf(said, " (%.*s)", (int)(length - indent - sizeof hint + 1), start + sizeof hint - 1);
    } else if (second && second < line + length) {
        buf_printf(said, " + %.*s", (int)(second - start), start);
    }
}

const char *reader_said(ReaderWorld *world) {
    Buf said = {0};
    const char *line = without_folder(world, printed(world));
    while (*line) {
        size_t length = strcspn(line, "\n");
        put_line(&said, line, length);
        line += length + (line[length] == '\n');
    }
    const char *copy = arena_copy(world->arena, said.bytes, said.length);
    buf_free(&said);
    return copy;
}

void reader_check_faults(const ReaderFault *faults, size_t count) {
    for (size_t i = 0; i < count; i++) {
        ReaderWorld *world = reader_world_new();
        reader_world_change(world, faults[i].file, faults[i].old, faults[i].fresh);
        reader_dossier(world);
        assert_string_equal(reader_said(world), faults[i].said);
        reader_world_free(world);
    }
}
