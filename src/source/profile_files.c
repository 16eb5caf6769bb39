/* The files a profile is made of: the profile it extends, the sets that are used, itself; and their parts in order. */
#include <string.h>

#include "base/text.h"
#include "source/profile_parts.h"

enum { PARTS_AT_FIRST = 256 };

/* ---- parts ---- */

/* By what an element of this name is told from its like. Parts without a key never take the place of another. */
static const struct {
    const char *element, *family, *key;
} part_keys[] = {
    {"field", "field", "id"},      {"derived", "field", "id"},           {"slice", "slice", "id"},
    {"total", "total", "id"},      {"measure", "measure", "id"},         {"trait", "trait", "id"},
    {"figure", "figure", "title"}, {"measurable", "measurable", "kind"}, {"standard", "standard", "measure"},
};

enum { PART_KEYS = sizeof part_keys / sizeof *part_keys };

/* The key of a part and, through `family`, what it is a key among; NULL for a part without one. */
static const char *key_of(const XmlNode *node, const char **family) {
    for (size_t i = 0; i < PART_KEYS; i++) {
        if (strcmp(part_keys[i].element, node->name) != 0) continue;
        *family = part_keys[i].family;
        return xml_value(node, part_keys[i].key);
    }
    return NULL;
}

static bool same_part(const XmlNode *a, const XmlNode *b) {
    const char *family_a = "", *family_b = "";
    const char *key_a = key_of(a, &family_a), *key_b = key_of(b, &family_b);
    return key_a && key_b && strcmp(family_a, family_b) == 0 && strcmp(key_a, key_b) == 0;
}

static void put_part(ProfileReader *reader, ProfilePart part) {
    if (reader->part_count == reader->part_room) {
        size_t room = reader->part_room ? reader->part_room * 2 : PARTS_AT_FIRST;
        ProfilePart *grown = ARENA_ARRAY(reader->arena, room, ProfilePart);
        if (reader->part_count) memcpy(grown, reader->parts, reader->part_count * sizeof *grown);
        reader->parts = grown;
        reader->part_room = room;
    }
    reader->parts[reader->part_count++] = part;
}

/* Puts the parts of a file after those so far; one that is among the first `inherited` takes its place there. */
static void put_parts(ProfileReader *reader, const XmlNode *root, bool common, size_t inherited) {
    for (const XmlNode *node = root->first; node; node = node->next) {
        if (!node->name) continue;
        size_t at = 0;
        while (at < inherited && !same_part(reader->parts[at].node, node)) at++;
        if (at < inherited)
            reader->parts[at] = (ProfilePart){node, common};
        else
            put_part(reader, (ProfilePart){node, common});
    }
}

/* ---- files ---- */

static const XmlNode *load_root(ProfileReader *reader, XmlKind kind, const char *path) {
    return path ? xml_load(reader->arena, reader->templates->schemas, kind, path, reader->diagnostics) : NULL;
}

static const char *path_of(ProfileReader *reader, const char *folder, const char *id, Place place) {
    return templates_path(reader->arena, reader->templates->folder, folder, id, place, reader->diagnostics);
}

static const char *set_path(ProfileReader *reader, const char *id, Place place) {
    bool given = reader->set_id && strcmp(reader->set_id, id) == 0;
    return given ? reader->set_path : path_of(reader, "sets", id, place);
}

/* Puts the sets that `root` uses, each once. Sets may use sets; one that is being read counts as read, so a circle of
 * sets ends. */
static void add_sets(ProfileReader *reader, const XmlNode *root) {
    for (const XmlNode *use = xml_child(root, "use"); use; use = xml_next(use, "use")) {
        const char *id = attr_text(use, "set", "");
        if (names_add(reader->sets, id, 0) >= 0) continue;
        if (reader->set_count++ == PROFILE_MOST_SETS) {
            diag_report(reader->diagnostics, RULE_PROFILE, use->place, NULL, "a profile uses at most %d sets",
                        PROFILE_MOST_SETS);
            return;
        }
        const XmlNode *set = load_root(reader, XML_SET, set_path(reader, id, xml_value_place(use, "set")));
        if (!set) continue;
        add_sets(reader, set);
        put_parts(reader, set, true, 0);
    }
}

static bool is_called(ProfileReader *reader, const XmlNode *root, const char *id) {
    if (text_equal(attr_text(root, "id", ""), id)) return true;
    diag_report(reader->diagnostics, RULE_PROFILE, xml_value_place(root, "id"), NULL,
                "the profile in '%s.xml' calls itself '%s'", id, attr_text(root, "id", ""));
    return false;
}

/* The profile that `root` extends, or NULL after a report when it cannot be read or would extend itself. */
static const XmlNode *load_base(ProfileReader *reader, const XmlNode *root) {
    const char *id = attr_text(root, "extends", "");
    Place place = xml_value_place(root, "extends");
    for (size_t i = 0; i < reader->root_count; i++) {
        if (!text_equal(attr_text(reader->roots[i], "id", ""), id)) continue;
        diag_report(reader->diagnostics, RULE_PROFILE, place, NULL, "profile '%s' extends itself", id);
        return NULL;
    }
    if (reader->root_count == PROFILE_MOST_BASES) {
        diag_report(reader->diagnostics, RULE_PROFILE, place, NULL, "more than %d profiles extend each other",
                    PROFILE_MOST_BASES);
        return NULL;
    }
    const XmlNode *base = load_root(reader, XML_PROFILE, path_of(reader, "profiles", id, place));
    return base && is_called(reader, base, id) ? base : NULL;
}

/* The profile's own file last of all its bases, so that what it says holds. As deep as PROFILE_MOST_BASES. */
static void add_profile(ProfileReader *reader, const XmlNode *root) {
    reader->roots[reader->root_count++] = root;
    if (xml_value(root, "extends")) {
        const XmlNode *base = load_base(reader, root);
        if (base) add_profile(reader, base);
    }
    size_t inherited = reader->part_count;
    add_sets(reader, root);
    put_parts(reader, root, false, inherited);
}

bool profile_read_files(ProfileReader *reader, const char *id, const char *path) {
    size_t errors = diag_errors(reader->diagnostics);
    reader->sets = names_new(reader->arena, PROFILE_MOST_SETS);
    const XmlNode *root = load_root(reader, XML_PROFILE, path);
    if (!root || (id && !is_called(reader, root, id))) return false;
    add_profile(reader, root);
    return diag_errors(reader->diagnostics) == errors;
}

/* ---- looking at them ---- */

void profile_each(ProfileReader *reader, const char *element, ProfilePartRead *read) {
    for (size_t i = 0; i < reader->part_count; i++) {
        const ProfilePart *part = &reader->parts[i];
        if (strcmp(part->node->name, element) == 0) read(reader, part->node, part->common);
    }
}

size_t profile_count(const ProfileReader *reader, const char *element) {
    size_t count = 0;
    for (size_t i = 0; i < reader->part_count; i++) count += strcmp(reader->parts[i].node->name, element) == 0;
    return count;
}

const XmlNode *profile_head(const ProfileReader *reader, const char *attribute) {
    size_t at = 0;
    while (at + 1 < reader->root_count && !xml_value(reader->roots[at], attribute)) at++;
    return reader->roots[at];
}
