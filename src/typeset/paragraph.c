#include "typeset/paragraph.h"

#include <math.h>
#include <string.h>

#include "base/text.h"

enum { FIRST_BOXES = 256, FIRST_BREAKS = 512, THOUSANDTHS = 1000 };

/* White stretches by half of itself and shrinks by a third, as in plain TeX's text type. */
static const double stretch_share = 0.5;
static const double shrink_share = 1.0 / 3;
static const double overfull_slack = 0.5; /* points that a line may be too long before it is reported */

/* Each pass tries what the one before did not. Lengths in ems of the type. */
typedef struct Pass {
    double tolerance, emergency;
    CutLevel level;
    bool force;
} Pass;

static const Pass justified_passes[] = {
    {1.3, 0, CUT_OWN, false},
    {1.7, 0, CUT_HYPHENS, false},
    {2.2, 2, CUT_HYPHENS, false},
    {1e300, 4, CUT_CAPITALS, true},
};
static const Pass ragged_passes[] = {
    {0, 0, CUT_OWN, false},
    {0, 0, CUT_HYPHENS, false},
    {0, 0, CUT_CAPITALS, true},
};
static const double short_last_ems = 3;
static const double margin_ems = 1; /* wider than any hyphen and hang */
static const double hyphen_penalty = 50;
static const double own_hyphen_penalty = 30;

/* ---- words and white ---- */

static ParaBox *new_box(Setter *setter) {
    if (setter->box_count == setter->box_room) {
        size_t room = setter->box_room ? setter->box_room * 2 : FIRST_BOXES;
        ParaBox *boxes = ARENA_ARRAY(setter->canvas.arena, room, ParaBox);
        if (setter->boxes) memcpy(boxes, setter->boxes, setter->box_count * sizeof *boxes);
        setter->boxes = boxes;
        setter->box_room = room;
    }
    return &setter->boxes[setter->box_count++];
}

/* Length of the white at `at`: spaces, or a no-break space (`fast`); 0 when a word goes on. */
static size_t white_at(const char *at, bool *fast) {
    size_t length = 0;
    for (;;) {
        char byte = at[length];
        if (byte == ' ' || byte == '\n' || byte == '\t' || byte == '\r') {
            length++;
        } else if (byte == '\xC2' && at[length + 1] == '\xA0') {
            *fast = true;
            length += 2;
        } else {
            return length;
        }
    }
}

double para_word_width(const Word *word, TextStyle style) {
    double width = word->width * (double)style.size / THOUSANDTHS;
    if (style.tracking == 0) return width;
    return width + (double)style.tracking * (double)style.size / THOUSANDTHS *
                       (double)text_characters(word->text, word->length);
}

static void add_word(Setter *setter, const Setting *setting, const Span *span, uint32_t index, const char *text,
                     size_t length) {
    TextStyle style = setting->text[span->kind];
    const Word *word = canvas_word(&setter->canvas, style.face, text, length, span->place);
    ParaBox *before = setter->box_count ? &setter->boxes[setter->box_count - 1] : NULL;
    if (before && before->space == 0 && cuts_between(setter->canvas.arena, before->word, word))
        before->joint = JOINT_BREAK;
    *new_box(setter) = (ParaBox){word, para_word_width(word, style), 0, (uint8_t)span->kind, JOINT_FAST, index};
}

/* A dash that stands alone belongs to the words before it. */
static bool is_lone_dash(const char *text) {
    if (strncmp(text, "\u2013", 3) != 0 && strncmp(text, "\u2014", 3) != 0) return false;
    return text[3] == ' ' || text[3] == '\0';
}

static void add_white(Setter *setter, const Setting *setting, SpanKind kind, bool fast, const char *next) {
    if (!setter->box_count) return;
    TextStyle style = setting->text[kind];
    ParaBox *before = &setter->boxes[setter->box_count - 1];
    double space = setter->canvas.metrics->space(setter->canvas.metrics, style.face) * (double)style.size / THOUSANDTHS;
    space += (double)style.tracking * (double)style.size / THOUSANDTHS;
    bool is_fast = fast || kind == SPAN_FIGURE || is_lone_dash(next);
    before->joint = is_fast ? JOINT_FAST : JOINT_SPACE;
    before->space = (float)space;
}

