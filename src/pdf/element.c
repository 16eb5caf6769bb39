#include "pdf/element.h"

#include <math.h>
#include <string.h>

#include "pdf/syntax.h"

const RoleInfo role_table[] = {
    [ROLE_DOCUMENT] = {"Document", HOLDS_BLOCKS},
    [ROLE_SECTION] = {"Sect", HOLDS_BLOCKS},
    [ROLE_H1] = {"H1", HOLDS_TEXT},
    [ROLE_H2] = {"H2", HOLDS_TEXT},
    [ROLE_H3] = {"H3", HOLDS_TEXT},
    [ROLE_PARAGRAPH] = {"P", HOLDS_TEXT},
    [ROLE_LIST] = {"L", HOLDS_PARTS},
    [ROLE_ITEM] = {"LBody", HOLDS_TEXT},
    [ROLE_TABLE] = {"Table", HOLDS_PARTS},
    [ROLE_ROW] = {"TR", HOLDS_PARTS},
    [ROLE_COLUMN_HEAD] = {"TH", HOLDS_TEXT},
    [ROLE_ROW_HEAD] = {"TH", HOLDS_TEXT},
    [ROLE_CELL] = {"TD", HOLDS_TEXT},
    [ROLE_FIGURE] = {"Figure", HOLDS_ALL},
    [ROLE_LINK] = {"Link", HOLDS_TEXT},
    [ROLE_ARTIFACT] = {"Artifact", HOLDS_TEXT},
};

void element_begin(Element *element, Objects *objects, Role role) {
    Buf kids = element->kids;
    kids.length = 0;
    *element = (Element){.role = role, .kids = kids};
    element->left = element->top = INFINITY;
    element->right = element->bottom = -INFINITY;
    element->number = objects_reserve(objects);
    if (role == ROLE_ITEM) element->item = objects_reserve(objects);
}

bool element_is_cell(Role role) {
    return role == ROLE_CELL || role == ROLE_COLUMN_HEAD || role == ROLE_ROW_HEAD;
}

void element_extend(Element *figure, Box box) {
    figure->left = fmin(figure->left, box.x);
    figure->top = fmin(figure->top, box.y);
    figure->right = fmax(figure->right, box.x + box.width);
    figure->bottom = fmax(figure->bottom, box.y + box.height);
}

void element_add_content(Element *element, uint32_t page, uint32_t item) {
    Buf *kids = &element->kids;
    if (!element->page) element->page = page;
    if (element->page == page) {
        syntax_unsigned(kids, item);
        buf_putc(kids, ' ');
        return;
    }
    BUF_PUT(kids, "<</Type/MCR/Pg ");
    syntax_reference(kids, page);
    BUF_PUT(kids, "/MCID ");
    syntax_unsigned(kids, item);
    BUF_PUT(kids, ">>");
}

void element_add_annotation(Element *element, uint32_t page, uint32_t annotation) {
    Buf *kids = &element->kids;
    element->linked = true;
    BUF_PUT(kids, "<</Type/OBJR/Obj ");
    syntax_reference(kids, annotation);
    if (!element->page) element->page = page;
    if (element->page != page) {
        BUF_PUT(kids, "/Pg ");
        syntax_reference(kids, page);
    }
    BUF_PUT(kids, ">>");
}

static void put_bounds(const Element *figure, Buf *out) {
    double edges[4] = {figure->left, figure->page_height - figure->bottom, figure->right,
                       figure->page_height - figure->top};
    BUF_PUT(out, "/A<</O/Layout/Placement/Block/BBox[");
    for (int edge = 0; edge < 4; edge++) {
        syntax_hundredths(out, syntax_round(edges[edge]));
        buf_putc(out, ' ');
    }
    BUF_PUT(out, "]>>");
}

static void put_table_attributes(const Element *cell, Buf *out) {
    bool is_head = cell->role != ROLE_CELL;
    if (!is_head && cell->cells < 2) return;
    BUF_PUT(out, "/A<</O/Table");
    if (is_head) buf_puts(out, cell->role == ROLE_ROW_HEAD ? "/Scope/Row" : "/Scope/Column");
    if (cell->cells > 1) buf_printf(out, "/ColSpan %u", cell->cells);
    BUF_PUT(out, ">>");
}

static void put_attributes(const Element *element, Buf *out) {
    if (element_is_cell(element->role)) put_table_attributes(element, out);
    bool is_figure = element->role == ROLE_FIGURE;
    if (element->alternative || is_figure) {
        BUF_PUT(out, "/Alt");
        syntax_text(out, element->alternative ? element->alternative : "");
    }
    if (!is_figure) return;
    if (element->left <= element->right) put_bounds(element, out);
}

/* A link without an annotation is plain text. */
static const char *name_of(const Element *element) {
    return element->role == ROLE_LINK && !element->linked ? "Span" : role_table[element->role].name;
}

/* The kids, without the brackets of an array when there is but one: most elements hold one content item. */
static void put_kids(const Element *element, Buf *out) {
    const Buf *kids = &element->kids;
    bool is_one = kids->length && memchr(kids->bytes, ' ', kids->length) == kids->bytes + kids->length - 1;
    if (is_one) {
        BUF_PUT(out, "/K ");
        buf_put(out, kids->bytes, kids->length - 1);
    } else if (kids->length) {
        BUF_PUT(out, "/K[");
        buf_put(out, kids->bytes, kids->length);
        buf_putc(out, ']');
    }
}

/* The LI around a list item's body. */
static void write_item(const Element *element, Objects *objects, uint32_t parent) {
    Buf *out = objects_open(objects, element->item);
    BUF_PUT(out, "<</S/LI/P ");
    syntax_reference(out, parent);
    BUF_PUT(out, "/K ");
    syntax_reference(out, element->number);
    BUF_PUT(out, ">>");
    objects_close(objects);
}

void element_write(const Element *element, Objects *objects, uint32_t parent, Buf *kids) {
    if (!element->kids.length && !element_is_cell(element->role)) return;
    if (element->item) write_item(element, objects, parent);
    syntax_reference(kids, element->item ? element->item : element->number);
    buf_putc(kids, ' ');
    Buf *out = objects_open(objects, element->number);
    BUF_PUT(out, "<</S/");
    buf_puts(out, name_of(element));
    BUF_PUT(out, "/P ");
    syntax_reference(out, element->item ? element->item : parent);
    if (element->page) {
        BUF_PUT(out, "/Pg ");
        syntax_reference(out, element->page);
    }
    put_attributes(element, out);
    put_kids(element, out);
    BUF_PUT(out, ">>");
    objects_close(objects);
}
