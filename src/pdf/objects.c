#include "pdf/objects.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "pdf/press.h"
#include "pdf/syntax.h"

enum {
    OBJECTS_PER_STREAM = 800,
    WRITE_BYTES = 64 * 1024,
    FIRST_LOCATIONS = 4096,
    ROW_BYTES = 7,          /* of the cross-reference stream: a byte of kind, four of place, two of index */
    PREDICTOR_UP = 2,       /* PNG filter type */
    FREE_GENERATION = 65535 /* of object 0 */
};

typedef enum LocationKind { LOCATION_FREE, LOCATION_OFFSET, LOCATION_PACKED } LocationKind;

typedef struct Location {
    uint32_t place; /* OFFSET: bytes from the start; PACKED: number of the object stream */
    uint16_t index; /* PACKED: within it */
    uint8_t kind;
} Location;

struct Objects {
    FileWriter *writer;
    Haru *haru;
    Press *press;
    Location *locations; /* by object number */
    size_t location_room;
    Buf out;     /* on its way to the writer */
    uint64_t at; /* bytes put out so far */
    Buf head, body, packed;
    uint32_t stream; /* number of the object stream being filled */
    uint16_t count;  /* objects in it */
    int error;       /* errno of the first failed write, or 0 */
};

static void flush(Objects *objects) {
    if (objects->error || !objects->out.length) return;
    haru_digest_add(objects->haru, objects->out.bytes, objects->out.length);
    if (!file_write(objects->writer, objects->out.bytes, objects->out.length)) objects->error = errno ? errno : EIO;
    objects->out.length = 0;
}

static void put(Objects *objects, const void *bytes, size_t length) {
    buf_put(&objects->out, bytes, length);
    objects->at += length;
    if (objects->out.length >= WRITE_BYTES) flush(objects);
}

Objects *objects_new(FileWriter *writer, Haru *haru) {
    static const char head[] = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n";
    Objects *objects = mem_alloc(sizeof(Objects));
    objects->writer = writer;
    objects->haru = haru;
    objects->press = press_new();
    put(objects, head, sizeof head - 1);
    return objects;
}

void objects_free(Objects *objects) {
    if (!objects) return;
    press_free(objects->press);
    buf_free(&objects->out);
    buf_free(&objects->head);
    buf_free(&objects->body);
    buf_free(&objects->packed);
    free(objects->locations);
    free(objects);
}

uint32_t objects_reserve(Objects *objects) {
    return haru_reserve(objects->haru);
}

static Location *location_of(Objects *objects, uint32_t number) {
    if (number >= objects->location_room) {
        size_t room = objects->location_room ? objects->location_room : FIRST_LOCATIONS;
        while (room <= number) room *= 2;
        objects->locations = mem_resize(objects->locations, room * sizeof(Location));
        memset(objects->locations + objects->location_room, 0, (room - objects->location_room) * sizeof(Location));
        objects->location_room = room;
    }
    return &objects->locations[number];
}

static void write_piece(Objects *objects, const Piece *piece) {
    static const char end[] = "\nendstream\nendobj\n";
    const Buf *data = piece->deflated ? &piece->squeezed : &piece->data;
    if (objects->error) return;
    if (objects->at > UINT32_MAX) objects->error = EFBIG;
    *location_of(objects, piece->number) = (Location){(uint32_t)objects->at, 0, LOCATION_OFFSET};
    Buf *out = &objects->out;
    size_t before = out->length;
    syntax_unsigned(out, piece->number);
    BUF_PUT(out, " 0 obj\n<<");
    buf_put(out, piece->entries.bytes, piece->entries.length);
    if (piece->deflated) BUF_PUT(out, "/Filter/FlateDecode");
    BUF_PUT(out, "/Length ");
    syntax_unsigned(out, data->length);
    BUF_PUT(out, ">>stream\n");
    objects->at += out->length - before;
    put(objects, data->bytes, data->length);
    put(objects, end, sizeof end - 1);
}

/* Writes what has come out of the press, all of it when `wait`. */
static void write_pieces(Objects *objects, bool wait) {
    for (const Piece *piece; (piece = press_take(objects->press, wait));) write_piece(objects, piece);
}

void objects_stream(Objects *objects, uint32_t number, StreamKind kind, const char *entries, const Buf *data) {
    Piece *piece;
    while (!(piece = press_next(objects->press))) write_piece(objects, press_take(objects->press, true));
    piece->number = number;
    piece->deflated = kind == STREAM_DEFLATED;
    buf_puts(&piece->entries, entries);
    buf_put(&piece->data, data->bytes, data->length);
    press_put(objects->press);
    write_pieces(objects, false);
}

