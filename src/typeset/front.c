/* The front page's own blocks: the nameplate and the grade with its words. */
#include <math.h>

#include "typeset/build.h"

static const double plate_gap = 16;       /* least white between the name and the facts at the right */
static const double note_below_name = 20; /* baseline to baseline */
static const double rule_below_note = 12;
static const double name_leading = 1.04;   /* of its size */
static const double grade_baseline = 41.5; /* from the top of the block */
static const double headline_baseline = 11.5;
static const double words_below_headline = 7;
static const double verdict_above = 8;

/* ---- nameplate ---- */

typedef struct Plate {
    ParaLines name, note;
    ParaLines *facts; /* a line each, the last on the note's last line */
    size_t fact_count;
    double width, rule; /* the rule's distance from the top */
    double name_size, note_baseline, last_baseline;
} Plate;

static void draw_plate_rule(Setter *setter, const Piece *piece, double x, double y) {
    const Plate *plate = piece->data;
    canvas_line(&setter->canvas, x, y + plate->rule, x + plate->width, y + plate->rule, RULE_HEAD, INK);
}

static void draw_facts(Setter *setter, const Plate *plate, double right, double y) {
    for (size_t i = 0; i < plate->fact_count; i++) {
        const ParaLines *fact = &plate->facts[i];
        double back = fact->count ? fact->para->setting->leading * (double)(plate->fact_count - 1 - i) : 0;
        canvas_open(&setter->canvas, ROLE_PARAGRAPH, NULL);
        if (fact->count) para_draw_line(setter, fact, 0, right, y + plate->last_baseline - back, ALIGN_RIGHT);
        canvas_close(&setter->canvas);
    }
}

static void draw_plate(Setter *setter, const Piece *piece, double x, double y) {
    const Plate *plate = piece->data;
    canvas_open(&setter->canvas, ROLE_H1, NULL);
    for (size_t i = 0; i < plate->name.count; i++) {
        double baseline = NAME_BASELINE + plate->name_size * name_leading * (double)i;
        para_draw_line(setter, &plate->name, i, x, y + baseline, ALIGN_LEFT);
    }
    canvas_close(&setter->canvas);
    canvas_open(&setter->canvas, ROLE_PARAGRAPH, NULL);
    for (size_t i = 0; i < plate->note.count; i++) {
        double baseline = plate->note_baseline + plate->note.para->setting->leading * (double)i;
        para_draw_line(setter, &plate->note, i, x, y + baseline, ALIGN_LEFT);
    }
    canvas_close(&setter->canvas);
    draw_facts(setter, plate, x + plate->width, y);
}

/* Shapes the facts; returns the width that they leave for name and note. */
static double set_facts(Builder *builder, Plate *plate, const Block *block) {
    Setter *setter = &builder->flow->setter;
    double widest = 0;
    plate->facts = ARENA_ARRAY(setter->canvas.arena, block->fact_count, ParaLines);
    plate->fact_count = block->fact_count;
    for (size_t i = 0; i < block->fact_count; i++) {
        const Para *fact = para_plain(setter, block->facts[i].value, build_setting(builder, SET_SIDE_FACT));
        plate->facts[i] = para_break(setter, fact, fmax(fact->natural, 1));
        widest = fmax(widest, fact->natural);
    }
    return fmax(builder->width / 2, builder->width - widest - (widest > 0 ? plate_gap : 0));
}

/* A long name is set smaller, and a very long one broken too. */
static void set_name(Builder *builder, Plate *plate, const char *name, double room) {
    Setter *setter = &builder->flow->setter;
    Setting *setting = ARENA_NEW(setter->canvas.arena, Setting);
    *setting = *build_setting(builder, SET_NAME);
    double full = (double)setting->text[SPAN_TEXT].size;
    double natural = para_plain(setter, name, setting)->natural;
    plate->name_size = natural > room ? fmax(NAME_LEAST, full * room / natural * 0.999) : full;
    for (size_t i = 0; i < SPAN_KINDS; i++) setting->text[i].size = (float)plate->name_size;
    plate->name = para_break(setter, para_plain(setter, name, setting), room);
}

