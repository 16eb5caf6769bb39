/* Text of a content stream: position, font and the strings themselves. */
#include <math.h>

#include "pdf/content.h"
#include "pdf/syntax.h"

static const double THOUSAND = 1000;
static const double DEGREE = 0.017453292519943295;

void content_begin_text(Content *content) {
    if (content->in_text) return;
    BUF_PUT(&content->out, "BT\n");
    content->in_text = content->upright = true;
    content->x = content->y = 0;
}

void content_end_text(Content *content) {
    if (!content->in_text) return;
    BUF_PUT(&content->out, "ET\n");
    content->in_text = false;
}

static void put_font(Content *content, Face face, long size) {
    if (content->face == (int)face && content->size == size) return;
    content->face = (int)face;
    content->size = size;
    BUF_PUT(&content->out, "/F");
    syntax_unsigned(&content->out, face);
    buf_putc(&content->out, ' ');
    syntax_hundredths(&content->out, size);
    BUF_PUT(&content->out, " Tf\n");
}

static void put_rise(Content *content, long rise) {
    if (content->rise == rise) return;
    content->rise = rise;
    syntax_hundredths(&content->out, rise);
    BUF_PUT(&content->out, " Ts\n");
}

static void put_word_space(Content *content, const Mark *mark, double space) {
    if (mark->count < 2) return;
    long extra = lround(mark->word_space * THOUSAND - space * mark->size);
    if (extra == content->word_space) return;
    content->word_space = extra;
    syntax_thousandths(&content->out, extra);
    BUF_PUT(&content->out, " Tw\n");
}

static void put_tracking(Content *content, const Mark *mark) {
    long tracking = lround(mark->tracking * THOUSAND);
    if (tracking == content->tracking) return;
    content->tracking = tracking;
    syntax_thousandths(&content->out, tracking);
    BUF_PUT(&content->out, " Tc\n");
}

static void put_matrix(Content *content, double degrees, long x, long y) {
    double parts[4] = {cos(degrees * DEGREE), sin(degrees * DEGREE), -sin(degrees * DEGREE), cos(degrees * DEGREE)};
    for (int part = 0; part < 4; part++) {
        syntax_thousandths(&content->out, lround(parts[part] * THOUSAND));
        buf_putc(&content->out, ' ');
    }
    syntax_hundredths(&content->out, x);
    buf_putc(&content->out, ' ');
    syntax_hundredths(&content->out, y);
    BUF_PUT(&content->out, " Tm\n");
}

static void put_position(Content *content, const Mark *mark) {
    bool upright = mark->rotate == 0;
    long x = syntax_round(mark->points[0].x);
    long y = syntax_round(content->height - mark->points[0].y);
    if (upright && content->upright) {
        syntax_hundredths(&content->out, x - content->x);
        buf_putc(&content->out, ' ');
        syntax_hundredths(&content->out, y - content->y);
        BUF_PUT(&content->out, " Td\n");
    } else {
        put_matrix(content, mark->rotate, x, y);
    }
    content->upright = upright;
    content->x = x;
    content->y = y;
}

static const GlyphRun *run_of(const Word *word) {
    return word->glyphs;
}

/* True when the line is one literal without numbers or changes within. */
static bool is_simple(const Mark *mark) {
    for (uint32_t at = 0; at < mark->count; at++) {
        const GlyphRun *run = run_of(mark->words[at]);
        if (!run->plain || run->kerned || (int)mark->words[at]->face != mark->face) return false;
    }
    return true;
}

/* Leaves the array for operators and enters it again. */
static void pause_array(Content *content) {
    BUF_PUT(&content->out, ")]TJ\n");
}

static void resume_array(Content *content) {
    BUF_PUT(&content->out, "[(");
}

static void put_back(Content *content, int32_t back) {
    if (!back) return;
    buf_putc(&content->out, ')');
    syntax_signed(&content->out, back);
    buf_putc(&content->out, '(');
}

static void switch_to(Content *content, Face face, long rise) {
    if (content->face == (int)face && content->rise == rise) return;
    pause_array(content);
    put_font(content, face, content->size);
    put_rise(content, rise);
    resume_array(content);
}

static void put_glyphs(Content *content, Codes *codes, const GlyphRun *run) {
    for (uint32_t at = 0; at < run->count; at++) {
        const Glyph *glyph = &run->glyphs[at];
        long rise = lround((double)glyph->rise * (double)content->size / THOUSAND);
        switch_to(content, (Face)glyph->face, rise);
        put_back(content, glyph->back);
        codes_put(codes, (Face)glyph->face, glyph->pair, &content->out);
    }
    put_back(content, run->back);
}

/* Where one character needs several glyphs, the word's text is told apart from them. */
static void put_actual_word(Content *content, Codes *codes, const Word *word) {
    pause_array(content);
    content->tell_text(content->teller, word->text);
    resume_array(content);
    put_glyphs(content, codes, run_of(word));
    pause_array(content);
    content->tell_text(content->teller, NULL);
    resume_array(content);
}

static void put_word(Content *content, Codes *codes, const Word *word) {
    const GlyphRun *run = run_of(word);
    if (run->actual) {
        put_actual_word(content, codes, word);
    } else if (!run->plain) {
        put_glyphs(content, codes, run);
    } else {
        switch_to(content, word->face, 0);
        codes_use(codes, word->face, run);
        buf_put(&content->out, run->bytes, run->length);
    }
}

static void put_words(Content *content, Codes *codes, const Mark *mark) {
    bool simple = is_simple(mark);
    Face face = (Face)mark->face;
    buf_puts(&content->out, simple ? "(" : "[(");
    for (uint32_t at = 0; at < mark->count; at++) {
        if (at) {
            switch_to(content, face, 0);
            codes_put_space(codes, face, &content->out);
        }
        put_word(content, codes, mark->words[at]);
    }
    buf_puts(&content->out, simple ? ")Tj\n" : ")]TJ\n");
}

static double space_of(const Codes *codes, Face face) {
    return codes->book->faces[face].space;
}

void content_text(Content *content, Codes *codes, const Mark *mark) {
    if (!mark->count) return;
    content_set_fill(content, mark->fill);
    put_font(content, (Face)mark->face, syntax_round(mark->size));
    put_rise(content, 0);
    put_word_space(content, mark, space_of(codes, (Face)mark->face));
    put_tracking(content, mark);
    put_position(content, mark);
    put_words(content, codes, mark);
}
