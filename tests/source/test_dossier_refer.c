/* Names that nothing has, names used twice, claims and figures that cannot be computed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include "source/help_reader.h"

static const ReaderFault faults[] = {
    {"dossier.xml", "<cite snap=\"g1.1\">", "<cite snap=\"g1.5\">",
     "dossier.xml:35:17: error: there is no snap 'g1.5' [reference] (the nearest charted snap is g1.3)"},
    {"dossier.xml", "<cite snap=\"g1.1\">", "<cite snap=\"g3.1\">",
     "dossier.xml:35:17: error: there is no snap 'g3.1' [reference] (for the game, it is one of: g1, g2)"},
    {"dossier.xml", "<cite snap=\"g1.1\"/>", "<cite snap=\"g2.14\"/>",
     "dossier.xml:33:69: error: there is no snap 'g2.14' [reference] (the nearest charted snap is g2.2)"},
    {"dossier.xml", "when=\"@side='left'\"", "when=\"@sid='left'\"",
     "dossier.xml:38:43: error: no field is called 'sid' [expression] (did you mean @side?)"},
    {"dossier.xml", "when=\"@side='left'\"", "when=\"@side='lefd'\"",
     "dossier.xml:38:49: error: @side has no value 'lefd' [expression] (did you mean 'left'?)"},
    {"dossier.xml", "n=\"7\"", "n=\"3\"",
     "dossier.xml:19:16: error: snap g1.3 stands twice [duplicate] + dossier.xml:18:7"},
    {"dossier.xml", "id=\"g2\"", "id=\"g1\"",
     "dossier.xml:25:13: error: game 'g1' stands twice [duplicate] + dossier.xml:13:3"},
    {"dossier.xml", "concern id=\"risk\"", "concern id=\"man\"",
     "dossier.xml:37:16: error: claim 'man' stands twice [duplicate] + dossier.xml:31:3"},
    {"dossier.xml", "<media id=\"wk4\" href=\"film/wk4.mp4\" fps=\"59.94\"/>",
     "<media id=\"wk4\" href=\"film/wk4.mp4\"/><media id=\"wk4\" href=\"b.mp4\"/>",
     "dossier.xml:12:51: error: media 'wk4' stands twice [duplicate] + dossier.xml:12:3"},
    {"dossier.xml", "media=\"wk4\"", "media=\"wk5\"",
     "dossier.xml:15:27: error: there is no media 'wk5' [reference] (did you mean 'wk4'?)"},
    {"dossier.xml", "<chart by=\"rk\"", "<chart by=\"rx\"",
     "dossier.xml:15:16: error: there is no evaluator 'rx' [reference] (it is one of: rk, ob)"},
    {"dossier.xml", "grades by=\"rk\"", "grades by=\"rkk\"",
     "dossier.xml:42:15: error: there is no evaluator 'rkk' [reference] (did you mean 'rk'?)"},
    {"dossier.xml", "filing by=\"rk\"", "filing by=\"someone\"",
     "dossier.xml:7:15: error: there is no evaluator 'someone' [reference] (it is one of: rk, ob)"},
    {"dossier.xml", "completions=\"2\"", "complations=\"2\"",
     "dossier.xml:14:28: error: the profile has no official total 'complations' [reference] (did you mean "
     "'completions'?)"},
    {"dossier.xml", "completions=\"2\"", "completions=\"two\"",
     "dossier.xml:14:41: error: 'two' is not a number [attribute-value]"},
    {"dossier.xml", "completions=\"2\"", "dropbacks=\"2\"",
     "dossier.xml:14:28: error: the profile has no official total 'dropbacks' [reference] (it is one of: attempts, "
     "completions, yards)"},
    {"dossier.xml", "against=\"zone\"", "against=\"zon\"",
     "dossier.xml:31:70: error: there is no slice 'zon' [reference] (did you mean 'zone'?)"},
    {"dossier.xml", "against=\"zone\"", "against=\"man\"",
     "dossier.xml:31:70: error: the claim holds a slice against itself [claim-test]"},
    {"dossier.xml", "title=\"Risks more early\" slice=\"early\"", "title=\"Risks more early\" slice=\"erly\"",
     "dossier.xml:37:54: error: there is no slice 'erly' [reference] (did you mean 'early'?)"},
    {"dossier.xml", "slice=\"early\" measure=\"risk-rate\"", "slice=\"early\" measure=\"risk-rates\"",
     "dossier.xml:37:70: error: there is no measure 'risk-rates' [reference] (did you mean 'risk-rate'?)"},
    {"dossier.xml", "slice=\"early\" measure=\"risk-rate\"",
     "slice=\"early\" measure=\"risk-rate\" against=\"standard\"",
     "dossier.xml:37:90: error: the profile has no standard for this measure [claim-test] (hold it against another "
     "slice, or leave 'against' out to mean all other snaps)"},
    {"dossier.xml", "slice=\"early\" measure=\"risk-rate\"", "slice=\"early\" measure=\"target-depth\"",
     "dossier.xml:37:70: error: neither more nor less is better on this measure [claim-test] (say expect=\"more\" or "
     "expect=\"less\")"},
    {"dossier.xml", "slice=\"early\" measure=\"risk-rate\"", "slice=\"early\" measure=\"risk-rate\" expect=\"more\"",
     "dossier.xml:37:89: error: the measure itself says which side is better [claim-test] (leave 'expect' out)"},
    {"dossier.xml", "<stat total=\"yards\"/>", "<stat total=\"yard\"/>",
     "dossier.xml:34:49: error: there is no total 'yard' [reference] (did you mean 'yards'?)"},
    {"dossier.xml", "<stat total=\"yards\"/>", "<stat measure=\"risk\"/>",
     "dossier.xml:34:51: error: there is no measure 'risk' [reference] (it is one of: completion-rate, risk-rate, "
     "target-depth, yards-per-attempt, points)"},
    {"dossier.xml", "<stat total=\"yards\"/>", "<stat/>",
     "dossier.xml:34:36: error: this figure is of nothing [stat] (give a measure or a total)"},
    {"dossier.xml", "<stat total=\"yards\"/>", "<stat total=\"yards\" as=\"rate\"/>",
     "dossier.xml:34:60: error: a total is one number [stat] (use as=\"value\")"},
    {"dossier.xml", "<stat total=\"yards\"/>", "<stat measure=\"target-depth\" as=\"k-of-n\"/>",
     "dossier.xml:34:69: error: this measure is not a rate [stat] (use as=\"value\")"},
    {"dossier.xml", "<stat total=\"yards\"/>", "<stat measure=\"risk-rate\" total=\"yards\"/>",
     "dossier.xml:34:36: error: a figure is of a measure or of a total, not of both [stat] (give a measure or a "
     "total)"},
    {"dossier.xml", "<stat total=\"yards\"/>", "<stat total=\"yards\" slice=\"zones\"/>",
     "dossier.xml:34:63: error: there is no slice 'zones' [reference] (did you mean 'zone'?)"},
    {"dossier.xml", "when=\"second-year\"", "when=\"secnd-year\"",
     "dossier.xml:45:32: error: the house has no 'when' of 'secnd-year' [reference] (did you mean 'second-year'?)"},
    {"dossier.xml", "trait=\"timing\"", "trait=\"timming\"",
     "dossier.xml:44:19: error: there is no trait 'timming' [reference] (did you mean 'timing'?)"},
    {"dossier.xml", "trait=\"timing\"", "trait=\"accuracy\"",
     "dossier.xml:44:19: error: the grade of 'accuracy' stands twice [duplicate] + dossier.xml:43:5"},
    {"dossier.xml", "href=\"film/wk4.mp4\"", "href=\"film/../../wk4.mp4\"",
     "dossier.xml:12:25: error: the film is not below the dossier's own folder [xml-unsafe] (it leads out of its "
     "folder)"},
    {"dossier.xml", "href=\"film/wk4.mp4\"", "href=\"/wk4.mp4\"",
     "dossier.xml:12:25: error: the film is not below the dossier's own folder [xml-unsafe] (it does not start in "
     "that folder)"},
    {"dossier.xml", "href=\"film/wk4.mp4\"", "href=\"https://x\"",
     "dossier.xml:12:25: error: the film is not below the dossier's own folder [xml-unsafe] (it is an address, not a "
     "file below that folder)"},
    {"dossier.xml", "href=\"film/wk4.mp4\"", "href=\"film\\wk4.mp4\"",
     "dossier.xml:12:25: error: the film is not below the dossier's own folder [xml-unsafe] (folders are parted by "
     "'/')"},
    {"dossier.xml", "href=\"film/wk4.mp4\"", "href=\"film/&#9;wk4.mp4\"",
     "dossier.xml:12:25: error: the film is not below the dossier's own folder [xml-unsafe] (it holds a control "
     "character)"},
    {"dossier.xml", "kind=\"forty\"", "kind=\"fourty\"",
     "dossier.xml:10:23: error: the trade has no measurable 'fourty' [reference] (did you mean 'forty'?)"},
    {"dossier.xml", "value=\"4.81\"", "value=\"fast\"",
     "dossier.xml:10:37: error: 'fast' cannot be read as a forty [notation] (write seconds such as 4.81, or 4.81h when "
     "timed by hand)"},
    {"dossier.xml", "value=\"76.5\"", "value=\"tall\"",
     "dossier.xml:9:38: error: 'tall' cannot be read as a height [notation] (write inches such as 76.375 or 76 3/8, "
     "centimetres such as 194 cm, or the trade's digits such as 6043)"},
    {"dossier.xml", "profile=\"passer\"", "profile=\"paser\"",
     "dossier.xml:2:45: error: there is no profile 'paser' in the folder [template-missing] (did you mean 'passer'?)"},
};

static void test_faults(void **state) {
    (void)state;
    READER_CHECK_FAULTS(faults);
}

/* Where the house lists nobody, anybody may sign; where it has no words for when, any word will do. */
static void test_house_without_lists(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    reader_world_change(world, "houses/plain.xml", "<evaluator id=\"rk\" name=\"R. Kestrel\" role=\"area\"/>", "");
    reader_world_change(world, "houses/plain.xml", "<evaluator id=\"ob\" name=\"O. Bittern\" role=\"cross\"/>", "");
    reader_world_change(world, "houses/plain.xml", "<when id=\"at-once\">ready at once</when>", "");
    reader_world_change(world, "houses/plain.xml", "<when id=\"second-year\">in his second year</when>", "");
    reader_world_change(world, "dossier.xml", "when=\"second-year\"", "when=\"whenever\"");
    assert_non_null(reader_dossier(world));
    assert_string_equal(reader_said(world), "");
    reader_world_free(world);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_faults),
        cmocka_unit_test(test_house_without_lists),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
