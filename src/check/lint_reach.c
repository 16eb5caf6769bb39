/* What no snap can satisfy: asked of snaps made up at random. A selection that holds for one of them is sound; one that
 * holds for none of so many is told of, and may in rare cases only be hard to meet. */
#include "check/lint_parts.h"
#include "source/sample.h"

enum { ROUND_SNAPS = 8192, MOST_ROUNDS = 8 };

#define ASKED "65,536" /* ROUND_SNAPS * MOST_ROUNDS */

/* One thing that must be possible: `of`, and `where` within it. Either may be NULL: every snap. */
typedef struct Quest {
    const Expr *of, *where;
    Place place;
    const char *what, *id, *cannot; /* "slice", "man", "no snap can be in it" */
    bool any_snap;                  /* asked of snaps too that do not count */
    bool met;
} Quest;

typedef struct Quests {
    const Lint *lint;
    Quest *items;
    size_t count;
    uint8_t *truth, *other; /* scratch, a round of each */
} Quests;

static void ask(Quests *quests, Quest quest) {
    if (lint_tells(quests->lint, quest.place)) quests->items[quests->count++] = quest;
}

static void ask_fields(Quests *quests, const Profile *profile) {
    for (size_t i = 0; i < profile->field_count; i++) {
        const Field *field = &profile->fields[i];
        Quest quest = {.where = field->when, .place = field->place, .what = "field", .id = field->id, .any_snap = true};
        quest.cannot = "it can never apply";
        if (field->when) ask(quests, quest);
    }
}

static void ask_slices(Quests *quests, const Profile *profile) {
    for (size_t i = 0; i < profile->slice_count; i++) {
        const Slice *slice = &profile->slices[i];
        Quest quest = {.where = slice->where, .place = slice->place, .what = "slice", .id = slice->id};
        quest.cannot = "no snap can be in it";
        ask(quests, quest);
    }
}

static void ask_totals(Quests *quests, const Profile *profile) {
    for (size_t i = 0; i < profile->total_count; i++) {
        const Total *total = &profile->totals[i];
        Quest quest = {.where = total->where, .place = total->place, .what = "total", .id = total->id};
        quest.cannot = "no snap can add to it";
        ask(quests, quest);
    }
}

static void ask_measures(Quests *quests, const Profile *profile) {
    for (size_t i = 0; i < profile->measure_count; i++) {
        const Measure *measure = &profile->measures[i];
        Quest quest = {.of = measure->of, .place = measure->place, .what = "measure", .id = measure->id};
        quest.cannot = "no snap can answer it";
        ask(quests, quest);
        quest.where = measure->where;
        quest.cannot = "it can never be more than 0";
        if (measure->kind == MEASURE_RATE) ask(quests, quest);
    }
}

static void ask_traits(Quests *quests, const Profile *profile) {
    for (size_t i = 0; i < profile->trait_count; i++) {
        const Trait *trait = &profile->traits[i];
        Quest quest = {.where = trait->seen, .place = trait->place, .what = "trait", .id = trait->id};
        quest.cannot = "no snap can show it";
        if (trait->seen) ask(quests, quest);
    }
}

static void select_all(const Expr *expr, const Columns *snaps, uint8_t *truth) {
    if (expr) expr_select(expr, snaps, 0, snaps->rows, truth);
    for (size_t row = 0; !expr && row < snaps->rows; row++) truth[row] = TRUTH_TRUE;
}

static bool is_met(const Quests *quests, const Quest *quest, const Columns *snaps) {
    select_all(quest->of, snaps, quests->truth);
    select_all(quest->where, snaps, quests->other);
    for (size_t row = 0; row < snaps->rows; row++) {
        bool counts = quest->any_snap || snaps->counted[row];
        if (counts && quests->truth[row] == TRUTH_TRUE && quests->other[row] == TRUTH_TRUE) return true;
    }
    return false;
}

/* How many are still to be met after one more round. */
static size_t try_round(Quests *quests, uint64_t round) {
    Arena *arena = arena_new();
    const Columns *snaps = sample_snaps(arena, quests->lint->profile, ROUND_SNAPS, round);
    size_t left = 0;
    for (size_t i = 0; i < quests->count; i++) {
        Quest *quest = &quests->items[i];
        if (!quest->met) quest->met = is_met(quests, quest, snaps);
        left += !quest->met;
    }
    arena_free(arena);
    return left;
}

/* A measure that cannot be answered is told of once. */
static bool is_told(const Quests *quests, size_t index) {
    return index && !quests->items[index - 1].met && quests->items[index - 1].id == quests->items[index].id;
}

static void tell(const Quests *quests, const Quest *quest) {
    diag_report(quests->lint->diagnostics, RULE_PROFILE_EMPTY, quest->place,
                "of " ASKED " snaps made up within the fields' values, and only where fields apply, none does",
                "%s '%s': %s", quest->what, quest->id, quest->cannot);
}

void lint_reach(const Lint *lint) {
    static void (*const asks[])(Quests * quests, const Profile *profile) = {ask_fields, ask_slices, ask_totals,
                                                                            ask_measures, ask_traits};
    const Profile *profile = lint->profile;
    Quests quests = {.lint = lint};
    size_t most = profile->field_count + profile->slice_count + profile->total_count + 2 * profile->measure_count +
                  profile->trait_count;
    quests.items = ARENA_ARRAY(lint->arena, most, Quest);
    quests.truth = ARENA_ARRAY(lint->arena, ROUND_SNAPS, uint8_t);
    quests.other = ARENA_ARRAY(lint->arena, ROUND_SNAPS, uint8_t);
    for (size_t i = 0; i < sizeof asks / sizeof *asks; i++) asks[i](&quests, profile);
    for (uint64_t round = 0; round < MOST_ROUNDS && try_round(&quests, round); round++) continue;
    for (size_t i = 0; i < quests.count; i++) {
        if (!quests.items[i].met && !is_told(&quests, i)) tell(&quests, &quests.items[i]);
    }
}

/* ---- slices that share no snap ---- */

static bool shares_any(const Columns *snaps, const uint8_t *a, const uint8_t *b) {
    for (size_t row = 0; row < snaps->rows; row++) {
        if (snaps->counted[row] && a[row] == TRUTH_TRUE && b[row] == TRUTH_TRUE) return true;
    }
    return false;
}

bool lint_shared(const Lint *lint, const int *slices, size_t count, int *first, int *second) {
    const Columns *snaps = sample_snaps(lint->arena, lint->profile, ROUND_SNAPS, 0);
    uint8_t *truths = ARENA_ARRAY(lint->arena, count * ROUND_SNAPS, uint8_t);
    for (size_t i = 0; i < count; i++) {
        uint8_t *truth = truths + i * ROUND_SNAPS;
        expr_select(lint->profile->slices[slices[i]].where, snaps, 0, ROUND_SNAPS, truth);
        for (size_t k = 0; k < i; k++) {
            if (!shares_any(snaps, truths + k * ROUND_SNAPS, truth)) continue;
            *first = slices[k];
            *second = slices[i];
            return true;
        }
    }
    return false;
}
