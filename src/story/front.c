/* The front page: who, how big, how good, why, why not, how sure. */
#include <math.h>
#include <string.h>

#include "story/write.h"

enum { FRONT_CLAIMS_A_SIDE = 3, FRONT_STRIPS = 8 };

static int age_in_months(const char *born, const char *on) {
    int by, bm, bd, y, m, d;
    if (!born || !on || sscanf(born, "%4d-%2d-%2d", &by, &bm, &bd) != 3) return -1;
    if (sscanf(on, "%4d-%2d-%2d", &y, &m, &d) != 3) return -1;
    return (y - by) * 12 + (m - bm) - (d < bd);
}

static const char *identity_line(Writer *writer) {
    const Dossier *dossier = writer->dossier;
    Buf buf = {0};
    buf_printf(&buf, "%s, %s.", writer->profile->name, dossier->school);
    const char *join = " ";
    if (dossier->jersey) {
        buf_printf(&buf, "%sNo.\u00a0%s", join, dossier->jersey);
        join = ", ";
    }
    if (dossier->class_) {
        buf_printf(&buf, "%s%s", join, dossier->class_);
        join = ", ";
    }
    if (dossier->throws) {
        buf_printf(&buf, "%s%s-handed", join, dossier->throws);
        join = ", ";
    }
    int months = age_in_months(dossier->born, dossier->filing.on);
    if (months >= 0) buf_printf(&buf, "%s%d years %d months", join, months / 12, months % 12);
    const char *line = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return line;
}

static void add_fact(Block *block, const char *label, const char *value) {
    block->facts[block->fact_count++] = (FactPair){label, value};
}

static void nameplate(Writer *writer, Block *section) {
    const Dossier *dossier = writer->dossier;
    Block *block = block_add(writer, section, BLOCK_NAMEPLATE);
    block->title = say(writer, "%s%s%s", dossier->given, *dossier->given ? " " : "", dossier->family);
    block->note = identity_line(writer);
    block->facts = ARENA_ARRAY(writer->arena, 3, FactPair);
    add_fact(
        block, "",
        say_sentence(writer, say(writer, "%s charted", say_word_count(writer, (int)dossier->game_count, "games"))));
    add_fact(block, "", say(writer, "%d %s counted", writer->findings->counted, writer->profile->snap_noun));
    if (dossier->grades_count) {
        add_fact(block, "", say_sentence(writer, say_word_count(writer, (int)dossier->grades_count, "evaluators")));
    }
}

/* ---- the grade ---- */

const char *when_words(const House *house, const char *when) {
    for (size_t i = 0; i < house->when_count; i++) {
        if (when && strcmp(house->whens[i].id, when) == 0) return house->whens[i].says;
    }
    return NULL;
}

static Words grade_words(Writer *writer, const Grades *grades) {
    Buf buf = {0};
    const char *when = when_words(writer->house, grades->when);
    if (when) buf_printf(&buf, "%s.", say_sentence(writer, when));
    if (grades->says && *grades->says) buf_printf(&buf, "%s%s", buf.length ? " " : "", grades->says);
    if (grades->fit) buf_printf(&buf, "%sFit: %s.", buf.length ? " " : "", grades->fit);
    Words words = words_plain(writer, arena_copy(writer->arena, buf_text(&buf), buf.length));
    buf_free(&buf);
    return words;
}

static const char *overall_list(Writer *writer) {
    Buf buf = {0};
    const Dossier *dossier = writer->dossier;
    int shown = 0;
    for (size_t i = 0; i < dossier->grades_count; i++) {
        if (!isfinite(dossier->grades[i].overall)) continue;
        buf_printf(&buf, "%s%.1f", shown++ ? ", " : "", dossier->grades[i].overall);
    }
    const char *list = say(writer, "%s: %s", say_word_count(writer, shown, "evaluators"), buf_text(&buf));
    buf_free(&buf);
    return list;
}

