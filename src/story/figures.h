/* Figures as data: what is drawn, not where. Each has a text alternative. Rates are 0..1. */
#ifndef TB_STORY_FIGURES_H
#define TB_STORY_FIGURES_H

#include <stdbool.h>
#include <stddef.h>

#include "source/plays.h"

typedef enum FigureKind {
    FIGURE_SCALE_STRIPS,
    FIGURE_THROW_FIELD,
    FIGURE_INTERVAL_ROWS,
    FIGURE_TRAIT_BARS,
    FIGURE_GRADE_RULE,
    FIGURE_CLAIM_ROWS,
    FIGURE_TAPE_TEST,
    FIGURE_VERDICT_KEY,
    FIGURE_GAME_TREND,
    FIGURE_READ_LADDER,
    FIGURE_SITUATIONS,
    FIGURE_DRIVE_RIBBON,
    FIGURE_SEASON_RIBBON,
    FIGURE_PLAY,
    FIGURE_PLAY_KEY,
    FIGURE_WALL_CARD,
    FIGURE_CHART_FORM,
    FIGURE_FILM_CODES,
    FIGURE_KIND_COUNT
} FigureKind;

/* One measurable against its population. Values in the measurable's unit; `flipped` puts low values at the right. */
typedef struct StripRow {
    const char *label;                /* "Height" */
    const char *notation;             /* "6043" */
    const char *plain;                /* "6 ft 4⅜ in" */
    const char *low_text, *high_text; /* the 5th and 95th percentile in plain words, short */
    double q5, q25, q50, q75, q95;    /* NaN: no population, the row prints without a line */
    double value;
    bool flipped;
    bool open;              /* unverified or hand-timed */
    const char *percentile; /* "81", "" when unknown */
    const char *of;         /* "of 320" */
} StripRow;

typedef struct ScaleStrips {
    StripRow *rows;
    size_t count;
} ScaleStrips;

typedef struct RateCell {
    int k, n;
    double value, low, high;
} RateCell;

/* The field from above: bands of depth from the bottom up, lanes from left to right, to scale in yards. */
typedef struct FieldLane {
    const char *label;
    double from, to; /* yards from the left sideline, 0..53.33 */
    RateCell total;
} FieldLane;

typedef struct FieldBand {
    const char *label;
    double from, to; /* yards from the line of scrimmage, negative behind */
    RateCell total;
} FieldBand;

typedef struct ThrowFieldFigure {
    FieldLane *lanes;
    size_t lane_count;
    FieldBand *bands;
    size_t band_count;
    RateCell *cells; /* [band * lane_count + lane] */
} ThrowFieldFigure;

/* Rows of a rate or a value with interval on one axis. */
typedef struct IntervalRow {
    const char *label;
    const char *count;       /* "65/82", or "n 82" */
    const char *value;       /* "79%" or "7.4" */
    const char *interval;    /* "69–87" */
    double point, low, high; /* on the axis; NaN: not drawn (a value of another unit than the axis is printed only) */
    bool hatched;            /* n under 5: interval drawn hatched, no point, the value prints as "–" */
    bool open;               /* marker of the rest */
    bool starts_group;
} IntervalRow;

typedef struct Axis {
    double from, to, step;
    const char *suffix; /* on the last tick label: "%" */
    double scale;       /* tick labels are value * scale */
} Axis;

typedef struct IntervalRows {
    IntervalRow *rows;
    size_t count;
    Axis axis;
    double reference; /* a line behind the rows; NaN none */
} IntervalRows;

typedef struct TraitRow {
    const char *label;
    const char *weight; /* "15" */
    const char *grade;  /* "6.5", "–" */
    const char *says;   /* note of the evaluator or definition */
    double value;       /* NaN not graded */
    double low, high;   /* range between evaluators; NaN: one only */
} TraitRow;

typedef struct TraitBars {
    TraitRow *rows;
    size_t count;
    double low, high, bar; /* the house scale and the position's bar */
} TraitBars;

typedef struct GradeTick {
    double at;
    const char *label; /* "6" */
    const char *word;  /* "holds", "" between words */
} GradeTick;

typedef struct GradeRule {
    GradeTick *ticks;
    size_t count;
    double from, to;
    double value;
    double low, high; /* range between evaluators; NaN: one */
    const char *note; /* "three evaluators: 6.0, 6.2, 6.4" */
} GradeRule;

