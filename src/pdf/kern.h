/* Kerning of ASCII by pairs. A word whose neighbours do nothing to each other but move closer or apart is set from a
 * table, which fills as pairs are met: shaping each word would cost several times as much. */
#ifndef TB_PDF_KERN_H
#define TB_PDF_KERN_H

#include <hb.h>
#include <stdbool.h>

#include "pdf/face.h"

/* True when `left` and `right`, printable ASCII, keep the glyphs that they have alone; `*units` is then what stands
 * between them beyond the advance of `left`, in units of the font. */
bool kern_find(LoadedFace *face, hb_buffer_t *scratch, unsigned char left, unsigned char right, int *units);

#endif
