/* Every charted snap in order, by the scout's mark: the most cited game at length, then all games small. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "story/write_tape.h"

/* Which snaps a claim cites, by row. */
static unsigned char *cited_rows(Writer *writer) {
    unsigned char *cited = ARENA_ARRAY(writer->arena, writer->dossier->snap_count, unsigned char);
    for (size_t c = 0; c < writer->dossier->claim_count; c++) {
        const Claim *claim = &writer->dossier->claims[c];
        for (size_t i = 0; i < claim->cite_count; i++) {
            if (claim->cites[i].snap >= 0) cited[claim->cites[i].snap] = 1;
        }
    }
    return cited;
}

static size_t most_cited_game(Writer *writer, const unsigned char *cited) {
    size_t best = 0;
    int most = -1;
    for (size_t g = 0; g < writer->dossier->game_count; g++) {
        const Game *game = &writer->dossier->games[g];
        int count = 0;
        for (size_t r = 0; r < game->row_count; r++) count += cited[game->first_row + r];
        if (count <= most) continue;
        most = count;
        best = g;
    }
    return best;
}

/* The mark as below, on or above the line: the first, a middle or the last value of the ordered field. */
static int mark_of(Writer *writer, int field, size_t row, bool *unmarked) {
    const Field *marks = &writer->profile->fields[field];
    const Column *column = &writer->dossier->columns.columns[field];
    *unmarked = column->state[row] != VALUE_KNOWN;
    if (*unmarked) return 0;
    const FieldValue *value = field_value(marks, (int)column->number[row]);
    if (value == &marks->values[0]) return -1;
    return value == &marks->values[marks->value_count - 1] ? 1 : 0;
}

/* Gain in a word: yards, td, s4 for a sack of four, a dot for a ball nobody caught. */
static const char *short_gain(Writer *writer, int row, bool *notable) {
    const char *result = say_charted(writer, row, "result");
    const char *gain = say_charted(writer, row, "gain");
    *notable = strcmp(say_charted(writer, row, "touchdown"), "yes") == 0;
    if (*notable) return "td";
    if (strcmp(result, "sack") == 0)
        return say(writer, "s%d", abs(atoi(gain[0] == '-' ? gain : gain + strcspn(gain, "0123456789"))));
    if (strcmp(result, "intercepted") == 0) return "int";
    return strcmp(result, "incomplete") == 0 || !*gain ? "\u00b7" : gain;
}

static bool changed(Writer *writer, const Game *game, size_t r, const char *field) {
    int row = (int)(game->first_row + r);
    return r == 0 || strcmp(say_charted(writer, row, field), say_charted(writer, row - 1, field)) != 0;
}

static RibbonSnap ribbon_snap(Writer *writer, const Game *game, size_t r, int field, const unsigned char *cited) {
    size_t row = game->first_row + r;
    RibbonSnap snap = {0};
    snap.mark = mark_of(writer, field, row, &snap.unmarked);
    if (changed(writer, game, r, "quarter"))
        snap.quarter = say(writer, "Q%s", say_charted(writer, (int)row, "quarter"));
    if (changed(writer, game, r, "drive")) snap.drive = say_charted(writer, (int)row, "drive");
    snap.down = say_charted(writer, (int)row, "down");
    const char *to_go = say_charted(writer, (int)row, "distance");
    snap.to_go = strcmp(to_go, "goal") == 0 ? "G" : to_go;
    snap.gain = short_gain(writer, (int)row, &snap.notable);
    if (cited[row]) {
        snap.flag = say(writer, "%d", writer->dossier->snaps[row].number);
        snap.target = say_snap_anchor(writer, (int)row);
    }
    return snap;
}

static void tally(Writer *writer, const Game *game, int field, int *plus, int *even, int *minus) {
    *plus = *even = *minus = 0;
    for (size_t r = 0; r < game->row_count; r++) {
        bool unmarked;
        int mark = mark_of(writer, field, game->first_row + r, &unmarked);
        if (unmarked) continue;
        *(mark > 0 ? plus : mark < 0 ? minus : even) += 1;
    }
}

