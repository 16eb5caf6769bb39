#include "source/lists.h"

#include <string.h>

static const char blanks[] = " \t\r\n";

List list_open(Arena *arena, const XmlNode *node, const char *attribute) {
    const char *value = xml_value(node, attribute);
    List list = {arena, value ? value : "", NULL, xml_value_place(node, attribute), false};
    list.at = list.start;
    list.written = value && strlen(value) == list.place.length;
    return list;
}

bool list_next(List *list, ListWord *word) {
    list->at += strspn(list->at, blanks);
    size_t length = strcspn(list->at, blanks);
    if (length == 0) return false;
    word->id = arena_copy(list->arena, list->at, length);
    word->place = list->place;
    if (list->written) {
        word->place.offset += (size_t)(list->at - list->start);
        word->place.length = length;
    }
    list->at += length;
    return true;
}

size_t list_count(Arena *arena, const XmlNode *node, const char *attribute) {
    List list = list_open(arena, node, attribute);
    ListWord word;
    size_t count = 0;
    while (list_next(&list, &word)) count++;
    return count;
}
