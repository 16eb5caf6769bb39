/* Figures that cannot be drawn as the profile binds them. */
#include "check/lint_parts.h"

/* What the page has room for. */
enum { MOST_LANES = 7, MOST_BANDS = 7, MOST_ROWS = 18, MOST_PANELS = 4, MOST_PARTS = 5, MOST_COLUMNS = 6, MARKS = 3 };

static void tell(const Lint *lint, const ProfileFigure *figure, const char *message) {
    diag_report(lint->diagnostics, RULE_PROFILE_FIGURE, figure->place, NULL, "%s", message);
}

static const char *const kind_words[] = {
    [MEASURE_RATE] = "a rate", [MEASURE_MEAN] = "a mean", [MEASURE_RATIO] = "a ratio", [MEASURE_FORMULA] = "a formula"};

static void need_rate(const Lint *lint, const ProfileFigure *figure, const char *what) {
    const Measure *measure = &lint->profile->measures[figure->measure];
    if (measure->kind == MEASURE_RATE) return;
    tell(lint, figure,
         arena_printf(lint->arena, "%s shows a rate, and measure '%s' is %s", what, measure->id,
                      kind_words[measure->kind]));
}

static void limit(const Lint *lint, const ProfileFigure *figure, size_t count, size_t most, const char *what) {
    if (count <= most) return;
    tell(lint, figure, arena_printf(lint->arena, "%zu %s, where the page has room for %zu", count, what, most));
}

static void lint_field(const Lint *lint, const ProfileFigure *figure) {
    const Field *fields = lint->profile->fields;
    need_rate(lint, figure, "a field from above");
    limit(lint, figure, fields[figure->lateral].value_count, MOST_LANES, "lanes");
    limit(lint, figure, fields[figure->depth].value_count, MOST_BANDS, "bands");
    if (figure->lateral == figure->depth) {
        tell(lint, figure,
             arena_printf(lint->arena, "'%s' cannot be both across and along the field", fields[figure->lateral].id));
    }
}

static void lint_rows(const Lint *lint, const ProfileFigure *figure) {
    size_t rows = 0;
    for (size_t i = 0; i < figure->slice_count; i++) rows += figure->slices[i] >= 0;
    limit(lint, figure, rows, MOST_ROWS, "rows");
    if (!rows) tell(lint, figure, "no row is named");
}

static void lint_trend(const Lint *lint, const ProfileFigure *figure) {
    limit(lint, figure, figure->measure_count, MOST_PANELS, "panels");
}

/* A ladder parts its snaps: none may stand on two rungs, or in two parts. */
static void need_apart(const Lint *lint, const ProfileFigure *figure, const int *slices, size_t count,
                       const char *what) {
    int first, second;
    const Slice *all = lint->profile->slices;
    for (size_t i = 0; i < count; i++) {
        if (slices[i] >= 0) continue;
        tell(lint, figure, arena_printf(lint->arena, "%s form no groups", what));
        return;
    }
    if (!lint_shared(lint, slices, count, &first, &second)) return;
    tell(lint, figure, arena_printf(lint->arena, "%s '%s' and '%s' share snaps", what, all[first].id, all[second].id));
}

static void lint_ladder(const Lint *lint, const ProfileFigure *figure) {
    const Total *total = &lint->profile->totals[figure->total];
    if (total->sum) {
        tell(lint, figure,
             arena_printf(lint->arena, "a ladder counts snaps, and total '%s' adds something", total->id));
    }
    limit(lint, figure, figure->part_count, MOST_PARTS, "parts");
    need_apart(lint, figure, figure->slices, figure->slice_count, "rungs");
    need_apart(lint, figure, figure->parts, figure->part_count, "parts");
}

static void lint_situations(const Lint *lint, const ProfileFigure *figure) {
    const Profile *profile = lint->profile;
    int band = profile_field(profile, "to-go-band");
    need_rate(lint, figure, "a table of situations");
    if (profile_field(profile, "down") < 0 || band < 0) {
        tell(lint, figure, "a table of situations goes by the fields 'down' and 'to-go-band', which the profile lacks");
        return;
    }
    if (!profile->fields[band].value_count) tell(lint, figure, "'to-go-band' is not a choice, so it makes no columns");
    limit(lint, figure, profile->fields[band].value_count, MOST_COLUMNS, "columns");
}

static void lint_ribbon(const Lint *lint, const ProfileFigure *figure) {
    const Field *mark = &lint->profile->fields[figure->lateral];
    if (mark->type == FIELD_ORDERED && mark->value_count == MARKS) return;
    tell(lint, figure,
         arena_printf(lint->arena, "a ribbon goes by an ordered field of three values, which '%s' is not", mark->id));
}

static void (*const figure_lints[])(const Lint *lint, const ProfileFigure *figure) = {
    [PROFILE_THROW_FIELD] = lint_field, [PROFILE_INTERVAL_ROWS] = lint_rows,    [PROFILE_GAME_TREND] = lint_trend,
    [PROFILE_LADDER] = lint_ladder,     [PROFILE_SITUATIONS] = lint_situations, [PROFILE_RIBBON] = lint_ribbon,
};

void lint_figures(const Lint *lint) {
    for (size_t i = 0; i < lint->profile->figure_count; i++) {
        const ProfileFigure *figure = &lint->profile->figures[i];
        if (lint_tells(lint, figure->place)) figure_lints[figure->kind](lint, figure);
    }
}
