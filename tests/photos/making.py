"""Picture files for the tests: small, made on the spot, full of things that must not get out."""

import struct
import zlib
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageCms, PngImagePlugin

__all__ = [
    "COLOURS",
    "GPS_MARKS",
    "SECRETS",
    "as_bytes",
    "corners",
    "jpeg_full_of_secrets",
    "png_claiming",
    "png_full_of_secrets",
    "wide_profile",
]

SECRETS = tuple(
    line
    for line in (Path(__file__).parent / "secrets.txt").read_text(encoding="ascii").splitlines()
    if line and not line.startswith("#")
)
GPS_MARKS = (struct.pack(">LLLL", 61, 1, 30, 1), struct.pack("<LLLL", 61, 1, 30, 1))
"""The made-up latitude as Exif writes it."""

COLOURS = {"tl": (220, 30, 30), "tr": (30, 200, 40), "bl": (40, 60, 220), "br": (240, 220, 40)}


def corners(width: int = 640, height: int = 400) -> Image.Image:
    """Return a picture whose four quarters have four colours."""
    image = Image.new("RGB", (width, height))
    w, h = width // 2, height // 2
    for name, (x, y) in {"tl": (0, 0), "tr": (w, 0), "bl": (0, h), "br": (w, h)}.items():
        image.paste(COLOURS[name], (x, y, width if x else w, height if y else h))
    return image


def as_bytes(image: Image.Image, kind: str = "JPEG", **options: object) -> bytes:
    """Return a picture as a file."""
    out = BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def jpeg_full_of_secrets(image: Image.Image | None = None, *, orientation: int = 1) -> bytes:
    """Return a JPEG with a secret in every place where a camera or a program can put one."""
    shown = image or corners()
    body = b"Photoshop 3.0\x00" + _iptc(SECRETS[6])
    extra = b"\xff\xed" + struct.pack(">H", len(body) + 2) + body
    xmp = f"<x:xmpmeta xmlns:x='adobe:ns:meta/'><a>{SECRETS[5]}</a></x:xmpmeta>".encode()
    data = as_bytes(
        shown,
        quality=95,
        exif=_exif(orientation),
        xmp=xmp,
        comment=SECRETS[4].encode(),
        extra=extra,
    )
    return data + SECRETS[8].encode()


def png_full_of_secrets() -> bytes:
    """Return a PNG with secrets in text chunks, Exif and behind the end."""
    text = PngImagePlugin.PngInfo()
    text.add_text("Author", SECRETS[7])
    text.add_itxt("XML:com.adobe.xmp", SECRETS[5])
    text.add_text("Comment", SECRETS[4], zip=True)
    data = as_bytes(corners(), "PNG", pnginfo=text, exif=_exif(1))
    return data + SECRETS[8].encode()


def png_claiming(width: int, height: int) -> bytes:
    """Return a small PNG whose head claims this size, black all over."""
    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    packer = zlib.compressobj(9)
    line = b"\0" * (width + 1)
    rows = b"".join(packer.compress(line) for _ in range(height)) + packer.flush()
    return (
        b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", head) + _chunk(b"IDAT", rows) + _chunk(b"IEND", b"")
    )


def _chunk(kind: bytes, data: bytes) -> bytes:
    check = zlib.crc32(kind + data)
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", check)


def _iptc(words: str) -> bytes:
    record = b"\x1c\x02\x50" + struct.pack(">H", len(words)) + words.encode()
    return b"8BIM\x04\x04\x00\x00" + struct.pack(">I", len(record)) + record


