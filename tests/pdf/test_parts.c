/* Parts of the writer by themselves: syntax, colour profile, compression in order. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <libdeflate.h>
#include <math.h>

#include "pdf/press.h"
#include "pdf/srgb.h"
#include "pdf/syntax.h"

static void expect(Buf *got, const char *wanted) {
    assert_string_equal(buf_text(got), wanted);
    got->length = 0;
}

static void numbers_are_short(void **state) {
    (void)state;
    static const struct {
        long value;
        const char *hundredths, *thousandths;
    } cases[] = {{0, "0", "0"},
                 {5, ".05", ".005"},
                 {-5, "-.05", "-.005"},
                 {50, ".5", ".05"},
                 {100, "1", ".1"},
                 {-150, "-1.5", "-.15"},
                 {1000, "10", "1"},
                 {12345, "123.45", "12.345"},
                 {79200, "792", "79.2"},
                 {101, "1.01", ".101"},
                 {-99999, "-999.99", "-99.999"}};
    Buf out = {0};
    for (size_t at = 0; at < sizeof cases / sizeof *cases; at++) {
        syntax_hundredths(&out, cases[at].value);
        expect(&out, cases[at].hundredths);
        syntax_thousandths(&out, cases[at].value);
        expect(&out, cases[at].thousandths);
    }
    assert_int_equal(syntax_round(1.125), 113);
    assert_int_equal(syntax_round(-2.625), -263);
    assert_int_equal(syntax_round((double)NAN), 0);
    assert_int_equal(syntax_round((double)INFINITY), 0);
    buf_free(&out);
}

static void strings_are_escaped(void **state) {
    (void)state;
    Buf out = {0};
    syntax_text(&out, "a(b)\\c");
    expect(&out, "(a\\(b\\)\\\\c)");
    syntax_text(&out, "é");
    expect(&out, "<FEFF00E9>");
    syntax_text(&out, "\xF0\x9F\x8F\x88"); /* U+1F3C8, a pair of surrogates */
    expect(&out, "<FEFFD83CDFC8>");
    syntax_text(&out, "\xFFz\n");
    expect(&out, "<FEFFFFFD007A000A>");
    syntax_literal(&out, "\r\n", 2);
    expect(&out, "(\\r\n)");
    syntax_reference(&out, 12);
    expect(&out, "12 0 R");
    buf_free(&out);
}

static uint32_t big_endian(const char *bytes) {
    const unsigned char *at = (const unsigned char *)bytes;
    return (uint32_t)at[0] << 24 | (uint32_t)at[1] << 16 | (uint32_t)at[2] << 8 | at[3];
}

/* Where the datum of a tag is. */
static const char *datum(const Buf *profile, const char *name) {
    uint32_t tags = big_endian(profile->bytes + 128);
    for (uint32_t tag = 0; tag < tags; tag++) {
        const char *row = profile->bytes + 132 + 12 * tag;
        if (memcmp(row, name, 4)) continue;
        assert_true(big_endian(row + 4) % 4 == 0);
        assert_true(big_endian(row + 4) + big_endian(row + 8) <= profile->length);
        return profile->bytes + big_endian(row + 4);
    }
    return NULL;
}

static void profile_is_srgb(void **state) {
    (void)state;
    /* Colorants of sRGB2014.icc, published by the International Color Consortium; red, green, blue. */
    static const double known[3][3] = {{.43607, .22249, .01392}, {.38515, .71687, .09708}, {.14307, .06061, .71410}};
    static const char *const names[3] = {"rXYZ", "gXYZ", "bXYZ"};
    Buf profile = {0};
    srgb_write(&profile);
    assert_int_equal(big_endian(profile.bytes), profile.length);
    assert_memory_equal(profile.bytes + 36, "acsp", 4);
    assert_memory_equal(profile.bytes + 12, "mntrRGB XYZ ", 12);
    for (int primary = 0; primary < 3; primary++) {
        const char *colour = datum(&profile, names[primary]);
        assert_memory_equal(colour, "XYZ \0\0\0\0", 8);
        for (int part = 0; part < 3; part++)
            assert_true(fabs(big_endian(colour + 8 + 4 * part) / 65536.0 - known[primary][part]) < 2e-4);
    }
    const char *curve = datum(&profile, "gTRC");
    assert_int_equal(big_endian(curve + 8), 256);
    assert_memory_equal(curve + 12, "\0\0", 2);
    assert_memory_equal(curve + 12 + 2 * 255, "\xFF\xFF", 2);
    assert_non_null(datum(&profile, "desc"));
    assert_non_null(datum(&profile, "cprt"));
    assert_non_null(datum(&profile, "wtpt"));
    buf_free(&profile);
}

enum { PIECES = 300 };

static size_t length_of(uint32_t number) {
    return number % 7 == 0 ? 90000 : number % 5 * 400;
}

static void fill(Piece *piece, uint32_t number) {
    piece->number = number;
    piece->deflated = number % 3 != 0;
    for (size_t at = 0; at < length_of(number); at++) buf_putc(&piece->data, (char)('a' + (at * number >> 4) % 20));
}

static void check_piece(const Piece *piece, uint32_t number, struct libdeflate_decompressor *decompressor) {
    static char bytes[90000];
    assert_non_null(piece);
    assert_int_equal(piece->number, number);
    size_t length = length_of(number), got = 0;
    if (!piece->deflated) return;
    assert_int_equal(libdeflate_zlib_decompress(decompressor, piece->squeezed.bytes, piece->squeezed.length, bytes,
                                                sizeof bytes, &got),
                     LIBDEFLATE_SUCCESS);
    assert_int_equal(got, length);
    if (length) assert_memory_equal(bytes, piece->data.bytes, length);
}

static void pieces_come_out_in_order(void **state) {
    (void)state;
    struct libdeflate_decompressor *decompressor = libdeflate_alloc_decompressor();
    Press *press = press_new();
    uint32_t taken = 0;
    for (uint32_t number = 0; number < PIECES; number++) {
        Piece *piece;
        while (!(piece = press_next(press))) check_piece(press_take(press, true), taken++, decompressor);
        fill(piece, number);
        press_put(press);
        const Piece *ready = number % 11 ? press_take(press, false) : NULL;
        if (ready) check_piece(ready, taken++, decompressor);
    }
    for (const Piece *piece; (piece = press_take(press, true));) check_piece(piece, taken++, decompressor);
    assert_int_equal(taken, PIECES);
    assert_false(press_failed(press));
    press_free(press);
    libdeflate_free_decompressor(decompressor);
}

/* What is still in it is dropped. */
static void a_press_may_be_left_full(void **state) {
    (void)state;
    for (int round = 0; round < 20; round++) {
        Press *press = press_new();
        for (Piece *piece; (piece = press_next(press));) {
            fill(piece, 7);
            press_put(press);
        }
        press_free(press);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_short),        cmocka_unit_test(strings_are_escaped),
        cmocka_unit_test(profile_is_srgb),          cmocka_unit_test(pieces_come_out_in_order),
        cmocka_unit_test(a_press_may_be_left_full),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
