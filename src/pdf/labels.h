/* Page labels (ISO 32000-1, 12.4.2). */
#ifndef TB_PDF_LABELS_H
#define TB_PDF_LABELS_H

#include "base/buf.h"
#include "typeset/pages.h"

/* Appends the catalog's PageLabels, when any page has a label. Labels that count on from the one before share a range.
 */
void labels_write(const Pages *pages, Buf *catalog);

#endif
