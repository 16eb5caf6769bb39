/* Charted texts to numbers, as the columns hold them. */
#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "source/dossier_parts.h"

enum { MIDFIELD = 50, FIELD_YARDS = 100, MINUTE = 60, HOUR = 3600, MOST_DIGITS = 6 };

/* How far a decimal may be from its step, in steps. */
static const double step_slack = 1e-6;

/* Reads 1 to MOST_DIGITS digits and moves behind them; false when there are none or too many. */
static bool digits(const char **at, int *number) {
    size_t length = strspn(*at, "0123456789");
    if (length == 0 || length > MOST_DIGITS) return false;
    *number = 0;
    for (size_t i = 0; i < length; i++) *number = *number * 10 + ((*at)[i] - '0');
    *at += length;
    return true;
}

/* Two digits under 60 after a colon. */
static bool sixtieths(const char **at, int *number) {
    const char *start = *at + 1;
    if (**at != ':' || strspn(start, "0123456789") != 2) return false;
    *at = start;
    return digits(at, number) && *number < MINUTE;
}

static bool within(const Field *field, double number) {
    return number >= field->low && number <= field->high;
}

static ValueFault read_choice(const Profile *profile, const Field *field, const char *text, double *number) {
    int word = profile_word(profile, text);
    if (word < 0 || !field_value(field, word)) return VALUE_WRONG;
    *number = word;
    return VALUE_FINE;
}

static ValueFault read_number(const Profile *profile, const Field *field, const char *text, double *number) {
    (void)profile;
    if (!text_number(text, number)) return VALUE_WRONG;
    if (!within(field, *number)) return VALUE_OUTSIDE;
    if (field->step <= 0) return VALUE_FINE;
    double steps = *number / field->step;
    return fabs(steps - round(steps)) <= step_slack ? VALUE_FINE : VALUE_OUTSIDE;
}

static ValueFault read_text(const Profile *profile, const Field *field, const char *text, double *number) {
    (void)profile, (void)field, (void)text;
    *number = 0;
    return VALUE_FINE;
}

/* m:ss */
static ValueFault read_clock(const Profile *profile, const Field *field, const char *text, double *number) {
    (void)profile;
    int minutes, seconds;
    if (!digits(&text, &minutes) || !sixtieths(&text, &seconds) || *text) return VALUE_WRONG;
    *number = minutes * MINUTE + seconds;
    return within(field, *number) ? VALUE_FINE : VALUE_OUTSIDE;
}

/* -25 is the own 25 (75 yards to go to the goal), +25 the other side's, 50 midfield. */
static ValueFault read_spot(const Profile *profile, const Field *field, const char *text, double *number) {
    (void)profile, (void)field;
    int yards;
    char sign = *text;
    bool has_sign = sign == '-' || sign == '+';
    if (has_sign) text++;
    if (!digits(&text, &yards) || *text) return VALUE_WRONG;
    if (!has_sign && yards == MIDFIELD) {
        *number = MIDFIELD;
        return VALUE_FINE;
    }
    if (!has_sign) return VALUE_WRONG;
    if (yards < 1 || yards >= MIDFIELD) return VALUE_OUTSIDE;
    *number = sign == '-' ? FIELD_YARDS - yards : yards;
    return VALUE_FINE;
}

static ValueFault read_distance(const Profile *profile, const Field *field, const char *text, double *number) {
    (void)profile;
    if (strcmp(text, "goal") == 0) {
        *number = NAN;
        return VALUE_FINE;
    }
    int yards;
    if (!digits(&text, &yards) || *text) return VALUE_WRONG;
    *number = yards;
    return within(field, *number) ? VALUE_FINE : VALUE_OUTSIDE;
}

/* h:mm:ss, with decimals */
static ValueFault read_time(const Profile *profile, const Field *field, const char *text, double *number) {
    (void)profile;
    int hours, minutes, seconds;
    if (!digits(&text, &hours) || !sixtieths(&text, &minutes)) return VALUE_WRONG;
    const char *rest = text;
    if (!sixtieths(&text, &seconds)) return VALUE_WRONG;
    double part = 0;
    bool decimals = text[0] == '.' && isdigit((unsigned char)text[1]) && text_number(rest + 1, &part);
    if (*text && !decimals) return VALUE_WRONG;
    *number = hours * HOUR + minutes * MINUTE + (decimals ? part : seconds);
    return within(field, *number) ? VALUE_FINE : VALUE_OUTSIDE;
}

/* ---- the table of types ---- */

static const char *number_hint(Arena *arena, const Field *field) {
    const char *steps = field->step == 1 ? "a whole number" : "a number";
    if (field->step > 0 && field->step != 1) steps = arena_printf(arena, "a number in steps of %g", field->step);
    if (!isfinite(field->low) || !isfinite(field->high)) return arena_printf(arena, "it is %s", steps);
    return arena_printf(arena, "it is %s from %g to %g", steps, field->low, field->high);
}

static const char *clock_hint(Arena *arena, const Field *field) {
    int most = (int)field->high;
    return arena_printf(arena, "it is minutes:seconds, 0:00 to %d:%02d", most / MINUTE, most % MINUTE);
}

/* A spot without its sign is the usual mistake. */
static const char *spot_hint(Arena *arena, const char *text) {
    const char *at = text;
    int yards;
    if (digits(&at, &yards) && !*at && yards >= 1 && yards < MIDFIELD) {
        return arena_printf(arena, "write -%d for a team's own %d, +%d for the other side's", yards, yards, yards);
    }
    return "it is -1 to -49 on a team's own side, 50, +49 to +1 on the other side";
}

typedef ValueFault ValueRead(const Profile *profile, const Field *field, const char *text, double *number);

static ValueRead *const value_reads[] = {
    [FIELD_CHOICE] = read_choice, [FIELD_ORDERED] = read_choice,    [FIELD_YESNO] = read_choice,
    [FIELD_NUMBER] = read_number, [FIELD_TEXT] = read_text,         [FIELD_CLOCK] = read_clock,
    [FIELD_SPOT] = read_spot,     [FIELD_DISTANCE] = read_distance, [FIELD_TIME] = read_time,
};

ValueFault charted_read(const Profile *profile, const Field *field, const char *text, double *number) {
    return value_reads[field->type](profile, field, text, number);
}

const char *charted_hint(Arena *arena, const Field *field, const char *text) {
    switch (field->type) {
    case FIELD_NUMBER:
        return number_hint(arena, field);
    case FIELD_CLOCK:
        return clock_hint(arena, field);
    case FIELD_SPOT:
        return spot_hint(arena, text);
    case FIELD_DISTANCE:
        return "it is 1 to 99 yards, or goal";
    case FIELD_TIME:
        return "it is hours:minutes:seconds, such as 0:21:40.2";
    default:
        return NAMES_HINT(arena, text, field->values, field->value_count);
    }
}
