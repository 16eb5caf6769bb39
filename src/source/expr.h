/* Selections and arithmetic: a typed subset of XPath 1.0 compiled against a profile and run over columns.
 *
 *   selection   @base='off' and @depth >= 10        true, false or unknown of each snap
 *   arithmetic  @gain - @contact                    a number of each snap
 *   formula     (8.4 * $yards + 330 * $touchdowns) div $attempts    one number from named totals
 *
 * Grammar (XPath 1.0 precedence): or; and; = !=; < <= > >=; + -; * div; unary -; not(…), (…), @field, $total, number,
 * 'string'. Meaning follows XPath 1.0 on an element whose not-applicable attributes are missing: a comparison with a
 * missing attribute is false, arithmetic with it is NaN. Where a field is unknown, three-valued logic of Kleene
 * decides. In a `calc` (EXPR_CALC) a not-applicable term counts 0. */
#ifndef TB_SOURCE_EXPR_H
#define TB_SOURCE_EXPR_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/diag.h"
#include "source/columns.h"

typedef struct Expr Expr;
struct Profile;

typedef enum ExprKind { EXPR_SELECTION, EXPR_ARITHMETIC, EXPR_CALC, EXPR_FORMULA } ExprKind;

/* Truth of one snap. */
typedef enum Truth { TRUTH_FALSE, TRUTH_TRUE, TRUTH_UNKNOWN } Truth;

enum { EXPR_MOST_DEPTH = 64, EXPR_MOST_BYTES = 4096 };

/* Compiles `source` (zero-terminated, as it stands in the attribute after entity expansion). `place` is where its value
 * begins in the file; errors point into it and name the nearest spelling. NULL after a report.
 * Fields and totals are looked up in `profile`, which must outlive the result. Fields whose index is not below
 * `visible_fields` are unknown here (so that a derived field uses only earlier ones). */
Expr *expr_compile(Arena *arena, const struct Profile *profile, size_t visible_fields, ExprKind kind,
                   const char *source, Place place, Diagnostics *diagnostics) __attribute__((warn_unused_result));

/* Truth of rows [first, first + count) into `truth`. */
void expr_select(const Expr *expr, const Columns *columns, size_t first, size_t count, uint8_t *truth);

/* Value and state of rows [first, first + count); a NaN result is stored as VALUE_NOT_APPLICABLE. */
void expr_values(const Expr *expr, const Columns *columns, size_t first, size_t count, double *number, uint8_t *state);

/* The formula from totals by index of Profile.totals; NaN when it divides by zero. */
double expr_formula(const Expr *expr, const double *totals);

/* Which totals the formula uses, as a bit set by index (a profile has at most 64 totals). */
uint64_t expr_totals(const Expr *expr);

bool expr_uses_field(const Expr *expr, int field);

/* The numbers that stand in the expression, those of words included; returns how many. `numbers` may be NULL. */
size_t expr_numbers(const Expr *expr, double *numbers);

#endif
