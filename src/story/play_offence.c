/* Where the offence stands: by personnel, formation and backfield. Nobody is placed whose place is not charted. */
#include <ctype.h>
#include <math.h>
#include <string.h>

#include "story/play_parts.h"

#define ELBOW_ROOM 1.2  /* a spot nearer to another man is taken */
#define OFF_LINE -1.0   /* where those stand who are not on the line */
#define ATTACHED 5.5    /* an end this near the ball stands beside the tackle */
#define IN_FILE 0.5     /* receivers no farther apart across stand in file */
#define WIDE_INSIDE 2.0 /* receivers stay so far inside the sideline */

enum { RECEIVERS = 5 };

/* How many men of each kind the personnel has. */
typedef struct Kinds {
    int receivers, ends, backs;
} Kinds;

static Kinds kinds_of(const PlaySnap *snap) {
    const char *digits = snap->personnel;
    if (!digits || !isdigit((unsigned char)digits[0]) || !isdigit((unsigned char)digits[1])) return (Kinds){0};
    Kinds kinds = {.backs = digits[0] - '0', .ends = digits[1] - '0'};
    kinds.receivers = RECEIVERS - kinds.backs - kinds.ends - (snap->jumbo ? 1 : 0);
    if (kinds.receivers < 0) kinds.receivers = 0;
    return kinds;
}

static bool is_taken(const Scene *scene, YardPoint at) {
    for (size_t i = 0; i < scene->man_count; i++) {
        YardPoint other = scene->men[i].man.at;
        if (hypot(other.x - at.x, other.y - at.y) < ELBOW_ROOM) return true;
    }
    return false;
}

static const char *letter_of(const LetterList *letters, size_t index) {
    return letters->count ? letters->letters[index % letters->count] : "";
}

static void add_linemen(Scene *scene) {
    const Plays *plays = scene->plays;
    for (size_t i = 0; i < plays->line.count; i++) {
        scene_add(scene, i == PLAYS_CENTRE ? PLAY_CENTRE : PLAY_LINEMAN, "", scene_spot(scene, plays->line.points[i]));
    }
    if (scene->snap->jumbo) scene_add(scene, PLAY_LINEMAN, "", scene_spot(scene, plays->extra));
}

static YardPoint receiver_spot(const Scene *scene, YardPoint spot) {
    YardPoint at = scene_spot(scene, spot);
    at.x = fmax(fmin(at.x, scene->right - WIDE_INSIDE), scene->left + WIDE_INSIDE);
    return at;
}

/* Places `most` men on the free ones of these spots, in their order. */
static void add_men(Scene *scene, Runner runner, const LetterList *letters, const YardPoints *spots, int most) {
    int placed = 0;
    for (size_t i = 0; i < spots->count && placed < most; i++) {
        YardPoint at = receiver_spot(scene, spots->points[i]);
        if (is_taken(scene, at)) continue;
        SceneMan *man = scene_add(scene, PLAY_ELIGIBLE, letter_of(letters, (size_t)placed), at);
        if (!man) return;
        man->runner = runner;
        placed++;
    }
}

/* ---- who is on the line, and who is a slot ---- */

static bool is_flank(const SceneMan *man, int side) {
    if (man->man.mark != PLAY_ELIGIBLE || man->runner == RUNNER_BACK || man->passer) return false;
    return man->man.at.y > OFF_LINE && (man->man.at.x > 0 ? 1 : -1) == side;
}

/* Seven men are on the line and only its ends are eligible: on either side an end beside the tackle, or else the
 * outermost man. */
static void set_line(Scene *scene, int side) {
    SceneMan *end = NULL;
    for (size_t i = 0; i < scene->man_count; i++) {
        SceneMan *man = &scene->men[i];
        if (!is_flank(man, side)) continue;
        bool attached = man->runner == RUNNER_END && fabs(man->man.at.x) <= ATTACHED;
        bool end_attached = end && end->runner == RUNNER_END && fabs(end->man.at.x) <= ATTACHED;
        if (!end || (attached && !end_attached) ||
            (attached == end_attached && fabs(man->man.at.x) > fabs(end->man.at.x))) {
            end = man;
        }
    }
    for (size_t i = 0; i < scene->man_count; i++) {
        SceneMan *man = &scene->men[i];
        if (!is_flank(man, side)) continue;
        man->on_line = man == end;
        if (man != end) man->man.at.y = OFF_LINE;
    }
}

/* A receiver with another outside him, or in front of him, is a slot. */
static void find_slots(Scene *scene) {
    for (size_t i = 0; i < scene->man_count; i++) {
        SceneMan *man = &scene->men[i];
        if (man->man.mark != PLAY_ELIGIBLE || man->runner != RUNNER_WIDE || man->passer) continue;
        for (size_t k = 0; k < scene->man_count && man->runner == RUNNER_WIDE; k++) {
            const SceneMan *other = &scene->men[k];
            bool receiver = other->runner == RUNNER_WIDE || other->runner == RUNNER_SLOT;
            if (k == i || other->man.mark != PLAY_ELIGIBLE || !receiver || other->passer) continue;
            if ((other->man.at.x > 0) != (man->man.at.x > 0)) continue;
            double beyond = fabs(other->man.at.x) - fabs(man->man.at.x);
            bool in_front = fabs(beyond) <= IN_FILE && other->man.at.y > man->man.at.y;
            if (beyond > IN_FILE || in_front) man->runner = RUNNER_SLOT;
        }
    }
}

static void add_passer(Scene *scene, const PlayBackfield *backfield) {
    if (!backfield || !backfield->passer.count) return;
    SceneMan *man = scene_add(scene, PLAY_ELIGIBLE, letter_of(&scene->plays->letters.passer, 0),
                              scene_spot(scene, backfield->passer.points[0]));
    if (man) man->passer = true;
}

void scene_offence(Scene *scene) {
    const Plays *plays = scene->plays;
    const PlayBackfield *backfield = PLAYS_FIND(plays->backfields, scene->snap->backfield);
    const PlayFormation *formation = PLAYS_FIND(plays->formations, scene->snap->formation);
    Kinds kinds = kinds_of(scene->snap);
    add_linemen(scene);
    if (scene->key && scene->key->offence_complete) return;
    add_passer(scene, backfield);
    if (formation) {
        add_men(scene, RUNNER_WIDE, &plays->letters.receivers, &formation->receivers, kinds.receivers);
        add_men(scene, RUNNER_END, &plays->letters.ends, &formation->ends, kinds.ends);
    }
    const YardPoints *backs = formation && formation->backs.count ? &formation->backs : NULL;
    if (!backs && backfield) backs = &backfield->backs;
    if (backs) add_men(scene, RUNNER_BACK, &plays->letters.backs, backs, kinds.backs);
    set_line(scene, -1);
    set_line(scene, 1);
    find_slots(scene);
}
