/* The expression compiler: the first byte chooses the kind, the rest is the source. What compiles is run over columns
 * of every state. */
#include <string.h>

#include "fuzz/help_fuzz.h"
#include "source/expr.h"

enum { ROWS = 9 };

static const Columns *columns_of(Arena *arena, const Profile *profile) {
    Columns *columns = ARENA_NEW(arena, Columns);
    *columns = (Columns){.rows = ROWS, .count = profile->field_count};
    columns->columns = ARENA_ARRAY(arena, profile->field_count, Column);
    for (size_t i = 0; i < profile->field_count; i++) {
        Column *column = &columns->columns[i];
        column->number = ARENA_ARRAY(arena, ROWS, double);
        column->state = ARENA_ARRAY(arena, ROWS, uint8_t);
        for (size_t row = 0; row < ROWS; row++) {
            column->number[row] = (double)((i * 7 + row) % 11) - 3;
            column->state[row] = (uint8_t)((i + row) % 3);
        }
    }
    return columns;
}

static void run(Arena *arena, const Profile *profile, const Expr *expr, ExprKind kind) {
    double number[ROWS], totals[64] = {0};
    uint8_t state[ROWS];
    const Columns *columns = columns_of(arena, profile);
    if (kind == EXPR_SELECTION) expr_select(expr, columns, 0, ROWS, state);
    if (kind == EXPR_ARITHMETIC || kind == EXPR_CALC) expr_values(expr, columns, 0, ROWS, number, state);
    if (kind == EXPR_FORMULA) (void)expr_formula(expr, totals);
    for (size_t i = 0; kind == EXPR_SELECTION && i < ROWS; i++) {
        if (state[i] > TRUTH_UNKNOWN) __builtin_trap();
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    if (length == 0) return 0;
    const Profile *profile = fuzz_profile();
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    ExprKind kind = (ExprKind)(bytes[0] % (EXPR_FORMULA + 1));
    Text text = {"expression", arena_copy(arena, (const char *)bytes + 1, length - 1), length - 1};
    Place place = {&text, 0, length - 1};
    const Expr *expr = expr_compile(arena, profile, profile->field_count, kind, text.bytes, place, diagnostics);
    if (expr) run(arena, profile, expr, kind);
    if (!expr && !diag_errors(diagnostics)) __builtin_trap(); /* refused without a word */
    fuzz_finish(diagnostics);
    arena_free(arena);
    return 0;
}
