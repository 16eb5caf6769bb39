#include "pdf/tags.h"

#include <stdlib.h>

#include "base/arena.h"
#include "pdf/bounds.h"
#include "pdf/element.h"
#include "pdf/parents.h"
#include "pdf/syntax.h"

typedef enum Sequence { SEQUENCE_NONE, SEQUENCE_ARTIFACT, SEQUENCE_ELEMENT } Sequence;

struct Tags {
    Objects *objects;
    Content *content;
    const Plan *plan;
    Parents *parents;
    Element *top;     /* the innermost open element */
    Element *spare;   /* closed ones, to be used again */
    size_t artifacts; /* open artifacts, and everything opened inside */
    uint32_t root;
    Buf root_kids;
    uint32_t page;
    size_t rows; /* opened so far */
    Sequence sequence;
    bool sequence_in_text; /* begun inside a text object, so it must end inside it */
    int heading;           /* level of the heading opened last */
    bool has_fault;        /* see tags_are_accessible */
};

/* ---- marked content ---- */

static void end_sequence(Tags *tags) {
    if (tags->sequence == SEQUENCE_NONE) return;
    if (!tags->sequence_in_text) content_end_text(tags->content);
    BUF_PUT(&tags->content->out, "EMC\n");
    tags->sequence = SEQUENCE_NONE;
}

/* `actual`: what the content stands for, when its codes do not say. */
static void begin_element_content(Tags *tags, const char *actual) {
    Element *element = tags->top;
    Buf *out = &tags->content->out;
    uint32_t item = parents_add(tags->parents, element->number);
    element_add_content(element, tags->page, item);
    buf_putc(out, '/');
    buf_puts(out, actual ? "Span" : role_table[element->role].name); /* some readers heed ActualText on a Span alone */
    BUF_PUT(out, "<</MCID ");
    syntax_unsigned(out, item);
    if (actual) {
        BUF_PUT(out, "/ActualText");
        syntax_text(out, actual);
    }
    BUF_PUT(out, ">>BDC\n");
}

/* A content item of its own for the glyphs that follow. In a figure the alternative speaks for them. */
static void tell_text(void *teller, const char *text) {
    Tags *tags = teller;
    if (tags->sequence != SEQUENCE_ELEMENT || !tags->sequence_in_text) return;
    BUF_PUT(&tags->content->out, "EMC\n");
    begin_element_content(tags, text);
}

Tags *tags_new(Objects *objects, Content *content, const Plan *plan, size_t page_count) {
    Tags *tags = mem_alloc(sizeof(Tags));
    tags->objects = objects;
    tags->content = content;
    tags->plan = plan;
    tags->parents = parents_new(objects, page_count);
    tags->root = objects_reserve(objects);
    content->tell_text = tell_text;
    content->teller = tags;
    return tags;
}

static void free_elements(Element *element) {
    for (Element *above; element; element = above) {
        above = element->above;
        buf_free(&element->kids);
        free(element);
    }
}

void tags_free(Tags *tags) {
    if (!tags) return;
    free_elements(tags->top);
    free_elements(tags->spare);
    buf_free(&tags->root_kids);
    parents_free(tags->parents);
    free(tags);
}

/* Goes on with the sequence at work where it fits, else begins the one wanted. */
static void want_sequence(Tags *tags, Sequence wanted, bool in_text) {
    if (tags->sequence == wanted && (in_text || !tags->sequence_in_text)) return;
    end_sequence(tags);
    if (in_text)
        content_begin_text(tags->content);
    else
        content_end_text(tags->content);
    tags->sequence = wanted;
    tags->sequence_in_text = in_text;
    if (wanted == SEQUENCE_ELEMENT)
        begin_element_content(tags, NULL);
    else
        BUF_PUT(&tags->content->out, "/Artifact BMC\n");
}

static Holds top_holds(const Tags *tags) {
    return tags->top ? role_table[tags->top->role].holds : HOLDS_BLOCKS;
}

/* The figure around the mark, its bounds extended by those of the mark, or NULL. */
static const Element *figure_around(Tags *tags, const Mark *mark) {
    if (tags->artifacts) return NULL;
    for (Element *element = tags->top; element; element = element->above) {
        if (role_table[element->role].holds != HOLDS_ALL) continue;
        element_extend(element, bounds_of(mark));
        return element;
    }
    return NULL;
}

void tags_before_text(Tags *tags, const Mark *mark) {
    const Element *figure = figure_around(tags, mark);
    if (!tags->artifacts && top_holds(tags) == HOLDS_BLOCKS) {
        tags_open(tags, ROLE_PARAGRAPH, NULL);
        tags->top->implicit = true;
    }
    bool furniture = tags->artifacts || top_holds(tags) == HOLDS_PARTS;
    want_sequence(tags, furniture ? SEQUENCE_ARTIFACT : SEQUENCE_ELEMENT, !figure);
    content_begin_text(tags->content);
}

