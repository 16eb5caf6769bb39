/* Random expressions give the answers of libxml2's own XPath 1.0 engine on the same snaps written as elements. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <libxml/parser.h>
#include <libxml/xpath.h>

#include "source/expr.h"
#include "source/help_expr.h"

enum {
    SNAPS = 300, /* more than a block */
    SNAPS_EACH = 40,
    SELECTIONS = 12000,
    SUMS = 6000,
    MOST_DEPTH = 4
};

typedef struct World {
    Arena *arena;
    const Profile *profile;
    Columns columns;
    Diagnostics *diagnostics;
    xmlDocPtr document;
    xmlXPathContextPtr context;
    xmlNodePtr *snaps;
    Dice dice;
} World;

/* ---- the snaps, twice ---- */

static double random_value(World *world, const Field *field) {
    if (field->type == FIELD_YESNO) return dice(&world->dice, 2) ? world->profile->yes : world->profile->no;
    if (field->value_count) return field->values[dice(&world->dice, (unsigned)field->value_count)].word;
    double number = (double)dice(&world->dice, 25) - 8;
    return dice(&world->dice, 4) ? number : number + 0.25 * dice(&world->dice, 4);
}

static void fill(World *world) {
    for (size_t f = 0; f < HELP_LAST_PLAIN; f++) {
        Column *column = &world->columns.columns[f];
        for (size_t row = 0; row < SNAPS; row++) {
            column->number[row] = random_value(world, &world->profile->fields[f]);
            if (dice(&world->dice, 6) == 0) column->state[row] = VALUE_NOT_APPLICABLE;
        }
    }
}

static void write_snap(World *world, size_t row, Buf *xml) {
    buf_puts(xml, "<snap");
    for (size_t f = 0; f < HELP_LAST_PLAIN; f++) {
        const Field *field = &world->profile->fields[f];
        const Column *column = &world->columns.columns[f];
        if (column->state[row] != VALUE_KNOWN) continue;
        bool words = field->value_count || field->type == FIELD_YESNO;
        if (words) buf_printf(xml, " %s='%s'", field->id, world->profile->words[(int)column->number[row]]);
        if (!words) buf_printf(xml, " %s='%.17g'", field->id, column->number[row]);
    }
    buf_puts(xml, "/>");
}

static void write_document(World *world) {
    Buf xml = {0};
    buf_puts(&xml, "<chart>");
    for (size_t row = 0; row < SNAPS; row++) write_snap(world, row, &xml);
    buf_puts(&xml, "</chart>");
    world->document = xmlReadMemory(xml.bytes, (int)xml.length, "chart", NULL, XML_PARSE_NONET);
    buf_free(&xml);
    world->context = xmlXPathNewContext(world->document);
    world->snaps = ARENA_ARRAY(world->arena, SNAPS, xmlNodePtr);
    xmlNodePtr node = xmlDocGetRootElement(world->document)->children;
    for (size_t row = 0; row < SNAPS; row++, node = node->next) world->snaps[row] = node;
}

static int world_begin(void **state) {
    World *world = calloc(1, sizeof *world);
    world->arena = arena_new();
    world->profile = help_profile(world->arena);
    world->columns = help_columns(world->arena, SNAPS);
    world->diagnostics = diag_new();
    world->dice.state = UINT64_C(20311118);
    fill(world);
    write_document(world);
    *state = world;
    return 0;
}

static int world_end(void **state) {
    World *world = *state;
    xmlXPathFreeContext(world->context);
    xmlFreeDoc(world->document);
    xmlCleanupParser();
    diag_free(world->diagnostics);
    arena_free(world->arena);
    free(world);
    return 0;
}

/* ---- random expressions ---- */

static void gap(World *world, Buf *out) {
    if (dice(&world->dice, 2)) buf_puts(out, dice(&world->dice, 5) ? " " : "\t\n ");
}

static const Field *random_field(World *world, size_t first, size_t end) {
    return &world->profile->fields[first + dice(&world->dice, (unsigned)(end - first))];
}

static void put_constant(World *world, Buf *out, bool tenths) {
    static const char *const odd[] = {".5", "5.", "0.25", "1.75", "007", "12.50"};
    unsigned choice = dice(&world->dice, 8);
    if (choice == 0) {
        buf_puts(out, odd[dice(&world->dice, sizeof odd / sizeof *odd)]);
    } else if (choice == 1 && tenths) {
        buf_printf(out, "%u.%u", dice(&world->dice, 20), dice(&world->dice, 10));
    } else {
        buf_printf(out, "%u", dice(&world->dice, 14));
    }
}

