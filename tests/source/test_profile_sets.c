/* Profiles made of several files: fields that two sets declare, profiles that extend others, measures printed in an
 * order of the profile's own. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "source/help_reader.h"

enum { PATH_MOST = 512, FILES_MOST = 8 };

typedef struct Bench {
    ReaderWorld *world;
    const char *files[FILES_MOST]; /* written beside those of the world */
    size_t count;
} Bench;

static int open_bench(void **state) {
    static Bench bench;
    bench = (Bench){.world = reader_world_new()};
    *state = &bench;
    return 0;
}

static int close_bench(void **state) {
    Bench *bench = *state;
    for (size_t i = 0; i < bench->count; i++) {
        char path[PATH_MOST];
        snprintf(path, sizeof path, "%s/%s", reader_folder(bench->world), bench->files[i]);
        assert_int_equal(unlink(path), 0);
    }
    reader_world_free(bench->world);
    return 0;
}

static void put(Bench *bench, const char *file, const char *text) {
    reader_world_write(bench->world, file, text);
    for (size_t i = 0; i < bench->count; i++) {
        if (strcmp(bench->files[i], file) == 0) return;
    }
    assert_true(bench->count < FILES_MOST);
    bench->files[bench->count++] = file;
}

static const Profile *load(Bench *bench, const char *id) {
    const Profile *profile = reader_profile(bench->world, id);
    assert_string_equal(reader_said(bench->world), "");
    assert_non_null(profile);
    return profile;
}

static void says(Bench *bench, const char *id, const char *said) {
    assert_null(reader_profile(bench->world, id));
    assert_string_equal(reader_said(bench->world), said);
}

/* ---- fields of two sets ---- */

#define HEAD "<profile format=\"1\" id=\"blocker\" name=\"Blocker\" code=\"B\">"
#define JOB "<field id=\"job\" type=\"choice\"><value id=\"pass\"/><value id=\"run\"/><value id=\"other\"/></field>"
#define GRIP "<value id=\"late\"/><value id=\"first\"/>"

static const char blocker[] = HEAD "<use set=\"pass\"/><use set=\"run\"/>" JOB "</profile>";

static void put_sets(Bench *bench, const char *pass, const char *run) {
    put(bench, "profiles/blocker.xml", blocker);
    put(bench, "sets/pass.xml",
        arena_printf(reader_arena(bench->world), "<set format=\"1\" id=\"pass\">%s</set>", pass));
    put(bench, "sets/run.xml", arena_printf(reader_arena(bench->world), "<set format=\"1\" id=\"run\">%s</set>", run));
}

static const Field *grip_of(const Profile *profile) {
    int index = profile_field(profile, "grip");
    assert_true(index >= 0);
    return &profile->fields[index];
}

static void test_joined(void **state) {
    Bench *bench = *state;
    put_sets(bench,
             "<field id=\"grip\" type=\"choice\" label=\"Hands\" when=\"@job='pass'\">Whose.<value id=\"late\" "
             "label=\"his\">x</value><value id=\"first\"/></field>",
             "<field id=\"grip\" type=\"choice\" label=\"Grip\" required=\"yes\" exception=\"yes\" "
             "when=\"@job='run'\">Other.<value id=\"late\" label=\"theirs\"/><value id=\"first\"/></field>");
    const Profile *profile = load(bench, "blocker");
    assert_int_equal(profile->field_count, 2);
    const Field *grip = grip_of(profile);
    assert_string_equal(grip->when_source, "(@job='pass') or (@job='run')");
    assert_true(grip->required && grip->exception);
    assert_string_equal(grip->label, "Hands");
    assert_string_equal(grip->says, "Whose.");
    assert_int_equal(grip->value_count, 2);
    assert_string_equal(grip->values[0].label, "his");
}

