#include <ctype.h>
#include <string.h>
#include <strings.h>

#include "base/text.h"
#include "source/xml_parts.h"

enum { DECLARATION_MOST = 256 };

static bool refuse(Diagnostics *diagnostics, Place place, const char *hint, const char *message) {
    diag_report(diagnostics, RULE_XML_ENCODING, place, hint, "%s", message);
    return false;
}

static bool is_utf16(const Text *text) {
    return text->length >= 2 && (memcmp(text->bytes, "\xFF\xFE", 2) == 0 || memcmp(text->bytes, "\xFE\xFF", 2) == 0);
}

/* Controls other than tab and line ends, and the two code points that are no characters. */
static bool is_forbidden(uint32_t character) {
    if (character < 0x20) return character != '\t' && character != '\n' && character != '\r';
    return character == 0xFFFE || character == 0xFFFF;
}

static bool report_byte(const Text *text, size_t at, uint32_t character, Diagnostics *diagnostics) {
    Place place = xml_place(text, at, 1);
    if (character == TEXT_BAD) {
        diag_report(diagnostics, RULE_XML_ENCODING, place, "save the file as UTF-8",
                    "the byte 0x%02X is not UTF-8 text here", (unsigned)(unsigned char)text->bytes[at]);
    } else {
        diag_report(diagnostics, RULE_XML_ENCODING, place, NULL, "the control character U+%04X may not stand in a file",
                    (unsigned)character);
    }
    return false;
}

static bool check_characters(const Text *text, Diagnostics *diagnostics) {
    const char *end = text->bytes + text->length;
    size_t step;
    for (const char *at = text->bytes; (at = text_skip_ascii(at, end)) < end; at += step) {
        uint32_t character = text_decode(at, end, &step);
        if (character == TEXT_BAD || is_forbidden(character)) {
            return report_byte(text, (size_t)(at - text->bytes), character, diagnostics);
        }
    }
    return true;
}

/* The value of `name` in the XML declaration: offset and length, length 0 when there is none. */
static RawAttribute declared(const Text *text, const char *name) {
    RawAttribute found = {0};
    size_t start = text->length >= 3 && memcmp(text->bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    const char *at = text->bytes + start;
    size_t room = text->length - start;
    if (room > DECLARATION_MOST) room = DECLARATION_MOST;
    const char *close = room > 5 && memcmp(at, "<?xml", 5) == 0 ? memmem(at, room, "?>", 2) : NULL;
    if (!close) return found;
    const char *word = memmem(at, (size_t)(close - at), name, strlen(name));
    if (!word) return found;
    word += strlen(name);
    while (word < close && (isspace((unsigned char)*word) || *word == '=')) word++;
    if (word == close || (*word != '"' && *word != '\'')) return found;
    const char *quote = memchr(word + 1, *word, (size_t)(close - word - 1));
    if (!quote) return found;
    found.value_at = (size_t)(word + 1 - text->bytes);
    found.value_length = (size_t)(quote - word - 1);
    return found;
}

static bool check_encoding(const Text *text, Diagnostics *diagnostics) {
    RawAttribute encoding = declared(text, "encoding");
    const char *name = text->bytes + encoding.value_at;
    if (encoding.value_length == 0) return true;
    if (encoding.value_length == 5 && strncasecmp(name, "UTF-8", 5) == 0) return true;
    diag_report(diagnostics, RULE_XML_ENCODING, xml_place(text, encoding.value_at, encoding.value_length),
                "save the file as UTF-8 and say so, or leave 'encoding' out",
                "the file is declared to be %.*s; only UTF-8 is read", (int)encoding.value_length, name);
    return false;
}

/* XML 1.1 lets characters stand that no page can print. */
static bool check_version(const Text *text, Diagnostics *diagnostics) {
    RawAttribute version = declared(text, "version");
    const char *number = text->bytes + version.value_at;
    if (version.value_length == 0 || (version.value_length == 3 && memcmp(number, "1.0", 3) == 0)) return true;
    diag_report(diagnostics, RULE_XML_SYNTAX, xml_place(text, version.value_at, version.value_length),
                "write version=\"1.0\"", "the file is declared to be XML %.*s; only 1.0 is read",
                (int)version.value_length, number);
    return false;
}

bool xml_check_bytes(const Text *text, Diagnostics *diagnostics) {
    if (text->length > XML_MOST_BYTES) {
        diag_report(diagnostics, RULE_XML_LIMIT, xml_place(text, 0, 1), NULL, "the file is larger than %d bytes",
                    XML_MOST_BYTES);
        return false;
    }
    if (is_utf16(text))
        return refuse(diagnostics, xml_place(text, 0, 1), "save the file as UTF-8", "the file is UTF-16");
    return check_characters(text, diagnostics) && check_version(text, diagnostics) && check_encoding(text, diagnostics);
}
