/* How long whole calls of programs take, process start included, as multiples of a call that does nothing. Programs
 * take turns, so that a change of the machine's pace falls on all of them. Reported, never asserted.
 *
 *     process RUNS 'NAME=COMMAND WORD WORD…' …
 *
 * The first command is the unit. Words are parted by single spaces; output is thrown away.
 */
#include <fcntl.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

extern char **environ;

enum { MOST_WORDS = 32 };

typedef struct Program {
    char *name;
    char *words[MOST_WORDS + 1];
    double *times; /* microseconds, by run */
} Program;

static double now(void) {
    struct timespec at;
    clock_gettime(CLOCK_MONOTONIC, &at);
    return (double)at.tv_sec * 1e6 + (double)at.tv_nsec / 1e3;
}

static int read_program(Program *program, char *text, size_t runs) {
    char *equals = strchr(text, '=');
    if (!equals) return 0;
    *equals = '\0';
    program->name = text;
    program->times = calloc(runs, sizeof(double));
    size_t count = 0;
    char *rest = NULL;
    for (char *word = strtok_r(equals + 1, " ", &rest); word; word = strtok_r(NULL, " ", &rest)) {
        if (count == MOST_WORDS) return 0;
        program->words[count++] = word;
    }
    return count > 0 && program->times;
}

/* Microseconds, or below 0 when it cannot be run or does not end with 0. */
static double time_once(const Program *program, const posix_spawn_file_actions_t *actions) {
    double start = now();
    pid_t child;
    int status;
    if (posix_spawnp(&child, program->words[0], actions, NULL, program->words, environ) != 0) return -1;
    if (waitpid(child, &status, 0) != child || status != 0) return -1;
    return now() - start;
}

static int by_size(const void *a, const void *b) {
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

static void report(Program *programs, size_t count, size_t runs) {
    double unit = 1;
    printf("whole calls, medians of %zu runs\n", runs);
    for (size_t i = 0; i < count; i++) {
        qsort(programs[i].times, runs, sizeof(double), by_size);
        double time = programs[i].times[runs / 2];
        if (i == 0) unit = time;
        printf("  %-36s %6.1f times  %8.2f ms, fastest %.2f\n", programs[i].name, time / unit, time / 1000,
               programs[i].times[0] / 1000);
    }
}

int main(int argc, char **argv) {
    size_t runs = argc > 2 ? strtoul(argv[1], NULL, 10) : 0;
    if (!runs) return EXIT_FAILURE;
    size_t count = (size_t)argc - 2;
    Program *programs = calloc(count, sizeof *programs);
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    for (size_t i = 0; i < count; i++) {
        if (!read_program(&programs[i], argv[i + 2], runs)) return EXIT_FAILURE;
    }
    for (size_t run = 0; run < runs; run++) {
        for (size_t i = 0; i < count; i++) {
            programs[i].times[run] = time_once(&programs[i], &actions);
            if (programs[i].times[run] >= 0) continue;
            fprintf(stderr, "%s: cannot be run, or failed\n", programs[i].name);
            return EXIT_FAILURE;
        }
    }
    report(programs, count, runs);
    for (size_t i = 0; i < count; i++) free(programs[i].times);
    free(programs);
    posix_spawn_file_actions_destroy(&actions);
    return EXIT_SUCCESS;
}
