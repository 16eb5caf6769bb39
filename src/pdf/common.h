/* What the fonts of the program do with the common characters, printable ASCII and the punctuation of English print:
 * glyphs, advances and kerning, found out through HarfBuzz when the program is built (common_make.c). Nearly all words
 * are set from these tables; to shape one costs a hundred times as much. */
#ifndef TB_PDF_COMMON_H
#define TB_PDF_COMMON_H

#include <stdint.h>

enum {
    COMMON_ASCII = '~' - ' ' + 1, /* the first of them, in order of their codes */
    COMMON_COUNT = COMMON_ASCII + 11,
    COMMON_NONE = -1,
    COMMON_SHAPED = INT16_MIN /* in place of a kerning: the two do more to each other than move */
};

/* Of one font. Lengths are in its units. */
typedef struct CommonTable {
    uint32_t checksum;             /* of the whole file, as its head table has it */
    uint32_t size;                 /* of the file in bytes */
    uint16_t glyphs[COMMON_COUNT]; /* of each character alone; 0: the font lacks it */
    uint16_t advances[COMMON_COUNT];
    int16_t kerns[COMMON_COUNT][COMMON_COUNT]; /* [left][right]: what comes between beyond the left one's advance */
} CommonTable;

/* The character of an index, and the index of a character or COMMON_NONE. */
uint32_t common_character(unsigned index);
int common_index(uint32_t character);

/* The table of the font with this checksum and size, or NULL: it is not one that the program was built with. */
const CommonTable *common_find(uint32_t checksum, uint32_t size);

#endif
