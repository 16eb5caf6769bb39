/* Tables to pieces: a head, then a piece a row. The head stands again on every page, rows are never split. */
#include "typeset/table.h"

#include <math.h>

#include "typeset/build.h"

enum { CELL_MARKS = 3, ROW_MARKS = 6 };

static const double brief_head = 60; /* a head no longer than this is given one line where there is room */
static const double head_below = 3;  /* from the head's last line to its rule */
static const double band_inset = 3;  /* of a band's words */
static const double band_above = 3;
static const double band_more = 1.5; /* height of a band over a line's */

typedef struct TableForm {
    SettingName cell, strong, head;
    double gutter;
    bool on_grid;
} TableForm;

static const TableForm plain_form = {SET_CELL, SET_CELL_STRONG, SET_CELL_HEAD, CELL_GUTTER, true};
static const TableForm dense_form = {SET_DENSE, SET_DENSE_STRONG, SET_DENSE_HEAD, DENSE_GUTTER, false};

/* A table measured: cells broken into lines for their columns. */
typedef struct TableSet {
    const Table *table;
    const TableForm *form;
    double width;
    double *x, *widths; /* of each column's text */
    ParaLines *heads;   /* by column */
    ParaLines *cells;   /* [row * columns + column] */
    double head_height; /* 0: no column has a head */
    double leading;
} TableSet;

static bool is_band(const Table *table, size_t row) {
    return table->band && table->band[row];
}

/* ---- measuring ---- */

static const Setting *cell_setting(const Builder *builder, const TableSet *set, size_t row, size_t column) {
    bool strong = set->table->columns[column].strong || is_band(set->table, row);
    return build_setting(builder, strong ? set->form->strong : set->form->cell);
}

static const Para **shape_cells(Builder *builder, const TableSet *set, ColumnNeed *needs) {
    const Table *table = set->table;
    Setter *setter = &builder->flow->setter;
    const Para **paras = ARENA_ARRAY(setter->canvas.arena, table->row_count * table->column_count, const Para *);
    for (size_t row = 0; row < table->row_count; row++) {
        size_t columns = is_band(table, row) ? 1 : table->column_count;
        for (size_t column = 0; column < columns; column++) {
            const TableCell *cell = &table->cells[row * table->column_count + column];
            if (!cell->words.count) continue;
            const Para *para = para_new(setter, &cell->words, cell_setting(builder, set, row, column));
            paras[row * table->column_count + column] = para;
            if (is_band(table, row)) continue;
            needs[column].least = fmax(needs[column].least, para->longest);
            needs[column].whole = fmax(needs[column].whole, para->natural);
        }
    }
    return paras;
}

static const Para **shape_heads(Builder *builder, const TableSet *set, ColumnNeed *needs) {
    const Table *table = set->table;
    Setter *setter = &builder->flow->setter;
    const Para **paras = ARENA_ARRAY(setter->canvas.arena, table->column_count, const Para *);
    for (size_t column = 0; column < table->column_count; column++) {
        const char *head = table->columns[column].head;
        paras[column] = para_plain(setter, head, build_setting(builder, set->form->head));
        bool brief = paras[column]->natural <= brief_head;
        needs[column].head = brief ? paras[column]->natural : paras[column]->longest;
        needs[column].piece = para_least(setter, paras[column]);
    }
    return paras;
}

/* A dense table whose heads and cells leave room gives some of it to the gutters. */
static double gutter_of(const TableSet *set, const ColumnNeed *needs) {
    const Table *table = set->table;
    double spare = set->width;
    if (!table->dense || table->column_count < 2) return set->form->gutter;
    for (size_t i = 0; i < table->column_count; i++) spare -= fmax(needs[i].whole, needs[i].head);
    double share = spare / (double)(table->column_count - 1);
    return fmax(set->form->gutter, fmin(share, CELL_GUTTER));
}

static void place_columns(TableSet *set, ColumnNeed *needs) {
    const Table *table = set->table;
    double gutter = gutter_of(set, needs);
    for (size_t i = 0; i + 1 < table->column_count; i++) {
        needs[i].least += gutter;
        needs[i].head += gutter;
        needs[i].piece += gutter;
        needs[i].whole += gutter;
    }
    table_widths(table, needs, set->width, set->widths);
    double x = 0;
    for (size_t i = 0; i < table->column_count; i++) {
        set->x[i] = x;
        x += set->widths[i];
        if (i + 1 < table->column_count) set->widths[i] = fmax(1, set->widths[i] - gutter);
    }
}

