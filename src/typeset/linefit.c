#include "typeset/linefit.h"

#include <math.h>
#include <stdlib.h>

/* Demerits are those of Knuth and Plass (their section "Badness, penalties and demerits") with the values of plain TeX
 * for two hyphens running, a hyphen before the last line, and neighbours of very different white. */
static const double line_cost = 10;
static const double hyphens_running = 10000;
static const double hyphen_before_last = 5000;
static const double fitness_apart = 10000;
static const double last_too_short = 10000;
static const double worst_badness = 1e6;   /* of a line with next to no white to stretch */
static const double overfull_point = 1e15; /* each point that a forced line is too long; outweighs any badness */
static const double width_slack = 1e-6;    /* points; sums of widths are not exact */
static const double never = 1e300;

typedef struct FitNode {
    double demerits; /* of the paragraph up to here */
    uint32_t at;     /* break */
    uint32_t from;   /* node of the line before */
    uint32_t line;   /* lines up to here */
    int fitness;
} FitNode;

/* The best way to each class of fitness at the break under way. */
typedef struct FitBest {
    double demerits[FIT_CLASSES];
    uint32_t from[FIT_CLASSES];
    double overfull; /* least demerits of a forced line that is too long */
    uint32_t overfull_from;
} FitBest;

static double natural_width(const FitBreak *from, const FitBreak *to) {
    return to->end - from->start - to->hang_end - from->hang_start;
}

static int fitness_of(double ratio) {
    return ratio < -.5 ? 0 : ratio <= .5 ? 1 : ratio <= 1 ? 2 : 3;
}

/* How much white there is to set per point that can be; an end without any is only met by a line of the very width. */
static double ratio_of(double spare, double stretch, double shrink) {
    double give = spare < 0 ? shrink : stretch;
    if (fabs(spare) <= width_slack) return 0;
    if (give <= 0) return spare < 0 ? -never : never;
    return spare / give;
}

static double short_last_cost(const FitMeasure *measure, double natural) {
    if (natural >= measure->short_last) return 0;
    return last_too_short * (1 - natural / measure->short_last);
}

static bool ragged_line(const FitMeasure *measure, const FitBreak *to, double natural, bool last, FitLine *line) {
    double spare = measure->width - natural;
    if (spare < -width_slack) return false;
    double cost = last ? 0 : spare * spare + to->penalty * to->penalty;
    *line = (FitLine){0, line_cost * line_cost + cost + (last ? short_last_cost(measure, natural) : 0), FIT_FIRST};
    return true;
}

bool linefit_line(const FitMeasure *measure, const FitBreak *from, const FitBreak *to, bool last, FitLine *line) {
    double natural = natural_width(from, to);
    if (measure->ragged) return ragged_line(measure, to, natural, last, line);
    double stretch = to->end_stretch - from->start_stretch + measure->emergency;
    double ratio = ratio_of(measure->width - natural, stretch, to->end_shrink - from->start_shrink);
    if (last && ratio > 0) ratio = 0;
    if (ratio < -1 - width_slack || ratio > measure->tolerance) return false;
    double bad = line_cost + fmin(worst_badness, 100 * fabs(ratio) * ratio * ratio);
    *line = (FitLine){ratio, bad * bad + to->penalty * to->penalty, fitness_of(ratio)};
    if (last) line->demerits += short_last_cost(measure, natural);
    return true;
}

double linefit_join(const FitBreak *from, int before, const FitBreak *to, const FitLine *line, bool last) {
    double demerits = abs(before - line->fitness) > 1 ? fitness_apart : 0;
    if (from->flagged && to->flagged) demerits += hyphens_running;
    if (from->flagged && last) demerits += hyphen_before_last;
    return demerits;
}

/* No later break can end a line from here. */
static bool is_passed(const FitMeasure *measure, const FitBreak *from, const FitBreak *to) {
    double shrink = measure->ragged ? 0 : to->end_shrink - from->start_shrink;
    return natural_width(from, to) - shrink > measure->width + measure->margin;
}

