/* Strengths and concerns: each claim with its prose, its test on the tape, and its clips. */
#include <math.h>
#include <string.h>

#include "story/write.h"

enum { CITE_COLUMNS = 6, MOST_OF_A_SEASON = 200 };

/* ---- the sentence under the test ---- */

/* "On target 17 points higher." The sides stand in the figure above it. */
static void say_difference(Writer *writer, Buf *buf, const Claim *claim, const ClaimFinding *finding) {
    const Measure *measure = &writer->profile->measures[claim->measure];
    if (!isfinite(finding->difference) || is_few(&finding->a) || is_few(&finding->b)) return;
    bool rate = measure->kind == MEASURE_RATE;
    const char *size = say_number(writer, fabs(finding->difference) * (rate ? 100 : 1), rate ? 0 : measure->places);
    const char *unit = rate ? " points" : *measure->unit ? say(writer, " %s", measure->unit) : "";
    buf_printf(buf, " %s %s%s %s %s.", measure->label, size, unit, finding->difference < 0 ? "lower" : "higher",
               writer->profile->slices[claim->slice].phrase);
}

static void say_needed(Buf *buf, const ClaimFinding *finding) {
    if (finding->verdict == VERDICT_BORNE_OUT || finding->verdict == VERDICT_CONTRADICTED) return;
    if (finding->snaps_needed > MOST_OF_A_SEASON) {
        buf_puts(buf, " To settle it would take more than a season can show.");
    } else if (finding->snaps_needed > 0) {
        buf_printf(buf, " %d more, were these rates true, would settle it.", finding->snaps_needed);
    }
}

static void say_test(Writer *writer, Buf *buf, const ClaimFinding *finding) {
    if (finding->verdict == VERDICT_TOO_FEW) {
        int fewer = finding->a.n < finding->b.n || !finding->b.n ? finding->a.n : finding->b.n;
        buf_printf(buf, " %d answered on one side; %d are the least we speak on.", fewer, FEW_FOR_A_VERDICT);
        return;
    }
    bool clear = finding->low > 0 || finding->high < 0;
    bool leaning = finding->verdict == VERDICT_LEANING || finding->verdict == VERDICT_LEANING_AGAINST;
    buf_printf(buf, " %s p\u00a0%s%s.", leaning ? "Not clear of chance: adjusted" : "Adjusted",
               say_p(writer, finding->p_adjusted),
               leaning && clear ? say(writer, ", one of %d claims tested", (int)writer->dossier->claim_count) : "");
}

static void say_cited(Buf *buf, const ClaimFinding *finding) {
    int a = finding->a.unknown;
    int b = finding->b.unknown;
    if (a || b) buf_printf(buf, " Not charted, left out: %d and %d.", a, b);
    buf_printf(buf, " Cites %d of %d.", finding->cited, finding->snaps);
}

static Words test_words(Writer *writer, const Claim *claim, const ClaimFinding *finding) {
    Buf buf = {0};
    say_difference(writer, &buf, claim, finding);
    say_test(writer, &buf, finding);
    say_needed(&buf, finding);
    say_cited(&buf, finding);
    Words words = {0};
    words_add(writer, &words, SPAN_STRONG, say(writer, "%s.", say_sentence(writer, verdict_word(finding->verdict))),
              NULL);
    words_add(writer, &words, SPAN_TEXT, arena_copy(writer->arena, buf_text(&buf), buf.length), NULL);
    buf_free(&buf);
    return words;
}

/* ---- the figure ---- */

static IntervalRow difference_row(Writer *writer, const Measure *measure, const ClaimFinding *finding) {
    bool rate = measure->kind == MEASURE_RATE;
    double factor = rate ? 100 : 1;
    int places = rate ? 0 : measure->places;
    IntervalRow row = {.label = "Difference",
                       .count = "",
                       .point = finding->difference,
                       .low = finding->low,
                       .high = finding->high,
                       .hatched = finding->verdict == VERDICT_TOO_FEW};
    row.value = say_signed(writer, finding->difference * factor, places);
    row.interval = !isfinite(finding->low) ? ""
                                           : say(writer, "%s to %s", say_signed(writer, finding->low * factor, places),
                                                 say_signed(writer, finding->high * factor, places));
    return row;
}

