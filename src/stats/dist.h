/* Quantiles of distributions. GSL has the distributions; its own inversions end the process where they do not converge,
 * so they are solved here. Pure functions. */
#ifndef TB_STATS_DIST_H
#define TB_STATS_DIST_H

/* The value that leaves `tail` (0 < tail < .5) above it. */
double dist_student_upper(double tail, double degrees);
double dist_f_upper(double tail, double degrees1, double degrees2);

/* The value with `share` of a beta distribution under it. */
double dist_beta_lower(double share, double alpha, double beta);

/* Before GSL allocates: it aborts the process at any error, and would do so without memory. Now the process ends as at
 * every other exhaustion. */
void dist_share_exhaustion(void);

#endif