typedef enum VerdictMark {
    MARK_NONE,
    MARK_TOO_FEW,
    MARK_CONTRADICTED,
    MARK_LEANING_AGAINST,
    MARK_LEANING,
    MARK_BORNE_OUT
} VerdictMark;

/* Front page: a claim in two rows. */
typedef struct ClaimRow {
    const char *group; /* "WHY" printed above the first of its group, else NULL */
    const char *title;
    const char *measure; /* "on target, of throws" */
    const char *target;  /* anchor of the claim */
    IntervalRow a, b;
    VerdictMark mark;
    const char *verdict; /* "borne out"; "" without a test */
    const char *detail;  /* "adjusted p 0.018" or the difference */
} ClaimRow;

typedef struct ClaimRows {
    ClaimRow *rows;
    size_t count;
    Axis axis;
} ClaimRows;

/* Beside a claim: both sides, the difference, the verdict. */
typedef struct TapeTest {
    IntervalRow a, b;
    Axis axis;
    IntervalRow difference;
    Axis difference_axis;
    int direction; /* +1: the right half of the difference axis is as claimed and tinted; -1 the left */
    bool testable; /* false: no difference is drawn */
    VerdictMark mark;
    const char *verdict;
} TapeTest;

/* Game by game: small multiples that share their games; opponents are named once, below. */
typedef struct TrendGame {
    const char *label;    /* "g1": under every point */
    const char *opponent; /* "at Brackwater" */
    const char *date;     /* "13 Sep" */
} TrendGame;

typedef struct TrendPoint {
    const char *n;           /* "31", printed under the point */
    double point, low, high; /* NaN: not drawn */
    bool hatched;            /* n under 5: interval drawn hatched, no point */
} TrendPoint;

typedef struct TrendPanel {
    const char *title;  /* "On target, %" */
    Axis axis;          /* upward */
    double season;      /* line of all games together; NaN none */
    TrendPoint *points; /* one a game */
} TrendPanel;

typedef struct GameTrend {
    TrendGame *games;
    size_t game_count;
    TrendPanel *panels;
    size_t panel_count;
} GameTrend;

/* How far he reads: one bar of all snaps cut into stairs, a stair for each read, its snaps parted by what came of them.
 */
enum { LADDER_MOST_PARTS = 5 };

typedef struct LadderRung {
    const char *label;            /* "First read" */
    const char *reached;          /* "134 of 244 reached" */
    const char *note;             /* "success 63/134, 47% (39–55)" */
    int parts[LADDER_MOST_PARTS]; /* snaps */
} LadderRung;

typedef struct ReadLadder {
    const char *parts[LADDER_MOST_PARTS]; /* their names: filled dark, middle, white, hatched, black */
    size_t part_count;
    LadderRung *rungs;
    size_t count;
} ReadLadder;

/* A rate by two things at once: down × distance. */
typedef struct Situations {
    const char **columns; /* "1–3 to go" */
    size_t column_count;
    const char **rows; /* "1st" */
    size_t row_count;
    RateCell *cells; /* [row * column_count + column] */
    bool totals;     /* the last row is a total */
} Situations;

/* Every charted snap of a game in order. */
typedef struct RibbonSnap {
    int mark;                        /* 1 above the line, 0 on it, -1 below it */
    bool unmarked;                   /* no mark was charted */
    const char *quarter;             /* "Q1" at the first snap of a quarter, else NULL */
    const char *drive;               /* "2" at the first snap of a drive, else NULL */
    const char *down, *to_go, *gain; /* short: "3", "10", "td" */
    bool notable;                    /* the gain is printed strong */
    const char *flag;                /* number of a cited snap, else NULL */
    const char *target;              /* anchor the flag links to; may be NULL */
} RibbonSnap;

typedef struct DriveRibbon {
    RibbonSnap *snaps;
    size_t count;
} DriveRibbon;

/* All games as small ribbons under each other, with their counts. */
typedef struct SeasonGame {
    const char *label;           /* "g1" */
    const char *opponent;        /* "at Brackwater" */
    const signed char *marks;    /* 1, 0, -1 in order */
    const unsigned char *drives; /* 1 where a drive starts; may be NULL */
    size_t count;
} SeasonGame;

typedef struct SeasonRibbon {
    SeasonGame *games;
    size_t count;
} SeasonRibbon;

/* One snap on the field, to scale. Places and ways in yards as in source/yards.h, + x to the right. */
typedef enum PlayMark { PLAY_LINEMAN, PLAY_CENTRE, PLAY_ELIGIBLE, PLAY_DEFENDER } PlayMark;

