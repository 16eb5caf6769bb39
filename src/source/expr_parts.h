/* Inside of the expression compiler: tokens, the types of values, the program. Only expr*.c include this. */
#ifndef TB_SOURCE_EXPR_PARTS_H
#define TB_SOURCE_EXPR_PARTS_H

#include "base/buf.h"
#include "source/expr.h"
#include "source/profile.h"

typedef enum TokenKind {
    TOKEN_END,
    TOKEN_FIELD, /* @name */
    TOKEN_TOTAL, /* $name */
    TOKEN_NUMBER,
    TOKEN_STRING,
    TOKEN_NAME, /* a name where an operand may stand: a function */
    TOKEN_OPEN,
    TOKEN_CLOSE,
    TOKEN_OR,
    TOKEN_AND,
    TOKEN_EQUAL,
    TOKEN_NOT_EQUAL,
    TOKEN_LESS,
    TOKEN_LESS_EQUAL,
    TOKEN_GREATER,
    TOKEN_GREATER_EQUAL,
    TOKEN_PLUS,
    TOKEN_MINUS,
    TOKEN_TIMES,
    TOKEN_DIV
} TokenKind;

typedef struct Token {
    TokenKind kind;
    size_t at, end;   /* bytes of the expression */
    const char *text; /* name or contents of a string */
    double number;
} Token;

/* The program is postfix: each step takes its operands from the top of a stack and leaves one value there. */
typedef enum StepKind {
    STEP_FIELD,     /* index: of the field; not-applicable stays so */
    STEP_TOTAL,     /* index: of the total */
    STEP_NUMBER,    /* number */
    STEP_TO_NUMBER, /* not applicable becomes NaN */
    STEP_TO_ZERO,   /* not applicable becomes 0 */
    STEP_NEGATE,
    STEP_ADD,
    STEP_SUBTRACT,
    STEP_MULTIPLY,
    STEP_DIVIDE,
    STEP_EQUAL,
    STEP_NOT_EQUAL,
    STEP_LESS,
    STEP_LESS_EQUAL,
    STEP_GREATER,
    STEP_GREATER_EQUAL,
    STEP_AND,
    STEP_OR,
    STEP_NOT,
    STEP_KIND_COUNT
} StepKind;

typedef struct Step {
    StepKind kind;
    int index;
    double number;
} Step;

/* EXPR_MOST_SLOTS bounds how many values wait on the stack; EXPR_BLOCK rows are done at a time. */
enum { EXPR_MOST_SLOTS = 72, EXPR_BLOCK = 256 };

struct Expr {
    const Step *steps;
    size_t count;
};

typedef enum OperandType { OPERAND_CONDITION, OPERAND_NUMBER, OPERAND_CHOICE, OPERAND_TEXT } OperandType;

/* What a part of the expression stands for while compiling. */
typedef struct Value {
    OperandType type;
    const Field *field;  /* a bare field, else NULL */
    const char *literal; /* a text literal or a number literal as written, else NULL */
    size_t at, end;      /* bytes of the expression */
    size_t step;         /* the step that pushes it, of a literal */
} Operand;

typedef struct Compiler {
    Arena *arena;
    const Profile *profile;
    size_t visible;
    ExprKind kind;
    const char *source;
    Place place;
    Diagnostics *diagnostics;
    Token token;         /* the one looked at */
    size_t at;           /* after it */
    bool operand_before; /* the token before it ends an operand: names are operators (XPath 1.0, 3.7) */
    Buf steps;
    size_t depth; /* of nesting */
    size_t slots; /* values waiting after the steps so far */
} Compiler;

/* Reports an error at bytes [at, end) of the expression; always false. */
bool expr_fail(Compiler *compiler, size_t at, size_t end, const char *hint, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* Moves to the next token; false after a report. */
bool expr_next(Compiler *compiler);

/* Appends a step; false after a report when too much waits on the stack. */
bool expr_emit(Compiler *compiler, StepKind kind, int index, double number);

/* Type checks: each is false after a report. */
bool expr_check_condition(Compiler *compiler, const Operand *value);
bool expr_check_number(Compiler *compiler, const Operand *value);
/* Also gives a text literal the number of the word it stands for. */
bool expr_check_comparison(Compiler *compiler, TokenKind sign, const Operand *left, const Operand *right);

/* What a name stands for; false after a report with the nearest spelling. */
bool expr_find_field(Compiler *compiler, const Token *token, const Field **field);
bool expr_find_total(Compiler *compiler, const Token *token, int *total);

#endif
