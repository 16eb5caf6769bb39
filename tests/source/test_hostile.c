/* Files that were made to hurt: each refused with one message, in bounded time. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "base/buf.h"
#include "source/dossier.h"
#include "source/expr.h"
#include "source/help_xml.h"

enum { SECONDS_MOST = 5, MEBIBYTE = 1024 * 1024 };

static double now(void) {
    struct timespec time;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return (double)time.tv_sec + (double)time.tv_nsec / 1e9;
}

/* What there must be to say of a file: one error of this rule. */
static void refuse(const char *what, const char *bytes, size_t length, Rule rule) {
    double start = now();
    Loaded loaded = xml_load_bytes(XML_DOSSIER, bytes, length);
    double took = now() - start;
    if (loaded.root) fail_msg("%s is read", what);
    if (diag_errors(loaded.diagnostics) != 1 || diag_reported(loaded.diagnostics, rule) != 1) {
        diag_print(loaded.diagnostics, stdout, false);
        fail_msg("%s: not one error of %s", what, diag_rule(rule)->id);
    }
    if (took > SECONDS_MOST) fail_msg("%s took %.1f s", what, took);
    loaded_free(&loaded);
}

static void refuse_text(const char *what, const char *text, Rule rule) {
    refuse(what, text, strlen(text), rule);
}

#define REFUSE_BYTES(what, bytes, rule) refuse((what), (bytes), sizeof(bytes) - 1, (rule))

/* `head`, `count` times `part`, `tail`. */
static void refuse_many(const char *what, const char *head, const char *part, size_t count, const char *tail,
                        Rule rule) {
    Buf text = {0};
    buf_puts(&text, head);
    for (size_t i = 0; i < count; i++) buf_puts(&text, part);
    buf_puts(&text, tail);
    refuse(what, text.bytes, text.length, rule);
    buf_free(&text);
}

static void test_entities(void **state) {
    (void)state;
    refuse_text("a laughing bomb",
                "<!DOCTYPE d [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;&a;\"><!ENTITY c "
                "\"&b;&b;&b;&b;\">]>\n<dossier>&c;</dossier>",
                RULE_XML_UNSAFE);
    refuse_text("a file of the system",
                "<!DOCTYPE d [<!ENTITY a SYSTEM \"file:///etc/passwd\">]><dossier>&a;</dossier>", RULE_XML_UNSAFE);
    refuse_text("an address", "<!DOCTYPE d SYSTEM \"http://127.0.0.1:9/d.dtd\"><dossier/>", RULE_XML_UNSAFE);
    refuse_text("a parameter entity", "<!DOCTYPE d [<!ENTITY % a SYSTEM \"http://127.0.0.1:9/a\"> %a;]><dossier/>",
                RULE_XML_UNSAFE);
    refuse_text("a document type in small letters", "<!doctype dossier><dossier/>", RULE_XML_UNSAFE);
    refuse_text("an entity outside a document type", "<dossier><!ENTITY a \"b\"></dossier>", RULE_XML_UNSAFE);
    refuse_text("an entity that nobody declared", "<dossier>&a;</dossier>", RULE_XML_SYNTAX);
}

static void test_includes(void **state) {
    (void)state;
    refuse_text("an include",
                "<dossier xmlns:x=\"http://www.w3.org/2001/XInclude\"><x:include href=\"/etc/passwd\"/></dossier>",
                RULE_XML_UNSAFE);
}

/* Editors find the schema by such a hint; here it is not followed, wherever it leads. */
static void test_schema_hint(void **state) {
    (void)state;
    static const char text[] =
        "<dossier xmlns:i=\"http://www.w3.org/2001/XMLSchema-instance\" "
        "i:noNamespaceSchemaLocation=\"/proc/self/no-such-file.xsd\" format=\"1\" id=\"a\" profile=\"quarterback\">"
        "<player position=\"QB\"><name><given>Ota</given><family>Lind</family></name><school>Harrow "
        "Valley</school></player>"
        "<filing by=\"rk\" on=\"2031-11-18\"/><bottom-line><p>Fine.</p></bottom-line></dossier>";
    Loaded loaded = xml_load_bytes(XML_DOSSIER, text, sizeof text - 1);
    if (!loaded.root) diag_print(loaded.diagnostics, stdout, false);
    assert_non_null(loaded.root);
    assert_null(xml_value(loaded.root, "noNamespaceSchemaLocation"));
    loaded_free(&loaded);
}

static void test_encodings(void **state) {
    (void)state;
    REFUSE_BYTES("UTF-16, little end", "\xFF\xFE<\0d\0/\0>\0", RULE_XML_ENCODING);
    REFUSE_BYTES("UTF-16, big end", "\xFE\xFF\0<\0d\0/\0>", RULE_XML_ENCODING);
    REFUSE_BYTES("UTF-16 without a mark", "<\0d\0/\0>\0", RULE_XML_ENCODING);
    REFUSE_BYTES("UTF-32", "\xFF\xFE\0\0<\0\0\0d\0\0\0", RULE_XML_ENCODING);
    REFUSE_BYTES("UTF-7", "<?xml version=\"1.0\" encoding=\"UTF-7\"?><dossier/>", RULE_XML_ENCODING);
    REFUSE_BYTES("EBCDIC", "\x4C\x6F\xA7\x94\x93\x40", RULE_XML_ENCODING);
    REFUSE_BYTES("gzip", "\x1F\x8B\x08\0\0\0\0\0\0\x03\xB3I\xC9", RULE_XML_ENCODING);
    REFUSE_BYTES("a zero byte", "<dossier id=\"a\0b\"/>", RULE_XML_ENCODING);
    REFUSE_BYTES("a zero byte at the end", "<dossier/>\0", RULE_XML_ENCODING);
    REFUSE_BYTES("an overlong slash", "<dossier id=\"\xC0\xAF\"/>", RULE_XML_ENCODING);
    REFUSE_BYTES("a surrogate", "<dossier id=\"\xED\xA0\x80\"/>", RULE_XML_ENCODING);
    REFUSE_BYTES("a character cut off", "<dossier id=\"\xE2\x82\"/>", RULE_XML_ENCODING);
    REFUSE_BYTES("a character that is none", "<dossier id=\"\xF4\x90\x80\x80\"/>", RULE_XML_ENCODING);
    REFUSE_BYTES("a terminal's command", "<dossier id=\"\x1B[2J\"/>", RULE_XML_ENCODING);
}

