/* More than a thousand random data sets, each answered here and by R (compare.R). Skipped where R is not installed. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/buf.h"
#include "stats/bootstrap.h"
#include "stats/dist.h"
#include "stats/help_near.h"
#include "stats/help_stats.h"
#include "stats/icc.h"
#include "stats/interval.h"
#include "stats/kappa.h"
#include "stats/mahalanobis.h"
#include "stats/pooling.h"
#include "stats/quantile.h"
#include "stats/tests.h"

#define EXACT 1e-9

enum { MOST_ANSWERS = 64 };

/* What one line of questions should be answered with. */
typedef struct Answer {
    char method[16];
    size_t count;
    double values[MOST_ANSWERS];
    double tolerance;
} Answer;

typedef struct Quiz {
    Arena *arena;
    uint64_t seed;
    FILE *questions;
    Answer *answers;
    size_t count, room;
} Quiz;

static double uniform(Quiz *quiz) {
    return help_random(&quiz->seed);
}

/* 0 .. below - 1 */
static int whole(Quiz *quiz, int below) {
    return (int)(uniform(quiz) * below);
}

static Answer *ask(Quiz *quiz, const char *method, double tolerance) {
    if (quiz->count == quiz->room) {
        quiz->room = 2 * quiz->room + 256;
        quiz->answers = mem_resize(quiz->answers, quiz->room * sizeof *quiz->answers);
    }
    Answer *answer = &quiz->answers[quiz->count++];
    *answer = (Answer){.tolerance = tolerance};
    snprintf(answer->method, sizeof answer->method, "%s", method);
    fprintf(quiz->questions, "%s%s", quiz->count > 1 ? "\n" : "", method);
    return answer;
}

static void tell(Quiz *quiz, double number) {
    fprintf(quiz->questions, " %.17g", number);
}

static void expect(Answer *answer, double value) {
    assert_true(answer->count < MOST_ANSWERS);
    answer->values[answer->count++] = value;
}

static void ask_counts(Quiz *quiz) {
    int n1 = 1 + whole(quiz, 120);
    int n2 = 1 + whole(quiz, 120);
    int k1 = whole(quiz, n1 + 1);
    int k2 = whole(quiz, n2 + 1);
    Answer *answer = ask(quiz, "wilson", EXACT);
    Interval wilson = interval_wilson(k1, n1, .95);
    tell(quiz, k1);
    tell(quiz, n1);
    expect(answer, wilson.low);
    expect(answer, wilson.high);
    static const char *const METHODS[] = {"newcombe", "fisher"};
    for (int i = 0; i < 2; i++) {
        answer = ask(quiz, METHODS[i], EXACT);
        tell(quiz, k1);
        tell(quiz, n1);
        tell(quiz, k2);
        tell(quiz, n2);
        if (i) expect(answer, test_fisher(k1, n1, k2, n2));
        if (i) continue;
        Interval interval = interval_newcombe(k1, n1, k2, n2, .95);
        expect(answer, interval.low);
        expect(answer, interval.high);
    }
    double rate = .02 + .96 * uniform(quiz);
    answer = ask(quiz, "binomial", EXACT);
    tell(quiz, k1);
    tell(quiz, n1);
    tell(quiz, rate);
    expect(answer, test_binomial(k1, n1, rate));
}

static void ask_adjust(Quiz *quiz) {
    enum { MOST = 30 };
    double p[MOST];
    size_t count = 1 + (size_t)whole(quiz, MOST);
    Answer *answer = ask(quiz, "adjust", EXACT);
    for (size_t i = 0; i < count; i++) {
        p[i] = i && whole(quiz, 5) == 0 ? p[i - 1] : pow(uniform(quiz), 3); /* some equal */
        tell(quiz, p[i]);
    }
    test_adjust(quiz->arena, p, count, p);
    for (size_t i = 0; i < count; i++) expect(answer, p[i]);
}

static void ask_kappas(Quiz *quiz) {
    enum { MOST = 6 };
    double table[MOST * MOST];
    size_t values = 2 + (size_t)whole(quiz, MOST - 1);
    Answer *answer = ask(quiz, "kappas", EXACT);
    tell(quiz, (double)values);
    for (size_t i = 0; i < values * values; i++) {
        table[i] = 1 + whole(quiz, i % (values + 1) ? 8 : 40);
        tell(quiz, table[i]);
    }
    for (KappaWeights weights = KAPPA_PLAIN; weights <= KAPPA_QUADRATIC; weights++) {
        const double *weight = kappa_weights(quiz->arena, values, weights);
        expect(answer, kappa_from_table(quiz->arena, table, weight, values).kappa);
    }
}

