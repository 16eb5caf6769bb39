/* Files: bounded reading, and saving that leaves the whole new file or the whole old one. */
#ifndef TB_BASE_FILE_H
#define TB_BASE_FILE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"
#include "base/diag.h"

enum { FILE_MOST_BYTES = 64 * 1024 * 1024 };

/* Reads a regular file (or standard input for "-") whole into the arena. NULL after a FILE_READ or XML_LIMIT report. */
const Text *file_read(Arena *arena, const char *path, Diagnostics *diagnostics) __attribute__((warn_unused_result));

typedef enum BelowFault { BELOW_FINE, BELOW_UNSAFE, BELOW_UNREADABLE, BELOW_TOO_LARGE } BelowFault;

/* Reads a regular file of at most `most` bytes that `name` leads to from the folder of the file `beside`, through no
 * link and out of no folder. Anything but BELOW_FINE is told in `*why`, in words. */
BelowFault file_read_below(Arena *arena, const char *beside, const char *name, size_t most, const Text **text,
                           const char **why) __attribute__((warn_unused_result));

/* A file being written beside its target. Every write is checked; nothing is seen under the target's name until
 * file_commit has flushed, synced and renamed it. "-" writes to standard output. */
typedef struct FileWriter FileWriter;

FileWriter *file_create(const char *path); /* NULL with errno set */
bool file_write(FileWriter *writer, const void *bytes, size_t length) __attribute__((warn_unused_result));
bool file_commit(FileWriter *writer)
    __attribute__((warn_unused_result)); /* frees; false with errno set, target untouched */
void file_abandon(FileWriter *writer);   /* frees and removes the temporary file */

/* Reports what errno says about writing `path`. */
void file_report_write(Diagnostics *diagnostics, const char *path);
void file_report_failed(Diagnostics *diagnostics, const char *path, const char *why); /* the same in words */

#endif