static void flush_packed(Objects *objects) {
    if (!objects->count) return;
    Buf entries = {0};
    buf_printf(&entries, "/Type/ObjStm/N %u/First %zu", (unsigned)objects->count, objects->head.length);
    objects->packed.length = 0;
    buf_put(&objects->packed, objects->head.bytes, objects->head.length);
    buf_put(&objects->packed, objects->body.bytes, objects->body.length);
    objects_stream(objects, objects->stream, STREAM_DEFLATED, buf_text(&entries), &objects->packed);
    objects->head.length = objects->body.length = 0;
    objects->count = 0;
    buf_free(&entries);
}

Buf *objects_open(Objects *objects, uint32_t number) {
    if (objects->count == OBJECTS_PER_STREAM) flush_packed(objects);
    if (!objects->count) objects->stream = objects_reserve(objects);
    *location_of(objects, number) = (Location){objects->stream, objects->count++, LOCATION_PACKED};
    syntax_unsigned(&objects->head, number);
    buf_putc(&objects->head, ' ');
    syntax_unsigned(&objects->head, objects->body.length);
    buf_putc(&objects->head, ' ');
    return &objects->body;
}

void objects_close(Objects *objects) {
    buf_putc(&objects->body, '\n');
}

static void pack_the_rest(Objects *objects) {
    size_t count = haru_object_count(objects->haru);
    for (size_t index = 0; index < count; index++) {
        uint32_t number = haru_object(objects->haru, index);
        if (!number || location_of(objects, number)->kind != LOCATION_FREE) continue;
        haru_write_object(objects->haru, index, objects_open(objects, number));
        objects_close(objects);
    }
    flush_packed(objects);
}

static void put_row(Buf *rows, const Location *location, bool first, unsigned char previous[ROW_BYTES]) {
    uint32_t place = location->place;
    uint16_t index = first ? FREE_GENERATION : location->index;
    unsigned char row[ROW_BYTES] = {
        location->kind,       (unsigned char)(place >> 24), (unsigned char)(place >> 16), (unsigned char)(place >> 8),
        (unsigned char)place, (unsigned char)(index >> 8),  (unsigned char)index};
    buf_putc(rows, PREDICTOR_UP);
    for (int at = 0; at < ROW_BYTES; at++) buf_putc(rows, (char)(row[at] - previous[at]));
    memcpy(previous, row, sizeof row);
}

static void put_rows(Objects *objects, uint32_t size, Buf *rows) {
    unsigned char previous[ROW_BYTES] = {0};
    for (uint32_t number = 0; number < size; number++)
        put_row(rows, location_of(objects, number), number == 0, previous);
}

/* Trailer entries; the file identifier is a digest of everything before the cross-reference stream. */
static void put_trailer(Objects *objects, uint32_t size, Buf *entries) {
    unsigned char digest[HARU_DIGEST_BYTES];
    flush(objects);
    haru_digest_take(objects->haru, digest);
    buf_printf(entries, "/Type/XRef/W[1 4 2]/DecodeParms<</Predictor 12/Columns %d>>/Size %u/Root ", (int)ROW_BYTES,
               size);
    syntax_reference(entries, haru_catalog(objects->haru));
    BUF_PUT(entries, "/Info ");
    syntax_reference(entries, haru_info(objects->haru));
    BUF_PUT(entries, "/ID[");
    for (int copy = 0; copy < 2; copy++) {
        buf_putc(entries, '<');
        syntax_hex(entries, digest, sizeof digest);
        buf_putc(entries, '>');
    }
    buf_putc(entries, ']');
}

static void put_cross_references(Objects *objects) {
    Buf entries = {0};
    Buf rows = {0};
    uint32_t number = objects_reserve(objects);
    uint64_t start = objects->at;
    *location_of(objects, number) = (Location){(uint32_t)start, 0, LOCATION_OFFSET};
    put_trailer(objects, number + 1, &entries);
    put_rows(objects, number + 1, &rows);
    objects_stream(objects, number, STREAM_DEFLATED, buf_text(&entries), &rows);
    write_pieces(objects, true);
    buf_printf(&objects->out, "startxref\n%llu\n%%%%EOF\n", (unsigned long long)start);
    flush(objects);
    buf_free(&entries);
    buf_free(&rows);
}

bool objects_finish(Objects *objects) {
    if (objects->error) {
        errno = objects->error;
        return false;
    }
    pack_the_rest(objects);
    write_pieces(objects, true);
    put_cross_references(objects);
    if (!objects->error && press_failed(objects->press)) objects->error = ENOMEM;
    errno = objects->error;
    return objects->error == 0;
}
