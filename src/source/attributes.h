/* Attributes and children of plain nodes, as the readers of all kinds of files want them. */
#ifndef TB_SOURCE_ATTRIBUTES_H
#define TB_SOURCE_ATTRIBUTES_H

#include <stdbool.h>
#include <stddef.h>

#include "source/xml.h"

const char *attr_text(const XmlNode *node, const char *name, const char *otherwise);
bool attr_yes(const XmlNode *node, const char *name); /* it is given as "yes" */

/* `otherwise` when it is not given, or after a report when it is not a number. */
double attr_number(const XmlNode *node, const char *name, double otherwise, Diagnostics *diagnostics);

/* Why a relative path does not stay below the folder of the file it is written in, or NULL when it does. */
const char *attr_unsafe_path(const char *path);

size_t attr_children(const XmlNode *node, const char *name); /* how many children are so called */

#endif
