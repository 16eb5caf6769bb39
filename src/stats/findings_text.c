/* Findings as tables for a terminal. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "stats/findings.h"
#include "stats/findings_names.h"

enum { LABEL_WIDTH = 30, VALUE_WIDTH = 9, INTERVAL_WIDTH = 15, COUNT_WIDTH = 10, NOTE_WIDTH = 13 };

/* Rates are whole points under this n: a decimal would claim more than the sample knows. */
enum { WHOLE_POINTS_UNDER = 100 };

static void pad(Buf *out, size_t used, size_t width) {
    for (size_t i = used; i < width; i++) buf_putc(out, ' ');
}

static void put_left(Buf *out, const char *text, size_t width) {
    buf_puts(out, text);
    pad(out, text_characters(text, strlen(text)), width);
}

/* Prints what `cell` holds at the right of its column, and empties it. */
static void put_right(Buf *out, Buf *cell, size_t width) {
    const char *text = buf_text(cell);
    pad(out, text_characters(text, cell->length), width);
    buf_puts(out, text);
    cell->length = 0;
}

/* `places` decimals, all of them shown, halves away from zero as on the page. */
static void put_decimals(Buf *cell, double value, int places) {
    double power = pow(10, places);
    buf_printf(cell, "%.*f", places, round(value * power) / power);
}

static void put_value(Buf *cell, const Measure *measure, const Estimate *estimate, double value) {
    if (!isfinite(value))
        buf_puts(cell, "–");
    else if (measure->kind != MEASURE_RATE)
        put_decimals(cell, value, measure->places);
    else
        put_decimals(cell, 100 * value, estimate->n < WHOLE_POINTS_UNDER ? 0 : 1);
}

static void put_estimate(Buf *out, Buf *cell, const Measure *measure, const Estimate *estimate) {
    put_value(cell, measure, estimate, estimate->value);
    if (measure->kind == MEASURE_RATE && isfinite(estimate->value)) buf_puts(cell, "%");
    put_right(out, cell, VALUE_WIDTH);
    if (isfinite(estimate->low)) {
        put_value(cell, measure, estimate, estimate->low);
        buf_puts(cell, " to ");
        put_value(cell, measure, estimate, estimate->high);
    }
    put_right(out, cell, INTERVAL_WIDTH);
    if (measure->kind == MEASURE_RATE)
        buf_printf(cell, "%d/%d", estimate->k, estimate->n);
    else
        buf_printf(cell, "%d", estimate->n);
    put_right(out, cell, COUNT_WIDTH);
    if (estimate->unknown) buf_printf(cell, "%d", estimate->unknown);
    put_right(out, cell, NOTE_WIDTH);
    buf_putc(out, '\n');
}

static void put_head(Buf *out, Buf *cell, const char *title) {
    static const struct {
        const char *text;
        size_t width;
    } HEADS[] = {
        {"value", VALUE_WIDTH}, {"95 % interval", INTERVAL_WIDTH}, {"n", COUNT_WIDTH}, {"not charted", NOTE_WIDTH}};
    buf_putc(out, '\n');
    put_left(out, title, LABEL_WIDTH);
    for (size_t i = 0; i < sizeof HEADS / sizeof *HEADS; i++) {
        buf_puts(cell, HEADS[i].text);
        put_right(out, cell, HEADS[i].width);
    }
    buf_putc(out, '\n');
}

static void put_measures(Buf *out, Buf *cell, const Findings *findings) {
    const Profile *profile = findings->dossier->profile;
    put_head(out, cell, "MEASURES");
    for (size_t m = 0; m < profile->measure_count; m++) {
        const Measure *measure = &profile->measures[m];
        if (!measure->printed) continue;
        put_left(out, measure->label, LABEL_WIDTH);
        put_estimate(out, cell, measure, findings_estimate(findings, (int)m, ESTIMATE_ALL));
        for (size_t s = 0; s < profile->slice_count; s++) {
            const Estimate *estimate = findings_estimate(findings, (int)m, (int)s);
            if (profile->slices[s].common || !estimate->n) continue;
            buf_puts(out, "  ");
            put_left(out, profile->slices[s].label, LABEL_WIDTH - 2);
            put_estimate(out, cell, measure, estimate);
        }
    }
}

