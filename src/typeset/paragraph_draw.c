/* Drawing broken lines: words of one style and one white become one mark. */
#include "typeset/paragraph.h"

enum { THOUSANDTHS = 1000 };

/* Heights of a link's box about the baseline, ems. */
static const double link_above = 0.78;
static const double link_below = 0.24;

/* Words that go into one mark. */
typedef struct MarkRun {
    const Word **words;
    size_t count;
    TextStyle style;
    const Span *link; /* NULL: no link */
    double x, end;    /* of the run so far */
    double gap;
} MarkRun;

static const Word *shaped(Setter *setter, const Word *word, const char *text, size_t length, bool soft) {
    Metrics *metrics = setter->canvas.metrics;
    return metrics->word(metrics, word->face, text, length, soft);
}

static bool same_style(TextStyle a, TextStyle b) {
    return a.face == b.face && a.size == b.size && a.ink.base == b.ink.base && a.ink.tint == b.ink.tint &&
           a.tracking == b.tracking;
}

static const Span *link_of(const Para *para, const ParaBox *box) {
    const Span *span = &para->words->spans[box->span];
    return box->kind == SPAN_LINK && span->target ? span : NULL;
}

/* An empty last word stands for the space that parts this mark from what follows. */
static void flush(Setter *setter, MarkRun *run, double y, bool white_follows) {
    if (!run->count) return;
    Canvas *canvas = &setter->canvas;
    if (run->link) canvas_open(canvas, ROLE_LINK, NULL);
    if (white_follows) run->words[run->count++] = shaped(setter, run->words[0], "", 0, false);
    double tracking =
        (double)run->style.tracking * (double)run->style.size / THOUSANDTHS; /* the mark adds it to its gaps */
    canvas_run(canvas, run->style, run->x, y, run->words, run->count, run->gap - tracking);
    if (run->link) {
        double size = (double)run->style.size;
        canvas_link(canvas, (Box){run->x, y - link_above * size, run->end - run->x, (link_above + link_below) * size},
                    run->link->target);
        canvas_close(canvas);
    }
    run->words += run->count;
    run->count = 0;
}

static bool goes_on(const MarkRun *run, const Para *para, const ParaBox *box, uint32_t index) {
    if (!run->count || para->boxes[index - 1].space == 0) return false;
    return same_style(run->style, para->setting->text[box->kind]) && run->link == link_of(para, box);
}

static void start_run(MarkRun *run, const Para *para, const ParaBox *box, double x) {
    run->style = para->setting->text[box->kind];
    run->link = link_of(para, box);
    run->x = x;
}

/* True when the line ends at a space, so that the words of the next are parted from it. */
static bool ends_at_space(const Para *para, const ParaLine *line) {
    return !line->last_cut && para->boxes[line->last].joint == JOINT_SPACE;
}

static double start_of_line(const ParaLines *lines, size_t index, double x, CellAlign align) {
    const ParaLine *line = &lines->lines[index];
    if (align == ALIGN_RIGHT) return x - line->natural;
    if (align == ALIGN_CENTRE) return x - line->natural / 2;
    return x - (double)line->hang + (index == 0 ? lines->para->setting->indent : 0);
}

void para_draw_line(Setter *setter, const ParaLines *lines, size_t index, double x, double y, CellAlign align) {
    const Para *para = lines->para;
    const ParaLine *line = &lines->lines[index];
    size_t most = ((size_t)line->last - line->first + 1) * 2; /* each word may be a run with a closing space */
    MarkRun run = {.words = ARENA_ARRAY(setter->canvas.arena, most, const Word *)};
    double at = start_of_line(lines, index, x, align);
    for (uint32_t i = line->first; i <= line->last; i++) {
        const ParaBox *box = &para->boxes[i];
        const Word *word = para_word(setter, para, line, i);
        if (!goes_on(&run, para, box, i)) {
            if (run.count) flush(setter, &run, y, para->boxes[i - 1].space > 0);
            start_run(&run, para, box, at);
        }
        run.words[run.count++] = word;
        at += para_word_width(word, run.style);
        run.end = at;
        if (i == line->last) break;
        at += (double)box->space * (double)line->white;
        if (box->space > 0) run.gap = (double)box->space * (double)line->white;
    }
    flush(setter, &run, y, ends_at_space(para, line));
}

void para_draw(Setter *setter, const ParaLines *lines, double x, double top, CellAlign align) {
    double leading = lines->count ? lines->para->setting->leading : 0;
    for (size_t i = 0; i < lines->count; i++) {
        para_draw_line(setter, lines, i, x, top + leading * (LINE_BASELINE + (double)i), align);
    }
}
