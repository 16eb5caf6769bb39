/* Agreement of two charters beyond chance: Cohen's kappa. Pure functions. */
#ifndef TB_STATS_KAPPA_H
#define TB_STATS_KAPPA_H

#include <stddef.h>

#include "base/arena.h"

/* How much a disagreement counts: all the same (J. Cohen 1960, Educ Psychol Meas 20:37-46), or by the steps between two
 * values of an ordered field, or by their squares (J. Cohen 1968, Psychol Bull 70:213-220). */
typedef enum KappaWeights { KAPPA_PLAIN, KAPPA_LINEAR, KAPPA_QUADRATIC } KappaWeights;

typedef struct Kappa {
    double observed; /* agreement, weighted, 0..1 */
    double chance;   /* agreement expected of the same margins */
    double kappa;    /* NaN when chance alone agrees fully, or without snaps */
    double error;    /* standard error: Fleiss, Cohen & Everitt 1969, Psychol Bull 72:323-327 */
} Kappa;

/* Disagreement weights [row * values + column] of a field with that many values. */
double *kappa_weights(Arena *arena, size_t values, KappaWeights weights);

/* From counts (or shares) table[first * values + second] and disagreement weights, 0 on the diagonal. */
Kappa kappa_from_table(Arena *scratch, const double *table, const double *weights, size_t values);

/* Cross-tabulates two charters' values, 0 .. values - 1, of the same snaps; negative: not charted, left out. Returns
 * how many snaps both charted. */
size_t kappa_tabulate(const int *first, const int *second, size_t snaps, size_t values, double *table);

#endif