static void break_cells(Builder *builder, TableSet *set, const Para **cells, const Para **heads) {
    const Table *table = set->table;
    Setter *setter = &builder->flow->setter;
    for (size_t row = 0; row < table->row_count; row++) {
        for (size_t column = 0; column < table->column_count; column++) {
            size_t at = row * table->column_count + column;
            double width = is_band(table, row) ? set->width - 2 * band_inset : set->widths[column];
            if (cells[at]) set->cells[at] = para_break(setter, cells[at], width);
        }
    }
    for (size_t column = 0; column < table->column_count; column++) {
        set->heads[column] = para_break(setter, heads[column], set->widths[column]);
        set->head_height = fmax(set->head_height, para_height(&set->heads[column]));
    }
}

static TableSet *measure_table(Builder *builder, const Table *table) {
    Arena *arena = builder->flow->setter.canvas.arena;
    TableSet *set = ARENA_NEW(arena, TableSet);
    *set = (TableSet){.table = table, .form = table->dense ? &dense_form : &plain_form, .width = builder->width};
    set->leading = build_setting(builder, set->form->cell)->leading;
    set->x = ARENA_ARRAY(arena, table->column_count, double);
    set->widths = ARENA_ARRAY(arena, table->column_count, double);
    set->heads = ARENA_ARRAY(arena, table->column_count, ParaLines);
    set->cells = ARENA_ARRAY(arena, table->row_count * table->column_count, ParaLines);
    ColumnNeed *needs = ARENA_ARRAY(arena, table->column_count, ColumnNeed);
    const Para **cells = shape_cells(builder, set, needs);
    const Para **heads = shape_heads(builder, set, needs);
    place_columns(set, needs);
    break_cells(builder, set, cells, heads);
    return set;
}

static double row_height(const TableSet *set, size_t row) {
    size_t lines = 1;
    for (size_t column = 0; column < set->table->column_count; column++) {
        size_t count = set->cells[row * set->table->column_count + column].count;
        if (count > lines) lines = count;
    }
    return (double)lines * set->leading + (is_band(set->table, row) ? band_more : 0);
}

/* ---- drawing ---- */

static void draw_cell(Setter *setter, const TableSet *set, const ParaLines *lines, size_t column, double x,
                      double top) {
    CellAlign align = set->table->columns[column].align;
    double left = x + set->x[column];
    if (align == ALIGN_RIGHT) left += set->widths[column];
    if (align == ALIGN_CENTRE) left += set->widths[column] / 2;
    para_draw(setter, lines, left, top, align);
}

static void draw_anchors(Setter *setter, const TableSet *set, size_t row, double x, double y) {
    for (size_t column = 0; column < set->table->column_count; column++) {
        const char *anchor = set->table->cells[row * set->table->column_count + column].anchor;
        if (anchor) canvas_anchor(&setter->canvas, x, y, anchor);
    }
}

static const ParaLines *cell_at(const TableSet *set, size_t row, size_t column) {
    return &set->cells[row * set->table->column_count + column];
}

/* A heading row is one cell; the writer of the tags spans it over the columns. */
static void draw_band(Setter *setter, const TableSet *set, size_t row, double x, double y) {
    const ParaLines *lines = cell_at(set, row, 0);
    canvas_open(&setter->canvas, ROLE_ROW_HEAD, NULL);
    if (lines->count) para_draw(setter, lines, x + band_inset, y + band_more / 2, ALIGN_LEFT);
    canvas_close(&setter->canvas);
}

static void draw_cells(Setter *setter, const TableSet *set, size_t row, double x, double y) {
    const Table *table = set->table;
    const char *says = table->says ? table->says[row] : NULL;
    for (size_t column = 0; column < table->column_count; column++) {
        const ParaLines *lines = cell_at(set, row, column);
        bool opens = !says || column < 2;
        bool closes = !says || !column || column + 1 == table->column_count;
        Role role = table->columns[column].head_of_row ? ROLE_ROW_HEAD : ROLE_CELL;
        if (opens) canvas_open(&setter->canvas, role, column ? says : NULL);
        if (lines->count) draw_cell(setter, set, lines, column, x, y);
        if (closes) canvas_close(&setter->canvas);
    }
}

