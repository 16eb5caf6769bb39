/* Game trend: small multiples that share their games. Every point has its n below; a line behind them is the season;
 * opponents are named once, under all panels. */
#include <math.h>

#include "typeset/figures/kit.h"
#include "typeset/figures/markers.h"

#define TITLE_BASELINE 8.0
#define PLOT_TOP 19.0
#define PLOT_HEIGHT 84.0
#define N_BASELINE 12.0 /* below the plot */
#define GAME_BASELINE 22.0
#define TITLE_LEADING 10.0
#define PANEL_GAP 14.0 /* between rows of panels */
#define COLUMN_GAP 10.0
#define LABEL_GAP 4.0 /* between axis labels and the plot */
#define TEXT_GAP 3.0  /* least space between texts under neighbouring points */
#define MOST_A_ROW 4
#define LEGEND_TOP 8.0 /* from the panels to the rule over the opponents */
#define LEGEND_BASELINE 12.0
#define LEGEND_LEADING 9.0
#define LEGEND_GAP 12.0
#define LEGEND_MOST 0.25 /* of the width, for a column of opponents */
#define LEGEND_LEAST 74.0
#define NAME_GAP 2.4 /* between a game's short name and the opponent */
#define HATCH_HALF 2.5

typedef struct LegendGame {
    Lines opponent;
    double x, y; /* from under the rule */
} LegendGame;

typedef struct Plan {
    const GameTrend *trend;
    size_t per_row, rows;
    double panel_width, label_width;
    double plot_top, panel_height;
    double text_step; /* widest text under a point, with its gap */
    LegendGame *legend;
    double legend_top, legend_height;
} Plan;

typedef struct Panel {
    const TrendPanel *data;
    AxisPlace axis;     /* upward: axis_x counts from the bottom */
    double left, right; /* of the plot */
    double top, bottom;
    double first, step; /* where the first game stands, and how far from each other */
} Panel;

/* ---- where things stand ---- */

static void measure(Canvas *canvas, Plan *plan) {
    const GameTrend *trend = plan->trend;
    double text = 0;
    plan->label_width = canvas_width(canvas, TYPE_NOTE, "n");
    for (size_t i = 0; i < trend->game_count; i++)
        text = kit_wider(canvas, TYPE_SMALL_STRONG, trend->games[i].label, text);
    for (size_t p = 0; p < trend->panel_count; p++) {
        for (size_t i = 0; i < trend->game_count; i++)
            text = kit_wider(canvas, TYPE_SMALL, trend->panels[p].points[i].n, text);
        AxisPlace axis = axis_place(trend->panels[p].axis, 0, PLOT_HEIGHT, 0, PLOT_HEIGHT);
        for (size_t i = 0; i < axis_ticks(&axis); i++)
            plan->label_width = kit_wider(canvas, TYPE_NOTE, axis_label(canvas, &axis, i), plan->label_width);
    }
    plan->text_step = text + TEXT_GAP;
}

/* As many panels a row as leave each game room for its n; rows are filled evenly. */
static void place_panels(Plan *plan, double width) {
    double natural = plan->label_width + LABEL_GAP + plan->text_step * (double)plan->trend->game_count;
    size_t fit = (size_t)fmax((width + COLUMN_GAP) / (natural + COLUMN_GAP), 1);
    if (fit > MOST_A_ROW) fit = MOST_A_ROW;
    plan->rows = (plan->trend->panel_count + fit - 1) / fit;
    plan->per_row = (plan->trend->panel_count + plan->rows - 1) / plan->rows;
    plan->panel_width = (width - COLUMN_GAP * (double)(plan->per_row - 1)) / (double)plan->per_row;
}

/* The longest title decides where the plots begin. */
static void place_titles(Canvas *canvas, Plan *plan) {
    size_t lines = 1;
    for (size_t p = 0; p < plan->trend->panel_count; p++) {
        size_t count = kit_wrap(canvas, TYPE_LABEL_STRONG, plan->trend->panels[p].title, plan->panel_width).count;
        if (count > lines) lines = count;
    }
    plan->plot_top = PLOT_TOP + TITLE_LEADING * (double)(lines - 1);
    plan->panel_height = plan->plot_top + PLOT_HEIGHT + GAME_BASELINE + 3;
    plan->legend_top = (plan->panel_height + PANEL_GAP) * (double)plan->rows - PANEL_GAP + LEGEND_TOP;
}

static double legend_label(Canvas *canvas, const TrendGame *game) {
    return kit_blank(game->label) ? 0 : canvas_width(canvas, TYPE_SMALL_STRONG, game->label) + NAME_GAP;
}

