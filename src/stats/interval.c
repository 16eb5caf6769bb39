#include "stats/interval.h"

#include <gsl/gsl_cdf.h>
#include <math.h>

/* The normal quantile that leaves (1 - level) / 2 above it. */
static double two_sided_quantile(double level) {
    return gsl_cdf_ugaussian_Qinv((1 - level) / 2);
}

static Interval wilson(double k, double n, double z) {
    double spread = z * sqrt(z * z + 4 * k * (n - k) / n);
    double middle = 2 * k + z * z;
    double under = 2 * (n + z * z);
    Interval interval = {(middle - spread) / under, (middle + spread) / under};
    if (k == 0) interval.low = 0;
    if (k == n) interval.high = 1;
    return interval;
}

Interval interval_wilson(int k, int n, double level) {
    if (n <= 0) return (Interval){NAN, NAN};
    return wilson(k, n, two_sided_quantile(level));
}

Interval interval_newcombe(int k1, int n1, int k2, int n2, double level) {
    if (n1 <= 0 || n2 <= 0) return (Interval){NAN, NAN};
    double z = two_sided_quantile(level);
    Interval first = wilson(k1, n1, z);
    Interval second = wilson(k2, n2, z);
    double p1 = (double)k1 / n1;
    double p2 = (double)k2 / n2;
    double difference = p1 - p2;
    return (Interval){difference - hypot(p1 - first.low, second.high - p2),
                      difference + hypot(first.high - p1, p2 - second.low)};
}
