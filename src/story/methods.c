/* Methods: what each figure is and where its formula comes from; only what this dossier's pages use. */
#include <math.h>
#include <string.h>

#include "story/write.h"

#define J_ASA "Journal of the American Statistical Association"
#define STAT_MED "Statistics in Medicine"
#define AM_STAT "The American Statistician"
#define PSY_BULL "Psychological Bulletin"

/* ---- what the dossier uses ---- */

static const Measure *claim_measure(Writer *writer, size_t claim) {
    return &writer->profile->measures[writer->dossier->claims[claim].measure];
}

/* How many claims have a p, of rates or of other measures, against another side or against the standard. */
static int tested(Writer *writer, bool rates, bool standard) {
    int count = 0;
    for (size_t i = 0; i < writer->dossier->claim_count; i++) {
        bool against_standard = writer->dossier->claims[i].against == CLAIM_AGAINST_STANDARD;
        bool is_rate = claim_measure(writer, i)->kind == MEASURE_RATE;
        bool has_p = isfinite(writer->findings->claims[i].p);
        count += has_p && is_rate == rates && against_standard == standard;
    }
    return count;
}

static int all_tested(Writer *writer) {
    return tested(writer, true, true) + tested(writer, true, false) + tested(writer, false, true) +
           tested(writer, false, false);
}

static const Estimate *season(Writer *writer, size_t measure) {
    return findings_estimate(writer->findings, (int)measure, ESTIMATE_ALL);
}

static bool has_measure(Writer *writer) {
    for (size_t i = 0; i < writer->profile->measure_count; i++) {
        if (season(writer, i)->n > 0) return true;
    }
    return false;
}

static bool uses_counts(Writer *writer) {
    return writer->findings->counted > 0;
}

static bool has_interval(Writer *writer, bool rate) {
    for (size_t i = 0; i < writer->profile->measure_count; i++) {
        const Estimate *estimate = season(writer, i);
        if ((estimate->kind == MEASURE_RATE) == rate && isfinite(estimate->low)) return true;
    }
    return false;
}

static bool uses_rates(Writer *writer) {
    return has_interval(writer, true);
}

static bool uses_resampling(Writer *writer) {
    return has_interval(writer, false);
}

static bool uses_differences(Writer *writer) {
    for (size_t i = 0; i < writer->dossier->claim_count; i++) {
        bool interval = isfinite(writer->findings->claims[i].low);
        if (interval && claim_measure(writer, i)->kind == MEASURE_RATE) return true;
    }
    return false;
}

/* A trend draws means or formulas game by game. */
static bool uses_single_games(Writer *writer) {
    size_t games = writer->dossier->game_count;
    for (size_t f = 0; f < writer->profile->figure_count; f++) {
        const ProfileFigure *figure = &writer->profile->figures[f];
        for (size_t i = 0; figure->kind == PROFILE_GAME_TREND && i < figure->measure_count; i++) {
            const Estimate *estimates = &writer->findings->game_estimates[(size_t)figure->measures[i] * games];
            for (size_t g = 0; g < games; g++) {
                if (estimates[g].kind != MEASURE_RATE && isfinite(estimates[g].low)) return true;
            }
        }
    }
    return false;
}

static bool uses_claims(Writer *writer) {
    return writer->dossier->claim_count > 0;
}

static bool uses_tests(Writer *writer) {
    return all_tested(writer) > 0;
}

static bool uses_snaps_needed(Writer *writer) {
    for (size_t i = 0; i < writer->dossier->claim_count; i++) {
        if (writer->findings->claims[i].snaps_needed > 0) return true;
    }
    return false;
}

static bool asks_field(const Expr *expr, int field) {
    return expr && expr_uses_field(expr, field);
}

/* The derived field that the house's rule decides is called success in every profile. */
static bool uses_success(Writer *writer) {
    int field = profile_field(writer->profile, "success");
    for (size_t i = 0; field >= 0 && i < writer->profile->measure_count; i++) {
        const Measure *measure = &writer->profile->measures[i];
        if (season(writer, i)->n && (asks_field(measure->of, field) || asks_field(measure->where, field))) return true;
    }
    return false;
}

