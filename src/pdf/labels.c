#include "pdf/labels.h"

#include <stdlib.h>
#include <string.h>

#include "pdf/syntax.h"

enum { MOST_DIGITS = 9, BASE = 10 };

/* A label in two: what stands before its last figures, and the number they make. */
typedef struct Label {
    const char *text;     /* "" none */
    size_t prefix;        /* bytes of it */
    unsigned long number; /* 0: the label ends in no number that counts */
} Label;

static Label split(const char *text) {
    Label label = {text ? text : "", 0, 0};
    size_t length = strlen(label.text);
    size_t at = length;
    while (at > 0 && length - at < MOST_DIGITS && label.text[at - 1] >= '0' && label.text[at - 1] <= '9') at--;
    label.prefix = at;
    if (at < length && label.text[at] != '0') label.number = strtoul(label.text + at, NULL, BASE);
    if (!label.number) label.prefix = length;
    return label;
}

static bool follows(const Label *before, const Label *label) {
    return label->number && before->number + 1 == label->number && before->prefix == label->prefix &&
           !memcmp(before->text, label->text, label->prefix);
}

static void put_label(const Label *label, Buf *catalog) {
    Buf prefix = {0};
    buf_put(&prefix, label->text, label->prefix);
    BUF_PUT(catalog, "<<");
    if (prefix.length) {
        BUF_PUT(catalog, "/P");
        syntax_text(catalog, buf_text(&prefix));
    }
    if (label->number) BUF_PUT(catalog, "/S/D");
    if (label->number > 1) buf_printf(catalog, "/St %lu", label->number);
    BUF_PUT(catalog, ">>");
    buf_free(&prefix);
}

static bool any_label(const Pages *pages) {
    for (size_t at = 0; at < pages->count; at++)
        if (pages->pages[at].label && *pages->pages[at].label) return true;
    return false;
}

void labels_write(const Pages *pages, Buf *catalog) {
    if (!any_label(pages)) return;
    Label before = {"", 0, 0};
    BUF_PUT(catalog, "/PageLabels<</Nums[");
    for (size_t at = 0; at < pages->count; at++) {
        Label label = split(pages->pages[at].label);
        if (!at || !follows(&before, &label)) {
            syntax_unsigned(catalog, at);
            put_label(&label, catalog);
        }
        before = label;
    }
    BUF_PUT(catalog, "]>>");
}
