/* Two charters of one game: snaps are matched by number (the reader's work), and what both charted is compared. How a
 * play ended is a matter of fact; of everything else it is told how often the two part. */
#include <stdlib.h>

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
    const Field *field;
    size_t both, differ;
} Difference;

enum { FIELDS_NAMED = 4 }; /* in one note */

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

static const char *first_charter(const Charters *charters) {
    const char *by = charters->game->by;
    return by ? arena_printf(charters->check->arena, "'%s'", by) : "the first chart";
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
                "figures are counted from the first chart of a game", "'%s' of %s: %s has %s, '%s' has %s", id,
                theirs->name, first_charter(charters), value_words(charters, ours, field, our_number),
                charters->second->by, value_words(charters, theirs, field, their_number));
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
    Difference difference = {.field = &charters->check->profile->fields[field]};
    for (size_t i = 0; i < charters->second->count; i++) {
        difference.both += both_known(charters, field, i);
        difference.differ += differs(charters, field, i);
    }
    return difference;
}

/* The greatest share first; then in the profile's order. */
static int by_share(const void *left, const void *right) {
    const Difference *a = left, *b = right;
    double first = (double)a->differ / (double)a->both, second = (double)b->differ / (double)b->both;
    if (first != second) return first > second ? -1 : 1;
    return (a->field > b->field) - (a->field < b->field);
}

/* Times are of each charter's own film, and words are each charter's own. */
static bool is_compared(const Field *field) {
    if (field->derived != DERIVED_NONE || field->type == FIELD_TEXT || field->type == FIELD_TIME) return false;
    return !text_equal(field->id, "result") && !text_equal(field->id, "gain");
}

/* "'window' (7 of 28), 'coverage' (7 of 31) and 24 more" */
static const char *list_fields(const Check *check, const Difference *differences, size_t count) {
    Buf text = {0};
    size_t named = count < FIELDS_NAMED ? count : FIELDS_NAMED;
    for (size_t i = 0; i < named; i++) {
        const Difference *difference = &differences[i];
        const char *before = i == 0 ? "" : i + 1 == count ? " and " : ", ";
        buf_printf(&text, "%s'%s' (%zu of %zu)", before, difference->field->id, difference->differ, difference->both);
    }
    if (count > named) buf_printf(&text, " and %zu more", count - named);
    const char *words = arena_string(check->arena, buf_text(&text));
    buf_free(&text);
    return words;
}

static void check_fields(const Charters *charters) {
    const Check *check = charters->check;
    const Profile *profile = check->profile;
    Difference *differences = ARENA_ARRAY(check->arena, profile->field_count, Difference);
    size_t count = 0;
    for (size_t field = 0; field < profile->field_count; field++) {
        if (!is_compared(&profile->fields[field])) continue;
        Difference difference = difference_in(charters, (int)field);
        if (difference.differ) differences[count++] = difference;
    }
    if (!count) return;
    qsort(differences, count, sizeof *differences, by_share);
    diag_report(check->diagnostics, RULE_CHART_DIFFER, charters->second->place, NULL,
                "on snaps of %s that both charted, '%s' differs from %s in %s", charters->game->id,
                charters->second->by, first_charter(charters), list_fields(check, differences, count));
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
        for (size_t row = 0; row < second->count; row++) check->checked.matched += second->match[row] >= 0;
        check_facts(&charters);
        check_unmatched(&charters);
        check_fields(&charters);
    }
}
