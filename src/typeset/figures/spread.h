/* Labels in a column, moved along it by as little as keeps them apart. */
#ifndef TB_TYPESET_FIGURES_SPREAD_H
#define TB_TYPESET_FIGURES_SPREAD_H

#include <stddef.h>

typedef struct Spread {
    double centre; /* wanted; afterwards where it goes */
    double size;
} Spread;

/* Labels in order of their wanted centres, kept between `low` and `high`; when they do not fit there, they pass `high`.
 */
void spread_apart(Spread *labels, size_t count, double low, double high);

#endif
