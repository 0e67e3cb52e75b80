"""Water readings of a tank over time, one quantity to a drawing, with the range aimed at."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from filialog.domain_error import DomainError
from filialog.pages.drawing.letters import text_width, wrapped
from filialog.pages.drawing.svg import drawing, element, number

__all__ = ["ReadingPoint", "readings_svg"]

_WIDTH = 320.0
_RIGHT = 310.0
_TOP = 26.0
_HEIGHT = 84.0
_MOST_STEPS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingPoint:
    """A reading on a day."""

    day: date
    low: float | None
    """Lower bound; None where the instrument only gave an upper one."""
    high: float | None
    """Upper bound; None where it only gave a lower one. Equal to `low` for a plain value."""

    @property
    def value(self) -> float | None:
        """The value where both bounds agree."""
        return self.low if self.low == self.high else None


@dataclass(frozen=True, slots=True)
class _Scale:
    first: date
    last: date
    low: float
    high: float
    left: float

    def x(self, day: date) -> float:
        days = (self.last - self.first).days
        part = (day - self.first).days / days if days else 0.5
        return self.left + 6 + part * (_RIGHT - self.left - 12)

    def y(self, value: float) -> float:
        return _TOP + _HEIGHT * (self.high - value) / (self.high - self.low)


def readings_svg(
    points: tuple[ReadingPoint, ...],
    *,
    first: date,
    last: date,
    target_low: float | None,
    target_high: float | None,
    changes: tuple[date, ...],
    soils: tuple[date, ...],
    tick_labels: tuple[tuple[date, str], ...],
    title: str,
    describe: str,
    axis_label: str,
) -> Markup:
    """Return readings as dots by day, joined by a line, over the band of the range aimed at.

    A reading known only between bounds is an upright stroke; one known only to be below or above
    a value is a triangle that points there. Below the axis a short stroke marks each water change
    and a diamond each new layer of soil. `axis_label` names the quantity with its unit.
    DomainError: no reading, a value that is no number, or a day outside the axis.
    """
    _check(points, first, last, (*changes, *soils, *(day for day, _ in tick_labels)))
    bounds = [bound for one in points for bound in (one.low, one.high) if bound is not None]
    aims = [aim for aim in (target_low, target_high) if aim is not None]
    steps, decimals = _steps(min(bounds + aims), max(bounds + aims))
    labels = [f"{step:.{decimals}f}".replace("-", "\N{MINUS SIGN}") for step in steps]
    left = max(text_width(label, size=11) for label in labels) + 10
    scale = _Scale(first, last, steps[0], steps[-1], left)
    parts: list[Markup] = [
        element("text", line, class_="d-label", x=4, y=12, font_size=12)
        for line in wrapped(axis_label, width=_WIDTH - 8, size=12, bold=True, lines=1)
    ]
    parts += _target(scale, target_low, target_high)
    parts += _grid(scale, steps, labels)
    parts += _readings(points, scale)
    parts += _marks(changes, soils, scale)
    parts += _tick_words(tick_labels, scale)
    return drawing(
        *parts,
        kind="readings",
        title=title,
        describe=describe,
        width=_WIDTH,
        height=_TOP + _HEIGHT + 40,
        has_links=False,
        fits=True,
    )


def _check(points: Sequence[ReadingPoint], first: date, last: date, others: Sequence[date]) -> None:
    if not points:
        raise DomainError("number of readings to draw", 0, "1 or more")
    if last < first:
        raise DomainError("last day of the time axis", last.isoformat(), "the first day or later")
    for day in (*(one.day for one in points), *others):
        if not first <= day <= last:
            raise DomainError("day on the time axis", day.isoformat(), f"{first} to {last}")
    for one in points:
        bounds = [bound for bound in (one.low, one.high) if bound is not None]
        if (
            not bounds
            or not all(math.isfinite(bound) for bound in bounds)
            or (len(bounds) == 2 and bounds[0] > bounds[1])
        ):
            raise DomainError("reading", (one.low, one.high), "one or two bounds in order")


def _steps(low: float, high: float) -> tuple[list[float], int]:
    """Return round values from below the lowest to above the highest, and their decimals."""
    spread = high - low or abs(high) * 0.1 or 1.0
    step = 10.0 ** math.floor(math.log10(spread / _MOST_STEPS))
    factor = next(one for one in (1, 2, 5, 10) if spread / (step * one) <= _MOST_STEPS)
    exponent = math.floor(math.log10(step * factor) + 1e-9)
    step *= factor
    start = math.floor(low / step + 1e-9)
    end = max(math.ceil(high / step - 1e-9), start + 1)
    return [number_ * step for number_ in range(start, end + 1)], max(0, -exponent)


def _target(scale: _Scale, low: float | None, high: float | None) -> list[Markup]:
    if low is None and high is None:
        return []
    top = scale.y(scale.high if high is None else high)
    bottom = scale.y(scale.low if low is None else low)
    return [
        element("rect", class_="d-target", x=scale.left, y=top, width=_RIGHT - scale.left,
                height=max(bottom - top, 1.5), fill="none", stroke="currentColor")
    ]  # fmt: skip


def _grid(scale: _Scale, steps: Sequence[float], labels: Sequence[str]) -> list[Markup]:
    """Return a level line for each round value, and its words."""
    levels = [scale.y(step) for step in steps]
    lines = "".join(f"M{number(scale.left)} {number(y)}H{number(_RIGHT)}" for y in levels)
    words = [
        element("text", label, x=scale.left - 5, y=y + 4)
        for label, y in zip(labels, levels, strict=True)
    ]
    return [
        element("path", class_="d-grid", d=lines, fill="none", stroke="currentColor"),
        element("g", *words, class_="d-note", text_anchor="end", font_size=11),
    ]


def _readings(points: Sequence[ReadingPoint], scale: _Scale) -> list[Markup]:
    ordered = sorted(points, key=lambda one: one.day)
    plain = [(scale.x(one.day), scale.y(one.value)) for one in ordered if one.value is not None]
    parts: list[Markup] = []
    course = ""
    before = False
    for one in ordered:
        if one.value is not None:
            course += f"{'L' if before else 'M'}{number(scale.x(one.day))} "
            course += number(scale.y(one.value))
        # Past a reading that is only a bound, a line would say more than is known.
        before = one.value is not None
    if "L" in course:
        parts.append(
            element("path", class_="d-course", d=course, fill="none", stroke="currentColor")
        )
    strokes, open_marks = "", ""
    for one in ordered:
        x = number(scale.x(one.day))
        if one.value is not None:
            continue
        if one.low is not None and one.high is not None:
            strokes += f"M{x} {number(scale.y(one.low))}V{number(scale.y(one.high))}"
        elif one.high is not None:
            open_marks += f"M{x} {number(scale.y(one.high) + 6)}l-4 -6h8z"
        elif one.low is not None:
            open_marks += f"M{x} {number(scale.y(one.low) - 6)}l-4 6h8z"
    if strokes:
        parts.append(
            element("path", class_="d-interval", d=strokes, fill="none", stroke="currentColor")
        )
    if open_marks:
        parts.append(
            element("path", class_="d-bound", d=open_marks, fill="none", stroke="currentColor")
        )
    if plain:
        # A stroke of no length with round ends is a dot: one element for all of them.
        dots = "".join(f"M{number(x)} {number(y)}h0" for x, y in plain)
        parts.append(
            element("path", class_="d-dots", d=dots, fill="none", stroke="currentColor",
                    stroke_width=6, stroke_linecap="round")
        )  # fmt: skip
    return parts


def _marks(changes: Sequence[date], soils: Sequence[date], scale: _Scale) -> list[Markup]:
    base = _TOP + _HEIGHT
    parts = [
        element("line", class_="d-axis", x1=scale.left, y1=base, x2=_RIGHT, y2=base,
                stroke="currentColor")
    ]  # fmt: skip
    if changes:
        ticks = "".join(f"M{number(scale.x(day))} {number(base + 3)}v7" for day in sorted(changes))
        parts.append(
            element("path", class_="d-change", d=ticks, fill="none", stroke="currentColor")
        )
    if soils:
        signs = "".join(
            f"M{number(scale.x(day))} {number(base + 12)}l5 5l-5 5l-5 -5z" for day in sorted(soils)
        )
        parts.append(element("path", class_="d-soil", d=signs, stroke="currentColor"))
    return parts


def _tick_words(ticks: Sequence[tuple[date, str]], scale: _Scale) -> list[Markup]:
    """Return the words of as many ticks as there is room for, evenly chosen."""
    y = _TOP + _HEIGHT + 34
    for step in range(1, len(ticks) + 1):
        written: list[Markup] = []
        free = 0.0
        for day, words in sorted(ticks)[::step]:
            width = text_width(words, size=11)
            start = min(max(scale.x(day) - width / 2, 2), _WIDTH - 2 - width)
            if start < free:
                break
            written.append(element("text", words, x=start + width / 2, y=y))
            free = start + width + 6
        else:
            return [element("g", *written, class_="d-note", text_anchor="middle", font_size=11)]
    return []
