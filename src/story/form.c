/* The blank charting sheet of a position and the codes that go into it: what `import` reads, on paper. */
#include <math.h>
#include <string.h>

#include "story/write.h"

static const char *const BOXES[] = {"Player", "Opponent", "Date", "At", "Charted by", "Film", "Sheet"};

/* Room that is asked for by hand, as shares: a digit or two, a clock, a word. */
enum { SHARE_SNAP = 5, SHARE_NUMBER = 4, SHARE_CLOCK = 7, SHARE_TIME = 9, SHARE_LEAST = 4, SHARE_MOST = 10 };

static double share_of(const Field *field) {
    if (field->type == FIELD_CLOCK) return SHARE_CLOCK;
    if (field->type == FIELD_TIME) return SHARE_TIME;
    if (field->type == FIELD_TEXT) return SHARE_MOST;
    if (field->type == FIELD_SPOT || field->type == FIELD_DISTANCE) return SHARE_SNAP;
    if (field->type == FIELD_NUMBER || field->type == FIELD_YESNO) return SHARE_NUMBER;
    size_t longest = 0;
    for (size_t i = 0; i < field->value_count; i++) {
        size_t length = strlen(field->values[i].id);
        if (length > longest) longest = length;
    }
    return fmin(SHARE_MOST, fmax(SHARE_LEAST, (double)longest));
}

/* Only what is charted: derived fields are the program's. */
static size_t charted_fields(Writer *writer, int *fields) {
    const Profile *profile = writer->profile;
    size_t count = 0;
    for (size_t i = 0; i < profile->log_field_count; i++) {
        if (profile->fields[profile->log_fields[i]].derived == DERIVED_NONE) fields[count++] = profile->log_fields[i];
    }
    return count;
}

static bool is_among(const int *fields, size_t count, int field) {
    for (size_t i = 0; i < count; i++) {
        if (fields[i] == field) return true;
    }
    return false;
}

static void add_column(ChartForm *form, const char *label, double weight) {
    form->columns[form->column_count++] = (FormColumn){label, weight};
}

static const Figure *chart_form(Writer *writer, int most) {
    const Profile *profile = writer->profile;
    int *fields = ARENA_ARRAY(writer->arena, profile->log_field_count, int);
    size_t count = charted_fields(writer, fields);
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    ChartForm *form = &figure->as.form;
    form->boxes = ARENA_ARRAY(writer->arena, sizeof BOXES / sizeof *BOXES, const char *);
    memcpy(form->boxes, BOXES, sizeof BOXES);
    form->box_count = sizeof BOXES / sizeof *BOXES;
    form->columns = ARENA_ARRAY(writer->arena, count + 2, FormColumn);
    add_column(form, "snap", SHARE_SNAP);
    for (size_t i = 0; i < count; i++) {
        add_column(form, say_lower(writer, profile->fields[fields[i]].label), share_of(&profile->fields[fields[i]]));
    }
    int in = profile_field(profile, "in");
    if (in >= 0 && !is_among(fields, count, in)) add_column(form, "film", SHARE_TIME);
    form->most_rows = most;
    figure->kind = FIGURE_CHART_FORM;
    figure->alt = say(writer, "Blank sheet for charting %s, %d columns; the codes are listed after it.",
                      say_lower(writer, profile->plural), (int)form->column_count);
    return figure;
}

/* It has no title: the grid takes the page, and the running head says what it is. */
void story_form(Writer *writer, Block *document, const LayoutSection *section) {
    Block *block = block_section(writer, document, NULL, NULL);
    block->bookmark = section->title ? section->title : "Charting sheet";
    block_figure(writer, block, chart_form(writer, section->most), NULL, NULL);
}

/* ---- codes ---- */

static const char *number_words(Writer *writer, const Field *field) {
    int places = field->step > 0 && field->step < 1 ? 1 : 0;
    return say(writer, "%s to %s", say_number(writer, field->low, places), say_number(writer, field->high, places));
}

