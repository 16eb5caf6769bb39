/* The structure tree (ISO 32000-1, 14.7 and 14.8): elements nest as the marks open and close, everything painted is
 * marked as the content of one or as an artifact. Elements are written into the file as they close and are not kept. */
#ifndef TB_PDF_TAGS_H
#define TB_PDF_TAGS_H

#include <stddef.h>
#include <stdint.h>

#include "pdf/content.h"
#include "pdf/objects.h"
#include "pdf/plan.h"

typedef struct Tags Tags;

Tags *tags_new(Objects *objects, Content *content, const Plan *plan, size_t page_count);
void tags_free(Tags *tags);

/* `page` is the number of the page object. Pages come in order; a page's key in the parent tree (StructParents) is its
 * index. */
void tags_begin_page(Tags *tags, uint32_t page);
void tags_end_page(Tags *tags);

/* `alternative` for a figure, else NULL. */
void tags_open(Tags *tags, Role role, const char *alternative);
void tags_close(Tags *tags);

/* To be called before a text or a shape is painted: sees to it that the content is marked, and that a text object is
 * open or closed as needed. */
void tags_before_text(Tags *tags, const Mark *mark);
void tags_before_shape(Tags *tags, const Mark *mark);

/* Puts an annotation into the tree, in the link that is open or in one of its own, and gives its StructParent. */
uint32_t tags_link(Tags *tags, uint32_t annotation);

/* True while the tree keeps the rules of ISO 14289-1 that depend on the pages: headings that skip no level (7.4.2),
 * figures with an alternative (7.3). */
bool tags_are_accessible(const Tags *tags);

/* Closes what is open, writes the root with its parent tree, and returns the root's number. */
uint32_t tags_finish(Tags *tags);

#endif
