#include "pdf/shape.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/text.h"
#include "pdf/syntax.h"

enum {
    FIRST_GLYPHS = 64,
    HYPHEN = 0x2010,
    NO_BREAK_HYPHEN = 0x2011,
    FALLBACKS = 2 /* faces tried after the word's own */
};

static const size_t NOWHERE = SIZE_MAX;
static const char SOFT_HYPHEN[] = "\xC2\xAD";

/* A stretch of the word drawn from one face. */
typedef struct Stretch {
    const Word *word;
    size_t start, end;
    Face face;
    bool hyphen; /* a soft hyphen is drawn after it */
} Stretch;

static void add_character(Shaper *shaper, const LoadedFace *face, uint32_t character, size_t at) {
    bool is_hyphen = character == HYPHEN || character == NO_BREAK_HYPHEN;
    if (is_hyphen && !face_has(face, character)) character = '-';
    hb_buffer_add(shaper->buffer, character, (unsigned)at);
}

static void prepare_buffer(hb_buffer_t *buffer) {
    hb_buffer_clear_contents(buffer);
    hb_buffer_set_content_type(buffer, HB_BUFFER_CONTENT_TYPE_UNICODE);
    hb_buffer_set_cluster_level(buffer, HB_BUFFER_CLUSTER_LEVEL_MONOTONE_CHARACTERS);
    hb_buffer_set_flags(buffer, HB_BUFFER_FLAG_REMOVE_DEFAULT_IGNORABLES);
    hb_buffer_set_language(buffer, hb_language_from_string("en", -1));
}

static void shape_stretch(Shaper *shaper, const Stretch *stretch) {
    LoadedFace *face = &shaper->faces[stretch->face];
    const char *text = stretch->word->text;
    face_prepare(face);
    prepare_buffer(shaper->buffer);
    for (size_t at = stretch->start; at < stretch->end;) {
        size_t length;
        uint32_t character = text_decode(text + at, text + stretch->end, &length);
        add_character(shaper, face, character, at);
        at += length;
    }
    if (stretch->hyphen) hb_buffer_add(shaper->buffer, '-', (unsigned)stretch->end);
    hb_buffer_guess_segment_properties(shaper->buffer);
    hb_buffer_set_direction(shaper->buffer, HB_DIRECTION_LTR);
    face_shape(face, shaper->buffer);
}

/* Where in the word the first missing character is, NOWHERE when the buffer has a glyph for each. */
static size_t find_missing(const Shaper *shaper) {
    unsigned count;
    const hb_glyph_info_t *glyphs = hb_buffer_get_glyph_infos(shaper->buffer, &count);
    for (unsigned at = 0; at < count; at++)
        if (!glyphs[at].codepoint) return glyphs[at].cluster;
    return NOWHERE;
}

static Glyph *new_glyph(Shaper *shaper) {
    if (shaper->count == shaper->room) {
        shaper->room = shaper->room * 2 + FIRST_GLYPHS;
        shaper->glyphs = mem_resize(shaper->glyphs, shaper->room * sizeof *shaper->glyphs);
    }
    return &shaper->glyphs[shaper->count++];
}

/* The TJ number that brings the pen to `place`; what it rounds away is carried on. */
static int32_t step_to(Shaper *shaper, double place) {
    if (shaper->pen == place) return 0;
    int32_t back = (int32_t)lround(shaper->pen - place);
    shaper->pen -= back;
    return back;
}

static void put_glyph(Shaper *shaper, Face face, uint32_t pair, double x, int32_t rise) {
    int32_t back = step_to(shaper, shaper->place + x);
    *new_glyph(shaper) = (Glyph){(uint8_t)face, pair, back, rise};
    shaper->pen += shaper->faces[face].pairs[pair].advance;
}

/* A glyph on the baseline, on its own advance. */
static void put_upright(Shaper *shaper, Face face, uint32_t pair) {
    put_glyph(shaper, face, pair, 0, 0);
    shaper->place += shaper->faces[face].pairs[pair].advance;
}

