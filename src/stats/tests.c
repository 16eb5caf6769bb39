#include "stats/tests.h"

#include <math.h>
#include <stdlib.h>

/* A distribution on low..high, given by the ratio of each probability to the one before it, and unimodal. */
typedef struct Outcomes {
    int low, high, mode;
    double (*ratio)(const struct Outcomes *outcomes, int k); /* P(k) / P(k - 1) */
    double a, b, c, d;                                       /* parameters of `ratio` */
} Outcomes;

/* Adds up probabilities relative to the mode's, from the mode to one end. With `limit` only those at or under it. */
static double one_side(const Outcomes *outcomes, int step, double limit) {
    double weight = 1;
    double sum = 0;
    int end = step > 0 ? outcomes->high : outcomes->low;
    for (int k = outcomes->mode; k != end && weight > 0;) {
        weight = step > 0 ? weight * outcomes->ratio(outcomes, k + 1) : weight / outcomes->ratio(outcomes, k);
        k += step;
        if (weight <= limit) sum += weight;
    }
    return sum;
}

/* Probability of `k` relative to the mode's. */
static double relative(const Outcomes *outcomes, int k) {
    double weight = 1;
    for (int at = outcomes->mode; at < k; at++) weight *= outcomes->ratio(outcomes, at + 1);
    for (int at = outcomes->mode; at > k; at--) weight /= outcomes->ratio(outcomes, at);
    return weight;
}

/* The probability of all outcomes no likelier than k. */
static double two_sided(const Outcomes *outcomes, int k) {
    double limit = relative(outcomes, k) * (1 + TEST_TIE);
    double all = 1 + one_side(outcomes, 1, INFINITY) + one_side(outcomes, -1, INFINITY);
    double rare = one_side(outcomes, 1, limit) + one_side(outcomes, -1, limit) + (limit >= 1);
    double p = rare / all;
    return p < 1 ? p : 1;
}

/* Hypergeometric: a = n1, b = n2, c = successes in all. */
static double hypergeometric_ratio(const Outcomes *outcomes, int k) {
    return (outcomes->a - k + 1) * (outcomes->c - k + 1) / (k * (outcomes->b - outcomes->c + k));
}

static double binomial_ratio(const Outcomes *outcomes, int k) {
    return (outcomes->a - k + 1) / k * outcomes->b;
}

static int clamp(int value, int low, int high) {
    if (value < low) return low;
    return value > high ? high : value;
}

double test_fisher(int k1, int n1, int k2, int n2) {
    if (n1 <= 0 || n2 <= 0) return NAN;
    int successes = k1 + k2;
    Outcomes outcomes = {
        .low = successes > n2 ? successes - n2 : 0,
        .high = successes < n1 ? successes : n1,
        .ratio = hypergeometric_ratio,
        .a = n1,
        .b = n2,
        .c = successes,
    };
    int mode = (int)floor((n1 + 1.0) * (successes + 1.0) / (n1 + n2 + 2.0));
    outcomes.mode = clamp(mode, outcomes.low, outcomes.high);
    return two_sided(&outcomes, k1);
}

double test_binomial(int k, int n, double rate) {
    if (n <= 0 || !(rate >= 0 && rate <= 1)) return NAN;
    if (rate == 0) return k == 0;
    if (rate == 1) return k == n;
    Outcomes outcomes = {.low = 0, .high = n, .ratio = binomial_ratio, .a = n, .b = rate / (1 - rate)};
    outcomes.mode = clamp((int)floor((n + 1.0) * rate), 0, n);
    return two_sided(&outcomes, k);
}

typedef struct Ranked {
    double p;
    size_t at;
} Ranked;

static int by_p(const void *left, const void *right) {
    const Ranked *a = left;
    const Ranked *b = right;
    if (a->p != b->p) return a->p < b->p ? -1 : 1;
    return (a->at > b->at) - (a->at < b->at);
}

void test_adjust(Arena *scratch, const double *p, size_t count, double *adjusted) {
    Ranked *ranked = ARENA_ARRAY(scratch, count, Ranked);
    size_t tests = 0;
    for (size_t i = 0; i < count; i++) {
        if (!isnan(p[i]))
            ranked[tests++] = (Ranked){p[i], i};
        else
            adjusted[i] = NAN;
    }
    qsort(ranked, tests, sizeof *ranked, by_p);
    double least = 1;
    for (size_t rank = tests; rank > 0; rank--) {
        double scaled = (double)tests / (double)rank * ranked[rank - 1].p;
        if (scaled < least) least = scaled;
        adjusted[ranked[rank - 1].at] = least;
    }
}
