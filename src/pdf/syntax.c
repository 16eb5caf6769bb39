#include "pdf/syntax.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "base/text.h"

enum {
    MOST_DIGITS = 24,
    REPLACEMENT = 0xFFFD,
    FIRST_SUPPLEMENTARY = 0x10000,
    HIGH_SURROGATE = 0xD800,
    LOW_SURROGATE = 0xDC00
};

static const double MOST_POINTS = 1e9;

/* Numbers are most of what a file is made of: two digits at a time. */
static const char two_digits[] = "00010203040506070809"
                                 "10111213141516171819"
                                 "20212223242526272829"
                                 "30313233343536373839"
                                 "40414243444546474849"
                                 "50515253545556575859"
                                 "60616263646566676869"
                                 "70717273747576777879"
                                 "80818283848586878889"
                                 "90919293949596979899";

/* Digits of `value`, at least `least` of them. */
static void put_digits(Buf *out, unsigned long value, long least) {
    char digits[MOST_DIGITS];
    char *const end = digits + MOST_DIGITS;
    char *at = end;
    for (; value >= 10; value /= 100) memcpy(at -= 2, two_digits + value % 100 * 2, 2);
    if (value) *--at = (char)('0' + value);
    while (end - at < least) *--at = '0';
    buf_put(out, at, (size_t)(end - at));
}

static unsigned long size_of(long value) {
    return value < 0 ? 0UL - (unsigned long)value : (unsigned long)value;
}

static void put_fixed(Buf *out, long value, unsigned long scale, int places) {
    unsigned long size = size_of(value);
    unsigned long whole = size / scale;
    unsigned long part = size % scale;
    if (value < 0) buf_putc(out, '-');
    if (whole || !part) put_digits(out, whole, 1);
    if (!part) return;
    for (; part % 10 == 0; part /= 10) places--;
    buf_putc(out, '.');
    put_digits(out, part, places);
}

void syntax_hundredths(Buf *out, long value) {
    put_fixed(out, value, 100, 2);
}

void syntax_thousandths(Buf *out, long value) {
    put_fixed(out, value, 1000, 3);
}

void syntax_unsigned(Buf *out, unsigned long value) {
    put_digits(out, value, 1);
}

void syntax_signed(Buf *out, long value) {
    if (value < 0) buf_putc(out, '-');
    put_digits(out, size_of(value), 1);
}

long syntax_round(double points) {
    if (!(fabs(points) < MOST_POINTS)) return 0;
    return lround(points * 100);
}

void syntax_reference(Buf *out, uint32_t object) {
    syntax_unsigned(out, object);
    BUF_PUT(out, " 0 R");
}

void syntax_literal_byte(Buf *out, unsigned char byte) {
    if (byte == '\r') {
        BUF_PUT(out, "\\r");
        return;
    }
    if (byte == '(' || byte == ')' || byte == '\\') buf_putc(out, '\\');
    buf_putc(out, (char)byte);
}

void syntax_literal(Buf *out, const char *bytes, size_t length) {
    buf_putc(out, '(');
    for (size_t at = 0; at < length; at++) syntax_literal_byte(out, (unsigned char)bytes[at]);
    buf_putc(out, ')');
}

static void put_unit(Buf *out, unsigned unit) {
    buf_putc(out, (char)(unit >> 8));
    buf_putc(out, (char)unit);
}

void syntax_utf16(Buf *out, const char *text, size_t length) {
    const char *end = text + length;
    while (text < end) {
        size_t bytes;
        uint32_t character = text_decode(text, end, &bytes);
        text += bytes;
        if (character == (uint32_t)TEXT_BAD) character = REPLACEMENT;
        if (character < FIRST_SUPPLEMENTARY) {
            put_unit(out, character);
            continue;
        }
        character -= FIRST_SUPPLEMENTARY;
        put_unit(out, HIGH_SURROGATE + (character >> 10));
        put_unit(out, LOW_SURROGATE + (character & 0x3FF));
    }
}

void syntax_hex(Buf *out, const void *bytes, size_t length) {
    static const char digits[] = "0123456789ABCDEF";
    const unsigned char *byte = bytes;
    for (const unsigned char *end = byte + length; byte < end; byte++) {
        buf_putc(out, digits[*byte >> 4]);
        buf_putc(out, digits[*byte & 15]);
    }
}

static bool is_printable_ascii(const char *text) {
    for (; *text; text++)
        if ((unsigned char)*text < ' ' || (unsigned char)*text > '~') return false;
    return true;
}

void syntax_text_bytes(Buf *out, const char *text) {
    if (is_printable_ascii(text)) {
        buf_puts(out, text);
        return;
    }
    BUF_PUT(out, "\xFE\xFF");
    syntax_utf16(out, text, strlen(text));
}

void syntax_text(Buf *out, const char *text) {
    if (is_printable_ascii(text)) {
        syntax_literal(out, text, strlen(text));
        return;
    }
    Buf bytes = {0};
    syntax_text_bytes(&bytes, text);
    buf_putc(out, '<');
    syntax_hex(out, bytes.bytes, bytes.length);
    buf_putc(out, '>');
    buf_free(&bytes);
}
