/* Where the defence stands: the front on the ball, backers behind it, backs over the receivers, safeties by the shell,
 * and as many in the box as were charted. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "story/play_parts.h"

#define SHADE 1.8 /* how far inside his man a back stands: beside his route, not in it */
#define NICKEL_DEPTH 5.0
#define APEX_WIDTH 9.5     /* of a man moved out of the box */
#define CORNER_OFF 7.0     /* where the coverage does not say */
#define CORNER_NARROW 12.0 /* a corner with nobody to cover */
#define DETACHED 6.0       /* a man wider than this is covered by a back */
#define BOX_DEEP 7.0       /* common practice: the box ends here, and a yard outside the end men */
#define BOX_WIDE 1.1
#define BOX_SPOT 5.4 /* where a man is put into it, either side */
#define HIGH 9.0     /* a safety deeper than this is a high one */

static const int backs_of_personnel[] = {6, 6, 5, 4}; /* by backs and ends together; more: 4 */
enum { CORNERS = 2, MOST_SLOTS = 3 };

typedef struct Counts {
    int backers, corners, slots, safeties;
} Counts;

static SceneMan *add_defender(Scene *scene, Post post, const char *letter, YardPoint at) {
    SceneMan *man = scene_add(scene, PLAY_DEFENDER, letter, at);
    if (man) man->post = post;
    return man;
}

static const char *letter_of(const LetterList *letters, size_t index) {
    return letters->count ? letters->letters[index < letters->count ? index : letters->count - 1] : "";
}

/* ---- how many of each ---- */

/* Without a charted number of backs: by the offence's own (common practice). */
static PlaySub guessed_sub(const PlaySnap *snap) {
    int backs = 5;
    if (snap->personnel && strlen(snap->personnel) == 2) {
        int big = snap->personnel[0] - '0' + snap->personnel[1] - '0';
        int last = (int)(sizeof backs_of_personnel / sizeof *backs_of_personnel) - 1;
        backs = backs_of_personnel[big < 0 ? 0 : big > last ? last : big];
    }
    return (PlaySub){NULL, CORNERS, backs - CORNERS - 2, 2};
}

static Counts count_men(const Scene *scene, const PlayFront *front) {
    const PlaySub *charted = PLAYS_FIND(scene->plays->subs, scene->snap->sub);
    PlaySub sub = charted ? *charted : guessed_sub(scene->snap);
    Counts counts = {0, sub.corners, sub.slots, sub.safeties};
    int left = SCENE_TEAM - (int)(front ? front->men.count : 0) - sub.corners - sub.slots - sub.safeties;
    for (; left < 0 && counts.slots > 0; left++) counts.slots--;
    for (; left < 0 && counts.safeties > 0; left++) counts.safeties--;
    counts.backers = front && left > 0 ? left : 0;
    return counts;
}

/* ---- the front ---- */

static void add_places(Scene *scene, const PlayPlaces *places, size_t most, Post post) {
    for (size_t i = 0; places && i < places->count && i < most; i++) {
        add_defender(scene, post, places->places[i].letter, scene_spot(scene, places->places[i].at));
    }
}

static void add_front(Scene *scene, const PlayFront *front, int backers) {
    int edges = front->edges < backers ? front->edges : backers - 1;
    if (edges < 0) edges = 0;
    if ((size_t)edges > scene->plays->edges.count) edges = (int)scene->plays->edges.count;
    add_places(scene, &front->men, front->men.count, POST_DOWN);
    add_places(scene, &scene->plays->edges, (size_t)edges, POST_EDGE);
    size_t inside = (size_t)(backers - edges);
    const PlayPlaces *list = plays_backers(scene->plays, inside);
    add_places(scene, list, inside, POST_BACKER);
    for (size_t i = list ? list->count : 0; i < inside; i++) {
        const char *letter = list && list->count ? list->places[0].letter : "";
        add_defender(scene, POST_BACKER, letter, scene_spot(scene, (YardPoint){0, BOX_DEEP - 0.5}));
    }
}

/* ---- backs over receivers ---- */

static bool is_receiver(const SceneMan *man) {
    return man->man.mark == PLAY_ELIGIBLE && !man->passer && fabs(man->man.at.x) > DETACHED;
}

static const SceneMan *outermost(const Scene *scene, int side) {
    const SceneMan *best = NULL;
    for (size_t i = 0; i < scene->man_count; i++) {
        const SceneMan *man = &scene->men[i];
        if (!is_receiver(man) || (man->man.at.x > 0 ? 1 : -1) != side) continue;
        if (!best || fabs(man->man.at.x) > fabs(best->man.at.x)) best = man;
    }
    return best;
}

static YardPoint over(const Scene *scene, const SceneMan *man, double depth) {
    int side = scene_sign(scene, man->man.at.x);
    return (YardPoint){man->man.at.x - side * SHADE, depth};
}

static void add_corners(Scene *scene, int count) {
    const PlayCoverage *coverage = PLAYS_FIND(scene->plays->coverages, scene->snap->coverage);
    double depth = coverage ? coverage->corner : CORNER_OFF;
    for (int i = 0; i < count; i++) {
        int side = (i % 2 ? 1 : -1) * scene->strong;
        const SceneMan *man = outermost(scene, side);
        YardPoint at = man ? over(scene, man, depth) : (YardPoint){side * CORNER_NARROW, depth};
        add_defender(scene, POST_CORNER, letter_of(&scene->plays->letters.corners, (size_t)i), at);
    }
}

