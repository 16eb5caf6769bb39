#include "pdf/embed.h"

#include <hb-ot.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "pdf/charmap.h"
#include "pdf/subset.h"
#include "pdf/syntax.h"

enum {
    FLAG_SERIF = 1 << 1, /* font flags, ISO 32000-1, table 123 */
    FLAG_SYMBOLIC = 1 << 2,
    FLAG_ITALIC = 1 << 6,
    TAG_LETTERS = 6,
    ALPHABET = 26,
    HEAD_BOX = 36 /* offset of xMin in a font's head table */
};

/* One face on its way into the file. */
typedef struct Embedding {
    const LoadedFace *face;
    const FaceCodes *codes;
    Objects *objects;
    hb_set_t *glyphs;
    hb_map_t *numbers; /* new glyph numbers by old */
    char tag[TAG_LETTERS + 1];
    uint32_t program, descriptor, descendant, glyph_map, to_unicode;
} Embedding;

static bool uses_plain(const FaceCodes *codes, unsigned character) {
    return codes->plain[character / 64] >> character % 64 & 1;
}

static void collect_glyphs(Embedding *embedding) {
    hb_set_add(embedding->glyphs, 0);
    for (unsigned character = ' '; character <= '~'; character++)
        if (uses_plain(embedding->codes, character))
            hb_set_add(embedding->glyphs, embedding->face->pairs[character].glyph);
    for (uint32_t at = 0; at < embedding->codes->extra_count; at++)
        hb_set_add(embedding->glyphs, embedding->face->pairs[embedding->codes->extras[at]].glyph);
}

/* Six letters that stand for the glyphs chosen (ISO 32000-1, 9.6.4), by an FNV-1a hash of their numbers. */
static void make_tag(Embedding *embedding) {
    uint64_t hash = 14695981039346656037ULL;
    for (hb_codepoint_t glyph = HB_SET_VALUE_INVALID; hb_set_next(embedding->glyphs, &glyph);)
        hash = (hash ^ glyph) * 1099511628211ULL;
    for (int letter = 0; letter < TAG_LETTERS; letter++, hash /= ALPHABET)
        embedding->tag[letter] = (char)('A' + hash % ALPHABET);
}

static bool write_program(Embedding *embedding) {
    Buf program = {0};
    Buf entries = {0};
    bool done = subset_write(embedding->face, embedding->glyphs, embedding->numbers, &program);
    buf_printf(&entries, "/Length1 %zu", program.length);
    embedding->program = objects_reserve(embedding->objects);
    if (done) objects_stream(embedding->objects, embedding->program, STREAM_DEFLATED, buf_text(&entries), &program);
    buf_free(&program);
    buf_free(&entries);
    return done;
}

static void put_glyph_number(const Embedding *embedding, uint32_t pair, Buf *map) {
    hb_codepoint_t number = hb_map_get(embedding->numbers, embedding->face->pairs[pair].glyph);
    buf_putc(map, (char)(number >> 8));
    buf_putc(map, (char)number);
}

/* CIDToGIDMap: a character has its own number, so that two texts may share a glyph. */
static void write_glyph_map(Embedding *embedding) {
    Buf map = {0};
    for (unsigned character = 0; character < CODES_FIRST_EXTRA; character++) {
        if (uses_plain(embedding->codes, character))
            put_glyph_number(embedding, character, &map);
        else
            buf_put(&map, "\0", 2);
    }
    for (uint32_t at = 0; at < embedding->codes->extra_count; at++)
        put_glyph_number(embedding, embedding->codes->extras[at], &map);
    embedding->glyph_map = objects_reserve(embedding->objects);
    objects_stream(embedding->objects, embedding->glyph_map, STREAM_DEFLATED, "", &map);
    buf_free(&map);
}

static long thousandths(const Embedding *embedding, hb_position_t units) {
    return lround(units * embedding->face->unit);
}

/* Box around all glyphs of the face, from its head table. */
static void put_box(const Embedding *embedding, Buf *out) {
    hb_blob_t *head = hb_face_reference_table(embedding->face->face, HB_TAG('h', 'e', 'a', 'd'));
    unsigned length;
    const char *bytes = hb_blob_get_data(head, &length);
    BUF_PUT(out, "/FontBBox[");
    for (unsigned edge = HEAD_BOX; edge < HEAD_BOX + 8 && edge + 1 < length; edge += 2) {
        int16_t units = (int16_t)((unsigned char)bytes[edge] << 8 | (unsigned char)bytes[edge + 1]);
        buf_printf(out, "%ld ", thousandths(embedding, units));
    }
    buf_putc(out, ']');
    hb_blob_destroy(head);
}

/* Stem width from weight: no table of the font holds it, and readers use it only to imitate a missing font. */
static long stem_of(const Embedding *embedding) {
    double weight = hb_style_get_value(embedding->face->font, HB_STYLE_TAG_WEIGHT);
    return lround(10 + 220 * (weight - 50) / 900);
}

