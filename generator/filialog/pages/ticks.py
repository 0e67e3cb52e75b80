"""Months along a time axis, few enough to be read."""

from datetime import date

from filialog.messages import Words

__all__ = ["month_ticks"]

_MOST_TICKS = 8


def month_ticks(words: Words, first: date, last: date) -> tuple[tuple[date, str], ...]:
    """Return starts of months between two days, each with its words."""
    starts = [
        date(year, month, 1)
        for year in range(first.year, last.year + 1)
        for month in range(1, 13)
        if first <= date(year, month, 1) <= last
    ]
    step = next((step for step in (1, 3, 6) if len(starts) <= step * _MOST_TICKS), 12)
    return tuple((day, _tick(words, day)) for day in starts[::step])


def _tick(words: Words, day: date) -> str:
    month = words("month-short", pick=str(day.month))
    return words("timeline.tick", month=month, year=day.year)
