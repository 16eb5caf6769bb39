/* Key snaps: snaps that are drawn, with what the author gives of the drawing and says about it. */
#include <math.h>
#include <string.h>

#include "source/dossier_parts.h"

/* Bounds that no real drawing comes near. */
enum { MOST_KEYS = 200, MOST_MEN = 40, MOST_ZONES = 20, MOST_NOTES = 12 };

/* No field is larger: coordinates beyond are a slip of the pen. */
static const double most_yards_across = 54;
static const double most_yards_along = 70;

static void complain(DossierReader *reader, Place place, const char *hint, const char *message) {
    if (dossier_may_report(reader)) diag_report(reader->diagnostics, RULE_ATTRIBUTE_VALUE, place, hint, "%s", message);
}

/* ---- points ---- */

static void check_point(DossierReader *reader, Place place, YardPoint point) {
    if (fabs(point.x) <= most_yards_across && fabs(point.y) <= most_yards_along) return;
    complain(reader, place, "x is counted from the ball, + to the right; y from the line of scrimmage, + upfield",
             "the point is off the field");
}

/* `otherwise` where both coordinates are left out. */
static YardPoint read_point(DossierReader *reader, const XmlNode *node, double otherwise) {
    YardPoint point = {attr_number(node, "x", otherwise, reader->diagnostics),
                       attr_number(node, "y", otherwise, reader->diagnostics)};
    bool x = xml_value(node, "x") != NULL, y = xml_value(node, "y") != NULL;
    if (x != y)
        complain(reader, xml_value_place(node, x ? "x" : "y"), "give both or neither", "half a place is no place");
    if (x && y) check_point(reader, xml_value_place(node, "x"), point);
    return point;
}

static YardPoints read_points(DossierReader *reader, const XmlNode *node, const char *attribute) {
    YardPoints points = plays_points(reader->arena, node, attribute, reader->diagnostics);
    for (size_t i = 0; i < points.count; i++) check_point(reader, xml_value_place(node, attribute), points.points[i]);
    return points;
}

/* ---- men ---- */

static bool list_has(const LetterList *list, const char *letter) {
    for (size_t i = 0; i < list->count; i++) {
        if (strcmp(list->letters[i], letter) == 0) return true;
    }
    return false;
}

static bool places_have(const PlayPlaces *places, const char *letter) {
    for (size_t i = 0; i < places->count; i++) {
        if (strcmp(places->places[i].letter, letter) == 0) return true;
    }
    return false;
}

/* True when some chart places a man of this letter. */
static bool is_placed(const Plays *plays, const KeyMan *man) {
    const PlayLetters *letters = &plays->letters;
    const LetterList *offence[] = {&letters->receivers, &letters->ends, &letters->backs, &letters->passer};
    const LetterList *defence[] = {&letters->corners, &letters->slots, &letters->safeties};
    for (size_t i = 0; !man->defence && i < sizeof offence / sizeof *offence; i++) {
        if (list_has(offence[i], man->id)) return true;
    }
    if (!man->defence) return false;
    for (size_t i = 0; i < sizeof defence / sizeof *defence; i++) {
        if (list_has(defence[i], man->id)) return true;
    }
    for (size_t i = 0; i < plays->fronts.count; i++) {
        if (places_have(&plays->fronts.rows[i].men, man->id)) return true;
    }
    for (size_t i = 0; i < plays->backers.count; i++) {
        if (places_have(&plays->backers.rows[i], man->id)) return true;
    }
    return places_have(&plays->edges, man->id);
}

static void check_man(DossierReader *reader, const XmlNode *node, const KeyMan *man) {
    const Plays *plays = reader->dossier->plays;
    if (man->route && plays && !plays_route(plays, man->route, -1) && dossier_may_report(reader)) {
        diag_report(reader->diagnostics, RULE_REFERENCE, xml_value_place(node, "route"),
                    NAMES_HINT(reader->arena, man->route, plays->routes.rows, plays->routes.count),
                    "there is no route '%s'", man->route);
    }
    if (man->route && man->to.count)
        complain(reader, xml_value_place(node, "to"), "leave one out", "a man has a route or points, not both");
    if (man->defence && (man->route || man->read >= 0 || man->target)) {
        complain(reader, node->place, "a defender has from, to and rush",
                 "only the offence has routes, reads and a target");
    }
    if (!man->defence && man->rush >= 0)
        complain(reader, xml_value_place(node, "rush"), NULL, "only the defence rushes");
    if (isnan(man->at.x) && plays && !is_placed(plays, man)) {
        complain(reader, xml_value_place(node, "id"), "give his x and y", "no chart places a man of this letter");
    }
}

