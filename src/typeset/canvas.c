#include "typeset/canvas.h"

#include <math.h>
#include <string.h>

#include "base/text.h"

enum { FIRST_MARKS = 256, THOUSANDTHS = 1000 };

const Ink INK = {INK_BLACK, 100};
const Ink INK_MUTED = {INK_BLACK, 75};
const Ink INK_GUIDE = {INK_BLACK, 42};
const Ink INK_NONE = {INK_BLACK, 0};

Ink ink_tint(int percent) {
    return (Ink){INK_BLACK, (uint8_t)(percent < 0 ? 0 : percent > 100 ? 100 : percent)};
}

Mark *canvas_mark(Canvas *canvas, MarkKind kind) {
    Page *page = canvas->page;
    if (page->count == page->room) {
        size_t room = page->room ? page->room * 2 : FIRST_MARKS;
        Mark *marks = ARENA_ARRAY(canvas->arena, room, Mark);
        if (page->marks) memcpy(marks, page->marks, page->count * sizeof *marks);
        page->marks = marks;
        page->room = room;
    }
    Mark *mark = &page->marks[page->count++];
    mark->kind = kind;
    return mark;
}

/* ---- words ---- */

/* The first character of `word` that its face does not have when it stands alone; 0 when each of them is there. */
static uint32_t missing_character(Metrics *metrics, const Word *word, const char **at, size_t *length) {
    const char *end = word->text + word->length;
    for (const char *next = word->text; next < end; next += *length) {
        uint32_t character = text_decode(next, end, length);
        if (!metrics->word(metrics, word->face, next, *length, false)->missing) continue;
        *at = next;
        return character;
    }
    return 0;
}

static bool already_reported(GlyphReports *reports, const Word *word) {
    for (size_t i = 0; i < reports->count; i++) {
        if (reports->words[i] == word) return true;
    }
    return false;
}

/* True when `word` is still to be reported; after the last that is counted, one summary takes the place of the rest. */
static bool note_report(Canvas *canvas, const Word *word, Place place) {
    GlyphReports *reports = canvas->reports;
    if (!reports) return true;
    if (reports->count > CANVAS_MOST_GLYPH_REPORTS || already_reported(reports, word)) return false;
    if (!reports->words) reports->words = ARENA_ARRAY(canvas->arena, CANVAS_MOST_GLYPH_REPORTS + 1, const Word *);
    reports->words[reports->count++] = word;
    if (reports->count <= CANVAS_MOST_GLYPH_REPORTS) return true;
    diag_report(canvas->diagnostics, RULE_PAGE_GLYPH, place, NULL,
                "more than %d words hold characters that no font has; the rest are not listed",
                CANVAS_MOST_GLYPH_REPORTS);
    return false;
}

static void report_missing(Canvas *canvas, const Word *word, Place place) {
    if (!canvas->diagnostics || !note_report(canvas, word, place)) return;
    const char *at = word->text;
    size_t length = 0;
    uint32_t character = missing_character(canvas->metrics, word, &at, &length);
    if (!character) {
        diag_report(canvas->diagnostics, RULE_PAGE_GLYPH, place, NULL, "no font can print the word \"%s\"", word->text);
        return;
    }
    diag_report(canvas->diagnostics, RULE_PAGE_GLYPH, place, NULL,
                "no font has the character %.*s (U+%04X) of the word \"%s\"", (int)length, at, (unsigned)character,
                word->text);
}

const Word *canvas_word(Canvas *canvas, Face face, const char *text, size_t length, Place place) {
    const Word *word = canvas->metrics->word(canvas->metrics, face, text, length, false);
    if (word->missing) report_missing(canvas, word, place);
    return word;
}

static bool is_space(char byte) {
    return byte == ' ' || byte == '\n' || byte == '\t' || byte == '\r';
}

/* Moves `text` to the next word and says how long it is; 0 when there is none. */
static size_t next_word(const char **text) {
    size_t length = 0;
    while (is_space(**text)) ++*text;
    while ((*text)[length] && !is_space((*text)[length])) length++;
    return length;
}

static size_t count_words(const char *text) {
    size_t count = 0;
    for (size_t length; (length = next_word(&text)) != 0; text += length) count++;
    return count;
}

