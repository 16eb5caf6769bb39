/* Recursive descent over the expression; each part leaves its steps in the program and says what it stands for. */
#include "source/expr.h"

#include <stdarg.h>
#include <string.h>

#include "base/text.h"
#include "source/expr_parts.h"

/* ---- places ---- */

/* Bytes that one character of a value takes in the file: an entity and CR LF each become one character. */
static size_t raw_character(const char *at, const char *end) {
    if (*at == '&') {
        const char *semicolon = memchr(at, ';', (size_t)(end - at));
        return semicolon ? (size_t)(semicolon - at) + 1 : 1;
    }
    if (*at == '\r' && end - at > 1 && at[1] == '\n') return 2;
    size_t length;
    (void)text_decode(at, end, &length);
    return length;
}

static size_t raw_offset(const Compiler *compiler, size_t at) {
    Place place = compiler->place;
    if (place.length == strlen(compiler->source) || place.offset + place.length > place.text->length)
        return place.offset + at;
    const char *raw = place.text->bytes + place.offset;
    const char *end = raw + place.length;
    const char *value = compiler->source;
    for (const char *stop = value + at; value < stop && raw < end; raw += raw_character(raw, end)) {
        size_t length;
        (void)text_decode(value, compiler->source + strlen(compiler->source), &length);
        value += length;
    }
    return (size_t)(raw - place.text->bytes);
}

static Place place_of(const Compiler *compiler, size_t at, size_t end) {
    if (!compiler->place.text) return compiler->place;
    size_t from = raw_offset(compiler, at);
    size_t to = raw_offset(compiler, end);
    return (Place){compiler->place.text, from, to > from ? to - from : 1};
}

bool expr_fail(Compiler *compiler, size_t at, size_t end, const char *hint, const char *format, ...) {
    va_list args;
    va_start(args, format);
    const char *message = arena_vprintf(compiler->arena, format, args);
    va_end(args);
    diag_report(compiler->diagnostics, RULE_EXPRESSION, place_of(compiler, at, end), hint, "%s", message);
    return false;
}

/* ---- the program ---- */

static int stack_effect(StepKind kind) {
    switch (kind) {
    case STEP_FIELD:
    case STEP_TOTAL:
    case STEP_NUMBER:
        return 1;
    case STEP_TO_NUMBER:
    case STEP_TO_ZERO:
    case STEP_NEGATE:
    case STEP_NOT:
        return 0;
    default:
        return -1;
    }
}

bool expr_emit(Compiler *compiler, StepKind kind, int index, double number) {
    Step step = {kind, index, number};
    buf_put(&compiler->steps, &step, sizeof step);
    compiler->slots += (size_t)stack_effect(kind);
    if (compiler->slots <= EXPR_MOST_SLOTS) return true;
    return expr_fail(compiler, compiler->token.at, compiler->token.end, "split it into derived fields",
                     "the expression is nested too deeply");
}

static size_t last_step(const Compiler *compiler) {
    return compiler->steps.length / sizeof(Step) - 1;
}

/* A bare field where a number is needed: what not applicable counts is settled here. */
static bool make_number(Compiler *compiler, Operand *value) {
    if (!expr_check_number(compiler, value)) return false;
    if (!value->field) return true;
    value->field = NULL;
    return expr_emit(compiler, compiler->kind == EXPR_CALC ? STEP_TO_ZERO : STEP_TO_NUMBER, 0, 0);
}

/* ---- operands ---- */

static bool parse_binary(Compiler *compiler, int level, Operand *value);

static bool enter(Compiler *compiler) {
    if (++compiler->depth <= EXPR_MOST_DEPTH) return true;
    return expr_fail(compiler, compiler->token.at, compiler->token.end, "split it into derived fields",
                     "the expression is nested more than %d deep", (int)EXPR_MOST_DEPTH);
}

/* From '(' to after its ')'. */
static bool parse_parentheses(Compiler *compiler, Operand *value) {
    size_t open = compiler->token.at;
    if (!expr_next(compiler) || !parse_binary(compiler, 0, value)) return false;
    if (compiler->token.kind != TOKEN_CLOSE) return expr_fail(compiler, open, open + 1, NULL, "a ( without its )");
    value->at = open;
    value->end = compiler->token.end;
    return expr_next(compiler);
}

