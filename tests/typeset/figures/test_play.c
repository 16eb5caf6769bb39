/* Drawn snaps: text files for a few, and for thousands of charts that nothing leaves the field that is shown, no text
 * or mark stands on another, and nothing is set too small. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "story/play.h"
#include "typeset/figures/golden.h"

#define COUNT_OF(array) (sizeof(array) / sizeof *(array))

enum { RANDOM_CHARTS = 5000 };

typedef struct World {
    Arena *arena;
    Diagnostics *diagnostics;
    SourceContext *context;
    const Plays *plays;
} World;

static int open_world(void **state) {
    World *world = mem_alloc(sizeof *world);
    world->arena = arena_new();
    world->diagnostics = diag_new();
    world->context = source_context_new("templates", NULL, world->diagnostics);
    world->plays = source_plays(world->context, (Place){0}, world->diagnostics);
    *state = world;
    return world->plays ? 0 : -1;
}

static int close_world(void **state) {
    World *world = *state;
    diag_free(world->diagnostics);
    source_context_free(world->context);
    arena_free(world->arena);
    free(world);
    return 0;
}

/* ---- what must hold of every drawing ---- */

static Box points_box(const Mark *mark) {
    double left = INFINITY, right = -INFINITY, top = INFINITY, bottom = -INFINITY;
    for (uint32_t i = 0; i < mark->count; i++) {
        left = fmin(left, mark->points[i].x);
        right = fmax(right, mark->points[i].x);
        top = fmin(top, mark->points[i].y);
        bottom = fmax(bottom, mark->points[i].y);
    }
    return (Box){left, top, right - left, bottom - top};
}

static Box text_box(const Mark *mark) {
    double width = 0;
    for (uint32_t i = 0; i < mark->count; i++) width += mark->words[i]->width * (double)mark->size / 1000;
    width += (double)mark->word_space * (double)(mark->count - 1);
    double size = (double)mark->size;
    return (Box){mark->points[0].x, mark->points[0].y - 0.7 * size, width, 0.72 * size};
}

static Box mark_box(const Mark *mark) {
    if (mark->kind == MARK_TEXT) return text_box(mark);
    if (mark->kind == MARK_RECT) return mark->box;
    Box box = points_box(mark);
    double radius = mark->kind == MARK_DISC ? (double)mark->size : 0;
    return (Box){box.x - radius, box.y - radius, box.width + 2 * radius, box.height + 2 * radius};
}

static bool has_place(const Mark *mark) {
    return mark->kind <= MARK_DISC;
}

static bool overlap(Box a, Box b) {
    const double slack = 0.02;
    return a.x + slack < b.x + b.width && b.x + slack < a.x + a.width && a.y + slack < b.y + b.height &&
           b.y + slack < a.y + a.height;
}

static void check_inside(const Page *page, double width, double height, const char *name) {
    const double slack = 0.3;
    for (size_t i = 0; i < page->count; i++) {
        if (!has_place(&page->marks[i])) continue;
        Box box = mark_box(&page->marks[i]);
        bool inside = box.x >= -slack && box.y >= -slack && box.x + box.width <= width + slack &&
                      box.y + box.height <= height + slack;
        if (inside) continue;
        fail_msg("%s: mark %zu of kind %d, %.1f %.1f %.1f %.1f, leaves %.1f x %.1f", name, i, page->marks[i].kind,
                 box.x, box.y, box.width, box.height, width, height);
    }
}

static void check_texts(const Page *page, const char *name) {
    for (size_t i = 0; i < page->count; i++) {
        const Mark *mark = &page->marks[i];
        if (mark->kind != MARK_TEXT) continue;
        if (mark->size < 7.5f) fail_msg("%s: type under 7.5 pt", name);
        for (size_t k = 0; k < i; k++) {
            if (page->marks[k].kind != MARK_TEXT || !overlap(text_box(mark), text_box(&page->marks[k]))) continue;
            fail_msg("%s: \"%s\" touches \"%s\" at %.1f %.1f", name, mark->words[0]->text,
                     page->marks[k].words[0]->text, mark->points[0].x, mark->points[0].y);
        }
    }
}

