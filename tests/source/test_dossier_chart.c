/* Faults of the chart: each gives one message at its place, with a hint where one is known. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include <string.h>

#include "source/dossier_parts.h"
#include "source/help_reader.h"

static const ReaderFault faults[] = {
    {"dossier.xml", "coverage=\"3\"", "covrage=\"3\"",
     "dossier.xml:17:106: error: a passer is not charted by 'covrage' [field-unknown] (did you mean 'coverage'?)"},
    {"dossier.xml", "coverage=\"3\"", "coverage=\"5\"",
     "dossier.xml:17:116: error: 'coverage' has no value '5' [field-value] (it is one of: 0, 1, 2, 3, other)"},
    {"dossier.xml", "side=\"middle\"", "side=\"midle\"",
     "dossier.xml:17:145: error: 'side' has no value 'midle' [field-value] (did you mean 'middle'?)"},
    {"dossier.xml", "spot=\"-29\"", "spot=\"29\"",
     "dossier.xml:17:60: error: 'spot' cannot be '29' [field-value] (write -29 for a team's own 29, +29 for the other "
     "side's)"},
    {"dossier.xml", "spot=\"-29\"", "spot=\"-50\"",
     "dossier.xml:17:60: error: 'spot' cannot be '-50' [field-range] (it is -1 to -49 on a team's own side, 50, +49 to "
     "+1 on the other side)"},
    {"dossier.xml", "spot=\"-29\"", "spot=\"+0\"",
     "dossier.xml:17:60: error: 'spot' cannot be '+0' [field-range] (it is -1 to -49 on a team's own side, 50, +49 to "
     "+1 on the other side)"},
    {"dossier.xml", "clock=\"9:05\"", "clock=\"15:01\"",
     "dossier.xml:17:26: error: 'clock' cannot be '15:01' [field-range] (it is minutes:seconds, 0:00 to 15:00)"},
    {"dossier.xml", "clock=\"9:05\"", "clock=\"9:5\"",
     "dossier.xml:17:26: error: 'clock' cannot be '9:5' [field-value] (it is minutes:seconds, 0:00 to 15:00)"},
    {"dossier.xml", "gain=\"27\"", "gain=\"127\"",
     "dossier.xml:27:88: error: 'gain' cannot be '127' [field-range] (it is a whole number from -40 to 99)"},
    {"dossier.xml", "gain=\"27\"", "gain=\"2.5\"",
     "dossier.xml:27:88: error: 'gain' cannot be '2.5' [field-range] (it is a whole number from -40 to 99)"},
    {"dossier.xml", "gain=\"27\"", "gain=\"many\"",
     "dossier.xml:27:88: error: 'gain' cannot be 'many' [field-value] (it is a whole number from -40 to 99)"},
    {"dossier.xml", "throw-time=\"2.4\"", "throw-time=\"2.45\"",
     "dossier.xml:16:162: error: 'throw-time' cannot be '2.45' [field-range] (it is a number in steps of 0.1 from 0.3 "
     "to 12)"},
    {"dossier.xml", "distance=\"3\"", "distance=\"0\"",
     "dossier.xml:27:38: error: 'distance' cannot be '0' [field-range] (it is 1 to 99 yards, or goal)"},
    {"dossier.xml", "distance=\"3\"", "distance=\"gaol\"",
     "dossier.xml:27:38: error: 'distance' cannot be 'gaol' [field-value] (it is 1 to 99 yards, or goal)"},
    {"dossier.xml", "in=\"0:21:40.2\"", "in=\"21:40\"",
     "dossier.xml:16:171: error: 'in' cannot be '21:40' [field-value] (it is hours:minutes:seconds, such as "
     "0:21:40.2)"},
    {"dossier.xml", "risk=\"yes\"", "risk=\"perhaps\"",
     "dossier.xml:17:159: error: 'risk' has no value 'perhaps' [field-value] (it is one of: no, yes)"},
    {"dossier.xml", "risk=\"yes\"", "risk=\"no\" pressure=\"x\"",
     "dossier.xml:17:163: error: a passer is not charted by 'pressure' [field-unknown]"},
    {"dossier.xml", "risk=\"yes\"", "family=\"man\"",
     "dossier.xml:17:153: error: 'family' is worked out from other fields and cannot be charted [field-unknown]"},
    {"dossier.xml", "read=\"2\"", "",
     "dossier.xml:17:7: warning: 'read' is not charted on g1.2 [field-missing] (it applies where @thrown='yes')"},
    {"dossier.xml", "penalty-yards=\"5\"", "penalty-yards=\"5\" read=\"1\"",
     "dossier.xml:21:118: note: 'read' is charted on g1.9, where it does not apply [field-not-applicable] (it applies "
     "where @thrown='yes')"},
    {"dossier.xml", "play=\"try\"", "play=\"tyr\"",
     "dossier.xml:20:35: error: 'play' has no value 'tyr' [field-value] (did you mean 'try'?)"},
    {"dossier.xml", "marks=\"touchdown penalty risk\"", "marks=\"touchdown penalti risk\"",
     "dossier.xml:15:49: error: the profile has no field 'penalti' [reference] (did you mean 'penalty'?)"},
    {"dossier.xml", "marks=\"touchdown penalty risk\"", "marks=\"touchdown penalty down risk\"",
     "dossier.xml:15:57: error: 'down' is not a field that is marked when it happens [reference] (it is one of: "
     "touchdown, penalty, risk)"},
};

static void test_faults(void **state) {
    (void)state;
    READER_CHECK_FAULTS(faults);
}

/* A field left out on several snaps of a game is told once. */
static void test_missing_on_several(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    reader_world_change(world, "dossier.xml", " coverage=\"2\" read=\"0\"", " read=\"0\"");
    reader_world_change(world, "dossier.xml", " coverage=\"2\" read=\"3\"", " read=\"3\"");
    assert_non_null(reader_dossier(world));
    assert_string_equal(reader_said(world),
                        "dossier.xml:27:7: warning: 'coverage' is not charted on 2 snaps of g2, first g2.1 "
                        "[field-missing] (it applies where @passing='yes')");
    reader_world_free(world);
}

