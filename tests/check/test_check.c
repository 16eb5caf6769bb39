/* Every source of tests/check/sources against the findings of the checks expected beside it. A source whose name ends
 * in -fine stands just inside the rules that its twin breaks, and gives none. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/help_golden.h"
#include "check/check.h"
#include "check/check_parts.h"

enum { CLASHES_OF_A_QUARTERBACK = 36 };

typedef struct Tally {
    int failures;
    Buf all; /* every finding, to see which rules were met */
} Tally;

static void check_source(const char *path, void *data) {
    Tally *tally = data;
    Arena *arena = arena_new();
    Diagnostics *reading = diag_new(), *checking = diag_new();
    SourceContext *context = source_context_new("templates", NULL, reading);
    Dossier *dossier = dossier_load(arena, context, path, reading);
    if (!dossier || diag_errors(reading)) {
        diag_print(reading, stdout, false);
        tally->failures++;
    } else {
        check_dossier(dossier, checking);
        char *got = golden_print(checking), *wanted = golden_beside(path, ".expected");
        bool fine = strstr(path, "-fine.xml") != NULL;
        if (!golden_matches(wanted, got) || fine == (*got != '\0')) tally->failures++;
        buf_puts(&tally->all, got);
        free(got);
        free(wanted);
    }
    source_context_free(context);
    diag_free(checking);
    diag_free(reading);
    arena_free(arena);
}

static void test_sources(void **state) {
    (void)state;
    Tally tally = {0};
    assert_true(golden_each("tests/check/sources", ".xml", check_source, &tally) >= 20);
    assert_int_equal(tally.failures, 0);
    static const Rule rules[] = {
        RULE_CHART_ORDER,  RULE_CHART_CLOCK,    RULE_CHART_CHAIN,   RULE_CHART_UNCHAINED, RULE_CHART_CLASH,
        RULE_CHART_ODD,    RULE_BOX_SCORE,      RULE_CLIP_TIME,     RULE_CLIP_ODD,        RULE_IMPOSSIBLE,
        RULE_IMPLAUSIBLE,  RULE_MEASURED_TWICE, RULE_CLAIM_BARE,    RULE_CLAIM_CITE,      RULE_CLAIM_BOTH,
        RULE_GRADE_SCALE,  RULE_GRADE_MISSING,  RULE_GRADE_OVERALL, RULE_DUPLICATE,       RULE_REPORT_PLACEHOLDER,
        RULE_REPORT_STALE, RULE_CHART_DISAGREE, RULE_CHART_DIFFER,  RULE_CHART_UNMATCHED,
    };
    for (size_t i = 0; i < sizeof rules / sizeof rules[0]; i++) {
        Buf id = {0};
        buf_printf(&id, "[%s]", diag_rule(rules[i])->id);
        if (!strstr(buf_text(&tally.all), buf_text(&id))) fail_msg("no source breaks %s", diag_rule(rules[i])->id);
        buf_free(&id);
    }
    buf_free(&tally.all);
}

/* A row of the table of clashes with a slip in it would be passed over like one of another position. */
static void test_clashes_compile(void **state) {
    (void)state;
    Diagnostics *diagnostics = diag_new();
    SourceContext *context = source_context_new("templates", NULL, diagnostics);
    const Profile *profile = source_profile(context, "quarterback", (Place){0}, diagnostics);
    assert_non_null(profile);
    assert_int_equal(check_clash_count(profile), CLASHES_OF_A_QUARTERBACK);
    source_context_free(context);
    diag_free(diagnostics);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_sources), cmocka_unit_test(test_clashes_compile)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
