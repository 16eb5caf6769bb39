/* What the families of the profile's linter share: src/check/lint*.c only. */
#ifndef TB_CHECK_LINT_PARTS_H
#define TB_CHECK_LINT_PARTS_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/diag.h"
#include "source/profile.h"

typedef struct Lint {
    Arena *arena; /* scratch of this call */
    const Profile *profile;
    const char *path;
    Diagnostics *diagnostics;
} Lint;

/* ---- the families ---- */
void lint_words(const Lint *lint);
void lint_reach(const Lint *lint);
void lint_figures(const Lint *lint);

/* Whether what stands at `place` is to be told. */
bool lint_tells(const Lint *lint, Place place);

/* ---- figures whose slices must share no snap (lint_reach.c) ---- */

/* Finds two of the slices that share a snap; false when no snap that was made up is in two of them. */
bool lint_shared(const Lint *lint, const int *slices, size_t count, int *first, int *second);

#endif
