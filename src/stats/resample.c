#include <math.h>
#include <string.h>

#include "stats/resample_parts.h"

static int *numbers_new(Arena *arena, size_t count) {
    int *numbers = ARENA_ARRAY(arena, count, int);
    for (size_t i = 0; i < count; i++) numbers[i] = RESAMPLE_NONE;
    return numbers;
}

Resample *resample_new(const Survey *survey, const Selection *selections, size_t selection_count) {
    const Profile *profile = survey->dossier->profile;
    Arena *arena = arena_new();
    Resample *resample = ARENA_NEW(arena, Resample);
    resample->arena = arena;
    resample->survey = survey;
    resample->selections = selections;
    resample->selection_count = selection_count;
    resample->source_count = profile->total_count + 2 * profile->measure_count;
    resample->column_of = numbers_new(arena, selection_count * resample->source_count);
    resample->figure_of = numbers_new(arena, selection_count * profile->measure_count);
    return resample;
}

void resample_free(Resample *resample) {
    resample_end(resample);
    arena_free(resample->arena);
}

static void add_source(Resample *resample, Figure *figure, size_t source) {
    int *column = &resample->column_of[figure->selection * resample->source_count + source];
    if (*column == RESAMPLE_NONE) *column = (int)resample->column_count++;
    figure->columns[figure->source_count] = *column;
    figure->sources[figure->source_count++] = (int)source;
}

static void add_sources(Resample *resample, Figure *figure) {
    const Profile *profile = resample->survey->dossier->profile;
    size_t mean = profile->total_count + 2 * (size_t)figure->measure;
    uint64_t totals = resample->survey->measures[figure->measure].totals;
    size_t most = figure->definition->kind == MEASURE_MEAN ? 2 : (size_t)rowset_count_word(totals);
    figure->columns = ARENA_ARRAY(resample->arena, most, int);
    figure->sources = ARENA_ARRAY(resample->arena, most, int);
    if (figure->definition->kind == MEASURE_MEAN) {
        add_source(resample, figure, mean);
        add_source(resample, figure, mean + 1);
        return;
    }
    for (; totals; totals &= totals - 1) add_source(resample, figure, (size_t)__builtin_ctzll(totals));
}

static Figure *figure_new(Resample *resample) {
    enum { FIRST_ROOM = 16 };
    if (resample->figure_count == resample->figure_room) {
        size_t room = resample->figure_room ? 2 * resample->figure_room : FIRST_ROOM;
        Figure *figures = ARENA_ARRAY(resample->arena, room, Figure);
        if (resample->figure_count) memcpy(figures, resample->figures, resample->figure_count * sizeof *figures);
        resample->figures = figures;
        resample->figure_room = room;
    }
    return &resample->figures[resample->figure_count++];
}

int resample_find(const Resample *resample, int measure, size_t selection) {
    size_t measures = resample->survey->dossier->profile->measure_count;
    return resample->figure_of[selection * measures + (size_t)measure];
}

int resample_ask(Resample *resample, int measure, size_t selection) {
    const Profile *profile = resample->survey->dossier->profile;
    const Measure *definition = &profile->measures[measure];
    if (definition->kind == MEASURE_RATE) return RESAMPLE_NONE;
    int found = resample_find(resample, measure, selection);
    if (found != RESAMPLE_NONE) return found;
    int number = (int)resample->figure_count;
    resample->figure_of[selection * profile->measure_count + (size_t)measure] = number;
    Figure *figure = figure_new(resample);
    *figure = (Figure){.measure = measure, .selection = selection, .definition = definition};
    add_sources(resample, figure);
    return number;
}

/* Counted rows, game by game. */
static void list_rows(Resample *resample) {
    const Columns *columns = &resample->survey->dossier->columns;
    size_t *strata = ARENA_ARRAY(resample->arena, columns->rows, size_t);
    resample->row_of = ARENA_ARRAY(resample->arena, columns->rows, size_t);
    BootstrapTable *table = &resample->table;
    table->strata = strata;
    int game = -1;
    for (size_t row = 0; row < columns->rows; row++) {
        if (!columns->counted[row]) continue;
        if (columns->game[row] != game) {
            game = columns->game[row];
            table->stratum_count++;
        }
        strata[table->stratum_count - 1]++;
        resample->row_of[table->rows++] = row;
    }
}

/* What a source adds at a row of the dossier that is in it. */
static double source_value(const Survey *survey, size_t source, size_t row) {
    size_t totals = survey->dossier->profile->total_count;
    if (source < totals) return survey->totals[source].value ? survey->totals[source].value[row] : 1;
    const MeasureRows *measure = &survey->measures[(source - totals) / 2];
    return (source - totals) % 2 ? 1 : measure->x[row];
}

static const RowWord *source_rows(const Survey *survey, size_t source) {
    size_t totals = survey->dossier->profile->total_count;
    if (source < totals) return survey->totals[source].in;
    return survey->measures[(source - totals) / 2].answered;
}

