/* Measurables: every measurement with its notation, status, day and place, against its population. */
#include <math.h>

#include "story/write.h"

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

static const Table *measured_table(Writer *writer) {
    Table *table = ARENA_NEW(writer->arena, Table);
    table->columns = ARENA_ARRAY(writer->arena, COLUMNS, TableColumn);
    for (int i = 0; i < COLUMNS; i++) table->columns[i] = HEADS[i];
    table->column_count = COLUMNS;
    table->cells = ARENA_ARRAY(writer->arena, writer->dossier->measurable_count * COLUMNS, TableCell);
    for (size_t i = 0; i < writer->dossier->measurable_count; i++) {
        if (measurable_info(writer->dossier->measurables[i].id)) table_row(writer, table, &writer->findings->measurables[i]);
    }
    return table;
}

static const char *population_note(Writer *writer) {
    const Scale *scale = writer->findings->scale;
    if (!scale) return "No comparison scale is at hand for this position, so no percentile is printed.";
    return say(writer,
               "Compared with %s. Source: %s (%s). A percentile is the share of that population he beats, ties counted "
               "half; where less is better the order is turned, so that a higher percentile is always the better one. "
               "Hand times are printed as timed: no allowance between hand and electronic timing is agreed for this "
               "distance, so none is added.",
               scale->name, scale->source, scale->licence);
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
    block_add(writer, block, BLOCK_TABLE)->table = measured_table(writer);
    block_note(writer, block, population_note(writer));
}
