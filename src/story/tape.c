/* The tape in figures: the profile's figures, then its measures as a table. */
#include <math.h>
#include <string.h>

#include "story/write_tape.h"

/* ---- the field from above ---- */

static RateCell rate_cell(const Estimate *estimate) {
    return (RateCell){estimate->k, estimate->n, estimate->value, estimate->low, estimate->high};
}

/* Lanes by their order across the field: bounded by the numbers and the hashes of the college field (rule book: hashes
 * 60 ft from each sideline, the numbers' tops 9 yards from it), the five lanes of the profiles; other counts share the
 * width. */
static void lane_bounds(FieldLane *lanes, size_t count) {
    static const double FIVE[] = {0, 9, 20, 33.33, 44.33, 53.33};
    for (size_t i = 0; i < count; i++) {
        lanes[i].from = count == 5 ? FIVE[i] : 53.33 * (double)i / (double)count;
        lanes[i].to = count == 5 ? FIVE[i + 1] : 53.33 * (double)(i + 1) / (double)count;
    }
}

/* Depth drawn of an open band, yards; and of cells that are no yards, which stand clear of the line of scrimmage. */
enum { BEHIND_SHOWN = -6, DEEP_SHOWN = 34, EVEN_DEPTH = 10, EVEN_START = 1 };

static bool in_yards(const ProfileFigure *bound, const Field *depth) {
    return !bound->note && depth->derived == DERIVED_BAND;
}

static void band_bounds(FieldBand *band, const Field *field, size_t index, bool yards) {
    if (!yards) {
        band->from = EVEN_START + EVEN_DEPTH * (double)index;
        band->to = band->from + EVEN_DEPTH;
        return;
    }
    band->from = fmax(field->bands[index].low, BEHIND_SHOWN);
    band->to = fmin(field->bands[index].high + 1, DEEP_SHOWN);
    if (band->from < 0 && band->to <= 0) band->to = 0;
}

static const char *field_alt(Writer *writer, const ThrowFieldFigure *field, const ProfileFigure *bound) {
    Buf buf = {0};
    const Field *fields = writer->profile->fields;
    buf_puts(&buf, writer->profile->measures[bound->measure].label);
    if (bound->note) {
        buf_printf(&buf, " by %s and %s.", say_lower(writer, fields[bound->depth].label),
                   say_lower(writer, fields[bound->lateral].label));
    } else {
        buf_puts(&buf, " by depth and lane, from the deepest.");
    }
    for (size_t b = field->band_count; b-- > 0;) {
        buf_printf(&buf, " %s:", field->bands[b].label);
        for (size_t l = 0; l < field->lane_count; l++) {
            const RateCell *cell = &field->cells[b * field->lane_count + l];
            buf_printf(&buf, "%s %s %d of %d", l ? "," : "", field->lanes[l].label, cell->k, cell->n);
        }
        buf_putc(&buf, '.');
    }
    const char *alt = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return alt;
}

static const Figure *throw_field(Writer *writer, const FieldFinding *finding) {
    const ProfileFigure *bound = finding->figure;
    const Field *lateral = &writer->profile->fields[bound->lateral];
    const Field *depth = &writer->profile->fields[bound->depth];
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    ThrowFieldFigure *field = &figure->as.field;
    field->lane_count = finding->lanes;
    field->band_count = finding->bands;
    field->lanes = ARENA_ARRAY(writer->arena, finding->lanes, FieldLane);
    field->bands = ARENA_ARRAY(writer->arena, finding->bands, FieldBand);
    field->cells = ARENA_ARRAY(writer->arena, finding->lanes * finding->bands, RateCell);
    lane_bounds(field->lanes, finding->lanes);
    for (size_t l = 0; l < finding->lanes; l++) {
        field->lanes[l].label = lateral->values[l].label;
        field->lanes[l].total = rate_cell(&finding->lane_totals[l]);
    }
    for (size_t b = 0; b < finding->bands; b++) {
        band_bounds(&field->bands[b], depth, b, in_yards(bound, depth));
        field->bands[b].label = depth->values[b].label;
        field->bands[b].total = rate_cell(&finding->band_totals[b]);
    }
    for (size_t c = 0; c < finding->lanes * finding->bands; c++) field->cells[c] = rate_cell(&finding->cells[c]);
    figure->kind = FIGURE_THROW_FIELD;
    figure->alt = field_alt(writer, field, bound);
    return figure;
}

