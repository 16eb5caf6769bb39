/* The trade's ways of writing a measurement.
 *
 *   height    6043 (6 ft 4 3/8 in: feet, inches, eighths), 6-4.375, 76.375, 76 3/8, 194 cm
 *   weight    226, 226 lb, 102.5 kg
 *   hand, arm, wingspan   0968 (9 6/8), 3248 (32 4/8), 9 6/8, 9.75, 24.8 cm
 *   forty, ten, twenty, cone, shuttle   4.81, 4.81h (hand-timed)
 *   vertical  34.5, 34 1/2
 *   broad     0903 or 903 (9 ft 3 in), 9-3, 111
 *   bench     22 */
#ifndef TB_SOURCE_NOTATION_H
#define TB_SOURCE_NOTATION_H

#include <stdbool.h>

#include "base/arena.h"

typedef enum NotationUnit { UNIT_INCH, UNIT_POUND, UNIT_SECOND, UNIT_COUNT } NotationUnit;

typedef struct MeasurableInfo {
    const char *id;    /* "height" */
    const char *label; /* "Height" */
    NotationUnit unit;
    double human_low, human_high; /* outside: an error; the bounds are from memory */
} MeasurableInfo;

/* NULL for a kind the trade does not measure. */
const MeasurableInfo *measurable_info(const char *id);
const MeasurableInfo *measurable_info_at(int index); /* NULL past the last */

/* Reads `text` as the trade writes a measurable of this kind. `hand_timed` is set by a trailing h. False when
 * unreadable. */
bool notation_read(const MeasurableInfo *info, const char *text, double *value, bool *hand_timed)
    __attribute__((warn_unused_result));

/* In plain words with Unicode fractions: "6 ft 4⅜ in", "9¾ in", "4.81 s", "226 lb", "9 ft 3 in", "22". */
const char *notation_plain(Arena *arena, const MeasurableInfo *info, double value);

/* In the trade's own digits: "6043", "0968", "4.81", "226", "0903". */
const char *notation_trade(Arena *arena, const MeasurableInfo *info, double value);

#endif
