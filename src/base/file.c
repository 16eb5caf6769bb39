#include "base/file.h"

#include <errno.h>
#include <fcntl.h>
#include <linux/openat2.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include "base/buf.h"

enum {
    READ_STEP = 64 * 1024,
    WRITE_BUFFER = 64 * 1024,
    MOST_NAME_TRIES = 1000, /* temporary names that may already exist */
    NEW_FILE_MODE = 0666,   /* less the process's mask */
    PERMISSIONS = 07777
};

/* ---- reading ---- */

/* Reads to the end, at most READ_STEP bytes beyond `most`. False with errno set. */
static bool read_all(int file, Buf *bytes, size_t most) {
    while (bytes->length <= most) {
        char *to = buf_reserve(bytes, READ_STEP);
        ssize_t got = read(file, to, READ_STEP);
        if (got == 0) return true;
        if (got > 0) {
            bytes->length += (size_t)got;
        } else if (errno != EINTR) {
            return false;
        }
    }
    return true;
}

static bool read_failed(Diagnostics *diagnostics, const char *path, const char *why) {
    diag_report(diagnostics, RULE_FILE_READ, (Place){0}, NULL, "cannot read '%s': %s", path, why);
    return false;
}

/* Opens a regular file; anything else could block or never end. -1 after a report. */
static int open_regular(const char *path, Diagnostics *diagnostics) {
    int file = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
    struct stat status;
    if (file < 0 || fstat(file, &status) != 0) {
        read_failed(diagnostics, path, strerror(errno));
    } else if (S_ISDIR(status.st_mode)) {
        read_failed(diagnostics, path, "it is a folder");
    } else if (!S_ISREG(status.st_mode)) {
        read_failed(diagnostics, path, "it is not a regular file");
    } else {
        return file;
    }
    if (file >= 0) close(file);
    return -1;
}

static bool read_into(Buf *bytes, const char *path, Diagnostics *diagnostics) {
    bool standard = strcmp(path, "-") == 0;
    int file = standard ? STDIN_FILENO : open_regular(path, diagnostics);
    if (file < 0) return false;
    bool done = read_all(file, bytes, FILE_MOST_BYTES);
    int why = errno;
    if (!standard) close(file);
    if (!done) return read_failed(diagnostics, path, strerror(why));
    if (bytes->length <= FILE_MOST_BYTES) return true;
    diag_report(diagnostics, RULE_XML_LIMIT, (Place){0}, NULL, "'%s' is larger than %d bytes", path, FILE_MOST_BYTES);
    return false;
}

static const Text *new_text(Arena *arena, const char *path, const Buf *bytes) {
    Text *text = ARENA_NEW(arena, Text);
    *text = (Text){arena_string(arena, path), arena_copy(arena, bytes->bytes, bytes->length), bytes->length};
    return text;
}

const Text *file_read(Arena *arena, const char *path, Diagnostics *diagnostics) {
    Buf bytes = {0};
    const Text *text = read_into(&bytes, path, diagnostics) ? new_text(arena, path, &bytes) : NULL;
    buf_free(&bytes);
    return text;
}

/* ---- reading below a folder ---- */

/* Length of the folder part of `path`, its last slash included. */
static size_t folder_length(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash ? (size_t)(slash - path) + 1 : 0;
}

/* The kernel walks the path and refuses what leaves the folder or goes through a link, whatever changes meanwhile. */
static int open_below(const char *folder, const char *name) {
    struct open_how how = {.flags = O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY,
                           .resolve = RESOLVE_BENEATH | RESOLVE_NO_SYMLINKS | RESOLVE_NO_MAGICLINKS};
    int root = open(folder, O_PATH | O_DIRECTORY | O_CLOEXEC);
    if (root < 0) return -1;
    int file = (int)syscall(SYS_openat2, root, name, &how, sizeof how);
    int why = errno;
    close(root);
    errno = why;
    return file;
}

static BelowFault why_unopened(const char **why) {
    *why = errno == ELOOP ? "it is a link, or leads through one" : strerror(errno);
    if (errno == EXDEV) *why = "it leads out of its folder";
    return errno == ELOOP || errno == EXDEV ? BELOW_UNSAFE : BELOW_UNREADABLE;
}

static BelowFault read_opened(int file, Buf *bytes, size_t most, const char **why) {
    struct stat status;
    bool known = fstat(file, &status) == 0;
    if (known && !S_ISREG(status.st_mode)) {
        *why = "it is not a regular file";
        return BELOW_UNSAFE;
    }
    if (!known || !read_all(file, bytes, most)) {
        *why = strerror(errno);
        return BELOW_UNREADABLE;
    }
    return bytes->length > most ? BELOW_TOO_LARGE : BELOW_FINE;
}

BelowFault file_read_below(Arena *arena, const char *beside, const char *name, size_t most, const Text **text,
                           const char **why) {
    const char *folder = arena_copy(arena, beside, folder_length(beside));
    int file = open_below(*folder ? folder : ".", name);
    if (file < 0) return why_unopened(why);
    Buf bytes = {0};
    BelowFault fault = read_opened(file, &bytes, most, why);
    close(file);
    if (fault == BELOW_TOO_LARGE) *why = arena_printf(arena, "it is larger than %zu bytes", most);
    if (fault == BELOW_FINE) *text = new_text(arena, arena_printf(arena, "%s%s", folder, name), &bytes);
    buf_free(&bytes);
    return fault;
}

