/* The chain: where a snap leaves the ball is where the next snap of the drive takes it up, with the down and distance
 * that follow. Rules of the game as in the design's consistency facts: whole yards, at least one to go, hence a slack
 * of one yard (NCAA football statisticians' manual). */
#include <math.h>

#include "check/check_parts.h"

enum { TO_GAIN = 10, LAST_DOWN = 4, SLACK = 1, FIELD_YARDS = 100, LAST_HALVES_QUARTER = 4 };

typedef struct ChainFields {
    int down, distance, spot, gain, drive, quarter, play, result, touchdown, fumble, penalty, yards;
} ChainFields;

/* Down, yards to go and yards to the goal before a snap. */
typedef struct Stand {
    double down, distance, to_goal;
} Stand;

/* What a snap means for the next one of its drive. */
typedef enum LinkKind {
    LINK_NONE,  /* nothing can be said */
    LINK_ENDS,  /* there is none: the drive is over */
    LINK_SAME,  /* the down is played again from the same place */
    LINK_MOVED, /* it is played again from where a penalty put the ball */
    LINK_NEXT   /* the ball lies where the play left it */
} LinkKind;

typedef struct Link {
    LinkKind kind;
    double yards;    /* MOVED: toward the goal; NEXT: gained */
    const char *why; /* ENDS */
} Link;

/* One slip is told once: where a snap does not follow from the one before it, the next may follow from what the snap
 * should have been. */
typedef struct Chain {
    Check *check;
    ChainFields fields;
    const Game *game;
    Stand mended;      /* what the snap at `mended_row` should have been */
    size_t mended_row; /* 0: none, the first row follows from nothing */
    bool quiet;        /* only `found` is wanted */
    bool found;
} Chain;

static bool is(const Chain *chain, int field, size_t row, const char *value) {
    return check_is(chain->check, field, row, value);
}

static const char *name_of(const Chain *chain, size_t row) {
    return chain->check->dossier->snaps[row].name;
}

static bool read_stand(const Chain *chain, size_t row, Stand *stand) {
    const ChainFields *fields = &chain->fields;
    return check_number(chain->check, fields->down, row, &stand->down) &&
           check_number(chain->check, fields->distance, row, &stand->distance) &&
           check_number(chain->check, fields->spot, row, &stand->to_goal);
}

/* ---- what a snap leaves ---- */

/* Plays that are no scrimmage downs, or after which the ball is kicked away. */
static bool is_kick(const Chain *chain, size_t row) {
    static const char *const kicks[] = {"punt", "field-goal", "kickoff", "try"};
    for (size_t i = 0; i < sizeof kicks / sizeof kicks[0]; i++) {
        if (is(chain, chain->fields.play, row, kicks[i])) return true;
    }
    return false;
}

static const char *why_over(const Chain *chain, size_t row) {
    if (is(chain, chain->fields.touchdown, row, "yes")) return "scored";
    if (is(chain, chain->fields.result, row, "intercepted")) return "was intercepted";
    if (is(chain, chain->fields.fumble, row, "lost")) return "lost a fumble";
    return NULL;
}

static Link after_penalty(const Chain *chain, size_t row) {
    Link link = {LINK_NONE, 0, NULL};
    const ChainFields *fields = &chain->fields;
    if (!is(chain, fields->result, row, "no-play")) return link;
    if (is(chain, fields->penalty, row, "offset")) link.kind = LINK_SAME;
    if (!check_number(chain->check, fields->yards, row, &link.yards)) return link;
    link.kind = LINK_MOVED;
    if (is(chain, fields->penalty, row, "offence")) link.yards = -link.yards;
    return link;
}

static Link after_play(const Chain *chain, size_t row, const Stand *stand) {
    Link link = {LINK_NONE, 0, NULL};
    const ChainFields *fields = &chain->fields;
    bool plain = is(chain, fields->penalty, row, "none") || is(chain, fields->penalty, row, "declined");
    if (!plain) return after_penalty(chain, row);
    if (is(chain, fields->fumble, row, "kept") || !check_number(chain->check, fields->gain, row, &link.yards))
        return link;
    if (link.yards >= stand->to_goal) return link; /* a score that was not marked, or a clash told elsewhere */
    link.kind = LINK_NEXT;
    if (stand->down < LAST_DOWN || link.yards >= stand->distance) return link;
    return (Link){LINK_ENDS, 0, "fell short on fourth down"};
}

static Link link_of(const Chain *chain, size_t row, const Stand *stand) {
    if (is_kick(chain, row)) return (Link){LINK_NONE, 0, NULL};
    const char *why = why_over(chain, row);
    if (why) return (Link){LINK_ENDS, 0, why};
    return after_play(chain, row, stand);
}

/* ---- findings ---- */

static const char *down_words(const Chain *chain, double down, double distance, double to_goal) {
    static const char *const downs[] = {"1st", "2nd", "3rd", "4th"};
    int index = (int)down - 1;
    if (index < 0 || index >= LAST_DOWN) return "no down";
    if (distance >= to_goal) return arena_printf(chain->check->arena, "%s and goal", downs[index]);
    return arena_printf(chain->check->arena, "%s and %d", downs[index], (int)distance);
}

