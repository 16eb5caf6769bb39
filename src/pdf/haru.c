#include "pdf/haru.h"

#include <hpdf.h>
#include <hpdf_doc.h>
#include <hpdf_encrypt.h>
#include <hpdf_objects.h>
#include <hpdf_pages.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "pdf/syntax.h"

/* Object numbers keep to 23 bits of the header of a libharu object; the rest are flags. */
enum { NUMBER_MASK = 0x7FFFFF, PAGES_PER_NODE = 64, DEEPEST_OUTLINE = 8, OPENED_LEVELS = 1 };

struct Haru {
    HPDF_Doc document;
    HPDF_Stream sink;                       /* writes into the buffer that its attr points to */
    HPDF_Outline open[DEEPEST_OUTLINE + 1]; /* the newest bookmark of each level; [0] stays NULL, the root */
    HPDF_MD5_CTX digest;
    bool failed;
};

static void *allocate(HPDF_UINT size) {
    return mem_alloc(size);
}

static HPDF_STATUS sink_write(HPDF_Stream stream, const HPDF_BYTE *bytes, HPDF_UINT length) {
    buf_put(stream->attr, bytes, length);
    return HPDF_OK;
}

/* Dictionary entries kept as text: attr is the Buf. */
static HPDF_STATUS write_entries(HPDF_Dict dictionary, HPDF_Stream stream) {
    const Buf *entries = dictionary->attr;
    buf_put(stream->attr, entries->bytes, entries->length);
    return HPDF_OK;
}

static uint32_t number_of(const void *object) {
    return ((const HPDF_Obj_Header *)object)->obj_id & NUMBER_MASK;
}

static void check(Haru *haru, HPDF_STATUS status) {
    if (status != HPDF_OK) haru->failed = true;
}

Haru *haru_new(void) {
    Haru *haru = mem_alloc(sizeof(Haru));
    haru->document = HPDF_NewEx(NULL, allocate, free, 0, NULL);
    if (!haru->document) {
        haru->failed = true;
        return haru;
    }
    haru->document->pdf_version = HPDF_VER_17;
    check(haru, HPDF_SetPagesConfiguration(haru->document, PAGES_PER_NODE));
    haru->sink = HPDF_CallbackWriter_New(haru->document->mmgr, sink_write, NULL);
    HPDF_MD5Init(&haru->digest);
    return haru;
}

void haru_free(Haru *haru) {
    if (!haru) return;
    if (haru->document) {
        HPDF_Stream_Free(haru->sink);
        HPDF_Free(haru->document);
    }
    free(haru);
}

bool haru_failed(const Haru *haru) {
    return haru->failed || HPDF_GetError(haru->document) != HPDF_OK;
}

uint32_t haru_reserve(Haru *haru) {
    HPDF_Xref xref = haru->document->xref;
    uint32_t number = xref->start_offset + xref->entries->count;
    xref->start_offset++;
    if (number > NUMBER_MASK) haru->failed = true;
    return number;
}

HaruPage haru_add_page(Haru *haru, double width, double height) {
    HPDF_Page page = HPDF_AddPage(haru->document);
    if (!page) {
        haru->failed = true;
        return (HaruPage){0};
    }
    check(haru, HPDF_Page_SetWidth(page, (HPDF_REAL)width));
    check(haru, HPDF_Page_SetHeight(page, (HPDF_REAL)height));
    HPDF_Dict_RemoveElement(page, "Resources");
    return (HaruPage){number_of(page), number_of(((HPDF_PageAttr)page->attr)->contents)};
}

static HPDF_Page page_at(const Haru *haru, size_t index) {
    return HPDF_List_ItemAt(haru->document->page_list, (HPDF_UINT)index);
}

static void write_value(Haru *haru, void *object, Buf *out) {
    haru->sink->attr = out;
    check(haru, HPDF_Obj_WriteValue(object, haru->sink, NULL));
}

void haru_write_page(Haru *haru, size_t index, const Buf *entries, Buf *out) {
    HPDF_Page page = page_at(haru, index);
    void *attributes = page->attr;
    HPDF_Dict_BeforeWriteFunc before = page->before_write_fn;
    Buf copy = *entries;
    page->before_write_fn = NULL; /* it would finish a content stream that is not ours */
    page->write_fn = write_entries;
    page->attr = &copy;
    write_value(haru, page, out);
    page->attr = attributes;
    page->write_fn = NULL;
    page->before_write_fn = before;
}

