/* The command line: a table of commands, each in a file of its own. Exit status: 0 clean, 1 the source has errors, 2
 * the call or the system failed. Findings go to standard error (JSON to standard output), results to standard output or
 * a file. */
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "command.h"

static void run_help(Call *call);

static const OptionSpec HELP_OPTIONS[] = {HELP_OPTION};

static const Command command_help = {
    .name = "help",
    .summary = "show the commands, or the options of one",
    .operands = "[COMMAND]",
    .example = "tapebound help compile",
    COMMAND_SPECS(HELP_OPTIONS),
    .run = run_help,
};

static const Command *const COMMANDS[] = {
    &command_check, &command_explain, &command_compile, &command_stats, &command_import, &command_help,
};

enum { COMMAND_COUNT = sizeof COMMANDS / sizeof *COMMANDS };

static const Command *find_command(const char *name) {
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        if (strcmp(COMMANDS[i]->name, name) == 0) return COMMANDS[i];
    }
    return NULL;
}

static void unknown_command(const char *name) {
    const char *names[COMMAND_COUNT];
    for (size_t i = 0; i < COMMAND_COUNT; i++) names[i] = COMMANDS[i]->name;
    const char *nearest = text_nearest(name, names, COMMAND_COUNT);
    fprintf(stderr, "tapebound: there is no command '%s'", name);
    if (nearest) fprintf(stderr, "; did you mean '%s'?", nearest);
    fputs(nearest ? "\n" : "; see 'tapebound help'\n", stderr);
}

static void print_command(const Command *command) {
    printf("%s: %s\n\n", command->name, command->summary);
    printf("usage: tapebound %s [OPTIONS] %s\n\n", command->name, command->operands);
    options_help(command->specs, command->spec_count);
    printf("\nexample: %s\n", command->example);
}

static void print_commands(FILE *out) {
    fputs("Tapebound compiles a scout's XML dossier through checks and statistics into a typeset PDF.\n\n"
          "usage: tapebound COMMAND [OPTIONS] FILE...\n"
          "       tapebound --version\n\n",
          out);
    for (size_t i = 0; i < COMMAND_COUNT; i++) fprintf(out, "  %-10s%s\n", COMMANDS[i]->name, COMMANDS[i]->summary);
    fputs("\n'tapebound help COMMAND' tells more; a FILE named - is standard input.\n"
          "Exit status: 0 clean, 1 the source has errors, 2 the call or the system failed.\n"
          "\nexample: tapebound compile vashti.xml -o vashti.pdf\n",
          out);
}

static void run_help(Call *call) {
    const char *name = call->options.operand_count ? call->options.operands[0] : NULL;
    const Command *command = name ? find_command(name) : NULL;
    if (command) print_command(command);
    if (!name) print_commands(stdout);
    if (name && !command) {
        unknown_command(name);
        call->status = STATUS_SYSTEM;
    }
}

static Status run(const Command *command, int argc, char **argv) {
    Call call = {.command = command, .arena = arena_new()};
    const char *problem;
    if (!options_parse(call.arena, command->specs, command->spec_count, argc, argv, &call.options, &problem)) {
        call_fail(&call, problem);
    } else if (option_given(&call.options, "help")) {
        print_command(command);
    } else {
        command->run(&call);
    }
    Status status = call.status;
    buf_free(&call.json);
    arena_free(call.arena);
    return status;
}

static Status dispatch(int argc, char **argv) {
    if (argc < 2) {
        print_commands(stderr);
        return STATUS_SYSTEM;
    }
    if (strcmp(argv[1], "--version") == 0) {
        puts("tapebound " TB_VERSION);
        return STATUS_CLEAN;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) return run(&command_help, 0, NULL);
    const Command *command = find_command(argv[1]);
    if (command) return run(command, argc - 2, argv + 2);
    unknown_command(argv[1]);
    return STATUS_SYSTEM;
}

int main(int argc, char **argv) {
    signal(SIGXFSZ, SIG_IGN); /* a file that may grow no more is a failed write, with a message */
    Status status = dispatch(argc, argv);
    if (fflush(stdout) == 0 && !ferror(stdout)) return (int)status;
    if (status != STATUS_SYSTEM) fprintf(stderr, "tapebound: standard output: %s\n", strerror(errno));
    return STATUS_SYSTEM;
}