static void ask_icc(Quiz *quiz) {
    enum { MOST_TARGETS = 20, MOST_JUDGES = 5 };
    double ratings[MOST_TARGETS * MOST_JUDGES];
    size_t targets = 4 + (size_t)whole(quiz, MOST_TARGETS - 3);
    size_t judges = 2 + (size_t)whole(quiz, MOST_JUDGES - 1);
    Answer *answer = ask(quiz, "icc", EXACT);
    tell(quiz, (double)targets);
    tell(quiz, (double)judges);
    for (size_t target = 0; target < targets; target++) {
        double level = 3 + 5 * uniform(quiz);
        for (size_t judge = 0; judge < judges; judge++) {
            double *rating = &ratings[target * judges + judge];
            *rating = round(2 * (level + .4 * (double)judge + 2 * uniform(quiz))) / 2;
            tell(quiz, *rating);
        }
    }
    Icc icc = icc_two_way(ratings, targets, judges, .95);
    expect(answer, icc.single);
    expect(answer, icc.average);
    expect(answer, icc.single_interval.low);
    expect(answer, icc.single_interval.high);
}

static void ask_quantile(Quiz *quiz) {
    enum { MOST = 60 };
    double values[MOST];
    size_t count = 1 + (size_t)whole(quiz, MOST);
    double p = uniform(quiz);
    Answer *answer = ask(quiz, "quantile", EXACT);
    tell(quiz, p);
    for (size_t i = 0; i < count; i++) {
        values[i] = round(800 * uniform(quiz)) / 8;
        tell(quiz, values[i]);
    }
    quantile_sort(values, count);
    expect(answer, quantile_type7(values, count, p));
}

static void ask_distances(Quiz *quiz) {
    enum { MOST_ROWS = 30, MOST_KINDS = 5 };
    double values[MOST_ROWS * MOST_KINDS], player[MOST_KINDS], distance[MOST_ROWS];
    size_t kinds = 1 + (size_t)whole(quiz, MOST_KINDS);
    size_t rows = kinds + 3 + (size_t)whole(quiz, MOST_ROWS - MOST_KINDS - 2);
    Answer *answer = ask(quiz, "distances", EXACT);
    tell(quiz, (double)rows);
    tell(quiz, (double)kinds);
    for (size_t kind = 0; kind < kinds; kind++) tell(quiz, player[kind] = 60 + 20 * uniform(quiz));
    for (size_t i = 0; i < rows * kinds; i++) {
        values[i] = (i % kinds ? .4 * values[i - 1] + 40 : 60) + 20 * uniform(quiz);
        tell(quiz, values[i]);
    }
    assert_int_equal(mahalanobis(quiz->arena, values, rows, kinds, player, distance), rows);
    for (size_t row = 0; row < rows; row++) expect(answer, distance[row]);
}

/* The answer is no slope and nothing higher. */
static void ask_pooling(Quiz *quiz) {
    enum { MOST = 40 };
    int k[MOST], n[MOST];
    size_t players = 12 + (size_t)whole(quiz, MOST - 11);
    for (size_t i = 0; i < players; i++) {
        double rate = .1 + .8 * uniform(quiz) * uniform(quiz);
        n[i] = 5 + whole(quiz, 60);
        k[i] = 0;
        for (int snap = 0; snap < n[i]; snap++) k[i] += uniform(quiz) < rate;
    }
    Pool pool = pooling_fit(k, n, players);
    if (pool.alike) return;
    Answer *answer = ask(quiz, "pooling", 1e-8);
    tell(quiz, pool.alpha);
    tell(quiz, pool.beta);
    tell(quiz, (double)players);
    for (size_t i = 0; i < players; i++) tell(quiz, k[i]);
    for (size_t i = 0; i < players; i++) tell(quiz, n[i]);
    for (int i = 0; i < 3; i++) expect(answer, 0);
}

static void ask_tails(Quiz *quiz) {
    double tail = .001 + .4 * uniform(quiz);
    double a = .5 + 40 * uniform(quiz);
    double b = .5 + 40 * uniform(quiz);
    Answer *answer = ask(quiz, "tails", 1e-8); /* F of little over half a degree has a long tail */
    tell(quiz, tail);
    tell(quiz, a);
    tell(quiz, b);
    expect(answer, dist_student_upper(tail, a));
    expect(answer, dist_beta_lower(tail, a, b));
    expect(answer, dist_f_upper(tail, a, b));
}

