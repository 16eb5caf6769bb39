/* From a snap's chart to a picture of it. */
#ifndef TB_STORY_PLAY_H
#define TB_STORY_PLAY_H

#include "base/arena.h"
#include "source/dossier.h"
#include "story/figures.h"

/* What is charted of a snap, as far as a drawing needs it: words as charted, NULL where they are not; numbers NaN. */
typedef struct PlaySnap {
    const char *hash;
    const char *personnel, *backfield, *formation, *motion, *drop;
    const char *runner; /* how the man of the route lined up, in the profile's words */
    const char *route, *side, *window;
    const char *shell, *coverage, *front, *sub, *call;
    double to_goal, distance, depth, read, rushers, box;
    bool jumbo;
    bool caught;
} PlaySnap;

/* Reads row `row` by the ids of the shared sets' fields; what the profile lacks is not charted. */
PlaySnap play_snap(const Dossier *dossier, int row);

/* The picture of a snap, by the templates and by what `key` gives, which takes precedence; `key` may be NULL.
 * Everything in it is on the field. `title` begins the text alternative. */
const Figure *play_figure(Arena *arena, const Plays *plays, FieldLevel level, const PlaySnap *snap, const KeySnap *key,
                          const char *title);

/* Which marks the figure has. */
void play_parts(const PlayFigure *play, PlayKey *key);

#endif
