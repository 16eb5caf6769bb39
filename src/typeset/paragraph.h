/* Paragraphs: spans of words to lines, justified or ragged, by optimum fit. Widths in points. */
#ifndef TB_TYPESET_PARAGRAPH_H
#define TB_TYPESET_PARAGRAPH_H

#include "story/story.h"
#include "typeset/cuts.h"
#include "typeset/setter.h"

/* What may happen between a word and the next. */
typedef enum ParaJoint {
    JOINT_FAST,  /* no line ends here, with or without white */
    JOINT_SPACE, /* a line may end, the white is lost */
    JOINT_BREAK  /* a line may end though there is no white */
} ParaJoint;

/* A word with the white after it. */
typedef struct ParaBox {
    const Word *word;
    double width;
    float space;
    uint8_t kind;  /* SpanKind */
    uint8_t joint; /* ParaJoint */
    uint32_t span; /* index in Words */
} ParaBox;

/* Words shaped and measured, not yet broken. */
typedef struct Para {
    const Setting *setting;
    const Words *words;
    const ParaBox *boxes;
    size_t count;
    double natural; /* set in one line */
    double longest; /* the widest word, or words that no line parts */
} Para;

typedef struct ParaLine {
    uint32_t first, last; /* boxes */
    const Cut *first_cut; /* the line begins with its right half; NULL: with a whole word */
    const Cut *last_cut;  /* the line ends with its left half; NULL: with a whole word */
    float white;          /* each space is so many times as wide as it is naturally */
    float hang;           /* the line begins so far left of its measure */
    double natural;       /* its width before white is changed */
} ParaLine;

typedef struct ParaLines {
    const Para *para;
    const ParaLine *lines;
    size_t count; /* 0 for a paragraph without words */
} ParaLines;

/* `words` and `setting` must outlive the result. A character that no font has is reported at its span. */
const Para *para_new(Setter *setter, const Words *words, const Setting *setting);

/* One span of plain text. */
const Para *para_plain(Setter *setter, const char *text, const Setting *setting);

/* A line that does not fit `width` is reported at its widest word's span. */
ParaLines para_break(Setter *setter, const Para *para, double width);

/* The widest piece that no break can make smaller, hyphens allowed. */
double para_least(Setter *setter, const Para *para);

/* Width of a word in a style, with its tracking. */
double para_word_width(const Word *word, TextStyle style);

double para_height(const ParaLines *lines);

/* The word of a box as it stands in the line: whole, or what cuts leave of it. */
const Word *para_word(Setter *setter, const Para *para, const ParaLine *line, uint32_t box);

/* Draws one line with its left edge at `x`, or its right edge or middle by `align` (only in ragged settings), `y` its
 * baseline. Links become structure elements with a mark on their words. */
void para_draw_line(Setter *setter, const ParaLines *lines, size_t line, double x, double y, CellAlign align);

/* Draws all lines downward, the first baseline LINE_BASELINE of the leading below `top`. */
void para_draw(Setter *setter, const ParaLines *lines, double x, double top, CellAlign align);

#endif
