/* What a profile is once it is read: parts in order, words, maps, bands, expressions, order of need. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <math.h>
#include <string.h>

#include <cmocka.h>

#include "source/help_reader.h"

static int open_world(void **state) {
    *state = reader_world_new();
    return 0;
}

static int close_world(void **state) {
    reader_world_free(*state);
    return 0;
}

static const Profile *load(void **state) {
    const Profile *profile = reader_profile(*state, "passer");
    assert_string_equal(reader_said(*state), "");
    assert_non_null(profile);
    return profile;
}

static const Field *field_of(const Profile *profile, const char *id) {
    int index = profile_field(profile, id);
    assert_true(index >= 0);
    return &profile->fields[index];
}

static void test_head(void **state) {
    const Profile *profile = load(state);
    assert_string_equal(profile->name, "Passer");
    assert_string_equal(profile->plural, "Passer");
    assert_string_equal(profile->code, "PA");
    assert_string_equal(profile->snap_noun, "dropbacks");
    assert_non_null(profile->counted);
}

/* The set's fields come first, in their order. */
static void test_fields(void **state) {
    const Profile *profile = load(state);
    assert_int_equal(profile->field_count, 27);
    assert_int_equal(profile_field(profile, "down"), 0);
    assert_int_equal(profile_field(profile, "success"), 15);
    assert_int_equal(profile_field(profile, "coverage"), 16);
    assert_int_equal(profile_field(profile, "none-such"), -1);
    const Field *down = field_of(profile, "down");
    assert_string_equal(down->label, "Down");
    assert_string_equal(down->says, "Which try this was.");
    assert_true(down->required && !down->exception && down->low == 1 && down->high == 4 && down->step == 1);
    assert_string_equal(down->when_source, "@play!='kickoff'");
    assert_non_null(down->when);
    assert_int_equal(field_of(profile, "distance")->from, profile_field(profile, "spot"));
    assert_true(field_of(profile, "throw-time")->step == 0.1);
    assert_true(field_of(profile, "risk")->exception);
}

static void test_values(void **state) {
    const Profile *profile = load(state);
    const Field *play = field_of(profile, "play");
    assert_int_equal(play->value_count, 4);
    assert_string_equal(play->says, "What was called.");
    assert_string_equal(play->values[0].label, "Pass");
    assert_string_equal(play->values[0].says, "a called pass");
    assert_string_equal(play->values[1].label, "run");
    assert_string_equal(play->values[1].says ? play->values[1].says : "", "");
    const Field *risk = field_of(profile, "risk");
    assert_int_equal(risk->value_count, 2);
    assert_int_equal(risk->values[0].word, profile->no);
    assert_int_equal(risk->values[1].word, profile->yes);
}

/* One word for one spelling, wherever it stands. */
static void test_words(void **state) {
    const Profile *profile = load(state);
    for (size_t i = 0; i < profile->word_count; i++) assert_int_equal(profile_word(profile, profile->words[i]), (int)i);
    int run = profile_word(profile, "run");
    assert_string_equal(field_value(field_of(profile, "play"), run)->id, "run");
    assert_string_equal(field_value(field_of(profile, "result"), run)->id, "run");
    assert_null(field_value(field_of(profile, "coverage"), run));
    assert_int_equal(profile_word(profile, "none-such"), -1);
}

static void test_derived(void **state) {
    const Profile *profile = load(state);
    const Field *family = field_of(profile, "family");
    assert_int_equal(family->derived, DERIVED_MAP);
    assert_int_equal(family->type, FIELD_CHOICE);
    assert_string_equal(profile->fields[family->from].id, "coverage");
    static const int map[] = {0, 0, 1, 1, -1};
    for (size_t i = 0; i < 5; i++) assert_int_equal(family->map[i], map[i]);
    const Field *band = field_of(profile, "depth-band");
    assert_int_equal(band->derived, DERIVED_BAND);
    assert_int_equal(band->type, FIELD_ORDERED);
    assert_true(band->bands[0].low == -10 && band->bands[0].high == -1 && band->bands[2].high == 70);
    assert_int_equal(field_of(profile, "after")->derived, DERIVED_CALC);
    assert_int_equal(field_of(profile, "to-goal")->derived, DERIVED_READ);
    assert_int_equal(field_of(profile, "thrown")->derived, DERIVED_TEST);
    assert_int_equal(field_of(profile, "thrown")->value_count, 2);
    assert_int_equal(field_of(profile, "down")->derived, DERIVED_NONE);
}

/* Every field once, and after all that it needs, though 'passing' is declared before 'thrown'. */
static void check_order(const Profile *profile) {
    bool done[PROFILE_MOST_FIELDS] = {false};
    for (size_t i = 0; i < profile->field_count; i++) {
        const Field *field = &profile->fields[profile->order[i]];
        for (int other = 0; other < (int)profile->field_count; other++) {
            bool needed = field->from == other || (field->when && expr_uses_field(field->when, other)) ||
                          (field->expr && expr_uses_field(field->expr, other));
            assert_true(!needed || done[other]);
        }
        assert_false(done[profile->order[i]]);
        done[profile->order[i]] = true;
    }
}

