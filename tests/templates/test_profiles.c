/* The profiles of all positions: their parts, their words, their scales; and for each a sheet of snaps in
 * tests/templates/positions that loads clean, answers every measure and is in every slice. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/text.h"
#include "check/check.h"
#include "check/check_parts.h"
#include "compile.h"
#include "source/sample.h"
#include "stats/findings.h"

enum { LEAST_LOG = 16, MOST_LOG = 19, LEAST_SNAPS = 10, MOST_SNAPS = 24 };

static const char *const POSITIONS[] = {
    "running-back", "wide-receiver", "tight-end",  "tackle", "interior-line", "interior-defensive-line",
    "edge",         "linebacker",    "cornerback", "safety", "kicker",        "punter",
    "long-snapper", "returner"};

enum { POSITION_COUNT = sizeof POSITIONS / sizeof *POSITIONS };

typedef struct Shop {
    Arena *arena;
    Diagnostics *diagnostics;
    SourceContext *context;
} Shop;

static int open_shop(void **state) {
    static Shop shop;
    shop = (Shop){.arena = arena_new(), .diagnostics = diag_new()};
    shop.context = source_context_new("templates", NULL, shop.diagnostics);
    *state = &shop;
    return 0;
}

static int close_shop(void **state) {
    Shop *shop = *state;
    diag_free(shop->diagnostics);
    source_context_free(shop->context);
    arena_free(shop->arena);
    return 0;
}

static const Profile *profile_of(Shop *shop, const char *id) {
    const Profile *profile = source_profile(shop->context, id, (Place){0}, shop->diagnostics);
    if (!profile) fail_msg("profile '%s' cannot be read", id);
    return profile;
}

/* ---- the profiles ---- */

/* What a board knows a position by, and what it leads its page with. */
static const struct {
    const char *id, *code, *snaps, *printed; /* the measures printed, in order */
} heads[] = {
    {"running-back", "RB", "snaps",
     "run-success past-contact yards-a-carry beaten-a-carry none-or-loss long-run-rate right-cut fumbles-a-carry "
     "hands-rate yards-a-release reps-held"},
    {"wide-receiver", "WR", "snaps",
     "open-rate hands-rate yards-a-release clean-release traffic-catch drop-rate after-catch target-depth stack-rate "
     "run-reps-won"},
    {"tight-end", "TE", "snaps",
     "open-rate hands-rate yards-a-release traffic-catch route-success run-reps-won stayed-on landed-moving reps-held "
     "drop-rate"},
    {"tackle", "T", "reps",
     "reps-held no-pressure alone-held sack-allowed stunt-held held-time run-reps-won landed-rate stayed-on flagged"},
    {"interior-line", "IOL", "reps",
     "reps-held no-pressure stunt-held alone-held held-time run-reps-won displaced-rate landed-moving low-pads "
     "flagged"},
    {"interior-defensive-line", "IDL", "snaps",
     "rush-won single-won disrupted held-ground shed-rate gap-kept-rate run-denied tackle-made full-chase "
     "doubled-share"},
    {"edge", "EDGE", "snaps",
     "rush-won disrupted single-won finished-rate win-time edge-set gap-kept-rate run-denied tackle-made lane-kept "
     "full-chase"},
    {"linebacker", "LB", "snaps",
     "key-right first-step fast-trigger gap-kept-rate run-denied tackle-made tackle-at tight-rate drop-depth caught-on "
     "disrupted"},
    {"cornerback", "CB", "snaps",
     "tight-rate caught-on yards-a-target-on on-the-ball found-ball targeted-rate jam-rate clean-turn tackle-made "
     "flagged"},
    {"safety", "S", "snaps",
     "key-right-all good-angle tackle-made open-made tight-rate caught-on on-the-ball range-rate gap-kept-rate "
     "disguise-held"},
    {"kicker", "K", "kicks",
     "made tries-made long-made pure-strike operation-time blocked-rate made-distance touchback-rate hang-mean "
     "start-allowed"},
    {"punter", "P", "punts",
     "gross-mean net-mean hang-mean return-denied pinned touchback-rate aim-rate operation-time foot-mean"},
    {"long-snapper", "LS", "snaps",
     "on-rate poor-rate punt-snap-time place-snap-time laces-right tight-rate block-held clean-release-rate in-cover"},
    {"returner", "RET", "kicks",
     "punt-ret kick-ret clean-catch right-choice first-man-beat long-ret upfield secure returned-rate"},
};

