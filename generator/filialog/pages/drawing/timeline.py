"""Broods along time, a band for each generation, with the share of the goal look in each."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from filialog.domain_error import DomainError
from filialog.pages.drawing.letters import shortened, text_width, wrapped
from filialog.pages.drawing.share_scale import check_range, check_share, percent
from filialog.pages.drawing.spread import spread
from filialog.pages.drawing.svg import drawing, element, number

__all__ = ["TimelineMark", "timeline_svg"]

_WIDTHS = (320.0, 400.0, 480.0, 560.0, 640.0, 800.0, 960.0, 1280.0, 1600.0, 1920.0)
"""Tried from the left until no mark stands far from its day; the first fits a phone."""
_FAR = 64.0
_PITCH = 26.0
"""Least distance of marks, so that each can be touched (WCAG 2.2, 2.5.8), in px."""
_LEFT = 48.0
_EDGE = 16.0
_LINE = 15.0
_SHARE_HEIGHT = 72.0
_LOW_SHARE_HEIGHT = 48.0
_MOST_HIGH_BANDS = 3
"""With more bands than this each is lower, so that the whole stays readable on a phone."""
_PLAIN_HEIGHT = 16.0
_FOOT = 22.0
"""Height of the strip where a mark is led to its day."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TimelineMark:
    """One brood."""

    label: str
    """Its name: below the mark where there is room, and always on pointing at it."""
    day: date
    """Its day."""
    band: str
    """Its generation; marks with the same text share a band."""
    share: float | None = None
    """Observed share of the goal look, a fraction; None where nothing was counted."""
    low: float | None = None
    """Lower end of the interval of the share, or None."""
    high: float | None = None
    """Upper end, or None."""
    expected: float | None = None
    """Expected share, a fraction, or None."""
    href: str | None = None
    """Where the mark leads, a checked address, or None."""

    @property
    def has_share(self) -> bool:
        """Whether anything is drawn on the scale of shares."""
        return any(value is not None for value in (self.share, self.low, self.expected))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scale:
    first: date
    last: date
    width: float
    height: float
    """Height of the scale of shares in a band."""

    def x(self, day: date) -> float:
        days = (self.last - self.first).days
        part = (day - self.first).days / days if days else 0.5
        return _LEFT + part * (self.width - _EDGE - _LEFT)


def timeline_svg(
    marks: tuple[TimelineMark, ...],
    *,
    first: date,
    last: date,
    tick_labels: tuple[tuple[date, str], ...],
    title: str,
    describe: str,
    axis_label: str,
) -> Markup:
    """Return bands in the order of their first mark, over an axis from `first` to `last`.

    Every band has all ticks; below the last one stand the words of each, or of every second,
    third, … where there is less room. `axis_label` says what the share is a share of. Marks that
    would touch stand apart, each led to its own day on the axis; so there are no upright grid
    lines to read a mark against. DomainError: no marks, a day outside the axis, or a share
    outside of 0 to 1.
    """
    _check(marks, first, last, tick_labels)
    bands: dict[str, list[TimelineMark]] = {}
    for mark in marks:
        bands.setdefault(mark.band, []).append(mark)
    for members in bands.values():
        members.sort(key=lambda mark: (mark.day, mark.label))
    scale, spots = _fitting(bands, first, last)
    parts: list[Markup] = []
    top = 4.0
    if any(mark.has_share for mark in marks):
        for line in wrapped(axis_label, width=scale.width - 8, size=11):
            top += _LINE
            parts.append(element("text", line, class_="d-note", x=4, y=top - 4, font_size=11))
    ticks = [(scale.x(day), words) for day, words in sorted(tick_labels)]
    for name, members in bands.items():
        drawn, foot = _band(name, members, spots[name], scale, top + 4)
        parts += [
            element(
                "line", class_="d-axis", x1=x, y1=foot, x2=x, y2=foot + 4, stroke="currentColor"
            )
            for x, _ in ticks
        ]
        parts += drawn
        top = foot + 20
    words = _tick_words(ticks, y=top + 16, left=4, right=scale.width - 2)
    return drawing(
        *parts,
        *words,
        kind="timeline",
        title=title,
        describe=describe,
        width=scale.width,
        height=top + 24,
        has_links=any(mark.href is not None for mark in marks),
        fits=scale.width == _WIDTHS[0],
    )


def _check(
    marks: Sequence[TimelineMark],
    first: date,
    last: date,
    tick_labels: Sequence[tuple[date, str]],
) -> None:
    if not marks:
        raise DomainError("number of marks on the time axis", 0, "1 or more")
    if last < first:
        raise DomainError("last day of the time axis", last.isoformat(), "the first day or later")
    for day in (*(mark.day for mark in marks), *(day for day, _ in tick_labels)):
        if not first <= day <= last:
            raise DomainError("day on the time axis", day.isoformat(), f"{first} to {last}")
    for mark in marks:
        check_share("observed share", mark.share)
        check_share("expected share", mark.expected)
        check_range("interval of the observed share", mark.low, mark.high)


