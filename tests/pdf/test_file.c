/* The file as other programs read it. */
#include <math.h>
#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/text.h"
#include "pdf/help_paper.h"

/* Names and signs that a dossier may hold, a character that needs another face among them. */
static const char *const hard_words[] = {
    "é",        "ñ",       "ʻ",     "–",      "⅜",  "≥",   "ł",        "Đorđić",    "Efficient", "office",
    "affluent", "Kealiʻi", "ʔaq̓am", "Nguyễn", "6′", "4⅜″", "“quoted”", "65/82",     "79%",       "12:04",
    "(a)",      "\\b",     "Ŵyn",   "ẋ",      "Ж",  "Ω",   "m̃x̱",       "press‑man", "−3",        "ﬁ",
};

enum { HARD_WORDS = sizeof hard_words / sizeof *hard_words };

static void opens_without_a_warning(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    paper_sample(paper);
    int status;
    const char *said = paper_shell(paper, &status, "qpdf --check '%s' 2>&1", paper_print(paper, "sample.pdf"));
    assert_int_equal(status, 0);
    assert_non_null(strstr(said, "PDF Version: 1.7"));
    assert_null(strstr(said, "WARNING"));
}

static void every_font_is_a_subset_with_text(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("pdffonts");
    paper_page(paper);
    for (Face face = FACE_PROSE; face < FACE_COUNT; face++) paper_paragraph(paper, face, 60 + 20 * face, "Hello 12 é");
    const char *list = paper_shell(paper, NULL, "pdffonts '%s' | tail -n +3", paper_print(paper, "fonts.pdf"));
    int fonts = 0;
    for (const char *line = list; *line; line = strchr(line, '\n') + 1) {
        assert_int_equal(line[6], '+');
        assert_non_null(strstr(line, " yes yes yes "));
        fonts++;
    }
    assert_int_equal(fonts, FACE_COUNT);
}

/* What pdftotext reads must be what was set, word for word, in every face. */
static void text_comes_out_as_it_went_in(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("pdftotext");
    for (Face face = FACE_PROSE; face < FACE_COUNT; face++) {
        paper_page(paper);
        for (int at = 0; at < HARD_WORDS; at++) paper_paragraph(paper, face, 60 + 20 * at, hard_words[at]);
    }
    const char *text = paper_shell(paper, NULL, "pdftotext -raw '%s' -", paper_print(paper, "text.pdf"));
    for (Face face = FACE_PROSE; face < FACE_COUNT; face++) {
        for (int at = 0; at < HARD_WORDS; at++) {
            size_t length = strlen(hard_words[at]);
            if (strncmp(text, hard_words[at], length)) print_error("face %d: %s\n", (int)face, hard_words[at]);
            assert_memory_equal(text, hard_words[at], length);
            text += length;
            while (*text == '\n' || *text == '\f') text++;
        }
    }
    assert_string_equal(text, "");
}

static void words_of_a_line_stay_apart(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("pdftotext");
    paper_page(paper);
    Mark *mark;
    paper_open(paper, ROLE_PARAGRAPH, NULL);
    mark = paper_text(paper, FACE_PROSE, 9.5, 62, 100, "To AVATAR 6′ (wide) gaps");
    mark->word_space = 9;
    mark = paper_text(paper, FACE_PROSE, 9.5, 62, 112, "and tight ones here");
    mark->word_space = 1.9F;
    mark = paper_text(paper, FACE_PLAIN, 7.5, 62, 124, "WHY NOT");
    mark->tracking = .45F;
    paper_close(paper);
    const char *text = paper_shell(paper, NULL, "pdftotext '%s' -", paper_print(paper, "line.pdf"));
    assert_string_equal(text, "To AVATAR 6′ (wide) gaps\nand tight ones here\nWHY NOT\n\n\f");
}