static void read_man(DossierReader *reader, const XmlNode *node, KeySnap *key) {
    KeyMan *man = &key->men[key->man_count];
    *man = (KeyMan){.id = attr_text(node, "id", ""), .read = -1, .rush = -1, .place = node->place};
    man->defence = strcmp(attr_text(node, "side", ""), "defence") == 0;
    man->at = read_point(reader, node, NAN);
    man->from = read_points(reader, node, "from");
    man->to = read_points(reader, node, "to");
    man->route = xml_value(node, "route");
    man->target = attr_yes(node, "target");
    if (xml_value(node, "read")) man->read = (int)attr_number(node, "read", -1, reader->diagnostics);
    if (xml_value(node, "rush")) man->rush = attr_yes(node, "rush");
    check_man(reader, node, man);
    key->man_count++;
}

/* ---- the rest of a drawing ---- */

static void read_zone(DossierReader *reader, const XmlNode *node, KeySnap *key) {
    YardZone *zone = &key->zones[key->zone_count++];
    zone->middle = read_point(reader, node, 0);
    zone->width = attr_number(node, "width", 0, reader->diagnostics);
    zone->depth = attr_number(node, "depth", 0, reader->diagnostics);
    if (zone->width > 0 && zone->depth > 0) return;
    complain(reader, xml_value_place(node, zone->width > 0 ? "depth" : "width"), NULL,
             "a zone is wider and deeper than 0");
}

static void read_note(DossierReader *reader, const XmlNode *node, KeySnap *key) {
    key->notes[key->note_count++] = (KeyNote){read_point(reader, node, 0), xml_text(reader->arena, node)};
}

static void read_aim(DossierReader *reader, const XmlNode *node, KeySnap *key) {
    if (!isnan(key->aim.x)) complain(reader, node->place, NULL, "a ball is aimed at one place");
    key->aim = read_point(reader, node, 0);
    key->window = attr_number(node, "window", NAN, reader->diagnostics);
    if (key->window < 0) complain(reader, xml_value_place(node, "window"), NULL, "a window is not smaller than 0");
}

static void report_many(DossierReader *reader, const XmlNode *node, int most) {
    if (!dossier_may_report(reader)) return;
    diag_report(reader->diagnostics, RULE_XML_LIMIT, node->place, NULL, "more than %d of the element '%s' in one place",
                most, node->name);
}

static void read_drawing(DossierReader *reader, const XmlNode *node, KeySnap *key) {
    static const struct {
        const char *element;
        int most;
        void (*read)(DossierReader *reader, const XmlNode *node, KeySnap *key);
    } parts[] = {{"man", MOST_MEN, read_man},
                 {"zone", MOST_ZONES, read_zone},
                 {"note", MOST_NOTES, read_note},
                 {"aim", MOST_NOTES, read_aim}};
    key->men = ARENA_ARRAY(reader->arena, attr_children(node, "man"), KeyMan);
    key->zones = ARENA_ARRAY(reader->arena, attr_children(node, "zone"), YardZone);
    key->notes = ARENA_ARRAY(reader->arena, attr_children(node, "note"), KeyNote);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        const XmlNode *child = xml_child(node, parts[i].element);
        for (int count = 0; child; child = xml_next(child, parts[i].element), count++) {
            if (count == parts[i].most) {
                report_many(reader, child, count);
                break;
            }
            parts[i].read(reader, child, key);
        }
    }
}

static void check_twice(DossierReader *reader, const XmlNode *node, const KeySnap *key) {
    const Dossier *dossier = reader->dossier;
    for (size_t i = 0; i < dossier->key_count; i++) {
        if (key->snap < 0 || dossier->keys[i].snap != key->snap) continue;
        dossier_report_twice(reader, node, "snap", "the key snap", dossier->keys[i].place);
        return;
    }
}

static void read_key(DossierReader *reader, const XmlNode *node) {
    KeySnap *key = &reader->dossier->keys[reader->dossier->key_count];
    *key = (KeySnap){.aim = {NAN, NAN}, .window = NAN, .place = node->place};
    key->snap = dossier_refer_snap(reader, node, "snap");
    const char *strength = attr_text(node, "strength", "");
    key->strength = strcmp(strength, "left") == 0 ? -1 : strcmp(strength, "right") == 0;
    const char *complete = attr_text(node, "complete", "");
    bool both = strcmp(complete, "both") == 0;
    key->offence_complete = both || strcmp(complete, "offence") == 0;
    key->defence_complete = both || strcmp(complete, "defence") == 0;
    check_twice(reader, node, key);
    dossier_read_prose(reader, node, &key->prose);
    read_drawing(reader, node, key);
    reader->dossier->key_count++;
}

void dossier_read_keys(DossierReader *reader, const XmlNode *root) {
    reader->dossier->keys = ARENA_ARRAY(reader->arena, attr_children(root, "key-snap"), KeySnap);
    const XmlNode *node = xml_child(root, "key-snap");
    for (; node; node = xml_next(node, "key-snap")) {
        if (reader->dossier->key_count == MOST_KEYS) {
            report_many(reader, node, MOST_KEYS);
            return;
        }
        read_key(reader, node);
    }
}
