#include "source/notation.h"

#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "base/text.h"

enum { FOOT = 12, EIGHTHS = 8, NUMBER_MOST = 32, VALUE_MOST = 10000, TRADE_DIGITS = 4 };

static const double centimetres_an_inch = 2.54;     /* exact, international inch of 1959 */
static const double kilograms_a_pound = 0.45359237; /* exact, international pound of 1959 */
static const double eighth_slack = 1e-6;            /* inches: what arithmetic may have added to a clean eighth */

/* How the trade writes it in digits alone (common practice). */
typedef enum TradeForm {
    TRADE_NONE,
    TRADE_FEET_EIGHTHS, /* 6043: feet, two digits of inches, eighths */
    TRADE_EIGHTHS,      /* 3248: two digits of inches, eighths, the 8 that they are parts of; 0900 a whole number */
    TRADE_FEET          /* 0903 or 903: feet, two digits of inches */
} TradeForm;

typedef struct Kind {
    MeasurableInfo info;
    TradeForm trade;
    bool feet; /* may be written and is printed in feet and inches */
} Kind;

static const Kind kinds[] = {
    {{"height", "Height", UNIT_INCH, 58, 86}, TRADE_FEET_EIGHTHS, true},
    {{"weight", "Weight", UNIT_POUND, 120, 450}, TRADE_NONE, false},
    {{"hand", "Hand", UNIT_INCH, 6.5, 13}, TRADE_EIGHTHS, false},
    {{"arm", "Arm", UNIT_INCH, 25, 40}, TRADE_EIGHTHS, false},
    {{"wingspan", "Wingspan", UNIT_INCH, 60, 96}, TRADE_EIGHTHS, false},
    {{"forty", "40 yards", UNIT_SECOND, 4, 7.5}, TRADE_NONE, false},
    {{"ten", "10 yards", UNIT_SECOND, 1.3, 2.6}, TRADE_NONE, false},
    {{"twenty", "20 yards", UNIT_SECOND, 2.2, 4.4}, TRADE_NONE, false},
    {{"cone", "Three cones", UNIT_SECOND, 6, 10.5}, TRADE_NONE, false},
    {{"shuttle", "Short shuttle", UNIT_SECOND, 3.5, 7}, TRADE_NONE, false},
    {{"vertical", "Vertical jump", UNIT_INCH, 10, 55}, TRADE_NONE, false},
    {{"broad", "Broad jump", UNIT_INCH, 60, 160}, TRADE_FEET, true},
    {{"bench", "Bench press", UNIT_COUNT, 0, 60}, TRADE_NONE, false},
};

enum { KIND_COUNT = sizeof kinds / sizeof kinds[0] };

