#include "source/templates.h"

#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "source/names.h"

enum { MOST_NAME_BYTES = 100, MOST_LISTED_FILES = 256 };

/* Letters, digits, hyphens and underlines: nothing that could lead out of the folder. */
static bool plain_name(const char *id) {
    static const char allowed[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_";
    size_t length = strspn(id, allowed);
    return length > 0 && length <= MOST_NAME_BYTES && id[length] == '\0';
}

/* Names of the XML files of a folder, without the ending. */
static size_t list_names(Arena *arena, const char *folder, const char **names) {
    DIR *listing = opendir(folder);
    if (!listing) return 0;
    size_t count = 0;
    for (const struct dirent *entry; count < MOST_LISTED_FILES && (entry = readdir(listing)) != NULL;) {
        const char *dot = strrchr(entry->d_name, '.');
        if (!dot || dot == entry->d_name || strcmp(dot, ".xml") != 0) continue;
        names[count++] = arena_copy(arena, entry->d_name, (size_t)(dot - entry->d_name));
    }
    closedir(listing);
    return count;
}

static int by_name(const void *a, const void *b) {
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

const char *const *templates_names(Arena *arena, const char *folder, const char *kind, size_t *count) {
    const char **names = ARENA_ARRAY(arena, MOST_LISTED_FILES, const char *);
    *count = list_names(arena, arena_printf(arena, "%s/%s", folder, kind), names);
    qsort(names, *count, sizeof names[0], by_name);
    return names;
}

const char *templates_path(Arena *arena, const char *folder, const char *kind, const char *id, Place place,
                           Diagnostics *diagnostics) {
    if (plain_name(id)) {
        const char *path = arena_printf(arena, "%s/%s/%s.xml", folder, kind, id);
        if (access(path, F_OK) == 0) return path;
    }
    size_t count;
    const char *const *names = templates_names(arena, folder, kind, &count);
    int singular = (int)strlen(kind) - 1;
    diag_report(diagnostics, RULE_TEMPLATE_MISSING, place, names_hint(arena, id, names, count, sizeof names[0]),
                "there is no %.*s '%s' in %s", singular, kind, id, folder);
    return NULL;
}