static void put_number(World *world, Buf *out, int depth, bool tenths) {
    static const char *const signs[] = {" + ", " - ", "*", " * ", " div ", "+"};
    unsigned choice = dice(&world->dice, depth > 0 ? 10 : 5);
    if (choice < 4) {
        buf_puts(out, "@");
        buf_puts(out, random_field(world, HELP_DEPTH, HELP_LAST_PLAIN)->id);
    } else if (choice == 4) {
        put_constant(world, out, tenths);
    } else if (choice == 5) {
        buf_puts(out, dice(&world->dice, 3) ? "-" : "- ");
        put_number(world, out, depth - 1, tenths);
    } else if (choice == 6) {
        buf_puts(out, "(");
        gap(world, out);
        put_number(world, out, depth - 1, tenths);
        gap(world, out);
        buf_puts(out, ")");
    } else {
        put_number(world, out, depth - 1, tenths);
        buf_puts(out, signs[dice(&world->dice, sizeof signs / sizeof *signs)]);
        put_number(world, out, depth - 1, tenths);
    }
}

static void put_literal(World *world, Buf *out, const Field *field) {
    const char *quote = dice(&world->dice, 2) ? "'" : "\"";
    const char *value = dice(&world->dice, 2) ? "yes" : "no";
    if (field->value_count) value = field->values[dice(&world->dice, (unsigned)field->value_count)].id;
    buf_printf(out, "%s%s%s", quote, value, quote);
}

static void put_choice_comparison(World *world, Buf *out) {
    const char *sign = dice(&world->dice, 3) ? "=" : "!=";
    if (dice(&world->dice, 6) == 0) {
        buf_printf(out, "@shell %s @highs", sign);
        return;
    }
    const Field *field = random_field(world, HELP_BASE, HELP_DEPTH);
    bool swapped = dice(&world->dice, 4) == 0;
    if (swapped) {
        put_literal(world, out, field);
        gap(world, out);
        buf_puts(out, sign);
    }
    buf_printf(out, "@%s", field->id);
    gap(world, out);
    if (swapped) return;
    buf_puts(out, sign);
    gap(world, out);
    put_literal(world, out, field);
}

static void put_number_comparison(World *world, Buf *out, int depth) {
    static const char *const signs[] = {"=", "!=", "<", "<=", ">", ">="};
    put_number(world, out, dice(&world->dice, 2) ? 0 : depth, false);
    gap(world, out);
    buf_puts(out, signs[dice(&world->dice, sizeof signs / sizeof *signs)]);
    gap(world, out);
    put_number(world, out, dice(&world->dice, 2) ? 0 : depth, false);
}

static void put_condition(World *world, Buf *out, int depth) {
    unsigned choice = dice(&world->dice, depth > 0 ? 11 : 4);
    if (choice < 2) {
        put_choice_comparison(world, out);
    } else if (choice < 4) {
        put_number_comparison(world, out, depth);
    } else if (choice < 7) {
        bool negated = choice == 6 || dice(&world->dice, 2);
        buf_puts(out, negated ? "not" : "");
        if (negated) gap(world, out);
        buf_puts(out, "(");
        put_condition(world, out, depth - 1);
        gap(world, out);
        buf_puts(out, ")");
    } else {
        put_condition(world, out, depth - 1);
        buf_puts(out, dice(&world->dice, 2) ? " and " : " or ");
        put_condition(world, out, depth - 1);
    }
}

/* ---- the comparison ---- */

static Expr *compile(World *world, ExprKind kind, const char *source) {
    Place none = {0};
    Expr *expr = expr_compile(world->arena, world->profile, HELP_FIELDS, kind, source, none, world->diagnostics);
    if (expr) return expr;
    diag_print(world->diagnostics, stderr, false);
    fail_msg("does not compile: %s", source);
    return NULL;
}

static xmlXPathObjectPtr ask(World *world, xmlXPathCompExprPtr xpath, size_t row) {
    world->context->node = world->snaps[row];
    return xmlXPathCompiledEval(xpath, world->context);
}

/* True rows among those compared. */
static int compare_selection(World *world, const char *source) {
    Expr *expr = compile(world, EXPR_SELECTION, source);
    xmlXPathCompExprPtr xpath = xmlXPathCompile((const xmlChar *)source);
    if (!xpath) fail_msg("not XPath: %s", source);
    uint8_t truth[SNAPS];
    expr_select(expr, &world->columns, 0, SNAPS, truth);
    int holds = 0;
    size_t first = dice(&world->dice, SNAPS);
    for (size_t i = 0; i < SNAPS_EACH; i++) {
        size_t row = (first + i) % SNAPS;
        xmlXPathObjectPtr answer = ask(world, xpath, row);
        if (!answer || answer->type != XPATH_BOOLEAN || truth[row] != answer->boolval) {
            fail_msg("row %zu: ours %d, theirs %d: %s", row, truth[row], answer ? answer->boolval : -1, source);
        }
        holds += answer->boolval;
        xmlXPathFreeObject(answer);
    }
    xmlXPathFreeCompExpr(xpath);
    return holds;
}

