/* pdf_write: the device that turns pages into a PDF, and the file around it. */
#include <errno.h>
#include <string.h>

#include "base/arena.h"
#include "base/file.h"
#include "device/device.h"
#include "pdf/book.h"
#include "pdf/codes.h"
#include "pdf/content.h"
#include "pdf/embed.h"
#include "pdf/haru.h"
#include "pdf/links.h"
#include "pdf/meta.h"
#include "pdf/objects.h"
#include "pdf/plan.h"
#include "pdf/syntax.h"
#include "pdf/tags.h"

typedef struct PdfDevice {
    Device device; /* first: a Device of ours is its PdfDevice */
    Arena *arena;
    const Pages *pages;
    Haru *haru;
    Objects *objects;
    Tags *tags;
    Links links;
    Codes codes;
    Content content;
    HaruPage *numbers;
    size_t page;        /* index of the page at work */
    uint32_t resources; /* of every page */
    Buf catalog;
    bool has_fonts; /* every face used could be embedded */
} PdfDevice;

static PdfDevice *device_of(Device *device) {
    return (PdfDevice *)(void *)device;
}

static void begin(Device *device, const Pages *pages) {
    PdfDevice *pdf = device_of(device);
    const Plan *plan = plan_new(pdf->arena, pages);
    pdf->pages = pages;
    pdf->content.tint = pages->tint;
    pdf->resources = objects_reserve(pdf->objects);
    pdf->numbers = ARENA_ARRAY(pdf->arena, pages->count, HaruPage);
    for (size_t at = 0; at < pages->count; at++)
        pdf->numbers[at] = haru_add_page(pdf->haru, pages->pages[at].width, pages->pages[at].height);
    pdf->tags = tags_new(pdf->objects, &pdf->content, plan, pages->count);
    pdf->links = (Links){pages, plan, pdf->numbers, pdf->objects, pdf->tags, {0}};
}

static void page_begin(Device *device, const Page *page) {
    PdfDevice *pdf = device_of(device);
    pdf->page = (size_t)(page - pdf->pages->pages);
    content_begin_page(&pdf->content, page->height);
    tags_begin_page(pdf->tags, pdf->numbers[pdf->page].object);
}

static void paint_text(PdfDevice *pdf, const Mark *mark) {
    tags_before_text(pdf->tags, mark);
    content_text(&pdf->content, &pdf->codes, mark);
}

static void paint_shape(PdfDevice *pdf, const Mark *mark) {
    tags_before_shape(pdf->tags, mark);
    content_shape(&pdf->content, mark);
}

static void open_element(PdfDevice *pdf, const Mark *mark) {
    tags_open(pdf->tags, (Role)mark->role, mark->text);
}

static void close_element(PdfDevice *pdf, const Mark *mark) {
    (void)mark;
    tags_close(pdf->tags);
}

static void add_link(PdfDevice *pdf, const Mark *mark) {
    links_add(&pdf->links, pdf->page, (size_t)(mark - pdf->pages->pages[pdf->page].marks));
}

/* The plan has found the anchors. */
static void pass_anchor(PdfDevice *pdf, const Mark *mark) {
    (void)pdf;
    (void)mark;
}

static void add_bookmark(PdfDevice *pdf, const Mark *mark) {
    double height = pdf->pages->pages[pdf->page].height;
    haru_add_outline(pdf->haru, (int)mark->size, mark->text, pdf->page, mark->points[0].x, height - mark->points[0].y);
}

static void take_mark(Device *device, const Mark *mark) {
    static void (*const takers[])(PdfDevice * pdf, const Mark *mark) = {
        [MARK_TEXT] = paint_text,       [MARK_LINE] = paint_shape, [MARK_SHAPE] = paint_shape,
        [MARK_RECT] = paint_shape,      [MARK_DISC] = paint_shape, [MARK_OPEN] = open_element,
        [MARK_CLOSE] = close_element,   [MARK_LINK] = add_link,    [MARK_ANCHOR] = pass_anchor,
        [MARK_BOOKMARK] = add_bookmark,
    };
    takers[mark->kind](device_of(device), mark);
}

static void page_end(Device *device) {
    PdfDevice *pdf = device_of(device);
    HaruPage numbers = pdf->numbers[pdf->page];
    tags_end_page(pdf->tags);
    objects_stream(pdf->objects, numbers.contents, STREAM_DEFLATED, "", &pdf->content.out);
    Buf entries = {0};
    buf_printf(&entries, "/Resources %u 0 R/Tabs/S/StructParents %zu", pdf->resources, pdf->page);
    if (pdf->links.annotations.length) {
        BUF_PUT(&entries, "/Annots[");
        buf_put(&entries, pdf->links.annotations.bytes, pdf->links.annotations.length);
        buf_putc(&entries, ']');
    }
    haru_write_page(pdf->haru, pdf->page, &entries, objects_open(pdf->objects, numbers.object));
    objects_close(pdf->objects);
    pdf->links.annotations.length = 0;
    buf_free(&entries);
}

static void end(Device *device) {
    PdfDevice *pdf = device_of(device);
    uint32_t structure = tags_finish(pdf->tags);
    pdf->has_fonts = embed_fonts(&pdf->codes, pdf->objects, pdf->resources);
    meta_write(pdf->pages, tags_are_accessible(pdf->tags), structure, pdf->haru, pdf->objects, &pdf->catalog);
    haru_set_catalog(pdf->haru, &pdf->catalog);
}

static void free_device(PdfDevice *pdf) {
    tags_free(pdf->tags);
    objects_free(pdf->objects);
    haru_free(pdf->haru);
    codes_free(&pdf->codes);
    buf_free(&pdf->content.out);
    buf_free(&pdf->links.annotations);
    buf_free(&pdf->catalog);
    arena_free(pdf->arena);
}

/* NULL when the document is complete, else what is wrong. */
static const char *write_document(const Pages *pages, FontBook *book, FileWriter *writer) {
    PdfDevice pdf = {.device = {begin, page_begin, take_mark, page_end, end}};
    const char *wrong = NULL;
    pdf.arena = arena_new();
    pdf.codes.book = book;
    pdf.haru = haru_new();
    pdf.objects = objects_new(writer, pdf.haru);
    device_play(&pdf.device, pages);
    if (!pdf.has_fonts) wrong = "a font cannot be subset";
    if (pdf.codes.full) wrong = "it uses more different characters of one face than a font can hold";
    if (!wrong && !objects_finish(pdf.objects)) wrong = strerror(errno);
    if (haru_failed(pdf.haru)) wrong = "a title is longer than 65,535 bytes, or a page larger than 200 inches";
    free_device(&pdf);
    return wrong;
}

bool pdf_write(const Pages *pages, FontBook *book, const char *path, Diagnostics *diagnostics) {
    FileWriter *writer = file_create(path);
    if (!writer) {
        file_report_write(diagnostics, path);
        return false;
    }
    const char *wrong = write_document(pages, book, writer);
    if (wrong) {
        file_abandon(writer);
        file_report_failed(diagnostics, path, wrong);
        return false;
    }
    if (file_commit(writer)) return true;
    file_report_write(diagnostics, path);
    return false;
}
