/* A checker of our own for the rules of PDF/UA-1 (ISO 14289-1) and PDF/A-2u (ISO 19005-2) that a program can decide, on
 * what `qpdf --json` shows of a file. It knows nothing of the writer. */
#ifndef TB_TESTS_PDF_HELP_RULES_H
#define TB_TESTS_PDF_HELP_RULES_H

#include <stddef.h>

#include "base/buf.h"

/* Appends a line for every rule broken. How many lines. */
size_t rules_check(const char *path, Buf *faults);

#endif
