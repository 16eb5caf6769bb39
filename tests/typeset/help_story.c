#include "typeset/help_story.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/buf.h"
#include "typeset/mock_metrics.h"

enum { DEEPEST = 32 };

void scene_begin(Scene *scene) {
    *scene = (Scene){.arena = arena_new(), .diagnostics = diag_new()};
    scene->metrics = mock_metrics_new(scene->arena);
    scene->layout = (Layout){.id = "test",
                             .paper = PAPER_LETTER,
                             .duplex = true,
                             .inner = 62.4,
                             .outer = 43.6,
                             .head = 34,
                             .foot = 30,
                             .prose_size = 9.5,
                             .prose_leading = 12};
    scene->story = (Story){.title = "A test",
                           .head_name = "Test",
                           .leaf = "T",
                           .readers = "Readers: testers.",
                           .filed = "Filed today",
                           .tab = "T",
                           .tint = 0x123f52};
    scene->story.root = scene_block(scene, NULL, BLOCK_DOCUMENT);
}

void scene_end(Scene *scene) {
    diag_free(scene->diagnostics);
    arena_free(scene->arena);
}

const Pages *scene_pages(Scene *scene) {
    return typeset_story(scene->arena, &scene->story, &scene->layout, scene->metrics, scene->diagnostics);
}

/* ---- blocks ---- */

Block *scene_block(Scene *scene, Block *parent, BlockKind kind) {
    Block *block = ARENA_NEW(scene->arena, Block);
    block->kind = kind;
    if (!parent) return block;
    Block **children = ARENA_ARRAY(scene->arena, parent->child_count + 1, Block *);
    if (parent->child_count) memcpy(children, parent->children, parent->child_count * sizeof *children);
    children[parent->child_count++] = block;
    parent->children = children;
    return block;
}

Block *scene_section(Scene *scene, const char *title, const char *note) {
    Block *block = scene_block(scene, scene->story.root, BLOCK_SECTION);
    block->title = title;
    block->note = note;
    block->new_page = true;
    return block;
}

Block *scene_head(Scene *scene, Block *parent, int level, const char *title) {
    Block *block = scene_block(scene, parent, BLOCK_HEAD);
    block->level = level;
    block->title = title;
    return block;
}

static void add_span(Scene *scene, Words *words, SpanKind kind, const char *text, size_t length) {
    Span *spans = ARENA_ARRAY(scene->arena, words->count + 1, Span);
    if (words->count) memcpy(spans, words->spans, words->count * sizeof *spans);
    Span *span = &spans[words->count++];
    *span = (Span){.kind = kind, .text = arena_copy(scene->arena, text, length)};
    if (kind == SPAN_LINK) span->target = arena_printf(scene->arena, "at-%s", span->text);
    words->spans = spans;
}

Words scene_words(Scene *scene, const char *text) {
    static const char openers[] = "*_{[";
    static const char closers[] = "*_}]";
    static const SpanKind kinds[] = {SPAN_STRONG, SPAN_EMPHASIS, SPAN_FIGURE, SPAN_LINK};
    Words words = {0};
    while (*text) {
        size_t plain = strcspn(text, openers);
        if (plain) add_span(scene, &words, SPAN_TEXT, text, plain);
        text += plain;
        if (!*text) break;
        size_t kind = (size_t)(strchr(openers, *text) - openers);
        const char *end = strchr(text + 1, closers[kind]);
        assert_non_null(end);
        add_span(scene, &words, kinds[kind], text + 1, (size_t)(end - text - 1));
        text = end + 1;
    }
    return words;
}

Block *scene_paragraph(Scene *scene, Block *parent, ParagraphStyle style, const char *text) {
    Block *block = scene_block(scene, parent, BLOCK_PARAGRAPH);
    block->style = style;
    block->words = scene_words(scene, text);
    return block;
}

Table *scene_table(Scene *scene, Block *parent, size_t rows, size_t columns) {
    Table *table = ARENA_NEW(scene->arena, Table);
    table->columns = ARENA_ARRAY(scene->arena, columns, TableColumn);
    table->column_count = columns;
    table->row_count = rows;
    table->cells = ARENA_ARRAY(scene->arena, rows * columns, TableCell);
    for (size_t row = 0; row < rows; row++) {
        for (size_t column = 0; column < columns; column++) {
            const char *text = arena_printf(scene->arena, "r%zuc%zu", row + 1, column + 1);
            table->cells[row * columns + column].words = scene_words(scene, text);
        }
    }
    scene_block(scene, parent, BLOCK_TABLE)->table = table;
    return table;
}

uint32_t scene_random(uint32_t *seed) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 17;
    *seed ^= *seed << 5;
    return *seed;
}