void build_nameplate(Builder *builder, const Block *block) {
    Setter *setter = &builder->flow->setter;
    Plate *plate = ARENA_NEW(setter->canvas.arena, Plate);
    plate->width = builder->width;
    double room = set_facts(builder, plate, block);
    set_name(builder, plate, block->title, room);
    const Para *note = para_plain(setter, block->note, build_setting(builder, SET_NAME_NOTE));
    plate->note = para_break(setter, note, room);
    double more_names = (double)(plate->name.count ? plate->name.count - 1 : 0);
    double more_notes = (double)(plate->note.count ? plate->note.count - 1 : 0);
    plate->note_baseline = NAME_BASELINE + plate->name_size * name_leading * more_names + note_below_name;
    plate->last_baseline = plate->note_baseline + note->setting->leading * more_notes;
    plate->rule = plate->last_baseline + rule_below_note;
    Piece *piece = build_piece(builder, plate->rule, draw_plate, plate);
    piece->decorate = draw_plate_rule;
    piece->keep = KEEP_ALWAYS;
    builder->above = ABOVE_OTHER;
}

/* ---- the grade ---- */

typedef struct VerdictSet {
    ParaLines grade, headline, aside, words;
    double width, indent, words_top;
} VerdictSet;

static void draw_line_of(Setter *setter, const ParaLines *lines, double x, double baseline, CellAlign align) {
    for (size_t i = 0; i < lines->count; i++) {
        para_draw_line(setter, lines, i, x, baseline + lines->para->setting->leading * (double)i, align);
    }
}

static void draw_verdict(Setter *setter, const Piece *piece, double x, double y) {
    const VerdictSet *set = piece->data;
    canvas_open(&setter->canvas, ROLE_PARAGRAPH, NULL);
    draw_line_of(setter, &set->grade, x, y + grade_baseline, ALIGN_LEFT);
    canvas_close(&setter->canvas);
    canvas_open(&setter->canvas, ROLE_PARAGRAPH, NULL);
    draw_line_of(setter, &set->headline, x + set->indent, y + headline_baseline, ALIGN_LEFT);
    canvas_close(&setter->canvas);
    canvas_open(&setter->canvas, ROLE_PARAGRAPH, NULL);
    draw_line_of(setter, &set->aside, x + set->width, y + headline_baseline, ALIGN_RIGHT);
    canvas_close(&setter->canvas);
    canvas_open(&setter->canvas, ROLE_PARAGRAPH, NULL);
    if (set->words.count) para_draw(setter, &set->words, x + set->indent, y + set->words_top, ALIGN_LEFT);
    canvas_close(&setter->canvas);
}

/* The grade at the left, its headline and words beside it, what scale it is on (the first fact) at the right. */
void build_verdict(Builder *builder, const Block *block) {
    Setter *setter = &builder->flow->setter;
    VerdictSet *set = ARENA_NEW(setter->canvas.arena, VerdictSet);
    const char *aside = block->fact_count ? block->facts[0].value : NULL;
    const Para *grade = para_plain(setter, block->title, build_setting(builder, SET_GRADE));
    const Para *scale = para_plain(setter, aside, build_setting(builder, SET_HEAD_NOTE));
    const Para *headline = para_plain(setter, block->note, build_setting(builder, SET_HEADLINE));
    const Para *words = para_new(setter, &block->words, build_setting(builder, SET_VERDICT));
    set->width = builder->width;
    set->indent = fmax(VERDICT_INDENT, grade->natural + NOTE_GAP);
    double room = fmax(builder->width / 3, builder->width - set->indent);
    set->grade = para_break(setter, grade, fmax(grade->natural, 1));
    set->aside = para_break(setter, scale, builder->width / 3);
    set->headline =
        para_break(setter, headline, fmax(room / 2, room - fmin(scale->natural, builder->width / 3) - NOTE_GAP));
    set->words = para_break(setter, words, room);
    double more = (double)(set->headline.count ? set->headline.count - 1 : 0) * headline->setting->leading;
    set->words_top = headline_baseline + more + words_below_headline;
    double bottom = set->words_top + para_height(&set->words);
    Piece *piece = build_piece(builder, fmax(bottom, grade_baseline + HEAD_BELOW), draw_verdict, set);
    piece->above = builder->above == ABOVE_COLUMN_TOP ? 0 : verdict_above;
    builder->above = ABOVE_OTHER;
}
