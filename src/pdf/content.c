#include "pdf/content.h"

#include <math.h>

#include "pdf/syntax.h"

/* Darkest grey, of 255: the ink of the house is #16191d, near enough to neutral that one ink prints it. */
enum { INK_LEVEL = 25, FULL_LEVEL = 255, FULL_TINT = 100 };

/* Of the radius: how far the control points of a quarter circle stand from its ends, 4/3 (sqrt 2 - 1). */
static const double QUARTER = 0.5522847498307936;

static const Ink NOT_SET = {INK_BLACK, UINT8_MAX};

void content_begin_page(Content *content, double height) {
    content->out.length = 0;
    content->height = height;
    content->fill = content->stroke = NOT_SET;
    content->width = 100;
    content->dash = content->gap = 0;
    content->in_text = false;
    content->face = -1;
    content->word_space = content->tracking = content->rise = 0;
}

static bool is_same(Ink a, Ink b) {
    return a.base == b.base && a.tint == b.tint;
}

/* A channel of `level` (0..255) thinned to the tint, in thousandths. */
static long thin(int level, int tint) {
    return lround(1000.0 * (FULL_LEVEL - (double)(FULL_LEVEL - level) * tint / FULL_TINT) / FULL_LEVEL);
}

static void put_ink(Content *content, Ink ink, const char *grey, const char *colour) {
    Buf *out = &content->out;
    int tint = ink.tint > FULL_TINT ? FULL_TINT : ink.tint;
    if (ink.base != INK_ACCENT) {
        syntax_thousandths(out, ink.base == INK_PAPER ? 1000 : thin(INK_LEVEL, tint));
        buf_puts(out, grey);
        return;
    }
    for (int shift = 16; shift >= 0; shift -= 8) {
        syntax_thousandths(out, thin((int)(content->tint >> shift & FULL_LEVEL), tint));
        buf_putc(out, ' ');
    }
    buf_puts(out, colour);
}

void content_set_fill(Content *content, Ink ink) {
    if (is_same(content->fill, ink)) return;
    content->fill = ink;
    put_ink(content, ink, " g\n", "rg\n");
}

static void set_stroke(Content *content, Ink ink) {
    if (is_same(content->stroke, ink)) return;
    content->stroke = ink;
    put_ink(content, ink, " G\n", "RG\n");
}

static void set_width(Content *content, float points) {
    long width = syntax_round(points);
    if (width == content->width) return;
    content->width = width;
    syntax_hundredths(&content->out, width);
    BUF_PUT(&content->out, " w\n");
}

static void set_dash(Content *content, float dash, float gap) {
    long on = syntax_round(dash);
    long off = syntax_round(gap);
    if (on <= 0 || off < 0) on = off = 0;
    if (on == content->dash && off == content->gap) return;
    content->dash = on;
    content->gap = off;
    buf_putc(&content->out, '[');
    if (on) {
        syntax_hundredths(&content->out, on);
        buf_putc(&content->out, ' ');
        syntax_hundredths(&content->out, off);
    }
    BUF_PUT(&content->out, "] 0 d\n");
}

static void put_length(Content *content, double points) {
    syntax_hundredths(&content->out, syntax_round(points));
    buf_putc(&content->out, ' ');
}

static void put_point(Content *content, double x, double y) {
    put_length(content, x);
    put_length(content, content->height - y);
}

/* To a tenth of a point, less than the dot of a laser printer at 600 dpi (0.12): lines are most of a figure's bytes. */
static void put_tenths(Content *content, double points) {
    syntax_hundredths(&content->out, syntax_round(round(points * 10) / 10));
    buf_putc(&content->out, ' ');
}

static void put_polygon(Content *content, const Mark *mark) {
    for (uint32_t at = 0; at < mark->count; at++) {
        put_tenths(content, mark->points[at].x);
        put_tenths(content, content->height - mark->points[at].y);
        buf_puts(&content->out, at ? "l " : "m ");
    }
}

static void put_rectangle(Content *content, const Mark *mark) {
    const Box *box = &mark->box;
    put_point(content, box->x, box->y + box->height);
    put_length(content, box->width);
    put_length(content, box->height);
    BUF_PUT(&content->out, "re ");
}

static void put_disc(Content *content, const Mark *mark) {
    /* The four quarters, each by two control points and an end, in radii from the centre. */
    static const double quarters[4][6] = {{1, QUARTER, QUARTER, 1, 0, 1},
                                          {-QUARTER, 1, -1, QUARTER, -1, 0},
                                          {-1, -QUARTER, -QUARTER, -1, 0, -1},
                                          {QUARTER, -1, 1, -QUARTER, 1, 0}};
    Point centre = mark->points[0];
    double radius = mark->size;
    put_point(content, centre.x + radius, centre.y);
    BUF_PUT(&content->out, "m ");
    for (int quarter = 0; quarter < 4; quarter++) {
        const double *at = quarters[quarter];
        for (int pair = 0; pair < 6; pair += 2)
            put_point(content, centre.x + radius * at[pair], centre.y + radius * at[pair + 1]);
        BUF_PUT(&content->out, "c ");
    }
}

/* The operator that ends a path: nothing, fill, stroke, or both; closed first where the figure is. */
static const char *paint_operator(const Mark *mark) {
    bool fills = mark->fill.tint && mark->kind != MARK_LINE;
    bool strokes = mark->stroke.tint;
    bool closes = mark->kind == MARK_SHAPE || mark->kind == MARK_DISC;
    if (fills && strokes) return closes ? "b\n" : "B\n";
    if (fills) return "f\n";
    return closes ? "s\n" : "S\n";
}

static bool is_drawn(const Mark *mark) {
    if (!mark->stroke.tint && (mark->kind == MARK_LINE || !mark->fill.tint)) return false;
    if (mark->kind == MARK_LINE || mark->kind == MARK_SHAPE) return mark->count >= 2;
    return true;
}

void content_shape(Content *content, const Mark *mark) {
    if (!is_drawn(mark)) return;
    if (mark->fill.tint && mark->kind != MARK_LINE) content_set_fill(content, mark->fill);
    if (mark->stroke.tint) {
        set_stroke(content, mark->stroke);
        set_width(content, mark->stroke_width);
        set_dash(content, mark->dash, mark->gap);
    }
    if (mark->kind == MARK_RECT)
        put_rectangle(content, mark);
    else if (mark->kind == MARK_DISC)
        put_disc(content, mark);
    else
        put_polygon(content, mark);
    buf_puts(&content->out, paint_operator(mark));
}
