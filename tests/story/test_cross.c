/* The pages "Two charters" and "What to watch next": what stands on them, and when they are left out. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "source/help_reader.h"
#include "story/dossier_story.h"

static const char head[] = "<dossier format=\"1\" id=\"x\" profile=\"passer\"><player position=\"QB\"><name>"
                           "<given>Tobin</given><family>Vashti</family></name><school>Harrow Valley</school></player>"
                           "<filing by=\"rk\" on=\"2031-11-18\"/><game id=\"g1\" on=\"2031-09-27\">";
static const char tail[] = "</game><grades by=\"rk\"><grade trait=\"accuracy\" value=\"6.5\"/>"
                           "<grade trait=\"timing\" value=\"5\"/><overall value=\"6\"/></grades>"
                           "<grades by=\"ob\"><grade trait=\"accuracy\" value=\"7\"/>"
                           "<grade trait=\"timing\" value=\"4.5\"/></grades>"
                           "<bottom-line><p>Draft him.</p></bottom-line></dossier>";

/* What a charter saw: one digit a snap. */
typedef struct Seen {
    const char *by, *coverage, *read;
} Seen;

static void put_chart(Buf *xml, const Seen *seen) {
    buf_printf(xml, "<chart by=\"%s\">", seen->by);
    for (int i = 0; seen->coverage[i]; i++) {
        buf_printf(
            xml,
            "<snap n=\"%d\" down=\"1\" distance=\"10\" spot=\"-25\" play=\"pass\" result=\"complete\" gain=\"4\" "
            "coverage=\"%c\" read=\"%c\"/>",
            i + 1, seen->coverage[i], seen->read[i]);
    }
    BUF_PUT(xml, "</chart>");
}

/* The story of a dossier with these charts, in two sections and the front page. */
static const char *story_of(ReaderWorld *world, const Seen *charts, size_t count) {
    static LayoutSection sections[] = {{.kind = SECTION_FRONT}, {.kind = SECTION_WATCH}, {.kind = SECTION_CROSS}};
    const Layout layout = {.sections = sections, .section_count = 3};
    Buf xml = {0}, dump = {0};
    buf_puts(&xml, head);
    for (size_t i = 0; i < count; i++) put_chart(&xml, &charts[i]);
    buf_puts(&xml, tail);
    reader_world_write(world, "dossier.xml", buf_text(&xml));
    const Dossier *dossier = reader_dossier(world);
    assert_string_equal(reader_said(world), "");
    story_dump(story_dossier(reader_arena(world), findings_compute(reader_arena(world), dossier, NULL), &layout),
               &dump);
    const char *text = arena_copy(reader_arena(world), dump.bytes, dump.length);
    buf_free(&xml);
    buf_free(&dump);
    return text;
}

static void assert_has(const char *text, const char *part) {
    if (!strstr(text, part)) fail_msg("'%s' does not stand in:\n%s", part, text);
}

static int open_world(void **state) {
    *state = reader_world_new();
    return 0;
}

static int close_world(void **state) {
    reader_world_free(*state);
    return 0;
}

/* Coverage: seven of ten alike, by chance five: .4. Read: four steps apart of nine by chance: 5/9. */
static const Seen two[] = {{"rk", "1111122222", "1112223333"}, {"ob", "1111222211", "1122233313"}};

static void test_cross(void **state) {
    const char *text = story_of(*state, two, 2);
    const char *cross = strstr(text, "section \"Two charters\" (one game, 10\u00a0snaps charted twice)");
    assert_non_null(cross);
    assert_has(cross, "In more than one chart: 10\u00a0snaps of one game, g1 (R. Kestrel and O. Bittern).");
    assert_has(cross, "row coverage | 10 | 7 | 70% | 0.40 | \u22120.16 to 0.96 | same or not\n");
    assert_has(cross, "row read | 10 | 7 | 70% | 0.56 |");
    assert_true(strstr(cross, "row coverage") < strstr(cross, "row read"));
    assert_has(cross, "The same on every snap that both charted: Down (10), distance (10), spot (10), Play (10), "
                      "result (10), gain (10).");
    assert_has(cross, "row @g1.5@[snap-g1.5] | coverage | Man free | 2\n");
    assert_has(cross, "row @g1.9@[snap-g1.9] | read | 3 | 1\n");
    assert_null(strstr(cross, "more differ"));
    assert_has(text, "Second chart: 1\u00a0game; median \u03ba 0.48 over 2\u00a0fields");
}

/* Two raters, accuracy 6.5 and 7, timing 5 and 4.5: mean squares 4, 0 and .25, so ICC(2,1) is 3.75 / 4 and ICC(2,k)
 * 3.75 / 3.875 by the formulas of Shrout & Fleiss 1979. */
static void test_grades(void **state) {
    const char *text = story_of(*state, two, 2);
    assert_has(text, "Over the 2\u00a0traits that both evaluators graded");
    assert_has(text, "ICC(2,1) 0.94");
    assert_has(text, "ICC(2,k) 0.97");
}

/* Forty rows at most, and then how many more. */
static void test_many(void **state) {
    static const Seen charts[] = {
        {"rk", "111111111111111111111111111111111111111111111", "111111111111111111111111111111111111111111111"},
        {"ob", "222222222222222222222222222222222222222222222", "111111111111111111111111111111111111111111111"},
    };
    const char *text = story_of(*state, charts, 2);
    assert_has(text, "row @g1.40@[snap-g1.40] | coverage |");
    assert_null(strstr(text, "row @g1.41@"));
    assert_has(text, "5 more differ; the table above counts them by field.");
}

/* A third charter is named where his value stands. */
static void test_third(void **state) {
    static const Seen charts[] = {
        {"rk", "11112222", "11111111"}, {"ob", "11112222", "11111112"}, {"lm", "11112221", "11111111"}};
    reader_world_change(*state, "houses/plain.xml", "<evaluator id=\"ob\"",
                        "<evaluator id=\"lm\" name=\"L. Mora\" role=\"cross\"/><evaluator id=\"ob\"");
    const char *text = story_of(*state, charts, 3);
    assert_has(text, "g1 (R. Kestrel and O. Bittern and L. Mora)");
    assert_has(text, "| read | 1 (R. Kestrel) | 2 (O. Bittern)\n");
    assert_has(text, "| coverage | 2 (R. Kestrel) | Man free (L. Mora)\n");
    assert_has(text, "row coverage | 16 | 15 | 94% |");
}

static void test_one_chart(void **state) {
    const char *text = story_of(*state, two, 1);
    assert_null(strstr(text, "Two charters"));
    assert_null(strstr(text, "Second chart"));
    assert_null(strstr(text, "What to watch next"));
}

static void test_watch(void **state) {
    reader_world_change(*state, "profiles/passer.xml", "label=\"Accuracy\" weight=\"15\"",
                        "label=\"Accuracy\" weight=\"15\" seen=\"@thrown='yes'\" shown=\"throws\"");
    reader_world_change(*state, "profiles/passer.xml", "label=\"Timing\" weight=\"7.5\"",
                        "label=\"Timing\" weight=\"7.5\" seen=\"@read &gt;= 3\" shown=\"late reads\"");
    const char *text = strstr(story_of(*state, two, 2), "section \"What to watch next\"");
    assert_non_null(text);
    assert_has(text, "row Timing | 5.0 | 4 | late reads\n      row Accuracy | 6.5 | 10 | throws\n");
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_cross), IN_WORLD(test_grades),    IN_WORLD(test_many),
        IN_WORLD(test_third), IN_WORLD(test_one_chart), IN_WORLD(test_watch),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
