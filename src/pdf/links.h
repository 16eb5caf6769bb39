/* Link annotations. */
#ifndef TB_PDF_LINKS_H
#define TB_PDF_LINKS_H

#include "pdf/haru.h"
#include "pdf/objects.h"
#include "pdf/plan.h"
#include "pdf/tags.h"
#include "typeset/pages.h"

typedef struct Links {
    const Pages *pages;
    const Plan *plan;
    const HaruPage *numbers; /* of the pages */
    Objects *objects;
    Tags *tags;
    Buf annotations; /* references of the page at work */
} Links;

/* Writes the annotation of LINK mark `index` of page `page`. A link to an anchor that no page has is left out: the text
 * stays. */
void links_add(Links *links, size_t page, size_t index);

#endif