size_t canvas_words(Canvas *canvas, Face face, const char *text, const Word ***words) {
    size_t count = count_words(text);
    const Word **list = ARENA_ARRAY(canvas->arena, count, const Word *);
    for (size_t i = 0; i < count; i++) {
        size_t length = next_word(&text);
        list[i] = canvas_word(canvas, face, text, length, (Place){0});
        text += length;
    }
    *words = list;
    return count;
}

static double word_space(Canvas *canvas, TextStyle style) {
    return canvas->metrics->space(canvas->metrics, style.face) * (double)style.size / THOUSANDTHS;
}

static double tracking_points(TextStyle style) {
    return (double)style.tracking * (double)style.size / THOUSANDTHS;
}

/* A line being measured: widths in thousandths, and the characters that tracking stands after. */
typedef struct LineSum {
    double width;
    size_t words, characters;
} LineSum;

static void add_to_sum(LineSum *sum, TextStyle style, const Word *word) {
    sum->width += word->width;
    sum->words++;
    if (style.tracking != 0) sum->characters += text_characters(word->text, word->length) + 1;
}

/* Tracking stands between characters, none after the last. */
static double sum_width(Canvas *canvas, TextStyle style, const LineSum *sum) {
    if (!sum->words) return 0;
    double width = sum->width * (double)style.size / THOUSANDTHS + (double)(sum->words - 1) * word_space(canvas, style);
    return style.tracking != 0 ? width + (double)(sum->characters - 2) * tracking_points(style) : width;
}

static double words_width(Canvas *canvas, TextStyle style, const Word *const *words, size_t count) {
    LineSum sum = {0};
    for (size_t i = 0; i < count; i++) add_to_sum(&sum, style, words[i]);
    return sum_width(canvas, style, &sum);
}

double canvas_width(Canvas *canvas, TextStyle style, const char *text) {
    LineSum sum = {0};
    for (size_t length; (length = next_word(&text)) != 0; text += length) {
        add_to_sum(&sum, style, canvas_word(canvas, style.face, text, length, (Place){0}));
    }
    return sum_width(canvas, style, &sum);
}

static Mark *run_mark(Canvas *canvas, TextStyle style, double x, double y, const Word **words, size_t count,
                      double space) {
    Point *start = ARENA_NEW(canvas->arena, Point);
    *start = (Point){canvas->x + x, canvas->y + y};
    Mark *mark = canvas_mark(canvas, MARK_TEXT);
    mark->fill = style.ink;
    mark->size = style.size;
    mark->face = (uint8_t)style.face;
    mark->word_space = (float)space;
    mark->tracking = (float)tracking_points(style);
    mark->words = words;
    mark->count = (uint32_t)count;
    mark->points = start;
    return mark;
}

void canvas_run(Canvas *canvas, TextStyle style, double x, double y, const Word **words, size_t count, double space) {
    if (count) run_mark(canvas, style, x, y, words, count, space);
}

double canvas_text(Canvas *canvas, TextStyle style, double x, double y, CellAlign align, const char *text) {
    const Word **words = NULL;
    size_t count = canvas_words(canvas, style.face, text, &words);
    double width = words_width(canvas, style, words, count);
    if (align == ALIGN_RIGHT) x -= width;
    if (align == ALIGN_CENTRE) x -= width / 2;
    canvas_run(canvas, style, x, y, words, count, word_space(canvas, style));
    return width;
}

double canvas_turned(Canvas *canvas, TextStyle style, double x, double y, double degrees, const char *text) {
    const Word **words = NULL;
    size_t count = canvas_words(canvas, style.face, text, &words);
    if (count) run_mark(canvas, style, x, y, words, count, word_space(canvas, style))->rotate = (float)degrees;
    return words_width(canvas, style, words, count);
}

/* ---- lines and shapes ---- */

static Point *moved_points(Canvas *canvas, const Point *points, size_t count) {
    Point *moved = ARENA_ARRAY(canvas->arena, count, Point);
    for (size_t i = 0; i < count; i++) moved[i] = (Point){canvas->x + points[i].x, canvas->y + points[i].y};
    return moved;
}

static Box moved_box(const Canvas *canvas, Box box) {
    return (Box){canvas->x + box.x, canvas->y + box.y, box.width, box.height};
}

