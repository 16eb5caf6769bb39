#include "base/diag_print.h"

#include <stdint.h>
#include <string.h>

#include "base/text.h"

enum {
    LINE_MOST = 110, /* characters of a source line shown; a longer one is cut around the caret */
    LINE_LEAD = 50,  /* characters shown before the caret of a cut line */
    REPLACEMENT = 0xFFFD
};

typedef struct Paint {
    const char *bold, *plain, *caret;
    const char *severity[3];
} Paint;

static const Paint colours = {"\033[1m", "\033[0m", "\033[1;32m", {"\033[1;36m", "\033[1;35m", "\033[1;31m"}};
static const Paint no_colours = {"", "", "", {"", "", ""}};

/* ---- places ---- */

static size_t text_start(const Text *text) {
    return text->length >= 3 && memcmp(text->bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
}

static size_t clamp(Place place) {
    return place.offset < place.text->length ? place.offset : place.text->length;
}

static size_t line_start(Place place) {
    size_t at = clamp(place);
    const char *newline = at ? memrchr(place.text->bytes, '\n', at) : NULL;
    if (newline) return (size_t)(newline - place.text->bytes) + 1;
    size_t start = text_start(place.text);
    return at < start ? at : start;
}

static size_t line_end(Place place) {
    size_t at = clamp(place);
    const char *bytes = place.text->bytes;
    const char *newline = at < place.text->length ? memchr(bytes + at, '\n', place.text->length - at) : NULL;
    size_t end = newline ? (size_t)(newline - bytes) : place.text->length;
    return end > at && bytes[end - 1] == '\r' ? end - 1 : end;
}

static size_t newlines(const char *bytes, size_t length) {
    size_t count = 0;
    for (const char *end = bytes + length; bytes < end; bytes++) {
        bytes = memchr(bytes, '\n', (size_t)(end - bytes));
        if (!bytes) break;
        count++;
    }
    return count;
}

void diag_line_column(Place place, size_t *line, size_t *column) {
    *line = *column = 1;
    if (!place.text || !place.text->bytes) return;
    size_t start = line_start(place);
    *line += newlines(place.text->bytes, start);
    *column += text_characters(place.text->bytes + start, clamp(place) - start);
}

/* Counts lines onward from the place printed before, so that a file's findings are placed in one pass. */
typedef struct Cursor {
    const Text *text;
    size_t offset; /* start of a line */
    size_t line;   /* its number */
} Cursor;

static void cursor_place(Cursor *cursor, Place place, size_t *line, size_t *column) {
    size_t start = line_start(place);
    if (cursor->text != place.text || start < cursor->offset) *cursor = (Cursor){place.text, 0, 1};
    cursor->line += newlines(place.text->bytes + cursor->offset, start - cursor->offset);
    cursor->offset = start;
    *line = cursor->line;
    *column = 1 + text_characters(place.text->bytes + start, clamp(place) - start);
}

static const char *path_name(const Text *text) {
    return strcmp(text->path, "-") == 0 ? "standard input" : text->path;
}

/* ---- text that a terminal cannot misread ---- */

/* Characters that move the cursor, start a terminal command or turn the direction of writing. */
static bool is_unprintable(uint32_t character) {
    return character == TEXT_BAD || character < 0x20 || (character >= 0x7F && character < 0xA0) ||
           (character >= 0x202A && character <= 0x202E) || (character >= 0x2066 && character <= 0x2069) ||
           character == 0xFEFF || character == 0x2028 || character == 0x2029;
}

static void put_clean(Buf *out, const char *text, size_t length, bool keep_tabs) {
    const char *end = text + length;
    for (size_t step; text < end; text += step) {
        uint32_t character = text_decode(text, end, &step);
        if (character == '\t' || character == '\n' || character == '\r') {
            buf_putc(out, character == '\t' && keep_tabs ? '\t' : ' ');
        } else if (is_unprintable(character)) {
            text_encode(out, REPLACEMENT);
        } else {
            buf_put(out, text, step);
        }
    }
}

static void put_words(Buf *out, const char *text) {
    put_clean(out, text, strlen(text), false);
}

/* ---- the source line ---- */

static const char *skip_back(const char *from, const char *start, size_t characters) {
    while (from > start && characters > 0) {
        from--;
        if (((unsigned char)*from & 0xC0) != 0x80) characters--;
    }
    return from;
}

static const char *skip_on(const char *from, const char *end, size_t characters) {
    while (from < end && characters > 0) {
        size_t step;
        (void)text_decode(from, end, &step);
        from += step;
        characters--;
    }
    return from;
}

/* The stretch of the source line that is shown. */
typedef struct Window {
    const char *from, *caret, *to;
    bool cut_before, cut_after;
} Window;

static Window window_of(Place place) {
    const char *bytes = place.text->bytes;
    const char *start = bytes + line_start(place), *end = bytes + line_end(place);
    Window window = {start, bytes + clamp(place), end, false, false};
    if (window.caret > end) window.caret = end;
    if (skip_on(start, end, LINE_MOST) == end) return window;
    window.from = skip_back(window.caret, start, LINE_LEAD);
    const char *last = skip_back(end, start, LINE_MOST); /* beyond it the window would not be full */
    if (window.from > last) window.from = last;
    window.to = skip_on(window.from, end, LINE_MOST);
    window.cut_before = window.from > start;
    window.cut_after = window.to < end;
    return window;
}

static void put_source(Buf *out, Window window) {
    buf_puts(out, window.cut_before ? "  …" : "  ");
    put_clean(out, window.from, (size_t)(window.to - window.from), true);
    buf_puts(out, window.cut_after ? "…\n" : "\n");
}

static void put_caret(Buf *out, Window window, size_t length, const Paint *paint) {
    buf_puts(out, window.cut_before ? "   " : "  "); /* the mark of the cut is one character wide */
    size_t step;
    for (const char *at = window.from; at < window.caret; at += step) {
        (void)text_decode(at, window.caret, &step);
        buf_putc(out, *at == '\t' ? '\t' : ' ');
    }
    const char *end = window.caret + length;
    if (length > (size_t)(window.to - window.caret)) end = window.to;
    size_t width = text_characters(window.caret, (size_t)(end - window.caret));
    buf_printf(out, "%s^", paint->caret);
    for (size_t i = 1; i < width; i++) buf_putc(out, '~');
    buf_printf(out, "%s\n", paint->plain);
}

/* ---- a finding in compiler style ---- */

static bool has_source(Place place) {
    return place.text && place.text->bytes && place.text->length > 0;
}

static void put_place(Buf *out, Cursor *cursor, Place place, const Paint *paint) {
    buf_puts(out, paint->bold);
    put_words(out, place.text ? path_name(place.text) : "tapebound");
    if (has_source(place)) {
        size_t line, column;
        cursor_place(cursor, place, &line, &column);
        buf_printf(out, ":%zu:%zu", line, column);
    }
    buf_printf(out, ": %s", paint->plain);
}

static void put_also(Buf *out, const Finding *finding, const Paint *paint) {
    Cursor cursor = {0};
    for (const Also *also = finding->also; also; also = also->next) {
        buf_puts(out, "  ");
        put_place(out, &cursor, also->place, paint);
        buf_printf(out, "%snote:%s ", paint->severity[SEVERITY_NOTE], paint->plain);
        put_words(out, also->message);
        buf_putc(out, '\n');
    }
}

static void put_finding(Buf *out, Cursor *cursor, const Finding *finding, const Paint *paint) {
    put_place(out, cursor, finding->place, paint);
    const char *word = diag_severity_word(finding->severity);
    buf_printf(out, "%s%s:%s ", paint->severity[finding->severity], word, paint->plain);
    put_words(out, finding->message);
    buf_printf(out, " [%s]\n", finding->rule->id);
    if (has_source(finding->place)) {
        Window window = window_of(finding->place);
        put_source(out, window);
        put_caret(out, window, finding->place.length, paint);
    }
    if (finding->hint) {
        buf_puts(out, "  hint: ");
        put_words(out, finding->hint);
        buf_putc(out, '\n');
    }
    put_also(out, finding, paint);
}

static void put_dropped(Buf *out, const DiagFile *file) {
    if (!file->dropped) return;
    put_words(out, file->text ? path_name(file->text) : "tapebound");
    buf_printf(out, ": note: %zu more findings are not shown\n", file->dropped);
}

void diag_print_findings(const FindingList *list, Buf *out, bool colour) {
    const Paint *paint = colour ? &colours : &no_colours;
    Cursor cursor = {0};
    for (size_t i = 0; i < list->count; i++) {
        const Finding *finding = &list->findings[i];
        put_finding(out, &cursor, finding, paint);
        bool last_of_file = i + 1 == list->count || list->findings[i + 1].file != finding->file;
        if (last_of_file) put_dropped(out, &list->files[finding->file]);
    }
}

/* ---- JSON ---- */

static void json_string(Buf *out, const char *text) {
    const char *end = text + strlen(text);
    buf_putc(out, '"');
    for (size_t step; text < end; text += step) {
        uint32_t character = text_decode(text, end, &step);
        if (character == TEXT_BAD) {
            text_encode(out, REPLACEMENT);
        } else if (character == '"' || character == '\\') {
            buf_printf(out, "\\%c", (char)character);
        } else if (character < 0x20 || character == 0x7F) {
            buf_printf(out, "\\u%04x", (unsigned)character);
        } else {
            buf_put(out, text, step);
        }
    }
    buf_putc(out, '"');
}

static void json_text(Buf *out, const char *key, const char *text) {
    buf_printf(out, "\"%s\": ", key);
    if (text) {
        json_string(out, text);
    } else {
        BUF_PUT(out, "null");
    }
}

static void json_place(Buf *out, Cursor *cursor, Place place) {
    json_text(out, "file", place.text ? place.text->path : NULL);
    size_t line, column;
    if (has_source(place)) {
        cursor_place(cursor, place, &line, &column);
        buf_printf(out, ", \"line\": %zu, \"column\": %zu, ", line, column);
    } else {
        BUF_PUT(out, ", \"line\": null, \"column\": null, ");
    }
}

static void json_also(Buf *out, const Also *also) {
    Cursor cursor = {0};
    BUF_PUT(out, ", \"also\": [");
    for (; also; also = also->next) {
        buf_putc(out, '{');
        json_place(out, &cursor, also->place);
        json_text(out, "message", also->message);
        buf_puts(out, also->next ? "}, " : "}");
    }
    buf_putc(out, ']');
}

void diag_print_json(const FindingList *list, Buf *out) {
    Cursor cursor = {0};
    buf_putc(out, '[');
    for (size_t i = 0; i < list->count; i++) {
        const Finding *finding = &list->findings[i];
        buf_puts(out, i ? ",\n {" : "\n {");
        json_place(out, &cursor, finding->place);
        json_text(out, "severity", diag_severity_word(finding->severity));
        BUF_PUT(out, ", ");
        json_text(out, "rule", finding->rule->id);
        BUF_PUT(out, ", ");
        json_text(out, "message", finding->message);
        BUF_PUT(out, ", ");
        json_text(out, "hint", finding->hint);
        json_also(out, finding->also);
        buf_putc(out, '}');
    }
    buf_puts(out, list->count ? "\n]\n" : "]\n");
}