static const char *const eighth_signs[EIGHTHS] = {"", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"};

static const Kind *find_kind(const char *id) {
    for (int i = 0; i < KIND_COUNT; i++) {
        if (text_equal(kinds[i].info.id, id)) return &kinds[i];
    }
    return NULL;
}

const MeasurableInfo *measurable_info(const char *id) {
    const Kind *kind = find_kind(id);
    return kind ? &kind->info : NULL;
}

const MeasurableInfo *measurable_info_at(int index) {
    return index >= 0 && index < KIND_COUNT ? &kinds[index].info : NULL;
}

/* ---- reading: each reader moves the cursor only when it succeeds ---- */

static void skip_spaces(const char **at) {
    while (**at == ' ') (*at)++;
}

static bool is_digit(char byte) {
    return byte >= '0' && byte <= '9';
}

static bool take_word(const char **at, const char *word) {
    const char *from = *at;
    skip_spaces(&from);
    size_t length = strlen(word);
    if (strncmp(from, word, length) != 0) return false;
    *at = from + length;
    return true;
}

static bool at_end(const char *at) {
    skip_spaces(&at);
    return *at == '\0';
}

/* Digits with at most one point. */
static bool take_number(const char **at, double *value) {
    char digits[NUMBER_MOST];
    size_t length = strspn(*at, "0123456789.");
    if (length == 0 || length >= sizeof digits) return false;
    memcpy(digits, *at, length);
    digits[length] = '\0';
    if (!text_number(digits, value)) return false;
    *at += length;
    return true;
}

static bool take_whole(const char **at, double *value) {
    const char *from = *at;
    if (!take_number(&from, value) || memchr(*at, '.', (size_t)(from - *at))) return false;
    *at = from;
    return true;
}

static bool take_sign(const char **at, double *value) {
    for (int i = 1; i < EIGHTHS; i++) {
        if (!take_word(at, eighth_signs[i])) continue;
        *value = (double)i / EIGHTHS;
        return true;
    }
    return false;
}

/* 3/8, whose lower half is 2, 4, 8 or 16. */
static bool take_fraction(const char **at, double *value) {
    const char *from = *at;
    double over, under;
    skip_spaces(&from);
    if (!take_whole(&from, &over) || *from++ != '/' || !take_whole(&from, &under)) return false;
    if (under != 2 && under != 4 && under != 8 && under != 16) return false;
    if (over >= under) return false;
    *at = from;
    *value = over / under;
    return true;
}

/* 76.375, 76 3/8, 76⅜ */
static bool take_mixed(const char **at, double *value) {
    const char *from = *at;
    double part = 0;
    skip_spaces(&from);
    const char *digits = from;
    if (!take_number(&from, value)) return false;
    bool whole = !memchr(digits, '.', (size_t)(from - digits));
    if (whole && (take_sign(&from, &part) || take_fraction(&from, &part))) *value += part;
    *at = from;
    return true;
}

static bool take_inch_mark(const char **at) {
    return take_word(at, "inches") || take_word(at, "in") || take_word(at, "\"") || take_word(at, "″");
}

static bool take_foot_mark(const char **at) {
    return take_word(at, "ft") || take_word(at, "-") || take_word(at, "'") || take_word(at, "′");
}

/* 6-4.375, 6 ft 4 3/8 in, 6'4" */
static bool read_feet(const char *at, double *value) {
    double feet, inches = 0;
    if (!take_whole(&at, &feet) || !take_foot_mark(&at)) return false;
    if (!take_mixed(&at, &inches) || inches >= FOOT) return false;
    (void)take_inch_mark(&at);
    *value = feet * FOOT + inches;
    return at_end(at);
}

static bool read_length(const char *at, double *value) {
    if (!take_mixed(&at, value)) return false;
    if (take_word(&at, "cm")) {
        *value /= centimetres_an_inch;
    } else if (take_word(&at, "mm")) {
        *value /= 10 * centimetres_an_inch;
    } else if (take_word(&at, "m")) {
        *value *= 100 / centimetres_an_inch;
    } else {
        (void)take_inch_mark(&at);
    }
    return at_end(at);
}

/* ---- digits alone ---- */

static int digit(char byte) {
    return byte - '0';
}

static int two_digits(const char *at) {
    return digit(at[0]) * 10 + digit(at[1]);
}

static bool read_feet_eighths(const char *digits, double *value) {
    int inches = two_digits(digits + 1), eighths = digit(digits[3]);
    if (inches >= FOOT || eighths >= EIGHTHS) return false;
    *value = digit(digits[0]) * FOOT + inches + (double)eighths / EIGHTHS;
    return true;
}

static bool read_eighths(const char *digits, double *value) {
    int eighths = digit(digits[2]);
    bool whole = eighths == 0 && digits[3] == '0';
    if (!whole && (eighths >= EIGHTHS || digits[3] != '8')) return false;
    *value = two_digits(digits) + (double)eighths / EIGHTHS;
    return true;
}

static bool read_feet_digits(const char *digits, double *value) {
    int inches = two_digits(digits + 2);
    if (inches >= FOOT) return false;
    *value = two_digits(digits) * FOOT + inches;
    return true;
}

/* Whether `text` is digits alone in a length that the trade's form has. Three digits of a jump are feet and inches
 * (903), but for those that begin with 1, which no jump of one foot explains: they are inches (111). */
static bool is_trade(const Kind *kind, const char *text, char digits[TRADE_DIGITS + 1]) {
    size_t length = strspn(text, "0123456789");
    if (kind->trade == TRADE_NONE || !at_end(text + length)) return false;
    bool short_jump = kind->trade == TRADE_FEET && length == 3 && text[0] != '1';
    if (length != TRADE_DIGITS && !short_jump) return false;
    memset(digits, '0', TRADE_DIGITS);
    memcpy(digits + TRADE_DIGITS - length, text, length);
    digits[TRADE_DIGITS] = '\0';
    return true;
}

static bool read_trade(TradeForm form, const char *digits, double *value) {
    if (form == TRADE_FEET_EIGHTHS) return read_feet_eighths(digits, value);
    if (form == TRADE_EIGHTHS) return read_eighths(digits, value);
    return read_feet_digits(digits, value);
}

/* ---- by unit ---- */

static bool read_inches(const Kind *kind, const char *text, double *value) {
    char digits[TRADE_DIGITS + 1];
    if (is_trade(kind, text, digits)) return read_trade(kind->trade, digits, value);
    bool spans = kind->feet || strcmp(kind->info.id, "wingspan") == 0;
    return (spans && read_feet(text, value)) || read_length(text, value);
}

static bool read_pounds(const char *at, double *value) {
    if (!take_mixed(&at, value)) return false;
    if (take_word(&at, "kg")) {
        *value /= kilograms_a_pound;
    } else {
        (void)(take_word(&at, "lbs") || take_word(&at, "lb"));
    }
    return at_end(at);
}

static bool read_seconds(const char *at, double *value, bool *hand_timed) {
    if (!take_number(&at, value)) return false;
    (void)take_word(&at, "s");
    *hand_timed = take_word(&at, "h");
    return at_end(at);
}

static bool read_count(const char *at, double *value) {
    return take_whole(&at, value) && at_end(at);
}

static bool read_value(const Kind *kind, const char *text, double *value, bool *hand_timed) {
    switch (kind->info.unit) {
    case UNIT_INCH:
        return read_inches(kind, text, value);
    case UNIT_POUND:
        return read_pounds(text, value);
    case UNIT_SECOND:
        return read_seconds(text, value, hand_timed);
    case UNIT_COUNT:
        return read_count(text, value);
    }
    return false;
}

bool notation_read(const MeasurableInfo *info, const char *text, double *value, bool *hand_timed) {
    const Kind *kind = find_kind(info->id);
    bool by_hand = false;
    double found = 0;
    skip_spaces(&text);
    if (!kind || !is_digit(*text) || !read_value(kind, text, &found, &by_hand)) return false;
    if (found >= VALUE_MOST) return false;
    *value = found;
    *hand_timed = by_hand;
    return true;
}

/* ---- printing ---- */

static const char *kept(Arena *arena, Buf *text) {
    const char *copy = arena_string(arena, buf_text(text));
    buf_free(text);
    return copy;
}

/* Eighths in `inches` where it is a clean number of them, else -1. */
static long clean_eighths(double inches) {
    double eighths = round(inches * EIGHTHS);
    return fabs(inches - eighths / EIGHTHS) <= eighth_slack ? (long)eighths : -1;
}

/* `zero`: a nought stands before a fraction alone, as in "6 ft 0⅛ in". */
static void put_inches(Buf *text, double inches, bool zero) {
    long eighths = clean_eighths(inches);
    if (eighths < 0) {
        buf_number(text, inches, 2);
    } else {
        long whole = eighths / EIGHTHS;
        const char *sign = eighth_signs[eighths % EIGHTHS];
        if (whole || zero || !*sign) buf_printf(text, "%ld", whole);
        buf_puts(text, sign);
    }
    BUF_PUT(text, " in");
}

static void put_feet(Buf *text, double inches) {
    long eighths = clean_eighths(inches);
    double shown = eighths < 0 ? round(inches * 100) / 100 : (double)eighths / EIGHTHS;
    double feet = floor(shown / FOOT);
    buf_number(text, feet, 0);
    BUF_PUT(text, " ft ");
    put_inches(text, shown - feet * FOOT, true);
}

/* Times are always written to the hundredth. */
static void put_hundredths(Buf *text, double seconds) {
    double hundredths = round(seconds * 100);
    double whole = floor(hundredths / 100);
    buf_number(text, whole, 0);
    buf_printf(text, ".%02d", (int)(hundredths - whole * 100));
}

const char *notation_plain(Arena *arena, const MeasurableInfo *info, double value) {
    const Kind *kind = find_kind(info->id);
    Buf text = {0};
    if (kind && kind->feet) {
        put_feet(&text, value);
    } else if (info->unit == UNIT_INCH) {
        put_inches(&text, value, false);
    } else if (info->unit == UNIT_SECOND) {
        put_hundredths(&text, value);
        BUF_PUT(&text, " s");
    } else {
        buf_number(&text, value, 1);
        if (info->unit == UNIT_POUND) BUF_PUT(&text, " lb");
    }
    return kept(arena, &text);
}

/* The nearest the trade's digits can say; a value they cannot hold is written with a point. */
static void put_trade(Buf *text, const Kind *kind, double value) {
    long eighths = lround(value * EIGHTHS), whole = eighths / EIGHTHS, part = eighths % EIGHTHS;
    if (kind->trade == TRADE_FEET_EIGHTHS && whole < 10 * FOOT) {
        buf_printf(text, "%ld%02ld%ld", whole / FOOT, whole % FOOT, part);
    } else if (kind->trade == TRADE_EIGHTHS && whole < 100) {
        buf_printf(text, "%02ld%ld%d", whole, part, part ? EIGHTHS : 0);
    } else if (kind->trade == TRADE_FEET && part == 0 && whole < 100 * FOOT) {
        buf_printf(text, "%02ld%02ld", whole / FOOT, whole % FOOT);
    } else {
        buf_number(text, value, 3);
    }
}

const char *notation_trade(Arena *arena, const MeasurableInfo *info, double value) {
    const Kind *kind = find_kind(info->id);
    Buf text = {0};
    if (info->unit == UNIT_SECOND) {
        put_hundredths(&text, value);
    } else if (info->unit == UNIT_INCH && kind && kind->trade != TRADE_NONE) {
        put_trade(&text, kind, value);
    } else {
        buf_number(&text, value, info->unit == UNIT_INCH ? 3 : 1);
    }
    return kept(arena, &text);
}
