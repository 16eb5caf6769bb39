/* The fonts of a document as PDF objects: composite fonts with subset programs, own code maps and text for every code.
 */
#ifndef TB_PDF_EMBED_H
#define TB_PDF_EMBED_H

#include <stdbool.h>
#include <stdint.h>

#include "pdf/codes.h"
#include "pdf/objects.h"

/* Writes every face used, and object `resources` with them all. False when a face cannot be subset. */
bool embed_fonts(const Codes *codes, Objects *objects, uint32_t resources) __attribute__((warn_unused_result));

#endif
