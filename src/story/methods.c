/* Methods and glossary: what each figure is, where its formula comes from, and what the charted words mean. */
#include <string.h>

#include "story/write.h"

/* ---- methods ---- */

static void paragraph(Writer *writer, Block *parent, const char *lead, const char *text) {
    Block *block = block_add(writer, parent, BLOCK_PARAGRAPH);
    words_add(writer, &block->words, SPAN_STRONG, lead, NULL);
    words_add(writer, &block->words, SPAN_TEXT, text, NULL);
}

static void agreement_text(Writer *writer, Block *section) {
    paragraph(writer, section, "Agreement.",
              " Two charts of one game are held against each other field by field by Cohen\u2019s \u03ba (1960, Educational and "
              "Psychological Measurement 20:37\u201346): the agreement beyond what chance gives to two charters who use the words as often "
              "as these do. In fields whose values have an order, steps count (linear weights; Cohen 1968, Psychological "
              "Bulletin 70:213\u2013220). Its interval is by the standard error of Fleiss, Cohen and Everitt (1969, Psychological Bulletin "
              "72:323\u2013327). Several evaluators\u2019 grades are compared by the intraclass correlations ICC(2,1) and ICC(2,k) of Shrout and "
              "Fleiss (1979, Psychological Bulletin 86:420\u2013428): how much of what the grades vary is the traits\u2019 doing, and not the "
              "evaluators\u2019.");
}

static void method_texts(Writer *writer, Block *section) {
    paragraph(writer, section, "Counting.",
              " A rate is k of n, where n counts the snaps at which the question can be answered. What was not charted is left "
              "out of n and reported beside it; it is never taken for a no. Snaps wiped out by a penalty and two-point tries "
              "stand in the log and are not counted.");
    paragraph(writer, section, "Intervals.",
              " A rate carries its 95% Wilson score interval (Wilson 1927; Newcombe 1998, Statistics in Medicine 17:857\u2013872). "
              "A difference of two rates carries Newcombe\u2019s hybrid score interval, his method 10 (1998, Statistics in Medicine "
              "17:873\u2013890). Read it so: were the film endless, the true figure would lie in such an interval 95 times in 100.");
    paragraph(writer, section, "Means and formulas.",
              " Yards an attempt, target depth and the passer formulas carry a bootstrap interval: his snaps are drawn again "
              "2,000 times within their games, and the middle 95% is corrected for bias and skew (BCa; Efron 1987, Journal of the American "
              "Statistical Association 82:171\u2013185). The draw is fixed by the dossier\u2019s id, so the figure is the same on every run.");
    paragraph(writer, section, "Verdicts.",
              " A claim names the snaps it is about; all of them are counted, not only those cited, and set against the other side. "
              "The p of rates is Fisher\u2019s exact test, two-sided. Since many claims are tested at once, each p is adjusted over the "
              "dossier (Benjamini and Hochberg 1995, Journal of the Royal Statistical Society B 57:289\u2013300). Borne out: as claimed, "
              "adjusted p at most 0.05. Contradicted: the reverse, adjusted p at most 0.05. Leaning, or leaning against: the direction "
              "without the proof. Too few to say: under eight answered snaps on either side.");
    if (writer->findings->agreement) agreement_text(writer, section);
    paragraph(writer, section, "Small samples.",
              " Under five snaps a cell is hatched and shows its count alone. Rates are printed in whole points, because a decimal would "
              "claim more than the sample knows.");
    paragraph(writer, section, "What this cannot see.",
              " Snaps of one game are not independent: the same opponent, weather and plan stand behind them. Claims are also "
              "formed on the very film that tests them. The figures support a judgment; they do not replace it.");
    if (writer->house->caution_use) block_note(writer, section, writer->house->caution_use);
}

static const char *measure_definition(Writer *writer, const Measure *measure) {
    const char *says = measure->says ? measure->says : "";
    if (!measure->source || !*measure->source) return says;
    return say(writer, "%s%s%s.", says, *says ? " Source: " : "Source: ", measure->source);
}

