/* The story as stable text: one line a block, indented by depth. */
#include "story/story.h"

static const char *const KINDS[] = {
    [BLOCK_DOCUMENT] = "document",   [BLOCK_SECTION] = "section",     [BLOCK_HEAD] = "head",
    [BLOCK_PARAGRAPH] = "paragraph", [BLOCK_LIST] = "list",           [BLOCK_TABLE] = "table",
    [BLOCK_FIGURE] = "figure",       [BLOCK_SPLIT] = "split",         [BLOCK_GROUP] = "group",
    [BLOCK_FACTS] = "facts",         [BLOCK_NAMEPLATE] = "nameplate", [BLOCK_VERDICT] = "verdict",
};

static void indent(Buf *out, int depth) {
    for (int i = 0; i < depth; i++) BUF_PUT(out, "  ");
}

static void dump_words(const Words *words, Buf *out) {
    static const char *const MARKS[] = {[SPAN_TEXT] = "",    [SPAN_EMPHASIS] = "/", [SPAN_STRONG] = "*",
                                        [SPAN_FIGURE] = "#", [SPAN_MUTED] = "~",    [SPAN_LINK] = "@"};
    for (size_t i = 0; i < words->count; i++) {
        const Span *span = &words->spans[i];
        const char *mark = MARKS[span->kind];
        buf_printf(out, "%s%s%s", mark, span->text, mark);
        if (span->target) buf_printf(out, "[%s]", span->target);
    }
}

static void dump_table(const Table *table, Buf *out, int depth) {
    for (size_t row = 0; row < table->row_count; row++) {
        indent(out, depth);
        buf_puts(out, table->band && table->band[row] ? "band " : "row ");
        for (size_t column = 0; column < table->column_count; column++) {
            if (column) BUF_PUT(out, " | ");
            dump_words(&table->cells[row * table->column_count + column].words, out);
        }
        buf_putc(out, '\n');
    }
}

static void dump_block(const Block *block, Buf *out, int depth) {
    indent(out, depth);
    buf_puts(out, KINDS[block->kind]);
    if (block->level) buf_printf(out, " %d", block->level);
    if (block->title) buf_printf(out, " \"%s\"", block->title);
    if (block->note) buf_printf(out, " (%s)", block->note);
    if (block->anchor) buf_printf(out, " #%s", block->anchor);
    if (block->words.count) {
        BUF_PUT(out, ": ");
        dump_words(&block->words, out);
    }
    if (block->figure) buf_printf(out, " <%s>", block->figure->alt);
    buf_putc(out, '\n');
    for (size_t i = 0; i < block->fact_count; i++) {
        indent(out, depth + 1);
        buf_printf(out, "%s: %s\n", block->facts[i].label, block->facts[i].value);
    }
    if (block->table) dump_table(block->table, out, depth + 1);
    for (size_t i = 0; i < block->child_count; i++) dump_block(block->children[i], out, depth + 1);
}

void story_dump(const Story *story, Buf *out) {
    buf_printf(out, "title %s\nauthor %s\ndate %s\nreaders %s\nfiled %s\n", story->title, story->author, story->date,
               story->readers ? story->readers : "", story->filed);
    dump_block(story->root, out, 0);
}
