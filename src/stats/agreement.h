/* How far evaluators agree: two charts of one game field by field, and the grades of several graders. */
#ifndef TB_STATS_AGREEMENT_H
#define TB_STATS_AGREEMENT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "source/dossier.h"
#include "stats/icc.h"

enum {
    AGREEMENT_LEAST_SNAPS = 8, /* charted by both, under which a field is not told */
    /* A kappa is given for choices, and for whole numbers that take few values, such as the read. */
    AGREEMENT_MOST_CHOICES = 64,
    AGREEMENT_MOST_STEPS = 12
};

/* A snap on which the second chart says something else than the chart that counts. */
typedef struct SnapDifference {
    int row;    /* of the dossier's columns */
    int chart;  /* index in Dossier.second_charts */
    int second; /* row of that chart's columns */
} SnapDifference;

typedef struct FieldAgreement {
    int field;
    int n;            /* snaps on which both charted it; each further chart of a game is held against the first */
    int equal;        /* of them */
    bool weighted;    /* a disagreement counts by the steps between the two values: linear weights */
    double kappa;     /* Cohen's; NaN for fields of many values, and when chance alone agrees fully */
    double low, high; /* its 95 % interval by the standard error; NaN without one, as at full agreement */
    const SnapDifference *differences; /* n - equal of them, in order of charts and snaps */
} FieldAgreement;

typedef struct Agreement {
    int games;                    /* that two people charted, with a snap in common */
    int snaps;                    /* in common */
    const FieldAgreement *fields; /* in the profile's order; texts and film times are not compared */
    size_t field_count;
    double median_kappa; /* over the fields that have one; NaN without any */
    int kappa_count;     /* fields that have one */
    int evaluators;      /* who graded a trait */
    int traits;          /* that all of them graded */
    Icc grades;          /* over those traits; NaN under two evaluators or two traits */
} Agreement;

/* NULL without a second chart and without a second grader. */
const Agreement *agreement_new(Arena *arena, const Dossier *dossier);

#endif
