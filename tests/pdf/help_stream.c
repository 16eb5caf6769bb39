#include "pdf/help_stream.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

enum { DEEPEST = 32, MOST_OPERANDS = 4096, MOST_ITEMS = 65536 };

typedef struct Token {
    const char *at;
    size_t length;
} Token;

typedef struct Sequence {
    bool artifact;
    int item; /* -1: none */
    bool in_text;
} Sequence;

typedef struct Reader {
    const char *at, *end;
    StreamReport *report;
    Sequence open[DEEPEST];
    int depth;
    bool in_text;
    Token operands[MOST_OPERANDS];
    int operand_count;
} Reader;

static void fault(Reader *reader, const char *what, Token token) {
    buf_printf(reader->report->faults, "%s: %s: %.*s\n", reader->report->where, what, (int)token.length, token.at);
    reader->report->fault_count++;
}

static bool is_space(char byte) {
    return byte == ' ' || byte == '\n' || byte == '\r' || byte == '\t' || byte == '\f' || byte == '\0';
}

static bool is_delimiter(char byte) {
    return strchr("()<>[]{}/%", byte) != NULL;
}

static const char *past_literal(const char *at, const char *end) {
    int depth = 0;
    for (; at < end; at++) {
        if (*at == '\\')
            at++;
        else if (*at == '(')
            depth++;
        else if (*at == ')' && --depth == 0)
            return at + 1;
    }
    return end;
}

static const char *past_regular(const char *at, const char *end) {
    while (at < end && !is_space(*at) && !is_delimiter(*at)) at++;
    return at;
}

/* A dictionary or an array is read as one token, brackets balanced. */
static const char *past_nested(const char *at, const char *end) {
    int depth = 0;
    while (at < end) {
        if (*at == '(') {
            at = past_literal(at, end);
            continue;
        }
        if (*at == '[' || *at == '<') depth++;
        if (*at == ']' || *at == '>') depth--;
        at++;
        if (!depth) return at;
    }
    return end;
}

static bool next_token(Reader *reader, Token *token) {
    while (reader->at < reader->end && is_space(*reader->at)) reader->at++;
    if (reader->at == reader->end) return false;
    token->at = reader->at;
    if (*reader->at == '(')
        reader->at = past_literal(reader->at, reader->end);
    else if (*reader->at == '[' || *reader->at == '<')
        reader->at = past_nested(reader->at, reader->end);
    else if (*reader->at == '/')
        reader->at = past_regular(reader->at + 1, reader->end);
    else
        reader->at = past_regular(reader->at, reader->end);
    if (reader->at == token->at) reader->at++;
    token->length = (size_t)(reader->at - token->at);
    return true;
}

static bool is_word(Token token, const char *word) {
    return token.length == strlen(word) && !memcmp(token.at, word, token.length);
}

static bool is_number(Token token) {
    size_t digits = 0, dots = 0;
    for (size_t at = 0; at < token.length; at++) {
        if (token.at[at] >= '0' && token.at[at] <= '9')
            digits++;
        else if (token.at[at] == '.')
            dots++;
        else if (at || (token.at[at] != '-' && token.at[at] != '+'))
            return false;
    }
    return digits && dots < 2;
}

static bool is_operand(Token token) {
    return strchr("/([<", token.at[0]) || is_number(token) || is_word(token, "true") || is_word(token, "false");
}

static Token operand(const Reader *reader, int back) {
    return reader->operand_count >= back ? reader->operands[reader->operand_count - back] : (Token){"", 0};
}

static int item_of(Token properties) {
    static const char key[] = "/MCID";
    const char *found = memmem(properties.at, properties.length, key, sizeof key - 1);
    return found ? atoi(found + sizeof key - 1) : -1;
}

