/* Measurements: within what a human shows, within what the position shows, in order among themselves, once for each
 * day. */
#include "base/text.h"
#include "check/check_parts.h"
#include "source/xml.h"

static const double centimetres_an_inch = 2.54;

/* What holds between the measurements of any one man: less × times <= more. */
static const struct {
    const char *less, *more;
    double times;
    const char *why;
} orders[] = {
    {"ten", "twenty", 1, "the first ten yards are part of the twenty"},
    {"twenty", "forty", 1, "the first twenty yards are part of the forty"},
    {"hand", "arm", 1, "the hand is part of the arm"},
    {"arm", "wingspan", 2, "a wingspan is two arms and the shoulders"},
};

static Place value_place(const Measurable *measurable) {
    return xml_tag_value_place(measurable->place, "value");
}

static const char *words(const Check *check, const Measurable *measurable) {
    return notation_plain(check->arena, measurable_info(measurable->id), measurable->value);
}

/* Inches that would do as centimetres. */
static const char *metric_hint(const Check *check, const MeasurableInfo *info, const Measurable *measurable) {
    double inches = measurable->value / centimetres_an_inch;
    if (info->unit != UNIT_INCH || inches < info->human_low || inches > info->human_high) return NULL;
    return arena_printf(check->arena, "centimetres are written with their unit: %s cm", measurable->notation);
}

/* A value that could not be read is 0 and told of by the reader; of what is measured only repetitions may be none. */
static bool was_read(const MeasurableInfo *info, const Measurable *measurable) {
    return info && (measurable->value > 0 || info->unit == UNIT_COUNT);
}

static void check_bounds(const Check *check, const Measurable *measurable) {
    const MeasurableInfo *info = measurable_info(measurable->id);
    const MeasurableKind *kind = measurable->kind;
    if (!was_read(info, measurable)) return;
    if (measurable->value < info->human_low || measurable->value > info->human_high) {
        diag_report(check->diagnostics, RULE_IMPOSSIBLE, value_place(measurable), metric_hint(check, info, measurable),
                    "%s of %s: no player measures that", info->label, words(check, measurable));
        return;
    }
    if (!kind || kind->low >= kind->high || (measurable->value >= kind->low && measurable->value <= kind->high)) return;
    diag_report(check->diagnostics, RULE_IMPLAUSIBLE, value_place(measurable), NULL,
                "%s of %s: at this position it is between %s and %s", info->label, words(check, measurable),
                notation_plain(check->arena, info, kind->low), notation_plain(check->arena, info, kind->high));
}

static const Measurable *find(const Check *check, const char *id) {
    const Dossier *dossier = check->dossier;
    for (size_t i = 0; i < dossier->measurable_count; i++) {
        const Measurable *measurable = &dossier->measurables[i];
        if (text_equal(measurable->id, id) && was_read(measurable_info(id), measurable)) return measurable;
    }
    return NULL;
}

static void check_orders(const Check *check) {
    for (size_t i = 0; i < sizeof orders / sizeof orders[0]; i++) {
        const Measurable *less = find(check, orders[i].less), *more = find(check, orders[i].more);
        if (!less || !more || less->value * orders[i].times <= more->value) continue;
        diag_report(check->diagnostics, RULE_IMPLAUSIBLE, value_place(less), NULL, "%s of %s and %s of %s: %s",
                    less->id, words(check, less), more->id, words(check, more), orders[i].why);
        diag_also(check->diagnostics, value_place(more), "%s is here", more->id);
    }
}

static void check_twice(const Check *check, size_t index) {
    const Measurable *all = check->dossier->measurables, *measurable = &all[index];
    for (size_t i = 0; i < index; i++) {
        if (!text_equal(all[i].id, measurable->id) || !text_equal(all[i].on, measurable->on)) continue;
        if (all[i].hand_timed == measurable->hand_timed) {
            diag_report(check->diagnostics, RULE_MEASURED_TWICE, measurable->place, "give each its day",
                        "'%s' stands twice%s%s", measurable->id, measurable->on ? " for " : " without a day",
                        measurable->on ? measurable->on : "");
        } else if (measurable->value < all[i].value ? !measurable->hand_timed : measurable->hand_timed) {
            diag_report(check->diagnostics, RULE_IMPLAUSIBLE, measurable->place, "are the two the wrong way round?",
                        "by hand '%s' reads slower than by a machine", measurable->id);
        } else {
            continue;
        }
        diag_also(check->diagnostics, all[i].place, "the other is here");
        return;
    }
}

void check_measurables(Check *check) {
    const Dossier *dossier = check->dossier;
    check->checked.measurements = dossier->measurable_count;
    for (size_t i = 0; i < dossier->measurable_count; i++) {
        check_bounds(check, &dossier->measurables[i]);
        check_twice(check, i);
    }
    check_orders(check);
}
