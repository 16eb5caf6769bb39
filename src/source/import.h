/* Tables to dossiers: a map says which rows are snaps and what each column means. */
#ifndef TB_SOURCE_IMPORT_H
#define TB_SOURCE_IMPORT_H

#include <stdbool.h>

#include "source/dossier.h"

/* Reads the table at `csv_path` through the map at `map_path` and writes a dossier to `out_path`, whole or not at all.
 * `where` is a selection over the table's columns, may be NULL. Every value is held against the profile before anything
 * is written. False after reports. Files named in them live as long as `context`. */
bool import_table(SourceContext *context, const char *csv_path, const char *map_path, const char *where,
                  const char *out_path, Diagnostics *diagnostics) __attribute__((warn_unused_result));

#endif
