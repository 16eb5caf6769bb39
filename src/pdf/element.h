/* One structure element: what it is while it is open, and how it is written when it closes. */
#ifndef TB_PDF_ELEMENT_H
#define TB_PDF_ELEMENT_H

#include <stdbool.h>
#include <stdint.h>

#include "base/buf.h"
#include "pdf/objects.h"
#include "typeset/pages.h"

/* What may stand directly in an element. */
typedef enum Holds {
    HOLDS_BLOCKS, /* text here gets a paragraph of its own */
    HOLDS_PARTS,  /* rows, cells, items: anything painted here is furniture */
    HOLDS_TEXT,   /* shapes here are furniture */
    HOLDS_ALL     /* a figure: everything painted belongs to it */
} Holds;

typedef struct RoleInfo {
    const char *name; /* standard structure type, ISO 32000-1, 14.8.4 */
    Holds holds;
} RoleInfo;

/* By Role. */
extern const RoleInfo role_table[];

typedef struct Element Element;
struct Element {
    Element *above; /* the element it stands in, NULL: the root */
    Role role;
    uint32_t number;
    uint32_t item;  /* ITEM: number of the LI around its LBody */
    uint32_t page;  /* number of the page that its content is on unless it says otherwise; 0: none yet */
    uint32_t row;   /* ROW: its number in the plan */
    uint32_t cells; /* ROW: cells opened so far; a cell: columns it spans */
    uint32_t inner; /* FIGURE: figures opened directly in it and still open: they are all one */
    bool implicit;  /* a paragraph that no mark opened */
    bool linked;    /* LINK: has an annotation */
    const char *alternative;
    double left, top, right, bottom; /* FIGURE: painted bounds, y downward */
    double page_height;
    Buf kids;
};

/* Makes `element` a fresh one; its buffer is used again. */
void element_begin(Element *element, Objects *objects, Role role);
bool element_is_cell(Role role);

void element_extend(Element *figure, Box box);

/* Notes content item `item` of `page` as the next kid. */
void element_add_content(Element *element, uint32_t page, uint32_t item);
void element_add_annotation(Element *element, uint32_t page, uint32_t annotation);

/* Writes the element below `parent`, and appends the reference that belongs among the kids of the parent to `kids`. An
 * element that holds nothing is left out, unless the table would lose a cell. */
void element_write(const Element *element, Objects *objects, uint32_t parent, Buf *kids);

#endif
