/* Two evaluators side by side: what either says of the whole, where their grades part, and the snaps to watch together.
 */
#include <math.h>
#include <stdlib.h>

#include "source/expr.h"
#include "story/write.h"

enum { PAIR = 2, SNAPS_SHOWN = 8 };

static void add_fact(Block *block, const char *label, const char *value) {
    if (value && *value) block->facts[block->fact_count++] = (FactPair){label, value};
}

static void add_side(Writer *writer, Block *split, const Grades *grades) {
    const Evaluator *evaluator = house_evaluator(writer->house, grades->by);
    Block *side = block_add(writer, split, BLOCK_GROUP);
    block_head(writer, side, 2, evaluator_name(writer, grades->by), evaluator ? evaluator->role : NULL);
    Block *facts = block_add(writer, side, BLOCK_FACTS);
    facts->facts = ARENA_ARRAY(writer->arena, 6, FactPair);
    const GradeWord *word = isfinite(grades->overall) ? house_grade_word(writer->house, grades->overall) : NULL;
    add_fact(facts, "Overall",
             say(writer, "%s%s%s", say_number(writer, grades->overall, 1), word ? ", " : "", word ? word->word : ""));
    add_fact(facts, "On", grades->on ? say_date(writer, grades->on) : NULL);
    add_fact(facts, "When", when_words(writer->house, grades->when));
    add_fact(facts, "Role", grades->role);
    add_fact(facts, "Fit", grades->fit);
    add_fact(facts, "Graded", say_count(writer, (int)grades->count, "traits"));
    if (grades->says && *grades->says) block_text(writer, side, STYLE_PROSE, grades->says);
}

/* ---- trait by trait ---- */

typedef struct Pair {
    int trait;
    const Grade *a, *b;
} Pair;

static const Grade *grade_of(const Grades *grades, int trait) {
    for (size_t i = 0; i < grades->count; i++) {
        if (grades->grades[i].trait == trait) return &grades->grades[i];
    }
    return NULL;
}

static double apart(const Pair *pair) {
    return pair->b->value - pair->a->value;
}

/* The widest apart first, then as the profile has them. */
static int by_distance(const void *left, const void *right) {
    const Pair *a = left;
    const Pair *b = right;
    double difference = fabs(apart(b)) - fabs(apart(a));
    if (difference != 0) return difference < 0 ? -1 : 1;
    return a->trait - b->trait;
}

static size_t pairs_of(Writer *writer, const Grades *both, Pair *pairs) {
    size_t count = 0;
    for (int trait = 0; trait < (int)writer->profile->trait_count; trait++) {
        Pair pair = {trait, grade_of(&both[0], trait), grade_of(&both[1], trait)};
        if (pair.a && pair.b) pairs[count++] = pair;
    }
    qsort(pairs, count, sizeof *pairs, by_distance);
    return count;
}

static Words notes_of(Writer *writer, const Grades *both, const Pair *pair) {
    Words words = {0};
    const Grade *grades[PAIR] = {pair->a, pair->b};
    for (int i = 0; i < PAIR; i++) {
        if (!grades[i]->note || !*grades[i]->note) continue;
        const char *name = say(writer, "%s%s: ", words.count ? " " : "", evaluator_name(writer, both[i].by));
        words_add(writer, &words, SPAN_MUTED, name, NULL);
        words_add(writer, &words, SPAN_TEXT, grades[i]->note, NULL);
    }
    return words;
}

static void trait_table(Writer *writer, Block *section, const Grades *both, const Pair *pairs, size_t count) {
    const TableColumn heads[] = {
        {.head = "trait", .width = 100, .strong = true, .head_of_row = true},
        {.head = evaluator_name(writer, both[0].by), .width = 56, .align = ALIGN_RIGHT},
        {.head = evaluator_name(writer, both[1].by), .width = 56, .align = ALIGN_RIGHT},
        {.head = "apart", .width = 44, .align = ALIGN_RIGHT, .strong = true},
        {.head = "in their words"},
    };
    enum { COLUMNS = sizeof heads / sizeof *heads };
    block_head(writer, section, 2, "Trait by trait", "the widest apart first");
    Table *table = block_table(writer, section, heads, COLUMNS, count);
    for (size_t i = 0; i < count; i++) {
        TableCell *cells = &table->cells[i * COLUMNS];
        cells[0].words = words_plain(writer, writer->profile->traits[pairs[i].trait].label);
        cells[1].words = words_plain(writer, say_number(writer, pairs[i].a->value, 1));
        cells[2].words = words_plain(writer, say_number(writer, pairs[i].b->value, 1));
        cells[3].words = words_plain(writer, say_signed(writer, apart(&pairs[i]), 1));
        cells[4].words = notes_of(writer, both, &pairs[i]);
    }
}

/* ---- snaps to watch together ---- */

/* By row: how many fields two charters read differently; NULL when nothing was charted twice. */
static int *differing_fields(Writer *writer) {
    const Agreement *agreement = writer->findings->agreement;
    if (!agreement || !agreement->snaps) return NULL;
    int *fields = ARENA_ARRAY(writer->arena, writer->dossier->snap_count, int);
    for (size_t i = 0; i < agreement->field_count; i++) {
        const FieldAgreement *field = &agreement->fields[i];
        for (int d = 0; d < field->n - field->equal; d++) fields[field->differences[d].row]++;
    }
    return fields;
}

