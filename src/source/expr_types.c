/* Names and types of an expression against the profile. Each check reports the first thing wrong, where it is, and what
 * was probably meant: plain XPath would answer no to all of it without a word. */
#include <string.h>

#include "base/text.h"
#include "source/expr_parts.h"

enum { LIST_MOST = 12 };

static const Field *reader_of(const Compiler *compiler, const Field *field) {
    const Profile *profile = compiler->profile;
    int index = (int)(field - profile->fields);
    for (size_t i = 0; i < compiler->visible && i < profile->field_count; i++) {
        if (profile->fields[i].derived == DERIVED_READ && profile->fields[i].from == index) return &profile->fields[i];
    }
    return NULL;
}

/* ---- names ---- */

/* The hint for a name that took a minus sign with it, or NULL. */
static const char *swallowed_minus(Compiler *compiler, const Token *token, int (*find)(const Profile *, const char *)) {
    for (const char *minus = strchr(token->text, '-'); minus; minus = strchr(minus + 1, '-')) {
        const char *before = arena_copy(compiler->arena, token->text, (size_t)(minus - token->text));
        if (find(compiler->profile, before) < 0) continue;
        return arena_printf(compiler->arena, "write spaces around the minus: %c%s - %s", compiler->source[token->at],
                            before, minus + 1);
    }
    return NULL;
}

static const char *nearest_name(Compiler *compiler, const Token *token, const char *const *names, size_t count) {
    const char *near = text_nearest(token->text, names, count);
    return near ? arena_printf(compiler->arena, "did you mean %c%s?", compiler->source[token->at], near) : NULL;
}

static bool field_unknown(Compiler *compiler, const Token *token, int index) {
    if (index >= 0) {
        return expr_fail(compiler, token->at, token->end, "only fields declared before this one can be used here",
                         "@%s is declared later", token->text);
    }
    const Profile *profile = compiler->profile;
    size_t count = compiler->visible < profile->field_count ? compiler->visible : profile->field_count;
    const char **names = ARENA_ARRAY(compiler->arena, count, const char *);
    for (size_t i = 0; i < count; i++) names[i] = profile->fields[i].id;
    const char *hint = swallowed_minus(compiler, token, profile_field);
    if (!hint) hint = nearest_name(compiler, token, names, count);
    return expr_fail(compiler, token->at, token->end, hint, "no field is called '%s'", token->text);
}

static bool field_unusable(Compiler *compiler, const Token *token, const Field *field) {
    const Field *reader = reader_of(compiler, field);
    const char *hint = reader ? arena_printf(compiler->arena, "use @%s, the number behind it", reader->id) : NULL;
    if (field->type == FIELD_TEXT) hint = "only choices and numbers can be compared";
    const char *what = field->type == FIELD_TEXT   ? "free text"
                       : field->type == FIELD_SPOT ? "a spot on the field"
                                                   : "a time";
    return expr_fail(compiler, token->at, token->end, hint, "@%s is %s, which cannot be compared or counted",
                     token->text, what);
}

bool expr_find_field(Compiler *compiler, const Token *token, const Field **field) {
    if (compiler->kind == EXPR_FORMULA) {
        return expr_fail(compiler, token->at, token->end, "a formula is made of $totals and numbers",
                         "a field cannot stand in a formula");
    }
    int index = profile_field(compiler->profile, token->text);
    if (index < 0 || (size_t)index >= compiler->visible) return field_unknown(compiler, token, index);
    *field = &compiler->profile->fields[index];
    FieldType type = (*field)->type;
    bool usable = type != FIELD_TEXT && type != FIELD_SPOT && type != FIELD_CLOCK && type != FIELD_TIME;
    return usable || field_unusable(compiler, token, *field);
}

