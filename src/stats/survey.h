/* A dossier's snaps seen through its profile: every selection and every number of the profile evaluated once over all
 * rows, so that each figure afterwards only combines sets. */
#ifndef TB_STATS_SURVEY_H
#define TB_STATS_SURVEY_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "source/dossier.h"
#include "stats/rowset.h"

/* What a total adds up; counted rows only. */
typedef struct TotalRows {
    const RowWord *in;      /* rows that add to it */
    const RowWord *unknown; /* rows that may: condition or number not charted */
    const double *value;    /* by row, 0 outside `in`; NULL: each row of `in` counts one */
} TotalRows;

/* Who answers a measure; counted rows only. */
typedef struct MeasureRows {
    const RowWord *yes;      /* RATE: answered with yes; else NULL */
    const RowWord *answered; /* RATE, MEAN: the denominator; RATIO, FORMULA: rows that add to one of its totals */
    const RowWord *unknown;  /* rows that would have answered, had something been charted */
    const double *x;         /* MEAN: by row, 0 outside `answered`; else NULL */
    uint64_t totals;         /* RATIO, FORMULA: totals used, by bit */
} MeasureRows;

typedef struct Survey {
    const Dossier *dossier;
    size_t rows;
    Selection all;     /* counted rows */
    Selection *slices; /* counted rows of each slice */
    TotalRows *totals;
    MeasureRows *measures;
} Survey;

const Survey *survey_new(Arena *arena, const Dossier *dossier);

/* Counted rows where `where` is true; those where it is unknown may be. */
Selection survey_select(Arena *arena, const Survey *survey, const Expr *where);

#endif
