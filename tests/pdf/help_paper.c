#include "pdf/help_paper.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "base/file.h"

enum { FIRST_MARKS = 64, READ_BYTES = 4096, MOST_WORDS = 400 };

static const Ink FULL = {INK_BLACK, 100};

Paper *paper_new(void) {
    Arena *arena = arena_new();
    Paper *paper = ARENA_NEW(arena, Paper);
    char *folder = arena_string(arena, P_tmpdir "/tapebound-pdf-XXXXXX");
    assert_non_null(mkdtemp(folder));
    paper->arena = arena;
    paper->folder = folder;
    paper->diagnostics = diag_new();
    paper->book = fonts_open("fonts", paper->diagnostics);
    assert_non_null(paper->book);
    paper->metrics = fonts_metrics(paper->book);
    paper->pages = (Pages){.title = "Kealiʻi Muñoz, quarterback",
                           .author = "R. Kestrel & Co",
                           .subject = "A <dossier>",
                           .date = "2031-11-18",
                           .language = "en-US",
                           .tint = 0x123f52};
    paper->pages.pages = ARENA_ARRAY(arena, PAPER_MOST_PAGES, Page);
    paper->pages.room = PAPER_MOST_PAGES;
    return paper;
}

void paper_free(Paper *paper) {
    paper_shell(paper, NULL, "rm -rf '%s'", paper->folder);
    for (size_t at = 0; at < paper->pages.count; at++) free(paper->pages.pages[at].marks);
    fonts_close(paper->book);
    diag_free(paper->diagnostics);
    arena_free(paper->arena);
}

void paper_page(Paper *paper) {
    assert_true(paper->pages.count < PAPER_MOST_PAGES);
    paper->page = &paper->pages.pages[paper->pages.count++];
    paper->page->width = PAPER_WIDTH;
    paper->page->height = PAPER_HEIGHT;
    paper->page->label = arena_printf(paper->arena, "QB · %zu", paper->pages.count);
}

Mark *paper_mark(Paper *paper, MarkKind kind) {
    Page *page = paper->page;
    if (page->count == page->room) {
        page->room = page->room * 2 + FIRST_MARKS;
        page->marks = mem_resize(page->marks, page->room * sizeof *page->marks);
    }
    Mark *mark = &page->marks[page->count++];
    *mark = (Mark){.kind = kind};
    return mark;
}

void paper_open(Paper *paper, Role role, const char *alternative) {
    Mark *mark = paper_mark(paper, MARK_OPEN);
    mark->role = (uint8_t)role;
    mark->text = alternative;
}

void paper_close(Paper *paper) {
    paper_mark(paper, MARK_CLOSE);
}

static Point *new_point(Paper *paper, double x, double y) {
    Point *point = ARENA_NEW(paper->arena, Point);
    *point = (Point){x, y};
    return point;
}

Mark *paper_text(Paper *paper, Face face, double size, double x, double y, const char *text) {
    Mark *mark = paper_mark(paper, MARK_TEXT);
    mark->words = ARENA_ARRAY(paper->arena, MOST_WORDS, const Word *);
    for (const char *end; *text; text = *end ? end + 1 : end) {
        end = text + strcspn(text, " ");
        assert_true(mark->count + 1 < MOST_WORDS);
        mark->words[mark->count++] = paper->metrics->word(paper->metrics, face, text, (size_t)(end - text), false);
        if (*end && !end[1]) mark->words[mark->count++] = paper->metrics->word(paper->metrics, face, "", 0, false);
    }
    mark->face = (uint8_t)face;
    mark->size = (float)size;
    mark->points = new_point(paper, x, y);
    mark->fill = FULL;
    mark->word_space = (float)(paper->metrics->space(paper->metrics, face) * size / 1000);
    return mark;
}

Mark *paper_line(Paper *paper, double x1, double y1, double x2, double y2) {
    Mark *mark = paper_mark(paper, MARK_LINE);
    Point *points = ARENA_ARRAY(paper->arena, 2, Point);
    points[0] = (Point){x1, y1};
    points[1] = (Point){x2, y2};
    mark->points = points;
    mark->count = 2;
    mark->stroke = FULL;
    mark->stroke_width = .5F;
    return mark;
}

Mark *paper_rect(Paper *paper, Box box) {
    Mark *mark = paper_mark(paper, MARK_RECT);
    mark->box = box;
    mark->fill = (Ink){INK_BLACK, 14};
    return mark;
}

Mark *paper_disc(Paper *paper, double x, double y, double radius) {
    Mark *mark = paper_mark(paper, MARK_DISC);
    mark->points = new_point(paper, x, y);
    mark->size = (float)radius;
    mark->fill = (Ink){INK_ACCENT, 100};
    mark->stroke = (Ink){INK_PAPER, 100};
    mark->stroke_width = 1;
    return mark;
}

void paper_link(Paper *paper, Box box, const char *target) {
    Mark *mark = paper_mark(paper, MARK_LINK);
    mark->box = box;
    mark->text = target;
}

void paper_anchor(Paper *paper, double x, double y, const char *name) {
    Mark *mark = paper_mark(paper, MARK_ANCHOR);
    mark->points = new_point(paper, x, y);
    mark->text = name;
}

void paper_bookmark(Paper *paper, int level, const char *title, double y) {
    Mark *mark = paper_mark(paper, MARK_BOOKMARK);
    mark->points = new_point(paper, 0, y);
    mark->size = (float)level;
    mark->text = title;
}

void paper_paragraph(Paper *paper, Face face, double y, const char *text) {
    paper_open(paper, ROLE_PARAGRAPH, NULL);
    paper_text(paper, face, 9.5, 62, y, text);
    paper_close(paper);
}

