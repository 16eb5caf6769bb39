#include "stats/bootstrap.h"

#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdbool.h>

/* Two draws are cut from one number of 32 bits where the stratum is small against 16 bits, so that few are rejected. */
enum { HALF_BITS = 16, HALF_RANGE = 1 << HALF_BITS, HALF_MOST_ROWS = 4096 };

static const uint32_t FNV_START = 2166136261u;
static const uint32_t FNV_PRIME = 16777619u;

uint32_t bootstrap_seed(const char *id) {
    uint32_t hash = FNV_START;
    for (; *id; id++) hash = (hash ^ (unsigned char)*id) * FNV_PRIME;
    return hash;
}

typedef struct Dice {
    gsl_rng *generator;
    uint32_t kept;
    bool has_kept;
} Dice;

static uint32_t half(Dice *dice) {
    dice->has_kept = !dice->has_kept;
    if (!dice->has_kept) return dice->kept >> HALF_BITS;
    dice->kept = (uint32_t)gsl_rng_get(dice->generator);
    return dice->kept % HALF_RANGE;
}

/* `count` numbers in 0 .. count - 1, each as likely as the other: the top of a product, rejecting the uneven rest
 * (Lemire 2019, ACM TOMACS 29:3). */
static void draw_small(Dice *dice, uint32_t count, uint32_t first, uint32_t *drawn) {
    uint32_t uneven = HALF_RANGE % count;
    for (uint32_t i = 0; i < count; i++) {
        uint32_t product = half(dice) * count;
        while (product % HALF_RANGE < uneven) product = half(dice) * count;
        drawn[i] = first + (product >> HALF_BITS);
    }
}

static void draw_stratum(Dice *dice, uint32_t count, uint32_t first, uint32_t *drawn) {
    if (count <= HALF_MOST_ROWS) {
        draw_small(dice, count, first, drawn);
        return;
    }
    for (uint32_t i = 0; i < count; i++) drawn[i] = first + (uint32_t)gsl_rng_uniform_int(dice->generator, count);
}

/* Sums of BOOTSTRAP_LANES columns over the drawn rows, in the order drawn. */
static void sum_lanes(const double *values, size_t width, const uint32_t *drawn, size_t rows, double *sums) {
    double lanes[BOOTSTRAP_LANES] = {0};
    for (size_t i = 0; i < rows; i++) {
        const double *row = values + (size_t)drawn[i] * width;
        for (size_t lane = 0; lane < BOOTSTRAP_LANES; lane++) lanes[lane] += row[lane];
    }
    for (size_t lane = 0; lane < BOOTSTRAP_LANES; lane++) sums[lane] = lanes[lane];
}

void bootstrap_sums(Arena *scratch, const BootstrapTable *table, uint32_t seed, size_t replicates, double *sums) {
    uint32_t *drawn = ARENA_ARRAY(scratch, table->rows, uint32_t);
    Dice dice = {.generator = gsl_rng_alloc(gsl_rng_mt19937)};
    gsl_rng_set(dice.generator, seed);
    for (size_t replicate = 0; replicate < replicates; replicate++) {
        uint32_t first = 0;
        for (size_t i = 0; i < table->stratum_count; i++) {
            draw_stratum(&dice, (uint32_t)table->strata[i], first, drawn + first);
            first += (uint32_t)table->strata[i];
        }
        for (size_t column = 0; column < table->width; column += BOOTSTRAP_LANES) {
            sum_lanes(table->values + column, table->width, drawn, table->rows,
                      sums + replicate * table->width + column);
        }
    }
    gsl_rng_free(dice.generator);
}
