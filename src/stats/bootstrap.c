#include "stats/bootstrap.h"

#include <gsl/gsl_rng.h>
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "stats/dist.h"

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
    dist_share_exhaustion();
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

/* Cuts `cuts` numbers in first .. first + range - 1 from one number: each time the top of the product is a draw and the
 * rest goes on. What is left at the end says whether the number falls in the uneven rest, which is rejected, so that
 * every combination is exactly as likely as any other (Brackett-Rozinsky and Lemire 2024, Softw Pract Exp
 * 55:155-169). */
static void cut(gsl_rng *generator, uint64_t range, uint32_t cuts, uint32_t uneven, uint32_t first, uint32_t *draws) {
    uint64_t product;
    do {
        product = gsl_rng_get(generator);
        for (uint32_t i = 0; i < cuts; i++) {
            product = (uint32_t)product * range;
            draws[i] = first + (uint32_t)(product >> 32);
        }
    } while ((uint32_t)product < uneven);
}

/* `range` rows out of those from `first`, each as likely as the other. */
static void draw_stratum(gsl_rng *generator, uint32_t range, uint32_t first, uint32_t *drawn) {
    uint64_t combinations = range;
    uint32_t cuts = 1;
    for (; cuts < MOST_CUTS && combinations * range <= MOST_COMBINATIONS; cuts++) combinations *= range;
    uint32_t uneven = (uint32_t)(((uint64_t)UINT32_MAX + 1) % combinations);
    uint32_t rest = range % cuts;
    uint32_t last[MOST_CUTS];
    for (uint32_t i = 0; i + cuts <= range; i += cuts) cut(generator, range, cuts, uneven, first, drawn + i);
    if (rest) cut(generator, range, cuts, uneven, first, last);
    for (uint32_t i = 0; i < rest; i++) drawn[range - rest + i] = last[i];
}

/* Eight sums side by side. Each is added up on its own, so that the result does not depend on the machine's width. */
enum { SIDE_BY_SIDE = 8 };
typedef float Eight __attribute__((vector_size(SIDE_BY_SIDE * sizeof(float)), aligned(4 * sizeof(float)), may_alias));

/* Twice as fast where the machine adds eight at once. ThreadSanitizer cannot start a program that chooses so early. */
#if defined(__x86_64__) && defined(__GLIBC__) && !defined(__SANITIZE_THREAD__)
#define WIDE __attribute__((target_clones("avx2", "default")))
#else
#define WIDE
#endif

/* Sums of BOOTSTRAP_LANES columns over the drawn rows, in the order drawn. The sums are named one by one because
 * compilers keep them in registers only then, which is worth a factor of three. */
WIDE static void sum_lanes(const float *values, size_t width, const uint32_t *drawn, size_t rows, double *sums) {
    Eight a = {0};
    Eight b = a;
    Eight c = a;
    Eight d = a;
    for (size_t i = 0; i < rows; i++) {
        const Eight *row = (const Eight *)(values + drawn[i] * width);
        a += row[0];
        b += row[1];
        c += row[2];
        d += row[3];
    }
    const Eight all[BOOTSTRAP_LANES / SIDE_BY_SIDE] = {a, b, c, d};
    for (size_t lane = 0; lane < BOOTSTRAP_LANES; lane++)
        sums[lane] = (double)all[lane / SIDE_BY_SIDE][lane % SIDE_BY_SIDE];
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
