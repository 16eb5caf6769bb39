#include "pdf/kern.h"

#include <stdint.h>

#include "base/arena.h"

enum {
    FIRST = ' ',
    COUNT = '~' - ' ' + 1,
    KERN_UNKNOWN = 0,          /* as the table is allocated */
    KERN_SHAPED = INT16_MIN,   /* the pair does more than kern */
    KERN_ZERO = INT16_MAX / 2, /* what stands for no kerning; values lie around it */
    KERN_MOST = 4000           /* units */
};

static int16_t shape_pair(LoadedFace *face, hb_buffer_t *scratch, unsigned char left, unsigned char right) {
    const char text[2] = {(char)left, (char)right};
    uint32_t glyphs[2] = {face_plain_glyph(face, scratch, left), face_plain_glyph(face, scratch, right)};
    hb_buffer_clear_contents(scratch);
    hb_buffer_add_utf8(scratch, text, 2, 0, 2);
    hb_buffer_set_direction(scratch, HB_DIRECTION_LTR);
    hb_buffer_set_script(scratch, HB_SCRIPT_LATIN);
    face_shape(face, scratch);
    unsigned count;
    const hb_glyph_info_t *shaped = hb_buffer_get_glyph_infos(scratch, &count);
    const hb_glyph_position_t *places = hb_buffer_get_glyph_positions(scratch, &count);
    if (count != 2 || shaped[0].codepoint != glyphs[0] || shaped[1].codepoint != glyphs[1]) return KERN_SHAPED;
    if (places[0].x_offset || places[0].y_offset || places[1].x_offset || places[1].y_offset) return KERN_SHAPED;
    if (places[1].x_advance != hb_font_get_glyph_h_advance(face->font, glyphs[1])) return KERN_SHAPED;
    int kern = places[0].x_advance - hb_font_get_glyph_h_advance(face->font, glyphs[0]);
    return kern > -KERN_MOST && kern < KERN_MOST ? (int16_t)(KERN_ZERO + kern) : (int16_t)KERN_SHAPED;
}

bool kern_find(LoadedFace *face, hb_buffer_t *scratch, unsigned char left, unsigned char right, int *units) {
    if (!face->kerns) face->kerns = mem_alloc(COUNT * COUNT * sizeof *face->kerns);
    int16_t *kern = &face->kerns[(left - FIRST) * COUNT + right - FIRST];
    if (*kern == KERN_UNKNOWN) *kern = shape_pair(face, scratch, left, right);
    *units = *kern - KERN_ZERO;
    return *kern != KERN_SHAPED;
}
