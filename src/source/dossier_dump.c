/* The model as text, one thing a line, in the order of the file: --dump=model and goldens. */
#include <math.h>
#include <string.h>

#include "base/buf.h"
#include "source/dossier.h"

enum { DUMP_PLACES = 4 };

static void put_named(Buf *out, const char *name, const char *value) {
    if (value && value[0]) buf_printf(out, " %s=%s", name, value);
}

static void put_quoted(Buf *out, const char *text) {
    if (text) buf_printf(out, " \"%s\"", text);
}

static void put_number(Buf *out, const char *name, double value) {
    if (isnan(value)) return;
    buf_printf(out, " %s=", name);
    buf_number(out, value, DUMP_PLACES);
}

static const char *slice_id(const Profile *profile, int slice) {
    return slice >= 0 ? profile->slices[slice].id : "?";
}

static const char *measure_id(const Profile *profile, int measure) {
    return measure >= 0 ? profile->measures[measure].id : "?";
}

/* ---- the head ---- */

static void dump_player(const Dossier *dossier, Buf *out) {
    buf_printf(out, "dossier %s profile=%s\n", dossier->id, dossier->profile->id);
    buf_printf(out, "player \"%s %s\" school=\"%s\"", dossier->given ? dossier->given : "",
               dossier->family ? dossier->family : "", dossier->school ? dossier->school : "");
    put_named(out, "position", dossier->position);
    put_named(out, "class", dossier->class_);
    put_named(out, "jersey", dossier->jersey);
    put_named(out, "born", dossier->born);
    put_named(out, "throws", dossier->throws);
    buf_printf(out, "\nfiling by=%s on=%s revision=%d", dossier->filing.by, dossier->filing.on,
               dossier->filing.revision);
    put_quoted(out, dossier->filing.note);
    buf_putc(out, '\n');
}

static void dump_measurable(const Measurable *measurable, Buf *out) {
    buf_printf(out, "measurable %s notation=\"%s\"", measurable->id, measurable->notation);
    put_number(out, "value", measurable->value);
    if (measurable->verified) BUF_PUT(out, " verified");
    if (measurable->hand_timed) BUF_PUT(out, " hand-timed");
    put_named(out, "on", measurable->on);
    put_quoted(out, measurable->where);
    buf_putc(out, '\n');
}

static void dump_media(const Media *media, Buf *out) {
    buf_printf(out, "media %s href=\"%s\"", media->id, media->href);
    put_number(out, "fps", media->fps > 0 ? media->fps : NAN);
    buf_putc(out, '\n');
}

/* ---- games ---- */

static void dump_charted(const Profile *profile, const Snap *snap, Buf *out) {
    buf_printf(out, "  snap %s", snap->name);
    for (size_t i = 0; i < profile->field_count; i++) put_named(out, profile->fields[i].id, snap->texts[i]);
    buf_putc(out, '\n');
}

static void dump_known(const Profile *profile, const Field *field, double number, Buf *out) {
    if (field->value_count)
        buf_printf(out, " %s=%s", field->id, profile->words[(int)number]);
    else
        put_number(out, field->id, number);
}

/* What the chart implies: derived values, exceptions read from a blank, and what was asked for and is unknown. */
static void dump_implied(const Profile *profile, const Snap *snap, const Columns *columns, size_t row, Buf *out) {
    BUF_PUT(out, "    so");
    for (size_t i = 0; i < profile->field_count; i++) {
        const Field *field = &profile->fields[i];
        const Column *column = &columns->columns[i];
        bool charted = snap->texts[i] != NULL;
        if (column->state[row] == VALUE_KNOWN && !charted) dump_known(profile, field, column->number[row], out);
        bool asked = field->required || field->exception || field->derived != DERIVED_NONE;
        if (column->state[row] == VALUE_UNKNOWN && asked) buf_printf(out, " %s=?", field->id);
        if (column->state[row] == VALUE_NOT_APPLICABLE && charted) buf_printf(out, " %s:not-applicable", field->id);
    }
    buf_puts(out, columns->counted[row] ? "\n" : " (not counted)\n");
}

static void dump_snaps(const Profile *profile, const Snap *snaps, const Columns *columns, size_t first, size_t count,
                       Buf *out) {
    for (size_t row = first; row < first + count; row++) {
        dump_charted(profile, &snaps[row], out);
        dump_implied(profile, &snaps[row], columns, row, out);
    }
}

