"""Small charts below a timeline, on its time axis: values with their intervals, and stacked shares.

Everything alike in a chart is one path, so that a line of hundreds of broods stays a small page.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from filialog.domain_error import DomainError
from filialog.pages.drawing.letters import shortened, text_width, wrapped
from filialog.pages.drawing.share_scale import percent
from filialog.pages.drawing.svg import element, number
from filialog.pages.drawing.time_axis import TimeScale

__all__ = [
    "MOST_STACKED",
    "PANEL_PITCH",
    "PanelPoint",
    "StackPanel",
    "StackPart",
    "ValuePanel",
    "draw_panel",
]

PANEL_PITCH = 10.0
"""Least distance of two marks in a chart, in px."""
MOST_STACKED = 6
"""Kinds of parts that patterns tell apart."""

_LINE = 15.0
_HEIGHT = 46.0
_BAR = 8.0
_PATTERNS = (
    None,
    "M0 6L6 0M-1 1L1 -1M5 7L7 5",
    "M1 1h2v2h-2ZM4 4h2v2h-2Z",
    "M0 3H6",
    "M3 0V6",
    "M0 0L6 6M0 6L6 0",
)
"""What is drawn over the ground of each kind of part; nothing over the first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelPoint:
    """What is known of a brood in one chart."""

    mark: str
    """The brood it belongs to: it stands where that does."""
    value: float | None
    """Drawn as a dot."""
    low: float | None = None
    """Lower end of its interval or range."""
    high: float | None = None
    """Upper end."""
    expected: float | None = None
    """Drawn as a thick stroke."""
    at_most: bool = False
    """True draws the dot open: the value is an upper limit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ValuePanel:
    """A chart of values."""

    title: str
    points: tuple[PanelPoint, ...]
    bottom: float
    """Value at the foot."""
    top: float
    """Value at the head, above the one at the foot."""
    steps: tuple[tuple[float, str], ...]
    """Values that have a line across, with their words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StackPart:
    """The parts of one brood, together 1."""

    mark: str
    shares: tuple[float, ...]
    """In the order of the panel's names."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StackPanel:
    """A chart of shares, stacked for each brood."""

    title: str
    names: tuple[str, ...]
    """What the parts are of, from the foot up."""
    bars: tuple[StackPart, ...]


def draw_panel(
    panel: ValuePanel | StackPanel,
    *,
    scale: TimeScale,
    places: Mapping[str, float],
    top: float,
    prefix: str,
) -> tuple[list[Markup], float]:
    """Return the drawing of a chart and the height of its foot.

    `places` has where each brood stands; `prefix` begins the identifiers of patterns, which must
    be unlike on a page. DomainError: a value off the scale, or shares that are not together 1.
    """
    parts: list[Markup] = []
    for line in wrapped(panel.title, width=scale.width - 8, size=12, bold=True):
        top += _LINE
        parts.append(element("text", line, class_="d-label", x=4, y=top - 3, font_size=12))
    top += 6
    if isinstance(panel, ValuePanel):
        return [*parts, *_values(panel, scale, places, top)], top + _HEIGHT
    drawn, foot = _stacked(panel, scale, places, top, prefix)
    return [*parts, *drawn], foot


def _values(
    panel: ValuePanel, scale: TimeScale, places: Mapping[str, float], top: float
) -> list[Markup]:
    _check_values(panel)

    def y(value: float) -> float:
        # An interval of a mean can reach past the ends of a scale.
        part = (value - panel.bottom) / (panel.top - panel.bottom)
        return top + _HEIGHT * (1.0 - min(max(part, 0.0), 1.0))

    parts = _grid([(y(value), words) for value, words in panel.steps], scale)
    expected, whiskers, dots, rings = "", "", "", ""
    for point in panel.points:
        x = places[point.mark]
        if point.expected is not None:
            expected += f"M{number(x - 5)} {number(y(point.expected))}h10"
        if point.low is not None and point.high is not None and point.low != point.high:
            whiskers += _whisker(x, y(point.low), y(point.high))
        if point.value is None:
            continue
        if point.at_most:
            rings += _ring(x, y(point.value))
        else:
            dots += f"M{number(x)} {number(y(point.value))}h0"
    for kind, path in (("d-expected", expected), ("d-interval", whiskers), ("d-bound", rings)):
        if path:
            parts.append(
                element("path", class_=kind, d=path, fill="none", stroke="currentColor",
                        stroke_width=3 if kind == "d-expected" else 1.5)
            )  # fmt: skip
    if dots:
        # A stroke of no length with round ends is a dot: one element for all of them.
        parts.append(
            element("path", class_="d-dots", d=dots, fill="none", stroke="currentColor",
                    stroke_width=6, stroke_linecap="round")
        )  # fmt: skip
    return parts


def _check_values(panel: ValuePanel) -> None:
    if not panel.bottom < panel.top:
        raise DomainError("head of the scale", panel.top, f"above {panel.bottom}")
    for point in panel.points:
        for value in (point.value, point.expected):
            if value is not None and not panel.bottom <= value <= panel.top:
                raise DomainError("value", value, f"{panel.bottom} to {panel.top}")
        for end in (point.low, point.high):
            if end is not None and not math.isfinite(end):
                raise DomainError("end of an interval", end, "a number")
        if (point.low is None) != (point.high is None):
            raise DomainError("interval", (point.low, point.high), "both ends or neither")


def _whisker(x: float, low: float, high: float) -> str:
    left = number(x - 3)
    return (
        f"M{left} {number(low)}h6M{number(x)} {number(low)}V{number(high)}M{left} {number(high)}h6"
    )


def _ring(x: float, y: float) -> str:
    return f"M{number(x - 3.2)} {number(y)}a3.2 3.2 0 1 0 6.4 0a3.2 3.2 0 1 0 -6.4 0"


def _grid(steps: Iterable[tuple[float, str]], scale: TimeScale) -> list[Markup]:
    placed = list(steps)
    lines = "".join(f"M{number(scale.left)} {number(y)}H{number(scale.right)}" for y, _ in placed)
    words = [
        element("text", shortened(text, width=scale.left - 3, size=11), x=scale.left - 3, y=y + 4)
        for y, text in placed
    ]
    return [
        element("path", class_="d-grid", d=lines, fill="none", stroke="currentColor",
                stroke_opacity="0.3"),
        element("g", *words, class_="d-note", text_anchor="end", font_size=11),
    ]  # fmt: skip


# --- stacked shares -------------------------------------------------------------------------


def _stacked(
    panel: StackPanel, scale: TimeScale, places: Mapping[str, float], top: float, prefix: str
) -> tuple[list[Markup], float]:
    if not 1 <= len(panel.names) <= MOST_STACKED:
        raise DomainError("kinds of parts", len(panel.names), f"1 to {MOST_STACKED}")
    base = top + _HEIGHT
    parts = [_patterns(len(panel.names), prefix)]
    parts += _grid(((base - one * _HEIGHT, percent(one)) for one in (0.0, 0.5, 1.0)), scale)
    paths = [""] * len(panel.names)
    for bar in panel.bars:
        if len(bar.shares) != len(panel.names) or not math.isclose(
            sum(bar.shares), 1.0, abs_tol=1e-6
        ):
            raise DomainError("shares of a bar", bar.shares, "one for each name, together 1")
        x, foot = places[bar.mark] - _BAR / 2, 0.0
        for at, share in enumerate(bar.shares):
            if share > 0.0:
                low, high = base - foot * _HEIGHT, base - (foot + share) * _HEIGHT
                paths[at] += f"M{number(x)} {number(low)}V{number(high)}h{number(_BAR)}"
                paths[at] += f"V{number(low)}Z"
            foot += share
    parts += [
        element("path", class_=f"d-part d-part-{at}", d=path, fill=f"url(#{prefix}-{at})",
                stroke="currentColor", stroke_width=0.5)
        for at, path in enumerate(paths)
        if path
    ]  # fmt: skip
    drawn, foot = _legend(panel.names, scale, base + 8, prefix)
    return [*parts, *drawn], foot


def _patterns(kinds: int, prefix: str) -> Markup:
    found = []
    for at in range(kinds):
        inside = [element("rect", width=6, height=6, class_="d-ground", fill="currentColor",
                          fill_opacity="0.25")]  # fmt: skip
        path = _PATTERNS[at]
        if path is not None:
            inside.append(
                element("path", d=path, class_="d-over", fill="none", stroke="currentColor")
            )
        found.append(
            element("pattern", *inside, id=f"{prefix}-{at}", class_=f"d-part-{at}",
                    patternUnits="userSpaceOnUse", width=6, height=6)
        )  # fmt: skip
    return element("defs", *found)


def _legend(
    names: Sequence[str], scale: TimeScale, top: float, prefix: str
) -> tuple[list[Markup], float]:
    """Return a square and a name for each kind of part, in as many rows as they need."""
    parts: list[Markup] = []
    x, y = 4.0, top
    for at, full in enumerate(names):
        name = shortened(full, width=scale.width - 40, size=11)
        width = 18 + text_width(name, size=11) + 12
        if x > 4.0 and x + width > scale.width:
            x, y = 4.0, y + 17
        parts.append(
            element("rect", class_=f"d-part d-part-{at}", x=x, y=y, width=12, height=12,
                    fill=f"url(#{prefix}-{at})", stroke="currentColor", stroke_width=0.5)
        )  # fmt: skip
        parts.append(element("text", name, class_="d-note", x=x + 17, y=y + 10, font_size=11))
        x += width
    return parts, y + 14
