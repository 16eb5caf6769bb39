/* The XML loader: exact places, plain nodes, limits, and agreement with libxml2 on what is well-formed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <libxml/parser.h>

#include "base/buf.h"
#include "base/text.h"
#include "source/help_xml.h"

/* Everything that could mislead a search for tags: comments and values with brackets and quotes, CDATA, both quotes,
 * CRLF, tabs. */
static const char nasty[] =
    "<?xml version=\"1.0\" encoding='utf-8'?>\r\n"
    "<!-- <dossier a=\"1\"> -- -->\n"
    "<?hint <player position=\"X\"> ?>\n"
    "<dossier\tformat = '1'\r\n  id=\"qb\"\n profile=\"quarterback\" "
    "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\"\n"
    "\txsi:noNamespaceSchemaLocation=\"dossier.xsd\"><!--<player>-->\n"
    "  <player position=\"Q>B/>\" class='a \"b\" c' jersey=\"7\"><name><given>Jos\xC3\xA9</given\n><family>Ke\xCA\xBB"
    "a</family></name\t>"
    "<school>A &amp; B &lt;<![CDATA[<school>&]]> C</school></player>\n"
    "  <filing by=\"rk\" on=\"2031-11-18\">x<!-- y -->z</filing>\n"
    "  <bottom-line><p>One <em>two</em> <strong>three</strong>\n four.</p><list><item>a</item> <item> b "
    "</item></list></bottom-line>\n"
    "</dossier>\n";

static const size_t nasty_length = sizeof nasty - 1;

/* The comment of `nasty` with a double hyphen is not well-formed: it is mended here, so that one string serves both
 * tests. */
static char *good_nasty(void) {
    char *text = malloc(nasty_length + 1);
    memcpy(text, nasty, nasty_length + 1);
    memcpy(strstr(text, " -- -->"), " == -->", 7);
    return text;
}

static size_t check_places(const XmlNode *node) {
    size_t count = 0;
    for (; node; node = node->next) {
        const char *bytes = node->place.text->bytes;
        if (node->name) {
            assert_int_equal(bytes[node->place.offset], '<');
            assert_int_equal(node->place.length, 1 + strlen(node->name));
            assert_memory_equal(bytes + node->place.offset + 1, node->name, strlen(node->name));
        }
        for (size_t i = 0; i < node->attribute_count; i++) {
            const XmlAttribute *attribute = &node->attributes[i];
            assert_memory_equal(bytes + attribute->name_at, attribute->name, strlen(attribute->name));
            const char *raw = bytes + attribute->value_at;
            bool changed = memchr(raw, '&', attribute->value_length) || memchr(raw, '\n', attribute->value_length) ||
                           memchr(raw, '\t', attribute->value_length) || memchr(raw, '\r', attribute->value_length);
            if (!changed) assert_memory_equal(raw, attribute->value, attribute->value_length);
            assert_true(bytes[attribute->value_at - 1] == bytes[attribute->value_at + attribute->value_length]);
        }
        count += 1 + check_places(node->first);
    }
    return count;
}

static void test_places(void **state) {
    (void)state;
    char *text = good_nasty();
    Loaded loaded = xml_load_bytes(XML_DOSSIER, text, nasty_length);
    if (diag_errors(loaded.diagnostics)) diag_print(loaded.diagnostics, stdout, false);
    assert_non_null(loaded.root);
    assert_true(check_places(loaded.root) > 20);
    assert_int_equal(loaded.root->attribute_count, 3); /* what is for editors is left out */
    const XmlNode *player = xml_child(loaded.root, "player");
    assert_string_equal(xml_value(player, "position"), "Q>B/>");
    assert_string_equal(xml_value(player, "class"), "a \"b\" c");
    assert_null(xml_value(player, "born"));
    assert_int_equal(xml_value_place(player, "born").offset, player->place.offset);
    const XmlNode *school = xml_child(player, "school");
    assert_string_equal(xml_text(loaded.arena, school), "A & B <<school>& C");
    assert_memory_equal(school->first->place.text->bytes + school->first->place.offset, "A &amp;", 7);
    assert_memory_equal(school->first->next->place.text->bytes + school->first->next->place.offset, "<school>&]]>", 12);
    const XmlNode *filing = xml_next(player, "filing");
    assert_string_equal(xml_text(loaded.arena, filing), "xz");
    size_t line, column;
    diag_line_column(xml_value_place(player, "jersey"), &line, &column);
    assert_int_equal(line, 8);
    assert_int_equal(column, 52);
    loaded_free(&loaded);
    free(text);
}

