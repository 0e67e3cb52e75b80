"""Broods along time in bands of generations, with small charts below on the same time axis."""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from filialog.domain_error import DomainError
from filialog.pages.drawing.letters import wrapped
from filialog.pages.drawing.spread import spread
from filialog.pages.drawing.svg import drawing, element, number
from filialog.pages.drawing.time_axis import EDGE, LEFT, TimeScale, ticks_below, words_in_a_row
from filialog.pages.drawing.time_panels import PANEL_PITCH, StackPanel, ValuePanel, draw_panel

__all__ = ["TimelineMark", "timeline_svg"]

_WIDTHS = (320.0, 400.0, 480.0, 560.0, 640.0, 800.0, 960.0, 1280.0, 1600.0, 1920.0)
"""Tried from the left until no mark stands far from its day; the first fits a phone."""
_FAR = 96.0
_PITCH = 26.0
"""Least distance of marks that lead somewhere, so that each can be touched (WCAG 2.2, 2.5.8)."""
_LINE = 15.0
_MARK = 26.0
"""Height of a mark, in px."""
_FOOT = 12.0
"""Height of the strip where a mark is led to its day."""
_BETWEEN = 16.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TimelineMark:
    """One brood."""

    label: str
    """Its name, each once: below the mark where there is room, and always on pointing at it."""
    day: date
    """Its day."""
    band: str
    """Its generation; marks with the same text share a band."""
    href: str | None = None
    """Where the mark leads, a checked address, or None."""


def timeline_svg(
    marks: tuple[TimelineMark, ...],
    *,
    panels: tuple[ValuePanel | StackPanel, ...] = (),
    first: date,
    last: date,
    tick_labels: tuple[tuple[date, str], ...],
    title: str,
    describe: str,
) -> Markup:
    """Return bands in the order of their first mark, over an axis from `first` to `last`.

    Below the bands stand the charts. Every band and chart has all ticks; below the last band and
    the last chart stand the words of each, or of every second, third, … where there is less room.
    Marks that would touch stand apart, each led to its own day on the axis; so there are no
    upright grid lines to read a mark against. DomainError: no marks, two of one name, a day
    outside the axis, or a chart that speaks of a brood without a mark.
    """
    _check(marks, panels, first, last, tick_labels)
    bands: dict[str, list[TimelineMark]] = {}
    for mark in marks:
        bands.setdefault(mark.band, []).append(mark)
    for members in bands.values():
        members.sort(key=lambda mark: (mark.day, mark.label))
    scale, spots, places = _fitting(bands, first, last, has_panels=bool(panels))
    parts: list[Markup] = []
    top = 4.0
    for at, (name, members) in enumerate(bands.items()):
        drawn, foot = _band(name, members, spots[name], scale, top)
        is_last = at == len(bands) - 1
        parts += [*drawn, *ticks_below(scale, tick_labels, y=foot, words=False)]
        top = foot + 20
        if is_last:
            parts += ticks_below(scale, tick_labels, y=top, words=True)
            top += 24
    prefix = _prefix(title, marks)
    for at, panel in enumerate(panels):
        drawn, foot = draw_panel(
            panel, scale=scale, places=places, top=top + 4, prefix=f"{prefix}-{at}"
        )
        parts += drawn
        top = foot + _BETWEEN
    if panels:
        parts += ticks_below(scale, tick_labels, y=top - 8, words=True)
        top += 16
    return drawing(
        *parts,
        kind="timeline",
        title=title,
        describe=describe,
        width=scale.width,
        height=top + 4,
        has_links=any(mark.href is not None for mark in marks),
        fits=scale.width == _WIDTHS[0],
    )


def _prefix(title: str, marks: Sequence[TimelineMark]) -> str:
    named = "\0".join((title, *(mark.label for mark in marks))).encode(errors="replace")
    return f"p-{hashlib.sha256(named).hexdigest()[:10]}"


def _check(
    marks: Sequence[TimelineMark],
    panels: Sequence[ValuePanel | StackPanel],
    first: date,
    last: date,
    tick_labels: Sequence[tuple[date, str]],
) -> None:
    if not marks:
        raise DomainError("number of marks on the time axis", 0, "1 or more")
    names = {mark.label for mark in marks}
    if len(names) != len(marks):
        raise DomainError("names of marks", len(names), "one for each mark")
    if last < first:
        raise DomainError("last day of the time axis", last.isoformat(), "the first day or later")
    for day in (*(mark.day for mark in marks), *(day for day, _ in tick_labels)):
        if not first <= day <= last:
            raise DomainError("day on the time axis", day.isoformat(), f"{first} to {last}")
    for panel in panels:
        inside = panel.points if isinstance(panel, ValuePanel) else panel.bars
        for one in inside:
            if one.mark not in names:
                raise DomainError("brood of a chart", one.mark, "the name of a mark")


