#include "source/plays.h"

#include <string.h>

#include "base/text.h"
#include "source/attributes.h"
#include "source/lists.h"
#include "source/names.h"

typedef struct PlaysReader {
    Arena *arena;
    Diagnostics *diagnostics;
    Plays *plays;
} PlaysReader;

/* ---- finding ---- */

const void *plays_row(const void *rows, size_t count, size_t stride, const char *id) {
    const char *row = rows;
    for (size_t i = 0; id && i < count; i++, row += stride) {
        const char *name;
        memcpy(&name, row, sizeof name);
        if (strcmp(name, id) == 0) return row;
    }
    return NULL;
}

const PlayRoute *plays_route(const Plays *plays, const char *id, int runner) {
    const PlayRoute *found = NULL;
    for (size_t i = 0; id && i < plays->routes.count; i++) {
        const PlayRoute *route = &plays->routes.rows[i];
        if (strcmp(route->id, id) != 0) continue;
        if (route->runner == runner && runner >= 0) return route;
        if (route->runner < 0 || !found) found = route;
    }
    return found;
}

const PlayPlaces *plays_backers(const Plays *plays, size_t count) {
    const PlayPlaces *best = NULL;
    for (size_t i = 0; i < plays->backers.count; i++) {
        const PlayPlaces *list = &plays->backers.rows[i];
        if (list->count <= count && (!best || list->count > best->count)) best = list;
    }
    return best;
}

/* ---- values ---- */

static void report_value(Diagnostics *diagnostics, Place place, const char *text, const char *hint) {
    diag_report(diagnostics, RULE_ATTRIBUTE_VALUE, place, hint, "'%s' cannot be read", text);
}

/* Two numbers with `mark` between them. */
static bool read_pair(Arena *arena, const char *text, char mark, double *first, double *second) {
    const char *at = strchr(text, mark);
    return at && text_number(arena_copy(arena, text, (size_t)(at - text)), first) && text_number(at + 1, second);
}

YardPoints plays_points(Arena *arena, const XmlNode *node, const char *attribute, Diagnostics *diagnostics) {
    YardPoints points = {0};
    points.points = ARENA_ARRAY(arena, list_count(arena, node, attribute), YardPoint);
    List list = list_open(arena, node, attribute);
    for (ListWord word; list_next(&list, &word);) {
        YardPoint *point = &points.points[points.count];
        if (read_pair(arena, word.id, ',', &point->x, &point->y)) {
            points.count++;
        } else {
            report_value(diagnostics, word.place, word.id, "a point is written x,y in yards, such as -20,0");
        }
    }
    return points;
}

static YardPoints points_of(PlaysReader *reader, const XmlNode *node, const char *attribute) {
    return plays_points(reader->arena, node, attribute, reader->diagnostics);
}

static YardPoint point_of(PlaysReader *reader, const XmlNode *node, const char *attribute) {
    YardPoints points = points_of(reader, node, attribute);
    if (points.count == 1) return points.points[0];
    report_value(reader->diagnostics, xml_value_place(node, attribute), attr_text(node, attribute, ""),
                 "one point is meant, such as 0,-5");
    return (YardPoint){0, 0};
}

static double number_of(PlaysReader *reader, const XmlNode *node, const char *attribute) {
    return attr_number(node, attribute, 0, reader->diagnostics);
}

static LetterList letters_of(PlaysReader *reader, const XmlNode *node, const char *attribute) {
    LetterList letters = {0};
    letters.letters = ARENA_ARRAY(reader->arena, list_count(reader->arena, node, attribute), const char *);
    List list = list_open(reader->arena, node, attribute);
    for (ListWord word; list_next(&list, &word);) letters.letters[letters.count++] = word.id;
    return letters;
}

/* A Runner, or -1 for a word that is none. */
static int runner_of(const char *word) {
    static const char *const WORDS[RUNNER_COUNT] = {"wide", "slot", "end", "back"};
    for (int i = 0; word && i < RUNNER_COUNT; i++) {
        if (strcmp(WORDS[i], word) == 0) return i;
    }
    return -1;
}

/* ---- rows ---- */

static void read_runner(PlaysReader *reader, const XmlNode *node, void *row) {
    (void)reader;
    int runner = runner_of(xml_value(node, "is"));
    *(RunnerWord *)row = (RunnerWord){attr_text(node, "value", ""), runner < 0 ? RUNNER_WIDE : (Runner)runner};
}

