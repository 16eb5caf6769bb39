/* The dossier as XML: games and snaps in order, one snap a line, fields in the profile's order. */
#include <string.h>

#include "base/text.h"
#include "source/import_parts.h"

/* ---- text ---- */

static void put_escaped(Buf *xml, const char *text) {
    static const struct {
        char byte;
        const char *written;
    } escapes[] = {{'&', "&amp;"}, {'<', "&lt;"},   {'>', "&gt;"},  {'"', "&quot;"},
                   {'\t', "&#9;"}, {'\n', "&#10;"}, {'\r', "&#13;"}};
    for (size_t plain; *text; text += plain) {
        plain = strcspn(text, "&<>\"\t\n\r");
        buf_put(xml, text, plain);
        if (!text[plain]) return;
        for (size_t i = 0; i < sizeof escapes / sizeof *escapes; i++) {
            if (escapes[i].byte == text[plain]) buf_puts(xml, escapes[i].written);
        }
        plain++;
    }
}

static void put_attribute(Buf *xml, const char *name, const char *value) {
    buf_printf(xml, " %s=\"", name);
    put_escaped(xml, value);
    BUF_PUT(xml, "\"");
}

/* `pattern` with `value` in the place of {}. */
static const char *expand(Import *import, const char *pattern, const char *value) {
    const char *hole = strstr(pattern, "{}");
    if (!hole) return pattern;
    return arena_printf(import->arena, "%.*s%s%s", (int)(hole - pattern), pattern, value, hole + strlen("{}"));
}

/* What an id may hold: letters, digits, _ and -. */
static const char *expand_id(Import *import, const char *pattern, const char *value) {
    Buf id = {0};
    const char *text = expand(import, pattern, value);
    for (bool first = true; *text; text++, first = false) {
        bool letter = (*text >= 'a' && *text <= 'z') || (*text >= 'A' && *text <= 'Z');
        bool other = (*text >= '0' && *text <= '9') || *text == '_' || *text == '-';
        if (first && !letter) buf_putc(&id, 'x');
        if (letter || other) buf_putc(&id, *text);
        if (!letter && !other && id.bytes[id.length - 1] != '-') buf_putc(&id, '-');
    }
    const char *copy = arena_copy(import->arena, id.bytes, id.length);
    buf_free(&id);
    return copy;
}

/* ---- the head ---- */

static void put_element(Buf *xml, const char *name, const char *text) {
    buf_printf(xml, "<%s>", name);
    put_escaped(xml, text);
    buf_printf(xml, "</%s>", name);
}

static void put_player(Import *import, const XmlNode *player, const char *one, Buf *xml) {
    BUF_PUT(xml, "  <player");
    put_attribute(xml, "position", xml_value(player, "position"));
    BUF_PUT(xml, ">\n    <name>");
    put_element(xml, "given", expand(import, xml_value(player, "given"), one));
    put_element(xml, "family", expand(import, xml_value(player, "family"), one));
    BUF_PUT(xml, "</name>\n    ");
    put_element(xml, "school", expand(import, xml_value(player, "school"), one));
    BUF_PUT(xml, "\n  </player>\n");
}

static void put_head(Import *import, Buf *xml) {
    const XmlNode *player = xml_child(import->map, "player");
    const XmlNode *filing = xml_child(import->map, "filing");
    bool has_one = import->one < import->table->column_count;
    const char *one = has_one ? table_cell(import->table, import->rows[0].row, import->one) : "";
    BUF_PUT(xml, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<dossier format=\"1\"");
    put_attribute(xml, "id", expand_id(import, xml_value(player, "id"), one));
    put_attribute(xml, "profile", import->profile->id);
    BUF_PUT(xml, ">\n");
    put_player(import, player, one, xml);
    BUF_PUT(xml, "  <filing");
    put_attribute(xml, "by", xml_value(filing, "by"));
    put_attribute(xml, "on", xml_value(filing, "on"));
    BUF_PUT(xml, " revision=\"1\">");
    put_escaped(xml, xml_text(import->arena, filing));
    BUF_PUT(xml, "</filing>\n");
}

/* ---- snaps ---- */

static bool put_snap(Import *import, const ChosenRow *chosen, Buf *value, Buf *xml) {
    bool good = true;
    buf_printf(xml, "      <snap n=\"%d\"", chosen->number);
    for (size_t i = 0; i < import->target_count; i++) {
        const MapTarget *target = &import->targets[i];
        bool charted;
        good = import_value(import, target, chosen->row, value, &charted) && good;
        if (charted) put_attribute(xml, import->profile->fields[target->field].id, buf_text(value));
    }
    BUF_PUT(xml, "/>\n");
    return good;
}

