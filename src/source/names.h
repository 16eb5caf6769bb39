/* Names to numbers: a hash table in an arena, and help with misspelt names. */
#ifndef TB_SOURCE_NAMES_H
#define TB_SOURCE_NAMES_H

#include <stddef.h>

#include "base/arena.h"

typedef struct Names Names;

/* `expected` is a guess; the table grows. Names are borrowed and must outlive it. */
Names *names_new(Arena *arena, size_t expected);
int names_find(const Names *names, const char *name); /* -1: none */

/* Adds `name` with a number of at least 0. Returns -1, or the number that the name already has, which stays. */
int names_add(Names *names, const char *name, int number);

/* A hint for a `word` that is none of `items`, structs of `stride` bytes whose first member is their name: the nearest
 * one, or all of them when they are few, or NULL. */
const char *names_hint(Arena *arena, const char *word, const void *items, size_t count, size_t stride);

#define NAMES_HINT(arena, word, items, count) names_hint((arena), (word), (items), (count), sizeof *(items))

#endif
