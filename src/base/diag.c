#include "base/diag.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/diag_print.h"
#include "base/text.h"

enum {
    MESSAGE_MOST_BYTES = 400, /* a longer message ends in "…" */
    KEPT_FOR_ONE_FILE = 1000, /* more findings of one file are counted, not kept */
    FIRST_ROOM = 16
};

static const RuleInfo rules[RULE_COUNT] = {
#define RULE(name, id, severity, what) [RULE_##name] = {id, severity, what},
#include "base/diag_rules.h"
#undef RULE
};

struct Diagnostics {
    Arena *arena;
    DiagFile *files;
    size_t file_count, file_room;
    Finding *findings;
    size_t count, room;
    size_t errors, warnings;
    size_t reported[RULE_COUNT];
    Finding *last; /* takes what diag_also adds; NULL when it was not kept */
    Severity severity[RULE_COUNT];
    bool strict;
};

const RuleInfo *diag_rule(Rule rule) {
    return &rules[rule];
}

const char *diag_severity_word(Severity severity) {
    static const char *const words[] = {
        [SEVERITY_NOTE] = "note", [SEVERITY_WARNING] = "warning", [SEVERITY_ERROR] = "error"};
    return words[severity];
}

Diagnostics *diag_new(void) {
    Diagnostics *diagnostics = mem_alloc(sizeof *diagnostics);
    diagnostics->arena = arena_new();
    for (int rule = 0; rule < RULE_COUNT; rule++) diagnostics->severity[rule] = rules[rule].severity;
    return diagnostics;
}

void diag_free(Diagnostics *diagnostics) {
    if (!diagnostics) return;
    arena_free(diagnostics->arena);
    free(diagnostics->files);
    free(diagnostics->findings);
    free(diagnostics);
}

void diag_set_severity(Diagnostics *diagnostics, Rule rule, Severity severity) {
    if (rules[rule].severity == SEVERITY_ERROR) return;
    diagnostics->severity[rule] = severity;
}

void diag_set_strict(Diagnostics *diagnostics, bool strict) {
    diagnostics->strict = strict;
}

size_t diag_errors(const Diagnostics *diagnostics) {
    return diagnostics->errors;
}

size_t diag_warnings(const Diagnostics *diagnostics) {
    return diagnostics->warnings;
}

size_t diag_reported(const Diagnostics *diagnostics, Rule rule) {
    return diagnostics->reported[rule];
}

/* ---- reporting ---- */

/* Files are told apart by path: one file may be read twice in a run. */
static bool same_file(const Text *a, const Text *b) {
    return a == b || (a && b && text_equal(a->path, b->path));
}

static size_t file_of(Diagnostics *diagnostics, const Text *text) {
    for (size_t i = diagnostics->file_count; i-- > 0;) {
        if (same_file(diagnostics->files[i].text, text)) return i;
    }
    if (diagnostics->file_count == diagnostics->file_room) {
        diagnostics->file_room = diagnostics->file_room * 2 + FIRST_ROOM;
        diagnostics->files = mem_resize(diagnostics->files, diagnostics->file_room * sizeof *diagnostics->files);
    }
    diagnostics->files[diagnostics->file_count] = (DiagFile){.text = text};
    return diagnostics->file_count++;
}

static Finding *new_finding(Diagnostics *diagnostics) {
    if (diagnostics->count == diagnostics->room) {
        diagnostics->room = diagnostics->room * 2 + FIRST_ROOM;
        diagnostics->findings = mem_resize(diagnostics->findings, diagnostics->room * sizeof *diagnostics->findings);
    }
    return &diagnostics->findings[diagnostics->count++];
}

static void count_severity(Diagnostics *diagnostics, Severity severity) {
    diagnostics->errors += severity == SEVERITY_ERROR;
    diagnostics->warnings += severity == SEVERITY_WARNING;
}

/* The formatted text, cut at a character when it is too long to be read. */
static __attribute__((format(printf, 2, 0))) const char *message_text(Arena *arena, const char *format, va_list args) {
    char text[MESSAGE_MOST_BYTES + 1];
    int length = vsnprintf(text, sizeof text, format, args);
    if (length < 0) return "";
    if (length <= MESSAGE_MOST_BYTES) return arena_copy(arena, text, (size_t)length);
    size_t cut = MESSAGE_MOST_BYTES;
    while (cut > 0 && ((unsigned char)text[cut - 1] & 0xC0) == 0x80) cut--;
    if (cut > 0) cut--;
    return arena_printf(arena, "%.*s…", (int)cut, text);
}

