"""Broods along time."""

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date, timedelta
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from filialog.domain_error import DomainError
from filialog.pages.drawing import (
    PanelPoint,
    StackPanel,
    StackPart,
    TimelineMark,
    ValuePanel,
    timeline_svg,
)
from filialog.pages.drawing.letters import text_width

FIRST, LAST = date(2025, 1, 1), date(2025, 12, 31)
TICKS = tuple((date(2025, month, 1), f"{month}/25") for month in range(1, 13))


def drawn(
    *marks: TimelineMark,
    panels: tuple[ValuePanel | StackPanel, ...] = (),
    first: date = FIRST,
    last: date = LAST,
) -> ET.Element:
    ticks = TICKS if (first, last) == (FIRST, LAST) else ()
    return ET.fromstring(
        timeline_svg(
            marks, panels=panels, first=first, last=last, tick_labels=ticks,
            title="Broods", describe="Broods by day",
        )
    )  # fmt: skip


def shown(root: ET.Element) -> list[ET.Element]:
    return [element for element in root if element.attrib.get("class") == "d-mark"]


def middle(mark: ET.Element) -> float:
    (hit,) = [part for part in mark if part.attrib.get("class") == "d-hit"]
    return float(hit.attrib["x"]) + float(hit.attrib["width"]) / 2


def level(mark: ET.Element) -> float:
    (hit,) = [part for part in mark if part.attrib.get("class") == "d-hit"]
    return float(hit.attrib["y"])


@st.composite
def marks_of_a_year(draw: st.DrawFn) -> list[TimelineMark]:
    number = draw(st.integers(1, 90))
    names = ["B", "Brood", "the one that came too early "]
    return [
        TimelineMark(
            label=f"{draw(st.sampled_from(names))}{at}",
            day=FIRST + timedelta(days=draw(st.integers(0, 364))),
            band=draw(
                st.sampled_from(["F1", "F2", "a generation with a long name, raised in two tanks"])
            ),
            href="b.html",
        )
        for at in range(number)
    ]


def _panels(marks: Sequence[TimelineMark]) -> tuple[ValuePanel | StackPanel, ...]:
    return (
        ValuePanel(
            title="Share that show slate", bottom=0.0, top=1.0,
            points=tuple(
                PanelPoint(mark=mark.label, value=0.5, low=0.2, high=0.9, expected=1.0)
                for mark in marks
            ),
            steps=((0.0, "0 %"), (0.5, "50 %"), (1.0, "100 %")),
        ),
        StackPanel(
            title="Genes by founder", names=("pane", "a founder with a rather long name", "c", "d"),
            bars=tuple(StackPart(mark=mark.label, shares=(0.5, 0.25, 0.25, 0.0)) for mark in marks),
        ),
    )  # fmt: skip


def _texts(root: ET.Element) -> Iterator[tuple[ET.Element, dict[str, str]]]:
    """Give every text with its attributes, those of its group among them."""
    for element in root:
        for text in element.iter("text"):
            yield text, {**element.attrib, **text.attrib}


@settings(max_examples=40, deadline=None)
@given(marks_of_a_year())
def test_timeline__marks_and_words_stay_apart(marks: list[TimelineMark]) -> None:
    root = drawn(*marks, panels=_panels(marks))
    width, height = float(root.attrib["width"]), float(root.attrib["height"])
    boxes = []
    for text, inherited in _texts(root):
        size = float(inherited["font-size"])
        bold = inherited["class"] == "d-label"
        long = text_width(text.text or "", size=size, bold=bold)
        anchor = {"middle": long / 2, "end": long}.get(inherited.get("text-anchor", ""), 0.0)
        left, base = float(text.attrib["x"]) - anchor, float(text.attrib["y"])
        assert left >= -0.5
        assert left + long <= width + 0.5
        assert base <= height
        boxes.append((left, left + long, base))
    for one, other in itertools.combinations(boxes, 2):
        if abs(one[2] - other[2]) < 8:
            assert one[1] <= other[0] + 0.2 or other[1] <= one[0] + 0.2, (one, other)
    assert len(shown(root)) == len(marks)
    for band in {level(mark) for mark in shown(root)}:
        places = [middle(mark) for mark in shown(root) if level(mark) == band]
        assert all(b - a >= 24 for a, b in itertools.pairwise(places))
    assert all(0 <= middle(mark) <= width for mark in shown(root))


def test_timeline__places_days_in_proportion() -> None:
    marks = [
        TimelineMark(label=f"B{day}", day=date(2026, 1, day), band="F1", href="b.html")
        for day in (1, 11, 31)
    ]
    first, second, third = (
        middle(mark) for mark in shown(drawn(*marks, first=marks[0].day, last=marks[2].day))
    )

    assert (second - first) / (third - first) == pytest.approx(1 / 3, abs=0.002)


