/* Background, personal and medical notes, each under its caution. */
#include "story/write.h"

static void notes(Writer *writer, Block *section, const char *title, const char *caution, const Prose *prose) {
    if (!prose->count) return;
    block_head(writer, section, 2, title, NULL);
    if (caution) block_note(writer, section, caution)->keep_with_next = true;
    prose_add(writer, section, prose);
}

void story_background(Writer *writer, Block *document, const LayoutSection *section) {
    const Dossier *dossier = writer->dossier;
    if (!dossier->background.count && !dossier->personal.count && !dossier->medical.count) return;
    Block *block = block_section(writer, document, section->title ? section->title : "Background", NULL);
    block->new_page = false;
    notes(writer, block, "History", NULL, &dossier->background);
    notes(writer, block, "Personal", writer->house->caution_personal, &dossier->personal);
    notes(writer, block, "Medical", writer->house->caution_medical, &dossier->medical);
}
