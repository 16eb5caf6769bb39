/* Two columns side by side. */
#include <math.h>

#include "typeset/build.h"

double build_side_width(const Builder *builder, const Block *split, int side) {
    double ratio = split->ratio > 0.05 && split->ratio < 0.95 ? split->ratio : 0.5;
    double room = fmax(0, builder->width - SPLIT_GUTTER);
    return room * (side ? 1 - ratio : ratio);
}

static void build_side(Builder *builder, const Block *block, Split *split, int side) {
    Column *column = &split->sides[side];
    Builder inside = *builder;
    inside.column = column;
    inside.above = ABOVE_COLUMN_TOP;
    inside.raise = 0;
    inside.width = build_side_width(builder, block, side);
    column->width = inside.width;
    column->x = builder->column->x + (side ? builder->width - inside.width : 0);
    column->raise = side ? builder->raise : 0;
    size_t first = side;
    size_t end = side ? block->child_count : 1;
    for (size_t i = first; i < end && i < block->child_count; i++) build_block(&inside, block->children[i], NULL);
}

/* White that the first piece of either side asks for. */
static double first_gap(const Builder *builder, const Split *split) {
    if (builder->above == ABOVE_TITLE || builder->above == ABOVE_HEAD) return 0;
    double gap = SPACE_SPLIT;
    for (int i = 0; i < SPLIT_SIDES; i++) {
        if (split->sides[i].count) gap = fmax(gap, split->sides[i].pieces[0].above);
    }
    return gap;
}

void build_split(Builder *builder, const Block *block) {
    Split *split = ARENA_NEW(builder->flow->setter.canvas.arena, Split);
    for (int i = 0; i < SPLIT_SIDES; i++) build_side(builder, block, split, i);
    if (!split->sides[0].count && !split->sides[1].count) return;
    double gap = first_gap(builder, split);
    Piece *piece = build_piece(builder, 0, NULL, NULL);
    piece->split = split;
    piece->above = gap;
    builder->raise = 0;
    builder->above = ABOVE_OTHER;
}
