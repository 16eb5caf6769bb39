/* The parent tree: from a page's marked content and from annotations back to their structure elements. */
#ifndef TB_PDF_PARENTS_H
#define TB_PDF_PARENTS_H

#include <stddef.h>
#include <stdint.h>

#include "pdf/objects.h"

typedef struct Parents Parents;

/* Keys of pages are their indexes from 0, those of annotations follow `page_count`. */
Parents *parents_new(Objects *objects, size_t page_count);
void parents_free(Parents *parents);

/* The next content item of the page at work belongs to `element`; gives its number (MCID). */
uint32_t parents_add(Parents *parents, uint32_t element);

/* Writes the page's array. Pages end in order, each once. */
void parents_end_page(Parents *parents);

/* The key of an annotation that belongs to `element`. */
uint32_t parents_add_annotation(Parents *parents, uint32_t element);

/* Writes the tree: its object number, and the key after the last. */
uint32_t parents_finish(Parents *parents, uint32_t *next_key);

#endif
