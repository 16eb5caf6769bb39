/* Character codes of one document. ASCII has its own codes; every other pair of glyph and text gets the next free one
 * when the document first uses it, so that the same pages give the same codes whatever the book has shaped before. The
 * first are one byte, the rest two. */
#ifndef TB_PDF_CODES_H
#define TB_PDF_CODES_H

#include <stdbool.h>
#include <stdint.h>

#include "base/buf.h"
#include "pdf/book.h"

enum {
    CODES_FIRST_EXTRA = 0x80, /* one-byte codes after ASCII */
    CODES_ONE_BYTE = 0x60,    /* how many of them */
    CODES_FIRST_LONG = 0xE000,
    CODES_MOST_EXTRAS = CODES_ONE_BYTE + 0x2000
};

typedef struct FaceCodes {
    uint16_t *codes; /* by pair; 0: not used yet */
    uint32_t room;
    uint32_t *extras; /* pairs beyond ASCII, in order of their codes */
    uint32_t extra_count, extra_room;
    uint64_t plain[2]; /* ASCII characters used */
    bool used;
} FaceCodes;

typedef struct Codes {
    FontBook *book;
    FaceCodes faces[FACE_COUNT];
    bool full; /* a face needed more codes than there are */
} Codes;

void codes_free(Codes *codes);

/* Appends the code of a pair, escaped for a literal string. */
void codes_put(Codes *codes, Face face, uint32_t pair, Buf *out);

/* Notes that a plain run is used. */
void codes_use(Codes *codes, Face face, const GlyphRun *run);

/* Notes a space and appends it. */
void codes_put_space(Codes *codes, Face face, Buf *out);

/* Code of the extra numbered `index` from 0. */
uint16_t codes_extra(uint32_t index);

#endif