static void write_descriptor(Embedding *embedding) {
    const LoadedFace *face = embedding->face;
    int flags = FLAG_SYMBOLIC | (face->info->serif ? FLAG_SERIF : 0) | (face->info->italic ? FLAG_ITALIC : 0);
    hb_font_extents_t extents;
    hb_font_get_h_extents(face->font, &extents);
    embedding->descriptor = objects_reserve(embedding->objects);
    Buf *out = objects_open(embedding->objects, embedding->descriptor);
    buf_printf(out, "<</Type/FontDescriptor/FontName/%s+%s/Flags %d", embedding->tag, face->info->name, flags);
    put_box(embedding, out);
    buf_printf(out, "/ItalicAngle %ld", lround((double)hb_style_get_value(face->font, HB_STYLE_TAG_SLANT_ANGLE)));
    buf_printf(out, "/Ascent %ld/Descent %ld", thousandths(embedding, extents.ascender),
               thousandths(embedding, extents.descender));
    buf_printf(out, "/CapHeight %ld/StemV %ld/FontFile2 %u 0 R>>", lround(face->cap_height), stem_of(embedding),
               embedding->program);
    objects_close(embedding->objects);
}

static void put_width(const Embedding *embedding, uint32_t pair, Buf *out) {
    syntax_hundredths(out, lround(100 * face_advance(embedding->face, embedding->face->pairs[pair].glyph)));
    buf_putc(out, ' ');
}

/* W: runs of neighbouring characters. */
static void put_widths(const Embedding *embedding, Buf *out) {
    bool in_run = false;
    for (unsigned character = ' '; character <= '~'; character++) {
        bool used = uses_plain(embedding->codes, character);
        if (in_run && !used) buf_putc(out, ']');
        if (used && !in_run) buf_printf(out, "%u[", character);
        if (used) put_width(embedding, character, out);
        in_run = used;
    }
    if (in_run) buf_putc(out, ']');
    if (!embedding->codes->extra_count) return;
    buf_printf(out, "%d[", CODES_FIRST_EXTRA);
    for (uint32_t at = 0; at < embedding->codes->extra_count; at++)
        put_width(embedding, embedding->codes->extras[at], out);
    buf_putc(out, ']');
}

static void write_descendant(Embedding *embedding) {
    embedding->descendant = objects_reserve(embedding->objects);
    Buf *out = objects_open(embedding->objects, embedding->descendant);
    buf_printf(out, "<</Type/Font/Subtype/CIDFontType2/BaseFont/%s+%s", embedding->tag, embedding->face->info->name);
    buf_printf(out, "/CIDSystemInfo" CHARMAP_SYSTEM_INFO "/FontDescriptor %u 0 R/CIDToGIDMap %u 0 R/DW 0/W[",
               embedding->descriptor, embedding->glyph_map);
    put_widths(embedding, out);
    BUF_PUT(out, "]>>");
    objects_close(embedding->objects);
}

static void write_text_map(Embedding *embedding) {
    Buf map = {0};
    charmap_text(embedding->face, embedding->codes, &map);
    embedding->to_unicode = objects_reserve(embedding->objects);
    objects_stream(embedding->objects, embedding->to_unicode, STREAM_DEFLATED, "", &map);
    buf_free(&map);
}

static uint32_t write_font(Embedding *embedding, uint32_t encoding) {
    uint32_t font = objects_reserve(embedding->objects);
    Buf *out = objects_open(embedding->objects, font);
    buf_printf(out,
               "<</Type/Font/Subtype/Type0/BaseFont/%s+%s/Encoding %u 0 R/DescendantFonts[%u 0 R]/ToUnicode %u 0 R>>",
               embedding->tag, embedding->face->info->name, encoding, embedding->descendant, embedding->to_unicode);
    objects_close(embedding->objects);
    return font;
}

/* The number of the font's object, or 0. */
static uint32_t embed_face(const LoadedFace *face, const FaceCodes *codes, Objects *objects, uint32_t encoding) {
    Embedding embedding = {.face = face, .codes = codes, .objects = objects};
    embedding.glyphs = hb_set_create();
    embedding.numbers = hb_map_create();
    uint32_t font = 0;
    collect_glyphs(&embedding);
    make_tag(&embedding);
    if (write_program(&embedding)) {
        write_glyph_map(&embedding);
        write_text_map(&embedding);
        write_descriptor(&embedding);
        write_descendant(&embedding);
        font = write_font(&embedding, encoding);
    }
    hb_set_destroy(embedding.glyphs);
    hb_map_destroy(embedding.numbers);
    return font;
}

static uint32_t write_encoding(const Codes *codes, Objects *objects) {
    Buf map = {0};
    uint32_t most = 0;
    for (int face = 0; face < FACE_COUNT; face++)
        if (codes->faces[face].extra_count > most) most = codes->faces[face].extra_count;
    charmap_codes(most, &map);
    uint32_t encoding = objects_reserve(objects);
    objects_stream(objects, encoding, STREAM_DEFLATED, CHARMAP_STREAM_ENTRIES, &map);
    buf_free(&map);
    return encoding;
}

bool embed_fonts(const Codes *codes, Objects *objects, uint32_t resources) {
    uint32_t fonts[FACE_COUNT] = {0};
    uint32_t encoding = write_encoding(codes, objects);
    for (int face = 0; face < FACE_COUNT; face++) {
        if (!codes->faces[face].used) continue;
        fonts[face] = embed_face(&codes->book->faces[face], &codes->faces[face], objects, encoding);
        if (!fonts[face]) return false;
    }
    Buf *out = objects_open(objects, resources);
    BUF_PUT(out, "<</Font<<");
    for (int face = 0; face < FACE_COUNT; face++)
        if (fonts[face]) buf_printf(out, "/F%d %u 0 R", face, fonts[face]);
    BUF_PUT(out, ">>>>");
    objects_close(objects);
    return true;
}
