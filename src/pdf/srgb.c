#include "pdf/srgb.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum {
    HEADER_BYTES = 128,
    TAG_BYTES = 12,
    TAG_COUNT = 9,
    CURVE_POINTS = 256,
    VERSION = 0x02100000,
    DESCRIPTION_ROOM = 78 /* what a description holds after its ASCII text: Unicode and script code parts, empty */
};

typedef struct Matrix {
    double at[3][3];
} Matrix;

typedef struct Vector {
    double at[3];
} Vector;

/* IEC 61966-2-1:1999, table 1: chromaticities x, y of the primaries and of D65. */
static const double primaries[3][2] = {{.64, .33}, {.30, .60}, {.15, .06}};
static const double white[2] = {.3127, .3290};

/* ICC.1:2001-04, 6.1.11: the illuminant of the connection space. */
static const Vector D50 = {{.9642, 1, .8249}};

/* Cone responses after Bradford (K. M. Lam 1985), as ICC.1:2010, annex E, gives them. */
static const Matrix bradford = {{{.8951, .2664, -.1614}, {-.7502, 1.7135, .0367}, {.0389, -.0685, 1.0296}}};

static Vector from_chromaticity(const double xy[2]) {
    return (Vector){{xy[0] / xy[1], 1, (1 - xy[0] - xy[1]) / xy[1]}};
}

static Vector apply(const Matrix *matrix, Vector vector) {
    Vector result;
    for (int row = 0; row < 3; row++) {
        const double *at = matrix->at[row];
        result.at[row] = at[0] * vector.at[0] + at[1] * vector.at[1] + at[2] * vector.at[2];
    }
    return result;
}

/* By cofactors; the matrices here are far from singular. */
static Matrix inverse(const Matrix *matrix) {
    Matrix result;
    for (int row = 0; row < 3; row++) {
        for (int column = 0; column < 3; column++) {
            const double *below = matrix->at[(row + 1) % 3];
            const double *last = matrix->at[(row + 2) % 3];
            int right = (column + 1) % 3, far = (column + 2) % 3;
            result.at[column][row] = below[right] * last[far] - below[far] * last[right];
        }
    }
    double determinant = 0;
    for (int column = 0; column < 3; column++) determinant += matrix->at[0][column] * result.at[column][0];
    for (int cell = 0; cell < 9; cell++) result.at[cell / 3][cell % 3] /= determinant;
    return result;
}

/* Seen under D65, as it looks under D50. */
static Vector adapt(Vector colour) {
    Vector from = apply(&bradford, from_chromaticity(white));
    Vector to = apply(&bradford, D50);
    Vector cones = apply(&bradford, colour);
    for (int cone = 0; cone < 3; cone++) cones.at[cone] *= to.at[cone] / from.at[cone];
    Matrix back = inverse(&bradford);
    return apply(&back, cones);
}

/* The primary's tristimulus values in the connection space: each primary as strong as it takes for all to make white.
 */
static Vector colorant(int primary) {
    Matrix mixture;
    for (int column = 0; column < 3; column++) {
        Vector colour = from_chromaticity(primaries[column]);
        for (int row = 0; row < 3; row++) mixture.at[row][column] = colour.at[row];
    }
    Matrix unmix = inverse(&mixture);
    double strength = apply(&unmix, from_chromaticity(white)).at[primary];
    Vector colour = from_chromaticity(primaries[primary]);
    for (int row = 0; row < 3; row++) colour.at[row] *= strength;
    return adapt(colour);
}

/* IEC 61966-2-1:1999, 5.2: from the stored value to light, both 0..1. */
static double light_of(double stored) {
    return stored <= .04045 ? stored / 12.92 : pow((stored + .055) / 1.055, 2.4);
}

static void put_16(Buf *out, uint32_t value) {
    buf_putc(out, (char)(value >> 8));
    buf_putc(out, (char)value);
}

