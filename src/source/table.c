/* Tables through libcsv. The file is fed to it up to one delimiter or line end at a time, so that a field that comes
 * out is known to end there. */
#include "source/table.h"

#include <csv.h>
#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "base/buf.h"
#include "base/file.h"
#include "base/text.h"

enum { MOST_MISSING_WORDS = 32, MOST_EXPONENT = 300, MOST_NUMBER_BYTES = 64 };

static const char byte_order_mark[] = "\xEF\xBB\xBF";

typedef struct Reader {
    Arena *arena;
    Table *table;
    const TableFormat *format;
    Diagnostics *diagnostics;
    const char *missing[MOST_MISSING_WORDS];
    size_t missing_count;
    Buf cells, contents, numbers; /* what becomes of the table's */
    size_t row_first;             /* cells before the row being read */
    size_t at;                    /* of the byte after those fed to libcsv */
    size_t field_at;              /* where the field being read begins */
    size_t rows;                  /* rows seen, header and refused ones included */
    bool stop;
} Reader;

/* ---- problems ---- */

bool table_may_report(Table *table) {
    return table->problems++ < TABLE_MOST_PROBLEMS;
}

void table_report_rest(Table *table, Diagnostics *diagnostics) {
    if (table->problems <= TABLE_MOST_PROBLEMS) return;
    Place end = {table->text, table->text->length ? table->text->length - 1 : 0, 1};
    diag_report(diagnostics, RULE_IMPORT_ROW, end, NULL, "%zu more problems of this table are not shown",
                table->problems - TABLE_MOST_PROBLEMS);
}

static __attribute__((format(printf, 4, 5))) void fail(Reader *reader, size_t at, const char *hint, const char *format,
                                                       ...) {
    if (!table_may_report(reader->table)) return;
    va_list args;
    va_start(args, format);
    const char *message = arena_vprintf(reader->arena, format, args);
    va_end(args);
    Place place = {reader->table->text, at, 1};
    diag_report(reader->diagnostics, RULE_IMPORT_ROW, place, hint, "row %zu: %s", reader->rows + 1, message);
}

static bool in_header(const Reader *reader) {
    return reader->rows == 0 && reader->format->header;
}

/* ---- cells ---- */

static bool is_missing(const Reader *reader, const char *text) {
    for (size_t i = 0; i < reader->missing_count; i++) {
        if (strcmp(text, reader->missing[i]) == 0) return true;
    }
    return text[strspn(text, " \t\r\n")] == '\0';
}

static size_t cells_of_row(const Reader *reader) {
    return reader->cells.length / sizeof(TableCell) - reader->row_first;
}

/* libcsv: a field has ended with the byte fed last. */
static void take_field(void *bytes, size_t length, void *data) {
    Reader *reader = data;
    TableCell cell = {(uint32_t)reader->field_at, 0};
    const char *text = bytes ? bytes : "";
    reader->field_at = reader->at;
    if (reader->stop) return;
    if (memchr(text, '\0', length)) {
        fail(reader, cell.at, NULL, "a zero byte inside a field: this is not a text file");
    } else if (in_header(reader) || !is_missing(reader, text)) {
        cell.text = (uint32_t)reader->contents.length;
        buf_put(&reader->contents, text, length + 1);
    }
    buf_put(&reader->cells, &cell, sizeof cell);
    if (cells_of_row(reader) <= TABLE_MOST_COLUMNS) return;
    fail(reader, cell.at, NULL, "more than %d fields", (int)TABLE_MOST_COLUMNS);
    reader->stop = true;
}

static const TableCell *row_cells(const Reader *reader) {
    return (const TableCell *)(const void *)reader->cells.bytes + reader->row_first;
}

/* ---- columns ---- */

static bool name_taken(const Table *table, size_t before, const char *name) {
    for (size_t i = 0; i < before; i++) {
        if (text_equal(table->columns[i].name, name)) return true;
    }
    return false;
}

