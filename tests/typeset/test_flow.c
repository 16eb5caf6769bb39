/* Pages: what stays together, what stands where, and nothing lost, on stories made by hand and at random. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "typeset/help_story.h"

static const double text_top = 45;
static const double text_bottom = 743;

/* ---- keeping ---- */

/* However full the page, a head is on the page of the first two lines below it. */
static void test_heads_stay_with_what_follows(void **state) {
    (void)state;
    for (size_t lines = 40; lines < 62; lines++) {
        Scene scene;
        scene_begin(&scene);
        uint32_t seed = 1;
        Block *section = scene_section(&scene, "Title", NULL);
        Table *table = scene_table(&scene, section, lines, 1);
        assert_non_null(table);
        scene_head(&scene, section, 2, "Headword");
        const char *prose = scene_prose(&scene, 120, &seed);
        scene_paragraph(&scene, section, STYLE_PROSE, arena_printf(scene.arena, "Firstword %s", prose));
        const Pages *pages = scene_pages(&scene);
        scene_check(pages);
        Found head = scene_find(pages, "Headword");
        Found first = scene_find(pages, "Firstword");
        assert_int_equal(head.page, first.page);
        assert_true(first.y > head.y + 10 && first.y < text_bottom - 12);
        scene_end(&scene);
    }
}

static size_t lines_on_page(const Page *page) {
    size_t lines = 0;
    double y = 0;
    bool artifact = false;
    for (size_t i = 0; i < page->count; i++) {
        const Mark *mark = &page->marks[i];
        if (mark->kind == MARK_OPEN && mark->role == ROLE_ARTIFACT) artifact = true;
        if (mark->kind == MARK_TEXT && !artifact && mark->points[0].y > y + 1) {
            y = mark->points[0].y;
            lines++;
        }
        if (mark->kind == MARK_CLOSE) artifact = false;
    }
    return lines;
}

/* No single line of a paragraph is left on a page. */
static void test_no_widows_and_orphans(void **state) {
    (void)state;
    for (size_t words = 620; words < 760; words += 5) {
        Scene scene;
        scene_begin(&scene);
        uint32_t seed = 2;
        Block *section = scene_section(&scene, NULL, NULL);
        scene_paragraph(&scene, section, STYLE_PROSE, scene_prose(&scene, words, &seed));
        scene_paragraph(&scene, section, STYLE_PROSE, scene_prose(&scene, words, &seed));
        const Pages *pages = scene_pages(&scene);
        scene_check(pages);
        for (size_t i = 0; i < pages->count; i++) assert_int_not_equal(lines_on_page(&pages->pages[i]), 1);
        scene_end(&scene);
    }
}

static void test_group_moves_as_a_whole(void **state) {
    (void)state;
    for (size_t rows = 30; rows < 60; rows++) {
        Scene scene;
        scene_begin(&scene);
        Block *section = scene_section(&scene, "Title", NULL);
        scene_table(&scene, section, rows, 1);
        Block *group = scene_block(&scene, section, BLOCK_GROUP);
        scene_paragraph(&scene, group, STYLE_CAPTION, "Groupfirst");
        Table *table = scene_table(&scene, group, 10, 1);
        for (size_t i = 0; i < 10; i++) {
            table->cells[i].words = scene_words(&scene, arena_printf(scene.arena, "g%zu", i));
        }
        scene_paragraph(&scene, group, STYLE_CAPTION, "Grouplast");
        const Pages *pages = scene_pages(&scene);
        assert_int_equal(scene_find(pages, "Groupfirst").page, scene_find(pages, "Grouplast").page);
        scene_end(&scene);
    }
}

/* A group that no page holds is broken, and its head is still not left alone. */
static void test_group_higher_than_a_page(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    Block *section = scene_section(&scene, "Title", NULL);
    scene_table(&scene, section, 50, 1);
    Block *group = scene_block(&scene, section, BLOCK_GROUP);
    scene_head(&scene, group, 3, "Headword");
    Table *table = scene_table(&scene, group, 150, 1);
    table->cells[0].words = scene_words(&scene, "Firstrow");
    table->cells[149].words = scene_words(&scene, "Lastrow");
    const Pages *pages = scene_pages(&scene);
    scene_check(pages);
    assert_int_equal(scene_find(pages, "Headword").page, scene_find(pages, "Firstrow").page);
    assert_true(scene_find(pages, "Lastrow").page >= 4);
    scene_end(&scene);
}