static const char *side_label(const Profile *profile, const Claim *claim) {
    if (claim->against == CLAIM_AGAINST_REST) return "the rest";
    if (claim->against == CLAIM_AGAINST_STANDARD) return "standard";
    return profile->slices[claim->against].label;
}

static void put_claim(Buf *out, Buf *cell, const Profile *profile, const Claim *claim, const ClaimFinding *finding) {
    const Measure *measure = &profile->measures[claim->measure];
    buf_printf(out, "%s: %s\n", claim->title, verdict_word(finding->verdict));
    buf_puts(out, "  ");
    put_left(out, profile->slices[claim->slice].label, LABEL_WIDTH - 2);
    put_estimate(out, cell, measure, &finding->a);
    buf_puts(out, "  ");
    put_left(out, side_label(profile, claim), LABEL_WIDTH - 2);
    put_estimate(out, cell, measure, &finding->b);
    buf_printf(out, "  cited %d of %d", finding->cited, finding->snaps);
    if (!isnan(finding->p_adjusted)) buf_printf(out, ", adjusted p %.3f", finding->p_adjusted);
    if (finding->snaps_needed > MOST_SNAPS_NEEDED)
        buf_puts(out, ", settling it takes more than a season can show");
    else if (finding->snaps_needed > 0)
        buf_printf(out, ", %d more would settle it", finding->snaps_needed);
    buf_putc(out, '\n');
}

static void put_claims(Buf *out, Buf *cell, const Findings *findings) {
    const Dossier *dossier = findings->dossier;
    if (!dossier->claim_count) return;
    put_head(out, cell, "CLAIMS");
    for (size_t i = 0; i < dossier->claim_count; i++) {
        put_claim(out, cell, dossier->profile, &dossier->claims[i], &findings->claims[i]);
    }
}

static void put_measurables(Buf *out, Buf *cell, const Findings *findings) {
    enum { NAME_WIDTH = 12, NOTATION_WIDTH = 12, PERCENTILE_WIDTH = 12 };
    if (!findings->dossier->measurable_count) return;
    buf_puts(out, "\nMEASURABLES\n");
    for (size_t i = 0; i < findings->dossier->measurable_count; i++) {
        const MeasurableFinding *finding = &findings->measurables[i];
        put_left(out, finding->measurable->id, NAME_WIDTH);
        put_left(out, finding->measurable->notation, NOTATION_WIDTH);
        if (!isnan(finding->percentile)) {
            buf_printf(cell, "percentile %.0f of %d", finding->percentile, finding->population->n);
        }
        put_right(out, cell, PERCENTILE_WIDTH);
        buf_putc(out, '\n');
    }
}

static void put_comparables(Buf *out, Buf *cell, const Findings *findings) {
    const ComparableFinding *comparables = &findings->comparables;
    if (comparables->count) buf_puts(out, "\nNEAREST IN BUILD AND TEST\n");
    for (size_t i = 0; i < comparables->count; i++) {
        const Comparable *nearest = &comparables->nearest[i];
        bool labelled = strcmp(nearest->label, nearest->id) != 0;
        buf_printf(cell, "%s%s%s%s", nearest->label, labelled ? " (" : "", labelled ? nearest->id : "",
                   labelled ? ")" : "");
        put_left(out, buf_text(cell), LABEL_WIDTH);
        cell->length = 0;
        put_decimals(cell, nearest->distance, 2);
        put_right(out, cell, VALUE_WIDTH);
        buf_putc(out, '\n');
    }
}

void findings_text(const Findings *findings, Buf *out) {
    const Dossier *dossier = findings->dossier;
    Buf cell = {0};
    buf_printf(out, "%s %s, %s: %d snaps charted, %d counted\n", dossier->given, dossier->family,
               dossier->profile->name, findings->snaps, findings->counted);
    put_measures(out, &cell, findings);
    put_claims(out, &cell, findings);
    put_measurables(out, &cell, findings);
    put_comparables(out, &cell, findings);
    buf_free(&cell);
}
