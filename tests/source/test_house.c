/* Houses, layouts and scales. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <cmocka.h>

#include <string.h>

#include "source/help_reader.h"

static const ReaderFault faults[] = {
    {"houses/plain.xml", "from=\"6\"", "from=\"7.5\"",
     "houses/plain.xml:6:17: error: two words begin at the same grade [grade-scale]"},
    {"houses/plain.xml", "from=\"6\"", "from=\"11\"",
     "houses/plain.xml:6:17: error: the word begins outside the scale [grade-scale]"},
    {"houses/plain.xml", "bar=\"6\"", "bar=\"0\"",
     "houses/plain.xml:3:80: error: the starter's bar is not on the scale [grade-scale]"},
    {"houses/plain.xml", "low=\"1\" high=\"10\"", "low=\"1\" high=\"1\"",
     "houses/plain.xml:3:32: error: the scale's low end is not below its high end [grade-scale]\n"
     "houses/plain.xml:3:79: error: the starter's bar is not on the scale [grade-scale]\n"
     "houses/plain.xml:4:17: error: the word begins outside the scale [grade-scale]\n"
     "houses/plain.xml:6:17: error: the word begins outside the scale [grade-scale]"},
    {"houses/plain.xml", "step=\"0.5\"", "step=\"0\"",
     "houses/plain.xml:3:51: error: the step of a grade scale is above 0 [grade-scale]"},
    {"houses/plain.xml", "overall-step=\"0.1\"", "overall-step=\"-0.1\"",
     "houses/plain.xml:3:70: error: the step of a grade scale is above 0 [grade-scale]"},
    {"houses/plain.xml", "id=\"ob\"", "id=\"rk\"",
     "houses/plain.xml:11:18: error: the id 'rk' is used twice [duplicate]"},
    {"houses/plain.xml", "id=\"second-year\"", "id=\"at-once\"",
     "houses/plain.xml:9:13: error: the id 'at-once' is used twice [duplicate]"},
    {"houses/plain.xml", "</house>", "<rule id=\"boxscore\" severity=\"note\"/></house>",
     "houses/plain.xml:15:11: error: there is no rule 'boxscore' [reference] (did you mean 'box-score'?)"},
    {"houses/plain.xml", "</house>", "<rule id=\"zzz\" severity=\"note\"/></house>",
     "houses/plain.xml:15:11: error: there is no rule 'zzz' [reference] (check --list-rules prints all)"},
    {"houses/plain.xml", "</house>", "<rule id=\"chart-clash\" severity=\"note\"/></house>",
     "houses/plain.xml:15:11: error: the rule 'chart-clash' is an error in every house: figures rest on it "
     "[attribute-value]"},
    {"houses/plain.xml", "</house>", "<rule id=\"chart-clash\" severity=\"error\"/></house>",
     "houses/plain.xml:15:11: error: the rule 'chart-clash' is an error in every house: figures rest on it "
     "[attribute-value]"},
    {"houses/plain.xml", "</house>",
     "<rule id=\"box-score\" severity=\"note\"/><rule id=\"box-score\" severity=\"error\"/></house>",
     "houses/plain.xml:15:49: error: the rule 'box-score' is given two severities [duplicate] + "
     "houses/plain.xml:15:11"},
    {"houses/plain.xml", "</house>", "<rule id=\"box-score\" severity=\"grave\"/></house>",
     "houses/plain.xml:15:32: error: 'grave' is not a value of 'severity' [attribute-value] (it may be note, warning "
     "or error)"},
};

static void test_faults(void **state) {
    (void)state;
    READER_CHECK_FAULTS(faults);
}

static const House *load(ReaderWorld *world) {
    const char *path = arena_printf(reader_arena(world), "%s/houses/plain.xml", reader_folder(world));
    XmlSchemas *schemas = xml_schemas_new(reader_folder(world));
    Templates templates = {reader_folder(world), schemas};
    const House *house = house_load(reader_arena(world), &templates, path, reader_diagnostics(world));
    xml_schemas_free(schemas);
    return house;
}

static void test_house(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    const House *house = load(world);
    assert_non_null(house);
    assert_string_equal(house->name, "Test house");
    assert_true(house->grade_low == 1 && house->grade_high == 10 && house->grade_step == 0.5);
    assert_true(house->overall_step == 0.1 && house->grade_bar == 6);
    assert_int_equal(house->tint, 0x123f52);
    assert_int_equal(house->success, SUCCESS_40_60_100);
    assert_string_equal(house_evaluator(house, "ob")->name, "O. Bittern");
    assert_null(house_evaluator(house, "o"));
    assert_string_equal(house->whens[1].says, "in his second year");
    assert_string_equal(house->readers, "Staff only.");
    assert_string_equal(house->caution_medical, "For the doctors.");
    assert_null(house->caution_personal);
    assert_string_equal(house->caution_use, "One reading.");
    reader_world_free(world);
}

/* Severities are the house's own, for the rules that it may speak of. */
static void test_severities(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    reader_world_change(world, "houses/plain.xml", "</house>",
                        "<rule id=\"box-score\" severity=\"note\"/><rule id=\"claim-both\" severity=\"error\"/>"
                        "<rule id=\"clip-odd\" severity=\"warning\"/></house>");
    const House *house = load(world);
    assert_non_null(house);
    Diagnostics *diagnostics = diag_new();
    house_set_severities(house, diagnostics);
    diag_report(diagnostics, RULE_BOX_SCORE, (Place){0}, NULL, "a note now");
    assert_int_equal(diag_warnings(diagnostics) + diag_errors(diagnostics), 0);
    diag_report(diagnostics, RULE_CLAIM_BOTH, (Place){0}, NULL, "an error now");
    assert_int_equal(diag_errors(diagnostics), 1);
    diag_report(diagnostics, RULE_CLIP_ODD, (Place){0}, NULL, "as before");
    assert_int_equal(diag_warnings(diagnostics), 1);
    diag_report(diagnostics, RULE_CHART_ODD, (Place){0}, NULL, "not spoken of");
    assert_int_equal(diag_warnings(diagnostics), 2);
    diag_free(diagnostics);
    reader_world_free(world);
}

