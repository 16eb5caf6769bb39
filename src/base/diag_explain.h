/* What each rule is about, at length: for `tapebound explain RULE`. */
#ifndef TB_BASE_DIAG_EXPLAIN_H
#define TB_BASE_DIAG_EXPLAIN_H

#include <stdbool.h>

#include "base/buf.h"
#include "base/diag.h"

typedef struct RuleText {
    const char *finds;   /* what it finds, in sentences */
    const char *why;     /* why that matters to a reader of the report */
    const char *example; /* source that breaks it, lines of at most 100 characters */
    const char *mend;    /* how to mend it */
} RuleText;

const RuleText *diag_rule_text(Rule rule);

/* The rule called `id`; false when there is none. */
bool diag_find_rule(const char *id, Rule *rule);

/* The id that `word` is nearest to, or NULL. */
const char *diag_nearest_rule(const char *word);

/* True when a house may give the rule another severity: an error by default keeps a figure true or a file readable, and
 * stays one. */
bool diag_may_override(Rule rule);

/* Everything about one rule, in lines of at most 80 characters but for its example. */
void diag_explain(Rule rule, Buf *out);

#endif
