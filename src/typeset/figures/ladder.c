/* The read ladder: one bar of all snaps cut into stairs. Each read starts where the last ended; its words stand beside
 * it on the side with more room, or above it where neither side has enough. */
#include <math.h>

#include "typeset/figures/kit.h"

#define BAR_HEIGHT 13.0
#define RUNG_PITCH 25.0
#define SIDE_GAP 6.5 /* between a bar and its words */
#define LEADING 10.0
#define NUMBER_PAD 2.5 /* free on both sides of a number in its part */
#define TOP 2.0

#define KEY_GAP 5.0 /* from the rungs to the key */
#define KEY_PITCH 12.0
#define KEY_LEADING 9.0
#define KEY_BOX_WIDTH 10.0
#define KEY_BOX_HEIGHT 6.5
#define KEY_TEXT_GAP 4.0
#define KEY_ENTRY_GAP 12.0

#define HATCH_PITCH 2.2
#define HATCH_LINE 0.35

/* How parts are filled; each also differs from its neighbours in a grayscale print. */
typedef struct Fill {
    Ink ground, number;
    bool hatched; /* without a number: it would stand on lines */
} Fill;

static const Fill FILLS[LADDER_MOST_PARTS] = {
    {{INK_BLACK, 62}, {INK_PAPER, 100}, false},  {{INK_BLACK, 26}, {INK_BLACK, 100}, false},
    {{INK_PAPER, 100}, {INK_BLACK, 100}, false}, {{INK_PAPER, 100}, {INK_BLACK, 100}, true},
    {{INK_BLACK, 100}, {INK_PAPER, 100}, false},
};

typedef struct Stair {
    double left, right;
    double top; /* of the bar */
    double words_x, words_top;
    Lines head, note; /* head: label and reached; drawn in two weights when it is
                         one line */
    bool words_right; /* words end at words_x, else start there */
} Stair;

typedef struct KeyEntry {
    Lines name;
    double x, y; /* y: middle of the first line */
} KeyEntry;

typedef struct Plan {
    const ReadLadder *ladder;
    double points_a_snap;
    Stair *stairs;
    double key_top, height;
    KeyEntry *key;
} Plan;

static int rung_snaps(const ReadLadder *ladder, size_t rung) {
    int snaps = 0;
    for (size_t i = 0; i < ladder->part_count; i++)
        if (ladder->rungs[rung].parts[i] > 0) snaps += ladder->rungs[rung].parts[i];
    return snaps;
}

static int all_snaps(const ReadLadder *ladder) {
    int snaps = 0;
    for (size_t i = 0; i < ladder->count; i++) snaps += rung_snaps(ladder, i);
    return snaps;
}

static const char *head_text(Canvas *canvas, const LadderRung *rung) {
    const char *label = rung->label ? rung->label : "";
    return kit_blank(rung->reached) ? label : arena_printf(canvas->arena, "%s %s", label, rung->reached);
}

/* Sets the words beside the bar, or above it over the full width. Returns where the next stair may begin. */
static double place_words(Canvas *canvas, Stair *stair, const LadderRung *rung, double top, double width) {
    const char *head = head_text(canvas, rung);
    double needed = canvas_width(canvas, TYPE_LABEL_STRONG, head);
    needed = kit_wider(canvas, TYPE_NOTE, rung->note, needed);
    double right = width - stair->right - SIDE_GAP;
    double left = stair->left - SIDE_GAP;
    double room = fmax(left, right);
    bool beside = needed <= room;
    if (!beside) room = width;
    stair->head = kit_wrap(canvas, TYPE_LABEL_STRONG, head, room);
    stair->note = kit_wrap(canvas, TYPE_NOTE, rung->note, room);
    double words = LEADING * (double)(stair->head.count + (stair->note.width > 0 ? stair->note.count : 0));
    stair->words_right = beside && left > right;
    stair->words_x = !beside ? 0 : left > right ? left : width - right;
    stair->words_top = beside ? top + fmin(BAR_HEIGHT / 2 - words / 2, 0) + 1.5 : top;
    stair->top = beside ? top : top + words + 2;
    return stair->top + (beside ? fmax(RUNG_PITCH, words + 4) : RUNG_PITCH);
}

/* Entries in rows; a name wider than the figure wraps. */
static void place_key(Canvas *canvas, Plan *plan, double width) {
    const ReadLadder *ladder = plan->ladder;
    double x = 0;
    double bottom = plan->key_top;
    double top = plan->key_top;
    plan->key = ARENA_ARRAY(canvas->arena, ladder->part_count, KeyEntry);
    for (size_t i = 0; i < ladder->part_count; i++) {
        KeyEntry *entry = &plan->key[i];
        entry->name = kit_wrap(canvas, TYPE_COUNT, ladder->parts[i], width - KEY_BOX_WIDTH - KEY_TEXT_GAP);
        double needed = KEY_BOX_WIDTH + KEY_TEXT_GAP + entry->name.width;
        if (x > 0 && x + needed > width) {
            x = 0;
            top = bottom;
        }
        entry->x = x;
        entry->y = top + KEY_PITCH / 2;
        x += needed + KEY_ENTRY_GAP;
        bottom = fmax(bottom, top + KEY_PITCH + KEY_LEADING * (double)(entry->name.count - 1));
    }
    plan->height = bottom;
}

