#include <math.h>

#include "stats/findings_parts.h"
#include "stats/quantile.h"

/* A composite of less of the weight than this would speak of traits nobody graded. */
static const double COMPOSITE_LEAST_WEIGHT = .7;

static MeasurableFinding judge_measurable(const Measurable *measurable, const Scale *scale) {
    MeasurableFinding finding = {.measurable = measurable, .percentile = NAN};
    const ScaleMeasurable *population = scale ? scale_measurable(scale, measurable->id) : NULL;
    if (!population || !(population->quantile_count || population->rising)) return finding;
    finding.population = population;
    finding.percentile =
        population->rising ? quantile_midrank(population->rising, (size_t)population->n, measurable->value)
                           : quantile_percentile(population->quantiles, population->quantile_count, measurable->value);
    if (measurable->kind && measurable->kind->better == BETTER_LESS) finding.percentile = 100 - finding.percentile;
    return finding;
}

static void widen(double *low, double *high, double value) {
    if (!(*low <= value)) *low = value;
    if (!(*high >= value)) *high = value;
}

/* Counted snaps that surely show the trait. */
static int shown_snaps(Arena *arena, const Findings *findings, const Trait *trait) {
    if (!trait->seen) return -1;
    Selection selection = survey_select(arena, findings->survey, trait->seen);
    int snaps = 0;
    for (size_t i = 0; i < selection.count; i++) snaps += rowset_count_word(selection.words[i].in);
    return snaps;
}

static void judge_traits(Arena *arena, Findings *findings) {
    const Dossier *dossier = findings->dossier;
    size_t traits = dossier->profile->trait_count;
    findings->traits = ARENA_ARRAY(arena, traits, TraitFinding);
    for (size_t i = 0; i < traits; i++) {
        int snaps = shown_snaps(arena, findings, &dossier->profile->traits[i]);
        findings->traits[i] = (TraitFinding){.house = NAN, .low = NAN, .high = NAN, .snaps = snaps};
    }
    for (size_t i = 0; i < dossier->grades_count; i++) {
        const Grades *grades = &dossier->grades[i];
        for (size_t g = 0; g < grades->count; g++) {
            TraitFinding *trait = &findings->traits[grades->grades[g].trait];
            trait->evaluators++;
            if (i == 0) trait->house = grades->grades[g].value;
            widen(&trait->low, &trait->high, grades->grades[g].value);
        }
    }
}

static double composite(const Findings *findings) {
    const Profile *profile = findings->dossier->profile;
    double all = 0;
    double graded = 0;
    double sum = 0;
    for (size_t i = 0; i < profile->trait_count; i++) {
        double weight = profile->traits[i].weight;
        all += weight;
        if (isnan(findings->traits[i].house)) continue;
        graded += weight;
        sum += weight * findings->traits[i].house;
    }
    return graded > 0 && graded >= COMPOSITE_LEAST_WEIGHT * all ? sum / graded : NAN;
}

static void judge_overall(Findings *findings) {
    const Dossier *dossier = findings->dossier;
    findings->overall_low = findings->overall_high = NAN;
    for (size_t i = 0; i < dossier->grades_count; i++) {
        double overall = dossier->grades[i].overall;
        if (isnan(overall)) continue;
        findings->overall_count++;
        widen(&findings->overall_low, &findings->overall_high, overall);
    }
}

void findings_judge(Arena *arena, Findings *findings) {
    const Dossier *dossier = findings->dossier;
    findings->measurables = ARENA_ARRAY(arena, dossier->measurable_count, MeasurableFinding);
    for (size_t i = 0; i < dossier->measurable_count; i++) {
        findings->measurables[i] = judge_measurable(&dossier->measurables[i], findings->scale);
    }
    judge_traits(arena, findings);
    findings->composite = composite(findings);
    judge_overall(findings);
}
