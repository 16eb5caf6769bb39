/* Command-line options of one command: a table of what there is, parsed the usual way (--name value, --name=value,
 * -n value, -- ends options, a lone - is an operand). */
#ifndef TB_BASE_OPTIONS_H
#define TB_BASE_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/arena.h"

typedef struct OptionSpec {
    const char *name;     /* without the dashes */
    char letter;          /* '\0': none */
    const char *argument; /* what it takes, "FILE"; NULL: a switch */
    const char *help;
} OptionSpec;

typedef struct Options {
    const OptionSpec *specs;
    size_t spec_count;
    const char **values; /* by spec: NULL not given, "" for a switch that is given; the last of several counts */
    const char **operands;
    size_t operand_count;
} Options;

/* False with `*problem` telling what is wrong, the nearest option named. */
bool options_parse(Arena *arena, const OptionSpec *specs, size_t spec_count, int argc, char **argv, Options *options,
                   const char **problem) __attribute__((warn_unused_result));

const char *option_value(const Options *options, const char *name); /* NULL not given */
bool option_given(const Options *options, const char *name);

/* One line an option, aligned, for --help. */
void options_help(const OptionSpec *specs, size_t spec_count);

#endif
