#include "pdf/links.h"

#include <string.h>

#include "pdf/syntax.h"

static bool is_address(const char *target) {
    return !strncmp(target, "http://", 7) || !strncmp(target, "https://", 8);
}

/* An address is written in ASCII (ISO 32000-1, 12.6.4.7): other bytes as percent and two digits. */
static void put_address(Buf *out, const char *target) {
    BUF_PUT(out, "/A<</S/URI/URI(");
    for (; *target; target++) {
        unsigned char byte = (unsigned char)*target;
        if (byte > ' ' && byte <= '~')
            syntax_literal_byte(out, byte);
        else
            buf_printf(out, "%%%02X", byte);
    }
    BUF_PUT(out, ")>>");
}

static void put_place(const Links *links, const Anchor *anchor, Buf *out) {
    BUF_PUT(out, "/Dest[");
    syntax_reference(out, links->numbers[anchor->page].object);
    BUF_PUT(out, "/XYZ ");
    syntax_hundredths(out, syntax_round(anchor->point.x));
    buf_putc(out, ' ');
    syntax_hundredths(out, syntax_round(links->pages->pages[anchor->page].height - anchor->point.y));
    BUF_PUT(out, " 0]");
}

static void put_rectangle(const Page *page, const Box *box, Buf *out) {
    double edges[4] = {box->x, page->height - box->y - box->height, box->x + box->width, page->height - box->y};
    BUF_PUT(out, "/Rect[");
    for (int edge = 0; edge < 4; edge++) {
        if (edge) buf_putc(out, ' ');
        syntax_hundredths(out, syntax_round(edges[edge]));
    }
    buf_putc(out, ']');
}

static void append_words(const Mark *mark, Buf *text) {
    for (uint32_t at = 0; at < mark->count; at++) {
        if (text->length) buf_putc(text, ' ');
        buf_put(text, mark->words[at]->text, mark->words[at]->length);
    }
}

/* Index of the mark that opens the element around mark `index`, or the page's count. */
static size_t find_open(const Page *page, size_t index) {
    size_t depth = 0;
    while (index-- > 0) {
        if (page->marks[index].kind == MARK_CLOSE) depth++;
        if (page->marks[index].kind == MARK_OPEN && depth-- == 0) return index;
    }
    return page->count;
}

/* The words of the LINK element around mark `index`, if it stands in one. */
static void gather_words(const Page *page, size_t index, Buf *text) {
    size_t at = find_open(page, index);
    if (at == page->count || page->marks[at].role != ROLE_LINK) return;
    size_t depth = 0;
    for (; at < page->count; at++) {
        const Mark *mark = &page->marks[at];
        if (mark->kind == MARK_OPEN) depth++;
        if (mark->kind == MARK_CLOSE && --depth == 0) return;
        if (mark->kind == MARK_TEXT) append_words(mark, text);
    }
}

/* What the link says, for those who cannot see it: its own words, else where it leads. */
static void put_contents(const Links *links, size_t page, size_t index, const Anchor *anchor, Buf *out) {
    const Page *from = &links->pages->pages[page];
    Buf words = {0};
    gather_words(from, index, &words);
    if (!words.length && anchor && links->pages->pages[anchor->page].label)
        buf_puts(&words, links->pages->pages[anchor->page].label);
    if (!words.length) buf_puts(&words, from->marks[index].text);
    BUF_PUT(out, "/Contents");
    syntax_text(out, buf_text(&words));
    buf_free(&words);
}

void links_add(Links *links, size_t page, size_t index) {
    const Page *from = &links->pages->pages[page];
    const Mark *mark = &from->marks[index];
    const Anchor *anchor = is_address(mark->text) ? NULL : plan_find(links->plan, mark->text);
    if (!anchor && !is_address(mark->text)) return;
    uint32_t number = objects_reserve(links->objects);
    uint32_t key = tags_link(links->tags, number);
    syntax_reference(&links->annotations, number);
    buf_putc(&links->annotations, ' ');
    Buf *out = objects_open(links->objects, number);
    BUF_PUT(out, "<</Type/Annot/Subtype/Link/F 4/Border[0 0 0]/P ");
    syntax_reference(out, links->numbers[page].object);
    put_rectangle(from, &mark->box, out);
    buf_printf(out, "/StructParent %u", key);
    put_contents(links, page, index, anchor, out);
    if (anchor)
        put_place(links, anchor, out);
    else
        put_address(out, mark->text);
    BUF_PUT(out, ">>");
    objects_close(links->objects);
}
