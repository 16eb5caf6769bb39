/* What the author gives of a man takes precedence over what his letter gets from the chart. */
#include <math.h>
#include <string.h>

#include "story/play_parts.h"

/* The man of that letter who stands nearest to where this one is put, and whom nobody was matched with yet. */
static SceneMan *find_man(Scene *scene, const KeyMan *given) {
    SceneMan *best = NULL;
    double nearest = INFINITY;
    for (size_t i = 0; i < scene->man_count; i++) {
        SceneMan *man = &scene->men[i];
        if (man->given || (man->man.mark == PLAY_DEFENDER) != given->defence) continue;
        if (strcmp(man->man.letter, given->id) != 0) continue;
        double distance = isnan(given->at.x) ? 0 : hypot(man->man.at.x - given->at.x, man->man.at.y - given->at.y);
        if (distance >= nearest) continue;
        nearest = distance;
        best = man;
    }
    return best;
}

/* The kind of a man whom the chart did not place, by where he stands. */
static Runner runner_at(YardPoint at) {
    if (at.y < -2.5) return RUNNER_BACK;
    return fabs(at.x) <= 7 ? RUNNER_END : fabs(at.x) <= 13 ? RUNNER_SLOT : RUNNER_WIDE;
}

static Post post_at(YardPoint at) {
    if (at.y < 2) return fabs(at.x) < 5 ? POST_DOWN : fabs(at.x) < 8 ? POST_EDGE : POST_CORNER;
    if (fabs(at.x) > 15) return POST_CORNER;
    if (at.y > 7) return POST_SAFETY;
    return fabs(at.x) < 7 ? POST_BACKER : POST_SLOT;
}

static SceneMan *add_given(Scene *scene, const KeyMan *given) {
    if (isnan(given->at.x)) return NULL;
    PlayMark mark = given->defence ? PLAY_DEFENDER : PLAY_ELIGIBLE;
    SceneMan *man = scene_add(scene, mark, given->id, given->at);
    if (!man) return NULL;
    man->runner = runner_at(given->at);
    man->post = post_at(given->at);
    const LetterList *passer = &scene->plays->letters.passer;
    man->passer = !given->defence && passer->count && strcmp(passer->letters[0], given->id) == 0;
    return man;
}

static void place_given(Scene *scene, const KeyMan *given) {
    SceneMan *man = find_man(scene, given);
    if (!man) man = add_given(scene, given);
    if (!man) return;
    man->given = given;
    if (!isnan(given->at.x)) man->man.at = scene_inside(scene, given->at);
    if (given->rush >= 0) man->rushes = given->rush;
}

static void draw_given(Scene *scene, const SceneMan *man) {
    const KeyMan *given = man->given;
    if (given->from.count) {
        PlayLine *line = scene_line(scene, PLAY_MOTION, man, given->from.points, given->from.count);
        if (line) line->to_man = true;
    }
    if (man->man.mark == PLAY_DEFENDER)
        scene_line(scene, man->rushes ? PLAY_RUSH : PLAY_COVER, man, given->to.points, given->to.count);
}

void scene_given(Scene *scene, bool defence) {
    if (!scene->key) return;
    for (size_t i = 0; i < scene->key->man_count; i++) {
        if (scene->key->men[i].defence == defence) place_given(scene, &scene->key->men[i]);
    }
    for (size_t i = 0; i < scene->man_count; i++) {
        const SceneMan *man = &scene->men[i];
        if (man->given && man->given->defence == defence) draw_given(scene, man);
    }
}
