/* Notations as the trade writes them; the forms are common practice, the units' factors exact by definition. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/arena.h"
#include "source/notation.h"

typedef struct Reading {
    const char *kind, *text;
    double value;
    bool by_hand;
} Reading;

static const Reading readings[] = {
    {"height", "6043", 76.375, false},
    {"height", "6000", 72, false},
    {"height", "5117", 71.875, false},
    {"height", "6110", 83, false},
    {"height", "6-4.375", 76.375, false},
    {"height", "6-4", 76, false},
    {"height", "6-11", 83, false},
    {"height", "6-4 3/8", 76.375, false},
    {"height", "6'4\"", 76, false},
    {"height", "6' 4 3/8\"", 76.375, false},
    {"height", "6 ft 4 3/8 in", 76.375, false},
    {"height", "6 ft 4⅜ in", 76.375, false},
    {"height", "6′4⅜″", 76.375, false},
    {"height", "76.375", 76.375, false},
    {"height", "76 3/8", 76.375, false},
    {"height", "76⅜", 76.375, false},
    {"height", "76 ⅜ in", 76.375, false},
    {"height", "76", 76, false},
    {"height", "76 inches", 76, false},
    {"height", "194 cm", 194 / 2.54, false},
    {"height", "194cm", 194 / 2.54, false},
    {"height", "1940 mm", 194 / 2.54, false},
    {"height", "1.94 m", 194 / 2.54, false},
    {"height", " 6043 ", 76.375, false},
    {"weight", "226", 226, false},
    {"weight", "226 lb", 226, false},
    {"weight", "226lbs", 226, false},
    {"weight", "226.5", 226.5, false},
    {"weight", "102.5 kg", 102.5 / 0.45359237, false},
    {"hand", "0968", 9.75, false},
    {"hand", "1018", 10.125, false},
    {"hand", "0900", 9, false},
    {"hand", "0908", 9, false},
    {"hand", "9 6/8", 9.75, false},
    {"hand", "9 3/4", 9.75, false},
    {"hand", "9 12/16", 9.75, false},
    {"hand", "9.75", 9.75, false},
    {"hand", "9¾", 9.75, false},
    {"hand", "24.8 cm", 24.8 / 2.54, false},
    {"arm", "3248", 32.5, false},
    {"arm", "32 4/8", 32.5, false},
    {"arm", "32½ in", 32.5, false},
    {"arm", "32.5", 32.5, false},
    {"arm", "3200", 32, false},
    {"wingspan", "7768", 77.75, false},
    {"wingspan", "77 6/8", 77.75, false},
    {"wingspan", "6-5.75", 77.75, false},
    {"wingspan", "198 cm", 198 / 2.54, false},
    {"forty", "4.81", 4.81, false},
    {"forty", "4.81h", 4.81, true},
    {"forty", "4.81 h", 4.81, true},
    {"forty", "4.81 s", 4.81, false},
    {"ten", "1.63", 1.63, false},
    {"twenty", "2.71h", 2.71, true},
    {"cone", "7.05", 7.05, false},
    {"shuttle", "4.3", 4.3, false},
    {"vertical", "34.5", 34.5, false},
    {"vertical", "34 1/2", 34.5, false},
    {"vertical", "34½", 34.5, false},
    {"vertical", "87.6 cm", 87.6 / 2.54, false},
    {"broad", "0903", 111, false},
    {"broad", "903", 111, false},
    {"broad", "1011", 131, false},
    {"broad", "911", 119, false},
    {"broad", "9-3", 111, false},
    {"broad", "9'3\"", 111, false},
    {"broad", "111", 111, false},
    {"broad", "99", 99, false},
    {"broad", "282 cm", 282 / 2.54, false},
    {"bench", "22", 22, false},
    {"bench", "0", 0, false},
};

static const struct {
    const char *kind, *text;
} unreadable[] = {
    {"height", ""},
    {"height", "tall"},
    {"height", "6048"},
    {"height", "6123"},
    {"height", "6-12"},
    {"height", "6-4 3/5"},
    {"height", "6-4 9/8"},
    {"height", "-76"},
    {"height", "76 3/8 cm x"},
    {"height", "76.5 3/8"},
    {"height", "6-4-3"},
    {"height", "76h"},
    {"height", "60430"},
    {"height", "7 6 ft"},
    {"height", "76 lb"},
    {"height", "6043 cm in"},
    {"weight", "226 in"},
    {"weight", "heavy"},
    {"weight", "226h"},
    {"weight", "22x"},
    {"hand", "0967"},
    {"hand", "0988"},
    {"hand", "9-6"},
    {"hand", "9 6"},
    {"hand", "9/8"},
    {"arm", "3249"},
    {"forty", "4.8.1"},
    {"forty", "4,81"},
    {"forty", "h"},
    {"forty", "4.81hh"},
    {"forty", "4-81"},
    {"vertical", "34.5h"},
    {"broad", "0912"},
    {"broad", "912"},
    {"broad", "9-13"},
    {"bench", "22.5"},
    {"bench", "22 reps"},
    {"bench", "22h"},
    {"weight", "99999999"},
    {"weight", "1e2"},
    {"weight", "00000000000000000000000000000000000000001"},
};

static const struct {
    const char *kind;
    double value;
    const char *plain, *trade;
} printed[] = {
    {"height", 76.375, "6 ft 4⅜ in", "6043"},
    {"height", 72, "6 ft 0 in", "6000"},
    {"height", 71.875, "5 ft 11⅞ in", "5117"},
    {"height", 72.125, "6 ft 0⅛ in", "6001"},
    {"height", 76.3750000001, "6 ft 4⅜ in", "6043"},
    {"height", 71.9999999, "6 ft 0 in", "6000"},
    {"height", 194 / 2.54, "6 ft 4.38 in", "6043"},
    {"height", 71.998, "6 ft 0 in", "6000"},
    {"weight", 226, "226 lb", "226"},
    {"weight", 102.5 / 0.45359237, "226 lb", "226"},
    {"weight", 225.5, "225.5 lb", "225.5"},
    {"hand", 9.75, "9¾ in", "0968"},
    {"hand", 9, "9 in", "0900"},
    {"hand", 10.125, "10⅛ in", "1018"},
    {"arm", 32.5, "32½ in", "3248"},
    {"arm", 32.25, "32¼ in", "3228"},
    {"arm", 32.625, "32⅝ in", "3258"},
    {"wingspan", 77.75, "77¾ in", "7768"},
    {"forty", 4.81, "4.81 s", "4.81"},
    {"forty", 4.8, "4.80 s", "4.80"},
    {"forty", 5, "5.00 s", "5.00"},
    {"cone", 7.05, "7.05 s", "7.05"},
    {"forty", 4.530000000000001, "4.53 s", "4.53"},
    {"vertical", 34.5, "34½ in", "34.5"},
    {"vertical", 34, "34 in", "34"},
    {"broad", 111, "9 ft 3 in", "0903"},
    {"broad", 120, "10 ft 0 in", "1000"},
    {"broad", 111.5, "9 ft 3½ in", "111.5"},
    {"bench", 22, "22", "22"},
    {"bench", 0, "0", "0"},
};

#define COUNT(table) (sizeof(table) / sizeof(table)[0])

static void test_reads(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT(readings); i++) {
        double value = -1;
        bool by_hand = !readings[i].by_hand;
        bool read = notation_read(measurable_info(readings[i].kind), readings[i].text, &value, &by_hand);
        if (!read || fabs(value - readings[i].value) > 1e-9 || by_hand != readings[i].by_hand) {
            fail_msg("%s '%s': read %d, %.9f", readings[i].kind, readings[i].text, read, value);
        }
    }
}

static void test_refuses(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT(unreadable); i++) {
        double value;
        bool by_hand;
        if (notation_read(measurable_info(unreadable[i].kind), unreadable[i].text, &value, &by_hand)) {
            fail_msg("%s '%s' was read as %.9f", unreadable[i].kind, unreadable[i].text, value);
        }
    }
}

static void test_prints(void **state) {
    (void)state;
    Arena *arena = arena_new();
    for (size_t i = 0; i < COUNT(printed); i++) {
        const MeasurableInfo *info = measurable_info(printed[i].kind);
        assert_string_equal(notation_plain(arena, info, printed[i].value), printed[i].plain);
        assert_string_equal(notation_trade(arena, info, printed[i].value), printed[i].trade);
    }
    arena_free(arena);
}

/* What is printed in the trade's digits reads back as the same value, for every eighth that a human shows. */
static void test_round_trip(void **state) {
    (void)state;
    for (int i = 0; measurable_info_at(i); i++) {
        const MeasurableInfo *info = measurable_info_at(i);
        Arena *arena = arena_new();
        double step = info->unit == UNIT_INCH ? 0.125 : info->unit == UNIT_SECOND ? 0.01 : 1;
        for (int k = 0; info->human_low + k * step <= info->human_high; k++) {
            double value = info->human_low + k * step, trade = -1, plain = -1;
            bool by_hand;
            assert_true(notation_read(info, notation_trade(arena, info, value), &trade, &by_hand));
            assert_true(notation_read(info, notation_plain(arena, info, value), &plain, &by_hand));
            assert_true(fabs(trade - value) < 1e-9);
            assert_true(fabs(plain - value) < 1e-9);
        }
        arena_free(arena);
    }
}

static void test_kinds(void **state) {
    (void)state;
    assert_null(measurable_info("girth"));
    assert_null(measurable_info_at(-1));
    assert_null(measurable_info_at(13));
    assert_string_equal(measurable_info_at(12)->id, "bench");
    for (int i = 0; measurable_info_at(i); i++) {
        assert_ptr_equal(measurable_info(measurable_info_at(i)->id), measurable_info_at(i));
        assert_true(measurable_info_at(i)->human_low < measurable_info_at(i)->human_high);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_reads),      cmocka_unit_test(test_refuses), cmocka_unit_test(test_prints),
        cmocka_unit_test(test_round_trip), cmocka_unit_test(test_kinds),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
