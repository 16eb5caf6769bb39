/* What the fuzz targets share: bytes as a file that the reader can open, and a profile read once. */
#ifndef TB_TESTS_HELP_FUZZ_H
#define TB_TESTS_HELP_FUZZ_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/diag.h"
#include "source/dossier.h"

/* A path under which the bytes can be read until the next call; in memory, so that nothing is written to a disk. */
const char *fuzz_file(const uint8_t *bytes, size_t length);

/* Templates of the repository, read once for the process. The program is run from the repository's root. */
SourceContext *fuzz_context(void);

/* The quarterback's profile. */
const Profile *fuzz_profile(void);

/* Prints both forms of what was found, which must never fail whatever the bytes are, and frees the sink. */
void fuzz_finish(Diagnostics *diagnostics);

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

#endif
