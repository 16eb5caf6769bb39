#include "stats/pooling.h"

#include <math.h>

#include "stats/dist.h"

enum { MOST_STEPS = 200, MOST_HALVINGS = 40 };

/* Newton's method is done when a step changes the logarithms by less than this. */
static const double SMALL_STEP = 1e-13;

/* Near the top the likelihood is too flat to tell steps apart by its value, while Newton's step is right. */
static const double TRUSTED_STEP = 1e-3;

typedef struct Counts {
    const int *k, *n;
    size_t players;
} Counts;

Pool pooling_moments(const int *k, const int *n, size_t players) {
    double count = 0;
    double sum = 0;
    double squares = 0;
    for (size_t i = 0; i < players; i++) {
        if (n[i] <= 0) continue;
        count++;
        sum += (double)k[i] / n[i];
    }
    double mean = sum / count;
    for (size_t i = 0; i < players; i++) {
        if (n[i] > 0) squares += pow((double)k[i] / n[i] - mean, 2);
    }
    double variance = squares / (count - 1);
    double weight = mean * (1 - mean) / variance - 1;
    if (!(count > 1) || !(weight > 0) || !isfinite(weight)) return (Pool){NAN, NAN, false};
    return (Pool){mean * weight, (1 - mean) * weight, false};
}

/* Sums of ln(x + i), 1 / (x + i) and 1 / (x + i)^2 over i under `count`: differences of the log gamma function and its
 * first two derivatives, without its cancellation. */
typedef struct Rising {
    double log, first, second;
} Rising;

static void add_rising(Rising *sum, double x, int count, double sign) {
    for (int i = 0; i < count; i++) {
        double at = x + i;
        sum->log += sign * log(at);
        sum->first += sign / at;
        sum->second -= sign / (at * at);
    }
}

/* Log likelihood in the logarithms of alpha and beta, with its slope and curvature. */
typedef struct Slope {
    double value;
    double a, b;
    double aa, ab, bb;
} Slope;

static Slope slope_at(const Counts *counts, double log_alpha, double log_beta) {
    double alpha = exp(log_alpha);
    double beta = exp(log_beta);
    Rising yes = {0}, no = {0}, both = {0};
    for (size_t i = 0; i < counts->players; i++) {
        add_rising(&yes, alpha, counts->k[i], 1);
        add_rising(&no, beta, counts->n[i] - counts->k[i], 1);
        add_rising(&both, alpha + beta, counts->n[i], -1);
    }
    Slope slope = {.value = yes.log + no.log + both.log};
    slope.a = alpha * (yes.first + both.first);
    slope.b = beta * (no.first + both.first);
    slope.aa = alpha * alpha * (yes.second + both.second) + slope.a;
    slope.bb = beta * beta * (no.second + both.second) + slope.b;
    slope.ab = alpha * beta * both.second;
    return slope;
}

/* The direction of Newton's step, or of steepest ascent where the surface is not a hill; whether it is one. */
static bool direction(const Slope *slope, double *a, double *b) {
    double determinant = slope->aa * slope->bb - slope->ab * slope->ab;
    bool hill = slope->aa < 0 && determinant > 0;
    if (hill) {
        *a = -(slope->bb * slope->a - slope->ab * slope->b) / determinant;
        *b = -(slope->aa * slope->b - slope->ab * slope->a) / determinant;
    } else {
        double length = hypot(slope->a, slope->b);
        *a = length > 0 ? slope->a / length : 0;
        *b = length > 0 ? slope->b / length : 0;
    }
    double most = fmax(fabs(*a), fabs(*b));
    if (most > 1) {
        *a /= most;
        *b /= most;
    }
    return hill;
}

static bool climb(const Counts *counts, double *log_alpha, double *log_beta) {
    Slope here = slope_at(counts, *log_alpha, *log_beta);
    double a;
    double b;
    bool hill = direction(&here, &a, &b);
    bool trusted = hill && fmax(fabs(a), fabs(b)) < TRUSTED_STEP;
    for (int i = 0; i < MOST_HALVINGS; i++, a /= 2, b /= 2) {
        if (fmax(fabs(a), fabs(b)) < SMALL_STEP) return false;
        if (!trusted && slope_at(counts, *log_alpha + a, *log_beta + b).value < here.value) continue;
        *log_alpha += a;
        *log_beta += b;
        return true;
    }
    return false;
}

/* Holds the weight inside its bounds; whether it had to. */
static bool hold(double *log_alpha, double *log_beta) {
    double weight = exp(*log_alpha) + exp(*log_beta);
    double bound = fmin(fmax(weight, POOL_LEAST_WEIGHT), POOL_MOST_WEIGHT);
    if (bound == weight) return false;
    *log_alpha += log(bound / weight);
    *log_beta += log(bound / weight);
    return true;
}

/* The rate of all together, kept off 0 and 1. */
static double common_rate(const Counts *counts) {
    double yes = .5;
    double all = 1;
    for (size_t i = 0; i < counts->players; i++) {
        yes += counts->k[i];
        all += counts->n[i];
    }
    return yes / all;
}

Pool pooling_fit(const int *k, const int *n, size_t players) {
    enum { START_WEIGHT = 10 };
    Counts counts = {k, n, players};
    Pool start = pooling_moments(k, n, players);
    double snaps = 0;
    for (size_t i = 0; i < players; i++) snaps += n[i];
    if (!(snaps > 0)) return (Pool){NAN, NAN, false};
    double rate = common_rate(&counts);
    bool usable = start.alpha > 0 && start.beta > 0;
    double log_alpha = log(usable ? start.alpha : START_WEIGHT * rate);
    double log_beta = log(usable ? start.beta : START_WEIGHT * (1 - rate));
    for (int i = 0; i < MOST_STEPS; i++) {
        if (!climb(&counts, &log_alpha, &log_beta)) break;
        if (!hold(&log_alpha, &log_beta)) continue;
        bool alike = exp(log_alpha) + exp(log_beta) > 1;
        double weight = alike ? POOL_MOST_WEIGHT : POOL_LEAST_WEIGHT;
        return (Pool){weight * rate, weight * (1 - rate), alike};
    }
    return (Pool){exp(log_alpha), exp(log_beta), false};
}

Pooled pooling_posterior(const Pool *pool, int k, int n, double level) {
    double alpha = pool->alpha + k;
    double beta = pool->beta + n - k;
    Pooled pooled = {NAN, NAN, {NAN, NAN}};
    if (!(alpha > 0) || !(beta > 0)) return pooled;
    double weight = alpha + beta;
    double tail = (1 - level) / 2;
    pooled.mean = alpha / weight;
    pooled.deviation = sqrt(alpha * beta / (weight * weight * (weight + 1)));
    pooled.interval = (Interval){dist_beta_lower(tail, alpha, beta), 1 - dist_beta_lower(tail, beta, alpha)};
    return pooled;
}
