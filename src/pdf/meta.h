/* What the file says of itself: information dictionary, XMP, output intent, language, page labels. */
#ifndef TB_PDF_META_H
#define TB_PDF_META_H

#include <stdbool.h>

#include "pdf/haru.h"
#include "pdf/objects.h"
#include "typeset/pages.h"

/* `accessible`: the structure keeps the rules of PDF/UA-1, so the file may say so. Appends the entries of the catalog
 * to `catalog` ; `structure` is the number of the structure tree's root. */
void meta_write(const Pages *pages, bool accessible, uint32_t structure, Haru *haru, Objects *objects, Buf *catalog);

#endif
