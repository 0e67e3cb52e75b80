"""A time axis: where a day lies on it, and the words of its ticks and marks."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from markupsafe import Markup

from filialog.pages.drawing.letters import shortened, text_width
from filialog.pages.drawing.svg import element, number

__all__ = ["EDGE", "LEFT", "TimeScale", "ticks_below", "words_in_a_row"]

LEFT = 48.0
"""Room for the words of upright scales, in px."""
EDGE = 16.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeScale:
    """Days from the first to the last, from left to right."""

    first: date
    last: date
    width: float
    """Of the whole drawing, in px."""

    @property
    def left(self) -> float:
        """Where lines across begin."""
        return LEFT - 8

    @property
    def right(self) -> float:
        """Where lines across end."""
        return self.width - EDGE + 8

    def x(self, day: date) -> float:
        """Return the place of a day."""
        days = (self.last - self.first).days
        part = (day - self.first).days / days if days else 0.5
        return LEFT + part * (self.width - EDGE - LEFT)


def words_in_a_row(
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


def ticks_below(
    scale: TimeScale, ticks: Sequence[tuple[date, str]], *, y: float, words: bool
) -> list[Markup]:
    """Return a stroke below a line for each tick, and its words where there is room.

    Where there is not, every second, third … has words.
    """
    places = [(scale.x(day), text) for day, text in sorted(ticks)]
    if not places:
        return []
    strokes = "".join(f"M{number(x)} {number(y)}v4" for x, _ in places)
    drawn = [element("path", class_="d-axis", d=strokes, fill="none", stroke="currentColor")]
    for step in range(1, len(places) + 1) if words else ():
        chosen = places[::step]
        written = words_in_a_row(chosen, y=y + 16, left=4, right=scale.width - 2)
        if len(written) == len(chosen):
            return [*drawn, *written]
    return drawn
