/* The picture in words, for those who hear the page. */
#include <math.h>

#include "base/buf.h"
#include "story/play_parts.h"

#define AT_LINE 1.5 /* nearer than this to the line is on it */

/* "18 left, 7 deep"; "at the ball". */
static void put_place(Buf *buf, YardPoint at) {
    int across = (int)lround(fabs(at.x));
    int along = fabs(at.y) < AT_LINE ? 0 : (int)lround(fabs(at.y));
    if (across) buf_printf(buf, "%d %s", across, at.x < 0 ? "left" : "right");
    if (across && along) BUF_PUT(buf, ", ");
    if (along) buf_printf(buf, "%d %s", along, at.y < 0 ? "behind" : "deep");
    if (!across && !along) BUF_PUT(buf, "at the ball");
}

static void put_men(Buf *buf, const PlayFigure *play, bool defence) {
    const char *lead = defence ? " Defence: " : " Offence: ";
    for (size_t i = 0; i < play->man_count; i++) {
        const PlayMan *man = &play->men[i];
        if ((man->mark == PLAY_DEFENDER) != defence || !*man->letter) continue;
        buf_printf(buf, "%s%s ", lead, man->letter);
        put_place(buf, man->at);
        lead = "; ";
    }
    if (lead[0] == ';') buf_putc(buf, '.');
}

static const char *letter_of(const PlayFigure *play, const PlayLine *line) {
    return play->men[line->man].letter;
}

static void put_line(Buf *buf, const PlayFigure *play, const PlayLine *line) {
    static const char *const VERBS[PLAY_WAY_COUNT] = {
        [PLAY_TARGET] = "runs to", [PLAY_ROUTE] = "runs to", [PLAY_MOTION] = "moves to",
        [PLAY_DROP] = "drops to",  [PLAY_COVER] = "goes to", [PLAY_RUSH] = "rushes to"};
    const char *verb = line->to_man ? "comes in motion from" : VERBS[line->way];
    buf_printf(buf, " %s %s ", letter_of(play, line), verb);
    put_place(buf, line->points[line->to_man ? 0 : line->count - 1]);
    if (line->way == PLAY_MOTION && !line->to_man) BUF_PUT(buf, " in motion");
    if (line->read) buf_printf(buf, ", read %s", line->read);
    if (line->way == PLAY_TARGET) BUF_PUT(buf, ", the target");
    buf_putc(buf, '.');
}

static void put_rush(Buf *buf, const PlayFigure *play) {
    const char *lead = " Rush: ";
    for (size_t i = 0; i < play->line_count; i++) {
        if (play->lines[i].way != PLAY_RUSH) continue;
        buf_printf(buf, "%s%s", lead, letter_of(play, &play->lines[i]));
        lead = ", ";
    }
    if (lead[0] == ',') buf_putc(buf, '.');
}

static void put_zones(Buf *buf, const PlayFigure *play) {
    for (size_t i = 0; i < play->zone_count; i++) {
        buf_puts(buf, i ? "; " : " Zones around ");
        put_place(buf, play->zones[i].middle);
    }
    if (play->zone_count) buf_putc(buf, '.');
}

static void put_ball(Buf *buf, const PlayFigure *play) {
    if (!isfinite(play->aim.x)) return;
    BUF_PUT(buf, " The ball goes");
    if (isfinite(play->release.x)) {
        BUF_PUT(buf, " from ");
        put_place(buf, play->release);
    }
    BUF_PUT(buf, " to ");
    put_place(buf, play->aim);
    buf_puts(buf, play->caught ? ", caught." : ", not caught.");
}

const char *scene_words(const Scene *scene, const PlayFigure *play, const char *title) {
    Buf buf = {0};
    buf_printf(&buf, "%s. Yards from the ball, as the offence looks.", title);
    put_men(&buf, play, false);
    put_men(&buf, play, true);
    for (size_t i = 0; i < play->line_count; i++) {
        if (play->lines[i].way != PLAY_RUSH) put_line(&buf, play, &play->lines[i]);
    }
    put_rush(&buf, play);
    put_zones(&buf, play);
    put_ball(&buf, play);
    for (size_t i = 0; i < play->note_count; i++) {
        buf_printf(&buf, " At ");
        put_place(&buf, play->notes[i].at);
        buf_printf(&buf, ": %s.", play->notes[i].text);
    }
    const char *words = arena_copy(scene->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return words;
}
