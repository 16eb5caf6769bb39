/* Figures of the tape that go by game, by read and by situation. */
#include <math.h>
#include <string.h>

#include "story/write_tape.h"

enum { TREND_MOST_PANELS = 4 };

/* ---- game by game ---- */

static void trend_games(Writer *writer, GameTrend *trend) {
    const Dossier *dossier = writer->dossier;
    trend->game_count = dossier->game_count;
    trend->games = ARENA_ARRAY(writer->arena, dossier->game_count, TrendGame);
    for (size_t g = 0; g < dossier->game_count; g++) {
        const Game *game = &dossier->games[g];
        trend->games[g] = (TrendGame){game->id, say_opponent(writer, game), say_short_date(writer, game->on)};
    }
}

static TrendPoint trend_point(Writer *writer, const Estimate *estimate) {
    return (TrendPoint){
        .n = say(writer, "%d", estimate->n),
        .point = estimate->value,
        .low = estimate->low,
        .high = estimate->high,
        .hatched = estimate->n < FEW_FOR_A_TINT,
    };
}

/* Rates stand on the tens around their intervals, so that the panels use their height. */
static Axis trend_axis(Writer *writer, const Measure *measure, const TrendPanel *panel, size_t count) {
    IntervalRow *rows = ARENA_ARRAY(writer->arena, count, IntervalRow);
    for (size_t g = 0; g < count; g++) {
        rows[g].point = panel->points[g].hatched ? NAN : panel->points[g].point;
        rows[g].low = panel->points[g].low;
        rows[g].high = panel->points[g].high;
    }
    if (measure->kind != MEASURE_RATE) return interval_axis(measure, rows, count);
    double low = 1;
    double high = 0;
    for (size_t g = 0; g < count; g++) {
        low = fmin(low, isfinite(rows[g].low) ? rows[g].low : low);
        high = fmax(high, isfinite(rows[g].high) ? rows[g].high : high);
    }
    if (low > high) return (Axis){.from = 0, .to = 1, .step = .25, .suffix = "", .scale = 100};
    return (Axis){
        .from = floor(low * 5) / 5, .to = fmin(1, ceil(high * 5) / 5), .step = .2, .suffix = "", .scale = 100};
}

static TrendPanel trend_panel(Writer *writer, int index) {
    const Measure *measure = &writer->profile->measures[index];
    size_t count = writer->dossier->game_count;
    TrendPanel panel = {.title =
                            measure->kind == MEASURE_RATE ? say(writer, "%s, %%", measure->label) : measure->label};
    panel.points = ARENA_ARRAY(writer->arena, count, TrendPoint);
    for (size_t g = 0; g < count; g++) {
        panel.points[g] = trend_point(writer, &writer->findings->game_estimates[(size_t)index * count + g]);
    }
    panel.axis = trend_axis(writer, measure, &panel, count);
    const Estimate *all = findings_estimate(writer->findings, index, ESTIMATE_ALL);
    panel.season = is_few(all) ? NAN : all->value;
    return panel;
}

static const char *trend_alt(Writer *writer, const ProfileFigure *bound, size_t panels) {
    Buf buf = {0};
    size_t count = writer->dossier->game_count;
    for (size_t m = 0; m < panels; m++) {
        const Measure *measure = &writer->profile->measures[bound->measures[m]];
        buf_printf(&buf, "%s%s by game:", m ? " " : "", measure->label);
        for (size_t g = 0; g < count; g++) {
            const Estimate *estimate = &writer->findings->game_estimates[(size_t)bound->measures[m] * count + g];
            buf_printf(&buf, "%s %s %s", g ? ";" : "", writer->dossier->games[g].id,
                       say_counted(writer, measure, estimate));
        }
        buf_putc(&buf, '.');
    }
    const char *alt = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return alt;
}

void tape_add_trend(Writer *writer, Block *parent, const ProfileFigure *bound) {
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    GameTrend *trend = &figure->as.trend;
    trend_games(writer, trend);
    trend->panel_count = bound->measure_count < TREND_MOST_PANELS ? bound->measure_count : TREND_MOST_PANELS;
    trend->panels = ARENA_ARRAY(writer->arena, trend->panel_count, TrendPanel);
    for (size_t m = 0; m < trend->panel_count; m++) trend->panels[m] = trend_panel(writer, bound->measures[m]);
    figure->kind = FIGURE_GAME_TREND;
    figure->alt = trend_alt(writer, bound, trend->panel_count);
    block_figure(writer, parent, figure, bound->title,
                 trend->game_count < 2 ? "interval 95%"
                                       : say(writer, "interval 95%%; line: all %s",
                                             say_word_count(writer, (int)trend->game_count, "games")));
}

/* Under a figure: how often its place was not charted, and how often its answer. */
static void add_left_out(Writer *writer, Block *block, const char *place, int unplaced, const char *answer,
                         int unknown) {
    if (unplaced <= 0 && unknown <= 0) return;
    const char *places = unplaced > 0 ? say(writer, "%s on %d", place, unplaced) : "";
    const char *answers = unknown > 0 ? say(writer, "%s on %d", answer, unknown) : "";
    const char *join = *places && *answers ? ", " : "";
    block->words = words_plain(writer, say(writer, "Not charted and left out: %s%s%s.", places, join, answers));
}

/* ---- the ladder ---- */

static int count_in(Writer *writer, int total, int slice, const Expr *where) {
    StatRef stat = {.measure = -1, .total = total, .slice = slice, .where = where};
    return (int)findings_stat(writer->arena, writer->findings, &stat).value;
}

