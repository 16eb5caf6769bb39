/* A page with metrics that never change: every character of a face is equally wide. For the tests of figures. */
#ifndef TB_TESTS_FIXED_CANVAS_H
#define TB_TESTS_FIXED_CANVAS_H

#include <string.h>

#include "base/text.h"
#include "typeset/canvas.h"

typedef struct FixedMetrics {
    Metrics metrics;
    Arena *arena;
} FixedMetrics;

/* Near the mean advances of a condensed sans and a text serif, thousandths. */
static const double FIXED_WIDTHS[FACE_COUNT] = {
    [FACE_PROSE] = 500,   [FACE_PROSE_ITALIC] = 480, [FACE_PROSE_STRONG] = 540, [FACE_HEAD] = 520,
    [FACE_DISPLAY] = 520, [FACE_PLAIN] = 430,        [FACE_MEDIUM] = 445,       [FACE_STRONG] = 460,
};

static inline const Word *fixed_word(Metrics *metrics, Face face, const char *text, size_t length, bool soft) {
    FixedMetrics *fixed = (FixedMetrics *)(void *)metrics;
    Word *word = ARENA_NEW(fixed->arena, Word);
    word->text = arena_copy(fixed->arena, text, length);
    word->length = length;
    word->face = face;
    word->width = FIXED_WIDTHS[face] * (double)text_characters(text, length);
    word->soft = soft;
    return word;
}

static inline double fixed_space(Metrics *metrics, Face face) {
    (void)metrics;
    return FIXED_WIDTHS[face] / 2;
}

static inline double fixed_cap_height(Metrics *metrics, Face face) {
    (void)metrics;
    (void)face;
    return 690;
}

/* A canvas on a page of its own; all memory is the arena's. */
static inline Canvas *fixed_canvas(Arena *arena) {
    FixedMetrics *fixed = ARENA_NEW(arena, FixedMetrics);
    fixed->metrics = (Metrics){.word = fixed_word, .space = fixed_space, .cap_height = fixed_cap_height};
    fixed->arena = arena;
    Page *page = ARENA_NEW(arena, Page);
    *page = (Page){.width = 612, .height = 792, .label = "1"};
    Canvas *canvas = ARENA_NEW(arena, Canvas);
    *canvas = (Canvas){.arena = arena, .metrics = &fixed->metrics, .page = page};
    return canvas;
}

#endif