def test_timeline__charts_stand_on_the_days_of_the_bands() -> None:
    marks = [
        TimelineMark(label=f"B{month}", day=date(2025, month, 1), band="F1", href="b.html")
        for month in (1, 6, 12)
    ]
    root = drawn(*marks, panels=_panels(marks))
    (dots,) = [part for part in root if part.attrib.get("class") == "d-dots"]
    places = [float(x) for x in re.findall(r"M([\d.]+) ", dots.attrib["d"])]

    assert places == pytest.approx([middle(mark) for mark in shown(root)], abs=0.06)


def test_timeline__marks_that_lead_nowhere_are_one_path() -> None:
    marks = [
        TimelineMark(label=f"B{at}", day=FIRST + timedelta(days=at), band="F1") for at in range(40)
    ]
    root = drawn(*marks)
    (dots,) = [part for part in root if part.attrib.get("class") == "d-dots"]

    assert shown(root) == []
    assert dots.attrib["d"].count("M") == 40


def test_timeline__bands_keep_the_given_order() -> None:
    root = drawn(
        TimelineMark(label="a", day=LAST, band="F2", href="a.html"),
        TimelineMark(label="b", day=FIRST, band="F1", href="b.html"),
        TimelineMark(label="c", day=FIRST, band="F2", href="c.html"),
    )
    bands = [text.text for text in root.iter("text") if text.attrib["class"] == "d-label"]

    assert bands == ["F2", "F1"]
    assert [mark.findtext("title") for mark in shown(root)] == [
        "c, 2025-01-01", "a, 2025-12-31", "b, 2025-01-01",
    ]  # fmt: skip


def test_timeline__a_few_broods_fit_the_narrowest_screen() -> None:
    marks = [
        TimelineMark(label=f"B{i}", day=FIRST + timedelta(days=40 * i), band="F1", href="b.html")
        for i in range(8)
    ]

    assert float(drawn(*marks).attrib["width"]) == 320


def test_timeline__a_hundred_broods_of_one_day_stay_inside() -> None:
    marks = [
        TimelineMark(label=f"B{i:03d}", day=FIRST, band="F1", href="b.html") for i in range(100)
    ]
    root = drawn(*marks)
    places = [middle(mark) for mark in shown(root)]

    assert all(b - a >= 24 for a, b in itertools.pairwise(places))
    assert places[-1] <= float(root.attrib["width"])


def test_timeline__ticks_are_worded_evenly() -> None:
    days = [FIRST + timedelta(days=10 * i) for i in range(36)]
    root = ET.fromstring(
        timeline_svg(
            (TimelineMark(label="B", day=FIRST, band="F1"),), first=FIRST, last=LAST,
            tick_labels=tuple((day, f"{i:02d}") for i, day in enumerate(days)),
            title="Broods", describe="Broods by day",
        )
    )  # fmt: skip
    words = [int(t.text or "") for t in root.iter("text") if (t.text or "").isdigit()]

    assert words == list(range(0, 36, words[1]))
    assert 6 <= len(words) < 36


def test_timeline__one_day_axis() -> None:
    mark = TimelineMark(label="B", day=FIRST, band="F1", href="b.html")
    root = drawn(mark, first=FIRST, last=FIRST)

    assert 0 < middle(shown(root)[0]) < float(root.attrib["width"])


@pytest.mark.parametrize(("href", "role"), [("a.html", "group"), (None, "img")])
def test_timeline__is_a_group_only_with_links(href: str | None, role: str) -> None:
    root = drawn(TimelineMark(label="<B>&", day=FIRST, band='"F1"', href=href))

    assert root.attrib["role"] == role
    assert [mark.findtext("title") for mark in shown(root)] == ["<B>&, 2025-01-01"] * bool(href)


@pytest.mark.parametrize(
    "mark",
    [
        TimelineMark(label="B", day=date(2024, 12, 31), band="F1"),
        TimelineMark(label="B", day=date(2026, 1, 1), band="F1"),
    ],
)
def test_timeline__refuses_what_has_no_place(mark: TimelineMark) -> None:
    with pytest.raises(DomainError):
        drawn(mark)


def test_timeline__refuses_no_marks_and_a_backward_axis() -> None:
    with pytest.raises(DomainError):
        drawn()
    with pytest.raises(DomainError):
        drawn(TimelineMark(label="B", day=FIRST, band="F1"), first=LAST, last=FIRST)


def test_timeline__refuses_two_broods_of_one_name_and_a_chart_of_another() -> None:
    mark = TimelineMark(label="B", day=FIRST, band="F1")
    other = _panels([replace(mark, label="C")])

    with pytest.raises(DomainError, match="names of marks"):
        drawn(mark, mark)
    for panel in other:
        with pytest.raises(DomainError, match="brood of a chart"):
            drawn(mark, panels=(panel,))
