/* A dossier: the plain model of one player's report, every part with its place. Texts are UTF-8 and live in the arena.
 */
#ifndef TB_SOURCE_DOSSIER_H
#define TB_SOURCE_DOSSIER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/diag.h"
#include "source/columns.h"
#include "source/house.h"
#include "source/notation.h"
#include "source/plays.h"
#include "source/profile.h"

/* Prose: paragraphs and lists of runs. */
typedef enum RunKind {
    RUN_TEXT,
    RUN_EMPHASIS,
    RUN_STRONG,
    RUN_TERM,
    RUN_STAT, /* computed: see StatRef */
    RUN_CITE  /* text is the snap's name, `snap` its row */
} RunKind;

typedef enum StatFormat { STAT_RATE, STAT_K_OF_N, STAT_VALUE, STAT_INTERVAL } StatFormat;

typedef struct StatRef {
    int measure;       /* or -1 */
    int total;         /* or -1; one of the two is given */
    int slice;         /* -1: all */
    const Expr *where; /* from `when`, may be NULL; joined with the slice by and */
    StatFormat format;
} StatRef;

typedef struct Run {
    RunKind kind;
    const char *text;
    StatRef stat;
    int snap; /* RUN_CITE: row, -1 unknown */
    Place place;
} Run;

typedef struct Paragraph {
    bool item; /* of a list */
    Run *runs;
    size_t run_count;
    Place place;
} Paragraph;

typedef struct Prose {
    Paragraph *paragraphs;
    size_t count;
    Place place;
} Prose;

typedef struct Snap {
    int number;
    int game;           /* index in Dossier.games */
    const char *name;   /* "g1.14" */
    const char **texts; /* by field index: as charted, NULL where not charted; derived fields NULL */
    Place place;
} Snap;

typedef struct Game {
    const char *id; /* "g1" */
    const char *on; /* ISO date */
    const char *opponent;
    const char *site;   /* home, away, neutral */
    const char *result; /* "W 31-24", may be NULL */
    const char *by;     /* evaluator id of the chart that counts, may be NULL */
    const char *media;  /* media id, may be NULL */
    const char *marks;  /* exception fields the chart says it marked, space separated, may be NULL */
    size_t first_row, row_count;
    double *official;     /* by total index of the profile; NaN where not given; NULL without <official> */
    Place official_place; /* of <official>, when there is one */
    Place place;
} Game;

/* Another evaluator's chart of a game that has one already. It shows how far the two agree; nothing is counted from it.
 * Its snaps are those of the same number in the chart that counts. */
typedef struct SecondChart {
    int game;          /* index in Dossier.games */
    const char *by;    /* evaluator id */
    const char *media; /* media id, may be NULL */
    const char *marks; /* as of a game, may be NULL */
    Snap *snaps;       /* rows of `columns` */
    size_t count;
    int *match; /* by snap: row of the dossier's own columns, -1 where the first chart has no such snap */
    Columns columns;
    Place place;
} SecondChart;

typedef struct Media {
    const char *id;
    const char *href;
    double fps;    /* 0: not given */
    double length; /* seconds; 0: not given */
    Place place;
} Media;

typedef struct Measurable {
    const MeasurableKind *kind; /* of the profile; NULL when the profile has none of this kind */
    const char *id;             /* height, weight, … */
    const char *notation;       /* as written: "6043" */
    double value;               /* inches, pounds, seconds or count: notation_unit */
    bool verified;
    bool hand_timed;
    const char *on;    /* ISO date, may be NULL */
    const char *where; /* free text, may be NULL */
    Place place;
} Measurable;

typedef struct Cite {
    int snap; /* row */
    bool against;
    const char *text;
    Place place;
} Cite;

typedef enum ClaimKind { CLAIM_STRENGTH, CLAIM_CONCERN } ClaimKind;

typedef struct Claim {
    ClaimKind kind;
    const char *id;
    const char *title;
    int slice;   /* what the claim is about */
    int against; /* slice index; -1: the rest of the measure's denominator; -2: the profile's standard */
    int measure;
    int direction; /* +1: the claim says A is higher than B, -1 lower */
    Prose prose;
    Cite *cites;
    size_t cite_count;
    Place place;
} Claim;

enum { CLAIM_AGAINST_REST = -1, CLAIM_AGAINST_STANDARD = -2 };

