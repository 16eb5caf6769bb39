#include "base/diag_explain.h"

#include <string.h>

#include "base/text.h"

enum { LINE_LENGTH = 80 };

static const RuleText texts[] = {
#define TEXT(name, finds, why, example, mend) [RULE_##name] = {finds, why, example, mend},
#include "base/diag_texts.h"
#undef TEXT
};
_Static_assert(sizeof texts / sizeof texts[0] == RULE_COUNT, "every rule has its text");

/* A rule without a text, or a second text for one rule, does not compile: each text defines the name of its rule, and
 * the table of rules asks for all of them. */
enum {
#define TEXT(name, finds, why, example, mend) TEXT_OF_##name,
#include "base/diag_texts.h"
#undef TEXT
#define RULE(name, id, severity, what) ASKED_FOR_##name = TEXT_OF_##name,
#include "base/diag_rules.h"
#undef RULE
};

const RuleText *diag_rule_text(Rule rule) {
    return &texts[rule];
}

bool diag_find_rule(const char *id, Rule *rule) {
    for (int i = 0; i < RULE_COUNT; i++) {
        if (strcmp(diag_rule((Rule)i)->id, id) != 0) continue;
        *rule = (Rule)i;
        return true;
    }
    return false;
}

const char *diag_nearest_rule(const char *word) {
    const char *ids[RULE_COUNT];
    for (int i = 0; i < RULE_COUNT; i++) ids[i] = diag_rule((Rule)i)->id;
    return text_nearest(word, ids, RULE_COUNT);
}

bool diag_may_override(Rule rule) {
    return diag_rule(rule)->severity != SEVERITY_ERROR;
}

/* Words of `text` in lines that begin with `indent` spaces. */
static void put_wrapped(Buf *out, const char *text, int indent) {
    size_t column = 0;
    while (*text) {
        size_t length = strcspn(text, " ");
        size_t characters = text_characters(text, length);
        if (column && column + 1 + characters > LINE_LENGTH) {
            buf_putc(out, '\n');
            column = 0;
        }
        if (column) buf_putc(out, ' ');
        if (!column) buf_printf(out, "%*s", indent, "");
        column = column ? column + 1 + characters : (size_t)indent + characters;
        buf_put(out, text, length);
        text += length + (text[length] == ' ');
    }
    buf_putc(out, '\n');
}

static void put_example(Buf *out, const char *example) {
    while (*example) {
        size_t length = strcspn(example, "\n");
        buf_printf(out, "    %.*s\n", (int)length, example);
        example += length + (example[length] == '\n');
    }
}

void diag_explain(Rule rule, Buf *out) {
    const RuleInfo *info = diag_rule(rule);
    const RuleText *text = diag_rule_text(rule);
    buf_printf(out, "%s (%s): %s\n\n", info->id, diag_severity_word(info->severity), info->what);
    put_wrapped(out, text->finds, 0);
    BUF_PUT(out, "\n");
    put_wrapped(out, text->why, 0);
    BUF_PUT(out, "\nFor example:\n\n");
    put_example(out, text->example);
    BUF_PUT(out, "\n");
    put_wrapped(out, text->mend, 0);
    BUF_PUT(out, "\n");
    if (diag_may_override(rule)) {
        const char *line = "A house may change its severity:";
        buf_printf(out, "%s <rule id=\"%s\" severity=\"%s\"/>\n", line, info->id,
                   info->severity == SEVERITY_NOTE ? "warning" : "error");
    } else {
        BUF_PUT(out, "It is an error in every house.\n");
    }
}