static void read_route(PlaysReader *reader, const XmlNode *node, void *row) {
    PlayRoute *route = row;
    *route = (PlayRoute){.id = attr_text(node, "id", ""), .settles = attr_yes(node, "settles")};
    route->runner = runner_of(xml_value(node, "runner"));
    route->legs = ARENA_ARRAY(reader->arena, list_count(reader->arena, node, "legs"), RouteLeg);
    List list = list_open(reader->arena, node, "legs");
    for (ListWord word; list_next(&list, &word);) {
        RouteLeg *leg = &route->legs[route->leg_count];
        if (read_pair(reader->arena, word.id, '@', &leg->yards, &leg->angle)) {
            route->leg_count++;
        } else {
            report_value(reader->diagnostics, word.place, word.id, "a leg is written yards@angle, such as 10@-30");
        }
    }
}

static void read_backfield(PlaysReader *reader, const XmlNode *node, void *row) {
    *(PlayBackfield *)row =
        (PlayBackfield){attr_text(node, "id", ""), points_of(reader, node, "passer"), points_of(reader, node, "backs")};
}

static void read_formation(PlaysReader *reader, const XmlNode *node, void *row) {
    *(PlayFormation *)row = (PlayFormation){attr_text(node, "id", ""), points_of(reader, node, "receivers"),
                                            points_of(reader, node, "ends"), points_of(reader, node, "backs")};
}

static void read_motion(PlaysReader *reader, const XmlNode *node, void *row) {
    PlayMotion *motion = row;
    *motion = (PlayMotion){.id = attr_text(node, "id", "")};
    List list = list_open(reader->arena, node, "of");
    for (ListWord word; motion->of_count < RUNNER_COUNT && list_next(&list, &word);) {
        int runner = runner_of(word.id);
        if (runner >= 0) motion->of[motion->of_count++] = (Runner)runner;
    }
    motion->way = points_of(reader, node, "way");
    motion->from = points_of(reader, node, "from");
    const char *end = attr_text(node, "to", "");
    motion->end = strcmp(end, "place") == 0 ? MOTION_PLACE : strcmp(end, "loop") == 0 ? MOTION_LOOP : MOTION_AWAY;
}

static void read_drop(PlaysReader *reader, const XmlNode *node, void *row) {
    *(PlayDrop *)row =
        (PlayDrop){attr_text(node, "id", ""), point_of(reader, node, "under"), point_of(reader, node, "gun")};
}

static PlayPlaces places_of(PlaysReader *reader, const XmlNode *parent) {
    PlayPlaces men = {0};
    men.places = ARENA_ARRAY(reader->arena, attr_children(parent, "man"), PlayPlace);
    for (const XmlNode *node = xml_child(parent, "man"); node; node = xml_next(node, "man")) {
        men.places[men.count++] =
            (PlayPlace){attr_text(node, "id", ""), {number_of(reader, node, "x"), number_of(reader, node, "y")}};
    }
    return men;
}

static void read_front(PlaysReader *reader, const XmlNode *node, void *row) {
    *(PlayFront *)row =
        (PlayFront){attr_text(node, "id", ""), places_of(reader, node), (int)number_of(reader, node, "edges")};
}

static void read_backers(PlaysReader *reader, const XmlNode *node, void *row) {
    *(PlayPlaces *)row = places_of(reader, node);
}

static void read_sub(PlaysReader *reader, const XmlNode *node, void *row) {
    *(PlaySub *)row = (PlaySub){attr_text(node, "id", ""), (int)number_of(reader, node, "corners"),
                                (int)number_of(reader, node, "slots"), (int)number_of(reader, node, "safeties")};
}

static void read_shell(PlaysReader *reader, const XmlNode *node, void *row) {
    *(PlayShell *)row =
        (PlayShell){attr_text(node, "id", ""), points_of(reader, node, "spots"), points_of(reader, node, "down")};
}

static void read_coverage(PlaysReader *reader, const XmlNode *node, void *row) {
    PlayCoverage *coverage = row;
    *coverage = (PlayCoverage){
        .id = attr_text(node, "id", ""), .corner = number_of(reader, node, "corner"), .man = attr_yes(node, "man")};
    coverage->zones = ARENA_ARRAY(reader->arena, attr_children(node, "zone"), YardZone);
    for (const XmlNode *zone = xml_child(node, "zone"); zone; zone = xml_next(zone, "zone")) {
        coverage->zones[coverage->zone_count++] =
            (YardZone){{number_of(reader, zone, "x"), number_of(reader, zone, "y")},
                       number_of(reader, zone, "width"),
                       number_of(reader, zone, "depth")};
    }
}

static void read_call(PlaysReader *reader, const XmlNode *node, void *row) {
    *(PlayCall *)row = (PlayCall){attr_text(node, "id", ""), (int)number_of(reader, node, "trades")};
}

