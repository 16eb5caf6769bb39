/* The passes of findings_compute; each fills its own part of the findings. */
#ifndef TB_STATS_FINDINGS_PARTS_H
#define TB_STATS_FINDINGS_PARTS_H

#include "stats/findings.h"
#include "stats/survey.h"

/* Requires the survey; provides totals and estimates of all, of each slice, each game and each opponent. */
void findings_count(Arena *arena, Findings *findings);

/* Requires the survey; provides the throw fields and the situation table. */
void findings_place(Arena *arena, Findings *findings);

/* Requires the survey: begins to draw what the test takes, beside the passes up to findings_test. */
typedef struct Tester Tester;
Tester *findings_draw(Findings *findings);

/* Requires estimates; provides the claims and the intervals of all but rates. Frees the tester. */
void findings_test(Arena *arena, Tester *tester);

/* Provides the nearest comparables. */
void findings_compare(Arena *arena, Findings *findings);

/* Requires the survey; provides measurables, traits, composite and the overall grades. */
void findings_judge(Arena *arena, Findings *findings);

#endif
