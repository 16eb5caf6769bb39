/* Loading a profile: the files it is made of, and the helpers that all its parts are read with. */
#include "source/profile.h"

#include <string.h>

#include "base/text.h"
#include "source/profile_parts.h"

/* ---- helpers of the parts ---- */

const char *profile_says(ProfileReader *reader, const XmlNode *node) {
    const XmlNode *child = node->first;
    while (child && !child->text) child = child->next;
    return child ? xml_text(reader->arena, child) : NULL;
}

Better profile_better(const XmlNode *node) {
    const char *value = attr_text(node, "better", "neither");
    if (strcmp(value, "more") == 0) return BETTER_MORE;
    return strcmp(value, "less") == 0 ? BETTER_LESS : BETTER_NEITHER;
}

bool profile_take_id(ProfileReader *reader, Names *names, const XmlNode *node, int number, Place first) {
    const char *id = attr_text(node, "id", "");
    if (names_add(names, id, number) < 0) return true;
    diag_report(reader->diagnostics, RULE_DUPLICATE, xml_value_place(node, "id"), NULL, "the id '%s' is used twice",
                id);
    diag_also(reader->diagnostics, first, "it is first used here");
    return false;
}

/* Reports that the value of `attribute` is no `what` of the profile. */
static int not_found(ProfileReader *reader, const XmlNode *node, const char *attribute, const char *what,
                     const char *hint) {
    diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(node, attribute), hint, "the profile has no %s '%s'",
                what, attr_text(node, attribute, ""));
    return -1;
}

int profile_find_field(ProfileReader *reader, const XmlNode *node, const char *attribute) {
    const Profile *profile = reader->profile;
    const char *id = attr_text(node, attribute, "");
    int found = profile_field(profile, id);
    if (found >= 0) return found;
    return not_found(reader, node, attribute, "field",
                     NAMES_HINT(reader->arena, id, profile->fields, profile->field_count));
}

int profile_find_measure(ProfileReader *reader, const XmlNode *node, const char *attribute) {
    const Profile *profile = reader->profile;
    const char *id = attr_text(node, attribute, "");
    int found = profile_measure(profile, id);
    if (found >= 0) return found;
    return not_found(reader, node, attribute, "measure",
                     NAMES_HINT(reader->arena, id, profile->measures, profile->measure_count));
}

int profile_find_total(ProfileReader *reader, const XmlNode *node, const char *attribute) {
    const Profile *profile = reader->profile;
    const char *id = attr_text(node, attribute, "");
    int found = profile_total(profile, id);
    if (found >= 0) return found;
    return not_found(reader, node, attribute, "total",
                     NAMES_HINT(reader->arena, id, profile->totals, profile->total_count));
}

const Expr *profile_compile(ProfileReader *reader, const XmlNode *node, const char *attribute, ExprKind kind) {
    const char *source = xml_value(node, attribute);
    if (!source) return NULL;
    return expr_compile(reader->arena, reader->profile, reader->profile->field_count, kind, source,
                        xml_value_place(node, attribute), reader->diagnostics);
}

/* ---- the profile as a whole ---- */

/* What its snaps are called and which of them count is taken from the profile it extends, where it does not say. */
static void read_head(ProfileReader *reader) {
    Profile *profile = reader->profile;
    const XmlNode *root = reader->roots[0];
    profile->place = root->place;
    profile->id = attr_text(root, "id", "");
    profile->name = attr_text(root, "name", profile->id);
    profile->plural = attr_text(root, "plural", profile->name);
    profile->code = attr_text(root, "code", "");
    profile->snap_noun = attr_text(profile_head(reader, "snaps"), "snaps", "snaps");
    profile->bases = ARENA_ARRAY(reader->arena, reader->root_count - 1, const char *);
    for (size_t i = 1; i < reader->root_count; i++) {
        profile->bases[profile->base_count++] = attr_text(reader->roots[i], "id", "");
    }
}

