/* How the statistics behave on simulated charts whose truth is known: coverage of 95 % intervals, and false verdicts
 * over dossiers of ten claims none of which is true. Reported, not asserted.
 *
 *     stats_cover [TRIALS]
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "stats/findings.h"

/* The chart builder of the tests. */
#include "stats/help_stats.c"

enum { TRIALS = 1000, GAMES = 6 };

/* A throw: a gain of nothing, or one with a long tail, about as passes gain. */
static double draw_gain(uint64_t *seed) {
    if (help_random(seed) < .38) return 0;
    double gain = floor(-9.5 * log(1 - help_random(seed))) + 1;
    return gain > 80 ? 80 : gain;
}

/* The mean of draw_gain. */
static double true_gain(void) {
    double mean = 0;
    for (int gain = 1; gain <= 80; gain++) {
        double from = exp(-(gain - 1) / 9.5);
        double to = gain == 80 ? 0 : exp(-gain / 9.5);
        mean += gain * (from - to);
    }
    return .62 * mean;
}

static const double ON_TARGET = .7;
static const double MAN_SHARE = .4;

/* A chart of throws whose numbers do not depend on coverage, side, depth or down. */
static void chart_null(Help *help, size_t rows, uint64_t *seed) {
    help_rows(help, rows, GAMES);
    for (size_t row = 0; row < rows; row++) {
        help_set(help, row, HELP_GAIN, draw_gain(seed));
        help_set(help, row, HELP_DEPTH, floor(30 * help_random(seed)) - 2);
        help_set(help, row, HELP_DOWN, 1 + floor(3 * help_random(seed)));
        help_word(help, row, HELP_PLACEMENT, help_random(seed) < ON_TARGET ? "on" : "off");
        help_word(help, row, HELP_SHELL, help_random(seed) < MAN_SHARE ? "man" : "zone");
        help_word(help, row, HELP_SIDE, help_random(seed) < .5 ? "left" : "right");
        help_word(help, row, HELP_BAND, help_random(seed) < .3 ? "short" : "long");
    }
}

/* How often an interval held the truth, and lay wholly above or below it. */
typedef struct Tally {
    int trials, held, above, below, none;
} Tally;

static void tally(Tally *tally, double low, double high, double truth) {
    tally->trials++;
    if (isnan(low))
        tally->none++;
    else if (low > truth)
        tally->above++;
    else if (high < truth)
        tally->below++;
    else
        tally->held++;
}

static void report(const char *what, const Tally *tally) {
    double said = tally->trials - tally->none;
    printf("  %-34s %5.1f %%   (above %4.1f, below %4.1f; no interval %d of %d)\n", what, 100 * tally->held / said,
           100 * tally->above / said, 100 * tally->below / said, tally->none, tally->trials);
}

static void cover(size_t rows, int trials) {
    Tally rate = {0}, mean = {0}, ratio = {0}, formula = {0}, man_ratio = {0}, rate_difference = {0},
          ratio_difference = {0}, formula_difference = {0};
    uint64_t seed = 977 + rows;
    for (int trial = 0; trial < trials; trial++) {
        Help help = help_new();
        help.dossier->id = arena_printf(help.arena, "trial-%d", trial);
        chart_null(&help, rows, &seed);
        Claim *claims = help_claims(&help, 3);
        claims[0].measure = HELP_ON_TARGET;
        claims[1].measure = HELP_PER_ATTEMPT;
        claims[2].measure = HELP_EFFICIENCY;
        const Findings *found = findings_compute(help.arena, help.dossier, NULL);
        const Estimate *estimates[HELP_MEASURES];
        for (int m = 0; m < HELP_MEASURES; m++) estimates[m] = findings_estimate(found, m, ESTIMATE_ALL);
        double gain = true_gain();
        tally(&rate, estimates[HELP_ON_TARGET]->low, estimates[HELP_ON_TARGET]->high, ON_TARGET);
        tally(&mean, estimates[HELP_TARGET_DEPTH]->low, estimates[HELP_TARGET_DEPTH]->high, 12.5);
        tally(&ratio, estimates[HELP_PER_ATTEMPT]->low, estimates[HELP_PER_ATTEMPT]->high, gain);
        tally(&formula, estimates[HELP_EFFICIENCY]->low, estimates[HELP_EFFICIENCY]->high,
              .5 * (8.4 * gain + 100 * ON_TARGET));
        const Estimate *man = findings_estimate(found, HELP_PER_ATTEMPT, HELP_MAN);
        tally(&man_ratio, man->low, man->high, gain);
        tally(&rate_difference, found->claims[0].low, found->claims[0].high, 0);
        tally(&ratio_difference, found->claims[1].low, found->claims[1].high, 0);
        tally(&formula_difference, found->claims[2].low, found->claims[2].high, 0);
        help_free(&help);
    }
    printf("%zu snaps of %d games, %d trials: share of 95 %% intervals that hold the truth\n", rows, GAMES, trials);
    report("rate, Wilson", &rate);
    report("mean, bootstrap", &mean);
    report("yards an attempt, bootstrap", &ratio);
    report("formula, bootstrap", &formula);
    report("yards an attempt in a slice", &man_ratio);
    report("difference of rates, Newcombe", &rate_difference);
    report("difference of yards an attempt", &ratio_difference);
    report("difference of a formula", &formula_difference);
}

