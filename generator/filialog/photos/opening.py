"""Opening a picture that nobody vouches for: upright, in sRGB, or a named problem.

A file is opened only as one of four formats, whatever its name says, and never with more pixels
than `MAX_PIXELS`. No exception leaves this module.
"""

import re
import warnings
from datetime import date
from functools import cache
from io import BytesIO
from typing import TYPE_CHECKING

from filialog.photos.values import PictureFacts, PictureProblem, ProblemKind

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["MAX_PIXELS", "MAX_SIDE", "Opened", "examine_picture", "open_picture"]

MAX_PIXELS = 100_000_000
"""Pixels of the largest picture that is opened; 300 MB when decoded."""
MAX_SIDE = 30_000
"""Pixels of the longest side; JPEG holds 65,535 (ITU-T T.81, B.2.2)."""

_KINDS = {"JPEG": "jpeg", "MPO": "jpeg", "PNG": "png", "WEBP": "webp", "AVIF": "avif"}
_OTHER_KINDS = (
    (re.compile(rb"GIF8"), "GIF"),
    (re.compile(rb"BM.{4}\0\0\0\0", re.DOTALL), "BMP"),
    (re.compile(rb"II\*\0|MM\0\*"), "TIFF"),
    (re.compile(rb"....ftyp(?:hei[cxms]|hev[cxms]|mif1|msf1)", re.DOTALL), "HEIC"),
    (re.compile(rb"....ftyp(?!avi[fs])", re.DOTALL), "video"),
    (re.compile(rb"%!PS"), "EPS"),
    (re.compile(rb"%PDF"), "PDF"),
    (re.compile(rb"\0\0\0\x0cjP  |\xff\x4f\xff\x51"), "JPEG 2000"),
    (re.compile(rb"\xff\x0a|\0\0\0\x0cJXL "), "JPEG XL"),
    (re.compile(rb"(?:\xef\xbb\xbf)?\s*<.*<svg|(?:\xef\xbb\xbf)?\s*<svg", re.DOTALL), "SVG"),
)
"""How files of other kinds begin, to tell the keeper what was found. From memory."""

_ORIENTATION, _EXIF_IFD, _DATE_TAKEN = 0x0112, 0x8769, 0x9003
"""Tags of TIFF 6.0 and Exif 2.32 (CIPA DC-008), from memory."""
_DAY = re.compile(r"(\d{4})[:-](\d{2})[:-](\d{2})(?:\D|$)")


class Opened:
    """A decoded picture: upright, RGB in sRGB, free of everything else in the file."""

    __slots__ = ("facts", "image")

    def __init__(self, image: "Image", facts: PictureFacts) -> None:
        self.image = image
        self.facts = facts


def examine_picture(data: bytes) -> PictureFacts | PictureProblem:
    """Tell what a picture is, or why it cannot be shown; it is decoded to the end for that."""
    opened = open_picture(data)
    return opened if isinstance(opened, PictureProblem) else opened.facts


def open_picture(data: bytes) -> Opened | PictureProblem:
    """Decode a picture, turn it upright and convert it to sRGB."""
    if not data:
        return PictureProblem(kind=ProblemKind.EMPTY)
    _set_up()
    found = _decode(data)
    if isinstance(found, PictureProblem):
        return found
    try:
        orientation, taken = _said_by_camera(found)
        upright = _upright(found, orientation)
        image = _in_srgb(upright, found.info.get("icc_profile"))
        kind = _KINDS[found.format or ""]
    except Exception:  # noqa: BLE001, RUF100 - decoders raise anything on damaged files
        return PictureProblem(kind=ProblemKind.DAMAGED)
    facts = PictureFacts(kind=kind, width=image.width, height=image.height, taken=taken)
    return Opened(image, facts)


def _set_up() -> None:
    """Make Pillow refuse large pictures and say nothing; both hold for the whole process.

    Every time, since the list of filters may have been put back meanwhile; a filter that is there
    already is not added again. `catch_warnings` would not do: it is not safe among threads.
    """
    from PIL import Image  # noqa: PLC0415 - heavy

    Image.MAX_IMAGE_PIXELS = MAX_PIXELS
    # A camera's faulty notes are none of the keeper's business: they are not published.
    warnings.filterwarnings("ignore", module=r"PIL\.")
    warnings.simplefilter("error", Image.DecompressionBombWarning)


