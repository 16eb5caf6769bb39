/* Findings as JSON: what does not exist is null. */
#include <jansson.h>
#include <math.h>
#include <stdlib.h>

#include "stats/findings.h"
#include "stats/findings_names.h"

/* Significant digits: as many as computers of different make agree on. */
enum { JSON_DIGITS = 12 };

/* Whole numbers under this print without a decimal point. */
static const double MOST_WHOLE = 1e15;

static json_t *number(double value) {
    if (!isfinite(value)) return json_null();
    if (value == floor(value) && fabs(value) < MOST_WHOLE) return json_integer((json_int_t)value);
    return json_real(value);
}

static json_t *string(const char *text) {
    return text ? json_string(text) : json_null();
}

static json_t *estimate_json(const Estimate *estimate, const char *slice) {
    json_t *object = json_object();
    json_object_set_new(object, "slice", string(slice));
    json_object_set_new(object, "k", estimate->kind == MEASURE_RATE ? json_integer(estimate->k) : json_null());
    json_object_set_new(object, "n", json_integer(estimate->n));
    json_object_set_new(object, "unknown", json_integer(estimate->unknown));
    json_object_set_new(object, "value", number(estimate->value));
    json_object_set_new(object, "low", number(estimate->low));
    json_object_set_new(object, "high", number(estimate->high));
    return object;
}

static json_t *totals_json(const Findings *findings) {
    const Profile *profile = findings->dossier->profile;
    json_t *object = json_object();
    for (size_t i = 0; i < profile->total_count; i++) {
        json_object_set_new(object, profile->totals[i].id, number(findings->totals[i]));
    }
    return object;
}

static json_t *measures_json(const Findings *findings) {
    const Profile *profile = findings->dossier->profile;
    json_t *array = json_array();
    for (size_t m = 0; m < profile->measure_count; m++) {
        for (int slice = ESTIMATE_ALL; slice < (int)profile->slice_count; slice++) {
            json_t *object = json_pack("{s:s}", "id", profile->measures[m].id);
            json_t *estimate =
                estimate_json(findings_estimate(findings, (int)m, slice), findings_slice_name(profile, slice));
            json_object_update(object, estimate);
            json_decref(estimate);
            json_array_append_new(array, object);
        }
    }
    return array;
}

static json_t *claim_json(const Profile *profile, const Claim *claim, const ClaimFinding *finding) {
    json_t *object = json_object();
    json_object_set_new(object, "id", string(claim->id));
    json_object_set_new(object, "kind", json_string(claim->kind == CLAIM_STRENGTH ? "strength" : "concern"));
    json_object_set_new(object, "measure", json_string(profile->measures[claim->measure].id));
    json_object_set_new(object, "a", estimate_json(&finding->a, findings_slice_name(profile, claim->slice)));
    json_object_set_new(object, "b", estimate_json(&finding->b, findings_against_name(profile, claim)));
    json_object_set_new(object, "difference", number(finding->difference));
    json_object_set_new(object, "low", number(finding->low));
    json_object_set_new(object, "high", number(finding->high));
    json_object_set_new(object, "cited", json_integer(finding->cited));
    json_object_set_new(object, "cited_against", json_integer(finding->cited_against));
    json_object_set_new(object, "snaps", json_integer(finding->snaps));
    json_object_set_new(object, "verdict", json_string(verdict_key(finding->verdict)));
    json_object_set_new(object, "p", number(finding->p));
    json_object_set_new(object, "p_adjusted", number(finding->p_adjusted));
    bool known = finding->snaps_needed >= 0;
    json_object_set_new(object, "snaps_needed", known ? json_integer(finding->snaps_needed) : json_null());
    return object;
}

static json_t *claims_json(const Findings *findings) {
    const Dossier *dossier = findings->dossier;
    json_t *array = json_array();
    for (size_t i = 0; i < dossier->claim_count; i++) {
        json_array_append_new(array, claim_json(dossier->profile, &dossier->claims[i], &findings->claims[i]));
    }
    return array;
}

