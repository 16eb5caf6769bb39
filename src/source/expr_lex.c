/* Tokens of an expression, by the rules of XPath 1.0 section 3.7: a name takes every '-' and '.' it can reach, and a
 * name after an operand is an operator. */
#include <string.h>

#include "base/text.h"
#include "source/expr_parts.h"

static const char parts_hint[] = "an expression is made of @fields, $totals, 'values', numbers, = != < <= > >=, "
                                 "and, or, not( ), + - * div and parentheses";

typedef struct Sign {
    const char *text;
    TokenKind kind;
    const char *hint; /* not part of the language: what to write instead */
} Sign;

/* Longer signs stand before their beginnings. */
static const Sign signs[] = {
    {"==", TOKEN_END, "write one ="},
    {"=<", TOKEN_END, "write <="},
    {"=>", TOKEN_END, "write >="},
    {"<>", TOKEN_END, "write !="},
    {"&&", TOKEN_END, "write and"},
    {"||", TOKEN_END, "write or"},
    {"!=", TOKEN_NOT_EQUAL, NULL},
    {"<=", TOKEN_LESS_EQUAL, NULL},
    {">=", TOKEN_GREATER_EQUAL, NULL},
    {"=", TOKEN_EQUAL, NULL},
    {"<", TOKEN_LESS, NULL},
    {">", TOKEN_GREATER, NULL},
    {"+", TOKEN_PLUS, NULL},
    {"-", TOKEN_MINUS, NULL},
    {"*", TOKEN_TIMES, NULL},
    {"(", TOKEN_OPEN, NULL},
    {")", TOKEN_CLOSE, NULL},
    {"//", TOKEN_END, "an expression speaks of one snap; it cannot look at others"},
    {"/", TOKEN_END, "write div to divide"},
    {"!", TOKEN_END, "write not( ), or != between two values"},
    {"≠", TOKEN_END, "write !="},
    {"≤", TOKEN_END, "write <="},
    {"≥", TOKEN_END, "write >="},
    {"−", TOKEN_END, "write -"},
    {"–", TOKEN_END, "write -"},
    {"‘", TOKEN_END, "write straight quotes: '"},
    {"’", TOKEN_END, "write straight quotes: '"},
    {"“", TOKEN_END, "write straight quotes: '"},
    {"”", TOKEN_END, "write straight quotes: '"},
};

static bool is_space(char byte) {
    return byte == ' ' || byte == '\t' || byte == '\n' || byte == '\r';
}

static bool is_digit(char byte) {
    return byte >= '0' && byte <= '9';
}

static bool starts_name(char byte) {
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || byte == '_';
}

static bool goes_on_name(char byte) {
    return starts_name(byte) || is_digit(byte) || byte == '-' || byte == '.';
}

static size_t skip_space(const char *source, size_t at) {
    while (is_space(source[at])) at++;
    return at;
}

static size_t skip_digits(const char *source, size_t at) {
    while (is_digit(source[at])) at++;
    return at;
}

static size_t skip_name(const char *source, size_t at) {
    while (goes_on_name(source[at])) at++;
    return at;
}

/* `prefix` is 0 where no sign introduces the name. */
static bool lex_name(Compiler *compiler, Token *token, TokenKind kind, size_t prefix) {
    size_t from = token->at + prefix;
    if (kind == TOKEN_FIELD) from = skip_space(compiler->source, from);
    if (!starts_name(compiler->source[from])) {
        return expr_fail(compiler, token->at, from, NULL, "a name is expected after %c", compiler->source[token->at]);
    }
    token->kind = kind;
    token->end = skip_name(compiler->source, from);
    token->text = arena_copy(compiler->arena, compiler->source + from, token->end - from);
    return true;
}