static LadderRung ladder_rung(Writer *writer, const ProfileFigure *bound, size_t index, int reached, int all) {
    int slice = bound->slices[index];
    const Measure *measure = &writer->profile->measures[bound->measure];
    const Estimate *estimate = findings_estimate(writer->findings, bound->measure, slice);
    LadderRung rung = {
        .label = writer->profile->slices[slice].label,
        .reached = say(writer, "%d of %d reached", reached, all),
        .note = say(writer, "%s %s", say_lower(writer, measure->label), say_counted(writer, measure, estimate)),
    };
    for (size_t p = 0; p < bound->part_count && p < LADDER_MOST_PARTS; p++) {
        rung.parts[p] = count_in(writer, bound->total, slice, writer->profile->slices[bound->parts[p]].where);
    }
    return rung;
}

static const char *ladder_alt(Writer *writer, const ReadLadder *ladder) {
    Buf buf = {0};
    for (size_t r = 0; r < ladder->count; r++) {
        buf_printf(&buf, "%s%s, %s, %s:", r ? " " : "", ladder->rungs[r].label, ladder->rungs[r].reached,
                   ladder->rungs[r].note);
        for (size_t p = 0; p < ladder->part_count; p++) {
            buf_printf(&buf, "%s %s %d", p ? "," : "", ladder->parts[p], ladder->rungs[r].parts[p]);
        }
        buf_putc(&buf, '.');
    }
    const char *alt = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return alt;
}

void tape_add_ladder(Writer *writer, Block *parent, const ProfileFigure *bound) {
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    ReadLadder *ladder = &figure->as.ladder;
    ladder->part_count = bound->part_count < LADDER_MOST_PARTS ? bound->part_count : LADDER_MOST_PARTS;
    for (size_t p = 0; p < ladder->part_count; p++) ladder->parts[p] = writer->profile->slices[bound->parts[p]].label;
    ladder->rungs = ARENA_ARRAY(writer->arena, bound->slice_count, LadderRung);
    int all = 0;
    for (size_t r = 0; r < bound->slice_count; r++) all += count_in(writer, bound->total, bound->slices[r], NULL);
    int left = all;
    for (size_t r = 0; r < bound->slice_count; r++) {
        ladder->rungs[ladder->count++] = ladder_rung(writer, bound, r, left, all);
        left -= count_in(writer, bound->total, bound->slices[r], NULL);
    }
    figure->kind = FIGURE_READ_LADDER;
    figure->alt = ladder_alt(writer, ladder);
    const char *noun = say_lower(writer, writer->profile->totals[bound->total].label);
    const char *note = bound->note ? bound->note : "by the read they ended on";
    Block *block = block_figure(writer, parent, figure, bound->title, say(writer, "%s %s", noun, note));
    int unplaced = count_in(writer, bound->total, ESTIMATE_ALL, NULL) - all;
    add_left_out(writer, block, "where it ended", unplaced, "", 0);
}

/* ---- down and distance ---- */

static RateCell situation_cell(const Estimate *estimate) {
    return (RateCell){estimate->k, estimate->n, estimate->value, estimate->low, estimate->high};
}

static const char *situation_alt(Writer *writer, const Situations *table, const Measure *measure) {
    Buf buf = {0};
    buf_printf(&buf, "%s by down and distance.", measure->label);
    for (size_t r = 0; r < table->row_count; r++) {
        buf_printf(&buf, " %s:", table->rows[r]);
        for (size_t c = 0; c < table->column_count; c++) {
            const RateCell *cell = &table->cells[r * table->column_count + c];
            buf_printf(&buf, "%s %s %d of %d", c ? "," : "", table->columns[c], cell->k, cell->n);
        }
        buf_putc(&buf, '.');
    }
    const char *alt = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return alt;
}

void tape_add_situations(Writer *writer, Block *parent, const ProfileFigure *bound) {
    const SituationFinding *found = &writer->findings->situation;
    const Measure *measure = &writer->profile->measures[bound->measure];
    if (!found->band || measure->kind != MEASURE_RATE) return;
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    Situations *table = &figure->as.situations;
    table->column_count = found->bands;
    table->columns = ARENA_ARRAY(writer->arena, found->bands, const char *);
    for (size_t b = 0; b < found->bands; b++) table->columns[b] = found->band->values[b].label;
    table->row_count = SITUATION_DOWNS;
    table->rows = ARENA_ARRAY(writer->arena, SITUATION_DOWNS, const char *);
    for (int d = 0; d < SITUATION_DOWNS; d++) table->rows[d] = say_ordinal_down(writer, d + 1);
    size_t cells = SITUATION_DOWNS * found->bands;
    table->cells = ARENA_ARRAY(writer->arena, cells, RateCell);
    for (size_t c = 0; c < cells; c++)
        table->cells[c] = situation_cell(&found->cells[(size_t)bound->measure * cells + c]);
    figure->kind = FIGURE_SITUATIONS;
    figure->alt = situation_alt(writer, table, measure);
    const char *label = say_lower(writer, measure->label);
    Block *block = block_figure(writer, parent, figure, bound->title, say(writer, "%s / %s", label, measure->noun));
    const Estimate *all = findings_estimate(writer->findings, bound->measure, ESTIMATE_ALL);
    int placed = 0;
    for (size_t c = 0; c < cells; c++) placed += table->cells[c].n;
    add_left_out(writer, block, "down or distance", all->n - placed, label, all->unknown);
}
