/* UTF-8 text: decoding, spelling help, plain formatting. */
#ifndef TB_BASE_TEXT_H
#define TB_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/buf.h"

#define TEXT_BAD 0xFFFFFFFFu

/* Decodes the character at `at` (at < end), stores its length in bytes; TEXT_BAD and length 1 on an invalid sequence
 * (overlong forms and surrogates are invalid). */
uint32_t text_decode(const char *at, const char *end, size_t *length);
void text_encode(Buf *out, uint32_t character);
/* The first byte from `at` that is neither printable ASCII nor DEL, or `end`. */
const char *text_skip_ascii(const char *at, const char *end);
bool text_is_utf8(const char *text, size_t length);
size_t text_characters(const char *text, size_t length);

bool text_equal(const char *a, const char *b);

/* The candidate nearest to `word` by Damerau-Levenshtein distance on bytes, or NULL when none is near enough
 * (more than a third of its length, at least one, away). */
const char *text_nearest(const char *word, const char *const *candidates, size_t count);

/* Reads a decimal number that fills all of `text` ("-3", "4.81"); no exponent, no spaces, no locale. */
bool text_number(const char *text, double *value);

#endif
