/* Every figure with usual, extreme and empty data, drawn with fixed metrics and compared mark by mark with the text
 * files beside this one. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "typeset/figures/golden.h"

#define COUNT_OF(array) (sizeof(array) / sizeof *(array))

static const Axis PERCENT = {0, 1, 0.25, "%", 100};

/* ---- scale strips ---- */

static StripRow USUAL_STRIPS[] = {
    {"Height", "6043", "6 ft 4⅜ in", "5 ft 11⅜", "6 ft 5½", 71.4, 73.6, 75, 76.3, 77.5, 76.4, false, false, "81",
     "of 320"},
    {"Arm", "3228", "32¼ in", "29⅞", "33⅞", 29.9, 31.1, 32, 32.75, 33.9, 32.25, false, false, "58", "of 308"},
    {"Forty", "4.81h", "4.81 s, hand", "4.48", "5.05", 4.48, 4.64, 4.75, 4.87, 5.05, 4.81, true, true, "38", "of 268"},
    {"Bench", "22", "22", "", "", NAN, NAN, NAN, NAN, NAN, 22, false, true, "", ""},
};

static StripRow EXTREME_STRIPS[] = {
    {"Just past the end", "6061", "6 ft 6⅛ in", "5 ft 11⅜", "6 ft 5½", 71.4, 73.6, 75, 76.3, 77.5, 77.7, false, false,
     "97", "of 320"},
    {"Past the end value", "6070", "6 ft 7 in", "5 ft 11⅜", "6 ft 5½", 71.4, 73.6, 75, 76.3, 77.5, 79, false, false,
     "99", "of 320"},
    {"Off the axis", "8000", "8 ft", "5 ft 11⅜", "6 ft 5½", 71.4, 73.6, 75, 76.3, 77.5, 96, false, false, "100",
     "of 320"},
    {"Slow", "6.10", "6.10 s", "4.48", "5.05", 4.48, 4.64, 4.75, 4.87, 5.05, 6.1, true, false, "0", "of 268"},
    {"No value", "–", "not run", "4.48", "5.05", 4.48, NAN, NAN, 4.87, 5.05, NAN, true, false, "", "of 268"},
    {"All the same", "22", "22", "22", "22", 22, 22, 22, 22, 22, 22, false, false, "50", "of 3"},
};

/* ---- throw field ---- */

static FieldLane LANES[] = {
    {"left", 0, 9, {21, 33, 0.64, 0.47, 0.78}},        {"left seam", 9, 20, {35, 49, 0.71, 0.58, 0.82}},
    {"middle", 20, 33.33, {38, 53, 0.72, 0.58, 0.82}}, {"right seam", 33.33, 44.33, {28, 41, 0.68, 0.53, 0.80}},
    {"right", 44.33, 53.33, {3, 4, 0.75, 0.3, 0.95}},
};
static FieldBand BANDS[] = {
    {"behind", -7, 0, {23, 28, 0.82, 0.64, 0.92}},
    {"0–9 yards", 0, 9, {69, 92, 0.75, 0.65, 0.83}},
    {"10–19", 10, 19, {0, 0, NAN, NAN, NAN}},
    {"20+", 20, INFINITY, {9, 11, 0.82, 0.52, 0.95}},
};
static RateCell CELLS[] = {
    {4, 5, 0.8, 0.38, 0.96},    {7, 9, 0.78, 0.45, 0.94},    {6, 6, 1, 0.61, 1},         {5, 5, 1, 0.57, 1},
    {0, 0, NAN, NAN, NAN},      {9, 13, 0.69, 0.42, 0.87},   {16, 23, 0.70, 0.49, 0.84}, {17, 22, 0.77, 0.57, 0.90},
    {14, 19, 0.74, 0.51, 0.88}, {0, 0, NAN, NAN, NAN},       {0, 0, NAN, NAN, NAN},      {0, 0, NAN, NAN, NAN},
    {0, 0, NAN, NAN, NAN},      {0, 0, NAN, NAN, NAN},       {0, 0, NAN, NAN, NAN},      {3, 5, 0.6, 0.23, 0.88},
    {1, 1, 1, 0.21, 1},         {120, 400, 0.3, 0.26, 0.35}, {400, 400, 1, 0.99, 1},     {0, 0, NAN, NAN, NAN},
};
static FieldBand THIN_BANDS[] = {
    {"behind the line of scrimmage", -INFINITY, -2, {4, 5, 0.8, 0.38, 0.96}},
    {"at the line", -2, 2, {3, 4, 0.75, 0.3, 0.95}},
    {"2–3", 2, 3, {5, 5, 1, 0.57, 1}},
    {"4 and over", 3, 99, {5, 5, 1, 0.57, 1}},
};
static RateCell NO_CELLS[COUNT_OF(CELLS)];

