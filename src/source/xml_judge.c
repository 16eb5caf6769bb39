/* Validation while a file is read: libxml2's validator, fed element by element and without a document of libxml2's. */
#include <libxml/xmlschemas.h>
#include <string.h>

#include "source/xml_parts.h"

enum { ATTRIBUTE_PARTS = 5 }; /* of libxml2's: name, prefix, namespace, value and the value's end */

struct XmlJudge {
    xmlSchemaValidCtxtPtr validator;
    xmlSchemaSAXPlugPtr plug;
    xmlSAXHandlerPtr events; /* the validator's own handlers, to be called with the validator */
};

/* What is wrong is told by whoever reads the file again. */
static void ignore_error(void *data, xmlErrorPtr error) {
    (void)data, (void)error;
}

XmlJudge *xml_judge_new(Arena *arena, const XmlSchema *schema) {
    XmlJudge *judge = ARENA_NEW(arena, XmlJudge);
    void *data = NULL;
    judge->validator = xmlSchemaNewValidCtxt(xml_schema_compiled(schema));
    if (!judge->validator) return NULL;
    xmlSchemaSetValidStructuredErrors(judge->validator, ignore_error, NULL);
    judge->plug = xmlSchemaSAXPlug(judge->validator, &judge->events, &data);
    if (judge->plug) return judge;
    xmlSchemaFreeValidCtxt(judge->validator);
    return NULL;
}

bool xml_judge_free(XmlJudge *judge) {
    bool valid = xmlSchemaIsValid(judge->validator) == 1;
    xmlSchemaSAXUnplug(judge->plug);
    xmlSchemaFreeValidCtxt(judge->validator);
    return valid;
}

static const xmlChar *as_xml(const char *text) {
    return (const xmlChar *)text;
}

void xml_judge_start(XmlJudge *judge, const XmlNode *element) {
    const xmlChar *parts[XML_MOST_ATTRIBUTES * ATTRIBUTE_PARTS];
    for (size_t at = 0; at < element->attribute_count; at++) {
        const XmlAttribute *attribute = &element->attributes[at];
        const xmlChar **part = &parts[at * ATTRIBUTE_PARTS];
        part[0] = as_xml(attribute->name);
        part[1] = part[2] = NULL;
        part[3] = as_xml(attribute->value);
        part[4] = part[3] + strlen(attribute->value);
    }
    judge->events->startElementNs(judge->validator, as_xml(element->name), NULL, NULL, 0, NULL,
                                  (int)element->attribute_count, 0, parts);
}

void xml_judge_text(XmlJudge *judge, const char *text) {
    judge->events->characters(judge->validator, as_xml(text), (int)strlen(text));
}

void xml_judge_end(XmlJudge *judge, const XmlNode *element) {
    judge->events->endElementNs(judge->validator, as_xml(element->name), NULL, NULL);
}
