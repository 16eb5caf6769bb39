#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/diag.h"
#include "base/help_golden.h"
#include "base/text.h"

static Text text_of(const char *path, const char *bytes) {
    return (Text){path, bytes, strlen(bytes)};
}

static Place at(const Text *text, const char *word) {
    const char *found = strstr(text->bytes, word);
    assert_non_null(found);
    return (Place){text, (size_t)(found - text->bytes), strlen(word)};
}

static void expect(Diagnostics *diagnostics, const char *wanted) {
    char *got = golden_print(diagnostics);
    assert_string_equal(got, wanted);
    free(got);
    diag_free(diagnostics);
}

static void test_order(void **state) {
    (void)state;
    Diagnostics *diagnostics = diag_new();
    Text one = text_of("one.xml", "<a>\n\t<béta c=\"1\"/>\r\n</a>\n"), two = text_of("two.xml", "<z/>");
    diag_report(diagnostics, RULE_ATTRIBUTE_VALUE, at(&one, "1"), "did you mean '2'?", "'%d' is wrong", 1);
    diag_report(diagnostics, RULE_GRADE_MISSING, at(&two, "z"), NULL, "second file");
    diag_report(diagnostics, RULE_ELEMENT_UNKNOWN, at(&one, "béta"), NULL, "first place, told last");
    diag_also(diagnostics, at(&one, "<a>"), "opened here");
    diag_also(diagnostics, at(&two, "<z/>"), "and here");
    assert_int_equal(diag_errors(diagnostics), 2);
    assert_int_equal(diag_warnings(diagnostics), 1);
    expect(diagnostics, "one.xml:2:3: error: first place, told last [element-unknown]\n"
                        "  \t<béta c=\"1\"/>\n"
                        "  \t ^~~~\n"
                        "  one.xml:1:1: note: opened here\n"
                        "  two.xml:1:1: note: and here\n"
                        "one.xml:2:11: error: '1' is wrong [attribute-value]\n"
                        "  \t<béta c=\"1\"/>\n"
                        "  \t         ^\n"
                        "  hint: did you mean '2'?\n"
                        "two.xml:1:2: warning: second file [grade-missing]\n"
                        "  <z/>\n"
                        "   ^\n");
}

static void test_edges(void **state) {
    (void)state;
    Diagnostics *diagnostics = diag_new();
    Text marked = text_of("-", "\xEF\xBB\xBF<a>\nlast"), empty = text_of("empty.xml", "");
    diag_report(diagnostics, RULE_FILE_READ, (Place){0}, NULL, "no place");
    diag_report(diagnostics, RULE_CONTENT, at(&marked, "<a>"), NULL, "after a byte-order mark");
    diag_report(diagnostics, RULE_CONTENT, (Place){&marked, 11, 40}, NULL, "at the end, too long");
    diag_report(diagnostics, RULE_CONTENT, (Place){&empty, 0, 1}, NULL, "nothing there");
    expect(diagnostics, "tapebound: error: no place [file-read]\n"
                        "standard input:1:1: error: after a byte-order mark [content]\n"
                        "  <a>\n"
                        "  ^~~\n"
                        "standard input:2:5: error: at the end, too long [content]\n"
                        "  last\n"
                        "      ^\n"
                        "empty.xml: error: nothing there [content]\n");
}

/* What is printed cannot drive a terminal or turn the direction of writing. */
static void test_clean(void **state) {
    (void)state;
    Diagnostics *diagnostics = diag_new();
    Text text = text_of("a\x1b[31m.xml", "<a b=\"\x1b[2J\xE2\x80\xAE\xff\x7f\"/>");
    diag_report(diagnostics, RULE_CONTENT, at(&text, "b"), "hint\n\xC2\x9B", "message\x07\nmore");
    expect(diagnostics, "a�[31m.xml:1:4: error: message� more [content]\n"
                        "  <a b=\"�[2J���\"/>\n"
                        "     ^\n"
                        "  hint: hint �\n");
}

static void test_long_line(void **state) {
    (void)state;
    char bytes[1000];
    memset(bytes, '.', sizeof bytes - 1);
    bytes[sizeof bytes - 1] = '\0';
    memcpy(bytes + 500, "HERE", 4);
    Text text = text_of("long.xml", bytes);
    Diagnostics *diagnostics = diag_new();
    diag_report(diagnostics, RULE_CONTENT, at(&text, "HERE"), NULL, "%s", bytes);
    char *got = golden_print(diagnostics);
    const char *line = strchr(got, '\n') + 1, *caret = strchr(line, '^');
    assert_true((size_t)(line - got) < 450 && strstr(got, "… [content]"));
    assert_memory_equal(line, "  …", strlen("  …"));
    const char *here = strstr(line, "HERE"), *second = strchr(line, '\n') + 1;
    /* the mark of the cut is three bytes and one character */
    assert_int_equal(here - line - 2, caret - second);
    assert_memory_equal(caret, "^~~~\n", 5);
    free(got);
    diag_free(diagnostics);
}

