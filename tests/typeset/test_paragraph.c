/* Paragraphs: words in order, lines that fill their measure, nothing broken where it may not be. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "typeset/cuts.h"
#include "typeset/help_story.h"
#include "typeset/paragraph.h"

typedef struct Bench {
    Scene scene;
    Setter setter;
    Page page;
} Bench;

static void bench_begin(Bench *bench) {
    scene_begin(&bench->scene);
    bench->setter = (Setter){0};
    bench->page = (Page){.width = 612, .height = 792};
    GlyphReports *reports = ARENA_NEW(bench->scene.arena, GlyphReports);
    bench->setter.canvas = (Canvas){.arena = bench->scene.arena,
                                    .metrics = bench->scene.metrics,
                                    .page = &bench->page,
                                    .diagnostics = bench->scene.diagnostics,
                                    .reports = reports};
    style_fill(bench->setter.settings, &bench->scene.layout);
    cuts_prepare();
}

static ParaLines break_text(Bench *bench, const char *text, SettingName setting, double width) {
    Words *words = ARENA_NEW(bench->scene.arena, Words);
    *words = scene_words(&bench->scene, text);
    return para_break(&bench->setter, para_new(&bench->setter, words, &bench->setter.settings[setting]), width);
}

/* The words of line `index` as printed, in `text`; returns where the line ends. */
static double print_line(Bench *bench, const ParaLines *lines, size_t index, char *text, size_t room) {
    size_t first = bench->page.count;
    double end = 0;
    text[0] = '\0';
    para_draw_line(&bench->setter, lines, index, 0, 100, ALIGN_LEFT);
    for (size_t i = first; i < bench->page.count; i++) {
        const Mark *mark = &bench->page.marks[i];
        if (mark->kind != MARK_TEXT) continue;
        end = mark->points[0].x;
        for (size_t k = 0; k < mark->count; k++) {
            const Word *word = mark->words[k];
            if (k) end += (double)mark->word_space;
            if (word->length) end += word->width * (double)mark->size / 1000;
            if (k && strlen(text) + 1 < room) strcat(text, " ");
            if (strlen(text) + word->length + 1 < room) strcat(text, word->text);
            if (word->soft) strcat(text, "-");
        }
        const Word *last = mark->words[mark->count - 1];
        if (!last->length) end -= (double)mark->word_space;
    }
    return end;
}

/* Last word that has letters, of the marks drawn last. */
static const Word *last_word(const Bench *bench) {
    for (size_t i = bench->page.count; i-- > 0;) {
        const Mark *mark = &bench->page.marks[i];
        for (size_t k = mark->kind == MARK_TEXT ? mark->count : 0; k-- > 0;) {
            if (mark->words[k]->length) return mark->words[k];
        }
    }
    return NULL;
}

static void test_lines_fill_the_measure(void **state) {
    (void)state;
    Bench bench;
    bench_begin(&bench);
    uint32_t seed = 7;
    size_t hyphens = 0;
    size_t lines_seen = 0;
    for (int i = 0; i < 60; i++) {
        const char *prose = scene_prose(&bench.scene, 40 + scene_random(&seed) % 60, &seed);
        ParaLines lines = break_text(&bench, prose, SET_PROSE, 245);
        assert_true(lines.count > 3);
        for (size_t k = 0; k < lines.count; k++) {
            char text[512];
            double end = print_line(&bench, &lines, k, text, sizeof text);
            const Word *last = last_word(&bench);
            double hang = last->right_bearing * 9.5 / 1000;
            lines_seen++;
            hyphens += last->soft;
            if (k + 1 < lines.count)
                assert_true(fabs(end - 245 - hang) < 0.05);
            else
                assert_true(end < 245 + hang + 0.05);
        }
    }
    assert_true(hyphens > 0);
    assert_true(hyphens * 4 < lines_seen);
    assert_int_equal(diag_warnings(bench.scene.diagnostics), 0);
    scene_end(&bench.scene);
}

/* All lines joined, hyphens that were put in taken out again, are the text. */
static void test_words_are_kept(void **state) {
    (void)state;
    Scene scene;
    uint32_t seed = 99;
    scene_begin(&scene);
    Block *section = scene_section(&scene, NULL, NULL);
    const char *prose = scene_prose(&scene, 400, &seed);
    scene_paragraph(&scene, section, STYLE_PROSE, prose);
    assert_string_equal(scene_text(&scene, scene_pages(&scene)), prose);
    scene_end(&scene);
}

static bool any_line_is(Bench *bench, const ParaLines *lines, const char *end_of_line) {
    for (size_t k = 0; k + 1 < lines->count; k++) {
        char text[512];
        print_line(bench, lines, k, text, sizeof text);
        size_t length = strlen(text);
        if (length && text[length - 1] == ' ') text[--length] = '\0';
        if (length >= strlen(end_of_line) && !strcmp(text + length - strlen(end_of_line), end_of_line)) return true;
    }
    return false;
}

