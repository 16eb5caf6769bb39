/* The drive ribbon: every charted snap of a game in order, in equal steps with a gap between drives; marks above the
 * line, on it or below it; cited snaps flagged with their number; down, to go, gain and drive below. A long game takes
 * several lines. */
#include <math.h>

#include "typeset/figures/kit.h"
#include "typeset/figures/markers.h"

#define STEP_LEAST 10.5
#define STEP_MOST 14.0
#define STEP_WIDER 0.25
#define TEXT_GAP 2.6 /* between texts of neighbouring snaps */
#define DRIVE_GAP 7.0
#define QUARTER_GAP 10.0
#define LABEL_GAP 9.0 /* between the row labels and the first snap */
#define LINE_OUT 4.5  /* the base line goes on past a drive's outer snaps */

#define QUARTER_HEIGHT 10.0
#define BAR_HEIGHT 19.0
#define BAR_WIDTH 3.9
#define FLAG_POLE 10.0
#define FLAG_HEIGHT 4.6
#define FLAG_LENGTH 5.0
#define FLAG_TEXT 8.5                                                    /* a flag's number and the space over it */
#define HIGH_POLE (BAR_HEIGHT + FLAG_POLE + FLAG_TEXT + FLAG_HEIGHT + 1) /* of a number that stands higher */
#define TEXT_PITCH 10.2
#define TEXT_TOP 5.0       /* from the lower bars to the first row of texts */
#define QUARTER_WORTH 0.45 /* a line may end this part of its length off, to end with a quarter */
#define LINE_GAP 10.0      /* between lines of a long game */
#define HATCH_PITCH 2.2
#define HATCH_LINE 0.35

enum { TEXT_ROWS = 4 };
static const char *const ROW_LABELS[TEXT_ROWS] = {"down", "to go", "gain", "drive"};

static const TextStyle TYPE_FLAG = {FACE_STRONG, 7.5f, {INK_ACCENT, 100}, 0};
static const Ink ACCENT = {INK_ACCENT, 100};

typedef struct SnapPlace {
    double x;
    size_t line;
    size_t level; /* of its flag's number: one that would touch the last stands higher */
} SnapPlace;

typedef struct Plan {
    const DriveRibbon *ribbon;
    SnapPlace *places;
    double start, step;
    size_t lines;
    double *flag_room; /* by line: from its top to the line of upper bars */
    double height;
} Plan;

static const char *row_text(const RibbonSnap *snap, size_t row) {
    const char *texts[TEXT_ROWS] = {snap->down, snap->to_go, snap->gain, snap->drive};
    return texts[row];
}

static TextStyle row_style(const RibbonSnap *snap, size_t row) {
    if (row == 2 && snap->notable) return TYPE_SMALL_STRONG;
    return row == 0 || row == 2 ? TYPE_SMALL : TYPE_NOTE;
}

static double gap_before(const DriveRibbon *ribbon, size_t index) {
    if (ribbon->snaps[index].quarter) return QUARTER_GAP;
    return ribbon->snaps[index].drive && index ? DRIVE_GAP : 0;
}

/* The step that keeps the texts of a snap clear of those of the one before it. */
static double step_needed(Canvas *canvas, const DriveRibbon *ribbon, size_t index) {
    const RibbonSnap *before = &ribbon->snaps[index - 1];
    const RibbonSnap *snap = &ribbon->snaps[index];
    double needed = 0;
    for (size_t row = 0; row < TEXT_ROWS; row++) {
        double left = kit_wider(canvas, row_style(before, row), row_text(before, row), 0);
        double right = kit_wider(canvas, row_style(snap, row), row_text(snap, row), 0);
        needed = fmax(needed, (left + right) / 2);
    }
    return needed + TEXT_GAP - gap_before(ribbon, index);
}

static double widest_text(Canvas *canvas, const RibbonSnap *snap) {
    double width = 0;
    for (size_t row = 0; row < TEXT_ROWS; row++)
        width = kit_wider(canvas, row_style(snap, row), row_text(snap, row), width);
    return width;
}