static void add_snap(Writer *writer, Words *words, int row) {
    if (words->count) words_add(writer, words, SPAN_TEXT, " ", NULL);
    words_add(writer, words, SPAN_LINK, writer->dossier->snaps[row].name, say_snap_anchor(writer, row));
}

/* Of the snaps that show the trait, those on which the charters differ most. */
static size_t add_snaps(Writer *writer, Words *words, const uint8_t *shows, const int *fields) {
    int most = 0;
    size_t shown = 0;
    for (size_t row = 0; row < writer->dossier->snap_count; row++) {
        if (shows[row] == TRUTH_TRUE && fields[row] > most) most = fields[row];
    }
    for (int level = most; level > 0 && shown < SNAPS_SHOWN; level--) {
        for (size_t row = 0; row < writer->dossier->snap_count && shown < SNAPS_SHOWN; row++) {
            if (shows[row] != TRUTH_TRUE || fields[row] != level) continue;
            add_snap(writer, words, (int)row);
            shown++;
        }
    }
    return shown;
}

static void snap_table(Writer *writer, Block *section, const Pair *pairs, size_t count, const int *fields) {
    static const TableColumn HEADS[] = {
        {.head = "trait", .width = 100, .strong = true, .head_of_row = true},
        {.head = "apart", .width = 44, .align = ALIGN_RIGHT},
        {.head = "shown by", .width = 150},
        {.head = "charted differently on"},
    };
    enum { COLUMNS = sizeof HEADS / sizeof *HEADS };
    size_t snaps = writer->dossier->snap_count;
    uint8_t *shows = ARENA_ARRAY(writer->arena, snaps, uint8_t);
    Block holder = {0}; /* whether there are any rows is known when they are written */
    Table *table = block_table(writer, &holder, HEADS, COLUMNS, count);
    table->row_count = 0;
    for (size_t i = 0; i < count; i++) {
        const Trait *trait = &writer->profile->traits[pairs[i].trait];
        if (!trait->seen || apart(&pairs[i]) == 0) continue;
        TableCell *cells = &table->cells[table->row_count * COLUMNS];
        expr_select(trait->seen, &writer->dossier->columns, 0, snaps, shows);
        cells[3].words = (Words){0};
        if (!add_snaps(writer, &cells[3].words, shows, fields)) continue;
        cells[0].words = words_plain(writer, trait->label);
        cells[1].words = words_plain(writer, say_signed(writer, apart(&pairs[i]), 1));
        cells[2].words = words_plain(writer, trait->shown ? trait->shown : "");
        table->row_count++;
    }
    if (!table->row_count) return;
    block_head(writer, section, 2, "Snaps to watch together", "where their grades part and the two charts differ most");
    block_add(writer, section, BLOCK_TABLE)->table = table;
}

/* Traits that only one of the two graded. */
static void single_note(Writer *writer, Block *section, const Grades *both) {
    Buf buf = {0};
    for (int trait = 0; trait < (int)writer->profile->trait_count; trait++) {
        bool a = grade_of(&both[0], trait);
        bool b = grade_of(&both[1], trait);
        if (a == b) continue;
        buf_printf(&buf, "%s%s (%s)", buf.length ? ", " : "Graded by one alone: ", writer->profile->traits[trait].label,
                   evaluator_name(writer, both[a ? 0 : 1].by));
    }
    if (buf.length) block_note(writer, section, say(writer, "%s.", buf_text(&buf)));
    buf_free(&buf);
}

void story_evaluators(Writer *writer, Block *document, const LayoutSection *section) {
    const Dossier *dossier = writer->dossier;
    Block *block = block_section(writer, document, section->title ? section->title : "Side by side", NULL);
    if (dossier->grades_count < PAIR) {
        block_text(writer, block, STYLE_PROSE,
                   dossier->grades_count ? "One evaluator has graded him; there is nobody to compare with yet."
                                         : "Nobody has graded him yet.");
        return;
    }
    const Grades *both = dossier->grades;
    if (dossier->grades_count > PAIR) {
        block->note = say(writer, "the filing evaluator and the next; %s graded in all",
                          say_word_count(writer, (int)dossier->grades_count, "evaluators"));
    }
    Block *split = block_add(writer, block, BLOCK_SPLIT);
    split->ratio = 0.5;
    for (int i = 0; i < PAIR; i++) add_side(writer, split, &both[i]);
    Pair *pairs = ARENA_ARRAY(writer->arena, writer->profile->trait_count, Pair);
    size_t count = pairs_of(writer, both, pairs);
    if (count) trait_table(writer, block, both, pairs, count);
    single_note(writer, block, both);
    const int *fields = differing_fields(writer);
    if (fields && count) snap_table(writer, block, pairs, count, fields);
    const char *agreement = grade_agreement(writer);
    if (agreement) block_note(writer, block, agreement);
}
