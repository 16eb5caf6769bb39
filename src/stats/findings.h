/* What the statistics find in a dossier: every figure that a page may print, with its count and interval. */
#ifndef TB_STATS_FINDINGS_H
#define TB_STATS_FINDINGS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/buf.h"
#include "source/dossier.h"
#include "source/house.h"
#include "stats/agreement.h"

/* One measure over one selection. Rates are 0..1; other values in the measure's unit. */
typedef struct Estimate {
    MeasureKind kind;
    int k;            /* RATE: snaps with the answer yes; else 0 */
    int n;            /* answered snaps (RATE, MEAN), or the total below the line (RATIO, FORMULA) */
    int unknown;      /* snaps of the selection that cannot be answered because something was not charted */
    double value;     /* NaN when n is 0 or the formula divides by zero */
    double low, high; /* 95 % interval; NaN where none can be given */
} Estimate;

enum {
    ESTIMATE_ALL = -1,
    FEW_FOR_A_TINT = 5,
    FEW_FOR_A_VERDICT = 8,
    MOST_SNAPS_NEEDED = 200 /* more than a season can show */
};

/* Ordered so that a worse verdict is smaller. */
typedef enum Verdict {
    VERDICT_TOO_FEW,
    VERDICT_CONTRADICTED,
    VERDICT_LEANING_AGAINST,
    VERDICT_LEANING,
    VERDICT_BORNE_OUT
} Verdict;

typedef struct ClaimFinding {
    Estimate a, b;
    double difference;    /* a.value - b.value; NaN when either is */
    double low, high;     /* 95 % interval of the difference */
    double p, p_adjusted; /* two-sided; NaN where no test can be run */
    Verdict verdict;
    int cited;         /* snaps cited that belong to the claim's slice */
    int cited_against; /* of them, cited as speaking against it */
    int snaps;         /* answered snaps of the slice */
    int snaps_needed;  /* more snaps of the slice that would settle it, were the present rates the true ones: 0 it is
                        * settled, MOST_SNAPS_NEEDED + 1 more than that, -1 cannot be said */
} ClaimFinding;

typedef struct MeasurableFinding {
    const Measurable *measurable;
    const ScaleMeasurable *population; /* NULL: none to compare with */
    double percentile; /* 0..100, high is better where the profile says which way is better; NaN without a population */
} MeasurableFinding;

enum { COMPARABLES_MOST = 5, COMPARABLES_FEWEST_KINDS = 3, COMPARABLES_FEWEST_ROWS = 30 };

typedef struct Comparable {
    size_t row; /* of the scale */
    const char *id, *label;
    double distance; /* Mahalanobis */
} Comparable;

/* The players of the scale that are nearest in the measurables that both have. */
typedef struct ComparableFinding {
    const Measurable **used; /* one a kind, in the scale's order */
    size_t *columns;         /* of the scale, likewise */
    size_t kind_count;
    const Measurable **left_out; /* of kinds with which too few rows are complete */
    size_t left_out_count;
    size_t complete; /* rows that have all kinds used */
    Comparable nearest[COMPARABLES_MOST];
    size_t count; /* 0: no rows, too few kinds or rows, or kinds that follow from each other */
} ComparableFinding;

typedef struct TraitFinding {
    int evaluators;   /* who graded it */
    double house;     /* the filing evaluator's grade; NaN not graded */
    double low, high; /* range between evaluators */
    int snaps;        /* counted snaps that show it; -1 where the profile does not say which do */
} TraitFinding;

typedef struct FieldFinding {
    const ProfileFigure *figure;
    size_t lanes, bands; /* values of the lateral and the depth field */
    Estimate *cells;     /* [band * lanes + lane] */
    Estimate *lane_totals, *band_totals;
    int unplaced; /* answered snaps of the measure without a lane or a band; totals leave them out */
} FieldFinding;

enum { SITUATION_DOWNS = 4 };

/* Down by yards to go, from the fields "down" and "to-go-band". */
typedef struct SituationFinding {
    const Field *band; /* NULL: the profile has no such fields */
    size_t bands;
    Estimate *cells; /* [measure * SITUATION_DOWNS * bands + (down - 1) * bands + band] */
} SituationFinding;

typedef struct Findings {
    const Dossier *dossier;
    const Scale *scale;       /* may be NULL */
    double *totals;           /* by total index */
    Estimate *estimates;      /* [measure * (slices + 1) + slice + 1]; slice -1 is all */
    Estimate *game_estimates; /* [measure * games + game]; intervals of all but rates are the jackknife's */
    double *game_totals;      /* [total * games + game] */
    const char **opponents;   /* in order of first meeting */
    size_t opponent_count;
    Estimate *opponent_estimates; /* [measure * opponents + opponent]; likewise */
    SituationFinding situation;
    ClaimFinding *claims;           /* by claim index */
    MeasurableFinding *measurables; /* by measurable index */
    ComparableFinding comparables;
    TraitFinding *traits;             /* by trait index of the profile */
    FieldFinding *fields;             /* by profile figure index; lanes 0 for other figures */
    double composite;                 /* weighted mean of the filing evaluator's grades; NaN under 70 % of the weight */
    double overall_low, overall_high; /* range of overall grades between evaluators; NaN without any */
    int overall_count;
    const Agreement *agreement;  /* NULL without a second chart and without a second grader */
    int snaps, counted;          /* charted snaps; those that measures count */
    const struct Survey *survey; /* what the figures were counted from */
} Findings;

/* Requires a dossier without errors. `scale` may be NULL. */
const Findings *findings_compute(Arena *arena, const Dossier *dossier, const Scale *scale);

const Estimate *findings_estimate(const Findings *findings, int measure, int slice);

/* The measurable that stands for a kind where it was measured more than once: a verified one before a reported one, one
 * that was not timed by hand before one that was, then the latest, then the first. NULL: not measured. */
const Measurable *findings_measurable(const Findings *findings, const char *kind);

/* A <stat> of prose: measure over slice and `where`, or a total: `value` is the total and `n` the snaps that add to it.
 */
Estimate findings_stat(Arena *arena, const Findings *findings, const StatRef *stat);

const char *verdict_word(Verdict verdict); /* "borne out" */
const char *verdict_key(Verdict verdict);  /* "borne-out", as in JSON */

/* Outputs of `tapebound stats` and --dump=stats. */
void findings_json(const Findings *findings, Buf *out);
void findings_csv(const Findings *findings, Buf *out);
void findings_text(const Findings *findings, Buf *out);

#endif
