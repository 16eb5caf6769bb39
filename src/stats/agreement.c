#include "stats/agreement.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdlib.h>

#include "stats/kappa.h"

#define AGREEMENT_LEVEL 0.95 /* of the printed intervals */

/* ---- charts ---- */

/* Snaps that two people charted. */
typedef struct Matches {
    SnapDifference *items;
    size_t count;
} Matches;

static Matches match_snaps(Arena *arena, const Dossier *dossier) {
    size_t most = 0;
    for (size_t i = 0; i < dossier->second_chart_count; i++) most += dossier->second_charts[i].count;
    Matches matches = {ARENA_ARRAY(arena, most, SnapDifference), 0};
    for (size_t i = 0; i < dossier->second_chart_count; i++) {
        const SecondChart *chart = &dossier->second_charts[i];
        for (size_t snap = 0; snap < chart->count; snap++) {
            if (chart->match[snap] < 0) continue;
            matches.items[matches.count++] = (SnapDifference){chart->match[snap], (int)i, (int)snap};
        }
    }
    return matches;
}

/* Counts snaps and games once, however many have charted them. */
static void count_matches(Arena *arena, const Dossier *dossier, const Matches *matches, Agreement *agreement) {
    bool *snap_seen = ARENA_ARRAY(arena, dossier->snap_count, bool);
    bool *game_seen = ARENA_ARRAY(arena, dossier->game_count, bool);
    for (size_t i = 0; i < matches->count; i++) {
        int row = matches->items[i].row;
        bool *game = &game_seen[dossier->columns.game[row]];
        agreement->snaps += !snap_seen[row];
        agreement->games += !*game;
        snap_seen[row] = *game = true;
    }
}

static bool is_compared(const Field *field) {
    return field->derived == DERIVED_NONE && field->type != FIELD_TEXT && field->type != FIELD_TIME;
}

/* How many values a kappa would be over; 0: none is given. */
static size_t category_count(const Field *field) {
    if (field->value_count) return field->value_count <= AGREEMENT_MOST_CHOICES ? field->value_count : 0;
    bool whole = field->type == FIELD_NUMBER && field->step == 1 && field->low == floor(field->low);
    double steps = field->high - field->low + 1;
    return whole && steps <= AGREEMENT_MOST_STEPS ? (size_t)steps : 0;
}

static int category(const Field *field, double number) {
    if (!field->value_count) return (int)(number - field->low);
    for (size_t i = 0; i < field->value_count; i++) {
        if (field->values[i].word == (int)number) return (int)i;
    }
    return -1;
}

static bool is_ordered(const Field *field) {
    return field->type == FIELD_ORDERED || field->type == FIELD_NUMBER;
}

static bool both_know(const Column *first, const Column *second, const SnapDifference *match) {
    return first->state[match->row] == VALUE_KNOWN && second->state[match->second] == VALUE_KNOWN;
}

static void compare_snaps(Arena *arena, const Dossier *dossier, const Matches *matches, FieldAgreement *found) {
    const Column *first = &dossier->columns.columns[found->field];
    SnapDifference *differences = ARENA_ARRAY(arena, matches->count, SnapDifference);
    for (size_t i = 0; i < matches->count; i++) {
        const SnapDifference *match = &matches->items[i];
        const Column *second = &dossier->second_charts[match->chart].columns.columns[found->field];
        if (!both_know(first, second, match)) continue;
        bool equal = first->number[match->row] == second->number[match->second];
        if (!equal) differences[found->n - found->equal] = *match;
        found->n++;
        found->equal += equal;
    }
    found->differences = differences;
}

/* With its interval by the standard error, within what a kappa can be. Full agreement has no error and so no interval.
 */
static void put_kappa(FieldAgreement *found, Kappa kappa) {
    found->kappa = kappa.kappa;
    if (isnan(kappa.kappa) || found->equal == found->n) return;
    double spread = gsl_cdf_ugaussian_Qinv((1 - AGREEMENT_LEVEL) / 2) * kappa.error;
    found->low = fmax(kappa.kappa - spread, -1);
    found->high = fmin(kappa.kappa + spread, 1);
}

