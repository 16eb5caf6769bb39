/* Runs a compiled expression: one step at a time over a block of rows, so that each step is one tight loop over arrays.
 */
#include <math.h>
#include <string.h>

#include "source/expr_parts.h"

/* A value of every row of the block. `number` is unused for truths, whose Truth stands in `state`. */
typedef struct Slot {
    double number[EXPR_BLOCK];
    uint8_t state[EXPR_BLOCK];
} Slot;

/* What the stack holds: a slot, or a column where it lies. */
typedef struct View {
    const double *number;
    const uint8_t *state;
} View;

typedef struct Machine {
    const Columns *columns;
    size_t first, count;
    size_t top; /* values on the stack */
    View stack[EXPR_MOST_SLOTS];
    Slot slots[EXPR_MOST_SLOTS];
} Machine;

typedef void (*StepRun)(Machine *machine, const Step *step);

/* Replaces the top `taken` values by the slot at their place, which is returned to be filled. A slot may be one of the
 * views taken: steps read and write row by row. */
static Slot *replace(Machine *machine, size_t taken) {
    machine->top -= taken;
    Slot *slot = &machine->slots[machine->top];
    machine->stack[machine->top++] = (View){slot->number, slot->state};
    return slot;
}

static View peek(const Machine *machine, size_t below) {
    return machine->stack[machine->top - 1 - below];
}

static void run_field(Machine *machine, const Step *step) {
    const Column *column = &machine->columns->columns[step->index];
    machine->stack[machine->top++] = (View){column->number + machine->first, column->state + machine->first};
}

static void run_number(Machine *machine, const Step *step) {
    Slot *slot = replace(machine, 0);
    for (size_t i = 0; i < machine->count; i++) slot->number[i] = step->number;
    memset(slot->state, VALUE_KNOWN, machine->count);
}

static void settle(Machine *machine, double not_applicable) {
    View from = peek(machine, 0);
    Slot *slot = replace(machine, 1);
    for (size_t i = 0; i < machine->count; i++) {
        slot->number[i] = from.state[i] == VALUE_NOT_APPLICABLE ? not_applicable : from.number[i];
        slot->state[i] = from.state[i] == VALUE_UNKNOWN ? VALUE_UNKNOWN : VALUE_KNOWN;
    }
}

static void run_to_number(Machine *machine, const Step *step) {
    (void)step;
    settle(machine, NAN);
}

static void run_to_zero(Machine *machine, const Step *step) {
    (void)step;
    settle(machine, 0);
}

static void run_negate(Machine *machine, const Step *step) {
    (void)step;
    View from = peek(machine, 0);
    Slot *slot = replace(machine, 1);
    for (size_t i = 0; i < machine->count; i++) {
        slot->number[i] = -from.number[i];
        slot->state[i] = from.state[i];
    }
}

/* Arithmetic with an unknown is unknown, but for NaN, which it stays whatever the unknown may be. */
static uint8_t joined_state(double a, uint8_t a_state, double b, uint8_t b_state) {
    bool sure = (a_state == VALUE_KNOWN && isnan(a)) || (b_state == VALUE_KNOWN && isnan(b));
    return !sure && (a_state | b_state) ? VALUE_UNKNOWN : VALUE_KNOWN;
}

#define ARITHMETIC(name, sign)                                                                                         \
    static void name(Machine *machine, const Step *step) {                                                             \
        (void)step;                                                                                                    \
        View a = peek(machine, 1), b = peek(machine, 0);                                                               \
        Slot *slot = replace(machine, 2);                                                                              \
        for (size_t i = 0; i < machine->count; i++) {                                                                  \
            slot->state[i] = joined_state(a.number[i], a.state[i], b.number[i], b.state[i]);                           \
            slot->number[i] = a.number[i] sign b.number[i];                                                            \
        }                                                                                                              \
    }

ARITHMETIC(run_add, +)
ARITHMETIC(run_subtract, -)
ARITHMETIC(run_multiply, *)
ARITHMETIC(run_divide, /)

/* Not applicable on either side: false, whatever the other is. Else unknown on either side: unknown. Without branches,
 * from the bits of ValueState (1 unknown, 2 not applicable) and Truth (2 unknown). */
static uint8_t compared(bool holds, uint8_t a_state, uint8_t b_state) {
    unsigned states = (unsigned)a_state | b_state;
    unsigned unknown = states & 1;
    unsigned truth = unknown << 1 | ((unsigned)holds & ~unknown);
    return (uint8_t)(truth & ((states >> 1) - 1));
}

#define COMPARISON(name, sign)                                                                                         \
    static void name(Machine *machine, const Step *step) {                                                             \
        (void)step;                                                                                                    \
        View a = peek(machine, 1), b = peek(machine, 0);                                                               \
        Slot *slot = replace(machine, 2);                                                                              \
        for (size_t i = 0; i < machine->count; i++) {                                                                  \
            slot->state[i] = compared(a.number[i] sign b.number[i], a.state[i], b.state[i]);                           \
        }                                                                                                              \
    }

COMPARISON(run_equal, ==)
COMPARISON(run_not_equal, !=)
COMPARISON(run_less, <)
COMPARISON(run_less_equal, <=)
COMPARISON(run_greater, >)
COMPARISON(run_greater_equal, >=)