/* Men and numbers of reads are discs; none lies on another. */
static void check_discs(const Page *page, const char *name) {
    for (size_t i = 0; i < page->count; i++) {
        const Mark *a = &page->marks[i];
        if (a->kind != MARK_DISC || a->size < 2.5f) continue;
        for (size_t k = 0; k < i; k++) {
            const Mark *b = &page->marks[k];
            if (b->kind != MARK_DISC || b->size < 2.5f) continue;
            double apart = hypot(a->points[0].x - b->points[0].x, a->points[0].y - b->points[0].y);
            if (apart < (double)(a->size + b->size) - 0.05)
                fail_msg("%s: two marks meet at %.1f %.1f", name, a->points[0].x, a->points[0].y);
        }
    }
}

static void check_drawing(const Figure *figure, double width, const char *name) {
    Arena *arena = arena_new();
    Canvas *canvas = fixed_canvas(arena);
    double height = figure_height(canvas, figure, width);
    assert_int_equal(canvas->page->count, 0);
    assert_true(figure_draw(canvas, figure, width) == height);
    assert_true(height > 50 && height < 205);
    check_inside(canvas->page, width, height, name);
    check_texts(canvas->page, name);
    check_discs(canvas->page, name);
    arena_free(arena);
}

/* ---- random charts ---- */

typedef struct Dice {
    uint64_t state;
} Dice;

static unsigned roll(Dice *dice, size_t sides) {
    dice->state = dice->state * 6364136223846793005u + 1442695040888963407u;
    return (unsigned)((dice->state >> 33) % sides);
}

static double between(Dice *dice, double low, double high) {
    return low + (high - low) * roll(dice, 1001) / 1000;
}

/* One of the rows' ids, now and then none. */
static const char *roll_row(Dice *dice, const void *rows, size_t count, size_t stride) {
    const char *id;
    if (!roll(dice, 12)) return NULL;
    memcpy(&id, (const char *)rows + stride * roll(dice, count), sizeof id);
    return id;
}

#define ROLL(table) roll_row(dice, (table).rows, (table).count, sizeof *(table).rows)

static PlaySnap roll_snap(Dice *dice, const Plays *plays) {
    static const char *const hashes[] = {"L", "M", "R"};
    static const char *const personnel[] = {"00", "01", "02", "10", "11", "12", "13",
                                            "20", "21", "22", "23", "30", "31", "32"};
    static const double goals[] = {1, 2, 4, 7, 10, 15, 22, 35, 50, 75, 92, 97, 98, 99};
    PlaySnap snap = {.hash = roll(dice, 9) ? hashes[roll(dice, 3)] : NULL,
                     .personnel = roll(dice, 15) ? personnel[roll(dice, COUNT_OF(personnel))] : NULL,
                     .backfield = ROLL(plays->backfields),
                     .formation = ROLL(plays->formations),
                     .motion = ROLL(plays->motions),
                     .drop = ROLL(plays->drops),
                     .runner = ROLL(plays->runners),
                     .route = ROLL(plays->routes),
                     .side = ROLL(plays->lanes),
                     .window = ROLL(plays->windows),
                     .shell = ROLL(plays->shells),
                     .coverage = ROLL(plays->coverages),
                     .front = ROLL(plays->fronts),
                     .sub = ROLL(plays->subs),
                     .call = ROLL(plays->calls)};
    snap.to_goal = roll(dice, 20) ? goals[roll(dice, COUNT_OF(goals))] : NAN;
    snap.distance = fmin(snap.to_goal, 1 + roll(dice, 25));
    snap.depth = roll(dice, 8) ? fmin(roll(dice, 81) - 10.0, snap.to_goal + 9) : NAN;
    snap.read = roll(dice, 5) ? (double)roll(dice, 7) : (double)NAN;
    snap.rushers = roll(dice, 6) ? 1.0 + roll(dice, 8) : (double)NAN;
    snap.box = roll(dice, 4) ? 3.0 + roll(dice, 9) : (double)NAN;
    snap.jumbo = roll(dice, 9) == 0;
    snap.caught = roll(dice, 2);
    return snap;
}

static FieldLevel roll_level(Dice *dice) {
    return (FieldLevel)roll(dice, LEVEL_COUNT);
}

static double roll_width(Dice *dice) {
    static const double widths[] = {246, 248, 200, 246, 506};
    return widths[roll(dice, COUNT_OF(widths))];
}