static const Figure *grade_rule(Writer *writer, const Grades *grades) {
    const House *house = writer->house;
    const Findings *findings = writer->findings;
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    GradeRule *rule = &figure->as.grade;
    rule->ticks = ARENA_ARRAY(writer->arena, house->word_count, GradeTick);
    for (size_t i = 0; i < house->word_count; i++) {
        const GradeWord *word = &house->words[i];
        rule->ticks[rule->count++] =
            (GradeTick){word->from, say_number(writer, word->from, word->from != floor(word->from)), word->word};
    }
    rule->from = house->grade_low;
    rule->to = house->grade_high;
    rule->value = grades->overall;
    rule->low = findings->overall_count > 1 ? findings->overall_low : NAN;
    rule->high = findings->overall_count > 1 ? findings->overall_high : NAN;
    rule->note = findings->overall_count > 1 ? overall_list(writer) : "one evaluator";
    const GradeWord *word = house_grade_word(house, grades->overall);
    figure->kind = FIGURE_GRADE_RULE;
    figure->alt = say(writer, "Overall grade %.1f on the scale %s, %s; %s", grades->overall, house->scale_name,
                      word ? word->word : "below the scale", rule->note);
    return figure;
}

static void verdict(Writer *writer, Block *section) {
    const Dossier *dossier = writer->dossier;
    if (!dossier->grades_count || !isfinite(dossier->grades[0].overall)) {
        block_note(writer, section, "No overall grade is filed yet.");
        return;
    }
    const Grades *grades = &dossier->grades[0];
    const GradeWord *word = house_grade_word(writer->house, grades->overall);
    Block *block = block_add(writer, section, BLOCK_VERDICT);
    block->title = say(writer, "%.1f", grades->overall);
    block->note = say_sentence(writer, grades->role ? grades->role : word ? word->word : "");
    block->words = grade_words(writer, grades);
    block->facts = ARENA_ARRAY(writer->arena, 1, FactPair);
    add_fact(block, "", say(writer, "overall grade, scale \u201c%s\u201d", writer->house->scale_name));
    block_figure(writer, section, grade_rule(writer, grades), NULL, NULL);
}

/* ---- bottom line and how sure ---- */

static int box_scores_that_agree(Writer *writer, int *with_box) {
    const Findings *findings = writer->findings;
    const Dossier *dossier = writer->dossier;
    int agree = 0;
    *with_box = 0;
    for (size_t g = 0; g < dossier->game_count; g++) {
        if (!dossier->games[g].official) continue;
        bool same = true;
        for (size_t t = 0; t < writer->profile->total_count; t++) {
            double official = dossier->games[g].official[t];
            if (isfinite(official) && official != findings->game_totals[t * dossier->game_count + g]) same = false;
        }
        agree += same;
        ++*with_box;
    }
    return agree;
}

static void fact_evaluators(Writer *writer, Block *block) {
    const Findings *findings = writer->findings;
    if (findings->overall_count > 1) {
        add_fact(block, "Evaluators",
                 say(writer, "%d; overall within %s", findings->overall_count,
                     say_number(writer, findings->overall_high - findings->overall_low, 1)));
    } else {
        add_fact(block, "Evaluators", findings->overall_count ? "one; no second opinion yet" : "none has graded yet");
    }
}

static void fact_second_chart(Writer *writer, Block *block) {
    const Agreement *agreement = writer->findings->agreement;
    if (!agreement || !agreement->snaps) return;
    const char *games = say_count(writer, agreement->games, "games");
    const char *value = games;
    if (agreement->kappa_count) {
        value = say(writer, "%s; median \u03ba %s over %s", games, say_number(writer, agreement->median_kappa, 2),
                    say_count(writer, agreement->kappa_count, "fields"));
    }
    add_fact(block, "Second chart", value);
}

static void fact_claims(Writer *writer, Block *block) {
    int borne = 0;
    int contradicted = 0;
    int open = 0;
    for (size_t i = 0; i < writer->dossier->claim_count; i++) {
        Verdict found = writer->findings->claims[i].verdict;
        borne += found == VERDICT_BORNE_OUT;
        contradicted += found == VERDICT_CONTRADICTED;
        open += found == VERDICT_LEANING || found == VERDICT_LEANING_AGAINST || found == VERDICT_TOO_FEW;
    }
    if (!writer->dossier->claim_count) return;
    const char *reverse = contradicted ? say(writer, ", %d contradicted", contradicted) : "";
    add_fact(block, "Claims",
             say(writer, "%d; %d borne out%s, %d open", (int)writer->dossier->claim_count, borne, reverse, open));
}

