/* Numbers, dates and charted values in the words of the page. */
#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "story/write.h"

#define MINUS "\u2212"
#define EN_DASH "\u2013"
#define NO_BREAK "\u00a0"
#define NOTHING EN_DASH

const char *say(Writer *writer, const char *format, ...) {
    va_list args;
    va_start(args, format);
    const char *text = arena_vprintf(writer->arena, format, args);
    va_end(args);
    return text;
}

const char *say_percent(Writer *writer, double rate) {
    return isfinite(rate) ? say(writer, "%.0f%%", round(rate * 100)) : NOTHING;
}

static double rounded(double value, int places) {
    double power = pow(10, places);
    return round(value * power) / power;
}

const char *say_number(Writer *writer, double value, int places) {
    if (!isfinite(value)) return NOTHING;
    double shown = rounded(value, places);
    return say(writer, "%s%.*f", shown < 0 ? MINUS : "", places, fabs(shown));
}

const char *say_signed(Writer *writer, double value, int places) {
    if (!isfinite(value)) return NOTHING;
    double shown = rounded(value, places);
    return say(writer, "%s%.*f", shown < 0 ? MINUS : shown > 0 ? "+" : "", places, fabs(shown));
}

static bool read_date(const char *iso, int *year, int *month, int *day) {
    return iso && sscanf(iso, "%4d-%2d-%2d", year, month, day) == 3 && *month >= 1 && *month <= 12;
}