static bool uses_percentiles(Writer *writer) {
    for (size_t i = 0; i < writer->dossier->measurable_count; i++) {
        if (isfinite(writer->findings->measurables[i].percentile)) return true;
    }
    return false;
}

static bool uses_nearest(Writer *writer) {
    return writer->findings->comparables.count > 0;
}

static bool uses_kappa(Writer *writer) {
    return writer->findings->agreement && writer->findings->agreement->kappa_count > 0;
}

static bool uses_grade_agreement(Writer *writer) {
    return writer->findings->agreement && isfinite(writer->findings->agreement->grades.single);
}

/* ---- what it says of them ---- */

static const char *counts_text(Writer *writer) {
    (void)writer;
    return "A rate is k of n, where n counts the snaps at which the question can be answered. What was not charted is "
           "left "
           "out of n and said beside it; it is never taken for a no. Snaps that the position does not count, such as "
           "those "
           "wiped out by a penalty, stand in the log alone.";
}

static const char *rates_text(Writer *writer) {
    (void)writer;
    return "With each rate stands its 95% Wilson score interval (Wilson 1927, " J_ASA
           " 22:209\u2013212; Newcombe 1998, " STAT_MED
           " 17:857\u2013872): made so again and again, such intervals hold the true rate about 95 times in 100.";
}

static const char *differences_text(Writer *writer) {
    bool standard = tested(writer, true, true) > 0;
    return say(writer,
               "The difference of two rates has Newcombe\u2019s hybrid score interval, his method 10 (1998, " STAT_MED
               " 17:873\u2013890).%s",
               standard ? " Against a standard it is the rate\u2019s own interval, less the standard." : "");
}

static const char *resampling_text(Writer *writer) {
    (void)writer;
    return "Figures that are no rates have a bootstrap interval: his snaps are drawn again 2,000 times, with "
           "replacement and "
           "within their games, and the middle 95% is corrected for bias and skew (BCa; Efron 1987, " J_ASA
           " 82:171\u2013185). Of few snaps that alone would come out too narrow, so it is widened by Student\u2019s "
           "quantile, "
           "with the degrees of freedom of the smaller side (Hesterberg 2015, " AM_STAT
           " 69:371\u2013386), and for the spread between games that drawing within them leaves out. Under five snaps "
           "there is "
           "no interval. The draw is fixed by the dossier\u2019s id, so that the figures are the same on every run.";
}

static const char *single_games_text(Writer *writer) {
    (void)writer;
    return "In a single game such figures have the jackknife\u2019s interval: one snap is left out at a time, with "
           "Student\u2019s quantile (Tukey 1958, Annals of Mathematical Statistics 29:614).";
}

static const char *verdicts_text(Writer *writer) {
    (void)writer;
    return "A claim names the snaps it is about. All of them are counted, not only those cited, and set against the "
           "other side. "
           "Borne out: as claimed, adjusted p at most 0.05. Contradicted: the reverse, adjusted p at most 0.05. "
           "Leaning, or "
           "leaning against: the direction without the proof. Too few to say: under eight answered snaps on a side; "
           "then no "
           "p is worked out.";
}

static const char *adjustment_text(Writer *writer) {
    int claims = all_tested(writer);
    if (claims < 2) return "";
    return say(
        writer,
        " Of many claims some would pass by chance, so each p is adjusted over the %s tested here (Benjamini and "
        "Hochberg 1995, Journal of the Royal Statistical Society B 57:289\u2013300).",
        say_word_count(writer, claims, "claims"));
}

