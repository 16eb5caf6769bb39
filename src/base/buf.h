/* A growing byte buffer. `{0}` is a valid empty buffer; `bytes` is not terminated unless buf_text is called. */
#ifndef TB_BASE_BUF_H
#define TB_BASE_BUF_H

#include <stddef.h>
#include <string.h>

typedef struct Buf {
    char *bytes;
    size_t length;
    size_t room;
} Buf;

void buf_free(Buf *buf);

/* More room, for `more` bytes at least. */
void buf_grow(Buf *buf, size_t more);

/* Makes room for `more` bytes and returns where they go; the caller adds to `length`. */
static inline char *buf_reserve(Buf *buf, size_t more) {
    if (buf->room - buf->length < more) buf_grow(buf, more);
    return buf->bytes + buf->length;
}

static inline void buf_put(Buf *buf, const void *bytes, size_t length) {
    if (!length) return;
    memcpy(buf_reserve(buf, length), bytes, length);
    buf->length += length;
}

static inline void buf_putc(Buf *buf, char byte) {
    *buf_reserve(buf, 1) = byte;
    buf->length++;
}

void buf_puts(Buf *buf, const char *text);
void buf_printf(Buf *buf, const char *format, ...) __attribute__((format(printf, 2, 3), nonnull(2)));

/* `value` rounded half away from zero to `places` (0 to 6) decimals, in the fewest characters, never "-0" nor an
 * exponent; the same on every machine. Not-finite values print as "0": callers exclude them. */
void buf_number(Buf *buf, double value, int places);

/* The contents with a terminating zero that is not counted in `length`. */
const char *buf_text(Buf *buf);

#define BUF_PUT(buf, literal) buf_put((buf), (literal), sizeof(literal) - 1)

#endif
