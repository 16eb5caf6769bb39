/* From findings to the story of one dossier. */
#ifndef TB_STORY_DOSSIER_STORY_H
#define TB_STORY_DOSSIER_STORY_H

#include "check/check.h"
#include "stats/findings.h"
#include "story/story.h"

/* What the checks of this run looked at and found. */
typedef struct Audit {
    Checked checked;
    const Reported *found; /* in order of place; errors are none, or there would be no story */
    size_t found_count;
} Audit;

/* Requires findings of a dossier without errors; provides the sections that the layout asks for, in its order, but for
 * the audit. */
const Story *story_dossier(Arena *arena, const Findings *findings, const Layout *layout);

/* The same of several dossiers, at least one, in one document; for layouts that are `joined`. Its name, colour and date
 * are the first one's. */
const Story *story_dossiers(Arena *arena, const Findings *const *findings, size_t count, const Layout *layout);
/* The same with the audit. */
const Story *story_dossier_audited(Arena *arena, const Findings *findings, const Audit *audit, const Layout *layout);

#endif
