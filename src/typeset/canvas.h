/* Drawing on a page list. A canvas is a page, an offset and the arena its marks live in. */
#ifndef TB_TYPESET_CANVAS_H
#define TB_TYPESET_CANVAS_H

#include "base/arena.h"
#include "base/diag.h"
#include "story/story.h"
#include "typeset/metrics.h"
#include "typeset/pages.h"

/* Words whose missing character has been reported, so that each is reported once however often it is measured and
 * drawn. */
typedef struct GlyphReports {
    const Word **words; /* CANVAS_MOST_GLYPH_REPORTS; allocated by the first report */
    size_t count;
} GlyphReports;

enum { CANVAS_MOST_GLYPH_REPORTS = 100 };

typedef struct Canvas {
    Arena *arena;
    Metrics *metrics;
    Page *page;
    Diagnostics *diagnostics; /* missing glyphs and overfull lines; may be NULL */
    GlyphReports *reports;    /* NULL: every missing glyph is reported each time it is met */
    double x, y;              /* added to every coordinate given */
    double room;              /* height of a page's text block, for figures that fill it */
} Canvas;

typedef struct TextStyle {
    Face face;
    float size;
    Ink ink;
    float tracking; /* thousandths, 0 normal */
} TextStyle;

extern const Ink INK;       /* full */
extern const Ink INK_MUTED; /* 75: secondary words */
extern const Ink INK_GUIDE; /* 42 */
extern const Ink INK_NONE;
Ink ink_tint(int percent);

/* A new blank mark at the end of the page; valid until the next one. Its coordinates are the page's, the offset not
 * added. */
Mark *canvas_mark(Canvas *canvas, MarkKind kind);

/* Shapes one word. A character that no font has is reported at `place`. */
const Word *canvas_word(Canvas *canvas, Face face, const char *text, size_t length, Place place);

/* Splits `text` at spaces (a no-break space stays inside its word) and shapes it. */
size_t canvas_words(Canvas *canvas, Face face, const char *text, const Word ***words);
double canvas_width(Canvas *canvas, TextStyle style, const char *text);

/* One line of text, `y` its baseline. `x` is its left end, right end or middle by `align`. Returns its width. */
double canvas_text(Canvas *canvas, TextStyle style, double x, double y, CellAlign align, const char *text);
/* The same from its left end, turned `degrees` counter-clockwise about it. */
double canvas_turned(Canvas *canvas, TextStyle style, double x, double y, double degrees, const char *text);
/* Shaped words from `x`, gaps of `word_space` points between them. `words` must live as long as the page. */
void canvas_run(Canvas *canvas, TextStyle style, double x, double y, const Word **words, size_t count,
                double word_space);

void canvas_line(Canvas *canvas, double x1, double y1, double x2, double y2, double width, Ink ink);
void canvas_dashed(Canvas *canvas, double x1, double y1, double x2, double y2, double width, Ink ink, double dash,
                   double gap);
void canvas_path(Canvas *canvas, const Point *points, size_t count, double width, Ink ink);
void canvas_dashed_path(Canvas *canvas, const Point *points, size_t count, double width, Ink ink, double dash,
                        double gap);
void canvas_shape(Canvas *canvas, const Point *points, size_t count, Ink fill, double width, Ink stroke);
void canvas_rect(Canvas *canvas, Box box, Ink fill, double width, Ink stroke);
void canvas_disc(Canvas *canvas, double x, double y, double radius, Ink fill, double width, Ink stroke);
/* 45° lines clipped to the box by computation. */
void canvas_hatch(Canvas *canvas, Box box, double pitch, double width, Ink ink);

void canvas_open(Canvas *canvas, Role role, const char *alternative);
void canvas_close(Canvas *canvas);
void canvas_link(Canvas *canvas, Box box, const char *target);
void canvas_anchor(Canvas *canvas, double x, double y, const char *name);
void canvas_bookmark(Canvas *canvas, double x, double y, int level, const char *title);

/* ---- figures (typeset/figures/): figure_draw draws at the canvas's origin within `width`, as a ROLE_FIGURE, and
 * returns its height. figure_height gives the same height without drawing. ---- */
double figure_height(Canvas *canvas, const Figure *figure, double width);
double figure_draw(Canvas *canvas, const Figure *figure, double width);

#endif
