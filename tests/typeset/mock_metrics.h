/* Fonts of fixed measures for tests: no font file, the same on every machine.
 *
 * Every character is 500 thousandths wide, but i j l t f . , : ; ' ! | ( ) are 250, m w M W are 750; the strong and the
 * display faces are a tenth wider; a space is 250, capitals are 700 high. Full stop, comma and hyphen may hang out by
 * 100. Characters from U+2600 are missing in every face and 1000 wide. */
#ifndef TB_TESTS_MOCK_METRICS_H
#define TB_TESTS_MOCK_METRICS_H

#include "base/arena.h"
#include "typeset/metrics.h"

/* Lives in `arena`. */
Metrics *mock_metrics_new(Arena *arena);

/* How many words were asked for, and how many of them were new. */
size_t mock_metrics_asked(const Metrics *metrics);
size_t mock_metrics_shaped(const Metrics *metrics);

#endif