/* Yes where either holds, unknown where one is unknown and the other is not yes. */
static void test_joined_condition(void **state) {
    Bench *bench = *state;
    put_sets(bench, "<field id=\"grip\" type=\"choice\" when=\"@job='pass'\">" GRIP "</field>",
             "<field id=\"grip\" type=\"choice\" when=\"@job='run'\"/>");
    const Profile *profile = load(bench, "blocker");
    double job[4] = {profile_word(profile, "pass"), profile_word(profile, "run"), profile_word(profile, "other"), 0};
    uint8_t known[4] = {VALUE_KNOWN, VALUE_KNOWN, VALUE_KNOWN, VALUE_UNKNOWN}, truth[4];
    Column columns[2] = {{0}};
    columns[profile_field(profile, "job")] = (Column){job, known};
    const Columns rows = {.rows = 4, .count = 2, .columns = columns};
    expr_select(grip_of(profile)->when, &rows, 0, 4, truth);
    static const uint8_t wanted[] = {TRUTH_TRUE, TRUTH_TRUE, TRUTH_FALSE, TRUTH_UNKNOWN};
    assert_memory_equal(truth, wanted, sizeof wanted);
}

static void test_joined_always(void **state) {
    Bench *bench = *state;
    put_sets(bench, "<field id=\"grip\" type=\"choice\" when=\"@job='pass'\">" GRIP "</field>",
             "<field id=\"grip\" type=\"choice\"/>");
    const Field *grip = grip_of(load(bench, "blocker"));
    assert_null(grip->when);
    assert_null(grip->when_source);
    assert_false(grip->required);
}

static void test_joined_numbers(void **state) {
    Bench *bench = *state;
    put_sets(bench, "<field id=\"grip\" type=\"number\" low=\"0\" high=\"8\" step=\"0.5\" when=\"@job='pass'\"/>",
             "<field id=\"grip\" type=\"number\" high=\"8\" when=\"@job='run'\"/>");
    const Field *grip = grip_of(load(bench, "blocker"));
    assert_true(grip->low == 0 && grip->high == 8 && grip->step == 0.5);
}

static const struct {
    const char *pass, *run, *said;
} unlike[] = {
    {"<field id=\"grip\" type=\"choice\">" GRIP "</field>", "<field id=\"grip\" type=\"yes-no\"/>",
     "sets/run.xml:1:49: error: field 'grip' is declared by two sets with different types [profile] + "
     "sets/pass.xml:1:27"},
    {"<field id=\"grip\" type=\"choice\">" GRIP "</field>", "<field id=\"grip\" type=\"ordered\">" GRIP "</field>",
     "sets/run.xml:1:49: error: field 'grip' is declared by two sets with different types [profile] + "
     "sets/pass.xml:1:27"},
    {"<field id=\"grip\" type=\"choice\">" GRIP "</field>",
     "<field id=\"grip\" type=\"choice\"><value id=\"late\"/><value id=\"even\"/></field>",
     "sets/run.xml:1:86: error: field 'grip' is declared by two sets with different values [profile] + "
     "sets/pass.xml:1:27"},
    {"<field id=\"grip\" type=\"choice\">" GRIP "</field>",
     "<field id=\"grip\" type=\"choice\"><value id=\"late\"/></field>",
     "sets/run.xml:1:26: error: field 'grip' is declared by two sets with fewer values [profile] + sets/pass.xml:1:27"},
    {"<field id=\"grip\" type=\"choice\">" GRIP "</field>",
     "<field id=\"grip\" type=\"choice\">" GRIP "<value id=\"even\"/></field>",
     "sets/run.xml:1:94: error: field 'grip' is declared by two sets with more values [profile] + sets/pass.xml:1:27"},
    {"<field id=\"grip\" type=\"number\" low=\"0\"/>", "<field id=\"grip\" type=\"number\" low=\"1\"/>",
     "sets/run.xml:1:62: error: field 'grip' is declared by two sets with different ranges [profile] + "
     "sets/pass.xml:1:27"},
    {"<field id=\"grip\" type=\"number\"/>", "<field id=\"grip\" type=\"number\" exception=\"yes\"/>",
     "sets/run.xml:1:68: error: field 'grip' is declared by two sets with no choice that could be marked when it "
     "happens "
     "[profile] + sets/pass.xml:1:27"},
    {"<derived id=\"grip\" test=\"@job='pass'\"/>", "<field id=\"grip\" type=\"yes-no\"/>",
     "sets/run.xml:1:37: error: the id 'grip' is used twice [duplicate] + sets/pass.xml:1:27"},
    {"<field id=\"grip\" type=\"choice\"/>", "<field id=\"grip\" type=\"choice\">" GRIP "</field>",
     "sets/pass.xml:1:27: error: field 'grip' is a choice without values [profile]"},
    {"<field id=\"grip\" type=\"choice\" when=\"@job='pass'\">" GRIP "</field>",
     "<field id=\"grip\" type=\"choice\" when=\"@job='walk'\"/>",
     "sets/run.xml:1:68: error: @job has no value 'walk' [expression] (its values are 'pass', 'run', 'other')"},
};

