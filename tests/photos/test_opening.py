"""A picture that nobody vouches for is opened, or its problem has a name."""

import random
from datetime import date
from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from filialog.photos.opening import MAX_PIXELS, MAX_SIDE, Opened, examine_picture, open_picture
from filialog.photos.values import PictureFacts, PictureProblem, ProblemKind
from photos.making import (
    COLOURS,
    as_bytes,
    corners,
    jpeg_full_of_secrets,
    png_claiming,
    wide_profile,
)

SVG = b'<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg"><script>1</script></svg>'


def _pixels(data: bytes) -> Image.Image:
    opened = open_picture(data)
    assert isinstance(opened, Opened), opened
    return opened.image


def _problem(data: bytes) -> PictureProblem:
    problem = examine_picture(data)
    assert isinstance(problem, PictureProblem), problem
    return problem


def _near(one: object, other: tuple[int, ...], *, by: int = 8) -> bool:
    assert isinstance(one, tuple)
    return all(abs(a - b) <= by for a, b in zip(one, other, strict=True))


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "AVIF"])
def test_examine_picture__tells_size_and_kind(kind: str) -> None:
    facts = examine_picture(as_bytes(corners(64, 40), kind))

    assert facts == PictureFacts(kind=kind.lower(), width=64, height=40, taken=None)


def test_examine_picture__knows_the_day_it_was_taken() -> None:
    facts = examine_picture(jpeg_full_of_secrets())

    assert isinstance(facts, PictureFacts)
    assert facts.taken == date(2026, 8, 9)


@pytest.mark.parametrize("written", ["0000:00:00 00:00:00", "2026:13:40 00:00:00", "yesterday", ""])
def test_examine_picture__takes_no_day_from_a_clock_that_was_never_set(written: str) -> None:
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = written

    facts = examine_picture(as_bytes(corners(), exif=exif))

    assert isinstance(facts, PictureFacts)
    assert facts.taken is None


@pytest.mark.parametrize("orientation", range(1, 9))
def test_open_picture__turns_it_the_way_the_camera_was_held(orientation: int) -> None:
    # TIFF 6.0, tag 274: which side of the scene row 0 and column 0 of the file are.
    row_and_column = {
        1: ("top", "left"),
        2: ("top", "right"),
        3: ("bottom", "right"),
        4: ("bottom", "left"),
        5: ("left", "top"),
        6: ("right", "top"),
        7: ("right", "bottom"),
        8: ("left", "bottom"),
    }[orientation]
    scene = corners(120, 80)
    stored = Image.new("RGB", (120, 80) if orientation < 5 else (80, 120))
    for y in range(stored.height):
        for x in range(stored.width):
            at = {}
            for side, value in zip(row_and_column, (y, x), strict=True):
                axis, end = ("y", 79) if side in {"top", "bottom"} else ("x", 119)
                at[axis] = end - value if side in {"bottom", "right"} else value
            pixel = scene.getpixel((at["x"], at["y"]))
            assert isinstance(pixel, tuple)
            stored.putpixel((x, y), pixel)

    shown = _pixels(jpeg_full_of_secrets(stored, orientation=orientation))

    assert shown.size == (120, 80)
    for name, place in {"tl": (9, 9), "tr": (110, 9), "bl": (9, 70), "br": (110, 70)}.items():
        assert _near(shown.getpixel(place), COLOURS[name]), name


@pytest.mark.parametrize("orientation", [0, 9, 255, 65535])
def test_open_picture__ignores_an_orientation_there_is_not(orientation: int) -> None:
    assert _pixels(jpeg_full_of_secrets(orientation=orientation)).size == (640, 400)


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_open_picture__turns_other_formats_too(kind: str) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6

    assert _pixels(as_bytes(corners(60, 40), kind, exif=exif)).size == (40, 60)


def test_open_picture__converts_wide_colours_to_srgb() -> None:
    # Worked by hand from the published primaries: Adobe RGB (0, 200, 0) lies outside sRGB to
    # the red and blue, so these are cut to 0; grey stays grey; (200, 150, 100) moves to about
    # (213, 150, 95): linear Adobe RGB → XYZ (D65) → linear sRGB by IEC 61966-2-1, from memory.
    image = Image.new("RGB", (30, 10), (128, 128, 128))
    image.paste((0, 200, 0), (10, 0, 20, 10))
    image.paste((200, 150, 100), (20, 0, 30, 10))

    shown = _pixels(as_bytes(image, "PNG", icc_profile=wide_profile()))

    assert _near(shown.getpixel((5, 5)), (128, 128, 128), by=2)
    assert _near(shown.getpixel((15, 5)), (0, 200, 0), by=3)
    assert _near(shown.getpixel((25, 5)), _adobe_to_srgb((200, 150, 100)), by=3)
    assert _adobe_to_srgb((200, 150, 100))[0] > 207
    assert "icc_profile" not in shown.info


