/* The font program for a set of glyphs. */
#ifndef TB_PDF_SUBSET_H
#define TB_PDF_SUBSET_H

#include <hb.h>
#include <stdbool.h>

#include "base/buf.h"
#include "pdf/face.h"

/* Appends a TrueType program with the glyphs of `glyphs` (and what they are made of) alone, numbered anew: `numbers`
 * gets the new number of each old one. False when HarfBuzz refuses the font. */
bool subset_write(const LoadedFace *face, const hb_set_t *glyphs, hb_map_t *numbers, Buf *out);

#endif
