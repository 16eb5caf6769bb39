/* What the commands share: a call with its options, how findings are printed, where templates are. */
#ifndef TB_COMMAND_H
#define TB_COMMAND_H

#include <stdbool.h>
#include <stddef.h>

#include "base/options.h"
#include "compile.h"

/* Exit status, worst last. */
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

extern const Command command_check, command_explain, command_compile, command_stats, command_import;

/* Options of more than one command. */
#define HOUSE_OPTION                                                                                                   \
    { "house", 'H', "FILE", "the club's house file (default: the plain house)" }
#define STRICT_OPTION                                                                                                  \
    { "strict", 's', NULL, "warnings count as errors" }
#define HELP_OPTION                                                                                                    \
    { "help", 'h', NULL, "show this" }

#define COMMAND_SPECS(table) .specs = (table), .spec_count = sizeof(table) / sizeof *(table)

/* The call itself is wrong, or the system failed it: a message, and status 2. */
void call_fail(Call *call, const char *message);
bool call_needs_files(Call *call); /* false after call_fail when no file is named */

/* A sink for the findings of one file, strict when the call is. */
Diagnostics *call_sink(const Call *call);
/* Prints or collects what was found, counts it, and frees the sink. */
void call_finish(Call *call, Diagnostics *diagnostics);
/* One line of counts over all files. */
void call_summary(const Call *call);
/* Results for standard output; a full disk is no success. */
void call_print(Call *call, const char *bytes, size_t length);
/* On a terminal: which file of many is being read. The next line of output takes its place. */
void call_progress(const Call *call, size_t file);

/* Whether both names are names of one file. */
bool call_same_file(const char *a, const char *b);

/* House, layout and templates of the call. NULL after reports. */
Compiler *call_open_compiler(Call *call);

#endif