/* A group that no page holds fills the pages that it is broken over. */
static void test_broken_group_fills_its_pages(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    Block *group = scene_block(&scene, scene_section(&scene, "Title", NULL), BLOCK_GROUP);
    scene_table(&scene, group, 70, 1);
    const Pages *pages = scene_pages(&scene);
    assert_int_equal(pages->count, 2);
    assert_true(scene_find(pages, "r55c1").y > text_bottom - 24);
    scene_end(&scene);
}

static void test_keep_with_next(void **state) {
    (void)state;
    for (size_t rows = 45; rows < 60; rows++) {
        Scene scene;
        scene_begin(&scene);
        Block *section = scene_section(&scene, "Title", NULL);
        scene_table(&scene, section, rows, 1);
        scene_paragraph(&scene, section, STYLE_NOTE, "Caution")->keep_with_next = true;
        scene_paragraph(&scene, section, STYLE_PROSE, "Follows");
        const Pages *pages = scene_pages(&scene);
        assert_int_equal(scene_find(pages, "Caution").page, scene_find(pages, "Follows").page);
        scene_end(&scene);
    }
}

/* ---- splits ---- */

static void test_split_stands_side_by_side(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    Block *section = scene_section(&scene, "Title", NULL);
    Block *split = scene_block(&scene, section, BLOCK_SPLIT);
    split->ratio = 0.5;
    scene_paragraph(&scene, split, STYLE_PROSE, "Leftword");
    scene_paragraph(&scene, split, STYLE_PROSE, "Rightword");
    scene_paragraph(&scene, section, STYLE_PROSE, "Below");
    const Pages *pages = scene_pages(&scene);
    scene_check(pages);
    Found left = scene_find(pages, "Leftword");
    Found right = scene_find(pages, "Rightword");
    assert_true(fabs(left.y - right.y) < 0.01);
    assert_true(fabs(left.x - 62.4) < 0.01);
    assert_true(fabs(right.x - (62.4 + 506 / 2.0 + 7)) < 0.01);
    assert_true(scene_find(pages, "Below").y > left.y + 10);
    scene_end(&scene);
}

/* Two columns of unequal length, both longer than a page: each goes on in its own column. */
static void test_split_higher_than_a_page(void **state) {
    (void)state;
    uint32_t seed = 4;
    Scene scene;
    scene_begin(&scene);
    Block *section = scene_section(&scene, "Title", NULL);
    Block *split = scene_block(&scene, section, BLOCK_SPLIT);
    Block *sides[2];
    for (int i = 0; i < 2; i++) {
        sides[i] = scene_block(&scene, split, BLOCK_GROUP);
        size_t words = i ? 1900 : 900;
        const char *text = arena_printf(scene.arena, "%s End%d", scene_prose(&scene, words, &seed), i);
        scene_paragraph(&scene, sides[i], STYLE_PROSE, text);
    }
    scene_paragraph(&scene, section, STYLE_PROSE, "Below");
    const Pages *pages = scene_pages(&scene);
    scene_check(pages);
    Found left = scene_find(pages, "End0");
    Found right = scene_find(pages, "End1");
    Found below = scene_find(pages, "Below");
    assert_true(left.page >= 2 && right.page > left.page);
    assert_true(left.x < 306 && right.x > 306 - 20);
    assert_int_equal(below.page, right.page);
    assert_true(below.y > right.y);
    scene_end(&scene);
}

/* The verdict of a test stands on its claim's line, so the test begins above the prose beside it. */
static void test_tape_test_rises_beside_its_claim(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    Block *section = scene_section(&scene, "Title", NULL);
    scene_head(&scene, section, 3, "Claimword")->anchor = "to-claim";
    Block *split = scene_block(&scene, section, BLOCK_SPLIT);
    scene_paragraph(&scene, split, STYLE_PROSE, "Leftword");
    Block *block = scene_block(&scene, split, BLOCK_FIGURE);
    Figure *figure = ARENA_NEW(scene.arena, Figure);
    figure->kind = FIGURE_TAPE_TEST;
    figure->alt = "a test";
    figure->as.test = (TapeTest){
        .a =
            {.label = "Man", .count = "3/4", .value = "75%", .interval = "30–95", .point = .75, .low = .3, .high = .95},
        .b = {.label = "Zone",
              .count = "3/4",
              .value = "75%",
              .interval = "30–95",
              .point = .75,
              .low = .3,
              .high = .95},
        .axis = {0, 1, .25, "", 100},
        .mark = MARK_LEANING,
        .verdict = "leaning"};
    block->figure = figure;
    const Pages *pages = scene_pages(&scene);
    scene_check(pages);
    assert_true(fabs(scene_find(pages, "leaning").y - scene_find(pages, "Claimword").y) < 0.01);
    assert_int_equal(scene_count(pages, ROLE_FIGURE), 1);
    assert_int_equal(scene_count(pages, ROLE_H3), 0);
    scene_end(&scene);
}

