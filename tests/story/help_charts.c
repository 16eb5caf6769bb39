#include "story/help_charts.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

#include "story/dossier_story.h"

static const char HEAD[] = "<dossier format=\"1\" id=\"x\" profile=\"passer\"><player position=\"QB\">"
                           "<name><given>Tobin</given><family>Vashti</family></name><school>Harrow Valley</school>"
                           "</player><filing by=\"rk\" on=\"2031-11-18\"/>";

static void put_groups(Buf *xml, const Charted *charted) {
    int number = 0;
    buf_printf(xml, "<game id=\"g1\" on=\"2031-09-27\" opponent=\"Fenwick\"><chart by=\"rk\" marks=\"%s\">",
               charted->marks ? charted->marks : "touchdown penalty risk");
    for (size_t g = 0; g < charted->group_count; g++) {
        for (int i = 0; i < charted->groups[g].count; i++) {
            buf_printf(xml, "<snap n=\"%d\" down=\"1\" distance=\"10\" spot=\"-25\" play=\"pass\" %s/>", ++number,
                       charted->groups[g].attributes);
        }
    }
    BUF_PUT(xml, "</chart></game>");
}

const Findings *charted_findings(ReaderWorld *world, const Charted *charted) {
    Buf xml = {0};
    buf_puts(&xml, HEAD);
    if (charted->group_count) put_groups(&xml, charted);
    if (charted->claims) buf_puts(&xml, charted->claims);
    buf_printf(&xml, "<bottom-line>%s</bottom-line></dossier>",
               charted->bottom_line ? charted->bottom_line : "<p>Draft him.</p>");
    reader_world_write(world, "dossier.xml", buf_text(&xml));
    buf_free(&xml);
    const Dossier *dossier = reader_dossier(world);
    assert_string_equal(reader_said(world), "");
    return findings_compute(reader_arena(world), dossier, NULL);
}

Writer charted_writer(ReaderWorld *world, const Findings *findings) {
    return (Writer){reader_arena(world),
                    findings,
                    findings->dossier,
                    findings->dossier->profile,
                    findings->dossier->house,
                    NULL,
                    NULL};
}

const char *charted_section(ReaderWorld *world, const Findings *findings, SectionKind kind) {
    LayoutSection section = {.kind = kind};
    const Layout layout = {.sections = &section, .section_count = 1};
    Buf dump = {0};
    story_dump(story_dossier(reader_arena(world), findings, &layout), &dump);
    const char *text = arena_copy(reader_arena(world), dump.bytes, dump.length);
    buf_free(&dump);
    return text;
}

void assert_says(const char *text, const char *part) {
    if (!strstr(text, part)) fail_msg("'%s' does not stand in:\n%s", part, text);
}

void assert_silent(const char *text, const char *part) {
    if (strstr(text, part)) fail_msg("'%s' stands in:\n%s", part, text);
}
