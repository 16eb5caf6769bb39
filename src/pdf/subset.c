#include "pdf/subset.h"

#include <hb-subset.h>

/* A face with nothing but outlines and widths. hb-subset follows every table it sees, mapping tables and layout rules
 * above all: shown the whole face it takes three to ten times as long for the same glyphs. */
static hb_face_t *outlines_of(hb_face_t *face) {
    static const hb_tag_t tables[] = {HB_TAG('h', 'e', 'a', 'd'), HB_TAG('h', 'h', 'e', 'a'),
                                      HB_TAG('m', 'a', 'x', 'p'), HB_TAG('h', 'm', 't', 'x'),
                                      HB_TAG('l', 'o', 'c', 'a'), HB_TAG('g', 'l', 'y', 'f')};
    hb_face_t *outlines = hb_face_builder_create();
    for (size_t at = 0; at < sizeof tables / sizeof *tables; at++) {
        hb_blob_t *table = hb_face_reference_table(face, tables[at]);
        hb_face_builder_add_table(outlines, tables[at], table);
        hb_blob_destroy(table);
    }
    return outlines;
}

static hb_subset_input_t *new_input(const hb_set_t *glyphs) {
    hb_subset_input_t *input = hb_subset_input_create_or_fail();
    if (!input) return NULL;
    hb_set_union(hb_subset_input_glyph_set(input), glyphs);
    hb_subset_input_set_flags(input, HB_SUBSET_FLAGS_NO_HINTING | HB_SUBSET_FLAGS_NOTDEF_OUTLINE);
    return input;
}

static void take_numbers(const hb_subset_plan_t *plan, const hb_set_t *glyphs, hb_map_t *numbers) {
    const hb_map_t *map = hb_subset_plan_old_to_new_glyph_mapping(plan);
    for (hb_codepoint_t glyph = HB_SET_VALUE_INVALID; hb_set_next(glyphs, &glyph);)
        hb_map_set(numbers, glyph, hb_map_get(map, glyph));
}

static bool execute(hb_face_t *face, const hb_subset_input_t *input, const hb_set_t *glyphs, hb_map_t *numbers,
                    Buf *out) {
    hb_subset_plan_t *plan = hb_subset_plan_create_or_fail(face, input);
    hb_face_t *subset = plan ? hb_subset_plan_execute_or_fail(plan) : NULL;
    if (subset) {
        take_numbers(plan, glyphs, numbers);
        hb_blob_t *blob = hb_face_reference_blob(subset);
        unsigned length;
        const char *bytes = hb_blob_get_data(blob, &length);
        buf_put(out, bytes, length);
        hb_blob_destroy(blob);
        hb_face_destroy(subset);
    }
    hb_subset_plan_destroy(plan);
    return subset != NULL;
}

bool subset_write(const LoadedFace *face, const hb_set_t *glyphs, hb_map_t *numbers, Buf *out) {
    hb_subset_input_t *input = new_input(glyphs);
    if (!input) return false;
    hb_face_t *outlines = outlines_of(face->face);
    bool done = execute(outlines, input, glyphs, numbers, out) && out->length;
    hb_face_destroy(outlines);
    hb_subset_input_destroy(input);
    return done;
}
