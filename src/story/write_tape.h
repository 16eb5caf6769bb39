/* The figures of "the tape in figures", one function a kind: each adds a figure block bound by the profile to `parent`.
 */
#ifndef TB_STORY_WRITE_TAPE_H
#define TB_STORY_WRITE_TAPE_H

#include "story/write.h"

void tape_add_trend(Writer *writer, Block *parent, const ProfileFigure *bound);
void tape_add_ladder(Writer *writer, Block *parent, const ProfileFigure *bound);
void tape_add_situations(Writer *writer, Block *parent, const ProfileFigure *bound);
void tape_add_ribbons(Writer *writer, Block *parent, const ProfileFigure *bound);

/* Every game, and every opponent met again, in numbers; nothing for a single game. */
void tape_add_games(Writer *writer, Block *parent);

#endif
