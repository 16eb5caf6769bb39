/* The order in which fields are evaluated: each after those that its value or its `when` needs. */
#include <string.h>

#include "source/profile_parts.h"

typedef enum Mark { MARK_NEW, MARK_OPEN, MARK_DONE } Mark;

typedef struct Ordering {
    ProfileReader *reader;
    unsigned char *marks; /* Mark, by field index */
    int *path;            /* fields being visited, outermost first */
    size_t depth;
    int *order;
    size_t count;
    bool circular; /* reported once: one circle is mended before the next is looked for */
} Ordering;

static bool needs(const Field *field, int other) {
    return field->from == other || (field->when && expr_uses_field(field->when, other)) ||
           (field->expr && expr_uses_field(field->expr, other));
}

static void report_circle(Ordering *ordering, int again) {
    const Profile *profile = ordering->reader->profile;
    Arena *arena = ordering->reader->arena;
    size_t start = 0;
    while (ordering->path[start] != again) start++;
    const char *way = profile->fields[again].id;
    for (size_t i = start + 1; i < ordering->depth; i++) {
        way = arena_printf(arena, "%s, %s", way, profile->fields[ordering->path[i]].id);
    }
    diag_report(ordering->reader->diagnostics, RULE_PROFILE, profile->fields[again].place,
                arena_printf(arena, "each needs the next: %s, %s", way, profile->fields[again].id),
                "field '%s' depends on itself", profile->fields[again].id);
    ordering->circular = true;
}

/* Depth first; as deep as there are fields, which PROFILE_MOST_FIELDS bounds. */
static void visit(Ordering *ordering, int index) {
    const Profile *profile = ordering->reader->profile;
    const Field *field = &profile->fields[index];
    ordering->marks[index] = MARK_OPEN;
    ordering->path[ordering->depth++] = index;
    bool leaf = field->from < 0 && !field->when && !field->expr;
    for (int other = 0; !leaf && !ordering->circular && other < (int)profile->field_count; other++) {
        if (ordering->marks[other] == MARK_DONE || !needs(field, other)) continue;
        if (ordering->marks[other] == MARK_OPEN)
            report_circle(ordering, other);
        else
            visit(ordering, other);
    }
    ordering->depth--;
    ordering->marks[index] = MARK_DONE;
    ordering->order[ordering->count++] = index;
}

void profile_order_fields(ProfileReader *reader) {
    Profile *profile = reader->profile;
    Ordering ordering = {.reader = reader};
    ordering.marks = ARENA_ARRAY(reader->arena, profile->field_count, unsigned char);
    ordering.path = ARENA_ARRAY(reader->arena, profile->field_count, int);
    ordering.order = ARENA_ARRAY(reader->arena, profile->field_count, int);
    for (int i = 0; i < (int)profile->field_count && !ordering.circular; i++) {
        if (ordering.marks[i] == MARK_NEW) visit(&ordering, i);
    }
    profile->order = ordering.order;
}