/* The words stand in the file in no order. */
static void test_grade_words(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    const House *house = load(world);
    assert_string_equal(house->words[0].word, "gives");
    assert_string_equal(house->words[2].word, "drives");
    assert_null(house_grade_word(house, 0.9));
    assert_string_equal(house_grade_word(house, 1)->word, "gives");
    assert_string_equal(house_grade_word(house, 5.9)->word, "gives");
    assert_string_equal(house_grade_word(house, 0.1 * 60)->word, "holds");
    assert_string_equal(house_grade_word(house, 10)->word, "drives");
    reader_world_free(world);
}

/* ---- layouts ---- */

static const Layout *layout(ReaderWorld *world, const char *name) {
    return layout_load(reader_arena(world), reader_folder(world), name, reader_diagnostics(world));
}

static void test_layout(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    const Layout *found = layout(world, "short");
    assert_non_null(found);
    assert_int_equal(found->paper, PAPER_A4);
    assert_true(found->duplex && found->inner == 62.4 && found->outer == 43.6 && found->head == 34);
    assert_true(found->foot == 30 && found->prose_size == 9.5 && found->prose_leading == 12);
    assert_int_equal(found->section_count, 2);
    assert_string_equal(found->sections[0].title, "The man");
    assert_string_equal(found->sections[1].title, "Snap log");
    assert_int_equal(found->sections[1].kind, SECTION_SNAP_LOG);
    const char *path = arena_printf(reader_arena(world), "%s/layouts/short.xml", reader_folder(world));
    assert_non_null(layout(world, path));
    assert_string_equal(reader_said(world), "");
    reader_world_free(world);
}

static const struct {
    const char *old, *fresh, *said;
} layout_faults[] = {
    {"kind=\"snap-log\"", "kind=\"front\"",
     "layouts/short.xml:4:3: error: the section 'front' stands twice [duplicate] + layouts/short.xml:3:3"},
    {"kind=\"snap-log\"", "kind=\"snaplog\"",
     "layouts/short.xml:4:18: error: 'snaplog' is not a value of 'kind' [attribute-value] (did you mean 'snap-log'?)"},
    {"inner=\"62.4\"", "inner=\"6\"",
     "layouts/short.xml:2:75: error: 'inner' is from 18 to 144 points [attribute-value]"},
    {"prose-leading=\"12\"", "prose-leading=\"9\"",
     "layouts/short.xml:2:146: error: lines 9 points apart are closer than the type is high [attribute-value]"},
};

static void test_layout_faults(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof layout_faults / sizeof *layout_faults; i++) {
        ReaderWorld *world = reader_world_new();
        reader_world_change(world, "layouts/short.xml", layout_faults[i].old, layout_faults[i].fresh);
        assert_null(layout(world, "short"));
        assert_string_equal(reader_said(world), layout_faults[i].said);
        reader_world_free(world);
    }
}

