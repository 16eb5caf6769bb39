/* The author's prose with its figures computed. */
#include "story/write.h"

static SpanKind span_kind(RunKind kind) {
    static const SpanKind KINDS[] = {
        [RUN_TEXT] = SPAN_TEXT,     [RUN_EMPHASIS] = SPAN_EMPHASIS, [RUN_STRONG] = SPAN_STRONG,
        [RUN_TERM] = SPAN_EMPHASIS, [RUN_STAT] = SPAN_FIGURE,       [RUN_CITE] = SPAN_LINK,
    };
    return KINDS[kind];
}

static const char *stat_interval(Writer *writer, const Measure *measure, const Estimate *estimate) {
    const char *value = say_estimate(writer, measure, estimate);
    const char *interval = say_interval(writer, measure, estimate);
    return *interval ? say(writer, "%s\u00a0(%s)", value, interval) : value;
}

static const char *stat_text(Writer *writer, const StatRef *stat) {
    Estimate estimate = findings_stat(writer->arena, writer->findings, stat);
    if (stat->measure < 0) return say_number(writer, estimate.value, 0);
    const Measure *measure = &writer->profile->measures[stat->measure];
    bool rate = measure->kind == MEASURE_RATE;
    if (rate && is_few(&estimate)) return say_k_of_n_words(writer, &estimate);
    switch (stat->format) {
    case STAT_K_OF_N:
        return say_k_of_n_words(writer, &estimate);
    case STAT_INTERVAL:
        return stat_interval(writer, measure, &estimate);
    case STAT_RATE:
    case STAT_VALUE:
        break;
    }
    return say_estimate(writer, measure, &estimate);
}

static void add_run(Writer *writer, Words *words, const Run *run) {
    const char *text = run->kind == RUN_STAT ? stat_text(writer, &run->stat) : run->text;
    const char *target = run->kind == RUN_CITE ? say_snap_anchor(writer, run->snap) : NULL;
    words_add(writer, words, span_kind(run->kind), text, target);
    words->spans[words->count - 1].place = run->place;
}

void prose_add(Writer *writer, Block *parent, const Prose *prose) {
    Block *list = NULL;
    for (size_t i = 0; i < prose->count; i++) {
        const Paragraph *paragraph = &prose->paragraphs[i];
        if (!paragraph->item) list = NULL;
        if (paragraph->item && !list) list = block_add(writer, parent, BLOCK_LIST);
        Block *block = block_add(writer, list ? list : parent, BLOCK_PARAGRAPH);
        for (size_t r = 0; r < paragraph->run_count; r++) add_run(writer, &block->words, &paragraph->runs[r]);
    }
}
