/* Run when the program is built: asks HarfBuzz what each face does with the common characters, and tells it as C tables
 * on standard output.
 *
 *     common_make fonts > common_table.h
 */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "pdf/common.h"
#include "pdf/face.h"

enum { PER_LINE = 24 };

static _Noreturn void fail(const char *what, const char *detail) {
    fprintf(stderr, "common_make: %s: %s\n", what, detail);
    exit(1);
}

/* ---- asking HarfBuzz ---- */

typedef struct Maker {
    LoadedFace face;
    hb_buffer_t *buffer;
    CommonTable table;
} Maker;

/* Shapes what is in the buffer, as the program shapes words. */
static void shape(Maker *maker) {
    hb_buffer_set_direction(maker->buffer, HB_DIRECTION_LTR);
    hb_buffer_set_script(maker->buffer, HB_SCRIPT_LATIN);
    hb_buffer_set_language(maker->buffer, hb_language_from_string("en", -1));
    face_shape(&maker->face, maker->buffer);
}

static void add_character(Maker *maker, unsigned index) {
    hb_buffer_add(maker->buffer, common_character(index), index);
}

static void fill_character(Maker *maker, unsigned index) {
    hb_buffer_clear_contents(maker->buffer);
    hb_buffer_set_content_type(maker->buffer, HB_BUFFER_CONTENT_TYPE_UNICODE);
    add_character(maker, index);
    shape(maker);
    unsigned count;
    uint32_t glyph = hb_buffer_get_glyph_infos(maker->buffer, &count)->codepoint;
    hb_position_t advance = hb_font_get_glyph_h_advance(maker->face.font, glyph);
    if (count != 1 || glyph > UINT16_MAX || advance < 0 || advance > UINT16_MAX)
        fail("an odd character in", maker->face.info->file);
    maker->table.glyphs[index] = (uint16_t)glyph;
    maker->table.advances[index] = (uint16_t)advance;
}

static int16_t kern_of(Maker *maker, unsigned left, unsigned right) {
    const CommonTable *table = &maker->table;
    if (!table->glyphs[left] || !table->glyphs[right]) return COMMON_SHAPED;
    hb_buffer_clear_contents(maker->buffer);
    hb_buffer_set_content_type(maker->buffer, HB_BUFFER_CONTENT_TYPE_UNICODE);
    add_character(maker, left);
    add_character(maker, right);
    shape(maker);
    unsigned count;
    const hb_glyph_info_t *glyphs = hb_buffer_get_glyph_infos(maker->buffer, &count);
    const hb_glyph_position_t *places = hb_buffer_get_glyph_positions(maker->buffer, &count);
    if (count != 2 || glyphs[0].codepoint != table->glyphs[left] || glyphs[1].codepoint != table->glyphs[right])
        return COMMON_SHAPED;
    if (places[0].x_offset || places[0].y_offset || places[1].x_offset || places[1].y_offset) return COMMON_SHAPED;
    int kern = places[0].x_advance - table->advances[left];
    bool is_kern = kern > INT16_MIN && kern <= INT16_MAX && places[1].x_advance == table->advances[right];
    return is_kern ? (int16_t)kern : (int16_t)COMMON_SHAPED;
}

static void fill_table(Maker *maker) {
    maker->table.checksum = face_checksum(&maker->face);
    maker->table.size = hb_blob_get_length(maker->face.blob);
    for (unsigned index = 0; index < COMMON_COUNT; index++) fill_character(maker, index);
    for (unsigned left = 0; left < COMMON_COUNT; left++)
        for (unsigned right = 0; right < COMMON_COUNT; right++)
            maker->table.kerns[left][right] = kern_of(maker, left, right);
}

/* ---- telling ---- */

static void put_number(int number, size_t at) {
    printf("%s%d,", at % PER_LINE ? "" : "\n", number);
}

static void put_table(const CommonTable *table, const char *file) {
    printf("{ /* %s */\n%uu, %uu, {", file, table->checksum, table->size);
    for (size_t at = 0; at < COMMON_COUNT; at++) put_number(table->glyphs[at], at);
    printf("},\n{");
    for (size_t at = 0; at < COMMON_COUNT; at++) put_number(table->advances[at], at);
    printf("},\n{");
    for (size_t left = 0; left < COMMON_COUNT; left++) {
        putchar('{');
        for (size_t right = 0; right < COMMON_COUNT; right++) put_number(table->kerns[left][right], right);
        printf("},\n");
    }
    printf("}},\n");
}

static void make_table(const FaceInfo *info, const char *folder) {
    Arena *arena = arena_new();
    const char *path = arena_printf(arena, "%s/%s", folder, info->file);
    Maker maker = {.buffer = hb_buffer_create()};
    if (!face_open(&maker.face, info, path)) fail(path, strerror(errno));
    face_prepare(&maker.face);
    fill_table(&maker);
    put_table(&maker.table, info->file);
    face_close(&maker.face);
    hb_buffer_destroy(maker.buffer);
    arena_free(arena);
}

int main(int count, char **arguments) {
    if (count != 2) fail("usage", "common_make FOLDER");
    printf("/* Made by common_make from the fonts; not to be edited. */\n#include \"pdf/common.h\"\n\n");
    printf("static const CommonTable common_tables[] = {\n");
    for (int face = 0; face < FACE_COUNT; face++) make_table(&face_table[face], arguments[1]);
    printf("};\n");
    return fflush(stdout) == 0 && !ferror(stdout) ? 0 : 1;
}
