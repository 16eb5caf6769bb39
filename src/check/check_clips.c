/* Clips are stretches of film: in before out, within the film, no longer than a play, no two over the same seconds. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "check/check_parts.h"
#include "source/xml.h"

enum { HOUR = 3600, MINUTE = 60 };
enum { MOST_SECONDS = 60 }; /* from the huddle to the whistle a clip is under a minute (common practice) */

typedef struct Clip {
    double in, out;
    size_t row;
    const char *film; /* media id; games without one have a film each */
    int game;
} Clip;

static int compare_films(const Clip *a, const Clip *b) {
    if (a->film && b->film) return strcmp(a->film, b->film);
    if (a->film || b->film) return a->film ? 1 : -1;
    return (a->game > b->game) - (a->game < b->game);
}

static int compare_clips(const void *left, const void *right) {
    const Clip *a = left, *b = right;
    int films = compare_films(a, b);
    if (films) return films;
    if (a->in != b->in) return a->in < b->in ? -1 : 1;
    return (a->row > b->row) - (a->row < b->row);
}

/* False when the clip is none; that is reported. */
static bool check_clip(const Check *check, int out, const Clip *clip) {
    const char *name = check->dossier->snaps[clip->row].name;
    Place place = check_value_place(check, out, clip->row);
    if (clip->in >= clip->out) {
        diag_report(check->diagnostics, RULE_CLIP_TIME, place, NULL, "the clip of %s does not end after its start",
                    name);
        return false;
    }
    if (clip->out - clip->in <= MOST_SECONDS) return true;
    diag_report(check->diagnostics, RULE_CLIP_ODD, place, NULL, "the clip of %s is longer than %d seconds", name,
                MOST_SECONDS);
    return true;
}

static const Media *film_of(const Check *check, const Clip *clip) {
    const Dossier *dossier = check->dossier;
    for (size_t i = 0; clip->film && i < dossier->media_count; i++) {
        if (strcmp(dossier->media[i].id, clip->film) == 0) return &dossier->media[i];
    }
    return NULL;
}

static const char *film_time(const Check *check, double seconds) {
    int whole = (int)seconds;
    double part = seconds - whole;
    return arena_printf(check->arena, "%d:%02d:%02d%s", whole / HOUR, whole / MINUTE % MINUTE, whole % MINUTE,
                        part > 0 ? check_figure(check, part, 3) + 1 : "");
}

static void check_inside(const Check *check, int out, const Clip *clip) {
    const Media *film = film_of(check, clip);
    if (!film || film->length <= 0 || clip->out <= film->length) return;
    diag_report(check->diagnostics, RULE_CLIP_TIME, check_value_place(check, out, clip->row), NULL,
                "the clip of %s ends at %s; the film '%s' is %s long", check->dossier->snaps[clip->row].name,
                film_time(check, clip->out), film->id, film_time(check, film->length));
    diag_also(check->diagnostics, xml_tag_value_place(film->place, "length"), "its length is given here");
}

static void check_overlaps(const Check *check, int in, const Clip *clips, size_t count) {
    const Snap *snaps = check->dossier->snaps;
    for (size_t i = 1; i < count; i++) {
        const Clip *before = &clips[i - 1], *clip = &clips[i];
        if (compare_films(before, clip) != 0 || clip->in >= before->out) continue;
        diag_report(check->diagnostics, RULE_CLIP_ODD, check_value_place(check, in, clip->row), NULL,
                    "the clip of %s starts before that of %s ends", snaps[clip->row].name, snaps[before->row].name);
        diag_also(check->diagnostics, check_value_place(check, in, before->row), "%s is here", snaps[before->row].name);
    }
}

void check_clips(Check *check) {
    const Dossier *dossier = check->dossier;
    int in = profile_field(check->profile, "in"), out = profile_field(check->profile, "out");
    Clip *clips = ARENA_ARRAY(check->arena, dossier->snap_count, Clip);
    size_t count = 0;
    for (size_t row = 0; row < dossier->snap_count; row++) {
        int game = dossier->snaps[row].game;
        Clip clip = {.row = row, .film = dossier->games[game].media, .game = game};
        if (!check_number(check, in, row, &clip.in) || !check_number(check, out, row, &clip.out)) continue;
        check->checked.clips++;
        if (!check_clip(check, out, &clip)) continue;
        check_inside(check, out, &clip);
        clips[count++] = clip;
    }
    qsort(clips, count, sizeof *clips, compare_clips);
    check_overlaps(check, in, clips, count);
}
