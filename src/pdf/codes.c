#include "pdf/codes.h"

#include <stdlib.h>
#include <string.h>

#include "pdf/syntax.h"

enum { FIRST_EXTRAS = 32, BYTE = 256 };

void codes_free(Codes *codes) {
    for (int face = 0; face < FACE_COUNT; face++) {
        free(codes->faces[face].codes);
        free(codes->faces[face].extras);
    }
}

uint16_t codes_extra(uint32_t index) {
    if (index < CODES_ONE_BYTE) return (uint16_t)(CODES_FIRST_EXTRA + index);
    return (uint16_t)(CODES_FIRST_LONG + index - CODES_ONE_BYTE);
}

static void note_plain(FaceCodes *codes, unsigned character) {
    codes->plain[character / 64] |= 1ULL << character % 64;
}

static void make_room(FaceCodes *codes, uint32_t pairs) {
    if (pairs > codes->room) {
        codes->codes = mem_resize(codes->codes, pairs * sizeof *codes->codes);
        memset(codes->codes + codes->room, 0, (pairs - codes->room) * sizeof *codes->codes);
        codes->room = pairs;
    }
    if (codes->extra_count == codes->extra_room) {
        codes->extra_room = codes->extra_room * 2 + FIRST_EXTRAS;
        codes->extras = mem_resize(codes->extras, codes->extra_room * sizeof *codes->extras);
    }
}

static uint16_t extra_code(Codes *codes, Face face, uint32_t pair) {
    FaceCodes *own = &codes->faces[face];
    if (pair < own->room && own->codes[pair]) return own->codes[pair];
    if (own->extra_count == CODES_MOST_EXTRAS) {
        codes->full = true;
        return '?';
    }
    make_room(own, codes->book->faces[face].pair_count);
    uint16_t code = codes_extra(own->extra_count);
    own->extras[own->extra_count++] = pair;
    own->codes[pair] = code;
    return code;
}

void codes_put(Codes *codes, Face face, uint32_t pair, Buf *out) {
    codes->faces[face].used = true;
    if (pair < FACE_PLAIN_PAIRS) {
        note_plain(&codes->faces[face], pair);
        syntax_literal_byte(out, (unsigned char)pair);
        return;
    }
    uint16_t code = extra_code(codes, face, pair);
    if (code >= BYTE) syntax_literal_byte(out, (unsigned char)(code >> 8));
    syntax_literal_byte(out, (unsigned char)code);
}

void codes_use(Codes *codes, Face face, const GlyphRun *run) {
    FaceCodes *own = &codes->faces[face];
    own->used = true;
    own->plain[0] |= run->used[0];
    own->plain[1] |= run->used[1];
}

void codes_put_space(Codes *codes, Face face, Buf *out) {
    FaceCodes *own = &codes->faces[face];
    own->used = true;
    if (!(own->plain[0] >> ' ' & 1)) face_plain_glyph(&codes->book->faces[face], codes->book->shaper.scratch, ' ');
    note_plain(own, ' ');
    buf_putc(out, ' ');
}