def _fitting(
    bands: Mapping[str, Sequence[TimelineMark]], first: date, last: date, *, has_panels: bool
) -> tuple[TimeScale, dict[str, list[float]], dict[str, float]]:
    """Return the narrowest scale that keeps marks near their days, and each mark's places.

    These are the place in its band, and that in the charts, where all broods share one line.
    """
    every = sorted(
        (mark for members in bands.values() for mark in members),
        key=lambda mark: (mark.day, mark.label),
    )
    crowd = max(
        max(len(members) for members in bands.values()) * _PITCH,
        len(every) * PANEL_PITCH if has_panels else 0.0,
    )
    widths = [*_WIDTHS, max(_WIDTHS[-1], LEFT + EDGE + crowd)]
    scale = TimeScale(first=first, last=last, width=widths[0])
    spots: dict[str, list[float]] = {}
    places: dict[str, float] = {}
    for width in widths:
        scale = TimeScale(first=first, last=last, width=width)
        rows = [(name, members, _PITCH) for name, members in bands.items()]
        far = 0.0
        for name, members, pitch in rows:
            spots[name], shift = _apart(members, scale, pitch)
            far = max(far, shift)
        if has_panels:
            found, shift = _apart(every, scale, PANEL_PITCH)
            places = {mark.label: x for mark, x in zip(every, found, strict=True)}
            far = max(far, shift)
        if far <= _FAR:
            break
    return scale, spots, places


def _apart(
    marks: Sequence[TimelineMark], scale: TimeScale, pitch: float
) -> tuple[list[float], float]:
    """Return the places of marks at least so far apart, and the greatest shift from a day."""
    days = [scale.x(mark.day) for mark in marks]
    found = spread(days, [pitch] * (len(days) - 1), low=LEFT, high=scale.width - EDGE)
    if found[-1] > scale.width - EDGE + 0.001:
        return found, scale.width
    return found, max(abs(a - b) for a, b in zip(days, found, strict=True))


def _band(
    name: str, marks: Sequence[TimelineMark], spots: Sequence[float], scale: TimeScale, top: float
) -> tuple[list[Markup], float]:
    """Return the drawing of one band and the height of its axis."""
    parts: list[Markup] = []
    for line in wrapped(name, width=scale.width - 8, size=12, bold=True):
        top += _LINE
        parts.append(element("text", line, class_="d-label", x=4, y=top - 3, font_size=12))
    foot = top + _MARK + _FOOT
    leads, dots = "", ""
    linked: list[Markup] = []
    for mark, x in zip(marks, spots, strict=True):
        y, day_x = top + _MARK / 2 + 3, scale.x(mark.day)
        leads += f"M{number(day_x)} {number(foot)}v-3L{number(x)} {number(y + 5)}"
        if mark.href is None:
            dots += f"M{number(x)} {number(y)}h0"
        else:
            linked.append(_linked(mark, x=x, y=y))
    parts.append(
        element("path", class_="d-axis", d=f"M{number(scale.left)} {number(foot)}"
                f"H{number(scale.right)}", fill="none", stroke="currentColor")
    )  # fmt: skip
    parts.append(element("path", class_="d-day", d=leads, fill="none", stroke="currentColor"))
    if dots:
        parts.append(
            element("path", class_="d-dots", d=dots, fill="none", stroke="currentColor",
                    stroke_width=8, stroke_linecap="round")
        )  # fmt: skip
    words = words_in_a_row(
        [(x, mark.label) for mark, x in zip(marks, spots, strict=True)],
        y=foot + 15, left=scale.left, right=scale.width,
    )  # fmt: skip
    return [*parts, *linked, *words], foot


def _linked(mark: TimelineMark, *, x: float, y: float) -> Markup:
    """Return a mark that leads somewhere, large enough to be touched."""
    return element(
        "a",
        element("title", f"{mark.label}, {mark.day.isoformat()}"),
        element("rect", class_="d-hit", x=x - _PITCH / 2, y=y - _PITCH / 2, width=_PITCH,
                height=_PITCH, rx=4, fill="none"),
        element("circle", class_="d-observed", cx=x, cy=y, r=5),
        class_="d-mark",
        href=mark.href,
    )  # fmt: skip