static json_t *measurables_json(const Findings *findings) {
    json_t *array = json_array();
    for (size_t i = 0; i < findings->dossier->measurable_count; i++) {
        const MeasurableFinding *finding = &findings->measurables[i];
        bool compared = finding->population;
        json_t *object = json_object();
        json_object_set_new(object, "kind", string(finding->measurable->id));
        json_object_set_new(object, "value", number(finding->measurable->value));
        json_object_set_new(object, "unit", json_string(findings_unit_name(finding->measurable)));
        json_object_set_new(object, "percentile", number(finding->percentile));
        json_object_set_new(object, "n", compared ? json_integer(finding->population->n) : json_null());
        json_object_set_new(object, "scale", compared ? string(findings->scale->id) : json_null());
        json_array_append_new(array, object);
    }
    return array;
}

/* The nearest first; empty where the scale has no rows to compare with. */
static json_t *comparables_json(const ComparableFinding *comparables) {
    json_t *array = json_array();
    for (size_t i = 0; i < comparables->count; i++) {
        const Comparable *nearest = &comparables->nearest[i];
        json_t *object = json_object();
        json_object_set_new(object, "id", string(nearest->id));
        json_object_set_new(object, "label", string(nearest->label));
        json_object_set_new(object, "distance", number(nearest->distance));
        json_array_append_new(array, object);
    }
    return array;
}

/* Field by field, over the snaps of second charts; empty without any. */
static json_t *agreement_json(const Findings *findings) {
    const Agreement *agreement = findings->agreement;
    json_t *array = json_array();
    for (size_t i = 0; agreement && i < agreement->field_count; i++) {
        const FieldAgreement *field = &agreement->fields[i];
        json_t *object = json_object();
        json_object_set_new(object, "field", json_string(findings->dossier->profile->fields[field->field].id));
        json_object_set_new(object, "n", json_integer(field->n));
        json_object_set_new(object, "equal", json_integer(field->equal));
        json_object_set_new(object, "kappa", number(field->kappa));
        json_object_set_new(object, "low", number(field->low));
        json_object_set_new(object, "high", number(field->high));
        json_object_set_new(object, "weighted", json_boolean(field->weighted));
        json_array_append_new(array, object);
    }
    return array;
}

/* Null under two evaluators. */
static json_t *grade_agreement_json(const Agreement *agreement) {
    if (!agreement || agreement->evaluators < 2) return json_null();
    json_t *object = json_object();
    json_object_set_new(object, "icc1", number(agreement->grades.single));
    json_object_set_new(object, "icc1_low", number(agreement->grades.single_interval.low));
    json_object_set_new(object, "icc1_high", number(agreement->grades.single_interval.high));
    json_object_set_new(object, "icck", number(agreement->grades.average));
    json_object_set_new(object, "evaluators", json_integer(agreement->evaluators));
    json_object_set_new(object, "traits", json_integer(agreement->traits));
    return object;
}

void findings_json(const Findings *findings, Buf *out) {
    json_t *root = json_object();
    json_object_set_new(root, "dossier", string(findings->dossier->id));
    json_object_set_new(root, "profile", string(findings->dossier->profile->id));
    json_object_set_new(root, "totals", totals_json(findings));
    json_object_set_new(root, "measures", measures_json(findings));
    json_object_set_new(root, "claims", claims_json(findings));
    json_object_set_new(root, "measurables", measurables_json(findings));
    json_object_set_new(root, "comparables", comparables_json(&findings->comparables));
    json_object_set_new(root, "agreement", agreement_json(findings));
    json_object_set_new(root, "grade_agreement", grade_agreement_json(findings->agreement));
    char *text = json_dumps(root, JSON_INDENT(2) | JSON_REAL_PRECISION(JSON_DIGITS));
    json_decref(root);
    if (!text) return;
    buf_puts(out, text);
    buf_putc(out, '\n');
    free(text);
}
