/* Making stories by hand, typesetting them with fixed fonts, and looking at what came of it. */
#ifndef TB_TESTS_HELP_STORY_H
#define TB_TESTS_HELP_STORY_H

#include <stdint.h>

#include "base/arena.h"
#include "base/diag.h"
#include "story/story.h"
#include "typeset/typeset.h"

/* Everything of one test; freed by scene_end. */
typedef struct Scene {
    Arena *arena;
    Metrics *metrics;
    Diagnostics *diagnostics;
    Layout layout; /* Letter, both sides, grid of 12 */
    Story story;   /* with an empty document */
} Scene;

void scene_begin(Scene *scene);
void scene_end(Scene *scene);
const Pages *scene_pages(Scene *scene);

/* ---- blocks ---- */
Block *scene_block(Scene *scene, Block *parent, BlockKind kind);
Block *scene_section(Scene *scene, const char *title, const char *note);
Block *scene_head(Scene *scene, Block *parent, int level, const char *title);
/* In the text, *strong*, _emphasis_, {a figure} and [link] (to the place "at-link"). */
Block *scene_paragraph(Scene *scene, Block *parent, ParagraphStyle style, const char *text);
Words scene_words(Scene *scene, const char *text);
/* Rows of `columns` cells "r1c1"; without widths and heads, which the caller may fill in. */
Table *scene_table(Scene *scene, Block *parent, size_t rows, size_t columns);
/* `count` words of two to nine letters that look like English. */
const char *scene_prose(Scene *scene, size_t count, uint32_t *seed);
uint32_t scene_random(uint32_t *seed);

/* ---- what came of it ---- */

/* Fails unless structure elements nest and are closed, words stand on the page, and links lead to anchors. */
void scene_check(const Pages *pages);

/* All words outside artifacts, a space between, "|" between pages; a hyphen that was put in is taken out again. */
char *scene_text(Scene *scene, const Pages *pages);

/* The page (from 1) and baseline of the first mark outside furniture that has `word` among its words; page 0: nowhere.
 */
typedef struct Found {
    size_t page;
    double x, y;
    const Mark *mark;
} Found;
Found scene_find(const Pages *pages, const char *word);

/* How often a structure element of that role begins. */
size_t scene_count(const Pages *pages, Role role);

#endif
