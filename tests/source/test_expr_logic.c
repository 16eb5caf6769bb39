/* Unknown and not applicable: Kleene's tables, soundness against every way an unknown could have been charted,
 * formulas. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "source/expr.h"
#include "source/help_expr.h"

typedef struct World {
    Arena *arena;
    const Profile *profile;
    Diagnostics *diagnostics;
} World;

static int world_begin(void **state) {
    World *world = calloc(1, sizeof *world);
    world->arena = arena_new();
    world->profile = help_profile(world->arena);
    world->diagnostics = diag_new();
    *state = world;
    return 0;
}

static int world_end(void **state) {
    World *world = *state;
    diag_free(world->diagnostics);
    arena_free(world->arena);
    free(world);
    return 0;
}

static Expr *compile(World *world, ExprKind kind, const char *source) {
    Place none = {0};
    Expr *expr = expr_compile(world->arena, world->profile, HELP_FIELDS, kind, source, none, world->diagnostics);
    if (!expr) fail_msg("does not compile: %s", source);
    return expr;
}

static void set(Columns *columns, int field, size_t row, int state, double number) {
    columns->columns[field].state[row] = (uint8_t)state;
    columns->columns[field].number[row] = number;
}

/* ---- Kleene 1952, Introduction to Metamathematics, section 64: the strong tables ---- */

static void connectives_follow_kleene(void **state) {
    World *world = *state;
    enum { F = TRUTH_FALSE, T = TRUTH_TRUE, U = TRUTH_UNKNOWN };
    static const uint8_t both[3][3] = {{F, F, F}, {F, T, U}, {F, U, U}};
    static const uint8_t either[3][3] = {{F, T, U}, {T, T, T}, {U, T, U}};
    static const uint8_t negated[3] = {T, F, U};
    Columns columns = help_columns(world->arena, 9);
    for (size_t row = 0; row < 9; row++) { /* depth > 0 and gain > 0 stand for the two truths */
        size_t truths[2] = {row / 3, row % 3};
        int fields[2] = {HELP_DEPTH, HELP_GAIN};
        for (size_t i = 0; i < 2; i++) {
            set(&columns, fields[i], row, truths[i] == U ? VALUE_UNKNOWN : VALUE_KNOWN, truths[i] == T ? 1 : -1);
        }
    }
    uint8_t ands[9], ors[9], nots[9];
    expr_select(compile(world, EXPR_SELECTION, "@depth > 0 and @gain > 0"), &columns, 0, 9, ands);
    expr_select(compile(world, EXPR_SELECTION, "@depth > 0 or @gain > 0"), &columns, 0, 9, ors);
    expr_select(compile(world, EXPR_SELECTION, "not(@depth > 0)"), &columns, 0, 9, nots);
    for (size_t row = 0; row < 9; row++) {
        assert_int_equal(ands[row], both[row / 3][row % 3]);
        assert_int_equal(ors[row], either[row / 3][row % 3]);
        assert_int_equal(nots[row], negated[row / 3]);
    }
}

/* ---- single comparisons ---- */

static Truth truth_of(World *world, const Columns *columns, const char *source) {
    uint8_t truth;
    expr_select(compile(world, EXPR_SELECTION, source), columns, 0, 1, &truth);
    return truth;
}

static void not_applicable_is_false_in_any_comparison(void **state) {
    static const char *const comparisons[] = {"@depth = 0", "@depth != 0",   "@depth < 5",      "@depth >= -5",
                                              "0 = @depth", "(@depth) != 7", "@depth != @gain", "@gain <= @depth"};
    World *world = *state;
    Columns columns = help_columns(world->arena, 1);
    set(&columns, HELP_DEPTH, 0, VALUE_NOT_APPLICABLE, 0);
    for (size_t i = 0; i < sizeof comparisons / sizeof *comparisons; i++) {
        assert_int_equal(truth_of(world, &columns, comparisons[i]), TRUTH_FALSE);
    }
    set(&columns, HELP_GAIN, 0, VALUE_UNKNOWN, 0);
    assert_int_equal(truth_of(world, &columns, "@depth != @gain"), TRUTH_FALSE);
    assert_int_equal(truth_of(world, &columns, "not(@depth = @gain)"), TRUTH_TRUE);
    /* arithmetic makes it NaN, which differs from everything */
    assert_int_equal(truth_of(world, &columns, "@depth + 1 != 5"), TRUTH_TRUE);
    assert_int_equal(truth_of(world, &columns, "-@depth = 0"), TRUTH_FALSE);
    assert_int_equal(truth_of(world, &columns, "@depth + @gain > 0"), TRUTH_FALSE);
}

