/* The quick reader against libxml2: whatever it lets pass is well-formed and valid, and gives the same nodes. */
#include <glob.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/buf.h"
#include "base/file.h"
#include "source/xml_parts.h"

typedef struct Readers {
    XmlSchemas *schemas;
    XmlKind kind;
    size_t read, passed; /* files, and those that the quick reader let pass */
} Readers;

static void assert_same_place(Place got, Place wanted) {
    assert_ptr_equal(got.text, wanted.text);
    assert_int_equal(got.offset, wanted.offset);
    assert_int_equal(got.length, wanted.length);
}

static void assert_same_words(const char *got, const char *wanted) {
    assert_int_equal(got == NULL, wanted == NULL);
    if (got) assert_string_equal(got, wanted);
}

static void assert_same_nodes(const XmlNode *got, const XmlNode *wanted) {
    for (; got && wanted; got = got->next, wanted = wanted->next) {
        assert_same_words(got->name, wanted->name);
        assert_same_words(got->text, wanted->text);
        assert_same_place(got->place, wanted->place);
        assert_int_equal(got->attribute_count, wanted->attribute_count);
        for (size_t at = 0; at < got->attribute_count; at++) {
            const XmlAttribute *a = &got->attributes[at], *b = &wanted->attributes[at];
            assert_string_equal(a->name, b->name);
            assert_string_equal(a->value, b->value);
            assert_int_equal(a->name_at, b->name_at);
            assert_int_equal(a->value_at, b->value_at);
            assert_int_equal(a->value_length, b->value_length);
        }
        assert_same_nodes(got->first, wanted->first);
    }
    assert_true(!got && !wanted);
}

static void compare(Readers *readers, Arena *arena, const Text *text, Diagnostics *diagnostics) {
    XmlSchema *schema = xml_schema(readers->schemas, readers->kind, diagnostics);
    readers->read++;
    if (!xml_check_bytes(text, diagnostics)) return;
    XmlEvents events = {0};
    const XmlNode *plain = xml_read_plain(arena, text, xml_kind_name(readers->kind), &events);
    bool valid = plain && xml_judge(schema, &events);
    xml_events_free(&events);
    if (!valid) return;
    readers->passed++;
    XmlFile file;
    if (!xml_parse(arena, text, false, &file, diagnostics) || !xml_validate(arena, schema, &file, diagnostics)) {
        diag_print(diagnostics, stderr, false);
        fail_msg("the quick reader let pass:\n%s", text->bytes);
    }
    assert_same_nodes(plain, file.root);
    xml_file_free(&file);
}

static void read_bytes(Readers *readers, const char *bytes, size_t length) {
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    Text text = {"changed", arena_copy(arena, bytes, length), length};
    compare(readers, arena, &text, diagnostics);
    diag_free(diagnostics);
    arena_free(arena);
}

/* How many of the files that `pattern` names the quick reader lets pass; `own_kind`: of those that are of the kind. */
static size_t read_files(Readers *readers, const char *pattern, bool own_kind) {
    glob_t found;
    assert_int_equal(glob(pattern, 0, NULL, &found), 0);
    size_t before = readers->passed;
    for (size_t at = 0; at < found.gl_pathc; at++) {
        Arena *arena = arena_new();
        Diagnostics *diagnostics = diag_new();
        const char *path = found.gl_pathv[at];
        const char *root = own_kind ? xml_root_name(arena, path, diagnostics) : NULL;
        bool skipped = root && strcmp(root, xml_kind_name(readers->kind)) != 0;
        const Text *text = skipped ? NULL : file_read(arena, path, diagnostics);
        if (text) compare(readers, arena, text, diagnostics);
        diag_free(diagnostics);
        arena_free(arena);
    }
    size_t passed = readers->passed - before;
    if (passed < found.gl_pathc) print_message("%s: %zu of %zu\n", pattern, passed, found.gl_pathc);
    globfree(&found);
    return passed;
}

static void files_of_the_program(void **state) {
    Readers *readers = *state;
    static const struct {
        XmlKind kind;
        const char *pattern;
    } cases[] = {
        {XML_DOSSIER, "dossiers/*.xml"},       {XML_HOUSE, "dossiers/house/*.xml"},
        {XML_HOUSE, "templates/houses/*.xml"}, {XML_LAYOUT, "templates/layouts/*.xml"},
        {XML_MAP, "templates/maps/*.xml"},     {XML_PROFILE, "templates/profiles/*.xml"},
        {XML_SCALE, "templates/scales/*.xml"}, {XML_SET, "templates/sets/*.xml"},
        {XML_PLAYS, "templates/plays/*.xml"},
    };
    for (size_t at = 0; at < sizeof cases / sizeof *cases; at++) {
        readers->kind = cases[at].kind;
        size_t before = readers->read;
        size_t passed = read_files(readers, cases[at].pattern, true);
        assert_int_equal(passed, readers->read - before);
    }
}

static void strange_files(void **state) {
    Readers *readers = *state;
    for (int kind = 0; kind < XML_KIND_COUNT; kind++) {
        readers->kind = (XmlKind)kind;
        read_files(readers, "tests/source/bad/*.xml", false);
        read_files(readers, "tests/fuzz/corpus/xml/*", false);
    }
}