static void read_lane(PlaysReader *reader, const XmlNode *node, void *row) {
    PlayLane *lane = row;
    *lane = (PlayLane){attr_text(node, "id", ""), number_of(reader, node, "from"), number_of(reader, node, "to")};
    if (lane->from < lane->to) return;
    report_value(reader->diagnostics, xml_value_place(node, "to"), attr_text(node, "to", ""),
                 "a lane ends to the right of where it begins");
}

static void read_window(PlaysReader *reader, const XmlNode *node, void *row) {
    *(PlayWindow *)row = (PlayWindow){attr_text(node, "id", ""), number_of(reader, node, "size")};
}

typedef void ReadRow(PlaysReader *reader, const XmlNode *node, void *row);

/* A row's name is its word, and whose it is where that is said. Rows without a word have none. */
static void check_name(PlaysReader *reader, const XmlNode *node, Names *names) {
    const char *attribute = xml_value(node, "id") ? "id" : "value";
    const char *word = xml_value(node, attribute);
    if (!word) return;
    const char *name = arena_printf(reader->arena, "%s %s", word, attr_text(node, "runner", ""));
    if (names_add(names, name, 0) < 0) return;
    diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, attribute), NULL, "%s '%s' stands twice",
                node->name, word);
}

/* All children called `element` as rows of `size` bytes. */
static void *read_rows(PlaysReader *reader, const XmlNode *root, const char *element, ReadRow *read, size_t size,
                       size_t *count) {
    size_t most = attr_children(root, element);
    Names *names = names_new(reader->arena, most);
    char *rows = arena_array(reader->arena, most, size);
    *count = 0;
    for (const XmlNode *node = xml_child(root, element); node; node = xml_next(node, element)) {
        check_name(reader, node, names);
        read(reader, node, rows + size * (*count)++);
    }
    return rows;
}

#define READ_ROWS(table, element, read)                                                                                \
    ((table).rows = read_rows(reader, root, (element), (read), sizeof *(table).rows, &(table).count))

static void read_tables(PlaysReader *reader, const XmlNode *root) {
    Plays *plays = reader->plays;
    READ_ROWS(plays->runners, "runner", read_runner);
    READ_ROWS(plays->routes, "route", read_route);
    READ_ROWS(plays->backfields, "backfield", read_backfield);
    READ_ROWS(plays->formations, "formation", read_formation);
    READ_ROWS(plays->motions, "motion", read_motion);
    READ_ROWS(plays->drops, "drop", read_drop);
    READ_ROWS(plays->fronts, "front", read_front);
    READ_ROWS(plays->backers, "backers", read_backers);
    READ_ROWS(plays->subs, "sub", read_sub);
    READ_ROWS(plays->shells, "shell", read_shell);
    READ_ROWS(plays->coverages, "coverage", read_coverage);
    READ_ROWS(plays->calls, "call", read_call);
    READ_ROWS(plays->lanes, "lane", read_lane);
    READ_ROWS(plays->windows, "window", read_window);
    const XmlNode *edges = xml_child(root, "edges");
    if (edges) plays->edges = places_of(reader, edges);
}

static void read_letters(PlaysReader *reader, const XmlNode *root) {
    const XmlNode *node = xml_child(root, "letters");
    if (!node) return;
    reader->plays->letters = (PlayLetters){letters_of(reader, node, "receivers"), letters_of(reader, node, "ends"),
                                           letters_of(reader, node, "backs"),     letters_of(reader, node, "passer"),
                                           letters_of(reader, node, "corners"),   letters_of(reader, node, "slots"),
                                           letters_of(reader, node, "safeties")};
}

static void read_line(PlaysReader *reader, const XmlNode *root) {
    const XmlNode *node = xml_child(root, "line");
    if (!node) return;
    reader->plays->line = points_of(reader, node, "spots");
    reader->plays->extra = point_of(reader, node, "extra");
    if (reader->plays->line.count == PLAYS_LINEMEN) return;
    report_value(reader->diagnostics, xml_value_place(node, "spots"), attr_text(node, "spots", ""),
                 "a line has five men");
}

const Plays *plays_load(Arena *arena, const Templates *templates, const char *id, Place place,
                        Diagnostics *diagnostics) {
    size_t errors = diag_errors(diagnostics);
    const char *path = templates_path(arena, templates->folder, "plays", id, place, diagnostics);
    const XmlNode *root = path ? xml_load(arena, templates->schemas, XML_PLAYS, path, diagnostics) : NULL;
    if (!root) return NULL;
    PlaysReader reader = {arena, diagnostics, ARENA_NEW(arena, Plays)};
    reader.plays->id = attr_text(root, "id", "");
    read_letters(&reader, root);
    read_line(&reader, root);
    read_tables(&reader, root);
    return diag_errors(diagnostics) > errors ? NULL : reader.plays;
}
