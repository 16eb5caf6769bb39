/* From findings to the story of one dossier. */
#ifndef TB_STORY_DOSSIER_STORY_H
#define TB_STORY_DOSSIER_STORY_H

#include "stats/findings.h"
#include "story/story.h"

/* Requires findings of a dossier without errors; provides the sections that the layout asks for, in its order. */
const Story *story_dossier(Arena *arena, const Findings *findings, const Layout *layout);

#endif
