#include "typeset/style.h"

#include <stddef.h>

/* Sizes relative to the text around: snap codes stand in the sans cut, which looks larger. */
static const float link_size = 0.88f;

typedef struct StyleRow {
    Face plain, emphasis, strong;
    float size;
    double leading;
    uint8_t tint;
    bool justified;
    float tracking;
} StyleRow;

static const StyleRow rows[] = {
    [SET_PROSE] = {FACE_PROSE, FACE_PROSE_ITALIC, FACE_PROSE_STRONG, 9.5f, 12, 100, true, 0},
    [SET_PROSE_NEXT] = {FACE_PROSE, FACE_PROSE_ITALIC, FACE_PROSE_STRONG, 9.5f, 12, 100, true, 0},
    [SET_NOTE] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 7.5f, 9, 75, false, 0},
    [SET_CAPTION] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 8.5f, 12, 100, false, 0},
    [SET_LABEL] = {FACE_STRONG, FACE_STRONG, FACE_STRONG, 7.5f, 12, 100, false, 60},
    [SET_CELL] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 8, 12, 100, false, 0},
    [SET_CELL_STRONG] = {FACE_STRONG, FACE_STRONG, FACE_STRONG, 8, 12, 100, false, 0},
    [SET_CELL_HEAD] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 7.5f, 9, 75, false, 0},
    [SET_DENSE] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 7.5f, 10, 100, false, 0},
    [SET_DENSE_STRONG] = {FACE_STRONG, FACE_STRONG, FACE_STRONG, 7.5f, 10, 100, false, 0},
    [SET_DENSE_HEAD] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 7.5f, 9, 75, false, 0},
    [SET_TITLE] = {FACE_HEAD, FACE_HEAD, FACE_HEAD, 16, 18, 100, false, 0},
    [SET_TITLE_NOTE] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 8.5f, 12, 100, false, 0},
    [SET_HEAD] = {FACE_HEAD, FACE_HEAD, FACE_HEAD, 11.5f, 13, 100, false, 0},
    [SET_HEAD_NOTE] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 7.5f, 9, 75, false, 0},
    [SET_CLAIM] = {FACE_HEAD, FACE_HEAD, FACE_HEAD, 13, 15, 100, false, 0},
    [SET_NAME] = {FACE_DISPLAY, FACE_DISPLAY, FACE_DISPLAY, 34, 36, 100, false, 0},
    [SET_NAME_NOTE] = {FACE_PROSE, FACE_PROSE_ITALIC, FACE_PROSE_STRONG, 11, 14, 100, false, 0},
    [SET_GRADE] = {FACE_DISPLAY, FACE_DISPLAY, FACE_DISPLAY, 52, 48, 100, false, 0},
    [SET_HEADLINE] = {FACE_HEAD, FACE_HEAD, FACE_HEAD, 13, 15, 100, false, 0},
    [SET_VERDICT] = {FACE_PROSE, FACE_PROSE_ITALIC, FACE_PROSE_STRONG, 9.5f, 12, 100, false, 0},
    [SET_FACT_LABEL] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 8.5f, 12, 75, false, 0},
    [SET_FACT] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 8.5f, 12, 100, false, 0},
    [SET_SIDE_FACT] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 8.5f, 11.5, 75, false, 0},
    [SET_RUNNING] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 8.5f, 12, 100, false, 0},
    [SET_LEAF] = {FACE_STRONG, FACE_STRONG, FACE_STRONG, 8.5f, 12, 100, false, 0},
    [SET_FOOT] = {FACE_PLAIN, FACE_MEDIUM, FACE_STRONG, 7.5f, 9, 75, false, 0},
    [SET_TAB] = {FACE_STRONG, FACE_STRONG, FACE_STRONG, 9, 12, 100, false, 0},
};
_Static_assert(sizeof rows / sizeof *rows == SETTING_COUNT, "every setting has its row");

/* Links are semibold sans in the accent, smaller where the text around is serif. */
static TextStyle link_style(const StyleRow *row) {
    bool serif = row->plain == FACE_PROSE;
    return (TextStyle){FACE_STRONG, serif ? row->size * link_size : row->size, {INK_ACCENT, 100}, 0};
}

static void fill(Setting *setting, const StyleRow *row) {
    Ink ink = {INK_BLACK, row->tint};
    TextStyle plain = {row->plain, row->size, ink, row->tracking};
    for (size_t i = 0; i < SPAN_KINDS; i++) setting->text[i] = plain;
    setting->text[SPAN_EMPHASIS].face = row->emphasis;
    setting->text[SPAN_STRONG].face = row->strong;
    setting->text[SPAN_MUTED].ink = INK_MUTED;
    setting->text[SPAN_LINK] = link_style(row);
    setting->leading = row->leading;
    setting->justified = row->justified;
    setting->indent = 0;
}

void style_fill(Setting *settings, const Layout *layout) {
    for (size_t i = 0; i < SETTING_COUNT; i++) {
        StyleRow row = rows[i];
        if (row.plain == FACE_PROSE && row.size < rows[SET_NAME_NOTE].size) {
            row.size = (float)layout->prose_size;
            row.leading = layout->prose_leading;
        }
        fill(&settings[i], &row);
    }
    settings[SET_PROSE_NEXT].indent = layout->prose_leading;
}