static const char sample[] =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- a file -->\n"
    "<dossier format=\"1\" id=\"qb\" profile=\"quarterback\">\n"
    "  <player position=\"QB\" class='senior' jersey=\"7\"><name><given>Al</given><family>Be</family></name\n>\n"
    "    <school>A &amp; B</school></player>\n"
    "  <filing by=\"rk\" on=\"2031-11-18\" revision=\"3\">fi<!-- - -->led</filing>\n"
    "  <game id=\"g1\" on=\"2031-09-27\" opponent=\"A &lt; B\"><chart by=\"rk\">\n"
    "    <snap n=\"1\" down=\"1\" result = 'complete'\n\tgain=\"7\"/></chart></game>\n"
    "  <bottom-line><p>One <em>two</em> <strong>three</strong>\n four.</p><list><item> b </item></list></bottom-line>\n"
    "</dossier>\n<!-- end -->\n";

static const char *const pieces[] = {
    "<",
    ">",
    "&",
    "\"",
    "'",
    "=",
    "/",
    "/>",
    " ",
    "\n",
    "\t",
    "\r\n",
    "]]>",
    "]]",
    "--",
    "-->",
    "<!--",
    "<!-- x -->",
    "<!-->",
    "<![CDATA[x]]>",
    "<?x y?>",
    "&amp;",
    "&lt;",
    "&gt;",
    "&quot;",
    "&apos;",
    "&#38;",
    "&#x26;",
    "&amp;#38;",
    "&#0;",
    "&nbsp;",
    "é",
    "\xEF\xBB\xBF",
    "xmlns=\"u\"",
    "x:y",
    ":",
    "<p/>",
    "</p>",
    "<em>",
    "</em>",
    "<p>",
    "</dossier>",
    "<dossier>",
    " id=\"qb\"",
    " n=\"2\"",
    "x",
    "7",
    "-",
    "_",
    ".",
    "<!DOCTYPE dossier>",
};

/* The sample with `count` changes: a piece put in, over what was there, or some bytes taken out. */
static void change(Buf *text, unsigned *random, int count) {
    text->length = 0;
    buf_put(text, sample, sizeof sample - 1);
    while (count-- > 0) {
        *random = *random * 1103515245U + 12345U;
        unsigned draw = *random >> 8;
        const char *piece = pieces[draw % (sizeof pieces / sizeof *pieces)];
        size_t at = draw / 64 % text->length, length = draw % 5 ? strlen(piece) : 0;
        size_t gone = draw % 3 ? 0 : draw / 7 % 4;
        if (gone > text->length - at) gone = text->length - at;
        Buf changed = {0};
        buf_put(&changed, text->bytes, at);
        buf_put(&changed, piece, length);
        buf_put(&changed, text->bytes + at + gone, text->length - at - gone);
        buf_free(text);
        *text = changed;
    }
}

static void changed_files(void **state) {
    Readers *readers = *state;
    enum { CHANGES = 60000, MOST = 3, FEWEST_GOOD = 5000 };
    unsigned random = 20311118;
    Buf text = {0};
    readers->kind = XML_DOSSIER;
    read_bytes(readers, sample, sizeof sample - 1);
    assert_int_equal(readers->passed, 1);
    for (int at = 0; at < CHANGES; at++) {
        change(&text, &random, 1 + at % MOST);
        read_bytes(readers, text.bytes, text.length);
    }
    print_message("%zu of %zu changed files passed\n", readers->passed, readers->read);
    assert_true(readers->passed > FEWEST_GOOD);
    buf_free(&text);
}

/* What is well-formed but not plain is for libxml2. */
static void not_plain(void **state) {
    Readers *readers = *state;
    static const char *const files[] = {
        "",
        "<",
        "<set",
        "<set format='1' id='x'/><",
        "<set format='1' id='x'/><!",
        "<set format='1' id='x'></set",
        "<set format='1' id='x'/>x",
        "<set format='1' id='x'/><set format='1' id='x'/>",
        "<set format='1' id='x'><![CDATA[]]></set>",
        "<set format='1' id='x' xmlns='urn:x'/>",
        "<set format='1' id='&#120;'/>",
        "<set format='1' id='&amp;#38;'/>",
        "<?xml version='1.0'?><set format='1' id='x'/>",
        "\xEF\xBB\xBF<set format='1' id='x'/>",
    };
    readers->kind = XML_SET;
    for (size_t at = 0; at < sizeof files / sizeof *files; at++) read_bytes(readers, files[at], strlen(files[at]));
    assert_int_equal(readers->passed, 0);
}

static int set_up(void **state) {
    Readers *readers = calloc(1, sizeof *readers);
    readers->schemas = xml_schemas_new("templates");
    *state = readers;
    return 0;
}

static int tear_down(void **state) {
    Readers *readers = *state;
    xml_schemas_free(readers->schemas);
    free(readers);
    return 0;
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)

int main(void) {
    const struct CMUnitTest tests[] = {
        TEST(files_of_the_program),
        TEST(strange_files),
        TEST(changed_files),
        TEST(not_plain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
