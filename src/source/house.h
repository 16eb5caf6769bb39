/* A club's own: grade scale, evaluators, who may read, cautions, tint; and the layouts and scales beside it. */
#ifndef TB_SOURCE_HOUSE_H
#define TB_SOURCE_HOUSE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/diag.h"
#include "source/templates.h"

typedef struct GradeWord {
    double from; /* the word holds from here to the next */
    const char *word;
    const char *says;
} GradeWord;

typedef struct Evaluator {
    const char *id, *name, *role;
} Evaluator;

typedef struct WhenWord { /* when he is ready: "second-year" */
    const char *id, *says;
} WhenWord;

typedef enum SuccessRule { SUCCESS_40_60_100, SUCCESS_50_70_100 } SuccessRule;

/* What game the field is marked for: where the hashes are. */
typedef enum FieldLevel { LEVEL_COLLEGE, LEVEL_PROFESSIONAL, LEVEL_HIGH_SCHOOL, LEVEL_COUNT } FieldLevel;

typedef struct HouseScale { /* a comparison scale of the house's own */
    const char *profile;
    const char *path;
    Place place; /* of its href */
} HouseScale;

/* A house may think more or less of a rule than the program does. */
typedef struct RuleSeverity {
    Rule rule;
    Severity severity;
} RuleSeverity;

typedef struct House {
    const char *name;
    const char *scale_name;
    double grade_low, grade_high, grade_step, overall_step;
    double grade_bar; /* the starter's bar */
    GradeWord *words; /* from low to high */
    size_t word_count;
    Evaluator *evaluators;
    size_t evaluator_count;
    WhenWord *whens;
    size_t when_count;
    HouseScale *scales;
    size_t scale_count;
    RuleSeverity *rules;
    size_t rule_count;
    const char *readers;         /* footer: who may read */
    const char *caution_medical; /* printed over medical notes */
    const char *caution_personal;
    const char *caution_use; /* on the methods page */
    const char *film_base;   /* https, ends in '/': what the href of a film is added to; may be NULL */
    unsigned tint;           /* 0xRRGGBB */
    SuccessRule success;
    FieldLevel level;
    Place place;
} House;

/* NULL after reports. */
const House *house_load(Arena *arena, const Templates *templates, const char *path, Diagnostics *diagnostics)
    __attribute__((warn_unused_result));

/* Gives `diagnostics` the severities that the house has for rules; before anything is reported. */
void house_set_severities(const House *house, Diagnostics *diagnostics);

/* "40-60-100" or "50-70-100"; false for other words. */
bool house_success_rule(const char *word, SuccessRule *rule);

const GradeWord *house_grade_word(const House *house, double grade);  /* NULL below the scale */
const Evaluator *house_evaluator(const House *house, const char *id); /* NULL unknown */

/* A comparison population for one profile. */
typedef struct ScaleQuantile {
    double p; /* percent */
    double value;
} ScaleQuantile;

/* One measurable of a population: every value where the scale has players row by row, else quantiles. */
typedef struct ScaleMeasurable {
    const char *kind;
    int n;
    ScaleQuantile *quantiles; /* rising in p; none beside `rising` */
    size_t quantile_count;
    const double *rising; /* the n values in rising order; NULL: only quantiles are known */
} ScaleMeasurable;

enum { SCALE_MOST_ROWS = 100000 };

/* Players of a population one by one, in the units of a Measurable. */
typedef struct ScaleRows {
    const char **kinds;
    size_t kind_count;
    const char **ids;    /* by row */
    const char **labels; /* by row; the id where the scale has no label */
    double **columns;    /* [kind][row]; NaN: not measured */
    size_t count;
} ScaleRows;

typedef struct Scale {
    const char *id, *name, *profile, *years, *source, *licence;
    ScaleMeasurable *measurables;
    size_t count;
    ScaleRows rows; /* count 0: the scale has quantiles only */
} Scale;

/* Scale for a profile from templates/scales/PROFILE.xml; NULL without a report when there is no such file. */
const Scale *scale_load(Arena *arena, const char *templates, const char *profile, Diagnostics *diagnostics);

/* The house's own scale for the profile, NULL after reports; where it names none, as scale_load. */
const Scale *scale_load_for_house(Arena *arena, const char *templates, const House *house, const char *profile,
                                  Diagnostics *diagnostics);
const ScaleMeasurable *scale_measurable(const Scale *scale, const char *kind);

typedef enum Paper { PAPER_LETTER, PAPER_A4 } Paper;

typedef enum SectionKind {
    SECTION_FRONT,
    SECTION_MEASURABLES,
    SECTION_FIGURES,
    SECTION_STRENGTHS,
    SECTION_CONCERNS,
    SECTION_KEYS,
    SECTION_GRADES,
    SECTION_WATCH,
    SECTION_CROSS,
    SECTION_BACKGROUND,
    SECTION_SNAP_LOG,
    SECTION_AUDIT,
    SECTION_METHODS,
    SECTION_GLOSSARY,
    SECTION_CLAIMS,
    SECTION_EVALUATORS,
    SECTION_CLIPS,
    SECTION_CARD,
    SECTION_FORM,
    SECTION_CODES,
    SECTION_KIND_COUNT
} SectionKind;

typedef enum SectionPage { PAGE_AS_KIND, PAGE_NEW, PAGE_SAME, PAGE_FIT, PAGE_BESIDE } SectionPage;

/* What a copy may leave out beside whole sections. */
enum { OMIT_PERSONAL = SECTION_KIND_COUNT, OMIT_MEDICAL, LAYOUT_PARTS };

enum { LAYOUT_MOST = 999 }; /* of a section's `most` */

typedef struct LayoutSection {
    SectionKind kind;
    const char *title;
    bool brief;       /* form="short": what matters most, without the rest */
    int most;         /* so many of what it lists; 0: as the kind has it */
    SectionPage page; /* whether it begins a page, or stands beside the section before it */
    Place place;
} LayoutSection;

/* Distances in points. */
typedef struct Layout {
    const char *id, *name;
    Paper paper;
    bool landscape;
    bool duplex;
    bool joined; /* several dossiers may stand in one document */
    double inner, outer, head,
        foot; /* margins: binding edge, free edge, head line's baseline, foot line's baseline from the bottom */
    double prose_size, prose_leading;
    LayoutSection *sections;
    size_t section_count;
    bool omitted[LAYOUT_PARTS]; /* of this copy, by part */
} Layout;

/* What a copy may leave out has its word, and its number: that of a section's kind, or one of these. -1 for other
 * words, with a hint that may be NULL. */
int layout_part(Arena *arena, const char *word, const char **hint) __attribute__((warn_unused_result));
const char *layout_part_word(int part); /* "snap-log" */
const Layout *layout_without(Arena *arena, const Layout *layout, const bool omitted[LAYOUT_PARTS]);

/* Layout `name` from templates/layouts/NAME.xml, or a path when it contains a slash. NULL after reports. */
const Layout *layout_load(Arena *arena, const char *templates, const char *name, Diagnostics *diagnostics);

#endif
