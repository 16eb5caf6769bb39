/* Measurables: every measurement with its notation, status, day and place, against its population. */
#include <math.h>
#include <string.h>

#include "story/write.h"

/* ---- as measured ---- */

enum { COLUMNS = 8 };

static const char *status_words(Writer *writer, const Measurable *measurable) {
    const char *timing = measurable->hand_timed ? "hand-timed" : NULL;
    const char *status = measurable->verified ? "verified" : "reported";
    return timing ? say(writer, "%s, %s", timing, status) : status;
}

static void table_row(Writer *writer, Table *table, const MeasurableFinding *finding) {
    const Measurable *measurable = finding->measurable;
    const MeasurableInfo *info = measurable_info(measurable->id);
    const ScaleMeasurable *population = finding->population;
    TableCell *cells = &table->cells[table->row_count++ * COLUMNS];
    const char *texts[COLUMNS] = {
        info->label,
        measurable->notation,
        notation_plain(writer->arena, info, measurable->value),
        isfinite(finding->percentile) ? say(writer, "%.0f", finding->percentile) : "\u2013",
        population ? say(writer, "%d", population->n) : "\u2013",
        status_words(writer, measurable),
        measurable->on ? say_date(writer, measurable->on) : "\u2013",
        measurable->where ? measurable->where : "\u2013",
    };
    for (int i = 0; i < COLUMNS; i++) cells[i].words = words_plain(writer, texts[i]);
}

static const TableColumn HEADS[COLUMNS] = {
    {.head = "measured", .width = 66, .head_of_row = true, .strong = true},
    {.head = "as written", .width = 46, .align = ALIGN_RIGHT},
    {.head = "value", .width = 62, .align = ALIGN_RIGHT},
    {.head = "percentile", .width = 44, .align = ALIGN_RIGHT},
    {.head = "of", .width = 28, .align = ALIGN_RIGHT},
    {.head = "status", .width = 86},
    {.head = "on", .width = 56},
    {.head = "where"},
};

static void measured_table(Writer *writer, Block *section) {
    Table *table = block_table(writer, section, HEADS, COLUMNS, writer->dossier->measurable_count);
    table->row_count = 0;
    for (size_t i = 0; i < writer->dossier->measurable_count; i++) {
        if (measurable_info(writer->dossier->measurables[i].id))
            table_row(writer, table, &writer->findings->measurables[i]);
    }
}

/* ---- the population ---- */

static const char *percentile_words(const Scale *scale) {
    return scale->rows.count ? "the share of that population he beats, ties counted half"
                             : "the share of that population he beats, read between its published quantiles";
}

static const char *population_note(Writer *writer) {
    const Scale *scale = writer->findings->scale;
    if (!scale) return "No comparison scale is at hand for this position, so no percentile is printed.";
    return say(
        writer,
        "Compared with %s. Source: %s%s%s%s. A percentile is %s; where less is better the order is turned, so that "
        "a higher percentile is always the better one. Hand times are printed as timed: no allowance between hand "
        "and electronic timing is agreed for these distances, so none is added.",
        scale->name, scale->source, *scale->licence ? " (" : "", scale->licence, *scale->licence ? ")" : "",
        percentile_words(scale));
}

/* ---- the nearest ---- */

enum { FIXED_COLUMNS = 2, ROOMY_KINDS = 7 };

static const char *kind_label(const Measurable *measurable) {
    return measurable_info(measurable->id)->label;
}

/* The player, a column a kind, the distance. */
static const TableColumn *nearest_heads(Writer *writer, const ComparableFinding *found) {
    size_t columns = found->kind_count + FIXED_COLUMNS;
    TableColumn *heads = ARENA_ARRAY(writer->arena, columns, TableColumn);
    heads[0] = (TableColumn){.head = "player", .head_of_row = true, .strong = true};
    for (size_t i = 0; i < found->kind_count; i++) {
        heads[i + 1] =
            (TableColumn){.head = say_lower(writer, kind_label(found->used[i])), .align = ALIGN_RIGHT, .width = -.5};
    }
    heads[columns - 1] = (TableColumn){.head = "distance", .align = ALIGN_RIGHT, .width = 46};
    return heads;
}

static void value_cells(Writer *writer, TableCell *cells, const ComparableFinding *found, const Comparable *nearest) {
    const ScaleRows *rows = &writer->findings->scale->rows;
    for (size_t i = 0; i < found->kind_count; i++) {
        const MeasurableInfo *info = measurable_info(found->used[i]->id);
        double value = nearest ? rows->columns[found->columns[i]][nearest->row] : found->used[i]->value;
        cells[i].words = words_plain(writer, notation_trade(writer->arena, info, value));
    }
}