/* Whatever the width, these are never parted. */
static void test_what_is_never_broken(void **state) {
    (void)state;
    static const struct {
        const char *text, *never;
    } cases[] = {
        {"on target on {65 of 82} throws he saw", "65"},           {"on target on {65 of 82} throws he saw", "65 of"},
        {"on target on 65\u00a0of\u00a082 throws he saw", "of"},   {"the clip ([g1.14]) shows how it went", "("},
        {"between 69\u201387 per cent of all throws", "69\u2013"}, {"he waits \u2013 and the ball is gone", "waits"},
        {"he said \u201cgo\u201d and it was gone", "\u201c"},      {"between 1-2 yards from the goal", "1-"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Bench bench;
        bench_begin(&bench);
        for (double width = 40; width < 200; width += 3) {
            ParaLines lines = break_text(&bench, cases[i].text, SET_CELL, width);
            if (any_line_is(&bench, &lines, cases[i].never)) fail_msg("broken after %s", cases[i].never);
        }
        scene_end(&bench.scene);
    }
}

static void test_own_hyphens_break(void **state) {
    (void)state;
    Bench bench;
    bench_begin(&bench);
    bool seen = false;
    for (double width = 40; width < 120 && !seen; width += 2) {
        ParaLines lines = break_text(&bench, "sees a quarters-robber disguise", SET_CELL, width);
        seen = any_line_is(&bench, &lines, "quarters-");
    }
    assert_true(seen);
    scene_end(&bench.scene);
}

static void test_names_stay_whole(void **state) {
    (void)state;
    Bench bench;
    bench_begin(&bench);
    uint32_t seed = 3;
    for (double width = 120; width < 250; width += 2) {
        const char *prose = scene_prose(&bench.scene, 12, &seed);
        char text[1024];
        snprintf(text, sizeof text, "%s Hyphenation %s", prose, prose);
        ParaLines lines = break_text(&bench, text, SET_PROSE, width);
        assert_false(any_line_is(&bench, &lines, "Hyphen-"));
        assert_false(any_line_is(&bench, &lines, "Hyphena-"));
    }
    scene_end(&bench.scene);
}

static void test_word_wider_than_the_column(void **state) {
    (void)state;
    Bench bench;
    bench_begin(&bench);
    const char *text = "a Wmwmwmwmwmwmwmwmwmwmwmwmwmwmwm b";
    ParaLines lines = break_text(&bench, text, SET_PROSE, 60);
    assert_int_equal(lines.count, 3);
    assert_int_equal(diag_warnings(bench.scene.diagnostics), 1);
    lines = break_text(&bench, text, SET_CELL, 60);
    assert_int_equal(lines.count, 3);
    assert_int_equal(diag_warnings(bench.scene.diagnostics), 2);
    scene_end(&bench.scene);
}

/* A word of nothing but small letters is cut as often as it takes. */
static void test_long_word_is_hyphenated(void **state) {
    (void)state;
    Bench bench;
    bench_begin(&bench);
    ParaLines lines = break_text(&bench, "internationalization", SET_CELL, 30);
    assert_true(lines.count >= 3);
    char whole[128] = "";
    for (size_t i = 0; i < lines.count; i++) {
        char text[128];
        print_line(&bench, &lines, i, text, sizeof text);
        size_t length = strlen(text);
        if (i + 1 < lines.count) {
            assert_int_equal(text[length - 1], '-');
            text[length - 1] = '\0';
        }
        assert_true(strlen(whole) + length < sizeof whole);
        strcat(whole, text);
    }
    assert_string_equal(whole, "internationalization");
    scene_end(&bench.scene);
}

static void test_missing_glyph_is_named_once(void **state) {
    (void)state;
    Bench bench;
    bench_begin(&bench);
    break_text(&bench, "a \u2603man and a \u2603man", SET_PROSE, 245);
    assert_int_equal(diag_warnings(bench.scene.diagnostics), 1);
    Buf json = {0};
    diag_json(bench.scene.diagnostics, &json);
    assert_non_null(strstr(buf_text(&json), "U+2603"));
    buf_free(&json);
    scene_end(&bench.scene);
}

static void test_link_has_a_mark_on_each_line(void **state) {
    (void)state;
    Bench bench;
    bench_begin(&bench);
    ParaLines lines = break_text(&bench, "see [the long name of a snap] there", SET_CELL, 70);
    size_t links = 0;
    for (size_t i = 0; i < lines.count; i++) para_draw_line(&bench.setter, &lines, i, 0, 100, ALIGN_LEFT);
    for (size_t i = 0; i < bench.page.count; i++) {
        const Mark *mark = &bench.page.marks[i];
        if (mark->kind != MARK_LINK) continue;
        links++;
        assert_string_equal(mark->text, "at-the long name of a snap");
        assert_true(mark->box.width > 5 && mark->box.height > 5);
    }
    assert_true(links >= 2);
    scene_end(&bench.scene);
}

static void test_nothing_gives_no_line(void **state) {
    (void)state;
    Bench bench;
    bench_begin(&bench);
    assert_int_equal(break_text(&bench, "", SET_PROSE, 100).count, 0);
    assert_int_equal(break_text(&bench, " \n\t ", SET_PROSE, 100).count, 0);
    assert_int_equal(break_text(&bench, " a ", SET_PROSE, 100).count, 1);
    scene_end(&bench.scene);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lines_fill_the_measure),
        cmocka_unit_test(test_words_are_kept),
        cmocka_unit_test(test_what_is_never_broken),
        cmocka_unit_test(test_own_hyphens_break),
        cmocka_unit_test(test_names_stay_whole),
        cmocka_unit_test(test_word_wider_than_the_column),
        cmocka_unit_test(test_long_word_is_hyphenated),
        cmocka_unit_test(test_missing_glyph_is_named_once),
        cmocka_unit_test(test_link_has_a_mark_on_each_line),
        cmocka_unit_test(test_nothing_gives_no_line),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
