/* What typesetting needs to know of fonts, as callbacks: the PDF back end gives real ones, tests give fixed ones.
 * All widths are in thousandths of the type size. */
#ifndef TB_TYPESET_METRICS_H
#define TB_TYPESET_METRICS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef enum Face {
    FACE_PROSE, /* serif, small-text cut */
    FACE_PROSE_ITALIC,
    FACE_PROSE_STRONG,
    FACE_HEAD,    /* serif, subhead cut, semibold */
    FACE_DISPLAY, /* serif, display cut, semibold */
    FACE_PLAIN,   /* condensed sans: tables, labels, furniture; figures tabular */
    FACE_MEDIUM,
    FACE_STRONG,
    FACE_COUNT
} Face;

/* A shaped word, owned by the metrics' cache and valid as long as it. Same text and face give the same pointer. */
typedef struct Word {
    const char *text; /* zero-terminated UTF-8, without spaces */
    size_t length;
    Face face;
    double width;                       /* thousandths of the size, kerned */
    double left_bearing, right_bearing; /* optical margin: how far the first and last glyph may hang, thousandths */
    bool missing;                       /* holds a character that no font has */
    bool soft;          /* the left half of a hyphenated word: ends in a hyphen drawn for a soft hyphen */
    const void *glyphs; /* the back end's own */
} Word;

typedef struct Metrics Metrics;
struct Metrics {
    /* `soft` adds a hyphen at the end that text extraction reads as a soft hyphen. */
    const Word *(*word)(Metrics *metrics, Face face, const char *text, size_t length, bool soft);
    double (*space)(Metrics *metrics, Face face);
    /* Height of capitals and depth of descenders, thousandths. */
    double (*cap_height)(Metrics *metrics, Face face);
};

#endif