static bool has_back(const Scene *scene, const SceneMan *man) {
    for (size_t i = 0; i < scene->man_count; i++) {
        const SceneMan *back = &scene->men[i];
        bool over_him = back->man.mark == PLAY_DEFENDER && back->post >= POST_SLOT;
        if (over_him && fabs(back->man.at.x - man->man.at.x) < SHADE + 0.5) return true;
    }
    return false;
}

static int side_count(const Scene *scene, double x) {
    int count = 0;
    for (size_t i = 0; i < scene->man_count; i++) {
        count += is_receiver(&scene->men[i]) && (scene->men[i].man.at.x > 0) == (x > 0);
    }
    return count;
}

/* The next slot to be covered: on the side with more receivers first, then the outer one. */
static const SceneMan *next_slot(const Scene *scene) {
    const SceneMan *best = NULL;
    for (size_t i = 0; i < scene->man_count; i++) {
        const SceneMan *man = &scene->men[i];
        if (!is_receiver(man) || has_back(scene, man)) continue;
        int more = best ? side_count(scene, man->man.at.x) - side_count(scene, best->man.at.x) : 1;
        if (more > 0 || (more == 0 && fabs(man->man.at.x) > fabs(best->man.at.x))) best = man;
    }
    return best;
}

static void add_slots(Scene *scene, int count) {
    for (int i = 0; i < count && i < MOST_SLOTS; i++) {
        const SceneMan *man = next_slot(scene);
        int side = (i % 2 ? -1 : 1) * scene->strong;
        YardPoint at = man ? over(scene, man, NICKEL_DEPTH) : (YardPoint){side * APEX_WIDTH, NICKEL_DEPTH};
        add_defender(scene, POST_SLOT, letter_of(&scene->plays->letters.slots, (size_t)i), at);
    }
}

/* ---- safeties ---- */

/* The shell as charted; the row with as many deep spots as there are safeties where it is not. */
static const PlayShell *shell_of(const Scene *scene, int safeties) {
    const PlayShell *shell = PLAYS_FIND(scene->plays->shells, scene->snap->shell);
    for (size_t i = 0; !shell && i < scene->plays->shells.count; i++) {
        const PlayShell *row = &scene->plays->shells.rows[i];
        if ((int)row->deep.count == safeties) shell = row;
    }
    return shell;
}

static void add_safeties(Scene *scene, int count) {
    const PlayShell *shell = shell_of(scene, count);
    for (size_t i = 0; shell && i < (size_t)count; i++) {
        const YardPoints *spots = i < shell->deep.count ? &shell->deep : &shell->down;
        size_t index = i < shell->deep.count ? i : i - shell->deep.count;
        if (!spots->count) continue;
        YardPoint at = scene_spot(scene, spots->points[index % spots->count]);
        add_defender(scene, POST_SAFETY, letter_of(&scene->plays->letters.safeties, i), at);
    }
}

/* ---- the box ---- */

static double box_end(const Scene *scene) {
    double end = 0;
    for (size_t i = 0; i < scene->man_count; i++) {
        const SceneMan *man = &scene->men[i];
        bool line = man->man.mark == PLAY_LINEMAN || (man->man.mark == PLAY_ELIGIBLE && man->runner == RUNNER_END);
        if (line && fabs(man->man.at.x) <= DETACHED + 1) end = fmax(end, fabs(man->man.at.x));
    }
    return end + BOX_WIDE;
}

static bool in_box(const SceneMan *man, double end) {
    return man->man.mark == PLAY_DEFENDER && man->man.at.y <= BOX_DEEP && fabs(man->man.at.x) <= end + 0.01;
}

static bool is_free(const SceneMan *man, Post from, Post to) {
    return man->man.mark == PLAY_DEFENDER && man->post >= from && man->post <= to;
}

/* The man nearest to the box who may step into it, or the outermost who may leave it. */
static SceneMan *next_mover(Scene *scene, double end, bool into) {
    SceneMan *best = NULL;
    for (size_t i = 0; i < scene->man_count; i++) {
        SceneMan *man = &scene->men[i];
        bool inside = in_box(man, end);
        bool may = into ? !inside && is_free(man, POST_BACKER, POST_SAFETY) && man->man.at.y <= HIGH
                        : inside && is_free(man, POST_BACKER, POST_SAFETY);
        if (!may) continue;
        double width = fabs(man->man.at.x);
        if (!best || (into ? width < fabs(best->man.at.x) : width > fabs(best->man.at.x))) best = man;
    }
    return best;
}

static void set_box(Scene *scene) {
    double end = box_end(scene);
    int wanted = isfinite(scene->snap->box) ? (int)scene->snap->box : -1;
    int found = 0;
    for (size_t i = 0; i < scene->man_count; i++) found += in_box(&scene->men[i], end);
    for (; wanted >= 0 && found != wanted; found += found < wanted ? 1 : -1) {
        bool into = found < wanted;
        SceneMan *man = next_mover(scene, end, into);
        if (!man) return;
        int side = scene_sign(scene, man->man.at.x);
        double width = into ? fmin(end, BOX_SPOT) : fmax(end + 1, APEX_WIDTH);
        man->man.at = scene_inside(scene, (YardPoint){side * width, NICKEL_DEPTH});
    }
}

void scene_defence(Scene *scene) {
    if (scene->key && scene->key->defence_complete) return;
    const PlayFront *front = PLAYS_FIND(scene->plays->fronts, scene->snap->front);
    Counts counts = count_men(scene, front);
    if (front) add_front(scene, front, counts.backers);
    add_corners(scene, counts.corners);
    add_slots(scene, counts.slots);
    add_safeties(scene, counts.safeties);
    set_box(scene);
}
