/* After the snap: who rushes, by count, and who drops into which zone of the coverage. */
#include <math.h>
#include <string.h>

#include "story/play_parts.h"

#define RUSH_DEPTH 0.5   /* share of the way to the passer's depth that a rush is drawn */
#define RUSH_WIDTH 0.35  /* and of a rusher's width that is left there */
#define RUSH_SHALLOW 2.5 /* without a passer */
#define STAYS 2.5        /* a zone whose middle is nearer than this needs no arrow */
#define LINE_COST 400.0  /* squared yards that a man of the line counts as farther away */
#define SENT_WEIGHT 10   /* a man takes the zone that he was sent to before others take the nearest */
#define ZONE_LEAST 2.0   /* what the edges of the field leave of a zone is drawn from this size on */
#define ZONE_INSIDE 0.6
#define HALF_FIELD (160.0 / 6)

enum { MOST_ZONES = 9, MOST_DROPPERS = 24 };

/* ---- who rushes ---- */

static bool is_auto(const SceneMan *man) {
    bool given = man->given && (man->given->rush >= 0 || man->given->to.count);
    return man->man.mark == PLAY_DEFENDER && !given;
}

/* Men of the line first, then those who stand nearest to it. */
static double rush_order(const SceneMan *man) {
    double post = man->post == POST_DOWN ? 0 : man->post == POST_EDGE ? 100 : 200;
    if (man->post == POST_CORNER) post += 400;
    return post + 10 * man->man.at.y + fabs(man->man.at.x);
}

static SceneMan *next_rusher(Scene *scene, bool from_depth) {
    SceneMan *best = NULL;
    for (size_t i = 0; i < scene->man_count; i++) {
        SceneMan *man = &scene->men[i];
        if (!is_auto(man) || man->rushes || (from_depth && man->post == POST_DOWN)) continue;
        if (!best || rush_order(man) < rush_order(best)) best = man;
    }
    return best;
}

/* The man of the line who drops in a rush that comes from depth: the outermost on the weak side. */
static SceneMan *next_dropper(Scene *scene) {
    SceneMan *best = NULL;
    for (size_t i = 0; i < scene->man_count; i++) {
        SceneMan *man = &scene->men[i];
        if (!is_auto(man) || !man->rushes || man->post != POST_DOWN) continue;
        if (!best || man->man.at.x * scene->strong < best->man.at.x * scene->strong) best = man;
    }
    return best;
}

static void choose_rushers(Scene *scene) {
    int wanted = isfinite(scene->snap->rushers) ? (int)scene->snap->rushers : 0;
    for (size_t i = 0; i < scene->man_count; i++) {
        wanted -= scene->men[i].man.mark == PLAY_DEFENDER && scene->men[i].rushes;
    }
    for (; wanted > 0; wanted--) {
        SceneMan *man = next_rusher(scene, false);
        if (!man) return;
        man->rushes = true;
    }
    const PlayCall *call = PLAYS_FIND(scene->plays->calls, scene->snap->call);
    for (int i = 0; call && i < call->trades; i++) {
        SceneMan *drops = next_dropper(scene);
        SceneMan *rushes = next_rusher(scene, true);
        if (!drops || !rushes) return;
        drops->rushes = false;
        rushes->rushes = true;
    }
}

void scene_rush(Scene *scene) {
    choose_rushers(scene);
    bool passer = isfinite(scene->release.y);
    YardPoint to = passer ? scene->release : (YardPoint){0, -2 * RUSH_SHALLOW};
    for (size_t i = 0; i < scene->man_count; i++) {
        const SceneMan *man = &scene->men[i];
        if (man->man.mark != PLAY_DEFENDER || !man->rushes) continue;
        if (man->given && man->given->to.count) continue;
        YardPoint end = {to.x + (man->man.at.x - to.x) * RUSH_WIDTH, fmin(to.y * RUSH_DEPTH, -1)};
        end = scene_inside(scene, end);
        scene_line(scene, PLAY_RUSH, man, &end, 1);
    }
}

/* ---- zones ---- */

/* Across, a zone keeps its share of the way to the sideline; along, all zones are squeezed into what the end line
 * leaves. The whole of it stays on the field. */
static YardZone fit_zone(const Scene *scene, const YardZone *zone, double squeeze) {
    YardZone fitted = *zone;
    double x = zone->middle.x * scene->strong;
    double left = x - zone->width / 2;
    double right = x + zone->width / 2;
    double to_left = -scene->left / HALF_FIELD;
    double to_right = scene->right / HALF_FIELD;
    left *= left < 0 ? to_left : to_right;
    right *= right < 0 ? to_left : to_right;
    left = fmax(left, scene->left + ZONE_INSIDE);
    right = fmin(right, scene->right - ZONE_INSIDE);
    fitted.middle = (YardPoint){(left + right) / 2, zone->middle.y * squeeze};
    fitted.width = right - left;
    fitted.depth = zone->depth * squeeze;
    return fitted;
}

static double squeeze_of(const Scene *scene, const PlayCoverage *coverage) {
    double far = 0;
    for (size_t i = 0; i < coverage->zone_count; i++) {
        far = fmax(far, coverage->zones[i].middle.y + coverage->zones[i].depth / 2);
    }
    double room = scene->front - ZONE_INSIDE;
    return far > room && room > 0 ? room / far : 1;
}

