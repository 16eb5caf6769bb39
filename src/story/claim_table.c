/* Every claim in a row: what it says, both sides, the verdict. Prose, clips and key are left to the sections of
 * strengths and concerns. */
#include "story/write.h"

static const TableColumn HEADS[] = {
    {.head = "claim", .strong = true, .head_of_row = true},
    {.head = "claimed", .width = 46, .align = ALIGN_RIGHT},
    {.head = "the rest", .width = 50, .align = ALIGN_RIGHT},
    {.head = "verdict", .width = 50},
};
enum { COLUMNS = sizeof HEADS / sizeof *HEADS, SIDES = 2 };

static const char *side_words(Writer *writer, const Measure *measure, const Estimate *estimate) {
    return say(writer, "%s,\u00a0%s", say_k_of_n(writer, measure, estimate), say_estimate(writer, measure, estimate));
}

static void claim_cells(Writer *writer, TableCell *cells, int index) {
    const Claim *claim = &writer->dossier->claims[index];
    const ClaimFinding *finding = &writer->findings->claims[index];
    const Measure *measure = &writer->profile->measures[claim->measure];
    words_add(writer, &cells[0].words, SPAN_TEXT, claim->title, NULL);
    words_add(writer, &cells[0].words, SPAN_MUTED, say(writer, " %s", say_lower(writer, measure->label)), NULL);
    cells[1].words = words_plain(writer, side_words(writer, measure, &finding->a));
    cells[2].words = words_plain(writer, side_words(writer, measure, &finding->b));
    cells[3].words = words_plain(writer, verdict_word(finding->verdict));
}

/* Rows of one kind under their band; returns how many claims are left out. */
static size_t add_kind(Writer *writer, Table *table, unsigned char *band, ClaimKind kind, int most) {
    int *ranked = ARENA_ARRAY(writer->arena, writer->dossier->claim_count, int);
    size_t all = ranked_claims(writer, kind, ranked);
    size_t shown = most && (size_t)most < all ? (size_t)most : all;
    if (!shown) return all;
    band[table->row_count] = 1;
    TableCell *head = &table->cells[table->row_count++ * COLUMNS];
    head->words = words_plain(writer, kind == CLAIM_STRENGTH ? "Why" : "Why not");
    for (size_t i = 0; i < shown; i++) claim_cells(writer, &table->cells[table->row_count++ * COLUMNS], ranked[i]);
    return all - shown;
}

void story_claim_table(Writer *writer, Block *document, const LayoutSection *section) {
    size_t claims = writer->dossier->claim_count;
    if (!claims) return;
    const char *note = say(writer, "%s, tested on every charted snap", say_word_count(writer, (int)claims, "claims"));
    Block *block = block_part(writer, document, section->title ? section->title : "Claims", note);
    Table *table = block_table(writer, block, HEADS, COLUMNS, claims + SIDES);
    unsigned char *band = ARENA_ARRAY(writer->arena, claims + SIDES, unsigned char);
    table->row_count = 0;
    table->dense = true;
    table->band = band;
    size_t more = add_kind(writer, table, band, CLAIM_STRENGTH, section->most);
    more += add_kind(writer, table, band, CLAIM_CONCERN, section->most);
    if (more) block_note(writer, block, say(writer, "%d more in the full dossier.", (int)more));
}