static void test_unlike(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof unlike / sizeof *unlike; i++) {
        void *bench;
        open_bench(&bench);
        put_sets(bench, unlike[i].pass, unlike[i].run);
        says(bench, "blocker", unlike[i].said);
        close_bench(&bench);
    }
}

/* Only sets share fields: a profile that declares one again has made a slip. */
static void test_own_field_is_no_set(void **state) {
    Bench *bench = *state;
    put_sets(bench, "<field id=\"grip\" type=\"yes-no\"/>", "<field id=\"job\" type=\"yes-no\"/>");
    says(bench, "blocker",
         "profiles/blocker.xml:1:102: error: the id 'job' is used twice [duplicate] + sets/run.xml:1:26");
}

/* ---- profiles that extend others ---- */

static const char deep[] = "<profile format=\"1\" id=\"deep\" extends=\"passer\" name=\"Deep passer\" code=\"DP\">"
                           "<field id=\"wind\" type=\"yes-no\"/>"
                           "<field id=\"read\" type=\"number\" low=\"0\" high=\"4\"/>"
                           "<trait id=\"accuracy\" label=\"Touch\" weight=\"40\">It drops in.</trait>"
                           "<measurable kind=\"forty\" better=\"neither\"/>"
                           "<measurable kind=\"hand\" better=\"more\"/>"
                           "<figure kind=\"interval-rows\" title=\"When\" measure=\"risk-rate\" slices=\"early\"/>"
                           "<standard measure=\"completion-rate\" value=\"0.5\"/>"
                           "<log fields=\"wind\"/></profile>";

static void test_extends(void **state) {
    Bench *bench = *state;
    put(bench, "profiles/deep.xml", deep);
    const Profile *base = load(bench, "passer"), *profile = load(bench, "deep");
    assert_string_equal(profile->name, "Deep passer");
    assert_string_equal(profile->plural, "Deep passer");
    assert_string_equal(profile->snap_noun, base->snap_noun);
    assert_non_null(profile->counted);
    assert_int_equal(profile->base_count, 1);
    assert_string_equal(profile->bases[0], "passer");
    assert_int_equal(profile->field_count, base->field_count + 1);
    assert_int_equal(profile_field(profile, "read"), profile_field(base, "read"));
    assert_true(profile->fields[profile_field(profile, "read")].high == 4);
    assert_int_equal(profile_field(profile, "wind"), base->field_count);
    assert_int_equal(profile->measure_count, base->measure_count);
}

