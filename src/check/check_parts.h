/* What the families of checks share: src/check only. */
#ifndef TB_CHECK_CHECK_PARTS_H
#define TB_CHECK_CHECK_PARTS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/diag.h"
#include "check/check.h"
#include "source/dossier.h"

typedef struct Check {
    Arena *arena; /* scratch of this call */
    const Dossier *dossier;
    const Profile *profile;
    Diagnostics *diagnostics;
    Checked checked;
    uint8_t *clashed; /* by row: values of the snap contradict each other; after check_clashes */
    bool values_lost; /* charted values were refused by the reader: what is unknown now may be no fault of the chart */
} Check;

/* ---- the families, in the order in which they run ---- */
void check_order(Check *check);
void check_clashes(Check *check);
void check_chain(Check *check);
void check_boxes(Check *check);
void check_charters(Check *check);
void check_clips(Check *check);
void check_measurables(Check *check);
void check_claims(Check *check);
void check_grades(Check *check);
void check_report(Check *check);

/* ---- charted values. A field the profile lacks is -1 and never known. ---- */
bool check_number(const Check *check, int field, size_t row, double *number); /* false: not known */
bool check_is(const Check *check, int field, size_t row, const char *value);  /* known, and this choice */

/* The snap before `row` was the play before it of the same drive: numbers follow each other (a passer's dossier charts
 * his own snaps, and others leave gaps), and so do drives. Where neither has a drive, the numbers alone say so. */
bool check_follows(const Check *check, int drive, size_t row);

/* Place of a field's value in its snap; of the snap when it is not charted there. */
Place check_value_place(const Check *check, int field, size_t row);

/* Where the ball lies, as charted: "-25", "50", "+25", from yards to the opponent's goal. */
const char *check_spot(const Check *check, double to_goal);

/* A number in plain words of at most `places` decimals: "0.5". */
const char *check_figure(const Check *check, double value, int places);

/* How many rows of the table of clashes compile against the profile; the others speak of fields that it lacks. For
 * tests. */
size_t check_clash_count(const Profile *profile);

/* Rows of the table of clashes, and whether one compiles against the profile. For tests. */
size_t check_clash_rows(void);
bool check_clash_fits(const Profile *profile, size_t row);

#endif
