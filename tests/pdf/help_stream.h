/* Content streams: each operator and the marked content it stands in. */
#ifndef TB_TESTS_PDF_HELP_STREAM_H
#define TB_TESTS_PDF_HELP_STREAM_H

#include <stddef.h>

#include "base/buf.h"

typedef struct StreamReport {
    Buf *faults;
    const char *where; /* said before each fault */
    size_t fault_count;
    unsigned char items[65536]; /* how often each MCID begins */
    int item_end;               /* one past the greatest */
} StreamReport;

void stream_check(const char *bytes, size_t length, StreamReport *report);

#endif
