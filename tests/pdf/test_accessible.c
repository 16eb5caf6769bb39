/* Rules of PDF/UA-1 and PDF/A-2u. With files as arguments it checks those instead and prints what is wrong. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "pdf/help_paper.h"
#include "pdf/help_rules.h"

static void keeps_the_rules(Paper *paper) {
    Buf faults = {0};
    size_t count = rules_check(paper_print(paper, "rules.pdf"), &faults);
    if (count) print_error("%s", buf_text(&faults));
    buf_free(&faults);
    assert_int_equal(count, 0);
}

static void the_sample_keeps_the_rules(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    paper_sample(paper);
    keeps_the_rules(paper);
}

/* Text, shapes and links where a page list should not have them. */
static void stray_marks_keep_the_rules(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    paper_page(paper);
    paper_text(paper, FACE_PROSE, 9.5, 62, 60, "No element at all");
    paper_rect(paper, (Box){62, 70, 10, 10});
    paper_link(paper, (Box){62, 52, 80, 12}, "https://example.org/");
    paper_open(paper, ROLE_H1, NULL);
    paper_text(paper, FACE_HEAD, 16, 62, 100, "Head");
    paper_line(paper, 62, 104, 200, 104);
    paper_text(paper, FACE_HEAD, 16, 162, 100, "goes on");
    paper_close(paper);
    paper_open(paper, ROLE_TABLE, NULL);
    paper_text(paper, FACE_PLAIN, 8, 62, 130, "between rows");
    paper_open(paper, ROLE_ROW, NULL);
    paper_link(paper, (Box){62, 140, 80, 12}, "https://example.org/row");
    paper_open(paper, ROLE_CELL, NULL);
    paper_close(paper);
    paper_open(paper, ROLE_CELL, NULL);
    paper_paragraph(paper, FACE_PLAIN, 150, "a paragraph in a cell");
    paper_close(paper);
    paper_close(paper);
    paper_close(paper);
    paper_open(paper, ROLE_ARTIFACT, NULL);
    paper_open(paper, ROLE_FIGURE, NULL);
    paper_disc(paper, 100, 200, 4);
    paper_link(paper, (Box){62, 190, 80, 12}, "https://example.org/furniture");
    paper_close(paper);
    paper_close(paper);
    paper_close(paper);
    paper_paragraph(paper, FACE_PROSE, 250, "after one close too many");
    keeps_the_rules(paper);
}

/* A paragraph and a figure whose content lies on two pages, a list in a list, a link in a figure. */
static void nested_marks_keep_the_rules(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    paper_page(paper);
    paper_open(paper, ROLE_DOCUMENT, NULL);
    paper_open(paper, ROLE_PARAGRAPH, NULL);
    paper_text(paper, FACE_PROSE, 9.5, 62, 700, "begins on one page ");
    paper_page(paper);
    paper_text(paper, FACE_PROSE, 9.5, 62, 60, "and ends with ẋ and m̃x̱ on another");
    paper_close(paper);
    paper_open(paper, ROLE_FIGURE, "A figure with a link");
    paper_text(paper, FACE_PLAIN, 7.5, 62, 100, "Before ẋ");
    paper_open(paper, ROLE_LINK, NULL);
    paper_text(paper, FACE_PLAIN, 7.5, 100, 100, "g1.14");
    paper_link(paper, (Box){100, 92, 30, 12}, "here");
    paper_close(paper);
    paper_open(paper, ROLE_FIGURE, "The same figure");
    paper_line(paper, 62, 110, 200, 110);
    paper_close(paper);
    paper_text(paper, FACE_PLAIN, 7.5, 140, 100, "after");
    paper_close(paper);
    paper_anchor(paper, 62, 100, "here");
    paper_open(paper, ROLE_LIST, NULL);
    paper_open(paper, ROLE_ITEM, NULL);
    paper_paragraph(paper, FACE_PROSE, 130, "outer");
    paper_open(paper, ROLE_LIST, NULL);
    paper_open(paper, ROLE_ITEM, NULL);
    paper_text(paper, FACE_PROSE, 9.5, 72, 142, "inner");
    paper_close(paper);
    paper_close(paper);
    paper_close(paper);
    paper_close(paper);
    paper_close(paper);
    keeps_the_rules(paper);
}

static bool claims_accessibility(Paper *paper) {
    const Text *bytes = paper_bytes(paper, paper_print(paper, "claim.pdf"));
    static const char claim[] = "<pdfuaid:part>";
    return memmem(bytes->bytes, bytes->length, claim, sizeof claim - 1) != NULL;
}

/* What breaks a rule must not say that it keeps them. */
static void says_so_only_when_it_does(void **state) {
    Paper *paper = *state;
    paper_page(paper);
    paper_open(paper, ROLE_H1, NULL);
    paper_text(paper, FACE_HEAD, 16, 62, 100, "Head");
    paper_close(paper);
    assert_true(claims_accessibility(paper));
    paper_open(paper, ROLE_FIGURE, "");
    paper_disc(paper, 100, 200, 4);
    paper_close(paper);
    assert_false(claims_accessibility(paper));
}

static void a_skipped_heading_is_noticed(void **state) {
    Paper *paper = *state;
    PAPER_NEEDS("qpdf");
    paper_page(paper);
    paper_open(paper, ROLE_H2, NULL);
    paper_text(paper, FACE_HEAD, 16, 62, 100, "Head");
    paper_close(paper);
    assert_false(claims_accessibility(paper));
    Buf faults = {0};
    assert_true(rules_check(paper_print(paper, "skip.pdf"), &faults) >= 2);
    assert_non_null(strstr(buf_text(&faults), "/H2 follows a heading of level 0"));
    buf_free(&faults);
}

static int set_up(void **state) {
    *state = paper_new();
    return 0;
}

static int tear_down(void **state) {
    paper_free(*state);
    return 0;
}

static int check_files(int count, char **paths) {
    size_t faults = 0;
    for (int at = 0; at < count; at++) {
        Buf said = {0};
        faults += rules_check(paths[at], &said);
        printf("%s: %s", paths[at], said.length ? buf_text(&said) : "keeps the rules\n");
        buf_free(&said);
    }
    return faults != 0;
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(int argc, char **argv) {
    if (argc > 1) return check_files(argc - 1, argv + 1);
    const struct CMUnitTest tests[] = {
        TEST(the_sample_keeps_the_rules), TEST(stray_marks_keep_the_rules),   TEST(nested_marks_keep_the_rules),
        TEST(says_so_only_when_it_does),  TEST(a_skipped_heading_is_noticed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
