/* Tables: widths of columns, rows over pages, heads repeated, bands with their rows. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "typeset/help_story.h"
#include "typeset/table.h"

enum { MOST_COLUMNS = 8 };

static double widths_sum(const double *widths, size_t count) {
    double sum = 0;
    for (size_t i = 0; i < count; i++) sum += widths[i];
    return sum;
}

static void test_weights_share_the_rest(void **state) {
    (void)state;
    TableColumn columns[] = {{.width = 100}, {.width = 0}, {.width = -3}};
    ColumnNeed needs[] = {{10, 10, 10, 10}, {10, 10, 10, 10}, {10, 10, 10, 10}};
    Table table = {.columns = columns, .column_count = 3};
    double widths[3];
    table_widths(&table, needs, 500, widths);
    assert_true(fabs(widths[0] - 100) < 1e-9);
    assert_true(fabs(widths_sum(widths, 3) - 500) < 1e-9);
    assert_true(fabs((widths[2] - 10) - 3 * (widths[1] - 10)) < 1e-9);
}

static void test_words_come_before_what_is_asked(void **state) {
    (void)state;
    TableColumn columns[] = {{.width = 20}, {.width = -1}};
    ColumnNeed needs[] = {{50, 30, 30, 50}, {40, 20, 20, 300}};
    Table table = {.columns = columns, .column_count = 2};
    double widths[2];
    table_widths(&table, needs, 200, widths);
    assert_true(fabs(widths[0] - 50) < 1e-9);
    assert_true(fabs(widths[1] - 150) < 1e-9);
}

static void test_a_table_too_wide_is_pressed(void **state) {
    (void)state;
    TableColumn columns[] = {{.width = 300}, {.width = 0}, {.width = 300}};
    ColumnNeed needs[] = {{10, 10, 10, 10}, {100, 10, 10, 100}, {10, 10, 10, 10}};
    Table table = {.columns = columns, .column_count = 3};
    double widths[3];
    table_widths(&table, needs, 350, widths);
    assert_true(fabs(widths_sum(widths, 3) - 350) < 1e-6);
    for (size_t i = 0; i < 3; i++) assert_true(widths[i] >= 1);
}

static void test_dense_rows_stay_in_one_line(void **state) {
    (void)state;
    TableColumn columns[] = {{.width = 200}, {.width = -1}};
    ColumnNeed needs[] = {{20, 40, 30, 20}, {40, 20, 20, 240}};
    Table table = {.columns = columns, .column_count = 2, .dense = true};
    double widths[2];
    table_widths(&table, needs, 300, widths);
    assert_true(widths[1] >= 240);
    assert_true(widths[0] >= 20);
}

/* Words that take exactly the width there is leave nothing to share, and no column loses its width. */
static void test_widths_that_just_fit(void **state) {
    (void)state;
    TableColumn columns[3] = {{.width = 0}, {.width = 0}, {.width = 0}};
    for (int i = 0; i < 1000; i++) {
        double third = 100.0 / 3 + i * 1e-9;
        ColumnNeed needs[3] = {
            {third, third, third, third}, {third, third, third, third}, {third, third, third, third}};
        Table table = {.columns = columns, .column_count = 3, .dense = i % 2};
        double widths[3];
        table_widths(&table, needs, 100, widths);
        for (size_t k = 0; k < 3; k++) assert_true(widths[k] > 33 && widths[k] < 34);
    }
}

