/* The audit: what was checked before the report was printed, what was found and let pass, the chart against the
 * official box score, and what was not charted. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "story/write.h"

enum { FOUND_SHOWN = 60 };

static const double equal_totals = 1e-6;

static Words plain(Writer *writer, const char *text) {
    return words_plain(writer, text);
}

/* ---- what was checked ---- */

static void checked_row(Writer *writer, Table *table, const char *what, const char *how, const char *much) {
    TableCell *cells = &table->cells[table->row_count++ * table->column_count];
    cells[0].words = plain(writer, what);
    cells[1].words = plain(writer, how);
    cells[2].words = plain(writer, much);
}

static const char *count_of(Writer *writer, size_t count, const char *nouns) {
    return count ? say_count(writer, (int)count, nouns) : "none to check";
}

static void checked_table(Writer *writer, Block *section) {
    static const TableColumn HEADS[] = {
        {.head = "checked", .width = 92, .head_of_row = true, .strong = true},
        {.head = "that"},
        {.head = "how much", .width = 96, .align = ALIGN_RIGHT},
    };
    enum { COLUMNS = sizeof HEADS / sizeof *HEADS, ROWS = 10 };
    const Checked *checked = &writer->audit->checked;
    block_head(writer, section, 2, "What was checked", NULL);
    Table *table = block_table(writer, section, HEADS, COLUMNS, ROWS);
    table->row_count = 0;
    checked_row(writer, table, "Words", "each charted value is one of the profile’s, each number within its bounds",
                count_of(writer, checked->values, "values"));
    checked_row(writer, table, "Order", "snaps, drives and quarters run one way, and the clock with them",
                count_of(writer, checked->ordered, "snaps"));
    checked_row(writer, table, "Chain", "down, distance and spot follow from the snap before",
                count_of(writer, checked->chained, "snaps"));
    checked_row(writer, table, "Each snap", "play, result, gain and the rest can stand together",
                count_of(writer, checked->clashes, "rules"));
    checked_row(writer, table, "Box score", "the chart counts what the official scorer counted",
                count_of(writer, checked->totals, "totals"));
    checked_row(writer, table, "Two charters", "who charted the same snap says the same",
                count_of(writer, checked->matched, "snaps"));
    checked_row(writer, table, "Film", "clips are stretches of their film, no two over the same seconds",
                count_of(writer, checked->clips, "clips"));
    checked_row(writer, table, "Measurements", "a human shows them, and players of the position do",
                count_of(writer, checked->measurements, "measurements"));
    checked_row(writer, table, "Claims", "each can be tested and cites snaps of its own kind",
                say(writer, "%s, %s", count_of(writer, checked->claims, "claims"),
                    say_count(writer, (int)checked->cites, "cites")));
    checked_row(writer, table, "Grades", "on the house’s scale, for every trait, the overall near them or explained",
                count_of(writer, checked->grades, "grades"));
}

/* ---- what was let pass ---- */

static bool is_let_pass(const Reported *found) {
    return found->severity != SEVERITY_ERROR;
}

static size_t let_pass(const Audit *audit, Severity severity) {
    size_t count = 0;
    for (size_t i = 0; i < audit->found_count; i++) count += audit->found[i].severity == severity;
    return count;
}

/* A message with the quotation marks of print. */
static const char *in_print(Writer *writer, const char *message) {
    Buf buf = {0};
    for (const char *at = message; *at; at++) {
        bool opens = at == message || at[-1] == ' ' || at[-1] == '(';
        if (*at == '\'') {
            buf_puts(&buf, opens ? "\u2018" : "\u2019");
        } else {
            buf_putc(&buf, *at);
        }
    }
    const char *text = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return say_sentence(writer, text);
}

