"""Copies hold nothing but pixels, in exact sizes, the same bytes every time."""

import re
from io import BytesIO

import pytest
from PIL import Image

from filialog.photos import PictureProblem, ProblemKind, Rendered, render_picture
from filialog.photos.rendering import WIDTHS, rendered_widths
from photos.making import (
    COLOURS,
    GPS_MARKS,
    SECRETS,
    as_bytes,
    corners,
    jpeg_full_of_secrets,
    png_full_of_secrets,
    wide_profile,
)


def _rendered(data: bytes, *widths: int) -> tuple[Rendered, ...]:
    copies = render_picture(data, widths or WIDTHS)
    assert isinstance(copies, tuple), copies
    return copies


def _markers(jpeg: bytes) -> list[tuple[int, bytes]]:
    """Return the segments of a JPEG by a reader of our own (ITU-T T.81, B.1.1.4)."""
    assert jpeg[:2] == b"\xff\xd8"
    found, at = [], 2
    while jpeg[at + 1] != 0xD9:
        marker, length = jpeg[at + 1], int.from_bytes(jpeg[at + 2 : at + 4], "big")
        found.append((marker, jpeg[at + 4 : at + 2 + length]))
        at += 2 + length
        if marker == 0xDA:  # the picture itself: skip to the next marker that is none of its own
            at = next(m.start() for m in re.compile(rb"\xff[^\x00\xd0-\xd7]").finditer(jpeg, at))
    assert at + 2 == len(jpeg), "bytes behind the end"
    return found


SOURCES = {
    "jpeg": jpeg_full_of_secrets(),
    "png": png_full_of_secrets(),
    "profile": as_bytes(corners(), "PNG", icc_profile=wide_profile()),
    "webp": as_bytes(corners(), "WEBP", exif=Image.open(BytesIO(jpeg_full_of_secrets())).getexif()),
}


def test_secrets__are_all_in_the_sources() -> None:
    jpeg, png = SOURCES["jpeg"], SOURCES["png"]
    packed = {4}  # the comment of the PNG is compressed

    assert len(SECRETS) == 10
    assert [s for i, s in enumerate(SECRETS) if s.encode() not in jpeg] == [SECRETS[7]]
    assert any(mark in jpeg for mark in GPS_MARKS)
    wanted = {0, 5, 7, 8} - packed
    assert all(SECRETS[i].encode() in png for i in wanted)
    assert Image.open(BytesIO(png)).info["Comment"] == SECRETS[4]


@pytest.mark.parametrize("name", SOURCES)
def test_render_picture__lets_no_secret_through(name: str) -> None:
    for copy in _rendered(SOURCES[name]):
        for secret in (*SECRETS, "Skarvoptik", "8BIM", "Photoshop", "xmpmeta", "http://ns.adobe"):
            assert secret.encode() not in copy.data, (secret, copy.format, copy.width)
            assert secret.encode("utf-16-be") not in copy.data
        for mark in (*GPS_MARKS, b"Exif", b"ICC_PROFILE", b"2026:08:09"):
            assert mark not in copy.data, (mark, copy.format, copy.width)


@pytest.mark.parametrize("name", SOURCES)
def test_render_picture__leaves_nothing_for_an_independent_reader(name: str) -> None:
    for copy in _rendered(SOURCES[name]):
        image = Image.open(BytesIO(copy.data))
        assert dict(image.getexif()) == {}
        assert set(image.info) <= {
            "jfif",
            "jfif_version",
            "jfif_unit",
            "jfif_density",
            "progressive",
            "progression",
        }
        if copy.format == "jpeg":
            kinds = [marker for marker, _ in _markers(copy.data)]
            # APP0 is the plain head of JFIF; no other APP and no comment is there.
            assert [m for m in kinds if 0xE0 <= m <= 0xEF or m == 0xFE] == [0xE0]
            assert dict(_markers(copy.data))[0xE0].startswith(b"JFIF\0")
            assert 0xC2 in kinds, "progressive"


