/* Where a mark paints. */
#ifndef TB_PDF_BOUNDS_H
#define TB_PDF_BOUNDS_H

#include "typeset/pages.h"

/* The box around a TEXT, LINE, SHAPE, RECT or DISC mark, as it stands on the page; a text's height is taken from its
 * size. */
Box bounds_of(const Mark *mark);

#endif
