#include "source/attributes.h"

#include <string.h>

#include "base/text.h"

const char *attr_text(const XmlNode *node, const char *name, const char *otherwise) {
    const char *value = xml_value(node, name);
    return value ? value : otherwise;
}

bool attr_yes(const XmlNode *node, const char *name) {
    const char *value = xml_value(node, name);
    return value && strcmp(value, "yes") == 0;
}

double attr_number(const XmlNode *node, const char *name, double otherwise, Diagnostics *diagnostics) {
    const char *text = xml_value(node, name);
    double value = otherwise;
    if (!text || text_number(text, &value)) return value;
    diag_report(diagnostics, RULE_ATTRIBUTE_VALUE, xml_value_place(node, name), NULL, "'%s' is not a number", text);
    return otherwise;
}

size_t attr_children(const XmlNode *node, const char *name) {
    size_t count = 0;
    for (const XmlNode *child = xml_child(node, name); child; child = xml_next(child, name)) count++;
    return count;
}

const char *attr_unsafe_path(const char *path) {
    if (path[0] == '\0') return "it is empty";
    if (path[0] == '/' || path[0] == '\\') return "it does not start in that folder";
    if (strchr(path, ':')) return "it is an address, not a file below that folder";
    if (strchr(path, '\\')) return "folders are parted by '/'";
    for (const char *at = path; *at; at++) {
        if ((unsigned char)*at < ' ' || *at == 0x7f) return "it holds a control character";
    }
    for (const char *part = path; part; part = strchr(part, '/')) {
        if (*part == '/') part++;
        if (strncmp(part, "..", 2) == 0 && (part[2] == '/' || part[2] == '\0')) return "it leads out of its folder";
    }
    return NULL;
}