static void make_names(ProfileReader *reader) {
    ProfileNames *names = ARENA_NEW(reader->arena, ProfileNames);
    names->fields = names_new(reader->arena, profile_count(reader, "field") + profile_count(reader, "derived"));
    names->words = names_new(reader->arena, PROFILE_MOST_FIELDS);
    names->slices = names_new(reader->arena, profile_count(reader, "slice"));
    names->totals = names_new(reader->arena, profile_count(reader, "total"));
    names->measures = names_new(reader->arena, profile_count(reader, "measure"));
    names->traits = names_new(reader->arena, profile_count(reader, "trait"));
    reader->names = names;
    reader->profile->names = names;
}

static const Profile *read_profile(ProfileReader *reader, const char *id, const char *path) {
    size_t errors = diag_errors(reader->diagnostics);
    reader->profile = ARENA_NEW(reader->arena, Profile);
    if (!profile_read_files(reader, id, path)) return NULL;
    make_names(reader);
    read_head(reader);
    profile_read_fields(reader);
    if (diag_errors(reader->diagnostics) > errors) return NULL;
    profile_compile_fields(reader);
    const XmlNode *head = profile_head(reader, "counted");
    reader->profile->counted = profile_compile(reader, head, "counted", EXPR_SELECTION);
    profile_order_fields(reader);
    if (profile_read_measures(reader)) profile_read_shown(reader);
    return diag_errors(reader->diagnostics) > errors ? NULL : reader->profile;
}

const Profile *profile_load(Arena *arena, const Templates *templates, SuccessRule success, const char *id, Place place,
                            Diagnostics *diagnostics) {
    ProfileReader reader = {.arena = arena, .diagnostics = diagnostics, .templates = templates, .success = success};
    const char *path = templates_path(arena, templates->folder, "profiles", id, place, diagnostics);
    return path ? read_profile(&reader, id, path) : NULL;
}

const Profile *profile_load_file(Arena *arena, const Templates *templates, SuccessRule success, const char *path,
                                 Diagnostics *diagnostics) {
    ProfileReader reader = {.arena = arena, .diagnostics = diagnostics, .templates = templates, .success = success};
    return read_profile(&reader, NULL, path);
}

/* Whether profile `id` uses the set; a profile that cannot be read does not. */
static bool uses_set(Arena *arena, const Templates *templates, const char *id, const char *set) {
    Diagnostics *unheard = diag_new();
    ProfileReader reader = {.arena = arena, .diagnostics = unheard, .templates = templates};
    const char *path = templates_path(arena, templates->folder, "profiles", id, (Place){0}, unheard);
    bool uses = path && profile_read_files(&reader, id, path) && names_find(reader.sets, set) >= 0;
    diag_free(unheard);
    return uses;
}

const Profile *profile_load_set(Arena *arena, const Templates *templates, SuccessRule success, const char *path,
                                Diagnostics *diagnostics) {
    const XmlNode *root = xml_load(arena, templates->schemas, XML_SET, path, diagnostics);
    if (!root) return NULL;
    const char *id = attr_text(root, "id", "");
    size_t count;
    const char *const *ids = templates_names(arena, templates->folder, "profiles", &count);
    const Profile *first = NULL;
    for (size_t i = 0; i < count; i++) {
        if (!uses_set(arena, templates, ids[i], id)) continue;
        ProfileReader reader = {.arena = arena,
                                .diagnostics = diagnostics,
                                .templates = templates,
                                .success = success,
                                .set_id = id,
                                .set_path = path};
        const char *file = templates_path(arena, templates->folder, "profiles", ids[i], (Place){0}, diagnostics);
        const Profile *profile = file ? read_profile(&reader, ids[i], file) : NULL;
        if (!profile) return NULL;
        if (!first) first = profile;
    }
    if (!first) {
        diag_report(diagnostics, RULE_PROFILE_UNUSED, root->place, NULL,
                    "no profile uses the set '%s': only its form was checked", id);
    }
    return first;
}
