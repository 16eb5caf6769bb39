/* The key to the marks of drawn snaps: those that stand on the page, in as many rows as the width asks for. */
#include <math.h>

#include "typeset/figures/play.h"

#define RULE_HEIGHT 5.0
#define ROW_HEIGHT 14.0
#define WORD_GAP 4.0
#define ENTRY_GAP 13.0
#define SAMPLE 22.0 /* of a line */
#define DIAMOND 3.4

typedef void DrawSample(Canvas *canvas, double x, double y);

typedef struct Entry {
    PlayPart part;
    const char *word;
    double width; /* of the sample */
    DrawSample *draw;
} Entry;

static void draw_offence(Canvas *canvas, double x, double y) {
    play_draw_mark(canvas, PLAY_LINEMAN, (Point){x + 3.3, y}, PLAY_LINEMAN_RADIUS, "");
    play_draw_mark(canvas, PLAY_CENTRE, (Point){x + 11, y}, PLAY_LINEMAN_RADIUS, "");
}

static void draw_defence(Canvas *canvas, double x, double y) {
    play_draw_mark(canvas, PLAY_DEFENDER, (Point){x + 4, y}, PLAY_DEFENDER_RADIUS, "C");
}

static void draw_read(Canvas *canvas, double x, double y) {
    play_draw_read(canvas, (Point){x + PLAY_READ_RADIUS, y}, "1");
}

static void draw_way(Canvas *canvas, double x, double y, PlayWay way) {
    const Point points[] = {{x, y}, {x + SAMPLE, y}};
    play_draw_stroke(canvas, &PLAY_STROKES[way], points, 2, false);
}

static void draw_target(Canvas *canvas, double x, double y) {
    draw_way(canvas, x, y, PLAY_TARGET);
}

static void draw_route(Canvas *canvas, double x, double y) {
    draw_way(canvas, x, y, PLAY_ROUTE);
}

static void draw_motion(Canvas *canvas, double x, double y) {
    draw_way(canvas, x, y, PLAY_MOTION);
}

static void draw_drop(Canvas *canvas, double x, double y) {
    draw_way(canvas, x, y, PLAY_DROP);
}

static void draw_rush(Canvas *canvas, double x, double y) {
    draw_way(canvas, x, y, PLAY_RUSH);
}

static void draw_ball(Canvas *canvas, double x, double y) {
    double end = x + SAMPLE - DIAMOND;
    const Point points[] = {{x, y}, {end, y}};
    const Point corners[] = {{end, y - DIAMOND}, {end + DIAMOND, y}, {end, y + DIAMOND}, {end - DIAMOND, y}};
    canvas_dashed_path(canvas, points, 2, PLAY_DOT, INK, PLAY_DOT, PLAY_DOT_GAP);
    canvas_shape(canvas, corners, 4, INK, 0, INK_NONE);
}

static void draw_zone(Canvas *canvas, double x, double y) {
    play_draw_ellipse(canvas, (Box){x, y - 5, SAMPLE, 10});
}

static void draw_window(Canvas *canvas, double x, double y) {
    canvas_rect(canvas, (Box){x, y - 4, SAMPLE / 2, 8}, ink_tint(TINT_MIDDLE), 0, INK_NONE);
}

static void draw_gain(Canvas *canvas, double x, double y) {
    canvas_dashed(canvas, x, y, x + SAMPLE, y, PLAY_LINE, INK, 4.5, 2.5);
}

static const Entry ENTRIES[] = {
    {PLAY_PART_OFFENCE, "offence", 14.3, draw_offence},
    {PLAY_PART_DEFENCE, "defence", 8, draw_defence},
    {PLAY_PART_TARGET, "route thrown to", SAMPLE, draw_target},
    {PLAY_PART_ROUTE, "route", SAMPLE, draw_route},
    {PLAY_PART_READ, "read, in order", 2 * PLAY_READ_RADIUS, draw_read},
    {PLAY_PART_MOTION, "motion", SAMPLE, draw_motion},
    {PLAY_PART_DROP, "drop", SAMPLE, draw_drop},
    {PLAY_PART_RUSH, "rush", SAMPLE, draw_rush},
    {PLAY_PART_BALL, "ball, open if not caught", SAMPLE, draw_ball},
    {PLAY_PART_ZONE, "zone", SAMPLE, draw_zone},
    {PLAY_PART_WINDOW, "window", SAMPLE / 2, draw_window},
    {PLAY_PART_GAIN, "to gain", SAMPLE, draw_gain},
};
_Static_assert(sizeof ENTRIES / sizeof *ENTRIES == PLAY_PART_COUNT, "every part has its entry");

typedef struct KeyPlan {
    double widths[PLAY_PART_COUNT]; /* 0: not there */
    size_t row_start[PLAY_PART_COUNT + 1];
    size_t rows;
} KeyPlan;

static KeyPlan plan_key(Canvas *canvas, const PlayKey *key, double width) {
    KeyPlan plan = {0};
    double used = 0;
    for (size_t i = 0; i < PLAY_PART_COUNT; i++) {
        if (!key->parts[ENTRIES[i].part]) continue;
        plan.widths[i] = ENTRIES[i].width + WORD_GAP + canvas_width(canvas, TYPE_NOTE, ENTRIES[i].word);
        if (!plan.rows || used + ENTRY_GAP + plan.widths[i] > width) {
            plan.row_start[plan.rows++] = i;
            used = plan.widths[i];
        } else {
            used += ENTRY_GAP + plan.widths[i];
        }
    }
    plan.row_start[plan.rows] = PLAY_PART_COUNT;
    return plan;
}

double play_key_height(Canvas *canvas, const Figure *figure, double width) {
    size_t rows = plan_key(canvas, &figure->as.play_key, width).rows;
    return rows ? RULE_HEIGHT + ROW_HEIGHT * (double)rows : 0;
}

static double row_gap(const KeyPlan *plan, size_t row, double width) {
    double used = 0;
    int count = 0;
    for (size_t i = plan->row_start[row]; i < plan->row_start[row + 1]; i++) {
        used += plan->widths[i];
        count += plan->widths[i] > 0;
    }
    return plan->rows == 1 && count > 1 ? fmin((width - used) / (count - 1), 2 * ENTRY_GAP) : ENTRY_GAP;
}

void play_key_draw(Canvas *canvas, const Figure *figure, double width) {
    KeyPlan plan = plan_key(canvas, &figure->as.play_key, width);
    if (plan.rows) canvas_line(canvas, 0, 0, width, 0, LINE_GRID, INK_MUTED);
    for (size_t row = 0; row < plan.rows; row++) {
        double y = RULE_HEIGHT + ROW_HEIGHT * ((double)row + 0.5);
        double x = 0;
        double gap = row_gap(&plan, row, width);
        for (size_t i = plan.row_start[row]; i < plan.row_start[row + 1]; i++) {
            if (!(plan.widths[i] > 0)) continue;
            ENTRIES[i].draw(canvas, x, y);
            kit_text(canvas, TYPE_NOTE, x + ENTRIES[i].width + WORD_GAP, kit_centre(canvas, TYPE_NOTE, y), ALIGN_LEFT,
                     ENTRIES[i].word);
            x += plan.widths[i] + gap;
        }
    }
}
