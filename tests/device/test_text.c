/* The device that prints, and the order in which a device is called. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "device/device.h"
#include "typeset/canvas.h"
#include "typeset/mock_metrics.h"

/* One page with a mark of every kind. */
static Pages every_mark(Arena *arena, Canvas *canvas) {
    Page *page = ARENA_NEW(arena, Page);
    *page = (Page){.width = 612, .height = 792, .label = "QB \u00b7 1"};
    *canvas = (Canvas){.arena = arena, .metrics = mock_metrics_new(arena), .page = page, .x = 10, .y = 20};
    TextStyle style = {FACE_STRONG, 8, INK, 0};
    TextStyle tracked = {FACE_PLAIN, 10, INK_MUTED, 60};
    Point corners[] = {{0, 0}, {10, 0}, {5, 8.666}};
    canvas_open(canvas, ROLE_SECTION, NULL);
    canvas_open(canvas, ROLE_FIGURE, "says \"this\"");
    canvas_text(canvas, style, 1, 2, ALIGN_LEFT, "two  words");
    canvas_text(canvas, tracked, 1, 2, ALIGN_RIGHT, "WHY");
    canvas_turned(canvas, style, 1, 2, -90, "QB");
    canvas_line(canvas, 0, 0, 10.004, 0, 0.5, INK);
    canvas_dashed(canvas, 0, 0, 10, 0, 0.25, INK_GUIDE, 2, 1);
    canvas_shape(canvas, corners, 3, ink_tint(8), 0, INK_NONE);
    canvas_path(canvas, corners, 3, 1.1, (Ink){INK_ACCENT, 100});
    canvas_rect(canvas, (Box){1, 2, 3, 4}, (Ink){INK_PAPER, 100}, 0.4, INK);
    canvas_disc(canvas, 5, 5, 3, INK, 0, INK_NONE);
    canvas_close(canvas);
    canvas_link(canvas, (Box){0, 0, 20, 10}, "snap-g1.14");
    canvas_anchor(canvas, 1, 1, "claim-man");
    canvas_bookmark(canvas, 0, 0, 2, "Sharper");
    canvas_close(canvas);
    return (Pages){.pages = page,
                   .count = 1,
                   .title = "T",
                   .author = "A",
                   .date = "2031-11-18",
                   .language = "en",
                   .tint = 0x123f52};
}

static void test_every_mark(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Canvas canvas;
    Pages pages = every_mark(arena, &canvas);
    Buf out = {0};
    device_text(&pages, &out);
    assert_string_equal(buf_text(&out), "title \"T\"\n"
                                        "author \"A\"\n"
                                        "date \"2031-11-18\"\n"
                                        "language \"en\"\n"
                                        "tint #123f52\n"
                                        "page 1 612 792 \"QB \u00b7 1\"\n"
                                        "  section\n"
                                        "    figure \"says \\\"this\\\"\"\n"
                                        "      text 11 22 strong 8 in ink 100 gap 2 \"two words\"\n"
                                        "      text -7.7 22 plain 10 in ink 75 tracking .6 \"WHY\"\n"
                                        "      text 11 22 strong 8 in ink 100 turned -90 \"QB\"\n"
                                        "      line 10 20 20 20 stroke ink 100 width .5\n"
                                        "      line 10 20 20 20 stroke ink 42 width .25 dash 2 1\n"
                                        "      shape 10 20 20 20 15 28.67 fill ink 8\n"
                                        "      line 10 20 20 20 15 28.67 stroke accent 100 width 1.1\n"
                                        "      rect 11 22 3 4 fill paper 100 stroke ink 100 width .4\n"
                                        "      disc 15 25 radius 3 fill ink 100\n"
                                        "    end\n"
                                        "    link-to \"snap-g1.14\" 10 20 20 10\n"
                                        "    anchor 11 21 \"claim-man\"\n"
                                        "    bookmark 2 10 20 \"Sharper\"\n"
                                        "  end\n");
    buf_free(&out);
    arena_free(arena);
}

/* ---- the order of calls ---- */

typedef struct Recorder {
    Device device;
    char calls[64];
} Recorder;

static void record(Device *device, const char *call) {
    strcat(((Recorder *)device)->calls, call);
}

static void on_begin(Device *device, const Pages *pages) {
    (void)pages;
    record(device, "<");
}

static void on_page(Device *device, const Page *page) {
    (void)page;
    record(device, "[");
}