def _adobe_to_srgb(colour: tuple[int, int, int]) -> tuple[int, ...]:
    r, g, b = ((value / 255) ** 2.19921875 for value in colour)
    x = 0.57667 * r + 0.18556 * g + 0.18823 * b
    y = 0.29734 * r + 0.62736 * g + 0.07529 * b
    z = 0.02703 * r + 0.07069 * g + 0.99134 * b
    linear = (
        3.2406 * x - 1.5372 * y - 0.4986 * z,
        -0.9689 * x + 1.8758 * y + 0.0415 * z,
        0.0557 * x - 0.2040 * y + 1.0570 * z,
    )
    return tuple(
        round(255 * (12.92 * v if v <= 0.0031308 else 1.055 * v ** (1 / 2.4) - 0.055))
        for v in (min(1.0, max(0.0, v)) for v in linear)
    )


def test_open_picture__passes_over_a_damaged_profile() -> None:
    shown = _pixels(as_bytes(corners(), icc_profile=b"no profile at all" * 20))

    assert _near(shown.getpixel((9, 9)), COLOURS["tl"])


def test_open_picture__passes_over_a_profile_of_another_kind_of_picture() -> None:
    shown = _pixels(as_bytes(corners().convert("L"), "PNG", icc_profile=wide_profile()))

    assert shown.mode == "RGB"


@pytest.mark.parametrize("mode", ["1", "L", "P", "RGB", "RGBA", "LA"])
def test_open_picture__takes_every_mode_of_a_png(mode: str) -> None:
    shown = _pixels(as_bytes(corners(40, 40).convert(mode), "PNG"))

    assert (shown.mode, shown.size) == ("RGB", (40, 40))


def test_open_picture__scales_sixteen_bits_of_grey() -> None:
    image = Image.new("I;16", (20, 10))
    image.paste(32896, (0, 0, 10, 10))
    image.paste(65535, (10, 0, 20, 10))

    shown = _pixels(as_bytes(image, "PNG"))

    assert shown.getpixel((3, 3)) == (128, 128, 128)
    assert shown.getpixel((13, 3)) == (255, 255, 255)


def test_open_picture__takes_cmyk() -> None:
    shown = _pixels(as_bytes(Image.new("CMYK", (20, 10), (0, 255, 255, 0)), quality=95))

    red, green, blue = shown.getpixel((5, 5))  # type: ignore[misc]
    assert red > 200
    assert max(green, blue) < 60


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_open_picture__lays_what_shines_through_on_white(kind: str) -> None:
    image = Image.new("RGBA", (30, 10), (200, 0, 0, 255))
    image.paste((0, 0, 0, 0), (10, 0, 20, 10))
    image.paste((0, 0, 0, 128), (20, 0, 30, 10))

    shown = _pixels(as_bytes(image, kind, **({"lossless": True} if kind == "WEBP" else {})))

    assert _near(shown.getpixel((5, 5)), (200, 0, 0))
    assert shown.getpixel((15, 5)) == (255, 255, 255)
    assert _near(shown.getpixel((25, 5)), (127, 127, 127))


def test_open_picture__lays_a_clear_colour_of_a_palette_on_white() -> None:
    image = Image.new("P", (10, 10), 0)
    image.putpalette([10, 20, 30, 40, 50, 60])

    assert _pixels(as_bytes(image, "PNG", transparency=0)).getpixel((5, 5)) == (255, 255, 255)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP", "AVIF"])
def test_examine_picture__takes_a_single_pixel(kind: str) -> None:
    facts = examine_picture(as_bytes(Image.new("RGB", (1, 1)), kind))

    assert isinstance(facts, PictureFacts)
    assert (facts.width, facts.height) == (1, 1)


# --- problems -------------------------------------------------------------------------------


def test_examine_picture__names_an_empty_file() -> None:
    assert _problem(b"").kind is ProblemKind.EMPTY


