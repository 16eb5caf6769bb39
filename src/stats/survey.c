#include "stats/survey.h"

#include "source/expr.h"

/* One evaluation at a time: the bytes of the row in hand. */
typedef struct Bench {
    Arena *arena;
    const Columns *columns;
    size_t rows;
    const RowWord *counted;
    uint8_t *truth;
    double *number;
    uint8_t *state;
} Bench;

typedef struct TruthSets {
    RowWord *yes, *unknown; /* counted rows only */
} TruthSets;

static void keep(RowWord *set, const RowWord *only, size_t words) {
    for (size_t i = 0; i < words; i++) set[i] &= only[i];
}

/* Counted rows where `where` is true or unknown; NULL holds everywhere. */
static TruthSets truth_sets(const Bench *bench, const Expr *where) {
    size_t words = rowset_words(bench->rows);
    TruthSets sets = {rowset_new(bench->arena, bench->rows), rowset_new(bench->arena, bench->rows)};
    if (!where) {
        for (size_t i = 0; i < words; i++) sets.yes[i] = bench->counted[i];
        return sets;
    }
    expr_select(where, bench->columns, 0, bench->rows, bench->truth);
    sets.yes = rowset_where(bench->arena, bench->truth, bench->rows, TRUTH_TRUE);
    sets.unknown = rowset_where(bench->arena, bench->truth, bench->rows, TRUTH_UNKNOWN);
    keep(sets.yes, bench->counted, words);
    keep(sets.unknown, bench->counted, words);
    return sets;
}

/* Narrows `sets->yes` to the rows whose number is known and returns the numbers, 0 elsewhere. Rows that should have one
 * and were not charted go to `sets->unknown`; not applicable rows leave both. */
static double *number_sets(const Bench *bench, const Expr *number, TruthSets *sets) {
    size_t words = rowset_words(bench->rows);
    double *kept = ARENA_ARRAY(bench->arena, bench->rows, double);
    expr_values(number, bench->columns, 0, bench->rows, bench->number, bench->state);
    const RowWord *known = rowset_where(bench->arena, bench->state, bench->rows, VALUE_KNOWN);
    const RowWord *missing = rowset_where(bench->arena, bench->state, bench->rows, VALUE_UNKNOWN);
    for (size_t i = 0; i < words; i++) {
        sets->unknown[i] = (sets->yes[i] & missing[i]) | (sets->unknown[i] & (known[i] | missing[i]));
        sets->yes[i] &= known[i];
    }
    for (size_t row = 0; row < bench->rows; row++) {
        if (sets->yes[row / ROWSET_BITS] >> (row % ROWSET_BITS) & 1) kept[row] = bench->number[row];
    }
    return kept;
}

static TotalRows total_rows(const Bench *bench, const Total *total) {
    TruthSets sets = truth_sets(bench, total->where);
    const double *value = total->sum ? number_sets(bench, total->sum, &sets) : NULL;
    return (TotalRows){sets.yes, sets.unknown, value};
}

static MeasureRows rate_rows(const Bench *bench, const Measure *measure) {
    TruthSets of = truth_sets(bench, measure->of);
    TruthSets where = truth_sets(bench, measure->where);
    size_t words = rowset_words(bench->rows);
    RowWord *answered = rowset_new(bench->arena, bench->rows);
    for (size_t i = 0; i < words; i++) {
        answered[i] = of.yes[i] & ~where.unknown[i];
        of.unknown[i] |= of.yes[i] & where.unknown[i];
        where.yes[i] &= answered[i];
    }
    return (MeasureRows){.yes = where.yes, .answered = answered, .unknown = of.unknown};
}

static MeasureRows mean_rows(const Bench *bench, const Measure *measure) {
    TruthSets of = truth_sets(bench, measure->of);
    const double *x = number_sets(bench, measure->x, &of);
    return (MeasureRows){.answered = of.yes, .unknown = of.unknown, .x = x};
}

static uint64_t totals_used(const Measure *measure) {
    uint64_t used = 0;
    for (size_t i = 0; i < measure->part_count; i++) used |= expr_totals(measure->parts[i].expr);
    if (measure->over >= 0 && measure->kind == MEASURE_RATIO) used |= (uint64_t)1 << measure->over;
    if (measure->under >= 0) used |= (uint64_t)1 << measure->under;
    return used;
}

static MeasureRows total_measure_rows(const Bench *bench, const Measure *measure, const TotalRows *totals) {
    size_t words = rowset_words(bench->rows);
    RowWord *answered = rowset_new(bench->arena, bench->rows);
    RowWord *unknown = rowset_new(bench->arena, bench->rows);
    uint64_t used = totals_used(measure);
    for (uint64_t left = used; left; left &= left - 1) {
        const TotalRows *total = &totals[__builtin_ctzll(left)];
        for (size_t i = 0; i < words; i++) {
            answered[i] |= total->in[i];
            unknown[i] |= total->unknown[i];
        }
    }
    return (MeasureRows){.answered = answered, .unknown = unknown, .totals = used};
}

static MeasureRows measure_rows(const Bench *bench, const Measure *measure, const TotalRows *totals) {
    switch (measure->kind) {
    case MEASURE_RATE:
        return rate_rows(bench, measure);
    case MEASURE_MEAN:
        return mean_rows(bench, measure);
    case MEASURE_RATIO:
    case MEASURE_FORMULA:
        break;
    }
    return total_measure_rows(bench, measure, totals);
}

static Bench bench_new(Arena *arena, const Dossier *dossier) {
    size_t rows = dossier->columns.rows;
    return (Bench){
        .arena = arena,
        .columns = &dossier->columns,
        .rows = rows,
        .counted = rowset_where(arena, dossier->columns.counted, rows, 1),
        .truth = ARENA_ARRAY(arena, rows, uint8_t),
        .number = ARENA_ARRAY(arena, rows, double),
        .state = ARENA_ARRAY(arena, rows, uint8_t),
    };
}

static Selection select_where(const Bench *bench, const Expr *where) {
    TruthSets sets = truth_sets(bench, where);
    return selection_new(bench->arena, bench->rows, sets.yes, sets.unknown);
}

const Survey *survey_new(Arena *arena, const Dossier *dossier) {
    const Profile *profile = dossier->profile;
    Bench bench = bench_new(arena, dossier);
    Survey *survey = ARENA_NEW(arena, Survey);
    survey->dossier = dossier;
    survey->rows = bench.rows;
    survey->all = selection_new(arena, bench.rows, bench.counted, NULL);
    survey->slices = ARENA_ARRAY(arena, profile->slice_count, Selection);
    survey->totals = ARENA_ARRAY(arena, profile->total_count, TotalRows);
    survey->measures = ARENA_ARRAY(arena, profile->measure_count, MeasureRows);
    for (size_t i = 0; i < profile->slice_count; i++) {
        survey->slices[i] = select_where(&bench, profile->slices[i].where);
    }
    for (size_t i = 0; i < profile->total_count; i++) {
        survey->totals[i] = total_rows(&bench, &profile->totals[i]);
    }
    for (size_t i = 0; i < profile->measure_count; i++) {
        survey->measures[i] = measure_rows(&bench, &profile->measures[i], survey->totals);
    }
    return survey;
}

Selection survey_select(Arena *arena, const Survey *survey, const Expr *where) {
    Bench bench = bench_new(arena, survey->dossier);
    return select_where(&bench, where);
}
