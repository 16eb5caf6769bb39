/* The templates and demonstration dossiers that ship: they load, hold together, and count as an independent program
 * counts them (tests/tools/season/expected.py; its figures are kept in vashti.counts). */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

#include <glob.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/file.h"
#include "check/check.h"
#include "stats/findings.h"

static const char TEMPLATES[] = "templates";
static const char HOUSE[] = "dossiers/house/harbour.xml";
static const char FLAGSHIP[] = "dossiers/vashti.xml";

typedef struct Shop {
    Arena *arena;
    Diagnostics *diagnostics;
    SourceContext *context;
} Shop;

static int open_shop(void **state) {
    Shop *shop = mem_alloc(sizeof *shop);
    shop->arena = arena_new();
    shop->diagnostics = diag_new();
    shop->context = source_context_new(TEMPLATES, HOUSE, shop->diagnostics);
    *state = shop;
    return shop->context ? 0 : -1;
}

static int close_shop(void **state) {
    Shop *shop = *state;
    diag_free(shop->diagnostics);
    source_context_free(shop->context);
    arena_free(shop->arena);
    free(shop);
    return 0;
}

static const Profile *quarterback(Shop *shop) {
    const Profile *profile = source_profile(shop->context, "quarterback", (Place){0}, shop->diagnostics);
    assert_non_null(profile);
    return profile;
}

static const Dossier *checked(Shop *shop, const char *path) {
    const Dossier *dossier = dossier_load(shop->arena, shop->context, path, shop->diagnostics);
    assert_non_null(dossier);
    check_dossier(dossier, shop->diagnostics);
    return dossier;
}

/* ---- the profile ---- */

static void test_profile_is_clean(void **state) {
    Shop *shop = *state;
    quarterback(shop);
    assert_int_equal(diag_errors(shop->diagnostics), 0);
    assert_int_equal(diag_warnings(shop->diagnostics), 0);
}

typedef int FindById(const Profile *profile, const char *id);

static void expect_all(const Profile *profile, FindById *find, const char *const *ids) {
    for (; *ids; ids++) {
        if (find(profile, *ids) < 0) fail_msg("the profile has no '%s'", *ids);
    }
}

/* Names that other programs read out of the figures. */
static void test_names_that_are_relied_on(void **state) {
    static const char *const TOTALS[] = {"attempts",      "completions", "yards", "touchdowns",
                                         "interceptions", "sacks",       NULL};
    static const char *const MEASURES[] = {
        "completion-rate", "yards-per-attempt", "target-depth", "on-target",   "college-efficiency",
        "pro-rating",      "net-yards",         "on-time",      "risk-rate",   "sacked-pressed",
        "past-first",      "ball-out",          "pass-success", "after-catch", NULL};
    static const char *const SLICES[] = {"man",
                                         "zone",
                                         "match",
                                         "blitzed",
                                         "four-rush",
                                         "unhurried",
                                         "pressured",
                                         "set-base",
                                         "off-base",
                                         "first-read",
                                         "late-read",
                                         "anticipated",
                                         "on-time-throw",
                                         "late",
                                         "behind-line",
                                         "short-throw",
                                         "intermediate-throw",
                                         "deep-throw",
                                         "to-go-short",
                                         "to-go-medium",
                                         "to-go-long",
                                         "motion",
                                         "no-motion",
                                         "play-action",
                                         "no-fake",
                                         "fooled",
                                         "honest",
                                         "fourth-quarter",
                                         "first-to-third",
                                         "early-down",
                                         "third-long",
                                         "short-yardage",
                                         "red",
                                         "backed-up",
                                         "two-minute",
                                         "one-score",
                                         "second-half",
                                         NULL};
    const Profile *profile = quarterback(*state);
    expect_all(profile, profile_total, TOTALS);
    expect_all(profile, profile_measure, MEASURES);
    expect_all(profile, profile_slice, SLICES);
}

