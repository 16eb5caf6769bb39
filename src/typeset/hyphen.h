/* Hyphenation by patterns: F. M. Liang, "Word Hy-phen-a-tion by Com-put-er", Stanford 1983. The patterns are those of
 * the US English dictionary of libhyphen, turned into a table when the program is built (hyphen_make.c). */
#ifndef TB_TYPESET_HYPHEN_H
#define TB_TYPESET_HYPHEN_H

#include <stddef.h>
#include <stdint.h>

enum {
    HYPHEN_MOST_LETTERS = 63, /* longer words are left whole */
    HYPHEN_LEAST_BEFORE = 2,  /* letters before a break and after it, as the dictionary asks */
    HYPHEN_LEAST_AFTER = 3
};

/* Where a word of the letters a-z, in any case, may be broken: stores how many letters stand before each break, rising,
 * and returns how many breaks there are. `after` has room for HYPHEN_MOST_LETTERS. */
size_t hyphen_points(const char *letters, size_t length, uint8_t *after);

#endif
