#include "story/dossier_story.h"

#include <string.h>

#include "story/write.h"

typedef void SectionWriter(Writer *writer, Block *document, const LayoutSection *section);

static SectionWriter *const WRITERS[] = {
    [SECTION_FRONT] = story_front,        [SECTION_MEASURABLES] = story_measurables,
    [SECTION_FIGURES] = story_tape,       [SECTION_STRENGTHS] = story_strengths,
    [SECTION_CONCERNS] = story_concerns,  [SECTION_KEYS] = story_keys,
    [SECTION_GRADES] = story_grades,      [SECTION_WATCH] = story_watch,
    [SECTION_CROSS] = story_cross,        [SECTION_BACKGROUND] = story_background,
    [SECTION_SNAP_LOG] = story_snap_log,  [SECTION_AUDIT] = story_audit,
    [SECTION_METHODS] = story_methods,    [SECTION_GLOSSARY] = story_glossary,
    [SECTION_CLAIMS] = story_claim_table, [SECTION_EVALUATORS] = story_evaluators,
    [SECTION_CLIPS] = story_clips,        [SECTION_CARD] = story_card,
    [SECTION_FORM] = story_form,          [SECTION_CODES] = story_codes,
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

/* ---- what a copy leaves out ---- */

static const char *part_name(Writer *writer, int part) {
    if (part == OMIT_PERSONAL) return "personal notes";
    if (part == OMIT_MEDICAL) return "medical notes";
    char *word = arena_string(writer->arena, layout_part_word(part));
    for (char *at = strchr(word, '-'); at; at = strchr(at, '-')) *at = ' ';
    return word;
}

/* "Personal notes and snap log left out of this copy.", NULL when nothing is. */
static const char *left_out(Writer *writer) {
    Buf buf = {0};
    int last = -1;
    for (int part = 0; part < LAYOUT_PARTS; part++) {
        if (writer->layout->omitted[part]) last = part;
    }
    if (last < 0) return NULL;
    for (int part = 0; part <= last; part++) {
        if (!writer->layout->omitted[part]) continue;
        const char *join = !buf.length ? "" : part == last ? " and " : ", ";
        buf_printf(&buf, "%s%s", join, part_name(writer, part));
    }
    const char *text = say(writer, "%s left out of this copy.", say_sentence(writer, buf_text(&buf)));
    buf_free(&buf);
    return text;
}

/* The dossier as this copy knows it. */
static const Dossier *told_dossier(Arena *arena, const Dossier *dossier, const Layout *layout) {
    Dossier *told = ARENA_NEW(arena, Dossier);
    *told = *dossier;
    if (layout->omitted[OMIT_PERSONAL]) told->personal = (Prose){0};
    if (layout->omitted[OMIT_MEDICAL]) told->medical = (Prose){0};
    return told;
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
    const char *without = left_out(writer);
    const char *readers = writer->house->readers;
    story->readers = !without ? readers : !readers ? without : say(writer, "%s %s", readers, without);
    story->filed =
        say(writer, "Filed %s \u00b7 revision %d", say_date(writer, dossier->filing.on), dossier->filing.revision);
    story->tab = writer->profile->code;
    story->tint = writer->house->tint;
}

/* A document about several players: it has no name of its own but the layout's. */
static void name_many(Writer *writer, Story *story, size_t count) {
    story->title = say(writer, "%s, %s", writer->layout->name, say_count(writer, (int)count, "players"));
    story->head_name = say_count(writer, (int)count, "players");
    story->subject = say(writer, "%s, %s", writer->house->name, writer->layout->name);
    story->leaf = writer->layout->name;
    story->filed = NULL;
    story->tab = NULL;
}

/* Blank sheets are about a position and about nobody. */
static bool is_blank(const Layout *layout) {
    for (size_t i = 0; i < layout->section_count; i++) {
        SectionKind kind = layout->sections[i].kind;
        if (kind != SECTION_FORM && kind != SECTION_CODES) return false;
    }
    return true;
}

static void name_blank(Writer *writer, Story *story) {
    story->head_name = writer->profile->name;
    story->title = say(writer, "%s, %s", writer->layout->name, say_lower(writer, writer->profile->plural));
    story->subject = say(writer, "%s, %s", writer->house->name, writer->layout->name);
    story->author = writer->house->name;
    story->filed = writer->house->name;
}

/* ---- the document ---- */

static void fill_side(Writer *writer, Block *split, const Block *section) {
    Block *side = block_add(writer, split, BLOCK_GROUP);
    side->children = section->children;
    side->child_count = section->child_count;
}

/* The last section moves into the right half of the one before it. */
static void put_beside(Writer *writer, Block *document) {
    const Block *right = document->children[--document->child_count];
    Block *left = document->children[document->child_count - 1];
    Block *split = block_new(writer, BLOCK_SPLIT);
    split->ratio = 0.5;
    fill_side(writer, split, left);
    fill_side(writer, split, right);
    left->children = ARENA_NEW(writer->arena, Block *);
    left->children[0] = split;
    left->child_count = 1;
}

/* `beside`: the section before it in the layout has something to stand beside. */
static void write_section(Writer *writer, Block *document, const LayoutSection *section, bool beside) {
    size_t first = document->child_count;
    WRITERS[section->kind](writer, document, section);
    if (document->child_count == first || section->page == PAGE_AS_KIND) return;
    if (section->page == PAGE_BESIDE && beside && document->child_count == first + 1) {
        put_beside(writer, document);
    } else {
        document->children[first]->new_page = section->page == PAGE_NEW || section->page == PAGE_FIT;
        document->children[first]->joins = section->page == PAGE_FIT;
    }
}

static Writer new_writer(Arena *arena, const Findings *findings, const Audit *audit, const Layout *layout) {
    const Dossier *dossier = told_dossier(arena, findings->dossier, layout);
    return (Writer){arena, findings, dossier, dossier->profile, dossier->house, audit, layout};
}

static Story *new_story(Writer *writer) {
    Story *story = ARENA_NEW(writer->arena, Story);
    story->root = block_new(writer, BLOCK_DOCUMENT);
    furniture(writer, story);
    if (is_blank(writer->layout)) name_blank(writer, story);
    return story;
}

static void write_sections(Writer *writer, Block *document) {
    bool added = false;
    for (size_t i = 0; i < writer->layout->section_count; i++) {
        size_t before = document->child_count;
        write_section(writer, document, &writer->layout->sections[i], added);
        added = document->child_count > before;
    }
}

const Story *story_dossier(Arena *arena, const Findings *findings, const Layout *layout) {
    return story_dossier_audited(arena, findings, NULL, layout);
}

const Story *story_dossier_audited(Arena *arena, const Findings *findings, const Audit *audit, const Layout *layout) {
    Writer writer = new_writer(arena, findings, audit, layout);
    Story *story = new_story(&writer);
    write_sections(&writer, story->root);
    return story;
}

const Story *story_dossiers(Arena *arena, const Findings *const *findings, size_t count, const Layout *layout) {
    Writer first = new_writer(arena, findings[0], NULL, layout);
    Story *story = new_story(&first);
    if (count > 1 && !is_blank(layout)) name_many(&first, story, count);
    for (size_t i = 0; i < count; i++) {
        Writer writer = new_writer(arena, findings[i], NULL, layout);
        write_sections(&writer, story->root);
    }
    return story;
}
