/* The XMP packet (ISO 16684-1), equal to the information dictionary. */
#ifndef TB_PDF_XMP_H
#define TB_PDF_XMP_H

#include <stdbool.h>

#include "base/buf.h"

typedef struct MetaText {
    const char *title, *producer;
    const char *author, *subject; /* NULL or "": not given */
    const char *date;             /* YYYY-MM-DD; NULL: not given */
    bool accessible;              /* keeps the rules of PDF/UA-1 */
} MetaText;

void xmp_write(const MetaText *meta, Buf *out);

#endif