/* Ten claims, of slices that overlap, on every kind of measure. */
static void ten_claims(Help *help) {
    static const struct {
        int slice, measure;
    } PLANS[] = {{HELP_MAN, HELP_ON_TARGET}, {HELP_DEEP, HELP_ON_TARGET},  {3, HELP_ON_TARGET},   {4, HELP_ON_TARGET},
                 {5, HELP_ON_TARGET},        {HELP_MAN, HELP_PER_ATTEMPT}, {3, HELP_PER_ATTEMPT}, {4, HELP_EFFICIENCY},
                 {5, HELP_TARGET_DEPTH},     {HELP_DEEP, HELP_EFFICIENCY}};
    static const char *const WHERE[] = {"@side='left'", "@to-go-band='short'", "@down = 3 and @side='right'"};
    Profile *profile = help->profile;
    Slice *slices = ARENA_ARRAY(help->arena, HELP_SLICES + 3, Slice);
    for (size_t i = 0; i < HELP_SLICES; i++) slices[i] = profile->slices[i];
    for (size_t i = 0; i < 3; i++) {
        slices[HELP_SLICES + i] = (Slice){.id = "more", .label = "More", .where = help_selection(help, WHERE[i])};
    }
    profile->slices = slices;
    profile->slice_count = HELP_SLICES + 3;
    Claim *claims = help_claims(help, sizeof PLANS / sizeof *PLANS);
    for (size_t i = 0; i < sizeof PLANS / sizeof *PLANS; i++) {
        claims[i].slice = PLANS[i].slice;
        claims[i].measure = PLANS[i].measure;
    }
}

static void false_verdicts(size_t rows, int trials) {
    int dossiers = 0, claims = 0, settled = 0, eager = 0, tested = 0, counted = 0, counted_eager = 0;
    uint64_t seed = 31 + rows;
    for (int trial = 0; trial < trials; trial++) {
        Help help = help_new();
        help.dossier->id = arena_printf(help.arena, "null-%d", trial);
        chart_null(&help, rows, &seed);
        ten_claims(&help);
        const Findings *found = findings_compute(help.arena, help.dossier, NULL);
        int here = 0;
        for (size_t i = 0; i < help.dossier->claim_count; i++) {
            const ClaimFinding *claim = &found->claims[i];
            here += claim->verdict == VERDICT_BORNE_OUT || claim->verdict == VERDICT_CONTRADICTED;
            bool rate = claim->a.kind == MEASURE_RATE;
            if (isnan(claim->p)) continue;
            counted += rate;
            tested += !rate;
            counted_eager += rate && claim->p <= .05;
            eager += !rate && claim->p <= .05;
        }
        claims += (int)help.dossier->claim_count;
        settled += here;
        dossiers += here > 0;
        help_free(&help);
    }
    printf("%zu snaps, ten claims without truth, %d dossiers\n", rows, trials);
    printf("  dossiers with a false verdict      %5.1f %%\n", 100.0 * dossiers / trials);
    printf("  claims with a false verdict        %5.1f %%\n", 100.0 * settled / claims);
    printf("  p under .05, rates                 %5.1f %%\n", 100.0 * counted_eager / counted);
    printf("  p under .05, resampled             %5.1f %%\n", 100.0 * eager / tested);
}

int main(int argc, char **argv) {
    int trials = argc > 1 ? atoi(argv[1]) : TRIALS;
    if (trials < 1) trials = TRIALS;
    static const size_t ROWS[] = {40, 100, 250};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) cover(ROWS[i], trials);
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) false_verdicts(ROWS[i], trials);
    return 0;
}
