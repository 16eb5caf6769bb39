#include "base/options.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"

enum { HELP_COLUMN = 30 };

static int find_long(const Options *options, const char *name, size_t length) {
    for (size_t i = 0; i < options->spec_count; i++) {
        const char *known = options->specs[i].name;
        if (strlen(known) == length && memcmp(known, name, length) == 0) return (int)i;
    }
    return -1;
}

static int find_letter(const Options *options, char letter) {
    for (size_t i = 0; i < options->spec_count; i++) {
        if (options->specs[i].letter == letter) return (int)i;
    }
    return -1;
}

/* The option that the word is short for, when there is one. */
static const char *longer_option(const Options *options, const char *name) {
    const char *longer = NULL;
    for (size_t i = 0; i < options->spec_count && *name; i++) {
        if (strncmp(options->specs[i].name, name, strlen(name)) != 0) continue;
        if (longer) return NULL;
        longer = options->specs[i].name;
    }
    return longer;
}

static const char *unknown_option(Arena *arena, const Options *options, const char *name) {
    const char **names = ARENA_ARRAY(arena, options->spec_count, const char *);
    for (size_t i = 0; i < options->spec_count; i++) names[i] = options->specs[i].name;
    const char *nearest = longer_option(options, name);
    if (!nearest) nearest = text_nearest(name, names, options->spec_count);
    if (nearest) return arena_printf(arena, "there is no option '--%s'; did you mean '--%s'?", name, nearest);
    return arena_printf(arena, "there is no option '--%s'", name);
}

/* Where parsing stands: `next` is the argument after the one being read. */
typedef struct Arguments {
    Arena *arena;
    int count, next;
    char **all;
    const char *problem;
} Arguments;

static bool take_value(Arguments *arguments, Options *options, int spec, const char *attached) {
    const OptionSpec *known = &options->specs[spec];
    if (!known->argument) {
        if (attached) arguments->problem = arena_printf(arguments->arena, "'--%s' takes no value", known->name);
        options->values[spec] = "";
        return !attached;
    }
    if (!attached && arguments->next < arguments->count) attached = arguments->all[arguments->next++];
    if (!attached) {
        arguments->problem = arena_printf(arguments->arena, "'--%s' needs a value: %s", known->name, known->argument);
        return false;
    }
    options->values[spec] = attached;
    return true;
}

static bool take_long(Arguments *arguments, Options *options, const char *text) {
    const char *equals = strchr(text, '=');
    size_t length = equals ? (size_t)(equals - text) : strlen(text);
    int spec = find_long(options, text, length);
    if (spec >= 0) return take_value(arguments, options, spec, equals ? equals + 1 : NULL);
    arguments->problem = unknown_option(arguments->arena, options, arena_copy(arguments->arena, text, length));
    return false;
}

static bool take_short(Arguments *arguments, Options *options, const char *text) {
    int spec = find_letter(options, text[0]);
    if (spec >= 0) return take_value(arguments, options, spec, text[1] ? text + 1 : NULL);
    arguments->problem = arena_printf(arguments->arena, "there is no option '-%c'", text[0]);
    return false;
}

bool options_parse(Arena *arena, const OptionSpec *specs, size_t spec_count, int argc, char **argv, Options *options,
                   const char **problem) {
    Arguments arguments = {arena, argc, 0, argv, NULL};
    *options = (Options){.specs = specs, .spec_count = spec_count};
    options->values = ARENA_ARRAY(arena, spec_count, const char *);
    options->operands = ARENA_ARRAY(arena, (size_t)argc, const char *);
    bool good = true;
    bool ended = false;
    while (good && arguments.next < argc) {
        const char *text = argv[arguments.next++];
        if (ended || text[0] != '-' || !text[1]) {
            options->operands[options->operand_count++] = text;
        } else if (strcmp(text, "--") == 0) {
            ended = true;
        } else {
            good =
                text[1] == '-' ? take_long(&arguments, options, text + 2) : take_short(&arguments, options, text + 1);
        }
    }
    *problem = arguments.problem;
    return good;
}

const char *option_value(const Options *options, const char *name) {
    int spec = find_long(options, name, strlen(name));
    return spec < 0 ? NULL : options->values[spec];
}

bool option_given(const Options *options, const char *name) {
    return option_value(options, name) != NULL;
}

void options_help(const OptionSpec *specs, size_t spec_count) {
    for (size_t i = 0; i < spec_count; i++) {
        const OptionSpec *spec = &specs[i];
        char letter[5] = "    ";
        if (spec->letter) snprintf(letter, sizeof letter, "-%c, ", spec->letter);
        int written =
            printf("  %s--%s%s%s", letter, spec->name, spec->argument ? " " : "", spec->argument ? spec->argument : "");
        printf("%*s%s\n", written < HELP_COLUMN ? HELP_COLUMN - written : 1, "", spec->help);
    }
}