typedef struct PlayMan {
    PlayMark mark;
    const char *letter; /* "" for a lineman */
    YardPoint at;       /* where the part of him that is nearest the ball is */
} PlayMan;

typedef enum PlayWay { PLAY_TARGET, PLAY_ROUTE, PLAY_MOTION, PLAY_DROP, PLAY_COVER, PLAY_RUSH, PLAY_WAY_COUNT } PlayWay;

typedef struct PlayLine {
    PlayWay way;
    int man;           /* whose it is: index of PlayFigure.men */
    bool to_man;       /* it ends at him; else it begins there */
    YardPoint *points; /* without his own place; at least one */
    size_t count;
    bool settles;     /* he stops at its end: no arrow */
    const char *read; /* printed at its last bend; NULL none */
} PlayLine;

typedef struct PlayNote {
    YardPoint at;
    const char *text;
} PlayNote;

typedef struct PlayFigure {
    double left, right; /* sidelines, x */
    double hashes[2];   /* x */
    double goal;        /* y of the opponent's goal line */
    double gain;        /* y of the line to gain; NaN none */
    double from, to;    /* y of the lower and upper edge: whatever is farther is cut */
    PlayMan *men;
    size_t man_count;
    PlayLine *lines;
    size_t line_count;
    YardZone *zones;
    size_t zone_count;
    PlayNote *notes;
    size_t note_count;
    YardPoint release, aim; /* of the ball; NaN: not drawn */
    bool caught;
    double window; /* yards of room at the aim; 0 none */
} PlayFigure;

/* The key to the marks that some figures of plays have. */
typedef enum PlayPart {
    PLAY_PART_OFFENCE,
    PLAY_PART_DEFENCE,
    PLAY_PART_TARGET,
    PLAY_PART_ROUTE,
    PLAY_PART_READ,
    PLAY_PART_MOTION,
    PLAY_PART_DROP,
    PLAY_PART_RUSH,
    PLAY_PART_BALL,
    PLAY_PART_ZONE,
    PLAY_PART_WINDOW,
    PLAY_PART_GAIN,
    PLAY_PART_COUNT
} PlayPart;

typedef struct PlayKey {
    bool parts[PLAY_PART_COUNT];
} PlayKey;

/* A card for the wall, 127 by 51 millimetres, with marks to cut along. */
typedef struct CardClaim {
    const char *title;
    const char *counts; /* "65/82 v 77/127" */
    VerdictMark mark;
} CardClaim;

typedef struct WallCard {
    const char *code;  /* "QB" */
    const char *grade; /* "6.2", "–" */
    const char *word;  /* what the house calls the grade */
    const char *surname;
    const char *line;     /* "Tobin · Harrow Valley · senior" */
    const char *size;     /* "6043  226", "" unmeasured */
    const char *measured; /* "hand 9⅝ · arm 32¼ · 4.81 h" */
    CardClaim *claims;
    size_t claim_count;
    const char *headline;         /* what the evaluator sees in him */
    const char *rests_on;         /* "7 games, 244 dropbacks · revision 3" */
    double value, low, high, bar; /* the grade, the house scale and the starter's bar; NaN: not graded */
} WallCard;

/* A blank sheet to chart on: as many rows as the page has room for. */
typedef struct FormColumn {
    const char *label;
    double weight; /* share of the width */
} FormColumn;

typedef struct ChartForm {
    const char **boxes; /* what the charter fills in first: "Game" */
    size_t box_count;
    FormColumn *columns;
    size_t column_count;
    int most_rows; /* 0: what fits */
} ChartForm;

/* Addresses of clips as QR codes. */
typedef struct FilmCode {
    const char *address;
    const char *name; /* "g1.14" */
    const char *time; /* "0:21:40" */
} FilmCode;

typedef struct FilmCodes {
    FilmCode *codes;
    size_t count;
} FilmCodes;

typedef struct Figure {
    FigureKind kind;
    const char *alt; /* what it shows, in words, with its numbers */
    union {
        ScaleStrips strips;
        ThrowFieldFigure field;
        IntervalRows intervals;
        TraitBars traits;
        GradeRule grade;
        ClaimRows claims;
        TapeTest test;
        GameTrend trend;
        ReadLadder ladder;
        Situations situations;
        DriveRibbon ribbon;
        SeasonRibbon season;
        PlayFigure play;
        PlayKey play_key;
        WallCard card;
        ChartForm form;
        FilmCodes codes;
    } as;
} Figure;

#endif