static const char *tests_text(Writer *writer) {
    bool rates = tested(writer, true, false) > 0;
    bool standard = tested(writer, true, true) > 0;
    bool others = tested(writer, false, false) + tested(writer, false, true) > 0;
    return say(
        writer, "%s%s%sEvery test is two-sided.%s",
        rates ? "For two rates p is Fisher\u2019s exact test (Fisher 1935, The Design of Experiments). " : "",
        standard ? "For a rate against a standard p is the exact binomial test. " : "",
        others
            ? "For figures that are no rates p is the larger of two: the bootstrap\u2019s, and Student\u2019s on the "
              "jackknife\u2019s standard error, for in the far tail skewed gains make the first too eager. "
            : "",
        adjustment_text(writer));
}

static const char *snaps_needed_text(Writer *writer) {
    return say(
        writer,
        "How many more would settle a claim: the fewest further snaps of its kind, the other side as it is, with which "
        "its test finds a difference as large as the present one four times in five (power 0.8, two-sided 0.05, for "
        "this claim alone), were the present figures the true ones; worked out exactly for rates, by the normal "
        "approximation for others. Beyond %d we say \u201cmore than a season can show\u201d.",
        MOST_SNAPS_NEEDED);
}

static const char *success_text(Writer *writer) {
    static const char *const RULES[] = {
        [SUCCESS_40_60_100] =
            "40% of the distance on first down, 60% on second and all of it on third and fourth (Carroll, "
            "Palmer and Thorn 1988, The Hidden Game of Football)",
        [SUCCESS_50_70_100] =
            "50% of the distance on first down, 70% on second and all of it on third and fourth (common "
            "practice beside the 40, 60 and 100% of Carroll, Palmer and Thorn 1988, The Hidden Game of "
            "Football)",
    };
    return say(writer, "This house calls a play a success that gains %s.", RULES[writer->house->success]);
}

static bool compares_rows(Writer *writer) {
    return writer->findings->scale && writer->findings->scale->rows.count;
}

static const char *percentiles_text(Writer *writer) {
    if (compares_rows(writer))
        return "The share of the population that he beats, players with his own figure counted half (mid-rank), so "
               "that the "
               "middle man stands at 50; where less is better the order is turned.";
    return "The share of the population that he beats, where less is better in turned order. It is read off the "
           "population\u2019s quantiles, in a straight line between two of them (type 7; Hyndman and Fan 1996, " AM_STAT
           " 50:361\u2013365); beyond the outermost it is given as that one.";
}

static const char *nearest_text(Writer *writer) {
    (void)writer;
    return "Players of the population by Mahalanobis distance (1936, Proceedings of the National Institute of Sciences "
           "of "
           "India 2:49\u201355): how far apart two are, each measurable in units of its spread, and what goes "
           "together, such "
           "as height and weight, counted once. Only players who have all of the measurables count.";
}

static const char *kappa_text(Writer *writer) {
    (void)writer;
    return "Two charts of one game are held against each other field by field by Cohen\u2019s \u03ba (1960, "
           "Educational and "
           "Psychological Measurement 20:37\u201346): the agreement beyond what chance gives to two charters who use "
           "the words "
           "as often as these do. In fields whose values have an order, steps count (linear weights; Cohen "
           "1968, " PSY_BULL
           " 70:213\u2013220). Its interval is by the standard error of Fleiss, Cohen and Everitt (1969, " PSY_BULL
           " 72:323\u2013327).";
}

static const char *grade_agreement_text(Writer *writer) {
    (void)writer;
    return "Several evaluators\u2019 grades are compared by the intraclass correlations ICC(2,1), of one evaluator, "
           "and "
           "ICC(2,k), of the mean of all (Shrout and Fleiss 1979, " PSY_BULL
           " 86:420\u2013428): how much of what the grades vary is the traits\u2019 doing, and not the "
           "evaluators\u2019.";
}

static const char *small_text(Writer *writer) {
    (void)writer;
    return "Under five snaps a cell is hatched or shows its count alone; under eight on a side a claim has no verdict. "
           "Rates "
           "are printed in whole points, because a decimal would claim more than the sample knows.";
}

static const char *blind_text(Writer *writer) {
    return say(
        writer,
        "Snaps of one game are not independent: the same opponent, weather and plan stand behind them.%s The figures "
        "support a judgment; they do not replace it.",
        uses_claims(writer) ? " Claims are also formed on the very film that tests them." : "");
}

