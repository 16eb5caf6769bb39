/* The report as a whole: nothing left to be written, and nothing newer than its filing. */
#include <string.h>
#include <strings.h>

#include "base/text.h"
#include "check/check_parts.h"
#include "source/xml.h"

/* Words that stand where something is still to be written; told in capitals only, or in any case. */
static const struct {
    const char *words;
    bool any_case;
} placeholders[] = {
    {"TBD", false}, {"TBA", false}, {"TBC", false},        {"TK", false},
    {"XXX", false}, {"???", false}, {"lorem ipsum", true}, {"to be written", true},
};

/* Whole texts that say nothing. */
static const char *const empties[] = {"", "…", "...", "-", "–", "—", ".", "n/a", "x", "xx", "tbd"};

static bool is_word_byte(char byte) {
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || (byte >= '0' && byte <= '9') ||
           (byte & 0x80);
}

static const char *find_words(const char *text, const char *words, bool any_case) {
    size_t length = strlen(words);
    for (const char *at = text; (at = any_case ? strcasestr(at, words) : strstr(at, words)); at++) {
        bool begins = at == text || !is_word_byte(at[-1]) || !is_word_byte(words[0]);
        if (begins && (!is_word_byte(at[length]) || !is_word_byte(words[length - 1]))) return at;
    }
    return NULL;
}

static const char *find_placeholder(const char *text) {
    for (size_t i = 0; i < sizeof placeholders / sizeof placeholders[0]; i++) {
        if (find_words(text, placeholders[i].words, placeholders[i].any_case)) return placeholders[i].words;
    }
    return NULL;
}

static bool says_nothing(const char *text) {
    for (size_t i = 0; i < sizeof empties / sizeof empties[0]; i++) {
        if (strcasecmp(text, empties[i]) == 0) return true;
    }
    return false;
}

static void report_placeholder(const Check *check, Place place, const char *words) {
    diag_report(check->diagnostics, RULE_REPORT_PLACEHOLDER, place, NULL, "this text still says '%s'", words);
}

/* A text of the model that is not prose; NULL is no text at all. */
static void check_text(const Check *check, Place place, const char *text) {
    if (!text) return;
    const char *words = find_placeholder(text);
    if (words || says_nothing(text)) report_placeholder(check, place, words ? words : text);
}

static bool is_blank(const char *text) {
    return !text || text[strspn(text, " \t\r\n")] == '\0';
}

/* A figure or a cite says something; words may be nothing but a placeholder. */
static void check_paragraph(const Check *check, const Paragraph *paragraph) {
    const char *only = NULL;
    size_t parts = 0;
    for (size_t i = 0; i < paragraph->run_count; i++) {
        const Run *run = &paragraph->runs[i];
        const char *words = run->text ? find_placeholder(run->text) : NULL;
        if (words) report_placeholder(check, run->place, words);
        if (words) return;
        bool words_only = run->kind != RUN_STAT && run->kind != RUN_CITE;
        if (words_only && is_blank(run->text)) continue;
        only = words_only ? run->text : NULL;
        parts++;
    }
    if (parts == 0)
        diag_report(check->diagnostics, RULE_REPORT_PLACEHOLDER, paragraph->place, NULL, "an empty paragraph");
    if (parts != 1 || !only) return;
    const char *trimmed = only + strspn(only, " \t\r\n");
    char *copy = arena_string(check->arena, trimmed);
    for (size_t length = strlen(copy); length > 0 && strchr(" \t\r\n", copy[length - 1]); length--)
        copy[length - 1] = '\0';
    if (says_nothing(copy)) report_placeholder(check, paragraph->place, copy);
}

static void check_prose(const Check *check, const Prose *prose) {
    for (size_t i = 0; i < prose->count; i++) check_paragraph(check, &prose->paragraphs[i]);
}

static void check_claim(const Check *check, const Claim *claim) {
    check_text(check, xml_tag_value_place(claim->place, "title"), claim->title);
    check_prose(check, &claim->prose);
    for (size_t i = 0; i < claim->cite_count; i++) check_text(check, claim->cites[i].place, claim->cites[i].text);
}

static void check_notes(const Check *check, const Grades *grades) {
    for (size_t i = 0; i < grades->count; i++) check_text(check, grades->grades[i].place, grades->grades[i].note);
    check_text(check, grades->overall_place, grades->says);
}

static void report_newer(const Check *check, Place place, const char *what, const char *on) {
    const Filing *filing = &check->dossier->filing;
    diag_report(check->diagnostics, RULE_REPORT_STALE, xml_tag_value_place(filing->place, "on"),
                "file it anew, with the next revision", "the report is filed on %s, before %s of %s", filing->on, what,
                on);
    diag_also(check->diagnostics, place, "it is here");
}

/* Dates are written year first, so that they compare as texts. */
static bool is_newer(const Check *check, const char *on) {
    const char *filed = check->dossier->filing.on;
    return on && *on && filed && *filed && strcmp(on, filed) > 0;
}

static void check_dates(const Check *check) {
    const Dossier *dossier = check->dossier;
    const Game *game = NULL;
    for (size_t i = 0; i < dossier->game_count; i++) {
        if (is_newer(check, dossier->games[i].on) && (!game || strcmp(dossier->games[i].on, game->on) > 0))
            game = &dossier->games[i];
    }
    if (game) report_newer(check, game->place, arena_printf(check->arena, "the game %s", game->id), game->on);
    for (size_t i = 0; i < dossier->measurable_count; i++) {
        const Measurable *measurable = &dossier->measurables[i];
        if (!is_newer(check, measurable->on)) continue;
        report_newer(check, measurable->place, arena_printf(check->arena, "the measurement '%s'", measurable->id),
                     measurable->on);
        return;
    }
}

void check_report(Check *check) {
    const Dossier *dossier = check->dossier;
    const Prose *const sections[] = {&dossier->bottom_line, &dossier->background, &dossier->medical,
                                     &dossier->personal};
    for (size_t i = 0; i < sizeof sections / sizeof sections[0]; i++) check_prose(check, sections[i]);
    for (size_t i = 0; i < dossier->claim_count; i++) check_claim(check, &dossier->claims[i]);
    for (size_t i = 0; i < dossier->grades_count; i++) check_notes(check, &dossier->grades[i]);
    check_text(check, dossier->filing.place, dossier->filing.note);
    check_dates(check);
}
