/* The table of figures: one row adds a kind. */
#include "typeset/figures/kit.h"

static const FigureType TYPES[] = {
    [FIGURE_SCALE_STRIPS] = {strips_height, strips_draw},
    [FIGURE_THROW_FIELD] = {field_height, field_draw},
    [FIGURE_INTERVAL_ROWS] = {intervals_height, intervals_draw},
    [FIGURE_TRAIT_BARS] = {traits_height, traits_draw},
    [FIGURE_GRADE_RULE] = {grade_height, grade_draw},
    [FIGURE_CLAIM_ROWS] = {claims_height, claims_draw},
    [FIGURE_TAPE_TEST] = {test_height, test_draw},
    [FIGURE_VERDICT_KEY] = {key_height, key_draw},
    [FIGURE_GAME_TREND] = {trend_height, trend_draw},
    [FIGURE_READ_LADDER] = {ladder_height, ladder_draw},
    [FIGURE_SITUATIONS] = {situations_height, situations_draw},
    [FIGURE_DRIVE_RIBBON] = {ribbon_height, ribbon_draw},
    [FIGURE_SEASON_RIBBON] = {season_height, season_draw},
    [FIGURE_PLAY] = {play_height, play_draw},
    [FIGURE_PLAY_KEY] = {play_key_height, play_key_draw},
    [FIGURE_WALL_CARD] = {card_height, card_draw},
    [FIGURE_CHART_FORM] = {form_height, form_draw},
    [FIGURE_FILM_CODES] = {codes_height, codes_draw},
};
_Static_assert(sizeof TYPES / sizeof *TYPES == FIGURE_KIND_COUNT, "every kind of figure can be drawn");

double figure_height(Canvas *canvas, const Figure *figure, double width) {
    return TYPES[figure->kind].height(canvas, figure, width);
}

double figure_draw(Canvas *canvas, const Figure *figure, double width) {
    canvas_open(canvas, ROLE_FIGURE, figure->alt ? figure->alt : "");
    TYPES[figure->kind].draw(canvas, figure, width);
    canvas_close(canvas);
    return TYPES[figure->kind].height(canvas, figure, width);
}
