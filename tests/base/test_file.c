#include <errno.h>
#include <fcntl.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/file.h"
#include "base/help_golden.h"

static char folder[] = P_tmpdir "/tapebound-test-XXXXXX";

static int enter(void **state) {
    (void)state;
    return mkdtemp(folder) && chdir(folder) == 0 ? 0 : -1;
}

static void count_file(const char *path, void *data) {
    (void)path;
    ++*(int *)data;
}

static int files_here(void) {
    int count = 0;
    (void)golden_each(".", "", count_file, &count);
    return count - 2; /* . and .. */
}

static void unlink_file(const char *path, void *data) {
    (void)data;
    (void)unlink(path);
}

static int leave(void **state) {
    (void)state;
    (void)golden_each(".", "", unlink_file, NULL);
    return chdir("/") == 0 && rmdir(folder) == 0 ? 0 : -1;
}

static void put(const char *path, const char *words) {
    FileWriter *writer = file_create(path);
    assert_non_null(writer);
    assert_true(file_write(writer, words, strlen(words)));
    assert_true(file_commit(writer));
}

static void expect(const char *path, const char *words) {
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    const Text *text = file_read(arena, path, diagnostics);
    assert_non_null(text);
    assert_int_equal(text->length, strlen(words));
    assert_string_equal(text->bytes, words);
    assert_string_equal(text->path, path);
    diag_free(diagnostics);
    arena_free(arena);
}

static void refuse(const char *path, const char *wanted) {
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    assert_null(file_read(arena, path, diagnostics));
    char *got = golden_print(diagnostics);
    assert_string_equal(got, wanted);
    free(got);
    diag_free(diagnostics);
    arena_free(arena);
}

static void test_replaces_whole(void **state) {
    (void)state;
    put("out", "first");
    expect("out", "first");
    FileWriter *writer = file_create("out");
    assert_true(file_write(writer, "second", 6));
    expect("out", "first"); /* nothing is seen before the commit */
    assert_int_equal(files_here(), 2);
    assert_true(file_commit(writer));
    expect("out", "second");
    writer = file_create("out");
    assert_true(file_write(writer, "third", 5));
    file_abandon(writer);
    expect("out", "second");
    assert_int_equal(files_here(), 1);
}

static void test_large(void **state) {
    (void)state;
    size_t length = 300000;
    char *bytes = malloc(length + 1);
    for (size_t i = 0; i < length; i++) bytes[i] = (char)('a' + i % 26);
    bytes[length] = '\0';
    FileWriter *writer = file_create("large");
    for (size_t at = 0, step = 1; at < length; at += step, step = step * 3 % 70001 + 1) {
        if (step > length - at) step = length - at;
        assert_true(file_write(writer, bytes + at, step));
    }
    assert_true(file_commit(writer));
    expect("large", bytes);
    free(bytes);
}

static void test_keeps_mode_and_link(void **state) {
    (void)state;
    put("real", "old");
    assert_int_equal(chmod("real", 0640), 0);
    assert_int_equal(symlink("real", "link"), 0);
    put("link", "new");
    expect("real", "new");
    struct stat status;
    assert_int_equal(lstat("link", &status), 0);
    assert_true(S_ISLNK(status.st_mode));
    assert_int_equal(stat("real", &status), 0);
    assert_int_equal(status.st_mode & 0777, 0640);
}

static void test_full_disk(void **state) {
    (void)state;
    if (access("/dev/full", W_OK) != 0) skip();
    FileWriter *writer = file_create("/dev/full");
    assert_non_null(writer);
    assert_true(file_write(writer, "x", 1)); /* still waiting in the buffer */
    assert_false(file_commit(writer));
    assert_int_equal(errno, ENOSPC);
    struct stat status;
    assert_int_equal(stat("/dev/full", &status), 0);
    assert_true(S_ISCHR(status.st_mode)); /* a device is written to, not replaced */
}

static void test_cannot_create(void **state) {
    (void)state;
    assert_null(file_create("no/such/folder/out"));
    assert_int_equal(errno, ENOENT);
    assert_null(file_create("."));
    assert_int_equal(errno, EISDIR);
    Diagnostics *diagnostics = diag_new();
    errno = ENOSPC;
    file_report_write(diagnostics, "out.pdf");
    char *got = golden_print(diagnostics);
    assert_string_equal(got, "tapebound: error: cannot write 'out.pdf': No space left on device [file-write]\n");
    free(got);
    diag_free(diagnostics);
}

static void test_cannot_read(void **state) {
    (void)state;
    refuse("missing", "tapebound: error: cannot read 'missing': No such file or directory [file-read]\n");
    refuse(".", "tapebound: error: cannot read '.': it is a folder [file-read]\n");
    assert_int_equal(mkfifo("pipe", 0600), 0);
    refuse("pipe", "tapebound: error: cannot read 'pipe': it is not a regular file [file-read]\n");
    refuse("/dev/zero", "tapebound: error: cannot read '/dev/zero': it is not a regular file [file-read]\n");
}

static void test_too_large(void **state) {
    (void)state;
    int file = open("huge", O_CREAT | O_WRONLY, 0600);
    assert_int_equal(ftruncate(file, (off_t)FILE_MOST_BYTES + 1), 0);
    close(file);
    refuse("huge", "tapebound: error: 'huge' is larger than 67108864 bytes [xml-limit]\n");
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_replaces_whole),      cmocka_unit_test(test_large),
        cmocka_unit_test(test_keeps_mode_and_link), cmocka_unit_test(test_full_disk),
        cmocka_unit_test(test_cannot_create),       cmocka_unit_test(test_cannot_read),
        cmocka_unit_test(test_too_large),
    };
    return cmocka_run_group_tests(tests, enter, leave);
}