static const char to_scale[] =
    "To scale. Lanes are bounded by the numbers and the college hashes; the heavy line is scrimmage.";

static void add_throw_field(Writer *writer, Block *parent, const FieldFinding *finding) {
    const Measure *measure = &writer->profile->measures[finding->figure->measure];
    Block *block = block_figure(writer, parent, throw_field(writer, finding), finding->figure->title,
                                say(writer, "%s / %s, %%", say_lower(writer, measure->label), measure->noun));
    const Estimate *all = findings_estimate(writer->findings, finding->figure->measure, ESTIMATE_ALL);
    const char *note = finding->figure->note;
    const char *unplaced = finding->unplaced ? say(writer, " %s not charted on %d, left out.",
                                                   note ? "Place" : "Depth or side", finding->unplaced)
                                             : "";
    const char *unknown =
        all->unknown ? say(writer, " %s not charted on %d, left out.", measure->label, all->unknown) : "";
    block->words = words_plain(
        writer,
        say(writer, "%s Darker: a higher lower end of the interval, so that few %s stay pale. Hatched: under five.%s%s",
            note ? note : to_scale, measure->noun, unplaced, unknown));
}

/* ---- interval rows ---- */

static const char *rows_alt(Writer *writer, const IntervalRows *rows, const Measure *measure) {
    Buf buf = {0};
    buf_printf(&buf, "%s by situation, with 95%% intervals:", measure->label);
    for (size_t i = 0; i < rows->count; i++) {
        buf_printf(&buf, "%s %s", i ? ";" : "", say_row(writer, &rows->rows[i]));
    }
    const char *alt = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return alt;
}

/* A place or task that the player never had is no row. */
static bool has_snaps(Writer *writer, const ProfileFigure *bound, size_t index) {
    const Estimate *estimate = findings_estimate(writer->findings, bound->measure, bound->slices[index]);
    return estimate->n > 0 || estimate->unknown > 0;
}

static const Figure *interval_rows(Writer *writer, const ProfileFigure *bound) {
    const Measure *measure = &writer->profile->measures[bound->measure];
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    IntervalRows *rows = &figure->as.intervals;
    rows->rows = ARENA_ARRAY(writer->arena, bound->slice_count, IntervalRow);
    bool starts = false;
    for (size_t i = 0; i < bound->slice_count; i++) {
        if (bound->slices[i] < 0) {
            starts = rows->count > 0;
            continue;
        }
        if (!has_snaps(writer, bound, i)) continue;
        const Estimate *estimate = findings_estimate(writer->findings, bound->measure, bound->slices[i]);
        IntervalRow *row = &rows->rows[rows->count++];
        *row = interval_row(writer, measure, estimate, writer->profile->slices[bound->slices[i]].label);
        row->starts_group = starts;
        starts = false;
    }
    rows->axis = interval_axis(measure, rows->rows, rows->count);
    const Estimate *all = findings_estimate(writer->findings, bound->measure, ESTIMATE_ALL);
    rows->reference = all->n < FEW_FOR_A_TINT ? NAN : all->value;
    figure->kind = FIGURE_INTERVAL_ROWS;
    figure->alt = rows_alt(writer, rows, measure);
    return figure;
}

/* The most that was left out of any row, so that the reader knows what the rows do not see. */
static int most_unknown(Writer *writer, const ProfileFigure *bound, const Slice **slice) {
    int most = 0;
    for (size_t i = 0; i < bound->slice_count; i++) {
        if (bound->slices[i] < 0) continue;
        const Estimate *estimate = findings_estimate(writer->findings, bound->measure, bound->slices[i]);
        if (estimate->unknown <= most) continue;
        most = estimate->unknown;
        *slice = &writer->profile->slices[bound->slices[i]];
    }
    return most;
}

/* "No snaps: at right tackle, travelling." or "". */
static const char *no_snaps(Writer *writer, const ProfileFigure *bound) {
    const char *names = "";
    for (size_t i = 0; i < bound->slice_count; i++) {
        if (bound->slices[i] < 0 || has_snaps(writer, bound, i)) continue;
        const char *label = say_lower(writer, writer->profile->slices[bound->slices[i]].label);
        names = say(writer, "%s%s%s", names, *names ? ", " : "", label);
    }
    return *names ? say(writer, "No snaps: %s.", names) : "";
}