static const char *const MONTHS[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

const char *say_date(Writer *writer, const char *iso) {
    int year, month, day;
    if (!read_date(iso, &year, &month, &day)) return iso ? iso : "";
    return say(writer, "%d" NO_BREAK "%s" NO_BREAK "%d", day, MONTHS[month - 1], year);
}

const char *say_short_date(Writer *writer, const char *iso) {
    int year, month, day;
    if (!read_date(iso, &year, &month, &day)) return iso ? iso : "";
    return say(writer, "%d" NO_BREAK "%s", day, MONTHS[month - 1]);
}

/* Words that follow the noun itself: "reps" of "reps with hands charted". */
static const char *const AFTER_NOUN[] = {"a",      "against", "at",       "away",    "broken",  "charted",  "for",
                                         "from",   "fielded", "in",       "into",    "landed",  "lost",     "of",
                                         "on",     "over",    "put",      "that",    "timed",   "to",       "tried",
                                         "turned", "under",   "when",     "where",   "whose",   "with",     "won",
                                         "made",   "missed",  "returned", "allowed", "rushing", "receiving"};

static bool is_after_noun(const char *word, size_t length) {
    for (size_t i = 0; i < sizeof AFTER_NOUN / sizeof *AFTER_NOUN; i++) {
        if (strlen(AFTER_NOUN[i]) == length && strncmp(AFTER_NOUN[i], word, length) == 0) return true;
    }
    return false;
}

/* Bytes of a phrase up to the end of its noun. */
static size_t noun_length(const char *phrase) {
    size_t at = strcspn(phrase, " ");
    while (phrase[at]) {
        size_t next = strcspn(phrase + at + 1, " ");
        if (is_after_noun(phrase + at + 1, next)) break;
        at += 1 + next;
    }
    return at;
}

/* Ends of plurals and what one of the thing ends in instead. */
static const struct {
    const char *plural, *single;
} ENDINGS[] = {{"ies", "y"}, {"ches", "ch"}, {"sses", "ss"}, {"s", ""}};

/* Nouns come in the plural; of one thing the noun loses its ending. */
static const char *noun_for(Writer *writer, int n, const char *noun) {
    size_t length = noun_length(noun);
    for (size_t i = 0; n == 1 && i < sizeof ENDINGS / sizeof *ENDINGS; i++) {
        size_t end = strlen(ENDINGS[i].plural);
        if (length <= end || strncmp(noun + length - end, ENDINGS[i].plural, end) != 0) continue;
        return say(writer, "%.*s%s%s", (int)(length - end), noun, ENDINGS[i].single, noun + length);
    }
    return noun;
}

const char *say_count(Writer *writer, int n, const char *noun) {
    if (n >= 1000) return say(writer, "%d,%03d" NO_BREAK "%s", n / 1000, n % 1000, noun);
    return say(writer, "%d" NO_BREAK "%s", n, noun_for(writer, n, noun));
}

const char *say_word(Writer *writer, int n) {
    static const char *const WORDS[] = {"no",    "one",   "two",  "three", "four",   "five",  "six",
                                        "seven", "eight", "nine", "ten",   "eleven", "twelve"};
    if (n >= 0 && n < (int)(sizeof WORDS / sizeof *WORDS)) return WORDS[n];
    return say(writer, "%d", n);
}

const char *say_word_count(Writer *writer, int n, const char *noun) {
    bool worded = n >= 0 && n <= 12;
    return worded ? say(writer, "%s %s", say_word(writer, n), noun_for(writer, n, noun)) : say_count(writer, n, noun);
}

const char *say_sentence(Writer *writer, const char *text) {
    char *copy = arena_string(writer->arena, text);
    copy[0] = (char)toupper((unsigned char)copy[0]);
    return copy;
}

const char *say_lower(Writer *writer, const char *text) {
    if (text[0] && isupper((unsigned char)text[1])) return text;
    char *copy = arena_string(writer->arena, text);
    copy[0] = (char)tolower((unsigned char)copy[0]);
    return copy;
}

const char *say_ordinal_down(Writer *writer, int down) {
    static const char *const DOWNS[] = {"1st", "2nd", "3rd", "4th"};
    return down >= 1 && down <= 4 ? DOWNS[down - 1] : say(writer, "%d", down);
}

const char *say_p(Writer *writer, double p) {
    if (!isfinite(p)) return NOTHING;
    if (p < 0.001) return "under 0.001";
    return say(writer, "%.*f", p < 0.1 ? 3 : 2, p);
}

const char *say_estimate(Writer *writer, const Measure *measure, const Estimate *estimate) {
    if (!isfinite(estimate->value)) return NOTHING;
    if (measure->kind == MEASURE_RATE) return say_percent(writer, estimate->value);
    return say_number(writer, estimate->value, measure->places);
}

const char *say_interval(Writer *writer, const Measure *measure, const Estimate *estimate) {
    if (!isfinite(estimate->low) || !isfinite(estimate->high)) return "";
    if (measure->kind == MEASURE_RATE) {
        return say(writer, "%.0f" EN_DASH "%.0f", round(estimate->low * 100), round(estimate->high * 100));
    }
    const char *join = estimate->low < 0 || estimate->high < 0 ? " to " : EN_DASH;
    return say(writer, "%s%s%s", say_number(writer, estimate->low, measure->places), join,
               say_number(writer, estimate->high, measure->places));
}

const char *say_k_of_n(Writer *writer, const Measure *measure, const Estimate *estimate) {
    if (measure->kind == MEASURE_RATE) return say(writer, "%d/%d", estimate->k, estimate->n);
    return say(writer, "%d", estimate->n);
}

const char *say_counted(Writer *writer, const Measure *measure, const Estimate *estimate) {
    const char *count = say_k_of_n(writer, measure, estimate);
    if (!isfinite(estimate->value) || is_few(estimate)) return count;
    const char *interval = say_interval(writer, measure, estimate);
    return say(writer, "%s, %s%s%s%s", count, say_estimate(writer, measure, estimate), *interval ? " (" : "", interval,
               *interval ? ")" : "");
}

const char *say_k_of_n_words(Writer *writer, const Estimate *estimate) {
    return say(writer, "%d" NO_BREAK "of" NO_BREAK "%d", estimate->k, estimate->n);
}

const char *say_chart_value(Writer *writer, const Snap *snaps, const Columns *columns, int row, int index) {
    const Field *field = &writer->profile->fields[index];
    const char *text = snaps[row].texts[index];
    if (field->value_count) {
        const Column *column = &columns->columns[index];
        if (column->state[row] != VALUE_KNOWN) return "";
        const FieldValue *value = field_value(field, (int)column->number[row]);
        return value ? value->label : "";
    }
    if (!text) return "";
    if (text[0] == '-' && (field->type == FIELD_SPOT || field->type == FIELD_NUMBER)) {
        return say(writer, MINUS "%s", text + 1);
    }
    return text;
}

const char *say_charted(Writer *writer, int row, const char *id) {
    int index = profile_field(writer->profile, id);
    if (row < 0 || index < 0) return "";
    return say_chart_value(writer, writer->dossier->snaps, &writer->dossier->columns, row, index);
}

const char *say_down_and_distance(Writer *writer, int row) {
    const char *down = say_charted(writer, row, "down");
    const char *distance = say_charted(writer, row, "distance");
    if (!*down) return "";
    return say(writer, "%s" NO_BREAK "&" NO_BREAK "%s", say_ordinal_down(writer, atoi(down)),
               *distance ? distance : "?");
}

/* Tenths of a second are for the cut list; the page says whole seconds. */
static int whole_seconds(const char *time) {
    const char *point = strchr(time, '.');
    return (int)(point ? point - time : (long)strlen(time));
}

const char *say_film(Writer *writer, int row) {
    const char *in = say_charted(writer, row, "in");
    const char *out = say_charted(writer, row, "out");
    if (!*in) return "";
    if (!*out) return say(writer, "%.*s", whole_seconds(in), in);
    return say(writer, "%.*s" EN_DASH "%.*s", whole_seconds(in), in, whole_seconds(out), out);
}

const char *say_snap_anchor(Writer *writer, int row) {
    if (row < 0) return NULL;
    return say(writer, "snap-%s", writer->dossier->snaps[row].name);
}

const char *say_opponent(Writer *writer, const Game *game) {
    const char *opponent = game->opponent ? game->opponent : game->id;
    bool away = game->site && strcmp(game->site, "away") == 0;
    return away ? say(writer, "at %s", opponent) : opponent;
}
