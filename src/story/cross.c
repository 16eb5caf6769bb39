/* Two charters: how far the people who charted the same game, and those who graded the player, agree. */
#include <math.h>
#include <stdlib.h>

#include "base/text.h"
#include "story/write.h"

enum { DIFFERENCES_SHOWN = 40 };

static const char *charter_name(Writer *writer, const char *id) {
    const Evaluator *evaluator = id ? house_evaluator(writer->house, id) : NULL;
    return evaluator ? evaluator->name : id && *id ? id : "unknown";
}

/* ---- who charted what ---- */

static bool has_match(const SecondChart *chart) {
    for (size_t i = 0; i < chart->count; i++) {
        if (chart->match[i] >= 0) return true;
    }
    return false;
}

/* "g1 (R. Kestrel and O. Bittern), g3 (…)" */
static void put_games(Writer *writer, Buf *buf) {
    const Dossier *dossier = writer->dossier;
    int last = -1;
    for (size_t i = 0; i < dossier->second_chart_count; i++) {
        const SecondChart *chart = &dossier->second_charts[i];
        if (!has_match(chart)) continue;
        const Game *game = &dossier->games[chart->game];
        if (chart->game != last) {
            buf_printf(buf, "%s%s (%s", last >= 0 ? "), " : "", game->id, charter_name(writer, game->by));
        }
        buf_printf(buf, " and %s", charter_name(writer, chart->by));
        last = chart->game;
    }
    BUF_PUT(buf, ")");
}

static const char *charts_sentence(Writer *writer, const Agreement *agreement) {
    Buf buf = {0};
    buf_printf(&buf, "In more than one chart: %s of %s, ", say_count(writer, agreement->snaps, "snaps"),
               say_word_count(writer, agreement->games, "games"));
    put_games(writer, &buf);
    buf_puts(&buf, ". All other figures count the first chart alone.");
    const char *text = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return text;
}

/* ---- field by field ---- */

static double share(const FieldAgreement *field) {
    return (double)field->equal / field->n;
}

/* The least agreement first; fields without a kappa come last. */
static int by_agreement(const void *a, const void *b) {
    const FieldAgreement *x = a;
    const FieldAgreement *y = b;
    if (isnan(x->kappa) != isnan(y->kappa)) return isnan(x->kappa) ? 1 : -1;
    double first = isnan(x->kappa) ? share(x) : x->kappa;
    double second = isnan(y->kappa) ? share(y) : y->kappa;
    if (first != second) return first < second ? -1 : 1;
    return x->field - y->field;
}

/* The fields on which they differ somewhere. */
typedef struct Differing {
    FieldAgreement *fields; /* the least agreement first */
    size_t count;
} Differing;

static bool is_same(const FieldAgreement *field) {
    return field->equal == field->n;
}

static Differing differing_fields(Writer *writer, const Agreement *agreement) {
    Differing differing = {ARENA_ARRAY(writer->arena, agreement->field_count, FieldAgreement), 0};
    for (size_t i = 0; i < agreement->field_count; i++) {
        if (!is_same(&agreement->fields[i])) differing.fields[differing.count++] = agreement->fields[i];
    }
    qsort(differing.fields, differing.count, sizeof *differing.fields, by_agreement);
    return differing;
}

static const char *interval_words(Writer *writer, const FieldAgreement *field) {
    if (isnan(field->low)) return "";
    return say(writer, "%s to %s", say_number(writer, field->low, 2), say_number(writer, field->high, 2));
}

static void field_cells(Writer *writer, TableCell *cells, const FieldAgreement *field) {
    bool known = !isnan(field->kappa);
    cells[0].words = words_plain(writer, writer->profile->fields[field->field].label);
    cells[1].words = words_plain(writer, say(writer, "%d", field->n));
    cells[2].words = words_plain(writer, say(writer, "%d", field->equal));
    cells[3].words = words_plain(writer, say_percent(writer, share(field)));
    cells[4].words = words_plain(writer, say_number(writer, field->kappa, 2));
    cells[5].words = words_plain(writer, interval_words(writer, field));
    cells[6].words = words_plain(writer, !known ? "" : field->weighted ? "by steps" : "same or not");
}