static Mark *path_mark(Canvas *canvas, MarkKind kind, const Point *points, size_t count, double width, Ink stroke) {
    Point *moved = moved_points(canvas, points, count);
    Mark *mark = canvas_mark(canvas, kind);
    mark->points = moved;
    mark->count = (uint32_t)count;
    mark->stroke_width = (float)width;
    mark->stroke = stroke;
    return mark;
}

void canvas_path(Canvas *canvas, const Point *points, size_t count, double width, Ink ink) {
    if (count > 1) path_mark(canvas, MARK_LINE, points, count, width, ink);
}

void canvas_line(Canvas *canvas, double x1, double y1, double x2, double y2, double width, Ink ink) {
    Point points[] = {{x1, y1}, {x2, y2}};
    path_mark(canvas, MARK_LINE, points, 2, width, ink);
}

void canvas_dashed(Canvas *canvas, double x1, double y1, double x2, double y2, double width, Ink ink, double dash,
                   double gap) {
    Point points[] = {{x1, y1}, {x2, y2}};
    Mark *mark = path_mark(canvas, MARK_LINE, points, 2, width, ink);
    mark->dash = (float)dash;
    mark->gap = (float)gap;
}

void canvas_dashed_path(Canvas *canvas, const Point *points, size_t count, double width, Ink ink, double dash,
                        double gap) {
    if (count < 2) return;
    Mark *mark = path_mark(canvas, MARK_LINE, points, count, width, ink);
    mark->dash = (float)dash;
    mark->gap = (float)gap;
}

void canvas_shape(Canvas *canvas, const Point *points, size_t count, Ink fill, double width, Ink stroke) {
    if (count > 2) path_mark(canvas, MARK_SHAPE, points, count, width, stroke)->fill = fill;
}

void canvas_rect(Canvas *canvas, Box box, Ink fill, double width, Ink stroke) {
    Mark *mark = canvas_mark(canvas, MARK_RECT);
    mark->box = moved_box(canvas, box);
    mark->fill = fill;
    mark->stroke = stroke;
    mark->stroke_width = (float)width;
}

void canvas_disc(Canvas *canvas, double x, double y, double radius, Ink fill, double width, Ink stroke) {
    Point centre = {x, y};
    Mark *mark = path_mark(canvas, MARK_DISC, &centre, 1, width, stroke);
    mark->fill = fill;
    mark->size = (float)radius;
}

/* A hatch line joins the points of the box where (x from its left) + (y from its top) is `sum`; `pitch` is the distance
 * between lines, so along an edge they stand pitch * sqrt 2 apart. */
void canvas_hatch(Canvas *canvas, Box box, double pitch, double width, Ink ink) {
    if (!(pitch > 0) || !(box.width > 0) || !(box.height > 0)) return;
    double step = pitch * sqrt(2.0);
    for (int i = 0; (i + 0.5) * step < box.width + box.height; i++) {
        double sum = (i + 0.5) * step;
        double low = fmax(0, sum - box.height);
        double high = fmin(box.width, sum);
        canvas_line(canvas, box.x + low, box.y + sum - low, box.x + high, box.y + sum - high, width, ink);
    }
}

/* ---- structure and places ---- */

void canvas_open(Canvas *canvas, Role role, const char *alternative) {
    const char *text = alternative ? arena_string(canvas->arena, alternative) : NULL;
    Mark *mark = canvas_mark(canvas, MARK_OPEN);
    mark->role = (uint8_t)role;
    mark->text = text;
}

void canvas_close(Canvas *canvas) {
    canvas_mark(canvas, MARK_CLOSE);
}

void canvas_link(Canvas *canvas, Box box, const char *target) {
    const char *text = arena_string(canvas->arena, target);
    Mark *mark = canvas_mark(canvas, MARK_LINK);
    mark->box = moved_box(canvas, box);
    mark->text = text;
}

static Mark *place_mark(Canvas *canvas, MarkKind kind, double x, double y, const char *text) {
    const char *copy = arena_string(canvas->arena, text);
    Point point = {x, y};
    Mark *mark = path_mark(canvas, kind, &point, 1, 0, INK_NONE);
    mark->text = copy;
    return mark;
}

void canvas_anchor(Canvas *canvas, double x, double y, const char *name) {
    place_mark(canvas, MARK_ANCHOR, x, y, name);
}

void canvas_bookmark(Canvas *canvas, double x, double y, int level, const char *title) {
    place_mark(canvas, MARK_BOOKMARK, x, y, title)->size = (float)level;
}
