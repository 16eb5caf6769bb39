/* The paragraph breaker: two bytes choose the setting and the measure, the rest is the text, which is UTF-8 as the
 * reader lets nothing else pass, with a byte 1 where a span ends. Every box must stand in one line, in order. */
#include "base/text.h"
#include "fuzz/help_fuzz.h"
#include "typeset/mock_metrics.h"
#include "typeset/paragraph.h"

enum { MOST_SPANS = 64, MOST_BYTES = 4096, LEAST_WIDTH = 4 };

static Words spans_of(Arena *arena, const char *text, size_t length) {
    Words words = {.spans = ARENA_ARRAY(arena, MOST_SPANS, Span)};
    size_t from = 0;
    for (size_t at = 0; at <= length && words.count < MOST_SPANS; at++) {
        if (at < length && text[at] != 1) continue;
        SpanKind kind = (SpanKind)(words.count % (SPAN_MUTED + 1));
        words.spans[words.count++] = (Span){.kind = kind, .text = arena_copy(arena, text + from, at - from)};
        from = at + 1;
    }
    return words;
}

static void check_lines(const ParaLines *lines) {
    size_t next = 0;
    for (size_t i = 0; i < lines->count; i++) {
        const ParaLine *line = &lines->lines[i];
        bool same = line->first_cut && line->first + 1 == next;
        if ((line->first != next && !same) || line->last < line->first) __builtin_trap();
        next = (size_t)line->last + 1;
    }
    if (next != lines->para->count) __builtin_trap();
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    if (length < 2 || length > MOST_BYTES || !text_is_utf8((const char *)bytes + 2, length - 2)) return 0;
    Arena *arena = arena_new();
    Diagnostics *diagnostics = diag_new();
    Layout layout = {.prose_size = 9.5, .prose_leading = 12};
    Page page = {.width = 612, .height = 792};
    Setter setter = {.canvas = {.arena = arena,
                                .metrics = mock_metrics_new(arena),
                                .page = &page,
                                .diagnostics = diagnostics,
                                .reports = ARENA_NEW(arena, GlyphReports)}};
    style_fill(setter.settings, &layout);
    cuts_prepare();
    Words words = spans_of(arena, (const char *)bytes + 2, length - 2);
    const Para *para = para_new(&setter, &words, &setter.settings[bytes[0] % SETTING_COUNT]);
    ParaLines lines = para_break(&setter, para, LEAST_WIDTH + 2.0 * bytes[1]);
    check_lines(&lines);
    para_draw(&setter, &lines, 0, 0, ALIGN_LEFT);
    fuzz_finish(diagnostics);
    arena_free(arena);
    return 0;
}
