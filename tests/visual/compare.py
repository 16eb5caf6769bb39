"""Two pictures of a page, grey: are they the same but for what another version of the renderer makes of an edge?

    compare.py [-u] EXPECTED.png GOT.pgm

Both are cut into squares of BLOCK pixels, and the mean grey of each square compared: a line of text that moved, a figure that
is missing or cut changes many squares by much; hinting and smoothing change all of them by a little. With -u the expected
picture is written anew. Prints what differs and exits with 1."""
import struct
import sys
import zlib

BLOCK = 6          # pixels; at 50 dpi a line of text is about 8 high
TOLERANCE = 36     # of 255, for the mean of a square
MOST = 0.004       # share of the squares that may be farther off
LEVELS = 16        # of grey in the pictures that are kept


def read_pgm(path):
    data = open(path, "rb").read()
    magic, size, depth, pixels = data.split(b"\n", 3)
    if magic != b"P5" or depth != b"255":
        sys.exit(path + ": not a grey picture of a byte a pixel")
    width, height = map(int, size.split())
    return width, height, pixels


def chunk(kind, data):
    body = kind + data
    return struct.pack(">I", len(data)) + body + struct.pack(">I", zlib.crc32(body))


def write_png(path, width, height, pixels):
    """Four bits a pixel."""
    rows = bytearray()
    for top in range(0, width * height, width):
        row = [pixel * (LEVELS - 1) // 255 for pixel in pixels[top:top + width]] + [0] * (width % 2)
        rows += b"\0" + bytes(row[at] << 4 | row[at + 1] for at in range(0, len(row), 2))
    header = struct.pack(">IIBBBBB", width, height, 4, 0, 0, 0, 0)
    with open(path, "wb") as out:
        out.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(bytes(rows), 9)) +
                  chunk(b"IEND", b""))


def read_png(path):
    """A picture that write_png wrote."""
    data = open(path, "rb").read()
    width, height = struct.unpack(">II", data[16:24])
    at, packed = 8, b""
    while at < len(data):
        length, kind = struct.unpack(">I4s", data[at:at + 8])
        if kind == b"IDAT":
            packed += data[at + 8:at + 8 + length]
        at += length + 12
    rows, stride, pixels = zlib.decompress(packed), (width + 1) // 2 + 1, bytearray()
    for top in range(0, stride * height, stride):
        row = bytearray()
        for byte in rows[top + 1:top + stride]:
            row += bytes((byte >> 4, byte & 15))
        pixels += bytes(level * 255 // (LEVELS - 1) for level in row[:width])
    return width, height, bytes(pixels)


def means(width, height, pixels):
    squares = {}
    for top in range(0, height, BLOCK):
        for left in range(0, width, BLOCK):
            total = count = 0
            for y in range(top, min(top + BLOCK, height)):
                row = pixels[y * width + left:y * width + min(left + BLOCK, width)]
                total += sum(row)
                count += len(row)
            squares[left, top] = total / count
    return squares


def main():
    update = sys.argv[1] == "-u"
    expected, got = sys.argv[-2:]
    width, height, pixels = read_pgm(got)
    if update:
        write_png(expected, width, height, pixels)
        return
    was = read_png(expected)
    if was[:2] != (width, height):
        sys.exit(f"{width} by {height} pixels, not {was[0]} by {was[1]}")
    before, after = means(*was), means(width, height, pixels)
    off = [place for place in before if abs(before[place] - after[place]) > TOLERANCE]
    if len(off) > MOST * len(before):
        left, top = min(off, key=lambda place: (place[1], place[0]))
        sys.exit(f"{len(off)} of {len(before)} squares differ, the first {left * 72 // 50} points from the left, "
                 f"{top * 72 // 50} from the top")


if __name__ == "__main__":
    main()