static void begin_marked(Reader *reader, Token token) {
    bool has_properties = is_word(token, "BDC");
    Token tag = operand(reader, has_properties ? 2 : 1);
    if (reader->depth == DEEPEST) {
        fault(reader, "marked content too deep", token);
        return;
    }
    Sequence *sequence = &reader->open[reader->depth++];
    *sequence =
        (Sequence){is_word(tag, "/Artifact"), has_properties ? item_of(operand(reader, 1)) : -1, reader->in_text};
    if (reader->depth > 1) fault(reader, "marked content within marked content", tag);
    if (sequence->item < 0 || sequence->item >= MOST_ITEMS) return;
    if (sequence->artifact) fault(reader, "an artifact with a content item", tag);
    if (reader->report->items[sequence->item]++) fault(reader, "a content item that begins twice", operand(reader, 1));
    if (sequence->item >= reader->report->item_end) reader->report->item_end = sequence->item + 1;
}

static void end_marked(Reader *reader, Token token) {
    if (!reader->depth) {
        fault(reader, "an end without a beginning", token);
        return;
    }
    if (reader->open[--reader->depth].in_text != reader->in_text)
        fault(reader, "marked content across text objects", token);
}

static void begin_text(Reader *reader, Token token) {
    if (reader->in_text) fault(reader, "a text object within a text object", token);
    reader->in_text = true;
}

static void end_text(Reader *reader, Token token) {
    if (!reader->in_text) fault(reader, "no text object to end", token);
    if (reader->depth && reader->open[reader->depth - 1].in_text) fault(reader, "marked content still open", token);
    reader->in_text = false;
}

static void paint(Reader *reader, Token token) {
    if (!reader->depth)
        fault(reader, "painted outside marked content", token);
    else if (!reader->open[0].artifact && reader->open[0].item < 0)
        fault(reader, "neither artifact nor content", token);
    bool is_text = token.at[0] == 'T';
    if (is_text != reader->in_text) fault(reader, "painted on the wrong side of a text object", token);
}

static void nothing(Reader *reader, Token token) {
    (void)reader;
    (void)token;
}

/* Text state may be set anywhere; positions only within a text object. */
static void move_text(Reader *reader, Token token) {
    if (!reader->in_text) fault(reader, "moved outside a text object", token);
}

static const struct {
    const char *name;
    int operands;
    void (*take)(Reader *reader, Token token);
} operators[] = {
    {"BT", 0, begin_text},  {"ET", 0, end_text},  {"BMC", 1, begin_marked}, {"BDC", 2, begin_marked},
    {"EMC", 0, end_marked}, {"Tj", 1, paint},     {"TJ", 1, paint},         {"f", 0, paint},
    {"S", 0, paint},        {"s", 0, paint},      {"B", 0, paint},          {"b", 0, paint},
    {"Td", 2, move_text},   {"Tm", 6, move_text}, {"Tf", 2, nothing},       {"Tw", 1, nothing},
    {"Tc", 1, nothing},     {"Ts", 1, nothing},   {"g", 1, nothing},        {"G", 1, nothing},
    {"rg", 3, nothing},     {"RG", 3, nothing},   {"w", 1, nothing},        {"d", 2, nothing},
    {"m", 2, nothing},      {"l", 2, nothing},    {"c", 6, nothing},        {"re", 4, nothing},
};

static void take_operator(Reader *reader, Token token) {
    for (size_t at = 0; at < sizeof operators / sizeof *operators; at++) {
        if (!is_word(token, operators[at].name)) continue;
        if (reader->operand_count != operators[at].operands) fault(reader, "a wrong number of operands", token);
        operators[at].take(reader, token);
        return;
    }
    fault(reader, "not an operator", token);
}

void stream_check(const char *bytes, size_t length, StreamReport *report) {
    Reader *reader = calloc(1, sizeof *reader);
    if (!reader) abort();
    reader->at = bytes;
    reader->end = bytes + length;
    reader->report = report;
    for (Token token; next_token(reader, &token);) {
        if (!is_operand(token)) {
            take_operator(reader, token);
            reader->operand_count = 0;
        } else if (reader->operand_count < MOST_OPERANDS) {
            reader->operands[reader->operand_count++] = token;
        }
    }
    Token end = {"end", 3};
    if (reader->depth) fault(reader, "marked content never ends", end);
    if (reader->in_text) fault(reader, "text never ends", end);
    free(reader);
}
