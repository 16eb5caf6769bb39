/* Profiles that contradict themselves: each fault is told at its place. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include "source/help_reader.h"

static const ReaderFault faults[] = {
    {"profiles/passer.xml", "from=\"0 1\"", "from=\"0 1x\"",
     "profiles/passer.xml:23:29: error: field 'coverage' has no value '1x' [profile] (it is one of: 0, 1, 2, 3, "
     "other)"},
    {"profiles/passer.xml", "from=\"2 3\"", "from=\"2 1\"",
     "profiles/passer.xml:24:30: error: '1' is already mapped to 'man' [profile]"},
    {"profiles/passer.xml", "map=\"coverage\"", "map=\"coverag\"",
     "profiles/passer.xml:22:44: error: the profile has no field 'coverag' [profile] (did you mean 'coverage'?)"},
    {"profiles/passer.xml", "map=\"coverage\"", "map=\"read\"",
     "profiles/passer.xml:22:44: error: 'read' is not a choice, so it cannot be mapped [profile]"},
    {"profiles/passer.xml", "band=\"depth\"", "band=\"coverage\"",
     "profiles/passer.xml:26:34: error: 'coverage' is not a number, so it has no bands [profile]"},
    {"profiles/passer.xml", "low=\"0\" high=\"9\"", "low=\"-3\" high=\"9\"",
     "profiles/passer.xml:28:5: error: band 'short' overlaps band 'behind' [profile]"},
    {"profiles/passer.xml", "low=\"0\" high=\"9\"", "low=\"12\" high=\"9\"",
     "profiles/passer.xml:28:5: error: the low end of band 'short' is above its high end [profile]"},
    {"profiles/passer.xml", "id=\"risk\" type=\"yes-no\"", "id=\"risk\" type=\"number\"",
     "profiles/passer.xml:19:45: error: only a choice or a yes-no field can be marked when it happens, not 'risk' "
     "[profile]"},
    {"profiles/passer.xml", "id=\"risk\" type=\"yes-no\"", "id=\"risk\" type=\"choice\"",
     "profiles/passer.xml:19:3: error: field 'risk' is a choice without values [profile]"},
    {"profiles/passer.xml", "<value id=\"left\"/>", "<value id=\"left\"/><value id=\"right\"/>",
     "profiles/passer.xml:17:16: error: field 'side' has the value 'right' twice [duplicate]"},
    {"profiles/passer.xml", "<value id=\"man\" from=\"0 1\"/>\n    <value id=\"zone\" from=\"2 3\"/>", "",
     "profiles/passer.xml:22:3: error: derived field 'family' has no values [profile]"},
    {"profiles/passer.xml", "id=\"read\" type", "id=\"down\" type",
     "profiles/passer.xml:11:14: error: the id 'down' is used twice [duplicate] + sets/common.xml:3:3"},
    {"profiles/passer.xml", "step=\"0.1\"", "step=\"-0.1\"",
     "profiles/passer.xml:12:66: error: the step of field 'throw-time' is negative [profile]"},
    {"profiles/passer.xml", "low=\"0\" high=\"6\"", "low=\"7\" high=\"6\"",
     "profiles/passer.xml:11:39: error: the low end of field 'read' is above its high end [profile]"},
    {"profiles/passer.xml", "test=\"@thrown=", "test=\"@throw=",
     "profiles/passer.xml:20:31: error: no field is called 'throw' [expression] (did you mean @thrown?)"},
    {"profiles/passer.xml", "test=\"@thrown='yes' or @result='sack'\"", "test=\"@family='man'\"",
     "profiles/passer.xml:4:3: error: field 'coverage' depends on itself [profile] (each needs the next: coverage, "
     "passing, family, coverage)"},
    {"profiles/passer.xml", "test=\"@thrown=", "test=\"@passing=",
     "profiles/passer.xml:20:3: error: field 'passing' depends on itself [profile] (each needs the next: passing, "
     "passing)"},
    {"profiles/passer.xml", "calc=\"@gain - @depth\"", "calc=\"@gain - @coverage\"",
     "profiles/passer.xml:31:37: error: a number is needed here, not @coverage, a choice [expression]"},
    {"profiles/passer.xml", "calc=\"@gain - @depth\"", "calc=\"@gain\" test=\"@down=1\"",
     "profiles/passer.xml:31:3: error: derived field 'after' needs one of test, map, band, calc, read [profile]"},
    {"profiles/passer.xml", "calc=\"@gain - @depth\"", "",
     "profiles/passer.xml:31:3: error: derived field 'after' needs one of test, map, band, calc, read [profile]"},
    {"profiles/passer.xml", "counted=\"@result!='no-play'", "counted=\"@result!='noplay'",
     "profiles/passer.xml:2:93: error: @result has no value 'noplay' [expression] (did you mean 'no-play'?)"},
    {"profiles/passer.xml", "<use set=\"common\"/>", "<use set=\"comon\"/>",
     "profiles/passer.xml:3:13: error: there is no set 'comon' in the folder [template-missing] (did you mean "
     "'common'?)"},
    {"profiles/passer.xml", "id=\"passer\"", "id=\"other\"",
     "profiles/passer.xml:2:25: error: the profile in 'passer.xml' calls itself 'other' [profile]"},
    {"sets/common.xml", "read=\"spot\"", "read=\"play\"",
     "sets/common.xml:31:31: error: there is no number behind 'play' [profile]"},
    {"sets/common.xml", "of=\"spot\"", "of=\"clock\"",
     "sets/common.xml:4:44: error: 'clock' is not a spot, so 'distance' cannot be counted from it [profile]"},
    {"sets/common.xml", "of=\"spot\"", "of=\"spt\"",
     "sets/common.xml:4:44: error: the profile has no field 'spt' [profile] (did you mean 'spot'?)"},
    {"sets/common.xml", "<derived id=\"to-goal\"", "<derived id=\"spot\"",
     "sets/common.xml:31:16: error: the id 'spot' is used twice [duplicate] + sets/common.xml:5:3"},
    {"sets/common.xml", " test=\"@gain * 10 &gt;= @distance * 5\"", "",
     "sets/common.xml:39:5: error: an alternative of 'success' needs a 'test' [profile]"},
    {"sets/common.xml", "@distance * 5", "@distanc * 5",
     "sets/common.xml:39:59: error: no field is called 'distanc' [expression] (did you mean @distance?)"},
    {"profiles/passer.xml", "$yards div", "$yard div",
     "profiles/passer.xml:44:58: error: no total is called 'yard' [expression] (did you mean $yards?)"},
    {"profiles/passer.xml", "over=\"yards\"", "over=\"yardz\"",
     "profiles/passer.xml:42:93: error: the profile has no total 'yardz' [profile] (did you mean 'yards'?)"},
    {"profiles/passer.xml", "label=\"Points\" n=\"attempts\"", "label=\"Points\" n=\"attempt\"",
     "profiles/passer.xml:43:71: error: the profile has no total 'attempt' [profile] (did you mean 'attempts'?)"},
    {"profiles/passer.xml", "kind=\"mean\"", "kind=\"rate\"",
     "profiles/passer.xml:41:3: error: a measure of kind 'rate' needs 'where' [profile]\n"
     "profiles/passer.xml:41:99: error: a measure of kind 'rate' has no 'x' [profile]"},
    {"profiles/passer.xml", "kind=\"mean\"", "kind=\"ratio\"",
     "profiles/passer.xml:41:3: error: a measure of kind 'ratio' needs 'over' [profile]\n"
     "profiles/passer.xml:41:3: error: a measure of kind 'ratio' needs 'under' [profile]\n"
     "profiles/passer.xml:41:81: error: a measure of kind 'ratio' has no 'of' [profile]\n"
     "profiles/passer.xml:41:100: error: a measure of kind 'ratio' has no 'x' [profile]"},
    {"profiles/passer.xml", "low=\"0\" high=\"2.5\"", "low=\"3\" high=\"2.5\"",
     "profiles/passer.xml:43:132: error: the low end of a part of 'points' is above its high end [profile]"},
    {"profiles/passer.xml", "<slice id=\"zone\"", "<slice id=\"man\"",
     "profiles/passer.xml:33:14: error: the id 'man' is used twice [duplicate] + profiles/passer.xml:32:3\n"
     "profiles/passer.xml:50:83: error: the profile has no slice 'zone' [profile] (it is one of: early, man)"},
    {"profiles/passer.xml", "id=\"risk-rate\"", "id=\"completion-rate\"",
     "profiles/passer.xml:40:16: error: the id 'completion-rate' is used twice [duplicate] + profiles/passer.xml:38:3"},
    {"profiles/passer.xml", "id=\"dropbacks\"", "id=\"yards\"",
     "profiles/passer.xml:37:14: error: the id 'yards' is used twice [duplicate] + profiles/passer.xml:36:3"},
    {"profiles/passer.xml", "weight=\"7.5\"", "weight=\"0\"",
     "profiles/passer.xml:46:45: error: the weight of trait 'timing' is not above 0 [profile]"},
    {"profiles/passer.xml", "weight=\"7.5\"", "weight=\"7.5\" seen=\"@thrown='yes'\"",
     "profiles/passer.xml:46:56: error: trait 'timing' has only one of 'seen' and 'shown' [profile] (seen=\"…\" "
     "selects "
     "the snaps that show the trait, shown=\"…\" says in words what they are)"},
    {"profiles/passer.xml", "weight=\"7.5\"", "weight=\"7.5\" shown=\"throws\"",
     "profiles/passer.xml:46:57: error: trait 'timing' has only one of 'seen' and 'shown' [profile] (seen=\"…\" "
     "selects "
     "the snaps that show the trait, shown=\"…\" says in words what they are)"},
    {"profiles/passer.xml", "weight=\"7.5\"", "weight=\"7.5\" seen=\"@throw='yes'\" shown=\"throws\"",
     "profiles/passer.xml:46:56: error: no field is called 'throw' [expression] (did you mean @thrown?)"},
    {"profiles/passer.xml", "id=\"timing\"", "id=\"accuracy\"",
     "profiles/passer.xml:46:14: error: the id 'accuracy' is used twice [duplicate] + profiles/passer.xml:45:3"},
    {"profiles/passer.xml", "kind=\"forty\"", "kind=\"fourty\"",
     "profiles/passer.xml:48:21: error: the trade has no measurable 'fourty' [profile] (did you mean 'forty'?)"},
    {"profiles/passer.xml", "kind=\"forty\"", "kind=\"height\"",
     "profiles/passer.xml:48:21: error: the measurable 'height' stands twice [duplicate] + profiles/passer.xml:47:3"},
    {"profiles/passer.xml", "lateral=\"side\"", "lateral=\"depth\"",
     "profiles/passer.xml:49:53: error: 'depth' is not a choice, so a figure cannot be laid out by it [profile]"},
    {"profiles/passer.xml", "depth=\"depth-band\"", "depth=\"depth-ban\"",
     "profiles/passer.xml:49:66: error: the profile has no field 'depth-ban' [profile] (did you mean 'depth-band'?)"},
    {"profiles/passer.xml", "slices=\"man zone", "slices=\"man zones",
     "profiles/passer.xml:50:83: error: the profile has no slice 'zones' [profile] (did you mean 'zone'?)"},
    {"profiles/passer.xml", "fields=\"clock down", "fields=\"clok down",
     "profiles/passer.xml:52:16: error: the profile has no field 'clok' [profile] (did you mean 'clock'?)"},
    {"profiles/passer.xml", "<standard measure=\"completion-rate\"", "<standard measure=\"completion\"",
     "profiles/passer.xml:51:22: error: the profile has no measure 'completion' [profile] (it is one of: "
     "completion-rate, risk-rate, target-depth, yards-per-attempt, points)"},
};

static void test_faults(void **state) {
    (void)state;
    READER_CHECK_FAULTS(faults);
}

/* A profile asked for by a name that would lead elsewhere is not looked for. */
static void test_name_out_of_the_folder(void **state) {
    (void)state;
    static const char *const names[] = {"../houses/plain", "", ".", "a/b", "passer.xml"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        ReaderWorld *world = reader_world_new();
        assert_null(reader_profile(world, names[i]));
        assert_int_equal(diag_errors(reader_diagnostics(world)), 1);
        reader_world_free(world);
    }
}

