/* The PDF back end: fonts through HarfBuzz and hb-subset, objects through libharu, streams through libdeflate. */
#ifndef TB_PDF_PDF_H
#define TB_PDF_PDF_H

#include <stdbool.h>

#include "base/diag.h"
#include "typeset/metrics.h"
#include "typeset/pages.h"

/* Faces and the cache of shaped words. One book serves any number of documents one after another. */
typedef struct FontBook FontBook;

/* Maps the faces from `folder`; NULL after a report. */
FontBook *fonts_open(const char *folder, Diagnostics *diagnostics);
Metrics *fonts_metrics(FontBook *book);
void fonts_close(FontBook *book);

/* Writes `pages` as one PDF, atomically, to `path` ("-" standard output). The same pages give the same bytes: the
 * document's date is `Pages.date`, its ID a digest of its contents. False after a report; then the old file at `path`
 * is untouched. */
bool pdf_write(const Pages *pages, FontBook *book, const char *path, Diagnostics *diagnostics)
    __attribute__((warn_unused_result));

#endif