bool expr_find_total(Compiler *compiler, const Token *token, int *total) {
    const Profile *profile = compiler->profile;
    if (compiler->kind != EXPR_FORMULA) {
        return expr_fail(compiler, token->at, token->end, "totals stand in formulas; a snap has only @fields",
                         "a total cannot stand here");
    }
    *total = profile_total(profile, token->text);
    if (*total >= 0) return true;
    const char **names = ARENA_ARRAY(compiler->arena, profile->total_count, const char *);
    for (size_t i = 0; i < profile->total_count; i++) names[i] = profile->totals[i].id;
    const char *hint = swallowed_minus(compiler, token, profile_total);
    if (!hint) hint = nearest_name(compiler, token, names, profile->total_count);
    return expr_fail(compiler, token->at, token->end, hint, "no total is called '%s'", token->text);
}

/* ---- values of choices ---- */

static size_t value_count(const Field *field) {
    return field->type == FIELD_YESNO && !field->value_count ? 2 : field->value_count;
}

static const char *value_id(const Field *field, size_t index) {
    if (field->value_count) return field->values[index].id;
    return index == 0 ? "yes" : "no";
}

static int value_word(const Compiler *compiler, const Field *field, size_t index) {
    if (field->value_count) return field->values[index].word;
    return index == 0 ? compiler->profile->yes : compiler->profile->no;
}

static const char *value_list(Compiler *compiler, const Field *field) {
    Buf list = {0};
    size_t count = value_count(field);
    BUF_PUT(&list, "its values are ");
    for (size_t i = 0; i < count && i < LIST_MOST; i++) buf_printf(&list, "%s'%s'", i ? ", " : "", value_id(field, i));
    if (count > LIST_MOST) buf_printf(&list, " and %zu more", count - LIST_MOST);
    const char *hint = arena_copy(compiler->arena, list.bytes, list.length);
    buf_free(&list);
    return hint;
}

static bool value_unknown(Compiler *compiler, const Field *field, const Operand *text) {
    size_t count = value_count(field);
    const char **ids = ARENA_ARRAY(compiler->arena, count, const char *);
    for (size_t i = 0; i < count; i++) ids[i] = value_id(field, i);
    const char *near = text_nearest(text->literal, ids, count);
    const char *hint = near ? arena_printf(compiler->arena, "did you mean '%s'?", near) : value_list(compiler, field);
    return expr_fail(compiler, text->at, text->end, hint, "@%s has no value '%s'", field->id, text->literal);
}

static bool resolve_text(Compiler *compiler, const Field *field, const Operand *text) {
    for (size_t i = 0; i < value_count(field); i++) {
        if (!text_equal(text->literal, value_id(field, i))) continue;
        ((Step *)(void *)compiler->steps.bytes)[text->step].number = value_word(compiler, field, i);
        return true;
    }
    return value_unknown(compiler, field, text);
}

/* ---- types ---- */

static const char *describe(Compiler *compiler, const Operand *value) {
    static const char *const words[] = {[OPERAND_CONDITION] = "a condition",
                                        [OPERAND_NUMBER] = "a number",
                                        [OPERAND_CHOICE] = "a choice",
                                        [OPERAND_TEXT] = "text"};
    if (!value->field) return words[value->type];
    return arena_printf(compiler->arena, "@%s, %s", value->field->id, words[value->type]);
}

bool expr_check_condition(Compiler *compiler, const Operand *value) {
    if (value->type == OPERAND_CONDITION) return true;
    const char *hint = "compare it with something";
    if (value->field && value->type == OPERAND_CHOICE && value_count(value->field)) {
        hint = arena_printf(compiler->arena, "compare it: @%s='%s'", value->field->id, value_id(value->field, 0));
    } else if (value->field) {
        hint = arena_printf(compiler->arena, "compare it with a number: @%s >= 1", value->field->id);
    }
    return expr_fail(compiler, value->at, value->end, hint, "a condition is needed here, not %s",
                     describe(compiler, value));
}

