/* Arena memory: everything of one dossier is allocated from one arena and released at once.
 * Memory exhaustion ends the process with a message and status 2, so no caller checks for NULL. */
#ifndef TB_BASE_ARENA_H
#define TB_BASE_ARENA_H

#include <stdarg.h>
#include <stddef.h>

typedef struct Arena Arena;

Arena *arena_new(void);
void arena_free(Arena *arena);

/* Zeroed memory aligned for any type; `size` 0 gives a valid pointer. */
void *arena_alloc(Arena *arena, size_t size);
void *arena_array(Arena *arena, size_t count, size_t size);
char *arena_copy(Arena *arena, const char *text, size_t length);
char *arena_string(Arena *arena, const char *text);
char *arena_printf(Arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3), nonnull(2)));
char *arena_vprintf(Arena *arena, const char *format, va_list args) __attribute__((format(printf, 2, 0), nonnull(2)));

/* Bytes handed out so far. */
size_t arena_used(const Arena *arena);

/* Ends the process as every other exhaustion does; for libraries that report it. */
_Noreturn void mem_exhausted(void);

#define ARENA_NEW(arena, type) ((type *)arena_alloc((arena), sizeof(type)))
#define ARENA_ARRAY(arena, count, type) ((type *)arena_array((arena), (count), sizeof(type)))

/* malloc family that ends the process cleanly on exhaustion; for memory that outlives a dossier. */
void *mem_alloc(size_t size);
void *mem_resize(void *memory, size_t size);
char *mem_string(const char *text);

#endif
