/* XML from memory. */
#ifndef TB_TESTS_HELP_XML_H
#define TB_TESTS_HELP_XML_H

#include "source/xml.h"

typedef struct Loaded {
    Arena *arena;
    XmlSchemas *schemas;
    Diagnostics *diagnostics;
    const XmlNode *root;
} Loaded;

/* Loads `length` bytes as a file of `kind`; to be freed. */
Loaded xml_load_bytes(XmlKind kind, const char *bytes, size_t length);
void loaded_free(Loaded *loaded);

/* Whether a finding of the rule was reported. */
bool loaded_has(Loaded *loaded, Rule rule);

#endif
