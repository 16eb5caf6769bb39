/* The templates that snaps are drawn from, their faults, and what a dossier may say of a drawing. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/help_golden.h"
#include "source/dossier.h"
#include "source/plays.h"

enum { PATH_MOST = 512 };

#define COUNT_OF(array) (sizeof(array) / sizeof *(array))

typedef struct World {
    Arena *arena;
    Diagnostics *diagnostics;
    SourceContext *context; /* of the templates that ship */
    char folder[128];
} World;

static void in_folder(const World *world, const char *name, char *path) {
    int length = snprintf(path, PATH_MOST, "%s/%s", world->folder, name);
    assert_true(length > 0 && length < PATH_MOST);
}

static int open_world(void **state) {
    World *world = mem_alloc(sizeof *world);
    char path[PATH_MOST];
    char *schema = realpath("templates/schema", NULL);
    world->arena = arena_new();
    world->diagnostics = diag_new();
    world->context = source_context_new("templates", NULL, world->diagnostics);
    snprintf(world->folder, sizeof world->folder, "%s/tapebound-plays-XXXXXX",
             getenv("TMPDIR") ? getenv("TMPDIR") : P_tmpdir);
    assert_non_null(mkdtemp(world->folder));
    in_folder(world, "plays", path);
    assert_int_equal(mkdir(path, 0700), 0);
    in_folder(world, "schema", path);
    assert_int_equal(symlink(schema, path), 0);
    free(schema);
    *state = world;
    return 0;
}

static int close_world(void **state) {
    static const char *const files[] = {"plays/standard.xml", "dossier.xml", "plays", "schema", ""};
    World *world = *state;
    char path[PATH_MOST];
    for (size_t i = 0; i < COUNT_OF(files); i++) {
        in_folder(world, files[i], path);
        remove(path);
    }
    diag_free(world->diagnostics);
    source_context_free(world->context);
    arena_free(world->arena);
    free(world);
    return 0;
}

static void write_file(const World *world, const char *name, const char *text) {
    char path[PATH_MOST];
    in_folder(world, name, path);
    FILE *out = fopen(path, "wb");
    assert_non_null(out);
    assert_true(fputs(text, out) >= 0);
    assert_int_equal(fclose(out), 0);
}

/* The messages alone, without places, hints and source lines. */
static const char *said(World *world) {
    char *printed = golden_print(world->diagnostics);
    Buf out = {0};
    for (const char *line = printed; *line; line += strcspn(line, "\n") + (line[strcspn(line, "\n")] == '\n')) {
        const char *severity = strstr(line, ": error: ");
        if (*line == ' ' || !severity || severity > line + strcspn(line, "\n")) continue;
        severity += strlen(": error: ");
        buf_printf(&out, "%s%.*s", out.length ? "\n" : "", (int)strcspn(severity, "\n"), severity);
    }
    const char *copy = arena_copy(world->arena, out.bytes, out.length);
    buf_free(&out);
    free(printed);
    return copy;
}

static const Plays *shipped(World *world) {
    const Plays *plays = source_plays(world->context, (Place){0}, world->diagnostics);
    assert_non_null(plays);
    assert_int_equal(diag_errors(world->diagnostics) + diag_warnings(world->diagnostics), 0);
    return plays;
}

/* ---- the templates that ship ---- */

static bool may_lack(const char *value) {
    static const char *const words[] = {"other", "none", "shift"};
    for (size_t i = 0; i < COUNT_OF(words); i++) {
        if (strcmp(words[i], value) == 0) return true;
    }
    return false;
}

typedef struct Rows {
    const char *field;
    const void *rows;
    size_t count, stride;
} Rows;

#define ROWS_OF(field, table)                                                                                          \
    { (field), (table).rows, (table).count, sizeof *(table).rows }

