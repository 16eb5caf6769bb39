/* How a profile is read: shared by the profile_*.c files only. */
#ifndef TB_SOURCE_PROFILE_PARTS_H
#define TB_SOURCE_PROFILE_PARTS_H

#include "source/attributes.h"
#include "source/names.h"
#include "source/profile.h"
#include "source/xml.h"

typedef struct ProfileNames {
    Names *fields, *words, *slices, *totals, *measures, *traits;
} ProfileNames;

enum { PROFILE_MOST_SETS = 32, PROFILE_MOST_BASES = 8 };

/* An element of a profile, where it counts: what extends another profile takes the place of what it replaces there. */
typedef struct ProfilePart {
    const XmlNode *node;
    bool common; /* of a set */
} ProfilePart;

/* A declaration of a field. Sets may declare one field several times. */
typedef struct Declaration Declaration;
struct Declaration {
    const XmlNode *node;
    bool common;
    Declaration *next; /* by another set */
};

typedef struct ProfileReader {
    Arena *arena;
    Diagnostics *diagnostics;
    const Templates *templates;
    SuccessRule success;
    const char *set_id, *set_path; /* a set that is read from another file than the templates'; NULL: none */
    Profile *profile;
    ProfileNames *names;
    const XmlNode *roots[PROFILE_MOST_BASES]; /* the profile itself, the one it extends, and so on */
    size_t root_count;
    Names *sets; /* those read so far */
    size_t set_count;
    ProfilePart *parts; /* in order: a profile after its sets, what it extends before both */
    size_t part_count, part_room;
    Declaration *declarations; /* by field index */
} ProfileReader;

/* Reads the file at `path` and all it is made of (profile_files.c). `id`: what it must call itself, or NULL. False
 * after reports. */
bool profile_read_files(ProfileReader *reader, const char *id, const char *path);

/* The root that says `attribute` of the profile as a whole: its own, else that of a profile it extends. */
const XmlNode *profile_head(const ProfileReader *reader, const char *attribute);

/* Calls `read` for every part so named, in order. `common`: of a set. */
typedef void ProfilePartRead(ProfileReader *reader, const XmlNode *node, bool common);
void profile_each(ProfileReader *reader, const char *element, ProfilePartRead *read);
size_t profile_count(const ProfileReader *reader, const char *element);

/* The fields, from declaration to evaluation order (profile_fields.c, profile_derived.c, profile_order.c). */
void profile_read_fields(ProfileReader *reader);
void profile_read_derived(ProfileReader *reader, const XmlNode *node, Field *field);
void profile_connect_derived(ProfileReader *reader, Field *field, const XmlNode *node);
void profile_compile_fields(ProfileReader *reader);
void profile_order_fields(ProfileReader *reader);
void profile_add_value(ProfileReader *reader, Field *field, const XmlNode *node);
void profile_yes_no_values(ProfileReader *reader, Field *field);
bool profile_read_type(ProfileReader *reader, const XmlNode *node, FieldType *type); /* false after a report */

/* Fields that several sets declare (profile_join.c). Joins a further declaration to field `known`: false when only one
 * of the two is of a set, so that the id is taken. */
bool profile_join_field(ProfileReader *reader, const XmlNode *node, int known);
void profile_compile_when(ProfileReader *reader, Field *field, const Declaration *declared);

/* Everything that is computed from fields (profile_measures.c, profile_shown.c, profile_figures.c). */
bool profile_read_measures(ProfileReader *reader); /* false: too many */
void profile_read_shown(ProfileReader *reader);
void profile_read_figures(ProfileReader *reader);
void profile_check_drawn(ProfileReader *reader, const ProfileFigure *figure); /* profile_drawn.c */

/* Helpers. The find functions report a name that there is not, with the nearest spelling, and give -1. */
int profile_find_field(ProfileReader *reader, const XmlNode *node, const char *attribute);
int profile_find_measure(ProfileReader *reader, const XmlNode *node, const char *attribute);
int profile_find_total(ProfileReader *reader, const XmlNode *node, const char *attribute);
const Expr *profile_compile(ProfileReader *reader, const XmlNode *node, const char *attribute, ExprKind kind);
const char *profile_says(ProfileReader *reader,
                         const XmlNode *node); /* NULL when the element has no words of its own */
Better profile_better(const XmlNode *node);
/* Takes the id of `node` for `number`; false after a report when it is taken already. */
bool profile_take_id(ProfileReader *reader, Names *names, const XmlNode *node, int number, Place first);

#endif
