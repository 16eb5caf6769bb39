/* Run when the program is built: turns a pattern dictionary of libhyphen into C tables on standard output.
 *
 *     hyphen_make hyph_en_US.dic > hyphen_table.h
 *
 * The patterns become a tree of letters whose nodes are numbered in order of breadth, so that the node behind edge e is
 * e + 1 and only the letters of the edges are stored. Patterns with other characters than a-z and the word's edge (.)
 * are left out: only such words are hyphenated. */
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LETTERS = 27, MOST_PATTERN = 62, MOST_NODES = 65535, MOST_VALUES = 65535, PER_LINE = 32 };

typedef struct Node {
    uint32_t child[LETTERS]; /* 0: none */
    uint32_t value;          /* offset of its levels in the pool; 0: no pattern ends here */
} Node;

typedef struct Tree {
    Node *nodes;
    size_t count, room;
    uint8_t values[MOST_VALUES]; /* levels of patterns: leading zeros, how many follow, those; equal ones once */
    size_t value_count;
} Tree;

/* A pattern taken apart: its letters, and the level before each of them and after the last. */
typedef struct Pattern {
    uint8_t letters[MOST_PATTERN];
    uint8_t levels[MOST_PATTERN + 1];
    size_t length;
} Pattern;

static _Noreturn void fail(const char *what, const char *detail) {
    fprintf(stderr, "hyphen_make: %s: %s\n", what, detail);
    exit(1);
}

static void *must(void *memory) {
    if (!memory) fail("no memory", "for the tree");
    return memory;
}

static bool is_pattern_line(const char *line) {
    for (const char *at = line; *at; at++) {
        bool letter = *at >= 'a' && *at <= 'z';
        if (!letter && *at != '.' && !(*at >= '0' && *at <= '9')) return false;
    }
    return line[0] != '\0';
}

static Pattern read_pattern(const char *line) {
    Pattern pattern = {0};
    for (; *line; line++) {
        if (*line >= '0' && *line <= '9') {
            pattern.levels[pattern.length] = (uint8_t)(*line - '0');
            continue;
        }
        if (pattern.length == MOST_PATTERN) fail("a pattern is too long", line);
        pattern.letters[pattern.length++] = *line == '.' ? 0 : (uint8_t)(*line - 'a' + 1);
    }
    return pattern;
}

static uint32_t node_new(Tree *tree) {
    if (tree->count == tree->room) {
        tree->room = tree->room * 2 + 1024;
        tree->nodes = must(realloc(tree->nodes, tree->room * sizeof *tree->nodes));
    }
    if (tree->count > MOST_NODES) fail("the dictionary is too large", "more than 65,535 nodes");
    tree->nodes[tree->count] = (Node){0};
    return (uint32_t)tree->count++;
}

/* Offset of the pattern's levels in the pool; equal levels are stored once. */
static uint32_t value_of(Tree *tree, const Pattern *pattern) {
    uint8_t value[MOST_PATTERN + 3];
    size_t first = 0;
    size_t end = pattern->length + 1;
    while (first < end && !pattern->levels[first]) first++;
    while (end > first && !pattern->levels[end - 1]) end--;
    value[0] = (uint8_t)first;
    value[1] = (uint8_t)(end - first);
    memcpy(value + 2, pattern->levels + first, end - first);
    size_t length = end - first + 2;
    for (size_t at = 1; at < tree->value_count; at += 2u + tree->values[at + 1]) {
        if (at + length <= tree->value_count && !memcmp(tree->values + at, value, length)) return (uint32_t)at;
    }
    if (tree->value_count + length > MOST_VALUES)
        fail("the dictionary is too large", "more than 65,535 bytes of levels");
    memcpy(tree->values + tree->value_count, value, length);
    tree->value_count += length;
    return (uint32_t)(tree->value_count - length);
}

static void add_pattern(Tree *tree, const Pattern *pattern) {
    uint32_t at = 0;
    for (size_t i = 0; i < pattern->length; i++) {
        uint32_t next = tree->nodes[at].child[pattern->letters[i]];
        if (!next) {
            next = node_new(tree);
            tree->nodes[at].child[pattern->letters[i]] = next;
        }
        at = next;
    }
    tree->nodes[at].value = value_of(tree, pattern);
}

static void read_dictionary(Tree *tree, const char *path) {
    FILE *file = fopen(path, "r");
    if (!file) fail("cannot read", path);
    char line[256];
    bool first = true; /* names the encoding */
    while (fgets(line, sizeof line, file)) {
        line[strcspn(line, "\r\n")] = '\0';
        if (!first && is_pattern_line(line)) {
            Pattern pattern = read_pattern(line);
            add_pattern(tree, &pattern);
        }
        first = false;
    }
    if (ferror(file)) fail("cannot read", path);
    fclose(file);
}

static void print_row(const char *type, const char *name, const uint32_t *numbers, size_t count) {
    printf("static const %s %s[%zu] = {", type, name, count);
    for (size_t i = 0; i < count; i++) printf("%s%u,", i % PER_LINE ? "" : "\n    ", (unsigned)numbers[i]);
    printf("\n};\n");
}

/* Walks the tree by breadth; nodes get new numbers as they are met. */
static void print_tree(const Tree *tree) {
    uint32_t *order = must(calloc(tree->count, sizeof *order));
    uint32_t *first_edge = must(calloc(tree->count + 1, sizeof *first_edge));
    uint32_t *letters = must(calloc(tree->count, sizeof *letters));
    uint32_t *values = must(calloc(tree->count, sizeof *values));
    size_t met = 1;
    for (size_t i = 0; i < tree->count; i++) {
        const Node *node = &tree->nodes[order[i]];
        first_edge[i] = (uint32_t)(met - 1);
        values[i] = node->value;
        for (uint32_t letter = 0; letter < LETTERS; letter++) {
            if (!node->child[letter]) continue;
            letters[met - 1] = letter;
            order[met++] = node->child[letter];
        }
    }
    first_edge[tree->count] = (uint32_t)(met - 1);
    print_row("uint16_t", "hyphen_first_edge", first_edge, tree->count + 1);
    print_row("uint8_t", "hyphen_edge_letter", letters, tree->count - 1);
    print_row("uint16_t", "hyphen_value", values, tree->count);
    free(order);
    free(first_edge);
    free(letters);
    free(values);
}

static void print_values(const Tree *tree) {
    uint32_t *numbers = must(calloc(tree->value_count, sizeof *numbers));
    for (size_t i = 0; i < tree->value_count; i++) numbers[i] = tree->values[i];
    print_row("uint8_t", "hyphen_values", numbers, tree->value_count);
    free(numbers);
}

int main(int count, char **arguments) {
    if (count != 2) fail("usage", "hyphen_make DICTIONARY");
    static Tree tree;
    node_new(&tree);
    tree.value_count = 1; /* offset 0 means that no pattern ends there */
    read_dictionary(&tree, arguments[1]);
    if (tree.count < 2) fail("no patterns in", arguments[1]);
    printf("/* Made by hyphen_make from the pattern dictionary; not to be edited. */\n#include <stdint.h>\n\n");
    print_tree(&tree);
    print_values(&tree);
    free(tree.nodes);
    return fflush(stdout) == 0 && !ferror(stdout) ? 0 : 1;
}
