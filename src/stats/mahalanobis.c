#include "stats/mahalanobis.h"

#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "stats/dist.h"

/* A pivot this small against the largest means that one kind follows from the others. */
static const double LEAST_PIVOT = 1e-10;

/* The population cut down to the kinds in use and the rows that have them all, in units of each kind's deviation. */
typedef struct Cases {
    size_t kinds, rows;
    size_t *row_of; /* population row */
    double *value;  /* [row * kinds + kind], less the mean, over the deviation */
    double *player; /* likewise */
} Cases;

static size_t kinds_in_use(const double *player, size_t kinds, size_t *used) {
    size_t count = 0;
    for (size_t i = 0; i < kinds; i++) {
        if (!isnan(player[i])) used[count++] = i;
    }
    return count;
}

static bool complete(const double *row, const size_t *used, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (isnan(row[used[i]])) return false;
    }
    return true;
}

/* Takes off the mean and divides by the deviation; false when a kind does not vary. */
static bool standardise(Cases *cases) {
    for (size_t kind = 0; kind < cases->kinds; kind++) {
        double sum = 0;
        double squares = 0;
        for (size_t row = 0; row < cases->rows; row++) sum += cases->value[row * cases->kinds + kind];
        double mean = sum / (double)cases->rows;
        for (size_t row = 0; row < cases->rows; row++) {
            double *value = &cases->value[row * cases->kinds + kind];
            *value -= mean;
            squares += *value * *value;
        }
        double deviation = sqrt(squares / (double)(cases->rows - 1));
        if (!(deviation > 0)) return false;
        for (size_t row = 0; row < cases->rows; row++) cases->value[row * cases->kinds + kind] /= deviation;
        cases->player[kind] = (cases->player[kind] - mean) / deviation;
    }
    return true;
}

static Cases cases_new(Arena *scratch, const double *population, size_t rows, size_t kinds, const double *player) {
    size_t *used = ARENA_ARRAY(scratch, kinds, size_t);
    Cases cases = {.kinds = kinds_in_use(player, kinds, used)};
    cases.row_of = ARENA_ARRAY(scratch, rows, size_t);
    cases.value = ARENA_ARRAY(scratch, rows * cases.kinds, double);
    cases.player = ARENA_ARRAY(scratch, cases.kinds, double);
    for (size_t kind = 0; kind < cases.kinds; kind++) cases.player[kind] = player[used[kind]];
    for (size_t row = 0; row < rows; row++) {
        const double *from = population + row * kinds;
        if (!complete(from, used, cases.kinds)) continue;
        for (size_t kind = 0; kind < cases.kinds; kind++) {
            cases.value[cases.rows * cases.kinds + kind] = from[used[kind]];
        }
        cases.row_of[cases.rows++] = row;
    }
    return cases;
}

static gsl_matrix *correlation(const Cases *cases) {
    gsl_matrix *matrix = gsl_matrix_calloc(cases->kinds, cases->kinds);
    for (size_t i = 0; i < cases->kinds; i++) {
        for (size_t j = 0; j < cases->kinds; j++) {
            double sum = 0;
            for (size_t row = 0; row < cases->rows; row++) {
                sum += cases->value[row * cases->kinds + i] * cases->value[row * cases->kinds + j];
            }
            gsl_matrix_set(matrix, i, j, sum / (double)(cases->rows - 1));
        }
    }
    return matrix;
}

/* Pivoted LDL' leaves the pivots on the diagonal, the largest first. */
static bool is_definite(const gsl_matrix *decomposed) {
    for (size_t i = 0; i < decomposed->size1; i++) {
        if (!(gsl_matrix_get(decomposed, i, i) > LEAST_PIVOT * gsl_matrix_get(decomposed, 0, 0))) return false;
    }
    return true;
}

/* With the correlations decomposed into L D L' the squared distance is the sum of y_i^2 / D_i, where L y is the row's
 * way to the player in the order of the pivots. */
static void measure_rows(Arena *scratch, const Cases *cases, const gsl_matrix *decomposed, const gsl_permutation *order,
                         double *distance) {
    size_t kinds = cases->kinds;
    double *y = ARENA_ARRAY(scratch, kinds, double);
    for (size_t row = 0; row < cases->rows; row++) {
        const double *value = cases->value + row * kinds;
        double square = 0;
        for (size_t i = 0; i < kinds; i++) {
            const double *l = gsl_matrix_const_ptr(decomposed, i, 0);
            size_t kind = gsl_permutation_get(order, i);
            y[i] = value[kind] - cases->player[kind];
            for (size_t j = 0; j < i; j++) y[i] -= l[j] * y[j];
            square += y[i] * y[i] / l[i];
        }
        distance[cases->row_of[row]] = sqrt(square);
    }
}

size_t mahalanobis(Arena *scratch, const double *population, size_t rows, size_t kinds, const double *player,
                   double *distance) {
    for (size_t row = 0; row < rows; row++) distance[row] = NAN;
    Cases cases = cases_new(scratch, population, rows, kinds, player);
    if (!cases.kinds || cases.rows <= cases.kinds || !standardise(&cases)) return 0;
    dist_share_exhaustion();
    gsl_matrix *matrix = correlation(&cases);
    gsl_permutation *order = gsl_permutation_alloc(cases.kinds);
    gsl_linalg_pcholesky_decomp(matrix, order);
    bool definite = is_definite(matrix);
    if (definite) measure_rows(scratch, &cases, matrix, order, distance);
    gsl_permutation_free(order);
    gsl_matrix_free(matrix);
    return definite ? cases.rows : 0;
}

typedef struct Near {
    double distance;
    size_t row;
} Near;

static int by_distance(const void *left, const void *right) {
    const Near *a = left;
    const Near *b = right;
    if (a->distance != b->distance) return a->distance < b->distance ? -1 : 1;
    return (a->row > b->row) - (a->row < b->row);
}

size_t mahalanobis_nearest(Arena *scratch, const double *distance, size_t rows, size_t most, size_t *nearest) {
    Near *all = ARENA_ARRAY(scratch, rows, Near);
    size_t count = 0;
    for (size_t row = 0; row < rows; row++) {
        if (!isnan(distance[row])) all[count++] = (Near){distance[row], row};
    }
    qsort(all, count, sizeof *all, by_distance);
    if (count > most) count = most;
    for (size_t i = 0; i < count; i++) nearest[i] = all[i].row;
    return count;
}
