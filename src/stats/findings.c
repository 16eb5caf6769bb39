#include "stats/findings.h"

#include <math.h>

#include "stats/estimate.h"
#include "stats/findings_parts.h"
#include "stats/resample.h"

const Findings *findings_compute(Arena *arena, const Dossier *dossier, const Scale *scale) {
    Findings *findings = ARENA_NEW(arena, Findings);
    findings->dossier = dossier;
    findings->scale = scale;
    findings->survey = survey_new(arena, dossier);
    Tester *tester = findings_draw(findings);
    findings_count(arena, findings);
    findings_place(arena, findings);
    findings_judge(arena, findings);
    findings_compare(arena, findings);
    findings->agreement = agreement_new(arena, dossier);
    findings_test(arena, tester);
    return findings;
}

const Estimate *findings_estimate(const Findings *findings, int measure, int slice) {
    size_t width = findings->dossier->profile->slice_count + 1;
    return &findings->estimates[(size_t)measure * width + (size_t)(slice + 1)];
}

/* Snaps that add to the total, and what they add. */
static Estimate stat_total(Arena *arena, const Survey *survey, int total, const Selection *selection) {
    double *totals = ARENA_ARRAY(arena, survey->dossier->profile->total_count, double);
    Estimate estimate = estimate_none(MEASURE_MEAN);
    estimate_totals(survey, selection, totals);
    estimate.value = totals[total];
    for (size_t i = 0; i < selection->count; i++) {
        const SelectionWord *at = &selection->words[i];
        RowWord in = survey->totals[total].in[at->word];
        RowWord unknown = survey->totals[total].unknown[at->word];
        estimate.n += rowset_count_word(in & at->in);
        estimate.unknown += rowset_count_word((at->in & unknown) | (at->maybe & (in | unknown)));
    }
    return estimate;
}

Estimate findings_stat(Arena *arena, const Findings *findings, const StatRef *stat) {
    const Survey *survey = findings->survey;
    Selection selection = stat->slice >= 0 ? survey->slices[stat->slice] : survey->all;
    if (stat->where) {
        Selection narrower = survey_select(arena, survey, stat->where);
        selection = selection_both(arena, &selection, &narrower);
    }
    if (stat->measure < 0) return stat_total(arena, survey, stat->total, &selection);
    Estimate estimate = stat->where ? estimate_one(arena, survey, stat->measure, &selection)
                                    : *findings_estimate(findings, stat->measure, stat->slice);
    if (stat->format == STAT_INTERVAL && isnan(estimate.low)) {
        Interval interval = resample_once(survey, stat->measure, &selection, &estimate);
        estimate.low = interval.low;
        estimate.high = interval.high;
    }
    return estimate;
}

const char *verdict_word(Verdict verdict) {
    static const char *const WORDS[] = {
        [VERDICT_TOO_FEW] = "too few to say",
        [VERDICT_CONTRADICTED] = "contradicted",
        [VERDICT_LEANING_AGAINST] = "leaning against",
        [VERDICT_LEANING] = "leaning",
        [VERDICT_BORNE_OUT] = "borne out",
    };
    return WORDS[verdict];
}

const char *verdict_key(Verdict verdict) {
    static const char *const KEYS[] = {
        [VERDICT_TOO_FEW] = "too-few",
        [VERDICT_CONTRADICTED] = "contradicted",
        [VERDICT_LEANING_AGAINST] = "leaning-against",
        [VERDICT_LEANING] = "leaning",
        [VERDICT_BORNE_OUT] = "borne-out",
    };
    return KEYS[verdict];
}