static bool lex_operator_name(Compiler *compiler, Token *token) {
    static const struct {
        const char *name;
        TokenKind kind;
    } operators[] = {{"and", TOKEN_AND}, {"or", TOKEN_OR}, {"div", TOKEN_DIV}};
    if (!lex_name(compiler, token, TOKEN_NAME, 0)) return false;
    for (size_t i = 0; i < sizeof operators / sizeof *operators; i++) {
        if (strcmp(token->text, operators[i].name) != 0) continue;
        token->kind = operators[i].kind;
        return true;
    }
    bool touches = token->at > 0 && is_digit(compiler->source[token->at - 1]);
    bool exponent = touches && (token->text[0] == 'e' || token->text[0] == 'E');
    if (exponent) return expr_fail(compiler, token->at, token->end, NULL, "numbers are written without an exponent");
    return expr_fail(compiler, token->at, token->end,
                     "the operators are and, or, div, + - *, = != < <= > >=", "an operator is expected before '%s'",
                     token->text);
}

static bool lex_number(Compiler *compiler, Token *token) {
    size_t whole = skip_digits(compiler->source, token->at);
    size_t end = whole;
    if (compiler->source[whole] == '.') end = skip_digits(compiler->source, whole + 1);
    token->kind = TOKEN_NUMBER;
    token->end = end;
    token->text = arena_copy(compiler->arena, compiler->source + token->at, end - token->at);
    /* XPath also writes .5 and 5. */
    const char *before = whole == token->at ? "0" : "";
    const char *after = end == whole + 1 ? "0" : "";
    const char *plain = arena_printf(compiler->arena, "%s%s%s", before, token->text, after);
    if (text_number(plain, &token->number)) return true;
    return expr_fail(compiler, token->at, end, NULL, "%s cannot be read as a number", token->text);
}

static bool lex_string(Compiler *compiler, Token *token) {
    const char *from = compiler->source + token->at + 1;
    const char *end = strchr(from, compiler->source[token->at]);
    if (!end) return expr_fail(compiler, token->at, token->at + 1, NULL, "a value without its closing quote");
    token->kind = TOKEN_STRING;
    token->end = (size_t)(end - compiler->source) + 1;
    token->text = arena_copy(compiler->arena, from, (size_t)(end - from));
    return true;
}

static bool lex_sign(Compiler *compiler, Token *token) {
    const char *at = compiler->source + token->at;
    const char *hint = parts_hint;
    size_t length = 0;
    for (size_t i = 0; i < sizeof signs / sizeof *signs && !length; i++) {
        if (strncmp(at, signs[i].text, strlen(signs[i].text)) != 0) continue;
        length = strlen(signs[i].text);
        token->kind = signs[i].kind;
        token->end = token->at + length;
        if (!signs[i].hint) return true;
        hint = signs[i].hint;
    }
    if (!length) (void)text_decode(at, at + strlen(at), &length);
    return expr_fail(compiler, token->at, token->at + length, hint, "'%.*s' is not part of the language", (int)length,
                     at);
}

static bool ends_operand(TokenKind kind) {
    return kind == TOKEN_FIELD || kind == TOKEN_TOTAL || kind == TOKEN_NUMBER || kind == TOKEN_STRING ||
           kind == TOKEN_CLOSE;
}

static bool lex(Compiler *compiler, Token *token) {
    const char *at = compiler->source + token->at;
    if (!*at) return true;
    if (*at == '@') return lex_name(compiler, token, TOKEN_FIELD, 1);
    if (*at == '$') return lex_name(compiler, token, TOKEN_TOTAL, 1);
    if (*at == '\'' || *at == '"') return lex_string(compiler, token);
    if (is_digit(*at) || (*at == '.' && is_digit(at[1]))) return lex_number(compiler, token);
    if (!starts_name(*at)) return lex_sign(compiler, token);
    return compiler->operand_before ? lex_operator_name(compiler, token) : lex_name(compiler, token, TOKEN_NAME, 0);
}

bool expr_next(Compiler *compiler) {
    Token token = {.kind = TOKEN_END, .text = ""};
    token.at = token.end = skip_space(compiler->source, compiler->at);
    if (!lex(compiler, &token)) return false;
    compiler->token = token;
    compiler->at = token.end;
    compiler->operand_before = ends_operand(token.kind);
    return true;
}
