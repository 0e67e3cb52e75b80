"""Observed shares of the looks of a brood beside the shares expected of it."""

from dataclasses import dataclass

from markupsafe import Markup

from filialog.domain_error import DomainError
from filialog.pages.drawing.letters import wrapped
from filialog.pages.drawing.share_scale import check_range, check_share, percent
from filialog.pages.drawing.svg import drawing, element

__all__ = ["ShareRow", "shares_svg"]

_WIDTH = 320.0
_LEFT = 12.0
_RIGHT = 300.0
_LINE = 15.0
_BAND = 26.0
_TICKS = (0.0, 0.25, 0.5, 0.75, 1.0)
_SAME = 0.004
"""Expected ends nearer than this fall on one px and are drawn as one tick."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareRow:
    """One look."""

    label: str
    """The name of the look."""
    observed: float | None
    """Observed share, a fraction; None where nothing was counted."""
    low: float | None
    """Lower end of the interval of the observed share, or None."""
    high: float | None
    """Upper end, or None."""
    expected_low: float
    """Least expected share, a fraction."""
    expected_high: float
    """Greatest expected share; the same as the least where the expectation is one number."""


def shares_svg(rows: tuple[ShareRow, ...], *, title: str, describe: str, axis_label: str) -> Markup:
    """Return one row per look: observed as a dot with its interval, expected as tick or bar.

    DomainError: no rows, or a share outside of 0 to 1.
    """
    if not rows:
        raise DomainError("number of looks to draw", 0, "1 or more")
    parts: list[Markup] = []
    grid: list[Markup] = []
    top = 4.0
    for row in rows:
        label = wrapped(row.label, width=_RIGHT - _LEFT, size=12, bold=True)
        for line in label:
            top += _LINE
            parts.append(element("text", line, class_="d-label", x=_LEFT, y=top - 3, font_size=12))
        grid += [
            element("line", class_="d-grid", x1=_x(share), y1=top + 1, x2=_x(share), y2=top + _BAND)
            for share in _TICKS
        ]
        parts.append(_row(row, top + _BAND / 2))
        top += _BAND + 4
    ticks = [
        element("text", percent(share), class_="d-note", x=_x(share), y=top + 16,
                text_anchor="middle", font_size=11)
        for share in _TICKS
    ]  # fmt: skip
    bottom = top + 18
    for line in wrapped(axis_label, width=_RIGHT - _LEFT, size=11):
        bottom += _LINE
        ticks.append(element("text", line, class_="d-note", x=_LEFT, y=bottom - 2, font_size=11))
    return drawing(
        element("g", *grid, stroke="currentColor", stroke_opacity="0.3"),
        *parts,
        *ticks,
        kind="shares",
        title=title,
        describe=describe,
        width=_WIDTH,
        height=bottom + 4,
        has_links=False,
        fits=True,
    )


def _x(share: float) -> float:
    return _LEFT + share * (_RIGHT - _LEFT)


def _row(row: ShareRow, y: float) -> Markup:
    """Return the marks of one look; a screen reader and a pointer find its name."""
    check_share("observed share", row.observed)
    check_range("interval of the observed share", row.low, row.high)
    check_range("expected share", row.expected_low, row.expected_high)
    parts: list[Markup] = [element("title", row.label)]
    low, high = _x(row.expected_low), _x(row.expected_high)
    if row.expected_high - row.expected_low < _SAME:
        middle = (low + high) / 2
        parts.append(
            element("line", class_="d-expected", x1=middle, y1=y - 11, x2=middle, y2=y + 11,
                    stroke="currentColor", stroke_width=4)
        )  # fmt: skip
    else:
        parts.append(
            element("rect", class_="d-expected-range", x=low, y=y - 9, width=high - low, height=18,
                    fill="none", stroke="currentColor")
        )  # fmt: skip
    if row.low is not None and row.high is not None:
        left, right = _x(row.low), _x(row.high)
        whisker = (
            f"M{left:.1f} {y - 5:.1f}V{y + 5:.1f}M{left:.1f} {y:.1f}H{right:.1f}"
            f"M{right:.1f} {y - 5:.1f}V{y + 5:.1f}"
        )
        parts.append(
            element("path", class_="d-interval", d=whisker, fill="none", stroke="currentColor")
        )
    if row.observed is not None:
        parts.append(element("circle", class_="d-observed", cx=_x(row.observed), cy=y, r=5))
    return element("g", *parts)
