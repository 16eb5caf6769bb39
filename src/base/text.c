#include "base/text.h"

#include <locale.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"

enum {
    NEAREST_MOST_BYTES = 64, /* longer words are no misspellings: none is offered */
    EDIT_COST = 2,           /* one wrong, missing, surplus or swapped byte */
    CASE_COST = 1,           /* a capital for a small letter or the other way round */
    EXACT_DIGITS = 15        /* a decimal integer of so many digits is exact in a double */
};

/* Bits of the first byte that tell the length, by length - 1, and the smallest character so long a form may hold. */
static const struct {
    unsigned char mask, mark;
    uint32_t least;
} utf8_forms[] = {{0x80, 0x00, 0}, {0xE0, 0xC0, 0x80}, {0xF0, 0xE0, 0x800}, {0xF8, 0xF0, 0x10000}};

enum { UTF8_FORMS = sizeof utf8_forms / sizeof utf8_forms[0], LAST_CHARACTER = 0x10FFFF };

static bool is_scalar(uint32_t character) {
    return character <= LAST_CHARACTER && (character < 0xD800 || character > 0xDFFF);
}

uint32_t text_decode(const char *at, const char *end, size_t *length) {
    const unsigned char *byte = (const unsigned char *)at;
    *length = 1;
    if (byte[0] < 0x80) return byte[0];
    for (size_t extra = 1; extra < UTF8_FORMS; extra++) {
        if ((byte[0] & utf8_forms[extra].mask) != utf8_forms[extra].mark) continue;
        if ((size_t)(end - at) <= extra) return TEXT_BAD;
        uint32_t character = (uint32_t)(byte[0] & ~utf8_forms[extra].mask);
        for (size_t i = 1; i <= extra; i++) {
            if ((byte[i] & 0xC0) != 0x80) return TEXT_BAD;
            character = character << 6 | (byte[i] & 0x3F);
        }
        if (character < utf8_forms[extra].least || !is_scalar(character)) return TEXT_BAD;
        *length = extra + 1;
        return character;
    }
    return TEXT_BAD;
}

void text_encode(Buf *out, uint32_t character) {
    size_t extra = character < 0x80 ? 0 : character < 0x800 ? 1 : character < 0x10000 ? 2 : 3;
    buf_putc(out, (char)(utf8_forms[extra].mark | character >> (6 * extra)));
    while (extra-- > 0) buf_putc(out, (char)(0x80 | (character >> (6 * extra) & 0x3F)));
}

const char *text_skip_ascii(const char *at, const char *end) {
    const uint64_t lowest = 0x2020202020202020, high_bits = 0x8080808080808080;
    for (uint64_t eight; end - at >= (ptrdiff_t)sizeof eight; at += sizeof eight) {
        memcpy(&eight, at, sizeof eight);
        if ((eight | (eight - lowest)) & high_bits) break;
    }
    while (at < end && (unsigned char)(*at - 0x20) < 0x80 - 0x20) at++;
    return at;
}

bool text_is_utf8(const char *text, size_t length) {
    const char *end = text + length;
    for (size_t step; text < end; text += step) {
        if (text_decode(text, end, &step) == TEXT_BAD) return false;
    }
    return true;
}

size_t text_characters(const char *text, size_t length) {
    const char *end = text + length;
    size_t count = 0;
    for (size_t step; text < end; text += step) {
        (void)text_decode(text, end, &step);
        count++;
    }
    return count;
}

bool text_equal(const char *a, const char *b) {
    return a == b || (a && b && strcmp(a, b) == 0);
}

/* ---- the nearest spelling ---- */

static int lower(int byte) {
    return byte >= 'A' && byte <= 'Z' ? byte - 'A' + 'a' : byte;
}

static int change_cost(char a, char b) {
    if (a == b) return 0;
    return lower((unsigned char)a) == lower((unsigned char)b) ? CASE_COST : EDIT_COST;
}

static int least(int a, int b) {
    return a < b ? a : b;
}

/* Damerau-Levenshtein distance (optimal string alignment: R. A. Wagner and M. J. Fischer 1974 with swaps of
 * neighbours). */
static int distance(const char *a, size_t a_length, const char *b, size_t b_length) {
    int rows[3][NEAREST_MOST_BYTES + 1];
    int *before = rows[0], *above = rows[1], *row = rows[2];
    for (size_t j = 0; j <= b_length; j++) above[j] = (int)j * EDIT_COST;
    for (size_t i = 1; i <= a_length; i++) {
        row[0] = (int)i * EDIT_COST;
        for (size_t j = 1; j <= b_length; j++) {
            int cost = least(above[j], row[j - 1]) + EDIT_COST;
            cost = least(cost, above[j - 1] + change_cost(a[i - 1], b[j - 1]));
            bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            row[j] = swapped ? least(cost, before[j - 2] + EDIT_COST) : cost;
        }
        int *oldest = before;
        before = above;
        above = row;
        row = oldest;
    }
    return above[b_length];
}

const char *text_nearest(const char *word, const char *const *candidates, size_t count) {
    size_t length = strlen(word);
    if (length == 0 || length > NEAREST_MOST_BYTES) return NULL;
    int limit = EDIT_COST * (length < 6 ? 1 : (int)(length / 3));
    const char *nearest = NULL;
    for (size_t i = 0; i < count; i++) {
        size_t candidate_length = strlen(candidates[i]);
        if (candidate_length > NEAREST_MOST_BYTES) continue;
        int found = distance(word, length, candidates[i], candidate_length);
        if (found > limit || (nearest && found == limit)) continue;
        nearest = candidates[i];
        limit = found;
    }
    return nearest;
}

/* ---- numbers ---- */

/* The slow, right way for more digits than a double holds; a locale of our own because the process's may use a comma.
 */
static double long_number(const char *text) {
    locale_t plain = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    double value = plain ? strtod_l(text, NULL, plain) : strtod(text, NULL);
    if (plain) freelocale(plain);
    return value;
}

bool text_number(const char *text, double *value) {
    static const double power[EXACT_DIGITS + 1] = {1,   1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                   1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    const char *at = text + (*text == '-');
    double whole = 0;
    size_t digits = 0, places = 0;
    bool point = false;
    for (; (*at >= '0' && *at <= '9') || (*at == '.' && !point); at++) {
        if (*at == '.') {
            point = true;
            continue;
        }
        if (digits < EXACT_DIGITS) whole = whole * 10 + (*at - '0');
        digits++;
        places += point;
    }
    if (*at || digits == 0) return false;
    if (digits > EXACT_DIGITS) {
        *value = long_number(text);
        return *value > -1e300 && *value < 1e300;
    }
    whole /= power[places];
    *value = *text == '-' ? -whole : whole;
    return true;
}
