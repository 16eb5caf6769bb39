#include "stats/estimate.h"
#include "stats/findings_parts.h"

/* The value of a choice field at a row as its place among the field's values; PARTITION_NONE unknown or not applicable.
 */
static int value_at(const Dossier *dossier, int field, const int *place_of_word, size_t row) {
    const Column *column = &dossier->columns.columns[field];
    if (column->state[row] != VALUE_KNOWN) return PARTITION_NONE;
    return place_of_word[(size_t)column->number[row]];
}

/* By interned word, the place among the field's values or PARTITION_NONE. */
static int *places_of_words(Arena *arena, const Profile *profile, const Field *field) {
    int *places = ARENA_ARRAY(arena, profile->word_count, int);
    for (size_t i = 0; i < profile->word_count; i++) places[i] = PARTITION_NONE;
    for (size_t i = 0; i < field->value_count; i++) places[field->values[i].word] = (int)i;
    return places;
}

/* Cell [band * lanes + lane] of each row that answers the measure; counts those without one. */
static int *cells_of_rows(Arena *arena, const Findings *findings, FieldFinding *field) {
    const Dossier *dossier = findings->dossier;
    const ProfileFigure *figure = field->figure;
    const MeasureRows *rows = &findings->survey->measures[figure->measure];
    const int *lanes = places_of_words(arena, dossier->profile, &dossier->profile->fields[figure->lateral]);
    const int *bands = places_of_words(arena, dossier->profile, &dossier->profile->fields[figure->depth]);
    int *cells = ARENA_ARRAY(arena, dossier->columns.rows, int);
    for (size_t row = 0; row < dossier->columns.rows; row++) {
        int lane = value_at(dossier, figure->lateral, lanes, row);
        int band = value_at(dossier, figure->depth, bands, row);
        bool answered = rows->answered[row / ROWSET_BITS] >> (row % ROWSET_BITS) & 1;
        bool placed = lane != PARTITION_NONE && band != PARTITION_NONE && dossier->columns.counted[row];
        cells[row] = placed ? band * (int)field->lanes + lane : PARTITION_NONE;
        field->unplaced += answered && !placed;
    }
    return cells;
}

/* The measure over groups of cells: `group_of` cell. */
static Estimate *estimates_of(Arena *arena, const Findings *findings, const FieldFinding *field, const int *cells,
                              const int *group_of, size_t groups) {
    size_t rows = findings->dossier->columns.rows;
    int *group = ARENA_ARRAY(arena, rows, int);
    for (size_t row = 0; row < rows; row++) {
        group[row] = cells[row] == PARTITION_NONE ? PARTITION_NONE : group_of[cells[row]];
    }
    Partition partition = partition_new(arena, group, rows, groups);
    Estimate *estimates = ARENA_ARRAY(arena, groups, Estimate);
    for (size_t i = 0; i < groups; i++) {
        estimates[i] = estimate_one(arena, findings->survey, field->figure->measure, &partition.groups[i]);
    }
    return estimates;
}

static void place_field(Arena *arena, const Findings *findings, FieldFinding *field) {
    const Profile *profile = findings->dossier->profile;
    field->lanes = profile->fields[field->figure->lateral].value_count;
    field->bands = profile->fields[field->figure->depth].value_count;
    size_t count = field->lanes * field->bands;
    const int *cells = cells_of_rows(arena, findings, field);
    int *cell = ARENA_ARRAY(arena, count, int);
    int *lane = ARENA_ARRAY(arena, count, int);
    int *band = ARENA_ARRAY(arena, count, int);
    for (size_t i = 0; i < count; i++) {
        cell[i] = (int)i;
        lane[i] = (int)(i % field->lanes);
        band[i] = (int)(i / field->lanes);
    }
    field->cells = estimates_of(arena, findings, field, cells, cell, count);
    field->lane_totals = estimates_of(arena, findings, field, cells, lane, field->lanes);
    field->band_totals = estimates_of(arena, findings, field, cells, band, field->bands);
}

static void place_situation(Arena *arena, Findings *findings) {
    const Dossier *dossier = findings->dossier;
    const Profile *profile = dossier->profile;
    SituationFinding *situation = &findings->situation;
    int down = profile_field(profile, "down");
    int band = profile_field(profile, "to-go-band");
    if (down < 0 || band < 0) return;
    situation->band = &profile->fields[band];
    situation->bands = situation->band->value_count;
    const int *bands = places_of_words(arena, profile, situation->band);
    const Column *downs = &dossier->columns.columns[down];
    int *cells = ARENA_ARRAY(arena, dossier->columns.rows, int);
    for (size_t row = 0; row < dossier->columns.rows; row++) {
        int place = value_at(dossier, band, bands, row);
        bool known =
            downs->state[row] == VALUE_KNOWN && downs->number[row] >= 1 && downs->number[row] <= SITUATION_DOWNS;
        bool placed = known && place != PARTITION_NONE && dossier->columns.counted[row];
        cells[row] = placed ? ((int)downs->number[row] - 1) * (int)situation->bands + place : PARTITION_NONE;
    }
    Partition partition = partition_new(arena, cells, dossier->columns.rows, SITUATION_DOWNS * situation->bands);
    situation->cells = ARENA_ARRAY(arena, profile->measure_count * partition.count, Estimate);
    estimate_partition(arena, findings->survey, &partition, situation->cells, NULL);
}

void findings_place(Arena *arena, Findings *findings) {
    const Profile *profile = findings->dossier->profile;
    findings->fields = ARENA_ARRAY(arena, profile->figure_count, FieldFinding);
    for (size_t i = 0; i < profile->figure_count; i++) {
        findings->fields[i].figure = &profile->figures[i];
        if (profile->figures[i].kind == PROFILE_THROW_FIELD) place_field(arena, findings, &findings->fields[i]);
    }
    place_situation(arena, findings);
}