/* ---- interval rows, claims, tests ---- */

static IntervalRow USUAL_ROWS[] = {
    {"Man", "65/82", "79%", "69–87", 0.79, 0.69, 0.87, false, false, true},
    {"Zone", "77/127", "61%", "52–69", 0.61, 0.52, 0.69, false, true, false},
    {"Clean pocket", "108/151", "72%", "64–78", 0.72, 0.64, 0.78, false, false, true},
    {"Disguised", "2/4", "50%", "15–85", 0.5, 0.15, 0.85, true, false, false},
};

static IntervalRow EXTREME_ROWS[] = {
    {"Below the axis", "0/40", "0%", "0–9", 0, 0, 0.09, false, false, false},
    {"Across its end", "12/40", "30%", "18–45", 0.3, 0.18, 0.45, false, false, false},
    {"Never charted", "0/0", "", "", NAN, NAN, NAN, true, false, true},
    {"A label so long that it takes more than one line of its column", "1204/2310", "52%", "50–54", 0.52, 0.50, 0.54,
     false, false, false},
    {"Donaudampfschifffahrtsgesellschaftskapitän", "5/5", "100%", "57–100", 1, 0.57, 1, false, true, false},
};

static ClaimRow USUAL_CLAIMS[] = {
    {"WHY",
     "Sharper against man than zone",
     "on target, of throws",
     "claim-man",
     {"man", "65/82", "79%", "69–87", 0.79, 0.69, 0.87, false, false, false},
     {"zone", "77/127", "61%", "52–69", 0.61, 0.52, 0.69, false, true, false},
     MARK_BORNE_OUT,
     "borne out",
     "adjusted p 0.018"},
    {NULL,
     "Throws it before the break",
     "on target, of throws",
     "claim-early",
     {"anticipated", "30/37", "81%", "66–91", 0.81, 0.66, 0.91, false, false, false},
     {"not", "112/172", "65%", "58–72", 0.65, 0.58, 0.72, false, true, false},
     MARK_LEANING,
     "leaning",
     "39 more would settle it"},
    {"WHY NOT",
     "Fooled when the shell turns late",
     "on target, of throws",
     "claim-shell",
     {"disguised", "3/7", "43%", "16–75", 0.43, 0.16, 0.75, false, false, false},
     {"as shown", "130/189", "69%", "62–75", 0.69, 0.62, 0.75, false, true, false},
     MARK_TOO_FEW,
     "too few to say",
     "21 more would settle it"},
    {NULL,
     "Fades in the fourth quarter",
     "on target, of throws",
     "claim-late",
     {"4th quarter", "36/43", "84%", "70–92", 0.84, 0.7, 0.92, false, false, false},
     {"1st–3rd", "106/166", "64%", "56–71", 0.64, 0.56, 0.71, false, true, false},
     MARK_CONTRADICTED,
     "contradicted",
     "the film says the reverse"},
};

