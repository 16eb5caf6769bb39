/* Numbers, dates and charted values in the words of the page. Expected texts are what a reader would write by hand. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "story/help_charts.h"

#define MINUS "\u2212"
#define NO_BREAK "\u00a0"

static const SnapGroup SNAPS[] = {
    {1, "result=\"complete\" gain=\"-4\" coverage=\"1\" read=\"1\" clock=\"9:05\" in=\"0:21:40.2\""},
    {1, "result=\"sack\" gain=\"-7\" coverage=\"3\""},
};

typedef struct World {
    ReaderWorld *reader;
    Writer writer;
} World;

static int open_world(void **state) {
    static World world;
    world.reader = reader_world_new();
    const Charted charted = {.groups = SNAPS, .group_count = 2};
    world.writer = charted_writer(world.reader, charted_findings(world.reader, &charted));
    *state = &world;
    return 0;
}

static int close_world(void **state) {
    World *world = *state;
    reader_world_free(world->reader);
    return 0;
}

static Writer *writer_of(void **state) {
    World *world = *state;
    return &world->writer;
}

static void test_numbers(void **state) {
    static const struct {
        double value;
        int places;
        const char *number, *with_sign;
    } CASES[] = {
        {7.4, 1, "7.4", "+7.4"},
        {7.4, 2, "7.40", "+7.40"},
        {-28, 0, MINUS "28", MINUS "28"},
        {0, 0, "0", "0"},
        {-0.0, 1, "0.0", "0.0"},
        {-0.4, 0, "0", "0"},     /* rounds to nothing: no sign is left */
        {0.04, 1, "0.0", "0.0"}, /* as above, from the other side */
        {0.5, 0, "1", "+1"},     /* halves go away from zero */
        {-0.5, 0, MINUS "1", MINUS "1"},
        {2.5, 0, "3", "+3"},
        {1234.5, 0, "1235", "+1235"},
        {NAN, 1, "\u2013", "\u2013"},
        {INFINITY, 1, "\u2013", "\u2013"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        assert_string_equal(say_number(writer_of(state), CASES[i].value, CASES[i].places), CASES[i].number);
        assert_string_equal(say_signed(writer_of(state), CASES[i].value, CASES[i].places), CASES[i].with_sign);
    }
}

static void test_percents(void **state) {
    Writer *writer = writer_of(state);
    assert_string_equal(say_percent(writer, 0), "0%");
    assert_string_equal(say_percent(writer, 1), "100%");
    assert_string_equal(say_percent(writer, 2.0 / 3), "67%");
    assert_string_equal(say_percent(writer, 0.125), "13%");
    assert_string_equal(say_percent(writer, 0.995), "100%");
    assert_string_equal(say_percent(writer, NAN), "\u2013");
}

static void test_counts(void **state) {
    Writer *writer = writer_of(state);
    assert_string_equal(say_count(writer, 0, "games"), "0" NO_BREAK "games");
    assert_string_equal(say_count(writer, 1, "games"), "1" NO_BREAK "game");
    assert_string_equal(say_count(writer, 5, "games"), "5" NO_BREAK "games");
    assert_string_equal(say_count(writer, 1, "catches"), "1" NO_BREAK "catch");
    assert_string_equal(say_count(writer, 1, "passes broken up"), "1" NO_BREAK "pass broken up");
    assert_string_equal(say_count(writer, 1, "penalties"), "1" NO_BREAK "penalty");
    assert_string_equal(say_count(writer, 1, "blocked run fits"), "1" NO_BREAK "blocked run fit");
    assert_string_equal(say_count(writer, 1, "reps with hands charted"), "1" NO_BREAK "rep with hands charted");
    assert_string_equal(say_count(writer, 2, "catches on him"), "2" NO_BREAK "catches on him");
    assert_string_equal(say_count(writer, 1234, "snaps"), "1,234" NO_BREAK "snaps");
    assert_string_equal(say_count(writer, 1005, "snaps"), "1,005" NO_BREAK "snaps");
    assert_string_equal(say_word_count(writer, 0, "claims"), "no claims");
    assert_string_equal(say_word_count(writer, 1, "claims"), "one claim");
    assert_string_equal(say_word_count(writer, 12, "claims"), "twelve claims");
    assert_string_equal(say_word_count(writer, 13, "claims"), "13" NO_BREAK "claims");
}

