/* Comparing numbers in tests. */
#ifndef TB_TESTS_HELP_NEAR_H
#define TB_TESTS_HELP_NEAR_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* Fails the test unless `value` is within `tolerance` of `wanted`; two NaN agree. */
static inline void help_near(double value, double wanted, double tolerance) {
    if (isnan(value) && isnan(wanted)) return;
    if (!(fabs(value - wanted) <= tolerance)) fail_msg("%.12g is not %.12g within %g", value, wanted, tolerance);
}

#endif