/* More characters than one-byte codes can hold, those among them whose second byte is special in a string. */
static void many_characters_of_one_face(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("pdftotext");
    static const uint32_t ranges[][2] = {{0xC0, 0xD6},   {0xD8, 0xF6},   {0xF8, 0x131},  {0x134, 0x148},
                                         {0x14A, 0x17E}, {0x391, 0x3A1}, {0x3B1, 0x3C9}, {0x410, 0x44F}};
    Buf expected = {0};
    paper_page(paper);
    int line = 0;
    for (size_t range = 0; range < sizeof ranges / sizeof *ranges; range++) {
        for (uint32_t first = ranges[range][0]; first <= ranges[range][1]; first += 16) {
            Buf word = {0};
            for (uint32_t at = first; at < first + 16 && at <= ranges[range][1]; at++) text_encode(&word, at);
            paper_paragraph(paper, FACE_PROSE, 60 + 16 * line++, arena_string(paper->arena, buf_text(&word)));
            buf_put(&expected, word.bytes, word.length);
            buf_putc(&expected, '\n');
            buf_free(&word);
        }
    }
    buf_putc(&expected, '\f');
    const char *path = paper_print(paper, "many.pdf");
    assert_string_equal(paper_shell(paper, NULL, "pdftotext -raw '%s' -", path), buf_text(&expected));
    buf_free(&expected);
}

static void a_soft_hyphen_is_read_as_one(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    paper_page(paper);
    paper_open(paper, ROLE_PARAGRAPH, NULL);
    Mark *mark = paper_text(paper, FACE_PROSE, 9.5, 62, 100, "A quarter");
    mark->words[1] = paper->metrics->word(paper->metrics, FACE_PROSE, "quarter", strlen("quarter"), true);
    paper_close(paper);
    const char *path = paper_print(paper, "soft.pdf");
    assert_string_equal(
        paper_shell(paper, NULL, "qpdf --qdf --object-streams=disable '%s' - | grep -a -c '<00AD>'", path), "1\n");
}

static void furniture_is_not_read(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("pdfinfo");
    paper_sample(paper);
    const char *text = paper_shell(paper, NULL, "pdfinfo -struct-text '%s'", paper_print(paper, "order.pdf"));
    static const char *const order[] = {
        "Document", "Sect",  "H1",     "Kealiʻi Muñoz", "Figure", "Table",       "r0 c0",
        "r0 c1",    "r4 c3", "r5 c0",  "r8 c3",         "H2",     "Sharper",     "Text in a section alone",
        "LI",       "LBody", "item 0", "item 2",        "See ",   "snap g1.14 ", "and the ",
        "film"};
    for (size_t at = 0; at < sizeof order / sizeof *order; at++) {
        const char *found = strstr(text, order[at]);
        if (!found) print_error("not in order: %s\n", order[at]);
        assert_non_null(found);
        text = found;
    }
    assert_null(strstr(paper_shell(paper, NULL, "pdfinfo -struct-text '%s/order.pdf'", paper->folder), "Running head"));
}

static void same_pages_same_bytes(void **state) {
    Paper *paper = *state;
    paper_sample(paper);
    const Text *first = paper_bytes(paper, paper_print(paper, "a.pdf"));
    const Text *second = paper_bytes(paper, paper_print(paper, "b.pdf"));
    assert_int_equal(first->length, second->length);
    assert_memory_equal(first->bytes, second->bytes, first->length);
}

/* Codes must not depend on what a book has shaped for other documents. */
static void bytes_do_not_depend_on_the_book(void **state) {
    Paper *paper = *state;
    Paper *other = paper_new();
    for (int at = HARD_WORDS; at-- > 0;)
        for (Face face = FACE_PROSE; face < FACE_COUNT; face++)
            (void)other->metrics->word(other->metrics, face, hard_words[at], strlen(hard_words[at]), at % 2);
    Paper *papers[2] = {paper, other};
    const Text *bytes[2];
    for (int side = 0; side < 2; side++) {
        paper_sample(papers[side]);
        for (int at = 0; at < HARD_WORDS; at++) paper_paragraph(papers[side], FACE_PLAIN, 60 + 20 * at, hard_words[at]);
        bytes[side] = paper_bytes(papers[side], paper_print(papers[side], "book.pdf"));
    }
    assert_int_equal(bytes[0]->length, bytes[1]->length);
    assert_memory_equal(bytes[0]->bytes, bytes[1]->bytes, bytes[0]->length);
    paper_free(other);
}