static const char *printed_of(Shop *shop, const Profile *profile) {
    const char *list = "";
    for (size_t i = 0; i < profile->measure_count; i++) {
        const Measure *measure = &profile->measures[i];
        if (measure->printed) list = arena_printf(shop->arena, "%s%s%s", list, *list ? " " : "", measure->id);
    }
    return list;
}

static void test_heads(void **state) {
    Shop *shop = *state;
    assert_int_equal(sizeof heads / sizeof *heads, POSITION_COUNT);
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        const Profile *profile = profile_of(shop, heads[i].id);
        assert_string_equal(profile->code, heads[i].code);
        assert_string_equal(profile->snap_noun, heads[i].snaps);
        assert_string_equal(printed_of(shop, profile), heads[i].printed);
        assert_non_null(profile->counted);
    }
    assert_int_equal(diag_errors(shop->diagnostics) + diag_warnings(shop->diagnostics), 0);
}

static void test_traits(void **state) {
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        const Profile *profile = profile_of(*state, POSITIONS[i]);
        double weight = 0;
        for (size_t k = 0; k < profile->trait_count; k++) weight += profile->traits[k].weight;
        assert_in_range(profile->trait_count, 10, 13);
        assert_true(weight == 100);
    }
}

/* A log of more columns does not fit the page, one of fewer tells too little. */
static void test_logs(void **state) {
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        const Profile *profile = profile_of(*state, POSITIONS[i]);
        if (profile->log_field_count < LEAST_LOG || profile->log_field_count > MOST_LOG)
            fail_msg("%s: %zu columns in the log", profile->id, profile->log_field_count);
    }
}

static void test_figures(void **state) {
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        const Profile *profile = profile_of(*state, POSITIONS[i]);
        size_t rows = 0, trends = 0;
        for (size_t k = 0; k < profile->figure_count; k++) {
            rows += profile->figures[k].kind == PROFILE_INTERVAL_ROWS;
            trends += profile->figures[k].kind == PROFILE_GAME_TREND;
        }
        if (rows < 3 || trends != 1) fail_msg("%s: %zu interval rows, %zu trends", profile->id, rows, trends);
    }
}

/* ---- one vocabulary ---- */

/* Fields whose words are a position's own. */
static const char *const OWN_WORDS[] = {"calls",  "choice", "flag",      "from",     "job",  "kick",
                                        "lane",   "miss",   "operation", "opponent", "over", "release",
                                        "result", "side",   "strike",    "tech",     "where"};

static bool has_own_words(const char *id) {
    for (size_t i = 0; i < sizeof OWN_WORDS / sizeof *OWN_WORDS; i++) {
        if (strcmp(OWN_WORDS[i], id) == 0) return true;
    }
    return false;
}

static bool same_words(const Field *a, const Field *b) {
    if (a->type != b->type || a->value_count != b->value_count) return false;
    if (a->low != b->low || a->high != b->high || a->step != b->step) return false;
    for (size_t i = 0; i < a->value_count; i++) {
        if (strcmp(a->values[i].id, b->values[i].id) != 0) return false;
    }
    return true;
}

static size_t count_unlike(const Profile *profile, const Profile *other) {
    size_t unlike = 0;
    for (size_t i = 0; i < profile->field_count; i++) {
        const Field *field = &profile->fields[i];
        int same = profile_field(other, field->id);
        if (same < 0 || field->derived != DERIVED_NONE || has_own_words(field->id)) continue;
        if (same_words(field, &other->fields[same])) continue;
        printf("'%s' is charted differently by %s and %s\n", field->id, profile->id, other->id);
        unlike++;
    }
    return unlike;
}

