/* What all figures share: their type, text that wraps in a column, and the table of figures. Lengths are points. */
#ifndef TB_TYPESET_FIGURES_KIT_H
#define TB_TYPESET_FIGURES_KIT_H

#include <stdbool.h>
#include <stddef.h>

#include "story/figures.h"
#include "typeset/canvas.h"

/* Nothing is set smaller than TYPE_NOTE. */
extern const TextStyle TYPE_LABEL;        /* row labels, counts */
extern const TextStyle TYPE_LABEL_STRONG; /* rates, values */
extern const TextStyle TYPE_LABEL_MUTED;  /* the rest's label, count and rate */
extern const TextStyle TYPE_SMALL;        /* totals in the margins of a field */
extern const TextStyle TYPE_SMALL_STRONG;
extern const TextStyle TYPE_COUNT; /* k/n in a cell */
extern const TextStyle TYPE_NOTE;  /* axis, intervals, notes: secondary ink */
extern const TextStyle TYPE_VERDICT;
extern const TextStyle TYPE_GAME; /* a game's short name under its point */

/* Weights of lines. */
#define LINE_OWN 1.1   /* the subject's interval */
#define LINE_OTHER 0.7 /* the rest's interval */
#define LINE_REFERENCE 0.8
#define LINE_FRAME 0.5
#define LINE_AXIS 0.4
#define LINE_GRID 0.25
#define LINE_SCRIMMAGE 1.4

/* Tints of ink, per cent. */
enum { TINT_CLAIMED = 8, TINT_MIDDLE = 26, TINT_GUIDE = 42, TINT_REFERENCE = 62 };

/* Text cut into lines, in the canvas's arena. */
typedef struct Lines {
    const char **text;
    size_t count; /* at least 1 */
    double width; /* of the widest line */
} Lines;

/* Breaks at spaces, and inside a word only where the word alone is wider than `width`. NULL counts as "". */
Lines kit_wrap(Canvas *canvas, TextStyle style, const char *text, double width);

/* True when no single word of `text` is wider than `width`. */
bool kit_words_fit(Canvas *canvas, TextStyle style, const char *text, double width);

/* Draws lines downward from baseline `y`. */
void kit_lines(Canvas *canvas, TextStyle style, double x, double y, CellAlign align, Lines lines, double leading);

/* `text`, or as many of its first characters as fit with an ellipsis. NULL counts as "". */
const char *kit_cut(Canvas *canvas, TextStyle style, const char *text, double width);

/* The baseline that puts the middle of capitals at `y`. */
double kit_centre(Canvas *canvas, TextStyle style, double y);

/* Width of a text that may be NULL; the wider of `widest` and it. */
double kit_wider(Canvas *canvas, TextStyle style, const char *text, double widest);

/* Draws a text that may be NULL or "". */
void kit_text(Canvas *canvas, TextStyle style, double x, double y, CellAlign align, const char *text);

bool kit_blank(const char *text); /* NULL or "" */

/* `value` or `otherwise` when it is NaN or infinite. */
double kit_finite(double value, double otherwise);

/* Whole per cent of a rate that may be NaN, as "68"; "–" for NaN. In the canvas's arena. */
const char *kit_percent(Canvas *canvas, double rate);
const char *kit_count(Canvas *canvas, RateCell cell);    /* "65/82" */
const char *kit_interval(Canvas *canvas, RateCell cell); /* "69–87", "" without one */

/* The note that stands for a figure without data, one line high. */
#define KIT_EMPTY_HEIGHT 14.0
void kit_empty(Canvas *canvas, double width, const char *note);

/* One kind of figure: its height at a width, and its drawing at the canvas's origin. */
typedef struct FigureType {
    double (*height)(Canvas *canvas, const Figure *figure, double width);
    void (*draw)(Canvas *canvas, const Figure *figure, double width);
} FigureType;

double strips_height(Canvas *canvas, const Figure *figure, double width);
void strips_draw(Canvas *canvas, const Figure *figure, double width);
double field_height(Canvas *canvas, const Figure *figure, double width);
void field_draw(Canvas *canvas, const Figure *figure, double width);
double intervals_height(Canvas *canvas, const Figure *figure, double width);
void intervals_draw(Canvas *canvas, const Figure *figure, double width);
double traits_height(Canvas *canvas, const Figure *figure, double width);
void traits_draw(Canvas *canvas, const Figure *figure, double width);
double grade_height(Canvas *canvas, const Figure *figure, double width);
void grade_draw(Canvas *canvas, const Figure *figure, double width);
double claims_height(Canvas *canvas, const Figure *figure, double width);
void claims_draw(Canvas *canvas, const Figure *figure, double width);
double test_height(Canvas *canvas, const Figure *figure, double width);
void test_draw(Canvas *canvas, const Figure *figure, double width);
double key_height(Canvas *canvas, const Figure *figure, double width);
void key_draw(Canvas *canvas, const Figure *figure, double width);
double trend_height(Canvas *canvas, const Figure *figure, double width);
void trend_draw(Canvas *canvas, const Figure *figure, double width);
double ladder_height(Canvas *canvas, const Figure *figure, double width);
void ladder_draw(Canvas *canvas, const Figure *figure, double width);
double situations_height(Canvas *canvas, const Figure *figure, double width);
void situations_draw(Canvas *canvas, const Figure *figure, double width);
double ribbon_height(Canvas *canvas, const Figure *figure, double width);
void ribbon_draw(Canvas *canvas, const Figure *figure, double width);
double season_height(Canvas *canvas, const Figure *figure, double width);
void season_draw(Canvas *canvas, const Figure *figure, double width);
double play_height(Canvas *canvas, const Figure *figure, double width);
void play_draw(Canvas *canvas, const Figure *figure, double width);
double play_key_height(Canvas *canvas, const Figure *figure, double width);
void play_key_draw(Canvas *canvas, const Figure *figure, double width);
double card_height(Canvas *canvas, const Figure *figure, double width);
void card_draw(Canvas *canvas, const Figure *figure, double width);
double form_height(Canvas *canvas, const Figure *figure, double width);
void form_draw(Canvas *canvas, const Figure *figure, double width);
double codes_height(Canvas *canvas, const Figure *figure, double width);
void codes_draw(Canvas *canvas, const Figure *figure, double width);

#endif
