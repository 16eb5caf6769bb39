#include "pdf/common.h"

#include <stddef.h>

#include "common_table.h"

const CommonTable *common_find(uint32_t checksum, uint32_t size) {
    for (size_t at = 0; at < sizeof common_tables / sizeof *common_tables; at++)
        if (common_tables[at].checksum == checksum && common_tables[at].size == size) return &common_tables[at];
    return NULL;
}