static bool parse_function(Compiler *compiler, Operand *value) {
    Token name = compiler->token;
    if (!expr_next(compiler)) return false;
    if (compiler->token.kind != TOKEN_OPEN) {
        bool field = profile_field(compiler->profile, name.text) >= 0;
        const char *written = arena_printf(compiler->arena, field ? "@%s" : "'%s'", name.text);
        const char *hint = arena_printf(compiler->arena, "write %s for %s", written, field ? "the field" : "a value");
        return expr_fail(compiler, name.at, name.end, hint, "'%s' stands alone", name.text);
    }
    if (!text_equal(name.text, "not")) {
        return expr_fail(compiler, name.at, name.end, "the only function is not( )", "no function is called '%s'",
                         name.text);
    }
    if (!parse_parentheses(compiler, value) || !expr_check_condition(compiler, value)) return false;
    value->at = name.at;
    return expr_emit(compiler, STEP_NOT, 0, 0);
}

static bool parse_field(Compiler *compiler, Operand *value) {
    const Field *field;
    if (!expr_find_field(compiler, &compiler->token, &field)) return false;
    bool number = field->type == FIELD_NUMBER || field->type == FIELD_DISTANCE;
    value->type = number ? OPERAND_NUMBER : OPERAND_CHOICE;
    value->field = field;
    return expr_emit(compiler, STEP_FIELD, (int)(field - compiler->profile->fields), 0) && expr_next(compiler);
}

static bool parse_total(Compiler *compiler, Operand *value) {
    int total;
    if (!expr_find_total(compiler, &compiler->token, &total)) return false;
    value->type = OPERAND_NUMBER;
    return expr_emit(compiler, STEP_TOTAL, total, 0) && expr_next(compiler);
}

static bool parse_literal(Compiler *compiler, Operand *value) {
    value->type = compiler->token.kind == TOKEN_STRING ? OPERAND_TEXT : OPERAND_NUMBER;
    value->literal = compiler->token.text;
    if (!expr_emit(compiler, STEP_NUMBER, 0, compiler->token.number)) return false;
    value->step = last_step(compiler);
    return expr_next(compiler);
}

static bool operand_missing(Compiler *compiler) {
    const Token *token = &compiler->token;
    if (token->kind != TOKEN_END) {
        return expr_fail(compiler, token->at, token->end, NULL, "a field, value or number is expected before '%.*s'",
                         (int)(token->end - token->at), compiler->source + token->at);
    }
    if (token->at == 0 || !compiler->steps.length)
        return expr_fail(compiler, 0, token->end, NULL, "the expression is empty");
    return expr_fail(compiler, token->at, token->at, NULL,
                     "the expression ends where a field, value or number is expected");
}

static bool parse_primary(Compiler *compiler, Operand *value) {
    const Token token = compiler->token;
    *value = (Operand){.at = token.at, .end = token.end};
    switch (token.kind) {
    case TOKEN_OPEN:
        return parse_parentheses(compiler, value);
    case TOKEN_NAME:
        return parse_function(compiler, value);
    case TOKEN_FIELD:
        return parse_field(compiler, value);
    case TOKEN_TOTAL:
        return parse_total(compiler, value);
    case TOKEN_STRING:
    case TOKEN_NUMBER:
        return parse_literal(compiler, value);
    default:
        return operand_missing(compiler);
    }
}

static bool parse_unary(Compiler *compiler, Operand *value) {
    if (!enter(compiler)) return false;
    size_t at = compiler->token.at;
    bool negative = compiler->token.kind == TOKEN_MINUS;
    if (negative) {
        if (!expr_next(compiler) || !parse_unary(compiler, value) || !make_number(compiler, value)) return false;
        if (!expr_emit(compiler, STEP_NEGATE, 0, 0)) return false;
        *value = (Operand){.type = OPERAND_NUMBER, .at = at, .end = value->end};
    } else if (!parse_primary(compiler, value)) {
        return false;
    }
    compiler->depth--;
    return true;
}

/* ---- binary operators, loosest first ---- */

typedef struct Binary {
    TokenKind token;
    StepKind step;
    int level;
} Binary;

enum { LEVEL_OR, LEVEL_AND, LEVEL_EQUALITY, LEVEL_ORDER, LEVEL_SUM, LEVEL_PRODUCT, LEVEL_UNARY };

static const Binary binaries[] = {
    {TOKEN_OR, STEP_OR, LEVEL_OR},
    {TOKEN_AND, STEP_AND, LEVEL_AND},
    {TOKEN_EQUAL, STEP_EQUAL, LEVEL_EQUALITY},
    {TOKEN_NOT_EQUAL, STEP_NOT_EQUAL, LEVEL_EQUALITY},
    {TOKEN_LESS, STEP_LESS, LEVEL_ORDER},
    {TOKEN_LESS_EQUAL, STEP_LESS_EQUAL, LEVEL_ORDER},
    {TOKEN_GREATER, STEP_GREATER, LEVEL_ORDER},
    {TOKEN_GREATER_EQUAL, STEP_GREATER_EQUAL, LEVEL_ORDER},
    {TOKEN_PLUS, STEP_ADD, LEVEL_SUM},
    {TOKEN_MINUS, STEP_SUBTRACT, LEVEL_SUM},
    {TOKEN_TIMES, STEP_MULTIPLY, LEVEL_PRODUCT},
    {TOKEN_DIV, STEP_DIVIDE, LEVEL_PRODUCT},
};