/* "Down (56), Spot (56)": with the snaps that both charted. */
static const char *same_sentence(Writer *writer, const Agreement *agreement) {
    Buf buf = {0};
    for (size_t i = 0; i < agreement->field_count; i++) {
        const FieldAgreement *field = &agreement->fields[i];
        if (!is_same(field)) continue;
        buf_printf(&buf, "%s%s (%d)", buf.length ? ", " : "The same on every snap that both charted: ",
                   writer->profile->fields[field->field].label, field->n);
    }
    if (buf.length) BUF_PUT(&buf, ".");
    const char *text = buf.length ? arena_copy(writer->arena, buf_text(&buf), buf.length) : NULL;
    buf_free(&buf);
    return text;
}

static void field_table(Writer *writer, Block *section, const Differing *differing) {
    static const TableColumn HEADS[] = {
        {.head = "field", .width = 130, .head_of_row = true, .strong = true},
        {.head = "snaps", .width = 46, .align = ALIGN_RIGHT},
        {.head = "the same", .width = 56, .align = ALIGN_RIGHT},
        {.head = "%", .width = 46, .align = ALIGN_RIGHT},
        {.head = "\u03ba", .width = 46, .align = ALIGN_RIGHT, .strong = true},
        {.head = "95%", .width = 90, .align = ALIGN_RIGHT},
        {.head = "differences count"},
    };
    enum { COLUMNS = sizeof HEADS / sizeof *HEADS };
    Table *table = block_table(writer, section, HEADS, COLUMNS, differing->count);
    for (size_t i = 0; i < differing->count; i++)
        field_cells(writer, &table->cells[i * COLUMNS], &differing->fields[i]);
}

static void field_part(Writer *writer, Block *section, const Agreement *agreement, const Differing *differing) {
    block_head(writer, section, 2, "Field by field",
               differing->count ? "where they differ, least agreement first" : NULL);
    if (differing->count) field_table(writer, section, differing);
    const char *same = same_sentence(writer, agreement);
    if (same) block_note(writer, section, same);
    block_note(writer, section,
               "\u03ba: 1 where the two always say the same, 0 where they agree no more often than chance would have "
               "it. By steps: in a "
               "field whose values have an order, two steps apart count twice as much as one. A dash: a number of many "
               "values, or "
               "one value throughout. What either left blank is left out, and so are fields that both charted on fewer "
               "than 8 snaps.");
}

/* ---- snap by snap ---- */

/* Whether two people charted everything that was charted twice. */
static bool is_one_pair(Writer *writer) {
    const Dossier *dossier = writer->dossier;
    const SecondChart *first = &dossier->second_charts[0];
    for (size_t i = 1; i < dossier->second_chart_count; i++) {
        const SecondChart *chart = &dossier->second_charts[i];
        if (!text_equal(chart->by, first->by)) return false;
        if (!text_equal(dossier->games[chart->game].by, dossier->games[first->game].by)) return false;
    }
    return true;
}

static size_t count_differences(const Differing *differing) {
    size_t count = 0;
    for (size_t i = 0; i < differing->count; i++) {
        count += (size_t)(differing->fields[i].n - differing->fields[i].equal);
    }
    return count;
}

/* With the charter's name where the head of the column cannot give it. */
static Words said(Writer *writer, const char *value, const char *by, bool named) {
    return words_plain(writer, named ? say(writer, "%s (%s)", value, charter_name(writer, by)) : value);
}

static void difference_cells(Writer *writer, TableCell *cells, const SnapDifference *difference, int field,
                             bool named) {
    const Dossier *dossier = writer->dossier;
    const SecondChart *chart = &dossier->second_charts[difference->chart];
    const char *first = say_chart_value(writer, dossier->snaps, &dossier->columns, difference->row, field);
    const char *second = say_chart_value(writer, chart->snaps, &chart->columns, difference->second, field);
    const char *snap = dossier->snaps[difference->row].name;
    words_add(writer, &cells[0].words, SPAN_LINK, snap, say_snap_anchor(writer, difference->row));
    cells[1].words = words_plain(writer, writer->profile->fields[field].label);
    cells[2].words = said(writer, first, dossier->games[chart->game].by, named);
    cells[3].words = said(writer, second, chart->by, named);
}

