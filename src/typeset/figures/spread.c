#include "typeset/figures/spread.h"

void spread_apart(Spread *labels, size_t count, double low, double high) {
    double free = high;
    for (size_t i = count; i-- > 0;) {
        double most = free - labels[i].size / 2;
        if (labels[i].centre > most) labels[i].centre = most;
        free = labels[i].centre - labels[i].size / 2;
    }
    free = low;
    for (size_t i = 0; i < count; i++) {
        double least = free + labels[i].size / 2;
        if (labels[i].centre < least) labels[i].centre = least;
        free = labels[i].centre + labels[i].size / 2;
    }
}