/* Every word that the shared sets have for a place or a way can be drawn. */
static void test_all_words_have_rows(void **state) {
    World *world = *state;
    const Plays *plays = shipped(world);
    const Profile *profile = source_profile(world->context, "quarterback", (Place){0}, world->diagnostics);
    assert_non_null(profile);
    const Rows tables[] = {ROWS_OF("route", plays->routes),
                           ROWS_OF("backfield", plays->backfields),
                           ROWS_OF("formation", plays->formations),
                           ROWS_OF("motion", plays->motions),
                           ROWS_OF("drop", plays->drops),
                           ROWS_OF("front", plays->fronts),
                           ROWS_OF("sub", plays->subs),
                           ROWS_OF("shell", plays->shells),
                           ROWS_OF("coverage", plays->coverages),
                           ROWS_OF("side", plays->lanes),
                           ROWS_OF("window", plays->windows),
                           ROWS_OF("target", plays->runners)};
    for (size_t i = 0; i < COUNT_OF(tables); i++) {
        int index = profile_field(profile, tables[i].field);
        assert_true(index >= 0);
        const Field *field = &profile->fields[index];
        for (size_t v = 0; v < field->value_count; v++) {
            const char *id = field->values[v].id;
            bool found = plays_row(tables[i].rows, tables[i].count, tables[i].stride, id) != NULL;
            if (!found && !may_lack(id)) fail_msg("nothing draws %s '%s'", tables[i].field, id);
        }
    }
}

/* Depths of the end of a route that is not fitted, by the ranges of common practice in the glossary. */
static void test_routes_end_where_they_are_caught(void **state) {
    static const struct {
        const char *id;
        double low, high; /* yards past the line */
    } caught[] = {{"slant", 4, 9},      {"glance", 9, 15}, {"hitch", 4, 6},         {"curl", 10, 12},
                  {"comeback", 12, 15}, {"out", 5, 6},     {"deep-out", 10, 13},    {"in", 5, 7},
                  {"dig", 11, 15},      {"post", 20, 40},  {"skinny-post", 15, 28}, {"corner", 16, 22},
                  {"sail", 12, 18},     {"drag", 5, 7},    {"shallow", 2, 5},       {"go", 20, 40},
                  {"fade", 15, 35},     {"seam", 12, 25},  {"spot", 4, 6},          {"pivot", 3, 6}};
    const Plays *plays = shipped(*state);
    for (size_t i = 0; i < COUNT_OF(caught); i++) {
        const PlayRoute *route = plays_route(plays, caught[i].id, -1);
        double depth = 0;
        assert_non_null(route);
        for (size_t leg = 0; leg < route->leg_count; leg++) {
            depth += route->legs[leg].yards * cos(route->legs[leg].angle * 3.14159265358979 / 180);
        }
        if (depth < caught[i].low - 0.5 || depth > caught[i].high + 0.5)
            fail_msg("%s ends at %.1f", caught[i].id, depth);
    }
}

static void test_look_ups(void **state) {
    const Plays *plays = shipped(*state);
    assert_null(plays_route(plays, NULL, -1));
    assert_null(plays_route(plays, "no-such", -1));
    const PlayRoute *his = plays_route(plays, "flat", RUNNER_BACK);
    const PlayRoute *others = plays_route(plays, "flat", RUNNER_SLOT);
    assert_int_equal(his->runner, RUNNER_BACK);
    assert_int_equal(others->runner, -1);
    assert_ptr_equal(plays_route(plays, "flat", -1), others);
    assert_int_equal(plays_backers(plays, 3)->count, 3);
    assert_int_equal(plays_backers(plays, 9)->count, 4);
    assert_null(plays_backers(plays, 0));
    assert_int_equal(plays->line.count, PLAYS_LINEMEN);
    assert_true(plays->line.points[PLAYS_CENTRE].x == 0);
    assert_ptr_equal(source_plays(((World *)*state)->context, (Place){0}, ((World *)*state)->diagnostics), plays);
}

/* ---- faults of a template ---- */

