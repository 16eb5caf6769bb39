/* Nearest comparables: distance in units of how a population varies together (P. C. Mahalanobis 1936). */
#ifndef TB_STATS_MAHALANOBIS_H
#define TB_STATS_MAHALANOBIS_H

#include <stddef.h>

#include "base/arena.h"

/* Stores in distance[row] how far each row of population[row * kinds + kind] is from `player`, over the kinds that the
 * player has (NaN: not measured). Only rows complete in those kinds count; the others get NaN. Returns how many are
 * complete, or 0, with all distances NaN, when they are too few (not more than the kinds) or vary in fewer ways than
 * there are kinds. */
size_t mahalanobis(Arena *scratch, const double *population, size_t rows, size_t kinds, const double *player,
                   double *distance);

/* Numbers of the `most` nearest rows, the nearest first; ties by row. Returns how many were stored. */
size_t mahalanobis_nearest(Arena *scratch, const double *distance, size_t rows, size_t most, size_t *nearest);

#endif
