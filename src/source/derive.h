/* What follows from charted values: derived fields and which rows count, whole columns at a time. */
#ifndef TB_SOURCE_DERIVE_H
#define TB_SOURCE_DERIVE_H

#include "base/arena.h"
#include "source/columns.h"
#include "source/profile.h"

/* Fills the column of a derived field from those of the fields it needs, which come before it in Profile.order. `truth`
 * has room for the rows. */
void derive_field(Arena *arena, const Profile *profile, int field, const Columns *columns, uint8_t *truth);

/* Fills Columns.counted when all fields are there: 0 where the profile surely does not count the row. */
void derive_counted(const Profile *profile, const Columns *columns, uint8_t *truth);

#endif