/* The narrowest of a few symmetric axes that holds the interval. */
static Axis difference_axis(const Measure *measure, const IntervalRow *row) {
    bool rate = measure->kind == MEASURE_RATE;
    double reach = fmax(isfinite(row->low) ? fabs(row->low) : 0, isfinite(row->high) ? fabs(row->high) : 0);
    double half = rate ? 0.6 : 1;
    while (half < reach && half < 1e9) half = rate && half < 1 ? 1 : half * 2;
    return (Axis){.from = -half, .to = half, .step = half / 2, .suffix = "", .scale = rate ? 100 : 1};
}

static const char *test_alt(Writer *writer, const TapeTest *test) {
    const char *sides = say(writer, "%s; %s", say_row(writer, &test->a), say_row(writer, &test->b));
    if (test->mark == MARK_TOO_FEW) return say(writer, "%s; %s.", sides, test->verdict);
    return say(writer, "%s; difference %s (%s); %s.", sides, test->difference.value, test->difference.interval,
               test->verdict);
}

static const Figure *tape_test(Writer *writer, const Claim *claim, const ClaimFinding *finding) {
    const Measure *measure = &writer->profile->measures[claim->measure];
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    TapeTest *test = &figure->as.test;
    test->a = claim_side_row(writer, claim, finding, false);
    test->b = claim_side_row(writer, claim, finding, true);
    IntervalRow both[2] = {test->a, test->b};
    test->axis = interval_axis(measure, both, 2);
    test->difference = difference_row(writer, measure, finding);
    test->difference_axis = difference_axis(measure, &test->difference);
    test->direction = claim->direction;
    test->testable = isfinite(finding->difference);
    test->mark = verdict_mark(finding);
    test->verdict = verdict_word(finding->verdict);
    figure->kind = FIGURE_TAPE_TEST;
    figure->alt = test_alt(writer, test);
    return figure;
}

/* ---- the clips ---- */

static const TableColumn CITE_HEADS[CITE_COLUMNS] = {
    {.head = "clip", .width = 38, .strong = true, .head_of_row = true},
    {.head = "quarter", .width = 50},
    {.head = "down", .width = 52},
    {.head = "spot", .width = 34, .align = ALIGN_RIGHT},
    {.head = "what happened"},
    {.head = "film, in\u2013out", .width = 84, .align = ALIGN_RIGHT},
};

static void cite_row(Writer *writer, TableCell *cells, const Cite *cite) {
    const char *name = cite->snap >= 0 ? writer->dossier->snaps[cite->snap].name : "";
    words_add(writer, &cells[0].words, SPAN_LINK, name, say_snap_anchor(writer, cite->snap));
    cells[1].words = words_plain(writer, say(writer, "Q%s\u00a0%s", say_charted(writer, cite->snap, "quarter"),
                                             say_charted(writer, cite->snap, "clock")));
    cells[2].words = words_plain(writer, say_down_and_distance(writer, cite->snap));
    cells[3].words = words_plain(writer, say_charted(writer, cite->snap, "spot"));
    if (cite->against) words_add(writer, &cells[4].words, SPAN_STRONG, "Against: ", NULL);
    words_add(writer, &cells[4].words, SPAN_TEXT, cite->text, NULL);
    const char *address = film_address(writer, cite->snap);
    words_add(writer, &cells[5].words, address ? SPAN_LINK : SPAN_TEXT, say_film(writer, cite->snap), address);
}

