#include "base/buf.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/arena.h"

enum { FIRST_ROOM = 256, USUAL_PRINT = 64, NUMBER_DIGITS = 24, MOST_PLACES = 6 };

void buf_free(Buf *buf) {
    free(buf->bytes);
    *buf = (Buf){0};
}

void buf_grow(Buf *buf, size_t more) {
    buf->room = (buf->length + more) * 2 + FIRST_ROOM;
    buf->bytes = mem_resize(buf->bytes, buf->room);
}

void buf_puts(Buf *buf, const char *text) {
    buf_put(buf, text, strlen(text));
}

void buf_printf(Buf *buf, const char *format, ...) {
    va_list args;
    va_list again;
    va_start(args, format);
    va_copy(again, args);
    char *at = buf_reserve(buf, USUAL_PRINT);
    size_t room = buf->room - buf->length;
    int length = vsnprintf(at, room, format, args);
    if (length >= 0 && (size_t)length >= room)
        vsnprintf(buf_reserve(buf, (size_t)length + 1), (size_t)length + 1, format, again);
    if (length > 0) buf->length += (size_t)length;
    va_end(args);
    va_end(again);
}

void buf_number(Buf *buf, double value, int places) {
    static const double power[MOST_PLACES + 1] = {1, 10, 100, 1e3, 1e4, 1e5, 1e6};
    char digits[NUMBER_DIGITS];
    if (!isfinite(value)) value = 0;
    double scaled = round(fabs(value) * power[places]);
    if (scaled > 9e15) scaled = 9e15;
    unsigned long long whole = (unsigned long long)scaled;
    if (whole == 0) {
        buf_putc(buf, '0');
        return;
    }
    if (value < 0) buf_putc(buf, '-');
    while (places > 0 && whole % 10 == 0) {
        whole /= 10;
        places--;
    }
    int at = NUMBER_DIGITS;
    for (int place = 0; whole || place <= places; place++) {
        if (place == places && place) digits[--at] = '.';
        if (!whole && place == places && place) break;
        digits[--at] = (char)('0' + whole % 10);
        whole /= 10;
    }
    buf_put(buf, digits + at, (size_t)(NUMBER_DIGITS - at));
}

const char *buf_text(Buf *buf) {
    *buf_reserve(buf, 1) = '\0';
    return buf->bytes;
}
