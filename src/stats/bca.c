/* What is read from replicates: interval, p, skewness and variance. */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdbool.h>

#include "stats/bootstrap.h"
#include "stats/dist.h"

/* The stretch 1 + a z of the acceleration is kept above this: beyond it the approximation has no meaning. */
static const double LEAST_STRETCH = .05;

static double mean_of(const double *values, size_t count) {
    double sum = 0;
    for (size_t i = 0; i < count; i++) sum += values[i];
    return sum / (double)count;
}

double bootstrap_acceleration(const double *influence, size_t count) {
    if (!count) return 0;
    double mean = mean_of(influence, count);
    double squares = 0;
    double cubes = 0;
    for (size_t i = 0; i < count; i++) {
        double off = influence[i] - mean;
        squares += off * off;
        cubes += off * off * off;
    }
    return squares > 0 ? cubes / (6 * squares * sqrt(squares)) : 0;
}

double bootstrap_variance(const double *influence, size_t count) {
    if (!count) return NAN;
    double mean = mean_of(influence, count);
    double squares = 0;
    for (size_t i = 0; i < count; i++) squares += (influence[i] - mean) * (influence[i] - mean);
    return squares * (double)(count - 1) / (double)count;
}

/* Share of replicates under `value`, its equals counted half; kept off 0 and 1 by half a replicate. */
static double share_under(const BootstrapStatistic *statistic, double value) {
    size_t under = 0;
    size_t equal = 0;
    for (size_t i = 0; i < statistic->count; i++) {
        under += statistic->replicates[i] < value;
        equal += statistic->replicates[i] == value;
    }
    double all = (double)statistic->count;
    double share = ((double)under + (double)equal / 2) / all;
    return fmin(fmax(share, .5 / all), 1 - .5 / all);
}

static bool varies(const BootstrapStatistic *statistic) {
    for (size_t i = 1; i < statistic->count; i++) {
        if (statistic->replicates[i] != statistic->replicates[0]) return true;
    }
    return false;
}

static double bias(const BootstrapStatistic *statistic) {
    return gsl_cdf_ugaussian_Pinv(share_under(statistic, statistic->observed));
}

/* The order statistic at `share` of the replicates, linear between neighbours at share * (count + 1). */
static double replicate_at(const BootstrapStatistic *statistic, double share) {
    double at = share * ((double)statistic->count + 1) - 1;
    at = fmin(fmax(at, 0), (double)(statistic->count - 1));
    size_t below = (size_t)at;
    double low = gsl_stats_select(statistic->replicates, 1, statistic->count, below);
    if (below + 1 >= statistic->count) return low;
    double high = statistic->replicates[below + 1]; /* selecting has put the larger ones behind */
    for (size_t i = below + 2; i < statistic->count; i++) {
        if (statistic->replicates[i] < high) high = statistic->replicates[i];
    }
    return low + (at - (double)below) * (high - low);
}

static double end_share(double z0, double acceleration, double z) {
    double stretch = fmax(1 - acceleration * (z0 + z), LEAST_STRETCH);
    return gsl_cdf_ugaussian_P(z0 + (z0 + z) / stretch);
}

Interval bootstrap_interval(const BootstrapStatistic *statistic, double level) {
    if (!statistic->count || !varies(statistic)) return (Interval){NAN, NAN};
    double tail = (1 - level) / 2;
    double z =
        isfinite(statistic->degrees) ? dist_student_upper(tail, statistic->degrees) : gsl_cdf_ugaussian_Qinv(tail);
    double z0 = bias(statistic);
    z *= statistic->expansion;
    double low = replicate_at(statistic, end_share(z0, statistic->acceleration, -z));
    double high = replicate_at(statistic, end_share(z0, statistic->acceleration, z));
    return (Interval){low, high};
}

double bootstrap_p(const BootstrapStatistic *statistic, double hypothesis) {
    if (!statistic->count || !varies(statistic)) return NAN;
    double z0 = bias(statistic);
    double off = gsl_cdf_ugaussian_Pinv(share_under(statistic, hypothesis)) - z0;
    double z = off / fmax(1 + statistic->acceleration * off, LEAST_STRETCH) - z0;
    z = fabs(z) / statistic->expansion;
    double tail = isfinite(statistic->degrees) ? gsl_cdf_tdist_Q(z, statistic->degrees) : gsl_cdf_ugaussian_Q(z);
    return fmin(2 * tail, 1);
}
