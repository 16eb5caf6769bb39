/* Loading a profile: the files it is made of, and the helpers that all its parts are read with. */
#include "source/profile.h"

#include <string.h>

#include "base/text.h"
#include "source/profile_parts.h"

static const XmlNode *load_root(ProfileReader *reader, XmlKind kind, const char *folder, const char *id, Place place) {
    const char *path = templates_path(reader->arena, reader->templates->folder, folder, id, place, reader->diagnostics);
    return path ? xml_load(reader->arena, reader->templates->schemas, kind, path, reader->diagnostics) : NULL;
}

/* Puts the sets that `root` uses before it, each once. Sets may use sets; one that is being read counts as read, so a
 * circle of sets ends. */
static void add_root(ProfileReader *reader, const XmlNode *root) {
    for (const XmlNode *use = xml_child(root, "use"); use; use = xml_next(use, "use")) {
        const char *id = attr_text(use, "set", "");
        if (names_add(reader->sets, id, 0) >= 0) continue;
        if (reader->root_count >= PROFILE_MOST_SETS) {
            diag_report(reader->diagnostics, RULE_PROFILE, use->place, NULL, "a profile uses at most %d sets",
                        PROFILE_MOST_SETS);
            return;
        }
        const XmlNode *set = load_root(reader, XML_SET, "sets", id, xml_value_place(use, "set"));
        if (set) add_root(reader, set);
    }
    if (reader->root_count <= PROFILE_MOST_SETS) reader->roots[reader->root_count++] = root;
}

void profile_each(ProfileReader *reader, const char *element, ProfilePartRead *read) {
    for (size_t i = 0; i < reader->root_count; i++) {
        bool common = i + 1 < reader->root_count;
        const XmlNode *node = xml_child(reader->roots[i], element);
        for (; node; node = xml_next(node, element)) read(reader, node, common);
    }
}

size_t profile_count(const ProfileReader *reader, const char *element) {
    size_t count = 0;
    for (size_t i = 0; i < reader->root_count; i++) {
        const XmlNode *node = xml_child(reader->roots[i], element);
        for (; node; node = xml_next(node, element)) count++;
    }
    return count;
}

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

static void read_head(ProfileReader *reader, const XmlNode *root) {
    Profile *profile = reader->profile;
    profile->id = attr_text(root, "id", "");
    profile->name = attr_text(root, "name", profile->id);
    profile->plural = attr_text(root, "plural", profile->name);
    profile->code = attr_text(root, "code", "");
    profile->snap_noun = attr_text(root, "snaps", "snaps");
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

static bool id_is_name(ProfileReader *reader, const XmlNode *root, const char *id) {
    if (text_equal(attr_text(root, "id", ""), id)) return true;
    diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(root, "id"), NULL,
                "the profile in '%s.xml' calls itself '%s'", id, attr_text(root, "id", ""));
    return false;
}

const Profile *profile_load(Arena *arena, const Templates *templates, SuccessRule success, const char *id, Place place,
                            Diagnostics *diagnostics) {
    size_t errors = diag_errors(diagnostics);
    ProfileReader reader = {.arena = arena, .diagnostics = diagnostics, .templates = templates, .success = success};
    const XmlNode *root = load_root(&reader, XML_PROFILE, "profiles", id, place);
    if (!root || !id_is_name(&reader, root, id)) return NULL;
    reader.profile = ARENA_NEW(arena, Profile);
    reader.sets = names_new(arena, PROFILE_MOST_SETS);
    add_root(&reader, root);
    if (diag_errors(diagnostics) > errors) return NULL;
    make_names(&reader);
    read_head(&reader, root);
    profile_read_fields(&reader);
    if (diag_errors(diagnostics) > errors) return NULL;
    profile_compile_fields(&reader);
    reader.profile->counted = profile_compile(&reader, root, "counted", EXPR_SELECTION);
    profile_order_fields(&reader);
    if (profile_read_measures(&reader)) profile_read_shown(&reader);
    return diag_errors(diagnostics) > errors ? NULL : reader.profile;
}
