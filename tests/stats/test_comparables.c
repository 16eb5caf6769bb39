/* Percentiles against players row by row, and the nearest of them. */
#include <stdlib.h>

#include "stats/findings.h"
#include "stats/help_near.h"
#include "stats/help_stats.h"

enum { CORNERS = 8, COPIES = 4, ROWS = CORNERS * COPIES, KINDS = 4 };

/* Three kinds at all corners of a box, COPIES times: they do not vary together, so that the distance is the plain one
 * in units of each kind's deviation. A fourth was measured on a few. */
static const double MIDDLE[] = {75, 220, 4.8};
static const double HALF[] = {2, 10, .1};
static const double OFF[] = {.25, .125, .5}; /* where the player stands from the middle, in halves */

typedef struct World {
    Help help;
    Scale scale;
    MeasurableKind kinds[KINDS];
    Measurable measurables[KINDS + 2];
} World;

static const char *const NAMES[KINDS] = {"height", "weight", "forty", "vertical"};

static void add_rows(World *world, size_t jumpers) {
    Arena *arena = world->help.arena;
    ScaleRows *rows = &world->scale.rows;
    *rows = (ScaleRows){.kind_count = KINDS, .count = ROWS};
    rows->kinds = ARENA_ARRAY(arena, KINDS, const char *);
    rows->columns = ARENA_ARRAY(arena, KINDS, double *);
    rows->ids = ARENA_ARRAY(arena, ROWS, const char *);
    rows->labels = ARENA_ARRAY(arena, ROWS, const char *);
    for (int kind = 0; kind < KINDS; kind++) {
        rows->kinds[kind] = NAMES[kind];
        rows->columns[kind] = ARENA_ARRAY(arena, ROWS, double);
    }
    for (size_t row = 0; row < ROWS; row++) {
        rows->ids[row] = arena_printf(arena, "r%zu", row);
        rows->labels[row] = arena_printf(arena, "player %zu", row);
        for (int kind = 0; kind < 3; kind++) {
            rows->columns[kind][row] = MIDDLE[kind] + (row >> kind & 1 ? HALF[kind] : -HALF[kind]);
        }
        rows->columns[3][row] = row < jumpers ? 30 + (double)(row * row % 7) : NAN;
    }
}

/* A player off the middle towards the corner of all highs. */
static World *world_new(size_t jumpers) {
    World *world = mem_alloc(sizeof *world);
    *world = (World){.help = help_new()};
    help_chart(&world->help, NULL, 0);
    add_rows(world, jumpers);
    for (int kind = 0; kind < 3; kind++) {
        world->measurables[kind] =
            (Measurable){.id = NAMES[kind], .value = MIDDLE[kind] + HALF[kind] * OFF[kind], .verified = true};
    }
    world->help.dossier->measurables = world->measurables;
    world->help.dossier->measurable_count = 3;
    return world;
}

static void world_free(World *world) {
    help_free(&world->help);
    free(world);
}

static const ComparableFinding *compare(World *world) {
    return &findings_compute(world->help.arena, world->help.dossier, &world->scale)->comparables;
}

static void test_nearest(void **state) {
    (void)state;
    World *world = world_new(0);
    const ComparableFinding *found = compare(world);
    assert_int_equal(found->kind_count, 3);
    assert_int_equal(found->complete, ROWS);
    assert_int_equal(found->count, COMPARABLES_MOST);
    double unit = sqrt((ROWS - 1.0) / ROWS); /* a half, in deviations */
    for (size_t i = 0; i < COPIES; i++) {
        assert_int_equal(found->nearest[i].row, 7 + CORNERS * i);
        help_near(found->nearest[i].distance, unit * sqrt(.75 * .75 + .875 * .875 + .5 * .5), 1e-12);
    }
    assert_int_equal(found->nearest[4].row, 5); /* the low end of the kind in which he is nearest the middle */
    help_near(found->nearest[4].distance, unit * sqrt(.75 * .75 + 1.125 * 1.125 + .5 * .5), 1e-12);
    assert_string_equal(found->nearest[0].id, "r7");
    assert_string_equal(found->nearest[0].label, "player 7");
    world_free(world);
}

