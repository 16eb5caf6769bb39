#include "typeset/flow.h"

#include <math.h>
#include <string.h>

#include "typeset/furniture.h"

enum { FIRST_PIECES = 32, FIRST_PAGES = 16, PAGE_MARKS = 32, PIECE_MARKS = 5, ROOM_MARKS = 2048 };

static const double slack = 0.01; /* points; sums are not exact */
/* Shares of the white in a part that is set tighter, tried in turn. */
static const double squeezes[] = {1, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3};

/* Where the next piece of a column goes. */
typedef struct Spot {
    double y;
    bool first; /* nothing of the column stands above on this page: no white is needed */
    bool top;   /* nothing at all stands above on this page: what does not fit here fits nowhere */
} Spot;

const Element *element_new(Arena *arena, const Element *parent, Role role, const char *alternative) {
    Element *element = ARENA_NEW(arena, Element);
    *element = (Element){parent, role, alternative, parent ? parent->depth + 1 : 0};
    return element;
}

Piece *column_add(Arena *arena, Column *column) {
    if (column->count == column->room) {
        column->room = column->room ? column->room * 2 : FIRST_PIECES;
        Piece *pieces = ARENA_ARRAY(arena, column->room, Piece);
        if (column->pieces) memcpy(pieces, column->pieces, column->count * sizeof *pieces);
        column->pieces = pieces;
    }
    Piece *piece = &column->pieces[column->count++];
    piece->stand = -1;
    piece->marks = PIECE_MARKS;
    return piece;
}

/* ---- structure ---- */

/* Groups stay open over the end of a page; whatever holds words is closed there and opened anew. */
static bool stays_open(const Element *element) {
    return element->role == ROLE_DOCUMENT || element->role == ROLE_SECTION;
}

static const Element *common_element(const Element *a, const Element *b) {
    while (a != b) {
        if (!a || !b) return NULL;
        if (a->depth >= b->depth) {
            a = a->parent;
        } else {
            b = b->parent;
        }
    }
    return a;
}

static void open_below(Flow *flow, const Element *ancestor, const Element *element) {
    if (element == ancestor) return;
    open_below(flow, ancestor, element->parent);
    canvas_open(&flow->setter.canvas, element->role, element->alternative);
}

static void enter(Flow *flow, const Element *element) {
    const Element *common = common_element(flow->open, element);
    for (; flow->open != common; flow->open = flow->open->parent) canvas_close(&flow->setter.canvas);
    open_below(flow, common, element);
    flow->open = element;
}

/* ---- pages ---- */

/* A page's marks stand behind those of the page before. */
static void take_room(Flow *flow, Page *page) {
    if (flow->mark_room - flow->mark_count < PAGE_MARKS) {
        flow->mark_room = ROOM_MARKS;
        flow->mark_count = 0;
        flow->marks = ARENA_ARRAY(flow->setter.canvas.arena, flow->mark_room, Mark);
    }
    page->marks = flow->marks + flow->mark_count;
    page->room = flow->mark_room - flow->mark_count;
}

static Page *new_page(Flow *flow) {
    Pages *pages = flow->pages;
    Arena *arena = flow->setter.canvas.arena;
    if (pages->count == pages->room) {
        pages->room = pages->room ? pages->room * 2 : FIRST_PAGES;
        Page *larger = ARENA_ARRAY(arena, pages->room, Page);
        if (pages->pages) memcpy(larger, pages->pages, pages->count * sizeof *larger);
        pages->pages = larger;
    }
    Page *page = &pages->pages[pages->count++];
    page->width = flow->page_width;
    page->height = flow->page_height;
    page->label = furniture_label(arena, flow->story, pages->count);
    take_room(flow, page);
    return page;
}

static void begin_page(Flow *flow, const char *section) {
    flow->setter.canvas.page = new_page(flow);
    size_t number = flow->pages->count;
    flow->left = furniture_is_recto(flow->layout, number) ? flow->layout->inner : flow->layout->outer;
    flow->on_page = true;
    furniture_draw(flow, number, section);
}