static void words_compare_by_what_was_charted(void **state) {
    World *world = *state;
    Columns columns = help_columns(world->arena, 1);
    double one = world->profile->fields[HELP_SHELL].values[1].word;
    double two = world->profile->fields[HELP_SHELL].values[2].word;
    set(&columns, HELP_SHELL, 0, VALUE_KNOWN, one);
    set(&columns, HELP_HIGHS, 0, VALUE_KNOWN, two);
    assert_int_equal(truth_of(world, &columns, "@shell != @highs"), TRUTH_TRUE);
    set(&columns, HELP_HIGHS, 0, VALUE_KNOWN, one);
    assert_int_equal(truth_of(world, &columns, "@shell != @highs"), TRUTH_FALSE);
    set(&columns, HELP_HIGHS, 0, VALUE_UNKNOWN, one);
    assert_int_equal(truth_of(world, &columns, "@shell != @highs"), TRUTH_UNKNOWN);
    set(&columns, HELP_MOTION, 0, VALUE_KNOWN, world->profile->no);
    assert_int_equal(truth_of(world, &columns, "@motion='no'"), TRUTH_TRUE);
    assert_int_equal(truth_of(world, &columns, "@motion='yes'"), TRUTH_FALSE);
}

/* ---- numbers ---- */

typedef struct NumberCase {
    ExprKind kind;
    const char *source;
    int depth, gain; /* ValueState; 10 and 4 where known */
    int state;
    double number;
} NumberCase;

static void numbers_carry_their_state(void **state) {
    enum { K = VALUE_KNOWN, U = VALUE_UNKNOWN, N = VALUE_NOT_APPLICABLE };
    static const NumberCase cases[] = {
        {EXPR_CALC, "@depth - @gain", K, K, K, 6},
        {EXPR_CALC, "@depth - @gain", K, N, K, 10},
        {EXPR_CALC, "@depth - @gain", N, K, K, -4},
        {EXPR_CALC, "@depth - @gain", U, N, U, 0},
        {EXPR_CALC, "@depth", N, K, K, 0},
        {EXPR_CALC, "@depth * @gain", U, K, U, 0},
        {EXPR_ARITHMETIC, "@depth", K, K, K, 10},
        {EXPR_ARITHMETIC, "@depth", N, K, N, 0},
        {EXPR_ARITHMETIC, "@depth", U, K, U, 0},
        {EXPR_ARITHMETIC, "@depth + @gain", K, N, N, 0},
        {EXPR_ARITHMETIC, "@depth + @gain", U, N, N, 0},
        {EXPR_ARITHMETIC, "@depth + @gain", U, K, U, 0},
        {EXPR_ARITHMETIC, "@gain div @depth", K, K, K, .4},
        {EXPR_ARITHMETIC, "0 div 0", K, K, N, 0},
        {EXPR_ARITHMETIC, "-(@depth)", U, K, U, 0},
        {EXPR_ARITHMETIC, "@depth div @depth + @gain", U, K, U, 0},
    };
    World *world = *state;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        Columns columns = help_columns(world->arena, 1);
        set(&columns, HELP_DEPTH, 0, cases[i].depth, 10);
        set(&columns, HELP_GAIN, 0, cases[i].gain, 4);
        double number;
        uint8_t number_state;
        expr_values(compile(world, cases[i].kind, cases[i].source), &columns, 0, 1, &number, &number_state);
        if (number_state != cases[i].state || number != cases[i].number) {
            fail_msg("case %zu, %s: state %d, number %g", i, cases[i].source, number_state, number);
        }
    }
}

static void formulas_add_totals(void **state) {
    World *world = *state;
    const char *source = "(8.4 * $yards + 330 * $touchdowns + 100 * $completions - 200 * $interceptions) div $attempts";
    const double totals[] = {72, 46, 436, 2, 1, 0};
    const double none[] = {0, 0, 0, 0, 0, 0};
    Expr *expr = compile(world, EXPR_FORMULA, source);
    assert_true(fabs(expr_formula(expr, totals) - (8.4 * 436 + 330 * 2 + 100 * 46 - 200) / 72) < 1e-12);
    assert_true(isnan(expr_formula(expr, none)));
    assert_true(isnan(expr_formula(compile(world, EXPR_FORMULA, "1 div (1 div $c)"), none)));
    assert_true(expr_formula(compile(world, EXPR_FORMULA, "-$yards - -2"), totals) == -434);
    assert_true(expr_totals(expr) == 0x1f);
    assert_true(expr_totals(compile(world, EXPR_FORMULA, "$c - 200")) == 0x20);
}

static void fields_used_are_known(void **state) {
    World *world = *state;
    Expr *expr = compile(world, EXPR_SELECTION, "@base='off' and @depth > @gain");
    assert_true(expr_uses_field(expr, HELP_BASE) && expr_uses_field(expr, HELP_DEPTH) &&
                expr_uses_field(expr, HELP_GAIN));
    assert_false(expr_uses_field(expr, HELP_SHELL));
}