/* The pair for glyph `at` of the buffer: its text runs to the next cluster. */
static uint32_t pair_at(Shaper *shaper, const Stretch *stretch, const hb_glyph_info_t *glyphs, unsigned count,
                        unsigned at) {
    LoadedFace *face = &shaper->faces[stretch->face];
    size_t start = glyphs[at].cluster;
    size_t end = stretch->end;
    if (at && glyphs[at - 1].cluster == start) return face_pair(face, shaper->scratch, glyphs[at].codepoint, "", 0);
    if (start == stretch->word->length)
        return face_pair(face, shaper->scratch, glyphs[at].codepoint, SOFT_HYPHEN, sizeof SOFT_HYPHEN - 1);
    for (unsigned next = at + 1; next < count; next++) {
        if (glyphs[next].cluster == start) continue;
        end = glyphs[next].cluster;
        break;
    }
    return face_pair(face, shaper->scratch, glyphs[at].codepoint, stretch->word->text + start, end - start);
}

static void take_glyphs(Shaper *shaper, const Stretch *stretch) {
    unsigned count;
    const hb_glyph_info_t *glyphs = hb_buffer_get_glyph_infos(shaper->buffer, &count);
    const hb_glyph_position_t *places = hb_buffer_get_glyph_positions(shaper->buffer, &count);
    double unit = shaper->faces[stretch->face].unit;
    for (unsigned at = 0; at < count; at++) {
        uint32_t pair = pair_at(shaper, stretch, glyphs, count, at);
        put_glyph(shaper, stretch->face, pair, places[at].x_offset * unit, (int32_t)lround(places[at].y_offset * unit));
        shaper->place += places[at].x_advance * unit;
    }
}

static hb_unicode_general_category_t category_of(uint32_t character) {
    return hb_unicode_general_category(hb_unicode_funcs_get_default(), character);
}

static bool is_mark(uint32_t character) {
    hb_unicode_general_category_t category = category_of(character);
    return category >= HB_UNICODE_GENERAL_CATEGORY_SPACING_MARK &&
           category <= HB_UNICODE_GENERAL_CATEGORY_NON_SPACING_MARK;
}

static bool is_letter(uint32_t character) {
    hb_unicode_general_category_t category = category_of(character);
    return category >= HB_UNICODE_GENERAL_CATEGORY_LOWERCASE_LETTER &&
           category <= HB_UNICODE_GENERAL_CATEGORY_UPPERCASE_LETTER;
}

/* Past the character at `at` and the marks upon it. */
static size_t grapheme_end(const Word *word, size_t at) {
    const char *end = word->text + word->length;
    size_t length;
    text_decode(word->text + at, end, &length);
    for (at += length; at < word->length; at += length)
        if (!is_mark(text_decode(word->text + at, end, &length))) break;
    return at;
}

/* The first face of the word's chain that has all of the grapheme; false when none has. */
static bool choose_face(Shaper *shaper, const Word *word, size_t start, size_t end, Face *face) {
    *face = word->face;
    for (int tries = 0; tries <= FALLBACKS; tries++) {
        Stretch grapheme = {word, start, end, *face, false};
        shape_stretch(shaper, &grapheme);
        if (find_missing(shaper) == NOWHERE) return true;
        *face = face_table[*face].fallback;
    }
    *face = word->face;
    return false;
}

/* A question mark stands for what no face has; its text stays what was written. */
static void put_missing(Shaper *shaper, const Word *word, size_t start, size_t end) {
    LoadedFace *face = &shaper->faces[word->face];
    uint32_t glyph = face_plain_glyph(face, shaper->scratch, '?');
    put_upright(shaper, word->face, face_pair(face, shaper->scratch, glyph, word->text + start, end - start));
    shaper->missing = true;
}

static void flush_stretch(Shaper *shaper, const Stretch *stretch) {
    if (stretch->start == stretch->end && !stretch->hyphen) return;
    shape_stretch(shaper, stretch);
    take_glyphs(shaper, stretch);
}

/* The slow way: each grapheme from the first face that has it, neighbours of one face together. */
static void shape_by_parts(Shaper *shaper, const Word *word) {
    Stretch stretch = {word, 0, 0, word->face, false};
    for (size_t at = 0, end; at < word->length; at = end) {
        Face face;
        end = grapheme_end(word, at);
        bool found = choose_face(shaper, word, at, end, &face);
        if (!found || face != stretch.face) {
            flush_stretch(shaper, &stretch);
            stretch = (Stretch){word, at, at, face, false};
        }
        if (!found) put_missing(shaper, word, at, end);
        if (!found) stretch.start = end;
        stretch.end = end;
    }
    stretch.hyphen = word->soft;
    flush_stretch(shaper, &stretch);
}

