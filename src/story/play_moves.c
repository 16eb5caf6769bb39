/* What moves before the ball is thrown: the man in motion, and the passer. */
#include <math.h>
#include <string.h>

#include "story/play_parts.h"

#define ELBOW_ROOM 2.2   /* a drop ends so far from another man */
#define NO_DROP 0.7      /* a drop shorter than this is none */
#define UNDER_CENTRE 2.5 /* a passer nearer to the line stands under the centre */
#define SHORT_OF 1.0     /* a motion ends so far inside the man's place */
#define LOOP_END 1.6     /* a loop comes back so far behind him */

/* ---- the passer ---- */

static const SceneMan *passer_of(const Scene *scene) {
    for (size_t i = 0; i < scene->man_count; i++) {
        if (scene->men[i].passer) return &scene->men[i];
    }
    return NULL;
}

/* A drop to a side goes to the side of the throw. */
static int drop_side(const Scene *scene) {
    double low, high;
    if (scene->key && isfinite(scene->key->aim.x)) return scene_sign(scene, scene->key->aim.x);
    return scene_lane(scene, &low, &high) ? scene_sign(scene, (low + high) / 2) : scene->strong;
}

/* A drop that would end on another man ends beside him, on the side that he leaves free. */
static YardPoint beside_others(const Scene *scene, const SceneMan *passer, YardPoint end) {
    for (size_t i = 0; i < scene->man_count; i++) {
        const SceneMan *man = &scene->men[i];
        YardPoint at = man->man.at;
        if (man == passer || man->man.mark == PLAY_DEFENDER || hypot(at.x - end.x, at.y - end.y) >= ELBOW_ROOM)
            continue;
        end.x = at.x - scene->strong * ELBOW_ROOM;
    }
    return scene_inside(scene, end);
}

void scene_drop(Scene *scene) {
    const SceneMan *passer = passer_of(scene);
    const PlayDrop *drop = PLAYS_FIND(scene->plays->drops, scene->snap->drop);
    if (!passer) return;
    scene->release = passer->man.at;
    if (passer->given && passer->given->to.count) {
        const YardPoints *to = &passer->given->to;
        scene_line(scene, PLAY_DROP, passer, to->points, to->count);
        scene->release = scene_inside(scene, to->points[to->count - 1]);
    } else if (drop) {
        YardPoint end = passer->man.at.y > -UNDER_CENTRE ? drop->under : drop->gun;
        end = scene_inside(scene, (YardPoint){passer->man.at.x + end.x * drop_side(scene), end.y});
        end = beside_others(scene, passer, end);
        scene->release = end;
        if (hypot(end.x - passer->man.at.x, end.y - passer->man.at.y) > NO_DROP) {
            scene_line(scene, PLAY_DROP, passer, &end, 1);
        }
    }
}

/* ---- motion ---- */

static bool is_target(const Scene *scene, const SceneMan *man) {
    for (size_t i = 0; i < scene->line_count; i++) {
        if (scene->lines[i].way == PLAY_TARGET && &scene->men[scene->lines[i].man] == man) return true;
    }
    return false;
}

/* Who moves was not charted: the first of the kinds that the motion names, off the line, and not the target where there
 * is another. */
static const SceneMan *find_mover(const Scene *scene, const PlayMotion *motion) {
    const SceneMan *second = NULL;
    for (size_t k = 0; k < motion->of_count; k++) {
        for (size_t i = 0; i < scene->man_count; i++) {
            const SceneMan *man = &scene->men[i];
            bool moves =
                man->man.mark == PLAY_ELIGIBLE && !man->passer && man->runner == motion->of[k] && !man->on_line;
            if (!moves) continue;
            if (!is_target(scene, man)) return man;
            if (!second) second = man;
        }
    }
    return second;
}

static bool motion_is_given(const Scene *scene) {
    for (size_t i = 0; i < scene->man_count; i++) {
        const KeyMan *given = scene->men[i].given;
        if (given && !given->defence && given->from.count) return true;
    }
    return false;
}

/* Points before his place, or after it. One that ends there does not run past it first. */
static size_t motion_points(const Scene *scene, const PlayMotion *motion, const SceneMan *man, YardPoint *points) {
    int side = scene_sign(scene, man->man.at.x);
    size_t count = 0;
    for (size_t i = 0; i < motion->from.count && count < SCENE_MOST_POINTS - 1; i++) {
        YardPoint from = motion->from.points[i];
        points[count++] = scene_inside(scene, (YardPoint){man->man.at.x + from.x * side, from.y});
    }
    for (size_t i = 0; i < motion->way.count && count < SCENE_MOST_POINTS - 1; i++) {
        YardPoint way = motion->way.points[i];
        double most = fmax(0, fabs(man->man.at.x) - SHORT_OF);
        if (motion->end == MOTION_PLACE) way.x = fmin(way.x, most);
        points[count++] = scene_inside(scene, (YardPoint){way.x * side, way.y});
    }
    if (motion->end == MOTION_LOOP) {
        points[count++] = scene_inside(scene, (YardPoint){man->man.at.x, man->man.at.y - LOOP_END});
    }
    return count;
}

void scene_motion(Scene *scene) {
    const PlayMotion *motion = PLAYS_FIND(scene->plays->motions, scene->snap->motion);
    const SceneMan *man = motion && !motion_is_given(scene) ? find_mover(scene, motion) : NULL;
    YardPoint points[SCENE_MOST_POINTS];
    if (!man) return;
    size_t count = motion_points(scene, motion, man, points);
    PlayLine *line = scene_line(scene, PLAY_MOTION, man, points, count);
    if (line) line->to_man = motion->end == MOTION_PLACE;
}
