/* What an expression that does not compile says, and where. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "source/expr.h"
#include "source/help_expr.h"

typedef struct Case {
    ExprKind kind;
    const char *source;
    size_t column; /* of the expression, from 1 */
    const char *message;
    const char *hint; /* NULL: none */
} Case;

#define VALUES_OF_BASE "its values are 'set', 'off', 'moving'"
#define PARTS                                                                                                          \
    "an expression is made of @fields, $totals, 'values', numbers, = != < <= > >=, and, or, not( ), + - * div and "    \
    "parentheses"

static const Case cases[] = {
    /* names */
    {EXPR_SELECTION, "@bsae='off'", 1, "no field is called 'bsae'", "did you mean @base?"},
    {EXPR_SELECTION, "@gain > 3 and @presure='hit'", 15, "no field is called 'presure'", "did you mean @pressure?"},
    {EXPR_SELECTION, "@zzzzzz=1", 1, "no field is called 'zzzzzz'", NULL},
    {EXPR_SELECTION, "@gain-3 > 1", 1, "no field is called 'gain-3'", "write spaces around the minus: @gain - 3"},
    {EXPR_FORMULA, "100 * $c-200", 7, "no total is called 'c-200'", "write spaces around the minus: $c - 200"},
    {EXPR_FORMULA, "$yards + $atempts", 10, "no total is called 'atempts'", "did you mean $attempts?"},
    {EXPR_SELECTION, "base='off'", 1, "'base' stands alone", "write @base for the field"},
    {EXPR_SELECTION, "@base=off", 7, "'off' stands alone", "write 'off' for a value"},
    {EXPR_SELECTION, "count(@base) > 1", 1, "no function is called 'count'", "the only function is not( )"},
    {EXPR_SELECTION, "@='off'", 1, "a name is expected after @", NULL},
    /* values */
    {EXPR_SELECTION, "@base='of'", 7, "@base has no value 'of'", "did you mean 'off'?"},
    {EXPR_SELECTION, "'of' = @base", 1, "@base has no value 'of'", "did you mean 'off'?"},
    {EXPR_SELECTION, "@base=\"wobbly\"", 7, "@base has no value 'wobbly'", VALUES_OF_BASE},
    {EXPR_SELECTION, "@motion='true'", 9, "@motion has no value 'true'", "its values are 'yes', 'no'"},
    /* types */
    {EXPR_SELECTION, "@depth='12'", 8, "@depth, a number compared with text", "write 12 without quotes"},
    {EXPR_SELECTION, "'x' != @depth", 1, "@depth, a number compared with text", "compare a number with a number"},
    {EXPR_SELECTION, "@drop=5", 7, "@drop, a choice compared with a number", "write '5' with quotes"},
    {EXPR_SELECTION, "2 = @base", 1, "@base, a choice compared with a number", VALUES_OF_BASE},
    {EXPR_SELECTION, "@base = @depth", 9, "@base, a choice compared with @depth, a number", VALUES_OF_BASE},
    {EXPR_SELECTION, "@base = @drop", 1, "@base and @drop have no value in common",
     "its values are '0', '1', '3', '5', '7', 'boot'"},
    {EXPR_SELECTION, "@pressure >= 'hurry'", 1, "@pressure is a choice, which has no more or less",
     "use = or !=, and join several values with or"},
    {EXPR_SELECTION, "@shell < @highs", 1, "@shell is a choice, which has no more or less",
     "use = or !=, and join several values with or"},
    {EXPR_SELECTION, "'a' = 'b'", 1, "two texts are compared", "one side must be a @field"},
    {EXPR_SELECTION, "(@depth > 2) = (@gain > 2)", 1, "a condition cannot be compared",
     "join conditions with and, or, not( )"},
    {EXPR_SELECTION, "1 < 2 < 3", 1, "a condition cannot be compared", "join conditions with and, or, not( )"},
    {EXPR_SELECTION, "@depth and @base='off'", 1, "a condition is needed here, not @depth, a number",
     "compare it with a number: @depth >= 1"},
    {EXPR_SELECTION, "@base='off' or @motion", 16, "a condition is needed here, not @motion, a choice",
     "compare it: @motion='yes'"},
    {EXPR_SELECTION, "not(@base)", 4, "a condition is needed here, not @base, a choice", "compare it: @base='set'"},
    {EXPR_SELECTION, "not(2)", 4, "a condition is needed here, not a number", "compare it with something"},
    {EXPR_SELECTION, "@depth + 2", 1, "a condition is needed here, not a number", "compare it with something"},
    {EXPR_ARITHMETIC, "@depth > 2", 1, "a number is needed here, not a condition", NULL},
    {EXPR_ARITHMETIC, "@base", 1, "a number is needed here, not @base, a choice", NULL},
    {EXPR_ARITHMETIC, "@depth + '5'", 10, "a number is needed here, not text", "write it without quotes"},
    {EXPR_ARITHMETIC, "-not(@depth > 2)", 2, "a number is needed here, not a condition", NULL},
    {EXPR_SELECTION, "(@base='off') + 1 > 2", 1, "a number is needed here, not a condition", NULL},
    {EXPR_SELECTION, "@spot > 20", 1, "@spot is a spot on the field, which cannot be compared or counted",
     "use @to-goal, the number behind it"},
    {EXPR_SELECTION, "@clock > 20", 1, "@clock is a time, which cannot be compared or counted", NULL},
    {EXPR_SELECTION, "@note='x'", 1, "@note is free text, which cannot be compared or counted",
     "only choices and numbers can be compared"},
    {EXPR_SELECTION, "@gain > $yards", 9, "a total cannot stand here",
     "totals stand in formulas; a snap has only @fields"},
    {EXPR_FORMULA, "$yards div @gain", 12, "a field cannot stand in a formula",
     "a formula is made of $totals and numbers"},
    {EXPR_FORMULA, "$yards > 2", 1, "a number is needed here, not a condition", NULL},
    /* grammar */
    {EXPR_SELECTION, "   ", 1, "the expression is empty", NULL},
    {EXPR_SELECTION, "@depth >", 9, "the expression ends where a field, value or number is expected", NULL},
    {EXPR_SELECTION, "@depth > )", 10, "a field, value or number is expected before ')'", NULL},
    {EXPR_SELECTION, "(@depth > 2", 1, "a ( without its )", NULL},
    {EXPR_SELECTION, "@depth > 2)", 11, "a ) without its (", NULL},
    {EXPR_SELECTION, "@base='off", 7, "a value without its closing quote", NULL},
    {EXPR_SELECTION, "@depth > 2 @gain", 12, "an operator is expected before '@gain'", "join conditions with and, or"},
    {EXPR_SELECTION, "@depth > 2 xor @gain > 1", 12, "an operator is expected before 'xor'",
     "the operators are and, or, div, + - *, = != < <= > >="},
    {EXPR_SELECTION, "@depth > 1e3", 11, "numbers are written without an exponent", NULL},
    {EXPR_SELECTION, "@depth == 1", 8, "'==' is not part of the language", "write one ="},
    {EXPR_SELECTION, "@depth <> 1", 8, "'<>' is not part of the language", "write !="},
    {EXPR_SELECTION, "@depth > 1 && @gain > 1", 12, "'&&' is not part of the language", "write and"},
    {EXPR_SELECTION, "!(@depth > 1)", 1, "'!' is not part of the language", "write not( ), or != between two values"},
    {EXPR_SELECTION, "@gain / 2 > 1", 7, "'/' is not part of the language", "write div to divide"},
    {EXPR_SELECTION, "@base=\xE2\x80\x98off\xE2\x80\x99", 7, "'\xE2\x80\x98' is not part of the language",
     "write straight quotes: '"},
    {EXPR_SELECTION, "@base[1]='off'", 6, "'[' is not part of the language", PARTS},
    {EXPR_SELECTION, "../@base='off'", 1, "'.' is not part of the language", PARTS},
    {EXPR_SELECTION, "* > 1", 1, "a field, value or number is expected before '*'", NULL},
    {EXPR_SELECTION, "#", 1, "'#' is not part of the language", PARTS},
};