/* ---- where things stand ---- */

static void test_prose_stands_on_the_grid(void **state) {
    (void)state;
    uint32_t seed = 5;
    Scene scene;
    scene_begin(&scene);
    Block *section = scene_section(&scene, "Title", "a note");
    scene_head(&scene, section, 2, "Head");
    scene_paragraph(&scene, section, STYLE_PROSE, arena_printf(scene.arena, "One %s", scene_prose(&scene, 30, &seed)));
    scene_paragraph(&scene, section, STYLE_NOTE, "a note of another size");
    scene_paragraph(&scene, section, STYLE_PROSE, "Two");
    scene_head(&scene, section, 3, "Claim");
    scene_paragraph(&scene, section, STYLE_PROSE, "Three");
    const Pages *pages = scene_pages(&scene);
    const char *const words[] = {"One", "Two", "Three"};
    for (int i = 0; i < 3; i++) {
        double steps = (scene_find(pages, words[i]).y - 54) / 12;
        assert_true(fabs(steps - round(steps)) < 1e-3);
    }
    assert_true(fabs(scene_find(pages, "Title").y - 66) < 0.01);
    scene_end(&scene);
}

static const Mark *furniture_word(const Page *page, const char *word) {
    for (size_t i = 0; i < page->count; i++) {
        const Mark *mark = &page->marks[i];
        for (size_t k = 0; mark->kind == MARK_TEXT && k < mark->count; k++) {
            if (!strcmp(mark->words[k]->text, word)) return mark;
        }
    }
    return NULL;
}

/* Margins, running head, foot and tab change sides with the page. */
static void test_furniture_mirrors(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    scene.story.tab = "QB";
    scene.story.tab_stop = 2;
    scene_paragraph(&scene, scene_section(&scene, "Uno", NULL), STYLE_PROSE, "Recto");
    scene_paragraph(&scene, scene_section(&scene, "Due", NULL), STYLE_PROSE, "Verso");
    const Pages *pages = scene_pages(&scene);
    assert_int_equal(pages->count, 2);
    assert_string_equal(pages->pages[0].label, "T \u00b7 1");
    assert_string_equal(pages->pages[1].label, "T \u00b7 2");
    assert_true(fabs(scene_find(pages, "Recto").x - 62.4) < 0.01);
    assert_true(fabs(scene_find(pages, "Verso").x - 43.6) < 0.01);
    const Page *recto = &pages->pages[0];
    const Page *verso = &pages->pages[1];
    assert_true(fabs(furniture_word(recto, "Test")->points[0].x - 62.4) < 0.01);
    assert_true(furniture_word(verso, "Test")->points[0].x > 306);
    assert_true(furniture_word(recto, "Filed")->points[0].x > 306);
    assert_true(fabs(furniture_word(verso, "Filed")->points[0].x - 43.6) < 0.01);
    assert_true(furniture_word(recto, "QB")->points[0].x > 588);
    assert_true(furniture_word(verso, "QB")->points[0].x < 24);
    assert_int_equal((int)furniture_word(recto, "QB")->rotate, -90);
    assert_int_equal((int)furniture_word(verso, "QB")->rotate, 90);
    assert_true(furniture_word(recto, "QB")->points[0].y > 54 + 2 * 57);
    scene_end(&scene);
}

static void test_one_sided_pages_do_not_mirror(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    scene.layout.duplex = false;
    scene.layout.paper = PAPER_A4;
    scene_paragraph(&scene, scene_section(&scene, "Uno", NULL), STYLE_PROSE, "First");
    scene_paragraph(&scene, scene_section(&scene, "Due", NULL), STYLE_PROSE, "Second");
    const Pages *pages = scene_pages(&scene);
    assert_true(fabs(pages->pages[0].width - 595.28) < 0.01 && fabs(pages->pages[0].height - 841.89) < 0.01);
    assert_true(fabs(scene_find(pages, "First").x - scene_find(pages, "Second").x) < 0.01);
    scene_end(&scene);
}

