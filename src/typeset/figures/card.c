/* The wall card, 127 by 51 millimetres, and the marks to cut it out along: what must be read across a room is large,
 * the dark end slides behind a rail or is punched. */
#include <math.h>

#include "typeset/figures/kit.h"
#include "typeset/figures/markers.h"

#define CARD_WIDTH 360.0  /* 127 mm */
#define CARD_HEIGHT 144.6 /* 51 mm */
#define CROP_GAP 3.0
#define CROP_LENGTH 9.0
#define MARGIN (CROP_GAP + CROP_LENGTH)
#define PANEL 62.0
#define SCALE_X 71.0 /* the grade's scale, beside the panel */
#define SCALE_TOP 14.0
#define SCALE_BOTTOM 131.0
#define BODY_LEFT 86.0
#define BODY_RIGHT 348.0
#define NAME_Y 34.0
#define LINE_Y 50.0
#define RULE_Y 58.5
#define CLAIMS_TOP 72.0
#define CLAIMS_BOTTOM 124.0
#define CLAIM_PITCH 18.0
#define CLAIM_TITLE 34.0 /* from the mark's left end */
#define FOOT_Y 135.5
#define GAP 12.0 /* least white between what stands at the left and at the right of a line */

enum { MOST_CLAIMS = 4 };

static const double name_size = 27;
static const double name_least = 13;

#define PAPER_INK                                                                                                      \
    { INK_PAPER, 100 }

static const TextStyle TYPE_CODE = {FACE_STRONG, 11.0f, PAPER_INK, 0};
static const TextStyle TYPE_GRADE = {FACE_DISPLAY, 31.0f, PAPER_INK, 0};
static const TextStyle TYPE_WORD = {FACE_PLAIN, 9.0f, PAPER_INK, 0};
static const TextStyle TYPE_SIZE = {FACE_STRONG, 13.0f, {INK_BLACK, 100}, 0};
static const TextStyle TYPE_LINE = {FACE_PLAIN, 9.5f, {INK_BLACK, 100}, 0};
static const TextStyle TYPE_CLAIM = {FACE_PLAIN, 10.0f, {INK_BLACK, 100}, 0};
static const TextStyle TYPE_COUNTS = {FACE_STRONG, 10.0f, {INK_BLACK, 100}, 0};

double card_height(Canvas *canvas, const Figure *figure, double width) {
    (void)canvas;
    (void)figure;
    (void)width;
    return CARD_HEIGHT + 2 * MARGIN;
}

static void draw_crop(Canvas *canvas, double x, double y, int right, int down) {
    double across = right ? 1 : -1;
    double along = down ? 1 : -1;
    canvas_line(canvas, x + across * CROP_GAP, y, x + across * MARGIN, y, LINE_FRAME, INK);
    canvas_line(canvas, x, y + along * CROP_GAP, x, y + along * MARGIN, LINE_FRAME, INK);
}

/* Something at the right of a line and, in what it leaves, something at the left. */
static void draw_ends(Canvas *canvas, double y, TextStyle left, const char *from, TextStyle right, const char *to) {
    double taken = kit_wider(canvas, right, to, 0);
    double room = BODY_RIGHT - BODY_LEFT - taken - (taken > 0 ? GAP : 0);
    kit_text(canvas, right, BODY_RIGHT, y, ALIGN_RIGHT, to);
    kit_text(canvas, left, BODY_LEFT, y, ALIGN_LEFT, kit_cut(canvas, left, from, room));
}

/* A long name is set smaller, and cut only when that is not enough. */
static void draw_name(Canvas *canvas, const WallCard *card) {
    TextStyle style = {FACE_DISPLAY, (float)name_size, {INK_BLACK, 100}, 0};
    double size = kit_wider(canvas, TYPE_SIZE, card->size, 0);
    double room = BODY_RIGHT - BODY_LEFT - size - (size > 0 ? GAP : 0);
    double width = kit_wider(canvas, style, card->surname, 0);
    if (width > room) style.size = (float)fmax(name_least, name_size * room / width * 0.995);
    draw_ends(canvas, NAME_Y, style, card->surname, TYPE_SIZE, card->size);
}

