/* The search for how many more snaps it takes. */
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdbool.h>

#include "stats/power.h"

/* A question that more snaps of the first side answer. */
typedef struct Question {
    Arena *scratch;
    int n1, n2;
    double p1, p2; /* or the standard */
    bool standard;
} Question;

static double power_with(const Question *question, int more) {
    int n1 = question->n1 + more;
    if (question->standard) return power_binomial(question->scratch, n1, question->p1, question->p2);
    return power_fisher(question->scratch, n1, question->p1, question->n2, question->p2);
}

/* How many standard errors a difference must measure to be found as often as wanted. */
static double needed_errors(void) {
    return gsl_cdf_ugaussian_Qinv(POWER_LEVEL / 2) + gsl_cdf_ugaussian_Pinv(POWER_WANTED);
}

/* Snaps of the first side in all, by the normal approximation with Yates's correction: where the exact search begins.
 */
static double guess(const Question *question) {
    enum { ROUNDS = 4 }; /* the correction depends on the answer */
    double second = question->standard ? 0 : question->p2 * (1 - question->p2) / question->n2;
    double correction2 = question->standard ? 0 : .5 / question->n2;
    double n = question->n1;
    for (int i = 0; i < ROUNDS; i++) {
        double error = (fabs(question->p1 - question->p2) - .5 / n - correction2) / needed_errors();
        double room = error > 0 ? error * error - second : 0;
        if (room <= 0) return INFINITY;
        n = fmax(question->p1 * (1 - question->p1) / room, 1);
    }
    return n;
}

static int clamp(double value, int low, int high) {
    if (!(value > low)) return low;
    return value < high ? (int)value : high;
}

/* Gallops from the guess until it is between a number that is not enough and one that is, then halves. Exact power is
 * not quite monotone in the number of snaps; the answer is one that is enough while one less is not. */
static int search(const Question *question, int least, int most) {
    int low = least - 1; /* not enough */
    int high = most + 1; /* enough, or beyond what is asked */
    int step = 2;
    int at = clamp(guess(question) - question->n1, least, most);
    while (high - low > 1) {
        bool enough = power_with(question, at) >= POWER_WANTED;
        if (enough)
            high = at;
        else
            low = at;
        bool bounded = low >= least && high <= most;
        at = bounded ? low + (high - low) / 2 : clamp(enough ? at - step : at + step, low + 1, high - 1);
        step *= 2;
    }
    return high;
}

static int more(const Question *question, int least, int most) {
    if (least < 0) least = 0;
    return least > most ? most + 1 : search(question, least, most);
}

int power_more_fisher(Arena *scratch, int k1, int n1, int k2, int n2, int least, int most) {
    if (n1 <= 0 || n2 <= 0) return -1;
    Question question = {scratch, n1, n2, (double)k1 / n1, (double)k2 / n2, false};
    return more(&question, least, most);
}

int power_more_binomial(Arena *scratch, int k, int n, double standard, int least, int most) {
    if (n <= 0) return -1;
    Question question = {scratch, n, 0, (double)k / n, standard, true};
    return more(&question, least, most);
}

int power_more_normal(double difference, double variance1, int n1, double variance2, int least, int most) {
    if (n1 <= 0 || isnan(difference) || isnan(variance1) || isnan(variance2)) return -1;
    double error = fabs(difference) / needed_errors();
    double room = error * error - variance2;
    if (room <= 0) return most + 1;
    double wanted = ceil(variance1 * n1 / room) - n1;
    return wanted > most ? most + 1 : clamp(wanted, least, most);
}
