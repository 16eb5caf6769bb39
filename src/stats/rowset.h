/* Sets of rows as bits, and selections over them: who is in, who may be. Row r is bit r % 64 of word r / 64. */
#ifndef TB_STATS_ROWSET_H
#define TB_STATS_ROWSET_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

enum { ROWSET_BITS = 64 };

typedef uint64_t RowWord;

/* One word of a selection. `in`: rows that belong; `maybe`: rows of which it cannot be said. The two are disjoint. */
typedef struct SelectionWord {
    size_t word;
    RowWord in, maybe;
} SelectionWord;

/* Only words with any row are listed, in rising order, so that many small selections cost no more than their rows. */
typedef struct Selection {
    SelectionWord *words;
    size_t count;
} Selection;

/* Groups that share no row, one selection each. */
typedef struct Partition {
    Selection *groups;
    size_t count;
} Partition;

enum { PARTITION_NONE = -1 }; /* the row belongs to no group */

size_t rowset_words(size_t rows);
RowWord *rowset_new(Arena *arena, size_t rows);

/* Rows whose byte in `truth` equals `value`. */
RowWord *rowset_where(Arena *arena, const uint8_t *truth, size_t rows, uint8_t value);

int rowset_count_word(RowWord word);

/* Selection of the rows in `in` and, possibly NULL, `maybe`. */
Selection selection_new(Arena *arena, size_t rows, const RowWord *in, const RowWord *maybe);

/* Whether the row surely belongs. */
bool selection_has(const Selection *selection, size_t row);

/* Rows in both; what may be in both and is not surely out of one is maybe. */
Selection selection_both(Arena *arena, const Selection *a, const Selection *b);

/* What belongs to `base` and surely not to `slice`. */
Selection selection_rest(Arena *arena, const Selection *base, const Selection *slice);

/* Selections by group number, PARTITION_NONE or 0 .. groups - 1 for each row. Costs rows plus groups. */
Partition partition_new(Arena *arena, const int *group, size_t rows, size_t groups);

#endif
