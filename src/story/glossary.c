/* Glossary: what the charted words mean. */
#include <string.h>

#include "story/write.h"

static void add_value(Writer *writer, Words *words, const FieldValue *value, bool last) {
    bool told = value->says && *value->says;
    words_add(writer, words, SPAN_STRONG, value->label, NULL);
    words_add(writer, words, SPAN_TEXT,
              say(writer, "%s%s%s", told ? ": " : "", told ? value->says : "", last ? "." : "; "), NULL);
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