def _decode(data: bytes) -> "Image | PictureProblem":
    from PIL import Image, UnidentifiedImageError  # noqa: PLC0415 - heavy

    try:
        image = Image.open(BytesIO(data), formats=_formats())
        size = f"{image.width} × {image.height}"
        if image.width * image.height > MAX_PIXELS:
            return PictureProblem(kind=ProblemKind.TOO_MANY_PIXELS, found=size)
        if max(image.size) > MAX_SIDE:
            return PictureProblem(kind=ProblemKind.TOO_LONG, found=size)
        image.load()
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        return PictureProblem(kind=ProblemKind.TOO_MANY_PIXELS)
    except UnidentifiedImageError:
        return _unidentified(data)
    except Exception as error:  # noqa: BLE001, RUF100 - decoders raise anything on damaged files
        cut = "truncated" in str(error) or "unexpected end" in str(error).casefold()
        return PictureProblem(kind=ProblemKind.CUT_OFF if cut else ProblemKind.DAMAGED)
    return image


@cache
def _formats() -> tuple[str, ...]:
    from PIL import features  # noqa: PLC0415 - heavy

    optional = tuple(name for name in ("WEBP", "AVIF") if features.check(name.lower()))
    return ("JPEG", "PNG", *optional)


def _unidentified(data: bytes) -> PictureProblem:
    head = data[:1024]
    for pattern, name in _OTHER_KINDS:
        if pattern.match(head):
            return PictureProblem(kind=ProblemKind.OTHER_KIND, found=name)
    begins = (b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")
    if head.startswith(begins) or (head[:4] == b"RIFF" and head[8:12] == b"WEBP"):
        return PictureProblem(kind=ProblemKind.DAMAGED)
    if re.match(rb"....ftypavi[fs]", head, re.DOTALL):
        if "AVIF" in _formats():
            return PictureProblem(kind=ProblemKind.DAMAGED)
        return PictureProblem(kind=ProblemKind.OTHER_KIND, found="AVIF")
    return PictureProblem(kind=ProblemKind.NOT_A_PICTURE)


def _said_by_camera(image: "Image") -> tuple[object, date | None]:
    """Return orientation and day; what cannot be read was not said."""
    try:
        exif = image.getexif()
        orientation = exif.get(_ORIENTATION, 1)
        written = exif.get_ifd(_EXIF_IFD).get(_DATE_TAKEN, "")
    except Exception:  # noqa: BLE001, RUF100 - metadata may be anything at all
        return 1, None
    return orientation, _day(str(written))


def _day(written: str) -> date | None:
    match = _DAY.match(written.strip())
    try:
        return date(*(int(part) for part in match.groups())) if match else None
    except ValueError:  # a clock that was never set says 0000:00:00
        return None


def _upright(image: "Image", orientation: object) -> "Image":
    from PIL.Image import Transpose  # noqa: PLC0415 - heavy

    turns = {
        2: Transpose.FLIP_LEFT_RIGHT,
        3: Transpose.ROTATE_180,
        4: Transpose.FLIP_TOP_BOTTOM,
        5: Transpose.TRANSPOSE,
        6: Transpose.ROTATE_270,
        7: Transpose.TRANSVERSE,
        8: Transpose.ROTATE_90,
    }
    turn = turns.get(orientation) if isinstance(orientation, int) else None
    return image if turn is None else image.transpose(turn)


def _in_srgb(image: "Image", profile: bytes | None) -> "Image":
    """Return the picture on a fresh canvas; what shines through is laid on white."""
    from PIL import Image  # noqa: PLC0415 - heavy

    if image.mode.startswith("I"):  # sixteen bits of grey; Pillow would clip, not scale
        image = image.convert("I").point(lambda value: value / 257).convert("L")
    clear = None
    if image.mode in {"LA", "La", "RGBA", "RGBa", "PA"} or "transparency" in image.info:
        image = image.convert("RGBA")
        clear = image.getchannel("A")
    elif image.mode not in {"L", "RGB", "CMYK", "LAB"}:
        image = image.convert("RGB")
    flat = image.convert("RGB") if clear is not None else image
    coloured = _converted(flat, profile)
    canvas = Image.new("RGB", coloured.size, (255, 255, 255))
    canvas.paste(coloured, mask=clear)
    return canvas


def _converted(image: "Image", profile: bytes | None) -> "Image":
    if profile:
        from PIL import ImageCms  # noqa: PLC0415 - heavy

        try:
            source = ImageCms.ImageCmsProfile(BytesIO(profile))
            changed = ImageCms.profileToProfile(
                image,
                source,
                ImageCms.createProfile("sRGB"),
                renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
                outputMode="RGB",
                flags=ImageCms.Flags.BLACKPOINTCOMPENSATION,
            )
        except (ImageCms.PyCMSError, OSError, TypeError, ValueError):
            changed = None  # a profile that is damaged or made for another kind of picture
        if changed is not None:
            return changed
    return image.convert("RGB")
