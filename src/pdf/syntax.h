/* PDF syntax: numbers, references and strings, appended to a buffer. */
#ifndef TB_PDF_SYNTAX_H
#define TB_PDF_SYNTAX_H

#include <stddef.h>
#include <stdint.h>

#include "base/buf.h"

/* `value` hundredths or thousandths in the fewest characters (".5", "-12.03"), without a space after it. A reader may
 * lose text when a number touches the operator before or after it, so callers always put a space between them. */
void syntax_hundredths(Buf *out, long value);
void syntax_thousandths(Buf *out, long value);
void syntax_unsigned(Buf *out, unsigned long value);
void syntax_signed(Buf *out, long value);

/* Points to hundredths, half away from zero; what is not finite counts 0. */
long syntax_round(double points);

/* "12 0 R". */
void syntax_reference(Buf *out, uint32_t object);

/* The bytes of a text string: as they are when all of them are printable ASCII, else UTF-16BE after its mark. */
void syntax_text_bytes(Buf *out, const char *text);

/* A text string, a literal where it is ASCII, else hexadecimal. */
void syntax_text(Buf *out, const char *text);

/* A byte string as a literal. */
void syntax_literal(Buf *out, const char *bytes, size_t length);

/* One byte as it stands inside a literal, escaped where it must be. */
void syntax_literal_byte(Buf *out, unsigned char byte);

/* `text` as UTF-16BE bytes; invalid UTF-8 reads as U+FFFD. */
void syntax_utf16(Buf *out, const char *text, size_t length);

/* Two hexadecimal digits a byte. */
void syntax_hex(Buf *out, const void *bytes, size_t length);

#endif
