/* Agreement of several graders: intraclass correlations of a two-way random model. Shrout & Fleiss 1979, Psychol Bull
 * 86:420-428. Pure functions. */
#ifndef TB_STATS_ICC_H
#define TB_STATS_ICC_H

#include <stddef.h>

#include "stats/interval.h"

typedef struct Icc {
    double between, within, judges, error; /* mean squares: BMS, WMS, JMS, EMS */
    double single;                         /* ICC(2,1): one grader's reliability */
    double average;                        /* ICC(2,k): of the mean of all graders */
    Interval single_interval, average_interval;
} Icc;

/* ratings[target * judges + judge], all known; at least two of each, else all is NaN. */
Icc icc_two_way(const double *ratings, size_t targets, size_t judges, double level);

#endif
