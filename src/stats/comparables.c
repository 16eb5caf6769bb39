/* Nearest comparables: the players of a scale's rows that are built and test most like this one. */
#include <math.h>
#include <string.h>

#include "stats/findings_parts.h"
#include "stats/mahalanobis.h"

/* Whether `a` says more of its kind than `b`, which stands before it in the file. */
static bool says_more(const Measurable *a, const Measurable *b) {
    if (a->verified != b->verified) return a->verified;
    if (a->hand_timed != b->hand_timed) return b->hand_timed;
    return a->on && (!b->on || strcmp(a->on, b->on) > 0);
}

const Measurable *findings_measurable(const Findings *findings, const char *kind) {
    const Measurable *found = NULL;
    for (size_t i = 0; i < findings->dossier->measurable_count; i++) {
        const Measurable *measurable = &findings->dossier->measurables[i];
        if (strcmp(measurable->id, kind) == 0 && (!found || says_more(measurable, found))) found = measurable;
    }
    return found;
}

static void use_measured(Arena *arena, const Findings *findings, ComparableFinding *finding) {
    const ScaleRows *rows = &findings->scale->rows;
    finding->used = ARENA_ARRAY(arena, rows->kind_count, const Measurable *);
    finding->left_out = ARENA_ARRAY(arena, rows->kind_count, const Measurable *);
    finding->columns = ARENA_ARRAY(arena, rows->kind_count, size_t);
    for (size_t kind = 0; kind < rows->kind_count; kind++) {
        const Measurable *measurable = findings_measurable(findings, rows->kinds[kind]);
        if (!measurable) continue;
        finding->columns[finding->kind_count] = kind;
        finding->used[finding->kind_count++] = measurable;
    }
}

/* Rows that have every kind in use but the one at `without`, which may be none of them. */
static size_t complete_rows(const ScaleRows *rows, const ComparableFinding *finding, size_t without) {
    size_t complete = 0;
    for (size_t row = 0; row < rows->count; row++) {
        bool whole = true;
        for (size_t kind = 0; whole && kind < finding->kind_count; kind++) {
            whole = kind == without || !isnan(rows->columns[finding->columns[kind]][row]);
        }
        complete += whole;
    }
    return complete;
}

static void leave_out(ComparableFinding *finding, size_t at) {
    finding->left_out[finding->left_out_count++] = finding->used[at];
    finding->kind_count--;
    for (size_t kind = at; kind < finding->kind_count; kind++) {
        finding->used[kind] = finding->used[kind + 1];
        finding->columns[kind] = finding->columns[kind + 1];
    }
}

/* Leaves out kinds, each time the one that costs the most rows, until enough rows are complete. */
static void find_complete(const ScaleRows *rows, ComparableFinding *finding) {
    finding->complete = complete_rows(rows, finding, finding->kind_count);
    while (finding->complete < COMPARABLES_FEWEST_ROWS && finding->kind_count > COMPARABLES_FEWEST_KINDS) {
        size_t worst = 0;
        size_t most = 0;
        for (size_t kind = 0; kind < finding->kind_count; kind++) {
            size_t complete = complete_rows(rows, finding, kind);
            if (complete <= most) continue;
            most = complete;
            worst = kind;
        }
        leave_out(finding, worst);
        finding->complete = most;
    }
}

static void find_nearest(Arena *arena, const ScaleRows *rows, ComparableFinding *finding) {
    size_t kinds = finding->kind_count;
    double *population = ARENA_ARRAY(arena, rows->count * kinds, double);
    double *distance = ARENA_ARRAY(arena, rows->count, double);
    double *player = ARENA_ARRAY(arena, kinds, double);
    for (size_t kind = 0; kind < kinds; kind++) {
        const double *column = rows->columns[finding->columns[kind]];
        player[kind] = finding->used[kind]->value;
        for (size_t row = 0; row < rows->count; row++) population[row * kinds + kind] = column[row];
    }
    mahalanobis(arena, population, rows->count, kinds, player, distance);
    size_t nearest[COMPARABLES_MOST];
    finding->count = mahalanobis_nearest(arena, distance, rows->count, COMPARABLES_MOST, nearest);
    for (size_t i = 0; i < finding->count; i++) {
        size_t row = nearest[i];
        finding->nearest[i] = (Comparable){row, rows->ids[row], rows->labels[row], distance[row]};
    }
}

void findings_compare(Arena *arena, Findings *findings) {
    ComparableFinding *finding = &findings->comparables;
    if (!findings->scale || !findings->scale->rows.count) return;
    use_measured(arena, findings, finding);
    if (finding->kind_count < COMPARABLES_FEWEST_KINDS) return;
    find_complete(&findings->scale->rows, finding);
    if (finding->complete >= COMPARABLES_FEWEST_ROWS) find_nearest(arena, &findings->scale->rows, finding);
}
