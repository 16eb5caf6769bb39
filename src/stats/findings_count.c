#include <stdlib.h>
#include <string.h>

#include "stats/estimate.h"
#include "stats/findings_parts.h"
#include "stats/jackknife.h"

/* All and every slice: estimates [measure * (slices + 1) + slice + 1]. */
static void count_slices(Arena *arena, Findings *findings) {
    const Survey *survey = findings->survey;
    const Profile *profile = findings->dossier->profile;
    Partition slices = {ARENA_ARRAY(arena, profile->slice_count + 1, Selection), profile->slice_count + 1};
    slices.groups[0] = survey->all;
    for (size_t i = 0; i < profile->slice_count; i++) slices.groups[i + 1] = survey->slices[i];
    findings->estimates = ARENA_ARRAY(arena, profile->measure_count * slices.count, Estimate);
    estimate_partition(arena, survey, &slices, findings->estimates, NULL);
    findings->totals = ARENA_ARRAY(arena, profile->total_count, double);
    estimate_totals(survey, &survey->all, findings->totals);
}

/* Estimates [measure * groups + group] of a few snaps each, all of them with an interval where one can be given. */
static Estimate *estimate_groups(Arena *arena, const Survey *survey, const Partition *partition, double *totals) {
    size_t measures = survey->dossier->profile->measure_count;
    Estimate *estimates = ARENA_ARRAY(arena, measures * partition->count, Estimate);
    estimate_partition(arena, survey, partition, estimates, totals);
    Arena *scratch = arena_new();
    for (size_t m = 0; m < measures; m++) {
        for (size_t g = 0; g < partition->count; g++) {
            Estimate *estimate = &estimates[m * partition->count + g];
            if (estimate->kind == MEASURE_RATE) continue;
            Interval interval = jackknife_interval(scratch, survey, (int)m, &partition->groups[g], estimate);
            estimate->low = interval.low;
            estimate->high = interval.high;
        }
    }
    arena_free(scratch);
    return estimates;
}

/* Group of each counted row by `group_of` its game. */
static Partition by_game(Arena *arena, const Dossier *dossier, const int *group_of, size_t groups) {
    const Columns *columns = &dossier->columns;
    int *group = ARENA_ARRAY(arena, columns->rows, int);
    for (size_t row = 0; row < columns->rows; row++) {
        group[row] = columns->counted[row] ? group_of[columns->game[row]] : PARTITION_NONE;
    }
    return partition_new(arena, group, columns->rows, groups);
}

static void count_games(Arena *arena, Findings *findings) {
    const Dossier *dossier = findings->dossier;
    int *group_of = ARENA_ARRAY(arena, dossier->game_count, int);
    for (size_t i = 0; i < dossier->game_count; i++) group_of[i] = (int)i;
    Partition games = by_game(arena, dossier, group_of, dossier->game_count);
    findings->game_totals = ARENA_ARRAY(arena, dossier->profile->total_count * games.count, double);
    findings->game_estimates = estimate_groups(arena, findings->survey, &games, findings->game_totals);
}

typedef struct Meeting {
    const char *opponent;
    size_t game;
} Meeting;

static int by_opponent(const void *left, const void *right) {
    const Meeting *a = left;
    const Meeting *b = right;
    int order = strcmp(a->opponent, b->opponent);
    return order ? order : (a->game > b->game) - (a->game < b->game);
}

/* Stores in `first` the first game against each game's opponent. */
static void first_meetings(Arena *arena, const Dossier *dossier, size_t *first) {
    Meeting *meetings = ARENA_ARRAY(arena, dossier->game_count, Meeting);
    for (size_t i = 0; i < dossier->game_count; i++) {
        const char *opponent = dossier->games[i].opponent;
        meetings[i] = (Meeting){opponent ? opponent : "", i};
    }
    qsort(meetings, dossier->game_count, sizeof *meetings, by_opponent);
    for (size_t i = 0; i < dossier->game_count; i++) {
        bool again = i && strcmp(meetings[i - 1].opponent, meetings[i].opponent) == 0;
        first[meetings[i].game] = again ? first[meetings[i - 1].game] : meetings[i].game;
    }
}

static void count_opponents(Arena *arena, Findings *findings) {
    const Dossier *dossier = findings->dossier;
    size_t *first = ARENA_ARRAY(arena, dossier->game_count, size_t);
    int *group_of = ARENA_ARRAY(arena, dossier->game_count, int);
    findings->opponents = ARENA_ARRAY(arena, dossier->game_count, const char *);
    first_meetings(arena, dossier, first);
    for (size_t i = 0; i < dossier->game_count; i++) {
        bool new = first[i] == i;
        group_of[i] = new ? (int)findings->opponent_count : group_of[first[i]];
        if (new) findings->opponents[findings->opponent_count++] = dossier->games[i].opponent;
    }
    Partition opponents = by_game(arena, dossier, group_of, findings->opponent_count);
    findings->opponent_estimates = estimate_groups(arena, findings->survey, &opponents, NULL);
}

void findings_count(Arena *arena, Findings *findings) {
    const Columns *columns = &findings->dossier->columns;
    findings->snaps = (int)columns->rows;
    for (size_t row = 0; row < columns->rows; row++) findings->counted += columns->counted[row];
    count_slices(arena, findings);
    count_games(arena, findings);
    count_opponents(arena, findings);
}