/* ---- writing ---- */

struct FileWriter {
    char *target;    /* NULL: `file` is written directly */
    char *temporary; /* beside the target */
    int file;
    int failed; /* errno of the first failed write */
    Buf waiting;
};

static int open_temporary(FileWriter *writer) {
    size_t folder = folder_length(writer->target);
    for (int try = 0; try < MOST_NAME_TRIES; try++) {
        Buf name = {0};
        buf_put(&name, writer->target, folder);
        buf_printf(&name, ".tapebound-%ld-%d.tmp", (long)getpid(), try);
        writer->temporary = mem_string(buf_text(&name));
        buf_free(&name);
        int file = open(writer->temporary, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, NEW_FILE_MODE);
        if (file >= 0) return file;
        free(writer->temporary);
        writer->temporary = NULL;
        if (errno != EEXIST) return -1;
    }
    return -1;
}

static void writer_free(FileWriter *writer) {
    free(writer->target);
    free(writer->temporary);
    buf_free(&writer->waiting);
    free(writer);
}

/* A symbolic link stays one: what it points to is replaced. */
static char *resolved(const char *path) {
    char *real = realpath(path, NULL);
    return real ? real : mem_string(path);
}

/* Opens what the bytes go to first. Devices and pipes cannot be replaced, so they are written directly. */
static bool writer_open(FileWriter *writer, const char *path) {
    struct stat status;
    bool exists = stat(path, &status) == 0;
    if (exists && S_ISDIR(status.st_mode)) {
        errno = EISDIR;
        return false;
    }
    if (exists && !S_ISREG(status.st_mode)) {
        writer->file = open(path, O_WRONLY | O_CLOEXEC | O_NOCTTY);
        return writer->file >= 0;
    }
    writer->target = resolved(path);
    writer->file = open_temporary(writer);
    if (writer->file < 0) return false;
    if (!exists || fchmod(writer->file, status.st_mode & PERMISSIONS) == 0) return true;
    int why = errno;
    unlink(writer->temporary);
    close(writer->file);
    errno = why;
    return false;
}

FileWriter *file_create(const char *path) {
    FileWriter *writer = mem_alloc(sizeof *writer);
    writer->file = STDOUT_FILENO;
    if (strcmp(path, "-") == 0 || writer_open(writer, path)) return writer;
    int why = errno;
    writer_free(writer);
    errno = why;
    return NULL;
}

static bool write_all(FileWriter *writer, const char *bytes, size_t length) {
    while (length > 0 && !writer->failed) {
        ssize_t written = write(writer->file, bytes, length);
        if (written > 0) {
            bytes += written;
            length -= (size_t)written;
        } else if (written == 0) {
            writer->failed = EIO;
        } else if (errno != EINTR) {
            writer->failed = errno;
        }
    }
    if (writer->failed) errno = writer->failed;
    return !writer->failed;
}

static bool flush(FileWriter *writer) {
    bool done = write_all(writer, writer->waiting.bytes, writer->waiting.length);
    writer->waiting.length = 0;
    return done;
}

bool file_write(FileWriter *writer, const void *bytes, size_t length) {
    if (writer->waiting.length + length <= WRITE_BUFFER) {
        buf_put(&writer->waiting, bytes, length);
        return !writer->failed;
    }
    return flush(writer) && write_all(writer, bytes, length);
}

/* Makes the new name last. The file is whole under its name by now, and some file systems cannot sync a folder, so a
 * failure here is none of the caller's. */
static void sync_folder(const char *target) {
    size_t length = folder_length(target);
    char *folder = mem_string(length ? target : ".");
    if (length) folder[length] = '\0';
    int handle = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    free(folder);
    if (handle < 0) return;
    (void)fsync(handle);
    close(handle);
}

/* Gives the temporary file its name. The file is closed whatever happens. */
static bool replace_target(FileWriter *writer) {
    bool done = fsync(writer->file) == 0;
    int why = errno;
    if (close(writer->file) != 0 && done) {
        why = errno;
        done = false;
    }
    if (done && rename(writer->temporary, writer->target) == 0) {
        sync_folder(writer->target);
        return true;
    }
    if (done) why = errno;
    unlink(writer->temporary);
    errno = why;
    return false;
}

bool file_commit(FileWriter *writer) {
    if (!flush(writer)) {
        int why = errno;
        file_abandon(writer);
        errno = why;
        return false;
    }
    bool done = true;
    if (writer->target) {
        done = replace_target(writer);
    } else if (writer->file != STDOUT_FILENO) {
        done = close(writer->file) == 0;
    }
    int why = errno;
    writer_free(writer);
    errno = why;
    return done;
}

void file_abandon(FileWriter *writer) {
    if (!writer) return;
    if (writer->file != STDOUT_FILENO) close(writer->file);
    if (writer->temporary) unlink(writer->temporary);
    writer_free(writer);
}

void file_report_failed(Diagnostics *diagnostics, const char *path, const char *why) {
    const char *name = strcmp(path, "-") == 0 ? "standard output" : path;
    diag_report(diagnostics, RULE_FILE_WRITE, (Place){0}, NULL, "cannot write '%s': %s", name, why);
}

void file_report_write(Diagnostics *diagnostics, const char *path) {
    file_report_failed(diagnostics, path, strerror(errno));
}
