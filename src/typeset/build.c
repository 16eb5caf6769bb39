#include "typeset/build.h"

enum { BOOKMARK_SECTION = 1, FIGURE_MARKS = 120 };

Piece *build_piece(Builder *builder, double height, PieceDraw *draw, const void *data) {
    Piece *piece = column_add(builder->flow->setter.canvas.arena, builder->column);
    piece->element = builder->element;
    piece->around = builder->element;
    piece->height = height;
    piece->section = builder->section;
    piece->draw = draw;
    piece->data = data;
    return piece;
}

const Setting *build_setting(const Builder *builder, SettingName name) {
    return &builder->flow->setter.settings[name];
}

double build_gap(const Builder *builder, double gap) {
    return builder->above <= ABOVE_HEAD ? 0 : gap;
}

/* ---- lines ---- */

static void draw_line(Setter *setter, const Piece *piece, double x, double y) {
    const ParaLines *lines = piece->data;
    para_draw_line(setter, lines, piece->index, x, y + LINE_BASELINE * lines->para->setting->leading, ALIGN_LEFT);
}

/* The first two lines stay together, and the last two. */
static Keep keep_line(size_t line, size_t count) {
    return line + 1 < count && (line == 0 || line + 2 == count) ? KEEP_ALWAYS : KEEP_NONE;
}

void build_lines(Builder *builder, const ParaLines *lines, const Element *element, double x, double above,
                 bool on_grid) {
    if (!lines->count) return;
    double leading = lines->para->setting->leading;
    ParaLines *kept = ARENA_NEW(builder->flow->setter.canvas.arena, ParaLines);
    *kept = *lines;
    for (size_t i = 0; i < lines->count; i++) {
        Piece *piece = build_piece(builder, leading, draw_line, kept);
        piece->element = element;
        piece->x = x;
        piece->index = i;
        piece->keep = keep_line(i, lines->count);
        if (i) continue;
        piece->above = above;
        if (on_grid) piece->stand = LINE_BASELINE * leading;
    }
}

/* ---- paragraphs and lists ---- */

typedef struct ParagraphForm {
    SettingName setting, after_prose;
    double above;
    bool on_grid;
} ParagraphForm;

static const ParagraphForm forms[] = {
    [STYLE_PROSE] = {SET_PROSE, SET_PROSE_NEXT, SPACE_PROSE, true},
    [STYLE_NOTE] = {SET_NOTE, SET_NOTE, SPACE_NOTE, false},
    [STYLE_CAPTION] = {SET_CAPTION, SET_CAPTION, SPACE_CAPTION, false},
    [STYLE_LABEL] = {SET_LABEL, SET_LABEL, SPACE_TABLE, false},
};

static const Element *leaf(const Builder *builder, Role role) {
    return element_new(builder->flow->setter.canvas.arena, builder->element, role, NULL);
}

static void build_paragraph(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    Setter *setter = &builder->flow->setter;
    bool prose = block->style == STYLE_PROSE;
    const ParagraphForm *form = &forms[block->style];
    SettingName name = builder->above == ABOVE_PROSE ? form->after_prose : form->setting;
    double above = prose && builder->above == ABOVE_PROSE ? 0 : build_gap(builder, form->above);
    ParaLines lines = para_break(setter, para_new(setter, &block->words, build_setting(builder, name)), builder->width);
    build_lines(builder, &lines, leaf(builder, ROLE_PARAGRAPH), 0, above, form->on_grid);
    if (lines.count) builder->above = prose ? ABOVE_PROSE : ABOVE_OTHER;
}

static void draw_dot(Setter *setter, const Piece *piece, double x, double y) {
    const ParaLines *lines = piece->data;
    const Setting *setting = lines->para->setting;
    double middle = y + LINE_BASELINE * setting->leading - 0.25 * (double)setting->text[SPAN_TEXT].size;
    canvas_disc(&setter->canvas, x - ITEM_INDENT + 2 * ITEM_DOT, middle, ITEM_DOT, INK, 0, INK_NONE);
}

static void build_item(Builder *builder, const Block *block) {
    Setter *setter = &builder->flow->setter;
    const Para *para = para_new(setter, &block->words, build_setting(builder, SET_PROSE));
    ParaLines lines = para_break(setter, para, builder->width - ITEM_INDENT);
    size_t first = builder->column->count;
    build_lines(builder, &lines, leaf(builder, ROLE_ITEM), ITEM_INDENT, 0, true);
    if (builder->column->count > first) builder->column->pieces[first].decorate = draw_dot;
}

static void build_list(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    Builder inside = *builder;
    inside.element = leaf(builder, ROLE_LIST);
    for (size_t i = 0; i < block->child_count; i++) build_item(&inside, block->children[i]);
    builder->above = ABOVE_OTHER;
}

/* ---- figures ---- */

typedef struct FigureSet {
    const Figure *figure;
    double width;
} FigureSet;

static void draw_figure(Setter *setter, const Piece *piece, double x, double y) {
    const FigureSet *set = piece->data;
    setter->canvas.x = x;
    setter->canvas.y = y;
    figure_draw(&setter->canvas, set->figure, set->width);
    setter->canvas.x = 0;
    setter->canvas.y = 0;
}