static void test_floods(void **state) {
    (void)state;
    refuse_many("depth", "", "<p>", 100000, "", RULE_XML_LIMIT);
    refuse_many("depth in a dossier", "<dossier>", "<em>", 40, "</dossier>", RULE_XML_LIMIT);
    refuse_many("elements", "<dossier>", "<p/>", 1000000, "</dossier>", RULE_XML_LIMIT);
    refuse_many("one attribute again and again", "<dossier ", "a='' ", 200000, "/>", RULE_XML_SYNTAX);
    refuse_many("a size", "<dossier>", "                                ", 1024 * 1024, "</dossier>", RULE_XML_LIMIT);
    refuse_many("comments without an end", "<dossier>", "<!-- ", 300000, "", RULE_XML_SYNTAX);
    refuse_many("open tags without an end", "<dossier ", "< ", 300000, "", RULE_XML_SYNTAX);
    refuse_many("sections without an end", "<dossier>", "<![CDATA[", 300000, "", RULE_XML_SYNTAX);
    refuse_many("an attribute that never ends", "<dossier id=\"", "x", 8 * MEBIBYTE, "", RULE_XML_SYNTAX);
    refuse_many("a name that never ends", "<", "d", 8 * MEBIBYTE, "", RULE_XML_SYNTAX);
    refuse_many("end tags alone", "", "</p>", 300000, "", RULE_XML_SYNTAX);
}

/* Different attributes of one element: libxml2 compares each with all. */
static void test_attribute_flood(void **state) {
    (void)state;
    Buf text = {0};
    buf_puts(&text, "<dossier");
    for (int i = 0; i < 200000; i++) buf_printf(&text, " a%d=''", i);
    buf_puts(&text, "/>");
    refuse("attributes", text.bytes, text.length, RULE_XML_LIMIT);
    buf_free(&text);
}

/* A line of fifteen megabytes, valid but for its last word: found, and shown in a line that a terminal can show. */
static void test_long_line(void **state) {
    (void)state;
    Buf text = {0};
    buf_puts(&text, "<dossier format=\"1\" id=\"a\" profile=\"quarterback\"><player position=\"QB\"><name><family>");
    for (int i = 0; i < 15 * MEBIBYTE; i++) buf_putc(&text, 'x');
    buf_puts(&text, "</family></name><scool/></player></dossier>");
    double start = now();
    Loaded loaded = xml_load_bytes(XML_DOSSIER, text.bytes, text.length);
    assert_null(loaded.root);
    assert_true(diag_errors(loaded.diagnostics) > 0);
    char *printed = NULL;
    size_t length = 0;
    FILE *stream = open_memstream(&printed, &length);
    diag_print(loaded.diagnostics, stream, false);
    fclose(stream);
    assert_true(length < 4096);
    assert_true(now() - start < SECONDS_MOST);
    free(printed);
    loaded_free(&loaded);
    buf_free(&text);
}

/* ---- expressions ---- */

static void refuse_expression(const char *what, const char *head, const char *part, size_t count, const char *tail) {
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    SourceContext *context = source_context_new("templates", NULL, diagnostics);
    const Profile *profile = source_profile(context, "quarterback", (Place){0}, diagnostics);
    assert_non_null(profile);
    Buf source = {0};
    buf_puts(&source, head);
    for (size_t i = 0; i < count; i++) buf_puts(&source, part);
    buf_puts(&source, tail);
    Text text = {"expression", buf_text(&source), source.length};
    double start = now();
    const Expr *expr = expr_compile(arena, profile, profile->field_count, EXPR_SELECTION, text.bytes,
                                    (Place){&text, 0, text.length}, diagnostics);
    if (expr) fail_msg("%s compiles", what);
    if (diag_errors(diagnostics) != 1) fail_msg("%s: not one error", what);
    assert_true(now() - start < SECONDS_MOST);
    buf_free(&source);
    source_context_free(context);
    diag_free(diagnostics);
    arena_free(arena);
}

static void test_expressions(void **state) {
    (void)state;
    refuse_expression("depth", "", "(", 2000, "@down=1");
    refuse_expression("nots", "", "not(", 1000, "@down=1");
    refuse_expression("minuses", "@gain = ", "-", 4000, "1");
    refuse_expression("length", "@down=1", " or @down=1", MEBIBYTE / 8, "");
    refuse_expression("an operator again and again", "@down", "=", 4000, "1");
    refuse_expression("a number that never ends", "@down=", "9", 5000, "");
    refuse_expression("a word that never ends", "@base='", "x", 3000, "");
    refuse_expression("a name that never ends", "@", "x", 4000, "=1");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_entities),  cmocka_unit_test(test_includes),    cmocka_unit_test(test_schema_hint),
        cmocka_unit_test(test_encodings), cmocka_unit_test(test_floods),      cmocka_unit_test(test_attribute_flood),
        cmocka_unit_test(test_long_line), cmocka_unit_test(test_expressions),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
