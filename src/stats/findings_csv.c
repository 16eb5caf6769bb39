/* The measures as a table: one row for each measure over all snaps and over each slice. Empty: does not exist. Twelve
 * significant digits, as many as computers of different make agree on. */
#include <math.h>

#include "stats/findings.h"
#include "stats/findings_names.h"

static void put_number(Buf *out, double value) {
    buf_putc(out, ',');
    if (isfinite(value)) buf_printf(out, "%.12g", value);
}

static void put_row(Buf *out, const char *measure, const char *slice, const Estimate *estimate) {
    buf_printf(out, "%s,%s,", measure, slice);
    if (estimate->kind == MEASURE_RATE) buf_printf(out, "%d", estimate->k);
    buf_printf(out, ",%d,%d", estimate->n, estimate->unknown);
    put_number(out, estimate->value);
    put_number(out, estimate->low);
    put_number(out, estimate->high);
    buf_putc(out, '\n');
}

void findings_csv(const Findings *findings, Buf *out) {
    const Profile *profile = findings->dossier->profile;
    buf_puts(out, "measure,slice,k,n,unknown,value,low,high\n");
    for (size_t m = 0; m < profile->measure_count; m++) {
        for (int slice = ESTIMATE_ALL; slice < (int)profile->slice_count; slice++) {
            put_row(out, profile->measures[m].id, findings_slice_name(profile, slice),
                    findings_estimate(findings, (int)m, slice));
        }
    }
}
