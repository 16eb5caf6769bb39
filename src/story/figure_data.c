/* Data of figures that several sections share. */
#include <math.h>
#include <string.h>

#include "stats/quantile.h"
#include "story/write.h"

static double quantile_at(const ScaleMeasurable *population, double p) {
    if (population->rising) return quantile_type7(population->rising, (size_t)population->n, p / 100);
    const ScaleQuantile *below = NULL;
    for (size_t i = 0; i < population->quantile_count; i++) {
        const ScaleQuantile *at = &population->quantiles[i];
        if (at->p == p) return at->value;
        if (at->p > p)
            return below ? below->value + (at->value - below->value) * (p - below->p) / (at->p - below->p) : NAN;
        below = at;
    }
    return NAN;
}

/* The end of a strip in short: lengths to an eighth, as the trade measures; "6 ft 4⅜ in" loses its last unit, which the
 * row's own value carries. */
static const char *short_plain(Writer *writer, const MeasurableInfo *info, double value) {
    double shown = info->unit == UNIT_INCH ? round(value * 8) / 8 : value;
    const char *plain = notation_plain(writer->arena, info, shown);
    size_t length = strlen(plain);
    const char *space = strrchr(plain, ' ');
    if (info->unit == UNIT_COUNT || !space || strcmp(space, " ft") == 0) return plain;
    return arena_copy(writer->arena, plain, length - strlen(space));
}

static void strip_population(Writer *writer, StripRow *row, const MeasurableFinding *finding) {
    const ScaleMeasurable *population = finding->population;
    const MeasurableInfo *info = measurable_info(finding->measurable->id);
    row->q5 = quantile_at(population, 5);
    row->q25 = quantile_at(population, 25);
    row->q50 = quantile_at(population, 50);
    row->q75 = quantile_at(population, 75);
    row->q95 = quantile_at(population, 95);
    row->low_text = short_plain(writer, info, row->q5);
    row->high_text = short_plain(writer, info, row->q95);
    row->of = say(writer, "of %d", population->n);
    if (isfinite(finding->percentile)) row->percentile = say(writer, "%.0f", finding->percentile);
}

static StripRow strip_row(Writer *writer, const MeasurableFinding *finding) {
    const Measurable *measurable = finding->measurable;
    const MeasurableInfo *info = measurable_info(measurable->id);
    StripRow row = {.label = info->label,
                    .notation = measurable->notation,
                    .percentile = "",
                    .of = "",
                    .low_text = "",
                    .high_text = "",
                    .value = measurable->value};
    row.plain = say(writer, "%s%s", notation_plain(writer->arena, info, measurable->value),
                    measurable->hand_timed ? ", hand" : "");
    row.q5 = row.q25 = row.q50 = row.q75 = row.q95 = NAN;
    row.flipped = measurable->kind && measurable->kind->better == BETTER_LESS;
    row.open = measurable->hand_timed || !measurable->verified;
    if (finding->population) strip_population(writer, &row, finding);
    return row;
}

static const char *strips_alt(Writer *writer, const ScaleStrips *strips) {
    Buf buf = {0};
    for (size_t i = 0; i < strips->count; i++) {
        const StripRow *row = &strips->rows[i];
        buf_printf(&buf, "%s%s %s", i ? "; " : "", row->label, row->plain);
        if (*row->percentile)
            buf_printf(&buf, ", percentile %s %s", row->percentile, row->of);
        else
            buf_puts(&buf, ", no comparison population");
    }
    const char *alt = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return alt;
}

/* What was measured of the profile's kinds, in its order, at most `most` rows. */
const Figure *figure_strips(Writer *writer, size_t most) {
    const Findings *findings = writer->findings;
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    ScaleStrips *strips = &figure->as.strips;
    strips->rows = ARENA_ARRAY(writer->arena, writer->profile->measurable_count, StripRow);
    for (size_t k = 0; k < writer->profile->measurable_count && strips->count < most; k++) {
        const Measurable *measurable = findings_measurable(findings, writer->profile->measurables[k].id);
        if (!measurable) continue;
        const MeasurableFinding *finding = &findings->measurables[measurable - writer->dossier->measurables];
        strips->rows[strips->count++] = strip_row(writer, finding);
    }
    figure->kind = FIGURE_SCALE_STRIPS;
    figure->alt = strips_alt(writer, strips);
    return figure;
}

bool is_few(const Estimate *estimate) {
    return estimate->n > 0 && estimate->n < FEW_FOR_A_TINT;
}