/* Random tables: never wider than there is room, no column without any. */
static void test_widths_always_fit(void **state) {
    (void)state;
    uint32_t seed = 5;
    for (int i = 0; i < 20000; i++) {
        TableColumn columns[MOST_COLUMNS] = {0};
        ColumnNeed needs[MOST_COLUMNS];
        double widths[MOST_COLUMNS];
        size_t count = 1 + scene_random(&seed) % MOST_COLUMNS;
        for (size_t k = 0; k < count; k++) {
            columns[k].width = (double)(scene_random(&seed) % 200) - 100;
            double least = scene_random(&seed) % 80;
            needs[k] = (ColumnNeed){least, scene_random(&seed) % 60, scene_random(&seed) % 30, least};
            needs[k].whole += scene_random(&seed) % 300;
        }
        Table table = {.columns = columns, .column_count = count, .dense = i % 2};
        double width = 20 + scene_random(&seed) % 600;
        table_widths(&table, needs, width, widths);
        double sum = widths_sum(widths, count);
        assert_true(sum <= width + (double)count); /* each may have been kept at a point */
        for (size_t k = 0; k < count; k++) assert_true(widths[k] >= 1 - 1e-9);
    }
}

/* ---- on pages ---- */

static Table *long_table(Scene *scene, size_t rows, bool dense) {
    Block *section = scene_section(scene, "Log", "all of it");
    Table *table = scene_table(scene, section, rows, 4);
    static const char *const heads[] = {"alpha", "beta", "gamma", "delta"};
    for (size_t i = 0; i < 4; i++) table->columns[i].head = heads[i];
    table->columns[0].head_of_row = true;
    table->dense = dense;
    return table;
}

static size_t count_word(const char *text, const char *word) {
    size_t count = 0;
    for (const char *at = text; (at = strstr(at, word)) != NULL; at += strlen(word)) count++;
    return count;
}

static void test_heads_are_repeated(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    long_table(&scene, 700, true);
    const Pages *pages = scene_pages(&scene);
    scene_check(pages);
    char *text = scene_text(&scene, pages);
    assert_true(pages->count >= 10 && pages->count <= 12);
    assert_int_equal(count_word(text, "alpha"), pages->count);
    assert_int_equal(count_word(text, "| alpha beta gamma delta r"), pages->count - 1);
    assert_int_equal(scene_count(pages, ROLE_TABLE), pages->count);
    assert_int_equal(scene_count(pages, ROLE_ROW), 700 + pages->count);
    for (int row = 1; row <= 700; row++) {
        char cells[64];
        snprintf(cells, sizeof cells, "r%dc1 r%dc2 r%dc3 r%dc4", row, row, row, row);
        assert_non_null(strstr(text, cells));
    }
    scene_end(&scene);
}

/* A band is never the last on a page, nor a single row the first or last of its table. */
static void test_bands_keep_their_rows(void **state) {
    (void)state;
    for (size_t before = 50; before < 70; before++) {
        Scene scene;
        scene_begin(&scene);
        Table *table = long_table(&scene, before + 10, true);
        unsigned char *band = ARENA_ARRAY(scene.arena, before + 10, unsigned char);
        band[before] = 1;
        table->band = band;
        table->cells[before * 4].words = scene_words(&scene, "band");
        const Pages *pages = scene_pages(&scene);
        scene_check(pages);
        char next[16];
        snprintf(next, sizeof next, "r%zuc1", before + 2);
        assert_int_equal(scene_find(pages, "band").page, scene_find(pages, next).page);
        scene_end(&scene);
    }
}

static void test_last_row_is_not_alone(void **state) {
    (void)state;
    for (size_t rows = 50; rows < 75; rows++) {
        Scene scene;
        scene_begin(&scene);
        long_table(&scene, rows, true);
        const Pages *pages = scene_pages(&scene);
        char last[16];
        char before[16];
        snprintf(last, sizeof last, "r%zuc1", rows);
        snprintf(before, sizeof before, "r%zuc1", rows - 1);
        assert_int_equal(scene_find(pages, last).page, scene_find(pages, before).page);
        scene_end(&scene);
    }
}

