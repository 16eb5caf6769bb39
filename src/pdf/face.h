/* The faces: which file each is, and what the file holds once it is loaded. */
#ifndef TB_PDF_FACE_H
#define TB_PDF_FACE_H

#include <hb.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "pdf/common.h"
#include "typeset/metrics.h"

typedef struct FaceInfo {
    const char *file;
    const char *name; /* PostScript name */
    bool serif, italic;
    bool tabular;  /* figures of one width */
    Face fallback; /* drawn from when a character is missing here */
} FaceInfo;

extern const FaceInfo face_table[FACE_COUNT];

/* A glyph as it stands for a stretch of text. Pairs below FACE_PLAIN_PAIRS are single ASCII characters, by their code,
 * with the glyph that the face draws for them alone; the others are numbered as they are met. */
enum { FACE_PLAIN_PAIRS = 128, FACE_NO_PAIR = 0 };

typedef struct GlyphPair {
    uint32_t glyph;
    uint32_t length; /* 0: the glyph belongs to the text of the one before it */
    const char *text;
    uint32_t next;  /* in the chain of its glyph */
    double advance; /* thousandths */
} GlyphPair;

typedef struct LoadedFace {
    const FaceInfo *info;
    hb_blob_t *blob;
    hb_face_t *face;
    hb_font_t *font;
    const CommonTable *common; /* NULL: not a font that the program was built with */
    double unit;               /* thousandths to a unit of the font */
    double space;              /* thousandths */
    double cap_height;         /* thousandths */
    GlyphPair *pairs;
    uint32_t pair_count, pair_room;
    uint32_t *chains; /* by glyph: first pair, or FACE_NO_PAIR */
    uint32_t glyph_count;
} LoadedFace;

/* False when `path` cannot be read (errno set) or is no font (errno EINVAL). */
bool face_open(LoadedFace *face, const FaceInfo *info, const char *path);
void face_close(LoadedFace *face);

/* checkSumAdjustment of the head table, which depends on every byte of the file; 0 when there is none. */
uint32_t face_checksum(const LoadedFace *face);

/* Makes the shaping font when first needed. */
void face_prepare(LoadedFace *face);

/* Shapes what `buffer` holds with the features of the face. */
void face_shape(LoadedFace *face, hb_buffer_t *buffer);

/* The glyph that stands for one ASCII character; `scratch` is shaped in. */
uint32_t face_plain_glyph(LoadedFace *face, hb_buffer_t *scratch, unsigned char character);

/* The pair of `glyph` and `text`, added when new; the text must live as long as the face. */
uint32_t face_pair(LoadedFace *face, hb_buffer_t *scratch, uint32_t glyph, const char *text, size_t length);

/* Advance in thousandths. */
double face_advance(const LoadedFace *face, uint32_t glyph);

bool face_has(const LoadedFace *face, uint32_t character);

#endif
