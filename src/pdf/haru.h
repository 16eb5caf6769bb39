/* The document's skeleton in libharu: object numbers, page tree, outlines, information dictionary, catalog. All use of
 * libharu, its internals included, is in haru.c. */
#ifndef TB_PDF_HARU_H
#define TB_PDF_HARU_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/buf.h"

typedef struct Haru Haru;

Haru *haru_new(void);
void haru_free(Haru *haru);

/* True once any call has failed; nothing that it wrote since can be used. */
bool haru_failed(const Haru *haru);

/* A number for an object that libharu will never hold. */
uint32_t haru_reserve(Haru *haru);

/* Appends a page and gives its number and that of its content stream, which the caller writes. Points. */
typedef struct HaruPage {
    uint32_t object, contents;
} HaruPage;
HaruPage haru_add_page(Haru *haru, double width, double height);

/* The value of page `index`, with `entries` added to its dictionary. */
void haru_write_page(Haru *haru, size_t index, const Buf *entries, Buf *out);

/* A bookmark to a point of page `index` (origin at the bottom left); `level` from 1, one deeper at most than the one
 * before. */
void haru_add_outline(Haru *haru, int level, const char *title, size_t page, double x, double y);

void haru_set_info(Haru *haru, const char *key, const char *text);

/* Dictionary entries added to the catalog; the bytes must live until everything is written. */
void haru_set_catalog(Haru *haru, Buf *entries);

uint32_t haru_catalog(const Haru *haru);
uint32_t haru_info(const Haru *haru);

/* The objects libharu holds, by index: its number, or 0 for those that have no place in our files (streams and their
 * lengths). */
size_t haru_object_count(const Haru *haru);
uint32_t haru_object(const Haru *haru, size_t index);
void haru_write_object(Haru *haru, size_t index, Buf *out);

/* MD5 (RFC 1321), as ISO 32000-1, 14.4 suggests for file identifiers; it identifies and protects nothing. */
enum { HARU_DIGEST_BYTES = 16 };
void haru_digest_add(Haru *haru, const void *bytes, size_t length);
void haru_digest_take(Haru *haru, unsigned char digest[HARU_DIGEST_BYTES]);

#endif
