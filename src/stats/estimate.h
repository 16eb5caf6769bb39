/* Estimates of measures over selections of a survey. */
#ifndef TB_STATS_ESTIMATE_H
#define TB_STATS_ESTIMATE_H

#include "stats/findings.h"
#include "stats/interval.h"
#include "stats/survey.h"

#define ESTIMATE_LEVEL 0.95 /* of every printed interval */

/* Nothing was seen. */
Estimate estimate_none(MeasureKind kind);

/* Every total over the selection, by total index. */
void estimate_totals(const Survey *survey, const Selection *selection, double *totals);

/* A measure over the selection; `totals` are the selection's own. Rates have their Wilson interval, others none. */
Estimate estimate_measure(const Survey *survey, int measure, const Selection *selection, const double *totals);

/* Both in one, for a single figure. */
Estimate estimate_one(Arena *arena, const Survey *survey, int measure, const Selection *selection);

/* RATIO and FORMULA from totals; NaN when something divides by zero. */
double estimate_from_totals(const Measure *measure, const double *totals);

/* Estimates [measure * groups + group] and, when not NULL, totals [total * groups + group] of every group. */
void estimate_partition(Arena *arena, const Survey *survey, const Partition *partition, Estimate *estimates,
                        double *totals);

#endif
