/* From blocks to pieces: each kind of block adds its pieces to a column. Internal to typeset/. */
#ifndef TB_TYPESET_BUILD_H
#define TB_TYPESET_BUILD_H

#include "story/story.h"
#include "typeset/flow.h"
#include "typeset/paragraph.h"

/* What stands above the next piece, which decides the white between. */
typedef enum Above { ABOVE_COLUMN_TOP, ABOVE_TITLE, ABOVE_HEAD, ABOVE_PROSE, ABOVE_OTHER } Above;

typedef struct Builder {
    Flow *flow;
    Column *column;         /* where pieces go */
    const Element *element; /* the group under way */
    double width;
    const char *section;
    Above above;
    int *deepest; /* level of heading in use, so that none is skipped */
    double raise; /* of the right side of the split that comes next */
} Builder;

/* Adds one block and all below it. `next` is the block that follows in the same column, or NULL. */
void build_block(Builder *builder, const Block *block, const Block *next);

/* A piece of the group under way; valid until the next one. */
Piece *build_piece(Builder *builder, double height, PieceDraw *draw, const void *data);

const Setting *build_setting(const Builder *builder, SettingName name);

/* `gap`, but none at the top of a column or right below a title or head. */
double build_gap(const Builder *builder, double gap);

/* Lines of a paragraph as pieces in `element`, no single line parted from the rest; `x` from the column's edge. */
void build_lines(Builder *builder, const ParaLines *lines, const Element *element, double x, double above,
                 bool on_grid);

/* ---- heads (heads.c) ---- */
void build_title(Builder *builder, const Block *block);
void build_head(Builder *builder, const Block *block, const Block *next);
void build_figure_head(Builder *builder, const Block *block);

/* ---- tables and facts (table.c, facts.c) ---- */
void build_table(Builder *builder, const Block *block);
void build_facts(Builder *builder, const Block *block);

/* ---- the front page (front.c) ---- */
void build_nameplate(Builder *builder, const Block *block);
void build_verdict(Builder *builder, const Block *block);

/* ---- splits (split.c) ---- */
void build_split(Builder *builder, const Block *block);
double build_side_width(const Builder *builder, const Block *split, int side);

#endif
