/* Facts: a label and its value a row, in two columns where there is room. */
#include <math.h>

#include "typeset/build.h"

static const double label_share = 0.45; /* of the width that labels may take at most */

typedef struct FactSet {
    ParaLines label, value;
    double value_x;
} FactSet;

static void draw_part(Setter *setter, const ParaLines *lines, Role role, double x, double y) {
    canvas_open(&setter->canvas, role, NULL);
    if (lines->count) para_draw(setter, lines, x, y, ALIGN_LEFT);
    canvas_close(&setter->canvas);
}

static void draw_fact(Setter *setter, const Piece *piece, double x, double y) {
    const FactSet *set = piece->data;
    canvas_open(&setter->canvas, ROLE_ROW, NULL);
    draw_part(setter, &set->label, ROLE_ROW_HEAD, x, y);
    draw_part(setter, &set->value, ROLE_CELL, x + set->value_x, y);
    canvas_close(&setter->canvas);
}

/* Where values begin: after the widest label, as far as that leaves them room. */
static double value_column(Builder *builder, const Block *block, double width) {
    double widest = 0;
    for (size_t i = 0; i < block->fact_count; i++) {
        const Setting *setting = build_setting(builder, SET_FACT_LABEL);
        widest = fmax(widest, para_plain(&builder->flow->setter, block->facts[i].label, setting)->natural);
    }
    return widest > 0 ? fmin(widest, width * label_share) + FACT_GUTTER : 0;
}

static void add_fact(Builder *builder, const FactPair *fact, double value_x, bool first) {
    Setter *setter = &builder->flow->setter;
    FactSet *set = ARENA_NEW(setter->canvas.arena, FactSet);
    const Para *label = para_plain(setter, fact->label, build_setting(builder, SET_FACT_LABEL));
    const Para *value = para_plain(setter, fact->value, build_setting(builder, SET_FACT));
    set->label = para_break(setter, label, fmax(1, value_x - FACT_GUTTER));
    set->value = para_break(setter, value, builder->width - value_x);
    set->value_x = value_x;
    double height = fmax(para_height(&set->label), para_height(&set->value));
    Piece *piece = build_piece(builder, fmax(height, value->setting->leading), draw_fact, set);
    if (first) piece->stand = LINE_BASELINE * value->setting->leading;
}

static void add_column(Builder *builder, const Block *block, size_t from, size_t to, double value_x) {
    Builder inside = *builder;
    inside.element = element_new(builder->flow->setter.canvas.arena, builder->element, ROLE_TABLE, NULL);
    for (size_t i = from; i < to; i++) add_fact(&inside, &block->facts[i], value_x, i == from);
}

static void add_columns(Builder *builder, const Block *block, double above) {
    Split *split = ARENA_NEW(builder->flow->setter.canvas.arena, Split);
    double width = (builder->width - SPLIT_GUTTER) / SPLIT_SIDES;
    double value_x = value_column(builder, block, width);
    size_t half = (block->fact_count + 1) / SPLIT_SIDES;
    for (size_t i = 0; i < SPLIT_SIDES; i++) {
        Builder side = *builder;
        side.column = &split->sides[i];
        side.width = width;
        side.column->width = width;
        side.column->x = builder->column->x + (i ? builder->width - width : 0);
        add_column(&side, block, i ? half : 0, i ? block->fact_count : half, value_x);
    }
    Piece *piece = build_piece(builder, 0, NULL, NULL);
    piece->split = split;
    piece->above = above;
}

void build_facts(Builder *builder, const Block *block) {
    double above = build_gap(builder, SPACE_FACTS);
    if (!block->fact_count) return;
    if (builder->width >= FACTS_WIDE && block->fact_count >= SPLIT_SIDES) {
        add_columns(builder, block, above);
    } else {
        size_t first = builder->column->count;
        add_column(builder, block, 0, block->fact_count, value_column(builder, block, builder->width));
        builder->column->pieces[first].above = above;
    }
    builder->above = ABOVE_OTHER;
}
