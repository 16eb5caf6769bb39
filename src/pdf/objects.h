/* The file: objects gathered into compressed object streams, streams written as they come, a cross-reference stream at
 * the end (ISO 32000-1, 7.5.7 and 7.5.8). Same objects in the same order, same bytes. */
#ifndef TB_PDF_OBJECTS_H
#define TB_PDF_OBJECTS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/buf.h"
#include "base/file.h"
#include "pdf/haru.h"

typedef struct Objects Objects;

/* Writes the file's head. The caller keeps writer and skeleton until objects_free. */
Objects *objects_new(FileWriter *writer, Haru *haru);
void objects_free(Objects *objects);

uint32_t objects_reserve(Objects *objects);

/* The buffer to append the value of an object to; nothing else may be opened before objects_close. */
Buf *objects_open(Objects *objects, uint32_t number);
void objects_close(Objects *objects);

/* A stream object: `entries` are its dictionary without Length and Filter. */
typedef enum StreamKind { STREAM_DEFLATED, STREAM_PLAIN } StreamKind;
void objects_stream(Objects *objects, uint32_t number, StreamKind kind, const char *entries, const Buf *data);

/* Writes what libharu holds, the last object stream and the cross-reference stream. False when any write failed, errno
 * set. */
bool objects_finish(Objects *objects) __attribute__((warn_unused_result));

#endif
