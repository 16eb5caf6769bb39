/* The font book: the loaded faces and every word shaped so far. */
#ifndef TB_PDF_BOOK_H
#define TB_PDF_BOOK_H

#include "base/arena.h"
#include "pdf/face.h"
#include "pdf/pdf.h"
#include "pdf/shape.h"

struct FontBook {
    Metrics metrics; /* first: a Metrics of ours is its book */
    LoadedFace faces[FACE_COUNT];
    Shaper shaper;
    Arena *arena; /* words and their runs */
    void **slots; /* open addressing, a power of two */
    size_t slot_room, word_count;
};

#endif
