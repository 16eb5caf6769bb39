#include "stats/quantile.h"

#include <math.h>
#include <stdlib.h>

static int by_value(const void *left, const void *right) {
    double a = *(const double *)left;
    double b = *(const double *)right;
    return (a > b) - (a < b);
}

void quantile_sort(double *values, size_t count) {
    qsort(values, count, sizeof *values, by_value);
}

double quantile_type7(const double *rising, size_t count, double p) {
    if (!count || isnan(p)) return NAN;
    double at = (double)(count - 1) * fmin(fmax(p, 0), 1);
    size_t below = (size_t)at;
    if (below + 1 >= count) return rising[count - 1];
    return rising[below] + (at - (double)below) * (rising[below + 1] - rising[below]);
}

/* How many of the rising values are under `value`, or, with `equal`, not over it. */
static size_t count_under(const double *rising, size_t count, double value, bool equal) {
    size_t low = 0;
    size_t high = count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (rising[middle] < value || (equal && rising[middle] == value))
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

double quantile_midrank(const double *rising, size_t count, double value) {
    if (!count || isnan(value)) return NAN;
    size_t under = count_under(rising, count, value, false);
    size_t not_over = count_under(rising, count, value, true);
    return 50 * ((double)under + (double)not_over) / (double)count;
}

double quantile_percentile(const ScaleQuantile *quantiles, size_t count, double value) {
    if (!count || isnan(value)) return NAN;
    size_t above = 0;
    while (above < count && quantiles[above].value <= value) above++;
    size_t first = above;
    while (first > 0 && quantiles[first - 1].value >= value) first--;
    if (first < above) return (quantiles[first].p + quantiles[above - 1].p) / 2;
    if (above == 0) return quantiles[0].p;
    if (above == count) return quantiles[count - 1].p;
    const ScaleQuantile *low = &quantiles[above - 1];
    const ScaleQuantile *high = &quantiles[above];
    return low->p + (high->p - low->p) * (value - low->value) / (high->value - low->value);
}
