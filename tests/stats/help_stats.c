#include "stats/help_stats.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "source/expr.h"

static const char *const WORDS[] = {"yes", "no", "man", "zone", "on", "off", "short", "long", "left", "right"};
enum { WORD_COUNT = sizeof WORDS / sizeof *WORDS };

typedef struct FieldPlan {
    const char *id;
    FieldType type;
    const char *first, *second; /* of a choice */
} FieldPlan;

static const FieldPlan FIELDS[HELP_FIELDS] = {
    [HELP_THROWN] = {"thrown", FIELD_YESNO, "yes", "no"},
    [HELP_SHELL] = {"shell", FIELD_CHOICE, "man", "zone"},
    [HELP_DEPTH] = {"depth", FIELD_NUMBER, NULL, NULL},
    [HELP_PLACEMENT] = {"placement", FIELD_CHOICE, "on", "off"},
    [HELP_GAIN] = {"gain", FIELD_NUMBER, NULL, NULL},
    [HELP_DOWN] = {"down", FIELD_NUMBER, NULL, NULL},
    [HELP_BAND] = {"to-go-band", FIELD_ORDERED, "short", "long"},
    [HELP_SIDE] = {"side", FIELD_CHOICE, "left", "right"},
};

static _Noreturn void die(const char *format, ...) __attribute__((format(printf, 1, 2)));

static void die(const char *format, ...) {
    va_list args;
    va_start(args, format);
    vfprintf(stderr, format, args);
    va_end(args);
    fputc('\n', stderr);
    abort();
}

static int word_of(const char *word) {
    for (int i = 0; i < WORD_COUNT; i++) {
        if (strcmp(WORDS[i], word) == 0) return i;
    }
    die("no word '%s'", word);
}

static Field field_new(Arena *arena, const FieldPlan *plan) {
    Field field = {.id = plan->id, .label = plan->id, .type = plan->type, .from = -1, .low = -99, .high = 99};
    if (!plan->first) return field;
    field.value_count = 2;
    field.values = ARENA_ARRAY(arena, 2, FieldValue);
    field.values[0] = (FieldValue){.id = plan->first, .label = plan->first, .word = word_of(plan->first)};
    field.values[1] = (FieldValue){.id = plan->second, .label = plan->second, .word = word_of(plan->second)};
    return field;
}

static const Expr *compile(Help *help, ExprKind kind, const char *source) {
    Text *text = ARENA_NEW(help->arena, Text);
    *text = (Text){"help", source, strlen(source)};
    Place place = {text, 0, text->length};
    const Expr *expr = expr_compile(help->arena, help->profile, HELP_FIELDS, kind, source, place, help->diagnostics);
    if (!expr) die("'%s' does not compile", source);
    return expr;
}

const Expr *help_selection(Help *help, const char *source) {
    return compile(help, EXPR_SELECTION, source);
}

static void add_slices(Help *help) {
    static const char *const WHERE[HELP_SLICES] = {"@shell='man'", "@shell='zone'", "@depth >= 20"};
    static const char *const IDS[HELP_SLICES] = {"man", "zone", "deep"};
    help->profile->slices = ARENA_ARRAY(help->arena, HELP_SLICES, Slice);
    help->profile->slice_count = HELP_SLICES;
    for (size_t i = 0; i < HELP_SLICES; i++) {
        help->profile->slices[i] =
            (Slice){.id = IDS[i], .label = IDS[i], .phrase = IDS[i], .where = help_selection(help, WHERE[i])};
    }
}

static void add_totals(Help *help) {
    Total *totals = help->profile->totals = ARENA_ARRAY(help->arena, HELP_TOTALS, Total);
    help->profile->total_count = HELP_TOTALS;
    const Expr *thrown = help_selection(help, "@thrown='yes'");
    totals[HELP_ATTEMPTS] = (Total){.id = "attempts", .label = "Attempts", .where = thrown};
    totals[HELP_COMPLETIONS] =
        (Total){.id = "completions", .label = "Completions", .where = help_selection(help, "@placement='on'")};
    totals[HELP_YARDS] =
        (Total){.id = "yards", .label = "Yards", .where = thrown, .sum = compile(help, EXPR_ARITHMETIC, "@gain")};
}

