/* Pages made by hand and printed through the real fonts, and the tools that look at the result. */
#ifndef TB_TESTS_PDF_HELP_PAPER_H
#define TB_TESTS_PDF_HELP_PAPER_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/diag.h"
#include "pdf/pdf.h"
#include "typeset/pages.h"

typedef struct Paper {
    Arena *arena;
    Diagnostics *diagnostics;
    FontBook *book;
    Metrics *metrics;
    Pages pages;
    Page *page;         /* the newest */
    const char *folder; /* where files go, removed with the paper */
} Paper;

enum { PAPER_MOST_PAGES = 600, PAPER_WIDTH = 612, PAPER_HEIGHT = 792 };

Paper *paper_new(void);
void paper_free(Paper *paper);

void paper_page(Paper *paper);
Mark *paper_mark(Paper *paper, MarkKind kind);
void paper_open(Paper *paper, Role role, const char *alternative);
void paper_close(Paper *paper);
/* Words of `text` at its baseline; a space at its end is kept. */
Mark *paper_text(Paper *paper, Face face, double size, double x, double y, const char *text);
Mark *paper_line(Paper *paper, double x1, double y1, double x2, double y2);
Mark *paper_rect(Paper *paper, Box box);
Mark *paper_disc(Paper *paper, double x, double y, double radius);
void paper_link(Paper *paper, Box box, const char *target);
void paper_anchor(Paper *paper, double x, double y, const char *name);
void paper_bookmark(Paper *paper, int level, const char *title, double y);

/* A paragraph of one line. */
void paper_paragraph(Paper *paper, Face face, double y, const char *text);

/* A document with everything that a dossier has: heads, a table over two pages, a list, a figure, links, furniture. */
void paper_sample(Paper *paper);

/* Prints into the folder; the path. Fails the test when it cannot. */
const char *paper_print(Paper *paper, const char *name);

/* What a shell command prints; its exit status in `*status` when that is not NULL. */
const char *paper_shell(Paper *paper, int *status, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* The bytes of a file. */
const Text *paper_bytes(Paper *paper, const char *path);

bool paper_has_tool(const char *tool);

/* Ends the test as skipped when the machine lacks a tool. */
#define PAPER_NEEDS(tool)                                                                                              \
    do {                                                                                                               \
        if (paper_has_tool(tool)) break;                                                                               \
        print_message("skipped: %s: there is no %s here\n", __func__, (tool));                                         \
        skip();                                                                                                        \
    } while (0)

#endif
