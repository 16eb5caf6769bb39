#include "check/check.h"

#include "base/buf.h"
#include "base/text.h"
#include "check/check_parts.h"
#include "source/xml.h"

enum { MIDFIELD = 50, FIELD_YARDS = 100 };

/* A family reads the model, and what was told before it so as not to tell one slip twice. */
static void (*const families[])(Check *check) = {
    check_order, check_clashes,     check_chain,  check_boxes,  check_charters,
    check_clips, check_measurables, check_claims, check_grades, check_report,
};

/* What the reader held against the profile. */
static size_t charted_values(const Dossier *dossier) {
    size_t count = 0;
    for (size_t row = 0; row < dossier->snap_count; row++) {
        for (size_t field = 0; field < dossier->profile->field_count; field++) {
            count += dossier->snaps[row].texts[field] != NULL;
        }
    }
    return count;
}

Checked check_dossier(const Dossier *dossier, Diagnostics *diagnostics) {
    Check check = {.arena = arena_new(), .dossier = dossier, .profile = dossier->profile, .diagnostics = diagnostics};
    check.clashed = ARENA_ARRAY(check.arena, dossier->snap_count, uint8_t);
    check.values_lost = diag_reported(diagnostics, RULE_FIELD_VALUE) || diag_reported(diagnostics, RULE_FIELD_RANGE) ||
                        diag_reported(diagnostics, RULE_FIELD_UNKNOWN);
    check.checked.values = charted_values(dossier);
    for (size_t i = 0; i < sizeof families / sizeof families[0]; i++) families[i](&check);
    arena_free(check.arena);
    return check.checked;
}

bool check_number(const Check *check, int field, size_t row, double *number) {
    if (field < 0) return false;
    const Column *column = &check->dossier->columns.columns[field];
    if (column->state[row] != VALUE_KNOWN) return false;
    *number = column->number[row];
    return true;
}

bool check_is(const Check *check, int field, size_t row, const char *value) {
    double word;
    if (!check_number(check, field, row, &word)) return false;
    const FieldValue *known = field_value(&check->profile->fields[field], (int)word);
    return known && text_equal(known->id, value);
}

bool check_follows(const Check *check, int drive, size_t row) {
    const Snap *snaps = check->dossier->snaps;
    if (snaps[row].number != snaps[row - 1].number + 1) return false;
    double now, then;
    bool has = check_number(check, drive, row, &now), had = check_number(check, drive, row - 1, &then);
    return has && had ? now == then : !has && !had;
}

Place check_value_place(const Check *check, int field, size_t row) {
    Place snap = check->dossier->snaps[row].place;
    return field < 0 ? snap : xml_tag_value_place(snap, check->profile->fields[field].id);
}

const char *check_spot(const Check *check, double to_goal) {
    int yards = (int)to_goal;
    if (yards == MIDFIELD) return "50";
    return yards > MIDFIELD ? arena_printf(check->arena, "-%d", FIELD_YARDS - yards)
                            : arena_printf(check->arena, "+%d", yards);
}

const char *check_figure(const Check *check, double value, int places) {
    Buf text = {0};
    buf_number(&text, value, places);
    const char *digits = buf_text(&text);
    const char *sign = *digits == '-' ? "-" : "";
    digits += *sign != '\0';
    const char *words = arena_printf(check->arena, "%s%s%s", sign, *digits == '.' ? "0" : "", digits);
    buf_free(&text);
    return words;
}