/* The one finding, as "column: message" and "hint". */
static void expect(const Case *expected, const Profile *profile, Arena *arena) {
    Diagnostics *diagnostics = diag_new();
    Text text = {"case", expected->source, strlen(expected->source)};
    Place place = {&text, 0, text.length};
    Expr *expr = expr_compile(arena, profile, HELP_FIELDS, expected->kind, expected->source, place, diagnostics);
    if (expr) fail_msg("compiles: %s", expected->source);
    char *printed = NULL;
    size_t length;
    FILE *stream = open_memstream(&printed, &length);
    diag_print(diagnostics, stream, false);
    fclose(stream);
    const char *start =
        arena_printf(arena, "case:1:%zu: error: %s [expression]\n", expected->column, expected->message);
    const char *end = expected->hint ? arena_printf(arena, "hint: %s\n", expected->hint) : "\n";
    const char *hint = strstr(printed, "hint: ");
    if (strncmp(printed, start, strlen(start)) != 0 ||
        (expected->hint ? !hint || strcmp(hint, end) != 0 : hint != NULL)) {
        fail_msg("%s\n%s\nexpected\n%s%s", expected->source, printed, start, end);
    }
    assert_int_equal(diag_errors(diagnostics), 1);
    free(printed);
    diag_free(diagnostics);
}

