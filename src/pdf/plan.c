#include "pdf/plan.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

enum { DEEPEST = 64 }; /* elements deeper than that are not looked into */

/* The walk over the elements of all pages. */
typedef struct Walk {
    Plan *plan;
    uint8_t roles[DEEPEST];
    size_t tables[DEEPEST]; /* at a table's depth: its first row */
    size_t rows[DEEPEST];   /* at a row's depth: its number */
    size_t depth;
} Walk;

static int by_name(const void *left, const void *right) {
    const Anchor *a = left;
    const Anchor *b = right;
    int order = strcmp(a->name, b->name);
    if (order) return order;
    return a->order < b->order ? -1 : a->order > b->order;
}

static bool is_cell(uint8_t role) {
    return role == ROLE_CELL || role == ROLE_COLUMN_HEAD || role == ROLE_ROW_HEAD;
}

static size_t count_marks(const Pages *pages, bool (*counts)(const Mark *mark)) {
    size_t count = 0;
    for (size_t page = 0; page < pages->count; page++)
        for (size_t at = 0; at < pages->pages[page].count; at++) count += counts(&pages->pages[page].marks[at]);
    return count;
}

static bool is_anchor(const Mark *mark) {
    return mark->kind == MARK_ANCHOR;
}

static bool is_row(const Mark *mark) {
    return mark->kind == MARK_OPEN && mark->role == ROLE_ROW;
}

static void open_element(Walk *walk, uint8_t role) {
    Plan *plan = walk->plan;
    size_t depth = walk->depth++;
    if (role == ROLE_ROW) plan->row_count++;
    if (depth >= DEEPEST) return;
    walk->roles[depth] = role;
    if (role == ROLE_TABLE) walk->tables[depth] = plan->row_count;
    if (role == ROLE_ROW) walk->rows[depth] = plan->row_count - 1;
    if (is_cell(role) && depth && walk->roles[depth - 1] == ROLE_ROW) plan->row_cells[walk->rows[depth - 1]]++;
}

/* Rows of a table nested in a cell stand among its own, but theirs were given their width when that table closed. */
static void close_table(Plan *plan, size_t first) {
    uint32_t most = 0;
    for (size_t row = first; row < plan->row_count; row++)
        if (!plan->row_columns[row] && plan->row_cells[row] > most) most = plan->row_cells[row];
    for (size_t row = first; row < plan->row_count; row++)
        if (!plan->row_columns[row]) plan->row_columns[row] = most;
}

static void close_element(Walk *walk) {
    if (!walk->depth) return;
    size_t depth = --walk->depth;
    if (depth < DEEPEST && walk->roles[depth] == ROLE_TABLE) close_table(walk->plan, walk->tables[depth]);
}

static void note_anchor(Plan *plan, const Mark *mark, size_t page) {
    size_t order = plan->anchor_count++;
    plan->anchors[order] = (Anchor){mark->text, page, mark->points[0], order};
}

static void walk_page(Walk *walk, const Page *page, size_t index) {
    for (size_t at = 0; at < page->count; at++) {
        const Mark *mark = &page->marks[at];
        if (mark->kind == MARK_OPEN) open_element(walk, mark->role);
        if (mark->kind == MARK_CLOSE) close_element(walk);
        if (mark->kind == MARK_ANCHOR) note_anchor(walk->plan, mark, index);
    }
}

const Plan *plan_new(Arena *arena, const Pages *pages) {
    Plan *plan = ARENA_NEW(arena, Plan);
    Walk walk = {.plan = plan};
    size_t rows = count_marks(pages, is_row);
    plan->anchors = ARENA_ARRAY(arena, count_marks(pages, is_anchor), Anchor);
    plan->row_cells = ARENA_ARRAY(arena, rows, uint32_t);
    plan->row_columns = ARENA_ARRAY(arena, rows, uint32_t);
    for (size_t page = 0; page < pages->count; page++) walk_page(&walk, &pages->pages[page], page);
    qsort(plan->anchors, plan->anchor_count, sizeof *plan->anchors, by_name);
    return plan;
}

const Anchor *plan_find(const Plan *plan, const char *name) {
    size_t low = 0;
    size_t high = plan->anchor_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(plan->anchors[middle].name, name) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    bool found = low < plan->anchor_count && !strcmp(plan->anchors[low].name, name);
    return found ? &plan->anchors[low] : NULL;
}