static void how_sure(Writer *writer, Block *column) {
    const Dossier *dossier = writer->dossier;
    Block *block = block_add(writer, column, BLOCK_FACTS);
    block->facts = ARENA_ARRAY(writer->arena, 8, FactPair);
    int snaps = writer->findings->counted;
    add_fact(block, "Film",
             snaps ? say(writer, "%s, %d %s", say_count(writer, (int)dossier->game_count, "games"), snaps,
                         writer->profile->snap_noun)
                   : "none charted");
    fact_evaluators(writer, block);
    fact_second_chart(writer, block);
    int with_box;
    int agree = box_scores_that_agree(writer, &with_box);
    if (with_box) add_fact(block, "Box score", say(writer, "%d of %d games agree", agree, with_box));
    fact_claims(writer, block);
    if (dossier->medical.count) add_fact(block, "Medical", "for club medical staff");
    add_fact(block, "Filed",
             say(writer, "%s, revision %d", say_date(writer, dossier->filing.on), dossier->filing.revision));
}

static void bottom_line(Writer *writer, Block *section) {
    Block *split = block_add(writer, section, BLOCK_SPLIT);
    split->ratio = 0.6;
    Block *left = block_add(writer, split, BLOCK_GROUP);
    block_head(writer, left, 2, "Bottom line", NULL);
    prose_add(writer, left, &writer->dossier->bottom_line);
    Block *right = block_add(writer, split, BLOCK_GROUP);
    block_head(writer, right, 2, "How sure", NULL);
    how_sure(writer, right);
}

/* ---- why, and why not ---- */

/* The claims that the tape says most about come first: settled before leaning before too few; then as filed. */
static int claim_rank(const ClaimFinding *finding) {
    static const int RANKS[] = {
        [VERDICT_BORNE_OUT] = 0,       [VERDICT_CONTRADICTED] = 1, [VERDICT_LEANING] = 2,
        [VERDICT_LEANING_AGAINST] = 3, [VERDICT_TOO_FEW] = 4,
    };
    return RANKS[finding->verdict];
}

size_t ranked_claims(Writer *writer, ClaimKind kind, int *ranked) {
    const ClaimFinding *findings = writer->findings->claims;
    size_t count = 0;
    for (size_t i = 0; i < writer->dossier->claim_count; i++) {
        if (writer->dossier->claims[i].kind != kind) continue;
        size_t at = count++;
        for (; at && claim_rank(&findings[ranked[at - 1]]) > claim_rank(&findings[i]); at--)
            ranked[at] = ranked[at - 1];
        ranked[at] = (int)i;
    }
    return count;
}

static const char *claim_detail(Writer *writer, const ClaimFinding *finding) {
    switch (finding->verdict) {
    case VERDICT_BORNE_OUT:
        return say(writer, "adjusted p %s", say_p(writer, finding->p_adjusted));
    case VERDICT_CONTRADICTED:
        return "the film says the reverse";
    case VERDICT_LEANING:
    case VERDICT_LEANING_AGAINST:
    case VERDICT_TOO_FEW:
        break;
    }
    if (finding->snaps_needed > 200) return "more than a season can show";
    if (finding->snaps_needed > 0) return say(writer, "%d more would settle it", finding->snaps_needed);
    return "";
}

static ClaimRow claim_row(Writer *writer, int index) {
    const Claim *claim = &writer->dossier->claims[index];
    const ClaimFinding *finding = &writer->findings->claims[index];
    const Measure *measure = &writer->profile->measures[claim->measure];
    ClaimRow row = {
        .title = claim->title,
        .measure = say(writer, measure->kind == MEASURE_RATE ? "%s, of %s" : "%s, %s",
                       say_lower(writer, measure->label), measure->noun),
        .target = say(writer, "claim-%s", claim->id),
        .a = claim_side_row(writer, claim, finding, false),
        .b = claim_side_row(writer, claim, finding, true),
        .mark = verdict_mark(finding),
        .verdict = verdict_word(finding->verdict),
        .detail = claim_detail(writer, finding),
    };
    if (measure->kind != MEASURE_RATE)
        row.a.point = row.b.point = row.a.low = row.b.low = row.a.high = row.b.high = NAN;
    row.a.label = say_lower(writer, row.a.label);
    row.b.label = say_lower(writer, row.b.label);
    return row;
}

static const char *claims_alt(Writer *writer, const ClaimRows *rows) {
    Buf buf = {0};
    for (size_t i = 0; i < rows->count; i++) {
        const ClaimRow *row = &rows->rows[i];
        buf_printf(&buf, "%s%s: %s; %s; %s.", i ? " " : "", row->title, say_row(writer, &row->a),
                   say_row(writer, &row->b), row->verdict);
    }
    const char *alt = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return alt;
}

