"""Smaller copies of a picture, made so that nothing but its pixels gets into them."""

from dataclasses import dataclass
from functools import cache
from io import BytesIO
from typing import TYPE_CHECKING

from filialog.photos.opening import Opened, open_picture
from filialog.photos.values import PictureProblem

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = [
    "FORMATS",
    "WIDTHS",
    "Rendered",
    "encoder_words",
    "render_opened",
    "render_picture",
    "rendered_widths",
]

WIDTHS = (320, 480, 720, 960, 1440)
"""Pixels across; common steps of screens, no source."""
FORMATS = ("avif", "jpeg")
"""The first that a browser knows is shown; every browser knows the last."""

_JPEG_QUALITY = 80
_AVIF_SPEED = 6
_AVIF_QUALITY = ((480, 64), (960, 68))
_AVIF_QUALITY_ABOVE = 71
"""The quality up to a width at which AVIF looked like JPEG of quality 80: measured by structural
similarity on macro photographs, with the encoder at this speed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rendered:
    """The bytes of one copy."""

    width: int
    height: int
    format: str
    """`avif` or `jpeg`."""
    data: bytes


def rendered_widths(width: int, widths: tuple[int, ...] = WIDTHS) -> tuple[int, ...]:
    """Return the widths that a picture is shown in: never wider than it is.

    The widest is that of the picture, or the widest one asked for; a step within a tenth of it
    would only fill the disk.

    >>> rendered_widths(4000)
    (320, 480, 720, 960, 1440)
    >>> rendered_widths(1000)
    (320, 480, 720, 1000)
    >>> rendered_widths(200)
    (200,)
    """
    widest = min(width, max(widths))
    steps = sorted({step for step in widths if 10 * step <= 9 * widest})
    return (*steps, widest)


def render_picture(
    data: bytes, widths: tuple[int, ...] = WIDTHS, *, formats: tuple[str, ...] = FORMATS
) -> tuple[Rendered, ...] | PictureProblem:
    """Return copies of a picture by format and width, or why there are none."""
    opened = open_picture(data)
    return opened if isinstance(opened, PictureProblem) else render_opened(opened, widths, formats)


def render_opened(
    opened: Opened, widths: tuple[int, ...] = WIDTHS, formats: tuple[str, ...] = FORMATS
) -> tuple[Rendered, ...]:
    """Return copies of an opened picture by format and width."""
    from PIL.Image import Resampling  # noqa: PLC0415 - heavy

    source = opened.image
    sizes = [
        (width, max(1, (2 * source.height * width + source.width) // (2 * source.width)))
        for width in rendered_widths(source.width, widths)
    ]
    # The others are made from the widest: a tenth of the work, and no difference to be seen.
    widest = source.resize(sizes[-1], Resampling.LANCZOS, reducing_gap=3.0)
    images = [widest.resize(size, Resampling.LANCZOS) for size in sizes[:-1]]
    return tuple(
        Rendered(width=image.width, height=image.height, format=name, data=_encoded(image, name))
        for name in formats
        if name != "avif" or _has_avif()
        for image in (*images, widest)
    )


@cache
def _has_avif() -> bool:
    from PIL import features  # noqa: PLC0415 - heavy

    return bool(features.check("avif"))


def _encoded(image: "Image", name: str) -> bytes:
    # An encoder writes what hangs on an image object; an opened picture carries nothing.
    out = BytesIO()
    if name == "jpeg":
        image.save(
            out, "JPEG", quality=_JPEG_QUALITY, progressive=True, optimize=True, subsampling="4:2:0"
        )
    else:
        quality = next((q for up_to, q in _AVIF_QUALITY if image.width <= up_to), None)
        image.save(
            out,
            "AVIF",
            quality=_AVIF_QUALITY_ABOVE if quality is None else quality,
            speed=_AVIF_SPEED,
            subsampling="4:2:0",
            # Tiles would be laid out by the number of threads, and so differ between machines.
            max_threads=1,
            autotiling=False,
        )
    return out.getvalue()


@cache
def encoder_words() -> str:
    """Return all that the bytes of a copy depend on besides picture, widths and formats."""
    from PIL import __version__, features  # noqa: PLC0415 - heavy

    codecs = [f"{name} {features.version(name)}" for name in ("jpg", "libjpeg_turbo", "littlecms2")]
    codecs.append(f"avif {features.version('avif') if _has_avif() else None}")
    settings = (_JPEG_QUALITY, _AVIF_SPEED, _AVIF_QUALITY, _AVIF_QUALITY_ABOVE)
    return f"1; Pillow {__version__}; {', '.join(codecs)}; {settings}"
