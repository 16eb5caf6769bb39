/* Exact tests on counts, and what many tests cost. Pure functions. */
#ifndef TB_STATS_TESTS_H
#define TB_STATS_TESTS_H

#include <stddef.h>

#include "base/arena.h"

/* Outcomes within this much of the observed one's probability count as equally likely, as R's fisher.test and
 * binom.test do. */
#define TEST_TIE 1e-7

/* Fisher's exact test of k1 of n1 against k2 of n2, two-sided: the probability of all tables with the same margins that
 * are no likelier than this one (R. A. Fisher 1935). NaN when a side is empty. */
double test_fisher(int k1, int n1, int k2, int n2);

/* Exact binomial test of k of n against `rate`, two-sided in the same sense. NaN when n is 0 or `rate` is not in 0..1.
 */
double test_binomial(int k, int n, double rate);

/* Benjamini-Hochberg adjusted values of `p` (1995, JRSS B 57:289-300). NaN stands for no test: it stays NaN and is not
 * counted. `adjusted` may be `p`. */
void test_adjust(Arena *scratch, const double *p, size_t count, double *adjusted);

#endif
