/* Titles of sections, heads of parts, claims and figures: words at the left, a note at the right or, where it is long,
 * below. */
#include <math.h>

#include "typeset/build.h"

enum { BOOKMARK_CLAIM = 2, LEVEL_TITLE = 1, LEVEL_HEAD = 2, LEVEL_CLAIM = 3 };

/* The verdict of a test stands on the line of its claim's head; this far from the figure's top is its baseline. */
static const double verdict_baseline = 11.5;

typedef struct HeadForm {
    SettingName setting, note;
    double above, baseline, below;
    bool ruled;
} HeadForm;

static const HeadForm title_form = {SET_TITLE, SET_TITLE_NOTE, 0, TITLE_BASELINE, TITLE_BELOW, false};
static const HeadForm head_form = {SET_HEAD, SET_HEAD_NOTE, SPACE_HEAD, HEAD_BASELINE, HEAD_BELOW, true};
static const HeadForm claim_form = {SET_CLAIM, SET_HEAD_NOTE, SPACE_HEAD, CLAIM_BASELINE, HEAD_BELOW, true};

typedef struct HeadSet {
    const HeadForm *form;
    ParaLines title, note;
    double width;
    double note_top; /* from the piece's top; of a note below */
    bool note_beside;
    Role role;
} HeadSet;

static void draw_rule(Setter *setter, const Piece *piece, double x, double y) {
    const HeadSet *set = piece->data;
    canvas_line(&setter->canvas, x, y, x + set->width, y, RULE_HEAD, INK);
}

static void draw_note(Setter *setter, const HeadSet *set, double x, double y) {
    if (!set->note.count) return;
    canvas_open(&setter->canvas, ROLE_PARAGRAPH, NULL);
    if (set->note_beside) {
        para_draw_line(setter, &set->note, 0, x + set->width, y + set->form->baseline, ALIGN_RIGHT);
    } else {
        para_draw(setter, &set->note, x, y + set->note_top, ALIGN_LEFT);
    }
    canvas_close(&setter->canvas);
}

static void draw_head(Setter *setter, const Piece *piece, double x, double y) {
    const HeadSet *set = piece->data;
    double leading = set->title.para->setting->leading;
    canvas_open(&setter->canvas, set->role, NULL);
    for (size_t i = 0; i < set->title.count; i++) {
        para_draw_line(setter, &set->title, i, x, y + set->form->baseline + leading * (double)i, ALIGN_LEFT);
    }
    canvas_close(&setter->canvas);
    draw_note(setter, set, x, y);
}

/* No level of heading is skipped, whatever size it is set in. */
static Role heading_role(Builder *builder, int level) {
    static const Role roles[] = {ROLE_H1, ROLE_H1, ROLE_H2, ROLE_H3};
    if (level > *builder->deepest + 1) level = *builder->deepest + 1;
    if (level > LEVEL_CLAIM) level = LEVEL_CLAIM;
    *builder->deepest = level;
    return roles[level];
}

/* Height from the rule to what follows; a note that does not fit beside the title goes below it. */
static double set_head(Builder *builder, HeadSet *set, const char *title, const char *note, double room) {
    Setter *setter = &builder->flow->setter;
    const HeadForm *form = set->form;
    const Para *words = para_plain(setter, title, build_setting(builder, form->setting));
    const Para *aside = para_plain(setter, note, build_setting(builder, form->note));
    set->title = para_break(setter, words, room);
    set->note_beside = aside->count && words->natural + NOTE_GAP + aside->natural <= room;
    if (aside->count) set->note = para_break(setter, aside, builder->width);
    double last = form->baseline + (double)(set->title.count ? set->title.count - 1 : 0) * words->setting->leading;
    if (!aside->count || set->note_beside) return last + form->below;
    set->note_top = last + NOTE_BELOW;
    return set->note_top + para_height(&set->note) + form->below - HEAD_BELOW + NOTE_BELOW;
}

static Piece *add_head(Builder *builder, const HeadForm *form, const char *title, const char *note, int level,
                       double room) {
    HeadSet *set = ARENA_NEW(builder->flow->setter.canvas.arena, HeadSet);
    *set = (HeadSet){.form = form, .width = builder->width, .role = heading_role(builder, level)};
    double height = set_head(builder, set, title, note, room);
    Piece *piece = build_piece(builder, height, draw_head, set);
    piece->above = builder->above == ABOVE_TITLE ? 0 : form->above;
    piece->keep = KEEP_ALWAYS;
    if (form->ruled) piece->decorate = draw_rule;
    piece->rule_above = form->ruled;
    builder->above = ABOVE_HEAD;
    return piece;
}

/* What follows a head starts with its first line on the grid. */
static void stand_on_grid(const Builder *builder, Piece *piece) {
    piece->stand = piece->height + LINE_BASELINE * builder->flow->step;
}

void build_title(Builder *builder, const Block *block) {
    add_head(builder, &title_form, block->title, block->note, LEVEL_TITLE, builder->width);
    builder->above = ABOVE_TITLE;
}

static bool is_test(const Block *block) {
    while (block && block->kind == BLOCK_GROUP) block = block->child_count ? block->children[0] : NULL;
    if (!block || block->kind != BLOCK_FIGURE || !block->figure || (block->title && *block->title)) return false;
    const char *verdict = block->figure->as.test.verdict;
    return block->figure->kind == FIGURE_TAPE_TEST && verdict && *verdict;
}

/* A claim whose test stands at the right keeps to the left side, and the test rises beside it. */
void build_head(Builder *builder, const Block *block, const Block *next) {
    bool claim = block->level >= LEVEL_CLAIM;
    bool rises =
        claim && next && next->kind == BLOCK_SPLIT && next->child_count == SPLIT_SIDES && is_test(next->children[1]);
    const HeadForm *form = claim ? &claim_form : &head_form;
    double room = rises ? build_side_width(builder, next, 0) : builder->width;
    Piece *piece = add_head(builder, form, block->title, block->note, block->level, room);
    stand_on_grid(builder, piece);
    piece->anchor = block->anchor;
    if (block->anchor) {
        piece->bookmark = block->title;
        piece->bookmark_level = BOOKMARK_CLAIM;
    }
    builder->raise = rises ? piece->height - form->baseline + verdict_baseline : 0;
}

void build_figure_head(Builder *builder, const Block *block) {
    if (!block->title || !*block->title) return;
    bool beside_another = builder->above == ABOVE_COLUMN_TOP;
    Piece *piece = add_head(builder, &head_form, block->title, block->note, LEVEL_HEAD, builder->width);
    if (beside_another) stand_on_grid(builder, piece);
}
