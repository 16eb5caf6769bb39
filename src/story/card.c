/* A card for the wall: who, how big, how good, and the claims that matter most, in one figure. */
#include <math.h>

#include "story/write.h"

enum { CARD_CLAIMS = 3 };

static const Measurable *measurable_of(Writer *writer, const char *id) {
    for (size_t i = 0; i < writer->dossier->measurable_count; i++) {
        const Measurable *measurable = &writer->dossier->measurables[i];
        const MeasurableInfo *info = measurable_info(measurable->id);
        if (info == measurable_info(id)) return measurable;
    }
    return NULL;
}

/* "6043  226": height and weight as the trade writes them. */
static const char *size_text(Writer *writer) {
    const Measurable *height = measurable_of(writer, "height");
    const Measurable *weight = measurable_of(writer, "weight");
    return say(writer, "%s%s%s", height ? notation_trade(writer->arena, measurable_info("height"), height->value) : "",
               height && weight ? "\u2002" : "",
               weight ? notation_trade(writer->arena, measurable_info("weight"), weight->value) : "");
}

static void add_measured(Writer *writer, Buf *buf, const char *id, const char *label) {
    const Measurable *measurable = measurable_of(writer, id);
    if (!measurable) return;
    const char *plain = notation_plain(writer->arena, measurable_info(id), measurable->value);
    buf_printf(buf, "%s%s%s%s", buf->length ? " \u00b7 " : "", label, plain, measurable->hand_timed ? " hand" : "");
}

static const char *take(Writer *writer, Buf *buf) {
    const char *text = arena_copy(writer->arena, buf_text(buf), buf->length);
    buf_free(buf);
    return text;
}

static const char *measured_text(Writer *writer) {
    Buf buf = {0};
    add_measured(writer, &buf, "hand", "hand ");
    add_measured(writer, &buf, "arm", "arm ");
    add_measured(writer, &buf, "forty", "");
    return take(writer, &buf);
}

static const char *identity(Writer *writer) {
    const Dossier *dossier = writer->dossier;
    const char *parts[] = {dossier->given, dossier->school, dossier->class_};
    Buf buf = {0};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (parts[i] && *parts[i]) buf_printf(&buf, "%s%s", buf.length ? " \u00b7 " : "", parts[i]);
    }
    return take(writer, &buf);
}

/* ---- claims ---- */

static CardClaim card_claim(Writer *writer, int index) {
    const Claim *claim = &writer->dossier->claims[index];
    const ClaimFinding *finding = &writer->findings->claims[index];
    const Measure *measure = &writer->profile->measures[claim->measure];
    const char *a = say_k_of_n(writer, measure, &finding->a);
    const char *b = say_k_of_n(writer, measure, &finding->b);
    if (measure->kind != MEASURE_RATE) {
        a = say_estimate(writer, measure, &finding->a);
        b = say_estimate(writer, measure, &finding->b);
    }
    return (CardClaim){claim->title, *b ? say(writer, "%s v %s", a, b) : a, verdict_mark(finding)};
}

/* Turn about, a reason for and a reason against, the best of each first. */
static void add_claims(Writer *writer, WallCard *card, int most) {
    size_t all = writer->dossier->claim_count;
    int *sides[] = {ARENA_ARRAY(writer->arena, all, int), ARENA_ARRAY(writer->arena, all, int)};
    size_t counts[] = {ranked_claims(writer, CLAIM_STRENGTH, sides[0]), ranked_claims(writer, CLAIM_CONCERN, sides[1])};
    card->claims = ARENA_ARRAY(writer->arena, all, CardClaim);
    for (size_t i = 0; i < 2 * all && card->claim_count < (size_t)most; i++) {
        if (i / 2 < counts[i % 2]) card->claims[card->claim_count++] = card_claim(writer, sides[i % 2][i / 2]);
    }
}

/* ---- the grade ---- */

static void add_grade(Writer *writer, WallCard *card) {
    const Dossier *dossier = writer->dossier;
    const House *house = writer->house;
    card->low = house->grade_low;
    card->high = house->grade_high;
    card->bar = house->grade_bar;
    card->value = dossier->grades_count ? dossier->grades[0].overall : NAN;
    card->grade = say_number(writer, card->value, 1);
    if (!isfinite(card->value)) return;
    const Grades *grades = &dossier->grades[0];
    const GradeWord *word = house_grade_word(house, card->value);
    card->word = word ? word->word : "";
    const char *when = when_words(house, grades->when);
    card->headline = say_sentence(writer, grades->role ? grades->role : when ? when : card->word);
}

static const char *card_alt(Writer *writer, const WallCard *card) {
    Buf buf = {0};
    buf_printf(&buf, "%s, %s, %s. Grade %s%s%s.", card->surname, card->line, card->code, card->grade,
               card->word ? ", " : "", card->word ? card->word : "");
    if (*card->size) buf_printf(&buf, " %s.", card->size);
    if (*card->measured) buf_printf(&buf, " %s.", card->measured);
    for (size_t i = 0; i < card->claim_count; i++) {
        buf_printf(&buf, " %s: %s.", card->claims[i].title, card->claims[i].counts);
    }
    if (card->headline) buf_printf(&buf, " %s.", card->headline);
    buf_printf(&buf, " %s.", card->rests_on);
    return take(writer, &buf);
}

static const Figure *wall_card(Writer *writer, int most) {
    const Dossier *dossier = writer->dossier;
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    WallCard *card = &figure->as.card;
    card->code = writer->profile->code;
    card->surname = dossier->family;
    card->line = identity(writer);
    card->size = size_text(writer);
    card->measured = measured_text(writer);
    int snaps = writer->findings->counted;
    const char *film = snaps ? say(writer, "%s, %s", say_count(writer, (int)dossier->game_count, "games"),
                                   say_count(writer, snaps, writer->profile->snap_noun))
                             : "no film charted";
    card->rests_on = say(writer, "%s \u00b7 revision %d", film, dossier->filing.revision);
    add_grade(writer, card);
    add_claims(writer, card, most);
    figure->kind = FIGURE_WALL_CARD;
    figure->alt = card_alt(writer, card);
    return figure;
}

/* Cards of several dossiers stand in one section. */
void story_card(Writer *writer, Block *document, const LayoutSection *section) {
    const char *name = section->title ? section->title : "Wall cards";
    Block *last = document->child_count ? document->children[document->child_count - 1] : NULL;
    bool goes_on = last && last->kind == BLOCK_SECTION && last->child_count &&
                   last->children[0]->kind == BLOCK_FIGURE && last->children[0]->figure->kind == FIGURE_WALL_CARD;
    Block *block = goes_on ? last : block_section(writer, document, NULL, NULL);
    block->bookmark = name;
    block_figure(writer, block, wall_card(writer, section->most ? section->most : CARD_CLAIMS), NULL, NULL);
}
