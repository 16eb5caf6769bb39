/* The whole compile: bytes as a dossier, through every pass to a PDF that is thrown away. */
#include "compile.h"
#include "fuzz/help_fuzz.h"

enum { KEPT_FOR = 500 }; /* dossiers of one compiler, whose fonts keep every word they shaped */

static Compiler *compiler_now(void) {
    static Compiler *compiler;
    static int used;
    if (compiler && used++ < KEPT_FOR) return compiler;
    compiler_free(compiler);
    Diagnostics *diagnostics = diag_new();
    compiler = compiler_new(&(CompilerOptions){.share = "."}, diagnostics);
    if (diag_errors(diagnostics)) __builtin_trap();
    diag_free(diagnostics);
    used = 0;
    return compiler;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    Compiler *compiler = compiler_now();
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    Buf dumped = {0};
    bool good =
        compiler_compile(compiler, arena, fuzz_file(bytes, length), "/dev/null", DUMP_NONE, &dumped, diagnostics);
    if (!good && !diag_errors(diagnostics)) __builtin_trap(); /* refused without a word */
    fuzz_finish(diagnostics);
    buf_free(&dumped);
    arena_free(arena);
    return 0;
}
