/* Key snaps: two drawings side by side, each with what the scout says of it and what was charted. */
#include <math.h>
#include <string.h>

#include "story/play.h"
#include "story/write.h"

#define DOT " \u00b7 "
#define HALF 0.5
#define FACTS_LEFT 0.57    /* of the width: the longer facts stand at the left */
#define FIELD_LENGTH 110.0 /* yards from a goal line to the far end line */
#define END_ZONE 10.0

enum { PAIR = 2, MOST_FACTS = 8, FACT_FIELDS = 4 };

/* ---- what was charted ---- */

/* One field of a fact: its value with a form around it, after a lead when something stands before it. */
typedef struct FactField {
    const char *id, *lead, *form;
} FactField;

typedef struct FactRow {
    const char *label;
    FactField fields[FACT_FIELDS];
} FactRow;

/* By the ids of the shared sets' fields; what a profile lacks is left out, and all of a fact whose first field is. */
static const FactRow FACTS[] = {
    {"clock", {{"quarter", "", "Q%s"}, {"clock", " ", "%s"}, {"hash", ", ", "%s"}}},
    {"offence",
     {{"personnel", "", "%s"}, {"backfield", ", ", "%s"}, {"formation", ", ", "%s"}, {"motion", ", ", "%s"}}},
    {"shell", {{"shell", "", "%s"}, {"rotated", ", ", "%s"}}},
    {"coverage", {{"coverage", "", "%s"}, {"rushers", ", ", "%s rush"}}},
    {"drop", {{"drop", "", "%s"}, {"base", ", ", "base %s"}}},
    {"timing", {{"timing", "", "%s"}, {"throw-time", ", ", "%s s"}}},
    {"read", {{"read", "", "%s"}, {"placement", ", ", "%s"}}},
};
enum { FACT_ROWS = sizeof FACTS / sizeof *FACTS };

/* Values said in other words here than in the log; NULL: not at all. */
static const struct {
    const char *id, *value, *says;
} WORDS[] = {
    {"hash", "L", "left hash"},       {"hash", "M", "middle"},      {"hash", "R", "right hash"},
    {"motion", "none", NULL},         {"rotated", "yes", "turned"}, {"rotated", "no", "as shown"},
    {"placement", "on", "on target"},
};

static const char *fact_value(Writer *writer, int row, const char *id) {
    const char *value = say_charted(writer, row, id);
    for (size_t i = 0; i < sizeof WORDS / sizeof *WORDS; i++) {
        if (strcmp(WORDS[i].id, id) == 0 && strcmp(WORDS[i].value, value) == 0) return WORDS[i].says;
    }
    return *value ? value : NULL;
}

static const char *fact_text(Writer *writer, int row, const FactRow *fact) {
    const char *text = "";
    for (size_t i = 0; i < FACT_FIELDS && fact->fields[i].id; i++) {
        const FactField *field = &fact->fields[i];
        const char *value = fact_value(writer, row, field->id);
        if (!value && i == 0) return "";
        if (!value) continue;
        const char *percent = strchr(field->form, '%');
        text = say(writer, "%s%s%.*s%s%s", text, *text ? field->lead : "", (int)(percent - field->form), field->form,
                   value, percent + 2);
    }
    return text;
}

static bool is_told(const char *id) {
    static const char *const ELSEWHERE[] = {"down", "distance", "spot", "result", "gain", "mark"};
    for (size_t i = 0; i < sizeof ELSEWHERE / sizeof *ELSEWHERE; i++) {
        if (strcmp(ELSEWHERE[i], id) == 0) return true;
    }
    for (size_t i = 0; i < FACT_ROWS; i++) {
        for (size_t k = 0; k < FACT_FIELDS && FACTS[i].fields[k].id; k++) {
            if (strcmp(FACTS[i].fields[k].id, id) == 0) return true;
        }
    }
    return false;
}

static void add_fact(FactPair *facts, size_t *count, const char *label, const char *value) {
    if (*count < MOST_FACTS && *value) facts[(*count)++] = (FactPair){label, value};
}

/* The facts of the table above, then fields of the profile's log until there are enough; the film last. */
static size_t collect_facts(Writer *writer, int row, FactPair *facts) {
    size_t count = 0;
    for (size_t i = 0; i < FACT_ROWS; i++) add_fact(facts, &count, FACTS[i].label, fact_text(writer, row, &FACTS[i]));
    const char *film = say_film(writer, row);
    size_t room = *film ? MOST_FACTS - 1 : MOST_FACTS;
    for (size_t i = 0; i < writer->profile->log_field_count && count < room; i++) {
        const Field *field = &writer->profile->fields[writer->profile->log_fields[i]];
        if (!is_told(field->id))
            add_fact(facts, &count, say_lower(writer, field->label), say_charted(writer, row, field->id));
    }
    add_fact(facts, &count, "film", film);
    return count;
}

/* In two columns, read down. */
static void add_facts(Writer *writer, Block *parent, int row) {
    FactPair *facts = ARENA_ARRAY(writer->arena, MOST_FACTS, FactPair);
    size_t count = collect_facts(writer, row, facts);
    if (!count) return;
    Block *split = block_add(writer, parent, BLOCK_SPLIT);
    split->ratio = FACTS_LEFT;
    size_t left = (count + 1) / PAIR;
    for (size_t side = 0; side < PAIR; side++) {
        Block *column = block_add(writer, split, BLOCK_FACTS);
        column->facts = facts + (side ? left : 0);
        column->fact_count = side ? count - left : left;
    }
}

