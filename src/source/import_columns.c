/* The columns of a table as the fields of a profile of its own, so that conditions over a table are compiled and run as
 * those over snaps are. Only columns that some expression may name are filled. */
#include <string.h>

#include "base/text.h"
#include "source/import_parts.h"

typedef struct ColumnReader {
    Import *import;
    Names *words;            /* number of each word found so far */
    Buf word_list;           /* const char * */
    Buf last_column;         /* by word: column + 1 that has it among its values */
    Buf values;              /* FieldValue of the column being read */
    const char *map_sources; /* all expressions of the map, one after another */
} ColumnReader;

/* ---- which columns are used ---- */

static void collect_sources(const XmlNode *node, Buf *sources) {
    static const char *const attributes[] = {"where", "test", "calc"};
    for (size_t i = 0; i < sizeof attributes / sizeof *attributes; i++) {
        const char *source = xml_value(node, attributes[i]);
        if (source) buf_printf(sources, "%s\n", source);
    }
    for (const XmlNode *child = node->first; child; child = child->next) {
        if (child->name) collect_sources(child, sources);
    }
}

static const char *map_sources(Import *import) {
    Buf sources = {0};
    collect_sources(import->map, &sources);
    const char *text = arena_copy(import->arena, sources.bytes, sources.length);
    buf_free(&sources);
    return text;
}

/* ---- cells ---- */

bool import_readable(const char *text) {
    const char *end = text + strlen(text);
    for (size_t length; text < end; text += length) {
        uint32_t character = text_decode(text, end, &length);
        bool control = character < ' ' && !strchr("\t\n\r", (int)character);
        if (character == TEXT_BAD || control || character == 0xFFFE || character == 0xFFFF) return false;
    }
    return true;
}

static int word_number(ColumnReader *reader, const char *text) {
    int number = names_find(reader->words, text);
    if (number >= 0) return number;
    size_t none = 0;
    number = (int)(reader->word_list.length / sizeof text);
    (void)names_add(reader->words, text, number);
    buf_put(&reader->word_list, &text, sizeof text);
    buf_put(&reader->last_column, &none, sizeof none);
    return number;
}

/* Takes a word among the values of the column. */
static int add_value(ColumnReader *reader, size_t column, const char *text) {
    int word = word_number(reader, text);
    size_t *last = (size_t *)(void *)reader->last_column.bytes + word;
    if (*last == column + 1) return word;
    *last = column + 1;
    FieldValue value = {.id = text, .label = text, .word = word};
    buf_put(&reader->values, &value, sizeof value);
    return word;
}

static bool has_value(const ColumnReader *reader, size_t column, int word) {
    const size_t *last = (const size_t *)(const void *)reader->last_column.bytes;
    return last && last[word] == column + 1;
}

static void fill_numbers(ColumnReader *reader, size_t column) {
    const Table *table = reader->import->table;
    Column *to = &reader->import->columns.columns[column];
    for (size_t row = 0; row < table->row_count; row++) {
        const char *text = table_cell(table, row, column);
        to->state[row] = !text                                  ? VALUE_NOT_APPLICABLE
                         : table_number(text, &to->number[row]) ? VALUE_KNOWN
                                                                : VALUE_UNKNOWN;
    }
}

/* `closed`: no other words than those taken already may stand in the column. */
static void fill_words(ColumnReader *reader, size_t column, bool closed) {
    const Table *table = reader->import->table;
    Column *to = &reader->import->columns.columns[column];
    for (size_t row = 0; row < table->row_count; row++) {
        const char *text = table_cell(table, row, column);
        to->state[row] = VALUE_NOT_APPLICABLE;
        if (!text) continue;
        bool readable = import_readable(text);
        int word = readable ? closed ? names_find(reader->words, text) : add_value(reader, column, text) : -1;
        bool known = word >= 0 && has_value(reader, column, word);
        to->state[row] = known ? VALUE_KNOWN : VALUE_UNKNOWN;
        if (known) to->number[row] = word;
    }
}

static bool all_numbers(const Table *table, size_t column) {
    double number;
    for (size_t row = 0; row < table->row_count; row++) {
        const char *text = table_cell(table, row, column);
        if (text && !table_number(text, &number)) return false;
    }
    return true;
}

