/* A profile: what a position is charted and judged by. Read from templates/profiles/ID.xml and the sets it uses. */
#ifndef TB_SOURCE_PROFILE_H
#define TB_SOURCE_PROFILE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/diag.h"
#include "source/expr.h"
#include "source/house.h"
#include "source/templates.h"

enum { PROFILE_MOST_FIELDS = 512, PROFILE_MOST_TOTALS = 64, PROFILE_MOST_WORDS = 4096 };

typedef enum FieldType {
    FIELD_CHOICE,
    FIELD_ORDERED, /* choice, worst or least first */
    FIELD_YESNO,
    FIELD_NUMBER,
    FIELD_TEXT,
    FIELD_CLOCK,    /* m:ss left in the quarter */
    FIELD_SPOT,     /* -25 own, 50, +25 theirs */
    FIELD_DISTANCE, /* yards to go, or "goal" */
    FIELD_TIME      /* h:mm:ss.s on the film */
} FieldType;

/* How a derived field is made. */
typedef enum DerivedKind {
    DERIVED_NONE, /* charted */
    DERIVED_TEST, /* selection -> yes or no */
    DERIVED_MAP,  /* choice -> choice */
    DERIVED_BAND, /* number -> ordered choice */
    DERIVED_CALC, /* arithmetic; a not-applicable term counts 0 */
    DERIVED_READ  /* the number behind a spot, clock or distance */
} DerivedKind;

typedef struct FieldValue {
    const char *id;
    const char *label; /* as printed; the id where none is given */
    const char *says;  /* glossary, may be NULL */
    int word;          /* interned id, what columns hold */
} FieldValue;

typedef struct BandRange {
    double low, high; /* inclusive, in the units of the banded field */
} BandRange;

typedef struct Field {
    const char *id;
    const char *label;
    const char *says; /* glossary, may be NULL */
    FieldType type;
    DerivedKind derived;
    bool required;
    bool exception;     /* marked only when it happens: see Chart.marks */
    double low, high;   /* FIELD_NUMBER, inclusive */
    double step;        /* FIELD_NUMBER: 1 whole numbers, .1 tenths, 0 any */
    FieldValue *values; /* choices, in order */
    size_t value_count;
    const Expr *when; /* NULL: always applies */
    const char *when_source;
    int from;         /* MAP, BAND, READ: index of the field read; DISTANCE: index of its spot field; else -1 */
    const Expr *expr; /* TEST, CALC */
    int *map;         /* MAP: by value index of `from`, index into values, or -1 for unknown */
    BandRange *bands; /* BAND: one per value */
    Place place;
} Field;

typedef struct Slice {
    const char *id;
    const char *label;  /* row label: "Man" */
    const char *phrase; /* in a sentence: "against man" */
    const Expr *where;
    bool common; /* from a set: printed only when asked or claimed */
    Place place;
} Slice;

/* A count of snaps or a sum over snaps; counted snaps only. */
typedef struct Total {
    const char *id;
    const char *label;
    const Expr *where; /* NULL: every counted snap */
    const Expr *sum;   /* NULL: counts snaps */
    bool official;     /* may stand in a game's official box score */
    Place place;
} Total;

typedef enum MeasureKind { MEASURE_RATE, MEASURE_MEAN, MEASURE_RATIO, MEASURE_FORMULA } MeasureKind;
typedef enum Better { BETTER_NEITHER, BETTER_MORE, BETTER_LESS } Better;

typedef struct FormulaPart {
    const Expr *expr;
    double low, high; /* the part is clamped to these; -INFINITY, INFINITY when not given */
} FormulaPart;

typedef struct Measure {
    const char *id;
    const char *label;  /* "On target" */
    const char *noun;   /* what is counted: "throws" */
    const char *unit;   /* "yards", "" */
    const char *says;   /* definition for the methods page */
    const char *source; /* of the formula, may be NULL */
    MeasureKind kind;
    Better better;
    int places;         /* decimals printed for a value that is not a rate */
    const Expr *of;     /* RATE, MEAN: the denominator; NULL every counted snap */
    const Expr *where;  /* RATE: the numerator */
    const Expr *x;      /* MEAN: the number averaged */
    int over, under;    /* RATIO: totals; FORMULA: `under` is the total that counts its n */
    FormulaPart *parts; /* FORMULA: summed, then times scale */
    size_t part_count;
    double scale;
    bool printed; /* among the measures printed by default */
    Place place;
} Measure;

typedef struct Trait {
    const char *id;
    const char *label;
    const char *says; /* definition at the position's bar */
    double weight;
    const Expr *seen;  /* the snaps that show it; NULL: the profile does not say */
    const char *shown; /* those snaps in words, "deep throws"; NULL without `seen` */
    Place place;
} Trait;