static const char *column_name(Reader *reader, size_t index, const char *title) {
    if (!*title) return arena_printf(reader->arena, "column-%zu", index + 1);
    char *name = arena_printf(reader->arena, "%s%s", strchr("0123456789-.", *title) ? "_" : "", title);
    for (char *at = name; *at; at++) {
        bool letter = (*at >= 'a' && *at <= 'z') || (*at >= 'A' && *at <= 'Z') || (*at >= '0' && *at <= '9');
        if (!letter && !strchr("_.-", *at)) *at = '_';
    }
    const char *own = name;
    for (size_t copy = 2; name_taken(reader->table, index, own); copy++) {
        own = arena_printf(reader->arena, "%s_%zu", name, copy);
    }
    return own;
}

static void make_columns(Reader *reader) {
    Table *table = reader->table;
    table->column_count = cells_of_row(reader);
    table->columns = ARENA_ARRAY(reader->arena, table->column_count, TableColumn);
    for (size_t i = 0; i < table->column_count; i++) {
        const char *title = in_header(reader) ? reader->contents.bytes + row_cells(reader)[i].text : "";
        table->columns[i].title = arena_string(reader->arena, title);
        table->columns[i].name = column_name(reader, i, table->columns[i].title);
    }
}

/* ---- rows ---- */

/* A table appended to itself brings its header again. */
static bool is_header_again(const Reader *reader) {
    const TableCell *cells = row_cells(reader);
    if (!reader->format->header) return false;
    for (size_t i = 0; i < reader->table->column_count; i++) {
        if (!text_equal(reader->contents.bytes + cells[i].text, reader->table->columns[i].title)) return false;
    }
    return true;
}

static void drop_row(Reader *reader) {
    reader->cells.length = reader->row_first * sizeof(TableCell);
}

static void keep_row(Reader *reader) {
    Table *table = reader->table;
    size_t count = cells_of_row(reader);
    if (count != table->column_count) {
        fail(reader, row_cells(reader)[0].at, "every row has as many fields as the first", "%zu field%s, not %zu",
             count, count == 1 ? "" : "s", table->column_count);
        drop_row(reader);
    } else if (is_header_again(reader)) {
        table->repeated_headers++;
        drop_row(reader);
    } else if (table->row_count == TABLE_MOST_ROWS) {
        fail(reader, row_cells(reader)[0].at, NULL, "more than %d rows", (int)TABLE_MOST_ROWS);
        reader->stop = true;
    } else {
        uint32_t number = (uint32_t)reader->rows + 1;
        buf_put(&reader->numbers, &number, sizeof number);
        table->row_count++;
        reader->row_first += count;
    }
}

/* libcsv: a row has ended. */
static void take_row(int terminator, void *data) {
    Reader *reader = data;
    (void)terminator;
    if (reader->stop) return;
    if (reader->rows == 0) make_columns(reader);
    if (in_header(reader)) {
        drop_row(reader);
    } else {
        keep_row(reader);
    }
    reader->rows++;
}

/* ---- feeding ---- */

static size_t end_of_piece(const Reader *reader, size_t at) {
    const Text *text = reader->table->text;
    for (; at < text->length; at++) {
        char byte = text->bytes[at];
        if (byte == reader->format->delimiter || byte == '\n' || byte == '\r') return at + 1;
    }
    return at;
}

/* Feeds one piece; false when libcsv refuses it. */
static bool feed_piece(Reader *reader, struct csv_parser *parser) {
    const char *bytes = reader->table->text->bytes;
    size_t from = reader->at;
    reader->at = end_of_piece(reader, from);
    size_t length = reader->at - from;
    if (reader->at - reader->field_at > TABLE_MOST_FIELD) {
        fail(reader, reader->field_at, "is a quote left open here?", "a field longer than %d bytes",
             (int)TABLE_MOST_FIELD);
        return false;
    }
    size_t taken = csv_parse(parser, bytes + from, length, take_field, take_row, reader);
    if (taken != length) {
        fail(reader, from + taken, "put the whole field in quotes, and double a quote inside it",
             "a quote in the middle of a field");
        return false;
    }
    /* a line feed between rows belongs to no field */
    bool between = reader->field_at == from && cells_of_row(reader) == 0;
    if (between && length == 1 && strchr("\r\n", bytes[from])) reader->field_at = reader->at;
    return true;
}