static void dump_second_chart(const Dossier *dossier, const SecondChart *second, Buf *out) {
    buf_printf(out, " second chart of %s by=%s", dossier->games[second->game].id, second->by);
    put_named(out, "media", second->media);
    if (second->marks) buf_printf(out, " marks=\"%s\"", second->marks);
    buf_putc(out, '\n');
    dump_snaps(dossier->profile, second->snaps, &second->columns, 0, second->count, out);
}

static void dump_game(const Dossier *dossier, const Game *game, Buf *out) {
    buf_printf(out, "game %s on=%s site=%s \"%s\"", game->id, game->on, game->site, game->opponent);
    put_quoted(out, game->result);
    put_named(out, "by", game->by);
    put_named(out, "media", game->media);
    if (game->marks) buf_printf(out, " marks=\"%s\"", game->marks);
    buf_putc(out, '\n');
    if (game->official) BUF_PUT(out, "  official");
    for (size_t i = 0; game->official && i < dossier->profile->total_count; i++) {
        put_number(out, dossier->profile->totals[i].id, game->official[i]);
    }
    if (game->official) buf_putc(out, '\n');
    dump_snaps(dossier->profile, dossier->snaps, &dossier->columns, game->first_row, game->row_count, out);
    for (size_t i = 0; i < dossier->second_chart_count; i++) {
        const SecondChart *second = &dossier->second_charts[i];
        if (&dossier->games[second->game] == game) dump_second_chart(dossier, second, out);
    }
}

/* ---- prose and claims ---- */

static void dump_stat(const Profile *profile, const StatRef *stat, Buf *out) {
    static const char *const formats[] = {
        [STAT_RATE] = "rate", [STAT_K_OF_N] = "k-of-n", [STAT_VALUE] = "value", [STAT_INTERVAL] = "interval"};
    if (stat->total >= 0)
        buf_printf(out, "[total %s", profile->totals[stat->total].id);
    else
        buf_printf(out, "[%s", measure_id(profile, stat->measure));
    if (stat->slice >= 0) buf_printf(out, " of %s", slice_id(profile, stat->slice));
    if (stat->where) BUF_PUT(out, " where …");
    buf_printf(out, " as %s]", formats[stat->format]);
}

static void dump_run(const Profile *profile, const Run *run, Buf *out) {
    static const char *const marks[] = {[RUN_TEXT] = "", [RUN_EMPHASIS] = "_", [RUN_STRONG] = "*", [RUN_TERM] = "/"};
    if (run->kind == RUN_STAT)
        dump_stat(profile, &run->stat, out);
    else if (run->kind == RUN_CITE)
        buf_printf(out, "[snap %s]", run->text);
    else
        buf_printf(out, "%s%s%s", marks[run->kind], run->text, marks[run->kind]);
}

static void dump_prose(const Profile *profile, const char *name, const Prose *prose, Buf *out) {
    for (size_t i = 0; i < prose->count; i++) {
        const Paragraph *paragraph = &prose->paragraphs[i];
        buf_printf(out, "%s%s ", name, paragraph->item ? " -" : "");
        for (size_t j = 0; j < paragraph->run_count; j++) dump_run(profile, &paragraph->runs[j], out);
        buf_putc(out, '\n');
    }
}

static const char *against_word(const Profile *profile, int against) {
    if (against == CLAIM_AGAINST_REST) return "rest";
    return against == CLAIM_AGAINST_STANDARD ? "standard" : slice_id(profile, against);
}

static void dump_claim(const Dossier *dossier, const Claim *claim, Buf *out) {
    const Profile *profile = dossier->profile;
    buf_printf(out, "%s %s slice=%s against=%s measure=%s expects=%s",
               claim->kind == CLAIM_STRENGTH ? "strength" : "concern", claim->id, slice_id(profile, claim->slice),
               against_word(profile, claim->against), measure_id(profile, claim->measure),
               claim->direction > 0 ? "more" : "less");
    put_quoted(out, claim->title);
    buf_putc(out, '\n');
    dump_prose(profile, "  p", &claim->prose, out);
    for (size_t i = 0; i < claim->cite_count; i++) {
        const Cite *cite = &claim->cites[i];
        buf_printf(out, "  cite %s%s", cite->snap >= 0 ? dossier->snaps[cite->snap].name : "?",
                   cite->against ? " against" : "");
        put_quoted(out, cite->text);
        buf_putc(out, '\n');
    }
}

/* ---- key snaps ---- */