/* The page keeps the marks that it has; what it left of the room goes to the next. */
static void give_room(Flow *flow) {
    Page *page = flow->setter.canvas.page;
    if (page->marks != flow->marks + flow->mark_count) {
        flow->marks = page->marks;
        flow->mark_count = 0;
        flow->mark_room = page->room;
    }
    flow->mark_count += page->count;
    page->room = page->count;
}

static void end_page(Flow *flow) {
    const Element *element = flow->open;
    if (!flow->on_page) return;
    while (element && !stays_open(element)) element = element->parent;
    enter(flow, element);
    give_room(flow);
    flow->on_page = false;
}

/* ---- where pieces go ---- */

static double stand_on_grid(const Flow *flow, double line) {
    double steps = ceil((line - flow->grid) / flow->step - slack);
    return flow->grid + steps * flow->step;
}

static double piece_top(const Flow *flow, const Piece *piece, const Spot *spot) {
    double y = spot->y + (spot->first ? 0 : piece->above * flow->squeeze);
    if (piece->stand < 0 || flow->off_grid) return y;
    return stand_on_grid(flow, y + piece->stand) - piece->stand;
}

/* A piece without height is only a mark: what follows still stands first. */
static void move_below(Spot *spot, const Piece *piece, double bottom) {
    bool only_mark = piece->height == 0 && !piece->split;
    *spot = (Spot){.y = bottom, .first = spot->first && only_mark, .top = spot->top && only_mark};
}

static double side_top(const Column *side, double top, const Spot *spot) {
    return spot->first || side->next ? top : top - side->raise;
}

static double column_bottom(const Flow *flow, const Column *column, double y);

/* Bottom of a piece placed at the spot; the spot moves below it. */
static double measure_piece(const Flow *flow, const Piece *piece, Spot *spot) {
    if (spot->first && piece->repeat) spot->y += piece->repeat->height;
    double top = piece_top(flow, piece, spot);
    double bottom = top + piece->height;
    for (int i = 0; piece->split && i < SPLIT_SIDES; i++) {
        const Column *side = &piece->split->sides[i];
        bottom = fmax(bottom, column_bottom(flow, side, side_top(side, top, spot)));
    }
    move_below(spot, piece, bottom);
    return bottom;
}

/* Bottom of what is left of a column set from `y`; anything below the page once it no longer fits. */
static double column_bottom(const Flow *flow, const Column *column, double y) {
    Spot spot = {.y = y, .first = true};
    for (size_t i = column->next; i < column->count && spot.y <= flow->bottom + slack; i++) {
        measure_piece(flow, &column->pieces[i], &spot);
    }
    return spot.y;
}

/* Whether the pieces tied to the next one by `keep` or more fit at the spot; `end` is the first beyond them. */
static bool chain_fits(const Flow *flow, const Column *column, Keep keep, Spot spot, size_t *end) {
    for (size_t i = column->next; i < column->count; i++) {
        if (measure_piece(flow, &column->pieces[i], &spot) > flow->bottom + slack) return false;
        *end = i + 1;
        if (column->pieces[i].keep < keep) return true;
    }
    return true;
}

/* ---- drawing ---- */

static void draw_piece(Flow *flow, const Column *column, const Piece *piece, double y, bool at_top) {
    if (flow->dry) return;
    if (!flow->on_page) begin_page(flow, piece->section);
    Setter *setter = &flow->setter;
    double x = flow->left + column->x + piece->x;
    if (piece->decorate && !(at_top && piece->rule_above)) {
        enter(flow, piece->around);
        canvas_open(&setter->canvas, ROLE_ARTIFACT, NULL);
        piece->decorate(setter, piece, x, y);
        canvas_close(&setter->canvas);
    }
    enter(flow, piece->element);
    if (piece->anchor) canvas_anchor(&setter->canvas, x, y, piece->anchor);
    if (piece->bookmark) canvas_bookmark(&setter->canvas, x, y, piece->bookmark_level, piece->bookmark);
    if (piece->draw) piece->draw(setter, piece, x, y);
}

static bool place_column(Flow *flow, Column *column, Spot *spot);