/* Space that the snaps from `from` to before `to` take on one line. */
static double run_width(const DriveRibbon *ribbon, size_t from, size_t to, double step) {
    double width = 0;
    for (size_t i = from; i < to; i++)
        width += step + (i > from || ribbon->snaps[i].quarter ? gap_before(ribbon, i) : 0);
    return width;
}

/* The end of the longest line that starts at `from`. */
static size_t longest_line(const Plan *plan, size_t from, double room) {
    size_t end = from + 1;
    while (end < plan->ribbon->count && run_width(plan->ribbon, from, end + 1, plan->step) <= room) end++;
    return end;
}

static size_t lines_from(const Plan *plan, size_t from, double room) {
    size_t lines = 0;
    for (; from < plan->ribbon->count; lines++) from = longest_line(plan, from, room);
    return lines;
}

/* Uses the width that the fewest lines leave free. */
static void widen_step(Plan *plan, double room) {
    size_t lines = lines_from(plan, 0, room);
    while (plan->step < STEP_MOST) {
        plan->step += STEP_WIDER;
        if (lines_from(plan, 0, room) == lines) continue;
        plan->step -= STEP_WIDER;
        return;
    }
}

/* The end of the line that starts at `from`: where a drive or, rather, a quarter starts, so that lines are about
 * equally long and no more than the fewest. */
static size_t line_end(const Plan *plan, size_t from, double room) {
    const DriveRibbon *ribbon = plan->ribbon;
    size_t longest = longest_line(plan, from, room);
    if (longest == ribbon->count) return longest;
    size_t lines = lines_from(plan, from, room);
    double wanted = run_width(ribbon, from, ribbon->count, plan->step) / (double)lines;
    double best = INFINITY;
    size_t end = longest;
    for (size_t cut = from + 1; cut <= longest; cut++) {
        const RibbonSnap *next = &ribbon->snaps[cut];
        if ((!next->drive && !next->quarter) || lines_from(plan, cut, room) >= lines) continue;
        double off =
            fabs(run_width(ribbon, from, cut, plan->step) - wanted) + (next->quarter ? 0 : QUARTER_WORTH * wanted);
        if (off >= best) continue;
        best = off;
        end = cut;
    }
    return end;
}

static void place_line(Plan *plan, size_t from, size_t end) {
    double x = plan->start;
    for (size_t i = from; i < end; i++) {
        x += i > from || plan->ribbon->snaps[i].quarter ? gap_before(plan->ribbon, i) : 0;
        plan->places[i].x = x + plan->step / 2;
        plan->places[i].line = plan->lines;
        x += plan->step;
    }
    plan->lines++;
}

static double flag_width(Canvas *canvas, const RibbonSnap *snap) {
    return kit_wider(canvas, TYPE_FLAG, snap->flag, FLAG_LENGTH);
}

/* Height of a flag's foot over the line of marks: it stands on an upper bar, else on the line. */
static double flag_foot(const RibbonSnap *snap) {
    return snap->mark > 0 && !snap->unmarked ? BAR_HEIGHT : DOT_RADIUS;
}

/* A number that would touch the one before it at the same height stands higher. The step is wide enough for two
 * heights to do. */
static void place_flags(Canvas *canvas, Plan *plan) {
    const RibbonSnap *last = NULL;
    const SnapPlace *last_place = NULL;
    for (size_t i = 0; i < plan->ribbon->count; i++) {
        const RibbonSnap *snap = &plan->ribbon->snaps[i];
        SnapPlace *place = &plan->places[i];
        if (kit_blank(snap->flag)) continue;
        bool near = last && last_place->line == place->line && flag_foot(last) == flag_foot(snap) &&
                    place->x - last_place->x < (flag_width(canvas, snap) + flag_width(canvas, last)) / 2 + TEXT_GAP;
        if (near && last_place->level == 0) place->level = 1;
        last = snap;
        last_place = place;
    }
}

