/* Attributes that hold words separated by spaces, each word with its own place. */
#ifndef TB_SOURCE_LISTS_H
#define TB_SOURCE_LISTS_H

#include <stdbool.h>

#include "base/arena.h"
#include "source/xml.h"

typedef struct List {
    Arena *arena;
    const char *start, *at;
    Place place;  /* of the whole value */
    bool written; /* the value stands in the file byte for byte, so that words have exact places */
} List;

typedef struct ListWord {
    const char *id;
    Place place;
} ListWord;

/* A node without the attribute has an empty list. */
List list_open(Arena *arena, const XmlNode *node, const char *attribute);
bool list_next(List *list, ListWord *word);
size_t list_count(Arena *arena, const XmlNode *node, const char *attribute); /* words it holds */

#endif
