/* The field of a snap, and the steps from its chart to a picture. */
#include <math.h>
#include <string.h>

#include "story/play_parts.h"

/* Rule books: the field is 160 ft wide, end zones are 10 yards deep; the inner ends of the hashes are so many feet from
 * each sideline (college rule 1-2, professional rule 1-2, high-school rule 1-2). */
#define FIELD_WIDTH (160.0 / 3)
#define END_ZONE 10.0
static const double HASH_FEET[LEVEL_COUNT] = {
    [LEVEL_COLLEGE] = 60, [LEVEL_PROFESSIONAL] = 70.75, [LEVEL_HIGH_SCHOOL] = 160.0 / 3};

/* The stretch of field that is shown. */
#define SHOWN_MOST 40.0
#define SHOWN_LEAST 28.0
#define SHOWN_BEHIND 9.0 /* at least */
#define SHOWN_BACK 14.0  /* at most */
#define SHOWN_AROUND 2.0 /* behind the rearmost */
#define SHOWN_BEYOND 5.0 /* past the farthest */
#define LANE_INSET SCENE_INSIDE
#define UNKNOWN_SPOT 50.0 /* yards to the goal where none is charted */

/* ---- places ---- */

static double clamp(double value, double low, double high) {
    return value < low ? low : value > high ? high : value;
}

YardPoint scene_inside(const Scene *scene, YardPoint point) {
    point.x = clamp(point.x, scene->left + SCENE_INSIDE, scene->right - SCENE_INSIDE);
    point.y = clamp(point.y, scene->back + SCENE_INSIDE, scene->front - SCENE_INSIDE);
    return point;
}

YardPoint scene_spot(const Scene *scene, YardPoint spot) {
    return scene_inside(scene, (YardPoint){spot.x * scene->strong, spot.y});
}

int scene_sign(const Scene *scene, double x) {
    if (fabs(x) < 0.5) return scene->strong;
    return x > 0 ? 1 : -1;
}

SceneMan *scene_add(Scene *scene, PlayMark mark, const char *letter, YardPoint at) {
    if (scene->man_count == SCENE_MOST_MEN) return NULL;
    SceneMan *man = &scene->men[scene->man_count++];
    *man = (SceneMan){.man = {mark, letter, scene_inside(scene, at)}, .runner = RUNNER_WIDE};
    return man;
}

PlayLine *scene_line(Scene *scene, PlayWay way, const SceneMan *man, const YardPoint *points, size_t count) {
    if (!count || scene->line_count == SCENE_MOST_LINES) return NULL;
    PlayLine *line = &scene->lines[scene->line_count++];
    *line = (PlayLine){.way = way, .man = (int)(man - scene->men), .count = count};
    line->points = ARENA_ARRAY(scene->arena, count, YardPoint);
    memcpy(line->points, points, count * sizeof *points);
    return line;
}

bool scene_lane(const Scene *scene, double *low, double *high) {
    const PlayLane *lane = PLAYS_FIND(scene->plays->lanes, scene->snap->side);
    if (!lane) return false;
    double inset = fmin(LANE_INSET, (lane->to - lane->from) / 2);
    *low = clamp(scene->left + lane->from + inset, scene->left, scene->right);
    *high = clamp(scene->left + lane->to - inset, scene->left, scene->right);
    return true;
}

/* ---- the field ---- */

static double ball_from_left(const PlaySnap *snap, double hash) {
    if (snap->hash && strcmp(snap->hash, "L") == 0) return hash;
    if (snap->hash && strcmp(snap->hash, "R") == 0) return FIELD_WIDTH - hash;
    return FIELD_WIDTH / 2;
}

/* The strong side is the one that the author names, or the wide side of the field (common practice). */
static int strong_side(const Scene *scene) {
    if (scene->key && scene->key->strength) return scene->key->strength;
    return scene->right >= -scene->left ? 1 : -1;
}

static void begin(Scene *scene, FieldLevel level, PlayFigure *play) {
    const PlaySnap *snap = scene->snap;
    double hash = HASH_FEET[level] / 3;
    double ball = ball_from_left(snap, hash);
    scene->left = play->left = -ball;
    scene->right = play->right = FIELD_WIDTH - ball;
    play->hashes[0] = hash - ball;
    play->hashes[1] = FIELD_WIDTH - hash - ball;
    play->goal = isfinite(snap->to_goal) ? snap->to_goal : UNKNOWN_SPOT;
    play->gain = snap->distance < play->goal ? snap->distance : NAN;
    scene->front = play->goal + END_ZONE;
    scene->back = play->goal - 100 - END_ZONE;
    scene->strong = strong_side(scene);
    scene->release = scene->aim = (YardPoint){NAN, NAN};
}

/* ---- the stretch that is shown ---- */

typedef struct Reach {
    double low, high;
} Reach;

static void reach_to(Reach *reach, double low, double high) {
    reach->low = fmin(reach->low, low);
    reach->high = fmax(reach->high, high);
}

