#include "source/sample.h"

#include <math.h>
#include <string.h>

#include "source/derive.h"

enum { MOST_STEPS = 1000000000, OPEN_END = 100, MOST_FILM_SECONDS = 3 * 3600, MOST_SPOT = 99 };

typedef struct Sampler {
    Arena *arena;
    const Profile *profile;
    Columns *columns;
    uint8_t *truth;
    uint64_t seed;
    double *named; /* numbers of the profile's expressions */
    size_t named_count;
} Sampler;

/* SplitMix64: Steele, Lea and Flood 2014, OOPSLA, 453-472. */
static uint64_t draw(Sampler *sampler) {
    uint64_t z = sampler->seed += 0x9e3779b97f4a7c15;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9;
    z = (z ^ (z >> 27)) * 0x94d049bb133111eb;
    return z ^ (z >> 31);
}

static size_t draw_below(Sampler *sampler, size_t bound) {
    return (size_t)(draw(sampler) % bound);
}

/* ---- numbers that matter ---- */

static void add_named(Sampler *sampler, const Expr *expr) {
    if (!expr) return;
    sampler->named_count += expr_numbers(expr, sampler->named ? sampler->named + sampler->named_count : NULL);
}

static void add_all_named(Sampler *sampler) {
    const Profile *profile = sampler->profile;
    for (size_t i = 0; i < profile->field_count; i++) {
        add_named(sampler, profile->fields[i].when);
        add_named(sampler, profile->fields[i].expr);
    }
    for (size_t i = 0; i < profile->slice_count; i++) add_named(sampler, profile->slices[i].where);
    for (size_t i = 0; i < profile->total_count; i++) add_named(sampler, profile->totals[i].where);
    for (size_t i = 0; i < profile->measure_count; i++) {
        add_named(sampler, profile->measures[i].of);
        add_named(sampler, profile->measures[i].where);
    }
    for (size_t i = 0; i < profile->trait_count; i++) add_named(sampler, profile->traits[i].seen);
    add_named(sampler, profile->counted);
}

/* Once to count them, once to keep them. */
static void list_named(Sampler *sampler) {
    add_all_named(sampler);
    sampler->named = ARENA_ARRAY(sampler->arena, sampler->named_count, double);
    sampler->named_count = 0;
    add_all_named(sampler);
}

enum { NEAREST = -1, FARTHEST = 2 }; /* steps from just under a number */

/* What a field with this range can take near them. */
static size_t list_near(const Sampler *sampler, double low, double high, double step, double *near) {
    size_t count = 0;
    for (size_t i = 0; i < sampler->named_count; i++) {
        for (int k = NEAREST; k <= FARTHEST; k++) {
            double number = (floor(sampler->named[i] / step) + k) * step;
            if (number >= low && number <= high) near[count++] = number;
        }
    }
    return count;
}

/* ---- one field ---- */

typedef struct Range {
    double low, high, step;
    double *near; /* numbers that matter */
    size_t near_count;
} Range;

static Range range_of(Sampler *sampler, const Field *field) {
    Range range = {.low = isfinite(field->low) ? field->low : -OPEN_END,
                   .high = isfinite(field->high) ? field->high : OPEN_END,
                   .step = field->step > 0 ? field->step : 1};
    if (field->type == FIELD_SPOT) range.low = 1, range.high = MOST_SPOT;
    if (field->type == FIELD_TIME) range.low = 0, range.high = MOST_FILM_SECONDS;
    range.near = ARENA_ARRAY(sampler->arena, sampler->named_count * (FARTHEST - NEAREST + 1), double);
    range.near_count = list_near(sampler, range.low, range.high, range.step, range.near);
    return range;
}

static double draw_number(Sampler *sampler, const Range *range) {
    bool named = range->near_count && draw(sampler) & 1;
    if (named) return range->near[draw_below(sampler, range->near_count)];
    double steps = fmin(floor((range->high - range->low) / range->step), MOST_STEPS);
    return range->low + range->step * (double)draw_below(sampler, (size_t)steps + 1);
}

static void fill_numbers(Sampler *sampler, const Field *field, Column *column) {
    Range range = range_of(sampler, field);
    for (size_t row = 0; row < sampler->columns->rows; row++) column->number[row] = draw_number(sampler, &range);
}

static void fill_choices(Sampler *sampler, const Field *field, Column *column) {
    for (size_t row = 0; row < sampler->columns->rows; row++) {
        column->number[row] = field->values[draw_below(sampler, field->value_count)].word;
    }
}

static void limit_distance(const Sampler *sampler, const Field *field, Column *column) {
    if (field->type != FIELD_DISTANCE || field->from < 0) return;
    const Column *spot = &sampler->columns->columns[field->from];
    for (size_t row = 0; row < sampler->columns->rows; row++) {
        if (spot->state[row] == VALUE_KNOWN) column->number[row] = fmin(column->number[row], spot->number[row]);
    }
}

static const uint8_t states[] = {
    [TRUTH_FALSE] = VALUE_NOT_APPLICABLE, [TRUTH_TRUE] = VALUE_KNOWN, [TRUTH_UNKNOWN] = VALUE_UNKNOWN};

static void chart_field(Sampler *sampler, int index) {
    const Field *field = &sampler->profile->fields[index];
    Column *column = &sampler->columns->columns[index];
    size_t rows = sampler->columns->rows;
    memset(sampler->truth, TRUTH_TRUE, rows);
    if (field->when) expr_select(field->when, sampler->columns, 0, rows, sampler->truth);
    for (size_t row = 0; row < rows; row++) column->state[row] = states[sampler->truth[row]];
    if (field->value_count)
        fill_choices(sampler, field, column);
    else if (field->type != FIELD_TEXT)
        fill_numbers(sampler, field, column);
    limit_distance(sampler, field, column);
}

static Columns *columns_of(Arena *arena, const Profile *profile, size_t rows) {
    Columns *columns = ARENA_NEW(arena, Columns);
    *columns = (Columns){.rows = rows, .count = profile->field_count};
    columns->columns = ARENA_ARRAY(arena, profile->field_count, Column);
    columns->counted = ARENA_ARRAY(arena, rows, uint8_t);
    columns->game = ARENA_ARRAY(arena, rows, uint16_t);
    for (size_t i = 0; i < profile->field_count; i++) {
        columns->columns[i].number = ARENA_ARRAY(arena, rows, double);
        columns->columns[i].state = ARENA_ARRAY(arena, rows, uint8_t);
    }
    return columns;
}

const Columns *sample_snaps(Arena *arena, const Profile *profile, size_t rows, uint64_t seed) {
    Sampler sampler = {.arena = arena, .profile = profile, .seed = seed};
    sampler.columns = columns_of(arena, profile, rows);
    sampler.truth = ARENA_ARRAY(arena, rows, uint8_t);
    list_named(&sampler);
    for (size_t i = 0; i < profile->field_count; i++) {
        int index = profile->order[i];
        if (profile->fields[index].derived == DERIVED_NONE)
            chart_field(&sampler, index);
        else
            derive_field(arena, profile, index, sampler.columns, sampler.truth);
    }
    derive_counted(profile, sampler.columns, sampler.truth);
    return sampler.columns;
}
