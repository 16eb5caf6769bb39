/* Expected output beside its input. */
#ifndef TB_TESTS_HELP_GOLDEN_H
#define TB_TESTS_HELP_GOLDEN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/diag.h"

/* True when the file at `path` holds `got`; else both are printed. With TB_BLESS in the environment the file is written
 * instead. */
bool golden_matches(const char *path, const char *got);

/* All findings as printed, to be freed. */
char *golden_print(Diagnostics *diagnostics);

/* Calls `visit` with every file of `folder` whose name ends in `ending`, in order of name. Returns how many. */
size_t golden_each(const char *folder, const char *ending, void (*visit)(const char *path, void *data), void *data);

/* `path` with its ending replaced, to be freed. */
char *golden_beside(const char *path, const char *ending);

#endif
