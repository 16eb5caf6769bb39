#include "fuzz/help_fuzz.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <unistd.h>

const char *fuzz_file(const uint8_t *bytes, size_t length) {
    static int file = -1;
    static char path[64];
    if (file < 0) file = memfd_create("fuzz", MFD_CLOEXEC);
    if (file < 0 || ftruncate(file, 0) != 0 || pwrite(file, bytes, length, 0) != (ssize_t)length) abort();
    snprintf(path, sizeof path, "/proc/self/fd/%d", file);
    return path;
}

SourceContext *fuzz_context(void) {
    static SourceContext *context;
    if (context) return context;
    Diagnostics *diagnostics = diag_new();
    context = source_context_new("templates", NULL, diagnostics);
    if (diag_errors(diagnostics)) {
        diag_print(diagnostics, stderr, false);
        abort();
    }
    diag_free(diagnostics);
    return context;
}

const Profile *fuzz_profile(void) {
    static const Profile *profile;
    Diagnostics *diagnostics = diag_new();
    if (!profile) profile = source_profile(fuzz_context(), "quarterback", (Place){0}, diagnostics);
    diag_free(diagnostics);
    if (!profile) abort();
    return profile;
}

void fuzz_finish(Diagnostics *diagnostics) {
    static FILE *nowhere;
    if (!nowhere) nowhere = fopen("/dev/null", "w");
    if (!nowhere) abort();
    Buf json = {0};
    diag_print(diagnostics, nowhere, true);
    diag_json(diagnostics, &json);
    buf_free(&json);
    diag_free(diagnostics);
}
