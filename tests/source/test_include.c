/* Charts in files of their own: read as if they stood in the dossier, and only from below its folder. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/buf.h"
#include "source/help_reader.h"
#include "source/xml.h"

static const char inside[] = "<chart by=\"ob\">\n"
                             "      <snap n=\"1\" down=\"2\" distance=\"3\" spot=\"+40\" play=\"pass\" "
                             "result=\"complete\" gain=\"27\" coverage=\"2\" "
                             "read=\"0\" depth=\"12\" side=\"right\"/>\n"
                             "      <snap n=\"2\" down=\"1\" distance=\"10\" spot=\"+13\" play=\"pass\" "
                             "result=\"intercepted\" coverage=\"2\" read=\"3\" "
                             "depth=\"-2\"/>\n"
                             "    </chart>";

static const char outside[] = "<chart format=\"1\" by=\"ob\">\n"
                              "  <snap n=\"1\" down=\"2\" distance=\"3\" spot=\"+40\" play=\"pass\" "
                              "result=\"complete\" gain=\"27\" coverage=\"2\" "
                              "read=\"0\" depth=\"12\" side=\"right\"/>\n"
                              "  <snap n=\"2\" down=\"1\" distance=\"10\" spot=\"+13\" play=\"pass\" "
                              "result=\"intercepted\" coverage=\"2\" read=\"3\" "
                              "depth=\"-2\"/>\n"
                              "</chart>\n";

static int open_world(void **state) {
    ReaderWorld *world = reader_world_new();
    reader_world_write(world, "g2.xml", outside);
    *state = world;
    return 0;
}

static int close_world(void **state) {
    static const char *const more[] = {"g2.xml", "link.xml", "pipe", "large.xml", "charts"};
    for (size_t i = 0; i < sizeof more / sizeof more[0]; i++) {
        const char *path = arena_printf(reader_arena(*state), "%s/%s", reader_folder(*state), more[i]);
        if (unlink(path) != 0) rmdir(path);
    }
    reader_world_free(*state);
    return 0;
}

static const char *path_in(ReaderWorld *world, const char *name) {
    return arena_printf(reader_arena(world), "%s/%s", reader_folder(world), name);
}

static const char *dump(Dossier *dossier, Arena *arena) {
    Buf buf = {0};
    assert_non_null(dossier);
    dossier_dump(dossier, &buf);
    const char *text = arena_string(arena, buf_text(&buf));
    buf_free(&buf);
    return text;
}

static void test_same_model(void **state) {
    const char *whole = dump(reader_dossier(*state), reader_arena(*state));
    reader_world_change(*state, "dossier.xml", inside, "<chart href=\"g2.xml\"/>");
    const char *parted = dump(reader_dossier(*state), reader_arena(*state));
    assert_string_equal(reader_said(*state), "");
    assert_string_equal(whole, parted);
}

/* The names of films are the dossier's, so that it may say which one a chart file is of. */
static void test_film(void **state) {
    reader_world_change(*state, "g2.xml", "by=\"ob\"", "by=\"ob\" media=\"elsewhere\"");
    reader_world_change(*state, "dossier.xml", inside, "<chart href=\"g2.xml\" media=\"wk4\"/>");
    const Dossier *dossier = reader_dossier(*state);
    assert_string_equal(reader_said(*state), "");
    assert_string_equal(dossier->games[1].media, "wk4");
}

/* Findings about the file's own snaps stand in the file. */
static void test_places(void **state) {
    reader_world_change(*state, "dossier.xml", inside, "<chart href=\"g2.xml\"/>");
    reader_world_change(*state, "g2.xml", "side=\"right\"", "side=\"rigt\"");
    (void)reader_dossier(*state);
    assert_string_equal(reader_said(*state),
                        "g2.xml:2:127: error: 'side' has no value 'rigt' [field-value] (did you mean "
                        "'right'?)");
}

static void test_invalid_file(void **state) {
    reader_world_change(*state, "dossier.xml", inside, "<chart href=\"g2.xml\"/>");
    reader_world_change(*state, "g2.xml", "format=\"1\"", "format=\"3\"");
    assert_null(reader_dossier(*state));
    assert_non_null(strstr(reader_said(*state), "g2.xml:1:16: error: this file needs a program that knows format 3"));
}

/* ---- what is refused ---- */

