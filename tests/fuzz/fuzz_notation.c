/* Trade notation: the first byte chooses what is measured, the rest is the notation. What was read is written in both
 * ways, and the trade's own digits read back to the same value. */
#include <math.h>

#include "fuzz/help_fuzz.h"
#include "source/notation.h"

static int kinds(void) {
    int count = 0;
    while (measurable_info_at(count)) count++;
    return count;
}

static void check_back(const MeasurableInfo *info, const char *written, double value) {
    double back;
    bool by_hand;
    if (value < info->human_low || value > info->human_high) return; /* the notation has digits for humans only */
    if (!notation_read(info, written, &back, &by_hand)) __builtin_trap();
    if (fabs(back - value) > 0.5) __builtin_trap(); /* eighths of an inch, whole pounds, hundredths */
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    if (length == 0) return 0;
    const MeasurableInfo *info = measurable_info_at(bytes[0] % kinds());
    Arena *arena = arena_new();
    const char *text = arena_copy(arena, (const char *)bytes + 1, length - 1);
    double value;
    bool by_hand = false;
    if (notation_read(info, text, &value, &by_hand)) {
        if (!isfinite(value)) __builtin_trap();
        (void)notation_plain(arena, info, value);
        check_back(info, notation_trade(arena, info, value), value);
    }
    arena_free(arena);
    return 0;
}
