/* Grades: on the house's scale, one for every trait, and an overall that fits them. */
#include <math.h>

#include "base/text.h"
#include "check/check_parts.h"
#include "source/xml.h"

static const double scale_slack = 1e-6;
static const double overall_tolerance = 0.5; /* grades; the house's composite rule (positions.md 6) */
static const double weight_needed = 0.7;     /* of all traits' weight: below, there is no composite */

static void check_scale(const Check *check, Place place, double value, double step) {
    const House *house = check->dossier->house;
    if (isnan(value)) return;
    double steps = (value - house->grade_low) / step;
    bool inside = value >= house->grade_low - scale_slack && value <= house->grade_high + scale_slack;
    if (inside && fabs(steps - round(steps)) * step <= scale_slack) return;
    const char *hint = arena_printf(check->arena, "the scale '%s' runs from %s to %s in steps of %s", house->scale_name,
                                    check_figure(check, house->grade_low, 3), check_figure(check, house->grade_high, 3),
                                    check_figure(check, step, 3));
    diag_report(check->diagnostics, RULE_GRADE_SCALE, place, hint, "%s is not on the house's scale",
                check_figure(check, value, 3));
}

static const Grade *grade_of(const Grades *grades, size_t trait) {
    for (size_t i = 0; i < grades->count; i++) {
        if ((size_t)grades->grades[i].trait == trait) return &grades->grades[i];
    }
    return NULL;
}

static void check_missing(const Check *check, const Grades *grades) {
    const Profile *profile = check->profile;
    Buf names = {0};
    size_t missing = 0;
    for (size_t i = 0; i < profile->trait_count; i++) {
        if (grade_of(grades, i)) continue;
        buf_printf(&names, "%s%s", missing++ ? ", " : "", profile->traits[i].id);
    }
    if (missing && !diag_reported(check->diagnostics, RULE_REFERENCE)) { /* a trait's name may be what is wrong */
        diag_report(check->diagnostics, RULE_GRADE_MISSING, grades->place, NULL, "'%s' has not graded %s", grades->by,
                    buf_text(&names));
    }
    buf_free(&names);
}

/* NaN where too little is graded. */
static double composite(const Profile *profile, const Grades *grades) {
    double sum = 0, graded = 0, all = 0;
    for (size_t i = 0; i < profile->trait_count; i++) {
        const Grade *grade = grade_of(grades, i);
        double weight = profile->traits[i].weight;
        all += weight;
        if (!grade || isnan(grade->value)) continue;
        graded += weight;
        sum += weight * grade->value;
    }
    return graded > 0 && graded >= weight_needed * all ? sum / graded : NAN;
}

static void check_overall(const Check *check, const Grades *grades) {
    double traits = composite(check->profile, grades);
    if (isnan(grades->overall) || isnan(traits) || grades->says) return;
    if (fabs(grades->overall - traits) <= overall_tolerance + scale_slack) return;
    diag_report(check->diagnostics, RULE_GRADE_OVERALL, grades->overall_place, "say why in the text of <overall>",
                "overall %s is more than %s from the traits, which weigh %s", check_figure(check, grades->overall, 3),
                check_figure(check, overall_tolerance, 3), check_figure(check, traits, 2));
}

/* False after a report. */
static bool check_evaluator(const Check *check, size_t index) {
    const Grades *all = check->dossier->grades, *grades = &all[index];
    for (size_t i = 0; i < index; i++) {
        if (!text_equal(all[i].by, grades->by)) continue;
        diag_report(check->diagnostics, RULE_DUPLICATE, grades->place, NULL, "'%s' grades twice", grades->by);
        diag_also(check->diagnostics, all[i].place, "the first is here");
        return false;
    }
    return true;
}

static void check_values(const Check *check, const Grades *grades) {
    const House *house = check->dossier->house;
    for (size_t i = 0; i < grades->count; i++) {
        const Grade *grade = &grades->grades[i];
        check_scale(check, xml_tag_value_place(grade->place, "value"), grade->value, house->grade_step);
    }
    check_scale(check, xml_tag_value_place(grades->overall_place, "value"), grades->overall, house->overall_step);
}

void check_grades(Check *check) {
    const Dossier *dossier = check->dossier;
    for (size_t i = 0; i < dossier->grades_count; i++) {
        const Grades *grades = &dossier->grades[i];
        check->checked.grades += grades->count;
        bool once = check_evaluator(check, i);
        check_values(check, grades);
        check_overall(check, grades);
        bool filing = text_equal(grades->by, dossier->filing.by);
        if (filing && once) check_missing(check, grades);
        if (i == 0 && !filing) {
            diag_report(check->diagnostics, RULE_GRADE_MISSING, dossier->filing.place, NULL,
                        "'%s' files the report and has graded nothing", dossier->filing.by);
        }
    }
}
