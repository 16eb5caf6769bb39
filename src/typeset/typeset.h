/* Blocks to pages: line breaking, tables, figures, pagination. */
#ifndef TB_TYPESET_TYPESET_H
#define TB_TYPESET_TYPESET_H

#include "base/arena.h"
#include "base/diag.h"
#include "source/house.h"
#include "story/story.h"
#include "typeset/metrics.h"
#include "typeset/pages.h"

/* Requires a complete story and metrics; provides pages in reading order. Overfull lines and missing glyphs are
 * reported. */
const Pages *typeset_story(Arena *arena, const Story *story, const Layout *layout, Metrics *metrics,
                           Diagnostics *diagnostics);

#endif
