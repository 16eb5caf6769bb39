#include "typeset/mock_metrics.h"

#include <string.h>

#include "base/text.h"

enum { SLOTS = 4096, NARROW = 250, NORMAL = 500, WIDE = 750, HYPHEN = 250, HANG = 100, MISSING_FROM = 0x2600 };

typedef struct Entry Entry;
struct Entry {
    Word word;
    Entry *next;
};

typedef struct MockMetrics {
    Metrics metrics; /* first, so that the callbacks find the rest */
    Arena *arena;
    Entry *slots[SLOTS];
    size_t asked, shaped;
} MockMetrics;

static double character_width(uint32_t character) {
    if (character >= MISSING_FROM) return 2 * NORMAL;
    if (character < 0x80 && strchr("ijltf.,:;'!|()", (int)character)) return NARROW;
    if (character < 0x80 && strchr("mwMW", (int)character)) return WIDE;
    return NORMAL;
}

static double hang(const char *text, size_t length, bool soft) {
    return soft || (length && strchr(".,-", text[0])) ? HANG : 0;
}

static void measure(Word *word) {
    size_t step = 0;
    for (size_t i = 0; i < word->length; i += step) {
        uint32_t character = text_decode(word->text + i, word->text + word->length, &step);
        word->width += character_width(character);
        if (character >= MISSING_FROM) word->missing = true;
    }
    if (word->soft) word->width += HYPHEN;
    if (word->face == FACE_STRONG || word->face == FACE_PROSE_STRONG || word->face == FACE_DISPLAY) word->width *= 1.1;
    word->left_bearing = hang(word->text, word->length, false);
    word->right_bearing = hang(word->text + (word->length ? word->length - 1 : 0), word->length, word->soft);
}

static const Word *mock_word(Metrics *metrics, Face face, const char *text, size_t length, bool soft) {
    MockMetrics *mock = (MockMetrics *)metrics;
    unsigned hash = (unsigned)face * 2 + soft;
    for (size_t i = 0; i < length; i++) hash = hash * 31 + (unsigned char)text[i];
    mock->asked++;
    for (Entry *entry = mock->slots[hash % SLOTS]; entry; entry = entry->next) {
        const Word *word = &entry->word;
        bool same = word->face == face && word->soft == soft && word->length == length;
        if (same && !memcmp(word->text, text, length)) return word;
    }
    Entry *entry = ARENA_NEW(mock->arena, Entry);
    entry->word = (Word){.text = arena_copy(mock->arena, text, length), .length = length, .face = face, .soft = soft};
    measure(&entry->word);
    entry->next = mock->slots[hash % SLOTS];
    mock->slots[hash % SLOTS] = entry;
    mock->shaped++;
    return &entry->word;
}

static double mock_space(Metrics *metrics, Face face) {
    (void)metrics;
    (void)face;
    return NARROW;
}

static double mock_cap_height(Metrics *metrics, Face face) {
    (void)metrics;
    (void)face;
    return 700;
}

Metrics *mock_metrics_new(Arena *arena) {
    MockMetrics *mock = ARENA_NEW(arena, MockMetrics);
    mock->metrics = (Metrics){mock_word, mock_space, mock_cap_height};
    mock->arena = arena;
    return &mock->metrics;
}

size_t mock_metrics_asked(const Metrics *metrics) {
    return ((const MockMetrics *)metrics)->asked;
}

size_t mock_metrics_shaped(const Metrics *metrics) {
    return ((const MockMetrics *)metrics)->shaped;
}