/* A test's caption is its verdict in words and a play's its head, and reads as text; other captions are notes. */
static SettingName caption_setting(const Figure *figure) {
    return figure->kind == FIGURE_TAPE_TEST || figure->kind == FIGURE_PLAY ? SET_CAPTION : SET_NOTE;
}

static void build_figure(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    Setter *setter = &builder->flow->setter;
    Arena *arena = setter->canvas.arena;
    if (!block->figure) return;
    build_figure_head(builder, block);
    FigureSet *set = ARENA_NEW(arena, FigureSet);
    *set = (FigureSet){block->figure, builder->width};
    const Setting *setting = build_setting(builder, caption_setting(block->figure));
    ParaLines caption = para_break(setter, para_new(setter, &block->words, setting), builder->width);
    double height = figure_height(&setter->canvas, block->figure, builder->width);
    Piece *piece = build_piece(builder, height, draw_figure, set);
    piece->above = build_gap(builder, SPACE_FIGURE);
    piece->marks = FIGURE_MARKS;
    piece->keep = caption.count ? KEEP_ALWAYS : KEEP_NONE;
    size_t first = builder->column->count;
    build_lines(builder, &caption, leaf(builder, ROLE_PARAGRAPH), 0, SPACE_CAPTION, false);
    for (size_t i = first; i + 1 < builder->column->count; i++) builder->column->pieces[i].keep = KEEP_ALWAYS;
    builder->above = ABOVE_OTHER;
}

/* ---- groups ---- */

static void build_children(Builder *builder, const Block *block) {
    for (size_t i = 0; i < block->child_count; i++) {
        build_block(builder, block->children[i], i + 1 < block->child_count ? block->children[i + 1] : NULL);
    }
}

static void build_group(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    size_t first = builder->column->count;
    build_children(builder, block);
    for (size_t i = first; i + 1 < builder->column->count; i++) {
        Piece *piece = &builder->column->pieces[i];
        if (piece->keep < KEEP_GROUP) piece->keep = KEEP_GROUP;
    }
}

static void build_document(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    build_children(builder, block);
}

static bool is_text(const char *text) {
    return text && *text;
}

/* A section begins with a mark without height, for its bookmark, its anchor and its page. */
static void build_section(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    int deepest = 1;
    Builder inside = *builder;
    inside.element = leaf(builder, ROLE_SECTION);
    inside.section = is_text(block->title) ? block->title : NULL;
    inside.deepest = &deepest;
    inside.above = ABOVE_COLUMN_TOP;
    Piece *mark = build_piece(&inside, 0, NULL, NULL);
    mark->new_page = block->new_page;
    mark->joins = block->joins;
    mark->begins_section = true;
    mark->above =
        is_text(block->title) ? SPACE_RUN_ON : 0; /* one without a title begins with a head, which brings its own */
    mark->keep = KEEP_ALWAYS;
    mark->anchor = block->anchor;
    mark->bookmark = is_text(block->bookmark) ? block->bookmark : block->title;
    mark->bookmark_level = BOOKMARK_SECTION;
    if (is_text(block->title)) build_title(&inside, block);
    build_children(&inside, block);
    builder->above = ABOVE_COLUMN_TOP;
}

/* ---- the kinds ---- */

static void build_table_block(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    build_table(builder, block);
}

static void build_facts_block(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    build_facts(builder, block);
}

static void build_split_block(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    build_split(builder, block);
}

static void build_nameplate_block(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    build_nameplate(builder, block);
}

static void build_verdict_block(Builder *builder, const Block *block, const Block *next) {
    (void)next;
    build_verdict(builder, block);
}

static void (*const kinds[])(Builder *builder, const Block *block, const Block *next) = {
    [BLOCK_DOCUMENT] = build_document,
    [BLOCK_SECTION] = build_section,
    [BLOCK_HEAD] = build_head,
    [BLOCK_PARAGRAPH] = build_paragraph,
    [BLOCK_LIST] = build_list,
    [BLOCK_TABLE] = build_table_block,
    [BLOCK_FIGURE] = build_figure,
    [BLOCK_SPLIT] = build_split_block,
    [BLOCK_GROUP] = build_group,
    [BLOCK_FACTS] = build_facts_block,
    [BLOCK_NAMEPLATE] = build_nameplate_block,
    [BLOCK_VERDICT] = build_verdict_block,
};
_Static_assert(sizeof kinds / sizeof *kinds == BLOCK_VERDICT + 1, "every kind of block is built");

/* An anchor that the kind has not placed itself stands at the block's first piece. */
static void place_anchor(Builder *builder, const Block *block, size_t first) {
    Piece *piece = &builder->column->pieces[first];
    if (block->kind != BLOCK_SECTION && !piece->anchor) piece->anchor = block->anchor;
}

void build_block(Builder *builder, const Block *block, const Block *next) {
    size_t first = builder->column->count;
    kinds[block->kind](builder, block, next);
    if (builder->column->count == first) return;
    place_anchor(builder, block, first);
    Piece *last = &builder->column->pieces[builder->column->count - 1];
    if (block->keep_with_next && next) last->keep = KEEP_ALWAYS;
}
