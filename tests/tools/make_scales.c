/* Makes the comparison scales from two open tables of combine results:
 *
 *     make_scales [--rows] DATA-FOLDER SCALES-FOLDER
 *
 * reads combine.csv (heights in whole inches) and combine_eighths.csv (heights to an eighth of an inch, 10- and 20-yard
 * splits) and writes one scale for each position group. Every measured value counts as it stands: no row is dropped,
 * repaired or merged; empty cells are players who were not measured. A measurable with too few players is left out, and
 * said.
 *
 * With --rows each scale lists the players of combine.csv one by one as well, for scales that a house keeps to itself:
 * percentiles are then mid-ranks and the nearest players can be named by row. The program comes without the data, so
 * such scales are not among its templates. */
#include <csv.h>
#include <errno.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/buf.h"
#include "base/text.h"
#include "stats/quantile.h"

enum { FEWEST_PLAYERS = 20, VALUE_PLACES = 4 };

static const double PERCENTS[] = {1, 2.5, 5, 10, 25, 50, 75, 90, 95, 97.5, 99};

static const char YEARS[] = "2000–2022";
static const char LICENCE[] = "CC BY 4.0 as stated by its publisher";
static const char SOURCE[] = "nflverse open data: results of the scouting combine";
static const char SOURCE_FINE[] =
    "; height, ten and twenty yards from its table of 2003–2020, which states the MIT licence";
static const char SOURCE_FINE_OF_ROWS[] =
    "; ten and twenty yards from its table of 2003–2020, which states the MIT licence";

/* Position spellings of the tables. Outside linebackers and plain linebackers stand in both groups they play in. */
typedef struct Group {
    const char *profile, *plural;
    const char *positions; /* space separated */
} Group;

static const Group GROUPS[] = {
    {"quarterback", "quarterbacks", "QB"},
    {"running-back", "running backs", "RB FB"},
    {"wide-receiver", "wide receivers", "WR"},
    {"tight-end", "tight ends", "TE"},
    {"tackle", "tackles", "OT"},
    {"interior-line", "interior linemen", "OG C OL"},
    {"interior-defensive-line", "interior defensive linemen", "DT DL NT"},
    {"edge", "edge players", "DE EDGE OLB"},
    {"linebacker", "linebackers", "OLB ILB LB"},
    {"cornerback", "cornerbacks", "CB DB"},
    {"safety", "safeties", "S FS SS"},
    {"kicker", "kickers", "K"},
    {"punter", "punters", "P"},
    {"long-snapper", "long snappers", "LS"},
};

typedef enum TableKind { TABLE_WHOLE, TABLE_EIGHTHS, TABLE_COUNT } TableKind;

static const char *const FILES[TABLE_COUNT] = {"combine.csv", "combine_eighths.csv"};

/* A measurable, its column, and the table it is taken from where that has the position at all. */
typedef struct Kind {
    const char *id, *column;
    TableKind table;
} Kind;

static const Kind KINDS[] = {
    {"height", "height_in", TABLE_EIGHTHS},   {"weight", "weight_lb", TABLE_WHOLE},
    {"forty", "forty_s", TABLE_WHOLE},        {"ten", "split10_s", TABLE_EIGHTHS},
    {"twenty", "split20_s", TABLE_EIGHTHS},   {"bench", "bench_reps", TABLE_WHOLE},
    {"vertical", "vertical_in", TABLE_WHOLE}, {"broad", "broad_in", TABLE_WHOLE},
    {"cone", "cone_s", TABLE_WHOLE},          {"shuttle", "shuttle_s", TABLE_WHOLE},
};

enum { KIND_COUNT = sizeof KINDS / sizeof *KINDS, GROUP_COUNT = sizeof GROUPS / sizeof *GROUPS };

typedef struct Cells {
    const char **cells;
    size_t count, room;
} Cells;

/* A table as lines of cells: line l is cells[starts[l]] .. cells[starts[l + 1]] - 1. */
typedef struct Table {
    Arena *arena;
    Cells cells;
    size_t *starts;
    size_t lines, line_room;
} Table;

static void on_cell(void *bytes, size_t length, void *user) {
    Table *table = user;
    Cells *cells = &table->cells;
    if (cells->count == cells->room) {
        cells->room = 2 * cells->room + 1024;
        cells->cells = mem_resize(cells->cells, cells->room * sizeof *cells->cells);
    }
    cells->cells[cells->count++] = arena_copy(table->arena, bytes ? bytes : "", length);
}