static void add_interval_rows(Writer *writer, Block *parent, const ProfileFigure *bound) {
    const Measure *measure = &writer->profile->measures[bound->measure];
    const Estimate *all = findings_estimate(writer->findings, bound->measure, ESTIMATE_ALL);
    const char *counted = say_k_of_n(writer, measure, all);
    const char *note = is_few(all) ? say(writer, "all %s: %s, too few for a line behind", measure->noun, counted)
                                   : say(writer, "line behind: all %s, %s, %s", measure->noun, counted,
                                         say_estimate(writer, measure, all));
    Block *block = block_figure(writer, parent, interval_rows(writer, bound), bound->title, note);
    const Slice *slice = NULL;
    int unknown = most_unknown(writer, bound, &slice);
    const char *left_out = unknown ? say(writer, "Not charted and left out: up to %d %s a row (%s).", unknown,
                                         measure->noun, say_lower(writer, slice->label))
                                   : "";
    const char *empty = no_snaps(writer, bound);
    if (!unknown && !*empty) return;
    block->words = words_plain(writer, say(writer, "%s%s%s", left_out, unknown && *empty ? " " : "", empty));
}

/* A chart that never answers the figure's question gets a line instead of an empty figure. */
static bool is_answered(Writer *writer, const ProfileFigure *bound) {
    return findings_estimate(writer->findings, bound->measure, ESTIMATE_ALL)->n > 0;
}

typedef void FigureWriter(Writer *writer, Block *parent, const ProfileFigure *bound);

static void add_bound_field(Writer *writer, Block *parent, const ProfileFigure *bound) {
    add_throw_field(writer, parent, &writer->findings->fields[bound - writer->profile->figures]);
}

static const struct {
    FigureWriter *write;
    bool full; /* takes the whole width; others stand two by two */
} FIGURES[] = {
    [PROFILE_THROW_FIELD] = {add_bound_field, false},    [PROFILE_INTERVAL_ROWS] = {add_interval_rows, false},
    [PROFILE_GAME_TREND] = {tape_add_trend, true},       [PROFILE_LADDER] = {tape_add_ladder, false},
    [PROFILE_SITUATIONS] = {tape_add_situations, false}, [PROFILE_RIBBON] = {tape_add_ribbons, true},
};

static void add_figure(Writer *writer, Block *parent, const ProfileFigure *bound) {
    if (bound->measure < 0 || is_answered(writer, bound)) {
        FIGURES[bound->kind].write(writer, parent, bound);
        return;
    }
    block_head(writer, parent, 2, bound->title, NULL);
    block_note(writer, parent,
               say(writer, "Not drawn: these charts leave out what \u201c%s\u201d is counted from.",
                   writer->profile->measures[bound->measure].label));
}

/* The games in numbers stand under their trend, or after all figures where the profile draws none. A short section has
 * the first figures that stand side by side, and no tables. */
static void add_figures(Writer *writer, Block *section, const LayoutSection *asked) {
    Block *split = NULL;
    bool games = asked->brief;
    int left_to_add = asked->most ? asked->most : LAYOUT_MOST;
    for (size_t i = 0; i < writer->profile->figure_count && left_to_add; i++) {
        const ProfileFigure *bound = &writer->profile->figures[i];
        if (FIGURES[bound->kind].full && asked->brief) continue;
        left_to_add--;
        if (FIGURES[bound->kind].full) {
            split = NULL;
            add_figure(writer, section, bound);
            if (bound->kind == PROFILE_GAME_TREND && !games) tape_add_games(writer, section);
            games = games || bound->kind == PROFILE_GAME_TREND;
            continue;
        }
        bool left = !split || split->child_count == 2;
        if (left) split = block_add(writer, section, BLOCK_SPLIT);
        split->ratio = 0.5;
        add_figure(writer, block_add(writer, split, BLOCK_GROUP), bound);
    }
    if (!games) tape_add_games(writer, section);
}

/* ---- measures ---- */

