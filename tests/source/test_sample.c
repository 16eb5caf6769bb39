/* Snaps made up by sample_snaps obey the profile they are made for: every shipped profile, thousands of snaps each. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "source/dossier.h"
#include "source/sample.h"

enum { SNAPS = 4096 };

typedef struct Shop {
    Arena *arena;
    Diagnostics *diagnostics;
    SourceContext *context;
} Shop;

static int open_shop(void **state) {
    static Shop shop;
    shop = (Shop){.arena = arena_new(), .diagnostics = diag_new()};
    shop.context = source_context_new("templates", NULL, shop.diagnostics);
    *state = &shop;
    return 0;
}

static int close_shop(void **state) {
    Shop *shop = *state;
    diag_free(shop->diagnostics);
    source_context_free(shop->context);
    arena_free(shop->arena);
    return 0;
}

typedef void Look(Shop *shop, const Profile *profile);

static void look_at_all(Shop *shop, Look *look) {
    size_t count;
    const char *const *ids = templates_names(shop->arena, "templates", "profiles", &count);
    assert_true(count >= 15);
    for (size_t i = 0; i < count; i++) {
        const Profile *profile = source_profile(shop->context, ids[i], (Place){0}, shop->diagnostics);
        assert_non_null(profile);
        look(shop, profile);
    }
}

static bool is_on_grid(const Field *field, double number) {
    double steps = number / field->step;
    return field->step <= 0 || fabs(steps - round(steps)) < 1e-6;
}

static bool is_allowed(const Field *field, double number) {
    if (field->value_count) return field_value(field, (int)number) != NULL;
    if (field->type == FIELD_SPOT) return number >= 1 && number <= 99;
    if (field->type == FIELD_NUMBER) return number >= field->low && number <= field->high && is_on_grid(field, number);
    if (field->type == FIELD_TEXT) return true;
    return number >= 0;
}

/* Charted exactly where it applies, with a value that a charter could have written. */
static void look_at_values(Shop *shop, const Profile *profile) {
    const Columns *snaps = sample_snaps(shop->arena, profile, SNAPS, 1);
    static uint8_t truth[SNAPS];
    for (size_t i = 0; i < profile->field_count; i++) {
        const Field *field = &profile->fields[i];
        const Column *column = &snaps->columns[i];
        if (field->derived != DERIVED_NONE) continue;
        memset(truth, TRUTH_TRUE, sizeof truth);
        if (field->when) expr_select(field->when, snaps, 0, SNAPS, truth);
        for (size_t row = 0; row < SNAPS; row++) {
            if ((column->state[row] == VALUE_KNOWN) != (truth[row] == TRUTH_TRUE))
                fail_msg("%s: '%s' is charted where it does not apply", profile->id, field->id);
            if (column->state[row] == VALUE_KNOWN && !is_allowed(field, column->number[row]))
                fail_msg("%s: '%s' is %g", profile->id, field->id, column->number[row]);
        }
    }
}

static void test_values(void **state) {
    look_at_all(*state, look_at_values);
}

static void look_at_distance(Shop *shop, const Profile *profile) {
    int distance = profile_field(profile, "distance"), spot = profile_field(profile, "spot");
    if (distance < 0) return;
    const Columns *snaps = sample_snaps(shop->arena, profile, SNAPS, 2);
    const Column *to_go = &snaps->columns[distance], *left = &snaps->columns[spot];
    for (size_t row = 0; row < SNAPS; row++) {
        if (to_go->state[row] == VALUE_KNOWN) assert_true(to_go->number[row] <= left->number[row]);
    }
}

static void test_distance(void **state) {
    look_at_all(*state, look_at_distance);
}

/* The columns of derived fields are those that a charted dossier would get: of a test, its own expression. */
static void look_at_derived(Shop *shop, const Profile *profile) {
    const Columns *snaps = sample_snaps(shop->arena, profile, SNAPS, 3);
    static uint8_t truth[SNAPS];
    for (size_t i = 0; i < profile->field_count; i++) {
        const Field *field = &profile->fields[i];
        if (field->derived != DERIVED_TEST) continue;
        expr_select(field->expr, snaps, 0, SNAPS, truth);
        for (size_t row = 0; row < SNAPS; row++) {
            bool yes = snaps->columns[i].state[row] == VALUE_KNOWN && snaps->columns[i].number[row] == profile->yes;
            assert_int_equal(yes, truth[row] == TRUTH_TRUE);
        }
    }
}

static void test_derived(void **state) {
    look_at_all(*state, look_at_derived);
}

static void look_at_seeds(Shop *shop, const Profile *profile) {
    const Columns *a = sample_snaps(shop->arena, profile, SNAPS, 4), *b = sample_snaps(shop->arena, profile, SNAPS, 4);
    const Columns *c = sample_snaps(shop->arena, profile, SNAPS, 5);
    bool differs = false;
    for (size_t i = 0; i < profile->field_count; i++) {
        size_t bytes = SNAPS * sizeof(double);
        assert_memory_equal(a->columns[i].number, b->columns[i].number, bytes);
        assert_memory_equal(a->columns[i].state, b->columns[i].state, SNAPS);
        differs |= memcmp(a->columns[i].number, c->columns[i].number, bytes) != 0;
    }
    assert_true(differs);
}

static void test_seeds(void **state) {
    look_at_all(*state, look_at_seeds);
}

#define SHOP_TEST(name) cmocka_unit_test_setup_teardown(name, open_shop, close_shop)

int main(void) {
    const struct CMUnitTest tests[] = {
        SHOP_TEST(test_values),
        SHOP_TEST(test_distance),
        SHOP_TEST(test_derived),
        SHOP_TEST(test_seeds),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
