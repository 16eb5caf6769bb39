/* With any data no text of a figure touches another, leaves the figure, or stands on its markers. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "typeset/figures/fixed_canvas.h"
#include "typeset/figures/random_figures.h"

enum { SEEDS = 500 };

/* ---- what must hold ---- */

/* Capitals and descenders of a text; its baseline leading is never less. */
static Box text_box(const Mark *mark) {
    double width = 0;
    for (uint32_t i = 0; i < mark->count; i++) width += mark->words[i]->width * (double)mark->size / 1000;
    width += (double)mark->word_space * (double)(mark->count - 1);
    double size = (double)mark->size;
    return (Box){mark->points[0].x, mark->points[0].y - 0.7 * size, width, 0.9 * size};
}

static bool overlap(Box a, Box b) {
    const double slack = 0.01;
    return a.x + slack < b.x + b.width && b.x + slack < a.x + a.width && a.y + slack < b.y + b.height &&
           b.y + slack < a.y + a.height;
}

static const char *said(const Mark *mark) {
    return mark->count ? mark->words[0]->text : "";
}

static void check_inside(const Mark *mark, Box box, double width, double height, unsigned seed) {
    if (box.x >= -0.01 && box.x + box.width <= width + 0.01 && box.y >= -0.5 && box.y + box.height <= height + 0.5)
        return;
    fail_msg("seed %u: \"%s…\" at %.1f %.1f, %.1f wide, leaves %.1f x %.1f", seed, said(mark), box.x, box.y, box.width,
             width, height);
}

static void check_texts(const Page *page, double width, double height, unsigned seed) {
    for (size_t i = 0; i < page->count; i++) {
        if (page->marks[i].kind != MARK_TEXT) continue;
        Box box = text_box(&page->marks[i]);
        check_inside(&page->marks[i], box, width, height, seed);
        for (size_t k = 0; k < i; k++) {
            if (page->marks[k].kind != MARK_TEXT || !overlap(box, text_box(&page->marks[k]))) continue;
            fail_msg("seed %u: \"%s…\" touches \"%s…\" at %.1f %.1f in width %.1f", seed, said(&page->marks[i]),
                     said(&page->marks[k]), box.x, box.y, width);
        }
    }
}

static void points_box(const Mark *mark, Box *box) {
    double left = INFINITY, right = -INFINITY, top = INFINITY, bottom = -INFINITY;
    for (uint32_t i = 0; i < mark->count; i++) {
        left = fmin(left, mark->points[i].x);
        right = fmax(right, mark->points[i].x);
        top = fmin(top, mark->points[i].y);
        bottom = fmax(bottom, mark->points[i].y);
    }
    double half = (double)mark->stroke_width / 2;
    *box = (Box){left - half, top - half, right - left + 2 * half, bottom - top + 2 * half};
}

/* The box of a marker: a disc or a filled shape. */
static bool marker_box(const Mark *mark, Box *box) {
    if (mark->kind != MARK_DISC && mark->kind != MARK_SHAPE) return false;
    points_box(mark, box);
    if (mark->kind == MARK_SHAPE) return true;
    double radius = (double)mark->size;
    *box = (Box){box->x - radius, box->y - radius, box->width + 2 * radius, box->height + 2 * radius};
    return true;
}

static void check_markers(const Page *page, unsigned seed) {
    for (size_t i = 0; i < page->count; i++) {
        Box marker;
        if (!marker_box(&page->marks[i], &marker)) continue;
        for (size_t k = 0; k < page->count; k++) {
            if (page->marks[k].kind != MARK_TEXT || !overlap(marker, text_box(&page->marks[k]))) continue;
            fail_msg("seed %u: \"%s…\" stands on a marker at %.1f %.1f", seed, said(&page->marks[k]), marker.x,
                     marker.y);
        }
    }
}

/* Data are drawn in lines of 0.7 and more; hairlines behind them may pass under a text's white. */
static void check_lines(const Page *page, unsigned seed) {
    for (size_t i = 0; i < page->count; i++) {
        const Mark *mark = &page->marks[i];
        if (mark->kind != MARK_LINE || mark->stroke_width < 0.7f || mark->dash > 0) continue;
        Box line;
        points_box(mark, &line);
        for (size_t k = 0; k < page->count; k++) {
            if (page->marks[k].kind != MARK_TEXT || !overlap(line, text_box(&page->marks[k]))) continue;
            fail_msg("seed %u: a line runs through \"%s…\" at %.1f %.1f", seed, said(&page->marks[k]), line.x, line.y);
        }
    }
}

static void check_finite(const Page *page, unsigned seed) {
    for (size_t i = 0; i < page->count; i++) {
        const Mark *mark = &page->marks[i];
        bool good =
            isfinite(mark->box.x) && isfinite(mark->box.y) && isfinite(mark->box.width) && isfinite(mark->box.height);
        good = good && mark->box.width >= 0 && mark->box.height >= 0;
        for (uint32_t k = 0; mark->points && k < (mark->kind == MARK_TEXT ? 1 : mark->count); k++)
            good = good && isfinite(mark->points[k].x) && isfinite(mark->points[k].y);
        if (!good) fail_msg("seed %u: mark %zu of kind %d has no place", seed, i, (int)mark->kind);
    }
}

static void check_type(const Page *page, unsigned seed) {
    for (size_t i = 0; i < page->count; i++)
        if (page->marks[i].kind == MARK_TEXT && page->marks[i].size < 7.5f)
            fail_msg("seed %u: type under 7.5 pt", seed);
}

static void check_figure(FigureKind kind, unsigned seed) {
    Arena *arena = arena_new();
    Dice dice = {.state = seed * 2654435761u + (unsigned)kind, .arena = arena};
    for (int i = 0; i < 8; i++) roll(&dice, 2);
    static const double widths[] = {506, 248, 323, 525, 230};
    double width = widths[roll(&dice, 5)];
    if (kind == FIGURE_CLAIM_ROWS || kind == FIGURE_GRADE_RULE) width = fmax(width, 323);
    Figure figure = {.kind = kind, .alt = "random"};
    ROLLS[kind].fill(&dice, &figure);
    Canvas *canvas = fixed_canvas(arena);
    double height = figure_height(canvas, &figure, width);
    assert_true(canvas->page->count == 0);
    assert_true(fabs(figure_draw(canvas, &figure, width) - height) < 1e-9);
    check_finite(canvas->page, seed);
    check_type(canvas->page, seed);
    check_texts(canvas->page, width, height, seed);
    check_markers(canvas->page, seed);
    check_lines(canvas->page, seed);
    arena_free(arena);
}

static void check_kind(void **state) {
    FigureKind kind = *(const FigureKind *)*state;
    for (unsigned seed = 1; seed <= SEEDS; seed++) check_figure(kind, seed);
}

int main(void) {
    static FigureKind kinds[FIGURE_KIND_COUNT];
    struct CMUnitTest tests[FIGURE_KIND_COUNT];
    size_t count = 0;
    for (int i = 0; i < FIGURE_KIND_COUNT; i++) {
        kinds[i] = (FigureKind)i;
        if (!ROLLS[i].fill) continue;
        tests[count++] =
            (struct CMUnitTest){.name = ROLLS[i].name, .test_func = check_kind, .initial_state = &kinds[i]};
    }
    return _cmocka_run_group_tests("figures keep their texts apart", tests, count, NULL, NULL);
}