static void add_measures(Help *help) {
    Measure *measures = help->profile->measures = ARENA_ARRAY(help->arena, HELP_MEASURES, Measure);
    help->profile->measure_count = HELP_MEASURES;
    const Expr *thrown = help_selection(help, "@thrown='yes'");
    Measure plain = {
        .noun = "throws", .unit = "", .better = BETTER_MORE, .over = -1, .under = -1, .scale = 1, .printed = true};
    for (size_t i = 0; i < HELP_MEASURES; i++) measures[i] = plain;
    Measure *rate = &measures[HELP_ON_TARGET];
    rate->id = rate->label = "on-target";
    rate->kind = MEASURE_RATE;
    rate->of = thrown;
    rate->where = help_selection(help, "@placement='on'");
    Measure *mean = &measures[HELP_TARGET_DEPTH];
    mean->id = mean->label = "target-depth";
    mean->kind = MEASURE_MEAN;
    mean->of = thrown;
    mean->x = compile(help, EXPR_ARITHMETIC, "@depth");
    mean->places = 1;
    Measure *ratio = &measures[HELP_PER_ATTEMPT];
    ratio->id = ratio->label = "yards-per-attempt";
    ratio->kind = MEASURE_RATIO;
    ratio->over = HELP_YARDS;
    ratio->under = HELP_ATTEMPTS;
    ratio->places = 1;
    Measure *formula = &measures[HELP_EFFICIENCY];
    formula->id = formula->label = "efficiency";
    formula->kind = MEASURE_FORMULA;
    formula->under = HELP_ATTEMPTS;
    formula->parts = ARENA_ARRAY(help->arena, 2, FormulaPart);
    formula->part_count = 2;
    formula->parts[0] = (FormulaPart){compile(help, EXPR_FORMULA, "(8.4 * $yards) div $attempts"), -INFINITY, INFINITY};
    formula->parts[1] = (FormulaPart){compile(help, EXPR_FORMULA, "100 * $completions div $attempts"), 0, 80};
    formula->scale = .5;
}

static void add_figures(Help *help) {
    static int rows[] = {HELP_MAN, HELP_ZONE};
    help->profile->figures = ARENA_ARRAY(help->arena, 2, ProfileFigure);
    help->profile->figure_count = 2;
    help->profile->figures[0] = (ProfileFigure){.kind = PROFILE_THROW_FIELD,
                                                .title = "Field",
                                                .measure = HELP_ON_TARGET,
                                                .lateral = HELP_SIDE,
                                                .depth = HELP_BAND};
    help->profile->figures[1] = (ProfileFigure){
        .kind = PROFILE_INTERVAL_ROWS, .title = "Rows", .measure = HELP_PER_ATTEMPT, .slices = rows, .slice_count = 2};
}

static void add_profile(Help *help) {
    static const char *words[WORD_COUNT];
    Profile *profile = help->profile;
    for (size_t i = 0; i < WORD_COUNT; i++) words[i] = WORDS[i];
    profile->id = "thrower";
    profile->name = "Thrower";
    profile->snap_noun = "throws";
    profile->words = words;
    profile->word_count = WORD_COUNT;
    profile->yes = 0;
    profile->no = 1;
    profile->field_count = HELP_FIELDS;
    profile->fields = ARENA_ARRAY(help->arena, HELP_FIELDS, Field);
    for (size_t i = 0; i < HELP_FIELDS; i++) profile->fields[i] = field_new(help->arena, &FIELDS[i]);
    add_slices(help);
    add_totals(help);
    add_measures(help);
    add_figures(help);
}

Help help_new(void) {
    Help help = {.arena = arena_new(), .diagnostics = diag_new()};
    help.profile = ARENA_NEW(help.arena, Profile);
    help.dossier = ARENA_NEW(help.arena, Dossier);
    add_profile(&help);
    help.dossier->id = "help";
    help.dossier->given = "Ansel";
    help.dossier->family = "Orrin";
    help.dossier->profile = help.profile;
    return help;
}

void help_free(Help *help) {
    diag_free(help->diagnostics);
    arena_free(help->arena);
}

