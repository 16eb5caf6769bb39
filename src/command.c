#include "command.h"

#include <errno.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* ---- messages ---- */

void call_fail(Call *call, const char *message) {
    fprintf(stderr, "tapebound %s: %s\n", call->command->name, message);
    call->status = STATUS_SYSTEM;
}

bool call_needs_files(Call *call) {
    if (call->options.operand_count) return true;
    call_fail(call, arena_printf(call->arena, "no file is named; see 'tapebound help %s'", call->command->name));
    return false;
}

static bool has_colour(void) {
    const char *no_colour = getenv("NO_COLOR");
    return isatty(STDERR_FILENO) && !(no_colour && *no_colour);
}

void call_progress(const Call *call, size_t file) {
    size_t count = call->options.operand_count;
    if (count < 2 || call->as_json || !isatty(STDERR_FILENO)) return;
    fputs("\r\033[K", stderr);
    if (file < count) fprintf(stderr, "%zu of %zu: %s", file + 1, count, call->options.operands[file]);
}

void call_summary(const Call *call) {
    fprintf(stderr, "%zu file%s: %zu error%s, %zu warning%s\n", call->files, call->files == 1 ? "" : "s", call->errors,
            call->errors == 1 ? "" : "s", call->warnings, call->warnings == 1 ? "" : "s");
}

void call_print(Call *call, const char *bytes, size_t length) {
    if (!length) return;
    if (fwrite(bytes, 1, length, stdout) == length && fflush(stdout) == 0) return;
    call_fail(call, arena_printf(call->arena, "standard output: %s", strerror(errno)));
}

/* ---- findings ---- */

Diagnostics *call_sink(const Call *call) {
    Diagnostics *diagnostics = diag_new();
    diag_set_strict(diagnostics, option_given(&call->options, "strict"));
    return diagnostics;
}

static Status status_of(const Diagnostics *diagnostics) {
    static const Rule SYSTEM[] = {RULE_FILE_READ, RULE_FILE_WRITE, RULE_CALL};
    for (size_t i = 0; i < sizeof SYSTEM / sizeof *SYSTEM; i++) {
        if (diag_reported(diagnostics, SYSTEM[i])) return STATUS_SYSTEM;
    }
    return diag_errors(diagnostics) ? STATUS_SOURCE : STATUS_CLEAN;
}

/* The arrays of all files become one. */
static void collect_json(Call *call, Diagnostics *diagnostics) {
    Buf one = {0};
    diag_json(diagnostics, &one);
    const char *text = buf_text(&one);
    const char *open = strchr(text, '[');
    const char *close = strrchr(text, ']');
    size_t length = open && close ? (size_t)(close - open - 1) : 0;
    bool blank = strspn(open ? open + 1 : "", " \n\t") >= length;
    if (!blank) {
        if (call->json.length) BUF_PUT(&call->json, ",");
        buf_put(&call->json, open + 1, length);
    }
    buf_free(&one);
}

void call_finish(Call *call, Diagnostics *diagnostics) {
    if (call->as_json) {
        collect_json(call, diagnostics);
    } else {
        diag_print(diagnostics, stderr, has_colour());
    }
    Status status = status_of(diagnostics);
    if (status > call->status) call->status = status;
    call->errors += diag_errors(diagnostics);
    call->warnings += diag_warnings(diagnostics);
    diag_free(diagnostics);
}

/* ---- files ---- */

bool call_same_file(const char *a, const char *b) {
    struct stat one, other;
    if (stat(a, &one) != 0 || stat(b, &other) != 0 || !S_ISREG(one.st_mode)) return false;
    return one.st_dev == other.st_dev && one.st_ino == other.st_ino;
}

/* ---- where templates and fonts are ---- */

static bool is_share(const char *folder) {
    char path[PATH_MAX];
    int length = snprintf(path, sizeof path, "%s/templates/schema/dossier.xsd", folder);
    return length > 0 && length < (int)sizeof path && access(path, R_OK) == 0;
}

/* The environment's word, else beside the program (in a build tree or installed), else where it was built for. */
static const char *share_folder(Arena *arena) {
    static const char *const BESIDE[] = {"..", "../..", "../share/tapebound"};
    const char *asked = getenv("TAPEBOUND_SHARE");
    if (asked && *asked) return asked;
    char program[PATH_MAX];
    ssize_t length = readlink("/proc/self/exe", program, sizeof program - 1);
    char *slash = length > 0 ? memrchr(program, '/', (size_t)length) : NULL;
    for (size_t i = 0; slash && i < sizeof BESIDE / sizeof *BESIDE; i++) {
        const char *folder = arena_printf(arena, "%.*s/%s", (int)(slash - program), program, BESIDE[i]);
        char whole[PATH_MAX];
        if (is_share(folder) && realpath(folder, whole)) return arena_string(arena, whole);
    }
    return TB_SHARE;
}

Compiler *call_open_compiler(Call *call) {
    CompilerOptions options = {
        .share = share_folder(call->arena),
        .house = option_value(&call->options, "house"),
        .layout = option_value(&call->options, "layout"),
        .omit = option_value(&call->options, "omit"),
    };
    Diagnostics *diagnostics = call_sink(call);
    Compiler *compiler = compiler_new(&options, diagnostics);
    bool ready = !diag_errors(diagnostics);
    bool absent = diag_reported(diagnostics, RULE_TEMPLATE_MISSING) > 0;
    call_finish(call, diagnostics);
    if (ready) return compiler;
    if (absent) call->status = STATUS_SYSTEM; /* the call named it, no source did */
    compiler_free(compiler);
    return NULL;
}
