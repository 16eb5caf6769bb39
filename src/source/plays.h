/* How charted snaps are drawn where nobody gives coordinates: places, routes, drops, fronts and zones by the words of
 * the chart, from templates/plays/NAME.xml. Yards as in yards.h, + to the strong side. */
#ifndef TB_SOURCE_PLAYS_H
#define TB_SOURCE_PLAYS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/diag.h"
#include "source/templates.h"
#include "source/yards.h"

/* How a man lined up. */
typedef enum Runner { RUNNER_WIDE, RUNNER_SLOT, RUNNER_END, RUNNER_BACK, RUNNER_COUNT } Runner;

/* A charted word for the man of a route. */
typedef struct RunnerWord {
    const char *id; /* "WR" */
    Runner is;
} RunnerWord;

/* Letters in the order in which men are placed. */
typedef struct LetterList {
    const char **letters;
    size_t count;
} LetterList;

typedef struct PlayLetters {
    LetterList receivers, ends, backs, passer, corners, slots, safeties;
} PlayLetters;

typedef struct RouteLeg {
    double yards;
    double angle; /* degrees: 0 upfield, + to the nearer sideline, 180 back to the line */
} RouteLeg;

typedef struct PlayRoute {
    const char *id;
    int runner; /* a Runner, or -1: everybody's */
    RouteLeg *legs;
    size_t leg_count;
    bool settles; /* he stops at its end */
} PlayRoute;

typedef struct PlayBackfield {
    const char *id;
    YardPoints passer; /* none: he is not drawn */
    YardPoints backs;
} PlayBackfield;

typedef struct PlayFormation {
    const char *id;
    YardPoints receivers, ends, backs; /* no backs: where the backfield has them */
} PlayFormation;

typedef enum MotionEnd { MOTION_AWAY, MOTION_PLACE, MOTION_LOOP } MotionEnd;

typedef struct PlayMotion {
    const char *id;
    Runner of[RUNNER_COUNT]; /* who moves: the first of these that the formation has */
    size_t of_count;
    YardPoints way;  /* x from the ball, + to the side where he stands at the snap */
    YardPoints from; /* one point, measured from his place, + outside; or none */
    MotionEnd end;
} PlayMotion;

typedef struct PlayDrop {
    const char *id;
    YardPoint under, gun;
} PlayDrop;

typedef struct PlayPlace {
    const char *letter;
    YardPoint at;
} PlayPlace;

typedef struct PlayPlaces {
    PlayPlace *places;
    size_t count;
} PlayPlaces;

typedef struct PlayFront {
    const char *id;
    PlayPlaces men;
    int edges; /* backers who stand up beside them */
} PlayFront;

typedef struct PlaySub {
    const char *id;
    int corners, slots, safeties;
} PlaySub;

typedef struct PlayShell {
    const char *id;
    YardPoints deep, down; /* safeties that stand deep, and the others */
} PlayShell;

typedef struct YardZone {
    YardPoint middle;
    double width, depth;
} YardZone;

typedef struct PlayCoverage {
    const char *id;
    double corner; /* how far off the corners stand */
    bool man;      /* whoever has no zone has a man */
    YardZone *zones;
    size_t zone_count;
} PlayCoverage;

typedef struct PlayCall {
    const char *id;
    int trades; /* so many men of the line drop, and as many from depth rush */
} PlayCall;

typedef struct PlayLane {
    const char *id;
    double from, to; /* yards from the left sideline */
} PlayLane;

typedef struct PlayWindow {
    const char *id;
    double size; /* yards */
} PlayWindow;

/* Rows of one kind; each begins with its id. */
#define PLAY_ROWS(type)                                                                                                \
    struct {                                                                                                           \
        type *rows;                                                                                                    \
        size_t count;                                                                                                  \
    }

typedef struct Plays {
    const char *id;
    PlayLetters letters;
    YardPoints line; /* five linemen from the weak side; the third is the centre */
    YardPoint extra; /* a sixth */
    PLAY_ROWS(RunnerWord) runners;
    PLAY_ROWS(PlayRoute) routes;
    PLAY_ROWS(PlayBackfield) backfields;
    PLAY_ROWS(PlayFormation) formations;
    PLAY_ROWS(PlayMotion) motions;
    PLAY_ROWS(PlayDrop) drops;
    PLAY_ROWS(PlayFront) fronts;
    PlayPlaces edges;
    PLAY_ROWS(PlayPlaces) backers; /* by their number, in any order */
    PLAY_ROWS(PlaySub) subs;
    PLAY_ROWS(PlayShell) shells;
    PLAY_ROWS(PlayCoverage) coverages;
    PLAY_ROWS(PlayCall) calls;
    PLAY_ROWS(PlayLane) lanes;
    PLAY_ROWS(PlayWindow) windows;
} Plays;

enum { PLAYS_LINEMEN = 5, PLAYS_CENTRE = 2 };

/* templates/plays/ID.xml. `place` is where it was asked for. NULL after reports. */
const Plays *plays_load(Arena *arena, const Templates *templates, const char *id, Place place, Diagnostics *diagnostics)
    __attribute__((warn_unused_result));

/* The row called `id`, or NULL; a NULL id has none. */
const void *plays_row(const void *rows, size_t count, size_t stride, const char *id);
#define PLAYS_FIND(table, id) plays_row((table).rows, (table).count, sizeof *(table).rows, (id))

/* The route called so; the runner's own where he has one. NULL: there is none. `runner` may be -1. */
const PlayRoute *plays_route(const Plays *plays, const char *id, int runner);

/* The list of backers for so many of them: the longest that is not longer. NULL: there is none. */
const PlayPlaces *plays_backers(const Plays *plays, size_t count);

/* Reads "x,y x,y" of an attribute into points; none without the attribute. */
struct XmlNode;
YardPoints plays_points(Arena *arena, const struct XmlNode *node, const char *attribute, Diagnostics *diagnostics);

#endif
