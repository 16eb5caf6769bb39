/* Two charters of one game: snaps are matched by number (the reader's work), and what both charted is compared. How a
 * play ended is a matter of fact; of everything else it is told how often the two part. */
#include "base/text.h"
#include "check/check_parts.h"
#include "source/xml.h"

/* A second chart against the one that counts. */
typedef struct Charters {
    const Check *check;
    const SecondChart *second;
    const Game *game;
} Charters;

/* How two charts differ in one field. */
typedef struct Difference {
    size_t both, differ;
    const Snap *first; /* where they do first */
} Difference;

static const Column *column_of(const Columns *columns, int field) {
    return &columns->columns[field];
}

static bool both_known(const Charters *charters, int field, size_t i) {
    int row = charters->second->match[i];
    return row >= 0 && column_of(&charters->second->columns, field)->state[i] == VALUE_KNOWN &&
           column_of(&charters->check->dossier->columns, field)->state[row] == VALUE_KNOWN;
}

static bool differs(const Charters *charters, int field, size_t i) {
    int row = charters->second->match[i];
    return both_known(charters, field, i) && column_of(&charters->second->columns, field)->number[i] !=
                                                 column_of(&charters->check->dossier->columns, field)->number[row];
}

/* The value as charted; of an exception that was left blank, the value that this means. */
static const char *value_words(const Charters *charters, const Snap *snap, int field, double number) {
    const Field *info = &charters->check->profile->fields[field];
    if (snap->texts[field]) return snap->texts[field];
    const FieldValue *value = field_value(info, (int)number);
    return value ? value->id : check_figure(charters->check, number, 2);
}

/* ---- how a play ended ---- */

static bool report_fact(const Charters *charters, int field, size_t i) {
    if (field < 0 || !differs(charters, field, i)) return false;
    const Check *check = charters->check;
    int row = charters->second->match[i];
    const Snap *ours = &check->dossier->snaps[row], *theirs = &charters->second->snaps[i];
    const char *id = check->profile->fields[field].id;
    double our_number = column_of(&check->dossier->columns, field)->number[row];
    double their_number = column_of(&charters->second->columns, field)->number[i];
    diag_report(check->diagnostics, RULE_CHART_DISAGREE, xml_tag_value_place(theirs->place, id),
                "figures are counted from the first chart of a game", "'%s' of %s: '%s' has %s, '%s' has %s", id,
                theirs->name, charters->game->by ? charters->game->by : "the first chart",
                value_words(charters, ours, field, our_number), charters->second->by,
                value_words(charters, theirs, field, their_number));
    diag_also(check->diagnostics, xml_tag_value_place(ours->place, id), "the first chart has it here");
    return true;
}

/* Of a snap whose result is disputed the gain is, too: that is told once. */
static void check_facts(const Charters *charters) {
    int result = profile_field(charters->check->profile, "result");
    int gain = profile_field(charters->check->profile, "gain");
    for (size_t i = 0; i < charters->second->count; i++) {
        if (!report_fact(charters, result, i)) report_fact(charters, gain, i);
    }
}

/* ---- everything else ---- */

static Difference difference_in(const Charters *charters, int field) {
    Difference difference = {0};
    for (size_t i = 0; i < charters->second->count; i++) {
        difference.both += both_known(charters, field, i);
        if (!differs(charters, field, i)) continue;
        if (difference.differ++ == 0) difference.first = &charters->second->snaps[i];
    }
    return difference;
}

/* Times are of each charter's own film, and words are each charter's own. */
static bool is_compared(const Field *field) {
    if (field->derived != DERIVED_NONE || field->type == FIELD_TEXT || field->type == FIELD_TIME) return false;
    return !text_equal(field->id, "result") && !text_equal(field->id, "gain");
}

static void check_field(const Charters *charters, int field) {
    Difference difference = difference_in(charters, field);
    if (!difference.differ) return;
    const Check *check = charters->check;
    const char *id = check->profile->fields[field].id;
    diag_report(check->diagnostics, RULE_CHART_DIFFER, xml_tag_value_place(difference.first->place, id), NULL,
                "'%s' of %s: '%s' differs on %zu of %zu snaps that both charted, first on %s", id, charters->game->id,
                charters->second->by, difference.differ, difference.both, difference.first->name);
}

static void check_unmatched(const Charters *charters) {
    const SecondChart *second = charters->second;
    const Snap *first = NULL;
    size_t count = 0;
    for (size_t i = 0; i < second->count; i++) {
        if (second->match[i] >= 0) continue;
        if (count++ == 0) first = &second->snaps[i];
    }
    if (!count) return;
    diag_report(charters->check->diagnostics, RULE_CHART_UNMATCHED, first->place,
                "snaps are matched by their number in the game",
                "%zu snap%s of %s that '%s' charted %s not in its first chart, first %s", count, count == 1 ? "" : "s",
                charters->game->id, second->by, count == 1 ? "is" : "are", first->name);
}

void check_charters(Check *check) {
    const Dossier *dossier = check->dossier;
    for (size_t i = 0; i < dossier->second_chart_count; i++) {
        const SecondChart *second = &dossier->second_charts[i];
        Charters charters = {check, second, &dossier->games[second->game]};
        check_facts(&charters);
        check_unmatched(&charters);
        for (size_t field = 0; field < check->profile->field_count; field++) {
            if (is_compared(&check->profile->fields[field])) check_field(&charters, (int)field);
        }
    }
}
