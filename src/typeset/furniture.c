#include "typeset/furniture.h"

#include <math.h>

#include "typeset/figures/kit.h"
#include "typeset/paragraph.h"

enum { TAB_LEAST_STOPS = 1 };

static const double foot_gap = 14; /* least white between readers and filing */
static const double head_gap =
    18; /* between the running head, which is cut where it is too long, and the leaf number */

bool furniture_is_recto(const Layout *layout, size_t number) {
    return !layout->duplex || number % 2 == 1;
}

const char *furniture_label(Arena *arena, const Story *story, size_t number) {
    if (!story->leaf || !*story->leaf) return arena_printf(arena, "%zu", number);
    return arena_printf(arena, "%s \u00b7 %zu", story->leaf, number);
}

static TextStyle style_of(const Flow *flow, SettingName name) {
    return flow->setter.settings[name].text[SPAN_TEXT];
}

static const char *running_text(Flow *flow, const char *section) {
    const char *name = flow->story->head_name ? flow->story->head_name : "";
    if (!section || !*section) return flow->story->title ? flow->story->title : name;
    return arena_printf(flow->setter.canvas.arena, "%s \u00a0\u00b7\u00a0 %s", name, section);
}

/* Name and section stand at the binding edge, the leaf number at the free edge. */
static void draw_head(Flow *flow, size_t number, const char *section, bool recto) {
    Canvas *canvas = &flow->setter.canvas;
    double y = flow->layout->head;
    double right = flow->left + flow->width;
    double inner = recto ? flow->left : right;
    double outer = recto ? right : flow->left;
    double leaf = canvas_text(canvas, style_of(flow, SET_LEAF), outer, y, recto ? ALIGN_RIGHT : ALIGN_LEFT,
                              flow->pages->pages[number - 1].label);
    TextStyle running = style_of(flow, SET_RUNNING);
    const char *text = kit_cut(canvas, running, running_text(flow, section), flow->width - leaf - head_gap);
    canvas_text(canvas, running, inner, y, recto ? ALIGN_LEFT : ALIGN_RIGHT, text);
    canvas_line(canvas, flow->left, y + HEAD_RULE, right, y + HEAD_RULE, RULE_PAGE, INK);
}

/* Readers at the binding edge, wrapped where they are long; the filing at the free edge. */
static void draw_foot(Flow *flow, bool recto) {
    Setter *setter = &flow->setter;
    double y = flow->page_height - flow->layout->foot;
    double right = flow->left + flow->width;
    canvas_line(&setter->canvas, flow->left, y - FOOT_RULE, right, y - FOOT_RULE, RULE_PAGE, INK);
    const char *filed = flow->story->filed ? flow->story->filed : "";
    double filed_width = canvas_text(&setter->canvas, style_of(flow, SET_FOOT), recto ? right : flow->left, y,
                                     recto ? ALIGN_RIGHT : ALIGN_LEFT, filed);
    const Para *readers = para_plain(setter, flow->story->readers, &setter->settings[SET_FOOT]);
    ParaLines lines = para_break(setter, readers, fmax(flow->width / 3, flow->width - filed_width - foot_gap));
    para_draw(setter, &lines, recto ? flow->left : right, y - LINE_BASELINE * FOOT_LEADING,
              recto ? ALIGN_LEFT : ALIGN_RIGHT);
}

/* The stops run down the edge; past the last they begin again. */
static double tab_top(const Flow *flow) {
    double room = flow->bottom - flow->grid;
    int stops = (int)fmax(TAB_LEAST_STOPS, floor((room + TAB_STEP - TAB_HEIGHT) / TAB_STEP));
    int stop = flow->story->tab_stop < 0 ? 0 : flow->story->tab_stop % stops;
    return flow->grid + TAB_STEP * stop;
}

/* The word runs down the edge of a right-hand page and up that of a left-hand one, its feet to the page. */
static void draw_tab(Flow *flow, bool recto) {
    Canvas *canvas = &flow->setter.canvas;
    if (!flow->story->tab || !*flow->story->tab) return;
    double top = tab_top(flow);
    double left = recto ? flow->page_width - TAB_WIDTH : 0;
    canvas_rect(canvas, (Box){left, top, TAB_WIDTH, TAB_HEIGHT}, ink_tint(TAB_TINT), 0, INK_NONE);
    TextStyle style = style_of(flow, SET_TAB);
    style.ink = (Ink){INK_PAPER, 100};
    double word = canvas_width(canvas, style, flow->story->tab);
    double half_cap = canvas->metrics->cap_height(canvas->metrics, style.face) * (double)style.size / 2000;
    double middle = recto ? flow->page_width - TAB_WORD : TAB_WORD;
    double start = recto ? top + (TAB_HEIGHT - word) / 2 : top + (TAB_HEIGHT + word) / 2;
    canvas_turned(canvas, style, recto ? middle - half_cap : middle + half_cap, start, recto ? -90 : 90,
                  flow->story->tab);
}

void furniture_draw(Flow *flow, size_t number, const char *section) {
    bool recto = furniture_is_recto(flow->layout, number);
    canvas_open(&flow->setter.canvas, ROLE_ARTIFACT, NULL);
    draw_head(flow, number, section, recto);
    draw_foot(flow, recto);
    draw_tab(flow, recto);
    canvas_close(&flow->setter.canvas);
}
