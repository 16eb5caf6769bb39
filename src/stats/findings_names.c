#include "stats/findings_names.h"

const char *findings_slice_name(const Profile *profile, int slice) {
    return slice == ESTIMATE_ALL ? "all" : profile->slices[slice].id;
}

const char *findings_against_name(const Profile *profile, const Claim *claim) {
    if (claim->against == CLAIM_AGAINST_REST) return "rest";
    if (claim->against == CLAIM_AGAINST_STANDARD) return "standard";
    return profile->slices[claim->against].id;
}

const char *findings_unit_name(const Measurable *measurable) {
    static const char *const NAMES[] = {
        [UNIT_INCH] = "inch", [UNIT_POUND] = "pound", [UNIT_SECOND] = "second", [UNIT_COUNT] = "count"};
    const MeasurableInfo *info = measurable_info(measurable->id);
    return info ? NAMES[info->unit] : "";
}