/* A man of a drawn snap, as far as the author gives him. Yards as in yards.h. */
typedef struct KeyMan {
    const char *id; /* his letter */
    bool defence;
    YardPoint at;        /* NaN: where the chart places him */
    YardPoints from, to; /* before and after the snap */
    const char *route;   /* of Dossier.plays; may be NULL */
    int read;            /* -1: not given */
    bool target;
    int rush; /* 1 he did, 0 he did not, -1 not given */
    Place place;
} KeyMan;

typedef struct KeyNote {
    YardPoint at;
    const char *text;
} KeyNote;

/* A snap that is drawn and told of. */
typedef struct KeySnap {
    int snap; /* row */
    Prose prose;
    int strength;                            /* -1 left, 1 right, 0 not given */
    bool offence_complete, defence_complete; /* every man of the side is given */
    KeyMan *men;
    size_t man_count;
    YardZone *zones; /* when there are any, they are all that are drawn */
    size_t zone_count;
    KeyNote *notes;
    size_t note_count;
    YardPoint aim; /* NaN: not given */
    double window; /* yards; NaN: not given */
    Place place;
} KeySnap;

typedef struct Grade {
    int trait;
    double value;
    const char *note; /* may be NULL */
    Place place;
} Grade;

typedef struct Grades {
    const char *by; /* evaluator id */
    const char *on; /* may be NULL */
    Grade *grades;
    size_t count;
    double overall;   /* NaN when not given */
    const char *when; /* at-once, by-camp, second-year, long, no; may be NULL */
    const char *fit;
    const char *role;
    const char *says;    /* a sentence about the overall, may be NULL */
    Place overall_place; /* of <overall>, when there is one */
    Place place;
} Grades;

typedef struct Filing {
    const char *by, *on;
    int revision;
    const char *note;
    Place place;
} Filing;

typedef struct Fact { /* background, free: label and text */
    const char *label;
    const char *text;
} Fact;

typedef struct Dossier {
    const char *id;
    const char *path;
    const Profile *profile;
    const House *house;
    const char *given, *family; /* name */
    const char *school, *position, *class_, *jersey, *born, *throws;
    Filing filing;
    Measurable *measurables;
    size_t measurable_count;
    Media *media;
    size_t media_count;
    Game *games;
    size_t game_count;
    Snap *snaps; /* rows of `columns` */
    size_t snap_count;
    Columns columns;
    SecondChart *second_charts; /* in order of the file */
    size_t second_chart_count;
    Claim *claims;
    size_t claim_count;
    KeySnap *keys;
    size_t key_count;
    const Plays *plays; /* how snaps are drawn; NULL without key snaps */
    Grades *grades;     /* the first is the filing evaluator's */
    size_t grades_count;
    Prose bottom_line, background, medical, personal;
    const struct Names *snap_names; /* rows by name: dossier_snap */
    Place place;
} Dossier;

/* Where templates are and which house applies; shared by all dossiers of a run. */
typedef struct SourceContext SourceContext;

/* `house_path` NULL: templates/houses/plain.xml. Profiles and schemas are loaded once and kept. Never NULL; after
 * reports there is no house in it, and nothing can be loaded. Diagnostics point into files that the context holds, so
 * print them before freeing it. */
SourceContext *source_context_new(const char *templates, const char *house_path, Diagnostics *diagnostics);
void source_context_free(SourceContext *context);
const House *source_house(const SourceContext *context); /* NULL after reports */
/* How snaps are drawn: templates/plays/standard.xml. */
const Plays *source_plays(SourceContext *context, Place place, Diagnostics *diagnostics);
const Profile *source_profile(SourceContext *context, const char *id, Place place, Diagnostics *diagnostics);

/* A profile or set in a file of its own, read afresh into `arena` for checking it; of a set, the first profile that
 * uses it, read with this file. NULL after reports. */
const Profile *source_profile_file(SourceContext *context, Arena *arena, const char *path, Diagnostics *diagnostics);
const Profile *source_set_file(SourceContext *context, Arena *arena, const char *path, Diagnostics *diagnostics);

/* Reads and validates one dossier: structure, vocabulary, references, expressions, notation. Returns NULL when there is
 * nothing sensible to go on with; a dossier that has errors may still be returned so that later checks run, so ask
 * diag_errors before using it for figures. Everything lives in `arena`, but for the profile and house (the context's).
 */
Dossier *dossier_load(Arena *arena, SourceContext *context, const char *path, Diagnostics *diagnostics)
    __attribute__((warn_unused_result));

/* Row of the snap called "g1.14", or -1. */
int dossier_snap(const Dossier *dossier, const char *name);

/* The model as stable text, for --dump=model and goldens. */
void dossier_dump(const Dossier *dossier, Buf *out);

#endif