static void other_pages_other_identifier(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    const char *ids[2];
    for (int at = 0; at < 2; at++) {
        paper_page(paper);
        paper_paragraph(paper, FACE_PROSE, 100, "More");
        ids[at] = paper_shell(paper, NULL, "qpdf --show-object=trailer '%s' | grep -o 'ID [^]]*'",
                              paper_print(paper, "id.pdf"));
        assert_true(strlen(ids[at]) > 40);
    }
    assert_string_not_equal(ids[0], ids[1]);
}

static bool print_to(Paper *paper, const char *path) {
    return pdf_write(&paper->pages, paper->book, path, paper->diagnostics);
}

static void a_full_device_is_noticed(void **state) {
    Paper *paper = *state;
    paper_sample(paper);
    if (access("/dev/full", W_OK)) {
        print_message("skipped: %s: there is no /dev/full here\n", __func__);
        skip();
    }
    assert_false(print_to(paper, "/dev/full"));
    assert_int_equal(diag_reported(paper->diagnostics, RULE_FILE_WRITE), 1);
    assert_false(print_to(paper, "/no/such/folder/a.pdf"));
    assert_int_equal(diag_reported(paper->diagnostics, RULE_FILE_WRITE), 2);
}

/* A disk that fills up while the file is written: the old file stays whole, nothing else is left behind. */
static void a_full_disk_keeps_the_old_file(void **state) {
    Paper *paper = *state;
    paper_sample(paper);
    const char *path = paper_print(paper, "kept.pdf");
    const Text *before = paper_bytes(paper, path);
    paper_page(paper);
    paper_paragraph(paper, FACE_PROSE, 100, "One more page");
    struct rlimit limit;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
    struct rlimit small = {4096, limit.rlim_max};
    void (*handler)(int) = signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    bool done = print_to(paper, path);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
    signal(SIGXFSZ, handler);
    assert_false(done);
    assert_int_equal(diag_reported(paper->diagnostics, RULE_FILE_WRITE), 1);
    const Text *after = paper_bytes(paper, path);
    assert_int_equal(after->length, before->length);
    assert_memory_equal(after->bytes, before->bytes, before->length);
    assert_string_equal(paper_shell(paper, NULL, "ls -A '%s'", paper->folder), "kept.pdf\n");
}

static void info_says_who_and_when(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("pdfinfo");
    paper_sample(paper);
    const char *info = paper_shell(paper, NULL, "TZ=UTC pdfinfo '%s'", paper_print(paper, "info.pdf"));
    static const char *const lines[] = {"Kealiʻi Muñoz, quarterback\n", "R. Kestrel & Co\n",    "A <dossier>\n",
                                        "Nov 18 00:00:00 2031",         "Tagged:          yes", "Pages:           2"};
    for (size_t at = 0; at < sizeof lines / sizeof *lines; at++) assert_non_null(strstr(info, lines[at]));
}

static void labels_links_and_bookmarks(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    PAPER_NEEDS("pdfinfo");
    paper_sample(paper);
    paper_page(paper);
    paper->page->label = "Index";
    const char *path = paper_print(paper, "links.pdf");
    const char *labels = paper_shell(paper, NULL, "qpdf --json --json-key=pagelabels '%s' | tr -d ' \\n'", path);
    assert_non_null(strstr(labels, "{\"index\":0,\"label\":{\"/P\":\"u:QB·\",\"/S\":\"/D\",\"/St\":1}}"));
    assert_non_null(strstr(labels, "{\"index\":2,\"label\":{\"/P\":\"u:Index\""));
    const char *outlines = paper_shell(paper, NULL, "qpdf --json --json-key=outlines '%s' | tr -d ' \\n'", path);
    const char *first = strstr(outlines, "\"title\":\"KealiʻiMuñoz\"");
    const char *second = strstr(outlines, "\"title\":\"Second\"");
    assert_true(first && second && second < first); /* the kids of a bookmark stand before its title there */
    const char *addresses = paper_shell(paper, NULL, "pdfinfo -url '%s'", path);
    assert_non_null(strstr(addresses, "https://example.org/wk%20"
                                      "4.mp4#t=(1),2\n"));
    assert_null(strstr(addresses, "no-such-anchor"));
}

