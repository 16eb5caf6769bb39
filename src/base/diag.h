/* Diagnostics: located messages of one run, kept in order of place, printed in compiler style or as JSON.
 *
 *     file:line:column: severity: message [rule-id]
 *       source line
 *       ^~~~
 *       hint: …
 *
 * Every message names a row of the rule table (diag_rules.h). The sink owns nothing but its own memory. */
#ifndef TB_BASE_DIAG_H
#define TB_BASE_DIAG_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/arena.h"
#include "base/buf.h"

/* The bytes of one input, kept as long as any Place in it may be reported. */
typedef struct Text {
    const char *path; /* as the user gave it; "-" is printed as "standard input" */
    const char *bytes;
    size_t length;
} Text;

/* A stretch of an input. `text` NULL: no place (a message about the call or the system). */
typedef struct Place {
    const Text *text;
    size_t offset; /* bytes from the start */
    size_t length; /* bytes to underline, at least 1 caret is drawn */
} Place;

typedef enum Severity { SEVERITY_NOTE, SEVERITY_WARNING, SEVERITY_ERROR } Severity;

typedef enum Rule {
#define RULE(name, id, severity, what) RULE_##name,
#include "base/diag_rules.h"
#undef RULE
    RULE_COUNT
} Rule;

typedef struct RuleInfo {
    const char *id; /* stable, printed in brackets */
    Severity severity;
    const char *what; /* one line for --list-rules */
} RuleInfo;

const RuleInfo *diag_rule(Rule rule);
const char *diag_severity_word(Severity severity);

typedef struct Diagnostics Diagnostics;

Diagnostics *diag_new(void);
void diag_free(Diagnostics *diagnostics);

/* Reports one finding. `hint` may be NULL. Texts are copied. */
void diag_report(Diagnostics *diagnostics, Rule rule, Place place, const char *hint, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* Adds a second place ("it clashes with this") to the finding reported last. */
void diag_also(Diagnostics *diagnostics, Place place, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* House overrides and --strict; call before reporting. Errors that keep a figure true cannot be lowered. */
void diag_set_severity(Diagnostics *diagnostics, Rule rule, Severity severity);
void diag_set_strict(Diagnostics *diagnostics, bool strict);

size_t diag_errors(const Diagnostics *diagnostics);
size_t diag_warnings(const Diagnostics *diagnostics);
size_t diag_reported(const Diagnostics *diagnostics, Rule rule); /* findings of one rule */

/* A finding as pages print it. */
typedef struct Reported {
    Rule rule;
    Severity severity;
    Place place;
    const char *message; /* lives as long as the sink */
} Reported;

/* All findings that were kept, in order of file and place, in `arena`. */
const Reported *diag_list(const Diagnostics *diagnostics, Arena *arena, size_t *count);

/* Prints all findings in order of file and place. `colour` adds terminal colours. */
void diag_print(Diagnostics *diagnostics, FILE *out, bool colour);

/* The same as a JSON array: file, line, column, severity, rule, message, hint, also. */
void diag_json(Diagnostics *diagnostics, Buf *out);

/* Line and column of a place, both from 1, columns in characters. */
void diag_line_column(Place place, size_t *line, size_t *column);

#endif