/* ---- soundness: row 0 has unknown fields; every other row is one way they could have been charted ---- */

enum { UNKNOWNS = 4, CHOICES = 4, COMPLETIONS = 4 * 4 * 3 * 4, EXPRESSIONS = 6000 };

static const int unknown_fields[UNKNOWNS] = {HELP_BASE, HELP_PRESSURE, HELP_MOTION, HELP_DEPTH};

/* The last choice is always "does not apply". */
static const size_t choice_counts[UNKNOWNS] = {4, 4, 3, 4};

static double charted_value(const Profile *profile, int field, size_t choice) {
    if (field == HELP_DEPTH) return (double)choice * 2 - 1;
    if (field == HELP_MOTION) return choice ? profile->yes : profile->no;
    return profile->fields[field].values[choice].word;
}

static Columns completions(World *world) {
    Columns columns = help_columns(world->arena, COMPLETIONS + 1);
    for (size_t u = 0, stride = 1; u < UNKNOWNS; stride *= choice_counts[u++]) {
        int field = unknown_fields[u];
        set(&columns, field, 0, VALUE_UNKNOWN, 0);
        for (size_t row = 0; row < COMPLETIONS; row++) {
            size_t choice = row / stride % choice_counts[u];
            if (choice + 1 == choice_counts[u]) {
                set(&columns, field, row + 1, VALUE_NOT_APPLICABLE, 0);
            } else {
                set(&columns, field, row + 1, VALUE_KNOWN, charted_value(world->profile, field, choice));
            }
        }
    }
    for (size_t row = 0; row <= COMPLETIONS; row++) set(&columns, HELP_GAIN, row, VALUE_KNOWN, 3);
    for (size_t row = 0; row <= COMPLETIONS; row++) set(&columns, HELP_CONTACT, row, VALUE_NOT_APPLICABLE, 0);
    return columns;
}

static void put_condition(Dice *roll, Buf *out, int depth) {
    static const char *const atoms[] = {
        "@base='off'",
        "@base!='set'",
        "@pressure='none'",
        "@pressure!='hit'",
        "@motion='yes'",
        "@depth > 0",
        "@depth != 1",
        "@depth + 1 > @gain",
        "@gain = 3",
        "@contact > 0",
        "-@depth != 4",
        "@depth = @depth",
        "@depth + @contact != 2",
        "@contact != @depth",
        "@depth * 0 = 0",
        "0 div 0 != @depth",
        "@contact + 1 > @depth",
        "@contact + 1 != @depth + 2",
    };
    unsigned choice = dice(roll, depth > 0 ? 5 : 1);
    if (choice == 0) {
        buf_puts(out, atoms[dice(roll, sizeof atoms / sizeof *atoms)]);
        return;
    }
    buf_puts(out, choice == 1 ? "not(" : "(");
    put_condition(roll, out, depth - 1);
    if (choice > 1) buf_puts(out, dice(roll, 2) ? " and " : " or ");
    if (choice > 1) put_condition(roll, out, depth - 1);
    buf_puts(out, ")");
}

static void a_known_answer_holds_however_the_unknown_is_charted(void **state) {
    World *world = *state;
    Columns columns = completions(world);
    Dice roll = {UINT64_C(77)};
    int known = 0, unknown = 0;
    for (int i = 0; i < EXPRESSIONS; i++) {
        Buf source = {0};
        put_condition(&roll, &source, (int)dice(&roll, 5));
        uint8_t truth[COMPLETIONS + 1];
        expr_select(compile(world, EXPR_SELECTION, buf_text(&source)), &columns, 0, COMPLETIONS + 1, truth);
        *(truth[0] == TRUTH_UNKNOWN ? &unknown : &known) += 1;
        for (size_t row = 1; row <= COMPLETIONS; row++) {
            if (truth[row] == TRUTH_UNKNOWN) fail_msg("unknown though all is charted: %s", buf_text(&source));
            if (truth[0] != TRUTH_UNKNOWN && truth[row] != truth[0]) fail_msg("row %zu: %s", row, buf_text(&source));
        }
        buf_free(&source);
    }
    assert_true(known > EXPRESSIONS / 10 && unknown > EXPRESSIONS / 4);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(connectives_follow_kleene),
        cmocka_unit_test(not_applicable_is_false_in_any_comparison),
        cmocka_unit_test(words_compare_by_what_was_charted),
        cmocka_unit_test(numbers_carry_their_state),
        cmocka_unit_test(formulas_add_totals),
        cmocka_unit_test(fields_used_are_known),
        cmocka_unit_test(a_known_answer_holds_however_the_unknown_is_charted),
    };
    return cmocka_run_group_tests(tests, world_begin, world_end);
}