/* In the order in which they are printed. */
static const struct {
    const char *lead;
    bool (*used)(Writer *writer);
    const char *(*text)(Writer *writer);
} METHODS[] = {
    {"Counting.", uses_counts, counts_text},
    {"Success.", uses_success, success_text},
    {"Rates.", uses_rates, rates_text},
    {"Means, ratios and formulas.", uses_resampling, resampling_text},
    {"Single games.", uses_single_games, single_games_text},
    {"Verdicts.", uses_claims, verdicts_text},
    {"Differences.", uses_differences, differences_text},
    {"Tests.", uses_tests, tests_text},
    {"What would settle it.", uses_snaps_needed, snaps_needed_text},
    {"Percentiles.", uses_percentiles, percentiles_text},
    {"Nearest in build and test.", uses_nearest, nearest_text},
    {"Agreement of charts.", uses_kappa, kappa_text},
    {"Agreement of grades.", uses_grade_agreement, grade_agreement_text},
    {"Small samples.", uses_counts, small_text},
    {"What this cannot see.", uses_counts, blind_text},
};

enum { METHOD_COUNT = sizeof METHODS / sizeof *METHODS };

static bool uses_any(Writer *writer) {
    for (size_t i = 0; i < METHOD_COUNT; i++) {
        if (METHODS[i].used(writer)) return true;
    }
    return false;
}

static void method_texts(Writer *writer, Block *section) {
    for (size_t i = 0; i < METHOD_COUNT; i++) {
        if (!METHODS[i].used(writer)) continue;
        Block *block = block_add(writer, section, BLOCK_PARAGRAPH);
        words_add(writer, &block->words, SPAN_STRONG, METHODS[i].lead, NULL);
        words_add(writer, &block->words, SPAN_TEXT, say(writer, " %s", METHODS[i].text(writer)), NULL);
    }
    if (writer->house->caution_use) block_note(writer, section, writer->house->caution_use);
}

/* ---- the measures ---- */

static const char *measure_definition(Writer *writer, const Measure *measure) {
    const char *says = measure->says ? measure->says : "";
    if (!measure->source || !*measure->source) return says;
    return say(writer, "%s%s%s.", says, *says ? " Source: " : "Source: ", measure->source);
}

/* Those of which something was answered. */
static void definition_table(Writer *writer, Block *section) {
    static const TableColumn HEADS[] = {
        {.head = "measure", .width = 104, .head_of_row = true, .strong = true},
        {.head = "counts", .width = 70},
        {.head = "good", .width = 36},
        {.head = "definition and source"},
    };
    enum { COLUMNS = sizeof HEADS / sizeof *HEADS };
    static const char *const GOOD[] = {[BETTER_NEITHER] = "\u2013", [BETTER_MORE] = "high", [BETTER_LESS] = "low"};
    block_head(writer, section, 2, "Measures", NULL);
    Table *table = block_table(writer, section, HEADS, COLUMNS, writer->profile->measure_count);
    table->row_count = 0;
    for (size_t i = 0; i < writer->profile->measure_count; i++) {
        const Measure *measure = &writer->profile->measures[i];
        if (!season(writer, i)->n) continue;
        TableCell *cells = &table->cells[table->row_count++ * COLUMNS];
        cells[0].words = words_plain(writer, measure->label);
        cells[1].words = words_plain(writer, measure->noun);
        cells[2].words = words_plain(writer, GOOD[measure->better]);
        cells[3].words = words_plain(writer, measure_definition(writer, measure));
    }
}

void story_methods(Writer *writer, Block *document, const LayoutSection *section) {
    if (!uses_any(writer)) return;
    Block *block = block_section(writer, document, section->title ? section->title : "Methods",
                                 "what each figure is, and where it comes from");
    block->new_page = false;
    method_texts(writer, block);
    if (has_measure(writer)) definition_table(writer, block);
}
