/* Prose: paragraphs and items as runs of folded text, computed figures and cited snaps. */
#include <string.h>

#include "base/buf.h"
#include "source/dossier_parts.h"

/* A paragraph being made. White space is folded across its elements: where it stands at one's edge, one space is kept.
 */
typedef struct ProseWriter {
    DossierReader *reader;
    Paragraph *paragraph;
    size_t room; /* runs */
    Buf text;    /* of the run being read */
    bool space;  /* the text so far ends in a space, or is empty */
} ProseWriter;

static const struct {
    const char *element;
    RunKind kind;
} inline_kinds[] = {{"em", RUN_EMPHASIS}, {"strong", RUN_STRONG}, {"term", RUN_TERM}};

static void add_run(ProseWriter *writer, Run run) {
    Paragraph *paragraph = writer->paragraph;
    if (paragraph->run_count == writer->room) {
        size_t room = writer->room ? writer->room * 2 : 8;
        Run *runs = ARENA_ARRAY(writer->reader->arena, room, Run);
        if (paragraph->run_count) memcpy(runs, paragraph->runs, paragraph->run_count * sizeof *runs);
        paragraph->runs = runs;
        writer->room = room;
    }
    paragraph->runs[paragraph->run_count++] = run;
}

static void fold(ProseWriter *writer, const char *text) {
    for (const char *at = text; *at; at++) {
        bool space = strchr(" \t\r\n", *at) != NULL;
        if (!space)
            buf_putc(&writer->text, *at);
        else if (!writer->space)
            buf_putc(&writer->text, ' ');
        writer->space = space;
    }
}

static void write_text(ProseWriter *writer, const XmlNode *node, RunKind kind) {
    bool before = writer->space;
    fold(writer, node->text);
    if (writer->text.length == 0) {
        writer->space = before || writer->space;
        return;
    }
    Run run = {.kind = kind, .snap = -1, .place = node->place};
    run.text = arena_copy(writer->reader->arena, writer->text.bytes, writer->text.length);
    writer->text.length = 0;
    add_run(writer, run);
}

/* ---- figures ---- */

static const struct {
    const char *word;
    StatFormat format;
} stat_formats[] = {{"rate", STAT_RATE}, {"k-of-n", STAT_K_OF_N}, {"value", STAT_VALUE}, {"interval", STAT_INTERVAL}};

enum { STAT_FORMATS = sizeof stat_formats / sizeof *stat_formats };

static void complain(ProseWriter *writer, Place place, const char *hint, const char *message) {
    if (!dossier_may_report(writer->reader)) return;
    diag_report(writer->reader->diagnostics, RULE_STAT, place, hint, "%s", message);
}

static void read_format(ProseWriter *writer, const XmlNode *node, StatRef *stat) {
    const Profile *profile = writer->reader->profile;
    bool rate = stat->measure >= 0 && profile->measures[stat->measure].kind == MEASURE_RATE;
    stat->format = rate ? STAT_RATE : STAT_VALUE;
    const char *word = xml_value(node, "as");
    if (!word) return;
    bool found = false;
    for (size_t i = 0; i < STAT_FORMATS && !found; i++) {
        found = strcmp(stat_formats[i].word, word) == 0;
        if (found) stat->format = stat_formats[i].format;
    }
    Place place = xml_value_place(node, "as");
    const char *hint = NAMES_HINT(writer->reader->arena, word, stat_formats, STAT_FORMATS);
    if (!found) complain(writer, place, hint, "a figure is not printed that way");
    bool counts = stat->format == STAT_RATE || stat->format == STAT_K_OF_N;
    if (counts && stat->measure >= 0 && !rate)
        complain(writer, place, "use as=\"value\"", "this measure is not a rate");
    if (found && stat->total >= 0 && stat->format != STAT_VALUE) {
        complain(writer, place, "use as=\"value\"", "a total is one number");
    }
}

static const Expr *read_where(DossierReader *reader, const XmlNode *node) {
    const char *when = xml_value(node, "when");
    if (!when || reader->problems >= XML_MOST_PROBLEMS) return NULL;
    const Expr *where = expr_compile(reader->arena, reader->profile, reader->profile->field_count, EXPR_SELECTION, when,
                                     xml_value_place(node, "when"), reader->diagnostics);
    if (!where) reader->problems++;
    return where;
}

