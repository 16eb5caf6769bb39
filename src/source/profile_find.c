/* Finding the parts of a profile by id. */
#include <string.h>

#include "source/notation.h"
#include "source/profile.h"
#include "source/profile_parts.h"

/* Structs of `stride` bytes whose first member is their id. */
static int find_in_line(const void *items, size_t count, size_t stride, const char *id) {
    for (size_t i = 0; i < count; i++) {
        const char *own;
        memcpy(&own, (const char *)items + i * stride, sizeof own);
        if (strcmp(own, id) == 0) return (int)i;
    }
    return -1;
}

#define FIND(profile, part, id)                                                                                        \
    ((profile)->names ? names_find((profile)->names->part##s, (id))                                                    \
                      : find_in_line((profile)->part##s, (profile)->part##_count, sizeof *(profile)->part##s, (id)))

int profile_field(const Profile *profile, const char *id) {
    return FIND(profile, field, id);
}

int profile_slice(const Profile *profile, const char *id) {
    return FIND(profile, slice, id);
}

int profile_total(const Profile *profile, const char *id) {
    return FIND(profile, total, id);
}

int profile_measure(const Profile *profile, const char *id) {
    return FIND(profile, measure, id);
}

int profile_trait(const Profile *profile, const char *id) {
    return FIND(profile, trait, id);
}

int profile_word(const Profile *profile, const char *word) {
    return FIND(profile, word, word);
}

const FieldValue *field_value(const Field *field, int word) {
    for (size_t i = 0; i < field->value_count; i++) {
        if (field->values[i].word == word) return &field->values[i];
    }
    return NULL;
}

const char *profile_measurable_hint(Arena *arena, const char *word) {
    int count = 0;
    while (measurable_info_at(count)) count++;
    const char **ids = ARENA_ARRAY(arena, (size_t)count, const char *);
    for (int i = 0; i < count; i++) ids[i] = measurable_info_at(i)->id;
    return names_hint(arena, word, ids, (size_t)count, sizeof *ids);
}
