#include "stats/bootstrap.h"

#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

/* Several draws are cut from one number of 32 bits, as many as leave few numbers to be rejected. */
enum { MOST_CUTS = 4 };

static const uint64_t MOST_COMBINATIONS = 1u << 27; /* of 2^32: at most 3 % are rejected */

static const uint32_t FNV_START = 2166136261u;
static const uint32_t FNV_PRIME = 16777619u;

struct Bootstrap {
    const BootstrapTable *table;
    gsl_rng *generator;
    uint32_t *drawn; /* rows of the replicate in hand */
};

uint32_t bootstrap_seed(const char *id) {
    uint32_t hash = FNV_START;
    for (; *id; id++) hash = (hash ^ (unsigned char)*id) * FNV_PRIME;
    return hash;
}

Bootstrap *bootstrap_new(const BootstrapTable *table, uint32_t seed) {
    Bootstrap *bootstrap = mem_alloc(sizeof *bootstrap);
    bootstrap->table = table;
    bootstrap->drawn = mem_alloc(table->rows * sizeof *bootstrap->drawn);
    bootstrap->generator = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_rng_set(bootstrap->generator, seed);
    return bootstrap;
}

void bootstrap_free(Bootstrap *bootstrap) {
    if (!bootstrap) return;
    gsl_rng_free(bootstrap->generator);
    free(bootstrap->drawn);
    free(bootstrap);
}

/* Cuts `cuts` numbers in 0 .. range - 1 from one number: each time the top of the product is a draw and the rest goes
 * on. What is left at the end says whether the number falls in the uneven rest, which is rejected, so that every
 * combination is exactly as likely as any other (Brackett-Rozinsky and Lemire 2024, Softw Pract Exp 55:155-169). */
static void cut(gsl_rng *generator, uint64_t range, int cuts, uint32_t uneven, uint32_t *draws) {
    uint64_t product;
    do {
        product = gsl_rng_get(generator);
        for (int i = 0; i < cuts; i++) {
            product = (uint32_t)product * range;
            draws[i] = (uint32_t)(product >> 32);
        }
    } while ((uint32_t)product < uneven);
}

/* `range` rows out of those from `first`, each as likely as the other. */
static void draw_stratum(gsl_rng *generator, uint32_t range, uint32_t first, uint32_t *drawn) {
    uint64_t combinations = range;
    int cuts = 1;
    for (; cuts < MOST_CUTS && combinations * range <= MOST_COMBINATIONS; cuts++) combinations *= range;
    uint32_t uneven = (uint32_t)(((uint64_t)UINT32_MAX + 1) % combinations);
    uint32_t draws[MOST_CUTS];
    for (uint32_t i = 0; i < range; i += (uint32_t)cuts) {
        cut(generator, range, cuts, uneven, draws);
        for (uint32_t at = 0; at < (uint32_t)cuts && i + at < range; at++) drawn[i + at] = first + draws[at];
    }
}

/* Four sums side by side. Each is added up on its own, so that the result does not depend on the machine's width. */
typedef float Quad __attribute__((vector_size(4 * sizeof(float)), may_alias));

/* Sums of BOOTSTRAP_LANES columns over the drawn rows, in the order drawn. The sums are named one by one because
 * compilers keep them in registers only then, which is worth a factor of three. */
static void sum_lanes(const float *values, size_t width, const uint32_t *drawn, size_t rows, double *sums) {
    Quad a = {0};
    Quad b = a;
    Quad c = a;
    Quad d = a;
    Quad e = a;
    Quad f = a;
    Quad g = a;
    Quad h = a;
    for (size_t i = 0; i < rows; i++) {
        const Quad *row = (const Quad *)(values + drawn[i] * width);
        a += row[0];
        b += row[1];
        c += row[2];
        d += row[3];
        e += row[4];
        f += row[5];
        g += row[6];
        h += row[7];
    }
    const Quad all[BOOTSTRAP_LANES / 4] = {a, b, c, d, e, f, g, h};
    for (size_t lane = 0; lane < BOOTSTRAP_LANES; lane++) sums[lane] = (double)all[lane / 4][lane % 4];
}

void bootstrap_draw(Bootstrap *bootstrap, double *sums) {
    const BootstrapTable *table = bootstrap->table;
    uint32_t first = 0;
    for (size_t i = 0; i < table->stratum_count; i++) {
        draw_stratum(bootstrap->generator, (uint32_t)table->strata[i], first, bootstrap->drawn + first);
        first += (uint32_t)table->strata[i];
    }
    for (size_t column = 0; column < table->width; column += BOOTSTRAP_LANES) {
        sum_lanes(table->values + column, table->width, bootstrap->drawn, table->rows, sums + column);
    }
}
