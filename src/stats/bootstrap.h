/* The bootstrap of snaps, and what is read from it. Snaps are drawn again with replacement inside each stratum (game),
 * so that each replicate has as many snaps of each game as were charted. Draws come from the Mersenne twister of GSL
 * under a fixed seed and sums are taken in a fixed order, so results are the same on every run, compiler and machine.
 */
#ifndef TB_STATS_BOOTSTRAP_H
#define TB_STATS_BOOTSTRAP_H

#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "stats/interval.h"

enum {
    BOOTSTRAP_REPLICATES = 2000,
    BOOTSTRAP_LANES = 32, /* columns summed at a time */
    BOOTSTRAP_FEWEST = 5  /* snaps, under which a resampled interval says nothing */
};

/* Numbers that a statistic adds up, by row: [row * width + column]. In single precision whole numbers add up exactly to
 * 16 million and others to a millionth, far below what the replicates can tell apart. */
typedef struct BootstrapTable {
    const float *values;  /* from an arena: aligned for four */
    size_t width;         /* a multiple of BOOTSTRAP_LANES */
    const size_t *strata; /* rows of each stratum, which follow each other */
    size_t stratum_count;
    size_t rows; /* of all strata */
} BootstrapTable;

/* The seed that belongs to a dossier's id (FNV-1a, 32 bits). */
uint32_t bootstrap_seed(const char *id);

typedef struct Bootstrap Bootstrap;

/* The table must outlive the result; release with bootstrap_free. */
Bootstrap *bootstrap_new(const BootstrapTable *table, uint32_t seed);
void bootstrap_free(Bootstrap *bootstrap);

/* Draws the next replicate and adds up its columns: `sums` has room for the width of the table. */
void bootstrap_draw(Bootstrap *bootstrap, double *sums);

/* A statistic with what resampling showed. */
typedef struct BootstrapStatistic {
    double observed;
    double *replicates; /* none is NaN; order is not kept */
    size_t count;
    double acceleration; /* of bootstrap_acceleration */
    /* Small samples: the interval of the plain bootstrap is too narrow by the divisor n instead of n - 1 and by the
     * normal instead of Student's quantile; both are put right as in Hesterberg 2015, Am Stat 69:371-386, section 3.2.
     */
    double degrees;   /* of freedom; INFINITY: as drawn */
    double expansion; /* sqrt(n / (n - 1)); 1: as drawn */
} BootstrapStatistic;

/* Skewness of the influence of each row, from leaving it out: `influence` is the statistic less the statistic without
 * the row. Efron 1987, JASA 82:171-185, section 7. 0 when nothing has an influence. */
double bootstrap_acceleration(const double *influence, size_t count);

/* Jackknife variance of the statistic: (n - 1) / n times the squared influences about their mean. */
double bootstrap_variance(const double *influence, size_t count);

/* Bias-corrected and accelerated interval (BCa). NaN when the replicates do not vary. */
Interval bootstrap_interval(const BootstrapStatistic *statistic, double level);

/* Two-sided p of `hypothesis`: 1 less the level of the BCa interval that just reaches it. NaN when the replicates do
 * not vary. */
double bootstrap_p(const BootstrapStatistic *statistic, double hypothesis);

#endif