static void test_tab_stops_begin_again(void **state) {
    (void)state;
    for (int stop = -1; stop < 40; stop++) {
        Scene scene;
        scene_begin(&scene);
        scene.story.tab_stop = stop;
        const Pages *pages = scene_pages(&scene);
        for (size_t i = 0; i < pages->pages[0].count; i++) {
            const Mark *mark = &pages->pages[0].marks[i];
            if (mark->kind == MARK_RECT) assert_true(mark->box.y >= 54 && mark->box.y + mark->box.height < 760);
        }
        scene_end(&scene);
    }
}

static void test_bookmarks(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    Block *front = scene_section(&scene, NULL, NULL);
    front->bookmark = "Front";
    scene_paragraph(&scene, front, STYLE_PROSE, "x");
    Block *section = scene_section(&scene, "Claims", NULL);
    scene_head(&scene, section, 3, "Claim one")->anchor = "to-one";
    scene_head(&scene, section, 2, "No claim");
    scene_paragraph(&scene, section, STYLE_PROSE, "x");
    const Pages *pages = scene_pages(&scene);
    static const char *const names[] = {"Front", "Claims", "Claim one"};
    static const int levels[] = {1, 1, 2};
    size_t found = 0;
    for (size_t i = 0; i < pages->count; i++) {
        for (size_t k = 0; k < pages->pages[i].count; k++) {
            const Mark *mark = &pages->pages[i].marks[k];
            if (mark->kind != MARK_BOOKMARK) continue;
            assert_true(found < 3);
            assert_string_equal(mark->text, names[found]);
            assert_int_equal((int)mark->size, levels[found]);
            found++;
        }
    }
    assert_int_equal(found, 3);
    scene_end(&scene);
}

/* A level that stands below a title without the level between is read one level up. */
static void test_heading_levels_are_not_skipped(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    Block *section = scene_section(&scene, "Title", NULL);
    scene_head(&scene, section, 3, "a");
    scene_head(&scene, section, 2, "b");
    scene_head(&scene, section, 3, "c");
    scene_paragraph(&scene, section, STYLE_PROSE, "x");
    const Pages *pages = scene_pages(&scene);
    assert_int_equal(scene_count(pages, ROLE_H1), 1);
    assert_int_equal(scene_count(pages, ROLE_H2), 2);
    assert_int_equal(scene_count(pages, ROLE_H3), 1);
    scene_end(&scene);
}

/* What spills over by a little is set tighter; what spills over by much is not. */
static void test_tighter_when_it_saves_a_page(void **state) {
    (void)state;
    bool tightened = false;
    for (size_t rows = 0; rows < 40; rows++) {
        Scene scene;
        scene_begin(&scene);
        Block *section = scene_section(&scene, "Title", NULL);
        for (int i = 0; i < 8; i++) {
            scene_head(&scene, section, 2, "Head");
            scene_paragraph(&scene, section, STYLE_PROSE, "word");
            if (i == 0) scene_table(&scene, section, rows, 1);
        }
        scene_paragraph(&scene, section, STYLE_PROSE, "Lastword");
        const Pages *pages = scene_pages(&scene);
        double first = scene_find(pages, "word").y;
        bool off_grid = fabs((first - 54) / 12 - round((first - 54) / 12)) > 1e-3;
        if (off_grid) tightened = true;
        if (off_grid) assert_int_equal(pages->count, 1);
        scene_end(&scene);
    }
    assert_true(tightened);
}

/* ---- extremes ---- */

static void test_nothing_at_all(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    const Pages *pages = scene_pages(&scene);
    scene_check(pages);
    assert_int_equal(pages->count, 1);
    scene.story = (Story){0};
    pages = scene_pages(&scene);
    scene_check(pages);
    assert_int_equal(pages->count, 1);
    scene_end(&scene);
}

static void test_empty_blocks(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    for (BlockKind kind = BLOCK_SECTION; kind <= BLOCK_VERDICT; kind++) {
        scene_block(&scene, scene.story.root, kind);
        scene_block(&scene, scene_section(&scene, NULL, NULL), kind);
        scene_block(&scene, scene_block(&scene, scene_section(&scene, "t", NULL), BLOCK_SPLIT), kind);
    }
    scene_check(scene_pages(&scene));
    scene_end(&scene);
}

