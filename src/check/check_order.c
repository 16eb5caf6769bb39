/* Snaps, drives, quarters and the clock of each chart run one way. */
#include "check/check_parts.h"

enum {
    PLAY_CLOCK = 40,  /* seconds between plays, college and professional (from memory) */
    MOST_RUN_OFF = 60 /* game clock between two snaps of a drive: above is odd (common practice: 40 and the play) */
};

typedef struct OrderFields {
    int drive, quarter, clock;
} OrderFields;

static void report_back(const Check *check, int field, size_t row, size_t before) {
    const Snap *snaps = check->dossier->snaps;
    diag_report(check->diagnostics, RULE_CHART_ORDER, check_value_place(check, field, row), NULL,
                "%s has a lower %s than %s, which stands before it", snaps[row].name, check->profile->fields[field].id,
                snaps[before].name);
    diag_also(check->diagnostics, check_value_place(check, field, before), "%s is here", snaps[before].name);
}

static void check_rising(const Check *check, int field, size_t row, size_t before) {
    double now, then;
    if (!check_number(check, field, row, &now) || !check_number(check, field, before, &then)) return;
    if (now < then) report_back(check, field, row, before);
}

static void check_numbers(const Check *check, size_t row, size_t before) {
    const Snap *snaps = check->dossier->snaps;
    if (snaps[row].number >= snaps[before].number) return;
    diag_report(check->diagnostics, RULE_CHART_ORDER, snaps[row].place,
                "snaps stand in the order in which they were played", "%s stands after %s", snaps[row].name,
                snaps[before].name);
}

static bool same_value(const Check *check, int field, size_t row, size_t before) {
    double now, then;
    return check_number(check, field, row, &now) && check_number(check, field, before, &then) && now == then;
}

static const char *clock_words(const Check *check, double seconds) {
    int whole = (int)seconds;
    return arena_printf(check->arena, "%d:%02d", whole / 60, whole % 60);
}

static void check_clock(const Check *check, const OrderFields *fields, size_t row, size_t before) {
    const Snap *snaps = check->dossier->snaps;
    double now, then;
    if (!same_value(check, fields->quarter, row, before)) return;
    if (!check_number(check, fields->clock, row, &now) || !check_number(check, fields->clock, before, &then)) return;
    bool next = before + 1 == row && check_follows(check, fields->drive, row);
    Place place = check_value_place(check, fields->clock, row);
    if (now > then) {
        diag_report(check->diagnostics, RULE_CHART_CLOCK, place, NULL,
                    "the clock rises from %s at %s to %s at %s in one quarter", clock_words(check, then),
                    snaps[before].name, clock_words(check, now), snaps[row].name);
    } else if (next && then - now > MOST_RUN_OFF) {
        diag_report(check->diagnostics, RULE_CHART_CLOCK, place, NULL,
                    "%d seconds run off between %s and %s; a play and the %d seconds before the next take fewer",
                    (int)(then - now), snaps[before].name, snaps[row].name, PLAY_CLOCK);
    } else {
        return;
    }
    diag_also(check->diagnostics, check_value_place(check, fields->clock, before), "%s is here", snaps[before].name);
}

void check_order(Check *check) {
    const Dossier *dossier = check->dossier;
    OrderFields fields = {profile_field(check->profile, "drive"), profile_field(check->profile, "quarter"),
                          profile_field(check->profile, "clock")};
    for (size_t i = 0; i < dossier->game_count; i++) {
        const Game *game = &dossier->games[i];
        for (size_t row = game->first_row + 1; row < game->first_row + game->row_count; row++) {
            check->checked.ordered++;
            check_numbers(check, row, row - 1);
            check_rising(check, fields.drive, row, row - 1);
            check_rising(check, fields.quarter, row, row - 1);
            check_clock(check, &fields, row, row - 1);
        }
    }
}
