#include "typeset/figures/kit.h"

#include <math.h>
#include <string.h>

#include "base/text.h"

#define SPACES " \t\r\n"
#define FULL_INK                                                                                                       \
    { INK_BLACK, 100 }
#define SECOND_INK                                                                                                     \
    { INK_BLACK, 75 }

const TextStyle TYPE_LABEL = {FACE_PLAIN, 8.5f, FULL_INK, 0};
const TextStyle TYPE_LABEL_STRONG = {FACE_STRONG, 8.5f, FULL_INK, 0};
const TextStyle TYPE_LABEL_MUTED = {FACE_PLAIN, 8.5f, SECOND_INK, 0};
const TextStyle TYPE_SMALL = {FACE_PLAIN, 8.0f, FULL_INK, 0};
const TextStyle TYPE_SMALL_STRONG = {FACE_STRONG, 8.0f, FULL_INK, 0};
const TextStyle TYPE_COUNT = {FACE_PLAIN, 7.5f, FULL_INK, 0};
const TextStyle TYPE_NOTE = {FACE_PLAIN, 7.5f, SECOND_INK, 0};
const TextStyle TYPE_GAME = {FACE_STRONG, 7.5f, SECOND_INK, 0};
const TextStyle TYPE_VERDICT = {FACE_STRONG, 9.5f, FULL_INK, 0};

typedef struct Wrapping {
    Canvas *canvas;
    TextStyle style;
    double width;
    Lines lines;
    size_t room;
} Wrapping;

static void add_line(Wrapping *wrapping, const char *from, size_t length) {
    Arena *arena = wrapping->canvas->arena;
    Lines *lines = &wrapping->lines;
    if (lines->count == wrapping->room) {
        size_t room = wrapping->room ? wrapping->room * 2 : 2;
        const char **text = ARENA_ARRAY(arena, room, const char *);
        if (lines->count) memcpy(text, lines->text, lines->count * sizeof *text);
        lines->text = text;
        wrapping->room = room;
    }
    const char *line = arena_copy(arena, from, length);
    lines->text[lines->count++] = line;
    lines->width = fmax(lines->width, canvas_width(wrapping->canvas, wrapping->style, line));
}

static bool fits(Wrapping *wrapping, const char *from, size_t length) {
    const char *line = arena_copy(wrapping->canvas->arena, from, length);
    return canvas_width(wrapping->canvas, wrapping->style, line) <= wrapping->width;
}

/* Bytes of the longest start of a too long word that fits, at least one character. */
static size_t piece(Wrapping *wrapping, const char *word, size_t length) {
    size_t taken = 0;
    while (taken < length) {
        size_t step;
        text_decode(word + taken, word + length, &step);
        if (taken && !fits(wrapping, word, taken + step)) break;
        taken += step;
    }
    return taken;
}

/* Bytes of the next line of `text`, which starts with no space. */
static size_t next_line(Wrapping *wrapping, const char *text) {
    size_t taken = strcspn(text, SPACES);
    if (!fits(wrapping, text, taken)) return piece(wrapping, text, taken);
    for (;;) {
        size_t word = taken + strspn(text + taken, SPACES);
        if (!text[word]) return taken;
        word += strcspn(text + word, SPACES);
        if (!fits(wrapping, text, word)) return taken;
        taken = word;
    }
}

Lines kit_wrap(Canvas *canvas, TextStyle style, const char *text, double width) {
    Wrapping wrapping = {.canvas = canvas, .style = style, .width = width};
    if (!text) text = "";
    text += strspn(text, SPACES);
    while (*text) {
        size_t length = next_line(&wrapping, text);
        add_line(&wrapping, text, length);
        text += length;
        text += strspn(text, SPACES);
    }
    if (!wrapping.lines.count) add_line(&wrapping, "", 0);
    return wrapping.lines;
}

bool kit_words_fit(Canvas *canvas, TextStyle style, const char *text, double width) {
    const Word **words = NULL;
    size_t count = canvas_words(canvas, style.face, kit_blank(text) ? "" : text, &words);
    for (size_t i = 0; i < count; i++)
        if (words[i]->width * (double)style.size / 1000 > width) return false;
    return true;
}

void kit_lines(Canvas *canvas, TextStyle style, double x, double y, CellAlign align, Lines lines, double leading) {
    for (size_t i = 0; i < lines.count; i++) kit_text(canvas, style, x, y + leading * (double)i, align, lines.text[i]);
}

const char *kit_cut(Canvas *canvas, TextStyle style, const char *text, double width) {
    if (kit_blank(text) || canvas_width(canvas, style, text) <= width) return text ? text : "";
    const char *end = text + strlen(text);
    const char *best = "…";
    for (const char *at = text; at < end;) {
        size_t step;
        text_decode(at, end, &step);
        at += step;
        const char *cut = arena_printf(canvas->arena, "%.*s…", (int)(at - text), text);
        if (canvas_width(canvas, style, cut) > width) break;
        best = cut;
    }
    return best;
}

double kit_centre(Canvas *canvas, TextStyle style, double y) {
    return y + canvas->metrics->cap_height(canvas->metrics, style.face) * (double)style.size / 2000;
}

bool kit_blank(const char *text) {
    return !text || !*text;
}

double kit_wider(Canvas *canvas, TextStyle style, const char *text, double widest) {
    return kit_blank(text) ? widest : fmax(widest, canvas_width(canvas, style, text));
}

void kit_text(Canvas *canvas, TextStyle style, double x, double y, CellAlign align, const char *text) {
    if (!kit_blank(text)) canvas_text(canvas, style, x, y, align, text);
}

double kit_finite(double value, double otherwise) {
    return isfinite(value) ? value : otherwise;
}

const char *kit_percent(Canvas *canvas, double rate) {
    if (!isfinite(rate)) return "–";
    return arena_printf(canvas->arena, "%.0f", round(rate * 100) + 0.0); /* no "-0" */
}

const char *kit_count(Canvas *canvas, RateCell cell) {
    return arena_printf(canvas->arena, "%d/%d", cell.k, cell.n);
}

const char *kit_interval(Canvas *canvas, RateCell cell) {
    if (!isfinite(cell.low) || !isfinite(cell.high)) return "";
    return arena_printf(canvas->arena, "%s–%s", kit_percent(canvas, cell.low), kit_percent(canvas, cell.high));
}

void kit_empty(Canvas *canvas, double width, const char *note) {
    Lines lines = kit_wrap(canvas, TYPE_NOTE, note, width);
    kit_text(canvas, TYPE_NOTE, 0, kit_centre(canvas, TYPE_NOTE, KIT_EMPTY_HEIGHT / 2), ALIGN_LEFT, lines.text[0]);
}