/* Sets both sides from the spot; false when a side goes on on the next page. */
static bool place_split(Flow *flow, const Piece *piece, Spot *spot) {
    double top = piece_top(flow, piece, spot);
    double bottom = top;
    bool whole = true;
    for (int i = 0; i < SPLIT_SIDES; i++) {
        Column *side = &piece->split->sides[i];
        Spot inside = {.y = side_top(side, top, spot), .first = true, .top = spot->top};
        if (!place_column(flow, side, &inside)) whole = false;
        bottom = fmax(bottom, inside.y);
    }
    *spot = (Spot){.y = bottom};
    return whole;
}

static void repeat_head(Flow *flow, const Column *column, const Piece *piece, Spot *spot) {
    if (!spot->first || !piece->repeat) return;
    draw_piece(flow, column, piece->repeat, spot->y, spot->top);
    *spot = (Spot){.y = spot->y + piece->repeat->height, .first = true};
}

/* Places the next piece. False when it is a split that goes on on the next page. */
static bool place_piece(Flow *flow, Column *column, Spot *spot) {
    const Piece *piece = &column->pieces[column->next];
    repeat_head(flow, column, piece, spot);
    if (piece->split) {
        if (!place_split(flow, piece, spot)) return false;
    } else {
        double top = piece_top(flow, piece, spot);
        draw_piece(flow, column, piece, top, spot->top);
        move_below(spot, piece, top + piece->height);
    }
    column->next++;
    return true;
}

static void report_too_high(Flow *flow, const Piece *piece) {
    if (!flow->setter.canvas.diagnostics || piece->split || flow->dry) return;
    diag_report(flow->setter.canvas.diagnostics, RULE_PAGE_OVERFULL, (Place){0}, NULL,
                "something in the section \"%s\" is %.0f points high; a page holds %.0f",
                piece->section ? piece->section : "", piece->height, flow->bottom - flow->top);
}

/* A piece that is higher than a page with all that it is tied to stands where it can. */
static bool place_alone(Flow *flow, Column *column, Spot *spot) {
    const Piece *piece = &column->pieces[column->next];
    Spot after = *spot;
    bool fits = measure_piece(flow, piece, &after) <= flow->bottom + slack;
    if (!fits && !spot->top && !piece->split) return false;
    if (!fits) report_too_high(flow, piece);
    return place_piece(flow, column, spot);
}

static Spot page_top(const Flow *flow) {
    return (Spot){.y = flow->top, .first = true, .top = true};
}

/* The next piece is tied to one already placed: the chain was too high for a page, and its rest is not worth a new one.
 */
static bool is_broken(const Column *column, Keep keep) {
    return column->next && column->pieces[column->next - 1].keep >= keep;
}

/* Places the next piece with all that is tied to it. False when the page is full. */
static bool place_chain(Flow *flow, Column *column, Spot *spot) {
    const Spot empty_page = page_top(flow);
    for (Keep keep = KEEP_GROUP; keep <= KEEP_ALWAYS; keep++) {
        size_t end = column->next;
        size_t ignored;
        if (chain_fits(flow, column, keep, *spot, &end)) {
            while (column->next < end && place_piece(flow, column, spot)) continue;
            return column->next >= end;
        }
        if (!spot->top && !is_broken(column, keep) && chain_fits(flow, column, keep, empty_page, &ignored))
            return false;
    }
    return place_alone(flow, column, spot);
}

/* True when all of the column is placed; false when the page is full. */
static bool place_column(Flow *flow, Column *column, Spot *spot) {
    while (column->next < column->count) {
        if (column->pieces[column->next].new_page && !spot->first) return false;
        if (!place_chain(flow, column, spot)) return false;
    }
    return true;
}

/* ---- parts: what begins a page, up to the next that does ---- */

static void start_again(Column *column) {
    for (size_t i = 0; i < column->next || (i == column->next && i < column->count); i++) {
        Split *split = column->pieces[i].split;
        for (int side = 0; split && side < SPLIT_SIDES; side++) start_again(&split->sides[side]);
    }
    column->next = 0;
}

static size_t count_pages(Flow *flow, Column *part, double squeeze, bool off_grid) {
    size_t pages = 1;
    flow->dry = true;
    flow->squeeze = squeeze;
    flow->off_grid = off_grid;
    for (Spot spot = page_top(flow); !place_column(flow, part, &spot); spot = page_top(flow)) pages++;
    flow->dry = false;
    start_again(part);
    return pages;
}