@pytest.mark.parametrize(
    ("data", "found"),
    [
        pytest.param(SVG, "SVG", id="svg"),
        pytest.param(b"\xef\xbb\xbf  <svg onload='alert(1)'/>", "SVG", id="svg-with-mark"),
        pytest.param(b"<!DOCTYPE svg><svg/>", "SVG", id="svg-with-doctype"),
        pytest.param(as_bytes(corners(9, 9), "GIF") + b"<script>1</script>", "GIF", id="gif-html"),
        pytest.param(as_bytes(corners(9, 9), "TIFF"), "TIFF", id="tiff"),
        pytest.param(as_bytes(corners(9, 9), "BMP"), "BMP", id="bmp"),
        pytest.param(b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n", "EPS", id="eps"),
        pytest.param(b"\0\0\0\x18ftypheic\0\0\0\0mif1heic", "HEIC", id="heic"),
        pytest.param(b"\0\0\0\x18ftypisom\0\0\x02\0isommp42", "video", id="clip"),
        pytest.param(b"%PDF-1.7\n", "PDF", id="pdf"),
    ],
)
def test_examine_picture__names_other_kinds_whatever_the_file_is_called(
    data: bytes, found: str
) -> None:
    assert _problem(data) == PictureProblem(kind=ProblemKind.OTHER_KIND, found=found)


@pytest.mark.parametrize("data", [b"\0", b"just words", b"\xff\xd8", bytes(5000), b"RIFF....WAVE"])
def test_examine_picture__names_what_is_no_picture(data: bytes) -> None:
    assert _problem(data).kind is ProblemKind.NOT_A_PICTURE


@pytest.mark.parametrize("size", [(0, 0), (0, 9), (9, 0)])
def test_examine_picture__takes_no_picture_without_pixels(size: tuple[int, int]) -> None:
    assert _problem(png_claiming(*size)).kind is ProblemKind.DAMAGED


def test_examine_picture__sets_the_limit_of_the_library_too() -> None:
    Image.MAX_IMAGE_PIXELS = 1
    facts = examine_picture(as_bytes(corners(40, 40), "PNG"))

    assert isinstance(facts, PictureFacts)
    assert Image.MAX_IMAGE_PIXELS == MAX_PIXELS


@pytest.mark.parametrize("side", [12_000, 20_000])
def test_examine_picture__refuses_a_bomb_before_it_is_unpacked(side: int) -> None:
    data = png_claiming(side, side)
    assert len(data) < 500_000

    assert _problem(data).kind is ProblemKind.TOO_MANY_PIXELS


def test_examine_picture__refuses_a_side_that_no_copy_could_have() -> None:
    problem = _problem(png_claiming(1, MAX_SIDE + 1))

    assert problem == PictureProblem(kind=ProblemKind.TOO_LONG, found=f"1 × {MAX_SIDE + 1}")


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_examine_picture__names_a_file_that_was_cut_off(kind: str) -> None:
    data = as_bytes(Image.effect_noise((300, 200), 80).convert("RGB"), kind)

    problem = _problem(data[: len(data) // 2])

    assert problem.kind in {ProblemKind.CUT_OFF, ProblemKind.DAMAGED}
    if kind != "WEBP":
        assert problem.kind is ProblemKind.CUT_OFF


def test_examine_picture__survives_any_cut_and_any_scratch() -> None:
    chance = random.Random(7)
    for kind in ("JPEG", "PNG", "WEBP", "AVIF"):
        whole = (
            jpeg_full_of_secrets(corners(48, 32))
            if kind == "JPEG"
            else as_bytes(corners(48, 32), kind)
        )
        for _ in range(60):
            data = bytearray(whole[: chance.randrange(1, len(whole) + 1)])
            for _ in range(chance.randrange(4)):
                data[chance.randrange(len(data))] = chance.randrange(256)
            assert isinstance(examine_picture(bytes(data)), PictureFacts | PictureProblem)


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=200), st.sampled_from([b"", b"\xff\xd8\xff\xe1", b"\x89PNG\r\n\x1a\n"]))
def test_examine_picture__never_raises(data: bytes, head: bytes) -> None:
    assert isinstance(examine_picture(head + data), PictureFacts | PictureProblem)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize(
    "nonsense",
    [b"nonsense", b"MM\0*", b"Exif\0\0MM\0*\xff\xff\xff\xff", b"Exif\0\0II*\0" + b"\xff" * 64],
)
def test_open_picture__survives_exif_that_is_nonsense(kind: str, nonsense: bytes) -> None:
    assert _pixels(as_bytes(corners(64, 40), kind, exif=nonsense)).size == (64, 40)


def test_open_picture__gives_an_image_that_carries_nothing() -> None:
    shown = _pixels(jpeg_full_of_secrets())

    assert shown.info == {}
    assert not shown.getexif()
    assert Image.open(BytesIO(jpeg_full_of_secrets())).info, "the source carries something"