static void on_line(int ending, void *user) {
    (void)ending;
    Table *table = user;
    if (table->lines + 2 > table->line_room) {
        table->line_room = 2 * table->line_room + 1024;
        table->starts = mem_resize(table->starts, table->line_room * sizeof *table->starts);
    }
    if (!table->lines) table->starts[0] = 0;
    table->starts[++table->lines] = table->cells.count;
}

static void die(const char *what, const char *path) {
    fprintf(stderr, "make_scales: %s %s: %s\n", what, path, strerror(errno));
    exit(2);
}

static void table_read(Table *table, Arena *arena, const char *folder, const char *name) {
    const char *path = arena_printf(arena, "%s/%s", folder, name);
    FILE *file = fopen(path, "rb");
    char block[65536];
    struct csv_parser parser;
    if (!file) die("cannot read", path);
    table->arena = arena;
    csv_init(&parser, 0);
    for (size_t got; (got = fread(block, 1, sizeof block, file)) > 0;)
        csv_parse(&parser, block, got, on_cell, on_line, table);
    csv_fini(&parser, on_cell, on_line, table);
    csv_free(&parser);
    if (ferror(file)) die("cannot read", path);
    fclose(file);
}

static void table_free(Table *table) {
    free(table->cells.cells);
    free(table->starts);
}

static const char *table_cell(const Table *table, size_t line, int column) {
    size_t at = table->starts[line] + (size_t)column;
    return column >= 0 && at < table->starts[line + 1] ? table->cells.cells[at] : "";
}

static int table_column(const Table *table, const char *name) {
    for (size_t i = 0; table->lines && i < table->starts[1]; i++) {
        if (strcmp(table->cells.cells[i], name) == 0) return (int)i;
    }
    return -1;
}

static bool has_word(const char *words, const char *word) {
    size_t length = strlen(word);
    if (!length) return false;
    for (const char *at = words; (at = strstr(at, word)); at += length) {
        bool starts = at == words || at[-1] == ' ';
        if (starts && (at[length] == ' ' || !at[length])) return true;
    }
    return false;
}

/* Collects the measured values of a group into `values`; returns how many. */
static size_t collect(const Table *table, const Group *group, const char *column, double *values) {
    int position = table_column(table, "pos");
    int at = table_column(table, column);
    size_t count = 0;
    for (size_t line = 1; line < table->lines; line++) {
        const char *cell = table_cell(table, line, at);
        if (!has_word(group->positions, table_cell(table, line, position)) || !*cell) continue;
        if (text_number(cell, &values[count]))
            count++;
        else
            fprintf(stderr, "make_scales: line %zu: '%s' is no number\n", line + 1, cell);
    }
    return count;
}

static void put_measurable(Buf *out, const char *kind, const double *rising, size_t count) {
    buf_printf(out, "  <measurable kind=\"%s\" n=\"%zu\">\n   ", kind, count);
    for (size_t i = 0; i < sizeof PERCENTS / sizeof *PERCENTS; i++) {
        double outside = fmin(PERCENTS[i], 100 - PERCENTS[i]) / 100 * (double)count;
        if (outside < 1) continue;
        buf_puts(out, " <q p=\"");
        buf_number(out, PERCENTS[i], 1);
        buf_puts(out, "\" value=\"");
        buf_number(out, quantile_type7(rising, count, PERCENTS[i] / 100), VALUE_PLACES);
        buf_puts(out, "\"/>");
    }
    buf_puts(out, "\n  </measurable>\n");
}

/* Writes the measurables of a group; returns whether any came from the table of eighths. */
static bool put_measurables(Buf *out, const Table *tables, const Group *group, double *values) {
    bool fine = false;
    for (size_t i = 0; i < KIND_COUNT; i++) {
        TableKind from = KINDS[i].table;
        size_t count = collect(&tables[from], group, KINDS[i].column, values);
        if (count < FEWEST_PLAYERS) {
            from = TABLE_WHOLE;
            count = collect(&tables[from], group, KINDS[i].column, values);
        }
        if (count < FEWEST_PLAYERS) {
            printf("%s: %s left out, %zu measured\n", group->profile, KINDS[i].id, count);
            continue;
        }
        fine |= from == TABLE_EIGHTHS;
        quantile_sort(values, count);
        put_measurable(out, KINDS[i].id, values, count);
    }
    return fine;
}

/* ---- players one by one ---- */

