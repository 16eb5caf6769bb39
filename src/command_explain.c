/* explain: what a rule finds, why that matters, and how to mend it. */
#include "base/diag_explain.h"
#include "command.h"

static const OptionSpec OPTIONS[] = {HELP_OPTION};

static void explain(Call *call, Rule rule) {
    Buf out = {0};
    diag_explain(rule, &out);
    call_print(call, out.bytes, out.length);
    buf_free(&out);
}

static void unknown_rule(Call *call, const char *id) {
    const char *nearest = diag_nearest_rule(id);
    const char *hint = nearest ? arena_printf(call->arena, "did you mean '%s'?", nearest)
                               : "'tapebound check --list-rules' prints all";
    call_fail(call, arena_printf(call->arena, "no rule is called '%s'; %s", id, hint));
}

static void run(Call *call) {
    if (!call->options.operand_count) call_fail(call, "say which rule; 'tapebound check --list-rules' prints all");
    for (size_t i = 0; i < call->options.operand_count; i++) {
        const char *id = call->options.operands[i];
        Rule rule;
        if (i) call_print(call, "\n", 1);
        if (diag_find_rule(id, &rule)) {
            explain(call, rule);
        } else {
            unknown_rule(call, id);
        }
    }
}

const Command command_explain = {
    .name = "explain",
    .summary = "tell what a rule finds, why, and how to mend it",
    .operands = "RULE...",
    .example = "tapebound explain chart-chain",
    COMMAND_SPECS(OPTIONS),
    .run = run,
};
