"""Small squares that stand for a look: each look has a pattern of its own, and a colour besides.

The pattern tells looks apart without colour; where there are more looks than patterns, pattern
and colour together do.
"""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from filialog.pages.drawing.svg import element

__all__ = ["COLOURS", "PATTERNS", "SWATCH_SIZE", "Swatch", "draw_swatch", "swatch_svg", "swatches"]

SWATCH_SIZE = 12.0
COLOURS = 4
"""Colours that the stylesheet gives: classes `d-look-0` to `d-look-3`."""

_LINES = (
    "M0 4L4 0M0 8L8 0M0 12L12 0M4 12L12 4M8 12L12 8",
    "M8 0L12 4M4 0L12 8M0 0L12 12M0 4L8 12M0 8L4 12",
    "M0 3H12M0 6H12M0 9H12",
    "M3 0V12M6 0V12M9 0V12",
    "M0 4H12M0 8H12M4 0V12M8 0V12",
    "M0 0L12 12M12 0L0 12",
    "M6 0V12M0 6H12",
)
_AREAS = (
    "M0 0H12V12H0Z",
    "M2 2h2v2h-2ZM8 2h2v2h-2ZM5 5h2v2h-2ZM2 8h2v2h-2ZM8 8h2v2h-2Z",
    "M0 0H6V12H0Z",
    "M0 6H12V12H0Z",
    "M0 0H6V6H0ZM6 6H12V12H6Z",
    "M0 0L12 12H0Z",
    "M6 3L9 6L6 9L3 6Z",
    "M0 0H12L6 6Z",
    "M0 0H4V12H0ZM8 0H12V12H8Z",
)
PATTERNS = len(_LINES) + len(_AREAS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """The mark of one look."""

    pattern: int
    """Which pattern, from 0 to `PATTERNS` - 1."""
    colour: int
    """Which colour of the stylesheet, from 0 to `COLOURS` - 1."""


def swatches(looks: Iterable[str]) -> dict[str, Swatch]:
    """Give each look a swatch that rests on its name, so that it keeps it from site to site.

    Two looks get different patterns while there are patterns left, then different pairs of
    pattern and colour, and beyond 64 looks the same pairs again. Only where two names want the
    same pattern does a look depend on which others there are.
    """
    found: dict[str, Swatch] = {}
    free: set[tuple[int, int]] = set()
    patterns: set[int] = set()
    for look in sorted(set(looks)):
        if not free:
            free = {(one, other) for one in range(PATTERNS) for other in range(COLOURS)}
        if not patterns:
            patterns = set(range(PATTERNS))
        digest = hashlib.sha256(look.encode(errors="replace")).digest()
        wanted, tint = digest[0], digest[1]
        pattern = min(patterns, key=lambda one: (one - wanted) % PATTERNS)
        pair = min(
            (pair for pair in free if pair[0] == pattern),
            key=lambda pair: (pair[1] - tint) % COLOURS,
        )
        patterns.discard(pattern)
        free.discard(pair)
        found[look] = Swatch(pattern=pair[0], colour=pair[1])
    return found


def draw_swatch(swatch: Swatch, *, x: float, y: float) -> Markup:
    """Return a swatch with its upper left corner at a point."""
    if swatch.pattern < len(_LINES):
        inside = element("path", d=_LINES[swatch.pattern], fill="none")
    else:
        inside = element("path", d=_AREAS[swatch.pattern - len(_LINES)], stroke="none")
    return element(
        "g",
        element("rect", width=SWATCH_SIZE, height=SWATCH_SIZE, fill="none"),
        inside,
        class_=f"d-look d-look-{swatch.colour}",
        stroke="currentColor",
        transform=f"translate({x:.1f} {y:.1f})",
    )


def swatch_svg(swatch: Swatch) -> Markup:
    """Return one swatch as a small picture for a legend, hidden from screen readers."""
    return element(
        "svg", draw_swatch(swatch, x=15, y=13), class_="d-sample", aria_hidden="true",
        width=44, height=40, viewBox="0 0 44 40", fill="currentColor",
    )  # fmt: skip