/* Within Monte-Carlo error: an end at the 2.5 % point of 2000 replicates has one of about 0.06 standard errors. */
static void ask_bca(Quiz *quiz) {
    enum { ROWS = 40 };
    float table[ROWS * BOOTSTRAP_LANES] __attribute__((aligned(16))) = {0};
    double x[ROWS], replicates[BOOTSTRAP_REPLICATES], influence[ROWS], sums[BOOTSTRAP_LANES];
    double sum = 0;
    for (size_t i = 0; i < ROWS; i++) sum += x[i] = uniform(quiz) < .4 ? 0 : floor(-9 * log(1 - uniform(quiz)));
    for (size_t i = 0; i < ROWS; i++) {
        table[i * BOOTSTRAP_LANES] = (float)x[i];
        influence[i] = sum / ROWS - (sum - x[i]) / (ROWS - 1);
    }
    static const size_t STRATA[] = {ROWS};
    BootstrapTable all = {table, BOOTSTRAP_LANES, STRATA, 1, ROWS};
    Bootstrap *bootstrap = bootstrap_new(&all, (uint32_t)quiz->seed);
    for (size_t i = 0; i < BOOTSTRAP_REPLICATES; i++) {
        bootstrap_draw(bootstrap, sums);
        replicates[i] = sums[0] / ROWS;
    }
    bootstrap_free(bootstrap);
    double skew = bootstrap_acceleration(influence, ROWS);
    BootstrapStatistic statistic = {sum / ROWS, replicates, BOOTSTRAP_REPLICATES, skew, INFINITY, 1};
    Interval interval = bootstrap_interval(&statistic, .95);
    Answer *answer = ask(quiz, "bca", .3 * sqrt(bootstrap_variance(influence, ROWS)));
    for (size_t i = 0; i < ROWS; i++) tell(quiz, x[i]);
    expect(answer, interval.low);
    expect(answer, interval.high);
}

static void ask_all(Quiz *quiz) {
    static const struct {
        void (*ask)(Quiz *quiz);
        int times;
    } PLAN[] = {{ask_counts, 250},   {ask_adjust, 80},  {ask_kappas, 120}, {ask_icc, 80}, {ask_quantile, 100},
                {ask_distances, 80}, {ask_pooling, 60}, {ask_tails, 80},   {ask_bca, 12}};
    for (size_t i = 0; i < sizeof PLAN / sizeof *PLAN; i++) {
        for (int time = 0; time < PLAN[i].times; time++) PLAN[i].ask(quiz);
    }
    fputc('\n', quiz->questions);
}

/* Compares a line of R's answers; returns whether it has any (a package that is not installed answers NA). */
static bool check_line(const Answer *answer, char *line) {
    bool any = false;
    char *at = line;
    for (size_t i = 0; i < answer->count; i++) {
        char *end;
        double value = strtod(at, &end);
        if (end == at && strncmp(at + strspn(at, " "), "NA", 2) == 0) return false;
        if (end == at) fail_msg("%s: R answers '%s'", answer->method, line);
        any = true;
        if (fabs(value - answer->values[i]) > answer->tolerance * fmax(1, fabs(value))) {
            fail_msg("%s, number %zu: %.15g, but R has %.15g", answer->method, i + 1, answer->values[i], value);
        }
        at = end;
    }
    return any;
}

static void compare(const Quiz *quiz, FILE *answers) {
    char *line = NULL;
    size_t room = 0;
    size_t compared = 0;
    for (size_t i = 0; i < quiz->count; i++) {
        if (getline(&line, &room, answers) < 0) fail_msg("R stopped at question %zu of %zu", i + 1, quiz->count);
        compared += check_line(&quiz->answers[i], line);
    }
    free(line);
    print_message("%zu of %zu data sets agree with R\n", compared, quiz->count);
    assert_true(compared >= 1000);
}

static void test_against_r(void **state) {
    (void)state;
    if (system("command -v Rscript >/dev/null 2>&1") != 0) {
        print_message("skipped: Rscript is not installed\n");
        skip();
    }
    char path[] = P_tmpdir "/tapebound-r-XXXXXX";
    int file = mkstemp(path);
    assert_true(file >= 0);
    Quiz quiz = {.arena = arena_new(), .seed = 20311118, .questions = fdopen(file, "w")};
    assert_non_null(quiz.questions);
    ask_all(&quiz);
    assert_int_equal(fclose(quiz.questions), 0);
    Buf command = {0};
    buf_printf(&command, "Rscript --vanilla tests/stats/compare.R %s", path);
    FILE *answers = popen(buf_text(&command), "r");
    assert_non_null(answers);
    compare(&quiz, answers);
    assert_int_equal(pclose(answers), 0);
    unlink(path);
    buf_free(&command);
    free(quiz.answers);
    arena_free(quiz.arena);
}

int main(void) {
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_against_r)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
