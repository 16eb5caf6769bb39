/* The command line: one table of commands, one run function each. Exit status: 0 clean, 1 the source has errors, 2 the call or
 * the system failed. Findings go to standard error (JSON to standard output), results to standard output or a file. */
#include <errno.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/file.h"
#include "base/options.h"
#include "base/text.h"
#include "compile.h"
#include "source/import.h"

typedef enum Status { STATUS_CLEAN, STATUS_SOURCE, STATUS_SYSTEM } Status;

/* One call: what was asked, and how its files fared. */
typedef struct Call {
    const struct Command *command;
    Options options;
    Arena *arena;
    bool as_json; /* findings are collected as data, not printed */
    Buf json;
    size_t errors, warnings, files;
    Status status;
} Call;

typedef struct Command {
    const char *name;
    const char *summary;
    const char *operands;
    const char *example;
    const OptionSpec *specs;
    size_t spec_count;
    void (*run)(Call *call);
} Command;

/* ---- messages ---- */

static void fail(Call *call, const char *message) {
    fprintf(stderr, "tapebound %s: %s\n", call->command->name, message);
    call->status = STATUS_SYSTEM;
}

static bool has_colour(void) {
    const char *no_colour = getenv("NO_COLOR");
    return isatty(STDERR_FILENO) && !(no_colour && *no_colour);
}

static Status status_of(const Diagnostics *diagnostics) {
    if (diag_reported(diagnostics, RULE_FILE_READ) || diag_reported(diagnostics, RULE_FILE_WRITE)) return STATUS_SYSTEM;
    return diag_errors(diagnostics) ? STATUS_SOURCE : STATUS_CLEAN;
}