static double game_width(Canvas *canvas, const TrendGame *game) {
    double width = legend_label(canvas, game) + kit_wider(canvas, TYPE_SMALL, game->opponent, 0);
    return kit_wider(canvas, TYPE_NOTE, game->date, width);
}

/* Opponents stand in one spread row when they fit, else in columns of one width, in which long names wrap. */
static void place_legend(Canvas *canvas, Plan *plan, double width) {
    size_t count = plan->trend->game_count;
    double total = 0;
    double widest = 0;
    for (size_t i = 0; i < count; i++) {
        total += game_width(canvas, &plan->trend->games[i]);
        widest = fmax(widest, game_width(canvas, &plan->trend->games[i]));
    }
    widest = fmin(widest, fmax(LEGEND_LEAST, width * LEGEND_MOST));
    bool single = total + LEGEND_GAP * (double)(count - 1) <= width;
    size_t columns = single ? count : (size_t)fmax((width + LEGEND_GAP) / (widest + LEGEND_GAP), 1);
    double gap = single && count > 1 ? fmin((width - total) / (double)(count - 1), 3 * LEGEND_GAP) : 0;
    double pitch = (width + LEGEND_GAP) / (double)columns;
    double x = 0;
    double row_top = 0;
    plan->legend = ARENA_ARRAY(canvas->arena, count, LegendGame);
    for (size_t i = 0; i < count; i++) {
        const TrendGame *game = &plan->trend->games[i];
        LegendGame *place = &plan->legend[i];
        if (i % columns == 0) row_top = plan->legend_height;
        double room = single ? width : pitch - LEGEND_GAP - legend_label(canvas, game);
        place->opponent = kit_wrap(canvas, TYPE_SMALL, game->opponent, room);
        place->x = single ? x : pitch * (double)(i % columns);
        place->y = row_top;
        x += game_width(canvas, game) + gap;
        double bottom = row_top + LEGEND_BASELINE + LEGEND_LEADING * (double)place->opponent.count + 3;
        plan->legend_height = fmax(plan->legend_height, bottom);
    }
}

static Plan plan_trend(Canvas *canvas, const GameTrend *trend, double width) {
    Plan plan = {.trend = trend};
    measure(canvas, &plan);
    place_panels(&plan, width);
    place_titles(canvas, &plan);
    place_legend(canvas, &plan, width);
    return plan;
}

static bool is_empty(const GameTrend *trend) {
    return !trend->game_count || !trend->panel_count;
}

double trend_height(Canvas *canvas, const Figure *figure, double width) {
    if (is_empty(&figure->as.trend)) return KIT_EMPTY_HEIGHT;
    Plan plan = plan_trend(canvas, &figure->as.trend, width);
    return plan.legend_top + plan.legend_height;
}

static Panel place_panel(const Plan *plan, size_t index) {
    double x = (plan->panel_width + COLUMN_GAP) * (double)(index % plan->per_row);
    size_t row = index / plan->per_row;
    double y = (plan->panel_height + PANEL_GAP) * (double)row;
    Panel panel = {.data = &plan->trend->panels[index],
                   .left = x + plan->label_width + LABEL_GAP,
                   .right = x + plan->panel_width,
                   .top = y + plan->plot_top,
                   .bottom = y + plan->plot_top + PLOT_HEIGHT};
    panel.axis = axis_place(panel.data->axis, 0, PLOT_HEIGHT, 0, PLOT_HEIGHT);
    /* The texts of the first and last game stay within the panel. */
    double games = (double)plan->trend->game_count;
    double inset = fmax((panel.right - panel.left) / games, plan->text_step - TEXT_GAP) / 2;
    panel.first = panel.left + inset;
    panel.step = games > 1 ? (panel.right - panel.left - 2 * inset) / (games - 1) : panel.right - panel.left;
    return panel;
}

/* ---- drawing ---- */

static double panel_y(const Panel *panel, double value) {
    return panel->bottom - axis_x(&panel->axis, value);
}

static double game_x(const Panel *panel, size_t game) {
    return panel->first + panel->step * (double)game;
}

static void draw_axis(Canvas *canvas, const Panel *panel) {
    size_t count = axis_ticks(&panel->axis);
    size_t stride = 1;
    while (PLOT_HEIGHT / (double)count * (double)stride < 9 && stride < count) stride++;
    for (size_t i = 0; i < count; i += stride) {
        double y = panel_y(panel, axis_tick(&panel->axis, i));
        double baseline = kit_centre(canvas, TYPE_NOTE, y);
        axis_guide(canvas, panel->left, y, panel->right, y);
        kit_text(canvas, TYPE_NOTE, panel->left - LABEL_GAP, baseline, ALIGN_RIGHT,
                 axis_label(canvas, &panel->axis, i));
    }
    double season = panel->data->season;
    if (!isfinite(season) || axis_side(&panel->axis, season)) return;
    double y = panel_y(panel, season);
    canvas_line(canvas, panel->left, y, panel->right, y, LINE_REFERENCE, ink_tint(TINT_REFERENCE));
}