static void add_span(Setter *setter, const Setting *setting, const Span *span, uint32_t index) {
    const char *at = span->text ? span->text : "";
    while (*at) {
        bool fast = false;
        size_t white = white_at(at, &fast);
        at += white;
        if (white) add_white(setter, setting, span->kind, fast, at);
        size_t length = 0;
        while (at[length] && !white_at(at + length, &fast)) length++;
        if (length) add_word(setter, setting, span, index, at, length);
        at += length;
    }
}

const Para *para_new(Setter *setter, const Words *words, const Setting *setting) {
    Para *para = ARENA_NEW(setter->canvas.arena, Para);
    setter->box_count = 0;
    for (size_t i = 0; i < words->count; i++) add_span(setter, setting, &words->spans[i], (uint32_t)i);
    size_t count = setter->box_count;
    ParaBox *boxes = ARENA_ARRAY(setter->canvas.arena, count, ParaBox);
    if (count) {
        memcpy(boxes, setter->boxes, count * sizeof *boxes);
        boxes[count - 1].space = 0;
        boxes[count - 1].joint = JOINT_FAST;
    }
    *para = (Para){.setting = setting, .words = words, .boxes = boxes, .count = count, .natural = setting->indent};
    double together = 0; /* boxes that no line parts */
    for (size_t i = 0; i < count; i++) {
        para->natural += boxes[i].width + (double)boxes[i].space;
        together += boxes[i].width;
        para->longest = fmax(para->longest, together);
        together = boxes[i].joint == JOINT_FAST ? together + (double)boxes[i].space : 0;
    }
    return para;
}

const Para *para_plain(Setter *setter, const char *text, const Setting *setting) {
    Span *span = ARENA_NEW(setter->canvas.arena, Span);
    Words *words = ARENA_NEW(setter->canvas.arena, Words);
    span->text = text ? arena_string(setter->canvas.arena, text) : "";
    *words = (Words){span, 1};
    return para_new(setter, words, setting);
}

/* ---- places to break ---- */

/* Where the paragraph is, set in one line: the running sums of the places. */
typedef struct Run {
    double at, stretch, shrink;
} Run;

static void add_break(Setter *setter, FitBreak place) {
    if (setter->break_count == setter->break_room) {
        size_t room = setter->break_room ? setter->break_room * 2 : FIRST_BREAKS;
        FitBreak *breaks = ARENA_ARRAY(setter->canvas.arena, room, FitBreak);
        if (setter->breaks) memcpy(breaks, setter->breaks, setter->break_count * sizeof *breaks);
        setter->breaks = breaks;
        setter->break_room = room;
    }
    setter->breaks[setter->break_count++] = place;
}

static FitBreak break_at(const Run *run, double end, double start) {
    return (FitBreak){.end = end,
                      .start = start,
                      .end_stretch = run->stretch,
                      .end_shrink = run->shrink,
                      .start_stretch = run->stretch,
                      .start_shrink = run->shrink};
}

static void add_cuts(Setter *setter, const Para *para, size_t index, CutLevel level, const Run *run) {
    const ParaBox *box = &para->boxes[index];
    TextStyle style = para->setting->text[box->kind];
    double scale = (double)style.size / THOUSANDTHS;
    if (box->kind == SPAN_FIGURE) return;
    WordCuts found = cuts_find(&setter->cuts, setter->canvas.arena, setter->canvas.metrics, box->word, level);
    for (size_t i = 0; i < found.count; i++) {
        const Cut *cut = &found.cuts[i];
        double end = run->at + cut->left * scale;
        FitBreak place = break_at(run, end, run->at + box->width - cut->right * scale);
        if (para->setting->justified) {
            place.hang_end = cut->hang_end * scale;
            place.hang_start = cut->hang_start * scale;
        }
        place.penalty = cut->soft ? hyphen_penalty : own_hyphen_penalty;
        place.flagged = true;
        place.box = (uint32_t)index;
        place.cut = cut;
        add_break(setter, place);
    }
}