/* Two of the three kinds do not make a comparison, nor do 29 of 32 rows. */
static void test_too_few(void **state) {
    (void)state;
    World *world = world_new(0);
    world->help.dossier->measurable_count = 2;
    assert_int_equal(compare(world)->count, 0);
    world->help.dossier->measurable_count = 3;
    for (size_t row = 0; row < 2; row++) world->scale.rows.columns[row][row] = NAN;
    assert_int_equal(compare(world)->complete, COMPARABLES_FEWEST_ROWS);
    assert_int_equal(compare(world)->count, COMPARABLES_MOST);
    world->scale.rows.columns[2][2] = NAN;
    assert_int_equal(compare(world)->count, 0);
    world->scale.rows.count = 0;
    assert_int_equal(compare(world)->count, 0);
    world_free(world);
}

/* A kind that was measured on too few gives way, and is named; on enough it counts. */
static void test_left_out(void **state) {
    (void)state;
    for (size_t jumpers = ROWS - 3; jumpers <= ROWS - 2; jumpers++) {
        World *world = world_new(jumpers);
        world->measurables[3] = (Measurable){.id = "vertical", .value = 33};
        world->help.dossier->measurable_count = 4;
        const ComparableFinding *found = compare(world);
        bool enough = jumpers >= COMPARABLES_FEWEST_ROWS;
        assert_int_equal(found->kind_count, enough ? 4 : 3);
        assert_int_equal(found->left_out_count, enough ? 0 : 1);
        assert_int_equal(found->complete, enough ? jumpers : ROWS);
        if (!enough) assert_ptr_equal(found->left_out[0], &world->measurables[3]);
        world_free(world);
    }
}

/* Kinds that follow from each other have no distance. */
static void test_dependent(void **state) {
    (void)state;
    World *world = world_new(0);
    for (size_t row = 0; row < ROWS; row++) {
        world->scale.rows.columns[2][row] = 2 * world->scale.rows.columns[0][row] - 1;
    }
    assert_int_equal(compare(world)->count, 0);
    world_free(world);
}

/* Of several measurements of a kind: verified before reported, electronic before hand, the latest, the first. */
static void test_which(void **state) {
    (void)state;
    World *world = world_new(0);
    Measurable *measured = world->measurables;
    measured[0] = (Measurable){.id = "forty", .value = 4.7, .hand_timed = true, .verified = true, .on = "2031-06-01"};
    measured[1] = (Measurable){.id = "forty", .value = 4.8, .on = "2031-05-01"};
    measured[2] = (Measurable){.id = "forty", .value = 4.9, .verified = true, .on = "2031-03-01"};
    measured[3] = (Measurable){.id = "forty", .value = 5.0, .verified = true, .on = "2031-04-01"};
    measured[4] = (Measurable){.id = "forty", .value = 5.1, .verified = true, .on = "2031-04-01"};
    for (size_t count = 1; count <= 5; count++) {
        static const size_t WANTED[] = {0, 0, 2, 3, 3};
        world->help.dossier->measurable_count = count;
        const Findings *findings = findings_compute(world->help.arena, world->help.dossier, &world->scale);
        assert_ptr_equal(findings_measurable(findings, "forty"), &measured[WANTED[count - 1]]);
        assert_null(findings_measurable(findings, "height"));
    }
    world_free(world);
}

/* Mid-rank: those below and half of the equal ones, turned where less is better. */
static void test_midrank(void **state) {
    (void)state;
    static const double RISING[] = {4.5, 4.6, 4.6, 4.7, 4.8};
    World *world = world_new(0);
    ScaleMeasurable forty = {.kind = "forty", .n = 5, .rising = RISING};
    world->scale.measurables = &forty;
    world->scale.count = 1;
    world->kinds[0] = (MeasurableKind){.id = "forty", .better = BETTER_LESS};
    static const struct {
        double value, percentile;
    } CASES[] = {{4.6, 60}, {4.65, 40}, {4.4, 100}, {4.5, 90}, {4.8, 10}, {5, 0}};
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        world->measurables[0] = (Measurable){.kind = &world->kinds[0], .id = "forty", .value = CASES[i].value};
        const Findings *findings = findings_compute(world->help.arena, world->help.dossier, &world->scale);
        help_near(findings->measurables[0].percentile, CASES[i].percentile, 1e-12);
        assert_ptr_equal(findings->measurables[0].population, &forty);
    }
    world_free(world);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_nearest),   cmocka_unit_test(test_too_few), cmocka_unit_test(test_left_out),
        cmocka_unit_test(test_dependent), cmocka_unit_test(test_which),   cmocka_unit_test(test_midrank),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