def test_render_picture__writes_avif_without_metadata_items() -> None:
    for copy in _rendered(SOURCES["jpeg"]):
        if copy.format == "avif":
            assert copy.data[4:12] == b"ftypavif"
            for box in (b"Exif", b"mime", b"prof", b"rICC", b"irot", b"imir"):
                assert box not in copy.data[:600]


def test_markers__finds_planted_ones() -> None:
    kinds = [marker for marker, _ in _markers(SOURCES["jpeg"][: -len(SECRETS[8])])]

    assert {0xE1, 0xED, 0xFE} <= set(kinds)
    with pytest.raises(AssertionError, match="behind the end"):
        _markers(SOURCES["jpeg"])


# --- sizes ----------------------------------------------------------------------------------


def test_render_picture__makes_exact_sizes_in_both_formats() -> None:
    copies = _rendered(as_bytes(corners(1600, 1067)))

    sizes = [(320, 213), (480, 320), (720, 480), (960, 640), (1440, 960)]
    assert [(c.format, c.width, c.height) for c in copies] == [
        *(("avif", *size) for size in sizes),
        *(("jpeg", *size) for size in sizes),
    ]
    for copy in copies:
        assert Image.open(BytesIO(copy.data)).size == (copy.width, copy.height)


@pytest.mark.parametrize(
    ("width", "wanted"),
    [
        (1, (1,)),
        (319, (319,)),
        (320, (320,)),
        (321, (321,)),
        (356, (320, 356)),
        (500, (320, 500)),
        (1439, (320, 480, 720, 960, 1439)),
        (1440, (320, 480, 720, 960, 1440)),
        (9000, (320, 480, 720, 960, 1440)),
    ],
)
def test_rendered_widths__never_exceed_the_picture(width: int, wanted: tuple[int, ...]) -> None:
    assert rendered_widths(width) == wanted


def test_render_picture__never_makes_it_larger() -> None:
    assert {copy.width for copy in _rendered(as_bytes(corners(200, 120)))} == {200}
    assert {copy.width for copy in _rendered(as_bytes(corners(500, 900)))} == {320, 500}


@pytest.mark.parametrize("size", [(1, 1), (1, 700), (3, 2000), (2000, 1), (321, 1)])
def test_render_picture__takes_odd_shapes(size: tuple[int, int]) -> None:
    for copy in _rendered(as_bytes(Image.new("RGB", size, (9, 120, 60)), "PNG")):
        image = Image.open(BytesIO(copy.data))
        image.load()
        assert image.size == (copy.width, copy.height)
        assert copy.width <= size[0]
        assert copy.height <= size[1]


@pytest.mark.parametrize("orientation", range(1, 9))
def test_render_picture__stands_upright_in_every_copy(orientation: int) -> None:
    stored = corners(300, 200)
    turned = {
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90,
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }
    if orientation != 1:
        stored = stored.transpose(turned[orientation])

    for copy in _rendered(jpeg_full_of_secrets(stored, orientation=orientation), 100):
        shown = Image.open(BytesIO(copy.data)).convert("RGB")
        assert shown.size == (100, 67)
        for name, place in {"tl": (9, 9), "tr": (90, 9), "bl": (9, 58), "br": (90, 58)}.items():
            pixel = shown.getpixel(place)
            assert isinstance(pixel, tuple)
            assert max(abs(a - b) for a, b in zip(pixel, COLOURS[name], strict=True)) < 14, name


# --- the rest -------------------------------------------------------------------------------


def test_render_picture__gives_the_same_bytes_every_time() -> None:
    assert _rendered(SOURCES["jpeg"]) == _rendered(SOURCES["jpeg"])


def test_render_picture__does_not_depend_on_what_is_written_in_the_file() -> None:
    plain = as_bytes(Image.open(BytesIO(png_full_of_secrets())), "PNG")

    assert _rendered(png_full_of_secrets()) == _rendered(plain)


def test_render_picture__can_leave_a_format_out() -> None:
    copies = render_picture(SOURCES["jpeg"], (320,), formats=("jpeg",))

    assert isinstance(copies, tuple)
    assert [copy.format for copy in copies] == ["jpeg"]


def test_render_picture__tells_a_problem_in_place_of_raising() -> None:
    assert render_picture(b"") == PictureProblem(kind=ProblemKind.EMPTY)
