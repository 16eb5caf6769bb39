#include "source/names.h"

#include <stdint.h>
#include <string.h>

#include "base/buf.h"
#include "base/text.h"

enum {
    FEWEST_SLOTS = 16,
    MOST_LISTED = 20,
    SHORT_WORD = 3 /* bytes: below, one letter changed is another word, not a slip */
};

typedef struct Slot {
    const char *name; /* NULL: free */
    uint32_t hash;
    int number;
} Slot;

struct Names {
    Arena *arena;
    Slot *slots;
    size_t mask; /* slots less one; slots are a power of two, at most half full */
    size_t count;
};

/* FNV-1a, http://www.isthe.com/chongo/tech/comp/fnv/ */
static uint32_t hash_of(const char *name) {
    uint32_t hash = 2166136261u;
    for (const char *at = name; *at; at++) hash = (hash ^ (unsigned char)*at) * 16777619u;
    return hash;
}

Names *names_new(Arena *arena, size_t expected) {
    size_t slots = FEWEST_SLOTS;
    while (slots < expected * 2) slots *= 2;
    Names *names = ARENA_NEW(arena, Names);
    names->arena = arena;
    names->slots = ARENA_ARRAY(arena, slots, Slot);
    names->mask = slots - 1;
    return names;
}

/* The slot that holds `name`, or the free one where it belongs. */
static Slot *slot_of(const Names *names, const char *name, uint32_t hash) {
    size_t at = hash & names->mask;
    while (names->slots[at].name) {
        if (names->slots[at].hash == hash && strcmp(names->slots[at].name, name) == 0) break;
        at = (at + 1) & names->mask;
    }
    return &names->slots[at];
}

int names_find(const Names *names, const char *name) {
    const Slot *slot = slot_of(names, name, hash_of(name));
    return slot->name ? slot->number : -1;
}

static void grow(Names *names) {
    Slot *old = names->slots;
    size_t old_slots = names->mask + 1;
    names->mask = old_slots * 2 - 1;
    names->slots = ARENA_ARRAY(names->arena, old_slots * 2, Slot);
    for (size_t i = 0; i < old_slots; i++) {
        if (old[i].name) *slot_of(names, old[i].name, old[i].hash) = old[i];
    }
}

int names_add(Names *names, const char *name, int number) {
    uint32_t hash = hash_of(name);
    Slot *slot = slot_of(names, name, hash);
    if (slot->name) return slot->number;
    *slot = (Slot){name, hash, number};
    if (++names->count * 2 > names->mask) grow(names);
    return -1;
}

static const char *list_of(Arena *arena, const char *const *candidates, size_t count) {
    Buf buf = {0};
    BUF_PUT(&buf, "it is one of: ");
    for (size_t i = 0; i < count; i++) {
        if (i) BUF_PUT(&buf, ", ");
        buf_puts(&buf, candidates[i]);
    }
    const char *hint = arena_copy(arena, buf.bytes, buf.length);
    buf_free(&buf);
    return hint;
}

const char *names_hint(Arena *arena, const char *word, const void *items, size_t count, size_t stride) {
    if (count == 0) return NULL;
    const char **candidates = ARENA_ARRAY(arena, count, const char *);
    for (size_t i = 0; i < count; i++) {
        memcpy(&candidates[i], (const char *)items + i * stride, sizeof candidates[i]);
    }
    const char *nearest = strlen(word) < SHORT_WORD ? NULL : text_nearest(word, (const char *const *)candidates, count);
    if (nearest) return arena_printf(arena, "did you mean '%s'?", nearest);
    return count <= MOST_LISTED ? list_of(arena, candidates, count) : NULL;
}