/* The place after a whole word; the last word's is the paragraph's end. */
static void add_end(Setter *setter, const Para *para, size_t index, Run *run) {
    const ParaBox *box = &para->boxes[index];
    FitBreak place = break_at(run, run->at, run->at + (double)box->space);
    run->at += (double)box->space;
    run->stretch += (double)box->space * stretch_share;
    run->shrink += (double)box->space * shrink_share;
    if (box->joint == JOINT_FAST && index + 1 < para->count) return;
    place.start_stretch = run->stretch;
    place.start_shrink = run->shrink;
    place.box = (uint32_t)index;
    if (box->joint == JOINT_BREAK) place.penalty = own_hyphen_penalty;
    if (para->setting->justified) {
        place.hang_end = box->word->right_bearing * (double)para->setting->text[box->kind].size / THOUSANDTHS;
        const ParaBox *next = index + 1 < para->count ? box + 1 : NULL;
        if (next)
            place.hang_start = next->word->left_bearing * (double)para->setting->text[next->kind].size / THOUSANDTHS;
    }
    add_break(setter, place);
}

static FitBreak paragraph_start(const Para *para) {
    FitBreak place = {.start = -para->setting->indent};
    const ParaBox *first = para->boxes;
    if (para->setting->justified && para->setting->indent == 0) {
        place.hang_start = first->word->left_bearing * (double)para->setting->text[first->kind].size / THOUSANDTHS;
    }
    return place;
}

static void find_breaks(Setter *setter, const Para *para, CutLevel level) {
    Run run = {0};
    setter->break_count = 0;
    add_break(setter, paragraph_start(para));
    for (size_t i = 0; i < para->count; i++) {
        add_cuts(setter, para, i, level, &run);
        run.at += para->boxes[i].width;
        add_end(setter, para, i, &run);
    }
}

/* ---- lines ---- */

static void report_overfull(Setter *setter, const Para *para, const ParaLine *line, double excess) {
    const ParaBox *widest = &para->boxes[line->first];
    for (uint32_t i = line->first; i <= line->last; i++) {
        if (para->boxes[i].width > widest->width) widest = &para->boxes[i];
    }
    if (!setter->canvas.diagnostics) return;
    diag_report(setter->canvas.diagnostics, RULE_PAGE_OVERFULL, para->words->spans[widest->span].place,
                "a shorter word, or a hyphen where it may be broken, would fit",
                "the line with \"%s\" is %.1f points too long for its measure", widest->word->text, excess);
}

/* How far the white of a line from one place to another must change to fill `width`. */
static float white_of(const FitBreak *from, const FitBreak *to, double spare, bool last) {
    double white = (to->end_stretch - from->start_stretch) / stretch_share;
    if (white <= 0 || (last && spare > 0)) return 1;
    return (float)fmax(1 + spare / white, 1 - shrink_share);
}

const Word *para_word(Setter *setter, const Para *para, const ParaLine *line, uint32_t box) {
    const Cut *from = box == line->first ? line->first_cut : NULL;
    const Cut *to = box == line->last ? line->last_cut : NULL;
    return cuts_piece(setter->canvas.metrics, para->boxes[box].word, from, to);
}

/* The width of a line that begins or ends in a cut word, by what is left of it rather than by what was estimated. */
static double cut_width(Setter *setter, const Para *para, const ParaLine *line) {
    double width = 0;
    for (uint32_t i = line->first; i <= line->last; i++) {
        const ParaBox *box = &para->boxes[i];
        width += para_word_width(para_word(setter, para, line, i), para->setting->text[box->kind]);
        if (i < line->last) width += (double)box->space;
    }
    return width;
}

