/* Intervals and tests on counts. Pure functions; levels are two-sided, 0.95 for a 95 % interval. */
#ifndef TB_STATS_INTERVAL_H
#define TB_STATS_INTERVAL_H

typedef struct Interval {
    double low, high;
} Interval;

/* Wilson score interval without continuity correction: E. B. Wilson 1927, as method 3 of Newcombe 1998, Stat Med
 * 17:857-872. n 0 gives NaN. */
Interval interval_wilson(int k, int n, double level);

/* Difference of two independent proportions, hybrid score: method 10 of Newcombe 1998, Stat Med 17:873-890. */
Interval interval_newcombe(int k1, int n1, int k2, int n2, double level);

#endif
