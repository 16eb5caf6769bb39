/* Shaping: a word of text becomes glyphs with their places, and ready bytes for the content stream where that is
 * possible. */
#ifndef TB_PDF_SHAPE_H
#define TB_PDF_SHAPE_H

#include <hb.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/buf.h"
#include "pdf/face.h"
#include "typeset/metrics.h"

typedef struct Glyph {
    uint8_t face;
    uint32_t pair;
    int32_t back; /* thousandths to go left before it, as a number in TJ */
    int32_t rise; /* thousandths above the baseline */
} Glyph;

/* What Word.glyphs points to. */
typedef struct GlyphRun {
    const Glyph *glyphs; /* unless plain */
    uint32_t count;
    int32_t back;      /* after the last glyph */
    bool plain;        /* all of the word's own face, ASCII, on the baseline: `bytes` stand in any document */
    bool actual;       /* what the glyphs say one by one is not the word: it needs ActualText */
    const char *bytes; /* plain: the inside of TJ's array from within a literal to within a literal */
    uint32_t length;
    bool kerned;      /* plain: the bytes hold numbers, so they need TJ */
    uint64_t used[2]; /* plain: bits of the characters in it */
} GlyphRun;

typedef struct Shaper {
    Arena *arena; /* keeps texts and runs */
    LoadedFace *faces;
    hb_buffer_t *buffer, *scratch;
    Glyph *glyphs; /* of the word at work */
    uint32_t count, room;
    Buf bytes;    /* of a plain word */
    double pen;   /* where drawing stands, thousandths */
    double place; /* where the text stands */
    bool missing;
} Shaper;

/* Fills in the word's measures and run. word->text, length, face and soft are given, and the text lives in the arena.
 */
void shape_word(Shaper *shaper, Word *word, GlyphRun *run);

#endif
