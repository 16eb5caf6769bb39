/* Charted texts to numbers, by type of field. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <math.h>

#include <cmocka.h>

#include "source/dossier_parts.h"

static FieldValue values[] = {{"no", "no", NULL, 0}, {"yes", "yes", NULL, 1}};
static const char *words[] = {"no", "yes", "other"};
static const Profile profile = {.words = words, .word_count = 3, .yes = 1, .no = 0};

static const Field fields[] = {
    [FIELD_CHOICE] = {.id = "f", .type = FIELD_CHOICE, .values = values, .value_count = 2},
    [FIELD_ORDERED] = {.id = "f", .type = FIELD_ORDERED, .values = values, .value_count = 2},
    [FIELD_YESNO] = {.id = "f", .type = FIELD_YESNO, .values = values, .value_count = 2},
    [FIELD_NUMBER] = {.id = "f", .type = FIELD_NUMBER, .low = -10, .high = 70, .step = 1},
    [FIELD_TEXT] = {.id = "f", .type = FIELD_TEXT},
    [FIELD_CLOCK] = {.id = "f", .type = FIELD_CLOCK, .low = 0, .high = 900},
    [FIELD_SPOT] = {.id = "f", .type = FIELD_SPOT},
    [FIELD_DISTANCE] = {.id = "f", .type = FIELD_DISTANCE, .low = 1, .high = 99, .from = -1},
    [FIELD_TIME] = {.id = "f", .type = FIELD_TIME, .low = -INFINITY, .high = INFINITY},
};

static const struct {
    FieldType type;
    const char *text;
    ValueFault fault;
    double number;
} cases[] = {
    {FIELD_CHOICE, "yes", VALUE_FINE, 1},
    {FIELD_CHOICE, "Yes", VALUE_WRONG, 0},
    {FIELD_CHOICE, "", VALUE_WRONG, 0},
    {FIELD_CHOICE, "other", VALUE_WRONG, 0},
    {FIELD_YESNO, "no", VALUE_FINE, 0},
    {FIELD_ORDERED, "no", VALUE_FINE, 0},
    {FIELD_NUMBER, "-10", VALUE_FINE, -10},
    {FIELD_NUMBER, "70", VALUE_FINE, 70},
    {FIELD_NUMBER, "71", VALUE_OUTSIDE, 0},
    {FIELD_NUMBER, "-11", VALUE_OUTSIDE, 0},
    {FIELD_NUMBER, "1.5", VALUE_OUTSIDE, 0},
    {FIELD_NUMBER, "2.0", VALUE_FINE, 2},
    {FIELD_NUMBER, "1e1", VALUE_WRONG, 0},
    {FIELD_NUMBER, " 1", VALUE_WRONG, 0},
    {FIELD_NUMBER, "", VALUE_WRONG, 0},
    {FIELD_NUMBER, "nan", VALUE_WRONG, 0},
    {FIELD_TEXT, "anything", VALUE_FINE, 0},
    {FIELD_TEXT, "", VALUE_FINE, 0},
    {FIELD_CLOCK, "15:00", VALUE_FINE, 900},
    {FIELD_CLOCK, "0:00", VALUE_FINE, 0},
    {FIELD_CLOCK, "6:12", VALUE_FINE, 372},
    {FIELD_CLOCK, "06:12", VALUE_FINE, 372},
    {FIELD_CLOCK, "15:01", VALUE_OUTSIDE, 0},
    {FIELD_CLOCK, "6:60", VALUE_WRONG, 0},
    {FIELD_CLOCK, "6:1", VALUE_WRONG, 0},
    {FIELD_CLOCK, "6:123", VALUE_WRONG, 0},
    {FIELD_CLOCK, ":12", VALUE_WRONG, 0},
    {FIELD_CLOCK, "6", VALUE_WRONG, 0},
    {FIELD_CLOCK, "-6:12", VALUE_WRONG, 0},
    {FIELD_CLOCK, "99999999999:12", VALUE_WRONG, 0},
    {FIELD_SPOT, "-25", VALUE_FINE, 75},
    {FIELD_SPOT, "+25", VALUE_FINE, 25},
    {FIELD_SPOT, "50", VALUE_FINE, 50},
    {FIELD_SPOT, "-1", VALUE_FINE, 99},
    {FIELD_SPOT, "-49", VALUE_FINE, 51},
    {FIELD_SPOT, "+49", VALUE_FINE, 49},
    {FIELD_SPOT, "+1", VALUE_FINE, 1},
    {FIELD_SPOT, "25", VALUE_WRONG, 0},
    {FIELD_SPOT, "-50", VALUE_OUTSIDE, 0},
    {FIELD_SPOT, "+50", VALUE_OUTSIDE, 0},
    {FIELD_SPOT, "-0", VALUE_OUTSIDE, 0},
    {FIELD_SPOT, "+", VALUE_WRONG, 0},
    {FIELD_SPOT, "-25.5", VALUE_WRONG, 0},
    {FIELD_SPOT, "--25", VALUE_WRONG, 0},
    {FIELD_DISTANCE, "10", VALUE_FINE, 10},
    {FIELD_DISTANCE, "goal", VALUE_FINE, NAN},
    {FIELD_DISTANCE, "0", VALUE_OUTSIDE, 0},
    {FIELD_DISTANCE, "100", VALUE_OUTSIDE, 0},
    {FIELD_DISTANCE, "-3", VALUE_WRONG, 0},
    {FIELD_DISTANCE, "Goal", VALUE_WRONG, 0},
    {FIELD_TIME, "0:21:40.2", VALUE_FINE, 1300.2},
    {FIELD_TIME, "1:00:00", VALUE_FINE, 3600},
    {FIELD_TIME, "0:00:59.999", VALUE_FINE, 59.999},
    {FIELD_TIME, "21:40", VALUE_WRONG, 0},
    {FIELD_TIME, "0:60:00", VALUE_WRONG, 0},
    {FIELD_TIME, "0:21:40.", VALUE_WRONG, 0},
    {FIELD_TIME, "0:21:40,2", VALUE_WRONG, 0},
    {FIELD_TIME, "0:21:4.2", VALUE_WRONG, 0},
};

static void test_values(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        double number = -1;
        ValueFault fault = charted_read(&profile, &fields[cases[i].type], cases[i].text, &number);
        bool same = isnan(cases[i].number) ? isnan(number) : fabs(number - cases[i].number) < 1e-9;
        if (fault != cases[i].fault || (fault == VALUE_FINE && !same)) {
            fail_msg("'%s': fault %d, number %g", cases[i].text, (int)fault, number);
        }
    }
}

/* Every tenth is a tenth, though few tenths are doubles. */
static void test_steps(void **state) {
    (void)state;
    Field field = {.id = "throw-time", .type = FIELD_NUMBER, .low = 0.3, .high = 12, .step = 0.1};
    char text[16];
    double number;
    for (int tenths = 3; tenths <= 120; tenths++) {
        snprintf(text, sizeof text, "%d.%d", tenths / 10, tenths % 10);
        assert_int_equal(charted_read(&profile, &field, text, &number), VALUE_FINE);
        snprintf(text, sizeof text, "%d.%d5", tenths / 10, tenths % 10);
        assert_int_equal(charted_read(&profile, &field, text, &number), VALUE_OUTSIDE);
    }
    field.step = 0;
    assert_int_equal(charted_read(&profile, &field, "2.345", &number), VALUE_FINE);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_values),
        cmocka_unit_test(test_steps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
