/* The figures of "the tape in figures": which fields, measures and slices each is drawn from. */
#include <string.h>

#include "source/lists.h"
#include "source/profile_parts.h"

static int choice_field(ProfileReader *reader, const XmlNode *node, const char *attribute) {
    int index = profile_find_field(reader, node, attribute);
    if (index < 0 || reader->profile->fields[index].value_count > 0) return index;
    diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, attribute), NULL,
                "'%s' is not a choice, so a figure cannot be laid out by it", reader->profile->fields[index].id);
    return -1;
}

/* Every figure but the ribbon tells one measure, or several. */
static void read_measure(ProfileReader *reader, const XmlNode *node, ProfileFigure *figure) {
    figure->measure = profile_find_measure(reader, node, "measure");
}

static void read_throw_field(ProfileReader *reader, const XmlNode *node, ProfileFigure *figure) {
    read_measure(reader, node, figure);
    figure->lateral = choice_field(reader, node, "lateral");
    figure->depth = choice_field(reader, node, "depth");
}

static int find_slice(ProfileReader *reader, ListWord word) {
    const Profile *profile = reader->profile;
    int index = profile_slice(profile, word.id);
    if (index >= 0) return index;
    diag_report(reader->diagnostics, RULE_PROFILE, word.place,
                NAMES_HINT(reader->arena, word.id, profile->slices, profile->slice_count),
                "the profile has no slice '%s'", word.id);
    return -1;
}

static int find_measure(ProfileReader *reader, ListWord word) {
    const Profile *profile = reader->profile;
    int index = profile_measure(profile, word.id);
    if (index >= 0) return index;
    diag_report(reader->diagnostics, RULE_PROFILE, word.place,
                NAMES_HINT(reader->arena, word.id, profile->measures, profile->measure_count),
                "the profile has no measure '%s'", word.id);
    return -1;
}

/* Finds what a word of a list names. */
typedef int FindWord(ProfileReader *reader, ListWord word);

/* "|" where rows stand in groups; elsewhere it parts nothing. */
static int find_group(ProfileReader *reader, ListWord word) {
    (void)word;
    (void)reader;
    return -1;
}

static int refuse_group(ProfileReader *reader, ListWord word) {
    diag_report(reader->diagnostics, RULE_PROFILE_FIGURE, word.place, NULL, "only interval rows stand in groups");
    return -1;
}

/* A list of names as indexes; what `group` makes of "|" becomes -1. At least one name must stand there. */
static size_t read_list(ProfileReader *reader, const XmlNode *node, const char *attribute, int **indexes,
                        FindWord *find, FindWord *group) {
    *indexes = ARENA_ARRAY(reader->arena, list_count(reader->arena, node, attribute), int);
    List list = list_open(reader->arena, node, attribute);
    ListWord word;
    size_t count = 0, names = 0;
    while (list_next(&list, &word)) {
        bool name = strcmp(word.id, "|") != 0;
        (*indexes)[count++] = name ? find(reader, word) : group(reader, word);
        names += name;
    }
    if (names) return count;
    diag_report(reader->diagnostics, RULE_PROFILE, node->place, NULL, "this kind of figure names its %s", attribute);
    return 0;
}

static void read_interval_rows(ProfileReader *reader, const XmlNode *node, ProfileFigure *figure) {
    read_measure(reader, node, figure);
    figure->slice_count = read_list(reader, node, "slices", &figure->slices, find_slice, find_group);
}

static void read_game_trend(ProfileReader *reader, const XmlNode *node, ProfileFigure *figure) {
    figure->measure_count = read_list(reader, node, "measures", &figure->measures, find_measure, refuse_group);
}

static void read_ladder(ProfileReader *reader, const XmlNode *node, ProfileFigure *figure) {
    read_measure(reader, node, figure);
    figure->total = profile_find_total(reader, node, "total");
    figure->slice_count = read_list(reader, node, "rungs", &figure->slices, find_slice, refuse_group);
    figure->part_count = read_list(reader, node, "parts", &figure->parts, find_slice, refuse_group);
}

static void read_ribbon(ProfileReader *reader, const XmlNode *node, ProfileFigure *figure) {
    figure->lateral = choice_field(reader, node, "field");
}

static const struct {
    const char *word;
    ProfileFigureKind kind;
    void (*read)(ProfileReader *reader, const XmlNode *node, ProfileFigure *figure);
} figure_kinds[] = {
    {"throw-field", PROFILE_THROW_FIELD, read_throw_field},
    {"interval-rows", PROFILE_INTERVAL_ROWS, read_interval_rows},
    {"game-trend", PROFILE_GAME_TREND, read_game_trend},
    {"ladder", PROFILE_LADDER, read_ladder},
    {"situations", PROFILE_SITUATIONS, read_measure},
    {"ribbon", PROFILE_RIBBON, read_ribbon},
};

enum { FIGURE_KINDS = sizeof figure_kinds / sizeof *figure_kinds };

static void read_figure_kind(ProfileReader *reader, const XmlNode *node, ProfileFigure *figure) {
    const char *word = attr_text(node, "kind", "");
    for (size_t i = 0; i < FIGURE_KINDS; i++) {
        if (strcmp(figure_kinds[i].word, word) != 0) continue;
        figure->kind = figure_kinds[i].kind;
        figure_kinds[i].read(reader, node, figure);
        profile_check_drawn(reader, figure);
        return;
    }
    diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, "kind"),
                names_hint(reader->arena, word, figure_kinds, FIGURE_KINDS, sizeof *figure_kinds),
                "there is no kind of figure '%s'", word);
}

static void read_figure(ProfileReader *reader, const XmlNode *node, bool common) {
    (void)common;
    ProfileFigure *figure = &reader->profile->figures[reader->profile->figure_count++];
    *figure = (ProfileFigure){
        .title = attr_text(node, "title", ""),
        .note = xml_value(node, "note"),
        .measure = -1,
        .lateral = -1,
        .depth = -1,
        .total = -1,
        .place = node->place,
    };
    read_figure_kind(reader, node, figure);
}

void profile_read_figures(ProfileReader *reader) {
    reader->profile->figures = ARENA_ARRAY(reader->arena, profile_count(reader, "figure"), ProfileFigure);
    profile_each(reader, "figure", read_figure);
}
