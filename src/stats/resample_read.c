#include <math.h>

#include "stats/resample_parts.h"

/* A replicate may draw nothing to divide by. Where more than this share does, what is left is no fair picture. */
static const double MOST_EMPTY = .05;

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

static double skewness(const Resample *resample, const Side *a, const Side *b) {
    size_t rows = resample->table.rows;
    double *influence = ARENA_ARRAY(resample->arena, rows, double);
    for (size_t i = 0; i < rows; i++) {
        influence[i] = a->figure->influence[i] - (b->figure ? b->figure->influence[i] : 0);
    }
    return bootstrap_acceleration(influence, rows);
}

static double side_variance(const Resample *resample, const Side *side) {
    return side->figure ? bootstrap_variance(side->figure->influence, resample->table.rows) : 0;
}

/* Degrees of freedom of Welch and Satterthwaite, and how far the plain variance falls short on both sides together. */
static void small_sample(const Side *a, double variance_a, const Side *b, double variance_b, BootstrapStatistic *into) {
    double under = variance_a * variance_a / (a->n - 1);
    double full = variance_a * a->n / (a->n - 1);
    if (b->figure) {
        under += variance_b * variance_b / (b->n - 1);
        full += variance_b * b->n / (b->n - 1);
    }
    double both = variance_a + variance_b;
    into->degrees = both > 0 ? both * both / under : INFINITY;
    into->expansion = both > 0 ? sqrt(full / both) : 1;
}

static bool enough(const Side *side) {
    return !side->figure || side->n >= BOOTSTRAP_FEWEST;
}

static Resampled compare(const Resample *resample, const Side *a, const Side *b) {
    Resampled result = {{NAN, NAN}, NAN, NAN, NAN};
    if (!enough(a) || !enough(b)) return result;
    BootstrapStatistic statistic = {0};
    statistic.replicates = differences(resample, a, b, &statistic.count);
    statistic.observed = a->figure->observed - (b->figure ? b->figure->observed : b->value);
    if (!statistic.count || isnan(statistic.observed)) return result;
    statistic.acceleration = skewness(resample, a, b);
    result.variance = side_variance(resample, a);
    result.other_variance = side_variance(resample, b);
    small_sample(a, result.variance, b, result.other_variance, &statistic);
    result.interval = bootstrap_interval(&statistic, ESTIMATE_LEVEL);
    result.p = bootstrap_p(&statistic, 0);
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
    Arena *scratch = arena_new();
    Resample *resample = resample_new(scratch, survey, selection, 1);
    int figure = resample_ask(resample, measure, 0);
    resample_run(resample);
    if (figure != RESAMPLE_NONE) interval = resample_interval(resample, figure, estimate);
    arena_free(scratch);
    return interval;
}
