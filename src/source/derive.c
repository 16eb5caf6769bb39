#include "source/derive.h"

#include <string.h>

typedef struct Derivation {
    Arena *arena;
    const Profile *profile;
    const Field *field;
    const Columns *columns;
    const Column *from; /* MAP, BAND, READ */
    Column *to;
    uint8_t *truth; /* Truth of each row: scratch */
} Derivation;

static void derive_test(Derivation *derivation) {
    const Profile *profile = derivation->profile;
    size_t rows = derivation->columns->rows;
    expr_select(derivation->field->expr, derivation->columns, 0, rows, derivation->truth);
    for (size_t row = 0; row < rows; row++) {
        derivation->to->number[row] = derivation->truth[row] == TRUTH_TRUE ? profile->yes : profile->no;
        derivation->to->state[row] = derivation->truth[row] == TRUTH_UNKNOWN ? VALUE_UNKNOWN : VALUE_KNOWN;
    }
}

/* Words of the field read to words of this one; -1 where a word belongs to none. */
static const int *word_map(Derivation *derivation) {
    const Profile *profile = derivation->profile;
    const Field *field = derivation->field, *from = &profile->fields[field->from];
    int *words = ARENA_ARRAY(derivation->arena, profile->word_count, int);
    for (size_t i = 0; i < profile->word_count; i++) words[i] = -1;
    for (size_t i = 0; i < from->value_count; i++) {
        if (field->map[i] >= 0) words[from->values[i].word] = field->values[field->map[i]].word;
    }
    return words;
}

static void derive_map(Derivation *derivation) {
    const Column *from = derivation->from;
    const int *words = word_map(derivation);
    for (size_t row = 0; row < derivation->columns->rows; row++) {
        derivation->to->state[row] = from->state[row];
        if (from->state[row] != VALUE_KNOWN) continue;
        int word = words[(int)from->number[row]];
        derivation->to->number[row] = word;
        if (word < 0) derivation->to->state[row] = VALUE_UNKNOWN;
    }
}

static void derive_band(Derivation *derivation) {
    const Field *field = derivation->field;
    const Column *from = derivation->from;
    for (size_t row = 0; row < derivation->columns->rows; row++) {
        derivation->to->state[row] = from->state[row];
        if (from->state[row] != VALUE_KNOWN) continue;
        derivation->to->state[row] = VALUE_UNKNOWN;
        for (size_t i = 0; i < field->value_count; i++) {
            double number = from->number[row];
            if (number < field->bands[i].low || number > field->bands[i].high) continue;
            derivation->to->number[row] = field->values[i].word;
            derivation->to->state[row] = VALUE_KNOWN;
        }
    }
}

static void derive_calc(Derivation *derivation) {
    const Column *to = derivation->to;
    expr_values(derivation->field->expr, derivation->columns, 0, derivation->columns->rows, to->number, to->state);
}

static void derive_read(Derivation *derivation) {
    size_t rows = derivation->columns->rows;
    memcpy(derivation->to->number, derivation->from->number, rows * sizeof *derivation->to->number);
    memcpy(derivation->to->state, derivation->from->state, rows * sizeof *derivation->to->state);
}

static void (*const derivations[])(Derivation *derivation) = {
    [DERIVED_TEST] = derive_test, [DERIVED_MAP] = derive_map,   [DERIVED_BAND] = derive_band,
    [DERIVED_CALC] = derive_calc, [DERIVED_READ] = derive_read,
};

void derive_field(Arena *arena, const Profile *profile, int index, const Columns *columns, uint8_t *truth) {
    const Field *field = &profile->fields[index];
    Derivation derivation = {
        .arena = arena,
        .profile = profile,
        .field = field,
        .columns = columns,
        .from = field->from >= 0 ? &columns->columns[field->from] : NULL,
        .to = &columns->columns[index],
        .truth = truth,
    };
    derivations[field->derived](&derivation);
}

void derive_counted(const Profile *profile, const Columns *columns, uint8_t *truth) {
    memset(truth, TRUTH_TRUE, columns->rows);
    if (profile->counted) expr_select(profile->counted, columns, 0, columns->rows, truth);
    for (size_t row = 0; row < columns->rows; row++) columns->counted[row] = truth[row] != TRUTH_FALSE;
}