static const struct {
    const char *chart, *said;
} refused[] = {
    {"<chart href=\"/etc/passwd\"/>",
     "error: the chart file is not below the dossier's own folder [xml-unsafe] (it does not start in that folder)"},
    {"<chart href=\"charts/../../x.xml\"/>",
     "error: the chart file is not below the dossier's own folder [xml-unsafe] (it leads out of its folder)"},
    {"<chart href=\"file:///etc/passwd\"/>", "error: the chart file is not below the dossier's own folder [xml-unsafe] "
                                             "(it is an address, not a file below that "
                                             "folder)"},
    {"<chart href=\"http://example.org/g2.xml\"/>", "error: the chart file is not below the dossier's own folder "
                                                    "[xml-unsafe] (it is an address, not a file below that "
                                                    "folder)"},
    {"<chart href=\"link.xml\"/>",
     "error: the chart file is not read: it is a link, or leads through one [xml-unsafe]"},
    {"<chart href=\"schema/chart.xsd\"/>",
     "error: the chart file is not read: it is a link, or leads through one [xml-unsafe]"},
    {"<chart href=\"charts\"/>", "error: the chart file is not read: it is not a regular file [xml-unsafe]"},
    {"<chart href=\"pipe\"/>", "error: the chart file is not read: it is not a regular file [xml-unsafe]"},
    {"<chart href=\"none.xml\"/>", "error: the chart file is not read: No such file or directory [file-read]"},
    {"<chart href=\"g2.xml/\"/>", "error: the chart file is not read: Not a directory [file-read]"},
    {"<chart href=\"dossier.xml\"/>", "error: this file is a 'dossier'; a 'chart' was expected [element-unknown]"},
    {"<chart href=\"large.xml\"/>", "error: the chart file is not read: it is larger than 16777216 bytes [xml-limit]"},
    {"<chart href=\"g2.xml\" by=\"rk\"/>", "error: 'by' belongs in the chart's own file [attribute-unknown]"},
    {"<chart href=\"g2.xml\"><snap n=\"1\"/></chart>",
     "error: a chart with a file of its own has its snaps there [content]"},
};

static void make_traps(ReaderWorld *world) {
    assert_int_equal(symlink("g2.xml", path_in(world, "link.xml")), 0);
    assert_int_equal(mkfifo(path_in(world, "pipe"), 0600), 0);
    assert_int_equal(mkdir(path_in(world, "charts"), 0700), 0);
    reader_world_write(world, "large.xml", "<chart format=\"1\"/>");
    assert_int_equal(truncate(path_in(world, "large.xml"), XML_MOST_BYTES + 1), 0);
}

static void test_refused(void **state) {
    make_traps(*state);
    const char *last = inside;
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        reader_world_change(*state, "dossier.xml", last, refused[i].chart);
        last = refused[i].chart;
        size_t before = diag_errors(reader_diagnostics(*state));
        assert_null(reader_dossier(*state));
        const char *said = reader_said(*state);
        if (!strstr(said, refused[i].said)) fail_msg("%s\nsays: %s", refused[i].chart, said);
        assert_int_equal(diag_errors(reader_diagnostics(*state)), before + 1);
    }
}

/* A chart file includes nothing: it has no such attribute. */
static void test_one_level(void **state) {
    reader_world_change(*state, "dossier.xml", inside, "<chart href=\"g2.xml\"/>");
    reader_world_change(*state, "g2.xml", "by=\"ob\"", "href=\"g2.xml\"");
    assert_null(reader_dossier(*state));
    assert_non_null(strstr(reader_said(*state), "error: chart has no attribute 'href' [attribute-unknown]"));
}

static void test_fan_out(void **state) {
    Buf charts = {0};
    for (int i = 0; i < XML_MOST_CHART_FILES + 50; i++) buf_puts(&charts, "<chart href=\"g2.xml\"/>");
    reader_world_change(*state, "dossier.xml", inside, buf_text(&charts));
    buf_free(&charts);
    assert_null(reader_dossier(*state));
    const char *said = reader_said(*state);
    assert_non_null(strstr(said, "error: the chart file is not read: a dossier has at most 200 [xml-limit]"));
    assert_null(strchr(said, '\n'));
}

/* All files together have the room of one. */
static void test_budget(void **state) {
    Buf padded = {0};
    buf_puts(&padded, outside);
    size_t room = XML_MOST_BYTES / 3;
    memset(buf_reserve(&padded, room), '\n', room);
    padded.length += room;
    reader_world_write(*state, "g2.xml", buf_text(&padded));
    buf_free(&padded);
    reader_world_change(
        *state, "dossier.xml", inside,
        "<chart href=\"g2.xml\"/><chart href=\"g2.xml\"/><chart href=\"g2.xml\"/><chart href=\"g2.xml\"/>");
    assert_null(reader_dossier(*state));
    assert_non_null(strstr(reader_said(*state), "error: the chart file is not read: it is larger than "));
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_same_model), IN_WORLD(test_film),      IN_WORLD(test_places),  IN_WORLD(test_invalid_file),
        IN_WORLD(test_refused),    IN_WORLD(test_one_level), IN_WORLD(test_fan_out), IN_WORLD(test_budget),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