/* Wherever a long line is cut, and whatever stands before it, the caret is under its word's first character. */
static void test_caret_of_cut_lines(void **state) {
    (void)state;
    static const char *const words[] = {"plain", "béta", "“drei”", "日本", "\tfive", "|"};
    for (size_t target = 0; target < 120; target += 7) {
        Buf line = {0};
        for (size_t i = 0; i < 120; i++) buf_printf(&line, "%s%s", i == target ? "HERE" : words[i * 7 % 6], " ");
        Text text = text_of("long.xml", buf_text(&line));
        Diagnostics *diagnostics = diag_new();
        diag_report(diagnostics, RULE_CONTENT, at(&text, "HERE"), NULL, "cut");
        char *got = golden_print(diagnostics), *shown = strchr(got, '\n') + 1, *caret = strchr(shown, '\n') + 1;
        size_t word = (size_t)(strstr(shown, "HERE") - shown), under = (size_t)(strchr(caret, '^') - caret);
        assert_int_equal(text_characters(shown, word), text_characters(caret, under));
        for (size_t i = 0, k = 0; i < word; k++) { /* a tab stands under a tab */
            size_t step;
            uint32_t character = text_decode(shown + i, shown + word, &step);
            assert_int_equal(character == '\t', caret[k] == '\t');
            i += step;
        }
        free(got);
        diag_free(diagnostics);
        buf_free(&line);
    }
}

static void test_json(void **state) {
    (void)state;
    Diagnostics *diagnostics = diag_new();
    Text text = text_of("q\"\\.xml", "<a/>\n<é b=\"1\"/>");
    diag_report(diagnostics, RULE_CONTENT, at(&text, "b"), "tab\there", "line\nbreak \xff");
    diag_also(diagnostics, at(&text, "<a/>"), "first");
    diag_report(diagnostics, RULE_FILE_READ, (Place){0}, NULL, "no place");
    Buf out = {0};
    diag_json(diagnostics, &out);
    assert_string_equal(
        buf_text(&out),
        "[\n {\"file\": \"q\\\"\\\\.xml\", \"line\": 2, \"column\": 4, \"severity\": \"error\", \"rule\": \"content\", "
        "\"message\": \"line\\u000abreak �\", \"hint\": \"tab\\u0009here\", \"also\": [{\"file\": \"q\\\"\\\\.xml\", "
        "\"line\": 1, \"column\": 1, \"message\": \"first\"}]},\n"
        " {\"file\": null, \"line\": null, \"column\": null, \"severity\": \"error\", \"rule\": \"file-read\", "
        "\"message\": \"no place\", \"hint\": null, \"also\": []}\n]\n");
    buf_free(&out);
    diag_free(diagnostics);
}

static void test_severity(void **state) {
    (void)state;
    Diagnostics *diagnostics = diag_new();
    diag_set_severity(diagnostics, RULE_GRADE_MISSING, SEVERITY_NOTE);
    diag_set_severity(diagnostics, RULE_BOX_SCORE, SEVERITY_ERROR);
    diag_set_severity(diagnostics, RULE_CHART_CLASH, SEVERITY_NOTE); /* an error keeps figures true: it stays */
    diag_report(diagnostics, RULE_GRADE_MISSING, (Place){0}, NULL, "note");
    diag_report(diagnostics, RULE_BOX_SCORE, (Place){0}, NULL, "error");
    diag_report(diagnostics, RULE_CHART_CLASH, (Place){0}, NULL, "error");
    assert_int_equal(diag_errors(diagnostics), 2);
    diag_set_strict(diagnostics, true);
    diag_report(diagnostics, RULE_CHART_CHAIN, (Place){0}, NULL, "error");
    diag_report(diagnostics, RULE_GRADE_MISSING, (Place){0}, NULL, "note");
    assert_int_equal(diag_errors(diagnostics), 3);
    assert_int_equal(diag_warnings(diagnostics), 0);
    diag_free(diagnostics);
}

static void test_many(void **state) {
    (void)state;
    Diagnostics *diagnostics = diag_new();
    Text text = text_of("many.xml", "<a/>");
    for (int i = 0; i < 1500; i++) {
        diag_report(diagnostics, RULE_CONTENT, (Place){&text, 0, 1}, NULL, "number %d", i);
        diag_also(diagnostics, (Place){&text, 0, 1}, "also");
    }
    assert_int_equal(diag_errors(diagnostics), 1500);
    char *got = golden_print(diagnostics);
    assert_non_null(strstr(got, "number 999 "));
    assert_null(strstr(got, "number 1000 "));
    assert_non_null(strstr(got, "many.xml: note: 500 more findings are not shown\n"));
    free(got);
    diag_free(diagnostics);
}

static void test_rules(void **state) {
    (void)state;
    for (int i = 0; i < RULE_COUNT; i++) {
        assert_non_null(diag_rule((Rule)i)->id);
        for (int j = 0; j < i; j++) assert_string_not_equal(diag_rule((Rule)i)->id, diag_rule((Rule)j)->id);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_order),
        cmocka_unit_test(test_edges),
        cmocka_unit_test(test_clean),
        cmocka_unit_test(test_long_line),
        cmocka_unit_test(test_caret_of_cut_lines),
        cmocka_unit_test(test_json),
        cmocka_unit_test(test_severity),
        cmocka_unit_test(test_many),
        cmocka_unit_test(test_rules),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