/* ---- the head under the drawing ---- */

static const char *outcome(Writer *writer, int row) {
    const char *result = say_charted(writer, row, "result");
    const char *gain = say_charted(writer, row, "gain");
    bool one = strcmp(gain, "1") == 0;
    if (*gain && strcmp(gain, "0") != 0) result = say(writer, "%s, %s yard%s", result, gain, one ? "" : "s");
    return strcmp(say_charted(writer, row, "touchdown"), "yes") == 0 ? say(writer, "%s, touchdown", result) : result;
}

/* "3rd & 10 at −31 · complete, 16 yards · mark +" */
static const char *head_text(Writer *writer, int row) {
    const char *text = say_down_and_distance(writer, row);
    const char *spot = say_charted(writer, row, "spot");
    const char *came = outcome(writer, row);
    const char *mark = say_charted(writer, row, "mark");
    if (*spot) text = say(writer, "%s at %s", text, spot);
    if (*came) text = say(writer, "%s" DOT "%s", text, came);
    if (*mark) text = say(writer, "%s" DOT "mark %s", text, strcmp(mark, "-") == 0 ? "\u2212" : mark);
    return text;
}

static void add_head(Writer *writer, Block *block, int row) {
    words_add(writer, &block->words, SPAN_LINK, writer->dossier->snaps[row].name, say_snap_anchor(writer, row));
    words_add(writer, &block->words, SPAN_TEXT, "\u2002", NULL);
    words_add(writer, &block->words, SPAN_STRONG, head_text(writer, row), NULL);
}

/* ---- the drawings ---- */

static const Figure *draw_key(Writer *writer, const KeySnap *key) {
    const Dossier *dossier = writer->dossier;
    PlaySnap snap = play_snap(dossier, key->snap);
    const char *title = say(writer, "%s, %s", dossier->snaps[key->snap].name, head_text(writer, key->snap));
    return play_figure(writer->arena, dossier->plays, writer->house->level, &snap, key, title);
}

/* Drawings side by side are equally high: the shorter one shows more of its field. */
static void show_as_much(Figure *figure, double yards) {
    PlayFigure *play = &figure->as.play;
    play->to = fmin(play->from + yards, play->goal + END_ZONE);
    play->from = fmax(play->to - yards, play->goal - FIELD_LENGTH);
}

static double shown(const Figure *figure) {
    return figure->as.play.to - figure->as.play.from;
}

static void add_side(Writer *writer, Block *split, const KeySnap *key, const Figure *figure) {
    Block *side = block_add(writer, split, BLOCK_GROUP);
    add_head(writer, block_figure(writer, side, figure, NULL, NULL), key->snap);
    prose_add(writer, side, &key->prose);
    add_facts(writer, side, key->snap);
}

static void add_pair(Writer *writer, Block *section, const KeySnap *keys, size_t count, PlayKey *legend) {
    Block *group = block_add(writer, section, BLOCK_GROUP);
    Block *split = block_add(writer, group, BLOCK_SPLIT);
    split->ratio = HALF;
    Figure *figures[PAIR];
    double yards = 0;
    for (size_t i = 0; i < count; i++) {
        figures[i] = ARENA_NEW(writer->arena, Figure);
        *figures[i] = *draw_key(writer, &keys[i]);
        yards = fmax(yards, shown(figures[i]));
        play_parts(&figures[i]->as.play, legend);
    }
    for (size_t i = 0; i < count; i++) {
        show_as_much(figures[i], yards);
        add_side(writer, split, &keys[i], figures[i]);
    }
}

static void add_legend(Writer *writer, Block *section, const PlayKey *legend) {
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    figure->kind = FIGURE_PLAY_KEY;
    figure->as.play_key = *legend;
    figure->alt = "Key to the marks of the drawings.";
    block_figure(writer, section, figure, NULL, NULL)->words = words_plain(
        writer, "Drawn from the words of the chart by common practice, and as the scout places a man where he does. "
                "A man without a charted route has none.");
}

static const char *section_note(Writer *writer) {
    static const char *const HASHES[LEVEL_COUNT] = {[LEVEL_COLLEGE] = "college hashes 40 ft apart",
                                                    [LEVEL_PROFESSIONAL] = "professional hashes 18\u00bd ft apart",
                                                    [LEVEL_HIGH_SCHOOL] = "high-school hashes 53\u2153 ft apart"};
    return say(writer, "to scale, 53\u2153 yards across, %s; offence drives up the page", HASHES[writer->house->level]);
}

void story_keys(Writer *writer, Block *document, const LayoutSection *section) {
    const Dossier *dossier = writer->dossier;
    PlayKey legend = {0};
    if (!dossier->key_count || !dossier->plays) return;
    Block *block = block_section(writer, document, section->title ? section->title : "Key snaps", section_note(writer));
    size_t most = dossier->key_count;
    if (section->most > 0 && (size_t)section->most < most) most = (size_t)section->most;
    for (size_t i = 0; i < most; i += PAIR) {
        size_t count = most - i < PAIR ? 1 : PAIR;
        add_pair(writer, block, &dossier->keys[i], count, &legend);
    }
    add_legend(writer, block, &legend);
}
