#include "pdf/charmap.h"

#include "pdf/syntax.h"

enum {
    MOST_IN_BLOCK = 100, /* entries between begin and end, by the technical note */
    ROW = 256            /* codes that share their first byte */
};

#define SPACES_OF_CODES "2 begincodespacerange\n<00> <DF>\n<E000> <FFFF>\nendcodespacerange\n"
#define MAP_HEAD "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
#define MAP_FOOT "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"

static const char ZERO_WIDTH_SPACE[] = "\xE2\x80\x8B";

/* A range may not go over into another first byte. */
static void put_long_ranges(uint32_t count, Buf *out) {
    uint32_t rows = (count + ROW - 1) / ROW;
    if (!rows) return;
    buf_printf(out, "%u begincidrange\n", rows);
    for (uint32_t row = 0; row < rows; row++) {
        uint32_t first = CODES_FIRST_LONG + row * ROW;
        uint32_t character = CODES_FIRST_EXTRA + CODES_ONE_BYTE + row * ROW;
        buf_printf(out, "<%04X> <%04X> %u\n", first, first + ROW - 1, character);
    }
    BUF_PUT(out, "endcidrange\n");
}

void charmap_codes(uint32_t extra_count, Buf *out) {
    BUF_PUT(out, "%!PS-Adobe-3.0 Resource-CMap\n" MAP_HEAD);
    BUF_PUT(out, "/CIDSystemInfo 3 dict dup begin\n/Registry (Adobe) def\n/Ordering (Identity) def\n/Supplement 0 "
                 "def\nend def\n");
    BUF_PUT(out, "/CMapName /" CHARMAP_NAME " def\n/CMapType 1 def\n/WMode 0 def\n" SPACES_OF_CODES);
    buf_printf(out, "2 begincidrange\n<20> <7E> 32\n<%02X> <%02X> %d\nendcidrange\n", CODES_FIRST_EXTRA,
               CODES_FIRST_EXTRA + CODES_ONE_BYTE - 1, CODES_FIRST_EXTRA);
    if (extra_count > CODES_ONE_BYTE) put_long_ranges(extra_count - CODES_ONE_BYTE, out);
    BUF_PUT(out, MAP_FOOT);
}

/* A glyph without text of its own stands in a word whose text is told apart (ActualText); it still needs some. */
static void put_text(const GlyphPair *pair, Buf *units, Buf *out) {
    units->length = 0;
    if (pair->length)
        syntax_utf16(units, pair->text, pair->length);
    else
        syntax_utf16(units, ZERO_WIDTH_SPACE, sizeof ZERO_WIDTH_SPACE - 1);
    syntax_hex(out, units->bytes, units->length);
}

static void put_extras(const LoadedFace *face, const FaceCodes *codes, uint32_t first, uint32_t end, Buf *out) {
    Buf units = {0};
    buf_printf(out, "%u beginbfchar\n", end - first);
    for (uint32_t at = first; at < end; at++) {
        buf_printf(out, at < CODES_ONE_BYTE ? "<%02X> <" : "<%04X> <", (unsigned)codes_extra(at));
        put_text(&face->pairs[codes->extras[at]], &units, out);
        BUF_PUT(out, ">\n");
    }
    BUF_PUT(out, "endbfchar\n");
    buf_free(&units);
}

void charmap_text(const LoadedFace *face, const FaceCodes *codes, Buf *out) {
    BUF_PUT(out, MAP_HEAD);
    BUF_PUT(
        out,
        "/CIDSystemInfo 3 dict dup begin\n/Registry (Adobe) def\n/Ordering (UCS) def\n/Supplement 0 def\nend def\n");
    BUF_PUT(out, "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" SPACES_OF_CODES);
    BUF_PUT(out, "1 beginbfrange\n<20> <7E> <0020>\nendbfrange\n");
    for (uint32_t first = 0; first < codes->extra_count; first += MOST_IN_BLOCK) {
        uint32_t end = first + MOST_IN_BLOCK < codes->extra_count ? first + MOST_IN_BLOCK : codes->extra_count;
        put_extras(face, codes, first, end, out);
    }
    BUF_PUT(out, MAP_FOOT);
}