static void test_extends_replaces_in_place(void **state) {
    Bench *bench = *state;
    put(bench, "profiles/deep.xml", deep);
    const Profile *profile = load(bench, "deep");
    assert_int_equal(profile->trait_count, 2);
    assert_string_equal(profile->traits[0].label, "Touch");
    assert_true(profile->traits[0].weight == 40);
    assert_string_equal(profile->traits[1].id, "timing");
    assert_int_equal(profile->measurable_count, 3);
    assert_true(profile->measurables[1].better == BETTER_NEITHER);
    assert_string_equal(profile->measurables[2].id, "hand");
    assert_int_equal(profile->figure_count, 2);
    assert_int_equal(profile->figures[1].measure, profile_measure(profile, "risk-rate"));
    assert_int_equal(profile->standard_count, 1);
    assert_true(profile->standards[0].value == 0.5);
    assert_int_equal(profile->log_field_count, 1);
}

/* A chain: each says something more, and the last word is the profile's own. */
static void test_extends_twice(void **state) {
    Bench *bench = *state;
    put(bench, "profiles/deep.xml", deep);
    put(bench, "profiles/deeper.xml",
        "<profile format=\"1\" id=\"deeper\" extends=\"deep\" name=\"Deeper\" code=\"D\" snaps=\"throws\" "
        "counted=\"@result!='sack'\"><trait id=\"accuracy\" label=\"Last\" weight=\"1\">x</trait></profile>");
    const Profile *profile = load(bench, "deeper");
    assert_string_equal(profile->traits[0].label, "Last");
    assert_string_equal(profile->snap_noun, "throws");
    assert_int_equal(profile->base_count, 2);
    assert_string_equal(profile->bases[0], "deep");
    assert_string_equal(profile->bases[1], "passer");
    assert_true(profile_field(profile, "wind") >= 0);
}

static void test_extends_nothing(void **state) {
    Bench *bench = *state;
    put(bench, "profiles/deep.xml", "<profile format=\"1\" id=\"deep\" extends=\"pass\" name=\"D\" code=\"D\"/>");
    says(bench, "deep",
         "profiles/deep.xml:1:40: error: there is no profile 'pass' in the folder [template-missing] (it is one of: "
         "deep, "
         "passer)");
}

static void test_extends_itself(void **state) {
    Bench *bench = *state;
    put(bench, "profiles/deep.xml", "<profile format=\"1\" id=\"deep\" extends=\"deeper\" name=\"D\" code=\"D\"/>");
    put(bench, "profiles/deeper.xml", "<profile format=\"1\" id=\"deeper\" extends=\"deep\" name=\"D\" code=\"D\"/>");
    says(bench, "deep", "profiles/deeper.xml:1:42: error: profile 'deep' extends itself [profile]");
}

/* What it adds under an id that it has added already is a slip, not a replacement. */
static void test_extends_twice_the_same(void **state) {
    Bench *bench = *state;
    put(bench, "profiles/deep.xml",
        "<profile format=\"1\" id=\"deep\" extends=\"passer\" name=\"D\" code=\"D\">"
        "<slice id=\"new\" label=\"a\" where=\"@down=1\"/><slice id=\"new\" label=\"b\" where=\"@down=2\"/></profile>");
    says(bench, "deep",
         "profiles/deep.xml:1:120: error: the id 'new' is used twice [duplicate] + profiles/deep.xml:1:66");
}

/* ---- measures in print ---- */

#define PRINT_AT "<trait id=\"accuracy\""

static void test_print(void **state) {
    Bench *bench = *state;
    reader_world_change(bench->world, "profiles/passer.xml", PRINT_AT,
                        "<print measures=\"points risk-rate\"/>" PRINT_AT);
    const Profile *profile = load(bench, "passer");
    static const char *const order[] = {"points", "risk-rate", "completion-rate", "target-depth", "yards-per-attempt"};
    assert_int_equal(profile->measure_count, 5);
    for (size_t i = 0; i < 5; i++) {
        assert_string_equal(profile->measures[i].id, order[i]);
        assert_int_equal(profile_measure(profile, order[i]), (int)i);
        assert_int_equal(profile->measures[i].printed, i < 2);
    }
}