/* White space separates words in prose and lays out the rest. */
static void test_white_space(void **state) {
    (void)state;
    char *text = good_nasty();
    Loaded loaded = xml_load_bytes(XML_DOSSIER, text, nasty_length);
    const XmlNode *line = xml_child(loaded.root, "bottom-line");
    const XmlNode *p = line->first;
    assert_string_equal(p->name, "p");
    assert_string_equal(xml_text(loaded.arena, p), "One two three four.");
    assert_string_equal(p->first->next->next->text, " ");
    const XmlNode *list = xml_child(line, "list");
    assert_string_equal(list->first->name, "item");
    assert_string_equal(list->first->next->name, "item");
    assert_null(list->first->next->next);
    loaded_free(&loaded);
    free(text);
}

static const char head[] = "<dossier format=\"1\" id=\"a\" profile=\"quarterback\"><player "
                           "position=\"QB\"><name><given>A</given><family>B</family>"
                           "</name><school>C</school></player><filing by=\"rk\" on=\"2031-11-18\"/>";
static const char tail[] = "<bottom-line><p>x</p></bottom-line></dossier>";

static Loaded load_with(const char *middle) {
    Buf text = {0};
    buf_printf(&text, "%s%s%s", head, middle, tail);
    Loaded loaded = xml_load_bytes(XML_DOSSIER, text.bytes, text.length);
    buf_free(&text);
    return loaded;
}

/* Past line 65,535 libxml2's own line numbers stop. */
static void test_far_down(void **state) {
    (void)state;
    Buf middle = {0};
    for (int i = 0; i < 70000; i++) buf_puts(&middle, "\n");
    BUF_PUT(&middle, "  <media id=\"m\" hrf=\"x\"/>");
    Loaded loaded = load_with(buf_text(&middle));
    assert_null(loaded.root);
    Buf json = {0};
    diag_json(loaded.diagnostics, &json);
    assert_non_null(strstr(buf_text(&json), "\"line\": 70001, \"column\": 17,"));
    assert_int_equal(diag_errors(loaded.diagnostics), 1);
    buf_free(&json);
    buf_free(&middle);
    loaded_free(&loaded);
}

static void expect_limit(const char *text, size_t length, bool hit) {
    Loaded loaded = xml_load_bytes(XML_DOSSIER, text, length);
    assert_int_equal(loaded_has(&loaded, RULE_XML_LIMIT), hit);
    loaded_free(&loaded);
}

static void repeat(Buf *text, const char *words, int times) {
    for (int i = 0; i < times; i++) buf_puts(text, words);
}

static void test_depth(void **state) {
    (void)state;
    for (int over = 0; over < 2; over++) {
        Buf text = {0};
        repeat(&text, "<dossier>", XML_MOST_DEPTH + over);
        repeat(&text, "</dossier>", XML_MOST_DEPTH + over);
        expect_limit(text.bytes, text.length, over);
        buf_free(&text);
    }
}

static void test_attributes(void **state) {
    (void)state;
    for (int over = 0; over < 2; over++) {
        Buf text = {0};
        BUF_PUT(&text, "<dossier");
        for (int i = 0; i < XML_MOST_ATTRIBUTES + over; i++) buf_printf(&text, " a%d=\"\"", i);
        BUF_PUT(&text, "/>");
        Loaded loaded = xml_load_bytes(XML_DOSSIER, text.bytes, text.length);
        assert_int_equal(loaded_has(&loaded, RULE_XML_LIMIT), over);
        loaded_free(&loaded);
        buf_free(&text);
    }
}

static void test_elements(void **state) {
    (void)state;
    Buf text = {0};
    BUF_PUT(&text, "<dossier>");
    repeat(&text, "<a/>", XML_MOST_ELEMENTS);
    BUF_PUT(&text, "</dossier>");
    expect_limit(text.bytes, text.length, true);
    buf_free(&text);
}

