/* A page's content stream. Painting goes through here so that graphics state is written only when it changes. Points
 * given are those of pages.h (origin at the top left). */
#ifndef TB_PDF_CONTENT_H
#define TB_PDF_CONTENT_H

#include <stdbool.h>

#include "base/buf.h"
#include "pdf/codes.h"
#include "typeset/pages.h"

/* What the stream's reader has in force. Lengths in hundredths of a point. */
typedef struct Content {
    Buf out;
    unsigned tint; /* 0xRRGGBB of INK_ACCENT */
    double height; /* of the page */
    Ink fill, stroke;
    long width; /* of lines */
    long dash, gap;
    bool in_text;
    bool upright; /* the line matrix is a translation, so that Td can be used */
    int face;     /* -1: none yet */
    long size;
    long word_space; /* Tw, thousandths */
    long tracking;   /* Tc, thousandths */
    long rise;
    long x, y; /* start of the text line */
    /* Says what the glyphs that follow stand for, NULL: what their codes say. Called between strings of a text object.
     */
    void (*tell_text)(void *teller, const char *text);
    void *teller;
} Content;

void content_begin_page(Content *content, double height);

void content_begin_text(Content *content);
void content_end_text(Content *content);

/* A TEXT mark, inside a text object. */
void content_text(Content *content, Codes *codes, const Mark *mark);

/* LINE, SHAPE, RECT and DISC marks, outside text objects. */
void content_shape(Content *content, const Mark *mark);

/* The ink that text and areas are painted with. */
void content_set_fill(Content *content, Ink ink);

#endif
