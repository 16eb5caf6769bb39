/* Scales with players row by row, and the scales of a house. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/buf.h"
#include "source/help_reader.h"

static const char SCALE[] =
    "<scale format=\"1\" id=\"own\" name=\"the house's own\" profile=\"passer\" years=\"2020\" source=\"x\">\n"
    "<measurable kind=\"height\" n=\"9\"><q p=\"50\" value=\"75\"/></measurable>\n"
    "<measurable kind=\"weight\" n=\"8\"><q p=\"50\" value=\"220\"/></measurable>\n"
    "<rows kinds=\"height forty bench\">\n"
    "<row id=\"7\" label=\"QB 2020\" values=\"76 4.9 -\"/>\n"
    "<row id=\"b-2\" values=\"74.5 - -\"/>\n"
    "<row id=\"a\" values=\"75 4.6 -\"/>\n"
    "</rows></scale>\n";

static const Scale *load(ReaderWorld *world) {
    return scale_load(reader_arena(world), reader_folder(world), "passer", reader_diagnostics(world));
}

static void test_rows(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    reader_world_write(world, "scales/passer.xml", SCALE);
    const Scale *scale = load(world);
    assert_string_equal(reader_said(world), "");
    assert_non_null(scale);
    const ScaleRows *rows = &scale->rows;
    assert_int_equal(rows->count, 3);
    assert_int_equal(rows->kind_count, 3);
    assert_string_equal(rows->kinds[1], "forty");
    assert_string_equal(rows->ids[1], "b-2");
    assert_string_equal(rows->labels[0], "QB 2020");
    assert_string_equal(rows->labels[1], "b-2");
    assert_true(rows->columns[0][1] == 74.5 && isnan(rows->columns[1][1]) && isnan(rows->columns[2][2]));
    /* Rows count where there are quantiles as well; kinds that nobody has are no measurables of the scale. */
    const ScaleMeasurable *height = scale_measurable(scale, "height");
    assert_int_equal(height->n, 3);
    assert_int_equal(height->quantile_count, 0);
    assert_true(height->rising[0] == 74.5 && height->rising[1] == 75 && height->rising[2] == 76);
    assert_int_equal(scale_measurable(scale, "forty")->n, 2);
    assert_null(scale_measurable(scale, "weight")->rising);
    assert_int_equal(scale_measurable(scale, "weight")->n, 8);
    assert_null(scale_measurable(scale, "bench"));
    reader_world_free(world);
}

/* A scale may have rows alone. */
static void test_rows_alone(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    reader_world_write(world, "scales/passer.xml",
                       "<scale format=\"1\" id=\"own\" name=\"own\" profile=\"passer\" years=\"2020\" source=\"x\">"
                       "<rows kinds=\"ten\"><row id=\"1\" values=\" 1.6 \"/></rows></scale>");
    const Scale *scale = load(world);
    assert_string_equal(reader_said(world), "");
    assert_int_equal(scale->count, 1);
    assert_int_equal(scale_measurable(scale, "ten")->n, 1);
    reader_world_free(world);
}

static void test_nothing(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    reader_world_write(world, "scales/passer.xml",
                       "<scale format=\"1\" id=\"own\" name=\"own\" profile=\"passer\" years=\"2020\" source=\"x\"/>");
    assert_null(load(world));
    assert_string_equal(reader_said(world),
                        "scales/passer.xml:1:1: error: a scale has measurables or rows [element-missing]");
    reader_world_free(world);
}

static const struct {
    const char *old, *fresh, *said;
} faults[] = {
    {"kinds=\"height forty bench\"", "kinds=\"height fourty bench\"",
     "scales/passer.xml:4:21: error: the trade has no measurable 'fourty' [attribute-value] (did you mean 'forty'?)"},
    {"kinds=\"height forty bench\"", "kinds=\"height forty height\"",
     "scales/passer.xml:4:27: error: the measurable 'height' stands twice [duplicate]"},
    {"values=\"74.5 - -\"", "values=\"74.5 -\"",
     "scales/passer.xml:6:23: error: the row has 2 values for 3 kinds [attribute-value] (write - for a measurement "
     "that "
     "was not taken)"},
    {"values=\"76 4.9 -\"", "values=\"7.6 4.9 -\"",
     "scales/passer.xml:5:37: error: '7.6' is no height that a player shows [attribute-value] (values are plain "
     "inches, "
     "pounds, seconds or repetitions, in the order of the kinds)"},
    {"values=\"76 4.9 -\"", "values=\"6040 4.9h -\"",
     "scales/passer.xml:5:37: error: '6040 4.9h -' in 'values' is not a list of numbers such as 76 217 4.91 - 113 "
     "[attribute-value]"},
    {"id=\"b-2\"", "id=\"7\"", "scales/passer.xml:6:10: error: the row '7' stands twice [duplicate]"},
    {"<row id=\"a\" values=\"75 4.6 -\"/>\n", "<row id=\"a\"/>\n",
     "scales/passer.xml:7:1: error: row needs an attribute 'values' [attribute-missing] (76 217 4.91 - 113: plain "
     "inches, pounds, seconds, repetitions; - not measured)"},
};

static void test_faults(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof faults / sizeof *faults; i++) {
        ReaderWorld *world = reader_world_new();
        reader_world_write(world, "scales/passer.xml", SCALE);
        reader_world_change(world, "scales/passer.xml", faults[i].old, faults[i].fresh);
        assert_null(load(world));
        assert_string_equal(reader_said(world), faults[i].said);
        reader_world_free(world);
    }
}

