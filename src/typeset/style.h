/* The look in numbers: how each kind of text is set, and the white between things. Points. */
#ifndef TB_TYPESET_STYLE_H
#define TB_TYPESET_STYLE_H

#include <stdbool.h>

#include "source/house.h"
#include "story/story.h"
#include "typeset/canvas.h"

enum { SPAN_KINDS = SPAN_LINK + 1 };

/* How one flow of words is set, by kind of span. */
typedef struct Setting {
    TextStyle text[SPAN_KINDS];
    double leading;
    double indent;  /* of the first line */
    bool justified; /* else ragged right */
} Setting;

typedef enum SettingName {
    SET_PROSE,
    SET_PROSE_NEXT, /* a paragraph right after another: its first line is indented */
    SET_NOTE,
    SET_CAPTION,
    SET_LABEL,
    SET_CELL,
    SET_CELL_STRONG,
    SET_CELL_HEAD,
    SET_DENSE,
    SET_DENSE_STRONG,
    SET_DENSE_HEAD,
    SET_TITLE,
    SET_TITLE_NOTE,
    SET_HEAD,
    SET_HEAD_NOTE,
    SET_CLAIM,
    SET_NAME,
    SET_NAME_NOTE,
    SET_GRADE,
    SET_HEADLINE,
    SET_VERDICT,
    SET_FACT_LABEL,
    SET_FACT,
    SET_SIDE_FACT, /* beside the nameplate */
    SET_RUNNING,
    SET_LEAF,
    SET_FOOT,
    SET_TAB,
    SETTING_COUNT
} SettingName;

/* Fills `settings` (SETTING_COUNT of them) for the layout's size of prose. */
void style_fill(Setting *settings, const Layout *layout);

/* The grid of baselines and the page's furniture, from the layout's head and foot line. */
#define GRID_FROM_HEAD 20.0 /* first baseline of the grid, below the head line's */
#define HEAD_RULE 5.0       /* below the head line's baseline */
#define FOOT_RULE 10.0      /* above the foot line's baseline */
#define TEXT_FROM_FOOT 19.0 /* the last line's bottom, above the foot line's baseline */
#define FOOT_LEADING 9.0
#define PAPER_LETTER_WIDTH 612.0
#define PAPER_LETTER_HEIGHT 792.0
#define PAPER_A4_WIDTH 595.28
#define PAPER_A4_HEIGHT 841.89

/* The edge tab. */
#define TAB_WIDTH 24.0
#define TAB_HEIGHT 51.0
#define TAB_STEP 57.0
#define TAB_WORD 18.0 /* its middle, from the trim */
#define TAB_TINT 92

/* White above and below. A line of text is `leading` high with its baseline at LINE_BASELINE of it. */
#define LINE_BASELINE 0.75
#define SPACE_HEAD 15.0     /* above the rule of a head */
#define SPACE_RUN_ON 30.0   /* above the title of a section that does not start a page */
#define TITLE_BASELINE 21.0 /* of a section's title, from the top of its line */
#define TITLE_BELOW 12.0    /* from a title's last baseline to what follows */
#define HEAD_BASELINE 12.0  /* of a head, from its rule */
#define CLAIM_BASELINE 14.0 /* of a claim's head, from its rule */
#define HEAD_BELOW 9.0      /* from a head's last baseline to what follows */
#define RULE_HEAD 1.0
#define RULE_TABLE 0.5
#define RULE_ROW 0.25
#define RULE_PAGE 0.5
#define SPACE_PROSE 3.0
#define SPACE_TABLE 5.0
#define SPACE_FIGURE 6.0
#define SPACE_CAPTION 4.0
#define SPACE_NOTE 4.0
#define SPACE_LIST 3.0
#define SPACE_SPLIT 4.0
#define SPACE_FACTS 2.0
#define SPLIT_GUTTER 14.0
#define NOTE_BELOW 4.0 /* above and below a note that does not fit beside its title */
#define NOTE_GAP 12.0  /* least white between a title and the note on its line */
#define ITEM_INDENT 10.0
#define ITEM_DOT 1.3 /* radius */
#define CELL_GUTTER 10.0
#define DENSE_GUTTER 4.0
#define BAND_TINT 8
#define FACT_GUTTER 8.0
#define FACTS_WIDE 400.0 /* from here on, facts stand in two columns */
#define NAME_BASELINE 31.0
#define NAME_LEAST 20.0     /* the size a long name is set down to before it is broken */
#define VERDICT_INDENT 84.0 /* of the words beside the grade */

#endif
