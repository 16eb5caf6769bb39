/* Intervals of means, ratios and formulas over a few snaps of one game or opponent, where resampling has too little to
 * draw from: leaving out one snap at a time (J. W. Tukey 1958, Ann Math Stat 29:614), with Student's quantile. */
#ifndef TB_STATS_JACKKNIFE_H
#define TB_STATS_JACKKNIFE_H

#include "stats/estimate.h"

enum { JACKKNIFE_FEWEST = 5 }; /* snaps, under which no interval is given */

/* `estimate` is the measure over the selection. NaN for rates, with too few snaps, and where nothing varies. */
Interval jackknife_interval(Arena *scratch, const Survey *survey, int measure, const Selection *selection,
                            const Estimate *estimate);

#endif