static void definition_table(Writer *writer, Block *section) {
    static const TableColumn HEADS[] = {
        {.head = "measure", .width = 104, .head_of_row = true, .strong = true},
        {.head = "counts", .width = 70},
        {.head = "good", .width = 36},
        {.head = "definition and source"},
    };
    enum { COLUMNS = sizeof HEADS / sizeof *HEADS };
    static const char *const GOOD[] = {[BETTER_NEITHER] = "\u2013", [BETTER_MORE] = "high", [BETTER_LESS] = "low"};
    Table *table = ARENA_NEW(writer->arena, Table);
    table->columns = ARENA_ARRAY(writer->arena, COLUMNS, TableColumn);
    memcpy(table->columns, HEADS, sizeof HEADS);
    table->column_count = COLUMNS;
    table->row_count = writer->profile->measure_count;
    table->cells = ARENA_ARRAY(writer->arena, table->row_count * COLUMNS, TableCell);
    for (size_t i = 0; i < table->row_count; i++) {
        const Measure *measure = &writer->profile->measures[i];
        TableCell *cells = &table->cells[i * COLUMNS];
        cells[0].words = words_plain(writer, measure->label);
        cells[1].words = words_plain(writer, measure->noun);
        cells[2].words = words_plain(writer, GOOD[measure->better]);
        cells[3].words = words_plain(writer, measure_definition(writer, measure));
    }
    block_head(writer, section, 2, "Measures", NULL);
    block_add(writer, section, BLOCK_TABLE)->table = table;
}

void story_methods(Writer *writer, Block *document, const LayoutSection *section) {
    Block *block = block_section(writer, document, section->title ? section->title : "Methods",
                                 "what each figure is, and where it comes from");
    block->new_page = false;
    method_texts(writer, block);
    definition_table(writer, block);
}

/* ---- glossary ---- */

static void add_value(Writer *writer, Words *words, const FieldValue *value, bool last) {
    bool told = value->says && *value->says;
    words_add(writer, words, SPAN_STRONG, value->label, NULL);
    words_add(writer, words, SPAN_TEXT, say(writer, "%s%s%s", told ? ": " : "", told ? value->says : "", last ? "." : "; "), NULL);
}

static bool is_yes_or_no(const Field *field) {
    return field->type == FIELD_YESNO || (field->derived == DERIVED_TEST && field->value_count == 2);
}

/* What the field says, then its values, each in strong. */
static Words field_words(Writer *writer, const Field *field) {
    Words words = {0};
    size_t values = is_yes_or_no(field) ? 0 : field->value_count;
    if (field->says) words_add(writer, &words, SPAN_TEXT, values ? say(writer, "%s ", field->says) : field->says, NULL);
    for (size_t i = 0; i < values; i++) add_value(writer, &words, &field->values[i], i + 1 == values);
    return words;
}

/* Only what this dossier's charts use, so that the glossary explains the pages before it. */
static bool is_charted(Writer *writer, size_t field) {
    const Column *column = &writer->dossier->columns.columns[field];
    for (size_t row = 0; row < writer->dossier->columns.rows; row++) {
        if (column->state[row] == VALUE_KNOWN) return true;
    }
    return false;
}

static bool is_glossed(Writer *writer, size_t index) {
    const Field *field = &writer->profile->fields[index];
    bool told = field->says || (field->value_count && !is_yes_or_no(field));
    return told && is_charted(writer, index);
}

void story_glossary(Writer *writer, Block *document, const LayoutSection *section) {
    static const TableColumn HEADS[] = {{.head = "charted", .width = 90, .head_of_row = true, .strong = true},
                                        {.head = "what it says"}};
    const Profile *profile = writer->profile;
    Table *table = ARENA_NEW(writer->arena, Table);
    table->columns = ARENA_ARRAY(writer->arena, 2, TableColumn);
    memcpy(table->columns, HEADS, sizeof HEADS);
    table->column_count = 2;
    table->cells = ARENA_ARRAY(writer->arena, profile->field_count * 2, TableCell);
    for (size_t i = 0; i < profile->field_count; i++) {
        if (!is_glossed(writer, i)) continue;
        TableCell *cells = &table->cells[table->row_count++ * 2];
        cells[0].words = words_plain(writer, profile->fields[i].label);
        cells[1].words = field_words(writer, &profile->fields[i]);
    }
    if (!table->row_count) return;
    Block *block = block_section(writer, document, section->title ? section->title : "Glossary",
                                 "the charted words, as this position uses them");
    block->new_page = false;
    block_add(writer, block, BLOCK_TABLE)->table = table;
}