static void test_random_charts(void **state) {
    World *world = *state;
    for (unsigned seed = 1; seed <= RANDOM_CHARTS; seed++) {
        Arena *arena = arena_new();
        Dice dice = {.state = seed * 2654435761u};
        PlaySnap snap = roll_snap(&dice, world->plays);
        const Figure *figure = play_figure(arena, world->plays, roll_level(&dice), &snap, NULL, "random");
        check_drawing(figure, roll_width(&dice), arena_printf(arena, "seed %u", seed));
        arena_free(arena);
    }
}

/* Every formation against every coverage and front, from either hash and between, in the field and near both goals. */
static void test_all_pictures(void **state) {
    World *world = *state;
    static const double goals[] = {3, 8, 60, 98};
    static const char *const hashes[] = {"L", "M", "R"};
    const Plays *plays = world->plays;
    Dice dice = {.state = 7};
    size_t pictures = plays->formations.count * plays->coverages.count * plays->fronts.count * COUNT_OF(hashes);
    for (size_t i = 0; i < pictures; i++) {
        Arena *arena = arena_new();
        PlaySnap snap = roll_snap(&dice, plays);
        size_t rest = i;
        snap.hash = hashes[rest % COUNT_OF(hashes)];
        rest /= COUNT_OF(hashes);
        snap.formation = plays->formations.rows[rest % plays->formations.count].id;
        rest /= plays->formations.count;
        snap.coverage = plays->coverages.rows[rest % plays->coverages.count].id;
        snap.front = plays->fronts.rows[rest / plays->coverages.count].id;
        snap.to_goal = goals[i % COUNT_OF(goals)];
        snap.depth = fmin(snap.depth, snap.to_goal + 9);
        const Figure *figure = play_figure(arena, plays, LEVEL_COLLEGE, &snap, NULL, "");
        check_drawing(figure, 246,
                      arena_printf(arena, "%s %s %s %s", snap.hash, snap.formation, snap.coverage, snap.front));
        arena_free(arena);
    }
}

/* Men, points, zones, aims and notes anywhere, off the field too. */
static void roll_key(Dice *dice, Arena *arena, const Plays *plays, KeySnap *key) {
    static const char *const offence[] = {"X", "Z", "H", "Y", "R", "Q", "Ab"};
    static const char *const defence[] = {"C", "N", "F", "R", "W", "M", "Fs"};
    *key = (KeySnap){.strength = (int)roll(dice, 3) - 1, .aim = {NAN, NAN}, .window = NAN};
    key->men = ARENA_ARRAY(arena, 8, KeyMan);
    key->man_count = roll(dice, 9);
    for (size_t i = 0; i < key->man_count; i++) {
        KeyMan *man = &key->men[i];
        *man = (KeyMan){.defence = roll(dice, 2), .read = -1, .rush = -1};
        man->id = man->defence ? defence[roll(dice, 7)] : offence[roll(dice, 7)];
        man->at = roll(dice, 3) ? (YardPoint){between(dice, -54, 54), between(dice, -20, 40)} : (YardPoint){NAN, NAN};
        man->to.points = ARENA_ARRAY(arena, 3, YardPoint);
        man->to.count = roll(dice, 4);
        for (size_t k = 0; k < man->to.count; k++)
            man->to.points[k] = (YardPoint){between(dice, -54, 54), between(dice, -70, 70)};
        man->from = roll(dice, 2) ? man->to : (YardPoints){0};
        if (man->defence) continue;
        if (!man->to.count) man->route = roll_row(dice, plays->routes.rows, plays->routes.count, sizeof(PlayRoute));
        man->read = (int)roll(dice, 11) - 1;
        man->target = roll(dice, 5) == 0;
    }
    key->zones = ARENA_ARRAY(arena, 3, YardZone);
    key->zone_count = roll(dice, 4);
    for (size_t i = 0; i < key->zone_count; i++) {
        key->zones[i] = (YardZone){
            {between(dice, -54, 54), between(dice, -20, 60)}, between(dice, 0.1, 60), between(dice, 0.1, 40)};
    }
    key->notes = ARENA_ARRAY(arena, 3, KeyNote);
    key->note_count = roll(dice, 4);
    for (size_t i = 0; i < key->note_count; i++) {
        key->notes[i] = (KeyNote){{between(dice, -54, 54), between(dice, -20, 60)},
                                  roll(dice, 2) ? "spins down" : "twenty-four letters long"};
    }
    if (roll(dice, 2)) key->aim = (YardPoint){between(dice, -54, 54), between(dice, -70, 70)};
    if (roll(dice, 3) == 0) key->window = between(dice, 0, 60);
    key->offence_complete = roll(dice, 6) == 0;
    key->defence_complete = roll(dice, 6) == 0;
}

