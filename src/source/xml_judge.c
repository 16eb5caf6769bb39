/* Validation without a document of libxml2's: its validator is told what a reader met, in the order in which it stood.
 * Much faster than building the document, and it may go on beside other work. */
#include <libxml/xmlschemas.h>
#include <string.h>

#include "source/xml_parts.h"

enum { ATTRIBUTE_PARTS = 5 }; /* of libxml2's: name, prefix, namespace, value and the value's end */

typedef struct Judge {
    xmlSchemaValidCtxtPtr validator;
    xmlSAXHandlerPtr handlers; /* the validator's own, to be called with the validator */
} Judge;

/* What is wrong is told by whoever reads the file again. */
static void ignore_error(void *data, xmlErrorPtr error) {
    (void)data, (void)error;
}

static const xmlChar *as_xml(const char *text) {
    return (const xmlChar *)text;
}

static void start_element(const Judge *judge, const XmlNode *element) {
    const xmlChar *parts[XML_MOST_ATTRIBUTES * ATTRIBUTE_PARTS];
    for (size_t at = 0; at < element->attribute_count; at++) {
        const XmlAttribute *attribute = &element->attributes[at];
        const xmlChar **part = &parts[at * ATTRIBUTE_PARTS];
        part[0] = as_xml(attribute->name);
        part[1] = part[2] = NULL;
        part[3] = as_xml(attribute->value);
        part[4] = part[3] + strlen(attribute->value);
    }
    judge->handlers->startElementNs(judge->validator, as_xml(element->name), NULL, NULL, 0, NULL,
                                    (int)element->attribute_count, 0, parts);
}

static void tell(const Judge *judge, const XmlEvent *event) {
    switch (event->kind) {
    case XML_EVENT_START:
        start_element(judge, event->element);
        break;
    case XML_EVENT_TEXT:
        judge->handlers->characters(judge->validator, as_xml(event->text), (int)strlen(event->text));
        break;
    case XML_EVENT_END:
        judge->handlers->endElementNs(judge->validator, as_xml(event->element->name), NULL, NULL);
        break;
    }
}

bool xml_judge(const XmlSchema *schema, const XmlEvents *events) {
    Judge judge = {.validator = xmlSchemaNewValidCtxt(xml_schema_compiled(schema))};
    void *data = NULL;
    if (!judge.validator) return false;
    xmlSchemaSetValidStructuredErrors(judge.validator, ignore_error, NULL);
    xmlSchemaSAXPlugPtr plug = xmlSchemaSAXPlug(judge.validator, &judge.handlers, &data);
    bool valid = plug != NULL;
    for (size_t at = 0; valid && at < events->count; at++) tell(&judge, &events->items[at]);
    valid = valid && xmlSchemaIsValid(judge.validator) == 1;
    if (plug) xmlSchemaSAXUnplug(plug);
    xmlSchemaFreeValidCtxt(judge.validator);
    return valid;
}