/* A name is not set in two faces: where a letter is missing, the first face that has all of the word draws it. */
static bool shape_elsewhere(Shaper *shaper, const Word *word, size_t missing) {
    size_t length;
    uint32_t character = text_decode(word->text + missing, word->text + word->length, &length);
    if (!is_letter(character) && !is_mark(character)) return false;
    Stretch whole = {word, 0, word->length, face_table[word->face].fallback, word->soft};
    for (int tries = 0; tries < FALLBACKS; tries++, whole.face = face_table[whole.face].fallback) {
        shape_stretch(shaper, &whole);
        if (find_missing(shaper) != NOWHERE) continue;
        take_glyphs(shaper, &whole);
        return true;
    }
    return false;
}

static void shape_letters(Shaper *shaper, const Word *word) {
    Stretch whole = {word, 0, word->length, word->face, word->soft};
    shape_stretch(shaper, &whole);
    size_t missing = find_missing(shaper);
    if (missing == NOWHERE)
        take_glyphs(shaper, &whole);
    else if (!shape_elsewhere(shaper, word, missing))
        shape_by_parts(shaper, word);
}

static bool is_figures(const Word *word) {
    return !word->soft && strspn(word->text, "0123456789.,:+-%/") == word->length;
}

/* Figures of a tabular face stand on their advances, unkerned, so that columns align. */
static void shape_figures(Shaper *shaper, const Word *word) {
    LoadedFace *face = &shaper->faces[word->face];
    for (size_t at = 0; at < word->length; at++) {
        unsigned char character = (unsigned char)word->text[at];
        face_plain_glyph(face, shaper->scratch, character);
        put_upright(shaper, word->face, character);
    }
}

/* False when the common character before it does more than kern. */
static bool put_soft_hyphen(Shaper *shaper, const Word *word, int left) {
    LoadedFace *face = &shaper->faces[word->face];
    int kern = face->common->kerns[left][common_index('-')];
    if (kern == COMMON_SHAPED) return false;
    shaper->place += kern * face->unit;
    uint32_t glyph = face_plain_glyph(face, shaper->scratch, '-');
    put_upright(shaper, word->face, face_pair(face, shaper->scratch, glyph, SOFT_HYPHEN, sizeof SOFT_HYPHEN - 1));
    return true;
}

/* The pair of a common character, which stands at `text`. */
static uint32_t common_pair(Shaper *shaper, LoadedFace *face, int character, const char *text, size_t length) {
    if (character < COMMON_ASCII) return common_character((unsigned)character);
    return face_pair(face, shaper->scratch, face->common->glyphs[character], text, length);
}

/* Common characters from the face's table. False, with nothing kept, when it has none, lacks one of them, or two
 * neighbours do more than kern. */
static bool shape_common(Shaper *shaper, const Word *word) {
    LoadedFace *face = &shaper->faces[word->face];
    const CommonTable *common = face->common;
    const char *end = word->text + word->length;
    int left = COMMON_NONE;
    if (!common || !word->length) return false;
    for (const char *at = word->text; at < end;) {
        size_t length;
        int character = common_index(text_decode(at, end, &length));
        if (character == COMMON_NONE || !common->glyphs[character]) return false;
        int kern = left == COMMON_NONE ? 0 : common->kerns[left][character];
        if (kern == COMMON_SHAPED) return false;
        shaper->place += kern * face->unit;
        put_upright(shaper, word->face, common_pair(shaper, face, character, at, length));
        at += length;
        left = character;
    }
    return !word->soft || put_soft_hyphen(shaper, word, left);
}

static void start(Shaper *shaper) {
    shaper->count = 0;
    shaper->pen = shaper->place = 0;
    shaper->missing = false;
}

static void shape_text(Shaper *shaper, const Word *word) {
    start(shaper);
    if (shaper->faces[word->face].info->tabular && is_figures(word)) {
        shape_figures(shaper, word);
    } else if (!shape_common(shaper, word)) {
        start(shaper);
        shape_letters(shaper, word);
    }
}