/* The part of a given zone that is on the field; false: nothing to draw. */
static bool clip_zone(const Scene *scene, const YardZone *zone, YardZone *clipped) {
    double left = fmax(zone->middle.x - zone->width / 2, scene->left + ZONE_INSIDE);
    double right = fmin(zone->middle.x + zone->width / 2, scene->right - ZONE_INSIDE);
    double low = fmax(zone->middle.y - zone->depth / 2, scene->back + ZONE_INSIDE);
    double high = fmin(zone->middle.y + zone->depth / 2, scene->front - ZONE_INSIDE);
    *clipped = (YardZone){{(left + right) / 2, (low + high) / 2}, right - left, high - low};
    return clipped->width >= ZONE_LEAST && clipped->depth >= ZONE_LEAST;
}

static void add_zone(Scene *scene, const YardZone *zone) {
    if (clip_zone(scene, zone, &scene->zones[scene->zone_count])) scene->zone_count++;
}

/* ---- who drops where ---- */

/* Whom the author sends somewhere, fills a zone there. */
static bool is_sent(const SceneMan *man) {
    return man->given && man->given->to.count > 0;
}

static bool may_drop(const SceneMan *man, const PlayCoverage *coverage) {
    if (man->man.mark != PLAY_DEFENDER || man->rushes) return false;
    return is_sent(man) || !(coverage->man && man->post == POST_CORNER);
}

static double drop_cost(const SceneMan *man, const YardZone *zone) {
    YardPoint from = is_sent(man) ? man->given->to.points[man->given->to.count - 1] : man->man.at;
    double across = from.x - zone->middle.x;
    double along = from.y - zone->middle.y;
    double line = man->post == POST_DOWN && !is_sent(man) ? LINE_COST : 0;
    return (across * across + along * along) * (is_sent(man) ? SENT_WEIGHT : 1) + line;
}

/* The droppers and their zones with the least sum of squared ways, exactly: over the men one by one, the least cost for
 * every set of zones that they fill. */
typedef struct Drops {
    const SceneMan *men[MOST_DROPPERS];
    size_t man_count;
    YardZone zones[MOST_ZONES];
    size_t zone_count;
    double cost[MOST_DROPPERS + 1][1 << MOST_ZONES];
    short choice[MOST_DROPPERS + 1][1 << MOST_ZONES];
} Drops;

/* After this man the zones of `set` may be filled at `cost`; `zone` is his own, -1 none. */
static void relax(Drops *drops, size_t man, size_t set, double cost, int zone) {
    if (cost >= drops->cost[man + 1][set]) return;
    drops->cost[man + 1][set] = cost;
    drops->choice[man + 1][set] = (short)zone;
}

static void settle_costs(Drops *drops) {
    size_t sets = (size_t)1 << drops->zone_count;
    for (size_t man = 0; man <= drops->man_count; man++) {
        for (size_t set = 0; set < sets; set++) drops->cost[man][set] = man || set ? INFINITY : 0;
    }
    for (size_t man = 0; man < drops->man_count; man++) {
        for (size_t set = 0; set < sets; set++) {
            double so_far = drops->cost[man][set];
            if (!isfinite(so_far)) continue;
            relax(drops, man, set, so_far, -1);
            for (size_t zone = 0; zone < drops->zone_count; zone++) {
                size_t bit = (size_t)1 << zone;
                if (set & bit) continue;
                relax(drops, man, set | bit, so_far + drop_cost(drops->men[man], &drops->zones[zone]), (int)zone);
            }
        }
    }
}

static void draw_drops(Scene *scene, const Drops *drops) {
    size_t set = ((size_t)1 << drops->zone_count) - 1;
    if (!isfinite(drops->cost[drops->man_count][set])) return;
    for (size_t man = drops->man_count; man-- > 0;) {
        int zone = drops->choice[man + 1][set];
        if (zone < 0) continue;
        set &= ~((size_t)1 << zone);
        YardPoint from = drops->men[man]->man.at;
        YardPoint to = drops->zones[zone].middle;
        bool goes = hypot(to.x - from.x, to.y - from.y) > STAYS && !is_sent(drops->men[man]);
        if (goes) scene_line(scene, PLAY_COVER, drops->men[man], &to, 1);
    }
    for (size_t zone = 0; zone < drops->zone_count; zone++) add_zone(scene, &drops->zones[zone]);
}

static void drop_into_zones(Scene *scene, const PlayCoverage *coverage) {
    Drops *drops = ARENA_NEW(scene->arena, Drops);
    double squeeze = squeeze_of(scene, coverage);
    for (size_t i = 0; i < scene->man_count && drops->man_count < MOST_DROPPERS; i++) {
        if (may_drop(&scene->men[i], coverage)) drops->men[drops->man_count++] = &scene->men[i];
    }
    while (drops->zone_count < coverage->zone_count && drops->zone_count < MOST_ZONES &&
           drops->zone_count < drops->man_count) {
        drops->zones[drops->zone_count] = fit_zone(scene, &coverage->zones[drops->zone_count], squeeze);
        drops->zone_count++;
    }
    settle_costs(drops);
    draw_drops(scene, drops);
}

void scene_zones(Scene *scene) {
    const PlayCoverage *coverage = PLAYS_FIND(scene->plays->coverages, scene->snap->coverage);
    size_t given = scene->key ? scene->key->zone_count : 0;
    scene->zones = ARENA_ARRAY(scene->arena, given + MOST_ZONES, YardZone);
    for (size_t i = 0; i < given; i++) add_zone(scene, &scene->key->zones[i]);
    bool defended = !(scene->key && scene->key->defence_complete);
    if (!given && coverage && defended) drop_into_zones(scene, coverage);
}
