/* Quantiles of distributions. GSL has the distributions; its own inversions end the process where they do not converge,
 * so they are solved here. Pure functions. */
#ifndef TB_STATS_DIST_H
#define TB_STATS_DIST_H

/* The value that leaves `tail` (0 < tail < .5) above it. */
double dist_student_upper(double tail, double degrees);
double dist_f_upper(double tail, double degrees1, double degrees2);

/* The value with `share` of a beta distribution under it. */
double dist_beta_lower(double share, double alpha, double beta);

#endif