static void test_print_unknown(void **state) {
    Bench *bench = *state;
    reader_world_change(bench->world, "profiles/passer.xml", PRINT_AT, "<print measures=\"points risk\"/>" PRINT_AT);
    says(
        bench, "passer",
        "profiles/passer.xml:45:27: error: the profile has no measure 'risk' [profile] (it is one of: completion-rate, "
        "risk-rate, target-depth, yards-per-attempt, points)");
}

static void test_print_does_not_hide_a_duplicate(void **state) {
    Bench *bench = *state;
    reader_world_change(bench->world, "profiles/passer.xml", PRINT_AT, "<print measures=\"points\"/>" PRINT_AT);
    reader_world_change(bench->world, "profiles/passer.xml", "<measure id=\"target-depth\"", "<measure id=\"points\"");
    says(bench, "passer",
         "profiles/passer.xml:43:16: error: the id 'points' is used twice [duplicate] + profiles/passer.xml:41:3");
}

/* ---- files anywhere ---- */

static Templates templates_of(Bench *bench, XmlSchemas *schemas) {
    return (Templates){.folder = reader_folder(bench->world), .schemas = schemas};
}

static void test_file_anywhere(void **state) {
    Bench *bench = *state;
    put(bench, "scales/mine.xml", deep);
    XmlSchemas *schemas = xml_schemas_new("templates");
    Templates templates = templates_of(bench, schemas);
    const char *path = arena_printf(reader_arena(bench->world), "%s/scales/mine.xml", templates.folder);
    const Profile *profile = profile_load_file(reader_arena(bench->world), &templates, SUCCESS_40_60_100, path,
                                               reader_diagnostics(bench->world));
    xml_schemas_free(schemas);
    assert_string_equal(reader_said(bench->world), "");
    assert_non_null(profile);
    assert_string_equal(profile->id, "deep");
}

/* The set in the file takes the place of the templates' own, in every profile that uses it. */
static void test_set_in_its_profiles(void **state) {
    Bench *bench = *state;
    put_sets(bench, "<field id=\"grip\" type=\"yes-no\"/>", "<field id=\"foot\" type=\"yes-no\"/>");
    put(bench, "scales/mine.xml", "<set format=\"1\" id=\"run\"><field id=\"hand\" type=\"yes-no\"/></set>");
    XmlSchemas *schemas = xml_schemas_new("templates");
    Templates templates = templates_of(bench, schemas);
    Arena *arena = reader_arena(bench->world);
    const char *path = arena_printf(arena, "%s/scales/mine.xml", templates.folder);
    const Profile *profile =
        profile_load_set(arena, &templates, SUCCESS_40_60_100, path, reader_diagnostics(bench->world));
    xml_schemas_free(schemas);
    assert_string_equal(reader_said(bench->world), "");
    assert_non_null(profile);
    assert_string_equal(profile->id, "blocker");
    assert_true(profile_field(profile, "hand") >= 0 && profile_field(profile, "foot") < 0);
}

#define BENCH_TEST(name) cmocka_unit_test_setup_teardown(name, open_bench, close_bench)

int main(void) {
    const struct CMUnitTest tests[] = {
        BENCH_TEST(test_joined),
        BENCH_TEST(test_joined_condition),
        BENCH_TEST(test_joined_always),
        BENCH_TEST(test_joined_numbers),
        cmocka_unit_test(test_unlike),
        BENCH_TEST(test_own_field_is_no_set),
        BENCH_TEST(test_extends),
        BENCH_TEST(test_extends_replaces_in_place),
        BENCH_TEST(test_extends_twice),
        BENCH_TEST(test_extends_nothing),
        BENCH_TEST(test_extends_itself),
        BENCH_TEST(test_extends_twice_the_same),
        BENCH_TEST(test_print),
        BENCH_TEST(test_print_unknown),
        BENCH_TEST(test_print_does_not_hide_a_duplicate),
        BENCH_TEST(test_file_anywhere),
        BENCH_TEST(test_set_in_its_profiles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