/* Two positions never chart one thing differently. */
static void test_one_vocabulary(void **state) {
    size_t unlike = 0;
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        for (size_t k = 0; k < i; k++) {
            unlike += count_unlike(profile_of(*state, POSITIONS[i]), profile_of(*state, POSITIONS[k]));
        }
    }
    assert_int_equal(unlike, 0);
}

/* How many fields a snap asks for: those required where they apply, by a thousand snaps made up. A chart in the press
 * box cannot bear more than a situation and a job's own. */
static void test_charting_is_bearable(void **state) {
    enum { SNAPS = 1000, MOST_ASKED = 20 };
    Shop *shop = *state;
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        const Profile *profile = profile_of(shop, POSITIONS[i]);
        const Columns *snaps = sample_snaps(shop->arena, profile, SNAPS, 7);
        for (size_t row = 0; row < SNAPS; row++) {
            size_t asked = 0;
            for (size_t k = 0; k < profile->field_count; k++) {
                asked += profile->fields[k].required && snaps->columns[k].state[row] == VALUE_KNOWN;
            }
            if (asked > MOST_ASKED) fail_msg("%s: a snap asks for %zu fields", profile->id, asked);
        }
    }
}

/* ---- clashes ---- */

/* Each row of the table of values that cannot stand together speaks of some position: one with a slip in it would be
 * passed over by all. */
static void test_clashes(void **state) {
    for (size_t row = 0; row < check_clash_rows(); row++) {
        bool fits = check_clash_fits(profile_of(*state, "quarterback"), row);
        for (size_t i = 0; i < POSITION_COUNT && !fits; i++)
            fits = check_clash_fits(profile_of(*state, POSITIONS[i]), row);
        if (!fits) fail_msg("row %zu of the clashes fits no profile", row);
    }
}

/* ---- scales ---- */

static void check_bounds(const Profile *profile, const ScaleMeasurable *scale) {
    for (size_t i = 0; i < profile->measurable_count; i++) {
        const MeasurableKind *kind = &profile->measurables[i];
        if (strcmp(kind->id, scale->kind) != 0 || kind->low >= kind->high) continue;
        for (size_t q = 0; q < scale->quantile_count; q++) {
            double value = scale->quantiles[q].value;
            if (value < kind->low || value > kind->high)
                fail_msg("%s: %s of %g, the %g%% quantile, would be told of as unusual", profile->id, kind->id, value,
                         scale->quantiles[q].p);
        }
    }
}

/* Each position but the returner, who is measured as what he plays, has its population; what the profile calls unusual
 * lies outside it. */
static void test_scales(void **state) {
    Shop *shop = *state;
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        const Scale *scale = scale_load(shop->arena, "templates", POSITIONS[i], shop->diagnostics);
        bool returner = strcmp(POSITIONS[i], "returner") == 0;
        if (!scale != returner) fail_msg("scale of %s", POSITIONS[i]);
        if (!scale) continue;
        assert_string_equal(scale->profile, POSITIONS[i]);
        for (size_t k = 0; k < scale->count; k++) check_bounds(profile_of(shop, POSITIONS[i]), &scale->measurables[k]);
    }
}

/* ---- the sheets ---- */

static const char *sheet_path(Shop *shop, const char *position) {
    return arena_printf(shop->arena, "tests/templates/positions/%s.xml", position);
}

static const char *said(Shop *shop) {
    char *text = NULL;
    size_t size = 0;
    FILE *out = open_memstream(&text, &size);
    diag_print(shop->diagnostics, out, false);
    fclose(out);
    const char *copy = arena_string(shop->arena, text);
    free(text);
    return copy;
}

static const Dossier *sheet_of(Shop *shop, const char *position) {
    const Dossier *dossier = dossier_load(shop->arena, shop->context, sheet_path(shop, position), shop->diagnostics);
    if (dossier) check_dossier(dossier, shop->diagnostics);
    if (!dossier || *said(shop)) fail_msg("%s: %s", position, said(shop));
    return dossier;
}