static void also_before(const Chain *chain, size_t before) {
    diag_also(chain->check->diagnostics, chain->check->dossier->snaps[before].place, "%s is here",
              name_of(chain, before));
}

/* What would explain a ball that lies elsewhere. Seen from the other side's goal it lies where it should: it changed
 * hands. */
static const char *spot_hint(const Chain *chain, const Stand *now, double wanted) {
    double off = fabs(wanted - now->to_goal);
    if (now->down == 1 && fabs(FIELD_YARDS - wanted - now->to_goal) <= SLACK)
        return "the other side would have the ball there: a fumble that was lost, or another drive?";
    if (off != 5 && off != 10 && off != 15) return NULL;
    return arena_printf(chain->check->arena, "a penalty of %d yards would explain it: mark it, if there was one",
                        (int)off);
}

/* True when it is to be told now. */
static bool note_slip(Chain *chain, size_t row, const Stand *wanted) {
    chain->found = true;
    if (chain->quiet) return false;
    chain->mended = *wanted;
    chain->mended_row = row;
    return true;
}

static void report_spot(Chain *chain, size_t row, const Stand *now, double wanted) {
    const Check *check = chain->check;
    double found = now->to_goal;
    Stand mended = {now->down, now->distance, wanted};
    if (!note_slip(chain, row, &mended)) return;
    diag_report(check->diagnostics, RULE_CHART_CHAIN, check_value_place(check, chain->fields.spot, row),
                spot_hint(chain, now, wanted), "%s lies at %s; after %s the ball should lie at %s", name_of(chain, row),
                check_spot(check, found), name_of(chain, row - 1), check_spot(check, wanted));
    also_before(chain, row - 1);
}

static void report_down(Chain *chain, size_t row, int field, const Stand *now, Stand wanted) {
    const Check *check = chain->check;
    if (!note_slip(chain, row, &wanted)) return;
    diag_report(check->diagnostics, RULE_CHART_CHAIN, check_value_place(check, field, row), NULL,
                "%s is %s; after %s it should be %s", name_of(chain, row),
                down_words(chain, now->down, now->distance, now->to_goal), name_of(chain, row - 1),
                down_words(chain, wanted.down, wanted.distance, wanted.to_goal));
    also_before(chain, row - 1);
}

/* Snaps of which no drive is charted may well be of two. */
static void report_drive(const Chain *chain, size_t row, const char *message) {
    const Check *check = chain->check;
    double drive;
    if (!check_number(check, chain->fields.drive, row, &drive)) return;
    diag_report(check->diagnostics, RULE_CHART_CHAIN, check_value_place(check, chain->fields.drive, row), NULL,
                "%s %s, and %s is of the same drive", name_of(chain, row - 1), message, name_of(chain, row));
    also_before(chain, row - 1);
}

/* ---- the next snap of the drive ---- */

static bool on_field(double to_goal) {
    return to_goal >= 1 && to_goal < FIELD_YARDS;
}

static bool check_spot_after(Chain *chain, size_t row, const Stand *now, double wanted) {
    if (!on_field(wanted)) return true; /* half the distance to a goal line */
    if (fabs(now->to_goal - wanted) <= SLACK) return true;
    report_spot(chain, row, now, wanted);
    return false;
}

/* After a gain that is just enough or just too little, both a first down and the next down may be right. */
static bool follows(const Stand *before, const Stand *now, double gain) {
    double fresh = now->to_goal <= TO_GAIN ? now->to_goal : TO_GAIN;
    bool first = now->down == 1 && now->distance == fresh && gain >= before->distance - SLACK;
    double left = fmax(1, before->distance - gain);
    bool next = now->down == before->down + 1 && fabs(now->distance - left) <= SLACK && gain <= before->distance;
    return first || next;
}

static void check_next(Chain *chain, size_t row, const Stand *before, const Stand *now, double gain) {
    double wanted_spot = before->to_goal - gain;
    if (!on_field(wanted_spot)) return; /* a safety */
    if (!check_spot_after(chain, row, now, wanted_spot) || follows(before, now, gain)) return;
    bool first = gain >= before->distance;
    Stand wanted = {first ? 1 : before->down + 1, first ? TO_GAIN : before->distance - gain, now->to_goal};
    if (first && now->to_goal < TO_GAIN) wanted.distance = now->to_goal;
    int field = now->down == wanted.down ? chain->fields.distance : chain->fields.down;
    report_down(chain, row, field, now, wanted);
}

static void check_same(Chain *chain, size_t row, const Stand *before, const Stand *now) {
    if (!check_spot_after(chain, row, now, before->to_goal)) return;
    if (now->down == before->down && fabs(now->distance - before->distance) <= SLACK) return;
    report_down(chain, row, chain->fields.down, now, *before);
}