static void found_rows(Writer *writer, Table *table, size_t rows) {
    const Audit *audit = writer->audit;
    table->row_count = 0;
    for (size_t i = 0; i < audit->found_count && table->row_count < rows; i++) {
        const Reported *found = &audit->found[i];
        if (!is_let_pass(found)) continue;
        TableCell *cells = &table->cells[table->row_count++ * table->column_count];
        cells[0].words = plain(writer, in_print(writer, found->message));
        cells[1].words = plain(writer, diag_severity_word(found->severity));
        cells[2].words = plain(writer, diag_rule(found->rule)->id);
    }
}

static void found_part(Writer *writer, Block *section) {
    static const TableColumn HEADS[] = {
        {.head = "found", .head_of_row = true},
        {.head = "weight", .width = 46},
        {.head = "rule", .width = 92},
    };
    size_t warnings = let_pass(writer->audit, SEVERITY_WARNING), notes = let_pass(writer->audit, SEVERITY_NOTE);
    size_t all = warnings + notes, shown = all < FOUND_SHOWN ? all : FOUND_SHOWN;
    block_head(writer, section, 2, "What was found and let pass",
               all ? say(writer, "%s, %s", say_count(writer, (int)warnings, "warnings"),
                         say_count(writer, (int)notes, "notes"))
                   : NULL);
    if (!all) {
        block_note(writer, section, "Nothing: every check above came out clean.");
        return;
    }
    found_rows(writer, block_table(writer, section, HEADS, sizeof HEADS / sizeof *HEADS, shown), shown);
    if (all > shown) block_note(writer, section, say(writer, "And %zu more of the same kinds.", all - shown));
}

/* ---- the official box score ---- */

static double official_of(Writer *writer, size_t game, size_t total) {
    const Game *played = &writer->dossier->games[game];
    return played->official && played->row_count ? played->official[total] : (double)NAN;
}

static size_t official_count(Writer *writer) {
    size_t count = 0;
    for (size_t game = 0; game < writer->dossier->game_count; game++) {
        for (size_t total = 0; total < writer->profile->total_count; total++) {
            count += !isnan(official_of(writer, game, total));
        }
    }
    return count;
}

static const char *figure(Writer *writer, double value) {
    return say_number(writer, value, value == floor(value) ? 0 : 1);
}

/* False when the game has no official figure for the total. */
static bool official_row(Writer *writer, TableCell *cells, size_t game, size_t index) {
    const Total *total = &writer->profile->totals[index];
    double official = official_of(writer, game, index);
    double charted = writer->findings->game_totals[index * writer->dossier->game_count + game];
    if (isnan(official)) return false;
    bool same = fabs(charted - official) <= equal_totals;
    cells[0].words = plain(writer, writer->dossier->games[game].id);
    cells[1].words = plain(writer, total->label);
    cells[2].words = plain(writer, figure(writer, charted));
    cells[3].words = plain(writer, figure(writer, official));
    cells[4].words = plain(writer, same ? "" : say_signed(writer, charted - official, 0));
    return true;
}

static void official_part(Writer *writer, Block *section) {
    static const TableColumn HEADS[] = {
        {.head = "game", .width = 40, .head_of_row = true, .strong = true},
        {.head = "total"},
        {.head = "charted", .width = 60, .align = ALIGN_RIGHT},
        {.head = "official", .width = 60, .align = ALIGN_RIGHT},
        {.head = "difference", .width = 60, .align = ALIGN_RIGHT, .strong = true},
    };
    size_t rows = official_count(writer);
    block_head(writer, section, 2, "The chart against the official box score", NULL);
    if (!rows) {
        block_note(writer, section, "No official figures stand in the dossier.");
        return;
    }
    Table *table = block_table(writer, section, HEADS, sizeof HEADS / sizeof *HEADS, rows);
    table->dense = true;
    table->row_count = 0;
    for (size_t game = 0; game < writer->dossier->game_count; game++) {
        for (size_t total = 0; total < writer->profile->total_count; total++) {
            TableCell *cells = &table->cells[table->row_count * table->column_count];
            table->row_count += official_row(writer, cells, game, total);
        }
    }
}

