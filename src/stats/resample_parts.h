/* Inside of the resampler: what resample.c fills and resample_read.c reads. */
#ifndef TB_STATS_RESAMPLE_PARTS_H
#define TB_STATS_RESAMPLE_PARTS_H

#include "base/task.h"
#include "stats/resample.h"

/* One mean, ratio or formula over one selection. */
typedef struct Figure {
    int measure;
    size_t selection;
    const Measure *definition;
    int *columns; /* of the table, what `sources` are there */
    int *sources; /* totals by index; a mean's sum and count */
    size_t source_count;
    double observed;
    double *replicates; /* in order of draws */
    double *influence;  /* by row of the table: observed less the value without the row */
} Figure;

struct Resample {
    Arena *arena; /* its own */
    Task *task;   /* that draws; NULL before and after */
    const Survey *survey;
    const Selection *selections;
    size_t selection_count;
    size_t source_count; /* totals, then a sum and a count for each measure */
    int *column_of;      /* [selection * source_count + source], RESAMPLE_NONE */
    int *figure_of;      /* [selection * measures + measure], RESAMPLE_NONE */
    Figure *figures;
    size_t figure_count, figure_room;
    size_t column_count;
    BootstrapTable table;
    size_t *row_of; /* dossier row of each row of the table */
};

#endif
