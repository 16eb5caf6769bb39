#include "stats/dist.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_randist.h>
#include <math.h>
#include <stdlib.h>

#include "base/arena.h"

enum { MOST_STEPS = 200 };

/* Newton's method from the normal quantile, which is never too large: the tail is convex there, so each step stays
 * short of the answer and no step can go astray. */
double dist_student_upper(double tail, double degrees) {
    double at = gsl_cdf_ugaussian_Qinv(tail);
    for (int i = 0; i < MOST_STEPS; i++) {
        double next = at + (gsl_cdf_tdist_Q(at, degrees) - tail) / gsl_ran_tdist_pdf(at, degrees);
        if (!(next > at)) break;
        at = next;
    }
    return at;
}

double dist_beta_lower(double share, double alpha, double beta) {
    double low = 0;
    double high = 1;
    for (int i = 0; i < MOST_STEPS; i++) {
        double middle = low + (high - low) / 2;
        if (middle <= low || middle >= high) break;
        if (gsl_cdf_beta_P(middle, alpha, beta) < share)
            low = middle;
        else
            high = middle;
    }
    return high;
}

/* F of d1 and d2 is (1 - v) / v * d2 / d1 with v from a beta distribution of d2 / 2 and d1 / 2. */
double dist_f_upper(double tail, double degrees1, double degrees2) {
    double v = dist_beta_lower(tail, degrees2 / 2, degrees1 / 2);
    return (1 - v) / v * degrees2 / degrees1;
}

static void on_error(const char *reason, const char *file, int line, int code) {
    (void)reason, (void)file, (void)line;
    if (code == GSL_ENOMEM) mem_exhausted();
    abort();
}

void dist_share_exhaustion(void) {
    gsl_set_error_handler(on_error);
}
