/* check: what is wrong with the files. */
#include <stdio.h>
#include <string.h>

#include "command.h"

static const OptionSpec OPTIONS[] = {
    {"format", 'f', "text|json", "how findings are printed (default: text)"},
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

static bool read_format(Call *call) {
    const char *format = option_value(&call->options, "format");
    call->as_json = format && strcmp(format, "json") == 0;
    if (!format || call->as_json || strcmp(format, "text") == 0) return true;
    call_fail(call, arena_printf(call->arena, "no format is called '%s'; there are text and json", format));
    return false;
}

static void check_files(Call *call, Compiler *compiler) {
    for (size_t i = 0; i < call->options.operand_count; i++) {
        Arena *arena = arena_new();
        Diagnostics *diagnostics = call_sink(call);
        call_progress(call, i);
        compiler_check(compiler, arena, call->options.operands[i], diagnostics);
        call_progress(call, call->options.operand_count);
        call_finish(call, diagnostics);
        arena_free(arena);
        call->files++;
    }
}

static void print_json(Call *call) {
    Buf out = {0};
    buf_printf(&out, "[%s]\n", buf_text(&call->json));
    call_print(call, out.bytes, out.length);
    buf_free(&out);
}

static void run(Call *call) {
    if (option_given(&call->options, "list-rules")) {
        list_rules();
        return;
    }
    if (!read_format(call) || !call_needs_files(call)) return;
    Compiler *compiler = call_open_compiler(call);
    if (compiler) check_files(call, compiler);
    if (call->as_json) {
        print_json(call);
    } else if (compiler) {
        call_summary(call);
    }
    compiler_free(compiler);
}

const Command command_check = {
    .name = "check",
    .summary = "find what is wrong with dossiers and profiles",
    .operands = "FILE...",
    .example = "tapebound check season/*.xml",
    COMMAND_SPECS(OPTIONS),
    .run = run,
};