static void test_dates(void **state) {
    Writer *writer = writer_of(state);
    assert_string_equal(say_date(writer, "2031-11-18"), "18" NO_BREAK "Nov" NO_BREAK "2031");
    assert_string_equal(say_date(writer, "2031-01-05"), "5" NO_BREAK "Jan" NO_BREAK "2031");
    assert_string_equal(say_short_date(writer, "2031-12-31"), "31" NO_BREAK "Dec");
    assert_string_equal(say_date(writer, NULL), "");
    assert_string_equal(say_date(writer, "2031-13-01"), "2031-13-01");
}

static void test_p(void **state) {
    Writer *writer = writer_of(state);
    assert_string_equal(say_p(writer, 0.0004), "under 0.001");
    assert_string_equal(say_p(writer, 0.0182), "0.018");
    assert_string_equal(say_p(writer, 0.05), "0.050");
    assert_string_equal(say_p(writer, 0.347), "0.35");
    assert_string_equal(say_p(writer, 1), "1.00");
    assert_string_equal(say_p(writer, NAN), "\u2013");
}

static void test_estimates(void **state) {
    Writer *writer = writer_of(state);
    const Measure rate = {.kind = MEASURE_RATE};
    const Measure mean = {.kind = MEASURE_MEAN, .places = 1};
    const Estimate throws = {.k = 65, .n = 82, .value = 65.0 / 82, .low = 0.6922, .high = 0.8665};
    const Estimate yards = {.n = 9, .value = 0.04, .low = -1.25, .high = 3.3};
    const Estimate above = {.n = 9, .value = 7.4, .low = 5.1, .high = 9.96};
    const Estimate none = {.value = NAN, .low = NAN, .high = NAN};
    assert_string_equal(say_estimate(writer, &rate, &throws), "79%");
    assert_string_equal(say_interval(writer, &rate, &throws), "69\u201387");
    assert_string_equal(say_k_of_n(writer, &rate, &throws), "65/82");
    assert_string_equal(say_k_of_n_words(writer, &throws), "65" NO_BREAK "of" NO_BREAK "82");
    assert_string_equal(say_estimate(writer, &mean, &yards), "0.0");
    assert_string_equal(say_interval(writer, &mean, &yards), MINUS "1.3 to 3.3");
    assert_string_equal(say_interval(writer, &mean, &above), "5.1\u201310.0");
    assert_string_equal(say_k_of_n(writer, &mean, &yards), "9");
    assert_string_equal(say_estimate(writer, &rate, &none), "\u2013");
    assert_string_equal(say_interval(writer, &rate, &none), "");
    assert_string_equal(say_k_of_n(writer, &rate, &none), "0/0");
}

static void test_charted(void **state) {
    Writer *writer = writer_of(state);
    assert_string_equal(say_charted(writer, 0, "coverage"), "Man free");
    assert_string_equal(say_charted(writer, 0, "family"), "man");
    assert_string_equal(say_charted(writer, 0, "gain"), MINUS "4");
    assert_string_equal(say_charted(writer, 0, "spot"), MINUS "25");
    assert_string_equal(say_charted(writer, 0, "clock"), "9:05");
    assert_string_equal(say_charted(writer, 1, "read"), "");
    assert_string_equal(say_charted(writer, 0, "no-such-field"), "");
    assert_string_equal(say_charted(writer, -1, "gain"), "");
    assert_string_equal(say_down_and_distance(writer, 0), "1st" NO_BREAK "&" NO_BREAK "10");
    assert_string_equal(say_film(writer, 0), "0:21:40");
    assert_string_equal(say_film(writer, 1), "");
    assert_string_equal(say_snap_anchor(writer, 1), "snap-g1.2");
}

static void test_letters(void **state) {
    Writer *writer = writer_of(state);
    assert_string_equal(say_sentence(writer, "too few to say"), "Too few to say");
    assert_string_equal(say_sentence(writer, ""), "");
    assert_string_equal(say_lower(writer, "On target"), "on target");
    assert_string_equal(say_lower(writer, "QB hits"), "QB hits");
    assert_string_equal(say_ordinal_down(writer, 4), "4th");
    assert_string_equal(say_ordinal_down(writer, 5), "5");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_numbers), cmocka_unit_test(test_percents), cmocka_unit_test(test_counts),
        cmocka_unit_test(test_dates),   cmocka_unit_test(test_p),        cmocka_unit_test(test_estimates),
        cmocka_unit_test(test_charted), cmocka_unit_test(test_letters),
    };
    return cmocka_run_group_tests(tests, open_world, close_world);
}