static void test_size(void **state) {
    (void)state;
    Buf text = {0};
    memset(buf_reserve(&text, XML_MOST_BYTES + 1), ' ', XML_MOST_BYTES + 1);
    text.length = XML_MOST_BYTES + 1;
    expect_limit(text.bytes, text.length, true);
    buf_free(&text);
}

static void test_problems(void **state) {
    (void)state;
    Buf middle = {0};
    for (int i = 0; i < XML_MOST_PROBLEMS + 50; i++) buf_printf(&middle, "<media id=\"m%d\"/>", i);
    Loaded loaded = load_with(buf_text(&middle));
    assert_int_equal(diag_errors(loaded.diagnostics), XML_MOST_PROBLEMS + 1);
    assert_true(loaded_has(&loaded, RULE_XML_LIMIT));
    loaded_free(&loaded);
    buf_free(&middle);
}

static void silent(void *data, const char *format, ...) {
    (void)data, (void)format;
}

/* What libxml2 alone says of the bytes. */
static bool is_well_formed(const char *bytes, size_t length) {
    xmlParserCtxtPtr parser = xmlNewParserCtxt();
    xmlDocPtr document = xmlCtxtReadMemory(parser, bytes, (int)length, NULL, "UTF-8",
                                           XML_PARSE_NONET | XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
    bool good = document && parser->wellFormed && parser->nsWellFormed;
    xmlFreeDoc(document);
    xmlFreeParserCtxt(parser);
    return good;
}

static bool said_malformed(Loaded *loaded) {
    return loaded_has(loaded, RULE_XML_SYNTAX) || loaded_has(loaded, RULE_XML_ENCODING) ||
           loaded_has(loaded, RULE_XML_UNSAFE) || loaded_has(loaded, RULE_XML_LIMIT);
}

/* One or two random changes of one byte or a stretch, made of the characters that matter. */
static size_t mutate(char *text, size_t length) {
    static const char bytes[] = "<>/=\"'&;!-[]? \n\taéx1:\x01\xFF";
    for (int changes = 1 + rand() % 2; changes > 0; changes--) {
        size_t at = (size_t)rand() % length, span = 1 + (size_t)rand() % 3;
        if (span > length - at) span = length - at;
        if (rand() % 3 == 0) {
            memmove(text + at, text + at + span, length - at - span);
            length -= span;
        } else {
            for (size_t i = 0; i < span; i++) text[at + i] = bytes[(size_t)rand() % (sizeof bytes - 1)];
        }
    }
    return length;
}

/* The scanner refuses nothing that is well-formed, and nothing malformed passes. */
static void test_agreement(void **state) {
    (void)state;
    srand(20311118);
    xmlSetGenericErrorFunc(NULL, silent);
    char *source = good_nasty(), *text = malloc(nasty_length + 1);
    int good = 0, bad = 0;
    for (int round = 0; round < 3000; round++) {
        memcpy(text, source, nasty_length + 1);
        size_t declaration = strcspn(text, "\n"); /* encodings other than UTF-8 are ours to refuse */
        size_t length = declaration + mutate(text + declaration, nasty_length - declaration);
        bool wanted = is_well_formed(text, length) && !memmem(text, length, "<!DOCTYPE", 9);
        Loaded loaded = xml_load_bytes(XML_DOSSIER, text, length);
        if (said_malformed(&loaded) == wanted) {
            diag_print(loaded.diagnostics, stdout, false);
            fail_msg("round %d: libxml2 says %d of\n%.*s", round, wanted, (int)length, text);
        }
        if (loaded.root) (void)check_places(loaded.root);
        if (!loaded.root) assert_true(diag_errors(loaded.diagnostics) > 0);
        loaded_free(&loaded);
        good += wanted;
        bad += !wanted;
    }
    assert_true(good > 300 && bad > 300);
    free(source);
    free(text);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_places), cmocka_unit_test(test_white_space), cmocka_unit_test(test_far_down),
        cmocka_unit_test(test_depth),  cmocka_unit_test(test_attributes),  cmocka_unit_test(test_elements),
        cmocka_unit_test(test_size),   cmocka_unit_test(test_problems),    cmocka_unit_test(test_agreement),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
