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

/* Widths and hangs are thousandths of the size, estimated from single characters: only the halves that a paragraph ends
 * up with are shaped, and lines are filled by what those measure. */
typedef struct Cut {
    size_t end;  /* bytes of the left half */
    size_t at;   /* where the right half begins */
    bool soft;   /* a hyphen is drawn that the word does not have */
    double left; /* width of the left half, its hyphen included */
    double right;
    double hang_end, hang_start; /* of the left half's end and the right half's start */
} Cut;

typedef struct WordCuts {
    const Word *word;
    CutLevel level;
    const Cut *cuts; /* from left to right */
    size_t count;
} WordCuts;

enum { CUT_ASCII = 128 };

/* `{0}` is empty. Lives in the arena of the story. */
typedef struct CutCache {
    WordCuts *slots; /* open addressing, a power of two */
    size_t room, count;
    float widths[FACE_COUNT][CUT_ASCII]; /* of single characters; 0: not yet asked for */
} CutCache;

/* What may be done to `word`; its cuts live as long as the arena. */
WordCuts cuts_find(CutCache *cache, Arena *arena, Metrics *metrics, const Word *word, CutLevel level);

/* What stands of a word between two cuts, shaped; `from` NULL: from its start, `to` NULL: to its end. */
const Word *cuts_piece(Metrics *metrics, const Word *word, const Cut *from, const Cut *to);

/* True when a line may end between two words that no space parts. */
bool cuts_between(Arena *arena, const Word *left, const Word *right);

/* Prepares libunibreak; call before any other of these. Safe from any thread. */
void cuts_prepare(void);

#endif
