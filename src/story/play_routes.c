/* Routes: the legs of the template, fitted to the charted depth and side, and whose the charted route is. Only what is
 * charted or given is drawn: a man without a route has none. */
#include <math.h>
#include <string.h>

#include "story/play_parts.h"

#define LEG_LEAST 0.4 /* share of its last leg at which a route may end */
#define LEG_MOST 1.4
#define STEM_LEAST 1.0 /* yards */
#define RISING 0.25    /* cosine from which on a leg changes the depth */
#define BREAKING 0.4   /* sine from which on a leg goes across */
#define BREAK_LEAST 0.3
#define NO_MATTER 0.05
#define BALL_ROOM 2.1 /* between a man and where the ball comes down */
#define BALL_STEP 0.5

static const double radian = 3.14159265358979323846 / 180;

/* ---- the legs ---- */

/* A route under way: legs with their lengths as drawn. */
typedef struct Path {
    const PlayRoute *route;
    YardPoint start;
    int out;           /* 1: the nearer sideline is at the right */
    double stem, last; /* lengths of the first and the last leg; the same when there is one */
} Path;

static double leg_yards(const Path *path, size_t leg) {
    if (leg + 1 == path->route->leg_count) return path->last;
    return leg == 0 ? path->stem : path->route->legs[leg].yards;
}

static size_t walk(const Path *path, YardPoint *points) {
    YardPoint at = path->start;
    size_t count = path->route->leg_count < SCENE_MOST_POINTS ? path->route->leg_count : SCENE_MOST_POINTS;
    for (size_t i = 0; i < count; i++) {
        double yards = leg_yards(path, i);
        at.x += path->out * sin(path->route->legs[i].angle * radian) * yards;
        at.y += cos(path->route->legs[i].angle * radian) * yards;
        points[i] = at;
    }
    return count;
}

static double end_depth(const Path *path) {
    YardPoint points[SCENE_MOST_POINTS] = {{0, 0}};
    size_t count = walk(path, points);
    return points[count - 1].y;
}

static double farthest(const Path *path) {
    YardPoint points[SCENE_MOST_POINTS] = {{0, 0}};
    size_t count = walk(path, points);
    double far = -INFINITY;
    for (size_t i = 0; i < count; i++) far = fmax(far, points[i].y);
    return far;
}

/* ---- depth ---- */

static void move_stem(Path *path, double yards) {
    double rise = cos(path->route->legs[0].angle * radian);
    if (rise < 0.5) return;
    bool single = path->route->leg_count == 1;
    path->stem = fmax(STEM_LEAST, path->stem + yards / rise);
    if (single) path->last = path->stem;
}

/* A rising last leg may end earlier or later; the rest is the stem's. */
static void reach_depth(Path *path, double depth) {
    size_t last = path->route->leg_count - 1;
    double rise = cos(path->route->legs[last].angle * radian);
    double whole = path->route->legs[last].yards;
    if (last > 0 && fabs(rise) > RISING) {
        double wanted = path->last + (depth - end_depth(path)) / rise;
        path->last = fmin(fmax(wanted, LEG_LEAST * whole), LEG_MOST * whole);
    }
    move_stem(path, depth - end_depth(path));
}

/* What the legs cannot reach is squeezed or stretched along the field. */
static void squeeze(YardPoint *points, size_t count, double from, double to) {
    double drawn = points[count - 1].y - from;
    if (fabs(drawn - (to - from)) < NO_MATTER || fabs(drawn) < NO_MATTER) return;
    double share = (to - from) / drawn;
    for (size_t i = 0; i + 1 < count && share > 0; i++) points[i].y = from + (points[i].y - from) * share;
    points[count - 1].y = to;
}

/* Near the goal stems are shortened first; what then is still too far is cut there. */
static void stay_short_of(Path *path, double limit) {
    double over = farthest(path) - limit;
    if (over > 0) move_stem(path, -over);
}

/* ---- across ---- */

