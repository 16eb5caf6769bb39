/* How a dossier is read: shared by the dossier_*.c files and context.c only. */
#ifndef TB_SOURCE_DOSSIER_PARTS_H
#define TB_SOURCE_DOSSIER_PARTS_H

#include "source/attributes.h"
#include "source/dossier.h"
#include "source/lists.h"
#include "source/names.h"
#include "source/xml.h"

/* Bounds that no real dossier comes near. */
enum {
    DOSSIER_MOST_SNAPS = 20000, /* of all charts */
    DOSSIER_MOST_GAMES = 1000,
    DOSSIER_MOST_SECOND_CHARTS = 1000,
    DOSSIER_MOST_SNAP_NUMBER = 9999
};

/* The rows that charted snaps are read into: those of all charts that count, or of one second chart. */
typedef struct ChartRows {
    Snap *snaps;
    size_t count; /* snaps read so far */
    Columns *columns;
    const XmlNode **nodes; /* by row */
    Names *names;          /* rows by name */
    bool second;           /* a second chart may leave out what it does not judge */
} ChartRows;

/* Rows that follow each other, of one chart. */
typedef struct Stretch {
    const char *label; /* "g1", or "g1 as lm charted it" */
    size_t first_row, row_count;
} Stretch;

/* A field that a snap has under a misspelt name: reported as that, and so not as missing. */
typedef struct Excuse {
    size_t row;
    int field;
} Excuse;

typedef struct DossierReader {
    Arena *arena;
    Diagnostics *diagnostics;
    const Profile *profile;
    const House *house;
    Dossier *dossier;
    ChartRows rows; /* of the charts that count */
    Names *media;
    size_t problems; /* reported */
    bool told;       /* that there are too many of them */
    Excuse excuses[XML_MOST_PROBLEMS];
    size_t excuse_count;
} DossierReader;

XmlSchemas *source_schemas(const SourceContext *context);
bool source_is_fresh(const SourceContext *context); /* no profile has been read yet */
Arena *source_arena(const SourceContext *context);  /* lives as long as the context */

/* False when the file has had its share of reports; the last one says so. */
bool dossier_may_report(DossierReader *reader);

/* ---- the parts, in the order in which they are read ---- */
void dossier_read_head(DossierReader *reader, const XmlNode *root);  /* dossier.c: player, filing, media, measurables */
bool dossier_read_games(DossierReader *reader, const XmlNode *root); /* dossier_games.c; false: nothing to go on with */
void dossier_read_claims(DossierReader *reader, const XmlNode *root);                /* dossier_claims.c */
void dossier_read_keys(DossierReader *reader, const XmlNode *root);                  /* dossier_keys.c */
void dossier_read_grades(DossierReader *reader, const XmlNode *root);                /* dossier_grades.c */
void dossier_read_prose(DossierReader *reader, const XmlNode *parent, Prose *prose); /* dossier_prose.c */

/* ---- charts ---- */

/* Room for that many snaps of which nothing is charted yet (dossier_charts.c). */
ChartRows chart_rows_new(DossierReader *reader, Columns *columns, size_t rows);

/* Reads a chart's snaps into the next rows, and then the exceptions that it marks. Returns how many there are. */
size_t chart_read(DossierReader *reader, const XmlNode *chart, int game, ChartRows *rows);

/* Settles where fields apply and works out derived fields, and which rows count (dossier_derive.c). */
void dossier_derive(DossierReader *reader, ChartRows *rows, const Stretch *stretches, size_t count);

/* Every further chart of a game, when the first charts are all read and derived (dossier_second.c). */
void dossier_read_second_charts(DossierReader *reader, const XmlNode *root);

/* ---- charted values ---- */

/* Takes the charted attributes of a snap into row `row` (dossier_snaps.c). */
void dossier_read_snap(DossierReader *reader, ChartRows *rows, const XmlNode *node, size_t row);

typedef enum ValueFault { VALUE_FINE, VALUE_WRONG, VALUE_OUTSIDE } ValueFault;

/* The number of a charted text as Column holds it; NaN for "goal", which its spot tells (dossier_values.c). */
ValueFault charted_read(const Profile *profile, const Field *field, const char *text, double *number);

/* What may be written for this field, in a few words. */
const char *charted_hint(Arena *arena, const Field *field, const char *text);

/* ---- references: the index, or -1 after a report with the nearest spelling. The attribute must be given. ---- */
int dossier_refer_slice(DossierReader *reader, const XmlNode *node, const char *attribute);
int dossier_refer_measure(DossierReader *reader, const XmlNode *node, const char *attribute);
int dossier_refer_total(DossierReader *reader, const XmlNode *node, const char *attribute);
int dossier_refer_trait(DossierReader *reader, const XmlNode *node, const char *attribute);
int dossier_refer_snap(DossierReader *reader, const XmlNode *node, const char *attribute);
void dossier_refer_media(DossierReader *reader, const XmlNode *node, const char *attribute);
void dossier_refer_evaluator(DossierReader *reader, const XmlNode *node, const char *attribute);

/* Reports that `what` with this id stands twice. */
void dossier_report_twice(DossierReader *reader, const XmlNode *node, const char *attribute, const char *what,
                          Place first);

#endif
