/* How many more snaps would settle a claim, were the present rates the true ones. Pure functions. */
#ifndef TB_STATS_POWER_H
#define TB_STATS_POWER_H

#include "base/arena.h"

/* A test at this two-sided level that finds a true difference this often. */
#define POWER_LEVEL 0.05
#define POWER_WANTED 0.8

/* How often Fisher's exact test of n1 snaps at rate p1 against n2 at p2 is at or under POWER_LEVEL. Exact. */
double power_fisher(Arena *scratch, int n1, double p1, int n2, double p2);

/* The same of the exact binomial test of n snaps at rate p against a standard. Exact. */
double power_binomial(Arena *scratch, int n, double p, double standard);

/* The fewest more snaps of the first side, the other as it is, that bring the power to POWER_WANTED: at least `least`,
 * `most` + 1 when not even `most` do, -1 without snaps to take the rates from. */
int power_more_fisher(Arena *scratch, int k1, int n1, int k2, int n2, int least, int most);
int power_more_binomial(Arena *scratch, int k, int n, double standard, int least, int most);

/* The same by the normal approximation, for a difference whose sides have these variances at present; that of the
 * first, of n snaps, falls in proportion to its snaps. */
int power_more_normal(double difference, double variance1, int n1, double variance2, int least, int most);

#endif