/* A cell of several lines stays on one page, and its row is as high as it. */
static void test_rows_are_not_split(void **state) {
    (void)state;
    uint32_t seed = 11;
    Scene scene;
    scene_begin(&scene);
    Table *table = long_table(&scene, 60, false);
    for (size_t row = 0; row < 60; row++) {
        const char *prose = scene_prose(&scene, 40, &seed);
        const char *text = arena_printf(scene.arena, "first%zu %s last%zu", row, prose, row);
        table->cells[row * 4 + 3].words = scene_words(&scene, text);
    }
    const Pages *pages = scene_pages(&scene);
    scene_check(pages);
    for (size_t row = 0; row < 60; row++) {
        Found first = scene_find(pages, arena_printf(scene.arena, "first%zu", row));
        Found last = scene_find(pages, arena_printf(scene.arena, "last%zu", row));
        assert_int_equal(first.page, last.page);
        assert_true(last.y >= first.y + 12);
        assert_true(last.y < 745);
    }
    scene_end(&scene);
}

/* A row that no page can hold is drawn and reported, and the document goes on. */
static void test_row_higher_than_a_page(void **state) {
    (void)state;
    uint32_t seed = 12;
    Scene scene;
    scene_begin(&scene);
    Table *table = long_table(&scene, 5, false);
    table->cells[2 * 4 + 3].words = scene_words(&scene, scene_prose(&scene, 3000, &seed));
    const Pages *pages = scene_pages(&scene);
    assert_true(diag_warnings(scene.diagnostics) >= 1);
    assert_true(scene_find(pages, "r5c1").page > 0);
    assert_true(pages->count < 6);
    scene_end(&scene);
}

static void test_cells_align(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    Block *section = scene_section(&scene, NULL, NULL);
    Table *table = scene_table(&scene, section, 2, 3);
    table->columns[0] = (TableColumn){.width = 100};
    table->columns[1] = (TableColumn){.width = 100, .align = ALIGN_RIGHT};
    table->columns[2] = (TableColumn){.align = ALIGN_CENTRE};
    const Pages *pages = scene_pages(&scene);
    Found left = scene_find(pages, "r1c1");
    Found right = scene_find(pages, "r1c2");
    Found centre = scene_find(pages, "r1c3");
    double word = right.mark->words[0]->width * 8 / 1000;
    assert_true(fabs(left.x - 62.4) < 0.01);
    assert_true(fabs(right.x + word - (62.4 + 200 - 10)) < 0.01);
    assert_true(fabs(centre.x + word / 2 - (62.4 + 200 + 306.0 / 2)) < 0.01);
    assert_true(fabs(left.y - right.y) < 0.01);
    scene_end(&scene);
}

static void test_links_and_anchors_of_rows(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    Block *section = scene_section(&scene, "Log", NULL);
    Table *table = scene_table(&scene, section, 3, 2);
    table->cells[4].anchor = "to-third";
    Words words = scene_words(&scene, "[x]");
    words.spans[0].target = "to-third";
    table->cells[0].words = words;
    const Pages *pages = scene_pages(&scene);
    scene_check(pages);
    assert_int_equal(scene_count(pages, ROLE_LINK), 1);
    scene_end(&scene);
}

static void test_empty_tables(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    Block *section = scene_section(&scene, "Log", NULL);
    scene_table(&scene, section, 0, 3)->columns[1].head = "head";
    scene_table(&scene, section, 0, 0);
    scene_table(&scene, section, 3, 0);
    scene_block(&scene, section, BLOCK_TABLE);
    scene_check(scene_pages(&scene));
    scene_end(&scene);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_weights_share_the_rest),      cmocka_unit_test(test_words_come_before_what_is_asked),
        cmocka_unit_test(test_a_table_too_wide_is_pressed), cmocka_unit_test(test_dense_rows_stay_in_one_line),
        cmocka_unit_test(test_widths_that_just_fit),        cmocka_unit_test(test_widths_always_fit),
        cmocka_unit_test(test_heads_are_repeated),          cmocka_unit_test(test_bands_keep_their_rows),
        cmocka_unit_test(test_last_row_is_not_alone),       cmocka_unit_test(test_rows_are_not_split),
        cmocka_unit_test(test_row_higher_than_a_page),      cmocka_unit_test(test_cells_align),
        cmocka_unit_test(test_links_and_anchors_of_rows),   cmocka_unit_test(test_empty_tables),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
