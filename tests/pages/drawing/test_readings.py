"""Water readings over time."""

import itertools
import re
from datetime import date, timedelta
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.pages.drawing import ReadingPoint, readings_svg
from filialog.pages.drawing.letters import text_width

FIRST, LAST = date(2026, 1, 1), date(2026, 12, 31)


def drawn(
    *points: ReadingPoint,
    target: tuple[float | None, float | None] = (None, None),
    changes: tuple[date, ...] = (),
    soils: tuple[date, ...] = (),
    ticks: tuple[tuple[date, str], ...] = (),
    first: date = FIRST,
    last: date = LAST,
) -> ET.Element:
    return ET.fromstring(
        readings_svg(
            points, first=first, last=last, target_low=target[0], target_high=target[1],
            changes=changes, soils=soils, tick_labels=ticks, title="pH in fen",
            describe="pH by day", axis_label="conductivity, µS/cm",
        )
    )  # fmt: skip


def at(days: int, value: float) -> ReadingPoint:
    return ReadingPoint(day=FIRST + timedelta(days=days), low=value, high=value)


def path(root: ET.Element, name: str) -> str:
    return next((part.attrib["d"] for part in root if part.attrib.get("class") == name), "")


def dots(root: ET.Element) -> list[tuple[float, float]]:
    found = re.findall(r"M([\d.-]+) ([\d.-]+)h0", path(root, "d-dots"))
    return [(float(x), float(y)) for x, y in found]


def scale(root: ET.Element) -> dict[float, float]:
    """Return the height of each labelled line by its value."""
    (labels,) = [part for part in root if part.attrib.get("text-anchor") == "end"]
    levels = re.findall(r"M[\d.]+ ([\d.]+)H", path(root, "d-grid"))
    return {
        float((label.text or "").replace("\N{MINUS SIGN}", "-")): float(y)
        for label, y in zip(labels, levels, strict=True)
    }


def test_readings__dots_stand_at_their_day_and_value() -> None:
    root = drawn(at(0, 6.0), at(182, 6.5), at(364, 7.0))
    lines = scale(root)
    (x1, y1), (x2, y2), (x3, y3) = dots(root)

    assert (x2 - x1) / (x3 - x1) == pytest.approx(0.5, abs=0.002)
    assert y2 == pytest.approx((y1 + y3) / 2, abs=0.1)
    assert lines[6.0] == pytest.approx(y1, abs=0.1)
    assert lines[7.0] == pytest.approx(y3, abs=0.1)


def test_readings__band_is_the_range_aimed_at_with_open_ends_to_the_edge() -> None:
    root = drawn(at(0, 6.0), at(9, 8.0), target=(6.5, 7.0))
    (band,) = [part for part in root if part.attrib.get("class") == "d-target"]
    top, height = float(band.attrib["y"]), float(band.attrib["height"])
    lines = scale(root)

    assert top == pytest.approx(lines[7.0], abs=0.1)
    assert top + height == pytest.approx(lines[6.5], abs=0.1)
    open_root = drawn(at(0, 6.0), at(9, 8.0), target=(None, 7.0))
    (open_band,) = [part for part in open_root if part.attrib.get("class") == "d-target"]
    bottom = float(open_band.attrib["y"]) + float(open_band.attrib["height"])
    assert bottom == pytest.approx(max(scale(open_root).values()), abs=0.1)
    assert not [part for part in drawn(at(0, 6.0)) if part.attrib.get("class") == "d-target"]


def test_readings__bounds_are_triangles_and_break_the_line() -> None:
    below = ReadingPoint(day=FIRST + timedelta(days=50), low=None, high=0.05)
    above = ReadingPoint(day=FIRST + timedelta(days=60), low=0.5, high=None)
    between = ReadingPoint(day=FIRST + timedelta(days=70), low=0.1, high=0.2)
    root = drawn(at(0, 0.1), at(9, 0.2), below, above, between, at(90, 0.3))

    assert path(root, "d-bound").count("z") == 2
    assert path(root, "d-interval").count("V") == 1
    assert path(root, "d-course").count("L") == 1
    assert len(dots(root)) == 3


