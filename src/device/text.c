/* The device that prints: one line a mark, indented by the structure it stands in. */
#include "device/device.h"

enum { COORDINATE_PLACES = 2 };

typedef struct TextDevice {
    Device device; /* first, so that the callbacks find the rest */
    Buf *out;
    size_t depth, pages;
} TextDevice;

static const char *const FACES[] = {
    [FACE_PROSE] = "prose",
    [FACE_PROSE_ITALIC] = "prose-italic",
    [FACE_PROSE_STRONG] = "prose-strong",
    [FACE_HEAD] = "head",
    [FACE_DISPLAY] = "display",
    [FACE_PLAIN] = "plain",
    [FACE_MEDIUM] = "medium",
    [FACE_STRONG] = "strong",
};
_Static_assert(sizeof FACES / sizeof *FACES == FACE_COUNT, "every face has its name");

static const char *const ROLES[] = {
    [ROLE_DOCUMENT] = "document",
    [ROLE_SECTION] = "section",
    [ROLE_H1] = "h1",
    [ROLE_H2] = "h2",
    [ROLE_H3] = "h3",
    [ROLE_PARAGRAPH] = "paragraph",
    [ROLE_LIST] = "list",
    [ROLE_ITEM] = "item",
    [ROLE_TABLE] = "table",
    [ROLE_ROW] = "row",
    [ROLE_COLUMN_HEAD] = "column-head",
    [ROLE_ROW_HEAD] = "row-head",
    [ROLE_CELL] = "cell",
    [ROLE_FIGURE] = "figure",
    [ROLE_LINK] = "link",
    [ROLE_ARTIFACT] = "artifact",
};
_Static_assert(sizeof ROLES / sizeof *ROLES == ROLE_ARTIFACT + 1, "every role has its name");

static const char *const INKS[] = {[INK_BLACK] = "ink", [INK_ACCENT] = "accent", [INK_PAPER] = "paper"};

static void put_number(Buf *out, double value) {
    buf_putc(out, ' ');
    buf_number(out, value, COORDINATE_PLACES);
}

static void put_labelled(Buf *out, const char *label, double value) {
    buf_printf(out, " %s", label);
    put_number(out, value);
}

/* Quotes and line ends inside are escaped, so that a mark is always one line. */
static void put_quoted(Buf *out, const char *text) {
    buf_putc(out, ' ');
    buf_putc(out, '"');
    for (; text && *text; text++) {
        if (*text == '"' || *text == '\\') buf_putc(out, '\\');
        if (*text == '\n') {
            BUF_PUT(out, "\\n");
        } else {
            buf_putc(out, *text);
        }
    }
    buf_putc(out, '"');
}

static void put_ink(Buf *out, const char *label, Ink ink) {
    if (ink.tint) buf_printf(out, " %s %s %d", label, INKS[ink.base], ink.tint);
}

static void put_points(Buf *out, const Mark *mark, size_t count) {
    for (size_t i = 0; i < count; i++) {
        put_number(out, mark->points[i].x);
        put_number(out, mark->points[i].y);
    }
}

static void put_box(Buf *out, Box box) {
    put_number(out, box.x);
    put_number(out, box.y);
    put_number(out, box.width);
    put_number(out, box.height);
}

static void put_painting(Buf *out, const Mark *mark) {
    put_ink(out, "fill", mark->fill);
    put_ink(out, "stroke", mark->stroke);
    if (mark->stroke.tint) put_labelled(out, "width", (double)mark->stroke_width);
    if (mark->dash > 0) {
        put_labelled(out, "dash", (double)mark->dash);
        put_number(out, (double)mark->gap);
    }
}

/* ---- one function a kind of mark ---- */

static void text_mark(Buf *out, const Mark *mark) {
    BUF_PUT(out, "text");
    put_points(out, mark, 1);
    buf_printf(out, " %s", FACES[mark->face]);
    put_number(out, (double)mark->size);
    put_ink(out, "in", mark->fill);
    if (mark->count > 1) put_labelled(out, "gap", (double)mark->word_space);
    if (mark->tracking != 0) put_labelled(out, "tracking", (double)mark->tracking);
    if (mark->rotate != 0) put_labelled(out, "turned", (double)mark->rotate);
    Buf words = {0};
    for (uint32_t i = 0; i < mark->count; i++) {
        if (i) buf_putc(&words, ' ');
        buf_puts(&words, mark->words[i]->text);
        if (mark->words[i]->soft) buf_putc(&words, '-');
    }
    put_quoted(out, buf_text(&words));
    buf_free(&words);
}

