#include "stats/jackknife.h"

#include <math.h>

#include "stats/bootstrap.h"
#include "stats/dist.h"

/* A selection's figure, and what it is without one row. */
typedef struct Without {
    const Survey *survey;
    const Measure *definition;
    const MeasureRows *rows;
    const Estimate *estimate;
    const double *totals; /* of the selection */
    double *less;         /* room for the totals without the row */
} Without;

static bool has_row(const RowWord *set, size_t row) {
    return set[row / ROWSET_BITS] >> (row % ROWSET_BITS) & 1;
}

static double value_without(const Without *without, size_t row) {
    if (without->definition->kind == MEASURE_MEAN) {
        int n = without->estimate->n;
        return (without->estimate->value * n - without->rows->x[row]) / (n - 1);
    }
    for (uint64_t left = without->rows->totals; left; left &= left - 1) {
        int total = __builtin_ctzll(left);
        const TotalRows *rows = &without->survey->totals[total];
        double own = rows->value ? rows->value[row] : 1;
        without->less[total] = without->totals[total] - (has_row(rows->in, row) ? own : 0);
    }
    return estimate_from_totals(without->definition, without->less);
}

/* Stores the figure less the figure without each row that takes part; returns how many do. */
static size_t influences(const Without *without, const Selection *selection, double *influence) {
    size_t count = 0;
    for (size_t i = 0; i < selection->count; i++) {
        size_t word = selection->words[i].word;
        RowWord left = selection->words[i].in & without->rows->answered[word];
        for (; left; left &= left - 1) {
            double value = value_without(without, word * ROWSET_BITS + (size_t)__builtin_ctzll(left));
            if (!isnan(value)) influence[count++] = without->estimate->value - value;
        }
    }
    return count;
}

Interval jackknife_interval(Arena *scratch, const Survey *survey, int measure, const Selection *selection,
                            const Estimate *estimate) {
    Interval interval = {NAN, NAN};
    size_t total_count = survey->dossier->profile->total_count;
    if (estimate->kind == MEASURE_RATE || estimate->n < JACKKNIFE_FEWEST || isnan(estimate->value)) return interval;
    double *totals = ARENA_ARRAY(scratch, total_count, double);
    Without without = {survey, &survey->dossier->profile->measures[measure], &survey->measures[measure], estimate,
                       totals, ARENA_ARRAY(scratch, total_count, double)};
    estimate_totals(survey, selection, totals);
    double *influence = ARENA_ARRAY(scratch, selection->count * ROWSET_BITS, double);
    size_t count = influences(&without, selection, influence);
    double error = sqrt(bootstrap_variance(influence, count));
    if (count < JACKKNIFE_FEWEST || !(error > 0)) return interval;
    double spread = dist_student_upper((1 - ESTIMATE_LEVEL) / 2, (double)count - 1) * error;
    return (Interval){estimate->value - spread, estimate->value + spread};
}
