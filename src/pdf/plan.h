/* What has to be known of all pages before the first is written: where anchors are, and how wide each table is. */
#ifndef TB_PDF_PLAN_H
#define TB_PDF_PLAN_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "typeset/pages.h"

typedef struct Anchor {
    const char *name;
    size_t page;
    Point point;
    size_t order; /* of appearance: the first of a name counts */
} Anchor;

typedef struct Plan {
    Anchor *anchors; /* by name */
    size_t anchor_count;
    uint32_t *row_cells;   /* by row in order of opening: its cells */
    uint32_t *row_columns; /* and the most cells of any row of its table */
    size_t row_count;
} Plan;

const Plan *plan_new(Arena *arena, const Pages *pages);
const Anchor *plan_find(const Plan *plan, const char *name); /* NULL: no such anchor */

#endif
