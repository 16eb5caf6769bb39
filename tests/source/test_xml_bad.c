/* Every file of tests/source/bad against the findings expected beside it. Templates are told by their name: KIND-….xml.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/help_golden.h"
#include "source/xml.h"

static XmlKind kind_of(const char *path) {
    static const char *const names[XML_KIND_COUNT] = {"/dossier-", "/profile-", "/set-",   "/house-", "/layout-",
                                                      "/scale-",   "/map-",     "/chart-", "/plays-"};
    for (int kind = 0; kind < XML_KIND_COUNT; kind++) {
        if (strstr(path, names[kind])) return (XmlKind)kind;
    }
    return XML_DOSSIER;
}

static void check_file(const char *path, void *data) {
    int *failures = data;
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    XmlSchemas *schemas = xml_schemas_new("templates");
    const XmlNode *root = xml_load(arena, schemas, kind_of(path), path, diagnostics);
    char *got = golden_print(diagnostics), *wanted = golden_beside(path, ".expected");
    if (root || !golden_matches(wanted, got)) ++*failures;
    free(got);
    free(wanted);
    xml_schemas_free(schemas);
    diag_free(diagnostics);
    arena_free(arena);
}

static void test_bad(void **state) {
    (void)state;
    int failures = 0;
    assert_true(golden_each("tests/source/bad", ".xml", check_file, &failures) >= 25);
    assert_int_equal(failures, 0);
}

/* The files that the program ships are valid against their schemas. */
static void check_good(const char *path, void *data) {
    XmlKind kind = *(const XmlKind *)data;
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    XmlSchemas *schemas = xml_schemas_new("templates");
    if (!xml_load(arena, schemas, kind, path, diagnostics)) {
        diag_print(diagnostics, stdout, false);
        fail_msg("%s is not valid", path);
    }
    assert_int_equal(diag_warnings(diagnostics), 0);
    xml_schemas_free(schemas);
    diag_free(diagnostics);
    arena_free(arena);
}

static void test_shipped(void **state) {
    (void)state;
    static const struct {
        XmlKind kind;
        const char *folder;
    } folders[] = {{XML_PROFILE, "templates/profiles"}, {XML_SET, "templates/sets"},
                   {XML_HOUSE, "templates/houses"},     {XML_LAYOUT, "templates/layouts"},
                   {XML_SCALE, "templates/scales"},     {XML_MAP, "templates/maps"},
                   {XML_PLAYS, "templates/plays"}};
    for (size_t i = 0; i < sizeof folders / sizeof folders[0]; i++) {
        XmlKind kind = folders[i].kind;
        assert_true(golden_each(folders[i].folder, ".xml", check_good, &kind) > 0);
    }
}

static void test_root_name(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    assert_string_equal(xml_root_name(arena, "tests/source/bad/root-other.xml", diagnostics), "profile");
    assert_string_equal(xml_root_name(arena, "tests/source/bad/mismatch.xml", diagnostics), "dossier");
    assert_int_equal(diag_errors(diagnostics), 0);
    assert_null(xml_root_name(arena, "tests/source/bad/doctype.xml", diagnostics));
    assert_null(xml_root_name(arena, "tests/source/bad/empty.xml", diagnostics));
    assert_null(xml_root_name(arena, "tests/source/bad/missing.xml", diagnostics));
    assert_int_equal(diag_errors(diagnostics), 3);
    diag_free(diagnostics);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_bad), cmocka_unit_test(test_shipped),
                                       cmocka_unit_test(test_root_name)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
