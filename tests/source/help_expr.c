#include "source/help_expr.h"

#include <string.h>

#include "base/text.h"

enum { MOST_WORDS = 64 };

typedef struct Row {
    const char *id;
    FieldType type;
    DerivedKind derived;
    int from;
    const char *values; /* space separated */
} Row;

static const Row rows[HELP_FIELDS] = {
    [HELP_BASE] = {"base", FIELD_CHOICE, DERIVED_NONE, -1, "set off moving"},
    [HELP_SHELL] = {"shell", FIELD_CHOICE, DERIVED_NONE, -1, "0-high 1-high 2-high 3-high"},
    [HELP_HIGHS] = {"highs", FIELD_CHOICE, DERIVED_MAP, HELP_SHELL, "0-high 1-high 2-high 3-high"},
    [HELP_FAMILY] = {"family", FIELD_CHOICE, DERIVED_MAP, HELP_SHELL, "man zone match"},
    [HELP_DROP] = {"drop", FIELD_CHOICE, DERIVED_NONE, -1, "0 1 3 5 7 boot"},
    [HELP_PRESSURE] = {"pressure", FIELD_ORDERED, DERIVED_NONE, -1, "none hurry hit"},
    [HELP_BAND] = {"depth-band", FIELD_ORDERED, DERIVED_BAND, HELP_DEPTH, "behind short deep"},
    [HELP_MOTION] = {"motion", FIELD_YESNO, DERIVED_NONE, -1, NULL},
    [HELP_PASSING] = {"passing", FIELD_YESNO, DERIVED_TEST, -1, NULL},
    [HELP_DEPTH] = {"depth", FIELD_NUMBER, DERIVED_NONE, -1, NULL},
    [HELP_GAIN] = {"gain", FIELD_NUMBER, DERIVED_NONE, -1, NULL},
    [HELP_CONTACT] = {"contact", FIELD_NUMBER, DERIVED_NONE, -1, NULL},
    [HELP_TO_GOAL] = {"to-goal", FIELD_NUMBER, DERIVED_READ, HELP_SPOT, NULL},
    [HELP_DISTANCE] = {"distance", FIELD_DISTANCE, DERIVED_NONE, HELP_SPOT, NULL},
    [HELP_SPOT] = {"spot", FIELD_SPOT, DERIVED_NONE, -1, NULL},
    [HELP_CLOCK] = {"clock", FIELD_CLOCK, DERIVED_NONE, -1, NULL},
    [HELP_IN] = {"in", FIELD_TIME, DERIVED_NONE, -1, NULL},
    [HELP_NOTE] = {"note", FIELD_TEXT, DERIVED_NONE, -1, NULL},
};

static const char *const totals[] = {"attempts", "completions", "yards", "touchdowns", "interceptions", "c"};

static int word(Profile *profile, const char *text) {
    for (size_t i = 0; i < profile->word_count; i++) {
        if (text_equal(profile->words[i], text)) return (int)i;
    }
    profile->words[profile->word_count] = text;
    return (int)profile->word_count++;
}

static void add_values(Arena *arena, Profile *profile, Field *field, const char *values) {
    field->values = ARENA_ARRAY(arena, 16, FieldValue);
    char *rest;
    for (char *id = strtok_r(arena_string(arena, values), " ", &rest); id; id = strtok_r(NULL, " ", &rest)) {
        field->values[field->value_count++] = (FieldValue){.id = id, .label = id, .word = word(profile, id)};
    }
}

const Profile *help_profile(Arena *arena) {
    Profile *profile = ARENA_NEW(arena, Profile);
    profile->words = ARENA_ARRAY(arena, MOST_WORDS, const char *);
    profile->yes = word(profile, "yes");
    profile->no = word(profile, "no");
    profile->fields = ARENA_ARRAY(arena, HELP_FIELDS, Field);
    profile->field_count = HELP_FIELDS;
    for (size_t i = 0; i < HELP_FIELDS; i++) {
        Field *field = &profile->fields[i];
        field->id = field->label = rows[i].id;
        field->type = rows[i].type;
        field->derived = rows[i].derived;
        field->from = rows[i].from;
        if (rows[i].values) add_values(arena, profile, field, rows[i].values);
    }
    profile->total_count = sizeof totals / sizeof *totals;
    profile->totals = ARENA_ARRAY(arena, profile->total_count, Total);
    for (size_t i = 0; i < profile->total_count; i++) profile->totals[i].id = totals[i];
    return profile;
}

Columns help_columns(Arena *arena, size_t count) {
    Columns columns = {.rows = count, .count = HELP_FIELDS};
    columns.columns = ARENA_ARRAY(arena, HELP_FIELDS, Column);
    for (size_t i = 0; i < HELP_FIELDS; i++) {
        columns.columns[i].number = ARENA_ARRAY(arena, count, double);
        columns.columns[i].state = ARENA_ARRAY(arena, count, uint8_t);
    }
    return columns;
}

/* xorshift64*: S. Vigna 2016, ACM Trans. Math. Softw. 42(4):30. */
unsigned dice(Dice *dice, unsigned sides) {
    dice->state ^= dice->state >> 12;
    dice->state ^= dice->state << 25;
    dice->state ^= dice->state >> 27;
    return (unsigned)((dice->state * UINT64_C(2685821657736338717)) >> 33) % sides;
}