/* Words between quotes in the map's expressions: a table need not hold all that a map can read. */
static void add_map_words(ColumnReader *reader, size_t column) {
    const char *at = reader->map_sources;
    for (at += strcspn(at, "'\""); *at; at += strcspn(at, "'\"")) {
        const char *end = strchr(at + 1, *at);
        if (!end) return;
        (void)add_value(reader, column, arena_copy(reader->import->arena, at + 1, (size_t)(end - at - 1)));
        at = end + 1;
    }
}

/* ---- columns ---- */

static const XmlNode *declaration(const Import *import, size_t column) {
    const XmlNode *node = xml_child(import->map, "column");
    for (; node; node = xml_next(node, "column")) {
        if (table_column(import->table, xml_value(node, "name")) == (int)column) return node;
    }
    return NULL;
}

static bool take_listed_values(ColumnReader *reader, const XmlNode *node, size_t column) {
    const char *listed = node ? xml_value(node, "values") : NULL;
    if (!listed) return false;
    char *rest = NULL;
    char *words = arena_string(reader->import->arena, listed);
    for (char *word = strtok_r(words, " ", &rest); word; word = strtok_r(NULL, " ", &rest)) {
        (void)add_value(reader, column, word);
    }
    return true;
}

static void read_column(ColumnReader *reader, size_t column) {
    Import *import = reader->import;
    Field *field = &import->columns_profile.fields[column];
    const XmlNode *node = declaration(import, column);
    const char *type = node ? xml_value(node, "type") : NULL;
    bool number = type ? text_equal(type, "number") : all_numbers(import->table, column);
    Column *to = &import->columns.columns[column];
    to->number = ARENA_ARRAY(import->arena, import->table->row_count, double);
    to->state = ARENA_ARRAY(import->arena, import->table->row_count, uint8_t);
    field->type = number ? FIELD_NUMBER : FIELD_CHOICE;
    if (number) {
        fill_numbers(reader, column);
        return;
    }
    reader->values.length = 0;
    bool closed = take_listed_values(reader, node, column);
    fill_words(reader, column, closed);
    field->value_count = reader->values.length / sizeof(FieldValue);
    if (!closed) add_map_words(reader, column);
    size_t count = reader->values.length / sizeof(FieldValue);
    field->values = ARENA_ARRAY(import->arena, count, FieldValue);
    if (count) memcpy(field->values, reader->values.bytes, reader->values.length);
    import->value_counts[column] = count;
}

static bool check_declarations(Import *import) {
    bool good = true;
    const XmlNode *node = xml_child(import->map, "column");
    for (; node; node = xml_next(node, "column")) good = import_column(import, node, "name") >= 0 && good;
    return good;
}

static bool is_named(const Import *import, const ColumnReader *reader, const char *name) {
    return strstr(reader->map_sources, name) || (import->where && strstr(import->where, name));
}

/* The selection of the call may use only words that the table holds, so that a misspelt one is found. */
static bool compile_where(Import *import) {
    Profile *profile = &import->columns_profile;
    if (import->where) {
        import->where_expr = expr_compile(import->arena, profile, profile->field_count, EXPR_SELECTION, import->where,
                                          import->where_place, import->diagnostics);
    }
    for (size_t i = 0; i < profile->field_count; i++) profile->fields[i].value_count = import->value_counts[i];
    return !import->where || import->where_expr;
}

static void read_columns(Import *import) {
    const Table *table = import->table;
    Profile *profile = &import->columns_profile;
    profile->fields = ARENA_ARRAY(import->arena, table->column_count, Field);
    profile->field_count = table->column_count;
    profile->yes = profile->no = -1;
    import->columns = (Columns){.rows = table->row_count, .count = table->column_count};
    import->columns.columns = ARENA_ARRAY(import->arena, table->column_count, Column);
    ColumnReader reader = {.import = import, .words = names_new(import->arena, table->row_count / 16)};
    reader.map_sources = map_sources(import);
    import->value_counts = ARENA_ARRAY(import->arena, table->column_count, size_t);
    for (size_t i = 0; i < table->column_count; i++) {
        Field *field = &profile->fields[i];
        *field = (Field){.id = table->columns[i].name, .label = table->columns[i].name, .type = FIELD_TEXT, .from = -1};
        if (is_named(import, &reader, field->id)) read_column(&reader, i);
    }
    buf_free(&reader.word_list);
    buf_free(&reader.last_column);
    buf_free(&reader.values);
}

bool import_read_columns(Import *import) {
    if (!check_declarations(import)) return false;
    read_columns(import);
    return compile_where(import);
}
