#include "stats/rowset.h"

size_t rowset_words(size_t rows) {
    return (rows + ROWSET_BITS - 1) / ROWSET_BITS;
}

RowWord *rowset_new(Arena *arena, size_t rows) {
    return ARENA_ARRAY(arena, rowset_words(rows), RowWord);
}

RowWord *rowset_where(Arena *arena, const uint8_t *truth, size_t rows, uint8_t value) {
    RowWord *set = rowset_new(arena, rows);
    for (size_t row = 0; row < rows; row++) {
        set[row / ROWSET_BITS] |= (RowWord)(truth[row] == value) << (row % ROWSET_BITS);
    }
    return set;
}

int rowset_count_word(RowWord word) {
    return __builtin_popcountll(word);
}

Selection selection_new(Arena *arena, size_t rows, const RowWord *in, const RowWord *maybe) {
    size_t words = rowset_words(rows);
    Selection selection = {ARENA_ARRAY(arena, words, SelectionWord), 0};
    for (size_t word = 0; word < words; word++) {
        RowWord uncertain = maybe ? maybe[word] & ~in[word] : 0;
        if (in[word] | uncertain) selection.words[selection.count++] = (SelectionWord){word, in[word], uncertain};
    }
    return selection;
}

bool selection_has(const Selection *selection, size_t row) {
    size_t low = 0;
    size_t high = selection->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (selection->words[middle].word < row / ROWSET_BITS)
            low = middle + 1;
        else
            high = middle;
    }
    if (low == selection->count || selection->words[low].word != row / ROWSET_BITS) return false;
    return selection->words[low].in >> (row % ROWSET_BITS) & 1;
}

/* The word of `selection` numbered `word`, from *at onwards; empty when it is not listed. */
static SelectionWord word_of(const Selection *selection, size_t *at, size_t word) {
    while (*at < selection->count && selection->words[*at].word < word) (*at)++;
    if (*at < selection->count && selection->words[*at].word == word) return selection->words[*at];
    return (SelectionWord){word, 0, 0};
}

Selection selection_both(Arena *arena, const Selection *a, const Selection *b) {
    Selection both = {ARENA_ARRAY(arena, a->count, SelectionWord), 0};
    size_t at = 0;
    for (size_t i = 0; i < a->count; i++) {
        SelectionWord one = a->words[i];
        SelectionWord other = word_of(b, &at, one.word);
        RowWord in = one.in & other.in;
        RowWord maybe = (one.in | one.maybe) & (other.in | other.maybe) & ~in;
        if (in | maybe) both.words[both.count++] = (SelectionWord){one.word, in, maybe};
    }
    return both;
}

Selection selection_rest(Arena *arena, const Selection *base, const Selection *slice) {
    Selection rest = {ARENA_ARRAY(arena, base->count, SelectionWord), 0};
    size_t at = 0;
    for (size_t i = 0; i < base->count; i++) {
        SelectionWord one = base->words[i];
        SelectionWord other = word_of(slice, &at, one.word);
        RowWord out = ~(other.in | other.maybe);
        if ((one.in | one.maybe) & out) {
            rest.words[rest.count++] = (SelectionWord){one.word, one.in & out, one.maybe & out};
        }
    }
    return rest;
}

/* Adds `row` to the end of `selection`, whose rows come in rising order. */
static void selection_add(Selection *selection, size_t row) {
    size_t word = row / ROWSET_BITS;
    if (!selection->count || selection->words[selection->count - 1].word != word) {
        selection->words[selection->count++] = (SelectionWord){word, 0, 0};
    }
    selection->words[selection->count - 1].in |= (RowWord)1 << (row % ROWSET_BITS);
}

Partition partition_new(Arena *arena, const int *group, size_t rows, size_t groups) {
    Partition partition = {ARENA_ARRAY(arena, groups, Selection), groups};
    size_t *sizes = ARENA_ARRAY(arena, groups, size_t);
    size_t placed = 0;
    for (size_t row = 0; row < rows; row++) {
        if (group[row] != PARTITION_NONE) {
            sizes[group[row]]++;
            placed++;
        }
    }
    SelectionWord *room = ARENA_ARRAY(arena, placed, SelectionWord);
    for (size_t i = 0; i < groups; i++) {
        partition.groups[i].words = room;
        room += sizes[i];
    }
    for (size_t row = 0; row < rows; row++) {
        if (group[row] != PARTITION_NONE) selection_add(&partition.groups[group[row]], row);
    }
    return partition;
}
