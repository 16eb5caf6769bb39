#include "typeset/typeset.h"

#include "typeset/build.h"

static const char *copy(Arena *arena, const char *text) {
    return text ? arena_string(arena, text) : NULL;
}

static void name_document(Arena *arena, const Story *story, Pages *pages) {
    pages->title = copy(arena, story->title);
    pages->author = copy(arena, story->author);
    pages->subject = copy(arena, story->subject);
    pages->date = copy(arena, story->date);
    pages->language = "en";
    pages->tint = story->tint;
}

const Pages *typeset_story(Arena *arena, const Story *story, const Layout *layout, Metrics *metrics,
                           Diagnostics *diagnostics) {
    Flow *flow = ARENA_NEW(arena, Flow);
    flow_begin(flow, arena, story, layout, metrics, diagnostics);
    name_document(arena, story, flow->pages);
    int deepest = 0;
    Column column = {.width = flow->width};
    Builder builder = {.flow = flow, .column = &column, .width = flow->width, .deepest = &deepest};
    builder.element = element_new(arena, NULL, ROLE_DOCUMENT, NULL);
    if (story->root) build_block(&builder, story->root, NULL);
    flow_pages(flow, &column);
    return flow->pages;
}
