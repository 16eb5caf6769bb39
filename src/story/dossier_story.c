#include "story/dossier_story.h"

#include <string.h>

#include "story/write.h"

typedef void SectionWriter(Writer *writer, Block *document, const LayoutSection *section);

static SectionWriter *const WRITERS[] = {
    [SECTION_FRONT] = story_front,       [SECTION_MEASURABLES] = story_measurables,
    [SECTION_FIGURES] = story_tape,      [SECTION_STRENGTHS] = story_strengths,
    [SECTION_CONCERNS] = story_concerns, [SECTION_KEYS] = story_keys,
    [SECTION_GRADES] = story_grades,     [SECTION_WATCH] = story_watch,
    [SECTION_CROSS] = story_cross,       [SECTION_BACKGROUND] = story_background,
    [SECTION_SNAP_LOG] = story_snap_log, [SECTION_AUDIT] = story_audit,
    [SECTION_METHODS] = story_methods,   [SECTION_GLOSSARY] = story_glossary,
};
_Static_assert(sizeof WRITERS / sizeof *WRITERS == SECTION_KIND_COUNT, "every section kind has its writer");

static const char *full_name(Writer *writer) {
    const Dossier *dossier = writer->dossier;
    return *dossier->given ? say(writer, "%s %s", dossier->given, dossier->family) : dossier->family;
}

static const char *author_name(Writer *writer) {
    const Evaluator *evaluator = house_evaluator(writer->house, writer->dossier->filing.by);
    return evaluator ? evaluator->name : writer->dossier->filing.by;
}

static void furniture(Writer *writer, Story *story) {
    const Dossier *dossier = writer->dossier;
    story->title =
        say(writer, "%s, %s, %s", full_name(writer), say_lower(writer, writer->profile->name), dossier->school);
    story->author = author_name(writer);
    story->subject = say(writer, "%s, scouting dossier, revision %d", writer->house->name, dossier->filing.revision);
    story->date = dossier->filing.on;
    story->head_name = full_name(writer);
    story->leaf = writer->profile->code;
    story->readers = writer->house->readers;
    story->filed =
        say(writer, "Filed %s \u00b7 revision %d", say_date(writer, dossier->filing.on), dossier->filing.revision);
    story->tab = writer->profile->code;
    story->tint = writer->house->tint;
}

const Story *story_dossier(Arena *arena, const Findings *findings, const Layout *layout) {
    return story_dossier_audited(arena, findings, NULL, layout);
}

const Story *story_dossier_audited(Arena *arena, const Findings *findings, const Audit *audit, const Layout *layout) {
    const Dossier *dossier = findings->dossier;
    Writer writer = {arena, findings, dossier, dossier->profile, dossier->house, audit};
    Story *story = ARENA_NEW(arena, Story);
    story->root = block_new(&writer, BLOCK_DOCUMENT);
    furniture(&writer, story);
    for (size_t i = 0; i < layout->section_count; i++) {
        WRITERS[layout->sections[i].kind](&writer, story->root, &layout->sections[i]);
    }
    return story;
}