static double flag_height(const RibbonSnap *snap, const SnapPlace *place) {
    if (kit_blank(snap->flag)) return flag_foot(snap);
    double pole = place->level ? HIGH_POLE : flag_foot(snap) + FLAG_POLE;
    return pole + FLAG_TEXT;
}

static void place_heights(Canvas *canvas, Plan *plan) {
    plan->flag_room = ARENA_ARRAY(canvas->arena, plan->lines, double);
    for (size_t i = 0; i < plan->lines; i++) plan->flag_room[i] = BAR_HEIGHT;
    for (size_t i = 0; i < plan->ribbon->count; i++) {
        double *room = &plan->flag_room[plan->places[i].line];
        *room = fmax(*room, flag_height(&plan->ribbon->snaps[i], &plan->places[i]));
    }
}

static double line_height(const Plan *plan, size_t line) {
    return QUARTER_HEIGHT + plan->flag_room[line] + BAR_HEIGHT + TEXT_TOP + TEXT_PITCH * TEXT_ROWS + 2;
}

static Plan plan_ribbon(Canvas *canvas, const DriveRibbon *ribbon, double width) {
    Plan plan = {.ribbon = ribbon, .places = ARENA_ARRAY(canvas->arena, ribbon->count, SnapPlace)};
    double label = 0;
    double flag = 0;
    double widest = 0;
    for (size_t i = 0; i < TEXT_ROWS; i++) label = kit_wider(canvas, TYPE_NOTE, ROW_LABELS[i], label);
    plan.start = label + LABEL_GAP;
    plan.step = STEP_LEAST;
    for (size_t i = 0; i < ribbon->count; i++) {
        if (i) plan.step = fmax(plan.step, step_needed(canvas, ribbon, i));
        widest = fmax(widest, widest_text(canvas, &ribbon->snaps[i]));
        flag = fmax(flag, flag_width(canvas, &ribbon->snaps[i]));
    }
    plan.step = fmax(plan.step, flag / 2 + TEXT_GAP);
    double over = fmax(fmax(flag, widest) - plan.step, 0) / 2; /* of the last snap's texts past its step */
    double room = width - plan.start - over;
    widen_step(&plan, room);
    for (size_t from = 0; from < ribbon->count;) {
        size_t end = line_end(&plan, from, room);
        place_line(&plan, from, end);
        from = end;
    }
    place_flags(canvas, &plan);
    place_heights(canvas, &plan);
    for (size_t i = 0; i < plan.lines; i++) plan.height += line_height(&plan, i) + (i ? LINE_GAP : 0);
    return plan;
}

double ribbon_height(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.ribbon.count) return KIT_EMPTY_HEIGHT;
    return plan_ribbon(canvas, &figure->as.ribbon, width).height;
}

/* ---- drawing ---- */

static void draw_mark(Canvas *canvas, const RibbonSnap *snap, double x, double y) {
    if (snap->unmarked) {
        canvas_line(canvas, x, y - 2, x, y + 2, LINE_FRAME, INK);
    } else if (snap->mark > 0) {
        canvas_rect(canvas, (Box){x - BAR_WIDTH / 2, y - BAR_HEIGHT, BAR_WIDTH, BAR_HEIGHT}, INK, 0, INK_NONE);
    } else if (snap->mark < 0) {
        Box box = {x - BAR_WIDTH / 2, y, BAR_WIDTH, BAR_HEIGHT};
        canvas_hatch(canvas, box, HATCH_PITCH, HATCH_LINE, INK);
        canvas_rect(canvas, box, INK_NONE, LINE_FRAME, INK);
    } else {
        marker_dot(canvas, x, y, DOT_RADIUS, INK, true);
    }
}

