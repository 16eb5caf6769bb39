/* The tape test: each claim held against all the snaps of its kind. */
#include <math.h>

#include "stats/estimate.h"
#include "stats/findings_parts.h"
#include "stats/power.h"
#include "stats/resample.h"
#include "stats/tests.h"

/* A claim is borne out or contradicted at this adjusted p. */
static const double VERDICT_LEVEL = .05;

/* What the pass works with. Selections for resampling: all, then each slice, then what is left of all by each slice. */
struct Tester {
    Arena *scratch;
    Findings *findings;
    const Dossier *dossier;
    const Survey *survey;
    Selection *selections;
    Resample *resample;
    int *cited_for; /* by row: number of the claim that cited it last, from 1 */
};

static size_t slice_selection(int slice) {
    return slice == ESTIMATE_ALL ? 0 : (size_t)slice + 1;
}

static size_t rest_selection(const Profile *profile, int slice) {
    return profile->slice_count + slice_selection(slice);
}

/* Number of the claim's second side among the selections; it has none against a standard. */
static size_t other_selection(const Profile *profile, const Claim *claim) {
    return claim->against >= 0 ? slice_selection(claim->against) : rest_selection(profile, claim->slice);
}

static Tester *tester_new(Findings *findings) {
    Arena *scratch = arena_new();
    Tester *tester = ARENA_NEW(scratch, Tester);
    const Survey *survey = findings->survey;
    const Profile *profile = findings->dossier->profile;
    size_t count = 2 * profile->slice_count + 1;
    Selection *selections = ARENA_ARRAY(scratch, count, Selection);
    selections[0] = survey->all;
    for (size_t i = 0; i < profile->slice_count; i++) {
        selections[slice_selection((int)i)] = survey->slices[i];
        selections[rest_selection(profile, (int)i)] = selection_rest(scratch, &survey->all, &survey->slices[i]);
    }
    *tester = (Tester){
        .scratch = scratch,
        .findings = findings,
        .dossier = findings->dossier,
        .survey = survey,
        .selections = selections,
        .resample = resample_new(survey, selections, count),
        .cited_for = ARENA_ARRAY(scratch, survey->rows, int),
    };
    return tester;
}

static const Standard *standard_of(const Profile *profile, int measure) {
    for (size_t i = 0; i < profile->standard_count; i++) {
        if (profile->standards[i].measure == measure) return &profile->standards[i];
    }
    return NULL;
}

static Estimate other_side(const Tester *tester, const Claim *claim) {
    const Profile *profile = tester->dossier->profile;
    if (claim->against == CLAIM_AGAINST_STANDARD) {
        Estimate estimate = estimate_none(profile->measures[claim->measure].kind);
        const Standard *standard = standard_of(profile, claim->measure);
        if (standard) estimate.value = standard->value;
        return estimate;
    }
    const Selection *selection = &tester->selections[other_selection(profile, claim)];
    return estimate_one(tester->scratch, tester->survey, claim->measure, selection);
}

/* Counts the cited snaps of the slice, each once, however often it is cited. */
static void count_cites(const Tester *tester, size_t index, ClaimFinding *finding) {
    const Claim *claim = &tester->dossier->claims[index];
    for (size_t i = 0; i < claim->cite_count; i++) {
        int row = claim->cites[i].snap;
        if (row < 0 || tester->cited_for[row] == (int)index + 1) continue;
        if (!selection_has(&tester->survey->slices[claim->slice], (size_t)row)) continue;
        tester->cited_for[row] = (int)index + 1;
        finding->cited++;
        finding->cited_against += claim->cites[i].against;
    }
}

static void measure_claim(const Tester *tester, size_t index) {
    const Claim *claim = &tester->dossier->claims[index];
    ClaimFinding *finding = &tester->findings->claims[index];
    finding->a = *findings_estimate(tester->findings, claim->measure, claim->slice);
    finding->b = other_side(tester, claim);
    finding->difference = finding->a.value - finding->b.value;
    finding->low = finding->high = finding->p = finding->p_adjusted = NAN;
    finding->snaps = finding->a.n;
    count_cites(tester, index, finding);
}

/* Asks for all that the pages print of a mean, ratio or formula. */
static void ask(const Tester *tester) {
    const Profile *profile = tester->dossier->profile;
    for (size_t i = 0; i < profile->measure_count; i++)
        resample_ask(tester->resample, (int)i, slice_selection(ESTIMATE_ALL));
    for (size_t i = 0; i < profile->figure_count; i++) {
        const ProfileFigure *figure = &profile->figures[i];
        for (size_t s = 0; s < figure->slice_count; s++) {
            if (figure->slices[s] >= 0)
                resample_ask(tester->resample, figure->measure, slice_selection(figure->slices[s]));
        }
    }
    for (size_t i = 0; i < tester->dossier->claim_count; i++) {
        const Claim *claim = &tester->dossier->claims[i];
        resample_ask(tester->resample, claim->measure, slice_selection(claim->slice));
        if (claim->against != CLAIM_AGAINST_STANDARD) {
            resample_ask(tester->resample, claim->measure, other_selection(profile, claim));
        }
    }
}

/* Gives every estimate that was asked for its interval. */
static void read_intervals(const Tester *tester) {
    const Profile *profile = tester->dossier->profile;
    size_t width = profile->slice_count + 1;
    for (size_t m = 0; m < profile->measure_count; m++) {
        for (size_t s = 0; s < width; s++) {
            int figure = resample_find(tester->resample, (int)m, s);
            if (figure == RESAMPLE_NONE) continue;
            Estimate *estimate = &tester->findings->estimates[m * width + s];
            Interval interval = resample_interval(tester->resample, figure, estimate);
            estimate->low = interval.low;
            estimate->high = interval.high;
        }
    }
}