const char *scene_prose(Scene *scene, size_t count, uint32_t *seed) {
    static const char *const words[] = {"he",          "throws",       "before",   "the",        "break",   "and",
                                        "recognition", "ball",         "corner",   "defence",    "against", "his",
                                        "third",       "anticipation", "on",       "hyphenates", "pocket",  "of",
                                        "receivers",   "under",        "pressure,"};
    Buf buf = {0};
    for (size_t i = 0; i < count; i++) {
        if (i) buf_putc(&buf, ' ');
        buf_puts(&buf, words[scene_random(seed) % (sizeof words / sizeof *words)]);
    }
    const char *text = arena_copy(scene->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return text;
}

/* ---- what came of it ---- */

static bool has_anchor(const Pages *pages, const char *name) {
    for (size_t i = 0; i < pages->count; i++) {
        for (size_t k = 0; k < pages->pages[i].count; k++) {
            const Mark *mark = &pages->pages[i].marks[k];
            if (mark->kind == MARK_ANCHOR && !strcmp(mark->text, name)) return true;
        }
    }
    return false;
}

static bool is_leaf(Role role) {
    return role != ROLE_DOCUMENT && role != ROLE_SECTION;
}

/* Checks one mark; `roles` are the open elements. */
static void check_mark(const Page *page, const Mark *mark, Role *roles, size_t *depth) {
    if (mark->kind == MARK_OPEN) {
        assert_true(*depth < DEEPEST);
        if (*depth) assert_int_not_equal(roles[*depth - 1], ROLE_ARTIFACT);
        if (mark->role == ROLE_CELL || mark->role == ROLE_COLUMN_HEAD) assert_int_equal(roles[*depth - 1], ROLE_ROW);
        if (mark->role == ROLE_ROW) assert_int_equal(roles[*depth - 1], ROLE_TABLE);
        if (mark->role == ROLE_ITEM) assert_int_equal(roles[*depth - 1], ROLE_LIST);
        roles[(*depth)++] = (Role)mark->role;
    } else if (mark->kind == MARK_CLOSE) {
        assert_true(*depth > 0);
        --*depth;
    } else if (mark->kind == MARK_TEXT) {
        assert_true(*depth > 0);
        assert_true(is_leaf(roles[*depth - 1]));
        assert_true(mark->count > 0);
        assert_true(mark->points[0].x > 0 && mark->points[0].x < page->width);
        assert_true(mark->points[0].y > 0 && mark->points[0].y < page->height);
    }
}

void scene_check(const Pages *pages) {
    Role roles[DEEPEST];
    size_t depth = 0;
    assert_true(pages->count > 0);
    for (size_t i = 0; i < pages->count; i++) {
        const Page *page = &pages->pages[i];
        assert_non_null(page->label);
        for (size_t k = 0; k < page->count; k++) {
            check_mark(page, &page->marks[k], roles, &depth);
            const char *target = page->marks[k].kind == MARK_LINK ? page->marks[k].text : NULL;
            if (target && !strncmp(target, "to-", 3)) assert_true(has_anchor(pages, target));
        }
        for (size_t k = 0; k < depth; k++) assert_false(is_leaf(roles[k]));
    }
    assert_int_equal(depth, 0);
}

/* Goes through all marks outside artifacts. */
typedef void MarkVisit(void *context, size_t page, const Mark *mark);

static void visit_marks(const Pages *pages, MarkVisit *visit, void *context) {
    bool artifact = false;
    for (size_t i = 0; i < pages->count; i++) {
        for (size_t k = 0; k < pages->pages[i].count; k++) {
            const Mark *mark = &pages->pages[i].marks[k];
            if (mark->kind == MARK_OPEN && mark->role == ROLE_ARTIFACT) artifact = true;
            if (!artifact) visit(context, i + 1, mark);
            if (mark->kind == MARK_CLOSE) artifact = false;
        }
    }
}

typedef struct TextVisit {
    Buf text;
    size_t page;
} TextVisit;

static void add_text(void *context, size_t page, const Mark *mark) {
    TextVisit *visit = context;
    if (mark->kind != MARK_TEXT) return;
    if (visit->page && visit->page != page) buf_puts(&visit->text, "| ");
    visit->page = page;
    for (size_t i = 0; i < mark->count; i++) {
        const Word *word = mark->words[i];
        buf_put(&visit->text, word->text, word->length);
        if (!word->soft && word->length) buf_putc(&visit->text, ' ');
    }
}

char *scene_text(Scene *scene, const Pages *pages) {
    TextVisit visit = {0};
    visit_marks(pages, add_text, &visit);
    if (visit.text.length && visit.text.bytes[visit.text.length - 1] == ' ') visit.text.length--;
    char *text = arena_copy(scene->arena, buf_text(&visit.text), visit.text.length);
    buf_free(&visit.text);
    return text;
}

typedef struct FindVisit {
    const char *word;
    Found found;
} FindVisit;

static void find_word(void *context, size_t page, const Mark *mark) {
    FindVisit *visit = context;
    if (mark->kind != MARK_TEXT || visit->found.page) return;
    for (size_t i = 0; i < mark->count; i++) {
        if (strcmp(mark->words[i]->text, visit->word)) continue;
        visit->found = (Found){page, mark->points[0].x, mark->points[0].y, mark};
    }
}

Found scene_find(const Pages *pages, const char *word) {
    FindVisit visit = {.word = word};
    visit_marks(pages, find_word, &visit);
    return visit.found;
}

size_t scene_count(const Pages *pages, Role role) {
    size_t count = 0;
    for (size_t i = 0; i < pages->count; i++) {
        for (size_t k = 0; k < pages->pages[i].count; k++) {
            const Mark *mark = &pages->pages[i].marks[k];
            count += mark->kind == MARK_OPEN && mark->role == role;
        }
    }
    return count;
}