static void draw_flag(Canvas *canvas, const RibbonSnap *snap, const SnapPlace *place, double y) {
    if (kit_blank(snap->flag)) return;
    double foot = y - flag_foot(snap);
    double top = y - flag_height(snap, place) + FLAG_TEXT;
    const Point cloth[] = {
        {place->x, top}, {place->x + FLAG_LENGTH, top + FLAG_HEIGHT / 2}, {place->x, top + FLAG_HEIGHT}};
    canvas_line(canvas, place->x, foot, place->x, top, LINE_FRAME, ACCENT);
    canvas_shape(canvas, cloth, 3, ACCENT, 0, INK_NONE);
    double width = canvas_width(canvas, TYPE_FLAG, snap->flag);
    kit_text(canvas, TYPE_FLAG, place->x, top - 2, ALIGN_CENTRE, snap->flag);
    Box box = {place->x - width / 2, top - FLAG_TEXT, width, FLAG_TEXT};
    if (!kit_blank(snap->target)) canvas_link(canvas, box, snap->target);
}

static void draw_snap(Canvas *canvas, const Plan *plan, size_t index, double y) {
    const RibbonSnap *snap = &plan->ribbon->snaps[index];
    const SnapPlace *place = &plan->places[index];
    draw_mark(canvas, snap, place->x, y);
    draw_flag(canvas, snap, place, y);
    double baseline = y + BAR_HEIGHT + TEXT_TOP + TEXT_PITCH - 2.5;
    for (size_t row = 0; row < TEXT_ROWS; row++)
        kit_text(canvas, row_style(snap, row), place->x, baseline + TEXT_PITCH * (double)row, ALIGN_CENTRE,
                 row_text(snap, row));
}

/* The base line under the snaps of a drive, as far as they stand on this line of the figure. */
static size_t draw_base(Canvas *canvas, const Plan *plan, size_t from, double y) {
    size_t end = from + 1;
    while (end < plan->ribbon->count && plan->places[end].line == plan->places[from].line &&
           !plan->ribbon->snaps[end].drive && !plan->ribbon->snaps[end].quarter)
        end++;
    double left = plan->places[from].x - LINE_OUT;
    canvas_line(canvas, left, y, plan->places[end - 1].x + LINE_OUT, y, LINE_FRAME, INK);
    return end;
}

static void draw_quarter(Canvas *canvas, const Plan *plan, size_t index, double top) {
    const RibbonSnap *snap = &plan->ribbon->snaps[index];
    if (!snap->quarter) return;
    double x = plan->places[index].x - plan->step / 2 - QUARTER_GAP / 2 + 1;
    canvas_line(canvas, x, top, x, top + line_height(plan, plan->places[index].line), LINE_FRAME, INK);
    kit_text(canvas, TYPE_SMALL_STRONG, x + 3, top + 7, ALIGN_LEFT, snap->quarter);
}

static void draw_line(Canvas *canvas, const Plan *plan, size_t from, size_t end, double top) {
    double y = top + QUARTER_HEIGHT + plan->flag_room[plan->places[from].line];
    double baseline = y + BAR_HEIGHT + TEXT_TOP + TEXT_PITCH - 2.5;
    for (size_t row = 0; row < TEXT_ROWS; row++)
        kit_text(canvas, TYPE_NOTE, 0, baseline + TEXT_PITCH * (double)row, ALIGN_LEFT, ROW_LABELS[row]);
    for (size_t i = from; i < end;) i = draw_base(canvas, plan, i, y);
    for (size_t i = from; i < end; i++) {
        draw_quarter(canvas, plan, i, top);
        draw_snap(canvas, plan, i, y);
    }
}

void ribbon_draw(Canvas *canvas, const Figure *figure, double width) {
    if (!figure->as.ribbon.count) {
        kit_empty(canvas, width, "no snaps charted");
        return;
    }
    Plan plan = plan_ribbon(canvas, &figure->as.ribbon, width);
    double top = 0;
    size_t from = 0;
    for (size_t line = 0; line < plan.lines; line++) {
        size_t end = from;
        while (end < plan.ribbon->count && plan.places[end].line == line) end++;
        draw_line(canvas, &plan, from, end, top);
        top += line_height(&plan, line) + LINE_GAP;
        from = end;
    }
}