enum { DIFFERENCE_COLUMNS = 4 };

static Table *difference_table(Writer *writer, Block *section, size_t rows, bool named) {
    const SecondChart *chart = &writer->dossier->second_charts[0];
    const char *first = named ? "first chart" : charter_name(writer, writer->dossier->games[chart->game].by);
    const char *second = named ? "second chart" : charter_name(writer, chart->by);
    const TableColumn heads[DIFFERENCE_COLUMNS] = {
        {.head = "snap", .width = 56, .head_of_row = true, .strong = true},
        {.head = "field", .width = 130},
        {.head = first, .width = 140},
        {.head = second},
    };
    Table *table = block_table(writer, section, heads, DIFFERENCE_COLUMNS, rows);
    table->dense = true;
    return table;
}

static void difference_part(Writer *writer, Block *section, const Differing *differing) {
    size_t all = count_differences(differing);
    if (!all) return;
    size_t shown = all < DIFFERENCES_SHOWN ? all : DIFFERENCES_SHOWN;
    bool named = !is_one_pair(writer);
    block_head(writer, section, 2, "Snaps on which they differ", "in the order of the fields above");
    Table *table = difference_table(writer, section, shown, named);
    size_t row = 0;
    for (size_t i = 0; i < differing->count; i++) {
        const FieldAgreement *field = &differing->fields[i];
        for (int d = 0; d < field->n - field->equal && row < shown; d++) {
            TableCell *cells = &table->cells[row++ * DIFFERENCE_COLUMNS];
            difference_cells(writer, cells, &field->differences[d], field->field, named);
        }
    }
    if (all > shown) {
        block_note(writer, section,
                   say(writer, "%d more differ; the table above counts them by field.", (int)(all - shown)));
    }
}

/* ---- grades ---- */

const char *grade_agreement(Writer *writer) {
    const Agreement *agreement = writer->findings->agreement;
    if (!agreement || !isfinite(agreement->grades.single)) return NULL;
    const Icc *icc = &agreement->grades;
    const char *interval = "";
    if (isfinite(icc->single_interval.low)) {
        interval = say(writer, ", 95%% interval %s to %s", say_number(writer, icc->single_interval.low, 2),
                       say_number(writer, icc->single_interval.high, 2));
    }
    int evaluators = agreement->evaluators;
    const char *who = evaluators == 2 ? "both evaluators" : say_word_count(writer, evaluators, "evaluators");
    return say(
        writer,
        "Over the %s that %s%s graded, one evaluator\u2019s grades have the reliability ICC(2,1) %s%s; the mean of "
        "them has ICC(2,k) %s; 1 is full agreement.",
        say_count(writer, agreement->traits, "traits"), evaluators == 2 ? "" : "all ", who,
        say_number(writer, icc->single, 2), interval, say_number(writer, icc->average, 2));
}

void story_cross(Writer *writer, Block *document, const LayoutSection *section) {
    const Agreement *agreement = writer->findings->agreement;
    if (!agreement || !agreement->snaps) return;
    const char *note = say(writer, "%s, %s charted twice", say_word_count(writer, agreement->games, "games"),
                           say_count(writer, agreement->snaps, "snaps"));
    Block *block = block_section(writer, document, section->title ? section->title : "Two charters", note);
    block_text(writer, block, STYLE_PROSE, charts_sentence(writer, agreement));
    Differing differing = differing_fields(writer, agreement);
    field_part(writer, block, agreement, &differing);
    difference_part(writer, block, &differing);
    const char *grades = grade_agreement(writer);
    if (!grades) return;
    block_head(writer, block, 2, "Grades", NULL);
    block_text(writer, block, STYLE_PROSE, grades);
}
