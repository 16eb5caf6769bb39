#include "base/help_golden.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/buf.h"

static char *read_file(const char *path) {
    FILE *file = fopen(path, "rb");
    if (!file) return NULL;
    char *bytes = NULL;
    size_t room = 0;
    FILE *copy = open_memstream(&bytes, &room);
    for (int byte; (byte = getc(file)) != EOF;) putc(byte, copy);
    fclose(copy);
    fclose(file);
    return bytes;
}

static bool write_file(const char *path, const char *text) {
    FILE *file = fopen(path, "wb");
    if (!file) return false;
    bool good = fputs(text, file) >= 0;
    return fclose(file) == 0 && good;
}

bool golden_matches(const char *path, const char *got) {
    if (getenv("TB_BLESS")) return write_file(path, got);
    char *wanted = read_file(path);
    bool same = wanted && strcmp(wanted, got) == 0;
    if (!same) printf("--- %s\n%s--- got\n%s---\n", path, wanted ? wanted : "(no such file)\n", got);
    free(wanted);
    return same;
}

char *golden_print(Diagnostics *diagnostics) {
    char *text = NULL;
    size_t room = 0;
    FILE *out = open_memstream(&text, &room);
    diag_print(diagnostics, out, false);
    fclose(out);
    return text;
}

static int by_name(const struct dirent **a, const struct dirent **b) {
    return strcmp((*a)->d_name, (*b)->d_name);
}

static bool ends_in(const char *text, const char *ending) {
    size_t length = strlen(text), tail = strlen(ending);
    return length > tail && strcmp(text + length - tail, ending) == 0;
}

size_t golden_each(const char *folder, const char *ending, void (*visit)(const char *path, void *data), void *data) {
    struct dirent **names = NULL;
    int count = scandir(folder, &names, NULL, by_name);
    size_t visited = 0;
    for (int i = 0; i < count; i++) {
        if (ends_in(names[i]->d_name, ending)) {
            Buf path = {0};
            buf_printf(&path, "%s/%s", folder, names[i]->d_name);
            visit(buf_text(&path), data);
            buf_free(&path);
            visited++;
        }
        free(names[i]);
    }
    free(names);
    return visited;
}

char *golden_beside(const char *path, const char *ending) {
    const char *dot = strrchr(path, '.');
    Buf name = {0};
    buf_put(&name, path, dot ? (size_t)(dot - path) : strlen(path));
    buf_puts(&name, ending);
    char *copy = mem_string(buf_text(&name));
    buf_free(&name);
    return copy;
}