static void sample_furniture(Paper *paper) {
    paper_open(paper, ROLE_ARTIFACT, NULL);
    paper_text(paper, FACE_PLAIN, 7.5, 62, 34, "Running head");
    paper_line(paper, 62, 39, 568, 39);
    paper_close(paper);
}

static void sample_row(Paper *paper, int row) {
    double y = 120 + 12 * row;
    paper_rect(paper, (Box){62, y - 9, 400, 12});
    paper_open(paper, ROLE_ROW, NULL);
    for (int column = 0; column < (row == 3 ? 1 : 4); column++) {
        Role role = column == 0 ? ROLE_ROW_HEAD : ROLE_CELL;
        paper_open(paper, row == 0 ? ROLE_COLUMN_HEAD : role, NULL);
        paper_text(paper, FACE_PLAIN, 8, 62 + 100 * column, y, arena_printf(paper->arena, "r%d c%d", row, column));
        paper_close(paper);
    }
    paper_close(paper);
}

static void sample_figure(Paper *paper) {
    paper_open(paper, ROLE_FIGURE, "On target 65 of 82 (79 %) – man");
    paper_line(paper, 100, 400, 300, 400)->dash = 2;
    paper_disc(paper, 200, 400, 5);
    paper_text(paper, FACE_STRONG, 8.5, 310, 403, "79%");
    paper_text(paper, FACE_MEDIUM, 8.5, 90, 440, "turned")->rotate = 90;
    paper_close(paper);
}

static void sample_list(Paper *paper) {
    paper_open(paper, ROLE_LIST, NULL);
    for (int item = 0; item < 3; item++) {
        paper_open(paper, ROLE_ITEM, NULL);
        paper_disc(paper, 65, 497 + 12 * item, 1.5);
        paper_text(paper, FACE_PROSE, 9.5, 72, 500 + 12 * item, arena_printf(paper->arena, "item %d", item));
        paper_close(paper);
    }
    paper_close(paper);
}

static void sample_links(Paper *paper) {
    paper_open(paper, ROLE_PARAGRAPH, NULL);
    paper_text(paper, FACE_PROSE, 9.5, 62, 560, "See ");
    paper_open(paper, ROLE_LINK, NULL);
    paper_text(paper, FACE_PROSE, 9.5, 82, 560, "snap g1.14 ");
    paper_link(paper, (Box){82, 552, 50, 12}, "snap-g1.14");
    paper_close(paper);
    paper_text(paper, FACE_PROSE, 9.5, 135, 560, "and the ");
    paper_open(paper, ROLE_LINK, NULL);
    paper_text(paper, FACE_PROSE, 9.5, 172, 560, "film");
    paper_link(paper, (Box){172, 552, 20, 12}, "https://example.org/wk 4.mp4#t=(1),2");
    paper_close(paper);
    paper_open(paper, ROLE_LINK, NULL);
    paper_text(paper, FACE_PROSE, 9.5, 200, 560, "nowhere");
    paper_link(paper, (Box){200, 552, 40, 12}, "no-such-anchor");
    paper_close(paper);
    paper_close(paper);
}

void paper_sample(Paper *paper) {
    paper_page(paper);
    paper_open(paper, ROLE_DOCUMENT, NULL);
    sample_furniture(paper);
    paper_open(paper, ROLE_SECTION, NULL);
    paper_bookmark(paper, 1, "Kealiʻi Muñoz", 50);
    paper_open(paper, ROLE_H1, NULL);
    paper_text(paper, FACE_DISPLAY, 34, 62, 90, "Kealiʻi Muñoz");
    paper_close(paper);
    sample_figure(paper);
    paper_open(paper, ROLE_TABLE, NULL);
    for (int row = 0; row < 5; row++) sample_row(paper, row);
    paper_page(paper);
    sample_furniture(paper);
    for (int row = 5; row < 9; row++) sample_row(paper, row);
    paper_close(paper);
    paper_bookmark(paper, 2, "Second", 300);
    paper_anchor(paper, 62, 300, "snap-g1.14");
    paper_open(paper, ROLE_H2, NULL);
    paper_text(paper, FACE_HEAD, 16, 62, 320, "Sharper against man than zone");
    paper_close(paper);
    paper_text(paper, FACE_PROSE_ITALIC, 9.5, 62, 350, "Text in a section alone");
    sample_list(paper);
    sample_links(paper);
    paper_close(paper);
    paper_close(paper);
}

const char *paper_print(Paper *paper, const char *name) {
    const char *path = arena_printf(paper->arena, "%s/%s", paper->folder, name);
    bool done = pdf_write(&paper->pages, paper->book, path, paper->diagnostics);
    if (!done) diag_print(paper->diagnostics, stderr, false);
    assert_true(done);
    return path;
}

const char *paper_shell(Paper *paper, int *status, const char *format, ...) {
    va_list args;
    va_start(args, format);
    const char *command = arena_vprintf(paper->arena, format, args);
    va_end(args);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    Buf all = {0};
    size_t got;
    do {
        got = fread(buf_reserve(&all, READ_BYTES), 1, READ_BYTES, pipe);
        all.length += got;
    } while (got);
    int ended = pclose(pipe);
    if (status) *status = WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
    const char *output = arena_copy(paper->arena, all.bytes, all.length);
    buf_free(&all);
    return output;
}

const Text *paper_bytes(Paper *paper, const char *path) {
    const Text *text = file_read(paper->arena, path, paper->diagnostics);
    assert_non_null(text);
    return text;
}

bool paper_has_tool(const char *tool) {
    Buf command = {0};
    buf_printf(&command, "command -v %s >/dev/null 2>&1", tool);
    int ended = system(buf_text(&command));
    buf_free(&command);
    return ended == 0;
}
