/* A picture under way: shared by the play_*.c files only. Yards; x + to the right unless said otherwise. */
#ifndef TB_STORY_PLAY_PARTS_H
#define TB_STORY_PLAY_PARTS_H

#include "story/play.h"

enum { SCENE_MOST_MEN = 128, SCENE_MOST_LINES = 192, SCENE_MOST_POINTS = 64, SCENE_TEAM = 11 };

#define SCENE_INSIDE 1.3 /* a man stands at least so far inside the field's edges */

/* Where a defender stood, from the line outward. */
typedef enum Post { POST_DOWN, POST_EDGE, POST_BACKER, POST_SLOT, POST_SAFETY, POST_CORNER } Post;

typedef struct SceneMan {
    PlayMan man;
    Runner runner; /* PLAY_ELIGIBLE but the passer */
    bool passer;
    bool on_line;        /* PLAY_ELIGIBLE: one of the seven */
    Post post;           /* PLAY_DEFENDER */
    bool rushes;         /* PLAY_DEFENDER */
    const KeyMan *given; /* NULL: all from the chart */
} SceneMan;

typedef struct Scene {
    Arena *arena;
    const Plays *plays;
    const PlaySnap *snap;
    const KeySnap *key; /* may be NULL */
    double left, right; /* sidelines */
    double back, front; /* own and the opponent's end line */
    int strong;         /* 1 the right is the strong side, -1 the left */
    SceneMan men[SCENE_MOST_MEN];
    size_t man_count;
    PlayLine lines[SCENE_MOST_LINES];
    size_t line_count;
    YardZone *zones;
    size_t zone_count;
    YardPoint release, aim;
} Scene;

/* ---- places (play.c) ---- */

/* A template's point on this field: mirrored to the strong side and moved inside its edges. */
YardPoint scene_spot(const Scene *scene, YardPoint spot);
YardPoint scene_inside(const Scene *scene, YardPoint point);

/* A man more; NULL when there are too many. */
SceneMan *scene_add(Scene *scene, PlayMark mark, const char *letter, YardPoint at);

/* A line more, of copied points cut to the field's edges; NULL without points or when there are too many. */
PlayLine *scene_line(Scene *scene, PlayWay way, const SceneMan *man, const YardPoint *points, size_t count);

/* Bounds across the field of the charted side, inset; false when it is not charted. */
bool scene_lane(const Scene *scene, double *low, double *high);

int scene_sign(const Scene *scene, double x); /* of a place: -1 left, 1 right of the ball; the strong side at it */

/* ---- the steps, in order ---- */
void scene_offence(Scene *scene);             /* play_offence.c: who stands where */
void scene_given(Scene *scene, bool defence); /* play_given.c: what the author gives takes precedence */
void scene_defence(Scene *scene);             /* play_defence.c */
void scene_motion(Scene *scene);              /* play_moves.c: before the snap */
void scene_drop(Scene *scene);                /* play_moves.c: and where the ball leaves from */
void scene_routes(Scene *scene);              /* play_routes.c: and where the ball goes */
void scene_rush(Scene *scene);                /* play_rush.c */
void scene_zones(Scene *scene);               /* play_rush.c */

/* The route of a man from his place to a depth in a lane, into `points` (SCENE_MOST_POINTS): NaN depth and no lane: the
 * route's own. Returns how many; `*miss` is how far across the route had to be bent. */
size_t scene_fit(const Scene *scene, const SceneMan *man, const PlayRoute *route, double depth, const double *lane,
                 YardPoint *points, double *miss);

/* The text alternative (play_words.c). */
const char *scene_words(const Scene *scene, const PlayFigure *play, const char *title);

#endif