static void put_32(Buf *out, uint32_t value) {
    put_16(out, value >> 16);
    put_16(out, value);
}

static void put_zeros(Buf *out, size_t count) {
    if (!count) return;
    memset(buf_reserve(out, count), 0, count);
    out->length += count;
}

static void put_vector(Buf *out, Vector vector) {
    for (int at = 0; at < 3; at++) put_32(out, (uint32_t)lround(vector.at[at] * 65536));
}

static void put_colour(Buf *out, Vector vector) {
    BUF_PUT(out, "XYZ \0\0\0\0");
    put_vector(out, vector);
}

static void put_curve(Buf *out) {
    BUF_PUT(out, "curv\0\0\0\0");
    put_32(out, CURVE_POINTS);
    for (int point = 0; point < CURVE_POINTS; point++)
        put_16(out, (uint32_t)lround(light_of(point / (double)(CURVE_POINTS - 1)) * 65535));
}

static void put_description(Buf *out) {
    static const char name[] = "sRGB IEC61966-2.1";
    BUF_PUT(out, "desc\0\0\0\0");
    put_32(out, sizeof name);
    buf_put(out, name, sizeof name);
    put_zeros(out, DESCRIPTION_ROOM);
}

static void put_rights(Buf *out) {
    BUF_PUT(out, "text\0\0\0\0No rights reserved");
    buf_putc(out, '\0');
}

static void put_header(Buf *out, size_t size) {
    put_32(out, (uint32_t)size);
    put_zeros(out, 4);
    put_32(out, VERSION);
    BUF_PUT(out, "mntrRGB XYZ ");
    static const uint16_t date[6] = {2000, 1, 1, 0, 0, 0};
    for (int part = 0; part < 6; part++) put_16(out, date[part]);
    BUF_PUT(out, "acsp");
    put_zeros(out, 28);
    put_vector(out, D50);
    put_zeros(out, 48);
}

/* The data of a profile, each on a multiple of four, and where they are. */
typedef struct ProfileData {
    Buf bytes, table;
    size_t start; /* of the datum at work */
    uint32_t tags;
} ProfileData;

static void begin_datum(ProfileData *data) {
    put_zeros(&data->bytes, (4 - data->bytes.length % 4) % 4);
    data->start = data->bytes.length;
}

/* The datum at work is what `name` stands for. */
static void name_datum(ProfileData *data, const char *name) {
    buf_put(&data->table, name, 4);
    put_32(&data->table, (uint32_t)(HEADER_BYTES + 4 + TAG_COUNT * TAG_BYTES + data->start));
    put_32(&data->table, (uint32_t)(data->bytes.length - data->start));
    data->tags++;
}

static void put_data(ProfileData *data) {
    static const char *const colours[3] = {"rXYZ", "gXYZ", "bXYZ"};
    static const char *const curves[3] = {"rTRC", "gTRC", "bTRC"};
    begin_datum(data);
    put_description(&data->bytes);
    name_datum(data, "desc");
    begin_datum(data);
    put_rights(&data->bytes);
    name_datum(data, "cprt");
    begin_datum(data);
    put_colour(&data->bytes, D50);
    name_datum(data, "wtpt");
    for (int primary = 0; primary < 3; primary++) {
        begin_datum(data);
        put_colour(&data->bytes, colorant(primary));
        name_datum(data, colours[primary]);
    }
    begin_datum(data);
    put_curve(&data->bytes);
    for (int primary = 0; primary < 3; primary++) name_datum(data, curves[primary]);
}

void srgb_write(Buf *out) {
    ProfileData data = {0};
    put_data(&data);
    put_header(out, HEADER_BYTES + 4 + data.table.length + data.bytes.length);
    put_32(out, data.tags);
    buf_put(out, data.table.bytes, data.table.length);
    buf_put(out, data.bytes.bytes, data.bytes.length);
    buf_free(&data.table);
    buf_free(&data.bytes);
}
