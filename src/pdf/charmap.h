/* Character maps (Adobe technical note 5014; ISO 32000-1, 9.7.5 and 9.10.3): from codes to characters of the font, and
 * from codes to text. */
#ifndef TB_PDF_CHARMAP_H
#define TB_PDF_CHARMAP_H

#include "base/buf.h"
#include "pdf/codes.h"
#include "pdf/face.h"

#define CHARMAP_SYSTEM_INFO "<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>"
#define CHARMAP_NAME "Tapebound"
#define CHARMAP_STREAM_ENTRIES "/Type/CMap/CMapName/" CHARMAP_NAME "/CIDSystemInfo" CHARMAP_SYSTEM_INFO

/* Codes to characters, the same for every face: an ASCII code is its own character, extras follow. */
void charmap_codes(uint32_t extra_count, Buf *out);

/* Codes to text (ToUnicode). */
void charmap_text(const LoadedFace *face, const FaceCodes *codes, Buf *out);

#endif