static const char *long_name(Scene *scene, size_t length) {
    char *name = arena_alloc(scene->arena, length + 1);
    for (size_t i = 0; i < length; i++) name[i] = (char)('A' + i % 26);
    return name;
}

static void test_long_unbroken_names(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    const char *name = long_name(&scene, 300);
    FactPair facts[] = {{name, name}, {"label", name}, {name, "value"}};
    scene.story.head_name = name;
    scene.story.readers = name;
    scene.story.filed = "today";
    Block *section = scene_section(&scene, name, name);
    static const BlockKind kinds[] = {BLOCK_NAMEPLATE, BLOCK_VERDICT, BLOCK_FACTS};
    for (size_t i = 0; i < 3; i++) {
        Block *block = scene_block(&scene, section, kinds[i]);
        block->title = name;
        block->note = name;
        block->facts = facts;
        block->fact_count = 3;
    }
    scene_head(&scene, section, 2, name)->note = name;
    scene_paragraph(&scene, section, STYLE_PROSE, name);
    scene_paragraph(&scene, section, STYLE_LABEL, name);
    Table *table = scene_table(&scene, section, 2, 3);
    table->cells[1].words = scene_words(&scene, name);
    table->columns[2].head = name;
    const Pages *pages = scene_pages(&scene);
    assert_true(pages->count >= 1);
    assert_true(diag_warnings(scene.diagnostics) > 3);
    scene_end(&scene);
}

/* ---- at random ---- */

static void random_blocks(Scene *scene, Block *parent, int depth, uint32_t *seed);

static void random_block(Scene *scene, Block *parent, int depth, uint32_t *seed) {
    switch (scene_random(seed) % (depth > 2 ? 5 : 7)) {
    case 0:
        scene_head(scene, parent, 2 + (int)(scene_random(seed) % 2), scene_prose(scene, 4, seed));
        break;
    case 1: {
        ParagraphStyle style = (ParagraphStyle)(scene_random(seed) % 3);
        scene_paragraph(scene, parent, style, scene_prose(scene, 1 + scene_random(seed) % 150, seed));
        break;
    }
    case 2: {
        Block *list = scene_block(scene, parent, BLOCK_LIST);
        for (size_t i = scene_random(seed) % 4; i-- > 0;) {
            scene_paragraph(scene, list, STYLE_PROSE, scene_prose(scene, 1 + scene_random(seed) % 40, seed));
        }
        break;
    }
    case 3:
        scene_table(scene, parent, scene_random(seed) % 40, 1 + scene_random(seed) % 5)->dense = depth % 2;
        break;
    case 4: {
        Block *facts = scene_block(scene, parent, BLOCK_FACTS);
        facts->fact_count = scene_random(seed) % 7;
        facts->facts = ARENA_ARRAY(scene->arena, facts->fact_count, FactPair);
        for (size_t i = 0; i < facts->fact_count; i++) {
            facts->facts[i] = (FactPair){scene_prose(scene, 1, seed), scene_prose(scene, 8, seed)};
        }
        break;
    }
    case 5:
        random_blocks(scene, scene_block(scene, parent, BLOCK_GROUP), depth + 1, seed);
        break;
    default: {
        Block *split = scene_block(scene, parent, BLOCK_SPLIT);
        split->ratio = 0.3 + 0.1 * (scene_random(seed) % 5);
        for (int i = 0; i < 2; i++) random_blocks(scene, scene_block(scene, split, BLOCK_GROUP), depth + 1, seed);
    }
    }
}

static void random_blocks(Scene *scene, Block *parent, int depth, uint32_t *seed) {
    for (size_t i = scene_random(seed) % (depth ? 5 : 12); i-- > 0;) random_block(scene, parent, depth, seed);
}

/* ---- the characters of a story, counted ---- */

enum { CHARACTERS = 256 };

typedef struct Tally {
    size_t of[CHARACTERS];
} Tally;

static void tally_text(Tally *tally, const char *text) {
    for (; text && *text; text++) tally->of[(unsigned char)*text]++;
}

static void tally_block(Tally *tally, const Block *block) {
    tally_text(tally, block->title);
    for (size_t i = 0; i < block->words.count; i++) tally_text(tally, block->words.spans[i].text);
    for (size_t i = 0; i < block->fact_count; i++) {
        tally_text(tally, block->facts[i].label);
        tally_text(tally, block->facts[i].value);
    }
    const Table *table = block->table;
    for (size_t i = 0; table && i < table->row_count * table->column_count; i++) {
        tally_text(tally, table->cells[i].words.spans[0].text);
    }
    for (size_t i = 0; i < block->child_count; i++) tally_block(tally, block->children[i]);
}

