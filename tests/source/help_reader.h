/* A folder of templates and a dossier to be read, each file open to one change at a time. */
#ifndef TB_TESTS_SOURCE_HELP_READER_H
#define TB_TESTS_SOURCE_HELP_READER_H

#include "source/dossier.h"

typedef struct ReaderWorld ReaderWorld;

/* Copies tests/source/reader/ into a temporary folder: profiles/passer.xml, sets/common.xml, houses/plain.xml,
 * layouts/short.xml, scales/passer.xml and dossier.xml. */
ReaderWorld *reader_world_new(void);
void reader_world_free(ReaderWorld *world);

/* Replaces the only place where `old` stands in a file of the world. */
void reader_world_change(ReaderWorld *world, const char *file, const char *old, const char *fresh);
void reader_world_write(ReaderWorld *world, const char *file, const char *text);

Arena *reader_arena(ReaderWorld *world);
Diagnostics *reader_diagnostics(ReaderWorld *world);
const char *reader_folder(const ReaderWorld *world);

/* NULL when it cannot be read. */
Dossier *reader_dossier(ReaderWorld *world);
const Profile *reader_profile(ReaderWorld *world, const char *id);

/* What was reported, a line each: "dossier.xml:14:3: error: message [rule] + dossier.xml:12:3 (hint)". */
const char *reader_said(ReaderWorld *world);

/* A case of a fault table: one change to one file, and what is then said. */
typedef struct ReaderFault {
    const char *file, *old, *fresh;
    const char *said;
} ReaderFault;

/* Reads the changed world's dossier for each case and asserts what is said. */
void reader_check_faults(const ReaderFault *faults, size_t count);

#define READER_CHECK_FAULTS(faults) reader_check_faults((faults), sizeof(faults) / sizeof *(faults))

#endif
