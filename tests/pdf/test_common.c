/* Words from the tables of common characters are the words that HarfBuzz makes. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"
#include "pdf/book.h"
#include "pdf/help_paper.h"

/* A book with the tables, and one that has forgotten them. */
typedef struct Books {
    Paper *with, *without;
} Books;

static int set_up(void **state) {
    Books *books = test_calloc(1, sizeof *books);
    books->with = paper_new();
    books->without = paper_new();
    for (int face = 0; face < FACE_COUNT; face++) books->without->book->faces[face].common = NULL;
    *state = books;
    return 0;
}

static int tear_down(void **state) {
    Books *books = *state;
    paper_free(books->with);
    paper_free(books->without);
    test_free(books);
    return 0;
}

static const Word *shape(Paper *paper, Face face, const char *text, size_t length, bool soft) {
    return paper->metrics->word(paper->metrics, face, text, length, soft);
}

static void assert_same(const Word *got, const Word *wanted) {
    const GlyphRun *a = got->glyphs;
    const GlyphRun *b = wanted->glyphs;
    assert_true(fabs(got->width - wanted->width) < 1e-6);
    assert_true(fabs(got->left_bearing - wanted->left_bearing) < 1e-6);
    assert_true(fabs(got->right_bearing - wanted->right_bearing) < 1e-6);
    assert_int_equal(got->missing, wanted->missing);
    assert_int_equal(a->plain, b->plain);
    assert_int_equal(a->actual, b->actual);
    assert_int_equal(a->back, b->back);
    assert_int_equal(a->count, b->count);
    assert_int_equal(a->length, b->length);
    assert_memory_equal(a->used, b->used, sizeof a->used);
    if (a->plain) assert_memory_equal(a->bytes, b->bytes, a->length);
    for (uint32_t at = 0; !a->plain && at < a->count; at++) {
        assert_int_equal(a->glyphs[at].face, b->glyphs[at].face);
        assert_int_equal(a->glyphs[at].pair, b->glyphs[at].pair);
        assert_int_equal(a->glyphs[at].back, b->glyphs[at].back);
        assert_int_equal(a->glyphs[at].rise, b->glyphs[at].rise);
    }
}

static void assert_same_word(Books *books, Face face, Buf *text, bool soft) {
    const Word *got = shape(books->with, face, text->bytes, text->length, soft);
    assert_same(got, shape(books->without, face, text->bytes, text->length, soft));
}

static void every_font_has_its_table(void **state) {
    Books *books = *state;
    for (int at = 0; at < FACE_COUNT; at++) {
        const LoadedFace *face = &books->with->book->faces[at];
        assert_non_null(face->common);
        assert_int_equal(face->common->checksum, face_checksum(face));
        assert_null(common_find(face->common->checksum ^ 1, face->common->size));
        assert_null(common_find(face->common->checksum, face->common->size + 1));
    }
}

static void two_characters(void **state) {
    Books *books = *state;
    Buf text = {0};
    for (unsigned at = 0; at < FACE_COUNT * COMMON_COUNT * COMMON_COUNT; at++) {
        text.length = 0;
        text_encode(&text, common_character(at / COMMON_COUNT % COMMON_COUNT));
        text_encode(&text, common_character(at % COMMON_COUNT));
        assert_same_word(books, (Face)(at / COMMON_COUNT / COMMON_COUNT), &text, at % 7 == 0);
    }
    buf_free(&text);
}

/* No neighbour may change what stands two places on. */
static void random_words(void **state) {
    Books *books = *state;
    enum { WORDS = 30000, LONGEST = 9 };
    unsigned random = 20311118;
    Buf text = {0};
    for (int at = 0; at < WORDS; at++) {
        text.length = 0;
        for (int left = at % 3 ? 3 : LONGEST; left; left--) {
            random = random * 1103515245U + 12345U;
            text_encode(&text, common_character((random >> 16) % COMMON_COUNT));
        }
        assert_same_word(books, (Face)(at % FACE_COUNT), &text, at % 5 == 0);
    }
    buf_free(&text);
}

static void indexes_and_characters(void **state) {
    (void)state;
    for (unsigned index = 0; index < COMMON_COUNT; index++)
        assert_int_equal(common_index(common_character(index)), index);
    assert_int_equal(common_index('\n'), COMMON_NONE);
    assert_int_equal(common_index(0xE9), COMMON_NONE);
    assert_int_equal(common_index(TEXT_BAD), COMMON_NONE);
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(every_font_has_its_table),
        TEST(two_characters),
        TEST(random_words),
        TEST(indexes_and_characters),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
