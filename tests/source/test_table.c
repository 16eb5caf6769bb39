/* Tables as feeds really write them. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/buf.h"
#include "source/table.h"

typedef struct World {
    Arena *arena;
    Diagnostics *diagnostics;
    Buf json; /* what was reported */
    Table *table;
} World;

static int world_begin(void **state) {
    World *world = calloc(1, sizeof *world);
    world->arena = arena_new();
    world->diagnostics = diag_new();
    *state = world;
    return 0;
}

static int world_end(void **state) {
    World *world = *state;
    table_free(world->table);
    buf_free(&world->json);
    diag_free(world->diagnostics);
    arena_free(world->arena);
    free(world);
    return 0;
}

static const char *temporary_folder(void) {
    const char *folder = getenv("TMPDIR");
    return folder ? folder : P_tmpdir;
}

static Table *read_as(World *world, const char *bytes, size_t length, TableFormat format) {
    char *path = arena_printf(world->arena, "%s/test-table-XXXXXX", temporary_folder());
    int file = mkstemp(path);
    assert_true(file >= 0);
    assert_int_equal(write(file, bytes, length), (ssize_t)length);
    close(file);
    world->table = table_read(world->arena, path, &format, world->diagnostics);
    unlink(path);
    world->json.length = 0;
    diag_json(world->diagnostics, &world->json);
    (void)buf_text(&world->json);
    return world->table;
}

static Table *read_table(World *world, const char *text) {
    return read_as(world, text, strlen(text), (TableFormat){',', true, "NA NULL"});
}

static void expect_cell(const Table *table, size_t row, size_t column, const char *text) {
    const char *cell = table_cell(table, row, column);
    if (text) {
        assert_non_null(cell);
        assert_string_equal(cell, text);
    } else {
        assert_null(cell);
    }
}

static void expect_report(World *world, size_t line, size_t column, const char *message) {
    const char *place = arena_printf(world->arena, "\"line\": %zu, \"column\": %zu,", line, column);
    assert_null(world->table);
    if (!strstr(world->json.bytes, place) || !strstr(world->json.bytes, message)) {
        fail_msg("%s\nexpected %s %s", world->json.bytes, place, message);
    }
}

static void quirks_are_survived(void **state) {
    World *world = *state;
    Table *table = read_table(world, "\xEF\xBB\xBF,name,\"yards, net\",x,x\r\n"
                                     "1,\"O\"\"Neal, J\",NA,6-2,TRUE\r\n"
                                     "2,  plain  ,NULL,,\"two\nlines\"\r\n"
                                     "\r\n"
                                     "3,\"\",12,4.530000000000001,1e3");
    assert_non_null(table);
    assert_int_equal(table->row_count, 3);
    assert_int_equal(table->column_count, 5);
    assert_string_equal(table->columns[0].name, "column-1");
    assert_string_equal(table->columns[2].title, "yards, net");
    assert_string_equal(table->columns[2].name, "yards__net");
    assert_string_equal(table->columns[4].name, "x_2");
    assert_int_equal(table_column(table, "yards, net"), 2);
    assert_int_equal(table_column(table, "yards__net"), 2);
    assert_int_equal(table_column(table, "x_2"), 4);
    assert_int_equal(table_column(table, "y"), -1);
    expect_cell(table, 0, 1, "O\"Neal, J");
    expect_cell(table, 0, 2, NULL);
    expect_cell(table, 1, 1, "plain");
    expect_cell(table, 1, 2, NULL);
    expect_cell(table, 1, 3, NULL);
    expect_cell(table, 1, 4, "two\nlines");
    expect_cell(table, 2, 1, NULL);
    expect_cell(table, 2, 3, "4.530000000000001");
    assert_int_equal(table->numbers[2], 4);
}

static void places_are_those_of_the_file(void **state) {
    World *world = *state;
    const char *text = "a,b,c\r\n1,\"x,y\",3\r\n\r\n4,\"\n\n5\",6\n7,8,9";
    Table *table = read_table(world, text);
    assert_non_null(table);
    const struct {
        size_t row, column;
        const char *at;
    } places[] = {{0, 0, "1,\""}, {0, 1, "\"x,y"}, {0, 2, "3\r"}, {1, 0, "4,"},
                  {1, 1, "\"\n"}, {1, 2, "6\n"},   {2, 2, "9"}};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        size_t offset = table_place(table, places[i].row, places[i].column).offset;
        assert_int_equal(offset, strstr(text, places[i].at) - text);
    }
}

static void a_table_appended_to_itself_has_one_header(void **state) {
    World *world = *state;
    Table *table = read_table(world, "a,b\n1,2\na,b\n1,2\n");
    assert_non_null(table);
    assert_int_equal(table->row_count, 2);
    assert_int_equal(table->repeated_headers, 1);
    assert_int_equal(table->numbers[1], 4);
}