static const char *many_rows(ReaderWorld *world, size_t count) {
    Buf buf = {0};
    buf_puts(&buf, "<scale format=\"1\" id=\"own\" name=\"own\" profile=\"passer\" years=\"2020\" source=\"x\">"
                   "<rows kinds=\"height\">");
    for (size_t i = 0; i < count; i++) buf_printf(&buf, "<row id=\"%zu\" values=\"%zu\"/>", i, 60 + i % 25);
    buf_puts(&buf, "</rows></scale>");
    const char *text = arena_copy(reader_arena(world), buf.bytes, buf.length);
    buf_free(&buf);
    return text;
}

static void test_bound(void **state) {
    (void)state;
    for (size_t over = 0; over < 2; over++) {
        ReaderWorld *world = reader_world_new();
        reader_world_write(world, "scales/passer.xml", many_rows(world, SCALE_MOST_ROWS + over));
        const Scale *scale = load(world);
        if (over) {
            assert_null(scale);
            assert_non_null(
                strstr(reader_said(world), "a scale has at most 100000 rows, this one has 100001 [xml-limit]"));
        } else {
            assert_int_equal(scale_measurable(scale, "height")->n, SCALE_MOST_ROWS);
        }
        reader_world_free(world);
    }
}

/* ---- the scale of a house ---- */

static const House *load_house(ReaderWorld *world, const char *scale) {
    reader_world_change(world, "houses/plain.xml", "</house>", arena_printf(reader_arena(world), "%s</house>", scale));
    const char *path = arena_printf(reader_arena(world), "%s/houses/plain.xml", reader_folder(world));
    XmlSchemas *schemas = xml_schemas_new(reader_folder(world));
    Templates templates = {reader_folder(world), schemas};
    const House *house = house_load(reader_arena(world), &templates, path, reader_diagnostics(world));
    xml_schemas_free(schemas);
    return house;
}

static const Scale *load_for(ReaderWorld *world, const House *house, const char *profile) {
    return scale_load_for_house(reader_arena(world), reader_folder(world), house, profile, reader_diagnostics(world));
}

static void remove_file(ReaderWorld *world, const char *file) {
    assert_int_equal(unlink(arena_printf(reader_arena(world), "%s/%s", reader_folder(world), file)), 0);
}

static void test_house_scale(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    reader_world_write(world, "houses/own.xml", SCALE);
    const House *house = load_house(world, "<scale profile=\"passer\" href=\"own.xml\"/>");
    assert_non_null(house);
    assert_string_equal(load_for(world, house, "passer")->id, "own");
    assert_null(load_for(world, house, "catcher"));
    assert_string_equal(reader_said(world), "");
    remove_file(world, "houses/own.xml");
    reader_world_free(world);
}

static void test_house_without(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    const House *house = load_house(world, "");
    assert_string_equal(load_for(world, house, "passer")->id, "passer");
    reader_world_free(world);
}

/* The scale of another position compares nothing. */
static void test_house_scale_of_another(void **state) {
    (void)state;
    ReaderWorld *world = reader_world_new();
    reader_world_write(world, "houses/own.xml", SCALE);
    reader_world_change(world, "houses/own.xml", "profile=\"passer\"", "profile=\"tackle\"");
    const House *house = load_house(world, "<scale profile=\"passer\" href=\"own.xml\"/>");
    assert_null(load_for(world, house, "passer"));
    assert_string_equal(reader_said(world), "houses/plain.xml:15:31: error: this scale compares the profile 'tackle', "
                                            "not 'passer' [reference]");
    remove_file(world, "houses/own.xml");
    reader_world_free(world);
}

static const struct {
    const char *scale, *said;
} house_faults[] = {
    {"<scale profile=\"passer\" href=\"../scales/passer.xml\"/>",
     "houses/plain.xml:15:31: error: the scale is not below the house's own folder [xml-unsafe] (it leads out of its "
     "folder)"},
    {"<scale profile=\"passer\" href=\"/scales/passer.xml\"/>",
     "houses/plain.xml:15:31: error: the scale is not below the house's own folder [xml-unsafe] (it does not start in "
     "that folder)"},
    {"<scale profile=\"passer\" href=\"none.xml\"/>",
     "houses/plain.xml:15:31: error: there is no scale file 'houses/none.xml' [template-missing]"},
    {"<scale profile=\"paser\" href=\"plain.xml\"/>",
     "houses/plain.xml:15:17: error: there is no profile 'paser' in the folder [template-missing] (did you mean "
     "'passer'?)"},
    {"<scale profile=\"passer\" href=\"plain.xml\"/><scale profile=\"passer\" href=\"plain.xml\"/>",
     "houses/plain.xml:15:59: error: the profile 'passer' has two scales [duplicate]"},
};

static void test_house_faults(void **state) {
    (void)state;
    for (size_t i = 0; i < sizeof house_faults / sizeof *house_faults; i++) {
        ReaderWorld *world = reader_world_new();
        assert_null(load_house(world, house_faults[i].scale));
        assert_string_equal(reader_said(world), house_faults[i].said);
        reader_world_free(world);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows),
        cmocka_unit_test(test_rows_alone),
        cmocka_unit_test(test_nothing),
        cmocka_unit_test(test_faults),
        cmocka_unit_test(test_bound),
        cmocka_unit_test(test_house_scale),
        cmocka_unit_test(test_house_without),
        cmocka_unit_test(test_house_faults),
        cmocka_unit_test(test_house_scale_of_another),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
