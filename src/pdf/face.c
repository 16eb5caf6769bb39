#include "pdf/face.h"

#include <errno.h>
#include <hb-ot.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"

enum {
    FIRST_PAIRS = 256,
    CHECKSUM_AT = 8, /* in the head table: OpenType 1.9, "head" */
    CHECKSUM_BYTES = 4
};

static const double THOUSAND = 1000;

const FaceInfo face_table[FACE_COUNT] = {
    [FACE_PROSE] = {"SourceSerif4SmText-Regular.ttf", "SourceSerif4SmText-Regular", true, false, false, FACE_PLAIN},
    [FACE_PROSE_ITALIC] = {"SourceSerif4SmText-It.ttf", "SourceSerif4SmText-It", true, true, false, FACE_PROSE},
    [FACE_PROSE_STRONG] = {"SourceSerif4SmText-Semibold.ttf", "SourceSerif4SmText-Semibold", true, false, false,
                           FACE_STRONG},
    [FACE_HEAD] = {"SourceSerif4Subhead-Semibold.ttf", "SourceSerif4Subhead-Semibold", true, false, false, FACE_STRONG},
    [FACE_DISPLAY] = {"SourceSerif4Display-Semibold.ttf", "SourceSerif4Display-Semibold", true, false, false,
                      FACE_STRONG},
    [FACE_PLAIN] = {"FiraSansCondensed_400Regular.ttf", "FiraSansCondensed-Regular", false, false, true, FACE_PROSE},
    [FACE_MEDIUM] = {"FiraSansCondensed_500Medium.ttf", "FiraSansCondensed-Medium", false, false, true, FACE_PROSE},
    [FACE_STRONG] = {"FiraSansCondensed_600SemiBold.ttf", "FiraSansCondensed-SemiBold", false, false, true,
                     FACE_PROSE_STRONG},
};

bool face_open(LoadedFace *face, const FaceInfo *info, const char *path) {
    face->info = info;
    errno = 0;
    face->blob = hb_blob_create_from_file_or_fail(path);
    if (!face->blob) {
        if (!errno) errno = EINVAL;
        return false;
    }
    face->face = hb_face_create(face->blob, 0);
    face->glyph_count = hb_face_get_glyph_count(face->face);
    if (face->glyph_count) return true;
    errno = EINVAL;
    return false;
}

void face_close(LoadedFace *face) {
    if (face->font) hb_font_destroy(face->font);
    if (face->face) hb_face_destroy(face->face);
    if (face->blob) hb_blob_destroy(face->blob);
    free(face->pairs);
    free(face->chains);
}

uint32_t face_checksum(const LoadedFace *face) {
    hb_blob_t *head = hb_face_reference_table(face->face, HB_TAG('h', 'e', 'a', 'd'));
    unsigned length;
    const char *bytes = hb_blob_get_data(head, &length);
    uint32_t checksum = 0;
    for (unsigned at = CHECKSUM_AT; length >= CHECKSUM_AT + CHECKSUM_BYTES && at < CHECKSUM_AT + CHECKSUM_BYTES; at++)
        checksum = checksum << 8 | (unsigned char)bytes[at];
    hb_blob_destroy(head);
    return checksum;
}

static void set_plain_pair(LoadedFace *face, unsigned character, uint32_t glyph, double advance) {
    static const char ascii[] =
        "                                 !\"#$%&'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ"
        "[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~";
    face->pairs[character] = (GlyphPair){.glyph = glyph, .length = 1, .text = ascii + character, .advance = advance};
}

static void take_common(LoadedFace *face) {
    for (unsigned at = 0; at < COMMON_ASCII; at++)
        set_plain_pair(face, common_character(at), face->common->glyphs[at], face->common->advances[at] * face->unit);
}