static void test_idle_on_several(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    reader_world_change(world, "dossier.xml", "gain=\"8\"", "gain=\"8\" read=\"1\"");
    reader_world_change(world, "dossier.xml", "gain=\"20\"", "gain=\"20\" read=\"1\"");
    assert_non_null(reader_dossier(world));
    assert_string_equal(reader_said(world),
                        "dossier.xml:19:87: note: 'read' is charted on 2 snaps of g1 where it does not apply, first "
                        "g1.7 [field-not-applicable] (it applies where @thrown='yes')");
    reader_world_free(world);
}

/* More snaps at the end of the first game's chart. */
static void add_snaps(ReaderWorld *world, const char *snaps) {
    static const char end[] = "</chart>\n  </game>\n  <game id=\"g2\"";
    reader_world_change(world, "dossier.xml", end, arena_printf(reader_arena(world), "%s%s", snaps, end));
}

/* A flood of errors ends in one line that says so. */
static void test_flood(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    Buf snaps = {0};
    for (int n = 11; n < 11 + 300; n++) {
        buf_printf(&snaps, "<snap n=\"%d\" spot=\"25\" play=\"kickoff\" result=\"run\" gain=\"20\"/>", n);
    }
    add_snaps(world, buf_text(&snaps));
    assert_non_null(reader_dossier(world));
    assert_int_equal(diag_errors(reader_diagnostics(world)), XML_MOST_PROBLEMS);
    assert_non_null(strstr(reader_said(world), "more than 199 problems in the chart and the references"));
    buf_free(&snaps);
    reader_world_free(world);
}

static void test_too_many_snaps(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    Buf snaps = {0};
    for (int n = 0; n <= DOSSIER_MOST_SNAPS; n++) BUF_PUT(&snaps, "<snap n=\"1\"/>");
    add_snaps(world, buf_text(&snaps));
    assert_null(reader_dossier(world));
    assert_string_equal(reader_said(world),
                        "dossier.xml:2:1: error: a dossier has at most 1000 games and 20000 snaps; this has 2 and "
                        "20010 [xml-limit]");
    buf_free(&snaps);
    reader_world_free(world);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_faults),          cmocka_unit_test(test_missing_on_several),
        cmocka_unit_test(test_idle_on_several), cmocka_unit_test(test_flood),
        cmocka_unit_test(test_too_many_snaps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