static void put_points(Buf *out, const char *name, const YardPoint *points, size_t count) {
    for (size_t i = 0; i < count; i++) {
        buf_printf(out, " %s%s", i ? "" : name, i ? "" : "=");
        buf_number(out, points[i].x, DUMP_PLACES);
        buf_putc(out, ',');
        buf_number(out, points[i].y, DUMP_PLACES);
    }
}

static void dump_man(const KeyMan *man, Buf *out) {
    buf_printf(out, "  man %s%s", man->id, man->defence ? " defence" : "");
    if (!isnan(man->at.x)) put_points(out, "at", &man->at, 1);
    put_points(out, "from", man->from.points, man->from.count);
    put_points(out, "to", man->to.points, man->to.count);
    put_named(out, "route", man->route);
    if (man->read >= 0) buf_printf(out, " read=%d", man->read);
    if (man->target) BUF_PUT(out, " target");
    if (man->rush >= 0) buf_puts(out, man->rush ? " rushes" : " stays");
    buf_putc(out, '\n');
}

static void dump_key(const Dossier *dossier, const KeySnap *key, Buf *out) {
    static const char *const strengths[] = {" strength=left", "", " strength=right"};
    buf_printf(out, "key %s%s%s%s\n", key->snap >= 0 ? dossier->snaps[key->snap].name : "?",
               strengths[key->strength + 1], key->offence_complete ? " offence-complete" : "",
               key->defence_complete ? " defence-complete" : "");
    for (size_t i = 0; i < key->man_count; i++) dump_man(&key->men[i], out);
    for (size_t i = 0; i < key->zone_count; i++) {
        BUF_PUT(out, "  zone");
        put_points(out, "at", &key->zones[i].middle, 1);
        put_number(out, "width", key->zones[i].width);
        put_number(out, "depth", key->zones[i].depth);
        buf_putc(out, '\n');
    }
    for (size_t i = 0; i < key->note_count; i++) {
        BUF_PUT(out, "  note");
        put_points(out, "at", &key->notes[i].at, 1);
        put_quoted(out, key->notes[i].text);
        buf_putc(out, '\n');
    }
    if (!isnan(key->aim.x)) {
        BUF_PUT(out, "  aim");
        put_points(out, "at", &key->aim, 1);
        put_number(out, "window", key->window);
        buf_putc(out, '\n');
    }
    dump_prose(dossier->profile, "  p", &key->prose, out);
}

/* ---- grades ---- */

static void dump_grades(const Profile *profile, const Grades *grades, Buf *out) {
    buf_printf(out, "grades by=%s", grades->by);
    put_named(out, "on", grades->on);
    buf_putc(out, '\n');
    for (size_t i = 0; i < grades->count; i++) {
        BUF_PUT(out, "  grade");
        put_number(out, profile->traits[grades->grades[i].trait].id, grades->grades[i].value);
        put_quoted(out, grades->grades[i].note);
        buf_putc(out, '\n');
    }
    if (isnan(grades->overall)) return;
    BUF_PUT(out, "  overall");
    put_number(out, "value", grades->overall);
    put_named(out, "when", grades->when);
    if (grades->fit) buf_printf(out, " fit=\"%s\"", grades->fit);
    if (grades->role) buf_printf(out, " role=\"%s\"", grades->role);
    put_quoted(out, grades->says);
    buf_putc(out, '\n');
}

void dossier_dump(const Dossier *dossier, Buf *out) {
    const Profile *profile = dossier->profile;
    dump_player(dossier, out);
    for (size_t i = 0; i < dossier->measurable_count; i++) dump_measurable(&dossier->measurables[i], out);
    for (size_t i = 0; i < dossier->media_count; i++) dump_media(&dossier->media[i], out);
    for (size_t i = 0; i < dossier->game_count; i++) dump_game(dossier, &dossier->games[i], out);
    for (size_t i = 0; i < dossier->claim_count; i++) dump_claim(dossier, &dossier->claims[i], out);
    for (size_t i = 0; i < dossier->key_count; i++) dump_key(dossier, &dossier->keys[i], out);
    for (size_t i = 0; i < dossier->grades_count; i++) dump_grades(profile, &dossier->grades[i], out);
    dump_prose(profile, "bottom-line", &dossier->bottom_line, out);
    dump_prose(profile, "background", &dossier->background, out);
    dump_prose(profile, "medical", &dossier->medical, out);
    dump_prose(profile, "personal", &dossier->personal, out);
}
