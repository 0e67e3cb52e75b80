"""Small charts below a timeline."""

import re
from datetime import date
from xml.etree import ElementTree as ET

import pytest

from filialog.domain_error import DomainError
from filialog.pages.drawing import PanelPoint, StackPanel, StackPart, ValuePanel
from filialog.pages.drawing.time_axis import TimeScale
from filialog.pages.drawing.time_panels import draw_panel

SCALE = TimeScale(first=date(2025, 1, 1), last=date(2025, 12, 31), width=320)
PLACES = {"a": 100.0, "b": 200.0}


def drawn(panel: ValuePanel | StackPanel) -> ET.Element:
    parts, foot = draw_panel(panel, scale=SCALE, places=PLACES, top=0.0, prefix="p")
    root = ET.fromstring(f"<svg>{''.join(parts)}</svg>")
    assert foot > 0
    return root


def values(*points: PanelPoint, bottom: float = 0.0, top: float = 1.0) -> ValuePanel:
    steps = tuple((bottom + (top - bottom) * at / 2, str(at)) for at in range(3))
    return ValuePanel(title="Share", points=points, bottom=bottom, top=top, steps=steps)


def numbers(root: ET.Element, kind: str) -> list[float]:
    (path,) = [part for part in root if part.attrib.get("class") == kind]
    return [float(one) for one in re.findall(r"-?[\d.]+", path.attrib["d"])]


def levels(root: ET.Element) -> list[float]:
    """Return the heights of the lines across, from the lowest value up."""
    return numbers(root, "d-grid")[1::3]


def test_panel__value_interval_and_expectation_stand_on_one_scale() -> None:
    root = drawn(values(PanelPoint(mark="a", value=0.5, low=0.25, high=0.75, expected=1.0)))
    zero, half, one = levels(root)

    assert one < half < zero
    assert numbers(root, "d-dots")[:2] == [100.0, half]
    assert numbers(root, "d-expected")[1] == one
    whisker = numbers(root, "d-interval")
    assert whisker[1] == pytest.approx((zero + half) / 2, abs=0.06)
    assert whisker[5] == pytest.approx((half + one) / 2, abs=0.06)


def test_panel__an_upper_limit_is_an_open_ring() -> None:
    root = drawn(values(PanelPoint(mark="b", value=0.5, at_most=True)))
    kinds = {part.attrib.get("class") for part in root}

    assert "d-bound" in kinds
    assert "d-dots" not in kinds


def test_panel__an_interval_past_the_scale_ends_at_its_edge() -> None:
    root = drawn(values(PanelPoint(mark="a", value=2.9, low=2.5, high=3.6), bottom=1.0, top=3.0))
    _, _, head = levels(root)

    assert min(numbers(root, "d-interval")[1::2]) >= head - 6.0
    assert head in numbers(root, "d-interval")


def test_panel__a_range_of_one_number_has_no_whisker() -> None:
    root = drawn(values(PanelPoint(mark="a", value=0.25, low=0.25, high=0.25)))

    assert "d-interval" not in {part.attrib.get("class") for part in root}


def test_panel__stacked_shares_fill_the_height() -> None:
    panel = StackPanel(
        title="Founders", names=("one", "two"),
        bars=(StackPart(mark="a", shares=(0.25, 0.75)), StackPart(mark="b", shares=(1.0, 0.0))),
    )  # fmt: skip
    root = drawn(panel)
    foot, middle, head = levels(root)
    paths = [part for part in root if part.tag == "path" and "d-part" in part.attrib["class"]]

    assert [path.attrib["d"].count("M") for path in paths] == [2, 1]
    low, high = (
        float(re.findall(r"M[\d.]+ ([\d.]+)V", paths[1].attrib["d"])[0]),
        float(re.findall(r"V([\d.]+)h", paths[1].attrib["d"])[0]),
    )
    assert low == pytest.approx((foot + middle) / 2, abs=0.06)
    assert high == pytest.approx(head, abs=0.06)


def test_panel__parts_are_told_apart_by_pattern_and_named() -> None:
    names = ("one", "two", "three", "four", "five", "six")
    panel = StackPanel(
        title="Founders", names=names,
        bars=(StackPart(mark="a", shares=(0.5, 0.1, 0.1, 0.1, 0.1, 0.1)),),
    )  # fmt: skip
    root = drawn(panel)
    patterns = [
        tuple(path.attrib["d"] for path in pattern.iter("path")) for pattern in root.iter("pattern")
    ]
    used = {part.attrib["fill"] for part in root if part.attrib.get("fill", "").startswith("url")}

    assert len(set(patterns)) == len(names)
    assert used == {f"url(#p-{at})" for at in range(6)}
    assert set(names) <= {text.text for text in root.iter("text")}


@pytest.mark.parametrize(
    "panel",
    [
        values(PanelPoint(mark="a", value=1.01)),
        values(PanelPoint(mark="a", value=float("nan"))),
        values(PanelPoint(mark="a", value=None, expected=-0.1)),
        values(PanelPoint(mark="a", value=0.5, low=0.2)),
        values(PanelPoint(mark="a", value=0.5, low=0.2, high=float("inf"))),
        ValuePanel(title="x", points=(), bottom=1.0, top=1.0, steps=()),
        StackPanel(title="x", names=(), bars=()),
        StackPanel(title="x", names=("a",) * 7, bars=()),
        StackPanel(title="x", names=("one",), bars=(StackPart(mark="a", shares=(0.5,)),)),
        StackPanel(title="x", names=("one",), bars=(StackPart(mark="a", shares=(0.5, 0.5)),)),
    ],
)
def test_panel__refuses_what_has_no_place(panel: ValuePanel | StackPanel) -> None:
    with pytest.raises(DomainError):
        drawn(panel)