static Plan plan_ladder(Canvas *canvas, const ReadLadder *ladder, double width) {
    Plan plan = {.ladder = ladder, .points_a_snap = width / all_snaps(ladder)};
    plan.stairs = ARENA_ARRAY(canvas->arena, ladder->count, Stair);
    double x = 0;
    double top = TOP;
    for (size_t i = 0; i < ladder->count; i++) {
        Stair *stair = &plan.stairs[i];
        stair->left = x;
        x += rung_snaps(ladder, i) * plan.points_a_snap;
        stair->right = x;
        top = place_words(canvas, stair, &ladder->rungs[i], top, width);
    }
    plan.key_top = top - RUNG_PITCH + BAR_HEIGHT + KEY_GAP + LEADING / 2;
    place_key(canvas, &plan, width);
    return plan;
}

double ladder_height(Canvas *canvas, const Figure *figure, double width) {
    if (!all_snaps(&figure->as.ladder)) return KIT_EMPTY_HEIGHT;
    return plan_ladder(canvas, &figure->as.ladder, width).height;
}

static void draw_part(Canvas *canvas, Box box, size_t part, int snaps) {
    const Fill *fill = &FILLS[part];
    canvas_rect(canvas, box, fill->ground, 0, INK_NONE);
    if (fill->hatched) canvas_hatch(canvas, box, HATCH_PITCH, HATCH_LINE, INK);
    canvas_rect(canvas, box, INK_NONE, LINE_FRAME, INK);
    TextStyle style = {FACE_MEDIUM, 7.5f, fill->number, 0};
    const char *number = arena_printf(canvas->arena, "%d", snaps);
    if (fill->hatched || canvas_width(canvas, style, number) + 2 * NUMBER_PAD > box.width) return;
    kit_text(canvas, style, box.x + box.width / 2, kit_centre(canvas, style, box.y + box.height / 2), ALIGN_CENTRE,
             number);
}

static void draw_bar(Canvas *canvas, const Plan *plan, size_t index) {
    const Stair *stair = &plan->stairs[index];
    double x = stair->left;
    for (size_t i = 0; i < plan->ladder->part_count; i++) {
        int snaps = plan->ladder->rungs[index].parts[i];
        if (snaps <= 0) continue;
        double width = snaps * plan->points_a_snap;
        draw_part(canvas, (Box){x, stair->top, width, BAR_HEIGHT}, i, snaps);
        x += width;
    }
    if (stair->right > stair->left) return;
    canvas_line(canvas, x, stair->top, x, stair->top + BAR_HEIGHT, LINE_FRAME, INK);
}

/* One line has the label strong and what follows plain; more lines are all strong. */
static void draw_head(Canvas *canvas, const Stair *stair, const LadderRung *rung, double y) {
    CellAlign align = stair->words_right ? ALIGN_RIGHT : ALIGN_LEFT;
    if (stair->head.count > 1 || kit_blank(rung->label) || kit_blank(rung->reached)) {
        kit_lines(canvas, TYPE_LABEL_STRONG, stair->words_x, y, align, stair->head, LEADING);
        return;
    }
    const char *rest = arena_printf(canvas->arena, "\u00a0%s", rung->reached);
    double x = stair->words_x;
    if (stair->words_right)
        x -= canvas_width(canvas, TYPE_LABEL_STRONG, rung->label) + canvas_width(canvas, TYPE_LABEL, rest);
    x += canvas_text(canvas, TYPE_LABEL_STRONG, x, y, ALIGN_LEFT, rung->label);
    kit_text(canvas, TYPE_LABEL, x, y, ALIGN_LEFT, rest);
}

static void draw_words(Canvas *canvas, const Stair *stair, const LadderRung *rung) {
    double y = stair->words_top + LEADING * 0.75;
    draw_head(canvas, stair, rung, y);
    y += LEADING * (double)stair->head.count;
    kit_lines(canvas, TYPE_NOTE, stair->words_x, y, stair->words_right ? ALIGN_RIGHT : ALIGN_LEFT, stair->note,
              LEADING);
}

static void draw_key(Canvas *canvas, const Plan *plan) {
    for (size_t i = 0; i < plan->ladder->part_count; i++) {
        const KeyEntry *entry = &plan->key[i];
        Box box = {entry->x, entry->y - KEY_BOX_HEIGHT / 2, KEY_BOX_WIDTH, KEY_BOX_HEIGHT};
        canvas_rect(canvas, box, FILLS[i].ground, 0, INK_NONE);
        if (FILLS[i].hatched) canvas_hatch(canvas, box, HATCH_PITCH, HATCH_LINE, INK);
        canvas_rect(canvas, box, INK_NONE, LINE_FRAME, INK);
        double x = box.x + KEY_BOX_WIDTH + KEY_TEXT_GAP;
        kit_lines(canvas, TYPE_COUNT, x, kit_centre(canvas, TYPE_COUNT, entry->y), ALIGN_LEFT, entry->name,
                  KEY_LEADING);
    }
}

/* The dotted line down from a stair's end to the next. */
static void draw_step(Canvas *canvas, const Stair *stair, const Stair *next) {
    double from = stair->top + BAR_HEIGHT;
    if (next->top > from)
        canvas_dashed(canvas, stair->right, from, stair->right, next->top, LINE_FRAME, INK_MUTED, 0.8, 1.8);
}

void ladder_draw(Canvas *canvas, const Figure *figure, double width) {
    if (!all_snaps(&figure->as.ladder)) {
        kit_empty(canvas, width, "no reads charted");
        return;
    }
    Plan plan = plan_ladder(canvas, &figure->as.ladder, width);
    for (size_t i = 0; i < plan.ladder->count; i++) {
        if (i + 1 < plan.ladder->count) draw_step(canvas, &plan.stairs[i], &plan.stairs[i + 1]);
        draw_bar(canvas, &plan, i);
        draw_words(canvas, &plan.stairs[i], &plan.ladder->rungs[i]);
    }
    draw_key(canvas, &plan);
}
