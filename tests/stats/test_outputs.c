/* JSON, CSV and the terminal's tables of a small chart, compared with files beside this one. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jansson.h>

#include "base/buf.h"
#include "stats/findings.h"
#include "stats/help_near.h"
#include "stats/help_stats.h"

static const char *const CHART[] = {
    "0 yes man 12 on 15 1 long left",  "0 yes man 5 off 0 2 long right", "0 yes zone 22 on 22 3 short left",
    "0 yes zone 8 ? 3 2 long left",    "0 yes man 7 on 9 1 long left",   "1 yes man 6 on 6 1 long right",
    "1 yes zone 2 off 0 2 long right", "1 yes zone 9 off 0 3 long left", "1 yes man 14 on 20 1 long left",
    "1 yes man 3 on 4 2 short left",   "1 yes man 11 on 12 1 long left", "0 yes zone 16 off 0 1 long left",
    "0 yes zone 4 off 0 1 long left",  "0 yes zone 4 on 5 1 long left",  "1 yes zone 13 off 0 1 long left",
    "1 yes man 1 on 2 1 long left",    "1 yes man 17 on 19 1 long left", "1 yes zone 1 off 0 1 long left",
};

static ScaleQuantile QUANTILES[] = {{5, 4.5}, {50, 4.8}, {95, 5.1}};
static ScaleMeasurable FORTY = {.kind = "forty", .n = 320, .quantiles = QUANTILES, .quantile_count = 3};
static const Scale SCALE = {.id = "throwers", .measurables = &FORTY, .count = 1};
static MeasurableKind FORTY_KIND = {.id = "forty", .better = BETTER_LESS};
static Measurable MEASURABLES[] = {{.kind = &FORTY_KIND, .id = "forty", .value = 4.65, .notation = "4.65"},
                                   {.id = "hand", .value = 9.5, .notation = "0940"}};
static Cite CITES[] = {{.snap = 0, .text = "x"}, {.snap = 5, .text = "y"}};

static Help chart(void) {
    Help help = help_new();
    help_chart(&help, CHART, sizeof CHART / sizeof *CHART);
    help.dossier->measurables = MEASURABLES;
    help.dossier->measurable_count = 2;
    Claim *claims = help_claims(&help, 2);
    claims[0].title = "Sharper against man";
    claims[0].against = HELP_ZONE;
    claims[0].cites = CITES;
    claims[0].cite_count = 2;
    claims[1].title = "Better deep";
    claims[1].kind = CLAIM_CONCERN;
    claims[1].slice = HELP_DEEP;
    claims[1].measure = HELP_PER_ATTEMPT;
    return help;
}

static void read_file(const char *path, Buf *into) {
    FILE *file = fopen(path, "rb");
    if (!file) fail_msg("no file %s", path);
    for (int byte; (byte = fgetc(file)) != EOF;) buf_putc(into, (char)byte);
    fclose(file);
}

/* With the variable TB_WRITE_EXPECTED set the file is written anew: read the difference before committing. */
static void assert_file(Buf *got, const char *path) {
    Buf wanted = {0};
    if (getenv("TB_WRITE_EXPECTED")) {
        FILE *file = fopen(path, "wb");
        assert_non_null(file);
        fwrite(got->bytes, 1, got->length, file);
        fclose(file);
    }
    read_file(path, &wanted);
    assert_string_equal(buf_text(got), buf_text(&wanted));
    buf_free(&wanted);
}

static void check(void (*put)(const Findings *findings, Buf *out), const char *path) {
    Help help = chart();
    Buf out = {0};
    put(findings_compute(help.arena, help.dossier, &SCALE), &out);
    assert_file(&out, path);
    buf_free(&out);
    help_free(&help);
}

static void test_csv(void **state) {
    (void)state;
    check(findings_csv, "tests/stats/outputs.csv");
}

static void test_text(void **state) {
    (void)state;
    check(findings_text, "tests/stats/outputs.txt");
}

static void test_json(void **state) {
    (void)state;
    check(findings_json, "tests/stats/outputs.json");
}

/* What is not there is null, never 0 or "nan". */
static void test_json_nulls(void **state) {
    (void)state;
    Help help = help_new();
    help_chart(&help, NULL, 0);
    help_claims(&help, 1);
    Buf out = {0};
    findings_json(findings_compute(help.arena, help.dossier, NULL), &out);
    json_t *root = json_loadb(out.bytes, out.length, 0, NULL);
    assert_non_null(root);
    json_t *claim = json_array_get(json_object_get(root, "claims"), 0);
    static const char *const NULLS[] = {"difference", "low", "high", "p", "p_adjusted", "snaps_needed"};
    for (size_t i = 0; i < sizeof NULLS / sizeof *NULLS; i++)
        assert_true(json_is_null(json_object_get(claim, NULLS[i])));
    assert_string_equal(json_string_value(json_object_get(claim, "verdict")), "too-few");
    assert_true(json_is_null(json_object_get(json_object_get(claim, "a"), "value")));
    assert_int_equal(json_integer_value(json_object_get(json_object_get(claim, "a"), "n")), 0);
    assert_int_equal(json_array_size(json_object_get(root, "measures")), HELP_MEASURES * (HELP_SLICES + 1));
    json_decref(root);
    buf_free(&out);
    help_free(&help);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_csv),
        cmocka_unit_test(test_text),
        cmocka_unit_test(test_json),
        cmocka_unit_test(test_json_nulls),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