/* Whether either side has too few answered snaps for a verdict. */
static bool too_few(const ClaimFinding *finding, const Claim *claim) {
    if (finding->a.n < FEW_FOR_A_VERDICT || isnan(finding->difference)) return true;
    return claim->against != CLAIM_AGAINST_STANDARD && finding->b.n < FEW_FOR_A_VERDICT;
}

/* Fewest more snaps of the slice that could bring a verdict. */
static int least_more(const ClaimFinding *finding) {
    int short_of = FEW_FOR_A_VERDICT - finding->a.n;
    return short_of > 1 ? short_of : 1;
}

static void test_rate(const Tester *tester, const Claim *claim, ClaimFinding *finding) {
    const Estimate *a = &finding->a;
    const Estimate *b = &finding->b;
    int least = least_more(finding);
    if (claim->against == CLAIM_AGAINST_STANDARD) {
        finding->low = a->low - b->value;
        finding->high = a->high - b->value;
        finding->p = test_binomial(a->k, a->n, b->value);
        finding->snaps_needed = power_more_binomial(tester->scratch, a->k, a->n, b->value, least, MOST_SNAPS_NEEDED);
        return;
    }
    Interval interval = interval_newcombe(a->k, a->n, b->k, b->n, ESTIMATE_LEVEL);
    finding->low = interval.low;
    finding->high = interval.high;
    finding->p = test_fisher(a->k, a->n, b->k, b->n);
    finding->snaps_needed = power_more_fisher(tester->scratch, a->k, a->n, b->k, b->n, least, MOST_SNAPS_NEEDED);
}

static void test_resampled(const Tester *tester, const Claim *claim, ClaimFinding *finding) {
    const Resample *resample = tester->resample;
    const Estimate *a = &finding->a;
    Estimate *b = &finding->b;
    int figure = resample_find(resample, claim->measure, slice_selection(claim->slice));
    Resampled result;
    if (claim->against == CLAIM_AGAINST_STANDARD) {
        result = resample_against(resample, figure, a, b->value);
    } else {
        int other = resample_find(resample, claim->measure, other_selection(tester->dossier->profile, claim));
        Interval interval = resample_interval(resample, other, b);
        b->low = interval.low;
        b->high = interval.high;
        result = resample_difference(resample, figure, a, other, b);
    }
    finding->low = result.interval.low;
    finding->high = result.interval.high;
    finding->p = result.p;
    finding->snaps_needed = power_more_normal(finding->difference, result.variance, a->n, result.other_variance,
                                              least_more(finding), MOST_SNAPS_NEEDED);
}

static void test_claim(const Tester *tester, size_t index) {
    const Claim *claim = &tester->dossier->claims[index];
    ClaimFinding *finding = &tester->findings->claims[index];
    if (finding->a.kind == MEASURE_RATE)
        test_rate(tester, claim, finding);
    else
        test_resampled(tester, claim, finding);
    if (too_few(finding, claim)) finding->p = NAN;
    bool few_others = claim->against != CLAIM_AGAINST_STANDARD && finding->b.n < FEW_FOR_A_VERDICT;
    if (few_others || isnan(finding->difference)) finding->snaps_needed = -1;
}

/* No difference at all speaks against a claim of one. */
static Verdict verdict_of(const Claim *claim, const ClaimFinding *finding) {
    if (too_few(finding, claim)) return VERDICT_TOO_FEW;
    bool as_claimed = finding->difference * claim->direction > 0;
    bool settled = finding->p_adjusted <= VERDICT_LEVEL;
    if (settled) return as_claimed ? VERDICT_BORNE_OUT : VERDICT_CONTRADICTED;
    return as_claimed ? VERDICT_LEANING : VERDICT_LEANING_AGAINST;
}

static void give_verdicts(const Tester *tester) {
    size_t count = tester->dossier->claim_count;
    double *p = ARENA_ARRAY(tester->scratch, count, double);
    ClaimFinding *claims = tester->findings->claims;
    for (size_t i = 0; i < count; i++) p[i] = claims[i].p;
    test_adjust(tester->scratch, p, count, p);
    for (size_t i = 0; i < count; i++) {
        claims[i].p_adjusted = p[i];
        claims[i].verdict = verdict_of(&tester->dossier->claims[i], &claims[i]);
        bool settled = claims[i].verdict == VERDICT_BORNE_OUT || claims[i].verdict == VERDICT_CONTRADICTED;
        if (settled) claims[i].snaps_needed = 0;
    }
}

Tester *findings_draw(Findings *findings) {
    Tester *tester = tester_new(findings);
    ask(tester);
    resample_begin(tester->resample);
    return tester;
}

/* Rates need no draws and come first, while those may still be made. */
static void test_claims(const Tester *tester, bool rates) {
    for (size_t i = 0; i < tester->dossier->claim_count; i++) {
        bool is_rate = tester->dossier->profile->measures[tester->dossier->claims[i].measure].kind == MEASURE_RATE;
        if (is_rate != rates) continue;
        measure_claim(tester, i);
        test_claim(tester, i);
    }
}

void findings_test(Arena *arena, Tester *tester) {
    tester->findings->claims = ARENA_ARRAY(arena, tester->dossier->claim_count, ClaimFinding);
    test_claims(tester, true);
    resample_end(tester->resample);
    read_intervals(tester);
    test_claims(tester, false);
    give_verdicts(tester);
    resample_free(tester->resample);
    arena_free(tester->scratch);
}
