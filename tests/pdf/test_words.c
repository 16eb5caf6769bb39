/* Words as the fonts give them: widths, missing characters, and the cache. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "pdf/book.h"
#include "pdf/help_paper.h"

static void assert_near(double got, double wanted, double tolerance) {
    assert_true(fabs(got - wanted) <= tolerance);
}

static const Word *shape(Paper *paper, Face face, const char *text) {
    return paper->metrics->word(paper->metrics, face, text, strlen(text), false);
}

static const GlyphRun *run_of(const Word *word) {
    return word->glyphs;
}

static void same_text_same_word(void **state) {
    Paper *paper = *state;
    const Word *word = shape(paper, FACE_PROSE, "Muñoz");
    assert_ptr_equal(word, shape(paper, FACE_PROSE, "Muñoz"));
    assert_ptr_not_equal(word, shape(paper, FACE_PLAIN, "Muñoz"));
    assert_ptr_not_equal(word, paper->metrics->word(paper->metrics, FACE_PROSE, "Muñoz", strlen("Muñoz"), true));
    assert_ptr_not_equal(word, shape(paper, FACE_PROSE, "Muñoz."));
    assert_string_equal(word->text, "Muñoz");
}

static void cache_keeps_many_words(void **state) {
    Paper *paper = *state;
    enum { WORDS = 20000 };
    const Word **words = ARENA_ARRAY(paper->arena, WORDS, const Word *);
    char text[16];
    for (int pass = 0; pass < 2; pass++) {
        for (int at = 0; at < WORDS; at++) {
            snprintf(text, sizeof text, "w%d", at);
            const Word *word = shape(paper, FACE_PROSE, text);
            assert_string_equal(word->text, text);
            if (pass) assert_ptr_equal(words[at], word);
            words[at] = word;
        }
    }
}

static void figures_are_of_one_width(void **state) {
    Paper *paper = *state;
    for (Face face = FACE_PLAIN; face <= FACE_STRONG; face++) {
        double width = shape(paper, face, "0")->width;
        assert_true(width > 300);
        for (char figure = '1'; figure <= '9'; figure++)
            assert_near(shape(paper, face, (const char[]){figure, '\0'})->width, width, 1e-9);
        assert_near(shape(paper, face, "1174")->width, 4 * width, 1e-9);
        assert_near(shape(paper, face, "x1174")->width, shape(paper, face, "x8888")->width, 1e-9);
    }
}

static void pairs_are_kerned(void **state) {
    Paper *paper = *state;
    for (Face face = FACE_PROSE; face < FACE_COUNT; face++) {
        const Word *word = shape(paper, face, "AVATAR");
        double apart = 0;
        for (const char *at = "AVATAR"; *at; at++) apart += shape(paper, face, (const char[]){*at, '\0'})->width;
        assert_true(word->width < apart - 50);
    }
}

/* Width in thousandths as HarfBuzz gives it for the whole word. */
static double shaped_width(Paper *paper, Face face, const char *text) {
    LoadedFace *loaded = &paper->book->faces[face];
    hb_buffer_t *buffer = hb_buffer_create();
    hb_buffer_add_utf8(buffer, text, -1, 0, -1);
    hb_buffer_set_direction(buffer, HB_DIRECTION_LTR);
    hb_buffer_set_script(buffer, HB_SCRIPT_LATIN);
    face_shape(loaded, buffer);
    unsigned count;
    const hb_glyph_position_t *places = hb_buffer_get_glyph_positions(buffer, &count);
    double width = 0;
    for (unsigned at = 0; at < count; at++) width += places[at].x_advance * loaded->unit;
    hb_buffer_destroy(buffer);
    return width;
}