static void many_pages(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    enum { PAGES = PAPER_MOST_PAGES };
    for (int at = 0; at < PAGES; at++) {
        paper_page(paper);
        paper_anchor(paper, 62, 90, arena_printf(paper->arena, "page-%d", at));
        paper_paragraph(paper, FACE_PROSE, 100, arena_printf(paper->arena, "Page %d", at));
        paper_link(paper, (Box){62, 90, 60, 12}, arena_printf(paper->arena, "page-%d", (at * 7 + 1) % PAGES));
    }
    int status;
    const char *path = paper_print(paper, "many-pages.pdf");
    paper_shell(paper, &status, "qpdf --check '%s' 2>&1", path);
    assert_int_equal(status, 0);
    assert_string_equal(paper_shell(paper, NULL, "qpdf --show-npages '%s'", path), "600\n");
}

/* Marks that no page should hold must neither crash the writer nor spoil the file. */
static void wild_marks(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    const double infinite = (double)INFINITY;
    paper_page(paper);
    paper_bookmark(paper, 99, "", 50);
    paper_bookmark(paper, -3, "no level", 60);
    paper_text(paper, FACE_PROSE, 1e30, 62, infinite, "x y")->word_space = INFINITY;
    paper_text(paper, FACE_PLAIN, (double)NAN, 62, 100, "a\xCC\x81\xCC\x81\xE2\x80\x8D\xFF\xED\xA0\x80 \xEF\xBB\xBF z")
        ->rotate = INFINITY;
    paper_open(paper, ROLE_FIGURE, "nothing sound");
    paper_line(paper, (double)NAN, infinite, -1e308, 5)->dash = NAN;
    paper_rect(paper, (Box){(double)NAN, 1, infinite, -5});
    paper_disc(paper, 1e200, 1, -4)->stroke_width = INFINITY;
    paper_close(paper);
    int status;
    paper_shell(paper, &status, "qpdf --check '%s' 2>&1", paper_print(paper, "wild.pdf"));
    assert_int_equal(status, 0);
}

static void a_title_beyond_all_bounds(void **state) {
    Paper *paper = *state;
    enum { LENGTH = 70000 };
    char *title = arena_alloc(paper->arena, LENGTH + 1);
    memset(title, 'x', LENGTH);
    paper_page(paper);
    paper->pages.title = title;
    assert_false(print_to(paper, arena_printf(paper->arena, "%s/title.pdf", paper->folder)));
    assert_int_equal(diag_reported(paper->diagnostics, RULE_FILE_WRITE), 1);
    assert_string_equal(paper_shell(paper, NULL, "ls -A '%s'", paper->folder), "");
}

/* A page list may be empty of everything. */
static void bare_pages(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    paper_page(paper);
    paper->page->label = NULL;
    paper->pages.title = paper->pages.author = paper->pages.subject = paper->pages.date = paper->pages.language = NULL;
    int status;
    paper_shell(paper, &status, "qpdf --check '%s' 2>&1", paper_print(paper, "bare.pdf"));
    assert_int_equal(status, 0);
    paper->pages.date = "yesterday";
    const Text *bytes = paper_bytes(paper, paper_print(paper, "bare.pdf"));
    assert_null(memmem(bytes->bytes, bytes->length, "CreateDate", strlen("CreateDate")));
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
        TEST(opens_without_a_warning),
        TEST(every_font_is_a_subset_with_text),
        TEST(text_comes_out_as_it_went_in),
        TEST(words_of_a_line_stay_apart),
        TEST(many_characters_of_one_face),
        TEST(a_soft_hyphen_is_read_as_one),
        TEST(furniture_is_not_read),
        TEST(same_pages_same_bytes),
        TEST(bytes_do_not_depend_on_the_book),
        TEST(other_pages_other_identifier),
        TEST(a_full_device_is_noticed),
        TEST(a_full_disk_keeps_the_old_file),
        TEST(info_says_who_and_when),
        TEST(labels_links_and_bookmarks),
        TEST(many_pages),
        TEST(wild_marks),
        TEST(a_title_beyond_all_bounds),
        TEST(bare_pages),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
