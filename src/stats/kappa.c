#include "stats/kappa.h"

#include <math.h>
#include <stdlib.h>

double *kappa_weights(Arena *arena, size_t values, KappaWeights weights) {
    double *table = ARENA_ARRAY(arena, values * values, double);
    for (size_t row = 0; row < values; row++) {
        for (size_t column = 0; column < values; column++) {
            double steps = fabs((double)row - (double)column);
            if (weights == KAPPA_PLAIN) steps = row != column;
            if (weights == KAPPA_QUADRATIC) steps *= steps;
            table[row * values + column] = steps;
        }
    }
    return table;
}

/* Shares and what follows from the margins. */
typedef struct Shares {
    size_t values;
    double total;         /* of the counts */
    const double *table;  /* counts */
    double *weight;       /* agreement weights, 1 on the diagonal */
    double *row, *column; /* margins, as shares */
    double *row_weight;   /* mean agreement weight of a row over the columns' margins */
    double *column_weight;
} Shares;

/* Turns disagreement into agreement, the greatest disagreement being none. */
static double *agreement(Arena *scratch, const double *weights, size_t cells) {
    double *agreed = ARENA_ARRAY(scratch, cells, double);
    double most = 0;
    for (size_t i = 0; i < cells; i++) most = fmax(most, weights[i]);
    for (size_t i = 0; i < cells; i++) agreed[i] = most > 0 ? 1 - weights[i] / most : 1;
    return agreed;
}

static Shares shares_new(Arena *scratch, const double *table, const double *weights, size_t values) {
    Shares shares = {.values = values, .table = table, .weight = agreement(scratch, weights, values * values)};
    shares.row = ARENA_ARRAY(scratch, values, double);
    shares.column = ARENA_ARRAY(scratch, values, double);
    shares.row_weight = ARENA_ARRAY(scratch, values, double);
    shares.column_weight = ARENA_ARRAY(scratch, values, double);
    for (size_t i = 0; i < values * values; i++) shares.total += table[i];
    if (!(shares.total > 0)) return shares;
    for (size_t i = 0; i < values * values; i++) {
        shares.row[i / values] += table[i] / shares.total;
        shares.column[i % values] += table[i] / shares.total;
    }
    for (size_t i = 0; i < values * values; i++) {
        shares.row_weight[i / values] += shares.weight[i] * shares.column[i % values];
        shares.column_weight[i % values] += shares.weight[i] * shares.row[i / values];
    }
    return shares;
}

static double standard_error(const Shares *shares, double observed, double chance) {
    double sum = 0;
    for (size_t i = 0; i < shares->values * shares->values; i++) {
        double margins = shares->row_weight[i / shares->values] + shares->column_weight[i % shares->values];
        double term = shares->weight[i] * (1 - chance) - margins * (1 - observed);
        sum += shares->table[i] / shares->total * term * term;
    }
    double constant = observed * chance - 2 * chance + observed;
    double rest = 1 - chance;
    return sqrt(fmax(sum - constant * constant, 0) / shares->total) / (rest * rest);
}

Kappa kappa_from_table(Arena *scratch, const double *table, const double *weights, size_t values) {
    Kappa result = {NAN, NAN, NAN, NAN};
    Shares shares = shares_new(scratch, table, weights, values);
    if (!(shares.total > 0)) return result;
    result.observed = result.chance = 0;
    for (size_t i = 0; i < values * values; i++) {
        result.observed += shares.weight[i] * table[i] / shares.total;
        result.chance += shares.weight[i] * shares.row[i / values] * shares.column[i % values];
    }
    if (!(result.chance < 1)) return result;
    result.kappa = (result.observed - result.chance) / (1 - result.chance);
    result.error = standard_error(&shares, result.observed, result.chance);
    return result;
}

size_t kappa_tabulate(const int *first, const int *second, size_t snaps, size_t values, double *table) {
    size_t both = 0;
    for (size_t i = 0; i < values * values; i++) table[i] = 0;
    for (size_t i = 0; i < snaps; i++) {
        if (first[i] < 0 || second[i] < 0) continue;
        table[(size_t)first[i] * values + (size_t)second[i]]++;
        both++;
    }
    return both;
}
