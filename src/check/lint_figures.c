/* Figures that would show something else than they say. What the page has no room for is told when the profile is read.
 */
#include "check/lint_parts.h"

static void tell(const Lint *lint, const ProfileFigure *figure, const char *message) {
    diag_report(lint->diagnostics, RULE_PROFILE_FIGURE, figure->place, NULL, "%s", message);
}

/* A ladder parts its snaps: none may stand on two rungs, or in two parts. */
static void need_apart(const Lint *lint, const ProfileFigure *figure, const int *slices, size_t count,
                       const char *what) {
    int first, second;
    const Slice *all = lint->profile->slices;
    if (!lint_shared(lint, slices, count, &first, &second)) return;
    tell(lint, figure, arena_printf(lint->arena, "%s '%s' and '%s' share snaps", what, all[first].id, all[second].id));
}

void lint_figures(const Lint *lint) {
    for (size_t i = 0; i < lint->profile->figure_count; i++) {
        const ProfileFigure *figure = &lint->profile->figures[i];
        if (figure->kind != PROFILE_LADDER || !lint_tells(lint, figure->place)) continue;
        need_apart(lint, figure, figure->slices, figure->slice_count, "rungs");
        need_apart(lint, figure, figure->parts, figure->part_count, "parts");
    }
}