/* ---- what was not charted ---- */

typedef struct Gap {
    const Field *field;
    size_t blank, applies;
} Gap;

static Gap gap_of(Writer *writer, size_t index) {
    Gap gap = {.field = &writer->profile->fields[index]};
    const Column *column = &writer->dossier->columns.columns[index];
    for (size_t row = 0; row < writer->dossier->columns.rows; row++) {
        gap.blank += column->state[row] == VALUE_UNKNOWN;
        gap.applies += column->state[row] != VALUE_NOT_APPLICABLE;
    }
    return gap;
}

/* Charted on some snaps and not on others: what a figure leaves out. */
static bool is_partly(const Gap *gap) {
    return gap->blank > 0 && gap->blank < gap->applies;
}

static bool is_charted_field(const Field *field) {
    return field->derived == DERIVED_NONE && field->type != FIELD_TEXT;
}

static int by_blank(const void *left, const void *right) {
    const Gap *a = left, *b = right;
    if (a->blank != b->blank) return a->blank > b->blank ? -1 : 1;
    return (a->field > b->field) - (a->field < b->field);
}

/* "Tempo, Weather, Wind", of the fields that nobody charted; NULL without any. */
static const char *never_charted(Writer *writer) {
    Buf buf = {0};
    for (size_t i = 0; i < writer->profile->field_count; i++) {
        Gap gap = gap_of(writer, i);
        if (!is_charted_field(gap.field) || !gap.applies || gap.blank < gap.applies) continue;
        buf_printf(&buf, "%s%s", buf.length ? ", " : "Not charted at all: ", gap.field->label);
    }
    if (buf.length) BUF_PUT(&buf, ".");
    const char *text = buf.length ? arena_copy(writer->arena, buf_text(&buf), buf.length) : NULL;
    buf_free(&buf);
    return text;
}

static void gap_rows(Writer *writer, Block *section, const Gap *gaps, size_t count) {
    static const TableColumn HEADS[] = {
        {.head = "field", .head_of_row = true, .strong = true},
        {.head = "not charted on", .width = 90, .align = ALIGN_RIGHT},
        {.head = "of snaps it applies to", .width = 110, .align = ALIGN_RIGHT},
    };
    Table *table = block_table(writer, section, HEADS, sizeof HEADS / sizeof *HEADS, count);
    table->dense = true;
    for (size_t i = 0; i < count; i++) {
        TableCell *cells = &table->cells[i * table->column_count];
        cells[0].words = plain(writer, gaps[i].field->label);
        cells[1].words = plain(writer, say(writer, "%zu", gaps[i].blank));
        cells[2].words = plain(writer, say(writer, "%zu", gaps[i].applies));
    }
}

static void gap_part(Writer *writer, Block *section) {
    Gap *gaps = ARENA_ARRAY(writer->arena, writer->profile->field_count, Gap);
    size_t count = 0;
    for (size_t i = 0; i < writer->profile->field_count; i++) {
        Gap gap = gap_of(writer, i);
        if (is_charted_field(gap.field) && is_partly(&gap)) gaps[count++] = gap;
    }
    qsort(gaps, count, sizeof *gaps, by_blank);
    const char *never = never_charted(writer);
    block_head(writer, section, 2, "What was not charted",
               "blank is unknown: the snap is left out of what asks for it");
    if (count) gap_rows(writer, section, gaps, count);
    if (never) block_note(writer, section, never);
    if (!count && !never) block_note(writer, section, "Every field is charted on every snap that it applies to.");
}

void story_audit(Writer *writer, Block *document, const LayoutSection *section) {
    if (!writer->audit) return;
    Block *block = block_section(writer, document, section->title ? section->title : "Audit",
                                 "what was held against what, and what was let pass");
    checked_table(writer, block);
    found_part(writer, block);
    if (!writer->dossier->snap_count) return;
    official_part(writer, block);
    gap_part(writer, block);
}
