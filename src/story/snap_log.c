/* The snap log: every charted snap, game by game, each a place that cites lead to. */
#include <string.h>

#include "story/write.h"

/* Widths by what a field holds, points; the log is set dense. */
enum { SNAP_WIDTH = 24, NARROW = 16, SHORT = 21, MARGIN = 4 };

static double column_width(Writer *writer, int index) {
    const Field *field = &writer->profile->fields[index];
    if (field->type == FIELD_CLOCK) return SHORT + MARGIN;
    if (field->type == FIELD_NUMBER || field->type == FIELD_SPOT || field->type == FIELD_DISTANCE) return SHORT;
    size_t longest = strlen(field->label);
    for (size_t i = 0; i < field->value_count; i++) {
        size_t length = strlen(field->values[i].label);
        if (length > longest) longest = length;
    }
    return longest <= 2 ? NARROW : -(double)longest;
}

static bool is_right(const Field *field) {
    return field->type == FIELD_NUMBER || field->type == FIELD_SPOT || field->type == FIELD_DISTANCE ||
           field->type == FIELD_CLOCK;
}

static void log_columns(Writer *writer, Table *table) {
    const Profile *profile = writer->profile;
    table->column_count = profile->log_field_count + 1;
    table->columns = ARENA_ARRAY(writer->arena, table->column_count, TableColumn);
    table->columns[0] = (TableColumn){.head = "snap", .width = SNAP_WIDTH, .strong = true, .head_of_row = true};
    for (size_t i = 0; i < profile->log_field_count; i++) {
        int index = profile->log_fields[i];
        const Field *field = &profile->fields[index];
        table->columns[i + 1] = (TableColumn){.head = say_lower(writer, field->label),
                                              .width = column_width(writer, index),
                                              .align = is_right(field) ? ALIGN_RIGHT : ALIGN_LEFT};
    }
}

static const char *site_word(const Game *game) {
    if (!game->site) return "";
    if (strcmp(game->site, "away") == 0) return "at ";
    return strcmp(game->site, "neutral") == 0 ? "neutral, " : "";
}

static void add_part(Buf *buf, const char *lead, const char *text) {
    if (text && *text) buf_printf(buf, "%s%s", lead, text);
}

/* "g1 · at Lowmoor State · 27 Sep · W 31–24 · charted by R. Kestrel", without what is not recorded. */
static const char *game_line(Writer *writer, const Game *game) {
    const Evaluator *by = game->by ? house_evaluator(writer->house, game->by) : NULL;
    Buf buf = {0};
    buf_puts(&buf, game->id);
    if (game->opponent) buf_printf(&buf, " \u00b7 %s%s", site_word(game), game->opponent);
    add_part(&buf, " \u00b7 ", say_short_date(writer, game->on));
    add_part(&buf, " \u00b7 ", game->result);
    add_part(&buf, " \u00b7 charted by ", by ? by->name : NULL);
    const char *line = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return line;
}

static void band_row(Writer *writer, Table *table, unsigned char *band, const Game *game) {
    band[table->row_count] = 1;
    TableCell *cells = &table->cells[table->row_count++ * table->column_count];
    cells[0].words = words_plain(writer, game_line(writer, game));
}

static const char *plain_minus(Writer *writer, const char *text) {
    static const char minus[] = "\u2212";
    return strncmp(text, minus, sizeof minus - 1) ? text : say(writer, "-%s", text + sizeof minus - 1);
}

/* The row read aloud: "quarter 1, clock 6:12, down 3", without what is not charted. */
static const char *row_says(Writer *writer, const Table *table, int row) {
    const Profile *profile = writer->profile;
    Buf buf = {0};
    for (size_t i = 0; i < profile->log_field_count; i++) {
        const char *value = say_charted(writer, row, profile->fields[profile->log_fields[i]].id);
        if (!*value) continue;
        if (buf.length) BUF_PUT(&buf, ", ");
        buf_puts(&buf, table->columns[i + 1].head);
        buf_putc(&buf, ' ');
        buf_puts(&buf, plain_minus(writer, value));
    }
    const char *text = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return text;
}

/* The anchor of the first claim that cites the snap, NULL when none does. */
static const char *cited_by(Writer *writer, int row) {
    for (size_t c = 0; c < writer->dossier->claim_count; c++) {
        const Claim *claim = &writer->dossier->claims[c];
        for (size_t i = 0; i < claim->cite_count; i++) {
            if (claim->cites[i].snap == row) return say(writer, "claim-%s", claim->id);
        }
    }
    return NULL;
}

static void snap_row(Writer *writer, Table *table, int row) {
    table->says[table->row_count] = row_says(writer, table, row);
    TableCell *cells = &table->cells[table->row_count++ * table->column_count];
    const char *claim = cited_by(writer, row);
    words_add(writer, &cells[0].words, claim ? SPAN_LINK : SPAN_TEXT, writer->dossier->snaps[row].name, claim);
    cells[0].anchor = say_snap_anchor(writer, row);
    for (size_t i = 0; i < writer->profile->log_field_count; i++) {
        const Field *field = &writer->profile->fields[writer->profile->log_fields[i]];
        cells[i + 1].words = words_plain(writer, say_charted(writer, row, field->id));
    }
}

static const Table *log_table(Writer *writer) {
    const Dossier *dossier = writer->dossier;
    Table *table = ARENA_NEW(writer->arena, Table);
    log_columns(writer, table);
    size_t rows = dossier->snap_count + dossier->game_count;
    table->cells = ARENA_ARRAY(writer->arena, rows * table->column_count, TableCell);
    unsigned char *band = ARENA_ARRAY(writer->arena, rows, unsigned char);
    table->says = ARENA_ARRAY(writer->arena, rows, const char *);
    for (size_t g = 0; g < dossier->game_count; g++) {
        const Game *game = &dossier->games[g];
        if (!game->row_count) continue;
        band_row(writer, table, band, game);
        for (size_t r = 0; r < game->row_count; r++) snap_row(writer, table, (int)(game->first_row + r));
    }
    table->band = band;
    table->dense = true;
    return table;
}

void story_snap_log(Writer *writer, Block *document, const LayoutSection *section) {
    if (!writer->dossier->snap_count) return;
    const char *note =
        say(writer, "%s; blank where not charted or not applicable; a coloured name leads to the claim that cites it",
            say_count(writer, writer->findings->snaps, "snaps"));
    Block *block = block_section(writer, document, section->title ? section->title : "Snap log", note);
    block_add(writer, block, BLOCK_TABLE)->table = log_table(writer);
}