static void draw_panel(Canvas *canvas, const WallCard *card) {
    canvas_rect(canvas, (Box){0, 0, PANEL, CARD_HEIGHT}, INK, 0, INK_NONE);
    TextStyle word = TYPE_WORD;
    double room = PANEL - 8;
    kit_text(canvas, TYPE_CODE, PANEL / 2, 22, ALIGN_CENTRE, kit_cut(canvas, TYPE_CODE, card->code, room));
    kit_text(canvas, TYPE_GRADE, PANEL / 2, 83, ALIGN_CENTRE, card->grade);
    kit_text(canvas, word, PANEL / 2, FOOT_Y - 3, ALIGN_CENTRE, kit_cut(canvas, word, card->word, room));
}

static double scale_y(const WallCard *card, double grade) {
    double share = (grade - card->low) / (card->high - card->low);
    return SCALE_BOTTOM - fmin(1, fmax(0, share)) * (SCALE_BOTTOM - SCALE_TOP);
}

/* The house's scale upright, its whole grades as ticks, the starter's bar the longest; the wedge is his grade. */
static void draw_scale(Canvas *canvas, const WallCard *card) {
    if (!(card->high > card->low)) return;
    canvas_line(canvas, SCALE_X, SCALE_TOP, SCALE_X, SCALE_BOTTOM, LINE_AXIS, INK);
    for (double grade = ceil(card->low); grade <= card->high && card->high - card->low <= 20; grade++) {
        canvas_line(canvas, SCALE_X, scale_y(card, grade), SCALE_X + 2.5, scale_y(card, grade), LINE_AXIS, INK);
    }
    double bar = scale_y(card, card->bar);
    canvas_line(canvas, SCALE_X - 4, bar, SCALE_X + 4, bar, LINE_OWN, INK);
    if (!isfinite(card->value)) return;
    double y = scale_y(card, card->value);
    const Point wedge[] = {{SCALE_X, y}, {SCALE_X + 7, y - 4}, {SCALE_X + 7, y + 4}};
    canvas_shape(canvas, wedge, 3, INK, 0, INK_NONE);
}

static void draw_claims(Canvas *canvas, const WallCard *card) {
    size_t count = card->claim_count < MOST_CLAIMS ? card->claim_count : MOST_CLAIMS;
    double pitch = count > 1 ? fmin(CLAIM_PITCH, (CLAIMS_BOTTOM - CLAIMS_TOP) / (double)(count - 1)) : CLAIM_PITCH;
    for (size_t i = 0; i < count; i++) {
        const CardClaim *claim = &card->claims[i];
        double y = CLAIMS_TOP + pitch * (double)i;
        double baseline = kit_centre(canvas, TYPE_CLAIM, y);
        double counts = kit_wider(canvas, TYPE_COUNTS, claim->counts, 0);
        double left = BODY_LEFT + CLAIM_TITLE;
        marker_verdict(canvas, BODY_LEFT, y, claim->mark);
        kit_text(canvas, TYPE_COUNTS, BODY_RIGHT, baseline, ALIGN_RIGHT, claim->counts);
        kit_text(canvas, TYPE_CLAIM, left, baseline, ALIGN_LEFT,
                 kit_cut(canvas, TYPE_CLAIM, claim->title, BODY_RIGHT - left - counts - GAP));
    }
    if (!count) kit_text(canvas, TYPE_LABEL_MUTED, BODY_LEFT, CLAIMS_TOP + 3, ALIGN_LEFT, "No claim is made.");
}

void card_draw(Canvas *canvas, const Figure *figure, double width) {
    const WallCard *card = &figure->as.card;
    double x = canvas->x;
    double y = canvas->y;
    canvas->x += fmax(0, (width - CARD_WIDTH) / 2);
    canvas->y += MARGIN;
    for (int corner = 0; corner < 4; corner++) {
        int right = corner & 1;
        int down = corner >> 1;
        draw_crop(canvas, right ? CARD_WIDTH : 0, down ? CARD_HEIGHT : 0, right, down);
    }
    draw_panel(canvas, card);
    draw_scale(canvas, card);
    draw_name(canvas, card);
    draw_ends(canvas, LINE_Y, TYPE_LINE, card->line, TYPE_LABEL, card->measured);
    canvas_line(canvas, BODY_LEFT, RULE_Y, BODY_RIGHT, RULE_Y, LINE_FRAME, INK);
    draw_claims(canvas, card);
    draw_ends(canvas, FOOT_Y, TYPE_LABEL, card->headline, TYPE_NOTE, card->rests_on);
    canvas->x = x;
    canvas->y = y;
}