/* What pages print is never an id for want of words. */
static void test_everything_printed_has_words(void **state) {
    const Profile *profile = quarterback(*state);
    for (size_t i = 0; i < profile->field_count; i++) {
        const Field *field = &profile->fields[i];
        bool plain = field->derived != DERIVED_NONE;
        if (!plain && (!field->says || !*field->says)) fail_msg("field '%s' has no glossary", field->id);
    }
    for (size_t i = 0; i < profile->slice_count; i++) {
        const Slice *slice = &profile->slices[i];
        if (!slice->label || !slice->phrase) fail_msg("slice '%s' has no label or phrase", slice->id);
    }
    for (size_t i = 0; i < profile->measure_count; i++) {
        const Measure *measure = &profile->measures[i];
        bool formula = measure->kind == MEASURE_FORMULA;
        if (!measure->says || !measure->noun) fail_msg("measure '%s' has no definition or noun", measure->id);
        if (formula && !measure->source) fail_msg("formula '%s' names no source", measure->id);
    }
}

static void test_traits_weigh_a_hundred(void **state) {
    const Profile *profile = quarterback(*state);
    double weight = 0;
    for (size_t i = 0; i < profile->trait_count; i++) {
        weight += profile->traits[i].weight;
        assert_non_null(profile->traits[i].says);
    }
    assert_int_equal(profile->trait_count, 13);
    assert_true(weight == 100);
}

/* ---- the flagship ---- */

static void test_flagship_checks_clean_but_for_what_is_meant(void **state) {
    Shop *shop = *state;
    checked(shop, FLAGSHIP);
    assert_int_equal(diag_errors(shop->diagnostics), 0);
    /* six throws whose base the film does not show, told in three games; one completion that the scorer alone has */
    assert_int_equal(diag_reported(shop->diagnostics, RULE_FIELD_MISSING), 3);
    assert_int_equal(diag_reported(shop->diagnostics, RULE_BOX_SCORE), 1);
    assert_int_equal(diag_warnings(shop->diagnostics), 4);
    assert_int_equal(diag_reported(shop->diagnostics, RULE_FIELD_NOT_APPLICABLE), 0);
}

static void test_flagship_is_a_season(void **state) {
    const Dossier *dossier = checked(*state, FLAGSHIP);
    assert_int_equal(dossier->game_count, 5);
    assert_in_range(dossier->snap_count, 180, 220);
    assert_int_equal(dossier->grades_count, 3);
    for (size_t i = 0; i < dossier->game_count; i++) {
        assert_non_null(dossier->games[i].official);
        assert_true(dossier->games[i].row_count >= 20);
    }
}

/* Two of its games are charted by two men, who agree as people do. */
static void test_flagship_second_charts(void **state) {
    Shop *shop = *state;
    const Findings *findings = findings_compute(shop->arena, checked(shop, FLAGSHIP), NULL);
    const Agreement *agreement = findings->agreement;
    assert_non_null(agreement);
    assert_int_equal(agreement->games, 2);
    assert_in_range(agreement->snaps, 85, 100);
    int same = 0, differ = 0;
    double sum = 0;
    for (size_t i = 0; i < agreement->field_count; i++) {
        const FieldAgreement *field = &agreement->fields[i];
        same += field->equal == field->n;
        if (field->equal == field->n || isnan(field->kappa)) continue;
        differ++;
        sum += field->kappa;
    }
    assert_true(same >= 10 && differ >= 15);
    assert_true(sum / differ > 0.7 && sum / differ < 0.9);
}

static void test_flagship_claims(void **state) {
    const Dossier *dossier = checked(*state, FLAGSHIP);
    int strengths = 0;
    assert_int_equal(dossier->claim_count, 8);
    for (size_t i = 0; i < dossier->claim_count; i++) {
        const Claim *claim = &dossier->claims[i];
        int against = 0;
        for (size_t c = 0; c < claim->cite_count; c++) against += claim->cites[c].against;
        strengths += claim->kind == CLAIM_STRENGTH;
        if (claim->cite_count < 3 || !against || !claim->prose.count) fail_msg("claim '%s' is thin", claim->id);
    }
    assert_int_equal(strengths, 5);
}

/* ---- figures, held against an independent count ---- */

static bool near_to(double a, double b) {
    return isnan(a) ? isnan(b) : fabs(a - b) <= 1e-6 * fmax(1, fabs(b));
}

