/* Pages: lists of marks in points, origin at the top left, y downward. What the devices play and --dump=pages prints.
 * A finished page list holds no pointer into the story. */
#ifndef TB_TYPESET_PAGES_H
#define TB_TYPESET_PAGES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "typeset/metrics.h"

/* Ink `tint` percent: 100 full, 0 none (paper). */
typedef enum InkBase { INK_BLACK, INK_ACCENT, INK_PAPER } InkBase;
typedef struct Ink {
    uint8_t base; /* InkBase */
    uint8_t tint;
} Ink;

typedef struct Point {
    double x, y;
} Point;

typedef struct Box {
    double x, y, width, height; /* top left corner */
} Box;

/* Structure of the tagged document; ARTIFACT is furniture that is not read aloud. */
typedef enum Role {
    ROLE_DOCUMENT,
    ROLE_SECTION,
    ROLE_H1,
    ROLE_H2,
    ROLE_H3,
    ROLE_PARAGRAPH,
    ROLE_LIST,
    ROLE_ITEM,
    ROLE_TABLE,
    ROLE_ROW,
    ROLE_COLUMN_HEAD, /* header cell, scope column */
    ROLE_ROW_HEAD,    /* header cell, scope row */
    ROLE_CELL,
    ROLE_FIGURE, /* has `text`, its alternative */
    ROLE_LINK,
    ROLE_ARTIFACT
} Role;

typedef enum MarkKind {
    MARK_TEXT,  /* words from points[0] along a baseline; an empty last word stands for a space at the end */
    MARK_LINE,  /* open polyline through `points` */
    MARK_SHAPE, /* closed polygon through `points`, filled and/or stroked */
    MARK_RECT,  /* `box`, filled and/or stroked */
    MARK_DISC,  /* circle at points[0], radius `size` */
    MARK_OPEN,  /* a structure element begins; elements nest and close in the same page list */
    MARK_CLOSE,
    MARK_LINK,    /* `box` links to the anchor (or http URL) `text` */
    MARK_ANCHOR,  /* a place called `text` at points[0] */
    MARK_BOOKMARK /* `text` at points[0], level `size` from 1 */
} MarkKind;

/* There are tens of thousands of them, so what no kind has together shares its place. */
typedef struct Mark {
    MarkKind kind;
    Ink fill;       /* tint 0: not filled; TEXT: its ink */
    Ink stroke;     /* tint 0: not stroked */
    uint8_t face;   /* TEXT */
    uint8_t role;   /* OPEN */
    uint32_t count; /* TEXT: words; else points */
    float size;     /* TEXT type size; DISC radius; BOOKMARK level */
    union {
        struct { /* LINE, SHAPE, RECT, DISC */
            float stroke_width;
            float dash, gap; /* 0: solid */
        };
        struct {              /* TEXT */
            float rotate;     /* degrees counter-clockwise about its start */
            float word_space; /* width of each gap between words, points */
            float tracking;   /* points added after every character, spaces too */
        };
    };
    const char *text; /* OPEN, LINK, ANCHOR, BOOKMARK */
    union {
        Box box; /* RECT, LINK */
        struct { /* all others */
            const Point *points;
            const Word **words; /* TEXT */
        };
    };
} Mark;

typedef struct Page {
    double width, height;
    const char *label; /* page label: "QB · 1" */
    Mark *marks;
    size_t count, room;
} Page;

typedef struct Pages {
    Page *pages;
    size_t count, room;
    const char *title, *author, *subject, *date, *language;
    unsigned tint; /* accent, 0xRRGGBB */
} Pages;

#endif