enum { MEASURE_COLUMNS = 5 };

static const TableColumn MEASURE_HEADS[MEASURE_COLUMNS] = {
    {.head = "measure", .width = 96, .head_of_row = true, .strong = true},
    {.head = "counted", .width = 62, .align = ALIGN_RIGHT},
    {.head = "value", .width = 44, .align = ALIGN_RIGHT, .strong = true},
    {.head = "95% interval", .width = 62, .align = ALIGN_RIGHT},
    {.head = "what it is"},
};

static void measure_row(Writer *writer, Table *table, int index) {
    const Measure *measure = &writer->profile->measures[index];
    const Estimate *estimate = findings_estimate(writer->findings, index, ESTIMATE_ALL);
    bool few = is_few(estimate);
    const char *left_out = estimate->unknown ? say(writer, " Not charted on %d.", estimate->unknown) : "";
    const char *texts[MEASURE_COLUMNS] = {
        measure->label,
        say_k_of_n(writer, measure, estimate),
        few ? "\u2013" : say_estimate(writer, measure, estimate),
        few ? "" : say_interval(writer, measure, estimate),
        say(writer, "%s%s", measure->says ? measure->says : "", left_out),
    };
    TableCell *cells = &table->cells[table->row_count++ * MEASURE_COLUMNS];
    for (int i = 0; i < MEASURE_COLUMNS; i++) cells[i].words = words_plain(writer, texts[i]);
}

static void measure_table(Writer *writer, Block *section) {
    Table *table = ARENA_NEW(writer->arena, Table);
    table->columns = ARENA_ARRAY(writer->arena, MEASURE_COLUMNS, TableColumn);
    memcpy(table->columns, MEASURE_HEADS, sizeof MEASURE_HEADS);
    table->column_count = MEASURE_COLUMNS;
    table->cells = ARENA_ARRAY(writer->arena, writer->profile->measure_count * MEASURE_COLUMNS, TableCell);
    for (size_t i = 0; i < writer->profile->measure_count; i++) {
        if (writer->profile->measures[i].printed) measure_row(writer, table, (int)i);
    }
    block_head(writer, section, 2, "The measures",
               say(writer, "k/n for rates, n for the rest, alone under %d; interval 95%%", FEW_FOR_A_TINT));
    block_add(writer, section, BLOCK_TABLE)->table = table;
}

enum { TOTALS_ON_THE_LINE = 6 };

/* The first official totals, in the profile's order: what a box score leads with. */
static const char *totals_line(Writer *writer) {
    Buf buf = {0};
    buf_puts(&buf, say_count(writer, writer->findings->counted, writer->profile->snap_noun));
    int shown = 0;
    for (size_t i = 0; i < writer->profile->total_count && shown < TOTALS_ON_THE_LINE; i++) {
        const Total *total = &writer->profile->totals[i];
        if (!total->official) continue;
        buf_printf(&buf, ", %s", say_count(writer, (int)writer->findings->totals[i], say_lower(writer, total->label)));
        shown++;
    }
    const char *line = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return line;
}

enum { FEW_TO_DRAW = 5 };

/* "Two dropbacks are too few to draw; the log has them." */
static const char *few_words(Writer *writer) {
    int counted = writer->findings->counted;
    const char *log =
        writer_has(writer, SECTION_SNAP_LOG) ? counted == 1 ? "; the log has it" : "; the log has them" : "";
    return say(writer, "%s %s too few to draw%s.",
               say_sentence(writer, say_word_count(writer, counted, writer->profile->snap_noun)),
               counted == 1 ? "is" : "are", log);
}

void story_tape(Writer *writer, Block *document, const LayoutSection *section) {
    const char *title = section->title ? section->title : "The tape in figures";
    if (!writer->findings->counted) {
        Block *block = block_section(writer, document, title, "no film charted");
        block_text(writer, block, STYLE_PROSE, "No snaps have been charted yet, so there is nothing to count.");
        return;
    }
    Block *block = block_section(writer, document, title, totals_line(writer));
    if (writer->findings->counted < FEW_TO_DRAW) {
        block_text(writer, block, STYLE_PROSE, few_words(writer));
    } else {
        add_figures(writer, block, section);
        if (section->brief) return;
    }
    measure_table(writer, block);
}
