#include "typeset/hyphen.h"

#include <string.h>

#include "hyphen_table.h"

enum { LETTER_EDGE = 0, LETTER_A = 1, PADDED = HYPHEN_MOST_LETTERS + 2 };

/* State that `letter` leads to from `state`, or 0 (the root, which no letter leads to). States are numbered in order of
 * breadth, so the state behind edge e is e + 1. */
static unsigned next_state(unsigned state, uint8_t letter) {
    unsigned end = hyphen_first_edge[state + 1];
    for (unsigned edge = hyphen_first_edge[state]; edge < end; edge++) {
        if (hyphen_edge_letter[edge] == letter) return edge + 1;
    }
    return 0;
}

/* Raises the levels of the pattern that ends in `state` and began at `levels`. */
static void raise_levels(unsigned state, uint8_t *levels) {
    const uint8_t *value = hyphen_values + hyphen_value[state];
    levels += value[0];
    for (unsigned i = 0; i < value[1]; i++) {
        if (value[2 + i] > levels[i]) levels[i] = value[2 + i];
    }
}

size_t hyphen_points(const char *letters, size_t length, uint8_t *after) {
    if (length > HYPHEN_MOST_LETTERS || length < HYPHEN_LEAST_BEFORE + HYPHEN_LEAST_AFTER) return 0;
    uint8_t padded[PADDED] = {LETTER_EDGE};
    uint8_t levels[PADDED + 1] = {0}; /* between the characters of `padded`, the first before its first */
    for (size_t i = 0; i < length; i++) padded[i + 1] = (uint8_t)((letters[i] | 0x20) - 'a' + LETTER_A);
    padded[length + 1] = LETTER_EDGE;
    for (size_t start = 0; start < length + 2; start++) {
        unsigned state = 0;
        for (size_t i = start; i < length + 2 && (state = next_state(state, padded[i])) != 0; i++) {
            if (hyphen_value[state]) raise_levels(state, levels + start);
        }
    }
    size_t count = 0;
    for (size_t before = HYPHEN_LEAST_BEFORE; before + HYPHEN_LEAST_AFTER <= length; before++) {
        if (levels[before + 1] & 1) after[count++] = (uint8_t)before;
    }
    return count;
}