static void test_random_keys(void **state) {
    World *world = *state;
    for (unsigned seed = 1; seed <= RANDOM_CHARTS; seed++) {
        Arena *arena = arena_new();
        Dice dice = {.state = seed * 40503u};
        PlaySnap snap = roll_snap(&dice, world->plays);
        KeySnap key;
        roll_key(&dice, arena, world->plays, &key);
        const Figure *figure = play_figure(arena, world->plays, roll_level(&dice), &snap, &key, "random");
        check_drawing(figure, roll_width(&dice), arena_printf(arena, "seed %u", seed));
        arena_free(arena);
    }
}

/* ---- text files ---- */

static PlaySnap third_and_ten(void) {
    return (PlaySnap){.hash = "L",
                      .personnel = "11",
                      .backfield = "gun",
                      .formation = "3x1",
                      .motion = "jet",
                      .drop = "5",
                      .runner = "WR",
                      .route = "deep-out",
                      .side = "wide-left",
                      .window = "closing",
                      .shell = "2-high",
                      .coverage = "3-fire",
                      .front = "odd",
                      .sub = "nickel",
                      .call = "fire",
                      .to_goal = 69,
                      .distance = 10,
                      .depth = 13,
                      .read = 1,
                      .rushers = 5,
                      .box = 6,
                      .caught = true};
}

static void test_usual(void **state) {
    World *world = *state;
    PlaySnap snap = third_and_ten();
    check_golden("play-usual", play_figure(world->arena, world->plays, LEVEL_COLLEGE, &snap, NULL, "g1.19"), 246);
}

static void test_goal(void **state) {
    World *world = *state;
    PlaySnap snap = third_and_ten();
    YardPoint to[] = {{1, 4}};
    KeyMan man = {.id = "W", .defence = true, .at = {-3, 2}, .to = {to, 1}, .read = -1, .rush = -1};
    KeyNote note = {{-3, 2}, "spins down"};
    KeySnap key = {.men = &man, .man_count = 1, .notes = &note, .note_count = 1, .aim = {NAN, NAN}, .window = NAN};
    snap.to_goal = snap.distance = 4;
    snap.hash = "R";
    snap.coverage = "4";
    snap.caught = false;
    check_golden("play-goal", play_figure(world->arena, world->plays, LEVEL_PROFESSIONAL, &snap, &key, "g1.20"), 246);
}

static void test_bare(void **state) {
    World *world = *state;
    PlaySnap snap = {.to_goal = NAN, .distance = NAN, .depth = NAN, .read = NAN, .rushers = NAN, .box = NAN};
    check_golden("play-bare", play_figure(world->arena, world->plays, LEVEL_HIGH_SCHOOL, &snap, NULL, "g1.21"), 200);
}

static Figure whole_key(void) {
    Figure figure = {.kind = FIGURE_PLAY_KEY, .alt = "key"};
    for (int i = 0; i < PLAY_PART_COUNT; i++) figure.as.play_key.parts[i] = true;
    return figure;
}

static void test_key(void **state) {
    (void)state;
    Figure figure = whole_key();
    check_golden("play-key", &figure, 506);
    figure = (Figure){.kind = FIGURE_PLAY_KEY, .alt = "nothing"};
    Arena *arena = arena_new();
    assert_true(figure_height(fixed_canvas(arena), &figure, 506) == 0);
    arena_free(arena);
}

static void test_key_fits(void **state) {
    (void)state;
    static const double widths[] = {506, 323, 248, 120};
    for (size_t i = 0; i < COUNT_OF(widths); i++) {
        Figure figure = whole_key();
        Arena *arena = arena_new();
        Canvas *canvas = fixed_canvas(arena);
        double height = figure_draw(canvas, &figure, widths[i]);
        check_inside(canvas->page, widths[i], height, "key");
        check_texts(canvas->page, "key");
        arena_free(arena);
    }
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_random_charts), IN_WORLD(test_all_pictures),
        IN_WORLD(test_random_keys),   IN_WORLD(test_usual),
        IN_WORLD(test_goal),          IN_WORLD(test_bare),
        cmocka_unit_test(test_key),   cmocka_unit_test(test_key_fits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