/* The white of a part: all of it and on the grid, unless less of it, and no less than that takes, saves a page. */
static void choose_white(Flow *flow, Column *part) {
    const size_t count = sizeof squeezes / sizeof *squeezes;
    size_t pages = count_pages(flow, part, 1, false);
    size_t tightest = pages > 1 ? count_pages(flow, part, squeezes[count - 1], true) : pages;
    if (tightest < pages) {
        size_t i = 0;
        while (count_pages(flow, part, squeezes[i], true) > tightest) i++;
        return;
    }
    flow->squeeze = 1;
    flow->off_grid = false;
}

/* Returns where the part ends. */
static Spot place_part_from(Flow *flow, Column *part, Spot spot) {
    for (; !place_column(flow, part, &spot); spot = page_top(flow)) end_page(flow);
    return spot;
}

static Spot place_part(Flow *flow, Column *part) {
    choose_white(flow, part);
    return place_part_from(flow, part, page_top(flow));
}

/* Whether a part that would rather not begin a page may go on below the one before it, in the white of that one: its
 * first section fits there. */
static bool joins_above(Flow *flow, const Column *part, Spot spot) {
    Column section = *part;
    Piece *first = &part->pieces[0];
    if (!first->joins) return false;
    for (section.count = 1; section.count < part->count; section.count++) {
        if (part->pieces[section.count].begins_section) break;
    }
    first->new_page = false;
    flow->dry = true;
    bool fits = place_column(flow, &section, &spot);
    flow->dry = false;
    start_again(&section);
    first->new_page = !fits;
    return fits;
}

static size_t estimate_marks(const Column *column) {
    size_t marks = 0;
    for (size_t i = 0; i < column->count; i++) {
        const Piece *piece = &column->pieces[i];
        marks += piece->marks;
        for (int side = 0; piece->split && side < SPLIT_SIDES; side++)
            marks += estimate_marks(&piece->split->sides[side]);
    }
    return marks;
}

void flow_pages(Flow *flow, Column *column) {
    flow->mark_room = estimate_marks(column) + ROOM_MARKS / 4;
    flow->marks = ARENA_ARRAY(flow->setter.canvas.arena, flow->mark_room, Mark);
    Spot spot = page_top(flow);
    for (size_t start = 0, end; start < column->count; start = end) {
        end = start + 1;
        while (end < column->count && !column->pieces[end].new_page) end++;
        Column part = *column;
        part.pieces += start;
        part.count = end - start;
        if (start && joins_above(flow, &part, spot)) {
            spot = place_part_from(flow, &part, spot);
            continue;
        }
        if (start) end_page(flow);
        spot = place_part(flow, &part);
    }
    if (!flow->pages->count) begin_page(flow, NULL);
    if (flow->on_page) enter(flow, NULL);
    end_page(flow);
}

void flow_begin(Flow *flow, Arena *arena, const Story *story, const Layout *layout, Metrics *metrics,
                Diagnostics *diagnostics) {
    bool letter = layout->paper == PAPER_LETTER;
    GlyphReports *reports = ARENA_NEW(arena, GlyphReports);
    *flow = (Flow){.story = story, .layout = layout, .pages = ARENA_NEW(arena, Pages)};
    flow->setter.canvas = (Canvas){.arena = arena, .metrics = metrics, .diagnostics = diagnostics, .reports = reports};
    style_fill(flow->setter.settings, layout);
    cuts_prepare();
    double across = letter ? PAPER_LETTER_WIDTH : PAPER_A4_WIDTH;
    double along = letter ? PAPER_LETTER_HEIGHT : PAPER_A4_HEIGHT;
    flow->page_width = layout->landscape ? along : across;
    flow->page_height = layout->landscape ? across : along;
    flow->width = flow->page_width - layout->inner - layout->outer;
    flow->step = layout->prose_leading;
    flow->grid = layout->head + GRID_FROM_HEAD;
    flow->top = flow->grid - LINE_BASELINE * flow->step;
    flow->bottom = flow->page_height - layout->foot - TEXT_FROM_FOOT;
    flow->setter.canvas.room = flow->bottom - flow->top;
}
