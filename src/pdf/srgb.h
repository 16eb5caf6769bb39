/* An sRGB profile, made from the numbers of IEC 61966-2-1. */
#ifndef TB_PDF_SRGB_H
#define TB_PDF_SRGB_H

#include "base/buf.h"

/* Appends a display profile of version 2.1 (ICC.1:2001-04). */
void srgb_write(Buf *out);

#endif