static StatRef read_stat(ProseWriter *writer, const XmlNode *node) {
    DossierReader *reader = writer->reader;
    StatRef stat = {.measure = -1, .total = -1, .slice = -1};
    bool measure = xml_value(node, "measure") != NULL, total = xml_value(node, "total") != NULL;
    if (measure == total) {
        complain(writer, node->place, "give a measure or a total",
                 measure ? "a figure is of a measure or of a total, not of both" : "this figure is of nothing");
        return stat;
    }
    if (measure) stat.measure = dossier_refer_measure(reader, node, "measure");
    if (total) stat.total = dossier_refer_total(reader, node, "total");
    if (xml_value(node, "slice")) stat.slice = dossier_refer_slice(reader, node, "slice");
    stat.where = read_where(reader, node);
    if (stat.measure >= 0 || stat.total >= 0) read_format(writer, node, &stat);
    return stat;
}

/* ---- the tree ---- */

static void write_nodes(ProseWriter *writer, const XmlNode *node, RunKind kind);

static void write_element(ProseWriter *writer, const XmlNode *node, RunKind kind) {
    Run run = {.snap = -1, .place = node->place};
    if (strcmp(node->name, "stat") == 0) {
        run.kind = RUN_STAT;
        run.stat = read_stat(writer, node);
    } else if (strcmp(node->name, "cite") == 0) {
        run.kind = RUN_CITE;
        run.text = attr_text(node, "snap", "");
        run.snap = dossier_refer_snap(writer->reader, node, "snap");
    } else {
        for (size_t i = 0; i < sizeof inline_kinds / sizeof *inline_kinds; i++) {
            if (strcmp(inline_kinds[i].element, node->name) == 0) kind = inline_kinds[i].kind;
        }
        write_nodes(writer, node->first, kind);
        return;
    }
    add_run(writer, run);
    writer->space = false;
}

static void write_nodes(ProseWriter *writer, const XmlNode *node, RunKind kind) {
    for (; node; node = node->next) {
        if (node->text)
            write_text(writer, node, kind);
        else
            write_element(writer, node, kind);
    }
}

/* No space at the paragraph's end. */
static void trim(Arena *arena, Paragraph *paragraph) {
    if (paragraph->run_count == 0) return;
    Run *last = &paragraph->runs[paragraph->run_count - 1];
    size_t length = last->text ? strlen(last->text) : 0;
    if (last->kind == RUN_CITE || length == 0 || last->text[length - 1] != ' ') return;
    last->text = arena_copy(arena, last->text, length - 1);
    if (length == 1) paragraph->run_count--;
}

static void read_paragraph(DossierReader *reader, const XmlNode *node, bool item, Prose *prose) {
    Paragraph *paragraph = &prose->paragraphs[prose->count++];
    *paragraph = (Paragraph){.item = item, .place = node->place};
    ProseWriter writer = {.reader = reader, .paragraph = paragraph, .space = true};
    write_nodes(&writer, node->first, RUN_TEXT);
    trim(reader->arena, paragraph);
    buf_free(&writer.text);
}

static size_t count_paragraphs(const XmlNode *parent) {
    size_t count = attr_children(parent, "p");
    for (const XmlNode *list = xml_child(parent, "list"); list; list = xml_next(list, "list")) {
        count += attr_children(list, "item");
    }
    return count;
}

void dossier_read_prose(DossierReader *reader, const XmlNode *parent, Prose *prose) {
    prose->place = parent->place;
    prose->paragraphs = ARENA_ARRAY(reader->arena, count_paragraphs(parent), Paragraph);
    for (const XmlNode *node = parent->first; node; node = node->next) {
        if (!node->name) continue;
        if (strcmp(node->name, "p") == 0) read_paragraph(reader, node, false, prose);
        if (strcmp(node->name, "list") != 0) continue;
        for (const XmlNode *item = xml_child(node, "item"); item; item = xml_next(item, "item")) {
            read_paragraph(reader, item, true, prose);
        }
    }
}