/* Kleene's three-valued tables on the bits of Truth (1 true, 2 unknown, none false), without branches. */
static uint8_t both(unsigned a, unsigned b) {
    unsigned possible = (a | a >> 1) & (b | b >> 1) & 1;
    return (uint8_t)((a & b & 1) | ((a | b) & possible << 1));
}

static uint8_t either(unsigned a, unsigned b) {
    unsigned any = a | b;
    return (uint8_t)((any & 1) | (any & ~(any << 1) & 2));
}

static uint8_t negation(unsigned a) {
    return (uint8_t)((a & 2) | (~(a | a >> 1) & 1));
}

static void run_and(Machine *machine, const Step *step) {
    (void)step;
    View a = peek(machine, 1), b = peek(machine, 0);
    Slot *slot = replace(machine, 2);
    for (size_t i = 0; i < machine->count; i++) slot->state[i] = both(a.state[i], b.state[i]);
}

static void run_or(Machine *machine, const Step *step) {
    (void)step;
    View a = peek(machine, 1), b = peek(machine, 0);
    Slot *slot = replace(machine, 2);
    for (size_t i = 0; i < machine->count; i++) slot->state[i] = either(a.state[i], b.state[i]);
}

static void run_not(Machine *machine, const Step *step) {
    (void)step;
    View from = peek(machine, 0);
    Slot *slot = replace(machine, 1);
    for (size_t i = 0; i < machine->count; i++) slot->state[i] = negation(from.state[i]);
}

/* Totals are numbers of a dossier, not of a row: expr_formula alone knows them. */
static const StepRun step_runs[STEP_KIND_COUNT] = {
    [STEP_FIELD] = run_field,       [STEP_TOTAL] = run_number,
    [STEP_NUMBER] = run_number,     [STEP_TO_NUMBER] = run_to_number,
    [STEP_TO_ZERO] = run_to_zero,   [STEP_NEGATE] = run_negate,
    [STEP_ADD] = run_add,           [STEP_SUBTRACT] = run_subtract,
    [STEP_MULTIPLY] = run_multiply, [STEP_DIVIDE] = run_divide,
    [STEP_EQUAL] = run_equal,       [STEP_NOT_EQUAL] = run_not_equal,
    [STEP_LESS] = run_less,         [STEP_LESS_EQUAL] = run_less_equal,
    [STEP_GREATER] = run_greater,   [STEP_GREATER_EQUAL] = run_greater_equal,
    [STEP_AND] = run_and,           [STEP_OR] = run_or,
    [STEP_NOT] = run_not,
};

/* The result of rows [first, first + count), count at most EXPR_BLOCK. */
static View run_block(Machine *machine, const Expr *expr, size_t first, size_t count) {
    machine->first = first;
    machine->count = count;
    machine->top = 0;
    if (!expr->count) memset(replace(machine, 0), 0, sizeof(Slot)); /* no compiled program is empty */
    for (size_t i = 0; i < expr->count; i++) step_runs[expr->steps[i].kind](machine, &expr->steps[i]);
    return machine->stack[0];
}

static size_t block_size(size_t left) {
    return left < EXPR_BLOCK ? left : EXPR_BLOCK;
}

void expr_select(const Expr *expr, const Columns *columns, size_t first, size_t count, uint8_t *truth) {
    Machine machine;
    machine.columns = columns;
    for (size_t done = 0; done < count; done += EXPR_BLOCK) {
        size_t size = block_size(count - done);
        View result = run_block(&machine, expr, first + done, size);
        memcpy(truth + done, result.state, size);
    }
}

void expr_values(const Expr *expr, const Columns *columns, size_t first, size_t count, double *number, uint8_t *state) {
    Machine machine;
    machine.columns = columns;
    for (size_t done = 0; done < count; done += EXPR_BLOCK) {
        size_t size = block_size(count - done);
        View result = run_block(&machine, expr, first + done, size);
        for (size_t i = 0; i < size; i++) {
            bool known = result.state[i] == VALUE_KNOWN;
            bool nothing = known && isnan(result.number[i]);
            state[done + i] = nothing ? VALUE_NOT_APPLICABLE : result.state[i];
            number[done + i] = known && !nothing ? result.number[i] : 0;
        }
    }
}

static double apply(StepKind kind, double a, double b) {
    switch (kind) {
    case STEP_ADD:
        return a + b;
    case STEP_SUBTRACT:
        return a - b;
    case STEP_MULTIPLY:
        return a * b;
    default:
        return b == 0 ? NAN : a / b;
    }
}

double expr_formula(const Expr *expr, const double *totals) {
    double stack[EXPR_MOST_SLOTS] = {NAN};
    size_t top = 0;
    for (size_t i = 0; i < expr->count; i++) {
        const Step *step = &expr->steps[i];
        if (step->kind == STEP_TOTAL) {
            stack[top++] = totals[step->index];
        } else if (step->kind == STEP_NUMBER) {
            stack[top++] = step->number;
        } else if (step->kind == STEP_NEGATE) {
            stack[top - 1] = -stack[top - 1];
        } else {
            top--;
            stack[top - 1] = apply(step->kind, stack[top - 1], stack[top]);
        }
    }
    return isfinite(stack[0]) ? stack[0] : NAN;
}