bool expr_check_number(Compiler *compiler, const Operand *value) {
    double number;
    if (value->type == OPERAND_NUMBER) return true;
    const char *hint =
        value->type == OPERAND_TEXT && text_number(value->literal, &number) ? "write it without quotes" : NULL;
    return expr_fail(compiler, value->at, value->end, hint, "a number is needed here, not %s",
                     describe(compiler, value));
}

static bool number_against_text(Compiler *compiler, const Operand *number, const Operand *text) {
    double unused;
    const char *hint = "compare a number with a number";
    if (text_number(text->literal, &unused))
        hint = arena_printf(compiler->arena, "write %s without quotes", text->literal);
    return expr_fail(compiler, text->at, text->end, hint, "%s compared with text", describe(compiler, number));
}

static bool choice_against_number(Compiler *compiler, const Operand *choice, const Operand *number) {
    const char *hint = value_list(compiler, choice->field);
    for (size_t i = 0; number->literal && i < value_count(choice->field); i++) {
        if (!text_equal(number->literal, value_id(choice->field, i))) continue;
        hint = arena_printf(compiler->arena, "write '%s' with quotes", number->literal);
    }
    return expr_fail(compiler, number->at, number->end, hint, "%s compared with %s", describe(compiler, choice),
                     describe(compiler, number));
}

/* Long lists are taken to share one: they are no lists that somebody wrote. */
static bool share_a_word(const Compiler *compiler, const Field *a, const Field *b) {
    if (value_count(a) > PROFILE_MOST_WORDS || value_count(b) > PROFILE_MOST_WORDS) return true;
    for (size_t i = 0; i < value_count(a); i++) {
        for (size_t j = 0; j < value_count(b); j++) {
            if (value_word(compiler, a, i) == value_word(compiler, b, j)) return true;
        }
    }
    return false;
}

static bool check_choices(Compiler *compiler, const Operand *left, const Operand *right) {
    if (left->type == OPERAND_TEXT) return resolve_text(compiler, right->field, left);
    if (right->type == OPERAND_TEXT) return resolve_text(compiler, left->field, right);
    if (share_a_word(compiler, left->field, right->field)) return true;
    return expr_fail(compiler, left->at, right->end, value_list(compiler, right->field),
                     "@%s and @%s have no value in common", left->field->id, right->field->id);
}

/* Choices have no order: XPath would turn them into NaN. */
static bool check_order(Compiler *compiler, TokenKind sign, const Operand *left, const Operand *right) {
    if (sign == TOKEN_EQUAL || sign == TOKEN_NOT_EQUAL) return true;
    if (left->type == OPERAND_NUMBER) return true;
    const char *hint = "use = or !=, and join several values with or";
    const Field *field = left->field ? left->field : right->field;
    return expr_fail(compiler, left->at, right->end, hint, "@%s is a choice, which has no more or less", field->id);
}

bool expr_check_comparison(Compiler *compiler, TokenKind sign, const Operand *left, const Operand *right) {
    const Operand *condition = left->type == OPERAND_CONDITION ? left : right->type == OPERAND_CONDITION ? right : NULL;
    if (condition) {
        return expr_fail(compiler, condition->at, condition->end, "join conditions with and, or, not( )",
                         "a condition cannot be compared");
    }
    if (left->type == OPERAND_TEXT && right->type == OPERAND_TEXT) {
        return expr_fail(compiler, left->at, right->end, "one side must be a @field", "two texts are compared");
    }
    if (left->type == OPERAND_NUMBER && right->type == OPERAND_TEXT) return number_against_text(compiler, left, right);
    if (left->type == OPERAND_TEXT && right->type == OPERAND_NUMBER) return number_against_text(compiler, right, left);
    if (left->type == OPERAND_NUMBER && right->type == OPERAND_CHOICE)
        return choice_against_number(compiler, right, left);
    if (left->type == OPERAND_CHOICE && right->type == OPERAND_NUMBER)
        return choice_against_number(compiler, left, right);
    if (!check_order(compiler, sign, left, right)) return false;
    return left->type == OPERAND_NUMBER || check_choices(compiler, left, right);
}
