/* Few snaps: rates of several players pulled towards what they have in common. A beta distribution of true rates is
 * fitted to k of n of each (beta-binomial, maximum likelihood), and each player's rate is read off his posterior.
 * Gelman and others, Bayesian Data Analysis, section 5.1, for the moments; Pure functions. */
#ifndef TB_STATS_POOLING_H
#define TB_STATS_POOLING_H

#include <stdbool.h>
#include <stddef.h>

#include "stats/interval.h"

typedef struct Pool {
    double alpha, beta; /* as many snaps with yes and with no as the common picture is worth; NaN: no fit */
    bool alike;         /* no sign that true rates differ: the weight of the common rate was held at POOL_MOST_WEIGHT */
} Pool;

#define POOL_MOST_WEIGHT 1e4
#define POOL_LEAST_WEIGHT 1e-4

/* From mean and variance of the rates k/n, players with n 0 left out. NaN with fewer than two, or rates that vary more
 * than a beta distribution can. */
Pool pooling_moments(const int *k, const int *n, size_t players);

/* Maximum likelihood. Starts from the moments. NaN without any snap. */
Pool pooling_fit(const int *k, const int *n, size_t players);

typedef struct Pooled {
    double mean, deviation;
    Interval interval;
} Pooled;

/* A player's rate given his own k of n and the pool. */
Pooled pooling_posterior(const Pool *pool, int k, int n, double level);

#endif
