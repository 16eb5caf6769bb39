/* Grades: trait by trait on the house scale, the composite, and every evaluator's own. */
#include <math.h>
#include <string.h>

#include "story/write.h"

static const Grade *grade_of(const Grades *grades, int trait) {
    for (size_t i = 0; i < grades->count; i++) {
        if (grades->grades[i].trait == trait) return &grades->grades[i];
    }
    return NULL;
}

static TraitRow trait_row(Writer *writer, int index, bool brief) {
    const Trait *trait = &writer->profile->traits[index];
    const TraitFinding *finding = &writer->findings->traits[index];
    const Grade *grade = writer->dossier->grades_count ? grade_of(&writer->dossier->grades[0], index) : NULL;
    bool many = finding->evaluators > 1;
    return (TraitRow){
        .label = trait->label,
        .weight = say_number(writer, trait->weight, trait->weight != floor(trait->weight)),
        .grade = say_number(writer, finding->house, 1),
        .says = brief                                  ? ""
                : grade && grade->note && *grade->note ? grade->note
                                                       : trait->says,
        .value = finding->house,
        .low = many ? finding->low : NAN,
        .high = many ? finding->high : NAN,
    };
}

static const char *traits_alt(Writer *writer, const TraitBars *bars) {
    Buf buf = {0};
    buf_printf(&buf, "Trait grades on the scale %s, bar %s:", writer->house->scale_name,
               say_number(writer, bars->bar, 1));
    for (size_t i = 0; i < bars->count; i++) {
        const TraitRow *row = &bars->rows[i];
        buf_printf(&buf, "%s %s %s", i ? ";" : "", row->label, row->grade);
        if (isfinite(row->low)) buf_printf(&buf, " (%.1f to %.1f)", row->low, row->high);
    }
    const char *alt = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return alt;
}

static const Figure *trait_bars(Writer *writer, bool brief) {
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    TraitBars *bars = &figure->as.traits;
    bars->rows = ARENA_ARRAY(writer->arena, writer->profile->trait_count, TraitRow);
    for (size_t i = 0; i < writer->profile->trait_count; i++)
        bars->rows[bars->count++] = trait_row(writer, (int)i, brief);
    bars->low = writer->house->grade_low;
    bars->high = writer->house->grade_high;
    bars->bar = writer->house->grade_bar;
    figure->kind = FIGURE_TRAIT_BARS;
    figure->alt = traits_alt(writer, bars);
    return figure;
}

static const char *composite_text(Writer *writer) {
    double composite = writer->findings->composite;
    if (!isfinite(composite)) {
        return "Traits that carry less than 70% of the weight are graded, so no composite is printed.";
    }
    const Grades *grades = &writer->dossier->grades[0];
    const char *overall = isfinite(grades->overall) ? say(writer, " His overall grade is %.1f.", grades->overall) : "";
    return say(writer,
               "Composite %.1f: the mean of the grades by the position's weights, over the traits that were graded.%s",
               composite, overall);
}

/* ---- evaluators ---- */

const char *evaluator_name(Writer *writer, const char *id) {
    const Evaluator *evaluator = house_evaluator(writer->house, id);
    return evaluator ? evaluator->name : id;
}

static const char *evaluator_role(Writer *writer, const char *id) {
    const Evaluator *evaluator = house_evaluator(writer->house, id);
    return evaluator && evaluator->role ? evaluator->role : "\u2013";
}

static void evaluator_row(Writer *writer, TableCell *cells, const Grades *grades) {
    cells[0].words = words_plain(writer, evaluator_name(writer, grades->by));
    cells[1].words = words_plain(writer, evaluator_role(writer, grades->by));
    cells[2].words = words_plain(writer, grades->on ? say_date(writer, grades->on) : "\u2013");
    cells[3].words = words_plain(writer, say_number(writer, grades->overall, 1));
    cells[4].words = words_plain(writer, say_count(writer, (int)grades->count, "traits"));
    cells[5].words = words_plain(writer, grades->says && *grades->says ? grades->says
                                         : grades->role                ? grades->role
                                                                       : "\u2013");
}

static void evaluator_table(Writer *writer, Block *section) {
    static const TableColumn HEADS[] = {
        {.head = "evaluator", .width = 86, .head_of_row = true, .strong = true},
        {.head = "role", .width = 60},
        {.head = "on", .width = 62},
        {.head = "overall", .width = 38, .align = ALIGN_RIGHT, .strong = true},
        {.head = "graded", .width = 50, .align = ALIGN_RIGHT},
        {.head = "in a sentence"},
    };
    enum { COLUMNS = sizeof HEADS / sizeof *HEADS };
    Table *table = ARENA_NEW(writer->arena, Table);
    table->columns = ARENA_ARRAY(writer->arena, COLUMNS, TableColumn);
    memcpy(table->columns, HEADS, sizeof HEADS);
    table->column_count = COLUMNS;
    table->row_count = writer->dossier->grades_count;
    table->cells = ARENA_ARRAY(writer->arena, table->row_count * COLUMNS, TableCell);
    for (size_t i = 0; i < table->row_count; i++) {
        evaluator_row(writer, &table->cells[i * COLUMNS], &writer->dossier->grades[i]);
    }
    block_head(writer, section, 2, "Evaluators", NULL);
    block_add(writer, section, BLOCK_TABLE)->table = table;
}

static const char *scale_words(Writer *writer) {
    Buf buf = {0};
    buf_printf(&buf, "Scale \u201c%s\u201d:", writer->house->scale_name);
    for (size_t i = writer->house->word_count; i-- > 0;) {
        const GradeWord *word = &writer->house->words[i];
        buf_printf(&buf, " %s and up %s, %s%s", say_number(writer, word->from, word->from != floor(word->from)),
                   word->word, word->says, i ? ";" : ".");
    }
    const char *text = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return text;
}

void story_grades(Writer *writer, Block *document, const LayoutSection *section) {
    if (!writer->dossier->grades_count) return;
    const char *title = section->title ? section->title : "Grades";
    const char *scale = say(writer, "scale \u201c%s\u201d, starter\u2019s bar %s", writer->house->scale_name,
                            say_number(writer, writer->house->grade_bar, 1));
    Block *block =
        section->brief ? block_part(writer, document, NULL, NULL) : block_section(writer, document, title, scale);
    block->bookmark = section->brief ? title : NULL;
    Block *figure = block_figure(
        writer, block, trait_bars(writer, section->brief), section->brief ? title : "Trait by trait",
        section->brief
            ? "wedge: grade \u00b7 bar: range \u00b7 line: starter\u2019s bar"
            : "wedge: filing evaluator \u00b7 bar: range between evaluators \u00b7 line: the starter\u2019s bar");
    figure->words = words_plain(writer, composite_text(writer));
    if (section->brief) return;
    evaluator_table(writer, block);
    const char *agreement = grade_agreement(writer);
    if (agreement) block_note(writer, block, agreement);
    block_note(writer, block, scale_words(writer));
}