def _fitting(
    bands: dict[str, list[TimelineMark]], first: date, last: date
) -> tuple[_Scale, dict[str, list[float]]]:
    """Return the narrowest scale that keeps marks near their days, and each mark's place."""
    crowd = max(len(members) for members in bands.values())
    widths = [*_WIDTHS, max(_WIDTHS[-1], _LEFT + _EDGE + crowd * _PITCH)]
    height = _SHARE_HEIGHT if len(bands) <= _MOST_HIGH_BANDS else _LOW_SHARE_HEIGHT
    scale = _Scale(first=first, last=last, width=widths[0], height=height)
    spots: dict[str, list[float]] = {}
    for width in widths:
        scale = _Scale(first=first, last=last, width=width, height=height)
        far = 0.0
        for name, members in bands.items():
            days = [scale.x(mark.day) for mark in members]
            gaps = [_PITCH] * (len(days) - 1)
            spots[name] = spread(days, gaps, low=_LEFT, high=width - _EDGE)
            far = max(far, *(abs(a - b) for a, b in zip(days, spots[name], strict=True)))
            if spots[name][-1] > width - _EDGE + 0.001:
                far = width
        if far <= _FAR:
            break
    return scale, spots


def _band(
    name: str, marks: Sequence[TimelineMark], spots: Sequence[float], scale: _Scale, top: float
) -> tuple[list[Markup], float]:
    """Return the drawing of one band and the height of its axis."""
    has_scale = any(mark.has_share for mark in marks)
    parts: list[Markup] = []
    for line in wrapped(name, width=scale.width - 8, size=12, bold=True):
        top += _LINE
        parts.append(element("text", line, class_="d-label", x=4, y=top - 3, font_size=12))
    top += 8
    base = top + (scale.height if has_scale else _PLAIN_HEIGHT)
    right = scale.width - _EDGE + 8
    if has_scale:
        for share in (0.0, 0.5, 1.0):
            y = base - share * scale.height
            parts.append(
                element("line", class_="d-grid", x1=_LEFT - 8, y1=y, x2=right, y2=y,
                        stroke="currentColor", stroke_opacity="0.3")
            )  # fmt: skip
            parts.append(
                element("text", percent(share), class_="d-note", x=_LEFT - 11, y=y + 4,
                        text_anchor="end", font_size=11)
            )  # fmt: skip
    foot = base + _FOOT
    parts.append(
        element("line", class_="d-axis", x1=_LEFT - 8, y1=foot, x2=right, y2=foot,
                stroke="currentColor")
    )  # fmt: skip
    parts += [
        _mark(mark, x=x, base=base, top=top, scale=scale)
        for mark, x in zip(marks, spots, strict=True)
    ]
    words = _words(
        [(x, mark.label) for mark, x in zip(marks, spots, strict=True)],
        y=foot + 16, left=_LEFT - 8, right=scale.width,
    )  # fmt: skip
    return [*parts, *words], foot


def _mark(mark: TimelineMark, *, x: float, base: float, top: float, scale: _Scale) -> Markup:
    def level(share: float) -> float:
        return base - share * scale.height

    day_x = scale.x(mark.day)
    foot = base + _FOOT
    hit = element("rect", class_="d-hit", x=x - _PITCH / 2, y=top - 6, width=_PITCH,
                  height=foot + 6 - top, rx=4, fill="none")  # fmt: skip
    parts: list[Markup] = [element("title", f"{mark.label}, {mark.day.isoformat()}"), hit]
    lead = f"M{number(day_x)} {number(foot)}V{number(foot - 3)}L{number(x)} {number(base)}"
    parts.append(element("path", class_="d-day", d=lead, fill="none", stroke="currentColor"))
    if mark.expected is not None:
        y = level(mark.expected)
        parts.append(
            element("line", class_="d-expected", x1=x - 9, y1=y, x2=x + 9, y2=y,
                    stroke="currentColor", stroke_width=4)
        )  # fmt: skip
    if mark.low is not None and mark.high is not None:
        low, high = number(level(mark.low)), number(level(mark.high))
        left, right = number(x - 4), number(x + 4)
        whisker = f"M{left} {low}H{right}M{number(x)} {low}V{high}M{left} {high}H{right}"
        parts.append(
            element("path", class_="d-interval", d=whisker, fill="none", stroke="currentColor")
        )
    if mark.share is not None:
        parts.append(element("circle", class_="d-observed", cx=x, cy=level(mark.share), r=4.5))
    elif not mark.has_share:
        parts.append(
            element("circle", class_="d-uncounted", cx=x, cy=base - 4, r=4, fill="none",
                    stroke="currentColor")
        )  # fmt: skip
    if mark.href is None:
        return element("g", *parts, class_="d-mark")
    return element("a", *parts, class_="d-mark", href=mark.href)


def _words(
    places: Sequence[tuple[float, str]], *, y: float, left: float, right: float
) -> list[Markup]:
    """Return each word centred on its place as far as it touches no word before it."""
    written: list[Markup] = []
    free = left
    for x, full in places:
        word = shortened(full, width=96, size=11)
        width = text_width(word, size=11)
        start = min(max(x - width / 2, left), right - width)
        if start < free:
            continue
        written.append(
            element("text", word, class_="d-note", x=start + width / 2, y=y, text_anchor="middle",
                    font_size=11)
        )  # fmt: skip
        free = start + width + 4
    return written


def _tick_words(
    ticks: Sequence[tuple[float, str]], *, y: float, left: float, right: float
) -> list[Markup]:
    """Return the words of every tick, or of as many evenly spaced ones as there is room for."""
    for step in range(1, len(ticks) + 1):
        chosen = ticks[::step]
        words = _words(chosen, y=y, left=left, right=right)
        if len(words) == len(chosen):
            return words
    return []