static void draw_row(Setter *setter, const Piece *piece, double x, double y) {
    const TableSet *set = piece->data;
    draw_anchors(setter, set, piece->index, x, y);
    canvas_open(&setter->canvas, ROLE_ROW, NULL);
    if (is_band(set->table, piece->index)) {
        draw_band(setter, set, piece->index, x, y);
    } else {
        draw_cells(setter, set, piece->index, x, y);
    }
    canvas_close(&setter->canvas);
}

/* A tint behind a band; a thin rule above a row that follows another. */
static void decorate_row(Setter *setter, const Piece *piece, double x, double y) {
    const TableSet *set = piece->data;
    if (is_band(set->table, piece->index)) {
        canvas_rect(&setter->canvas, (Box){x, y, set->width, piece->height}, ink_tint(BAND_TINT), 0, INK_NONE);
    } else {
        canvas_line(&setter->canvas, x, y, x + set->width, y, RULE_ROW, INK_GUIDE);
    }
}

/* Heads of several lines stand on the last. */
static void draw_head(Setter *setter, const Piece *piece, double x, double y) {
    const TableSet *set = piece->data;
    canvas_open(&setter->canvas, ROLE_ROW, NULL);
    for (size_t column = 0; column < set->table->column_count; column++) {
        const ParaLines *lines = &set->heads[column];
        canvas_open(&setter->canvas, ROLE_COLUMN_HEAD, NULL);
        double top = y + piece->height - head_below - para_height(lines);
        if (lines->count) draw_cell(setter, set, lines, column, x, top);
        canvas_close(&setter->canvas);
    }
    canvas_close(&setter->canvas);
}

static void decorate_head(Setter *setter, const Piece *piece, double x, double y) {
    const TableSet *set = piece->data;
    double bottom = y + piece->height;
    canvas_line(&setter->canvas, x, bottom, x + set->width, bottom, RULE_TABLE, INK);
}

/* ---- pieces ---- */

/* Below words, the first row stands on the grid and the others follow it. */
static void add_head(Builder *builder, TableSet *set, double above) {
    Piece *piece = build_piece(builder, set->head_height + head_below, draw_head, set);
    piece->decorate = decorate_head;
    piece->above = above;
    piece->keep = KEEP_ALWAYS;
    if (set->form->on_grid && builder->above != ABOVE_OTHER)
        piece->stand = piece->height + LINE_BASELINE * set->leading;
}

/* A band stays with its first row; no row is left alone at the end or the beginning of a page. */
static Keep keep_row(const Table *table, size_t row) {
    bool last = row + 1 == table->row_count;
    if (last) return KEEP_NONE;
    if (is_band(table, row)) return KEEP_ALWAYS;
    return row == 0 || row + 2 == table->row_count ? KEEP_ALWAYS : KEEP_NONE;
}

static void add_row(Builder *builder, TableSet *set, size_t row, const Piece *head) {
    bool band = is_band(set->table, row);
    Piece *piece = build_piece(builder, row_height(set, row), draw_row, set);
    piece->index = row;
    piece->marks = set->table->column_count * CELL_MARKS + ROW_MARKS;
    piece->keep = keep_row(set->table, row);
    piece->repeat = head;
    if (band && row) piece->above = band_above;
    if (band || (row && !is_band(set->table, row - 1))) piece->decorate = decorate_row;
    piece->rule_above = !band;
}

void build_table(Builder *builder, const Block *block) {
    const Table *table = block->table;
    Arena *arena = builder->flow->setter.canvas.arena;
    if (!table || !table->column_count) return;
    TableSet *set = measure_table(builder, table);
    Builder inside = *builder;
    inside.element = element_new(arena, builder->element, ROLE_TABLE, NULL);
    Piece *head = NULL;
    if (set->head_height > 0) {
        head = ARENA_NEW(arena, Piece);
        add_head(&inside, set, build_gap(builder, SPACE_TABLE));
        *head = inside.column->pieces[inside.column->count - 1];
    }
    size_t first = inside.column->count;
    for (size_t row = 0; row < table->row_count; row++) add_row(&inside, set, row, head);
    if (!head && inside.column->count > first) inside.column->pieces[first].above = build_gap(builder, SPACE_TABLE);
    builder->above = ABOVE_OTHER;
}
