/* The index of clips: every cited snap by game and film time, what it is cited for, and where it can be watched. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "story/write.h"

/* ---- addresses ---- */

static const Media *media_of(Writer *writer, int row) {
    const Dossier *dossier = writer->dossier;
    const char *id = dossier->games[dossier->snaps[row].game].media;
    for (size_t i = 0; id && i < dossier->media_count; i++) {
        if (strcmp(dossier->media[i].id, id) == 0) return &dossier->media[i];
    }
    return NULL;
}

/* Seconds on the film, or NaN. */
static double film_seconds(Writer *writer, int row, const char *field) {
    int index = profile_field(writer->profile, field);
    if (index < 0) return NAN;
    const Column *column = &writer->dossier->columns.columns[index];
    return column->state[row] == VALUE_KNOWN ? column->number[row] : NAN;
}

/* A href stands for a file below the house's film address: it neither is an address nor leads out of its folder. */
static bool is_below(const char *href) {
    return *href && *href != '/' && !strchr(href, ':') && !strchr(href, '\\') && !strstr(href, "..");
}

static void put_escaped(Buf *buf, const char *href) {
    for (; *href; href++) {
        unsigned char byte = (unsigned char)*href;
        bool plain = byte < 0x80 && (strchr("-._~/", byte) || (byte >= '0' && byte <= '9') ||
                                     ((byte | 0x20) >= 'a' && (byte | 0x20) <= 'z'));
        if (plain)
            buf_putc(buf, (char)byte);
        else
            buf_printf(buf, "%%%02X", byte);
    }
}

/* Media Fragments URI 1.0 (W3C Recommendation, 25 September 2012), 4.2.1: #t=begin,end in seconds of normal play time.
 */
const char *film_address(Writer *writer, int row) {
    if (row < 0 || !writer->house->film_base) return NULL;
    const Media *media = media_of(writer, row);
    double in = film_seconds(writer, row, "in");
    double out = film_seconds(writer, row, "out");
    if (!media || !media->href || !is_below(media->href) || !isfinite(in)) return NULL;
    Buf buf = {0};
    buf_puts(&buf, writer->house->film_base);
    put_escaped(&buf, media->href);
    buf_puts(&buf, "#t=");
    buf_number(&buf, in, 1);
    if (isfinite(out) && out > in) {
        buf_putc(&buf, ',');
        buf_number(&buf, out, 1);
    }
    const char *address = arena_copy(writer->arena, buf_text(&buf), buf.length);
    buf_free(&buf);
    return address;
}

/* ---- the cited snaps ---- */

typedef struct Clip {
    int row;
    double in;
    int game;
} Clip;

/* By game, then by film; snaps without a film time as they were played. */
static int by_film(const void *left, const void *right) {
    const Clip *a = left;
    const Clip *b = right;
    if (a->game != b->game) return a->game - b->game;
    if (isfinite(a->in) && isfinite(b->in) && a->in != b->in) return a->in < b->in ? -1 : 1;
    return a->row - b->row;
}

static size_t cited_clips(Writer *writer, Clip *clips) {
    const Dossier *dossier = writer->dossier;
    bool *seen = ARENA_ARRAY(writer->arena, dossier->snap_count, bool);
    size_t count = 0;
    for (size_t c = 0; c < dossier->claim_count; c++) {
        for (size_t i = 0; i < dossier->claims[c].cite_count; i++) {
            int row = dossier->claims[c].cites[i].snap;
            if (row < 0 || seen[row]) continue;
            seen[row] = true;
            clips[count++] = (Clip){row, film_seconds(writer, row, "in"), dossier->snaps[row].game};
        }
    }
    qsort(clips, count, sizeof *clips, by_film);
    return count;
}

/* Every claim that cites the snap, each a link. */
static Words claims_of(Writer *writer, int row) {
    Words words = {0};
    for (size_t c = 0; c < writer->dossier->claim_count; c++) {
        const Claim *claim = &writer->dossier->claims[c];
        for (size_t i = 0; i < claim->cite_count; i++) {
            if (claim->cites[i].snap != row) continue;
            if (words.count) words_add(writer, &words, SPAN_TEXT, " \u00b7 ", NULL);
            words_add(writer, &words, SPAN_LINK, claim->title, say(writer, "claim-%s", claim->id));
            if (claim->cites[i].against) words_add(writer, &words, SPAN_TEXT, " (against)", NULL);
        }
    }
    return words;
}

