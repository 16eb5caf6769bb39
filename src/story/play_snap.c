/* What is charted of a snap, by the ids of the shared sets' fields. */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "story/play.h"

enum { MOST_IDS = 3 };

/* The first of these fields that the profile has is the one. */
typedef struct Wanted {
    size_t at; /* offset in PlaySnap */
    const char *ids[MOST_IDS];
} Wanted;

static const Wanted WORDS[] = {
    {offsetof(PlaySnap, hash), {"hash"}},
    {offsetof(PlaySnap, personnel), {"personnel"}},
    {offsetof(PlaySnap, backfield), {"backfield"}},
    {offsetof(PlaySnap, formation), {"formation"}},
    {offsetof(PlaySnap, motion), {"motion"}},
    {offsetof(PlaySnap, drop), {"drop"}},
    {offsetof(PlaySnap, runner), {"target", "align", "opponent"}},
    {offsetof(PlaySnap, route), {"route"}},
    {offsetof(PlaySnap, side), {"side"}},
    {offsetof(PlaySnap, window), {"window"}},
    {offsetof(PlaySnap, shell), {"shell"}},
    {offsetof(PlaySnap, coverage), {"coverage"}},
    {offsetof(PlaySnap, front), {"front"}},
    {offsetof(PlaySnap, sub), {"sub"}},
    {offsetof(PlaySnap, call), {"pressure-call"}},
};

static const Wanted NUMBERS[] = {
    {offsetof(PlaySnap, to_goal), {"spot"}},    {offsetof(PlaySnap, distance), {"distance"}},
    {offsetof(PlaySnap, depth), {"depth"}},     {offsetof(PlaySnap, read), {"read"}},
    {offsetof(PlaySnap, rushers), {"rushers"}}, {offsetof(PlaySnap, box), {"box"}},
};

/* Values that say so. */
typedef struct Said {
    const char *field, *value;
} Said;

static const Said CAUGHT[] = {{"result", "complete"}, {"catch", "caught"}, {"ball", "caught"}};
static const Said JUMBO[] = {{"jumbo", "yes"}};

static const Field *known_field(const Dossier *dossier, int row, const char *id, int *index) {
    *index = id ? profile_field(dossier->profile, id) : -1;
    if (*index < 0) return NULL;
    return dossier->columns.columns[*index].state[row] == VALUE_KNOWN ? &dossier->profile->fields[*index] : NULL;
}

/* The word of a choice or of yes and no; NULL where it is not known. */
static const char *word_of(const Dossier *dossier, int row, const char *id) {
    int index;
    const Field *field = known_field(dossier, row, id, &index);
    if (!field || !(field->value_count || field->type == FIELD_YESNO)) return NULL;
    return dossier->profile->words[(int)dossier->columns.columns[index].number[row]];
}

static double number_of(const Dossier *dossier, int row, const char *id) {
    int index;
    const Field *field = known_field(dossier, row, id, &index);
    bool number = field && !field->value_count && field->type != FIELD_YESNO && field->type != FIELD_TEXT;
    return number ? dossier->columns.columns[index].number[row] : NAN;
}

static const char *wanted_id(const Dossier *dossier, const Wanted *wanted) {
    for (size_t i = 0; i < MOST_IDS && wanted->ids[i]; i++) {
        if (profile_field(dossier->profile, wanted->ids[i]) >= 0) return wanted->ids[i];
    }
    return NULL;
}

static bool is_said(const Dossier *dossier, int row, const Said *said, size_t count) {
    for (size_t i = 0; i < count; i++) {
        const char *word = word_of(dossier, row, said[i].field);
        if (word && strcmp(word, said[i].value) == 0) return true;
    }
    return false;
}

PlaySnap play_snap(const Dossier *dossier, int row) {
    PlaySnap snap = {0};
    char *base = (char *)&snap;
    for (size_t i = 0; i < sizeof WORDS / sizeof *WORDS; i++) {
        const char *word = word_of(dossier, row, wanted_id(dossier, &WORDS[i]));
        memcpy(base + WORDS[i].at, &word, sizeof word);
    }
    for (size_t i = 0; i < sizeof NUMBERS / sizeof *NUMBERS; i++) {
        double number = number_of(dossier, row, wanted_id(dossier, &NUMBERS[i]));
        memcpy(base + NUMBERS[i].at, &number, sizeof number);
    }
    snap.caught = is_said(dossier, row, CAUGHT, sizeof CAUGHT / sizeof *CAUGHT);
    snap.jumbo = is_said(dossier, row, JUMBO, sizeof JUMBO / sizeof *JUMBO);
    return snap;
}