static const char TEMPLATE[] =
    "<plays format=\"1\" id=\"standard\">\n"
    "<letters receivers=\"X Z\" ends=\"Y\" backs=\"R\" passer=\"Q\" corners=\"C\" slots=\"N\" safeties=\"F\"/>\n"
    "<line spots=\"-3,0 -1.5,0 0,0 1.5,0 3,0\" extra=\"4.5,0\"/>\n"
    "<runner value=\"WR\" is=\"wide\"/>\n"
    "<route id=\"out\" legs=\"6@0 7@90\"/>\n"
    "<route id=\"out\" runner=\"back\" legs=\"7@90\"/>\n"
    "<backfield id=\"gun\" passer=\"0,-5\" backs=\"2,-5\"/>\n"
    "<drop id=\"3\" under=\"0,-4\" gun=\"0,-8\"/>\n"
    "<lane id=\"left\" from=\"9\" to=\"20\"/>\n"
    "</plays>\n";

static const struct {
    const char *old, *fresh, *said;
} FAULTS[] = {
    {"6@0 7@90", "6@0 7.@.9.", "'7.@.9.' cannot be read [attribute-value]"},
    {"6@0 7@90", "6 7@90", "'6' cannot be read [attribute-value]"},
    {"-3,0 -1.5,0 0,0", "-3,0 -1.5,0", "'-3,0 -1.5,0 1.5,0 3,0' cannot be read [attribute-value]"},
    {"2,-5", "2,-5,-6", "'2,-5,-6' cannot be read [attribute-value]"},
    {"under=\"0,-4\"", "under=\"0,-4 1,-4\"", "'0,-4 1,-4' cannot be read [attribute-value]"},
    {"from=\"9\" to=\"20\"", "from=\"20\" to=\"9\"", "'9' cannot be read [attribute-value]"},
    {" runner=\"back\"", "", "route 'out' stands twice [duplicate]"},
    {"</plays>", "<lane id=\"left\" from=\"0\" to=\"9\"/></plays>", "lane 'left' stands twice [duplicate]"},
    {"is=\"wide\"", "is=\"guard\"", "'guard' is not a value of 'is' [attribute-value]"},
};

static const char *changed(World *world, const char *text, const char *old, const char *fresh) {
    const char *at = strstr(text, old);
    assert_non_null(at);
    return arena_printf(world->arena, "%.*s%s%s", (int)(at - text), text, fresh, at + strlen(old));
}

static const Plays *load(World *world, const char *text, const char *id) {
    write_file(world, "plays/standard.xml", text);
    XmlSchemas *schemas = xml_schemas_new(world->folder);
    const Plays *plays =
        plays_load(world->arena, &(Templates){world->folder, schemas}, id, (Place){0}, world->diagnostics);
    xml_schemas_free(schemas);
    return plays;
}

static void test_sound_template(void **state) {
    assert_non_null(load(*state, TEMPLATE, "standard"));
    assert_string_equal(said(*state), "");
}

static void test_missing_template(void **state) {
    World *world = *state;
    assert_null(load(world, TEMPLATE, "no-such"));
    assert_int_equal(diag_reported(world->diagnostics, RULE_TEMPLATE_MISSING), 1);
}

static void test_template_faults(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(FAULTS); i++) {
        void *inner = NULL;
        open_world(&inner);
        World *world = inner;
        assert_null(load(world, changed(world, TEMPLATE, FAULTS[i].old, FAULTS[i].fresh), "standard"));
        assert_string_equal(said(world), FAULTS[i].said);
        close_world(&inner);
    }
}

/* ---- key snaps of a dossier ---- */

static const char DOSSIER[] =
    "<dossier format=\"1\" id=\"qb-x\" profile=\"quarterback\">\n"
    "<player position=\"QB\"><name><given>T</given><family>V</family></name><school>H</school></player>\n"
    "<filing by=\"rk\" on=\"2031-11-18\"/>\n"
    "<game id=\"g1\" on=\"2031-09-06\"><chart by=\"rk\">\n"
    "<snap n=\"1\" drive=\"1\" quarter=\"1\" down=\"1\" distance=\"10\" spot=\"-25\" play=\"run\" personnel=\"11\""
    " shell=\"2-high\" result=\"run\" gain=\"3\"/>\n"
    "</chart></game>\n"
    "%s"
    "<bottom-line><p>None.</p></bottom-line>\n"
    "</dossier>\n";

