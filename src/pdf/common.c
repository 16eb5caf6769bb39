#include "pdf/common.h"

static const uint16_t beyond_ascii[COMMON_COUNT - COMMON_ASCII] = {
    0xA0,                           /* no-break space */
    0xB7,   0xD7,                   /* middle dot, multiplication sign */
    0x2013, 0x2014,                 /* dashes */
    0x2018, 0x2019, 0x201C, 0x201D, /* quotation marks */
    0x2026, 0x2212,                 /* ellipsis, minus */
};

uint32_t common_character(unsigned index) {
    return index < COMMON_ASCII ? ' ' + index : beyond_ascii[index - COMMON_ASCII];
}

int common_index(uint32_t character) {
    if (character >= ' ' && character <= '~') return (int)(character - ' ');
    for (int at = 0; at < COMMON_COUNT - COMMON_ASCII; at++)
        if (beyond_ascii[at] == character) return COMMON_ASCII + at;
    return COMMON_NONE;
}