static void nearest_row(Writer *writer, TableCell *cells, const ComparableFinding *found, const Comparable *nearest) {
    words_add(writer, &cells[0].words, SPAN_TEXT, nearest->label, NULL);
    if (strcmp(nearest->label, nearest->id) != 0)
        words_add(writer, &cells[0].words, SPAN_MUTED, say(writer, " \u00b7 %s", nearest->id), NULL);
    value_cells(writer, cells + 1, found, nearest);
    cells[found->kind_count + 1].words = words_plain(writer, say(writer, "%.2f", nearest->distance));
}

/* "height, weight and 40 yards" */
static const char *list_kinds(Writer *writer, const Measurable *const *measured, size_t count) {
    Buf buf = {0};
    for (size_t i = 0; i < count; i++) {
        const char *join = i == 0 ? "" : i + 1 == count ? " and " : ", ";
        buf_printf(&buf, "%s%s", join, say_lower(writer, kind_label(measured[i])));
    }
    const char *list = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return list;
}

static bool is_hand_timed(const Measurable *measurable) {
    return measurable->hand_timed;
}

static bool is_reported(const Measurable *measurable) {
    return !measurable->verified && !measurable->hand_timed;
}

/* " Hand-timed, as timed: 40 yards." for the kinds used of which it is true; "" for none. */
static const char *kinds_that(Writer *writer, const ComparableFinding *found, bool (*is)(const Measurable *measurable),
                              const char *words) {
    const Measurable **those = ARENA_ARRAY(writer->arena, found->kind_count, const Measurable *);
    size_t count = 0;
    for (size_t i = 0; i < found->kind_count; i++) {
        if (is(found->used[i])) those[count++] = found->used[i];
    }
    return count ? say(writer, " %s: %s.", words, list_kinds(writer, those, count)) : "";
}

static const char *nearest_note(Writer *writer, const ComparableFinding *found) {
    const char *left_out = "";
    if (found->left_out_count)
        left_out = say(writer, " Left out, because with it fewer than %d rows are complete: %s.",
                       COMPARABLES_FEWEST_ROWS, list_kinds(writer, found->left_out, found->left_out_count));
    return say(
        writer,
        "Mahalanobis distance over %s, in units of how these vary together in the %s of the population, of %s, that "
        "have all %s; 0 is the same build and test. It says who is alike in these figures and nothing of how he "
        "played.%s%s%s",
        list_kinds(writer, found->used, found->kind_count), say_count(writer, (int)found->complete, "rows"),
        say_count(writer, (int)writer->findings->scale->rows.count, "rows"),
        say_word_count(writer, (int)found->kind_count, "kinds"),
        kinds_that(writer, found, is_hand_timed, "Hand-timed, taken as timed"),
        kinds_that(writer, found, is_reported, "Not verified"), left_out);
}

static void nearest_table(Writer *writer, Block *section) {
    const ComparableFinding *found = &writer->findings->comparables;
    if (!found->count) return;
    size_t columns = found->kind_count + FIXED_COLUMNS;
    block_head(writer, section, 2, "Nearest in build and test", writer->findings->scale->name);
    Table *table = block_table(writer, section, nearest_heads(writer, found), columns, found->count + 1);
    table->dense = found->kind_count > ROOMY_KINDS;
    table->cells[0].words = words_plain(writer, writer->dossier->family);
    value_cells(writer, table->cells + 1, found, NULL);
    table->cells[columns - 1].words = words_plain(writer, "\u2013");
    for (size_t i = 0; i < found->count; i++) {
        nearest_row(writer, &table->cells[(i + 1) * columns], found, &found->nearest[i]);
    }
    block_note(writer, section, nearest_note(writer, found));
}

void story_measurables(Writer *writer, Block *document, const LayoutSection *section) {
    if (!writer->dossier->measurable_count) return;
    const char *note = say_count(writer, (int)writer->dossier->measurable_count, "measurements");
    Block *block = block_section(writer, document, section->title ? section->title : "Measurables", note);
    const Figure *strips = figure_strips(writer, writer->profile->measurable_count);
    if (strips->as.strips.count) {
        block_figure(writer, block, strips, "Against the position",
                     "line 5th\u201395th, bar 25th\u201375th, tick median \u00b7 better to the right");
    }
    block_head(writer, block, 2, "As measured", NULL);
    measured_table(writer, block);
    block_note(writer, block, population_note(writer));
    nearest_table(writer, block);
}
