/* The story: what a document says, as a tree of blocks with meaning and without geometry. */
#ifndef TB_STORY_STORY_H
#define TB_STORY_STORY_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/buf.h"
#include "base/diag.h"
#include "story/figures.h"

typedef enum SpanKind {
    SPAN_TEXT,
    SPAN_EMPHASIS,
    SPAN_STRONG,
    SPAN_FIGURE, /* a computed number: never broken across lines */
    SPAN_MUTED,  /* secondary ink */
    SPAN_LINK    /* text links to `target` (an anchor's name) */
} SpanKind;

typedef struct Span {
    SpanKind kind;
    const char *text;
    const char *target;
    Place place;
} Span;

typedef struct Words { /* one flow of inline text */
    Span *spans;
    size_t count;
} Words;

typedef enum BlockKind {
    BLOCK_DOCUMENT,  /* children: sections */
    BLOCK_SECTION,   /* title, note; starts a page when `new_page`; in the bookmarks */
    BLOCK_HEAD,      /* level 2 (section head with a rule above) or 3 */
    BLOCK_PARAGRAPH, /* words; `style` */
    BLOCK_LIST,      /* children: paragraphs */
    BLOCK_TABLE,
    BLOCK_FIGURE,    /* figure, with `title` and `note` in its head and `caption` words under it */
    BLOCK_SPLIT,     /* two children side by side: `ratio` of the left */
    BLOCK_GROUP,     /* children kept on one page */
    BLOCK_FACTS,     /* label and value pairs, `facts` */
    BLOCK_NAMEPLATE, /* front page: title is the name, note the line under it, facts at the right (values only) */
    BLOCK_VERDICT    /* a big number (title), headline (note), words: the grade */
} BlockKind;

typedef enum ParagraphStyle {
    STYLE_PROSE,   /* justified */
    STYLE_NOTE,    /* 7.5/9 condensed, muted, ragged */
    STYLE_CAPTION, /* caption under a figure, ragged */
    STYLE_LABEL    /* small capitals line: WHY, WHY NOT */
} ParagraphStyle;

typedef enum CellAlign { ALIGN_LEFT, ALIGN_RIGHT, ALIGN_CENTRE } CellAlign;

typedef struct TableColumn {
    const char *head;
    CellAlign align;
    double width; /* points; 0: shares what is left by weight 1, negative: by weight -width */
    bool strong;  /* semibold cells */
    bool head_of_row;
} TableColumn;

typedef struct TableCell {
    Words words;
    const char *anchor; /* the cell's row can be linked to by this name; may be NULL */
} TableCell;

typedef struct Table {
    TableColumn *columns;
    size_t column_count;
    TableCell *cells; /* [row * column_count + column] */
    size_t row_count;
    const unsigned char *band; /* by row, 1: a heading row across the table (its first cell only); may be NULL */
    bool dense;                /* 7.5/10 for logs; else 8/12 */
    const char **says; /* by row: all cells but the first are read aloud as this, as one; NULL: each as it stands */
} Table;

typedef struct FactPair {
    const char *label, *value;
} FactPair;

typedef struct Block Block;
struct Block {
    BlockKind kind;
    const char *title;
    const char *note;
    const char *anchor;   /* may be linked to; may be NULL */
    const char *bookmark; /* SECTION: its name in the bookmarks where it has no title on the page */
    int level;
    bool new_page;
    bool joins; /* SECTION: begins no page where all of it fits below what stands before */
    bool keep_with_next;
    ParagraphStyle style;
    Words words; /* PARAGRAPH, VERDICT; FIGURE: its caption */
    const Table *table;
    const Figure *figure;
    double ratio;
    FactPair *facts;
    size_t fact_count;
    Block **children;
    size_t child_count;
};

/* The furniture of a document: what stands on every page. */
typedef struct Story {
    Block *root;
    const char *title; /* "Tobin Vashti, quarterback, Harrow Valley" */
    const char *author;
    const char *subject;
    const char *date;      /* ISO date of the filing: the document's date */
    const char *head_name; /* running head: the player's name */
    const char *leaf;      /* "QB-3": leaves are numbered QB-3 · 1 …; the profile's code alone in a single dossier */
    const char *readers;   /* foot */
    const char *filed;     /* foot: "Filed 18 Nov 2031 · revision 3" */
    const char *tab;       /* word on the edge tab: "QB" */
    int tab_stop;          /* which stop down the edge, from 0 */
    unsigned tint;         /* 0xRRGGBB */
} Story;

/* The tree as stable text, for --dump=story and goldens. */
void story_dump(const Story *story, Buf *out);

#endif