typedef struct MeasurableKind {
    const char *id; /* height, weight, hand, arm, wingspan, forty, ten, twenty, cone, shuttle, vertical, broad, bench */
    Better better;  /* NEITHER: context only */
    double low, high; /* what the position shows (warning outside); both 0: none */
    Place place;
} MeasurableKind;

typedef enum ProfileFigureKind {
    PROFILE_THROW_FIELD,
    PROFILE_INTERVAL_ROWS,
    PROFILE_GAME_TREND,
    PROFILE_LADDER,
    PROFILE_SITUATIONS,
    PROFILE_RIBBON
} ProfileFigureKind;

/* A figure of "the tape in figures", bound to fields, measures and slices of the profile. */
typedef struct ProfileFigure {
    ProfileFigureKind kind;
    const char *title;
    const char *note; /* THROW_FIELD: how cells that are no yards lie; LADDER: what its rungs are; may be NULL */
    int measure;      /* but GAME_TREND and RIBBON: the measure it tells; else -1 */
    int *measures;    /* GAME_TREND: a panel each */
    size_t measure_count;
    int lateral, depth; /* THROW_FIELD: choice fields across and along the field; RIBBON: `lateral` is the mark */
    int *slices;        /* INTERVAL_ROWS: in order, -1 starts a new group; LADDER: the rungs */
    size_t slice_count;
    int *parts; /* LADDER: slices that part every rung */
    size_t part_count;
    int total; /* LADDER: what is counted */
    Place place;
} ProfileFigure;

/* A claim about a measure without a second slice may be held against the profile's standard. */
typedef struct Standard {
    int measure;
    double value;
    const char *source;
} Standard;

typedef struct Profile {
    const char *id;
    const char *name;      /* "Quarterback" */
    const char *plural;    /* "Quarterbacks" */
    const char *code;      /* "QB" */
    const char *snap_noun; /* "dropbacks" */
    const char **bases;    /* ids of the profile it extends, of the one that extends, and so on */
    size_t base_count;
    Field *fields;
    size_t field_count;
    const char **words; /* interned choice values; FieldValue.word indexes it */
    size_t word_count;
    int yes, no;         /* words */
    const Expr *counted; /* which snaps measures count; NULL: all */
    Slice *slices;
    size_t slice_count;
    Total *totals;
    size_t total_count;
    Measure *measures;
    size_t measure_count;
    Trait *traits;
    size_t trait_count;
    MeasurableKind *measurables;
    size_t measurable_count;
    ProfileFigure *figures;
    size_t figure_count;
    Standard *standards;
    size_t standard_count;
    int *log_fields; /* columns of the snap log, field indexes */
    size_t log_field_count;
    Place place;
    const int *order;                 /* all field indexes, each after the fields that its value or its `when` needs */
    const struct ProfileNames *names; /* ids to indexes; NULL in a profile made by hand, which is searched in line */
} Profile;

/* Reads profile `id` (profiles/ID.xml: the parts of the profile it extends, of the sets it uses, in their order, then
 * its own, which take the place of what it extends has under the same id), with the derived fields that a house
 * counting success by `success` wants. `place` is where the profile was asked for. NULL after reports.
 *
 * A field that two sets declare, of the same type and with the same values or none listed again, is one field: it
 * applies where either says, is required when either says, and keeps the words of the first. */
const Profile *profile_load(Arena *arena, const Templates *templates, SuccessRule success, const char *id, Place place,
                            Diagnostics *diagnostics) __attribute__((warn_unused_result));

/* The same of a file that need not stand among the templates; what it extends and uses does. */
const Profile *profile_load_file(Arena *arena, const Templates *templates, SuccessRule success, const char *path,
                                 Diagnostics *diagnostics) __attribute__((warn_unused_result));

/* Reads every profile of the templates that uses the set in the file at `path`, with that file, until one is at fault.
 * The first of them, or NULL after reports; one is a note when no profile uses the set. */
const Profile *profile_load_set(Arena *arena, const Templates *templates, SuccessRule success, const char *path,
                                Diagnostics *diagnostics) __attribute__((warn_unused_result));

/* Indexes by id, -1 when there is none. */
int profile_field(const Profile *profile, const char *id);
int profile_slice(const Profile *profile, const char *id);
int profile_total(const Profile *profile, const char *id);
int profile_measure(const Profile *profile, const char *id);
int profile_trait(const Profile *profile, const char *id);
int profile_word(const Profile *profile, const char *word);

/* A hint for a word that is no measurable of the trade: the nearest one, or NULL. */
const char *profile_measurable_hint(Arena *arena, const char *word);

/* The value of a choice field whose word is `word`, or NULL. */
const FieldValue *field_value(const Field *field, int word);

#endif
