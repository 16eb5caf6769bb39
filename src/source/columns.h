/* Charted snaps as columns of typed values with their state. Row r of every column is the same snap, in order of the
 * dossier's games and charts. */
#ifndef TB_SOURCE_COLUMNS_H
#define TB_SOURCE_COLUMNS_H

#include <stddef.h>
#include <stdint.h>

/* Unknown is not false, and not applicable is not unknown. */
typedef enum ValueState {
    VALUE_KNOWN,
    VALUE_UNKNOWN,       /* applies, was not charted */
    VALUE_NOT_APPLICABLE /* its `when` is false: every comparison with it is false */
} ValueState;

/* `number` by type of field:
 *   number      the number itself
 *   choice, ordered, yes-no, derived choices: the interned id of the value (Profile.words), compared for equality only
 *   spot        yards to the opponent's goal, 1..99
 *   distance    yards to go (goal: the yards left)
 *   clock       seconds left in the quarter
 *   time        seconds on the film
 *   text        0; the words themselves are in Snap.texts */
typedef struct Column {
    double *number;
    uint8_t *state; /* ValueState */
} Column;

typedef struct Columns {
    size_t rows;
    size_t count;     /* as many as Profile.fields */
    Column *columns;  /* by field index, derived fields included */
    uint8_t *counted; /* 1: measures count the row (not a no-play, not a try) */
    uint16_t *game;   /* index of the game in Dossier.games */
} Columns;

#endif