static const Binary *binary_at(TokenKind token, int level) {
    for (size_t i = 0; i < sizeof binaries / sizeof *binaries; i++) {
        if (binaries[i].token == token && binaries[i].level == level) return &binaries[i];
    }
    return NULL;
}

static bool prepare_left(Compiler *compiler, const Binary *binary, Operand *left) {
    if (binary->level <= LEVEL_AND) return expr_check_condition(compiler, left);
    return binary->level < LEVEL_SUM || make_number(compiler, left);
}

static bool join(Compiler *compiler, const Binary *binary, Operand *left, Operand *right) {
    bool fits;
    if (binary->level <= LEVEL_AND) {
        fits = expr_check_condition(compiler, right);
    } else if (binary->level < LEVEL_SUM) {
        fits = expr_check_comparison(compiler, binary->token, left, right);
    } else {
        fits = make_number(compiler, right);
    }
    if (!fits) return false;
    OperandType type = binary->level < LEVEL_SUM ? OPERAND_CONDITION : OPERAND_NUMBER;
    *left = (Operand){.type = type, .at = left->at, .end = right->end};
    return expr_emit(compiler, binary->step, 0, 0);
}

static bool parse_binary(Compiler *compiler, int level, Operand *value) {
    if (level == LEVEL_UNARY) return parse_unary(compiler, value);
    if (!parse_binary(compiler, level + 1, value)) return false;
    for (const Binary *binary; (binary = binary_at(compiler->token.kind, level));) {
        Operand right;
        if (!prepare_left(compiler, binary, value)) return false;
        if (!expr_next(compiler) || !parse_binary(compiler, level + 1, &right)) return false;
        if (!join(compiler, binary, value, &right)) return false;
    }
    return true;
}

/* ---- the whole ---- */

static bool parse_whole(Compiler *compiler) {
    Operand value;
    size_t length = strlen(compiler->source);
    if (length > EXPR_MOST_BYTES) {
        return expr_fail(compiler, 0, length, NULL, "the expression is longer than %d bytes", (int)EXPR_MOST_BYTES);
    }
    if (!expr_next(compiler) || !parse_binary(compiler, 0, &value)) return false;
    const Token *token = &compiler->token;
    if (token->kind == TOKEN_CLOSE) return expr_fail(compiler, token->at, token->end, NULL, "a ) without its (");
    if (token->kind != TOKEN_END) {
        return expr_fail(compiler, token->at, token->end, "join conditions with and, or",
                         "an operator is expected before '%.*s'", (int)(token->end - token->at),
                         compiler->source + token->at);
    }
    return compiler->kind == EXPR_SELECTION ? expr_check_condition(compiler, &value) : make_number(compiler, &value);
}

Expr *expr_compile(Arena *arena, const struct Profile *profile, size_t visible_fields, ExprKind kind,
                   const char *source, Place place, Diagnostics *diagnostics) {
    Compiler compiler = {.arena = arena,
                         .profile = profile,
                         .visible = visible_fields,
                         .kind = kind,
                         .source = source,
                         .place = place,
                         .diagnostics = diagnostics};
    Expr *expr = NULL;
    if (parse_whole(&compiler)) {
        expr = ARENA_NEW(arena, Expr);
        expr->count = compiler.steps.length / sizeof(Step);
        Step *steps = ARENA_ARRAY(arena, expr->count, Step);
        memcpy(steps, compiler.steps.bytes, compiler.steps.length);
        expr->steps = steps;
    }
    buf_free(&compiler.steps);
    return expr;
}

uint64_t expr_totals(const Expr *expr) {
    uint64_t totals = 0;
    for (size_t i = 0; i < expr->count; i++) {
        if (expr->steps[i].kind == STEP_TOTAL) totals |= UINT64_C(1) << expr->steps[i].index;
    }
    return totals;
}

bool expr_uses_field(const Expr *expr, int field) {
    for (size_t i = 0; i < expr->count; i++) {
        if (expr->steps[i].kind == STEP_FIELD && expr->steps[i].index == field) return true;
    }
    return false;
}

size_t expr_numbers(const Expr *expr, double *numbers) {
    size_t count = 0;
    for (size_t i = 0; i < expr->count; i++) {
        if (expr->steps[i].kind != STEP_NUMBER) continue;
        if (numbers) numbers[count] = expr->steps[i].number;
        count++;
    }
    return count;
}
