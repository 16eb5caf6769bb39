/* Writing a story: making blocks, adding children, saying numbers. Internal to story/. */
#ifndef TB_STORY_WRITE_H
#define TB_STORY_WRITE_H

#include "base/arena.h"
#include "stats/findings.h"
#include "story/dossier_story.h"
#include "story/story.h"

/* What every section writer is given. `block_add` grows children by doubling; a child has one parent. */
typedef struct Writer {
    Arena *arena;
    const Findings *findings;
    const Dossier *dossier;
    const Profile *profile;
    const House *house;
    const Audit *audit;   /* may be NULL */
    const Layout *layout; /* NULL: a section alone */
} Writer;

/* Whether the document has the section; a section alone takes it that it has. */
bool writer_has(const Writer *writer, SectionKind kind);

Block *block_new(Writer *writer, BlockKind kind);
Block *block_add(Writer *writer, Block *parent, BlockKind kind);
Block *block_section(Writer *writer, Block *document, const char *title, const char *note);
/* A short section: its title is no larger than a head. `title` NULL: what follows brings its own. */
Block *block_part(Writer *writer, Block *document, const char *title, const char *note);
Block *block_head(Writer *writer, Block *parent, int level, const char *title, const char *note);
Block *block_figure(Writer *writer, Block *parent, const Figure *figure, const char *title, const char *note);
Table *block_table(Writer *writer, Block *parent, const TableColumn *heads, size_t columns,
                   size_t rows); /* cells empty */
Block *block_note(Writer *writer, Block *parent, const char *text);
Block *block_text(Writer *writer, Block *parent, ParagraphStyle style, const char *text);

Words words_plain(Writer *writer, const char *text);
void words_add(Writer *writer, Words *words, SpanKind kind, const char *text, const char *target);

/* Paragraphs and lists of the author's prose with its figures computed, as children of `parent`. */
void prose_add(Writer *writer, Block *parent, const Prose *prose);

/* ---- saying things (say.c) ---- */
const char *say(Writer *writer, const char *format, ...) __attribute__((format(printf, 2, 3)));
const char *say_percent(Writer *writer, double rate);                /* "79%" */
const char *say_number(Writer *writer, double value, int places);    /* "7.40", with a true minus */
const char *say_signed(Writer *writer, double value, int places);    /* "+19", "−28", "0" */
const char *say_date(Writer *writer, const char *iso);               /* "18 Nov 2031" */
const char *say_short_date(Writer *writer, const char *iso);         /* "18 Nov" */
const char *say_count(Writer *writer, int n, const char *noun);      /* "1 game", "5 games" */
const char *say_word(Writer *writer, int n);                         /* "five", "13" */
const char *say_word_count(Writer *writer, int n, const char *noun); /* "one game", "five games", "13 games" */
const char *say_sentence(Writer *writer, const char *text);          /* first letter raised */
const char *say_lower(Writer *writer, const char *text); /* first letter lowered, unless the word is all capitals */
const char *say_ordinal_down(Writer *writer, int down);  /* "3rd" */
const char *say_p(Writer *writer, double p);             /* "0.018", "under 0.001" */

/* A measure's value as printed: a rate in per cent, else with the measure's places; "–" when there is none. */
const char *say_estimate(Writer *writer, const Measure *measure, const Estimate *estimate);
const char *say_interval(Writer *writer, const Measure *measure, const Estimate *estimate); /* "69–87", "" without */
const char *say_k_of_n(Writer *writer, const Measure *measure, const Estimate *estimate);   /* "65/82"; others "82" */
/* "65/82, 79% (69–87)"; the count alone of too few snaps. */
const char *say_counted(Writer *writer, const Measure *measure, const Estimate *estimate);
const char *say_k_of_n_words(Writer *writer, const Estimate *estimate); /* "65 of 82", with no-break spaces */

const char *say_opponent(Writer *writer, const Game *game); /* "at Brackwater" */

/* What a charted snap says in a field, as printed; "" where not charted. */
const char *say_charted(Writer *writer, int row, const char *field);
const char *say_chart_value(Writer *writer, const Snap *snaps, const Columns *columns, int row,
                            int field);                     /* any chart */
const char *say_down_and_distance(Writer *writer, int row); /* "3rd & 10", "1st & goal" */
const char *say_film(Writer *writer, int row);              /* "0:21:40–0:21:49" */
const char *say_snap_anchor(Writer *writer, int row);       /* "snap-g1.14" */

/* ---- sections: one function each, adding to the document (one file each) ---- */
void story_front(Writer *writer, Block *document, const LayoutSection *section);
void story_measurables(Writer *writer, Block *document, const LayoutSection *section);
void story_tape(Writer *writer, Block *document, const LayoutSection *section);
void story_strengths(Writer *writer, Block *document, const LayoutSection *section);
void story_concerns(Writer *writer, Block *document, const LayoutSection *section);
void story_keys(Writer *writer, Block *document, const LayoutSection *section);
void story_grades(Writer *writer, Block *document, const LayoutSection *section);
void story_watch(Writer *writer, Block *document, const LayoutSection *section);
void story_cross(Writer *writer, Block *document, const LayoutSection *section);
void story_background(Writer *writer, Block *document, const LayoutSection *section);
void story_snap_log(Writer *writer, Block *document, const LayoutSection *section);
void story_audit(Writer *writer, Block *document, const LayoutSection *section);
void story_methods(Writer *writer, Block *document, const LayoutSection *section);
void story_glossary(Writer *writer, Block *document, const LayoutSection *section);
void story_claim_table(Writer *writer, Block *document, const LayoutSection *section);
void story_evaluators(Writer *writer, Block *document, const LayoutSection *section);
void story_clips(Writer *writer, Block *document, const LayoutSection *section);
void story_card(Writer *writer, Block *document, const LayoutSection *section);
void story_form(Writer *writer, Block *document, const LayoutSection *section);
void story_codes(Writer *writer, Block *document, const LayoutSection *section);

/* Parts shared by sections. */
/* Indexes of the claims of one kind: what the tape says most about comes first. `ranked` has room for all claims. */
size_t ranked_claims(Writer *writer, ClaimKind kind, int *ranked);
/* The claims of either side as rows, `most` of each; NULL where none is made. `groups` puts WHY and WHY NOT above. */
const Figure *figure_claims(Writer *writer, int most_why, int most_why_not, bool groups);
const char *evaluator_name(Writer *writer, const char *id);   /* the id where the house does not list him */
const char *when_words(const House *house, const char *when); /* NULL: the house has no such word */
const char *film_address(Writer *writer, int row);            /* NULL: the clip has none */
const Figure *figure_strips(Writer *writer, size_t most);
/* Whether there are snaps, but too few to speak of a rate or value. */
bool is_few(const Estimate *estimate);
const char *say_row(Writer *writer, const IntervalRow *row); /* "Man 65/82, 79% (69–87)", for a figure's alternative */
IntervalRow interval_row(Writer *writer, const Measure *measure, const Estimate *estimate, const char *label);
Axis interval_axis(const Measure *measure, const IntervalRow *rows, size_t count);
VerdictMark verdict_mark(const ClaimFinding *finding);
/* How far the evaluators' grades agree, in a sentence; NULL where it cannot be said. */
const char *grade_agreement(Writer *writer);
/* Side A or B of a claim; a standard has a value and no count. */
IntervalRow claim_side_row(Writer *writer, const Claim *claim, const ClaimFinding *finding, bool other);

#endif