static void consider(const FitMeasure *measure, const FitBreak *breaks, const FitNode *nodes, uint32_t node, size_t to,
                     bool last, FitBest *best) {
    const FitNode *before = &nodes[node];
    const FitBreak *from = &breaks[before->at];
    FitLine line;
    if (!linefit_line(measure, from, &breaks[to], last, &line)) {
        double excess = natural_width(from, &breaks[to]) - measure->width;
        if (excess > 0 && before->demerits + excess * overfull_point < best->overfull) {
            best->overfull = before->demerits + excess * overfull_point;
            best->overfull_from = node;
        }
        return;
    }
    double demerits = before->demerits + line.demerits + linefit_join(from, before->fitness, &breaks[to], &line, last);
    if (demerits < best->demerits[line.fitness]) {
        best->demerits[line.fitness] = demerits;
        best->from[line.fitness] = node;
    }
}

static FitBest no_best(void) {
    FitBest best = {.overfull = never};
    for (int i = 0; i < FIT_CLASSES; i++) best.demerits[i] = never;
    return best;
}

/* Adds the nodes found at break `to`; returns how many. */
static size_t add_nodes(FitScratch *scratch, const FitBest *best, size_t to, size_t *node_count, size_t active) {
    size_t added = 0;
    for (int i = 0; i < FIT_CLASSES; i++) {
        if (best->demerits[i] >= never) continue;
        uint32_t line = scratch->nodes[best->from[i]].line + 1;
        scratch->nodes[*node_count] = (FitNode){best->demerits[i], (uint32_t)to, best->from[i], line, i};
        scratch->active[active + added++] = (uint32_t)(*node_count)++;
    }
    return added;
}

/* Each break makes at most one node a class, and at most all of them are active. */
static void make_room(Arena *arena, FitScratch *scratch, size_t count) {
    if (scratch->room >= count) return;
    scratch->room = count * 2;
    scratch->nodes = ARENA_ARRAY(arena, scratch->room * FIT_CLASSES, FitNode);
    scratch->active = ARENA_ARRAY(arena, scratch->room * FIT_CLASSES, uint32_t);
}

static size_t trace(const FitScratch *scratch, size_t first, size_t end, uint32_t *path, double *demerits) {
    const FitNode *best = NULL;
    for (size_t i = first; i < end; i++) {
        const FitNode *node = &scratch->nodes[scratch->active[i]];
        if (!best || node->demerits < best->demerits) best = node;
    }
    if (!best) return 0;
    if (demerits) *demerits = best->demerits;
    for (const FitNode *node = best; node->line; node = &scratch->nodes[node->from]) path[node->line - 1] = node->at;
    return best->line;
}

size_t linefit(Arena *arena, FitScratch *scratch, const FitMeasure *measure, const FitBreak *breaks, size_t count,
               uint32_t *path, double *demerits) {
    if (count < 2) return 0;
    make_room(arena, scratch, count);
    scratch->nodes[0] = (FitNode){.fitness = FIT_FIRST};
    scratch->active[0] = 0;
    size_t nodes = 1;
    size_t active = 1;
    for (size_t to = 1; to < count; to++) {
        bool last = to == count - 1;
        size_t kept = 0;
        FitBest best = no_best();
        for (size_t i = 0; i < active; i++) {
            uint32_t node = scratch->active[i];
            consider(measure, breaks, scratch->nodes, node, to, last, &best);
            if (!is_passed(measure, &breaks[scratch->nodes[node].at], &breaks[to])) scratch->active[kept++] = node;
        }
        size_t added = add_nodes(scratch, &best, to, &nodes, kept);
        if (!added && measure->force && (!kept || last) && best.overfull < never) {
            best.demerits[FIT_FIRST] = best.overfull;
            best.from[FIT_FIRST] = best.overfull_from;
            added = add_nodes(scratch, &best, to, &nodes, kept);
        }
        if (last) return trace(scratch, kept, kept + added, path, demerits);
        active = kept + added;
        if (!active) return 0;
    }
    return 0;
}
