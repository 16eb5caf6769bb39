/* What setting one story needs at every step: the page under way, the settings, and memory kept from one text to the
 * next. */
#ifndef TB_TYPESET_SETTER_H
#define TB_TYPESET_SETTER_H

#include "typeset/canvas.h"
#include "typeset/cuts.h"
#include "typeset/linefit.h"
#include "typeset/style.h"

struct ParaBox;

typedef struct Setter {
    Canvas canvas;
    Setting settings[SETTING_COUNT];
    CutCache cuts;
    FitScratch fit;
    FitBreak *breaks; /* of the paragraph under way */
    size_t break_count, break_room;
    uint32_t *path;
    size_t path_room;
    struct ParaBox *boxes;
    size_t box_count, box_room;
} Setter;

#endif
