/* What each rule says of itself. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/diag_explain.h"
#include "base/text.h"

enum { LINE_MOST = 110 };

static bool is_sentence(const char *text) {
    size_t length = strlen(text);
    return length > 20 && (text[length - 1] == '.' || text[length - 1] == '?');
}

static void test_every_rule_has_its_text(void **state) {
    (void)state;
    for (int rule = 0; rule < RULE_COUNT; rule++) {
        const RuleText *text = diag_rule_text((Rule)rule);
        const char *id = diag_rule((Rule)rule)->id;
        if (!text->finds || !text->why || !text->example || !text->mend) fail_msg("%s lacks a part", id);
        if (!is_sentence(text->finds) || !is_sentence(text->why) || !is_sentence(text->mend))
            fail_msg("%s is not told in sentences", id);
        for (int other = 0; other < rule; other++) {
            if (strcmp(text->finds, diag_rule_text((Rule)other)->finds) == 0) fail_msg("%s says what another says", id);
        }
    }
}

static void test_lines_fit_a_terminal(void **state) {
    (void)state;
    for (int rule = 0; rule < RULE_COUNT; rule++) {
        Buf out = {0};
        diag_explain((Rule)rule, &out);
        const char *text = buf_text(&out);
        assert_memory_equal(text, diag_rule((Rule)rule)->id, strlen(diag_rule((Rule)rule)->id));
        for (const char *line = text; *line;) {
            size_t length = strcspn(line, "\n");
            if (text_characters(line, length) > LINE_MOST) fail_msg("too long: %.*s", (int)length, line);
            line += length + (line[length] == '\n');
        }
        buf_free(&out);
    }
}

static void test_one_in_full(void **state) {
    (void)state;
    Buf out = {0};
    diag_explain(RULE_CLAIM_CITE, &out);
    assert_string_equal(buf_text(&out),
                        "claim-cite (warning): a cited snap outside the claim's own snaps\n"
                        "\n"
                        "A cited snap is not of the claim's own slice, or is cited twice by one claim.\n"
                        "\n"
                        "A throw against zone does not show what he does against man.\n"
                        "\n"
                        "For example:\n"
                        "\n"
                        "    <strength slice=\"man\" …><cite snap=\"g1.15\">a throw against zone</cite></strength>\n"
                        "\n"
                        "Cite another snap, or mend its chart.\n"
                        "\n"
                        "A house may change its severity: <rule id=\"claim-cite\" severity=\"error\"/>\n");
    buf_free(&out);
}

static void test_errors_stay_errors(void **state) {
    (void)state;
    Buf out = {0};
    diag_explain(RULE_CLAIM_BARE, &out);
    assert_non_null(strstr(buf_text(&out), "It is an error in every house."));
    assert_null(strstr(buf_text(&out), "<rule id="));
    buf_free(&out);
    assert_false(diag_may_override(RULE_CLAIM_BARE));
    assert_true(diag_may_override(RULE_BOX_SCORE));
}

static void test_names(void **state) {
    (void)state;
    Rule rule = RULE_FILE_READ;
    assert_true(diag_find_rule("box-score", &rule));
    assert_int_equal(rule, RULE_BOX_SCORE);
    assert_false(diag_find_rule("box", &rule));
    assert_false(diag_find_rule("", &rule));
    assert_string_equal(diag_nearest_rule("boxscore"), "box-score");
    assert_null(diag_nearest_rule("nothing at all like it"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_rule_has_its_text),
        cmocka_unit_test(test_lines_fit_a_terminal),
        cmocka_unit_test(test_one_in_full),
        cmocka_unit_test(test_errors_stay_errors),
        cmocka_unit_test(test_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
