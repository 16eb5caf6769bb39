/* What to watch next: the claims that the tape has not settled, with what would settle them, and the traits whose grade
 * rests on the fewest snaps. */
#include <math.h>
#include <stdlib.h>

#include "story/write.h"

enum { MOST_OF_A_SEASON = 200, TRAITS_SHOWN = 5 };

/* ---- claims ---- */

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
    cells[2].words = words_plain(writer, say_counted(writer, measure, &finding->a));
    cells[3].words = words_plain(writer, needed_words(writer, claim, finding));
    cells[4].words =
        words_plain(writer, say(writer, "%s %s", measure->noun, writer->profile->slices[claim->slice].phrase));
}

static void claim_part(Writer *writer, Block *section, const Open *open, size_t count) {
    static const TableColumn HEADS[] = {
        {.head = "claim", .width = 148, .head_of_row = true, .strong = true},
        {.head = "now", .width = 76},
        {.head = "rests on", .width = 72, .align = ALIGN_RIGHT},
        {.head = "would be settled by", .width = 104},
        {.head = "look at"},
    };
    enum { COLUMNS = sizeof HEADS / sizeof *HEADS };
    block_head(writer, section, 2, "Claims the film has not settled", NULL);
    Table *table = block_table(writer, section, HEADS, COLUMNS, count);
    for (size_t i = 0; i < count; i++) claim_cells(writer, &table->cells[i * COLUMNS], open[i].claim);
    block_note(writer, section,
               "Snaps of the claimed kind, beyond those charted, that would settle the claim four times in five, were "
               "the present "
               "rates the true ones (power 0.8, two-sided 0.05).");
}

/* ---- grades ---- */

typedef struct Thin {
    int trait;
    int snaps;
} Thin;

static int by_snaps(const void *a, const void *b) {
    const Thin *x = a;
    const Thin *y = b;
    return x->snaps != y->snaps ? x->snaps - y->snaps : x->trait - y->trait;
}

/* Graded traits of which the profile says what shows them, the fewest snaps first. */
static size_t thin_traits(Writer *writer, Thin *thin) {
    size_t count = 0;
    for (size_t i = 0; i < writer->profile->trait_count; i++) {
        const TraitFinding *finding = &writer->findings->traits[i];
        if (isfinite(finding->house) && finding->snaps >= 0) thin[count++] = (Thin){(int)i, finding->snaps};
    }
    qsort(thin, count, sizeof *thin, by_snaps);
    return count < TRAITS_SHOWN ? count : TRAITS_SHOWN;
}

static void trait_part(Writer *writer, Block *section, const Thin *thin, size_t count) {
    static const TableColumn HEADS[] = {
        {.head = "trait", .width = 110, .head_of_row = true, .strong = true},
        {.head = "grade", .width = 48, .align = ALIGN_RIGHT},
        {.head = "snaps", .width = 48, .align = ALIGN_RIGHT},
        {.head = "what shows it"},
    };
    enum { COLUMNS = sizeof HEADS / sizeof *HEADS };
    block_head(writer, section, 2, "Grades that rest on the fewest snaps", NULL);
    Table *table = block_table(writer, section, HEADS, COLUMNS, count);
    for (size_t i = 0; i < count; i++) {
        const Trait *trait = &writer->profile->traits[thin[i].trait];
        TableCell *cells = &table->cells[i * COLUMNS];
        cells[0].words = words_plain(writer, trait->label);
        cells[1].words = words_plain(writer, say_number(writer, writer->findings->traits[thin[i].trait].house, 1));
        cells[2].words = words_plain(writer, say(writer, "%d", thin[i].snaps));
        cells[3].words = words_plain(writer, trait->shown ? trait->shown : "");
    }
    block_note(writer, section, "Snaps: charted, counted, and of the kind that shows the trait.");
}

static const char *watch_note(Writer *writer, size_t open) {
    size_t claims = writer->dossier->claim_count;
    if (!claims) return NULL;
    if (!open) return "every claim is settled by the film so far";
    return say(writer, "%s of %s not settled by the film so far", say_word(writer, (int)open),
               say_word_count(writer, (int)claims, "claims"));
}

void story_watch(Writer *writer, Block *document, const LayoutSection *section) {
    Open *open = ARENA_ARRAY(writer->arena, writer->dossier->claim_count, Open);
    Thin *thin = ARENA_ARRAY(writer->arena, writer->profile->trait_count, Thin);
    size_t claims = open_claims(writer, open);
    size_t traits = thin_traits(writer, thin);
    if (!claims && !traits) return;
    const char *title = section->title ? section->title : "What to watch next";
    Block *block = block_section(writer, document, title, watch_note(writer, claims));
    block->new_page = false;
    if (claims) claim_part(writer, block, open, claims);
    if (traits) trait_part(writer, block, thin, traits);
}
