#include "typeset/cuts.h"

#include <linebreak.h>
#include <pthread.h>
#include <string.h>

#include "base/text.h"
#include "typeset/hyphen.h"

enum {
    FIRST_SLOTS = 256,
    LEAST_SIDE = 2,             /* characters on either side of a word's own hyphen */
    LEAST_BEFORE = 3,           /* letters before a hyphen that is put in: two are not worth it */
    MOST_WORD_BYTES = 512,      /* a longer word is left whole */
    PUNCTUATION_FIRST = 0x2010, /* dashes and quotes: General Punctuation */
    PUNCTUATION_LAST = 0x2027
};

static pthread_once_t prepared = PTHREAD_ONCE_INIT;

void cuts_prepare(void) {
    pthread_once(&prepared, init_linebreak);
}

static bool is_letter(char byte) {
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z');
}

static bool is_digit(char byte) {
    return byte >= '0' && byte <= '9';
}

/* Nothing but letters, digits and full stops inside: such a word has no place to break, and most words are such. */
static bool is_plain(const Word *word) {
    for (size_t i = 0; i + 1 < word->length; i++) {
        char byte = word->text[i];
        if (!is_letter(byte) && !is_digit(byte) && byte != '.' && byte != '\'') return false;
    }
    return true;
}

/* ---- widths of what a cut leaves ---- */

static const Word *character_at(Metrics *metrics, const Word *word, size_t at, size_t *length) {
    text_decode(word->text + at, word->text + word->length, length);
    return metrics->word(metrics, word->face, word->text + at, *length, false);
}

/* Sum of the widths of single characters from the start of the word to `end`. */
static double sum_widths(CutCache *cache, Metrics *metrics, const Word *word, size_t end) {
    double sum = 0;
    size_t length = 1;
    for (size_t at = 0; at < end; at += length) {
        unsigned char byte = (unsigned char)word->text[at];
        float *known = byte < CUT_ASCII ? &cache->widths[word->face][byte] : NULL;
        length = 1;
        if (known && *known > 0) {
            sum += (double)*known;
            continue;
        }
        double width = character_at(metrics, word, at, &length)->width;
        if (known) *known = (float)width;
        sum += width;
    }
    return sum;
}

/* Shares the word's width, kerned as a whole, by the widths of its single characters. */
static Cut new_cut(CutCache *cache, Metrics *metrics, const Word *word, size_t end, size_t at, bool soft) {
    Cut cut = {.end = end, .at = at, .soft = soft};
    const Word *hyphen = soft ? metrics->word(metrics, word->face, "-", 1, false) : NULL;
    double whole = sum_widths(cache, metrics, word, word->length);
    double unit = whole > 0 ? word->width / whole : 0;
    size_t length = 0;
    cut.left = unit * sum_widths(cache, metrics, word, end) + (hyphen ? hyphen->width : 0);
    cut.right = word->width - unit * sum_widths(cache, metrics, word, at);
    cut.hang_end = hyphen ? hyphen->right_bearing : character_at(metrics, word, end - 1, &length)->right_bearing;
    cut.hang_start = character_at(metrics, word, at, &length)->left_bearing;
    return cut;
}

const Word *cuts_piece(Metrics *metrics, const Word *word, const Cut *from, const Cut *to) {
    size_t start = from ? from->at : 0;
    size_t end = to ? to->end : word->length;
    if (!from && !to) return word;
    return metrics->word(metrics, word->face, word->text + start, end - start, to ? to->soft : word->soft);
}

/* ---- a word's own hyphens and dashes ---- */

/* A soft hyphen of the word's own is drawn only where the word breaks at it. */
static Cut own_cut(CutCache *cache, Metrics *metrics, const Word *word, size_t at) {
    bool soft = at > 2 && !memcmp(word->text + at - 2, "\xC2\xAD", 2);
    return new_cut(cache, metrics, word, soft ? at - 2 : at, at, soft);
}

/* A number that goes on after a dash stays whole, and so does a word of next to nothing before or after it. */
static bool may_cut(const Word *word, size_t at) {
    if (is_digit(word->text[at])) return false;
    return text_characters(word->text, at) >= LEAST_SIDE &&
           text_characters(word->text + at, word->length - at) >= LEAST_SIDE;
}

static size_t own_cuts(CutCache *cache, Metrics *metrics, const Word *word, Cut *cuts) {
    if (is_plain(word) || word->length > MOST_WORD_BYTES) return 0;
    char breaks[MOST_WORD_BYTES + 1];
    size_t count = 0;
    set_linebreaks_utf8((const utf8_t *)word->text, word->length, "en", breaks);
    for (size_t i = 0; i + 1 < word->length; i++) {
        if (breaks[i] != LINEBREAK_ALLOWBREAK || !may_cut(word, i + 1)) continue;
        cuts[count++] = own_cut(cache, metrics, word, i + 1);
    }
    return count;
}