static HPDF_Binary text_object(Haru *haru, const char *text) {
    Buf bytes = {0};
    syntax_text_bytes(&bytes, text);
    HPDF_Binary object = HPDF_Binary_New(haru->document->mmgr, (HPDF_BYTE *)bytes.bytes, (HPDF_UINT)bytes.length);
    buf_free(&bytes);
    return object;
}

/* A destination of our own, because libharu's refuses to keep the reader's zoom. */
static HPDF_Array new_destination(Haru *haru, size_t page, double x, double y) {
    HPDF_MMgr memory = haru->document->mmgr;
    HPDF_Array place = HPDF_Array_New(memory);
    check(haru, HPDF_Array_Add(place, page_at(haru, page)));
    check(haru, HPDF_Array_AddName(place, "XYZ"));
    check(haru, HPDF_Array_AddReal(place, (HPDF_REAL)x));
    check(haru, HPDF_Array_AddReal(place, (HPDF_REAL)y));
    check(haru, HPDF_Array_AddNumber(place, 0));
    return place;
}

/* The level that a bookmark really gets: none is skipped, none is deeper than we keep. */
static int outline_level(const Haru *haru, int wanted) {
    int level = 1;
    while (level < wanted && level < DEEPEST_OUTLINE && haru->open[level]) level++;
    return level;
}

void haru_add_outline(Haru *haru, int wanted, const char *title, size_t page, double x, double y) {
    int level = outline_level(haru, wanted);
    HPDF_Outline outline = HPDF_CreateOutline(haru->document, haru->open[level - 1], "", NULL);
    if (!outline) {
        haru->failed = true;
        return;
    }
    check(haru, HPDF_Dict_Add(outline, "Title", text_object(haru, title)));
    check(haru, HPDF_Dict_Add(outline, "Dest", new_destination(haru, page, x, y)));
    check(haru, HPDF_Outline_SetOpened(outline, level <= OPENED_LEVELS));
    haru->open[level] = outline;
    for (int deeper = level + 1; deeper <= DEEPEST_OUTLINE; deeper++) haru->open[deeper] = NULL;
    if (level == 1) check(haru, HPDF_SetPageMode(haru->document, HPDF_PAGE_MODE_USE_OUTLINE));
}

void haru_set_info(Haru *haru, const char *key, const char *text) {
    check(haru, HPDF_Dict_Add(haru->document->info, key, text_object(haru, text)));
}

void haru_set_catalog(Haru *haru, Buf *entries) {
    haru->document->catalog->attr = entries;
    haru->document->catalog->write_fn = write_entries;
}

uint32_t haru_catalog(const Haru *haru) {
    return number_of(haru->document->catalog);
}

uint32_t haru_info(const Haru *haru) {
    return number_of(haru->document->info);
}

static void *object_at(const Haru *haru, size_t index) {
    HPDF_XrefEntry entry = HPDF_List_ItemAt(haru->document->xref->entries, (HPDF_UINT)index);
    return entry->obj;
}

size_t haru_object_count(const Haru *haru) {
    return haru->document->xref->entries->count;
}

uint32_t haru_object(const Haru *haru, size_t index) {
    void *object = object_at(haru, index);
    if (!object) return 0;
    unsigned kind = ((const HPDF_Obj_Header *)object)->obj_class & HPDF_OCLASS_ANY;
    if (kind == HPDF_OCLASS_NUMBER) return 0;
    if (kind == HPDF_OCLASS_DICT && ((HPDF_Dict)object)->stream) return 0;
    return number_of(object);
}

void haru_write_object(Haru *haru, size_t index, Buf *out) {
    write_value(haru, object_at(haru, index), out);
}

void haru_digest_add(Haru *haru, const void *bytes, size_t length) {
    HPDF_MD5Update(&haru->digest, bytes, (HPDF_UINT32)length);
}

void haru_digest_take(Haru *haru, unsigned char digest[HARU_DIGEST_BYTES]) {
    HPDF_MD5Final(digest, &haru->digest);
}