/* Every character of the story is on its pages, as often as it was written: nothing is lost, nothing comes twice. Words
 * are not compared, because lines of the two sides of a split come between each other where a page ends. */
static void compare_characters(Scene *scene, const Pages *pages) {
    Tally written = {0};
    Tally printed = {0};
    tally_block(&written, scene->story.root);
    tally_text(&printed, scene_text(scene, pages));
    for (int i = ' ' + 1; i < CHARACTERS; i++) {
        if (i != '|') assert_int_equal(written.of[i], printed.of[i]);
    }
}

static void check_block_area(const Pages *pages) {
    for (size_t i = 0; i < pages->count; i++) {
        bool artifact = false;
        for (size_t k = 0; k < pages->pages[i].count; k++) {
            const Mark *mark = &pages->pages[i].marks[k];
            if (mark->kind == MARK_OPEN && mark->role == ROLE_ARTIFACT) artifact = true;
            if (mark->kind == MARK_CLOSE) artifact = false;
            if (mark->kind != MARK_TEXT || artifact) continue;
            assert_true(mark->points[0].y > text_top && mark->points[0].y < text_bottom);
            assert_true(mark->points[0].x > 40 && mark->points[0].x < 570);
        }
    }
}

static void test_random_stories(void **state) {
    (void)state;
    for (uint32_t i = 1; i <= 400; i++) {
        Scene scene;
        uint32_t seed = i * 2654435761u;
        scene_begin(&scene);
        for (int k = 0; k < 3; k++) {
            Block *section = scene_section(&scene, k ? "Sectionword" : NULL, NULL);
            section->new_page = k != 2;
            random_blocks(&scene, section, 0, &seed);
        }
        const Pages *pages = scene_pages(&scene);
        scene_check(pages);
        check_block_area(pages);
        compare_characters(&scene, pages);
        scene_end(&scene);
    }
}

/* The same story gives the same pages, and pages hold nothing of the story. */
static void test_pages_stand_alone(void **state) {
    (void)state;
    Scene scene;
    scene_begin(&scene);
    char title[] = "Changed";
    char anchor[] = "to-place";
    Block *section = scene_section(&scene, title, NULL);
    section->anchor = anchor;
    scene_paragraph(&scene, section, STYLE_PROSE, "word");
    const Pages *pages = scene_pages(&scene);
    strcpy(title, "XXXXXXX");
    strcpy(anchor, "XXXXXXXX");
    assert_non_null(strstr(scene_text(&scene, pages), "Changed"));
    bool found = false;
    for (size_t i = 0; i < pages->pages[0].count; i++) {
        const Mark *mark = &pages->pages[0].marks[i];
        if (mark->kind == MARK_ANCHOR) found = !strcmp(mark->text, "to-place");
    }
    assert_true(found);
    scene_end(&scene);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_heads_stay_with_what_follows),
        cmocka_unit_test(test_no_widows_and_orphans),
        cmocka_unit_test(test_group_moves_as_a_whole),
        cmocka_unit_test(test_group_higher_than_a_page),
        cmocka_unit_test(test_broken_group_fills_its_pages),
        cmocka_unit_test(test_keep_with_next),
        cmocka_unit_test(test_split_stands_side_by_side),
        cmocka_unit_test(test_split_higher_than_a_page),
        cmocka_unit_test(test_tape_test_rises_beside_its_claim),
        cmocka_unit_test(test_prose_stands_on_the_grid),
        cmocka_unit_test(test_furniture_mirrors),
        cmocka_unit_test(test_one_sided_pages_do_not_mirror),
        cmocka_unit_test(test_tab_stops_begin_again),
        cmocka_unit_test(test_bookmarks),
        cmocka_unit_test(test_heading_levels_are_not_skipped),
        cmocka_unit_test(test_tighter_when_it_saves_a_page),
        cmocka_unit_test(test_nothing_at_all),
        cmocka_unit_test(test_empty_blocks),
        cmocka_unit_test(test_long_unbroken_names),
        cmocka_unit_test(test_random_stories),
        cmocka_unit_test(test_pages_stand_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