static void feed(Reader *reader, struct csv_parser *parser) {
    const Text *text = reader->table->text;
    while (reader->at < text->length && !reader->stop) {
        if (!feed_piece(reader, parser)) reader->stop = true;
    }
}

static void parse(Reader *reader) {
    struct csv_parser parser;
    (void)csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_APPEND_NULL); /* fails for no parser only */
    csv_set_realloc_func(&parser, mem_resize);
    csv_set_free_func(&parser, free);
    csv_set_delim(&parser, (unsigned char)reader->format->delimiter);
    feed(reader, &parser);
    reader->at++; /* the end counts as a line end */
    if (!reader->stop && csv_fini(&parser, take_field, take_row, reader) != 0) {
        fail(reader, reader->field_at, NULL, "a quoted field that is never closed");
    }
    csv_free(&parser);
}

/* ---- the whole ---- */

static void read_missing_words(Reader *reader) {
    char *rest = NULL;
    char *words = arena_string(reader->arena, reader->format->missing ? reader->format->missing : "");
    for (char *word = strtok_r(words, " ", &rest); word; word = strtok_r(NULL, " ", &rest)) {
        if (reader->missing_count < MOST_MISSING_WORDS) reader->missing[reader->missing_count++] = word;
    }
}

Table *table_read(Arena *arena, const char *path, const TableFormat *format, Diagnostics *diagnostics) {
    const Text *text = file_read(arena, path, diagnostics);
    if (!text) return NULL;
    Table *table = mem_alloc(sizeof *table);
    *table = (Table){.text = text};
    Reader reader = {.arena = arena, .table = table, .format = format, .diagnostics = diagnostics};
    read_missing_words(&reader);
    BUF_PUT(&reader.contents, "\0"); /* offset 0 means missing */
    bool marked = text->length >= sizeof byte_order_mark - 1 && memcmp(text->bytes, byte_order_mark, 3) == 0;
    reader.at = reader.field_at = marked ? sizeof byte_order_mark - 1 : 0;
    parse(&reader);
    table->cells = (TableCell *)(void *)reader.cells.bytes;
    table->contents = reader.contents.bytes;
    table->numbers = (uint32_t *)(void *)reader.numbers.bytes;
    if (!table->problems && !table->column_count) fail(&reader, 0, NULL, "the table is empty");
    if (!table->problems) return table;
    table_report_rest(table, diagnostics);
    table_free(table);
    return NULL;
}

void table_free(Table *table) {
    if (!table) return;
    free(table->cells);
    free(table->contents);
    free(table->numbers);
    free(table);
}

/* ---- looking ---- */

int table_column(const Table *table, const char *title) {
    for (size_t i = 0; i < table->column_count; i++) {
        if (text_equal(table->columns[i].title, title)) return (int)i;
    }
    for (size_t i = 0; i < table->column_count; i++) {
        if (text_equal(table->columns[i].name, title)) return (int)i;
    }
    return -1;
}

const char *table_cell(const Table *table, size_t row, size_t column) {
    uint32_t text = table->cells[row * table->column_count + column].text;
    return text ? table->contents + text : NULL;
}

Place table_place(const Table *table, size_t row, size_t column) {
    const TableCell *cell = &table->cells[row * table->column_count + column];
    size_t length = 0;
    if (cell->text) length = strlen(table->contents + cell->text);
    size_t rest = table->text->length - cell->at;
    return (Place){table->text, cell->at, length < rest ? length : rest};
}

static bool is_truth(const char *text, double *number) {
    *number = strcasecmp(text, "true") == 0;
    return *number == 1 || strcasecmp(text, "false") == 0;
}

bool table_number(const char *text, double *number) {
    char digits[MOST_NUMBER_BYTES];
    double exponent = 0;
    if (text_number(text, number) || is_truth(text, number)) return true;
    size_t length = strcspn(text, "eE");
    if (!text[length] || length >= sizeof digits) return false;
    memcpy(digits, text, length);
    digits[length] = '\0';
    const char *power = text + length + 1 + (text[length + 1] == '+');
    if (!text_number(digits, number) || !text_number(power, &exponent)) return false;
    if (fabs(exponent) > MOST_EXPONENT || exponent != trunc(exponent)) return false;
    *number *= pow(10, exponent);
    return true;
}