def _exif(orientation: int) -> bytes:
    """Return Exif written by hand (TIFF 6.0, big-endian): Pillow cannot write a thumbnail."""
    thumbnail = as_bytes(Image.new("RGB", (40, 30), (9, 9, 9)), comment=SECRETS[9].encode())
    texts = {0x013B: SECRETS[0], 0x010F: "Skarvoptik"}
    inner_texts = {0x9003: "2026:08:09 11:20:00", 0xA431: SECRETS[1]}
    heap = bytearray()
    start = 2 + 12 * 5 + 4 + 2 + 12 * 3 + 4 + 2 + 12 * 2 + 4 + 2 + 12 * 2 + 4 + 8

    def put(data: bytes) -> int:
        place = start + len(heap)
        heap.extend(data + b"\0" * (len(data) % 2))
        return place

    def text(tag: int, words: str) -> bytes:
        return struct.pack(">HHLL", tag, 2, len(words) + 1, put(words.encode() + b"\0"))

    first = 8
    inner = first + 2 + 12 * 5 + 4
    gps = inner + 2 + 12 * 3 + 4
    second = gps + 2 + 12 * 2 + 4
    entries = [text(0x010F, texts[0x010F])]
    entries.append(struct.pack(">HHLHH", 0x0112, 3, 1, orientation, 0))
    entries.append(text(0x013B, texts[0x013B]))
    entries.append(struct.pack(">HHLL", 0x8769, 4, 1, inner))
    entries.append(struct.pack(">HHLL", 0x8825, 4, 1, gps))
    in_inner = [text(0x9003, inner_texts[0x9003])]
    note = SECRETS[2].encode()
    in_inner.append(struct.pack(">HHLL", 0x927C, 7, len(note), put(note)))
    in_inner.append(text(0xA431, inner_texts[0xA431]))
    latitude = put(struct.pack(">LLLLLL", 61, 1, 30, 1, 0, 1))
    area = b"ASCII\0\0\0" + SECRETS[3].encode()
    in_gps = [struct.pack(">HHLL", 2, 5, 3, latitude)]
    in_gps.append(struct.pack(">HHLL", 0x1C, 7, len(area), put(area)))
    at = put(thumbnail)
    in_second = [
        struct.pack(">HHLL", 0x0201, 4, 1, at),
        struct.pack(">HHLL", 0x0202, 4, 1, len(thumbnail)),
    ]
    ifds = b"".join(
        struct.pack(">H", len(rows)) + b"".join(rows) + struct.pack(">L", after)
        for rows, after in ((entries, second), (in_inner, 0), (in_gps, 0), (in_second, 0))
    )
    return b"Exif\0\0MM\0*" + struct.pack(">L", first) + ifds + bytes(heap)


def wide_profile() -> bytes:
    """Return a colour profile like Adobe RGB (1998): its primaries, D50-adapted, and gamma 2.2.

    Written by hand after ICC.1:2010; the numbers are those of the published Adobe RGB (1998)
    colour image encoding, annex C, from memory.
    """
    xyz = {
        b"rXYZ": (0.60974, 0.31111, 0.01947),
        b"gXYZ": (0.20528, 0.62567, 0.06087),
        b"bXYZ": (0.14919, 0.06322, 0.74457),
        b"wtpt": (0.95045, 1.0, 1.08905),
    }
    tags = {name: b"XYZ \0\0\0\0" + b"".join(map(_fixed, value)) for name, value in xyz.items()}
    curve = b"curv\0\0\0\0" + struct.pack(">LH", 1, round(2.19921875 * 256)) + b"\0\0"
    tags |= dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), curve)
    words = b"wide\0"
    tags[b"desc"] = b"desc\0\0\0\0" + struct.pack(">L", len(words)) + words + b"\0" * 79
    tags[b"cprt"] = b"text\0\0\0\0none\0"
    table, heap = struct.pack(">L", len(tags)), b""
    start = 128 + 4 + 12 * len(tags)
    for name, data in tags.items():
        padded = data + b"\0" * (-len(data) % 4)
        table += name + struct.pack(">LL", start + len(heap), len(data))
        heap += padded
    white = b"".join(map(_fixed, (0.9642, 1.0, 0.82491)))
    head = bytearray(128)
    head[0:4] = struct.pack(">L", start + len(heap))
    head[8:24] = b"\x02\x10\0\0mntrRGB XYZ "
    head[36:40] = b"acsp"
    head[68:80] = white
    profile = bytes(head) + table + heap
    ImageCms.ImageCmsProfile(BytesIO(profile))  # readable, or the test would prove nothing
    return profile


def _fixed(value: float) -> bytes:
    return struct.pack(">l", round(value * 65536))