static void selections_answer_as_xpath_does(void **state) {
    World *world = *state;
    int mixed = 0;
    for (int i = 0; i < SELECTIONS; i++) {
        Buf source = {0};
        put_condition(world, &source, (int)dice(&world->dice, MOST_DEPTH + 1));
        int holds = compare_selection(world, buf_text(&source));
        mixed += holds > 0 && holds < SNAPS_EACH;
        buf_free(&source);
    }
    assert_true(mixed > SELECTIONS / 2); /* or the comparison would say little */
}

static bool same_number(double a, double b) {
    if (isnan(a) || isnan(b)) return isnan(a) && isnan(b);
    return a == b || fabs(a - b) <= 1e-12 * fmax(1, fmax(fabs(a), fabs(b)));
}

static void compare_sum(World *world, const char *source, int *numbers, int *nothings) {
    Expr *expr = compile(world, EXPR_ARITHMETIC, source);
    xmlXPathCompExprPtr xpath = xmlXPathCompile((const xmlChar *)source);
    if (!xpath) fail_msg("not XPath: %s", source);
    double number[SNAPS];
    uint8_t states[SNAPS];
    expr_values(expr, &world->columns, 0, SNAPS, number, states);
    for (size_t row = 0; row < SNAPS_EACH; row++) {
        xmlXPathObjectPtr answer = ask(world, xpath, row);
        double theirs = xmlXPathCastToNumber(answer);
        double ours = states[row] == VALUE_KNOWN ? number[row] : NAN;
        assert_int_not_equal(states[row], VALUE_UNKNOWN);
        if (!same_number(ours, theirs)) fail_msg("row %zu: ours %.17g, theirs %.17g: %s", row, ours, theirs, source);
        *(isnan(theirs) ? nothings : numbers) += 1;
        xmlXPathFreeObject(answer);
    }
    xmlXPathFreeCompExpr(xpath);
}

static void sums_answer_as_xpath_does(void **state) {
    World *world = *state;
    int numbers = 0, nothings = 0;
    for (int i = 0; i < SUMS; i++) {
        Buf source = {0};
        put_number(world, &source, (int)dice(&world->dice, MOST_DEPTH + 2), true);
        compare_sum(world, buf_text(&source), &numbers, &nothings);
        buf_free(&source);
    }
    assert_true(numbers > SUMS * SNAPS_EACH / 3);
    assert_true(nothings > SUMS * SNAPS_EACH / 20);
}

/* Cases that random expressions seldom make. */
static void corners_answer_as_xpath_does(void **state) {
    static const char *const corners[] = {
        "@depth - 3 > 2",
        "@depth -3 > 2",
        "3-2-1 = 0 and @depth=@depth",
        "@depth*@gain>4",
        "4div 2=2 and not(@depth<0)",
        "- - @depth = @depth",
        "--@depth != @depth",
        "@depth + 0 != @depth + 0",
        "@depth != @depth",
        "@depth != 0 div 0",
        "0 div 0 != 0 div 0",
        "1 div 0 > @depth",
        "1 div -0 < @depth",
        "@base='set'and@depth>1",
        "@base='set'or(@depth>1)",
        "not(@depth >= 3 or @gain >= 3) and not (@motion = 'yes')",
        "@depth div @gain * 2 = @depth div (@gain * 2)",
        "@ depth > 2",
        "\n@depth\n>\t2\n",
        "(((@base)))=(('off'))",
        "(@depth) != 3",
    };
    World *world = *state;
    for (size_t i = 0; i < sizeof corners / sizeof *corners; i++) compare_selection(world, corners[i]);
}

/* The result must not depend on where a block begins. */
static void any_stretch_of_rows_gives_the_same(void **state) {
    World *world = *state;
    Expr *expr = compile(world, EXPR_SELECTION, "@depth > @gain and not(@base='off')");
    uint8_t whole[SNAPS], part[SNAPS];
    expr_select(expr, &world->columns, 0, SNAPS, whole);
    for (size_t first = 0; first < SNAPS; first += 7) {
        expr_select(expr, &world->columns, first, SNAPS - first, part);
        assert_memory_equal(part, whole + first, SNAPS - first);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(corners_answer_as_xpath_does),
        cmocka_unit_test(selections_answer_as_xpath_does),
        cmocka_unit_test(sums_answer_as_xpath_does),
        cmocka_unit_test(any_stretch_of_rows_gives_the_same),
    };
    return cmocka_run_group_tests(tests, world_begin, world_end);
}
