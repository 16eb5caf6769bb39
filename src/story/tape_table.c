/* Each game, and each opponent met again, in numbers: the profile's printed rates. */
#include <math.h>
#include <string.h>

#include "story/write_tape.h"

/* As many as have room for count, rate and interval on one line. */
enum { RATES_A_TABLE = 4, NAME_WIDTH = 150 };

/* What the rows of a table are: games, or opponents. */
typedef struct Lines {
    const Estimate *estimates; /* [measure * stride + line] */
    size_t stride;
    const int *line; /* by row: which line it shows */
    size_t count;
    const char **names; /* by line */
    const char **notes; /* by line: under the name; "" none */
    const char **short_names;
} Lines;

/* The rates of one table. */
typedef struct Rates {
    const int *measures;
    size_t count;
} Rates;

/* Printed rates of which anything was answered, as measure indexes. */
static size_t printed_rates(Writer *writer, int *rates) {
    size_t count = 0;
    for (size_t i = 0; i < writer->profile->measure_count; i++) {
        const Measure *measure = &writer->profile->measures[i];
        bool answered = findings_estimate(writer->findings, (int)i, ESTIMATE_ALL)->n > 0;
        if (measure->printed && measure->kind == MEASURE_RATE && answered) rates[count++] = (int)i;
    }
    return count;
}

/* "24/31 77% 60-89"; k/n alone where they are too few to speak of a rate, "-" where nothing was answered. */
static void rate_words(Writer *writer, Words *words, const Measure *measure, const Estimate *estimate) {
    if (!estimate->n) {
        words_add(writer, words, SPAN_MUTED, "\u2013", NULL);
        return;
    }
    const char *count = say_k_of_n(writer, measure, estimate);
    if (estimate->n < FEW_FOR_A_TINT) {
        words_add(writer, words, SPAN_TEXT, count, NULL);
        return;
    }
    words_add(writer, words, SPAN_TEXT, say(writer, "%s\u00a0", count), NULL);
    words_add(writer, words, SPAN_STRONG, say_estimate(writer, measure, estimate), NULL);
    words_add(writer, words, SPAN_MUTED, say(writer, " %s", say_interval(writer, measure, estimate)), NULL);
}

static TableColumn *rate_heads(Writer *writer, const char *head, const Rates *rates) {
    TableColumn *heads = ARENA_ARRAY(writer->arena, rates->count + 1, TableColumn);
    heads[0] = (TableColumn){.head = head, .width = NAME_WIDTH, .head_of_row = true};
    for (size_t i = 0; i < rates->count; i++) {
        const char *label = writer->profile->measures[rates->measures[i]].label;
        heads[i + 1] = (TableColumn){.head = say_lower(writer, label), .align = ALIGN_RIGHT};
    }
    return heads;
}

static void line_cells(Writer *writer, TableCell *cells, const Lines *lines, int line, const Rates *rates) {
    words_add(writer, &cells[0].words, SPAN_STRONG, lines->names[line], NULL);
    if (*lines->notes[line])
        words_add(writer, &cells[0].words, SPAN_MUTED, say(writer, " %s", lines->notes[line]), NULL);
    for (size_t i = 0; i < rates->count; i++) {
        const Estimate *estimate = &lines->estimates[(size_t)rates->measures[i] * lines->stride + (size_t)line];
        rate_words(writer, &cells[i + 1].words, &writer->profile->measures[rates->measures[i]], estimate);
    }
}

static void all_cells(Writer *writer, TableCell *cells, const Rates *rates) {
    words_add(writer, &cells[0].words, SPAN_STRONG, "All games", NULL);
    for (size_t i = 0; i < rates->count; i++) {
        const Estimate *estimate = findings_estimate(writer->findings, rates->measures[i], ESTIMATE_ALL);
        rate_words(writer, &cells[i + 1].words, &writer->profile->measures[rates->measures[i]], estimate);
    }
}

static void add_table(Writer *writer, Block *parent, const Lines *lines, const char *head, const Rates *rates) {
    size_t columns = rates->count + 1;
    Table *table = block_table(writer, parent, rate_heads(writer, head, rates), columns, lines->count + 1);
    for (size_t row = 0; row < lines->count; row++) {
        line_cells(writer, &table->cells[row * columns], lines, lines->line[row], rates);
    }
    all_cells(writer, &table->cells[lines->count * columns], rates);
}

/* ---- what was not charted ---- */

/* " On target: g1 2, g3 1." or nothing. */
static void put_unknown(Buf *buf, Writer *writer, const Lines *lines, int rate) {
    bool any = false;
    for (size_t row = 0; row < lines->count; row++) {
        int line = lines->line[row];
        int unknown = lines->estimates[(size_t)rate * lines->stride + (size_t)line].unknown;
        if (!unknown) continue;
        if (!any) buf_printf(buf, " %s:", writer->profile->measures[rate].label);
        buf_printf(buf, "%s %s %d", any ? "," : "", lines->short_names[line], unknown);
        any = true;
    }
    if (any) buf_putc(buf, '.');
}

