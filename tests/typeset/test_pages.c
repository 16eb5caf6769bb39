/* Whole pages as text, against files beside this one. TB_NEW_GOLDENS=1 in the environment writes them anew. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "device/device.h"
#include "typeset/help_story.h"

#define FOLDER "tests/typeset/pages/"

enum { MOST_GOLDEN = 1 << 20 };

static void front_page(Scene *scene) {
    static FactPair facts[] = {{"", "Four games charted"}, {"", "One evaluator"}};
    static FactPair scale[] = {{"", "overall grade"}};
    static FactPair sure[] = {
        {"Film", "4 games"}, {"Evaluators", "one; no second opinion yet"}, {"Filed", "18 Nov 2031"}};
    Block *section = scene_section(scene, NULL, NULL);
    section->bookmark = "Front page";
    Block *plate = scene_block(scene, section, BLOCK_NAMEPLATE);
    plate->title = "Tobin Vashti";
    plate->note = "Quarterback, Harrow Valley. No.\u00a08, senior";
    plate->facts = facts;
    plate->fact_count = 2;
    Block *verdict = scene_block(scene, section, BLOCK_VERDICT);
    verdict->title = "6.2";
    verdict->note = "Starts in time";
    verdict->words = scene_words(scene, "Backs up at once; ready to start in his _second_ autumn.");
    verdict->facts = scale;
    verdict->fact_count = 1;
    Block *split = scene_block(scene, section, BLOCK_SPLIT);
    split->ratio = 0.65;
    Block *left = scene_block(scene, split, BLOCK_GROUP);
    scene_head(scene, left, 2, "Bottom line");
    scene_paragraph(
        scene, left, STYLE_PROSE,
        "He sees it before it is there. Shown man coverage he is on target on {65\u00a0of\u00a082} throws, and "
        "he lets the glance and the deep out go before the break ([g1.14]).");
    Block *right = scene_block(scene, split, BLOCK_GROUP);
    scene_head(scene, right, 2, "How sure");
    Block *block = scene_block(scene, right, BLOCK_FACTS);
    block->facts = sure;
    block->fact_count = 3;
}

static void claim_page(Scene *scene) {
    static const char *const cells[] = {
        "g1.14", "3rd & 10", "+37", "Holds the free safety, then the glance on time",
        "g2.3",  "1st & 10", "-20", "*Against:* base opens early and the same out sails"};
    Block *section = scene_section(scene, "Strengths", "one claim, tested on every charted snap");
    Block *group = scene_block(scene, section, BLOCK_GROUP);
    scene_head(scene, group, 3, "Sharper against man than zone")->anchor = "claim-man";
    Block *split = scene_block(scene, group, BLOCK_SPLIT);
    split->ratio = 0.5;
    scene_paragraph(
        scene, split, STYLE_PROSE,
        "Motion is how he asks, and when a defender runs with it he has his answer. He looks the safety off "
        "for one count, comes back to the breaking route, and the ball is out before the corner turns.");
    scene_paragraph(scene, split, STYLE_CAPTION, "*Borne out.* On target 19 points more often against man.");
    Table *table = scene_table(scene, group, 2, 4);
    table->columns[0] = (TableColumn){.head = "clip", .width = 34, .strong = true, .head_of_row = true};
    table->columns[1] = (TableColumn){.head = "down", .width = 48};
    table->columns[2] = (TableColumn){.head = "spot", .width = 30, .align = ALIGN_RIGHT};
    table->columns[3] = (TableColumn){.head = "what happened"};
    for (size_t i = 0; i < 8; i++) table->cells[i].words = scene_words(scene, cells[i]);
    Block *list = scene_block(scene, section, BLOCK_LIST);
    scene_paragraph(scene, list, STYLE_PROSE, "Captain two years running.");
    scene_paragraph(scene, list, STYLE_PROSE, "Ran the scout team as a first-year man.");
    scene_paragraph(scene, section, STYLE_NOTE, "For club staff only.");
    scene_paragraph(scene, section, STYLE_LABEL, "WHY NOT");
}

static void log_pages(Scene *scene) {
    Block *section = scene_section(scene, "Snap log", "66 snaps");
    Table *table = scene_table(scene, section, 70, 3);
    unsigned char *band = ARENA_ARRAY(scene->arena, 70, unsigned char);
    static const char *const heads[] = {"snap", "coverage", "result"};
    for (size_t i = 0; i < 3; i++) table->columns[i].head = heads[i];
    for (size_t i = 0; i < 70; i += 35) {
        band[i] = 1;
        table->cells[i * 3].words = scene_words(scene, "g1 at Lowmoor State");
    }
    table->columns[0].width = 30;
    table->columns[0].head_of_row = true;
    table->cells[10 * 3].anchor = "snap-g1.10";
    table->band = band;
    table->dense = true;
}

static char *read_file(Arena *arena, const char *path) {
    FILE *file = fopen(path, "rb");
    if (!file) return NULL;
    char *text = arena_alloc(arena, MOST_GOLDEN);
    size_t length = fread(text, 1, MOST_GOLDEN - 1, file);
    text[length] = '\0';
    fclose(file);
    return text;
}

static void write_file(const char *path, const char *text) {
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

static void fail_at_first_difference(const char *path, const char *golden, const char *drawn) {
    size_t line = 1;
    size_t start = 0;
    for (size_t at = 0; golden[at] && golden[at] == drawn[at]; at++) {
        if (golden[at] != '\n') continue;
        line++;
        start = at + 1;
    }
    fail_msg("%s:%zu:\n  expected %.*s\n  drawn    %.*s", path, line, (int)strcspn(golden + start, "\n"),
             golden + start, (int)strcspn(drawn + start, "\n"), drawn + start);
}

static void compare(const char *name, void (*write)(Scene *scene)) {
    Scene scene;
    Buf drawn = {0};
    scene_begin(&scene);
    write(&scene);
    const Pages *pages = scene_pages(&scene);
    scene_check(pages);
    device_text(pages, &drawn);
    const char *path = arena_printf(scene.arena, FOLDER "%s.txt", name);
    if (getenv("TB_NEW_GOLDENS")) write_file(path, buf_text(&drawn));
    const char *golden = read_file(scene.arena, path);
    if (!golden) fail_msg("%s is missing", path);
    if (strcmp(golden, buf_text(&drawn)) != 0) fail_at_first_difference(path, golden, buf_text(&drawn));
    buf_free(&drawn);
    scene_end(&scene);
}

static void test_front_page(void **state) {
    (void)state;
    compare("front", front_page);
}

static void test_claim_page(void **state) {
    (void)state;
    compare("claim", claim_page);
}

static void test_log_pages(void **state) {
    (void)state;
    compare("log", log_pages);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_front_page),
        cmocka_unit_test(test_claim_page),
        cmocka_unit_test(test_log_pages),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
