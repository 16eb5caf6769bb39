/* What is painted, seen through poppler's renderer: the same marks look the same whatever else their document holds. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "pdf/help_paper.h"

static const Text *picture_of(Paper *paper, const char *path, int page) {
    const char *file = arena_printf(paper->arena, "%s/picture", paper->folder);
    paper_shell(paper, NULL, "pdftoppm -r 60 -gray -singlefile -f %d -l %d '%s' '%s' && mv '%s.pgm' '%s'", page, page,
                path, file, file, file);
    return paper_bytes(paper, file);
}

static double ink_of(const Text *picture) {
    double ink = 0;
    for (size_t at = 20; at < picture->length; at++) ink += 255 - (unsigned char)picture->bytes[at];
    return ink / 255;
}

static void assert_same_picture(const Text *left, const Text *right) {
    assert_int_equal(left->length, right->length);
    assert_memory_equal(left->bytes, right->bytes, left->length);
}

static void put_lines(Paper *paper) {
    paper_page(paper);
    for (Face face = FACE_PROSE; face < FACE_COUNT; face++)
        paper_paragraph(paper, face, 60 + 20 * face, "Muñoz Đorđić office 65/82 4⅜″ ẋ m̃x̱ “To AVATAR” Nguyễn");
}

/* Every letter of a face, so that those that follow get other codes and other glyph numbers. */
static void put_alphabets(Paper *paper) {
    paper_page(paper);
    for (uint32_t first = 0xC0; first < 0x460; first += 16) {
        Buf word = {0};
        for (uint32_t at = first; at < first + 16; at++)
            if (at < 0x180 || at >= 0x410) text_encode(&word, at);
        const char *text = arena_copy(paper->arena, word.bytes, word.length);
        buf_free(&word);
        for (Face face = FACE_PROSE; face < FACE_COUNT; face++) paper_paragraph(paper, face, 60 + first / 2, text);
    }
}

static void glyphs_do_not_depend_on_their_codes(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("pdftoppm");
    put_lines(paper);
    const Text *alone = picture_of(paper, paper_print(paper, "alone.pdf"), 1);
    assert_true(ink_of(alone) > 500);
    Paper *other = paper_new();
    put_alphabets(other);
    put_lines(other);
    assert_same_picture(alone, picture_of(other, paper_print(other, "after.pdf"), 2));
    paper_free(other);
}

/* Marks in one order and in another: state kept between them must not leak. */
static void put_shapes(Paper *paper, bool backwards) {
    paper_page(paper);
    for (int step = 0; step < 6; step++) {
        int at = backwards ? 5 - step : step;
        double y = 100 + 60 * at;
        Mark *mark = NULL;
        if (at == 0) mark = paper_line(paper, 62, y, 300, y + 20);
        if (at == 1) mark = paper_rect(paper, (Box){62, y, 100, 30});
        if (at == 2) mark = paper_disc(paper, 100, y, 12);
        if (at == 3) mark = paper_text(paper, FACE_PROSE, 20, 62, y, "Upright text");
        if (at == 4) mark = paper_text(paper, FACE_STRONG, 14, 62, y, "Turned");
        if (at == 5) mark = paper_text(paper, FACE_PLAIN, 14, 100, y, "TRACKED 6′");
        if (at == 0) mark->dash = 6, mark->gap = 3, mark->stroke_width = 2;
        if (at == 1) mark->stroke = (Ink){INK_ACCENT, 60}, mark->stroke_width = 3;
        if (at == 3) mark->fill = (Ink){INK_BLACK, 42};
        if (at == 4) mark->rotate = 30;
        if (at == 5) mark->tracking = 2, mark->word_space = 30;
    }
}

static void order_does_not_matter(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("pdftoppm");
    put_shapes(paper, false);
    put_shapes(paper, true);
    const char *path = paper_print(paper, "order.pdf");
    const Text *forwards = picture_of(paper, path, 1);
    assert_true(ink_of(forwards) > 500);
    assert_same_picture(forwards, picture_of(paper, path, 2));
}

/* The grey of a filled square, 0 black to 255. */
static int grey_of(Paper *paper, Ink ink) {
    paper_page(paper);
    Mark *mark = paper_rect(paper, (Box){0, 0, PAPER_WIDTH, PAPER_HEIGHT});
    mark->fill = ink;
    const Text *picture = picture_of(paper, paper_print(paper, "grey.pdf"), (int)paper->pages.count);
    return (unsigned char)picture->bytes[picture->length / 2];
}

static void tints_are_as_told(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("pdftoppm");
    assert_in_range(grey_of(paper, (Ink){INK_BLACK, 100}), 24, 26);
    assert_in_range(grey_of(paper, (Ink){INK_BLACK, 50}), 139, 141);
    assert_int_equal(grey_of(paper, (Ink){INK_PAPER, 100}), 255);
    /* #123f52 by the luma weights of ITU-R BT.601, which poppler uses */
    assert_in_range(grey_of(paper, (Ink){INK_ACCENT, 100}), 50, 54);
    assert_int_equal(grey_of(paper, (Ink){INK_BLACK, 0}), 255);
}

/* Places in points, as pdftotext tells them. */
static double left_of(Paper *paper, const char *path, const char *word) {
    const char *line = paper_shell(paper, NULL, "pdftotext -bbox '%s' - | grep '>%s<'", path, word);
    const char *left = strstr(line, "xMin=\"");
    assert_non_null(left);
    return strtod(left + strlen("xMin=\""), NULL);
}

static void text_stands_where_it_is_put(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("pdftotext");
    paper_page(paper);
    paper_open(paper, ROLE_PARAGRAPH, NULL);
    paper_text(paper, FACE_PLAIN, 9, 300, 300, "turned")->rotate = 90;
    paper_text(paper, FACE_PLAIN, 9, 100.25, 200, "upright");
    Mark *mark = paper_text(paper, FACE_PROSE, 10, 100, 400, "AVATAR office gap");
    mark->word_space = 7.33F;
    paper_close(paper);
    const char *path = paper_print(paper, "place.pdf");
    double expected = 100 + 2 * (double)mark->word_space;
    for (int word = 0; word < 2; word++) expected += mark->words[word]->width / 100;
    assert_true(left_of(paper, path, "upright") > 100.24 && left_of(paper, path, "upright") < 100.26);
    assert_true(left_of(paper, path, "gap") > expected - .02 && left_of(paper, path, "gap") < expected + .02);
}

static int set_up(void **state) {
    *state = paper_new();
    return 0;
}

static int tear_down(void **state) {
    paper_free(*state);
    return 0;
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(glyphs_do_not_depend_on_their_codes),
        TEST(order_does_not_matter),
        TEST(tints_are_as_told),
        TEST(text_stands_where_it_is_put),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
