#include "stats/power.h"

#include <math.h>
#include <stdbool.h>

#include "stats/tests.h"

/* Probabilities under this share of the largest are left out of a sum. */
static const double NEGLIGIBLE = 1e-9;

/* Binomial probabilities of low .. low + count - 1. */
typedef struct Binomial {
    int low, count;
    double *probability;
} Binomial;

static double odds_ratio(int n, double odds, int k) {
    return (double)(n - k + 1) / k * odds; /* P(k) / P(k - 1) */
}

static int binomial_mode(int n, double p) {
    int mode = (int)floor((n + 1.0) * p);
    return mode > n ? n : mode;
}

static Binomial binomial_new(Arena *scratch, int n, double p) {
    Binomial binomial = {.low = 0, .count = 1, .probability = ARENA_ARRAY(scratch, (size_t)n + 1, double)};
    double *all = binomial.probability;
    int mode = binomial_mode(n, p);
    int low = mode;
    int high = mode;
    double odds = p < 1 ? p / (1 - p) : 0;
    double sum = all[mode] = 1;
    for (; high < n && all[high] > NEGLIGIBLE && p < 1; high++)
        sum += all[high + 1] = all[high] * odds_ratio(n, odds, high + 1);
    for (; low > 0 && all[low] > NEGLIGIBLE && p < 1; low--) sum += all[low - 1] = all[low] / odds_ratio(n, odds, low);
    for (int k = low; k <= high; k++) all[k] /= sum;
    binomial.low = low;
    binomial.count = high - low + 1;
    binomial.probability = all + low;
    return binomial;
}

static int binomial_high(const Binomial *binomial) {
    return binomial->low + binomial->count - 1;
}

static double probability(const Binomial *binomial, int k) {
    int at = k - binomial->low;
    return at >= 0 && at < binomial->count ? binomial->probability[at] : 0;
}

/* A unimodal distribution under the null: walked from its ends inwards to find which outcomes the test rejects. */
typedef struct Null {
    int low, high, mode;
    double a, b, c; /* hypergeometric: n1, n2 - successes, successes; binomial: n, odds */
    bool binomial;
} Null;

static double null_ratio(const Null *null, int k) {
    if (null->binomial) return odds_ratio((int)null->a, null->b, k);
    return (null->a - k + 1) * (null->c - k + 1) / (k * (null->b + k));
}

/* Outcomes at or under `low` and at or over `high` are rejected. */
typedef struct Rejected {
    int low, high;
} Rejected;

typedef struct Tail {
    int at;
    double weight; /* relative to the mode's */
} Tail;

/* From the mode to where the rest is negligible, adding up. */
static Tail outwards(const Null *null, int step, double *sum) {
    Tail tail = {null->mode, 1};
    int end = step > 0 ? null->high : null->low;
    while (tail.at != end && tail.weight > NEGLIGIBLE) {
        tail.weight = step > 0 ? tail.weight * null_ratio(null, tail.at + 1) : tail.weight / null_ratio(null, tail.at);
        tail.at += step;
        *sum += tail.weight;
    }
    return tail;
}

/* Takes the outcomes at or under `limit` off the end of the tail and returns their sum. */
static double take(const Null *null, Tail *tail, int step, double limit) {
    double taken = 0;
    while (tail->weight <= limit && tail->at != null->mode) {
        taken += tail->weight;
        tail->weight =
            step > 0 ? tail->weight * null_ratio(null, tail->at + 1) : tail->weight / null_ratio(null, tail->at);
        tail->at += step;
    }
    return taken;
}

static Rejected rejected(const Null *null) {
    double all = 1;
    Tail low = outwards(null, -1, &all);
    Tail high = outwards(null, 1, &all);
    Rejected region = {low.at - 1, high.at + 1};
    for (double sum = 0;;) {
        double limit = fmin(low.weight, high.weight) * (1 + TEST_TIE);
        if (low.at == null->mode) limit = high.weight * (1 + TEST_TIE);
        if (high.at == null->mode) limit = low.weight * (1 + TEST_TIE);
        if (low.at == null->mode && high.at == null->mode) return region;
        sum += take(null, &low, 1, limit) + take(null, &high, -1, limit);
        if (sum > POWER_LEVEL * all) return region;
        region = (Rejected){low.at - 1, high.at + 1};
    }
}

/* Probability of a rejected table among those with `successes` in all, of which the first side has from .. to. */
static double rejected_share(const Binomial *first, int n1, const Binomial *second, int n2, int successes, int from,
                             int to) {
    Null null = {
        .low = successes > n2 ? successes - n2 : 0,
        .high = successes < n1 ? successes : n1,
        .a = n1,
        .b = n2 - successes,
        .c = successes,
    };
    null.mode = (int)floor((n1 + 1.0) * (successes + 1.0) / (n1 + n2 + 2.0));
    if (null.mode < null.low) null.mode = null.low;
    if (null.mode > null.high) null.mode = null.high;
    Rejected region = rejected(&null);
    double share = 0;
    for (int k = from; k <= to; k++) {
        if (k > region.low && k < region.high) continue;
        share += first->probability[k - first->low] * second->probability[successes - k - second->low];
    }
    return share;
}

double power_fisher(Arena *scratch, int n1, double p1, int n2, double p2) {
    Binomial first = binomial_new(scratch, n1, p1);
    Binomial second = binomial_new(scratch, n2, p2);
    double power = 0;
    int last = binomial_high(&first) + binomial_high(&second);
    for (int successes = first.low + second.low; successes <= last; successes++) {
        int from = successes - binomial_high(&second);
        int to = successes - second.low;
        if (from < first.low) from = first.low;
        if (to > binomial_high(&first)) to = binomial_high(&first);
        double share = 0;
        for (int k = from; k <= to; k++) share += probability(&first, k) * probability(&second, successes - k);
        if (share > NEGLIGIBLE) power += rejected_share(&first, n1, &second, n2, successes, from, to);
    }
    return power;
}

double power_binomial(Arena *scratch, int n, double p, double standard) {
    if (!(standard > 0 && standard < 1)) return p == standard ? 0 : 1;
    Null null = {.low = 0,
                 .high = n,
                 .mode = binomial_mode(n, standard),
                 .a = n,
                 .b = standard / (1 - standard),
                 .binomial = true};
    Rejected region = rejected(&null);
    Binomial binomial = binomial_new(scratch, n, p);
    double power = 0;
    for (int k = binomial.low; k < binomial.low + binomial.count; k++) {
        if (k <= region.low || k >= region.high) power += probability(&binomial, k);
    }
    return power;
}
