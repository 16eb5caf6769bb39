/* What to watch next: the claims that the tape has not settled, with what would settle them, and the traits whose grade rests on
 * the fewest snaps. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "story/write.h"

enum { WATCH_COLUMNS = 5, MOST_OF_A_SEASON = 200, TRAITS_SHOWN = 5 };

static bool is_settled(const ClaimFinding *finding) {
    return finding->verdict == VERDICT_BORNE_OUT || finding->verdict == VERDICT_CONTRADICTED;
}

static const char *needed_words(Writer *writer, const Claim *claim, const ClaimFinding *finding) {
    const char *noun = writer->profile->measures[claim->measure].noun;
    if (finding->snaps_needed > MOST_OF_A_SEASON) return "more than a season can show";
    if (finding->snaps_needed > 0) return say(writer, "%d more %s", finding->snaps_needed, noun);
    return "cannot be said at these rates";
}

static int needed_order(const ClaimFinding *finding) {
    return finding->snaps_needed > 0 ? finding->snaps_needed : MOST_OF_A_SEASON + 1;
}

typedef struct Open {
    int claim;
    int needed;
} Open;

static int by_needed(const void *a, const void *b) {
    const Open *x = a;
    const Open *y = b;
    return x->needed != y->needed ? x->needed - y->needed : x->claim - y->claim;
}

static size_t open_claims(Writer *writer, Open *open) {
    size_t count = 0;
    for (size_t i = 0; i < writer->dossier->claim_count; i++) {
        const ClaimFinding *finding = &writer->findings->claims[i];
        if (!is_settled(finding)) open[count++] = (Open){(int)i, needed_order(finding)};
    }
    qsort(open, count, sizeof *open, by_needed);
    return count;
}

static void claim_cells(Writer *writer, TableCell *cells, int index) {
    const Claim *claim = &writer->dossier->claims[index];
    const ClaimFinding *finding = &writer->findings->claims[index];
    const Measure *measure = &writer->profile->measures[claim->measure];
    words_add(writer, &cells[0].words, SPAN_LINK, claim->title, say(writer, "claim-%s", claim->id));
    cells[1].words = words_plain(writer, verdict_word(finding->verdict));
    cells[2].words = words_plain(writer, say(writer, "%s of %s", say_estimate(writer, measure, &finding->a),
                                             say_k_of_n(writer, measure, &finding->a)));
    cells[3].words = words_plain(writer, needed_words(writer, claim, finding));
    cells[4].words = words_plain(writer, say(writer, "%s %s", measure->noun, writer->profile->slices[claim->slice].phrase));
}

static const Table *claim_table(Writer *writer, const Open *open, size_t count) {
    static const TableColumn HEADS[WATCH_COLUMNS] = {
        {.head = "claim", .width = 148, .head_of_row = true, .strong = true},
        {.head = "now", .width = 76},
        {.head = "rests on", .width = 72, .align = ALIGN_RIGHT},
        {.head = "would be settled by", .width = 104},
        {.head = "look at"},
    };
    Table *table = ARENA_NEW(writer->arena, Table);
    table->columns = ARENA_ARRAY(writer->arena, WATCH_COLUMNS, TableColumn);
    memcpy(table->columns, HEADS, sizeof HEADS);
    table->column_count = WATCH_COLUMNS;
    table->row_count = count;
    table->cells = ARENA_ARRAY(writer->arena, count * WATCH_COLUMNS, TableCell);
    for (size_t i = 0; i < count; i++) claim_cells(writer, &table->cells[i * WATCH_COLUMNS], open[i].claim);
    return table;
}

void story_watch(Writer *writer, Block *document, const LayoutSection *section) {
    if (!writer->dossier->claim_count) return;
    Open *open = ARENA_ARRAY(writer->arena, writer->dossier->claim_count, Open);
    size_t count = open_claims(writer, open);
    const char *note = count ? say(writer, "%s of %d not settled by the film so far", say_word_count(writer, (int)count, "claims"),
                                   (int)writer->dossier->claim_count)
                             : "every claim is settled by the film so far";
    Block *block = block_section(writer, document, section->title ? section->title : "What to watch next", note);
    if (!count) return;
    block_add(writer, block, BLOCK_TABLE)->table = claim_table(writer, open, count);
    block_note(writer, block,
               "Snaps of the claimed kind, beyond those charted, that would settle the claim four times in five, were the present "
               "rates the true ones (power 0.8, two-sided 0.05).");
}