/* A break goes on across or stops sooner; any other route drifts. */
static void bend(const Path *path, YardPoint *points, size_t count, double across) {
    double sine = sin(path->route->legs[count - 1].angle * radian);
    double before = count > 1 ? points[count - 2].x : path->start.x;
    double leg = points[count - 1].x - before;
    bool same_way = (leg + across) * leg > 0 && fabs(leg + across) >= BREAK_LEAST * fabs(leg);
    if (fabs(sine) >= BREAKING && same_way) {
        points[count - 1].x += across;
        return;
    }
    double total = 0;
    double walked[SCENE_MOST_POINTS] = {0};
    YardPoint at = path->start;
    for (size_t i = 0; i < count; i++) {
        total += hypot(points[i].x - at.x, points[i].y - at.y);
        walked[i] = total;
        at = points[i];
    }
    if (total < NO_MATTER) points[count - 1].x += across;
    for (size_t i = 0; i < count && total >= NO_MATTER; i++) points[i].x += across * walked[i] / total;
}

static int outside_of(const Scene *scene, const SceneMan *man, const double *lane) {
    double x = man->man.at.x;
    bool beside_ball = man->runner == RUNNER_BACK && fabs(x) < 3;
    if (beside_ball && lane) return scene_sign(scene, (lane[0] + lane[1]) / 2);
    return scene_sign(scene, x);
}

size_t scene_fit(const Scene *scene, const SceneMan *man, const PlayRoute *route, double depth, const double *lane,
                 YardPoint *points, double *miss) {
    Path path = {.route = route, .start = man->man.at, .out = outside_of(scene, man, lane)};
    double limit = scene->front - SCENE_INSIDE;
    if (!route->leg_count) return 0;
    path.stem = route->legs[0].yards;
    path.last = route->legs[route->leg_count - 1].yards;
    if (isfinite(depth)) reach_depth(&path, fmin(depth, limit));
    stay_short_of(&path, limit);
    size_t count = walk(&path, points);
    if (isfinite(depth)) squeeze(points, count, path.start.y, fmin(depth, limit));
    double low = fmax(lane ? lane[0] : -INFINITY, scene->left + SCENE_INSIDE);
    double high = fmin(lane ? lane[1] : INFINITY, scene->right - SCENE_INSIDE);
    double x = points[count - 1].x;
    double across = fmax(low, fmin(x, high)) - x;
    *miss = fabs(across);
    if (lane && *miss > NO_MATTER) bend(&path, points, count, across);
    return count;
}

/* ---- whose route it is ---- */

static const SceneMan *given_target(const Scene *scene) {
    const char *route = scene->snap->route;
    for (size_t i = 0; i < scene->man_count; i++) {
        if (scene->men[i].given && scene->men[i].given->target) return &scene->men[i];
    }
    for (size_t i = 0; i < scene->man_count; i++) {
        const KeyMan *given = scene->men[i].given;
        if (!given || given->defence || !given->route || !route || strcmp(given->route, route) != 0) continue;
        if (given->read < 0 || given->read == (int)scene->snap->read) return &scene->men[i];
    }
    return NULL;
}

/* Of the men who lined up so, the one whose route comes nearest to where the ball was aimed. */
static const SceneMan *nearest_runner(const Scene *scene, Runner runner, const double *lane) {
    const PlayRoute *route = plays_route(scene->plays, scene->snap->route, (int)runner);
    const SceneMan *best = NULL;
    double least = INFINITY;
    for (size_t i = 0; route && i < scene->man_count; i++) {
        const SceneMan *man = &scene->men[i];
        YardPoint points[SCENE_MOST_POINTS] = {{0, 0}};
        double miss = 0;
        if (man->man.mark != PLAY_ELIGIBLE || man->passer || man->runner != runner) continue;
        if (man->given && (man->given->route || man->given->to.count)) continue;
        scene_fit(scene, man, route, scene->snap->depth, lane, points, &miss);
        if (miss >= least) continue;
        least = miss;
        best = man;
    }
    return best;
}

static const SceneMan *find_target(const Scene *scene, const double *lane) {
    const SceneMan *man = given_target(scene);
    const RunnerWord *word = PLAYS_FIND(scene->plays->runners, scene->snap->runner);
    if (man || !word) return man;
    man = nearest_runner(scene, word->is, lane);
    if (!man && word->is == RUNNER_SLOT) man = nearest_runner(scene, RUNNER_WIDE, lane);
    if (!man && word->is == RUNNER_WIDE) man = nearest_runner(scene, RUNNER_SLOT, lane);
    return man;
}