static void make_room(Help *help, size_t rows, size_t games) {
    Columns *columns = &help->dossier->columns;
    columns->rows = rows;
    columns->count = HELP_FIELDS;
    columns->columns = ARENA_ARRAY(help->arena, HELP_FIELDS, Column);
    for (size_t i = 0; i < HELP_FIELDS; i++) {
        columns->columns[i].number = ARENA_ARRAY(help->arena, rows, double);
        columns->columns[i].state = ARENA_ARRAY(help->arena, rows, uint8_t);
    }
    columns->counted = ARENA_ARRAY(help->arena, rows, uint8_t);
    columns->game = ARENA_ARRAY(help->arena, rows, uint16_t);
    help->dossier->games = ARENA_ARRAY(help->arena, games, Game);
    help->dossier->game_count = games;
    for (size_t i = 0; i < games; i++) help->dossier->games[i].opponent = i % 2 ? "South" : "North";
}

void help_set(Help *help, size_t row, HelpField field, double value) {
    help->dossier->columns.columns[field].number[row] = value;
    help->dossier->columns.columns[field].state[row] = VALUE_KNOWN;
}

void help_word(Help *help, size_t row, HelpField field, const char *word) {
    help_set(help, row, field, word_of(word));
}

void help_rows(Help *help, size_t rows, size_t games) {
    make_room(help, rows, games);
    for (size_t row = 0; row < rows; row++) {
        help->dossier->columns.counted[row] = 1;
        help->dossier->columns.game[row] = (uint16_t)(row * games / rows);
        help_word(help, row, HELP_THROWN, "yes");
        help_word(help, row, HELP_SHELL, "man");
        help_word(help, row, HELP_PLACEMENT, "on");
        help_set(help, row, HELP_DOWN, 1);
        help_word(help, row, HELP_BAND, "short");
        help_word(help, row, HELP_SIDE, "left");
    }
}

static void chart_cell(Help *help, size_t row, int field, const char *cell) {
    Column *column = &help->dossier->columns.columns[field];
    if (*cell == '?')
        column->state[row] = VALUE_UNKNOWN;
    else if (strcmp(cell, "-") == 0)
        column->state[row] = VALUE_NOT_APPLICABLE;
    else if (FIELDS[field].first)
        help_word(help, row, (HelpField)field, cell);
    else
        help_set(help, row, (HelpField)field, strtod(cell, NULL));
}

static void chart_line(Help *help, size_t row, const char *line) {
    char *rest = arena_string(help->arena, line);
    Columns *columns = &help->dossier->columns;
    char *cell = strtok_r(rest, " ", &rest);
    columns->counted[row] = *cell != '!';
    columns->game[row] = (uint16_t)atoi(*cell == '!' ? cell + 1 : cell);
    for (int field = 0; field < HELP_FIELDS; field++) {
        cell = strtok_r(NULL, " ", &rest);
        if (!cell) die("line %zu is short: %s", row, line);
        chart_cell(help, row, field, cell);
    }
}

void help_chart(Help *help, const char *const *lines, size_t count) {
    size_t games = 1;
    for (size_t i = 0; i < count; i++) {
        size_t game = (size_t)atoi(lines[i][0] == '!' ? lines[i] + 1 : lines[i]);
        if (game + 1 > games) games = game + 1;
    }
    make_room(help, count, games);
    for (size_t i = 0; i < count; i++) chart_line(help, i, lines[i]);
}

Claim *help_claims(Help *help, size_t count) {
    Claim *claims = help->dossier->claims = ARENA_ARRAY(help->arena, count, Claim);
    help->dossier->claim_count = count;
    for (size_t i = 0; i < count; i++) {
        claims[i] = (Claim){.id = arena_printf(help->arena, "c%zu", i + 1),
                            .title = "Claim",
                            .slice = HELP_MAN,
                            .against = CLAIM_AGAINST_REST,
                            .measure = HELP_ON_TARGET,
                            .direction = 1};
    }
    return claims;
}

double help_random(uint64_t *seed) {
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return (double)(*seed >> 11) / 9007199254740992.0;
}