void tags_before_shape(Tags *tags, const Mark *mark) {
    want_sequence(tags, figure_around(tags, mark) ? SEQUENCE_ELEMENT : SEQUENCE_ARTIFACT, false);
    content_end_text(tags->content);
}

void tags_begin_page(Tags *tags, uint32_t page) {
    tags->page = page;
}

void tags_end_page(Tags *tags) {
    end_sequence(tags);
    content_end_text(tags->content);
    parents_end_page(tags->parents);
}

/* ---- elements ---- */

static Element *push(Tags *tags, Role role) {
    Element *element = tags->spare;
    if (element)
        tags->spare = element->above;
    else
        element = mem_alloc(sizeof(Element));
    element_begin(element, tags->objects, role);
    element->page_height = tags->content->height;
    element->above = tags->top;
    tags->top = element;
    return element;
}

static void pop(Tags *tags) {
    Element *element = tags->top;
    Element *above = element->above;
    element_write(element, tags->objects, above ? above->number : tags->root, above ? &above->kids : &tags->root_kids);
    tags->top = above;
    element->above = tags->spare;
    tags->spare = element;
}

/* The last cell of a short row spans what its table has more. */
static uint32_t span_of_next_cell(const Plan *plan, Element *row) {
    uint32_t cells = plan->row_cells[row->row];
    uint32_t columns = plan->row_columns[row->row];
    row->cells++;
    return row->cells == cells && columns > cells ? columns - cells + 1 : 1;
}

static void open_element(Tags *tags, Role role, const char *alternative, size_t row) {
    if (tags->top && tags->top->implicit) pop(tags);
    if (!tags->top && role != ROLE_DOCUMENT) push(tags, ROLE_DOCUMENT);
    Element *above = tags->top;
    bool in_row = above && above->role == ROLE_ROW && element_is_cell(role);
    uint32_t span = in_row ? span_of_next_cell(tags->plan, above) : 0;
    Element *element = push(tags, role);
    element->alternative = alternative;
    element->row = (uint32_t)row;
    element->cells = span;
}

static int heading_level(Role role) {
    return role >= ROLE_H1 && role <= ROLE_H3 ? role - ROLE_H1 + 1 : 0;
}

static void judge(Tags *tags, Role role, const char *alternative) {
    int level = heading_level(role);
    if (level > tags->heading + 1) tags->has_fault = true;
    if (level) tags->heading = level;
    if (role == ROLE_FIGURE && !(alternative && *alternative)) tags->has_fault = true;
}

bool tags_are_accessible(const Tags *tags) {
    return !tags->has_fault;
}

void tags_open(Tags *tags, Role role, const char *alternative) {
    size_t row = tags->rows;
    end_sequence(tags);
    if (role == ROLE_ROW) tags->rows++;
    if (tags->artifacts || role == ROLE_ARTIFACT) tags->artifacts++;
    if (tags->artifacts) return;
    if (role == ROLE_FIGURE && tags->top && tags->top->role == ROLE_FIGURE) {
        tags->top->inner++;
        return;
    }
    judge(tags, role, alternative);
    open_element(tags, role, alternative, row);
}

void tags_close(Tags *tags) {
    end_sequence(tags);
    if (tags->artifacts) {
        tags->artifacts--;
        return;
    }
    if (tags->top && tags->top->implicit) pop(tags);
    if (tags->top && tags->top->inner)
        tags->top->inner--;
    else if (tags->top)
        pop(tags);
}

/* ---- links ---- */

/* The nearest element that may hold a link. */
static Element *holder_of_link(Tags *tags) {
    Element *element = tags->top ? tags->top : push(tags, ROLE_DOCUMENT);
    while (element->above && role_table[element->role].holds == HOLDS_PARTS) element = element->above;
    return element;
}

uint32_t tags_link(Tags *tags, uint32_t annotation) {
    Element *top = tags->top;
    if (!tags->artifacts && top && top->role == ROLE_LINK) {
        element_add_annotation(top, tags->page, annotation);
        return parents_add_annotation(tags->parents, top->number);
    }
    Element *holder = holder_of_link(tags);
    Element link = {0};
    element_begin(&link, tags->objects, ROLE_LINK);
    element_add_annotation(&link, tags->page, annotation);
    element_write(&link, tags->objects, holder->number, &holder->kids);
    buf_free(&link.kids);
    return parents_add_annotation(tags->parents, link.number);
}

/* ---- the root ---- */

uint32_t tags_finish(Tags *tags) {
    while (tags->top) pop(tags);
    uint32_t next_key;
    uint32_t tree = parents_finish(tags->parents, &next_key);
    Buf *out = objects_open(tags->objects, tags->root);
    BUF_PUT(out, "<</Type/StructTreeRoot/K[");
    buf_put(out, tags->root_kids.bytes, tags->root_kids.length);
    BUF_PUT(out, "]/ParentTree ");
    syntax_reference(out, tree);
    BUF_PUT(out, "/ParentTreeNextKey ");
    syntax_unsigned(out, next_key);
    BUF_PUT(out, ">>");
    objects_close(tags->objects);
    return tags->root;
}
