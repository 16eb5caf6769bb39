#include "pdf/meta.h"

#include <stdlib.h>
#include <string.h>

#include "pdf/labels.h"
#include "pdf/srgb.h"
#include "pdf/syntax.h"
#include "pdf/xmp.h"

#ifndef TB_VERSION
#error "TB_VERSION is given by the build"
#endif

static const char producer[] = "Tapebound " TB_VERSION;

static bool is_given(const char *text) {
    return text && *text;
}

static bool has_digits(const char *text, int count) {
    for (int at = 0; at < count; at++)
        if (text[at] < '0' || text[at] > '9') return false;
    return true;
}

static bool is_date(const char *date) {
    return is_given(date) && has_digits(date, 4) && date[4] == '-' && has_digits(date + 5, 2) && date[7] == '-' &&
           has_digits(date + 8, 2) && !date[10];
}

static void set_info(const MetaText *meta, Haru *haru) {
    haru_set_info(haru, "Title", meta->title);
    haru_set_info(haru, "Producer", meta->producer);
    haru_set_info(haru, "Creator", meta->producer);
    if (is_given(meta->author)) haru_set_info(haru, "Author", meta->author);
    if (is_given(meta->subject)) haru_set_info(haru, "Subject", meta->subject);
    if (!meta->date) return;
    Buf date = {0};
    buf_printf(&date, "D:%.4s%.2s%.2s000000Z", meta->date, meta->date + 5, meta->date + 8);
    haru_set_info(haru, "CreationDate", buf_text(&date));
    haru_set_info(haru, "ModDate", buf_text(&date));
    buf_free(&date);
}

static uint32_t write_xmp(const MetaText *meta, Objects *objects) {
    Buf packet = {0};
    xmp_write(meta, &packet);
    uint32_t number = objects_reserve(objects);
    objects_stream(objects, number, STREAM_PLAIN, "/Type/Metadata/Subtype/XML", &packet);
    buf_free(&packet);
    return number;
}

static uint32_t write_profile(Objects *objects) {
    Buf profile = {0};
    srgb_write(&profile);
    uint32_t number = objects_reserve(objects);
    objects_stream(objects, number, STREAM_DEFLATED, "/N 3", &profile);
    buf_free(&profile);
    return number;
}

void meta_write(const Pages *pages, bool accessible, uint32_t structure, Haru *haru, Objects *objects, Buf *catalog) {
    MetaText meta = {.author = pages->author, .subject = pages->subject, .producer = producer};
    meta.title = is_given(pages->title) ? pages->title : "Untitled";
    meta.date = is_date(pages->date) ? pages->date : NULL;
    meta.accessible = accessible;
    set_info(&meta, haru);
    BUF_PUT(catalog, "/Lang");
    syntax_text(catalog, is_given(pages->language) ? pages->language : "en");
    buf_printf(catalog, "/Metadata %u 0 R", write_xmp(&meta, objects));
    BUF_PUT(catalog, "/OutputIntents[<</Type/OutputIntent/S/GTS_PDFA1/OutputConditionIdentifier(sRGB)/Info(sRGB)");
    buf_printf(catalog, "/DestOutputProfile %u 0 R>>]", write_profile(objects));
    BUF_PUT(catalog, "/MarkInfo<</Marked true>>/ViewerPreferences<</DisplayDocTitle true>>");
    buf_printf(catalog, "/StructTreeRoot %u 0 R", structure);
    labels_write(pages, catalog);
}
