#include "stats/estimate.h"

#include <limits.h>
#include <math.h>

#include "source/expr.h"

Estimate estimate_none(MeasureKind kind) {
    return (Estimate){.kind = kind, .value = NAN, .low = NAN, .high = NAN};
}

static int count_in(const RowWord *set, const Selection *selection) {
    int count = 0;
    for (size_t i = 0; i < selection->count; i++) {
        count += rowset_count_word(set[selection->words[i].word] & selection->words[i].in);
    }
    return count;
}

/* Adds `value` over the rows in both, in order of rows. */
static double sum_in(const RowWord *set, const double *value, const Selection *selection) {
    double sum = 0;
    for (size_t i = 0; i < selection->count; i++) {
        size_t word = selection->words[i].word;
        for (RowWord left = set[word] & selection->words[i].in; left; left &= left - 1) {
            sum += value[word * ROWSET_BITS + (size_t)__builtin_ctzll(left)];
        }
    }
    return sum;
}

/* Rows that may count and cannot be answered, or answer and may not belong. */
static int count_unknown(const MeasureRows *rows, const Selection *selection) {
    int count = 0;
    for (size_t i = 0; i < selection->count; i++) {
        const SelectionWord *at = &selection->words[i];
        RowWord unknown = rows->unknown[at->word];
        count += rowset_count_word((at->in & unknown) | (at->maybe & (rows->answered[at->word] | unknown)));
    }
    return count;
}

void estimate_totals(const Survey *survey, const Selection *selection, double *totals) {
    for (size_t i = 0; i < survey->dossier->profile->total_count; i++) {
        const TotalRows *total = &survey->totals[i];
        totals[i] = total->value ? sum_in(total->in, total->value, selection) : count_in(total->in, selection);
    }
}

static double formula_value(const Measure *measure, const double *totals) {
    double sum = 0;
    for (size_t i = 0; i < measure->part_count; i++) {
        double part = expr_formula(measure->parts[i].expr, totals);
        if (part < measure->parts[i].low) part = measure->parts[i].low;
        if (part > measure->parts[i].high) part = measure->parts[i].high;
        sum += part;
    }
    return sum * measure->scale;
}

double estimate_from_totals(const Measure *measure, const double *totals) {
    double value = NAN;
    if (measure->kind == MEASURE_FORMULA)
        value = formula_value(measure, totals);
    else if (totals[measure->under] != 0)
        value = totals[measure->over] / totals[measure->under];
    return isfinite(value) ? value : NAN;
}

/* A total as a count: what it says of snaps, within int. */
static int whole(double total) {
    if (!(total > 0)) return 0;
    return total < INT_MAX ? (int)lround(total) : INT_MAX;
}

static Estimate rate_estimate(const MeasureRows *rows, const Selection *selection) {
    Estimate estimate = estimate_none(MEASURE_RATE);
    estimate.k = count_in(rows->yes, selection);
    estimate.n = count_in(rows->answered, selection);
    if (!estimate.n) return estimate;
    Interval interval = interval_wilson(estimate.k, estimate.n, ESTIMATE_LEVEL);
    estimate.value = (double)estimate.k / estimate.n;
    estimate.low = interval.low;
    estimate.high = interval.high;
    return estimate;
}

static Estimate mean_estimate(const MeasureRows *rows, const Selection *selection) {
    Estimate estimate = estimate_none(MEASURE_MEAN);
    estimate.n = count_in(rows->answered, selection);
    if (estimate.n) estimate.value = sum_in(rows->answered, rows->x, selection) / estimate.n;
    return estimate;
}

static Estimate total_estimate(const Measure *measure, const double *totals) {
    Estimate estimate = estimate_none(measure->kind);
    estimate.n = measure->under >= 0 ? whole(totals[measure->under]) : 0;
    if (estimate.n) estimate.value = estimate_from_totals(measure, totals);
    return estimate;
}

Estimate estimate_measure(const Survey *survey, int measure, const Selection *selection, const double *totals) {
    const Measure *definition = &survey->dossier->profile->measures[measure];
    const MeasureRows *rows = &survey->measures[measure];
    Estimate estimate;
    if (definition->kind == MEASURE_RATE)
        estimate = rate_estimate(rows, selection);
    else if (definition->kind == MEASURE_MEAN)
        estimate = mean_estimate(rows, selection);
    else
        estimate = total_estimate(definition, totals);
    estimate.unknown = count_unknown(rows, selection);
    return estimate;
}

Estimate estimate_one(Arena *arena, const Survey *survey, int measure, const Selection *selection) {
    double *totals = ARENA_ARRAY(arena, survey->dossier->profile->total_count, double);
    estimate_totals(survey, selection, totals);
    return estimate_measure(survey, measure, selection, totals);
}

void estimate_partition(Arena *arena, const Survey *survey, const Partition *partition, Estimate *estimates,
                        double *totals) {
    const Profile *profile = survey->dossier->profile;
    double *own = ARENA_ARRAY(arena, profile->total_count, double);
    for (size_t group = 0; group < partition->count; group++) {
        const Selection *selection = &partition->groups[group];
        estimate_totals(survey, selection, own);
        for (size_t i = 0; totals && i < profile->total_count; i++) totals[i * partition->count + group] = own[i];
        for (size_t i = 0; i < profile->measure_count; i++) {
            estimates[i * partition->count + group] = estimate_measure(survey, (int)i, selection, own);
        }
    }
}