static const Dossier *load_keys(World *world, const char *keys) {
    char path[PATH_MOST];
    const char *at = strstr(DOSSIER, "%s");
    write_file(world, "dossier.xml",
               arena_printf(world->arena, "%.*s%s%s", (int)(at - DOSSIER), DOSSIER, keys, at + 2));
    in_folder(world, "dossier.xml", path);
    return dossier_load(world->arena, world->context, path, world->diagnostics);
}

static void test_key_is_read(void **state) {
    World *world = *state;
    const Dossier *dossier =
        load_keys(world, "<key-snap snap=\"g1.1\" strength=\"left\" complete=\"defence\">\n"
                         "<p>As <em>it</em> was.</p>\n"
                         "<man id=\"X\" x=\"-20\" y=\"0\" from=\"-9,-1\" route=\"out\" read=\"1\" target=\"yes\"/>\n"
                         "<man id=\"N\" side=\"defence\" x=\"-6\" y=\"5.5\" to=\"3,6 4,7\" rush=\"no\"/>\n"
                         "<zone x=\"0\" y=\"17\" width=\"18\" depth=\"9\"/>\n"
                         "<aim x=\"-19.5\" y=\"12\" window=\"4\"/>\n"
                         "<note x=\"1\" y=\"2\">spins down</note>\n"
                         "</key-snap>\n");
    assert_non_null(dossier);
    assert_string_equal(said(world), "");
    Buf dump = {0};
    dossier_dump(dossier, &dump);
    const char *key = strstr(buf_text(&dump), "key g1.1");
    assert_non_null(key);
    assert_int_equal(strncmp(key,
                             "key g1.1 strength=left defence-complete\n"
                             "  man X at=-20,0 from=-9,-1 route=out read=1 target\n"
                             "  man N defence at=-6,5.5 to=3,6 4,7 stays\n"
                             "  zone at=0,17 width=18 depth=9\n"
                             "  note at=1,2 \"spins down\"\n"
                             "  aim at=-19.5,12 window=4\n"
                             "  p As _it_ was.\n",
                             strlen(key) - strlen(strstr(key, "bottom-line"))),
                     0);
    buf_free(&dump);
}

/* A dossier that draws nothing does not ask for the templates. */
static void test_no_key_no_templates(void **state) {
    const Dossier *dossier = load_keys(*state, "");
    assert_non_null(dossier);
    assert_null(dossier->plays);
    assert_int_equal(dossier->key_count, 0);
}

static const struct {
    const char *inside, *said;
} KEY_FAULTS[] = {
    {"<man id=\"X\" route=\"outt\"/>", "there is no route 'outt' [reference]"},
    {"<man id=\"X\" x=\"3\"/>", "half a place is no place [attribute-value]"},
    {"<man id=\"X\" x=\"60\" y=\"0\"/>", "the point is off the field [attribute-value]"},
    {"<man id=\"X\" to=\"3,6 3,99\"/>", "the point is off the field [attribute-value]"},
    {"<man id=\"X\" to=\"3;6\"/>",
     "'3;6' in 'to' is not points with spaces between them, each as x,y in yards: -20,0 4.8,-1 [attribute-value]"},
    {"<man id=\"X\" to=\"3,6,9\"/>", "'3,6,9' cannot be read [attribute-value]"},
    {"<man id=\"X\" route=\"out\" to=\"3,6\"/>", "a man has a route or points, not both [attribute-value]"},
    {"<man id=\"K\"/>", "no chart places a man of this letter [attribute-value]"},
    {"<man id=\"X\" rush=\"yes\"/>", "only the defence rushes [attribute-value]"},
    {"<man id=\"C\" side=\"defence\" route=\"out\"/>",
     "only the offence has routes, reads and a target [attribute-value]"},
    {"<zone x=\"0\" y=\"9\" width=\"0\" depth=\"5\"/>", "a zone is wider and deeper than 0 [attribute-value]"},
    {"<aim x=\"0\" y=\"9\"/><aim x=\"1\" y=\"9\"/>", "a ball is aimed at one place [attribute-value]"},
    {"<aim x=\"0\" y=\"9\" window=\"-1\"/>", "a window is not smaller than 0 [attribute-value]"},
    {"<note x=\"0\" y=\"9\">more than twenty-four letters</note>",
     "'more than twenty-four letters' in 'note' is not a few words, of 24 letters at most [content]"},
};