static void compare_by_chance(Arena *arena, const Dossier *dossier, const Matches *matches, FieldAgreement *found) {
    const Field *field = &dossier->profile->fields[found->field];
    const Column *first = &dossier->columns.columns[found->field];
    size_t values = category_count(field);
    found->kappa = found->low = found->high = NAN;
    if (!values) return;
    int *said = ARENA_ARRAY(arena, matches->count, int);
    int *also = ARENA_ARRAY(arena, matches->count, int);
    for (size_t i = 0; i < matches->count; i++) {
        const SnapDifference *match = &matches->items[i];
        const Column *second = &dossier->second_charts[match->chart].columns.columns[found->field];
        bool both = both_know(first, second, match);
        said[i] = both ? category(field, first->number[match->row]) : -1;
        also[i] = both ? category(field, second->number[match->second]) : -1;
    }
    double *table = ARENA_ARRAY(arena, values * values, double);
    kappa_tabulate(said, also, matches->count, values, table);
    found->weighted = is_ordered(field) && values > 2;
    const double *weights = kappa_weights(arena, values, found->weighted ? KAPPA_LINEAR : KAPPA_PLAIN);
    put_kappa(found, kappa_from_table(arena, table, weights, values));
}

static int by_value(const void *a, const void *b) {
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

static void find_median(Arena *arena, Agreement *agreement) {
    double *kappas = ARENA_ARRAY(arena, agreement->field_count, double);
    size_t count = 0;
    for (size_t i = 0; i < agreement->field_count; i++) {
        if (!isnan(agreement->fields[i].kappa)) kappas[count++] = agreement->fields[i].kappa;
    }
    qsort(kappas, count, sizeof *kappas, by_value);
    agreement->kappa_count = (int)count;
    agreement->median_kappa = count ? (kappas[(count - 1) / 2] + kappas[count / 2]) / 2 : NAN;
}

static void compare_charts(Arena *arena, const Dossier *dossier, Agreement *agreement) {
    const Profile *profile = dossier->profile;
    Matches matches = match_snaps(arena, dossier);
    agreement->median_kappa = NAN;
    if (!matches.count) return;
    FieldAgreement *fields = ARENA_ARRAY(arena, profile->field_count, FieldAgreement);
    for (size_t i = 0; i < profile->field_count; i++) {
        if (!is_compared(&profile->fields[i])) continue;
        FieldAgreement found = {.field = (int)i};
        compare_snaps(arena, dossier, &matches, &found);
        if (found.n < AGREEMENT_LEAST_SNAPS) continue;
        compare_by_chance(arena, dossier, &matches, &found);
        fields[agreement->field_count++] = found;
    }
    agreement->fields = fields;
    count_matches(arena, dossier, &matches, agreement);
    find_median(arena, agreement);
}

/* ---- grades ---- */

/* Who graded anything at all. */
static const Grades **graders_new(Arena *arena, const Dossier *dossier, int *count) {
    const Grades **graders = ARENA_ARRAY(arena, dossier->grades_count, const Grades *);
    *count = 0;
    for (size_t i = 0; i < dossier->grades_count; i++) {
        if (dossier->grades[i].count) graders[(*count)++] = &dossier->grades[i];
    }
    return graders;
}

static double grade_of(const Grades *grades, int trait) {
    for (size_t i = 0; i < grades->count; i++) {
        if (grades->grades[i].trait == trait) return grades->grades[i].value;
    }
    return NAN;
}

static void compare_grades(Arena *arena, const Dossier *dossier, Agreement *agreement) {
    const Grades **graders = graders_new(arena, dossier, &agreement->evaluators);
    size_t judges = (size_t)agreement->evaluators;
    double *ratings = ARENA_ARRAY(arena, dossier->profile->trait_count * judges, double);
    for (size_t trait = 0; trait < dossier->profile->trait_count; trait++) {
        double *row = &ratings[(size_t)agreement->traits * judges];
        bool complete = judges > 0;
        for (size_t i = 0; i < judges; i++) {
            row[i] = grade_of(graders[i], (int)trait);
            complete = complete && !isnan(row[i]);
        }
        agreement->traits += complete;
    }
    agreement->grades = icc_two_way(ratings, (size_t)agreement->traits, judges, AGREEMENT_LEVEL);
}

const Agreement *agreement_new(Arena *arena, const Dossier *dossier) {
    Agreement *agreement = ARENA_NEW(arena, Agreement);
    compare_charts(arena, dossier, agreement);
    compare_grades(arena, dossier, agreement);
    return dossier->second_chart_count || agreement->evaluators > 1 ? agreement : NULL;
}
