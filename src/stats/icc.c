#include "stats/icc.h"

#include <math.h>

#include "stats/dist.h"

static double mean_of(const double *values, size_t count, size_t step) {
    double sum = 0;
    for (size_t i = 0; i < count; i++) sum += values[i * step];
    return sum / (double)count;
}

/* Mean squares of targets, of judges, of what is left, and within targets. */
static void mean_squares(Icc *icc, const double *ratings, size_t targets, size_t judges) {
    double n = (double)targets;
    double k = (double)judges;
    double all = mean_of(ratings, targets * judges, 1);
    double total = 0;
    double between = 0;
    double across = 0;
    for (size_t i = 0; i < targets * judges; i++) total += (ratings[i] - all) * (ratings[i] - all);
    for (size_t i = 0; i < targets; i++) between += k * pow(mean_of(ratings + i * judges, judges, 1) - all, 2);
    for (size_t i = 0; i < judges; i++) across += n * pow(mean_of(ratings + i, targets, judges) - all, 2);
    icc->between = between / (n - 1);
    icc->judges = across / (k - 1);
    icc->within = (total - between) / (n * (k - 1));
    icc->error = (total - between - across) / ((n - 1) * (k - 1));
}

/* Degrees of freedom of the denominator, by Satterthwaite. */
static double denominator_degrees(const Icc *icc, double n, double k) {
    double a = k * icc->single / (n * (1 - icc->single));
    double b = 1 + k * icc->single * (n - 1) / (n * (1 - icc->single));
    double judges = a * icc->judges;
    double error = b * icc->error;
    return (judges + error) * (judges + error) / (judges * judges / (k - 1) + error * error / ((n - 1) * (k - 1)));
}

static void intervals(Icc *icc, double n, double k, double level) {
    double tail = (1 - level) / 2;
    double degrees = denominator_degrees(icc, n, k);
    if (!(degrees > 0) || !isfinite(degrees)) return;
    double upper = dist_f_upper(tail, n - 1, degrees);
    double lower = dist_f_upper(tail, degrees, n - 1);
    double rest = k * icc->judges + (k * n - k - n) * icc->error;
    double low = n * (icc->between - upper * icc->error) / (upper * rest + n * icc->between);
    double high = n * (lower * icc->between - icc->error) / (rest + n * lower * icc->between);
    icc->single_interval = (Interval){low, high};
    icc->average_interval = (Interval){low * k / (1 + low * (k - 1)), high * k / (1 + high * (k - 1))};
}

Icc icc_two_way(const double *ratings, size_t targets, size_t judges, double level) {
    Icc icc = {NAN, NAN, NAN, NAN, NAN, NAN, {NAN, NAN}, {NAN, NAN}};
    if (targets < 2 || judges < 2) return icc;
    double n = (double)targets;
    double k = (double)judges;
    mean_squares(&icc, ratings, targets, judges);
    double off = icc.between - icc.error;
    icc.single = off / (icc.between + (k - 1) * icc.error + k * (icc.judges - icc.error) / n);
    icc.average = off / (icc.between + (icc.judges - icc.error) / n);
    if (!isfinite(icc.single) || !(icc.single < 1)) return icc;
    intervals(&icc, n, k, level);
    return icc;
}
