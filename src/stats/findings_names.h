/* Names of sides and units in the outputs of findings. */
#ifndef TB_STATS_FINDINGS_NAMES_H
#define TB_STATS_FINDINGS_NAMES_H

#include "stats/findings.h"

const char *findings_slice_name(const Profile *profile, int slice);            /* id, or "all" */
const char *findings_against_name(const Profile *profile, const Claim *claim); /* id, "rest" or "standard" */
const char *findings_unit_name(const Measurable *measurable);                  /* "inch", "pound", "second", "count" */

#endif
