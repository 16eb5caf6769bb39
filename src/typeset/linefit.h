/* Optimum-fit line breaking: D. E. Knuth and M. F. Plass, "Breaking Paragraphs into Lines", Software: Practice and
 * Experience 11 (1981) 1119-1184. Works on the places where a line may end; knows nothing of words. All widths in
 * points. */
#ifndef TB_TYPESET_LINEFIT_H
#define TB_TYPESET_LINEFIT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/arena.h"

/* A place where a line may end and the next begins. Positions run along the whole paragraph set in one line; the white
 * at the break itself lies between `end` and `start`. The first place is the paragraph's start, the last its end. */
typedef struct FitBreak {
    double end, end_stretch, end_shrink; /* where a line that ends here ends, and the stretch and shrink up to there */
    double start, start_stretch, start_shrink; /* where the line after it begins */
    double hang_end, hang_start; /* how far the line's last and the next line's first character hang out */
    double penalty;              /* 0 for a space */
    bool flagged;                /* ends in a hyphen: two running are disliked */
    uint32_t box;                /* the caller's own: last box of the line */
    const void *cut;             /* the caller's own: how that box is cut */
} FitBreak;

typedef struct FitMeasure {
    double width;      /* of every line */
    double tolerance;  /* greatest stretch of white, 1: as much as it has */
    double emergency;  /* stretch added to every line */
    double short_last; /* a last line shorter than this is disliked */
    double margin;     /* no hyphen or hang is wider: how far a line that is too long may still be mended */
    bool ragged;       /* white neither stretches nor shrinks; squared shortfalls are added up */
    bool force;        /* when nothing fits, take a line that is too long */
} FitMeasure;

/* One line from a break to another, apart from what comes before it. */
typedef struct FitLine {
    double ratio; /* of stretch (up to tolerance) or shrink (down to -1) */
    double demerits;
    int fitness; /* 0 tight, 1 decent, 2 loose, 3 very loose */
} FitLine;

/* False when the line cannot be set within the measure. */
bool linefit_line(const FitMeasure *measure, const FitBreak *from, const FitBreak *to, bool last, FitLine *line);

/* What is added because of the line before, which had fitness `before` and ended at `from`. The paragraph's first line
 * comes after FIT_FIRST. */
double linefit_join(const FitBreak *from, int before, const FitBreak *to, const FitLine *line, bool last);

enum { FIT_FIRST = 1, FIT_CLASSES = 4 };

/* Memory of one fit, kept for the next. `{0}` is empty. */
typedef struct FitScratch {
    struct FitNode *nodes;
    uint32_t *active;
    size_t room; /* breaks that both have room for */
} FitScratch;

/* Chooses the breaks of least total demerits, stores their indices (the last is count - 1) in `path`, which has room
 * for `count`, and returns how many lines that makes; 0 when no choice fits. `demerits` may be NULL. */
size_t linefit(Arena *arena, FitScratch *scratch, const FitMeasure *measure, const FitBreak *breaks, size_t count,
               uint32_t *path, double *demerits);

#endif