static __attribute__((format(printf, 2, 3))) const char *new_message(Arena *arena, const char *format, ...) {
    va_list args;
    va_start(args, format);
    const char *text = message_text(arena, format, args);
    va_end(args);
    return text;
}

/* The mutation test compiles this file once for each rule, to see whether a test misses what the rule finds. */
#ifdef TB_MUTE_RULE
enum { MUTED = TB_MUTE_RULE };
#else
enum { MUTED = -1 };
#endif

void diag_report(Diagnostics *diagnostics, Rule rule, Place place, const char *hint, const char *format, ...) {
    diagnostics->last = NULL;
    if ((int)rule == MUTED) return;
    Severity severity = diagnostics->severity[rule];
    if (diagnostics->strict && severity == SEVERITY_WARNING) severity = SEVERITY_ERROR;
    count_severity(diagnostics, severity);
    diagnostics->reported[rule]++;
    size_t file = file_of(diagnostics, place.text);
    if (diagnostics->files[file].kept == KEPT_FOR_ONE_FILE) {
        diagnostics->files[file].dropped++;
        return;
    }
    diagnostics->files[file].kept++;
    va_list args;
    va_start(args, format);
    Finding *finding = new_finding(diagnostics);
    *finding = (Finding){.rule = &rules[rule], .severity = severity, .place = place, .file = file};
    finding->order = diagnostics->count;
    finding->message = message_text(diagnostics->arena, format, args);
    finding->hint = hint ? new_message(diagnostics->arena, "%s", hint) : NULL;
    diagnostics->last = finding;
    va_end(args);
}

void diag_also(Diagnostics *diagnostics, Place place, const char *format, ...) {
    Finding *finding = diagnostics->last;
    if (!finding) return;
    va_list args;
    va_start(args, format);
    Also *also = ARENA_NEW(diagnostics->arena, Also);
    *also = (Also){.place = place, .message = message_text(diagnostics->arena, format, args)};
    va_end(args);
    Also **end = &finding->also;
    while (*end) end = &(*end)->next;
    *end = also;
}

/* ---- in order of place ---- */

static int compare_findings(const void *left, const void *right) {
    const Finding *a = left, *b = right;
    if (a->file != b->file) return a->file < b->file ? -1 : 1;
    if (a->place.offset != b->place.offset) return a->place.offset < b->place.offset ? -1 : 1;
    return a->order < b->order ? -1 : a->order > b->order;
}

static void sort(Finding *findings, size_t count) {
    if (count) qsort(findings, count, sizeof *findings, compare_findings);
}

static FindingList sorted(Diagnostics *diagnostics) {
    diagnostics->last = NULL;
    sort(diagnostics->findings, diagnostics->count);
    return (FindingList){diagnostics->findings, diagnostics->count, diagnostics->files, diagnostics->file_count};
}

const Reported *diag_list(const Diagnostics *diagnostics, Arena *arena, size_t *count) {
    Finding *findings = ARENA_ARRAY(arena, diagnostics->count, Finding);
    Reported *list = ARENA_ARRAY(arena, diagnostics->count, Reported);
    *count = diagnostics->count;
    if (*count) memcpy(findings, diagnostics->findings, *count * sizeof *findings);
    sort(findings, *count);
    for (size_t i = 0; i < *count; i++) {
        const Finding *finding = &findings[i];
        list[i] = (Reported){(Rule)(finding->rule - rules), finding->severity, finding->place, finding->message};
    }
    return list;
}

void diag_print(Diagnostics *diagnostics, FILE *out, bool colour) {
    Buf text = {0};
    FindingList list = sorted(diagnostics);
    diag_print_findings(&list, &text, colour);
    fwrite(text.bytes ? text.bytes : "", 1, text.length, out);
    buf_free(&text);
}

void diag_json(Diagnostics *diagnostics, Buf *out) {
    FindingList list = sorted(diagnostics);
    diag_print_json(&list, out);
}
