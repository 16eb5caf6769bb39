/* Checks of a profile that loads: what would print without words, weights that do not sum, selections that no snap can
 * satisfy, figures that cannot be drawn. Changes nothing; provides findings. */
#ifndef TB_CHECK_LINT_H
#define TB_CHECK_LINT_H

#include "base/diag.h"
#include "source/profile.h"

/* `path`: only what stands in this file is told, as when a set is checked through a profile that uses it; NULL: all. */
void lint_profile(const Profile *profile, const char *path, Diagnostics *diagnostics);

#endif