static const Table *cite_table(Writer *writer, const Claim *claim) {
    Table *table = ARENA_NEW(writer->arena, Table);
    table->columns = ARENA_ARRAY(writer->arena, CITE_COLUMNS, TableColumn);
    memcpy(table->columns, CITE_HEADS, sizeof CITE_HEADS);
    table->column_count = CITE_COLUMNS;
    table->row_count = claim->cite_count;
    table->cells = ARENA_ARRAY(writer->arena, claim->cite_count * CITE_COLUMNS, TableCell);
    for (size_t i = 0; i < claim->cite_count; i++) cite_row(writer, &table->cells[i * CITE_COLUMNS], &claim->cites[i]);
    return table;
}

/* ---- a section ---- */

static void add_claim(Writer *writer, Block *section, size_t index) {
    const Claim *claim = &writer->dossier->claims[index];
    const ClaimFinding *finding = &writer->findings->claims[index];
    Block *group = block_add(writer, section, BLOCK_GROUP);
    Block *head = block_head(writer, group, 3, claim->title, NULL);
    head->anchor = say(writer, "claim-%s", claim->id);
    Block *split = block_add(writer, group, BLOCK_SPLIT);
    split->ratio = 0.54;
    prose_add(writer, block_add(writer, split, BLOCK_GROUP), &claim->prose);
    Block *right = block_add(writer, split, BLOCK_GROUP);
    Block *figure = block_figure(writer, right, tape_test(writer, claim, finding), NULL, NULL);
    figure->words = test_words(writer, claim, finding);
    if (claim->cite_count) block_add(writer, group, BLOCK_TABLE)->table = cite_table(writer, claim);
}

static const char *kind_note(Writer *writer, int count, int contradicted) {
    const char *claims = say_word_count(writer, count, "claims");
    const char *shade = "; shaded half: the side the claim predicts";
    if (!contradicted) return say(writer, "%s, tested on every charted snap%s", claims, shade);
    return say(writer, "%s; %s by the tape, and kept%s", claims,
               contradicted == 1 ? "one contradicted" : say(writer, "%d contradicted", contradicted), shade);
}

static void add_key(Writer *writer, Block *section) {
    Figure *key = ARENA_NEW(writer->arena, Figure);
    key->kind = FIGURE_VERDICT_KEY;
    key->alt =
        "Key to the verdicts: borne out, as claimed, adjusted p at most 0.05; leaning, as claimed, p above 0.05; too "
        "few "
        "to say, under 8 snaps on a side; leaning against, the reverse, p above 0.05; contradicted, the reverse, "
        "adjusted p at most 0.05.";
    block_figure(writer, section, key, NULL, NULL);
}

static int count_claims(Writer *writer, ClaimKind kind, int *contradicted) {
    int count = 0;
    *contradicted = 0;
    for (size_t i = 0; i < writer->dossier->claim_count; i++) {
        if (writer->dossier->claims[i].kind != kind) continue;
        count++;
        *contradicted += writer->findings->claims[i].verdict == VERDICT_CONTRADICTED;
    }
    return count;
}

/* The key closes the first of the two sections; a mark never stands without its words. */
static void story_claims(Writer *writer, Block *document, ClaimKind kind, const char *title, bool keyed) {
    int contradicted;
    int count = count_claims(writer, kind, &contradicted);
    if (!count) return;
    Block *section = block_section(writer, document, title, kind_note(writer, count, contradicted));
    for (size_t i = 0; i < writer->dossier->claim_count; i++) {
        if (writer->dossier->claims[i].kind == kind) add_claim(writer, section, i);
    }
    if (keyed) add_key(writer, section);
}

void story_strengths(Writer *writer, Block *document, const LayoutSection *section) {
    story_claims(writer, document, CLAIM_STRENGTH, section->title ? section->title : "Strengths", true);
}

void story_concerns(Writer *writer, Block *document, const LayoutSection *section) {
    int contradicted;
    bool alone = count_claims(writer, CLAIM_STRENGTH, &contradicted) == 0;
    story_claims(writer, document, CLAIM_CONCERN, section->title ? section->title : "Concerns", alone);
}