static const char *site_and_opponent(Writer *writer, const Game *game) {
    const char *site = !game->site ? "" : strcmp(game->site, "away") == 0 ? "at " : "";
    const char *film = game->media ? say(writer, " \u00b7 film %s", game->media) : "";
    return say(writer, "%s \u00b7 %s%s%s", game->id, site, game->opponent ? game->opponent : "", film);
}

static const TableColumn HEADS[] = {
    {.head = "clip", .width = 42, .strong = true, .head_of_row = true},
    {.head = "film, in\u2013out", .width = 92},
    {.head = "quarter", .width = 58},
    {.head = "down", .width = 58},
    {.head = "shown for"},
};
enum { COLUMNS = sizeof HEADS / sizeof *HEADS };

static void clip_row(Writer *writer, TableCell *cells, int row) {
    const char *film = say_film(writer, row);
    const char *address = film_address(writer, row);
    words_add(writer, &cells[0].words, SPAN_LINK, writer->dossier->snaps[row].name, say_snap_anchor(writer, row));
    words_add(writer, &cells[1].words, address ? SPAN_LINK : SPAN_TEXT, *film ? film : "\u2013", address);
    cells[2].words = words_plain(
        writer, say(writer, "Q%s\u00a0%s", say_charted(writer, row, "quarter"), say_charted(writer, row, "clock")));
    cells[3].words = words_plain(writer, say_down_and_distance(writer, row));
    cells[4].words = claims_of(writer, row);
}

static void clip_table(Writer *writer, Block *section, const Clip *clips, size_t count) {
    Table *table = block_table(writer, section, HEADS, COLUMNS, count + writer->dossier->game_count);
    unsigned char *band = ARENA_ARRAY(writer->arena, table->row_count, unsigned char);
    table->row_count = 0;
    for (size_t i = 0; i < count; i++) {
        if (!i || clips[i].game != clips[i - 1].game) {
            band[table->row_count] = 1;
            TableCell *cells = &table->cells[table->row_count++ * COLUMNS];
            cells[0].words = words_plain(writer, site_and_opponent(writer, &writer->dossier->games[clips[i].game]));
        }
        clip_row(writer, &table->cells[table->row_count++ * COLUMNS], clips[i].row);
    }
    table->band = band;
}

/* ---- codes to point a telephone at ---- */

static void film_codes(Writer *writer, Block *section, const Clip *clips, size_t count, int most) {
    Figure *figure = ARENA_NEW(writer->arena, Figure);
    FilmCodes *codes = &figure->as.codes;
    codes->codes = ARENA_ARRAY(writer->arena, count, FilmCode);
    for (size_t i = 0; i < count && (!most || codes->count < (size_t)most); i++) {
        const char *address = film_address(writer, clips[i].row);
        if (!address) continue;
        const char *film = say_film(writer, clips[i].row);
        codes->codes[codes->count++] = (FilmCode){address, writer->dossier->snaps[clips[i].row].name, film};
    }
    if (!codes->count) return;
    figure->kind = FIGURE_FILM_CODES;
    figure->alt = say(writer, "QR codes of %s; the film times in the table above are links to the same addresses.",
                      say_count(writer, (int)codes->count, "clips"));
    block_figure(writer, section, figure, "On the film server",
                 "point a camera at a code; it opens the film at the snap");
}

void story_clips(Writer *writer, Block *document, const LayoutSection *section) {
    Clip *clips = ARENA_ARRAY(writer->arena, writer->dossier->snap_count, Clip);
    size_t count = cited_clips(writer, clips);
    if (!count) return;
    Block *block =
        block_section(writer, document, section->title ? section->title : "Clips",
                      say(writer, "%s, by game and film time", say_count(writer, (int)count, "cited snaps")));
    clip_table(writer, block, clips, count);
    film_codes(writer, block, clips, count, section->most);
}
