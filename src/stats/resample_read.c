#include <gsl/gsl_cdf.h>
#include <math.h>

#include "stats/resample_parts.h"

/* A replicate may draw nothing to divide by. Where more than this share does, what is left is no fair picture. */
static const double MOST_EMPTY = .05;

/* Games of one snap each would leave nothing to draw from. */
static const double LEAST_LEFT = .25;

/* One side of a comparison, or nothing. */
typedef struct Side {
    const Figure *figure; /* NULL: a fixed value */
    double value;         /* of the fixed value */
    int n;
} Side;

static double side_replicate(const Side *side, size_t at) {
    return side->figure ? side->figure->replicates[at] : side->value;
}

/* Replicates of a less b that have a value. */
static double *differences(const Resample *resample, const Side *a, const Side *b, size_t *count) {
    double *kept = ARENA_ARRAY(resample->arena, BOOTSTRAP_REPLICATES, double);
    *count = 0;
    for (size_t i = 0; i < BOOTSTRAP_REPLICATES; i++) {
        double difference = side_replicate(a, i) - side_replicate(b, i);
        if (!isnan(difference)) kept[(*count)++] = difference;
    }
    if ((double)*count < (1 - MOST_EMPTY) * BOOTSTRAP_REPLICATES) *count = 0;
    return kept;
}

/* What each row adds to the difference. */
static double *influence_of(const Resample *resample, const Side *a, const Side *b) {
    size_t rows = resample->table.rows;
    double *influence = ARENA_ARRAY(resample->arena, rows, double);
    for (size_t i = 0; i < rows; i++) {
        influence[i] = a->figure->influence[i] - (b->figure ? b->figure->influence[i] : 0);
    }
    return influence;
}

static double side_variance(const Resample *resample, const Side *side) {
    return side->figure ? bootstrap_variance(side->figure->influence, resample->table.rows) : 0;
}

/* The share of a variance that is left when snaps are drawn inside games: a stratum of n loses one part in n. */
static double left_in_games(const Resample *resample) {
    double rows = (double)resample->table.rows;
    return fmax((rows - (double)resample->table.stratum_count) / fmax(rows - 1, 1), LEAST_LEFT);
}

/* The smaller side's degrees of freedom, the lower bound of Welch's, and how far the drawn variance falls short on both
 * sides. */
static void small_sample(const Side *a, double variance_a, const Side *b, double variance_b, double left,
                         BootstrapStatistic *into) {
    int fewest = b->figure && b->n < a->n ? b->n : a->n;
    double full = variance_a * a->n / (a->n - 1);
    if (b->figure) full += variance_b * b->n / (b->n - 1);
    double both = variance_a + variance_b;
    into->degrees = (fewest - 1) * left;
    into->expansion = both > 0 ? sqrt(full / both / left) : 1;
}

static bool enough(const Side *side) {
    return !side->figure || side->n >= BOOTSTRAP_FEWEST;
}

static double student_p(double difference, double variance, const BootstrapStatistic *statistic) {
    double t = fabs(difference) / (sqrt(variance) * statistic->expansion);
    return variance > 0 ? 2 * gsl_cdf_tdist_Q(t, statistic->degrees) : NAN;
}

/* The p is the larger of the bootstrap's and Student's on the jackknife's standard error: far out in the tail, where
 * many claims are adjusted for, skewed gains make the bootstrap alone too eager. The bench reports what comes of it. */
static Resampled compare(const Resample *resample, const Side *a, const Side *b) {
    Resampled result = {{NAN, NAN}, NAN, NAN, NAN};
    if (!enough(a) || !enough(b)) return result;
    size_t rows = resample->table.rows;
    BootstrapStatistic statistic = {0};
    statistic.replicates = differences(resample, a, b, &statistic.count);
    statistic.observed = a->figure->observed - (b->figure ? b->figure->observed : b->value);
    if (!statistic.count || isnan(statistic.observed)) return result;
    const double *influence = influence_of(resample, a, b);
    statistic.acceleration = bootstrap_acceleration(influence, rows);
    result.variance = side_variance(resample, a);
    result.other_variance = side_variance(resample, b);
    small_sample(a, result.variance, b, result.other_variance, left_in_games(resample), &statistic);
    result.interval = bootstrap_interval(&statistic, ESTIMATE_LEVEL);
    result.p = bootstrap_p(&statistic, 0);
    double student = student_p(statistic.observed, bootstrap_variance(influence, rows), &statistic);
    if (student > result.p) result.p = student;
    return result;
}

Interval resample_interval(const Resample *resample, int figure, const Estimate *estimate) {
    Side side = {&resample->figures[figure], 0, estimate->n};
    Side nothing = {NULL, 0, 0};
    return compare(resample, &side, &nothing).interval;
}

Resampled resample_difference(const Resample *resample, int figure, const Estimate *a, int other, const Estimate *b) {
    Side first = {&resample->figures[figure], 0, a->n};
    Side second = {&resample->figures[other], 0, b->n};
    return compare(resample, &first, &second);
}

Resampled resample_against(const Resample *resample, int figure, const Estimate *estimate, double value) {
    Side side = {&resample->figures[figure], 0, estimate->n};
    Side fixed = {NULL, value, 0};
    return compare(resample, &side, &fixed);
}

Interval resample_once(const Survey *survey, int measure, const Selection *selection, const Estimate *estimate) {
    Interval interval = {NAN, NAN};
    if (estimate->n < BOOTSTRAP_FEWEST) return interval;
    Resample *resample = resample_new(survey, selection, 1);
    int figure = resample_ask(resample, measure, 0);
    resample_begin(resample);
    resample_end(resample);
    if (figure != RESAMPLE_NONE) interval = resample_interval(resample, figure, estimate);
    resample_free(resample);
    return interval;
}
