/* The section of key snaps: what stands under a drawing, how many there are, and that drawings side by side are equally
 * high. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "stats/findings.h"
#include "story/dossier_story.h"

typedef struct World {
    Arena *arena;
    Diagnostics *diagnostics;
    SourceContext *context;
    const Findings *findings; /* of the flagship */
} World;

static int open_world(void **state) {
    World *world = mem_alloc(sizeof *world);
    world->arena = arena_new();
    world->diagnostics = diag_new();
    world->context = source_context_new("templates", NULL, world->diagnostics);
    const Dossier *dossier = dossier_load(world->arena, world->context, "dossiers/vashti.xml", world->diagnostics);
    world->findings = dossier ? findings_compute(world->arena, dossier, NULL) : NULL;
    *state = world;
    return world->findings ? 0 : -1;
}

static int close_world(void **state) {
    World *world = *state;
    diag_free(world->diagnostics);
    source_context_free(world->context);
    arena_free(world->arena);
    free(world);
    return 0;
}

static const Story *keys_story(World *world, int most) {
    LayoutSection *section = ARENA_NEW(world->arena, LayoutSection);
    Layout *layout = ARENA_NEW(world->arena, Layout);
    *section = (LayoutSection){.kind = SECTION_KEYS, .title = "Key snaps", .most = most};
    *layout = (Layout){.sections = section, .section_count = 1};
    return story_dossier(world->arena, world->findings, layout);
}

static const char *dumped(World *world, const Story *story) {
    Buf out = {0};
    story_dump(story, &out);
    const char *text = arena_copy(world->arena, buf_text(&out), out.length);
    buf_free(&out);
    return text;
}

static size_t figures_of(const Block *block, FigureKind kind, const Figure **figures, size_t count) {
    if (block->figure && block->figure->kind == kind) figures[count++] = block->figure;
    for (size_t i = 0; i < block->child_count; i++) count = figures_of(block->children[i], kind, figures, count);
    return count;
}

static void test_what_is_said(void **state) {
    static const char *const parts[] = {
        "(to scale, 53⅓ yards across, college hashes 40 ft apart; offence drives up the page)",
        "@g1.57@[snap-g1.57]",
        "9 at −37 · complete, 13 yards · mark +*",
        "goal at +10 · complete, 10 yards, touchdown · mark +*",
        "10 at +42 · intercepted · mark −*",
        "clock: Q4 10:56, left hash",
        "offence: 11, under, 3×1, out",
        "offence: 11, gun, 2×2\n", /* no motion is not a motion */
        "shell: 2 high, turned",
        "coverage: 6, 4 rush",
        "drop: 5, base set",
        "timing: early, 2.2 s",
        "read: 1, on target",
        "film: 1:16:31–1:16:39",
        "The ball is gone before X turns in.",
    };
    const char *text = dumped(*state, keys_story(*state, 0));
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (!strstr(text, parts[i])) fail_msg("\"%s\" does not stand in:\n%s", parts[i], text);
    }
}

static void test_side_by_side(void **state) {
    const Figure *figures[16];
    size_t count = figures_of(keys_story(*state, 0)->root, FIGURE_PLAY, figures, 0);
    assert_int_equal(count, 4);
    for (size_t i = 0; i < count; i += 2) {
        const PlayFigure *left = &figures[i]->as.play, *right = &figures[i + 1]->as.play;
        assert_true(fabs((left->to - left->from) - (right->to - right->from)) < 1e-9);
        assert_true(left->to <= left->goal + 10 && right->to <= right->goal + 10);
    }
}

static void test_most(void **state) {
    const Figure *figures[16];
    assert_int_equal(figures_of(keys_story(*state, 3)->root, FIGURE_PLAY, figures, 0), 3);
    assert_int_equal(figures_of(keys_story(*state, 3)->root, FIGURE_PLAY_KEY, figures, 0), 1);
}

/* A dossier that draws nothing has no such section. */
static void test_none(void **state) {
    World *world = *state;
    const Dossier *dossier = dossier_load(world->arena, world->context, "dossiers/sparse.xml", world->diagnostics);
    assert_non_null(dossier);
    world->findings = findings_compute(world->arena, dossier, NULL);
    assert_null(strstr(dumped(world, keys_story(world, 0)), "Key snaps"));
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {IN_WORLD(test_what_is_said), IN_WORLD(test_side_by_side), IN_WORLD(test_most),
                                       IN_WORLD(test_none)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