static void draw_interval(Canvas *canvas, const Panel *panel, const TrendPoint *point, double x) {
    if (!isfinite(point->low) || !isfinite(point->high) || point->low > point->high) return;
    double low = panel_y(panel, point->low);
    double high = panel_y(panel, point->high);
    if (point->hatched) {
        marker_few(canvas, (Box){x - HATCH_HALF, high, 2 * HATCH_HALF, low - high});
        return;
    }
    canvas_line(canvas, x, low, x, high, LINE_OWN, INK);
    if (axis_side(&panel->axis, point->low) < 0) marker_upright(canvas, x, low, -1, INK);
    if (axis_side(&panel->axis, point->high) > 0) marker_upright(canvas, x, high, 1, INK);
}

static void draw_point(Canvas *canvas, const Panel *panel, const TrendPoint *point, double x) {
    draw_interval(canvas, panel, point, x);
    if (point->hatched || !isfinite(point->point)) return;
    int side = axis_side(&panel->axis, point->point);
    double y = panel_y(panel, point->point);
    if (side) {
        marker_upright(canvas, x, y, side, INK);
    } else {
        marker_dot(canvas, x, y, DOT_RADIUS, INK, false);
    }
}

/* The texts under the points; where games stand too close, every second or third is labelled. */
static void draw_games(Canvas *canvas, const Plan *plan, const Panel *panel) {
    double below = panel->bottom;
    size_t stride = 1;
    while (panel->step * (double)stride < plan->text_step && stride < plan->trend->game_count) stride++;
    kit_text(canvas, TYPE_NOTE, panel->left - LABEL_GAP, below + N_BASELINE, ALIGN_RIGHT, "n");
    for (size_t i = 0; i < plan->trend->game_count; i++) {
        double x = game_x(panel, i);
        draw_point(canvas, panel, &panel->data->points[i], x);
        if (i % stride) continue;
        kit_text(canvas, TYPE_SMALL, x, below + N_BASELINE, ALIGN_CENTRE, panel->data->points[i].n);
        kit_text(canvas, TYPE_GAME, x, below + GAME_BASELINE, ALIGN_CENTRE, plan->trend->games[i].label);
    }
}

static void draw_panel(Canvas *canvas, const Plan *plan, size_t index) {
    Panel panel = place_panel(plan, index);
    double title = panel.top - plan->plot_top + TITLE_BASELINE;
    Lines lines = kit_wrap(canvas, TYPE_LABEL_STRONG, panel.data->title, plan->panel_width);
    kit_lines(canvas, TYPE_LABEL_STRONG, panel.right - plan->panel_width, title, ALIGN_LEFT, lines, TITLE_LEADING);
    draw_axis(canvas, &panel);
    draw_games(canvas, plan, &panel);
}

static void draw_legend(Canvas *canvas, const Plan *plan, double width) {
    canvas_line(canvas, 0, plan->legend_top, width, plan->legend_top, LINE_GRID, INK_MUTED);
    for (size_t i = 0; i < plan->trend->game_count; i++) {
        const TrendGame *game = &plan->trend->games[i];
        const LegendGame *place = &plan->legend[i];
        double y = plan->legend_top + place->y + LEGEND_BASELINE;
        kit_text(canvas, TYPE_SMALL_STRONG, place->x, y, ALIGN_LEFT, game->label);
        kit_lines(canvas, TYPE_SMALL, place->x + legend_label(canvas, game), y, ALIGN_LEFT, place->opponent,
                  LEGEND_LEADING);
        double date = y + LEGEND_LEADING * (double)place->opponent.count;
        kit_text(canvas, TYPE_NOTE, place->x, date, ALIGN_LEFT, game->date);
    }
}

void trend_draw(Canvas *canvas, const Figure *figure, double width) {
    if (is_empty(&figure->as.trend)) {
        kit_empty(canvas, width, "no games charted");
        return;
    }
    Plan plan = plan_trend(canvas, &figure->as.trend, width);
    for (size_t i = 0; i < plan.trend->panel_count; i++) draw_panel(canvas, &plan, i);
    draw_legend(canvas, &plan, width);
}