/* ---- drawing ---- */

static void number_line(const Scene *scene, PlayLine *line, int read) {
    if (read >= 0) line->read = arena_printf(scene->arena, "%d", read);
}

static PlayLine *draw_route(Scene *scene, const SceneMan *man, PlayWay way, const char *id, double depth,
                            const double *lane) {
    const PlayRoute *route = plays_route(scene->plays, id, (int)man->runner);
    YardPoint points[SCENE_MOST_POINTS] = {{0, 0}};
    double miss;
    if (!route) return NULL;
    size_t count = scene_fit(scene, man, route, depth, lane, points, &miss);
    PlayLine *line = scene_line(scene, way, man, points, count);
    if (line) line->settles = route->settles;
    return line;
}

/* Where the chart or the author has the ball go; false: nowhere. */
static bool aimed_at(const Scene *scene, double *lane, double *depth) {
    if (scene->key && isfinite(scene->key->aim.x)) {
        lane[0] = lane[1] = scene->key->aim.x;
        *depth = scene->key->aim.y;
        return true;
    }
    *depth = scene->snap->depth;
    return scene_lane(scene, &lane[0], &lane[1]) && isfinite(*depth);
}

static bool stands_on_man(const Scene *scene, YardPoint at) {
    for (size_t i = 0; i < scene->man_count; i++) {
        YardPoint man = scene->men[i].man.at;
        if (hypot(man.x - at.x, man.y - at.y) < BALL_ROOM) return true;
    }
    return false;
}

/* Only the lane of the aim is charted: in it, the ball comes down beside whoever stands there. */
static YardPoint beside_men(const Scene *scene, YardPoint aim, const double *lane) {
    int steps = (int)((lane[1] - lane[0]) / BALL_STEP);
    for (int i = 0; i <= steps; i++) {
        double by = i * BALL_STEP;
        YardPoint left = {aim.x - by, aim.y};
        YardPoint right = {aim.x + by, aim.y};
        if (left.x >= lane[0] && !stands_on_man(scene, left)) return left;
        if (right.x <= lane[1] && !stands_on_man(scene, right)) return right;
    }
    return aim;
}

static void draw_target(Scene *scene, const SceneMan *man, const double *lane, double depth) {
    const KeyMan *given = man->given;
    int read = isfinite(scene->snap->read) ? (int)scene->snap->read : -1;
    if (given && given->read >= 0) read = given->read;
    PlayWay way = lane ? PLAY_TARGET : PLAY_ROUTE; /* nothing was thrown */
    PlayLine *line =
        given && given->to.count
            ? scene_line(scene, way, man, given->to.points, given->to.count)
            : draw_route(scene, man, way, given && given->route ? given->route : scene->snap->route, depth, lane);
    if (!line) return;
    number_line(scene, line, read);
    YardPoint *end = &line->points[line->count - 1];
    if (!lane || lane[0] == lane[1]) return;
    if (!(given && given->to.count)) *end = beside_men(scene, *end, lane);
    scene->aim = *end;
}

static void draw_others(Scene *scene, const SceneMan *target) {
    for (size_t i = 0; i < scene->man_count; i++) {
        const SceneMan *man = &scene->men[i];
        const KeyMan *given = man->given;
        if (!given || given->defence || man == target || man->passer) continue;
        PlayLine *line = given->to.count ? scene_line(scene, PLAY_ROUTE, man, given->to.points, given->to.count)
                         : given->route  ? draw_route(scene, man, PLAY_ROUTE, given->route, NAN, NULL)
                                         : NULL;
        if (line) number_line(scene, line, given->read);
    }
}

void scene_routes(Scene *scene) {
    double lane[2];
    double depth;
    bool thrown = aimed_at(scene, lane, &depth);
    const SceneMan *target = find_target(scene, thrown ? lane : NULL);
    if (thrown) scene->aim = beside_men(scene, (YardPoint){(lane[0] + lane[1]) / 2, depth}, lane);
    if (target) draw_target(scene, target, thrown ? lane : NULL, depth);
    draw_others(scene, target);
}
