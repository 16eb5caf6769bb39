/* The season ribbon: all games as small ribbons under each other, one mark a snap, with their counts. */
#include <math.h>

#include "typeset/figures/kit.h"

#define HEAD 12.0
#define PITCH 11.0
#define LEADING 10.0
#define STEP_MOST 6.8
#define STEP_LEAST 3.2
#define DRIVE_GAP 0.55 /* of a step */
#define UP_WIDTH 2.5
#define MARK_HEIGHT 3.2
#define MARK_RISE 0.5 /* between the base and an upper or lower mark */
#define EVEN_WIDTH 3.0
#define COUNT_GAP 10.0
#define NAME_GAP 10.0
#define LABEL_GAP 2.4
#define NAME_MOST 0.3

enum { COUNTS = 3 };
static const char *const COUNT_HEADS[COUNTS] = {"plus", "even", "minus"};

typedef struct Plan {
    const SeasonRibbon *season;
    Lines *names;
    double label_width; /* of the games' short names */
    double name_width;
    double left, right; /* of the marks */
    double step;
    double count_right[COUNTS];
    double height;
} Plan;

static int count_marks(const SeasonGame *game, int mark) {
    int count = 0;
    for (size_t i = 0; i < game->count; i++) count += game->marks[i] == mark;
    return count;
}

static bool starts_drive(const SeasonGame *game, size_t snap) {
    return snap && game->drives && game->drives[snap];
}

/* Steps that a game takes, gaps between drives included. */
static double steps_of(const SeasonGame *game) {
    double steps = 0;
    for (size_t i = 0; i < game->count; i++) steps += 1 + (starts_drive(game, i) ? DRIVE_GAP : 0);
    return steps;
}

/* Moves the pen from the mark before to that of snap `index`; down to the next line when this one is full. */
static void next_mark(const Plan *plan, const SeasonGame *game, size_t index, Point *pen) {
    if (index) pen->x += plan->step * (starts_drive(game, index) ? 1 + DRIVE_GAP : 1);
    if (index && pen->x + plan->step / 2 <= plan->right) return;
    if (index) pen->y += PITCH;
    pen->x = plan->left + plan->step / 2;
}

/* Height of the lines that a game's marks take beyond the first. */
static double more_lines(const Plan *plan, const SeasonGame *game) {
    Point pen = {0, 0};
    for (size_t i = 0; i < game->count; i++) next_mark(plan, game, i, &pen);
    return pen.y;
}

static double game_height(const Plan *plan, size_t index) {
    double names = LEADING * (double)(plan->names[index].count - 1);
    return PITCH + fmax(more_lines(plan, &plan->season->games[index]), names);
}

static void place_counts(Canvas *canvas, Plan *plan, double width) {
    double right = width;
    for (size_t c = COUNTS; c-- > 0;) {
        plan->count_right[c] = right;
        double widest = canvas_width(canvas, TYPE_NOTE, COUNT_HEADS[c]);
        right -= fmax(widest, canvas_width(canvas, TYPE_SMALL, "000")) + COUNT_GAP;
    }
    plan->right = right;
}

static Plan plan_season(Canvas *canvas, const SeasonRibbon *season, double width) {
    Plan plan = {.season = season, .names = ARENA_ARRAY(canvas->arena, season->count, Lines)};
    double widest = 0;
    double steps = 1;
    for (size_t i = 0; i < season->count; i++) {
        plan.label_width = kit_wider(canvas, TYPE_SMALL_STRONG, season->games[i].label, plan.label_width);
        widest = kit_wider(canvas, TYPE_SMALL, season->games[i].opponent, widest);
        steps = fmax(steps, steps_of(&season->games[i]));
    }
    plan.label_width += plan.label_width > 0 ? LABEL_GAP : 0;
    plan.name_width = fmin(widest, NAME_MOST * width);
    plan.left = plan.label_width + plan.name_width + NAME_GAP;
    place_counts(canvas, &plan, width);
    plan.step = fmin(fmax((plan.right - plan.left) / (steps + 1), STEP_LEAST), STEP_MOST);
    plan.height = HEAD;
    for (size_t i = 0; i < season->count; i++) {
        plan.names[i] = kit_wrap(canvas, TYPE_SMALL, season->games[i].opponent, plan.name_width);
        plan.height += game_height(&plan, i);
    }
    return plan;
}

double season_height(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.season.count) return KIT_EMPTY_HEIGHT;
    return plan_season(canvas, &figure->as.season, width).height;
}

/* Up is solid and down open, so that they differ without their height; even is a short line. */
static void draw_mark(Canvas *canvas, int mark, double x, double y) {
    if (mark > 0) {
        canvas_rect(canvas, (Box){x - UP_WIDTH / 2, y - MARK_RISE - MARK_HEIGHT, UP_WIDTH, MARK_HEIGHT}, INK, 0,
                    INK_NONE);
    } else if (mark < 0) {
        canvas_rect(canvas, (Box){x - UP_WIDTH / 2, y + MARK_RISE, UP_WIDTH, MARK_HEIGHT}, INK_NONE, LINE_AXIS, INK);
    } else {
        canvas_line(canvas, x - EVEN_WIDTH / 2, y, x + EVEN_WIDTH / 2, y, LINE_REFERENCE, INK);
    }
}

static void draw_marks(Canvas *canvas, const Plan *plan, const SeasonGame *game, double y) {
    Point pen = {0, y};
    for (size_t i = 0; i < game->count; i++) {
        next_mark(plan, game, i, &pen);
        draw_mark(canvas, game->marks[i], pen.x, pen.y);
    }
}

static void draw_game(Canvas *canvas, const Plan *plan, size_t index, double top) {
    static const int marks[COUNTS] = {1, 0, -1};
    const SeasonGame *game = &plan->season->games[index];
    double y = top + PITCH / 2;
    double baseline = kit_centre(canvas, TYPE_SMALL, y);
    kit_text(canvas, TYPE_SMALL_STRONG, 0, baseline, ALIGN_LEFT, game->label);
    kit_lines(canvas, TYPE_SMALL, plan->label_width, baseline, ALIGN_LEFT, plan->names[index], LEADING);
    draw_marks(canvas, plan, game, y);
    for (size_t c = 0; c < COUNTS; c++) {
        const char *count = arena_printf(canvas->arena, "%d", count_marks(game, marks[c]));
        kit_text(canvas, TYPE_SMALL, plan->count_right[c], baseline, ALIGN_RIGHT, count);
    }
}

void season_draw(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.season.count) {
        kit_empty(canvas, width, "no games charted");
        return;
    }
    Plan plan = plan_season(canvas, &figure->as.season, width);
    for (size_t c = 0; c < COUNTS; c++)
        kit_text(canvas, TYPE_NOTE, plan.count_right[c], 7, ALIGN_RIGHT, COUNT_HEADS[c]);
    double y = HEAD;
    for (size_t i = 0; i < plan.season->count; i++) {
        draw_game(canvas, &plan, i, y);
        y += game_height(&plan, i);
    }
}