/* Kinds of the table of whole inches; returns how many. */
static size_t row_kinds(const Kind **kinds, const Table *table, int *columns) {
    size_t count = 0;
    for (size_t i = 0; i < KIND_COUNT; i++) {
        columns[count] = table_column(table, KINDS[i].column);
        if (columns[count] >= 0) kinds[count++] = &KINDS[i];
    }
    return count;
}

static bool has_any(const Table *table, size_t line, const int *columns, size_t count) {
    for (size_t i = 0; i < count; i++) {
        if (*table_cell(table, line, columns[i])) return true;
    }
    return false;
}

/* "QB 2014, round 3": what the table tells of a player without his name. */
static void put_row(Buf *out, const Table *table, size_t line, const int *columns, size_t count) {
    const char *round = table_cell(table, line, table_column(table, "draft_round"));
    buf_printf(out, "    <row id=\"%s\" label=\"%s %s%s%s\" values=\"",
               table_cell(table, line, table_column(table, "row")), table_cell(table, line, table_column(table, "pos")),
               table_cell(table, line, table_column(table, "season")), *round ? ", round " : "", round);
    for (size_t i = 0; i < count; i++) {
        const char *cell = table_cell(table, line, columns[i]);
        buf_printf(out, "%s%s", i ? " " : "", *cell ? cell : "-");
    }
    buf_puts(out, "\"/>\n");
}

static void put_rows(Buf *out, const Table *table, const Group *group) {
    const Kind *kinds[KIND_COUNT];
    int columns[KIND_COUNT];
    size_t count = row_kinds(kinds, table, columns);
    int position = table_column(table, "pos");
    buf_puts(out, "  <rows kinds=\"");
    for (size_t i = 0; i < count; i++) buf_printf(out, "%s%s", i ? " " : "", kinds[i]->id);
    buf_puts(out, "\">\n");
    for (size_t line = 1; line < table->lines; line++) {
        if (!has_word(group->positions, table_cell(table, line, position))) continue;
        if (has_any(table, line, columns, count)) put_row(out, table, line, columns, count);
    }
    buf_puts(out, "  </rows>\n");
}

/* ---- the files ---- */

static void write_scale(Arena *arena, const char *folder, const Group *group, const Buf *measurables,
                        const char *fine) {
    const char *path = arena_printf(arena, "%s/%s.xml", folder, group->profile);
    FILE *file = fopen(path, "wb");
    if (!file) die("cannot write", path);
    fprintf(
        file,
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<!-- Made by make_scales from every measured row of the positions %s as published, none dropped or repaired.\n"
        "     Quantiles are of type 7 (Hyndman and Fan 1996); inches, pounds, seconds, repetitions. -->\n"
        "<scale format=\"1\" id=\"%s\" name=\"%s measured %s\" profile=\"%s\" years=\"%s\"\n"
        "       source=\"%s%s\"\n       licence=\"%s\">\n",
        group->positions, group->profile, group->plural, YEARS, group->profile, YEARS, SOURCE, fine, LICENCE);
    fwrite(measurables->bytes, 1, measurables->length, file);
    fputs("</scale>\n", file);
    if (ferror(file) | fclose(file)) die("cannot write", path);
}

static void make(const char *data, const char *scales, bool rows) {
    Arena *arena = arena_new();
    Table tables[TABLE_COUNT] = {0};
    size_t most = 0;
    for (size_t i = 0; i < TABLE_COUNT; i++) {
        table_read(&tables[i], arena, data, FILES[i]);
        if (tables[i].lines > most) most = tables[i].lines;
    }
    double *values = ARENA_ARRAY(arena, most, double);
    Buf measurables = {0};
    for (size_t i = 0; i < GROUP_COUNT; i++) {
        measurables.length = 0;
        bool fine = put_measurables(&measurables, tables, &GROUPS[i], values);
        const char *source = !fine ? "" : rows ? SOURCE_FINE_OF_ROWS : SOURCE_FINE;
        if (rows && measurables.length) put_rows(&measurables, &tables[TABLE_WHOLE], &GROUPS[i]);
        if (measurables.length) write_scale(arena, scales, &GROUPS[i], &measurables, source);
    }
    buf_free(&measurables);
    for (size_t i = 0; i < TABLE_COUNT; i++) table_free(&tables[i]);
    arena_free(arena);
}

int main(int argc, char **argv) {
    bool rows = argc == 4 && strcmp(argv[1], "--rows") == 0;
    if (argc != 3 && !rows) {
        fputs("usage: make_scales [--rows] DATA-FOLDER SCALES-FOLDER\n", stderr);
        return 2;
    }
    make(argv[argc - 2], argv[argc - 1], rows);
    return 0;
}