static const char *game_title(Writer *writer, const Game *game) {
    const char *opponent = game->opponent ? game->opponent : game->id;
    bool away = game->site && strcmp(game->site, "away") == 0;
    const char *date = say_short_date(writer, game->on);
    return say(writer, "%s, %s%s%s%s", game->id, away ? "at " : "", opponent, *date ? ", " : "", date);
}

static void add_drive_ribbon(Writer *writer, Block *parent, int field, const unsigned char *cited) {
    const Game *game = &writer->dossier->games[most_cited_game(writer, cited)];
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    DriveRibbon *ribbon = &figure->as.ribbon;
    ribbon->count = game->row_count;
    ribbon->snaps = ARENA_ARRAY(writer->arena, game->row_count, RibbonSnap);
    for (size_t r = 0; r < game->row_count; r++) ribbon->snaps[r] = ribbon_snap(writer, game, r, field, cited);
    int plus, even, minus;
    tally(writer, game, field, &plus, &even, &minus);
    figure->kind = FIGURE_DRIVE_RIBBON;
    figure->alt = say(writer, "Every charted snap of %s in order by mark: %d above the line, %d on it, %d below.",
                      game_title(writer, game), plus, even, minus);
    Block *block = block_figure(
        writer, parent, figure, game_title(writer, game),
        "every charted snap in order \u00b7 above the line, mark + \u00b7 below, mark \u2212 \u00b7 on it, even");
    block->words = words_plain(writer, say(writer,
                                           "Flag: cited in this dossier, with the snap\u2019s number. To go: G goal. "
                                           "Gain: \u00b7 not caught, s sack, td touchdown, int "
                                           "intercepted. Marks: %d plus, %d even, %d minus, of %d snaps.",
                                           plus, even, minus, (int)game->row_count));
}

static SeasonGame season_game(Writer *writer, const Game *game, int field) {
    signed char *marks = ARENA_ARRAY(writer->arena, game->row_count, signed char);
    unsigned char *drives = ARENA_ARRAY(writer->arena, game->row_count, unsigned char);
    for (size_t r = 0; r < game->row_count; r++) {
        bool unmarked;
        marks[r] = (signed char)mark_of(writer, field, game->first_row + r, &unmarked);
        drives[r] = changed(writer, game, r, "drive");
    }
    bool away = game->site && strcmp(game->site, "away") == 0;
    const char *opponent = game->opponent ? game->opponent : "";
    return (SeasonGame){game->id, away ? say(writer, "at %s", opponent) : opponent, marks, drives, game->row_count};
}

static void add_season_ribbon(Writer *writer, Block *parent, int field) {
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    SeasonRibbon *season = &figure->as.season;
    season->count = writer->dossier->game_count;
    season->games = ARENA_ARRAY(writer->arena, season->count, SeasonGame);
    Buf alt = {0};
    buf_puts(&alt, "Marks by game, plus, even, minus:");
    for (size_t g = 0; g < season->count; g++) {
        const Game *game = &writer->dossier->games[g];
        int plus, even, minus;
        season->games[g] = season_game(writer, game, field);
        tally(writer, game, field, &plus, &even, &minus);
        buf_printf(&alt, "%s %s %d, %d, %d", g ? ";" : "", game->id, plus, even, minus);
    }
    figure->kind = FIGURE_SEASON_RIBBON;
    figure->alt = arena_copy(writer->arena, buf_text(&alt), alt.length);
    buf_free(&alt);
    const char *games = say_word_count(writer, (int)season->count, "games");
    block_figure(writer, parent, figure, say_sentence(writer, say(writer, "all %s", games)), NULL);
}

void tape_add_ribbons(Writer *writer, Block *parent, const ProfileFigure *bound) {
    if (bound->lateral < 0 || !writer->dossier->snap_count) return;
    const unsigned char *cited = cited_rows(writer);
    add_drive_ribbon(writer, parent, bound->lateral, cited);
    if (writer->dossier->game_count > 1) add_season_ribbon(writer, parent, bound->lateral);
}
