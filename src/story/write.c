#include <string.h>

#include "story/write.h"

/* Most words are of one span: the cells of tables. */
enum { FIRST_CHILDREN = 8, FIRST_SPANS = 1 };

/* Arrays grow by doubling: their length is a power of two whenever they are full. */
static bool is_full(size_t count, size_t first) {
    return count == 0 || (count >= first && (count & (count - 1)) == 0);
}

static void *grown(Arena *arena, const void *old, size_t count, size_t first, size_t size) {
    size_t room = count ? count * 2 : first;
    void *fresh = arena_array(arena, room, size);
    if (count) memcpy(fresh, old, count * size);
    return fresh;
}

bool writer_has(const Writer *writer, SectionKind kind) {
    const Layout *layout = writer->layout;
    if (!layout) return true;
    for (size_t i = 0; i < layout->section_count; i++) {
        if (layout->sections[i].kind == kind) return true;
    }
    return false;
}

Block *block_new(Writer *writer, BlockKind kind) {
    Block *block = ARENA_NEW(writer->arena, Block);
    block->kind = kind;
    return block;
}

Block *block_add(Writer *writer, Block *parent, BlockKind kind) {
    if (is_full(parent->child_count, FIRST_CHILDREN)) {
        parent->children =
            grown(writer->arena, parent->children, parent->child_count, FIRST_CHILDREN, sizeof *parent->children);
    }
    Block *block = block_new(writer, kind);
    parent->children[parent->child_count++] = block;
    return block;
}

Block *block_section(Writer *writer, Block *document, const char *title, const char *note) {
    Block *section = block_add(writer, document, BLOCK_SECTION);
    section->title = title;
    section->note = note;
    section->new_page = true;
    return section;
}

Block *block_head(Writer *writer, Block *parent, int level, const char *title, const char *note) {
    Block *head = block_add(writer, parent, BLOCK_HEAD);
    head->level = level;
    head->title = title;
    head->note = note;
    head->keep_with_next = true;
    return head;
}

Block *block_part(Writer *writer, Block *document, const char *title, const char *note) {
    Block *part = block_section(writer, document, NULL, NULL);
    part->bookmark = title;
    if (title) block_head(writer, part, 2, title, note);
    return part;
}

Block *block_figure(Writer *writer, Block *parent, const Figure *figure, const char *title, const char *note) {
    Block *block = block_add(writer, parent, BLOCK_FIGURE);
    block->figure = figure;
    block->title = title;
    block->note = note;
    return block;
}

Table *block_table(Writer *writer, Block *parent, const TableColumn *heads, size_t columns, size_t rows) {
    Table *table = ARENA_NEW(writer->arena, Table);
    table->columns = ARENA_ARRAY(writer->arena, columns, TableColumn);
    memcpy(table->columns, heads, columns * sizeof *heads);
    table->column_count = columns;
    table->row_count = rows;
    table->cells = ARENA_ARRAY(writer->arena, rows * columns, TableCell);
    block_add(writer, parent, BLOCK_TABLE)->table = table;
    return table;
}

Block *block_text(Writer *writer, Block *parent, ParagraphStyle style, const char *text) {
    Block *block = block_add(writer, parent, BLOCK_PARAGRAPH);
    block->style = style;
    block->words = words_plain(writer, text);
    return block;
}

Block *block_note(Writer *writer, Block *parent, const char *text) {
    return block_text(writer, parent, STYLE_NOTE, text);
}

void words_add(Writer *writer, Words *words, SpanKind kind, const char *text, const char *target) {
    if (is_full(words->count, FIRST_SPANS)) {
        words->spans = grown(writer->arena, words->spans, words->count, FIRST_SPANS, sizeof *words->spans);
    }
    words->spans[words->count++] = (Span){.kind = kind, .text = text, .target = target};
}

Words words_plain(Writer *writer, const char *text) {
    Words words = {0};
    words_add(writer, &words, SPAN_TEXT, text, NULL);
    return words;
}
