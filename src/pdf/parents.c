#include "pdf/parents.h"

#include <stdlib.h>

#include "base/arena.h"
#include "pdf/syntax.h"

enum { LEAF_KEYS = 256, FIRST_ROOM = 64 };

/* Object numbers by key. */
typedef struct Numbers {
    uint32_t *numbers;
    size_t count, room;
} Numbers;

struct Parents {
    Objects *objects;
    size_t page_count;
    Numbers pages, annotations;
    Buf items; /* references of the page at work, by content item */
    uint32_t item_count;
};

Parents *parents_new(Objects *objects, size_t page_count) {
    Parents *parents = mem_alloc(sizeof(Parents));
    parents->objects = objects;
    parents->page_count = page_count;
    return parents;
}

void parents_free(Parents *parents) {
    free(parents->pages.numbers);
    free(parents->annotations.numbers);
    buf_free(&parents->items);
    free(parents);
}

static void append(Numbers *list, uint32_t number) {
    if (list->count == list->room) {
        list->room = list->room * 2 + FIRST_ROOM;
        list->numbers = mem_resize(list->numbers, list->room * sizeof *list->numbers);
    }
    list->numbers[list->count++] = number;
}

uint32_t parents_add(Parents *parents, uint32_t element) {
    syntax_reference(&parents->items, element);
    buf_putc(&parents->items, ' ');
    return parents->item_count++;
}

void parents_end_page(Parents *parents) {
    uint32_t number = objects_reserve(parents->objects);
    Buf *out = objects_open(parents->objects, number);
    buf_putc(out, '[');
    buf_put(out, parents->items.bytes, parents->items.length);
    buf_putc(out, ']');
    objects_close(parents->objects);
    append(&parents->pages, number);
    parents->items.length = 0;
    parents->item_count = 0;
}

uint32_t parents_add_annotation(Parents *parents, uint32_t element) {
    append(&parents->annotations, element);
    return (uint32_t)(parents->page_count + parents->annotations.count - 1);
}

static uint32_t write_leaf(Parents *parents, size_t first_key, const uint32_t *numbers, size_t count) {
    uint32_t leaf = objects_reserve(parents->objects);
    Buf *out = objects_open(parents->objects, leaf);
    buf_printf(out, "<</Limits[%zu %zu]/Nums[", first_key, first_key + count - 1);
    for (size_t at = 0; at < count; at++) {
        syntax_unsigned(out, first_key + at);
        buf_putc(out, ' ');
        syntax_reference(out, numbers[at]);
        buf_putc(out, ' ');
    }
    BUF_PUT(out, "]>>");
    objects_close(parents->objects);
    return leaf;
}

static void write_leaves(Parents *parents, const Numbers *list, size_t first_key, Buf *kids) {
    for (size_t at = 0; at < list->count; at += LEAF_KEYS) {
        size_t count = list->count - at < LEAF_KEYS ? list->count - at : LEAF_KEYS;
        syntax_reference(kids, write_leaf(parents, first_key + at, list->numbers + at, count));
        buf_putc(kids, ' ');
    }
}

uint32_t parents_finish(Parents *parents, uint32_t *next_key) {
    Buf kids = {0};
    write_leaves(parents, &parents->pages, 0, &kids);
    write_leaves(parents, &parents->annotations, parents->page_count, &kids);
    uint32_t tree = objects_reserve(parents->objects);
    Buf *out = objects_open(parents->objects, tree);
    BUF_PUT(out, "<</Kids[");
    buf_put(out, kids.bytes, kids.length);
    BUF_PUT(out, "]>>");
    objects_close(parents->objects);
    buf_free(&kids);
    *next_key = (uint32_t)(parents->page_count + parents->annotations.count);
    return tree;
}