static ParaLine line_of(Setter *setter, const Para *para, const FitBreak *from, const FitBreak *to, double width) {
    bool first = from == setter->breaks;
    bool last = to == &setter->breaks[setter->break_count - 1];
    ParaLine line = {.last = to->box, .last_cut = to->cut, .first_cut = from->cut, .white = 1};
    line.first = first ? 0 : from->cut ? from->box : from->box + 1;
    line.hang = (float)from->hang_start;
    bool cut = line.first_cut || line.last_cut;
    line.natural = cut ? cut_width(setter, para, &line) + (first ? para->setting->indent : 0) : to->end - from->start;
    double spare = width + from->hang_start + to->hang_end - line.natural;
    if (para->setting->justified) line.white = white_of(from, to, spare, last);
    double least = para->setting->justified ? to->end_shrink - from->start_shrink : 0;
    if (-spare - least > overfull_slack) report_overfull(setter, para, &line, -spare - least);
    return line;
}

static uint32_t *path_room(Setter *setter) {
    if (setter->path_room < setter->break_count) {
        setter->path_room = setter->break_count * 2;
        setter->path = ARENA_ARRAY(setter->canvas.arena, setter->path_room, uint32_t);
    }
    return setter->path;
}

static size_t fit(Setter *setter, const Para *para, const Pass *pass, double width) {
    double em = (double)para->setting->text[SPAN_TEXT].size;
    FitMeasure measure = {.width = width,
                          .tolerance = pass->tolerance,
                          .emergency = pass->emergency * em,
                          .short_last = fmin(short_last_ems * em, width / 4),
                          .margin = margin_ems * em,
                          .ragged = !para->setting->justified,
                          .force = pass->force};
    return linefit(setter->canvas.arena, &setter->fit, &measure, setter->breaks, setter->break_count, path_room(setter),
                   NULL);
}

static size_t fit_passes(Setter *setter, const Para *para, double width) {
    bool justified = para->setting->justified;
    const Pass *passes = justified ? justified_passes : ragged_passes;
    size_t count = justified ? sizeof justified_passes / sizeof *passes : sizeof ragged_passes / sizeof *passes;
    size_t lines = 0;
    for (size_t i = 0; i < count && !lines; i++) {
        if (i == 0 || passes[i].level != passes[i - 1].level) find_breaks(setter, para, passes[i].level);
        lines = fit(setter, para, &passes[i], width);
    }
    return lines;
}

static ParaLines single_line(Setter *setter, const Para *para) {
    ParaLine *line = ARENA_NEW(setter->canvas.arena, ParaLine);
    *line = (ParaLine){.last = (uint32_t)(para->count - 1), .white = 1, .natural = para->natural};
    return (ParaLines){para, line, 1};
}

ParaLines para_break(Setter *setter, const Para *para, double width) {
    if (!para->count) return (ParaLines){.para = para};
    if (para->natural <= width) return single_line(setter, para);
    size_t count = fit_passes(setter, para, width);
    ParaLine *lines = ARENA_ARRAY(setter->canvas.arena, count, ParaLine);
    for (size_t i = 0; i < count; i++) {
        const FitBreak *from = &setter->breaks[i ? setter->path[i - 1] : 0];
        lines[i] = line_of(setter, para, from, &setter->breaks[setter->path[i]], width);
    }
    return (ParaLines){para, lines, count};
}

/* The widest piece of one word between its cuts. */
static double least_piece(Setter *setter, const Word *word, TextStyle style) {
    Canvas *canvas = &setter->canvas;
    WordCuts found = cuts_find(&setter->cuts, canvas->arena, canvas->metrics, word, CUT_CAPITALS);
    double before = 0; /* width of the word up to the last cut, thousandths */
    double widest = 0;
    for (size_t i = 0; i < found.count; i++) {
        widest = fmax(widest, found.cuts[i].left - before);
        before = word->width - found.cuts[i].right;
    }
    return fmax(widest, word->width - before) * (double)style.size / THOUSANDTHS;
}

double para_least(Setter *setter, const Para *para) {
    double widest = 0;
    for (size_t i = 0; i < para->count; i++) {
        const ParaBox *box = &para->boxes[i];
        widest = fmax(widest, least_piece(setter, box->word, para->setting->text[box->kind]));
    }
    return widest;
}

double para_height(const ParaLines *lines) {
    return (double)lines->count * lines->para->setting->leading;
}
