/* Small dossiers made of groups of like snaps, and their story as text. */
#ifndef TB_TESTS_STORY_HELP_CHARTS_H
#define TB_TESTS_STORY_HELP_CHARTS_H

#include "source/help_reader.h"
#include "stats/findings.h"
#include "story/write.h"

/* `count` snaps of a called pass on 1st & 10, each with these attributes as well. */
typedef struct SnapGroup {
    int count;
    const char *attributes;
} SnapGroup;

/* What a dossier of the reader's world says. Parts that are NULL are left out. */
typedef struct Charted {
    const SnapGroup *groups; /* of one game, in order */
    size_t group_count;
    const char *claims;      /* <strength>s and <concern>s */
    const char *bottom_line; /* paragraphs and lists */
    const char *marks;       /* of the chart */
} Charted;

/* Writes, reads and counts it; the test fails when anything is reported. */
const Findings *charted_findings(ReaderWorld *world, const Charted *charted);

/* A writer for parts of a story. */
Writer charted_writer(ReaderWorld *world, const Findings *findings);

/* The dump of a story that has this section alone. */
const char *charted_section(ReaderWorld *world, const Findings *findings, SectionKind kind);

/* Fails unless `part` stands in `text`. */
void assert_says(const char *text, const char *part);
void assert_silent(const char *text, const char *part);

#endif
