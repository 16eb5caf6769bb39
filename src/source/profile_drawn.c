/* Whether a figure can be drawn as the profile binds it: the kind of its measure and fields, and the room of the page.
 */
#include "source/profile_parts.h"

/* What the page has room for. */
enum { MOST_LANES = 7, MOST_BANDS = 7, MOST_ROWS = 18, MOST_PANELS = 4, MOST_PARTS = 5, MOST_COLUMNS = 6, MARKS = 3 };

static void tell(ProfileReader *reader, const ProfileFigure *figure, const char *message) {
    diag_report(reader->diagnostics, RULE_PROFILE_FIGURE, figure->place, NULL, "%s", message);
}

static const char *const kind_words[] = {
    [MEASURE_RATE] = "a rate", [MEASURE_MEAN] = "a mean", [MEASURE_RATIO] = "a ratio", [MEASURE_FORMULA] = "a formula"};

static void need_rate(ProfileReader *reader, const ProfileFigure *figure, const char *what) {
    if (figure->measure < 0) return;
    const Measure *measure = &reader->profile->measures[figure->measure];
    if (measure->kind == MEASURE_RATE) return;
    tell(reader, figure,
         arena_printf(reader->arena, "%s shows a rate, and measure '%s' is %s", what, measure->id,
                      kind_words[measure->kind]));
}

static void limit(ProfileReader *reader, const ProfileFigure *figure, size_t count, size_t most, const char *what) {
    if (count <= most) return;
    tell(reader, figure, arena_printf(reader->arena, "%zu %s, where the page has room for %zu", count, what, most));
}

static void check_field(ProfileReader *reader, const ProfileFigure *figure) {
    const Field *fields = reader->profile->fields;
    need_rate(reader, figure, "a field from above");
    if (figure->lateral < 0 || figure->depth < 0) return;
    limit(reader, figure, fields[figure->lateral].value_count, MOST_LANES, "lanes");
    limit(reader, figure, fields[figure->depth].value_count, MOST_BANDS, "bands");
    if (figure->lateral == figure->depth) {
        tell(reader, figure,
             arena_printf(reader->arena, "'%s' cannot be both across and along the field", fields[figure->lateral].id));
    }
}

/* How many names a list has: what parts it into groups is none. */
static size_t count_names(const int *indexes, size_t count) {
    size_t names = 0;
    for (size_t i = 0; i < count; i++) names += indexes[i] >= 0;
    return names;
}

static void check_rows(ProfileReader *reader, const ProfileFigure *figure) {
    limit(reader, figure, count_names(figure->slices, figure->slice_count), MOST_ROWS, "rows");
}

static void check_trend(ProfileReader *reader, const ProfileFigure *figure) {
    limit(reader, figure, count_names(figure->measures, figure->measure_count), MOST_PANELS, "panels");
}

static void check_ladder(ProfileReader *reader, const ProfileFigure *figure) {
    limit(reader, figure, count_names(figure->parts, figure->part_count), MOST_PARTS, "parts");
    if (figure->total < 0) return;
    const Total *total = &reader->profile->totals[figure->total];
    if (!total->sum) return;
    tell(reader, figure,
         arena_printf(reader->arena, "a ladder counts snaps, and total '%s' adds something", total->id));
}

static void check_situations(ProfileReader *reader, const ProfileFigure *figure) {
    const Profile *profile = reader->profile;
    int band = profile_field(profile, "to-go-band");
    need_rate(reader, figure, "a table of situations");
    if (profile_field(profile, "down") < 0 || band < 0) {
        tell(reader, figure,
             "a table of situations goes by the fields 'down' and 'to-go-band', which the profile lacks");
        return;
    }
    if (!profile->fields[band].value_count)
        tell(reader, figure, "'to-go-band' is not a choice, so it makes no columns");
    limit(reader, figure, profile->fields[band].value_count, MOST_COLUMNS, "columns");
}

static void check_ribbon(ProfileReader *reader, const ProfileFigure *figure) {
    if (figure->lateral < 0) return;
    const Field *mark = &reader->profile->fields[figure->lateral];
    if (mark->type == FIELD_ORDERED && mark->value_count == MARKS) return;
    tell(reader, figure,
         arena_printf(reader->arena, "a ribbon goes by an ordered field of three values, which '%s' is not", mark->id));
}

static void (*const checks[])(ProfileReader *reader, const ProfileFigure *figure) = {
    [PROFILE_THROW_FIELD] = check_field, [PROFILE_INTERVAL_ROWS] = check_rows,    [PROFILE_GAME_TREND] = check_trend,
    [PROFILE_LADDER] = check_ladder,     [PROFILE_SITUATIONS] = check_situations, [PROFILE_RIBBON] = check_ribbon,
};

void profile_check_drawn(ProfileReader *reader, const ProfileFigure *figure) {
    checks[figure->kind](reader, figure);
}