/* 2031-09-27; every year is taken to have a 29th of February, as the schema does. */
static bool is_date(const char *text) {
    static const char pattern[] = "dddd-dd-dd";
    static const int days[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (strlen(text) != strlen(pattern)) return false;
    for (size_t i = 0; pattern[i]; i++) {
        bool digit = text[i] >= '0' && text[i] <= '9';
        if (pattern[i] == 'd' ? !digit : text[i] != pattern[i]) return false;
    }
    int month = (text[5] - '0') * 10 + text[6] - '0';
    int day = (text[8] - '0') * 10 + text[9] - '0';
    return month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1];
}

static bool is_site(const char *text) {
    return text_equal(text, "home") || text_equal(text, "away") || text_equal(text, "neutral");
}

static const struct {
    const char *name;
    bool (*fits)(const char *text);
    const char *hint;
} game_attributes[] = {
    {"on", is_date, "it is a date such as 2031-09-27"},
    {"opponent", import_readable, "save the table as UTF-8"},
    {"site", is_site, "it is home, away or neutral"},
};

enum { GAME_ATTRIBUTES = sizeof game_attributes / sizeof game_attributes[0] };

/* The first of the game's rows that has something in the column; the first where none has. */
static size_t row_with(const Import *import, const ChosenRow *first, size_t column) {
    const ChosenRow *end = import->rows + import->row_count;
    for (const ChosenRow *row = first; row < end && row->game == first->game; row++) {
        if (table_cell(import->table, row->row, column)) return row->row;
    }
    return first->row;
}

/* What the game's rows have in the column that the map names for an attribute. */
static bool put_game_attribute(Import *import, const XmlNode *game, size_t index, const ChosenRow *first, Buf *xml) {
    const char *name = game_attributes[index].name;
    int column = xml_value(game, name) ? import_column(import, game, name) : -1;
    if (column < 0) return !xml_value(game, name);
    size_t row = row_with(import, first, (size_t)column);
    const char *cell = table_cell(import->table, row, (size_t)column);
    if (!cell) return true;
    if (!game_attributes[index].fits(cell)) {
        import_bad_cell(import, row, (size_t)column, game_attributes[index].hint, "'%s' of a game cannot be '%s'", name,
                        cell);
        return false;
    }
    put_attribute(xml, name, cell);
    return true;
}

/* Games whose values differ only in what an id cannot hold would become one. */
static bool put_game_id(Import *import, const XmlNode *game, size_t row, Buf *xml) {
    const char *pattern = xml_value(game, "id") ? xml_value(game, "id") : "g{}";
    const char *value = table_cell(import->table, row, import->game);
    const char *id = expand_id(import, pattern, value);
    put_attribute(xml, "id", id);
    int other = names_add(import->game_ids, id, (int)row);
    if (other < 0) return true;
    import_bad_cell(import, row, import->game, NULL, "game '%s' gets the id '%s' of the game in row %u", value, id,
                    (unsigned)import->table->numbers[other]);
    return false;
}

static bool open_game(Import *import, const ChosenRow *first, Buf *xml) {
    const XmlNode *game = xml_child(import->map, "game");
    const XmlNode *chart = xml_child(import->map, "chart");
    BUF_PUT(xml, "  <game");
    bool good = put_game_id(import, game, first->row, xml);
    for (size_t i = 0; i < GAME_ATTRIBUTES; i++) good = put_game_attribute(import, game, i, first, xml) && good;
    BUF_PUT(xml, ">\n    <chart");
    put_attribute(xml, "by", xml_value(chart, "by"));
    if (xml_value(chart, "marks")) put_attribute(xml, "marks", xml_value(chart, "marks"));
    BUF_PUT(xml, ">\n");
    return good;
}

static bool put_games(Import *import, Buf *xml) {
    bool good = true;
    Buf value = {0};
    import->game_ids = names_new(import->arena, import->game_count);
    for (size_t i = 0; i < import->row_count; i++) {
        const ChosenRow *row = &import->rows[i];
        bool opens = i == 0 || row->game != row[-1].game;
        if (opens && i > 0) BUF_PUT(xml, "    </chart>\n  </game>\n");
        if (opens) good = open_game(import, row, xml) && good;
        good = put_snap(import, row, &value, xml) && good;
    }
    BUF_PUT(xml, "    </chart>\n  </game>\n");
    buf_free(&value);
    return good;
}

bool import_write(Import *import, Buf *xml) {
    put_head(import, xml);
    bool good = put_games(import, xml);
    BUF_PUT(xml, "  <bottom-line><p>");
    put_escaped(xml, xml_text(import->arena, xml_child(import->map, "bottom-line")));
    BUF_PUT(xml, "</p></bottom-line>\n</dossier>\n");
    return good;
}