/* A penalty repeats the down, unless it costs the offence a down or gives it a first. Half the distance to a goal line
 * replaces the yards near it. */
static void check_moved(Chain *chain, size_t row, const Stand *before, const Stand *now, double yards) {
    if (!check_spot_after(chain, row, now, before->to_goal - yards)) return;
    bool repeated = now->down == before->down, lost = yards < 0 && now->down == before->down + 1;
    bool given = yards >= 0 && now->down == 1;
    if (repeated || lost || given) return;
    double left = before->distance - yards;
    Stand same = {before->down, left, before->to_goal - yards}, first = {1, TO_GAIN, before->to_goal - yards};
    report_down(chain, row, chain->fields.down, now, left > 0 ? same : first);
}

static void check_link(Chain *chain, size_t row, const Stand *before, const Stand *now) {
    Link link = link_of(chain, row - 1, before);
    if (link.kind == LINK_NEXT) check_next(chain, row, before, now, link.yards);
    if (link.kind == LINK_SAME) check_same(chain, row, before, now);
    if (link.kind == LINK_MOVED) check_moved(chain, row, before, now, link.yards);
}

/* Whether the snap follows from what the one before it should have been, when that was told to be wrong. */
static bool follows_mended(Chain *chain, size_t row, const Stand *now) {
    if (chain->mended_row == 0 || chain->mended_row != row - 1) return false;
    chain->quiet = true;
    chain->found = false;
    check_link(chain, row, &chain->mended, now);
    chain->quiet = false;
    return !chain->found;
}

/* ---- which snaps are chained ---- */

static int half_of(double quarter) {
    if (quarter <= LAST_HALVES_QUARTER) return quarter > 2;
    return (int)quarter; /* each overtime starts anew */
}

static bool same_half(const Chain *chain, size_t row) {
    double now, then;
    int field = chain->fields.quarter;
    if (!check_number(chain->check, field, row, &now) || !check_number(chain->check, field, row - 1, &then))
        return true;
    return half_of(now) == half_of(then);
}

static void check_pair(Chain *chain, size_t row) {
    if (!check_follows(chain->check, chain->fields.drive, row) || is_kick(chain, row)) return;
    if (chain->check->clashed[row - 1] || chain->check->clashed[row]) return; /* told already */
    if (!same_half(chain, row)) {
        report_drive(chain, row, "ended a half");
        return;
    }
    Stand before, now;
    if (!read_stand(chain, row - 1, &before)) return;
    Link link = link_of(chain, row - 1, &before);
    if (link.kind == LINK_ENDS) report_drive(chain, row, link.why);
    chain->check->checked.chained += link.kind != LINK_NONE;
    if (read_stand(chain, row, &now) && !follows_mended(chain, row, &now)) check_link(chain, row, &before, &now);
}

/* ---- charts ---- */

/* On most snaps: after one of which alone it is not known, nothing is compared, and that is no matter of the chart. */
static bool knows_penalties(const Chain *chain) {
    const Game *game = chain->game;
    size_t known = 0;
    for (size_t row = game->first_row; row < game->first_row + game->row_count; row++) {
        double word;
        known += check_number(chain->check, chain->fields.penalty, row, &word);
    }
    return known * 2 > game->row_count;
}

static void check_game(Chain *chain) {
    const Game *game = chain->game;
    if (game->row_count < 2) return;
    bool misnamed = diag_reported(chain->check->diagnostics, RULE_REFERENCE) > 0; /* a mark, perhaps */
    if (!misnamed && !knows_penalties(chain)) {
        diag_report(chain->check->diagnostics, RULE_CHART_UNCHAINED,
                    chain->check->dossier->snaps[game->first_row].place,
                    "write marks=\"touchdown fumble penalty\" in its chart, if they were marked",
                    "spots, downs and distances of %s are not compared: its chart does not say that it marks penalties",
                    game->id);
    }
    for (size_t row = game->first_row + 1; row < game->first_row + game->row_count; row++) check_pair(chain, row);
}

void check_chain(Check *check) {
    const Profile *profile = check->profile;
    Chain chain = {.check = check};
    chain.fields = (ChainFields){
        .down = profile_field(profile, "down"),
        .distance = profile_field(profile, "distance"),
        .spot = profile_field(profile, "spot"),
        .gain = profile_field(profile, "gain"),
        .drive = profile_field(profile, "drive"),
        .quarter = profile_field(profile, "quarter"),
        .play = profile_field(profile, "play"),
        .result = profile_field(profile, "result"),
        .touchdown = profile_field(profile, "touchdown"),
        .fumble = profile_field(profile, "fumble"),
        .penalty = profile_field(profile, "penalty"),
        .yards = profile_field(profile, "penalty-yards"),
    };
    if (chain.fields.down < 0 || chain.fields.spot < 0) return;
    for (size_t i = 0; i < check->dossier->game_count; i++) {
        chain.game = &check->dossier->games[i];
        check_game(&chain);
    }
}