bool cuts_between(Arena *arena, const Word *left, const Word *right) {
    size_t length = left->length + right->length;
    if (!left->length || !right->length || is_digit(right->text[0]) || is_letter(left->text[left->length - 1]))
        return false;
    char *text = arena_alloc(arena, length + 1);
    char *breaks = arena_alloc(arena, length + 1);
    memcpy(text, left->text, left->length);
    memcpy(text + left->length, right->text, right->length);
    set_linebreaks_utf8((const utf8_t *)text, length, "en", breaks);
    return breaks[left->length - 1] == LINEBREAK_ALLOWBREAK;
}

/* ---- hyphenation ---- */

/* The word's letters when it is letters a-z with punctuation before and after and nothing else; length 0 when not. */
static size_t letters_of(const Word *word, CutLevel level, size_t *length) {
    const char *text = word->text;
    size_t start = 0;
    while (start < word->length && !is_letter(text[start])) start++;
    size_t end = start;
    while (end < word->length && is_letter(text[end])) end++;
    *length = end - start;
    for (size_t i = 0, step; i < word->length; i += step) {
        uint32_t character = text_decode(text + i, text + word->length, &step);
        bool inside = i >= start && i < end;
        bool known = character < 0x80 || (character >= PUNCTUATION_FIRST && character <= PUNCTUATION_LAST);
        bool letter = character < 0x80 && (is_letter(text[i]) || is_digit(text[i]));
        bool capital = inside && character < 'a';
        if (!known || (letter && !inside) || (capital && level < CUT_CAPITALS)) *length = 0;
    }
    return start;
}

static size_t pattern_cuts(CutCache *cache, Metrics *metrics, const Word *word, CutLevel level, Cut *cuts) {
    size_t length;
    size_t start = letters_of(word, level, &length);
    uint8_t after[HYPHEN_MOST_LETTERS];
    size_t points = hyphen_points(word->text + start, length, after);
    size_t count = 0;
    for (size_t i = 0; i < points; i++) {
        size_t at = start + after[i];
        if (after[i] < LEAST_BEFORE) continue;
        cuts[count++] = new_cut(cache, metrics, word, at, at, true);
    }
    return count;
}

static WordCuts find_cuts(CutCache *cache, Arena *arena, Metrics *metrics, const Word *word, CutLevel level) {
    Cut cuts[MOST_WORD_BYTES];
    size_t count = own_cuts(cache, metrics, word, cuts);
    if (!count && level >= CUT_HYPHENS) count = pattern_cuts(cache, metrics, word, level, cuts);
    Cut *kept = NULL;
    if (count) {
        kept = ARENA_ARRAY(arena, count, Cut);
        memcpy(kept, cuts, count * sizeof *kept);
    }
    return (WordCuts){word, level, kept, count};
}

/* ---- the cache ---- */

static size_t slot_of(const CutCache *cache, const Word *word, CutLevel level) {
    uint64_t key = (uint64_t)(uintptr_t)word * 4 + (uint64_t)level;
    size_t slot = (size_t)(key * 0x9E3779B97F4A7C15u >> 32) & (cache->room - 1);
    while (cache->slots[slot].word && (cache->slots[slot].word != word || cache->slots[slot].level != level)) {
        slot = (slot + 1) & (cache->room - 1);
    }
    return slot;
}

static void grow(CutCache *cache, Arena *arena) {
    CutCache larger = *cache;
    larger.room = cache->room ? cache->room * 2 : FIRST_SLOTS;
    larger.slots = ARENA_ARRAY(arena, larger.room, WordCuts);
    for (size_t i = 0; i < cache->room; i++) {
        const WordCuts *entry = &cache->slots[i];
        if (entry->word) larger.slots[slot_of(&larger, entry->word, entry->level)] = *entry;
    }
    *cache = larger;
}

WordCuts cuts_find(CutCache *cache, Arena *arena, Metrics *metrics, const Word *word, CutLevel level) {
    if (level == CUT_OWN && is_plain(word)) return (WordCuts){.word = word};
    if (cache->count * 2 >= cache->room) grow(cache, arena);
    WordCuts *entry = &cache->slots[slot_of(cache, word, level)];
    if (!entry->word) {
        *entry = find_cuts(cache, arena, metrics, word, level);
        cache->count++;
    }
    return *entry;
}
