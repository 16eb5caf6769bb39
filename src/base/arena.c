#include "base/arena.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

/* Chunks grow with the arena, so that a small one stays small and a large one asks the kernel seldom. */
enum {
    FIRST_CHUNK = 16 * 1024,
    FIRST_MAPPED = 64 * 1024,
    LARGEST_CHUNK = 512 * 1024,
    ALIGNMENT = 16,
    STATUS_SYSTEM = 2
};

/* Small ones come from the heap, whose pages are soon used again. Large ones are mapped pages: zero as the kernel gives
 * them, and faulted in together. */
typedef struct Chunk Chunk;
struct Chunk {
    Chunk *next;
    size_t used;
    size_t size;   /* of `bytes` */
    size_t mapped; /* 0: of the heap */
    _Alignas(16) char bytes[];
};

struct Arena {
    Chunk *chunks; /* the newest first; only it is filled */
    size_t used;
};

_Noreturn void mem_exhausted(void) {
    static const char text[] = "tapebound: out of memory\n";
    ssize_t written = write(STDERR_FILENO, text, sizeof text - 1);
    (void)written;
    _exit(STATUS_SYSTEM);
}

void *mem_alloc(size_t size) {
    void *memory = calloc(1, size ? size : 1);
    if (!memory) mem_exhausted();
    return memory;
}

void *mem_resize(void *memory, size_t size) {
    void *moved = realloc(memory, size ? size : 1);
    if (!moved) mem_exhausted();
    return moved;
}

char *mem_string(const char *text) {
    size_t size = strlen(text) + 1;
    char *copy = mem_alloc(size);
    memcpy(copy, text, size);
    return copy;
}

Arena *arena_new(void) {
    return mem_alloc(sizeof(Arena));
}

void arena_free(Arena *arena) {
    if (!arena) return;
    for (Chunk *chunk = arena->chunks, *next; chunk; chunk = next) {
        next = chunk->next;
        if (chunk->mapped)
            munmap(chunk, chunk->mapped);
        else
            free(chunk);
    }
    free(arena);
}

static Chunk *chunk_new(size_t room) {
    const size_t page = 4096;
    if (room > SIZE_MAX - sizeof(Chunk) - page) mem_exhausted();
    size_t bytes = (sizeof(Chunk) + room + page - 1) & ~(page - 1);
    if (bytes < FIRST_MAPPED) {
        Chunk *small = mem_alloc(bytes);
        small->size = bytes - sizeof(Chunk);
        return small;
    }
    Chunk *chunk = mmap(NULL, bytes, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS | MAP_POPULATE, -1, 0);
    if (chunk == MAP_FAILED) mem_exhausted();
    chunk->mapped = bytes;
    chunk->size = bytes - sizeof(Chunk);
    return chunk;
}

static size_t next_size(const Arena *arena) {
    size_t size = arena->used < FIRST_CHUNK ? FIRST_CHUNK : arena->used;
    return size < LARGEST_CHUNK ? size : LARGEST_CHUNK;
}

static Chunk *chunk_for(Arena *arena, size_t size) {
    Chunk *chunk = arena->chunks;
    if (chunk && chunk->size - chunk->used >= size) return chunk;
    size_t usual = next_size(arena);
    Chunk *fresh = chunk_new(size > usual ? size : usual);
    fresh->next = chunk;
    arena->chunks = fresh;
    return fresh;
}

void *arena_alloc(Arena *arena, size_t size) {
    if (size > SIZE_MAX - ALIGNMENT) mem_exhausted();
    size_t rounded = (size + ALIGNMENT - 1) & ~(size_t)(ALIGNMENT - 1);
    Chunk *chunk = chunk_for(arena, rounded);
    void *memory = chunk->bytes + chunk->used;
    chunk->used += rounded;
    arena->used += rounded;
    return memory;
}

void *arena_array(Arena *arena, size_t count, size_t size) {
    if (size && count > SIZE_MAX / size) mem_exhausted();
    return arena_alloc(arena, count * size);
}

char *arena_copy(Arena *arena, const char *text, size_t length) {
    char *copy = arena_alloc(arena, length + 1);
    if (length) memcpy(copy, text, length);
    return copy;
}

char *arena_string(Arena *arena, const char *text) {
    return arena_copy(arena, text, strlen(text));
}

/* Printed where the chunk has room. What has no room there goes into a chunk of its own or a fresh one: nothing is ever
 * handed out of this one's rest, which then is no longer zero. */
char *arena_vprintf(Arena *arena, const char *format, va_list args) {
    Chunk *chunk = chunk_for(arena, ALIGNMENT);
    char *text = chunk->bytes + chunk->used;
    size_t room = chunk->size - chunk->used;
    va_list again;
    va_copy(again, args);
    int length = vsnprintf(text, room, format, args);
    size_t size = length < 0 ? 1 : (size_t)length + 1;
    bool fits = size <= room;
    text = arena_alloc(arena, size);
    if (!fits) vsnprintf(text, size, format, again);
    va_end(again);
    return text;
}

char *arena_printf(Arena *arena, const char *format, ...) {
    va_list args;
    va_start(args, format);
    char *text = arena_vprintf(arena, format, args);
    va_end(args);
    return text;
}

size_t arena_used(const Arena *arena) {
    return arena->used;
}
