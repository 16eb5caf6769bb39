#include "pdf/book.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

enum { FIRST_SLOTS = 2048 };

/* A word with all that is kept for it, in one piece of the arena. */
typedef struct Entry {
    Word word;
    GlyphRun run;
    uint64_t hash;
} Entry;

static uint64_t mix(uint64_t hash, uint64_t value) {
    hash = (hash ^ value) * 0x9E3779B97F4A7C15ULL;
    return hash ^ hash >> 29;
}

static uint64_t hash_of(Face face, const char *text, size_t length, bool soft) {
    uint64_t hash = mix(length, (uint64_t)face * 2 + soft);
    for (; length >= sizeof(uint64_t); length -= sizeof(uint64_t), text += sizeof(uint64_t)) {
        uint64_t value;
        memcpy(&value, text, sizeof value);
        hash = mix(hash, value);
    }
    uint64_t rest = 0;
    memcpy(&rest, text, length);
    return mix(hash, rest);
}

static bool is_entry(const Entry *entry, uint64_t hash, Face face, const char *text, size_t length, bool soft) {
    const Word *word = &entry->word;
    return entry->hash == hash && word->face == face && word->soft == soft && word->length == length &&
           !memcmp(word->text, text, length);
}

static void grow(FontBook *book) {
    size_t room = book->slot_room ? book->slot_room * 2 : FIRST_SLOTS;
    void **slots = mem_alloc(room * sizeof *slots);
    for (size_t at = 0; at < book->slot_room; at++) {
        Entry *entry = book->slots[at];
        if (!entry) continue;
        size_t slot = entry->hash & (room - 1);
        while (slots[slot]) slot = (slot + 1) & (room - 1);
        slots[slot] = entry;
    }
    free(book->slots);
    book->slots = slots;
    book->slot_room = room;
}

static Entry *new_entry(FontBook *book, uint64_t hash, Face face, const char *text, size_t length, bool soft) {
    Entry *entry = ARENA_NEW(book->arena, Entry);
    entry->hash = hash;
    entry->word = (Word){.text = arena_copy(book->arena, text, length), .length = length, .face = face, .soft = soft};
    shape_word(&book->shaper, &entry->word, &entry->run);
    book->word_count++;
    return entry;
}

static FontBook *book_of(Metrics *metrics) {
    return (FontBook *)(void *)metrics;
}

static const Word *word(Metrics *metrics, Face face, const char *text, size_t length, bool soft) {
    FontBook *book = book_of(metrics);
    if (book->word_count * 2 >= book->slot_room) grow(book);
    uint64_t hash = hash_of(face, text, length, soft);
    size_t slot = hash & (book->slot_room - 1);
    for (; book->slots[slot]; slot = (slot + 1) & (book->slot_room - 1))
        if (is_entry(book->slots[slot], hash, face, text, length, soft)) return &((Entry *)book->slots[slot])->word;
    Entry *entry = new_entry(book, hash, face, text, length, soft);
    book->slots[slot] = entry;
    return &entry->word;
}

static const LoadedFace *prepared(Metrics *metrics, Face face) {
    LoadedFace *loaded = &book_of(metrics)->faces[face];
    face_prepare(loaded);
    return loaded;
}

static double space(Metrics *metrics, Face face) {
    return prepared(metrics, face)->space;
}

static double cap_height(Metrics *metrics, Face face) {
    return prepared(metrics, face)->cap_height;
}

static bool open_face(LoadedFace *face, const FaceInfo *info, const char *path) {
    if (!face_open(face, info, path)) return false;
    face->common = common_find(face_checksum(face), hb_blob_get_length(face->blob));
    return true;
}

/* HarfBuzz's plan for a face takes a hundred times as long as a word, so it is made here, by shaping two letters. */
static void plan_shaping(FontBook *book, Face face) {
    static const char letters[] = "fi";
    Word word = {.text = letters, .length = sizeof letters - 1, .face = face};
    GlyphRun run = {0};
    shape_word(&book->shaper, &word, &run);
}

static bool open_faces(FontBook *book, const char *folder, Diagnostics *diagnostics) {
    for (int face = 0; face < FACE_COUNT; face++) {
        const char *path = arena_printf(book->arena, "%s/%s", folder, face_table[face].file);
        if (open_face(&book->faces[face], &face_table[face], path)) continue;
        const char *why = errno == EINVAL ? "it is not a font" : strerror(errno);
        diag_report(diagnostics, RULE_FILE_READ, (Place){0}, NULL, "cannot read the font '%s': %s", path, why);
        return false;
    }
    return true;
}

FontBook *fonts_open(const char *folder, Diagnostics *diagnostics) {
    FontBook *book = mem_alloc(sizeof(FontBook));
    book->metrics = (Metrics){word, space, cap_height};
    book->arena = arena_new();
    book->shaper.arena = book->arena;
    book->shaper.faces = book->faces;
    book->shaper.buffer = hb_buffer_create();
    book->shaper.scratch = hb_buffer_create();
    if (!open_faces(book, folder, diagnostics)) {
        fonts_close(book);
        return NULL;
    }
    for (int face = 0; face < FACE_COUNT; face++) plan_shaping(book, (Face)face);
    return book;
}

Metrics *fonts_metrics(FontBook *book) {
    return &book->metrics;
}

void fonts_close(FontBook *book) {
    if (!book) return;
    for (int face = 0; face < FACE_COUNT; face++) face_close(&book->faces[face]);
    hb_buffer_destroy(book->shaper.buffer);
    hb_buffer_destroy(book->shaper.scratch);
    free(book->shaper.glyphs);
    buf_free(&book->shaper.bytes);
    free(book->slots);
    arena_free(book->arena);
    free(book);
}
