/* A profile made by hand and columns of it, for the tests of expressions. */
#ifndef TB_TESTS_HELP_EXPR_H
#define TB_TESTS_HELP_EXPR_H

#include <stdint.h>

#include "base/arena.h"
#include "base/diag.h"
#include "source/columns.h"
#include "source/profile.h"

/* Fields of the profile, in order. */
enum {
    HELP_BASE,       /* choice: set off moving */
    HELP_SHELL,      /* choice: 0-high 1-high 2-high 3-high */
    HELP_HIGHS,      /* derived choice with the values of shell */
    HELP_FAMILY,     /* derived choice: man zone match */
    HELP_DROP,       /* choice: 0 1 3 5 7 boot */
    HELP_PRESSURE,   /* ordered: none hurry hit */
    HELP_BAND,       /* derived ordered: behind short deep */
    HELP_MOTION,     /* yes-no */
    HELP_PASSING,    /* derived yes-no */
    HELP_DEPTH,      /* number */
    HELP_GAIN,       /* number */
    HELP_CONTACT,    /* number */
    HELP_TO_GOAL,    /* derived number, reads the spot */
    HELP_DISTANCE,   /* distance */
    HELP_LAST_PLAIN, /* the fields before are those that an expression may use */
    HELP_SPOT = HELP_LAST_PLAIN,
    HELP_CLOCK,
    HELP_IN,
    HELP_NOTE,
    HELP_FIELDS
};

/* Totals: attempts completions yards touchdowns interceptions c. */
const Profile *help_profile(Arena *arena);

/* Columns of all fields, every state VALUE_KNOWN and every number 0. */
Columns help_columns(Arena *arena, size_t rows);

/* Numbers that are the same on every machine. */
typedef struct Dice {
    uint64_t state;
} Dice;
unsigned dice(Dice *dice, unsigned sides); /* 0 .. sides - 1 */

#endif
