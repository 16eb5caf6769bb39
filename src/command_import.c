/* import: a dossier of a table of snaps. */
#include "command.h"
#include "source/import.h"

static const OptionSpec OPTIONS[] = {
    {"map", 'm', "MAP.xml", "which column means what"},
    {"where", 'w', "EXPR", "only rows for which this holds: \"@passer='P171'\""},
    {"output", 'o', "OUT.xml", "the dossier to write"},
    HOUSE_OPTION,
    HELP_OPTION,
};

static void import_file(Call *call, const char *map, const char *out) {
    Compiler *compiler = call_open_compiler(call);
    if (!compiler) return;
    Diagnostics *diagnostics = call_sink(call);
    bool good = import_table(compiler_source(compiler), call->options.operands[0], map,
                             option_value(&call->options, "where"), out, diagnostics);
    if (!good && !diag_errors(diagnostics)) call_fail(call, "nothing was imported");
    call_finish(call, diagnostics);
    compiler_free(compiler);
}

static void run(Call *call) {
    const char *map = option_value(&call->options, "map");
    const char *out = option_value(&call->options, "output");
    if (!call_needs_files(call)) return;
    if (call->options.operand_count > 1) {
        call_fail(call, "one table at a time");
    } else if (!map) {
        call_fail(call, "say which columns mean what with --map MAP.xml");
    } else if (!out || !*out) {
        call_fail(call, "say where to with -o OUT.xml");
    } else if (call_same_file(out, call->options.operands[0]) || call_same_file(out, map)) {
        call_fail(call, arena_printf(call->arena, "'%s' is read and would be written over", out));
    } else {
        import_file(call, map, out);
    }
}

const Command command_import = {
    .name = "import",
    .summary = "make a dossier of a table of snaps",
    .operands = "FILE.csv --map MAP.xml -o OUT.xml",
    .example = "tapebound import chart.csv --map chart-map.xml -o vashti.xml",
    COMMAND_SPECS(OPTIONS),
    .run = run,
};