static void line_mark(Buf *out, const Mark *mark) {
    BUF_PUT(out, "line");
    put_points(out, mark, mark->count);
    put_painting(out, mark);
}

static void shape_mark(Buf *out, const Mark *mark) {
    BUF_PUT(out, "shape");
    put_points(out, mark, mark->count);
    put_painting(out, mark);
}

static void rect_mark(Buf *out, const Mark *mark) {
    BUF_PUT(out, "rect");
    put_box(out, mark->box);
    put_painting(out, mark);
}

static void disc_mark(Buf *out, const Mark *mark) {
    BUF_PUT(out, "disc");
    put_points(out, mark, 1);
    put_labelled(out, "radius", (double)mark->size);
    put_painting(out, mark);
}

static void open_mark(Buf *out, const Mark *mark) {
    buf_puts(out, ROLES[mark->role]);
    if (mark->text) put_quoted(out, mark->text);
}

static void close_mark(Buf *out, const Mark *mark) {
    (void)mark;
    BUF_PUT(out, "end");
}

static void link_mark(Buf *out, const Mark *mark) {
    BUF_PUT(out, "link-to");
    put_quoted(out, mark->text);
    put_box(out, mark->box);
}

static void anchor_mark(Buf *out, const Mark *mark) {
    BUF_PUT(out, "anchor");
    put_points(out, mark, 1);
    put_quoted(out, mark->text);
}

static void bookmark_mark(Buf *out, const Mark *mark) {
    buf_printf(out, "bookmark %d", (int)mark->size);
    put_points(out, mark, 1);
    put_quoted(out, mark->text);
}

static void (*const PRINTERS[])(Buf *out, const Mark *mark) = {
    [MARK_TEXT] = text_mark,     [MARK_LINE] = line_mark,         [MARK_SHAPE] = shape_mark, [MARK_RECT] = rect_mark,
    [MARK_DISC] = disc_mark,     [MARK_OPEN] = open_mark,         [MARK_CLOSE] = close_mark, [MARK_LINK] = link_mark,
    [MARK_ANCHOR] = anchor_mark, [MARK_BOOKMARK] = bookmark_mark,
};
_Static_assert(sizeof PRINTERS / sizeof *PRINTERS == MARK_BOOKMARK + 1, "every kind of mark is printed");

/* ---- the callbacks ---- */

static void begin(Device *device, const Pages *pages) {
    TextDevice *text = (TextDevice *)device;
    const struct {
        const char *label, *value;
    } facts[] = {{"title", pages->title},
                 {"author", pages->author},
                 {"subject", pages->subject},
                 {"date", pages->date},
                 {"language", pages->language}};
    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++) {
        if (!facts[i].value) continue;
        buf_puts(text->out, facts[i].label);
        put_quoted(text->out, facts[i].value);
        buf_putc(text->out, '\n');
    }
    buf_printf(text->out, "tint #%06x\n", pages->tint & 0xFFFFFFu);
}

static void page(Device *device, const Page *page) {
    TextDevice *text = (TextDevice *)device;
    buf_printf(text->out, "page %zu", ++text->pages);
    put_number(text->out, page->width);
    put_number(text->out, page->height);
    put_quoted(text->out, page->label);
    buf_putc(text->out, '\n');
}

static void mark(Device *device, const Mark *mark) {
    TextDevice *text = (TextDevice *)device;
    if (mark->kind == MARK_CLOSE && text->depth) text->depth--;
    for (size_t i = 0; i <= text->depth; i++) BUF_PUT(text->out, "  ");
    PRINTERS[mark->kind](text->out, mark);
    buf_putc(text->out, '\n');
    if (mark->kind == MARK_OPEN) text->depth++;
}

static void nothing(Device *device) {
    (void)device;
}

void device_text(const Pages *pages, Buf *out) {
    TextDevice text = {.device = {begin, page, mark, nothing, nothing}, .out = out};
    device_play(&text.device, pages);
}