static void each_error_says_what_and_where(void **state) {
    (void)state;
    Arena *arena = arena_new();
    const Profile *profile = help_profile(arena);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) expect(&cases[i], profile, arena);
    arena_free(arena);
}

static void later_fields_are_not_visible(void **state) {
    (void)state;
    Arena *arena = arena_new();
    const Profile *profile = help_profile(arena);
    Diagnostics *diagnostics = diag_new();
    Place none = {0};
    assert_null(expr_compile(arena, profile, HELP_DEPTH, EXPR_SELECTION, "@depth > 2", none, diagnostics));
    Buf json = {0};
    diag_json(diagnostics, &json);
    assert_non_null(strstr(buf_text(&json), "@depth is declared later"));
    buf_free(&json);
    assert_non_null(expr_compile(arena, profile, HELP_DEPTH + 1, EXPR_SELECTION, "@depth > 2", none, diagnostics));
    diag_free(diagnostics);
    arena_free(arena);
}

/* Reports the byte offset that a compile error of `raw`, whose expanded value is `source`, points to. */
static size_t offset_in_file(const char *raw, const char *source) {
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    const char *before = "<slice where='";
    const char *file = arena_printf(arena, "%s%s'/>", before, raw);
    Text text = {"file", file, strlen(file)};
    Place place = {&text, strlen(before), strlen(raw)};
    assert_null(expr_compile(arena, help_profile(arena), HELP_FIELDS, EXPR_SELECTION, source, place, diagnostics));
    Buf json = {0};
    diag_json(diagnostics, &json);
    const char *column = strstr(buf_text(&json), "\"column\": ");
    assert_non_null(column);
    size_t at = (size_t)strtoul(column + strlen("\"column\": "), NULL, 10) - 1 - strlen(before);
    buf_free(&json);
    diag_free(diagnostics);
    arena_free(arena);
    return at;
}

static void places_count_entities_as_written(void **state) {
    (void)state;
    const char *raw = "@gain &lt; 3 and @gain &gt; 1 and @bsae=&quot;off&quot;";
    assert_int_equal(offset_in_file(raw, "@gain < 3 and @gain > 1 and @bsae=\"off\""), strstr(raw, "@bsae") - raw);
    assert_int_equal(offset_in_file("&#64;bsae=1", "@bsae=1"), 0);
    assert_int_equal(offset_in_file("@gain = &#x27;a&#x27;", "@gain = 'a'"), strlen("@gain = "));
}

static void bounds_are_reported(void **state) {
    (void)state;
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    Place none = {0};
    const Profile *profile = help_profile(arena);
    for (int depth = 1; depth < 3000; depth = depth * 3) {
        Buf source = {0};
        for (int i = 0; i < depth; i++) buf_puts(&source, i % 2 ? "1+(" : "(");
        buf_puts(&source, "1");
        for (int i = 0; i < depth; i++) buf_puts(&source, ")");
        buf_puts(&source, " > 0");
        Expr *expr = expr_compile(arena, profile, HELP_FIELDS, EXPR_SELECTION, buf_text(&source), none, diagnostics);
        assert_int_equal(expr != NULL, depth < EXPR_MOST_DEPTH);
        buf_free(&source);
    }
    Buf source = {0};
    for (int i = 0; i < EXPR_MOST_BYTES / 2; i++) buf_puts(&source, "1 + ");
    buf_puts(&source, "1");
    assert_null(expr_compile(arena, profile, HELP_FIELDS, EXPR_ARITHMETIC, buf_text(&source), none, diagnostics));
    source.length = 0;
    for (int i = 0; i < 2000; i++) buf_puts(&source, "-");
    buf_puts(&source, "1");
    assert_null(expr_compile(arena, profile, HELP_FIELDS, EXPR_ARITHMETIC, buf_text(&source), none, diagnostics));
    buf_free(&source);
    diag_free(diagnostics);
    arena_free(arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_error_says_what_and_where),
        cmocka_unit_test(later_fields_are_not_visible),
        cmocka_unit_test(places_count_entities_as_written),
        cmocka_unit_test(bounds_are_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
