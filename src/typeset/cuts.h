/* Where a word may be cut at the end of a line: after its own hyphens and dashes (the Unicode line breaking algorithm,
 * UAX 14, through libunibreak), or by hyphenation. Each word is looked at once. */
#ifndef TB_TYPESET_CUTS_H
#define TB_TYPESET_CUTS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "typeset/metrics.h"

/* How much may be done to a word. */
typedef enum CutLevel {
    CUT_OWN,     /* only its own hyphens and dashes */
    CUT_HYPHENS, /* hyphenation of words in small letters: names stay whole */
    CUT_CAPITALS /* of any word */
} CutLevel;

typedef struct Cut {
    const Word *left, *right; /* both halves, shaped */
    size_t at;                /* bytes of the word before the cut */
    bool soft;                /* a hyphen is drawn that the word does not have */
} Cut;

typedef struct WordCuts {
    const Word *word;
    CutLevel level;
    const Cut *cuts; /* from left to right */
    size_t count;
} WordCuts;

/* `{0}` is empty. Lives in the arena of the story. */
typedef struct CutCache {
    WordCuts *slots; /* open addressing, a power of two */
    size_t room, count;
} CutCache;

/* What may be done to `word`; its cuts live as long as the arena. */
WordCuts cuts_find(CutCache *cache, Arena *arena, Metrics *metrics, const Word *word, CutLevel level);

/* True when a line may end between two words that no space parts. */
bool cuts_between(Arena *arena, const Word *left, const Word *right);

/* Prepares libunibreak; call before any other of these. Safe from any thread. */
void cuts_prepare(void);

#endif
