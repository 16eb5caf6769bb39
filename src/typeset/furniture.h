/* What stands on every page: running head, foot, edge tab. None of it is read aloud. */
#ifndef TB_TYPESET_FURNITURE_H
#define TB_TYPESET_FURNITURE_H

#include "typeset/flow.h"

/* True for a right-hand page; every page of a document for one side of the paper counts as one. `number` from 1. */
bool furniture_is_recto(const Layout *layout, size_t number);

/* "QB · 3", in the arena. */
const char *furniture_label(Arena *arena, const Story *story, size_t number);

/* Draws the furniture of page `number` of the flow; `section` may be NULL. */
void furniture_draw(Flow *flow, size_t number, const char *section);

#endif
