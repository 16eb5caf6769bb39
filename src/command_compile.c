/* compile: dossiers set as PDF, or the result of one stage. */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "command.h"

static const OptionSpec OPTIONS[] = {
    {"output", 'o', "OUT", "the PDF, or a folder for one PDF a dossier"},
    {"layout", 'L', "NAME", "which layout (default: full)"},
    {"omit", 0, "PART,..", "a copy without sections, personal or medical notes"},
    {"dump", 'd', "STAGE", "print model, stats, story or pages instead"},
    HOUSE_OPTION,
    STRICT_OPTION,
    HELP_OPTION,
};

static const char *const DUMPS[] = {"none", "model", "stats", "story", "pages"};

static bool read_dump(Call *call, Dump *dump) {
    const char *asked = option_value(&call->options, "dump");
    *dump = DUMP_NONE;
    if (!asked) return true;
    for (int i = DUMP_MODEL; i <= DUMP_PAGES; i++) {
        if (strcmp(asked, DUMPS[i]) == 0) *dump = (Dump)i;
    }
    if (*dump != DUMP_NONE) return true;
    call_fail(call,
              arena_printf(call->arena, "no stage is called '%s'; there are model, stats, story and pages", asked));
    return false;
}

/* ---- where each PDF goes ---- */

static bool is_folder(const char *path) {
    struct stat status;
    return path[strlen(path) - 1] == '/' || (stat(path, &status) == 0 && S_ISDIR(status.st_mode));
}

/* "season/vashti.xml" in folder "out" gives "out/vashti.pdf". */
static const char *output_in(Arena *arena, const char *folder, const char *source) {
    const char *slash = strrchr(source, '/');
    const char *base = slash ? slash + 1 : source;
    size_t length = strlen(base);
    if (length > 4 && strcmp(base + length - 4, ".xml") == 0) length -= 4;
    bool closed = folder[strlen(folder) - 1] == '/';
    return arena_printf(arena, "%s%s%.*s.pdf", folder, closed ? "" : "/", (int)length, base);
}

typedef struct Target {
    const char *path;
    size_t source; /* index of the operand */
} Target;

static int by_path(const void *a, const void *b) {
    const Target *x = a;
    const Target *y = b;
    int order = strcmp(x->path, y->path);
    return order ? order : (x->source > y->source) - (x->source < y->source);
}

/* False after a message when two sources have one target, or a source is its own. */
static bool targets_are_apart(Call *call, const char **paths) {
    size_t count = call->options.operand_count;
    const char **sources = call->options.operands;
    Target *targets = ARENA_ARRAY(call->arena, count, Target);
    for (size_t i = 0; i < count; i++) {
        targets[i] = (Target){paths[i], i};
        if (!call_same_file(paths[i], sources[i])) continue;
        call_fail(call, arena_printf(call->arena, "'%s' is read and would be written over", paths[i]));
        return false;
    }
    qsort(targets, count, sizeof *targets, by_path);
    for (size_t i = 1; i < count; i++) {
        if (strcmp(targets[i - 1].path, targets[i].path) != 0) continue;
        call_fail(call, arena_printf(call->arena, "'%s' and '%s' would both be written to '%s'",
                                     sources[targets[i - 1].source], sources[targets[i].source], targets[i].path));
        return false;
    }
    return true;
}

/* One path a source; NULL after a message. */
static const char **output_paths(Call *call, const char *out) {
    size_t count = call->options.operand_count;
    const char **paths = ARENA_ARRAY(call->arena, count, const char *);
    bool folder = is_folder(out);
    if (!folder && count > 1) {
        call_fail(call, arena_printf(call->arena, "'%s' is no folder, and %zu dossiers need one", out, count));
        return NULL;
    }
    for (size_t i = 0; i < count; i++) {
        const char *source = call->options.operands[i];
        if (folder && strcmp(source, "-") == 0) {
            call_fail(call, arena_printf(call->arena, "standard input has no name to take in '%s'; say -o FILE", out));
            return NULL;
        }
        paths[i] = folder ? output_in(call->arena, out, source) : out;
    }
    return targets_are_apart(call, paths) ? paths : NULL;
}

/* ---- the command ---- */

static void compile_one(Call *call, Compiler *compiler, const char *path, const char *out, Dump dump) {
    Buf dumped = {0};
    Arena *arena = arena_new();
    Diagnostics *diagnostics = call_sink(call);
    compiler_compile(compiler, arena, path, out, dump, &dumped, diagnostics);
    call_progress(call, call->options.operand_count);
    call_finish(call, diagnostics);
    arena_free(arena);
    if (dumped.length) call_print(call, dumped.bytes, dumped.length);
    buf_free(&dumped);
    call->files++;
}

/* All of them into one document. */
static void compile_joined(Call *call, Compiler *compiler, const char *out) {
    Arena *arena = arena_new();
    Diagnostics *diagnostics = call_sink(call);
    compiler_compile_joined(compiler, arena, call->options.operands, call->options.operand_count, out, diagnostics);
    call_finish(call, diagnostics);
    arena_free(arena);
    call->files += call->options.operand_count;
}

static void compile_each(Call *call, Compiler *compiler, const char **paths, Dump dump) {
    for (size_t i = 0; i < call->options.operand_count; i++) {
        call_progress(call, i);
        compile_one(call, compiler, call->options.operands[i], paths ? paths[i] : NULL, dump);
    }
}

static void compile_all(Call *call, const char *out, Dump dump) {
    Compiler *compiler = call_open_compiler(call);
    if (!compiler) return;
    bool prints = dump == DUMP_NONE;
    bool joins = prints && compiler_joins(compiler) && call->options.operand_count > 1 && !is_folder(out);
    const char **paths = prints && !joins ? output_paths(call, out) : NULL;
    if (joins) {
        compile_joined(call, compiler, out);
    } else if (call->status == STATUS_CLEAN) {
        compile_each(call, compiler, paths, dump);
    }
    compiler_free(compiler);
    if (call->errors || call->warnings) call_summary(call);
}

static void run(Call *call) {
    Dump dump;
    const char *out = option_value(&call->options, "output");
    if (!call_needs_files(call) || !read_dump(call, &dump)) return;
    if (dump == DUMP_NONE && (!out || !*out)) {
        call_fail(call, "say where to with -o OUT");
        return;
    }
    if (dump == DUMP_NONE && strcmp(out, "-") == 0 && isatty(STDOUT_FILENO)) {
        call_fail(call, "a PDF is not for a terminal; say -o FILE");
        return;
    }
    compile_all(call, out, dump);
}

const Command command_compile = {
    .name = "compile",
    .summary = "set dossiers as PDF",
    .operands = "FILE... -o OUT",
    .example = "tapebound compile vashti.xml -o vashti.pdf",
    COMMAND_SPECS(OPTIONS),
    .run = run,
};
