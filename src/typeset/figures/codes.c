/* Addresses of clips as QR codes (ISO/IEC 18004), large enough to be read from paper, with the white around them that
 * readers need. */
#include <math.h>
#include <qrencode.h>

#include "typeset/figures/kit.h"

#define SYMBOL 46.8 /* 16.5 mm */
#define CELL 66.0   /* with the quiet zone */
#define CELL_HEIGHT 84.0
#define NAME_Y 64.0 /* baseline under the symbol */
#define TIME_Y 73.0
#define OVERLAP 0.03 /* of rows of modules, so that no white shows between them on a screen */

enum { QUIET_MODULES = 4, BLACK = 1 };

static size_t columns_of(double width) {
    return width < CELL ? 1 : (size_t)(width / CELL);
}

double codes_height(Canvas *canvas, const Figure *figure, double width) {
    (void)canvas;
    size_t columns = columns_of(width);
    size_t rows = (figure->as.codes.count + columns - 1) / columns;
    return rows ? CELL_HEIGHT * (double)rows : KIT_EMPTY_HEIGHT;
}

/* Modules of one row that stand together are one box. */
static void draw_row(Canvas *canvas, const unsigned char *modules, int size, double x, double y, double module) {
    for (int from = 0, to; from < size; from = to) {
        to = from + 1;
        if (!(modules[from] & BLACK)) continue;
        while (to < size && modules[to] & BLACK) to++;
        Box box = {x + module * from, y, module * (to - from), module + OVERLAP};
        canvas_rect(canvas, box, (Ink){INK_BLACK, 100}, 0, INK_NONE);
    }
}

/* The symbol, or its address in words where it is too long for one. */
static void draw_symbol(Canvas *canvas, const FilmCode *code, double x, double y) {
    QRcode *symbol = QRcode_encodeString(code->address, 0, QR_ECLEVEL_M, QR_MODE_8, BLACK);
    if (!symbol) {
        kit_lines(canvas, TYPE_NOTE, x, y + 9, ALIGN_LEFT, kit_wrap(canvas, TYPE_NOTE, code->address, SYMBOL), 9);
        return;
    }
    double module = SYMBOL / symbol->width;
    double quiet = fmin(QUIET_MODULES * module, (CELL - SYMBOL) / 2);
    for (int row = 0; row < symbol->width; row++) {
        draw_row(canvas, symbol->data + row * symbol->width, symbol->width, x, y + quiet + module * row, module);
    }
    QRcode_free(symbol);
}

void codes_draw(Canvas *canvas, const Figure *figure, double width) {
    const FilmCodes *codes = &figure->as.codes;
    size_t columns = columns_of(width);
    if (!codes->count) kit_empty(canvas, width, "no clip has an address");
    for (size_t i = 0; i < codes->count; i++) {
        const FilmCode *code = &codes->codes[i];
        size_t row = i / columns;
        double x = width / (double)columns * (double)(i % columns);
        double y = CELL_HEIGHT * (double)row;
        draw_symbol(canvas, code, x, y);
        kit_text(canvas, TYPE_LABEL_STRONG, x, y + NAME_Y, ALIGN_LEFT, code->name);
        kit_text(canvas, TYPE_NOTE, x, y + TIME_Y, ALIGN_LEFT, kit_cut(canvas, TYPE_NOTE, code->time, CELL - 4));
        canvas_link(canvas, (Box){x, y, SYMBOL, TIME_Y}, code->address);
    }
}
