/* Hyphenation against libhyphen, whose answers are the reference, over every word of this repository's own texts and
 * words made from the patterns of the dictionary. */
#include <ctype.h>
#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>
#include <hyphen.h>

#include "typeset/hyphen.h"

#define DICTIONARY "/usr/share/hyphen/hyph_en_US.dic"

enum { LEAST_WORDS = 2000, MOST_WORD = HYPHEN_MOST_LETTERS + 1, FOLDER_DEPTH = 6, MOST_PATH = 1024 };

typedef struct WordList {
    char (*words)[MOST_WORD];
    size_t count, room;
} WordList;

static void add_word(WordList *list, const char *letters, size_t length) {
    if (length < 5 || length > HYPHEN_MOST_LETTERS) return;
    if (list->count == list->room) {
        list->room = list->room * 2 + 4096;
        list->words = realloc(list->words, list->room * sizeof *list->words);
        assert_non_null(list->words);
    }
    char *word = list->words[list->count++];
    for (size_t i = 0; i < length; i++) word[i] = (char)tolower((unsigned char)letters[i]);
    word[length] = '\0';
}

static void add_line(WordList *list, const char *line) {
    while (*line) {
        size_t length = 0;
        while (isalpha((unsigned char)line[length]) && isascii(line[length])) length++;
        add_word(list, line, length);
        line += length ? length : 1;
    }
}

static void add_file(WordList *list, const char *path) {
    FILE *file = fopen(path, "r");
    if (!file) return;
    char line[4096];
    while (fgets(line, sizeof line, file)) add_line(list, line);
    fclose(file);
}

static void add_folder(WordList *list, const char *path, int depth) {
    DIR *folder = opendir(path);
    if (!folder || depth > FOLDER_DEPTH) {
        if (folder) closedir(folder);
        return;
    }
    for (struct dirent *entry; (entry = readdir(folder)) != NULL;) {
        char inside[MOST_PATH];
        struct stat about;
        int length = snprintf(inside, sizeof inside, "%s/%s", path, entry->d_name);
        if (entry->d_name[0] == '.' || length >= (int)sizeof inside || stat(inside, &about)) continue;
        if (S_ISDIR(about.st_mode)) add_folder(list, inside, depth + 1);
        const char *end = strrchr(entry->d_name, '.');
        if (S_ISREG(about.st_mode) && end && strstr(".c.h.xml.md.txt", end)) add_file(list, inside);
    }
    closedir(folder);
}

/* The letters of each pattern, alone and between two common syllables. */
static void add_patterns(WordList *list) {
    FILE *file = fopen(DICTIONARY, "r");
    assert_non_null(file);
    char line[256];
    while (fgets(line, sizeof line, file)) {
        char letters[MOST_WORD] = "";
        size_t length = 0;
        for (const char *at = line; *at && length < MOST_WORD - 8; at++) {
            if (islower((unsigned char)*at)) letters[length++] = *at;
        }
        add_word(list, letters, length);
        char joined[MOST_WORD];
        int joined_length = snprintf(joined, sizeof joined, "con%.*sing", (int)length, letters);
        add_word(list, joined, (size_t)joined_length);
    }
    fclose(file);
}

static void compare(HyphenDict *dictionary, const char *word) {
    size_t length = strlen(word);
    char reference[MOST_WORD + 8] = "";
    char **replaced = NULL;
    int *position = NULL;
    int *cut = NULL;
    assert_int_equal(hnj_hyphen_hyphenate2(dictionary, word, (int)length, reference, NULL, &replaced, &position, &cut),
                     0);
    uint8_t after[HYPHEN_MOST_LETTERS];
    size_t count = hyphen_points(word, length, after);
    char ours[MOST_WORD + 8] = "";
    char theirs[MOST_WORD + 8] = "";
    memset(ours, '.', length);
    memset(theirs, '.', length);
    for (size_t i = 0; i < count; i++) ours[after[i] - 1] = '-';
    for (size_t i = 0; i + 1 < length; i++) {
        if (reference[i] & 1) theirs[i] = '-';
    }
    if (strcmp(ours, theirs)) fail_msg("%s: %s, libhyphen %s", word, ours, theirs);
    free(position);
    free(cut);
    free(replaced);
}

static void test_as_libhyphen(void **state) {
    (void)state;
    WordList list = {0};
    HyphenDict *dictionary = hnj_hyphen_load(DICTIONARY);
    assert_non_null(dictionary);
    add_folder(&list, "src", 0);
    add_folder(&list, "templates", 0);
    add_folder(&list, "dossiers", 0);
    add_folder(&list, "fonts", 0);
    size_t texts = list.count;
    add_patterns(&list);
    assert_true(texts >= LEAST_WORDS);
    for (size_t i = 0; i < list.count; i++) compare(dictionary, list.words[i]);
    print_message("%zu words of texts, %zu made of patterns\n", texts, list.count - texts);
    hnj_hyphen_free(dictionary);
    free(list.words);
}

static void test_known_words(void **state) {
    (void)state;
    uint8_t after[HYPHEN_MOST_LETTERS];
    assert_int_equal(hyphen_points("hyphenation", 11, after), 2);
    assert_int_equal(after[0], 2);
    assert_int_equal(after[1], 6);
    assert_int_equal(hyphen_points("Hyphenation", 11, after), 2);
    assert_int_equal(hyphen_points("ball", 4, after), 0);
    assert_int_equal(hyphen_points("", 0, after), 0);
}

static void test_long_words_stay_whole(void **state) {
    (void)state;
    char word[HYPHEN_MOST_LETTERS + 1];
    uint8_t after[HYPHEN_MOST_LETTERS];
    memset(word, 'a', sizeof word);
    assert_int_equal(hyphen_points(word, sizeof word, after), 0);
    for (size_t i = 0; i < sizeof word; i++) word[i] = "hyphenation"[i % 11];
    assert_true(hyphen_points(word, HYPHEN_MOST_LETTERS, after) > 5);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_as_libhyphen),
        cmocka_unit_test(test_known_words),
        cmocka_unit_test(test_long_words_stay_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
