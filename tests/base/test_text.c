#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/text.h"

#define COUNT(table) (sizeof(table) / sizeof(table)[0])

static void test_round_trip(void **state) {
    (void)state;
    for (uint32_t character = 1; character <= 0x10FFFF; character++) {
        if (character >= 0xD800 && character <= 0xDFFF) continue;
        Buf out = {0};
        text_encode(&out, character);
        size_t length;
        const char *text = buf_text(&out);
        assert_int_equal(text_decode(text, text + out.length, &length), character);
        assert_int_equal(length, out.length);
        buf_free(&out);
    }
}

/* Ill-formed sequences in the sense of table 3-7 of the Unicode Standard. */
static void test_bad_bytes(void **state) {
    (void)state;
    static const char *const bad[] = {
        "\x80",
        "\xBF",
        "\xC0\x80",
        "\xC1\xBF",
        "\xC3",
        "\xC3(",
        "\xE0\x9F\xBF",
        "\xE2\x82",
        "\xED\xA0\x80",
        "\xED\xBF\xBF",
        "\xF0\x8F\xBF\xBF",
        "\xF4\x90\x80\x80",
        "\xF5\x80\x80\x80",
        "\xF8\x88\x80\x80\x80",
        "\xFE",
        "\xFF",
    };
    for (size_t i = 0; i < COUNT(bad); i++) {
        size_t length;
        assert_true(text_decode(bad[i], bad[i] + strlen(bad[i]), &length) == TEXT_BAD);
        assert_int_equal(length, 1);
        assert_false(text_is_utf8(bad[i], strlen(bad[i])));
    }
    assert_true(text_is_utf8("⅜ ʻ 𝕏 é", strlen("⅜ ʻ 𝕏 é")));
    assert_int_equal(text_characters("⅜ ʻ 𝕏", strlen("⅜ ʻ 𝕏")), 5);
}

static void test_nearest(void **state) {
    (void)state;
    static const char *const words[] = {"opponent", "on", "site",    "result",   "coverage",
                                        "1-robber", "WR", "3-cloud", "pressure", "press"};
    static const struct {
        const char *word, *nearest;
    } table[] = {
        {"oponent", "opponent"},
        {"opponnet", "opponent"},
        {"no", "on"},
        {"stie", "site"},
        {"covrage", "coverage"},
        {"1-rober", "1-robber"},
        {"wr", "WR"},
        {"3-clouds", "3-cloud"},
        {"presure", "pressure"},
        {"pres", "press"},
        {"Site", "site"},
        {"xyz", NULL},
        {"", NULL},
        {"weather", NULL},
        {"WRX", "WR"},
    };
    for (size_t i = 0; i < COUNT(table); i++) {
        const char *nearest = text_nearest(table[i].word, words, COUNT(words));
        if (!text_equal(nearest, table[i].nearest))
            fail_msg("'%s' → '%s'", table[i].word, nearest ? nearest : "(none)");
    }
    char long_word[500];
    memset(long_word, 'a', sizeof long_word - 1);
    long_word[sizeof long_word - 1] = '\0';
    const char *same[] = {long_word};
    assert_null(text_nearest(long_word, same, 1));
}

static void test_numbers(void **state) {
    (void)state;
    static const struct {
        const char *text;
        double value;
    } good[] = {{"0", 0},
                {"-3", -3},
                {"4.81", 4.81},
                {".75", .75},
                {"5.", 5},
                {"-.5", -.5},
                {"007", 7},
                {"0.1", 0.1},
                {"123456789012345", 123456789012345.},
                {"16.6666666666666667", 16.6666666666666667},
                {"0.30000000000000004", 0.30000000000000004},
                {"99999999999999999999", 1e20}};
    static const char *const bad[] = {"",      "-",    ".",   "-.",  "1e3", " 1",  "1 ", "+1",
                                      "1.2.3", "0x10", "1,5", "--1", "nan", "inf", "1-"};
    for (size_t i = 0; i < COUNT(good); i++) {
        double value = -1;
        assert_true(text_number(good[i].text, &value));
        assert_true(value == good[i].value);
    }
    for (size_t i = 0; i < COUNT(bad); i++) {
        double value;
        if (text_number(bad[i], &value)) fail_msg("'%s' was read", bad[i]);
    }
}

/* Every length and place of the first byte that stops it. */
static void test_skip_ascii(void **state) {
    (void)state;
    static const char stops[] = {'\n', '\x1F', '\0', '\x80', '\xFF'};
    char text[40];
    for (size_t length = 0; length < sizeof text; length++) {
        for (size_t at = 0; at <= length; at++) {
            memset(text, at % 2 ? ' ' : '\x7F', length);
            if (at < length) text[at] = stops[at % COUNT(stops)];
            assert_ptr_equal(text_skip_ascii(text, text + length), text + at);
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_round_trip), cmocka_unit_test(test_bad_bytes),  cmocka_unit_test(test_nearest),
        cmocka_unit_test(test_numbers),    cmocka_unit_test(test_skip_ascii),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