/* Words are set from kerning pairs: no neighbour may change what stands two places on. */
static void pairs_make_words(void **state) {
    Paper *paper = *state;
    enum { FIRST = '!', CHARACTERS = '~' - '!' + 1, WORDS = 60000, LONGEST = 9 };
    unsigned random = 20311118;
    char text[LONGEST + 1];
    for (int at = 0; at < WORDS; at++) {
        int length = at % 3 ? 3 : LONGEST;
        for (int character = 0; character < length; character++) {
            random = random * 1103515245U + 12345U;
            text[character] = (char)(FIRST + (random >> 16) % CHARACTERS);
        }
        text[length] = '\0';
        Face face = (Face)(at % FACE_COUNT);
        bool unkerned = face_table[face].tabular && strspn(text, "0123456789.,:+-%/") == (size_t)length;
        double width = shape(paper, face, text)->width;
        if (!unkerned) assert_near(width, shaped_width(paper, face, text), 1e-6);
    }
}

static double drawn_glyphs(const Paper *paper, const GlyphRun *run) {
    double drawn = -run->back;
    for (uint32_t at = 0; at < run->count; at++) {
        const LoadedFace *from = &paper->book->faces[run->glyphs[at].face];
        drawn += face_advance(from, from->pairs[run->glyphs[at].pair].glyph) - run->glyphs[at].back;
    }
    return drawn;
}

/* The bytes of a plain run: characters, and numbers between literals. */
static double drawn_bytes(const Paper *paper, Face face, const GlyphRun *run) {
    const LoadedFace *from = &paper->book->faces[face];
    double drawn = 0;
    for (const char *at = run->bytes, *end = run->bytes + run->length; at < end; at++) {
        if (*at == ')') {
            drawn -= atoi(at + 1);
            at = strchr(at, '(');
            continue;
        }
        if (*at == '\\') at++;
        drawn += face_advance(from, from->pairs[(unsigned char)*at].glyph);
    }
    return drawn;
}

/* The sum of what is drawn is the width told, or right margins would not be straight. */
static void width_is_what_is_drawn(void **state) {
    Paper *paper = *state;
    static const char *const texts[] = {"AVATAR",    "(To\\Wave)", "office", "To",  "Wave,",  "Tz..",
                                        "“Kealiʻi”", "6′",         "m̃x̱",     "4⅜″", "Đorđić", "ẋ"};
    int plain = 0;
    for (size_t at = 0; at < sizeof texts / sizeof *texts; at++) {
        for (Face face = FACE_PROSE; face < FACE_COUNT; face++) {
            const Word *word = shape(paper, face, texts[at]);
            const GlyphRun *run = run_of(word);
            double drawn = run->plain ? drawn_bytes(paper, face, run) : drawn_glyphs(paper, run);
            assert_near(drawn, word->width, 0.5001);
            plain += run->plain;
        }
    }
    assert_int_equal(plain, 5 * FACE_COUNT);
}

static void other_faces_help_out(void **state) {
    Paper *paper = *state;
    const Word *prime = shape(paper, FACE_PLAIN, "6′2″");
    assert_false(prime->missing);
    assert_int_equal(run_of(prime)->count, 4);
    assert_int_equal(run_of(prime)->glyphs[0].face, FACE_PLAIN);
    assert_int_equal(run_of(prime)->glyphs[1].face, FACE_PROSE);
    assert_int_equal(run_of(prime)->glyphs[2].face, FACE_PLAIN);
    const Word *name = shape(paper, FACE_PROSE_ITALIC, "ʔaq̓am");
    assert_false(name->missing);
    assert_int_equal(run_of(name)->count, 6);
    for (int at = 0; at < 6; at++) assert_int_equal(run_of(name)->glyphs[at].face, FACE_PLAIN);
    const Word *hyphen = shape(paper, FACE_PLAIN, "press‑man");
    assert_false(hyphen->missing);
    assert_int_equal(run_of(hyphen)->glyphs[5].face, FACE_PLAIN);
}