const char *say_row(Writer *writer, const IntervalRow *row) {
    const char *join = *row->count ? " " : "";
    if (row->hatched) return say(writer, "%s%s%s, too few to say", row->label, join, row->count);
    const char *interval = *row->interval ? say(writer, " (%s)", row->interval) : "";
    return say(writer, "%s%s%s, %s%s", row->label, join, row->count, row->value, interval);
}

IntervalRow interval_row(Writer *writer, const Measure *measure, const Estimate *estimate, const char *label) {
    return (IntervalRow){
        .label = label,
        .count = say_k_of_n(writer, measure, estimate),
        .value = say_estimate(writer, measure, estimate),
        .interval = say_interval(writer, measure, estimate),
        .point = estimate->value,
        .low = estimate->low,
        .high = estimate->high,
        .hatched = estimate->n < FEW_FOR_A_TINT,
    };
}

static double nice_step(double span) {
    static const double STEPS[] = {1, 2, 2.5, 5, 10};
    double power = pow(10, floor(log10(span / 4)));
    for (size_t i = 0; i < sizeof STEPS / sizeof *STEPS; i++) {
        if (power * STEPS[i] >= span / 5) return power * STEPS[i];
    }
    return power * 10;
}

/* Rates start at 0 and end at 100 %, or sooner where no interval reaches so far. */
static Axis rate_axis(const IntervalRow *rows, size_t count) {
    static const Axis AXES[] = {
        {.from = 0, .to = .2, .step = .05, .suffix = "%", .scale = 100},
        {.from = 0, .to = .4, .step = .1, .suffix = "%", .scale = 100},
        {.from = 0, .to = .6, .step = .2, .suffix = "%", .scale = 100},
        {.from = 0, .to = 1, .step = .25, .suffix = "%", .scale = 100},
    };
    size_t last = sizeof AXES / sizeof *AXES - 1;
    double high = 0;
    for (size_t i = 0; i < count; i++) high = fmax(high, isfinite(rows[i].high) ? rows[i].high : 0);
    for (size_t i = 0; i < last; i++) {
        if (high > 0 && high <= AXES[i].to) return AXES[i];
    }
    return AXES[last];
}

/* Measures that are no rates stand on round numbers around their intervals. */
Axis interval_axis(const Measure *measure, const IntervalRow *rows, size_t count) {
    if (measure->kind == MEASURE_RATE) return rate_axis(rows, count);
    double low = INFINITY;
    double high = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        double from = isfinite(rows[i].low) ? rows[i].low : rows[i].point;
        double to = isfinite(rows[i].high) ? rows[i].high : rows[i].point;
        if (isfinite(from) && from < low) low = from;
        if (isfinite(to) && to > high) high = to;
    }
    if (!(low <= high)) return (Axis){.from = 0, .to = 1, .step = .5, .suffix = "", .scale = 1};
    double step = nice_step(high > low ? (high - low) * 1.2 : fabs(high) + 1);
    return (Axis){.from = floor(low / step) * step,
                  .to = (floor(high / step) + 1) * step,
                  .step = step,
                  .suffix = "",
                  .scale = 1};
}

VerdictMark verdict_mark(const ClaimFinding *finding) {
    static const VerdictMark MARKS[] = {
        [VERDICT_TOO_FEW] = MARK_TOO_FEW,
        [VERDICT_CONTRADICTED] = MARK_CONTRADICTED,
        [VERDICT_LEANING_AGAINST] = MARK_LEANING_AGAINST,
        [VERDICT_LEANING] = MARK_LEANING,
        [VERDICT_BORNE_OUT] = MARK_BORNE_OUT,
    };
    return MARKS[finding->verdict];
}

static const char *claim_side(Writer *writer, const Claim *claim, bool other) {
    if (!other) return writer->profile->slices[claim->slice].label;
    if (claim->against == CLAIM_AGAINST_REST) return "The rest";
    if (claim->against == CLAIM_AGAINST_STANDARD) return "Standard";
    return writer->profile->slices[claim->against].label;
}

IntervalRow claim_side_row(Writer *writer, const Claim *claim, const ClaimFinding *finding, bool other) {
    const Measure *measure = &writer->profile->measures[claim->measure];
    IntervalRow row =
        interval_row(writer, measure, other ? &finding->b : &finding->a, claim_side(writer, claim, other));
    row.open = other;
    if (!other || claim->against != CLAIM_AGAINST_STANDARD) return row;
    row.count = "";
    row.hatched = false;
    return row;
}