/* What is written into a column that has no list of codes. */
static const char *form_of(Writer *writer, const Field *field) {
    switch (field->type) {
    case FIELD_CHOICE:
    case FIELD_ORDERED:
        return "";
    case FIELD_YESNO:
        return "yes, no";
    case FIELD_NUMBER:
        return number_words(writer, field);
    case FIELD_TEXT:
        return "words";
    case FIELD_CLOCK:
        return "m:ss left in the quarter";
    case FIELD_SPOT:
        return "\u221225 own, 50, +25 theirs";
    case FIELD_DISTANCE:
        return "yards, or goal";
    case FIELD_TIME:
        return "h:mm:ss on the film";
    }
    return "";
}

/* Every code with what it says: "1-robber  man with a safety dropping on the crossers". */
static Words field_codes(Writer *writer, const Field *field) {
    Words words = {0};
    for (size_t i = 0; i < field->value_count; i++) {
        const FieldValue *value = &field->values[i];
        bool told = value->says && *value->says;
        bool last = i + 1 == field->value_count;
        words_add(writer, &words, SPAN_STRONG, value->id, NULL);
        const char *means = told ? say(writer, " %s", value->says) : "";
        words_add(writer, &words, SPAN_TEXT, say(writer, "%s%s", means, last ? "" : told ? "; " : ", "), NULL);
    }
    const char *form = form_of(writer, field);
    const char *says = !field->value_count && field->says && *field->says ? say(writer, ": %s", field->says) : "";
    const char *rare = field->exception ? " Only when it happens." : "";
    if (*form || *rare) words_add(writer, &words, SPAN_TEXT, say(writer, "%s%s%s", form, says, rare), NULL);
    return words;
}

static void code_table(Writer *writer, Block *parent, const int *fields, size_t count) {
    static const TableColumn HEADS[] = {
        {.head = "column", .width = 74, .strong = true, .head_of_row = true},
        {.head = "write"},
    };
    enum { COLUMNS = sizeof HEADS / sizeof *HEADS };
    Table *table = block_table(writer, parent, HEADS, COLUMNS, count);
    table->dense = true;
    for (size_t i = 0; i < count; i++) {
        const Field *field = &writer->profile->fields[fields[i]];
        table->cells[i * COLUMNS].words = words_plain(writer, say_lower(writer, field->label));
        table->cells[i * COLUMNS + 1].words = field_codes(writer, field);
    }
}

/* Lines that a field's codes take, roughly. */
static size_t weight_of(Writer *writer, int field) {
    enum { LINE = 66 };
    Words words = field_codes(writer, &writer->profile->fields[field]);
    size_t bytes = 0;
    for (size_t i = 0; i < words.count; i++) bytes += strlen(words.spans[i].text);
    return 1 + bytes / LINE;
}

/* In two tables side by side, of about the same height. */
void story_codes(Writer *writer, Block *document, const LayoutSection *section) {
    int *fields = ARENA_ARRAY(writer->arena, writer->profile->log_field_count, int);
    size_t count = charted_fields(writer, fields);
    size_t all = 0;
    for (size_t i = 0; i < count; i++) all += weight_of(writer, fields[i]);
    size_t left = 0;
    for (size_t taken = 0; left < count;
         left++) { /* until the next would make the left longer than it makes the right */
        size_t next = weight_of(writer, fields[left]);
        if (left && 2 * taken + next > all) break;
        taken += next;
    }
    Block *block = block_section(writer, document, section->title ? section->title : "Codes",
                                 "the words that import reads; blank where not charted or not applicable");
    Block *split = block_add(writer, block, BLOCK_SPLIT);
    split->ratio = 0.5;
    code_table(writer, block_add(writer, split, BLOCK_GROUP), fields, left);
    if (left < count) code_table(writer, block_add(writer, split, BLOCK_GROUP), fields + left, count - left);
}
