/* Snaps made up at random within what a profile allows. They mean nothing; they are for asking which of the profile's
 * selections can hold at all. */
#ifndef TB_SOURCE_SAMPLE_H
#define TB_SOURCE_SAMPLE_H

#include "base/arena.h"
#include "source/columns.h"
#include "source/profile.h"

/* Every charted field has a value within its range wherever it applies, and none where it does not; a distance is at
 * most the yards left. Numbers that the profile's own expressions name come up often. The same for the same seed. */
const Columns *sample_snaps(Arena *arena, const Profile *profile, size_t rows, uint64_t seed);

#endif
