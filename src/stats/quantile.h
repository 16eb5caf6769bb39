/* Quantiles of raw values, and where a value stands in a population. Pure functions. */
#ifndef TB_STATS_QUANTILE_H
#define TB_STATS_QUANTILE_H

#include <stdbool.h>
#include <stddef.h>

#include "source/house.h"

/* Sorts into rising order. */
void quantile_sort(double *values, size_t count);

/* Quantile of rising values at p in 0..1, linear between order statistics: type 7 of Hyndman and Fan 1996, Am Stat
 * 50:361-365. NaN without values. */
double quantile_type7(const double *rising, size_t count, double p);

/* Percent of the population that `value` stands above, its equals counted half. NaN without values. */
double quantile_midrank(const double *rising, size_t count, double value);

/* The same from quantiles that rise in p: linear between them, the middle of a run of equal ones, and the outermost
 * given percent beyond them. NaN without quantiles. */
double quantile_percentile(const ScaleQuantile *quantiles, size_t count, double value);

#endif