/* The share of its width that a character may hang into the margin. */
static double hang_of(uint32_t character) {
    static const struct {
        uint32_t character;
        double share;
    } hangs[] = {{'.', .6},  {',', .6},  {'-', .5},    {0xAD, .5},   {':', .3},    {';', .3},
                 {'\'', .5}, {'"', .4},  {0x2018, .5}, {0x2019, .5}, {0x201C, .4}, {0x201D, .4},
                 {'(', .15}, {')', .15}, {0x2013, .3}, {0x2014, .2}, {'!', .15},   {'?', .15}};
    for (size_t at = 0; at < sizeof hangs / sizeof *hangs; at++)
        if (hangs[at].character == character) return hangs[at].share;
    return 0;
}

static double bearing(const Shaper *shaper, const Glyph *glyph) {
    const LoadedFace *face = &shaper->faces[glyph->face];
    const GlyphPair *pair = &face->pairs[glyph->pair];
    size_t length;
    if (!pair->length || isalnum((unsigned char)*pair->text)) return 0;
    double share = hang_of(text_decode(pair->text, pair->text + pair->length, &length));
    return share * pair->advance;
}

static void measure(Shaper *shaper, Word *word) {
    word->width = shaper->place;
    word->missing = shaper->missing;
    if (!shaper->count) return;
    word->left_bearing = bearing(shaper, &shaper->glyphs[0]);
    word->right_bearing = bearing(shaper, &shaper->glyphs[shaper->count - 1]);
}

static bool is_plain(const Glyph *glyph, const Word *word) {
    return glyph->face == word->face && glyph->pair < FACE_PLAIN_PAIRS && !glyph->rise;
}

static void put_back(Buf *out, int32_t back) {
    if (!back) return;
    buf_putc(out, ')');
    syntax_signed(out, back);
    buf_putc(out, '(');
}

static void write_plain(Shaper *shaper, GlyphRun *run) {
    Buf *bytes = &shaper->bytes;
    bytes->length = 0;
    for (uint32_t at = 0; at < shaper->count; at++) {
        const Glyph *glyph = &shaper->glyphs[at];
        put_back(bytes, glyph->back);
        syntax_literal_byte(bytes, (unsigned char)glyph->pair);
        run->used[glyph->pair / 64] |= 1ULL << glyph->pair % 64;
        if (glyph->back) run->kerned = true;
    }
    put_back(bytes, run->back);
    if (run->back) run->kerned = true;
    run->length = (uint32_t)bytes->length;
    run->bytes = arena_copy(shaper->arena, bytes->bytes, bytes->length);
}

/* Readers go by where glyphs stand: a mark set over a letter, or a letter of two glyphs, may split a word for them. */
static bool needs_telling(const Shaper *shaper, const Glyph *glyph) {
    const GlyphPair *pair = &shaper->faces[glyph->face].pairs[glyph->pair];
    size_t length;
    if (glyph->pair < FACE_PLAIN_PAIRS) return false;
    return !pair->length || is_mark(text_decode(pair->text, pair->text + pair->length, &length));
}

static void keep_glyphs(Shaper *shaper, GlyphRun *run) {
    Glyph *kept = ARENA_ARRAY(shaper->arena, shaper->count, Glyph);
    if (shaper->count) memcpy(kept, shaper->glyphs, shaper->count * sizeof *kept);
    run->glyphs = kept;
    run->count = shaper->count;
}

static void keep_run(Shaper *shaper, const Word *word, GlyphRun *run) {
    run->plain = true;
    for (uint32_t at = 0; at < shaper->count; at++) {
        const Glyph *glyph = &shaper->glyphs[at];
        if (!is_plain(glyph, word)) run->plain = false;
        if (needs_telling(shaper, glyph)) run->actual = true;
    }
    run->back = step_to(shaper, shaper->place);
    if (run->plain)
        write_plain(shaper, run);
    else
        keep_glyphs(shaper, run);
}

void shape_word(Shaper *shaper, Word *word, GlyphRun *run) {
    face_prepare(&shaper->faces[word->face]);
    shape_text(shaper, word);
    measure(shaper, word);
    keep_run(shaper, word, run);
    word->glyphs = run;
}
