/* Placing pieces on pages. A column is a list of pieces from top to bottom: lines, rows, heads, figures. Pieces are
 * kept together, stood on the grid of baselines, and drawn as soon as it is known which page they stand on. Points. */
#ifndef TB_TYPESET_FLOW_H
#define TB_TYPESET_FLOW_H

#include <stdbool.h>
#include <stddef.h>

#include "source/house.h"
#include "story/story.h"
#include "typeset/pages.h"
#include "typeset/setter.h"

/* An element of the tagged document. Pieces name the element they stand in; it is opened when the first of them is
 * drawn. */
typedef struct Element Element;
struct Element {
    const Element *parent;
    Role role;
    const char *alternative;
    int depth; /* 0: the document */
};

/* Whether a page may end between a piece and the next. */
typedef enum Keep {
    KEEP_NONE,
    KEEP_GROUP, /* not while the group fits on a page */
    KEEP_ALWAYS /* only when both together are higher than a page */
} Keep;

typedef struct Piece Piece;
typedef struct Split Split;

/* Draws a piece whose top left corner is at (x, y). */
typedef void PieceDraw(Setter *setter, const Piece *piece, double x, double y);

struct Piece {
    const Element *element; /* its marks belong to it */
    const Element *around;  /* its decoration belongs here */
    double above;           /* least white above; none at the top of a page or column */
    double height;
    double stand; /* this far below its top it stands on the grid; negative: anywhere */
    double x;     /* from the column's left edge */
    Keep keep;
    bool new_page; /* begins a page */
    bool joins;    /* but not where its whole section fits below what stands before */
    bool begins_section;
    const char *section;  /* for the running head */
    const char *anchor;   /* a place others link to; may be NULL */
    const char *bookmark; /* may be NULL */
    int bookmark_level;
    PieceDraw *draw;
    PieceDraw *decorate; /* rules and tints, drawn before, not read aloud; may be NULL */
    bool rule_above;     /* the decoration is a rule above it: not drawn at the top of a page, which has its own */
    const void *data;    /* of the drawing functions */
    size_t index;
    size_t marks;        /* how many marks it may come to; an estimate, to take room for all of them at once */
    Split *split;        /* not NULL: two columns side by side stand here */
    const Piece *repeat; /* drawn again above this one where it begins a page or column; may be NULL */
};

typedef struct Column {
    Piece *pieces;
    size_t count, room;
    size_t next; /* the first not yet placed */
    double x, width;
    double raise; /* begins so far above the top of its split */
} Column;

enum { SPLIT_SIDES = 2 };

struct Split {
    Column sides[SPLIT_SIDES];
};

typedef struct Flow {
    Setter setter;
    const Story *story;
    const Layout *layout;
    Pages *pages;
    double page_width, page_height;
    double width;        /* of the text block */
    double left;         /* of the text block on the page under way */
    double top, bottom;  /* of the text block */
    double grid, step;   /* a baseline of the grid, and the next below it */
    const Element *open; /* innermost open element */
    double squeeze;      /* share of the white between pieces */
    bool off_grid;       /* nothing stands on the grid: a part that is set tighter */
    Mark *marks;         /* room for marks, page after page */
    size_t mark_count, mark_room;
    bool on_page;
    bool dry; /* places only to count pages: nothing is drawn */
} Flow;

/* A new element in `parent`. */
const Element *element_new(Arena *arena, const Element *parent, Role role, const char *alternative);

/* A blank piece at the end of the column; valid until the next one. */
Piece *column_add(Arena *arena, Column *column);

/* Sets the paper, the grid and the margins from story and layout. */
void flow_begin(Flow *flow, Arena *arena, const Story *story, const Layout *layout, Metrics *metrics,
                Diagnostics *diagnostics);

/* Places all pieces of the column, page after page. What spills over by a little is set tighter, so that it does not
 * begin a page for a few lines. At least one page comes of it. */
void flow_pages(Flow *flow, Column *column);

#endif