static void other_delimiters_and_no_header(void **state) {
    World *world = *state;
    Table *table = read_as(world, "NA\tb\n \t4\n", 9, (TableFormat){'\t', false, "NA"});
    assert_non_null(table);
    assert_int_equal(table->row_count, 2);
    assert_string_equal(table->columns[1].name, "column-2");
    expect_cell(table, 0, 0, NULL);
    expect_cell(table, 0, 1, "b");
    expect_cell(table, 1, 0, NULL);
}

static void rows_of_another_length_are_named(void **state) {
    World *world = *state;
    assert_null(read_table(world, "a,b\n1,2\n1,2,3\n1\n4,5\n"));
    expect_report(world, 3, 1, "row 3: 3 fields, not 2");
    expect_report(world, 4, 1, "row 4: 1 field, not 2");
}

static void stray_quotes_are_named(void **state) {
    World *world = *state;
    assert_null(read_table(world, "a,b\n1,6'2\"\n"));
    expect_report(world, 2, 6, "row 2: a quote in the middle of a field");
}

static void an_open_quote_is_named(void **state) {
    World *world = *state;
    assert_null(read_table(world, "a,b\n1,\"never\n2,3\n"));
    expect_report(world, 2, 3, "row 2: a quoted field that is never closed");
}

static void a_long_field_is_refused(void **state) {
    World *world = *state;
    Buf text = {0};
    buf_puts(&text, "a,b\n1,\"");
    for (int i = 0; i < TABLE_MOST_FIELD; i++) buf_puts(&text, i % 50 ? "x" : "\n");
    buf_puts(&text, "\"\n");
    assert_null(read_table(world, buf_text(&text)));
    buf_free(&text);
    expect_report(world, 2, 3, "a field longer than 65536 bytes");
}

static void too_many_columns_are_refused(void **state) {
    World *world = *state;
    Buf text = {0};
    for (int i = 0; i < 5000; i++) buf_puts(&text, "c,");
    assert_null(read_table(world, buf_text(&text)));
    buf_free(&text);
    expect_report(world, 1, 2001, "more than 1000 fields");
}

static void zero_bytes_are_refused(void **state) {
    World *world = *state;
    assert_null(read_as(world, "a,b\n1,x\0y\n", 11, (TableFormat){',', true, NULL}));
    expect_report(world, 2, 3, "a zero byte inside a field");
}

static void problems_are_bounded(void **state) {
    World *world = *state;
    Buf text = {0};
    buf_puts(&text, "a,b\n");
    for (int i = 0; i < 500; i++) buf_puts(&text, "1\n");
    assert_null(read_table(world, buf_text(&text)));
    buf_free(&text);
    assert_int_equal(diag_errors(world->diagnostics), TABLE_MOST_PROBLEMS + 1);
    assert_non_null(strstr(world->json.bytes, "450 more problems of this table are not shown"));
}

static void an_empty_file_is_refused(void **state) {
    World *world = *state;
    assert_null(read_table(world, ""));
    assert_non_null(strstr(world->json.bytes, "the table is empty"));
}

static void numbers_as_tables_write_them(void **state) {
    (void)state;
    static const struct {
        const char *text;
        double number; /* NaN: none */
    } cases[] = {
        {"12", 12},     {"-3.5", -3.5},  {"4.530000000000001", 4.530000000000001},
        {"1e3", 1000},  {"2.5E-1", .25}, {"1E+2", 100},
        {"TRUE", 1},    {"false", 0},    {"6-2", NAN},
        {"", NAN},      {"e5", NAN},     {"1e", NAN},
        {"1e400", NAN}, {"1e1.5", NAN},  {"0x10", NAN},
        {"nan", NAN},   {"inf", NAN},    {"1 2", NAN},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double number;
        bool read = table_number(cases[i].text, &number);
        if (read == isnan(cases[i].number)) fail_msg("%s", cases[i].text);
        if (read && fabs(number - cases[i].number) > 1e-12) fail_msg("%s gives %g", cases[i].text, number);
    }
}

int main(void) {
#define TABLE_TEST(name) cmocka_unit_test_setup_teardown(name, world_begin, world_end)
    const struct CMUnitTest tests[] = {
        TABLE_TEST(quirks_are_survived),
        TABLE_TEST(places_are_those_of_the_file),
        TABLE_TEST(a_table_appended_to_itself_has_one_header),
        TABLE_TEST(other_delimiters_and_no_header),
        TABLE_TEST(rows_of_another_length_are_named),
        TABLE_TEST(stray_quotes_are_named),
        TABLE_TEST(an_open_quote_is_named),
        TABLE_TEST(a_long_field_is_refused),
        TABLE_TEST(too_many_columns_are_refused),
        TABLE_TEST(zero_bytes_are_refused),
        TABLE_TEST(problems_are_bounded),
        TABLE_TEST(an_empty_file_is_refused),
        TABLE_TEST(numbers_as_tables_write_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