static void fill_column(const Resample *resample, size_t selection, size_t source, float *column) {
    const RowWord *rows = source_rows(resample->survey, source);
    const Selection *chosen = &resample->selections[selection];
    size_t width = resample->table.width;
    size_t at = 0;
    for (size_t i = 0; i < resample->table.rows; i++) {
        size_t row = resample->row_of[i];
        size_t word = row / ROWSET_BITS;
        while (at < chosen->count && chosen->words[at].word < word) at++;
        if (at == chosen->count) break;
        RowWord in = chosen->words[at].word == word ? chosen->words[at].in & rows[word] : 0;
        if (in >> (row % ROWSET_BITS) & 1) column[i * width] = (float)source_value(resample->survey, source, row);
    }
}

static void fill_table(Resample *resample) {
    BootstrapTable *table = &resample->table;
    list_rows(resample);
    table->width = (resample->column_count + BOOTSTRAP_LANES - 1) / BOOTSTRAP_LANES * BOOTSTRAP_LANES;
    float *values = ARENA_ARRAY(resample->arena, table->rows * table->width, float);
    for (size_t selection = 0; selection < resample->selection_count; selection++) {
        for (size_t source = 0; source < resample->source_count; source++) {
            int column = resample->column_of[selection * resample->source_count + source];
            if (column != RESAMPLE_NONE) fill_column(resample, selection, source, values + column);
        }
    }
    table->values = values;
}

/* The figure from sums of all columns. `totals` is room for the totals of the profile. */
static double figure_value(const Figure *figure, const double *sums, double *totals) {
    if (figure->definition->kind == MEASURE_MEAN) {
        double count = sums[figure->columns[1]];
        return count > 0 ? sums[figure->columns[0]] / count : NAN;
    }
    for (size_t i = 0; i < figure->source_count; i++) totals[figure->sources[i]] = sums[figure->columns[i]];
    return estimate_from_totals(figure->definition, totals);
}

/* Whether the row adds to any column of the figure. */
static bool takes_part(const Figure *figure, const float *row) {
    for (size_t i = 0; i < figure->source_count; i++) {
        if (row[figure->columns[i]] != 0) return true;
    }
    return false;
}

static void leave_out(const Resample *resample, Figure *figure, const double *sums, double *without, double *totals) {
    const BootstrapTable *table = &resample->table;
    figure->influence = ARENA_ARRAY(resample->arena, table->rows, double);
    for (size_t row = 0; row < table->rows; row++) {
        const float *values = table->values + row * table->width;
        if (!takes_part(figure, values)) continue;
        for (size_t i = 0; i < figure->source_count; i++) {
            int column = figure->columns[i];
            without[column] = sums[column] - (double)values[column];
        }
        double value = figure_value(figure, without, totals);
        if (!isnan(value)) figure->influence[row] = figure->observed - value;
    }
}

static double *sums_of_all(const Resample *resample) {
    const BootstrapTable *table = &resample->table;
    double *sums = ARENA_ARRAY(resample->arena, table->width, double);
    for (size_t at = 0; at < table->rows * table->width; at++) sums[at % table->width] += (double)table->values[at];
    return sums;
}

/* Draws, and reads every figure off each replicate. */
static void draw_replicates(Resample *resample, double *totals) {
    double *sums = ARENA_ARRAY(resample->arena, resample->table.width, double);
    Bootstrap *bootstrap = bootstrap_new(&resample->table, bootstrap_seed(resample->survey->dossier->id));
    for (size_t replicate = 0; replicate < BOOTSTRAP_REPLICATES; replicate++) {
        bootstrap_draw(bootstrap, sums);
        for (size_t i = 0; i < resample->figure_count; i++) {
            Figure *figure = &resample->figures[i];
            figure->replicates[replicate] = figure_value(figure, sums, totals);
        }
    }
    bootstrap_free(bootstrap);
}

static void run(void *data) {
    Resample *resample = data;
    Arena *arena = resample->arena;
    fill_table(resample);
    const double *sums = sums_of_all(resample);
    double *without = ARENA_ARRAY(arena, resample->table.width, double);
    double *totals = ARENA_ARRAY(arena, resample->survey->dossier->profile->total_count, double);
    for (size_t i = 0; i < resample->figure_count; i++) {
        Figure *figure = &resample->figures[i];
        figure->observed = figure_value(figure, sums, totals);
        figure->replicates = ARENA_ARRAY(arena, BOOTSTRAP_REPLICATES, double);
        leave_out(resample, figure, sums, without, totals);
    }
    draw_replicates(resample, totals);
}

void resample_begin(Resample *resample) {
    if (resample->figure_count) resample->task = task_start(run, resample);
}

void resample_end(Resample *resample) {
    task_join(resample->task);
    resample->task = NULL;
}