def test_readings__changes_and_soil_are_marked_below_the_axis() -> None:
    days = (FIRST, FIRST + timedelta(days=30))
    root = drawn(at(0, 6.0), changes=days, soils=days[:1])
    (axis,) = [part for part in root if part.attrib.get("class") == "d-axis"]
    places = [float(y) for _, y in re.findall(r"M([\d.]+) ([\d.]+)v", path(root, "d-change"))]

    assert len(places) == 2
    assert min(places) > float(axis.attrib["y1"])
    assert path(root, "d-soil").count("z") == 1
    assert path(drawn(at(0, 6.0)), "d-change") == ""


def test_readings__a_single_or_level_value_has_a_scale() -> None:
    for value in (0.0, 6.4, 1200.0, -3.0):
        root = drawn(at(0, value))
        lines = scale(root)
        ((_, y),) = dots(root)
        assert len(lines) >= 2, value
        assert min(lines.values()) - 0.1 <= y <= max(lines.values()) + 0.1


def test_readings__names_the_unit_and_is_an_image_with_words() -> None:
    root = drawn(at(0, 240.0))

    assert root.attrib["role"] == "img"
    assert "conductivity, µS/cm" in [text.text for text in root.iter("text")]
    assert (root.findtext("title"), root.findtext("desc")) == ("pH in fen", "pH by day")


values = st.floats(-50, 2000).map(lambda value: round(value, 2))


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 364), values), min_size=1, max_size=40),
    st.none() | values,
    st.none() | values,
)
def test_readings__everything_stays_inside(
    found: list[tuple[int, float]], low: float | None, high: float | None
) -> None:
    if low is not None and high is not None and low > high:
        low, high = high, low
    ticks = tuple((date(2026, month, 1), f"{month}/26") for month in range(1, 13))
    root = drawn(*(at(days, value) for days, value in found), target=(low, high), ticks=ticks)
    width, height = float(root.attrib["width"]), float(root.attrib["height"])
    lines = scale(root)

    assert 2 <= len(lines) <= 7
    assert list(lines) == sorted(lines)
    for x, y in dots(root):
        assert 0 <= x <= width
        assert min(lines.values()) - 0.2 <= y <= max(lines.values()) + 0.2
    boxes = []
    around = {text: part for part in root.iter("g") for text in part}
    for text in root.iter("text"):
        given = {**(around[text].attrib if text in around else {}), **text.attrib}
        long = text_width(text.text or "", size=float(given["font-size"]))
        anchor = {"middle": long / 2, "end": long}.get(given.get("text-anchor", ""), 0.0)
        left, base = float(text.attrib["x"]) - anchor, float(text.attrib["y"])
        assert left >= -0.5
        assert left + long <= width + 0.5
        assert base <= height
        boxes.append((left, left + long, base))
    for one, other in itertools.combinations(boxes, 2):
        if abs(one[2] - other[2]) < 8:
            assert one[1] <= other[0] + 0.2 or other[1] <= one[0] + 0.2, (one, other)


@pytest.mark.parametrize(
    "points",
    [
        (),
        (ReadingPoint(day=date(2025, 12, 31), low=6.0, high=6.0),),
        (ReadingPoint(day=FIRST, low=None, high=None),),
        (ReadingPoint(day=FIRST, low=float("nan"), high=float("nan")),),
        (ReadingPoint(day=FIRST, low=float("inf"), high=float("inf")),),
        (ReadingPoint(day=FIRST, low=2.0, high=1.0),),
    ],
)
def test_readings__refuses_what_cannot_be_drawn(points: tuple[ReadingPoint, ...]) -> None:
    with pytest.raises(DomainError):
        drawn(*points)


def test_readings__refuses_a_mark_outside_and_a_backward_axis() -> None:
    with pytest.raises(DomainError):
        drawn(at(0, 6.0), changes=(date(2027, 1, 1),))
    with pytest.raises(DomainError):
        drawn(at(0, 6.0), first=LAST, last=FIRST)
