/* A small profile, and dossiers charted against it from lines of text. */
#ifndef TB_TESTS_HELP_STATS_H
#define TB_TESTS_HELP_STATS_H

#include "base/arena.h"
#include "base/diag.h"
#include "source/dossier.h"

/* Fields, in the order in which a line charts them. */
typedef enum HelpField {
    HELP_THROWN,
    HELP_SHELL,
    HELP_DEPTH,
    HELP_PLACEMENT,
    HELP_GAIN,
    HELP_DOWN,
    HELP_BAND,
    HELP_SIDE,
    HELP_FIELDS
} HelpField;
typedef enum HelpSlice { HELP_MAN, HELP_ZONE, HELP_DEEP, HELP_SLICES } HelpSlice;
typedef enum HelpTotal { HELP_ATTEMPTS, HELP_COMPLETIONS, HELP_YARDS, HELP_TOTALS } HelpTotal;
typedef enum HelpMeasure {
    HELP_ON_TARGET,
    HELP_TARGET_DEPTH,
    HELP_PER_ATTEMPT,
    HELP_EFFICIENCY,
    HELP_MEASURES
} HelpMeasure;

typedef struct Help {
    Arena *arena;
    Diagnostics *diagnostics;
    Profile *profile;
    Dossier *dossier;
} Help;

/* The profile, with a dossier of no snaps. */
Help help_new(void);
void help_free(Help *help);

/* Charts `count` lines "game thrown shell depth placement gain down band side": ? is unknown, - not applicable. A line
 * that begins with ! is not counted. Games are numbered from 0 and met one opponent each, "North" and "South" in turn.
 */
void help_chart(Help *help, const char *const *lines, size_t count);

/* Makes room for `rows` thrown snaps of `games` equal games, all fields known, and charts one. */
void help_rows(Help *help, size_t rows, size_t games);
void help_set(Help *help, size_t row, HelpField field, double value);
void help_word(Help *help, size_t row, HelpField field, const char *word);

Claim *help_claims(Help *help, size_t count);
const Expr *help_selection(Help *help, const char *source);

/* Uniform in 0..1, a fixed sequence from `*seed` (xorshift, Marsaglia 2003). */
double help_random(uint64_t *seed);

#endif
