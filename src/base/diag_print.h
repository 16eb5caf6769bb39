/* How findings look: inside base only. */
#ifndef TB_BASE_DIAG_PRINT_H
#define TB_BASE_DIAG_PRINT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buf.h"
#include "base/diag.h"

/* A second place of a finding. */
typedef struct Also Also;
struct Also {
    Place place;
    const char *message;
    Also *next;
};

typedef struct Finding {
    const RuleInfo *rule;
    Severity severity;
    Place place;
    size_t file;  /* index of its DiagFile */
    size_t order; /* of reporting */
    const char *message;
    const char *hint; /* may be NULL */
    Also *also;
} Finding;

/* A file that findings are about, in order of its first finding. */
typedef struct DiagFile {
    const Text *text; /* NULL: findings without a place */
    size_t kept, dropped;
} DiagFile;

typedef struct FindingList {
    const Finding *findings; /* in order of file and place */
    size_t count;
    const DiagFile *files;
    size_t file_count;
} FindingList;

void diag_print_findings(const FindingList *list, Buf *out, bool colour);
void diag_print_json(const FindingList *list, Buf *out);

#endif