static void on_mark(Device *device, const Mark *mark) {
    (void)mark;
    record(device, ".");
}

static void on_page_end(Device *device) {
    record(device, "]");
}

static void on_end(Device *device) {
    record(device, ">");
}

static void test_order_of_calls(void **state) {
    (void)state;
    Mark marks[3] = {{.kind = MARK_CLOSE}, {.kind = MARK_CLOSE}, {.kind = MARK_CLOSE}};
    Page list[] = {{.marks = marks, .count = 2}, {.marks = NULL}, {.marks = marks, .count = 3}};
    Pages pages = {.pages = list, .count = 3};
    Recorder recorder = {.device = {on_begin, on_page, on_mark, on_page_end, on_end}};
    device_play(&recorder.device, &pages);
    assert_string_equal(recorder.calls, "<[..][][...]>");
    Pages none = {0};
    Recorder empty = {.device = {on_begin, on_page, on_mark, on_page_end, on_end}};
    device_play(&empty.device, &none);
    assert_string_equal(empty.calls, "<>");
}

/* ---- the canvas ---- */

/* Every hatch line lies in its box, rises at 45 degrees, and stands a pitch from the next. */
static void test_hatch_is_clipped(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Page page = {0};
    Canvas canvas = {.arena = arena, .metrics = mock_metrics_new(arena), .page = &page};
    canvas_hatch(&canvas, (Box){100, 50, 40, 24}, 3, 0.35, INK);
    assert_int_equal(page.count, 15);
    for (size_t i = 0; i < page.count; i++) {
        const Point *ends = page.marks[i].points;
        assert_int_equal(page.marks[i].kind, MARK_LINE);
        for (int k = 0; k < 2; k++) {
            assert_true(ends[k].x >= 100 - 1e-9 && ends[k].x <= 140 + 1e-9);
            assert_true(ends[k].y >= 50 - 1e-9 && ends[k].y <= 74 + 1e-9);
        }
        double sum = ends[0].x + ends[0].y;
        assert_true(sum - (ends[1].x + ends[1].y) < 1e-9 && sum - (ends[1].x + ends[1].y) > -1e-9);
    }
    size_t before = page.count;
    canvas_hatch(&canvas, (Box){0, 0, 0, 10}, 3, 0.35, INK);
    canvas_hatch(&canvas, (Box){0, 0, 10, 10}, 0, 0.35, INK);
    assert_int_equal(page.count, before);
    arena_free(arena);
}

static void test_alignment(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Page page = {0};
    Canvas canvas = {.arena = arena, .metrics = mock_metrics_new(arena), .page = &page};
    TextStyle style = {FACE_PLAIN, 10, INK, 0};
    assert_true(canvas_width(&canvas, style, "aa bb") == 22.5);
    assert_true(canvas_width(&canvas, style, "") == 0);
    assert_true(canvas_text(&canvas, style, 100, 0, ALIGN_CENTRE, "aa bb") == 22.5);
    assert_true(page.marks[0].points[0].x == 100 - 11.25);
    assert_true(canvas_text(&canvas, style, 100, 0, ALIGN_LEFT, " ") == 0);
    assert_int_equal(page.count, 1);
    arena_free(arena);
}

/* Seen many times, reported once; and after very many words, only one more line. */
static void test_missing_glyphs(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Page page = {0};
    GlyphReports reports = {0};
    Diagnostics *diagnostics = diag_new();
    Canvas canvas = {.arena = arena,
                     .metrics = mock_metrics_new(arena),
                     .page = &page,
                     .diagnostics = diagnostics,
                     .reports = &reports};
    TextStyle style = {FACE_PLAIN, 10, INK, 0};
    for (int i = 0; i < 3; i++) canvas_width(&canvas, style, "\u2603 \u2603a");
    assert_int_equal(diag_warnings(diagnostics), 2);
    for (int i = 0; i < 1000; i++) canvas_width(&canvas, style, arena_printf(arena, "\u2603%d", i));
    assert_int_equal(diag_warnings(diagnostics), CANVAS_MOST_GLYPH_REPORTS + 1);
    diag_free(diagnostics);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_mark),       cmocka_unit_test(test_order_of_calls),
        cmocka_unit_test(test_hatch_is_clipped), cmocka_unit_test(test_alignment),
        cmocka_unit_test(test_missing_glyphs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
