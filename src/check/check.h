/* Checks of a dossier that is well-formed and whose words are the profile's: of the chart against itself and against
 * the official box score, of clips, measurements, claims, grades and the report. Rules are rows of base/diag_rules.h.
 *
 * Requires a dossier as dossier_load returns it, with or without errors. Changes nothing; provides findings. */
#ifndef TB_CHECK_CHECK_H
#define TB_CHECK_CHECK_H

#include "base/diag.h"
#include "source/dossier.h"

/* How much was there to be checked. */
typedef struct Checked {
    size_t values;       /* charted values of all snaps that count */
    size_t ordered;      /* snaps whose order and clock were compared with the snap before */
    size_t chained;      /* snaps whose down, distance and spot were compared with the snap before */
    size_t clashes;      /* rules about the values of one snap that speak of this profile's fields */
    size_t totals;       /* official totals compared with the chart */
    size_t matched;      /* snaps of second charts compared with the first */
    size_t clips;        /* with both times */
    size_t measurements; /* measurables */
    size_t claims, cites;
    size_t grades; /* of traits, by all evaluators */
} Checked;

Checked check_dossier(const Dossier *dossier, Diagnostics *diagnostics);

#endif