static ClaimRow EXTREME_CLAIMS[] = {
    {"WHY",
     "A title that says so much that it cannot stand on one line of the front "
     "page",
     "yards after contact, of carries with contact",
     NULL,
     {"against a light box of six men or fewer", "18", "7.4", "", 7.4, NAN, NAN, false, false, false},
     {"", NULL, "", "", NAN, NAN, NAN, false, true, false},
     MARK_NONE,
     "",
     "no test: nothing to compare with"},
    {NULL,
     "",
     "",
     "claim-x",
     {"few", "1/2", "50%", "9–91", 0.5, 0.09, 0.91, true, false, false},
     {"none", "0/0", "–", "", NAN, NAN, NAN, true, true, false},
     MARK_LEANING_AGAINST,
     "leaning against",
     "more than a season can show"},
};

/* ---- traits and grades ---- */

static TraitRow USUAL_TRAITS[] = {
    {"Accuracy", "15", "6.5",
     "The ball arrives at the shoulder away from the man; high and outside "
     "when the front foot opens early.",
     6.5, 6, 7},
    {"Arm", "10", "6.0", "", 6, 5.5, 6.5},
    {"Legs", "5", "3.0", "Straight line only.", 3, NAN, NAN},
    {"Command", "15", "–", "not seen", NAN, NAN, NAN},
    {"Off the scale", "5", "11.0", "a slip of the pen", 11, 9, 11},
};

static GradeTick TICKS[] = {{1, "1", "gives"}, {3, "3", "leans"},      {4.5, "4.5", "shares"},
                            {6, "6", "holds"}, {7.5, "7.5", "drives"}, {9, "9", "carries"}};
static GradeTick LONG_TICKS[] = {{1, "1.0", "opponents go looking for it"},
                                 {2, "2.0", "the call has to protect it"},
                                 {2.5, "2.5", "right in a role"},
                                 {9, "9.0", "opponents plan their week around it"},
                                 {10, "10.0", ""}};

/* ---- the cases ---- */

typedef struct Case {
    const char *name;
    double width;
    Figure figure;
} Case;

static const Case CASES[] = {
    {"strips-usual",
     506,
     {FIGURE_SCALE_STRIPS, "Height 6 ft 4⅜ in, percentile 81", .as.strips = {USUAL_STRIPS, COUNT_OF(USUAL_STRIPS)}}},
    {"strips-extreme", 506, {FIGURE_SCALE_STRIPS, "six", .as.strips = {EXTREME_STRIPS, COUNT_OF(EXTREME_STRIPS)}}},
    {"strips-narrow", 248, {FIGURE_SCALE_STRIPS, "four", .as.strips = {USUAL_STRIPS, COUNT_OF(USUAL_STRIPS)}}},
    {"strips-empty", 506, {FIGURE_SCALE_STRIPS, "none", .as.strips = {NULL, 0}}},
    {"field-usual", 248, {FIGURE_THROW_FIELD, "throws", .as.field = {LANES, 5, BANDS, 4, CELLS}}},
    {"field-extreme", 248, {FIGURE_THROW_FIELD, "throws", .as.field = {LANES, 5, THIN_BANDS, 4, CELLS}}},
    {"field-empty", 248, {FIGURE_THROW_FIELD, "no throws", .as.field = {LANES, 5, BANDS, 4, NO_CELLS}}},
    {"intervals-usual",
     248,
     {FIGURE_INTERVAL_ROWS, "rates",
      .as.intervals = {USUAL_ROWS, COUNT_OF(USUAL_ROWS), {0.2, 1, 0.2, "%", 100}, 0.68}}},
    {"intervals-extreme",
     248,
     {FIGURE_INTERVAL_ROWS, "rates",
      .as.intervals = {EXTREME_ROWS, COUNT_OF(EXTREME_ROWS), {0.2, 1, 0.2, "%", 100}, NAN}}},
    {"intervals-empty", 248, {FIGURE_INTERVAL_ROWS, "none", .as.intervals = {NULL, 0, {0, 1, 0.25, "%", 100}, NAN}}},
    {"traits-usual", 506, {FIGURE_TRAIT_BARS, "grades", .as.traits = {USUAL_TRAITS, COUNT_OF(USUAL_TRAITS), 1, 10, 6}}},
    {"traits-narrow",
     248,
     {FIGURE_TRAIT_BARS, "grades", .as.traits = {USUAL_TRAITS, COUNT_OF(USUAL_TRAITS), 1, 10, NAN}}},
    {"traits-empty", 506, {FIGURE_TRAIT_BARS, "none", .as.traits = {NULL, 0, 1, 10, 6}}},
    {"grade-usual",
     506,
     {FIGURE_GRADE_RULE, "6.2",
      .as.grade = {TICKS, COUNT_OF(TICKS), 1, 10, 6.2, 6, 6.4, "three evaluators: 6.0, 6.2, 6.4"}}},
    {"grade-extreme",
     323,
     {FIGURE_GRADE_RULE, "9.8",
      .as.grade = {LONG_TICKS, COUNT_OF(LONG_TICKS), 1, 10, 9.8, 1.2, 9.9,
                   "nine evaluators: 1.2, 2.2, 3.4, 4.5, 5.0, 6.1, 7.2, 8.4, "
                   "9.9 who do not agree"}}},
    {"grade-empty",
     506,
     {FIGURE_GRADE_RULE, "none", .as.grade = {NULL, 0, 1, 10, NAN, NAN, NAN, "nobody has graded yet"}}},
    {"claims-usual",
     506,
     {FIGURE_CLAIM_ROWS, "claims", .as.claims = {USUAL_CLAIMS, COUNT_OF(USUAL_CLAIMS), {0, 1, 0.25, "%", 100}}}},
    {"claims-extreme",
     506,
     {FIGURE_CLAIM_ROWS, "claims", .as.claims = {EXTREME_CLAIMS, COUNT_OF(EXTREME_CLAIMS), {0, 1, 0.25, "%", 100}}}},
    {"claims-empty", 506, {FIGURE_CLAIM_ROWS, "none", .as.claims = {NULL, 0, {0, 1, 0.25, "%", 100}}}},
    {"key-wide", 506, {.kind = FIGURE_VERDICT_KEY, .alt = "verdicts"}},
    {"key-narrow", 248, {.kind = FIGURE_VERDICT_KEY, .alt = "verdicts"}},
};

