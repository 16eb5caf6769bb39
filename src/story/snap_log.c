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
    return field->type == FIELD_NUMBER || field->type == FIELD_SPOT || field->type == FIELD_DISTANCE || field->type == FIELD_CLOCK;
}

static void log_columns(Writer *writer, Table *table) {
    const Profile *profile = writer->profile;
    table->column_count = profile->log_field_count + 1;
    table->columns = ARENA_ARRAY(writer->arena, table->column_count, TableColumn);
    table->columns[0] = (TableColumn){.head = "snap", .width = SNAP_WIDTH, .strong = true, .head_of_row = true};
    for (size_t i = 0; i < profile->log_field_count; i++) {
        int index = profile->log_fields[i];
        const Field *field = &profile->fields[index];
        table->columns[i + 1] = (TableColumn){.head = say_lower(writer, field->label), .width = column_width(writer, index),
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

static void snap_row(Writer *writer, Table *table, int row) {
    TableCell *cells = &table->cells[table->row_count++ * table->column_count];
    cells[0].words = words_plain(writer, writer->dossier->snaps[row].name);
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
    const char *note = say(writer, "%s; blank where not charted or not applicable",
                           say_count(writer, writer->findings->snaps, "snaps"));
    Block *block = block_section(writer, document, section->title ? section->title : "Snap log", note);
    block_add(writer, block, BLOCK_TABLE)->table = log_table(writer);
}
