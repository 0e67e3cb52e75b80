"""Observed and expected shares."""

import re
from xml.etree import ElementTree as ET

import pytest

from filialog.domain_error import DomainError
from filialog.pages.drawing import ShareRow, shares_svg


def row(
    *,
    label: str = "slate",
    observed: float | None = None,
    interval: tuple[float | None, float | None] = (None, None),
    expected: tuple[float, float] = (0.25, 0.25),
) -> ShareRow:
    return ShareRow(
        label=label,
        observed=observed,
        low=interval[0],
        high=interval[1],
        expected_low=expected[0],
        expected_high=expected[1],
    )


def drawn(*rows: ShareRow) -> ET.Element:
    return ET.fromstring(
        shares_svg(rows, title="Looks", describe="By look", axis_label="Share of young")
    )


def grid(root: ET.Element) -> dict[float, float]:
    """Return the x of each labelled share, from the drawing's own axis words."""
    return {
        int(re.sub(r"\D", "", text.text or "")) / 100: float(text.attrib["x"])
        for text in root.iter("text")
        if (text.text or "").endswith("%")
    }


def part(root: ET.Element, kind: str) -> dict[str, str]:
    (found,) = [element for element in root.iter() if element.attrib.get("class") == kind]
    return found.attrib


@pytest.mark.parametrize("share", [0.0, 0.25, 0.5, 0.75, 1.0])
def test_shares__dot_stands_over_its_tick(share: float) -> None:
    root = drawn(row(observed=share, interval=(share, share)))

    assert float(part(root, "d-observed")["cx"]) == grid(root)[share]


def test_shares__interval_and_expected_tick_stand_on_the_same_axis() -> None:
    root = drawn(row(observed=0.4, interval=(0.25, 0.75), expected=(0.5, 0.5)))
    axis = grid(root)
    ends = [float(x) for x in re.findall(r"M([\d.]+)", part(root, "d-interval")["d"])]

    assert (min(ends), max(ends)) == (axis[0.25], axis[0.75])
    assert float(part(root, "d-expected")["x1"]) == axis[0.5]


def test_shares__an_expected_range_is_a_bar() -> None:
    root = drawn(row(expected=(0.0, 0.25)))
    bar = part(root, "d-expected-range")
    axis = grid(root)

    assert float(bar["x"]) == axis[0.0]
    assert float(bar["x"]) + float(bar["width"]) == axis[0.25]
    assert not [e for e in root.iter() if e.attrib.get("class") == "d-observed"]


def test_shares__one_row_per_look_below_each_other() -> None:
    labels = ["slate", "clear, of a kind that takes many words to tell from the others", "<&>"]
    root = drawn(*(row(label=label, observed=0.5) for label in labels))
    groups = [group for group in root.iter("g") if group.find("title") is not None]
    levels = [float(e.attrib["cy"]) for e in root.iter("circle")]

    assert [group.findtext("title") for group in groups] == labels
    assert levels == sorted(set(levels))
    assert levels[-1] < float(root.attrib["height"])


def test_shares__fits_a_phone_and_is_an_image() -> None:
    root = drawn(row())

    assert float(root.attrib["width"]) <= 328
    assert root.attrib["role"] == "img"
    assert "style" not in root.attrib


@pytest.mark.parametrize(
    "bad",
    [
        row(observed=1.5),
        row(observed=float("nan")),
        row(interval=(0.1, None)),
        row(interval=(0.6, 0.5)),
        row(expected=(0.5, 0.25)),
        row(expected=(-0.1, 0.5)),
    ],
)
def test_shares__refuses_what_is_no_share(bad: ShareRow) -> None:
    with pytest.raises(DomainError):
        drawn(bad)


def test_shares__refuses_no_rows() -> None:
    with pytest.raises(DomainError):
        drawn()