void face_prepare(LoadedFace *face) {
    if (face->font) return;
    face->font = hb_font_create(face->face);
    face->unit = THOUSAND / hb_face_get_upem(face->face);
    face->chains = mem_alloc(face->glyph_count * sizeof *face->chains);
    face->pair_room = FIRST_PAIRS;
    face->pair_count = FACE_PLAIN_PAIRS;
    face->pairs = mem_alloc(face->pair_room * sizeof *face->pairs);
    hb_codepoint_t glyph = 0;
    hb_font_get_nominal_glyph(face->font, ' ', &glyph);
    face->space = face_advance(face, glyph);
    hb_position_t height = 0;
    hb_ot_metrics_get_position_with_fallback(face->font, HB_OT_METRICS_TAG_CAP_HEIGHT, &height);
    face->cap_height = height * face->unit;
    if (face->common) take_common(face);
}

double face_advance(const LoadedFace *face, uint32_t glyph) {
    return hb_font_get_glyph_h_advance(face->font, glyph) * face->unit;
}

bool face_has(const LoadedFace *face, uint32_t character) {
    hb_codepoint_t glyph;
    return hb_font_get_nominal_glyph(face->font, character, &glyph);
}

void face_shape(LoadedFace *face, hb_buffer_t *buffer) {
    static const hb_feature_t features[] = {
        {HB_TAG('l', 'n', 'u', 'm'), 1, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END},
        {HB_TAG('t', 'n', 'u', 'm'), 1, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END},
    };
    bool shaped = hb_shape_full(face->font, buffer, features, face->info->tabular ? 2 : 1, NULL);
    if (!shaped || !hb_buffer_allocation_successful(buffer))
        mem_exhausted(); /* else characters would be taken for glyphs */
}

static bool is_letter(unsigned char character) {
    return (character | 0x20) >= 'a' && (character | 0x20) <= 'z';
}

/* No feature changes a letter that stands alone; figures and their marks are asked for. */
static uint32_t find_plain_glyph(LoadedFace *face, hb_buffer_t *scratch, unsigned char character) {
    hb_codepoint_t nominal = 0;
    hb_font_get_nominal_glyph(face->font, character, &nominal);
    if (is_letter(character)) return nominal;
    const char text[1] = {(char)character};
    hb_buffer_clear_contents(scratch);
    hb_buffer_add_utf8(scratch, text, 1, 0, 1);
    hb_buffer_set_direction(scratch, HB_DIRECTION_LTR);
    hb_buffer_set_script(scratch, HB_SCRIPT_LATIN);
    face_shape(face, scratch);
    unsigned count;
    const hb_glyph_info_t *glyphs = hb_buffer_get_glyph_infos(scratch, &count);
    return count == 1 ? glyphs[0].codepoint : nominal;
}

uint32_t face_plain_glyph(LoadedFace *face, hb_buffer_t *scratch, unsigned char character) {
    if (face->pairs[character].length) return face->pairs[character].glyph;
    uint32_t glyph = find_plain_glyph(face, scratch, character);
    set_plain_pair(face, character, glyph, face_advance(face, glyph));
    return glyph;
}

static GlyphPair *new_pair(LoadedFace *face) {
    if (face->pair_count == face->pair_room) {
        face->pair_room *= 2;
        face->pairs = mem_resize(face->pairs, face->pair_room * sizeof *face->pairs);
    }
    return &face->pairs[face->pair_count++];
}

uint32_t face_pair(LoadedFace *face, hb_buffer_t *scratch, uint32_t glyph, const char *text, size_t length) {
    unsigned char first = length == 1 ? (unsigned char)*text : 0;
    if (first >= ' ' && first <= '~' && face_plain_glyph(face, scratch, first) == glyph) return first;
    for (uint32_t at = face->chains[glyph]; at != FACE_NO_PAIR; at = face->pairs[at].next) {
        const GlyphPair *pair = &face->pairs[at];
        if (pair->length == length && !memcmp(pair->text, text, length)) return at;
    }
    GlyphPair *pair = new_pair(face);
    *pair = (GlyphPair){glyph, (uint32_t)length, text, face->chains[glyph], face_advance(face, glyph)};
    face->chains[glyph] = (uint32_t)(pair - face->pairs);
    return face->chains[glyph];
}
