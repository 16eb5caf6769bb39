/* What all dossiers of a run share: schemas, the house, and the profiles read for it. */
#include <string.h>
#include <unistd.h>

#include "source/dossier.h"
#include "source/dossier_parts.h"

typedef struct LoadedProfile LoadedProfile;
struct LoadedProfile {
    const Profile *profile;
    LoadedProfile *next;
};

struct SourceContext {
    Arena *arena;
    Templates templates;
    const House *house;
    LoadedProfile *profiles;
    const Plays *plays; /* NULL until they are asked for */
};

static const House *load_house(SourceContext *context, const char *path, Diagnostics *diagnostics) {
    if (!path) {
        path = templates_path(context->arena, context->templates.folder, "houses", "plain", (Place){0}, diagnostics);
    } else if (access(path, F_OK) != 0) {
        diag_report(diagnostics, RULE_TEMPLATE_MISSING, (Place){0}, NULL, "there is no house file '%s'", path);
        return NULL;
    }
    return path ? house_load(context->arena, &context->templates, path, diagnostics) : NULL;
}

SourceContext *source_context_new(const char *templates, const char *house_path, Diagnostics *diagnostics) {
    Arena *arena = arena_new();
    SourceContext *context = ARENA_NEW(arena, SourceContext);
    context->arena = arena;
    context->templates.folder = arena_string(arena, templates);
    context->templates.schemas = xml_schemas_new(context->templates.folder);
    xml_schemas_begin(context->templates.schemas);
    context->house = load_house(context, house_path, diagnostics);
    return context;
}

void source_context_free(SourceContext *context) {
    if (!context) return;
    xml_schemas_free(context->templates.schemas);
    arena_free(context->arena);
}

const House *source_house(const SourceContext *context) {
    return context->house;
}

Arena *source_arena(const SourceContext *context) {
    return context->arena;
}

XmlSchemas *source_schemas(const SourceContext *context) {
    return context->templates.schemas;
}

bool source_is_fresh(const SourceContext *context) {
    return !context->profiles;
}

/* A profile that fails is read again when it is asked for again, so that each dossier that wants it says why it failed.
 */
const Profile *source_profile(SourceContext *context, const char *id, Place place, Diagnostics *diagnostics) {
    for (const LoadedProfile *loaded = context->profiles; loaded; loaded = loaded->next) {
        if (strcmp(loaded->profile->id, id) == 0) return loaded->profile;
    }
    if (!context->house) return NULL;
    const Profile *profile =
        profile_load(context->arena, &context->templates, context->house->success, id, place, diagnostics);
    if (!profile) return NULL;
    LoadedProfile *loaded = ARENA_NEW(context->arena, LoadedProfile);
    *loaded = (LoadedProfile){profile, context->profiles};
    context->profiles = loaded;
    return profile;
}

const Plays *source_plays(SourceContext *context, Place place, Diagnostics *diagnostics) {
    if (!context->plays) {
        context->plays = plays_load(context->arena, &context->templates, "standard", place, diagnostics);
    }
    return context->plays;
}

const Profile *source_profile_file(SourceContext *context, Arena *arena, const char *path, Diagnostics *diagnostics) {
    if (!context->house) return NULL;
    return profile_load_file(arena, &context->templates, context->house->success, path, diagnostics);
}

const Profile *source_set_file(SourceContext *context, Arena *arena, const char *path, Diagnostics *diagnostics) {
    if (!context->house) return NULL;
    return profile_load_set(arena, &context->templates, context->house->success, path, diagnostics);
}