static void add_to_profile(ReaderWorld *world, const char *parts) {
    reader_world_change(world, "profiles/passer.xml", "</profile>",
                        arena_printf(reader_arena(world), "%s</profile>", parts));
}

static void test_too_many(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    Buf parts = {0};
    for (int i = 0; i < PROFILE_MOST_TOTALS; i++) buf_printf(&parts, "<total id=\"t%d\"/>", i);
    add_to_profile(world, buf_text(&parts));
    assert_null(reader_profile(world, "passer"));
    assert_string_equal(reader_said(world),
                        "profiles/passer.xml:2:1: error: a profile has at most 64 totals, this has 68 [profile]");
    reader_world_free(world);
    world = reader_world_new();
    parts.length = 0;
    for (int i = 0; i < PROFILE_MOST_FIELDS; i++) buf_printf(&parts, "<field id=\"f%d\" type=\"text\"/>", i);
    add_to_profile(world, buf_text(&parts));
    assert_null(reader_profile(world, "passer"));
    assert_string_equal(reader_said(world),
                        "profiles/passer.xml:2:1: error: a profile has at most 512 fields, this has 539 [profile]");
    reader_world_free(world);
    buf_free(&parts);
}

/* A broken profile is told of again to the next that asks for it. */
static void test_told_again(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    reader_world_change(world, "profiles/passer.xml", "weight=\"15\"", "weight=\"0\"");
    assert_null(reader_profile(world, "passer"));
    assert_null(reader_profile(world, "passer"));
    assert_int_equal(diag_errors(reader_diagnostics(world)), 2);
    reader_world_free(world);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_faults),
        cmocka_unit_test(test_name_out_of_the_folder),
        cmocka_unit_test(test_too_many),
        cmocka_unit_test(test_told_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
