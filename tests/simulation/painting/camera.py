"""A picture as a camera leaves it: turned, compressed, and full of things about its owner.

What is planted here must never be found in a published picture; the secret words are listed in
`tests/photos/secrets.txt`, where the tests of the published pictures read them too.
"""

from io import BytesIO
from pathlib import Path

from PIL import ExifTags, Image
from PIL.TiffImagePlugin import IFDRational

from simulation.painting.light import Array

__all__ = ["SECRETS", "as_camera_file"]

SECRETS = tuple(
    line
    for line in (Path(__file__).parents[2] / "photos" / "secrets.txt")
    .read_text(encoding="ascii")
    .splitlines()
    if line and not line.startswith("#")
)

_TO_STORED = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}
"""How a picture is turned before it is stored, so that its orientation turns it back (TIFF 6.0,
tag 274)."""


def as_camera_file(pixels: Array, *, taken: str, orientation: int, bare: bool) -> bytes:
    """Return the bytes of a JPEG file."""
    image = Image.fromarray(pixels)
    if orientation != 1:
        image = image.transpose(_TO_STORED[orientation])
    out = BytesIO()
    if bare:
        image.save(out, "JPEG", quality=82, optimize=True)
        return out.getvalue()
    image.save(
        out,
        "JPEG",
        quality=82,
        optimize=True,
        exif=_exif(taken, orientation),
        xmp=_xmp(),
        comment=SECRETS[4].encode(),
        extra=_iptc(),
    )
    return out.getvalue()


def _exif(taken: str, orientation: int) -> bytes:
    exif = Image.Exif()
    exif[ExifTags.Base.Make] = "Skarvoptik"
    exif[ExifTags.Base.Model] = "Skarv M2 close-up"
    exif[ExifTags.Base.Orientation] = orientation
    exif[ExifTags.Base.Artist] = SECRETS[0]
    inner = exif.get_ifd(ExifTags.IFD.Exif)
    inner[ExifTags.Base.DateTimeOriginal] = taken
    inner[ExifTags.Base.FNumber] = IFDRational(8, 1)
    inner[ExifTags.Base.ExposureTime] = IFDRational(1, 160)
    inner[ExifTags.Base.BodySerialNumber] = SECRETS[1]
    inner[ExifTags.Base.MakerNote] = SECRETS[2].encode()
    # A made-up place out at sea, 61.5 N 1.25 E.
    where = exif.get_ifd(ExifTags.IFD.GPSInfo)
    where[ExifTags.GPS.GPSLatitudeRef] = "N"
    where[ExifTags.GPS.GPSLatitude] = (61.0, 30.0, 0.0)
    where[ExifTags.GPS.GPSLongitudeRef] = "E"
    where[ExifTags.GPS.GPSLongitude] = (1.0, 15.0, 0.0)
    where[ExifTags.GPS.GPSAreaInformation] = SECRETS[3].encode()
    return exif.tobytes()


def _xmp() -> bytes:
    return (
        '<?xpacket begin="" id="W5M0MpCehiHzreSzNTczkc9d"?><x:xmpmeta xmlns:x="adobe:ns:meta/">'
        '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description '
        'xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:creator><rdf:Seq><rdf:li>'
        f"{SECRETS[5]}</rdf:li></rdf:Seq></dc:creator></rdf:Description></rdf:RDF></x:xmpmeta>"
        '<?xpacket end="w"?>'
    ).encode()


def _iptc() -> bytes:
    """Return an APP13 segment with an IPTC by-line (IIM 4.2, record 2, data set 80)."""
    name = SECRETS[6].encode()
    record = b"\x1c\x02\x50" + len(name).to_bytes(2, "big") + name
    block = b"8BIM\x04\x04\x00\x00" + len(record).to_bytes(4, "big") + record
    body = b"Photoshop 3.0\x00" + block + b"\x00" * (len(block) % 2)
    return b"\xff\xed" + (len(body) + 2).to_bytes(2, "big") + body