static const Estimate *estimate_of(const Findings *findings, const char *measure, const char *slice) {
    const Profile *profile = findings->dossier->profile;
    int m = profile_measure(profile, measure);
    int s = strcmp(slice, "all") == 0 ? ESTIMATE_ALL : profile_slice(profile, slice);
    if (m < 0 || (s < 0 && s != ESTIMATE_ALL) || (s == ESTIMATE_ALL && strcmp(slice, "all") != 0)) {
        fail_msg("no figure '%s' of '%s'", measure, slice);
    }
    return findings_estimate(findings, m, s);
}

typedef struct CountLine {
    char word[48], id[48], slice[48];
    double numbers[5];
    char verdict[48];
} CountLine;

static void check_total(const Findings *findings, const char *text) {
    CountLine line;
    assert_int_equal(sscanf(text, "total %47s %lf", line.id, &line.numbers[0]), 2);
    int total = profile_total(findings->dossier->profile, line.id);
    assert_true(total >= 0);
    if (!near_to(findings->totals[total], line.numbers[0])) fail_msg("%s: is %g", text, findings->totals[total]);
}

static void check_rate(const Findings *findings, const char *text) {
    CountLine line;
    assert_int_equal(sscanf(text, "rate %47s %47s %lf %lf", line.id, line.slice, &line.numbers[0], &line.numbers[1]),
                     4);
    const Estimate *estimate = estimate_of(findings, line.id, line.slice);
    if (estimate->k != line.numbers[0] || estimate->n != line.numbers[1])
        fail_msg("%s: is %d of %d", text, estimate->k, estimate->n);
}

static void check_value(const Findings *findings, const char *text) {
    CountLine line;
    assert_int_equal(sscanf(text, "value %47s %47s %lf %lf", line.id, line.slice, &line.numbers[0], &line.numbers[1]),
                     4);
    const Estimate *estimate = estimate_of(findings, line.id, line.slice);
    bool same = near_to(estimate->value, line.numbers[0]) && estimate->n == line.numbers[1];
    if (!same) fail_msg("%s: is %.10g, n %d", text, estimate->value, estimate->n);
}

static int claim_called(const Dossier *dossier, const char *id) {
    for (size_t i = 0; i < dossier->claim_count; i++) {
        if (strcmp(dossier->claims[i].id, id) == 0) return (int)i;
    }
    fail_msg("no claim '%s'", id);
    return -1;
}

static void check_claim(const Findings *findings, const char *text) {
    CountLine line;
    double *number = line.numbers;
    assert_int_equal(sscanf(text, "claim %47s %lf %lf %lf %lf %lf %47s", line.id, &number[0], &number[1], &number[2],
                            &number[3], &number[4], line.verdict),
                     7);
    const ClaimFinding *finding = &findings->claims[claim_called(findings->dossier, line.id)];
    bool same = finding->a.k == number[0] && finding->a.n == number[1] && finding->b.k == number[2] &&
                finding->b.n == number[3];
    if (!same) fail_msg("%s: is %d of %d, %d of %d", text, finding->a.k, finding->a.n, finding->b.k, finding->b.n);
    if (fabs(finding->p_adjusted - number[4]) > 1e-6) fail_msg("%s: p is %g", text, finding->p_adjusted);
    assert_string_equal(verdict_key(finding->verdict), line.verdict);
}

typedef struct CountKind {
    const char *word;
    void (*check)(const Findings *findings, const char *text);
} CountKind;

static size_t check_line(const Findings *findings, const char *text) {
    static const CountKind KINDS[] = {
        {"total ", check_total}, {"rate ", check_rate}, {"value ", check_value}, {"claim ", check_claim}};
    for (size_t i = 0; i < sizeof KINDS / sizeof *KINDS; i++) {
        if (strncmp(text, KINDS[i].word, strlen(KINDS[i].word)) != 0) continue;
        KINDS[i].check(findings, text);
        return 1;
    }
    return 0;
}