static void test_layout_missing(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    assert_null(layout(world, "shrt"));
    assert_non_null(strstr(reader_said(world),
                           "there is no layout 'shrt' in the folder [template-missing] (did you mean "
                           "'short'?)"));
    reader_world_free(world);
}

/* ---- scales ---- */

static const Scale *scale(ReaderWorld *world, const char *profile) {
    return scale_load(reader_arena(world), reader_folder(world), profile, reader_diagnostics(world));
}

static void test_scale(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    const Scale *found = scale(world, "passer");
    assert_non_null(found);
    assert_string_equal(found->years, "2000–2022");
    const ScaleMeasurable *height = scale_measurable(found, "height");
    assert_int_equal(height->n, 416);
    assert_int_equal(height->quantile_count, 3);
    assert_true(height->quantiles[1].p == 50 && height->quantiles[1].value == 75.5);
    assert_null(scale_measurable(found, "bench"));
    assert_null(scale(world, "catcher"));
    assert_string_equal(reader_said(world), "");
    reader_world_free(world);
}

static const struct {
    const char *old, *fresh, *said;
} scale_faults[] = {
    {"p=\"95\"", "p=\"50\"", "scales/passer.xml:3:88: error: the quantiles do not rise [attribute-value]"},
    {"value=\"78\"", "value=\"74\"",
     "scales/passer.xml:3:99: error: the values of the quantiles fall [attribute-value]"},
    {"kind=\"forty\"", "kind=\"height\"",
     "scales/passer.xml:4:21: error: the measurable 'height' stands twice [duplicate]"},
    {"kind=\"forty\"", "kind=\"fourty\"",
     "scales/passer.xml:4:21: error: the trade has no measurable 'fourty' [attribute-value] (did you mean 'forty'?)"},
    {"p=\"5\"", "p=\"105\"",
     "scales/passer.xml:3:43: error: a quantile is from 0 to 100 percent [attribute-value]\n"
     "scales/passer.xml:3:66: error: the quantiles do not rise [attribute-value]"},
};

static void test_scale_faults(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof scale_faults / sizeof *scale_faults; i++) {
        ReaderWorld *world = reader_world_new();
        reader_world_change(world, "scales/passer.xml", scale_faults[i].old, scale_faults[i].fresh);
        assert_null(scale(world, "passer"));
        assert_string_equal(reader_said(world), scale_faults[i].said);
        reader_world_free(world);
    }
}

/* The house and layout that come with the program. */
static void test_shipped(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    SourceContext *context = source_context_new("templates", NULL, diagnostics);
    assert_non_null(source_house(context));
    assert_int_equal(source_house(context)->evaluator_count, 0);
    assert_string_equal(house_grade_word(source_house(context), 6.2)->word, "holds");
    const Layout *full = layout_load(arena, "templates", "full", diagnostics);
    assert_non_null(full);
    assert_int_equal(full->sections[0].kind, SECTION_FRONT);
    const char *others[] = {"brief", "cross-check", "cards", "form"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        const Layout *layout = layout_load(arena, "templates", others[i], diagnostics);
        assert_non_null(layout);
        assert_string_equal(layout->id, others[i]);
    }
    assert_int_equal(diag_errors(diagnostics) + diag_warnings(diagnostics), 0);
    source_context_free(context);
    diag_free(diagnostics);
    arena_free(arena);
}

static void test_house_missing(void **state) {
    (void)state;
    Diagnostics *diagnostics = diag_new();
    SourceContext *context = source_context_new("templates", "tests/source/reader/no-such-house.xml", diagnostics);
    assert_null(source_house(context));
    assert_null(source_profile(context, "quarterback", (Place){0}, diagnostics));
    assert_int_equal(diag_errors(diagnostics), 1);
    source_context_free(context);
    diag_free(diagnostics);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_faults),         cmocka_unit_test(test_house),
        cmocka_unit_test(test_severities),     cmocka_unit_test(test_grade_words),
        cmocka_unit_test(test_layout),         cmocka_unit_test(test_layout_faults),
        cmocka_unit_test(test_layout_missing), cmocka_unit_test(test_scale),
        cmocka_unit_test(test_scale_faults),   cmocka_unit_test(test_shipped),
        cmocka_unit_test(test_house_missing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