static void test_key_faults(void **state) {
    (void)state;
    for (size_t i = 0; i < COUNT_OF(KEY_FAULTS); i++) {
        void *inner = NULL;
        open_world(&inner);
        World *world = inner;
        load_keys(world, arena_printf(world->arena, "<key-snap snap=\"g1.1\">%s</key-snap>\n", KEY_FAULTS[i].inside));
        assert_string_equal(said(world), KEY_FAULTS[i].said);
        close_world(&inner);
    }
}

static void test_key_of_no_snap(void **state) {
    load_keys(*state, "<key-snap snap=\"g1.2\"/>\n");
    assert_string_equal(said(*state), "there is no snap 'g1.2' [reference]");
}

static void test_key_twice(void **state) {
    load_keys(*state, "<key-snap snap=\"g1.1\"/>\n<key-snap snap=\"g1.1\"/>\n");
    assert_string_equal(said(*state), "the key snap 'g1.1' stands twice [duplicate]");
}

/* No drawing is hurt by thousands of men, and no time is lost on them. */
static void test_hostile_count(void **state) {
    World *world = *state;
    Buf keys = {0};
    BUF_PUT(&keys, "<key-snap snap=\"g1.1\">");
    for (int i = 0; i < 5000; i++) BUF_PUT(&keys, "<man id=\"X\" x=\"1\" y=\"1\"/>");
    BUF_PUT(&keys, "</key-snap>\n");
    const Dossier *dossier = load_keys(world, buf_text(&keys));
    assert_string_equal(said(world), "more than 40 of the element 'man' in one place [xml-limit]");
    assert_int_equal(dossier->keys[0].man_count, 40);
    buf_free(&keys);
}

/* ---- the house says where the hashes are ---- */

static const char HOUSE[] =
    "<house format=\"1\" name=\"H\" level=\"professional\">\n"
    "<grade-scale name=\"S\" low=\"1\" high=\"9\" step=\"1\"><word from=\"1\" word=\"w\">w</word>"
    "</grade-scale></house>\n";

static FieldLevel level_of(World *world, const char *house) {
    char path[PATH_MOST];
    write_file(world, "dossier.xml", house);
    in_folder(world, "dossier.xml", path);
    SourceContext *context = source_context_new("templates", path, world->diagnostics);
    FieldLevel level = source_house(context) ? source_house(context)->level : LEVEL_COUNT;
    source_context_free(context);
    return level;
}

static void test_level(void **state) {
    World *world = *state;
    assert_int_equal(level_of(world, HOUSE), LEVEL_PROFESSIONAL);
    assert_int_equal(level_of(world, changed(world, HOUSE, "professional", "high-school")), LEVEL_HIGH_SCHOOL);
    assert_int_equal(level_of(world, changed(world, HOUSE, " level=\"professional\"", "")), LEVEL_COLLEGE);
    assert_int_equal(diag_errors(world->diagnostics), 0);
    assert_int_equal(level_of(world, changed(world, HOUSE, "professional", "junior")), LEVEL_COUNT);
    assert_int_equal(diag_reported(world->diagnostics, RULE_ATTRIBUTE_VALUE), 1);
}

#define IN_WORLD(test) cmocka_unit_test_setup_teardown(test, open_world, close_world)

int main(void) {
    const struct CMUnitTest tests[] = {
        IN_WORLD(test_all_words_have_rows),
        IN_WORLD(test_routes_end_where_they_are_caught),
        IN_WORLD(test_look_ups),
        IN_WORLD(test_sound_template),
        IN_WORLD(test_missing_template),
        cmocka_unit_test(test_template_faults),
        IN_WORLD(test_key_is_read),
        IN_WORLD(test_no_key_no_templates),
        cmocka_unit_test(test_key_faults),
        IN_WORLD(test_key_of_no_snap),
        IN_WORLD(test_key_twice),
        IN_WORLD(test_hostile_count),
        IN_WORLD(test_level),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
