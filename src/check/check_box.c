/* The chart against the official box score: each total that the game's <official> gives, with the snaps that likeliest
 * explain a difference. */
#include <math.h>

#include "check/check_parts.h"
#include "source/xml.h"

enum { NAMED_MOST = 3 }; /* snaps named in one hint */

static const double total_slack = 1e-6;

/* One total over one game. `truth`, `value` and `known` are by row of the game. */
typedef struct Tally {
    const Game *game;
    const Total *total;
    uint8_t *truth;
    double *value;
    uint8_t *state;
    double charted; /* what is surely in it */
    size_t unclear; /* snaps of which it cannot be told */
} Tally;

/* Names of snaps for a hint, each with why. */
typedef struct Suspects {
    Buf names;
    size_t rows[NAMED_MOST];
    size_t count; /* may be more than are named */
} Suspects;

static void suspect(const Check *check, Suspects *suspects, size_t row, const char *why) {
    for (size_t i = 0; i < suspects->count && i < NAMED_MOST; i++) {
        if (suspects->rows[i] == row) return;
    }
    if (suspects->count++ >= NAMED_MOST) return;
    suspects->rows[suspects->count - 1] = row;
    buf_printf(&suspects->names, "%s%s (%s)", suspects->count > 1 ? ", " : "", check->dossier->snaps[row].name, why);
}

static const uint8_t *counted(const Check *check, const Tally *tally) {
    return check->dossier->columns.counted + tally->game->first_row;
}

/* What a snap that is in the total adds to it; false when that was not charted. */
static bool adds(const Tally *tally, size_t i, double *value) {
    *value = tally->total->sum ? tally->value[i] : 1;
    return !tally->total->sum || tally->state[i] == VALUE_KNOWN;
}

static void count_rows(const Check *check, Tally *tally) {
    for (size_t i = 0; i < tally->game->row_count; i++) {
        double value;
        if (!counted(check, tally)[i] || tally->truth[i] == TRUTH_FALSE) continue;
        if (tally->truth[i] == TRUTH_TRUE && adds(tally, i, &value)) {
            tally->charted += value;
        } else if (tally->truth[i] == TRUTH_UNKNOWN || tally->state[i] == VALUE_UNKNOWN) {
            tally->unclear++;
        }
    }
}

static Tally tally_of(const Check *check, const Game *game, const Total *total) {
    const Columns *columns = &check->dossier->columns;
    size_t rows = game->row_count;
    Tally tally = {.game = game, .total = total};
    tally.truth = ARENA_ARRAY(check->arena, rows, uint8_t);
    tally.value = ARENA_ARRAY(check->arena, rows, double);
    tally.state = ARENA_ARRAY(check->arena, rows, uint8_t);
    for (size_t i = 0; i < rows; i++) tally.truth[i] = TRUTH_TRUE;
    if (total->where) expr_select(total->where, columns, game->first_row, rows, tally.truth);
    if (total->sum) expr_values(total->sum, columns, game->first_row, rows, tally.value, tally.state);
    count_rows(check, &tally);
    return tally;
}

/* ---- likeliest snaps ---- */

static const char *why_uncounted(const Check *check, size_t row) {
    if (check_is(check, profile_field(check->profile, "result"), row, "no-play")) return "no play";
    return check_is(check, profile_field(check->profile, "play"), row, "try") ? "a try" : "not counted";
}

/* The chart has too little: snaps that would be in the total if they counted, or if what is blank were charted. */
static void suspect_missing(const Check *check, const Tally *tally, Suspects *suspects) {
    for (size_t i = 0; i < tally->game->row_count; i++) {
        size_t row = tally->game->first_row + i;
        bool counts = counted(check, tally)[i];
        double value;
        if (counts && tally->truth[i] == TRUTH_UNKNOWN) suspect(check, suspects, row, "not fully charted");
        if (counts && tally->truth[i] == TRUTH_TRUE && !adds(tally, i, &value))
            suspect(check, suspects, row, "gain not charted");
        if (!counts && tally->truth[i] == TRUTH_TRUE) suspect(check, suspects, row, why_uncounted(check, row));
    }
}

/* One snap that alone makes the difference of a sum: counted though it should not be, or with its sign turned. */
static void suspect_value(const Check *check, const Tally *tally, double over, Suspects *suspects) {
    for (size_t i = 0; tally->total->sum && i < tally->game->row_count; i++) {
        double value;
        if (!counted(check, tally)[i] || tally->truth[i] != TRUTH_TRUE || !adds(tally, i, &value) || value == 0)
            continue;
        size_t row = tally->game->first_row + i;
        if (fabs(value - over) <= total_slack) suspect(check, suspects, row, "adds just the difference");
        if (fabs(2 * value - over) <= total_slack) suspect(check, suspects, row, "does so with its sign turned");
    }
}

/* A play that stands with a penalty taken is where charters and official scorers part most often (common practice). */
static void suspect_penalties(const Check *check, const Tally *tally, Suspects *suspects) {
    int penalty = profile_field(check->profile, "penalty");
    for (size_t i = 0; i < tally->game->row_count; i++) {
        size_t row = tally->game->first_row + i;
        bool taken = check_is(check, penalty, row, "offence") || check_is(check, penalty, row, "defence");
        if (taken && counted(check, tally)[i] && tally->truth[i] == TRUTH_TRUE)
            suspect(check, suspects, row, "a penalty was taken");
    }
}

static const char *hint_of(const Check *check, const Tally *tally, double over) {
    Suspects suspects = {0};
    suspect_value(check, tally, over, &suspects);
    if (over < 0) suspect_missing(check, tally, &suspects);
    if (over > 0) suspect_penalties(check, tally, &suspects);
    const char *more = suspects.count > NAMED_MOST ? " and others" : "";
    const char *hint =
        suspects.count ? arena_printf(check->arena, "look at %s%s", buf_text(&suspects.names), more) : NULL;
    buf_free(&suspects.names);
    return hint;
}

static const char *unclear_words(const Check *check, const Tally *tally) {
    if (tally->unclear == 0) return "";
    return arena_printf(check->arena, "; of %zu snap%s it cannot be told", tally->unclear,
                        tally->unclear == 1 ? "" : "s");
}

static void check_total(Check *check, const Game *game, size_t index) {
    const Total *total = &check->profile->totals[index];
    double official = game->official[index];
    if (isnan(official)) return;
    check->checked.totals++;
    Tally tally = tally_of(check, game, total);
    double over = tally.charted - official;
    if (fabs(over) <= total_slack || (tally.unclear && check->values_lost)) return;
    diag_report(check->diagnostics, RULE_BOX_SCORE, xml_tag_value_place(game->official_place, total->id),
                hint_of(check, &tally, over), "'%s' of %s: %s charted, %s official, %s too %s%s", total->id, game->id,
                check_figure(check, tally.charted, 2), check_figure(check, official, 2),
                check_figure(check, fabs(over), 2), over > 0 ? "many" : "few", unclear_words(check, &tally));
}

void check_boxes(Check *check) {
    const Dossier *dossier = check->dossier;
    for (size_t i = 0; i < dossier->game_count; i++) {
        const Game *game = &dossier->games[i];
        if (!game->official || game->row_count == 0) continue;
        for (size_t k = 0; k < check->profile->total_count; k++) check_total(check, game, k);
    }
}