static TapeTest tape_test(double point, double low, double high, int direction, VerdictMark mark) {
    TapeTest test = {
        .a = USUAL_ROWS[0], .b = USUAL_ROWS[1], .axis = PERCENT, .difference_axis = {-0.6, 0.6, 0.3, "", 100}};
    test.difference = (IntervalRow){
        .label = "Difference", .value = "+19", .interval = "+6 to +30", .point = point, .low = low, .high = high};
    test.direction = direction;
    test.testable = true;
    test.mark = mark;
    test.verdict = "borne out";
    return test;
}

static void check_case(void **state) {
    const Case *item = *state;
    check_golden(item->name, &item->figure, item->width);
}

static void check_tape_tests(void **state) {
    (void)state;
    Figure figure = {.kind = FIGURE_TAPE_TEST, .alt = "man 79%, zone 61%"};
    figure.as.test = tape_test(0.19, 0.06, 0.3, 1, MARK_BORNE_OUT);
    check_golden("test-borne-out", &figure, 248);
    figure.as.test = tape_test(-0.26, -0.7, 0.07, -1, MARK_TOO_FEW);
    check_golden("test-too-few", &figure, 248);
    figure.as.test.testable = false;
    figure.as.test.b = (IntervalRow){.point = NAN, .low = NAN, .high = NAN};
    figure.as.test.verdict = "";
    check_golden("test-one-side", &figure, 248);
}

int main(void) {
    struct CMUnitTest tests[COUNT_OF(CASES) + 1];
    for (size_t i = 0; i < COUNT_OF(CASES); i++)
        tests[i] = (struct CMUnitTest){
            .name = CASES[i].name, .test_func = check_case, .initial_state = (void *)(uintptr_t)&CASES[i]};
    tests[COUNT_OF(CASES)] = (struct CMUnitTest){.name = "tape tests", .test_func = check_tape_tests};
    return cmocka_run_group_tests_name("figures equal their goldens", tests, NULL, NULL);
}