static void json_findings(Call *call, Diagnostics *diagnostics) {
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

/* Prints or collects what was found and frees the sink. */
static void finish(Call *call, Diagnostics *diagnostics) {
    if (call->as_json) {
        json_findings(call, diagnostics);
    } else {
        diag_print(diagnostics, stderr, has_colour());
    }
    Status status = status_of(diagnostics);
    if (status > call->status) call->status = status;
    call->errors += diag_errors(diagnostics);
    call->warnings += diag_warnings(diagnostics);
    diag_free(diagnostics);
}

static Diagnostics *sink(const Call *call) {
    Diagnostics *diagnostics = diag_new();
    diag_set_strict(diagnostics, option_given(&call->options, "strict"));
    return diagnostics;
}

static void summary(const Call *call) {
    fprintf(stderr, "%zu file%s: %zu error%s, %zu warning%s\n", call->files, call->files == 1 ? "" : "s", call->errors,
            call->errors == 1 ? "" : "s", call->warnings, call->warnings == 1 ? "" : "s");
}

/* Everything that goes to standard output is checked: a full disk is not success. */
static void print_out(Call *call, const char *bytes, size_t length) {
    if (fwrite(bytes, 1, length, stdout) == length && fflush(stdout) == 0) return;
    fail(call, arena_printf(call->arena, "standard output: %s", strerror(errno)));
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

static Compiler *open_compiler(Call *call) {
    CompilerOptions options = {
        .share = share_folder(call->arena),
        .house = option_value(&call->options, "house"),
        .layout = option_value(&call->options, "layout"),
    };
    Diagnostics *diagnostics = sink(call);
    Compiler *compiler = compiler_new(&options, diagnostics);
    bool ready = !diag_errors(diagnostics);
    finish(call, diagnostics);
    if (ready) return compiler;
    compiler_free(compiler);
    return NULL;
}

static bool needs_files(Call *call) {
    if (call->options.operand_count) return true;
    fail(call, "no file is named; see 'tapebound help'");
    return false;
}

/* ---- check ---- */

#define HOUSE_OPTION {"house", 'H', "FILE", "the club's house file (default: the plain house)"}
#define STRICT_OPTION {"strict", 's', NULL, "warnings count as errors"}
#define HELP_OPTION {"help", 'h', NULL, "show this"}

static const OptionSpec CHECK_OPTIONS[] = {
    {"format", 'f', "text|json", "how findings are printed"},
    {"list-rules", 'l', NULL, "print every rule with its severity"},
    HOUSE_OPTION,
    STRICT_OPTION,
    HELP_OPTION,
};

static void list_rules(void) {
    for (int rule = 0; rule < RULE_COUNT; rule++) {
        const RuleInfo *info = diag_rule((Rule)rule);
        printf("%-22s %-8s %s\n", info->id, diag_severity_word(info->severity), info->what);
    }
}

static bool read_findings_format(Call *call) {
    const char *format = option_value(&call->options, "format");
    call->as_json = format && strcmp(format, "json") == 0;
    if (!format || call->as_json || strcmp(format, "text") == 0) return true;
    fail(call, arena_printf(call->arena, "no format is called '%s'; there are text and json", format));
    return false;
}

static void run_check(Call *call) {
    if (option_given(&call->options, "list-rules")) {
        list_rules();
        return;
    }
    if (!read_findings_format(call) || !needs_files(call)) return;
    Compiler *compiler = open_compiler(call);
    for (size_t i = 0; compiler && i < call->options.operand_count; i++) {
        Arena *arena = arena_new();
        Diagnostics *diagnostics = sink(call);
        compiler_check(compiler, arena, call->options.operands[i], diagnostics);
        finish(call, diagnostics);
        arena_free(arena);
        call->files++;
    }
    compiler_free(compiler);
    if (call->as_json) {
        Buf out = {0};
        buf_printf(&out, "[%s]\n", buf_text(&call->json));
        print_out(call, out.bytes, out.length);
        buf_free(&out);
    } else {
        summary(call);
    }
}

/* ---- compile ---- */

static const OptionSpec COMPILE_OPTIONS[] = {
    {"output", 'o', "OUT", "the PDF, or a folder for one PDF a dossier"},
    {"layout", 'L', "NAME", "which layout (default: full)"},
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
    if (*dump == DUMP_NONE) fail(call, arena_printf(call->arena, "no stage is called '%s'; there are model, stats, story and pages", asked));
    return *dump != DUMP_NONE;
}

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

static const char **output_paths(Call *call, const char *out) {
    size_t count = call->options.operand_count;
    const char **paths = ARENA_ARRAY(call->arena, count, const char *);
    bool folder = is_folder(out);
    if (!folder && count > 1) {
        fail(call, arena_printf(call->arena, "'%s' is no folder, and %zu dossiers need one", out, count));
        return NULL;
    }
    for (size_t i = 0; i < count; i++) {
        paths[i] = folder ? output_in(call->arena, out, call->options.operands[i]) : out;
        for (size_t k = 0; k < i; k++) {
            if (strcmp(paths[i], paths[k]) != 0) continue;
            fail(call, arena_printf(call->arena, "'%s' and '%s' would both be written to '%s'", call->options.operands[k],
                                    call->options.operands[i], paths[i]));
            return NULL;
        }
    }
    return paths;
}

static void compile_all(Call *call, const char **paths, Dump dump) {
    Compiler *compiler = open_compiler(call);
    for (size_t i = 0; compiler && i < call->options.operand_count; i++) {
        Buf dumped = {0};
        Arena *arena = arena_new();
        Diagnostics *diagnostics = sink(call);
        compiler_compile(compiler, arena, call->options.operands[i], paths ? paths[i] : NULL, dump, &dumped, diagnostics);
        finish(call, diagnostics);
        arena_free(arena);
        if (dumped.length) print_out(call, dumped.bytes, dumped.length);
        buf_free(&dumped);
        call->files++;
    }
    compiler_free(compiler);
    if (call->errors || call->warnings) summary(call);
}

static void run_compile(Call *call) {
    Dump dump;
    const char *out = option_value(&call->options, "output");
    if (!needs_files(call) || !read_dump(call, &dump)) return;
    if (dump == DUMP_NONE && (!out || !*out)) {
        fail(call, "say where to with -o OUT");
        return;
    }
    const char **paths = dump == DUMP_NONE ? output_paths(call, out) : NULL;
    if (call->status == STATUS_CLEAN) compile_all(call, paths, dump);
}

/* ---- stats ---- */

static const OptionSpec STATS_OPTIONS[] = {
    {"format", 'f', "text|json|csv", "how the figures are printed (default: text)"},
    HOUSE_OPTION,
    STRICT_OPTION,
    HELP_OPTION,
};

typedef struct StatsFormat {
    const char *name;
    void (*print)(const Findings *findings, Buf *out);
} StatsFormat;

static const StatsFormat STATS_FORMATS[] = {{"text", findings_text}, {"json", findings_json}, {"csv", findings_csv}};

static const StatsFormat *stats_format(Call *call) {
    const char *asked = option_value(&call->options, "format");
    for (size_t i = 0; i < sizeof STATS_FORMATS / sizeof *STATS_FORMATS; i++) {
        if (!asked || strcmp(asked, STATS_FORMATS[i].name) == 0) return &STATS_FORMATS[i];
    }
    fail(call, arena_printf(call->arena, "no format is called '%s'; there are text, json and csv", asked));
    return NULL;
}

static void run_stats(Call *call) {
    const StatsFormat *format = stats_format(call);
    if (!format || !needs_files(call)) return;
    Compiler *compiler = open_compiler(call);
    for (size_t i = 0; compiler && i < call->options.operand_count; i++) {
        Arena *arena = arena_new();
        Buf out = {0};
        Diagnostics *diagnostics = sink(call);
        const Findings *findings = compiler_findings(compiler, arena, call->options.operands[i], diagnostics);
        if (findings) format->print(findings, &out);
        finish(call, diagnostics);
        print_out(call, out.bytes, out.length);
        buf_free(&out);
        arena_free(arena);
    }
    compiler_free(compiler);
}

/* ---- import ---- */

static const OptionSpec IMPORT_OPTIONS[] = {
    {"map", 'm', "MAP.xml", "which column means what"},
    {"where", 'w', "EXPR", "only rows for which this holds: \"@passer='P171'\""},
    {"output", 'o', "OUT.xml", "the dossier to write"},
    HOUSE_OPTION,
    HELP_OPTION,
};

static void run_import(Call *call) {
    const char *map = option_value(&call->options, "map");
    const char *out = option_value(&call->options, "output");
    if (!needs_files(call)) return;
    if (call->options.operand_count > 1) {
        fail(call, "one table at a time");
    } else if (!map || !out) {
        fail(call, !map ? "say which columns mean what with --map MAP.xml" : "say where to with -o OUT.xml");
    } else {
        Compiler *compiler = open_compiler(call);
        if (!compiler) return;
        Diagnostics *diagnostics = sink(call);
        bool good = import_table(compiler_source(compiler), call->options.operands[0], map,
                                 option_value(&call->options, "where"), out, diagnostics);
        if (!good && !diag_errors(diagnostics)) fail(call, "nothing was imported");
        finish(call, diagnostics);
        compiler_free(compiler);
    }
}

/* ---- the table of commands ---- */

static void run_help(Call *call);

static const OptionSpec HELP_OPTIONS[] = {HELP_OPTION};

#define SPECS(table) (table), sizeof(table) / sizeof *(table)

static const Command COMMANDS[] = {
    {"check", "find what is wrong with dossiers", "FILE...", "tapebound check season/*.xml", SPECS(CHECK_OPTIONS), run_check},
    {"compile", "set dossiers as PDF", "FILE... -o OUT", "tapebound compile vashti.xml -o vashti.pdf", SPECS(COMPILE_OPTIONS),
     run_compile},
    {"stats", "print the figures of dossiers", "FILE...", "tapebound stats vashti.xml --format json", SPECS(STATS_OPTIONS),
     run_stats},
    {"import", "make a dossier of a table of snaps", "FILE.csv --map MAP.xml -o OUT.xml",
     "tapebound import chart.csv --map chart-map.xml -o vashti.xml", SPECS(IMPORT_OPTIONS), run_import},
    {"help", "show the commands", "[COMMAND]", "tapebound help compile", SPECS(HELP_OPTIONS), run_help},
};

enum { COMMAND_COUNT = sizeof COMMANDS / sizeof *COMMANDS };

static const Command *find_command(const char *name) {
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        if (strcmp(COMMANDS[i].name, name) == 0) return &COMMANDS[i];
    }
    return NULL;
}

static void unknown_command(const char *name) {
    const char *names[COMMAND_COUNT];
    for (size_t i = 0; i < COMMAND_COUNT; i++) names[i] = COMMANDS[i].name;
    const char *nearest = text_nearest(name, names, COMMAND_COUNT);
    fprintf(stderr, "tapebound: there is no command '%s'", name);
    if (nearest) fprintf(stderr, "; did you mean '%s'?", nearest);
    fputs("\n", stderr);
}

static void command_help(const Command *command) {
    printf("usage: tapebound %s [OPTIONS] %s\n%s.\n\n", command->name, command->operands, command->summary);
    options_help(command->specs, command->spec_count);
    printf("\nexample: %s\n", command->example);
}

static void general_help(void) {
    puts("Tapebound compiles a scout's XML dossier through checks and statistics into a typeset PDF.\n");
    puts("usage: tapebound COMMAND [OPTIONS] FILE...\n");
    for (size_t i = 0; i < COMMAND_COUNT; i++) printf("  %-10s%s\n", COMMANDS[i].name, COMMANDS[i].summary);
    puts("\n'tapebound help COMMAND' tells more. Exit status: 0 clean, 1 the source has errors, 2 the call or the system failed.");
}

static void run_help(Call *call) {
    const char *name = call->options.operand_count ? call->options.operands[0] : NULL;
    const Command *command = name ? find_command(name) : NULL;
    if (command) command_help(command);
    if (!name) general_help();
    if (name && !command) {
        unknown_command(name);
        call->status = STATUS_SYSTEM;
    }
}

static Status run(const Command *command, int argc, char **argv) {
    Call call = {.command = command, .arena = arena_new()};
    const char *problem;
    if (!options_parse(call.arena, command->specs, command->spec_count, argc, argv, &call.options, &problem)) {
        fail(&call, problem);
    } else if (option_given(&call.options, "help")) {
        command_help(command);
    } else {
        command->run(&call);
    }
    Status status = call.status;
    buf_free(&call.json);
    arena_free(call.arena);
    return status;
}

int main(int argc, char **argv) {
    if (argc < 2) {
        general_help();
        return STATUS_SYSTEM;
    }
    if (strcmp(argv[1], "--version") == 0) {
        puts("tapebound " TB_VERSION);
        return STATUS_CLEAN;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) {
        general_help();
        return STATUS_CLEAN;
    }
    const Command *command = find_command(argv[1]);
    if (!command) {
        unknown_command(argv[1]);
        return STATUS_SYSTEM;
    }
    return (int)run(command, argc - 2, argv + 2);
}