static void test_figures_are_those_of_an_independent_count(void **state) {
    Shop *shop = *state;
    const Findings *findings = findings_compute(shop->arena, checked(shop, FLAGSHIP), NULL);
    const Text *counts = file_read(shop->arena, "tests/templates/vashti.counts", shop->diagnostics);
    assert_non_null(counts);
    char *text = arena_copy(shop->arena, counts->bytes, counts->length);
    size_t checked_lines = 0;
    char *rest = NULL;
    for (char *line = strtok_r(text, "\n", &rest); line; line = strtok_r(NULL, "\n", &rest)) {
        checked_lines += check_line(findings, line);
    }
    assert_true(checked_lines > 1000);
}

/* The demonstration shows each of the five verdicts. */
static void test_flagship_has_every_verdict(void **state) {
    Shop *shop = *state;
    const Dossier *dossier = checked(shop, FLAGSHIP);
    const Findings *findings = findings_compute(shop->arena, dossier, NULL);
    bool seen[VERDICT_BORNE_OUT + 1] = {false};
    for (size_t i = 0; i < dossier->claim_count; i++) seen[findings->claims[i].verdict] = true;
    for (int verdict = VERDICT_TOO_FEW; verdict <= VERDICT_BORNE_OUT; verdict++) {
        if (!seen[verdict]) fail_msg("no claim is %s", verdict_word((Verdict)verdict));
    }
}

/* ---- the others ---- */

static void test_sparse_dossier(void **state) {
    Shop *shop = *state;
    const Dossier *dossier = checked(shop, "dossiers/sparse.xml");
    assert_int_equal(diag_errors(shop->diagnostics), 0);
    assert_int_equal(diag_warnings(shop->diagnostics), 0);
    assert_int_equal(dossier->snap_count, 2);
    assert_int_equal(dossier->claim_count, 0);
    assert_int_equal(dossier->grades_count, 0);
    const Findings *findings = findings_compute(shop->arena, dossier, NULL);
    assert_int_equal(findings->counted, 2);
}

static void test_names_with_accents(void **state) {
    Shop *shop = *state;
    const Dossier *dossier = checked(shop, "dossiers/dordic-ohashi.xml");
    assert_int_equal(diag_errors(shop->diagnostics), 0);
    assert_string_equal(dossier->given, "K\u0101wika");
    assert_string_equal(dossier->family, "\u0110or\u0111i\u0107-\u014chashi");
    assert_string_equal(dossier->school, "Saint-\u00c9b\u00e8ne");
    assert_int_equal(dossier->game_count, 2);
}

/* ---- the season that made the charts ---- */

static const Text *output_of(Arena *arena, const char *command) {
    FILE *stream = popen(command, "r");
    assert_non_null(stream);
    Buf bytes = {0};
    char part[4096];
    for (size_t got; (got = fread(part, 1, sizeof part, stream)) > 0;) buf_put(&bytes, part, got);
    assert_int_equal(pclose(stream), 0);
    Text *text = ARENA_NEW(arena, Text);
    text->bytes = arena_copy(arena, bytes.bytes ? bytes.bytes : "", bytes.length);
    text->length = bytes.length;
    buf_free(&bytes);
    return text;
}

/* Every dossier of the season but the hand-made sparse one, and the older revisions, byte for byte. */
static void test_season_makes_the_dossiers(void **state) {
    Shop *shop = *state;
    const Text *said = output_of(shop->arena, "python3 -B tests/tools/season/season.py --same dossiers");
    if (said->length) fail_msg("not what season.py makes: %.*s", (int)said->length, said->bytes);
}

static void test_season_hangs_together(void **state) {
    Shop *shop = *state;
    const Text *said =
        output_of(shop->arena, "python3 -B tests/tools/season/audit.py dossiers/vashti.xml dossiers/dordic-ohashi.xml");
    assert_int_equal(said->length, 0);
}

/* ---- the whole season ---- */

static void put_findings(Shop *shop, const char *path, Buf *out) {
    Diagnostics *diagnostics = diag_new();
    const Dossier *dossier = dossier_load(shop->arena, shop->context, path, diagnostics);
    assert_non_null(dossier);
    check_dossier(dossier, diagnostics);
    size_t count;
    const Reported *list = diag_list(diagnostics, shop->arena, &count);
    for (size_t i = 0; i < count; i++) {
        if (list[i].severity == SEVERITY_NOTE) continue;
        buf_printf(out, "%s: %s: %s [%s]\n", path, diag_severity_word(list[i].severity), list[i].message,
                   diag_rule(list[i].rule)->id);
    }
    diag_free(diagnostics);
}

