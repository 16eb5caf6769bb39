/* stats: the figures of dossiers. */
#include <string.h>

#include "command.h"

static const OptionSpec OPTIONS[] = {
    {"format", 'f', "text|json|csv", "how the figures are printed (default: text)"},
    HOUSE_OPTION,
    STRICT_OPTION,
    HELP_OPTION,
};

typedef struct StatsFormat {
    const char *name;
    void (*print)(const Findings *findings, Buf *out);
} StatsFormat;

static const StatsFormat FORMATS[] = {{"text", findings_text}, {"json", findings_json}, {"csv", findings_csv}};

static const StatsFormat *asked_format(Call *call) {
    const char *asked = option_value(&call->options, "format");
    for (size_t i = 0; i < sizeof FORMATS / sizeof *FORMATS; i++) {
        if (!asked || strcmp(asked, FORMATS[i].name) == 0) return &FORMATS[i];
    }
    call_fail(call, arena_printf(call->arena, "no format is called '%s'; there are text, json and csv", asked));
    return NULL;
}

static void print_stats(Call *call, Compiler *compiler, const char *path, const StatsFormat *format) {
    Arena *arena = arena_new();
    Buf out = {0};
    Diagnostics *diagnostics = call_sink(call);
    const Findings *findings = compiler_findings(compiler, arena, path, diagnostics);
    if (findings) format->print(findings, &out);
    call_finish(call, diagnostics);
    call_print(call, out.bytes, out.length);
    buf_free(&out);
    arena_free(arena);
}

static void run(Call *call) {
    const StatsFormat *format = asked_format(call);
    if (!format || !call_needs_files(call)) return;
    Compiler *compiler = call_open_compiler(call);
    for (size_t i = 0; compiler && i < call->options.operand_count; i++) {
        print_stats(call, compiler, call->options.operands[i], format);
    }
    compiler_free(compiler);
}

const Command command_stats = {
    .name = "stats",
    .summary = "print the figures of dossiers",
    .operands = "FILE...",
    .example = "tapebound stats vashti.xml --format json",
    COMMAND_SPECS(OPTIONS),
    .run = run,
};