static void test_order(void **state) {
    check_order(load(state));
}

static void test_slices_and_totals(void **state) {
    const Profile *profile = load(state);
    assert_int_equal(profile->slice_count, 3);
    assert_true(profile->slices[profile_slice(profile, "early")].common);
    assert_string_equal(profile->slices[profile_slice(profile, "early")].phrase, "Early");
    assert_false(profile->slices[profile_slice(profile, "man")].common);
    assert_string_equal(profile->slices[profile_slice(profile, "man")].phrase, "against man");
    assert_int_equal(profile->total_count, 4);
    const Total *yards = &profile->totals[profile_total(profile, "yards")];
    assert_true(yards->official && yards->sum && yards->where);
    assert_false(profile->totals[profile_total(profile, "dropbacks")].official);
}

static void test_measures(void **state) {
    const Profile *profile = load(state);
    const Measure *rate = &profile->measures[profile_measure(profile, "completion-rate")];
    assert_true(rate->kind == MEASURE_RATE && rate->better == BETTER_MORE && rate->printed && rate->of && rate->where);
    assert_string_equal(rate->says, "Out of attempts.");
    assert_string_equal(rate->noun, "attempts");
    const Measure *risk = &profile->measures[profile_measure(profile, "risk-rate")];
    assert_true(risk->better == BETTER_LESS && !risk->printed && risk->over == -1 && risk->under == -1);
    assert_string_equal(risk->noun, "dropbacks");
    const Measure *mean = &profile->measures[profile_measure(profile, "target-depth")];
    assert_true(mean->kind == MEASURE_MEAN && mean->better == BETTER_NEITHER && mean->x && mean->places == 2);
    const Measure *ratio = &profile->measures[profile_measure(profile, "yards-per-attempt")];
    assert_int_equal(ratio->over, profile_total(profile, "yards"));
    assert_int_equal(ratio->under, profile_total(profile, "attempts"));
    const Measure *formula = &profile->measures[profile_measure(profile, "points")];
    assert_true(formula->kind == MEASURE_FORMULA && formula->part_count == 2 && formula->scale == 100);
    assert_int_equal(formula->under, profile_total(profile, "attempts"));
    assert_true(formula->parts[0].low == 0 && formula->parts[0].high == 2.5);
    assert_true(formula->parts[1].low == -INFINITY && formula->parts[1].high == INFINITY);
    assert_string_equal(formula->source, "made for this test");
}

static void test_shown(void **state) {
    const Profile *profile = load(state);
    assert_true(profile->traits[profile_trait(profile, "timing")].weight == 7.5);
    assert_string_equal(profile->traits[0].says, "His man need not wait.");
    assert_null(profile->traits[0].seen);
    assert_null(profile->traits[0].shown);
    assert_int_equal(profile->measurable_count, 2);
    assert_true(profile->measurables[1].better == BETTER_LESS && profile->measurables[1].high == 0);
    const ProfileFigure *field = &profile->figures[0], *rows = &profile->figures[1];
    assert_int_equal(field->lateral, profile_field(profile, "side"));
    assert_int_equal(field->depth, profile_field(profile, "depth-band"));
    assert_int_equal(rows->slice_count, 4);
    assert_int_equal(rows->slices[1], profile_slice(profile, "zone"));
    assert_int_equal(rows->slices[2], -1);
    assert_int_equal(profile->standard_count, 1);
    assert_true(profile->standards[0].value == 0.6);
    assert_int_equal(profile->log_field_count, 5);
    assert_int_equal(profile->log_fields[2], profile_field(profile, "distance"));
}

/* A set that two others use is read once, and sets that use each other end. */
static void test_sets_using_sets(void **state) {
    ReaderWorld *world = *state;
    reader_world_change(world, "sets/common.xml", "<set format=\"1\" id=\"common\">",
                        "<set format=\"1\" id=\"common\"><use set=\"common\"/>");
    reader_world_change(world, "profiles/passer.xml", "<use set=\"common\"/>",
                        "<use set=\"common\"/><use set=\"common\"/>");
    assert_int_equal(load(state)->field_count, 27);
}

static void test_loaded_once(void **state) {
    assert_ptr_equal(load(state), load(state));
}

/* The profiles that come with the program. */
static void test_shipped(void **state) {
    (void)state;
    Diagnostics *diagnostics = diag_new();
    SourceContext *context = source_context_new("templates", NULL, diagnostics);
    const Profile *profile = source_profile(context, "quarterback", (Place){0}, diagnostics);
    assert_non_null(profile);
    assert_int_equal(diag_errors(diagnostics) + diag_warnings(diagnostics), 0);
    check_order(profile);
    source_context_free(context);
    diag_free(diagnostics);
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_head),
        IN_WORLD(test_fields),
        IN_WORLD(test_values),
        IN_WORLD(test_words),
        IN_WORLD(test_derived),
        IN_WORLD(test_order),
        IN_WORLD(test_slices_and_totals),
        IN_WORLD(test_measures),
        IN_WORLD(test_shown),
        IN_WORLD(test_sets_using_sets),
        IN_WORLD(test_loaded_once),
        cmocka_unit_test(test_shipped),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