/* Errors: none. Warnings: those that the season shows on purpose, which are listed. */
static void test_season_warns_of_what_is_meant(void **state) {
    Shop *shop = *state;
    Buf found = {0};
    glob_t paths;
    assert_int_equal(glob("dossiers/*.xml", 0, NULL, &paths), 0);
    assert_int_equal(glob("dossiers/earlier/*.xml", GLOB_APPEND, NULL, &paths), 0);
    assert_true(paths.gl_pathc >= 30);
    for (size_t i = 0; i < paths.gl_pathc; i++) put_findings(shop, paths.gl_pathv[i], &found);
    globfree(&paths);
    const Text *expected = file_read(shop->arena, "tests/templates/season.expected", shop->diagnostics);
    assert_non_null(expected);
    bool same = found.length == expected->length && memcmp(found.bytes, expected->bytes, found.length) == 0;
    if (!same) fail_msg("the season's findings are\n%s", buf_text(&found));
    buf_free(&found);
}

/* Every profile that ships has a player, and most players have film. */
static void test_season_covers_the_profiles(void **state) {
    Shop *shop = *state;
    glob_t dossiers, profiles;
    size_t players = 0, charted = 0, covered = 0;
    assert_int_equal(glob("dossiers/*.xml", 0, NULL, &dossiers), 0);
    assert_int_equal(glob("templates/profiles/*.xml", 0, NULL, &profiles), 0);
    bool *seen = ARENA_ARRAY(shop->arena, profiles.gl_pathc, bool);
    for (size_t i = 0; i < dossiers.gl_pathc; i++) {
        const Dossier *dossier = checked(shop, dossiers.gl_pathv[i]);
        const char *name = arena_printf(shop->arena, "templates/profiles/%s.xml", dossier->profile->id);
        players++;
        charted += dossier->snap_count >= 50;
        for (size_t k = 0; k < profiles.gl_pathc; k++) seen[k] |= strcmp(profiles.gl_pathv[k], name) == 0;
    }
    for (size_t k = 0; k < profiles.gl_pathc; k++) covered += seen[k];
    assert_int_equal(covered, profiles.gl_pathc);
    assert_true(players >= 30 && charted >= 20);
    globfree(&dossiers);
    globfree(&profiles);
}

/* An older revision is of the same report, filed before it, on fewer games: "earlier/birkett-1.xml" of "birkett.xml".
 */
static void test_earlier_revisions_come_before(void **state) {
    Shop *shop = *state;
    glob_t paths;
    assert_int_equal(glob("dossiers/earlier/*.xml", 0, NULL, &paths), 0);
    assert_true(paths.gl_pathc >= 3);
    for (size_t i = 0; i < paths.gl_pathc; i++) {
        const char *name = strrchr(paths.gl_pathv[i], '/') + 1;
        const char *now_path = arena_printf(shop->arena, "dossiers/%.*s.xml", (int)(strrchr(name, '-') - name), name);
        const Dossier *then = checked(shop, paths.gl_pathv[i]), *now = checked(shop, now_path);
        assert_string_equal(then->id, now->id);
        assert_true(then->filing.revision < now->filing.revision);
        assert_true(strcmp(then->filing.on, now->filing.on) < 0);
        assert_true(then->game_count < now->game_count);
    }
    globfree(&paths);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_profile_is_clean, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_names_that_are_relied_on, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_everything_printed_has_words, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_traits_weigh_a_hundred, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_flagship_checks_clean_but_for_what_is_meant, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_flagship_is_a_season, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_flagship_second_charts, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_flagship_claims, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_figures_are_those_of_an_independent_count, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_flagship_has_every_verdict, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_sparse_dossier, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_names_with_accents, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_season_makes_the_dossiers, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_season_hangs_together, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_season_warns_of_what_is_meant, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_season_covers_the_profiles, open_shop, close_shop),
        cmocka_unit_test_setup_teardown(test_earlier_revisions_come_before, open_shop, close_shop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
