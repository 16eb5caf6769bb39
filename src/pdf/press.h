/* Compression on a second thread. Pieces go in and come out in one order, and each is compressed by itself, so the
 * bytes do not depend on which thread did it, or on whether there is a second one. */
#ifndef TB_PDF_PRESS_H
#define TB_PDF_PRESS_H

#include <stdbool.h>
#include <stdint.h>

#include "base/buf.h"

typedef struct Press Press;

typedef struct Piece {
    uint32_t number; /* of the stream object */
    bool deflated;   /* false: `data` is written as it is */
    Buf entries;     /* of the stream's dictionary */
    Buf data;        /* what goes in */
    Buf squeezed;    /* zlib data, when deflated */
} Piece;

Press *press_new(void);
void press_free(Press *press);

/* The piece to fill in, its buffers empty, or NULL when the press is full: take one first. */
Piece *press_next(Press *press);

/* The piece filled in goes in. */
void press_put(Press *press);

/* The oldest piece, compressed, or NULL when there is none; without `wait` also NULL when it is not ready. The piece is
 * the caller's until the next call. */
const Piece *press_take(Press *press, bool wait);

/* True when a piece could not be compressed for want of memory. */
bool press_failed(Press *press);

#endif