static void test_sheets_are_clean(void **state) {
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        const Dossier *dossier = sheet_of(*state, POSITIONS[i]);
        assert_string_equal(dossier->profile->id, POSITIONS[i]);
        assert_in_range(dossier->snap_count, LEAST_SNAPS, MOST_SNAPS);
    }
}

static void test_every_measure_is_answered(void **state) {
    Shop *shop = *state;
    size_t wrong = 0;
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        const Findings *findings = findings_compute(shop->arena, sheet_of(shop, POSITIONS[i]), NULL);
        const Profile *profile = findings->dossier->profile;
        for (size_t k = 0; k < profile->measure_count; k++) {
            const Estimate *estimate = findings_estimate(findings, (int)k, ESTIMATE_ALL);
            if (estimate->n > 0 && isfinite(estimate->value)) continue;
            printf("%s: measure '%s' is not answered\n", profile->id, profile->measures[k].id);
            wrong++;
        }
    }
    assert_int_equal(wrong, 0);
}

static bool is_covered(Shop *shop, const Dossier *dossier, const Expr *where) {
    const Columns *columns = &dossier->columns;
    uint8_t *truth = ARENA_ARRAY(shop->arena, columns->rows, uint8_t);
    expr_select(where, columns, 0, columns->rows, truth);
    for (size_t row = 0; row < columns->rows; row++) {
        if (truth[row] == TRUTH_TRUE && columns->counted[row]) return true;
    }
    return false;
}

static void test_every_slice_holds(void **state) {
    Shop *shop = *state;
    size_t wrong = 0;
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        const Dossier *dossier = sheet_of(shop, POSITIONS[i]);
        for (size_t k = 0; k < dossier->profile->slice_count; k++) {
            const Slice *slice = &dossier->profile->slices[k];
            if (is_covered(shop, dossier, slice->where)) continue;
            printf("%s: no snap is in slice '%s'\n", dossier->profile->id, slice->id);
            wrong++;
        }
    }
    assert_int_equal(wrong, 0);
}

static void test_every_total_counts(void **state) {
    Shop *shop = *state;
    size_t wrong = 0;
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        const Dossier *dossier = sheet_of(shop, POSITIONS[i]);
        for (size_t k = 0; k < dossier->profile->total_count; k++) {
            const Total *total = &dossier->profile->totals[k];
            if (!total->where || is_covered(shop, dossier, total->where)) continue;
            printf("%s: no snap adds to total '%s'\n", dossier->profile->id, total->id);
            wrong++;
        }
    }
    assert_int_equal(wrong, 0);
}

/* Every figure of the position is drawn from it. */
static void test_figures_are_drawn(void **state) {
    Shop *shop = *state;
    const CompilerOptions options = {.share = "."};
    Compiler *compiler = compiler_new(&options, shop->diagnostics);
    for (size_t i = 0; i < POSITION_COUNT; i++) {
        Buf story = {0};
        bool good = compiler_compile(compiler, shop->arena, sheet_path(shop, POSITIONS[i]), NULL, DUMP_STORY, &story,
                                     shop->diagnostics);
        if (!good) fail_msg("%s: %s", POSITIONS[i], said(shop));
        const char *not_drawn = strstr(buf_text(&story), "Not drawn");
        if (not_drawn) fail_msg("%s: %.100s", POSITIONS[i], not_drawn);
        buf_free(&story);
    }
    compiler_free(compiler);
}

#define SHOP_TEST(name) cmocka_unit_test_setup_teardown(name, open_shop, close_shop)

int main(void) {
    const struct CMUnitTest tests[] = {
        SHOP_TEST(test_heads),
        SHOP_TEST(test_traits),
        SHOP_TEST(test_logs),
        SHOP_TEST(test_figures),
        SHOP_TEST(test_one_vocabulary),
        SHOP_TEST(test_charting_is_bearable),
        SHOP_TEST(test_clashes),
        SHOP_TEST(test_scales),
        SHOP_TEST(test_sheets_are_clean),
        SHOP_TEST(test_every_measure_is_answered),
        SHOP_TEST(test_every_slice_holds),
        SHOP_TEST(test_every_total_counts),
        SHOP_TEST(test_figures_are_drawn),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