static const char *unknown_words(Writer *writer, const Lines *lines, const int *rates, size_t count) {
    Buf buf = {0};
    for (size_t i = 0; i < count; i++) put_unknown(&buf, writer, lines, rates[i]);
    const char *words = buf.length ? say(writer, " Not charted and left out.%s", buf_text(&buf)) : "";
    buf_free(&buf);
    return words;
}

static void add_tables(Writer *writer, Block *parent, const Lines *lines, const char *head) {
    int *rates = ARENA_ARRAY(writer->arena, writer->profile->measure_count, int);
    size_t count = printed_rates(writer, rates);
    size_t tables = (count + RATES_A_TABLE - 1) / RATES_A_TABLE;
    for (size_t i = 0; i < tables; i++) {
        size_t from = count * i / tables;
        Rates some = {rates + from, count * (i + 1) / tables - from};
        add_table(writer, parent, lines, head, &some);
    }
    block_note(writer, parent,
               say(writer, "Counted, rate and its 95%% interval; under %d the count alone.%s", FEW_FOR_A_TINT,
                   unknown_words(writer, lines, rates, count)));
}

/* ---- games ---- */

/* "W 31-24" with a dash between the points. */
static const char *result_words(Writer *writer, const char *result) {
    const char *hyphen = strchr(result, '-');
    if (!hyphen) return result;
    return say(writer, "%.*s\u2013%s", (int)(hyphen - result), result, hyphen + 1);
}

static const char *game_note(Writer *writer, const Game *game) {
    const char *on = game->on ? say_short_date(writer, game->on) : "";
    const char *result = game->result ? result_words(writer, game->result) : "";
    return say(writer, "%s%s%s", on, *on && *result ? ", " : "", result);
}

static Lines lines_new(Writer *writer, const Estimate *estimates, size_t stride, int *line) {
    Lines lines = {.estimates = estimates, .stride = stride, .line = line};
    lines.names = ARENA_ARRAY(writer->arena, stride, const char *);
    lines.notes = ARENA_ARRAY(writer->arena, stride, const char *);
    lines.short_names = ARENA_ARRAY(writer->arena, stride, const char *);
    return lines;
}

static void add_games(Writer *writer, Block *parent) {
    const Dossier *dossier = writer->dossier;
    int *line = ARENA_ARRAY(writer->arena, dossier->game_count, int);
    Lines lines = lines_new(writer, writer->findings->game_estimates, dossier->game_count, line);
    for (size_t g = 0; g < dossier->game_count; g++) {
        const Game *game = &dossier->games[g];
        lines.names[g] = say(writer, "%s %s", game->id, say_opponent(writer, game));
        lines.notes[g] = game_note(writer, game);
        lines.short_names[g] = game->id;
        line[lines.count++] = (int)g;
    }
    block_head(writer, parent, 2, "The games in numbers", NULL);
    add_tables(writer, parent, &lines, "game");
}

/* ---- opponents ---- */

/* The games against an opponent: "g1, g4". Stores how many. */
static const char *games_against(Writer *writer, const char *opponent, int *count) {
    Buf buf = {0};
    *count = 0;
    for (size_t g = 0; g < writer->dossier->game_count; g++) {
        const Game *game = &writer->dossier->games[g];
        if (!game->opponent || strcmp(game->opponent, opponent) != 0) continue;
        buf_printf(&buf, "%s%s", *count ? ", " : "", game->id);
        ++*count;
    }
    const char *games = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return games;
}

static void add_opponents(Writer *writer, Block *parent) {
    const Findings *findings = writer->findings;
    int *line = ARENA_ARRAY(writer->arena, findings->opponent_count, int);
    Lines lines = lines_new(writer, findings->opponent_estimates, findings->opponent_count, line);
    for (size_t i = 0; i < findings->opponent_count; i++) {
        int games;
        lines.names[i] = lines.short_names[i] = findings->opponents[i];
        lines.notes[i] = games_against(writer, findings->opponents[i], &games);
        if (games > 1) line[lines.count++] = (int)i;
    }
    if (!lines.count) return;
    block_head(writer, parent, 2, "By opponent", "met more than once");
    add_tables(writer, parent, &lines, "opponent");
}

void tape_add_games(Writer *writer, Block *parent) {
    int *rates = ARENA_ARRAY(writer->arena, writer->profile->measure_count, int);
    if (writer->dossier->game_count < 2 || !printed_rates(writer, rates)) return;
    add_games(writer, parent);
    add_opponents(writer, parent);
}
