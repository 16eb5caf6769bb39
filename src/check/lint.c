#include "check/lint.h"

#include <math.h>

#include "base/text.h"
#include "check/lint_parts.h"

#define WHOLE_WEIGHT 100.0
#define WEIGHT_SLACK 1e-6

bool lint_tells(const Lint *lint, Place place) {
    return !lint->path || (place.text && text_equal(place.text->path, lint->path));
}

static bool blank(const char *words) {
    return !words || !*words;
}

static void tell_blank(const Lint *lint, Place place, const char *what, const char *id, const char *lacks) {
    if (!lint_tells(lint, place)) return;
    diag_report(lint->diagnostics, RULE_PROFILE_WORDS, place, NULL, "%s '%s' has no %s", what, id, lacks);
}

void lint_words(const Lint *lint) {
    const Profile *profile = lint->profile;
    for (size_t i = 0; i < profile->field_count; i++) {
        const Field *field = &profile->fields[i];
        if (field->derived != DERIVED_NONE) continue;
        if (blank(field->says)) tell_blank(lint, field->place, "field", field->id, "words for the glossary");
        if (field->label == field->id) tell_blank(lint, field->place, "field", field->id, "label");
    }
    for (size_t i = 0; i < profile->total_count; i++) {
        const Total *total = &profile->totals[i];
        if (total->label == total->id) tell_blank(lint, total->place, "total", total->id, "label");
    }
    for (size_t i = 0; i < profile->slice_count; i++) {
        const Slice *slice = &profile->slices[i];
        if (slice->phrase == slice->label) tell_blank(lint, slice->place, "slice", slice->id, "phrase for a sentence");
    }
    for (size_t i = 0; i < profile->measure_count; i++) {
        const Measure *measure = &profile->measures[i];
        if (blank(measure->says)) tell_blank(lint, measure->place, "measure", measure->id, "definition");
    }
    for (size_t i = 0; i < profile->trait_count; i++) {
        const Trait *trait = &profile->traits[i];
        if (blank(trait->says)) tell_blank(lint, trait->place, "trait", trait->id, "definition");
    }
}

/* Weights are read as shares of a whole. */
static void lint_weights(const Lint *lint) {
    const Profile *profile = lint->profile;
    double sum = 0;
    for (size_t i = 0; i < profile->trait_count; i++) sum += profile->traits[i].weight;
    if (!profile->trait_count || !lint_tells(lint, profile->place) || fabs(sum - WHOLE_WEIGHT) < WEIGHT_SLACK) return;
    Buf figure = {0};
    buf_number(&figure, sum, 2);
    diag_report(lint->diagnostics, RULE_PROFILE_WEIGHTS, profile->place, NULL,
                "the weights of the traits sum to %s, not to 100", buf_text(&figure));
    buf_free(&figure);
}

void lint_profile(const Profile *profile, const char *path, Diagnostics *diagnostics) {
    const Lint lint = {.arena = arena_new(), .profile = profile, .path = path, .diagnostics = diagnostics};
    lint_words(&lint);
    lint_weights(&lint);
    lint_reach(&lint);
    lint_figures(&lint);
    arena_free(lint.arena);
}
