/* Bootstrap of the measures of a survey: means, ratios and formulas over chosen selections, all from the same draws.
 * Usage: new, ask for each figure, begin, end, then read, free. */
#ifndef TB_STATS_RESAMPLE_H
#define TB_STATS_RESAMPLE_H

#include "stats/bootstrap.h"
#include "stats/estimate.h"
#include "stats/survey.h"

typedef struct Resample Resample;

enum { RESAMPLE_NONE = -1 };

/* Selections are known by their index here. They and the survey must outlive the result. */
Resample *resample_new(const Survey *survey, const Selection *selections, size_t selection_count);
void resample_free(Resample *resample);

/* Asks for a measure over a selection; its number for the calls below, the same when asked again. RESAMPLE_NONE for
 * rates, which have exact intervals. Before resample_begin. */
int resample_ask(Resample *resample, int measure, size_t selection);

/* The number of a figure already asked for, or RESAMPLE_NONE. */
int resample_find(const Resample *resample, int measure, size_t selection);

/* Begins to draw, beside the caller's own work: until resample_end the resample may only be asked for numbers. Costs
 * replicates * rows, and nothing when nothing was asked for. */
void resample_begin(Resample *resample);
void resample_end(Resample *resample);

/* What a comparison came to. Fields are NaN where resampling says nothing. */
typedef struct Resampled {
    Interval interval;
    double p;
    double variance, other_variance; /* of either side */
} Resampled;

/* `estimate` is the figure asked for as number `figure`. */
Interval resample_interval(const Resample *resample, int figure, const Estimate *estimate);

/* The first less the second figure against 0. */
Resampled resample_difference(const Resample *resample, int figure, const Estimate *a, int other, const Estimate *b);

/* The figure less a fixed value. */
Resampled resample_against(const Resample *resample, int figure, const Estimate *estimate, double value);

/* The interval of a single figure, with the same draws again. NaN for a rate. */
Interval resample_once(const Survey *survey, int measure, const Selection *selection, const Estimate *estimate);

#endif
