/* The templates folder: profiles, sets, houses, layouts, scales and maps, each found by its name. */
#ifndef TB_SOURCE_TEMPLATES_H
#define TB_SOURCE_TEMPLATES_H

#include "base/arena.h"
#include "base/diag.h"
#include "source/xml.h"

/* Where templates are, and the compiled schemas that their files are checked with. */
typedef struct Templates {
    const char *folder;
    XmlSchemas *schemas;
} Templates;

/* Path of FOLDER/KIND/ID.xml; `kind` is "profiles", "layouts", … NULL after a TEMPLATE_MISSING report at `place` when
 * `id` is not a plain name or there is no such file. */
const char *templates_path(Arena *arena, const char *folder, const char *kind, const char *id, Place place,
                           Diagnostics *diagnostics) __attribute__((warn_unused_result));

/* Names of all there are of a kind, in order. */
const char *const *templates_names(Arena *arena, const char *folder, const char *kind, size_t *count);

#endif