static Reach reach_of(const PlayFigure *play) {
    Reach reach = {-SHOWN_BEHIND + SHOWN_AROUND, isfinite(play->gain) ? play->gain : 0};
    for (size_t i = 0; i < play->man_count; i++) reach_to(&reach, play->men[i].at.y, play->men[i].at.y);
    for (size_t i = 0; i < play->line_count; i++) {
        const PlayLine *line = &play->lines[i];
        for (size_t p = 0; p < line->count; p++) reach_to(&reach, line->points[p].y, line->points[p].y);
    }
    for (size_t i = 0; i < play->zone_count; i++) {
        const YardZone *zone = &play->zones[i];
        reach_to(&reach, zone->middle.y - zone->depth / 2, zone->middle.y + zone->depth / 2 - SHOWN_AROUND);
    }
    for (size_t i = 0; i < play->note_count; i++) reach_to(&reach, play->notes[i].at.y, play->notes[i].at.y);
    if (isfinite(play->aim.y)) reach_to(&reach, play->aim.y, play->aim.y);
    return reach;
}

static void choose_stretch(const Scene *scene, PlayFigure *play) {
    Reach reach = reach_of(play);
    play->from = fmax(fmax(reach.low - SHOWN_AROUND, -SHOWN_BACK), scene->back);
    play->to = fmin(fmax(reach.high + SHOWN_BEYOND, play->from + SHOWN_LEAST), scene->front);
    if (play->to - play->from < SHOWN_LEAST) play->from = fmax(play->to - SHOWN_LEAST, scene->back);
    play->to = fmin(play->to, play->from + SHOWN_MOST);
}

/* ---- the picture ---- */

static void copy_men(const Scene *scene, PlayFigure *play) {
    play->man_count = scene->man_count;
    play->men = ARENA_ARRAY(scene->arena, scene->man_count, PlayMan);
    for (size_t i = 0; i < scene->man_count; i++) play->men[i] = scene->men[i].man;
    play->line_count = scene->line_count;
    play->lines = ARENA_ARRAY(scene->arena, scene->line_count, PlayLine);
    memcpy(play->lines, scene->lines, scene->line_count * sizeof *scene->lines);
    play->zones = scene->zones;
    play->zone_count = scene->zone_count;
}

static void copy_notes(const Scene *scene, PlayFigure *play) {
    if (!scene->key) return;
    play->note_count = scene->key->note_count;
    play->notes = ARENA_ARRAY(scene->arena, play->note_count, PlayNote);
    for (size_t i = 0; i < play->note_count; i++) {
        const KeyNote *note = &scene->key->notes[i];
        play->notes[i] = (PlayNote){scene_inside(scene, note->at), note->text};
    }
}

static double window_of(const Scene *scene) {
    if (scene->key && isfinite(scene->key->window)) return scene->key->window;
    const PlayWindow *window = PLAYS_FIND(scene->plays->windows, scene->snap->window);
    return window ? window->size : 0;
}

static void finish(const Scene *scene, PlayFigure *play) {
    copy_men(scene, play);
    copy_notes(scene, play);
    play->release = scene->release;
    play->aim = isfinite(scene->aim.x) ? scene_inside(scene, scene->aim) : scene->aim;
    play->caught = scene->snap->caught;
    play->window = isfinite(play->aim.x) ? window_of(scene) : 0;
    choose_stretch(scene, play);
}

const Figure *play_figure(Arena *arena, const Plays *plays, FieldLevel level, const PlaySnap *snap, const KeySnap *key,
                          const char *title) {
    Figure *figure = ARENA_NEW(arena, Figure);
    PlayFigure *play = &figure->as.play;
    Scene *scene = ARENA_NEW(arena, Scene);
    *scene = (Scene){.arena = arena, .plays = plays, .snap = snap, .key = key};
    begin(scene, level, play);
    scene_offence(scene);
    scene_given(scene, false);
    scene_defence(scene);
    scene_given(scene, true);
    scene_drop(scene);
    scene_routes(scene);
    scene_motion(scene);
    scene_rush(scene);
    scene_zones(scene);
    finish(scene, play);
    figure->kind = FIGURE_PLAY;
    figure->alt = scene_words(scene, play, title);
    return figure;
}

void play_parts(const PlayFigure *play, PlayKey *key) {
    static const PlayPart OF_WAYS[PLAY_WAY_COUNT] = {
        [PLAY_TARGET] = PLAY_PART_TARGET, [PLAY_ROUTE] = PLAY_PART_ROUTE, [PLAY_MOTION] = PLAY_PART_MOTION,
        [PLAY_DROP] = PLAY_PART_DROP,     [PLAY_COVER] = PLAY_PART_DROP,  [PLAY_RUSH] = PLAY_PART_RUSH};
    for (size_t i = 0; i < play->man_count; i++) {
        key->parts[play->men[i].mark == PLAY_DEFENDER ? PLAY_PART_DEFENCE : PLAY_PART_OFFENCE] = true;
    }
    for (size_t i = 0; i < play->line_count; i++) {
        key->parts[OF_WAYS[play->lines[i].way]] = true;
        if (play->lines[i].read) key->parts[PLAY_PART_READ] = true;
    }
    if (isfinite(play->aim.x)) key->parts[PLAY_PART_BALL] = true;
    if (play->zone_count) key->parts[PLAY_PART_ZONE] = true;
    if (play->window > 0) key->parts[PLAY_PART_WINDOW] = true;
    if (isfinite(play->gain)) key->parts[PLAY_PART_GAIN] = true;
}
