/* Comparing what a figure draws with a text file. TB_NEW_GOLDENS=1 in the environment writes the files anew. Include
 * after cmocka.h. */
#ifndef TB_TESTS_FIGURE_GOLDEN_H
#define TB_TESTS_FIGURE_GOLDEN_H

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "device/device.h"
#include "typeset/figures/fixed_canvas.h"

#define GOLDEN_FOLDER "tests/typeset/figures/"

static inline char *read_golden(Arena *arena, const char *path) {
    FILE *file = fopen(path, "rb");
    if (!file) return NULL;
    Buf buf = {0};
    char piece[4096];
    size_t got;
    while ((got = fread(piece, 1, sizeof piece, file)) > 0) buf_put(&buf, piece, got);
    fclose(file);
    char *text = arena_copy(arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return text;
}

static inline void write_golden(const char *path, const char *text) {
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

static inline void fail_at_first_difference(const char *path, const char *golden, const char *drawn) {
    size_t at = 0;
    size_t line = 1;
    size_t start = 0;
    for (; golden[at] && golden[at] == drawn[at]; at++) {
        if (golden[at] != '\n') continue;
        line++;
        start = at + 1;
    }
    fail_msg("%s:%zu:\n  expected %.*s\n  drawn    %.*s", path, line, (int)strcspn(golden + start, "\n"),
             golden + start, (int)strcspn(drawn + start, "\n"), drawn + start);
}

/* Draws the figure on a page of its own and compares its marks with tests/typeset/figures/NAME.txt. */
static inline void check_golden(const char *name, const Figure *figure, double width) {
    Arena *arena = arena_new();
    Canvas *canvas = fixed_canvas(arena);
    canvas->x = 50;
    canvas->y = 100;
    double height = figure_draw(canvas, figure, width);
    Pages pages = {.pages = canvas->page,
                   .count = 1,
                   .title = name,
                   .author = "",
                   .subject = "",
                   .date = "2031-11-18",
                   .language = "en"};
    Buf drawn = {0};
    device_text(&pages, &drawn);
    buf_printf(&drawn, "height %.2f\n", height);
    const char *path = arena_printf(arena, GOLDEN_FOLDER "%s.txt", name);
    if (getenv("TB_NEW_GOLDENS")) write_golden(path, buf_text(&drawn));
    const char *golden = read_golden(arena, path);
    if (!golden) fail_msg("%s is missing", path);
    if (strcmp(golden, buf_text(&drawn)) != 0) fail_at_first_difference(path, golden, buf_text(&drawn));
    buf_free(&drawn);
    arena_free(arena);
}

#endif
