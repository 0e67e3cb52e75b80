"""The marks of looks."""

from xml.etree import ElementTree as ET

from hypothesis import given
from hypothesis import strategies as st

from filialog.pages.drawing import swatch_svg, swatches
from filialog.pages.drawing.swatches import COLOURS, PATTERNS, Swatch, draw_swatch

NAMES = [f"look {number}" for number in range(PATTERNS * COLOURS)]


def test_swatches__differ_by_pattern_alone_while_there_are_patterns() -> None:
    found = swatches(NAMES[:PATTERNS])

    assert len({swatch.pattern for swatch in found.values()}) == PATTERNS


def test_swatches__differ_by_pattern_and_colour_after_that() -> None:
    assert len(set(swatches(NAMES).values())) == PATTERNS * COLOURS


def test_swatches__never_run_out() -> None:
    found = swatches([*NAMES, "one more"])

    assert len(found) == PATTERNS * COLOURS + 1
    assert all(0 <= one.pattern < PATTERNS for one in found.values())


@given(st.lists(st.text(), unique=True, max_size=20), st.randoms(use_true_random=False))
def test_swatches__rest_on_names_and_not_on_their_order(looks: list[str], chance: object) -> None:
    mixed = list(looks)
    chance.shuffle(mixed)  # type: ignore[attr-defined]

    assert swatches(mixed) == swatches(looks)


def test_swatches__one_more_look_leaves_most_as_they_were() -> None:
    before = swatches(NAMES[:8])
    changed = [
        sum(swatches([*NAMES[:8], other])[look] != mark for look, mark in before.items())
        for other in NAMES[8:40]
    ]

    assert sum(changed) / len(changed) < 1.5


def test_draw_swatch__every_pattern_looks_different() -> None:
    drawn = {
        draw_swatch(Swatch(pattern=pattern, colour=0), x=0, y=0) for pattern in range(PATTERNS)
    }

    assert len(drawn) == PATTERNS


def test_draw_swatch__carries_no_style() -> None:
    for pattern in range(PATTERNS):
        svg = swatch_svg(Swatch(pattern=pattern, colour=1))
        root = ET.fromstring(svg)
        assert root.attrib["aria-hidden"] == "true"
        assert "style" not in svg
