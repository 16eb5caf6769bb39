/* Points on the field. */
#ifndef TB_SOURCE_YARDS_H
#define TB_SOURCE_YARDS_H

#include <stddef.h>

/* Yards. `x` from the ball, + to the right as the offence looks (in templates: + to the strong side); `y` from the line
 * of scrimmage, + upfield. */
typedef struct YardPoint {
    double x, y;
} YardPoint;

typedef struct YardPoints {
    YardPoint *points;
    size_t count;
} YardPoints;

#endif