static void add_side(Writer *writer, ClaimRows *rows, ClaimKind kind, int most, const char *group) {
    int *ranked = ARENA_ARRAY(writer->arena, writer->dossier->claim_count, int);
    size_t count = ranked_claims(writer, kind, ranked);
    for (size_t i = 0; i < count && i < (size_t)most; i++) {
        ClaimRow *row = &rows->rows[rows->count++];
        *row = claim_row(writer, ranked[i]);
        row->group = i == 0 ? group : NULL;
    }
}

/* Every row shares 0 to 100 %; a claim on a measure that is no rate prints its values here and is drawn on its own
 * page. */
const Figure *figure_claims(Writer *writer, int most_why, int most_why_not, bool groups) {
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    ClaimRows *rows = &figure->as.claims;
    rows->rows = ARENA_ARRAY(writer->arena, writer->dossier->claim_count, ClaimRow);
    add_side(writer, rows, CLAIM_STRENGTH, most_why, groups ? "WHY" : NULL);
    add_side(writer, rows, CLAIM_CONCERN, most_why_not, groups ? "WHY NOT" : NULL);
    if (!rows->count) return NULL;
    rows->axis = (Axis){.from = 0, .to = 1, .step = .25, .suffix = "%", .scale = 100};
    figure->kind = FIGURE_CLAIM_ROWS;
    figure->alt = claims_alt(writer, rows);
    return figure;
}

static void why(Writer *writer, Block *section, const LayoutSection *asked) {
    int most = asked->most ? asked->most : FRONT_CLAIMS_A_SIDE;
    const Figure *figure = figure_claims(writer, most, most, true);
    if (!figure) return;
    const char *rules = writer_has(writer, SECTION_METHODS) ? "; words and rules: methods page" : "";
    block_figure(writer, section, figure, "Why, and why not",
                 say(writer, "all charted snaps counted, 95%% intervals%s", rules));
}

static size_t characters(const char *text) {
    size_t count = 0;
    for (; text && *text; text++) count += (*text & 0xc0) != 0x80;
    return count;
}

/* The front page is one page: each line that long titles take more is a measurement less; the rest stand under
 * Measurables. */
static size_t strips_that_fit(Writer *writer, const LayoutSection *asked) {
    enum { TITLE_LINE = 32, HEADLINE_LINE = 46, LEAST_STRIPS = 3 };
    size_t strips = FRONT_STRIPS;
    size_t most = asked->most ? (size_t)asked->most : FRONT_CLAIMS_A_SIDE;
    int *ranked = ARENA_ARRAY(writer->arena, writer->dossier->claim_count, int);
    for (ClaimKind kind = CLAIM_STRENGTH; kind <= CLAIM_CONCERN; kind++) {
        size_t count = ranked_claims(writer, kind, ranked);
        for (size_t i = 0; i < count && i < most; i++) {
            if (characters(writer->dossier->claims[ranked[i]].title) > TITLE_LINE) strips--;
        }
    }
    const char *headline = writer->dossier->grades_count ? writer->dossier->grades[0].role : NULL;
    if (characters(headline) > HEADLINE_LINE) strips--;
    return strips > FRONT_STRIPS || strips < LEAST_STRIPS ? LEAST_STRIPS : strips;
}

static void how_big(Writer *writer, Block *section, const LayoutSection *asked) {
    const Figure *figure = figure_strips(writer, strips_that_fit(writer, asked));
    if (!figure->as.strips.count) {
        block_head(writer, section, 2, "How big", NULL);
        block_note(writer, section, "Nothing has been measured yet.");
        return;
    }
    const Scale *scale = writer->findings->scale;
    const char *note = scale ? say(writer,
                                   "%s \u00b7 line 5th\u201395th, bar 25th\u201375th, tick median \u00b7 better to the "
                                   "right \u00b7 percentile, of n",
                                   scale->name)
                             : "no comparison scale for this position";
    Block *block = block_figure(writer, section, figure, "How big", note);
    block->words =
        words_plain(writer, "Open marker: hand-timed or not verified; no allowance is added to a hand time.");
}

void story_front(Writer *writer, Block *document, const LayoutSection *section) {
    Block *block = block_section(writer, document, NULL, NULL);
    block->bookmark = section->title ? section->title : "Front page";
    nameplate(writer, block);
    verdict(writer, block);
    bottom_line(writer, block);
    if (section->brief) return;
    why(writer, block, section);
    how_big(writer, block, section);
}