static void marks_stay_with_their_letters(void **state) {
    Paper *paper = *state;
    for (Face face = FACE_PROSE; face < FACE_COUNT; face++) {
        const Word *composed = shape(paper, face, "é");
        const Word *apart = shape(paper, face, "e\xCC\x81");
        assert_near(composed->width, apart->width, 1e-9);
        assert_int_equal(run_of(apart)->count, 1);
        const Word *stacked = shape(paper, face, "m\xCC\x83");
        assert_false(stacked->missing);
        assert_int_equal(run_of(stacked)->count, 2);
        assert_near(stacked->width, shape(paper, face, "m")->width, 1e-9);
    }
}

static void missing_characters_are_said(void **state) {
    Paper *paper = *state;
    assert_true(shape(paper, FACE_PROSE, "中")->missing);
    assert_true(shape(paper, FACE_PLAIN, "a中b")->missing);
    assert_true(shape(paper, FACE_PLAIN, "\xFF")->missing);
    assert_int_equal(run_of(shape(paper, FACE_PLAIN, "a中b"))->count, 3);
    assert_true(shape(paper, FACE_PROSE, "中")->width > 0);
    assert_false(shape(paper, FACE_PROSE, "")->missing);
    assert_near(shape(paper, FACE_PROSE, "")->width, 0, 1e-9);
    assert_false(shape(paper, FACE_PROSE, "Nguyễn")->missing);
    assert_false(shape(paper, FACE_PROSE, "a\xC2\xA0z")->missing);
}

static void soft_words_end_in_a_hyphen(void **state) {
    Paper *paper = *state;
    const char *half = "quarter";
    const Word *soft = paper->metrics->word(paper->metrics, FACE_PROSE, half, strlen(half), true);
    const Word *hard = shape(paper, FACE_PROSE, "quarter-");
    assert_true(soft->soft);
    assert_near(soft->width, hard->width, 1e-9);
    assert_true(soft->right_bearing > 50);
    assert_near(soft->left_bearing, 0, 1e-9);
    const Word *missing = paper->metrics->word(paper->metrics, FACE_PROSE, "中", strlen("中"), true);
    assert_int_equal(run_of(missing)->count, 2);
}

static void punctuation_may_hang(void **state) {
    Paper *paper = *state;
    assert_true(shape(paper, FACE_PROSE, "place.")->right_bearing > 50);
    assert_true(shape(paper, FACE_PROSE, "“He")->left_bearing > 50);
    assert_near(shape(paper, FACE_PROSE, "He")->left_bearing, 0, 1e-9);
}

static void measures_are_those_of_the_fonts(void **state) {
    Paper *paper = *state;
    for (Face face = FACE_PROSE; face < FACE_COUNT; face++) {
        double space = paper->metrics->space(paper->metrics, face);
        double capital = paper->metrics->cap_height(paper->metrics, face);
        assert_true(space > 150 && space < 320);
        assert_true(capital > 600 && capital < 750);
    }
}

static void fonts_that_are_not_there(void **state) {
    Paper *paper = *state;
    assert_null(fonts_open("no/such/folder", paper->diagnostics));
    assert_int_equal(diag_reported(paper->diagnostics, RULE_FILE_READ), 1);
    paper_shell(paper, NULL, "cp fonts/*.ttf '%s' && echo nonsense >'%s'/SourceSerif4SmText-It.ttf", paper->folder,
                paper->folder);
    assert_null(fonts_open(paper->folder, paper->diagnostics));
    assert_int_equal(diag_reported(paper->diagnostics, RULE_FILE_READ), 2);
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
        TEST(same_text_same_word),
        TEST(cache_keeps_many_words),
        TEST(figures_are_of_one_width),
        TEST(pairs_are_kerned),
        TEST(pairs_make_words),
        TEST(width_is_what_is_drawn),
        TEST(other_faces_help_out),
        TEST(marks_stay_with_their_letters),
        TEST(missing_characters_are_said),
        TEST(soft_words_end_in_a_hyphen),
        TEST(punctuation_may_hang),
        TEST(measures_are_those_of_the_fonts),
        TEST(fonts_that_are_not_there),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
