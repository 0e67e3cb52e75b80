"""Days, with bounds: ISO 8601 days and weeks, a part of EDTF, and windows.

`2026-05-14`, `2026-05`, `2026-05-XX`, `2026`, `2026-W19`, `2026-W19-3`, and two of these
with `/` between them for some day within. `~`, `?` or `%` behind a date marks it as about
or not certain; the bounds are then widened by a convention: three days for a day, fifteen
for a month, half a year for a year (common practice, no source). Seasons and open ends are
refused: a season depends on the hemisphere, and a day without an end bounds nothing.

Sources: ISO 8601-1:2019 and ISO 8601-2:2019 (EDTF), from memory.
"""

import calendar
import re
from datetime import date, timedelta
from functools import lru_cache

from filialog.journal.keys import Key
from filialog.journal.quantities import When
from filialog.reading.node import Node
from filialog.reading.scalars import report_slip, scalar_text
from filialog.reading.sheet import Sheet

__all__ = ["DayError", "parse_day", "read_day"]

_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_MONTH = re.compile(r"([0-9]{4})-([0-9]{2})(?:-XX)?")
_YEAR = re.compile(r"([0-9]{4})(?:-XX(?:-XX)?)?")
_WEEK = re.compile(r"([0-9]{4})-W([0-9]{2})(?:-([0-9]))?")
_FIRST_YEAR, _LAST_YEAR = 1950, 2199
_FORM = "write year-month-day, as in `2026-03-14`"


class DayError(ValueError):
    """A text that means no day: the code of the finding, the fault and the ways out."""

    def __init__(self, code: str, message: str, *helps: str) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.helps = helps


@lru_cache(maxsize=4096)
def parse_day(text: str) -> When:
    """Return the day that a text means; raises DayError.

    >>> parse_day("2026-02").latest
    datetime.date(2026, 2, 28)
    >>> parse_day("2026-W19").earliest
    datetime.date(2026, 5, 4)
    """
    if "/" not in text:
        earliest, latest, about = _bounds(text)
        return When(earliest=earliest, latest=latest, text=text, about=about)
    first, _, last = text.partition("/")
    first, last = first.strip(), last.strip()
    if first in {"", ".."} or last in {"", ".."}:
        raise DayError(
            "R302",
            f"the window `{text}` has no {'beginning' if first in {'', '..'} else 'end'}",
            "write both days, as in `2026-05-01/2026-05-09`",
        )
    earliest, _, about_first = _bounds(first)
    _, latest, about_last = _bounds(last)
    if latest < earliest:
        raise DayError(
            "R302", f"the window `{text}` ends before it begins", f"write `{last}/{first}`"
        )
    return When(earliest=earliest, latest=latest, text=text, about=about_first or about_last)


def read_day(node: Node, key: Key, sheet: Sheet) -> When | None:
    """Read a day."""
    written = scalar_text(node, key, sheet)
    if written is None:
        return None
    text = written.strip()
    try:
        return parse_day(text)
    except DayError as error:
        if error.code != "R303" or not report_slip(text, node, sheet):
            sheet.fault(error.code, node, error.message, helps=error.helps)
    return None


def _bounds(text: str) -> tuple[date, date, bool]:
    about = text[-1:] in {"~", "?", "%"}
    bare = text[:-1] if about else text
    if match := _DAY.fullmatch(bare):
        day = _date(int(match[1]), int(match[2]), int(match[3]), text)
        return (*_widened(day, day, 3 if about else 0), about)
    if match := _WEEK.fullmatch(bare):
        return (*_week(match, text, about=about), about)
    if match := _MONTH.fullmatch(bare):
        year, month = int(match[1]), int(match[2])
        if 21 <= month <= 41:
            raise DayError(
                "R302",
                f"`{text}` is a season, and a season is no month everywhere",
                f"write months, as in `{year}-03/{year}-05`",
            )
        first = _date(year, month, 1, text)
        last = first.replace(day=calendar.monthrange(year, month)[1])
        return (*_widened(first, last, 15 if about else 0), about)
    if match := _YEAR.fullmatch(bare):
        first = _date(int(match[1]), 1, 1, text)
        return (*_widened(first, first.replace(month=12, day=31), 183 if about else 0), about)
    raise DayError("R303", f"`{text}` is no day", *_ways_out(text))


def _widened(first: date, last: date, days: int) -> tuple[date, date]:
    return first - timedelta(days=days), last + timedelta(days=days)


def _week(match: re.Match[str], text: str, *, about: bool) -> tuple[date, date]:
    year, week, weekday = int(match[1]), int(match[2]), match[3]
    _check_year(year, text)
    try:
        first = date.fromisocalendar(year, week, int(weekday or 1))
    except ValueError:
        way_out = "weeks run from W01 to W52 or W53"
        raise DayError("R302", f"`{text}` does not exist", way_out) from None
    last = first if weekday else first + timedelta(days=6)
    return _widened(first, last, 3 if about else 0)


def _check_year(year: int, text: str) -> None:
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        raise DayError("R302", f"`{text}` lies outside the years {_FIRST_YEAR} to {_LAST_YEAR}")


def _date(year: int, month: int, day: int, text: str) -> date:
    _check_year(year, text)
    if not 1 <= month <= 12:
        helps = [f"months run from 01 to 12; {_FORM}"]
        if 1 <= day <= 12 < month:
            helps = [f"write `{year}-{day:02}-{month:02}` where `{month:02}` is the day"]
        raise DayError("R302", f"`{text}` does not exist: there is no month {month:02}", *helps)
    days = calendar.monthrange(year, month)[1]
    if not 1 <= day <= days:
        raise DayError(
            "R302",
            f"`{text}` does not exist: {calendar.month_name[month]} {year} has {days} days",
        )
    return date(year, month, day)


def _ways_out(text: str) -> tuple[str, ...]:
    if match := re.fullmatch(r"([0-9]{4})[-./]([0-9]{1,2})[-./]([0-9]{1,2})", text):
        return (f"write `{match[1]}-{int(match[2]):02}-{int(match[3]):02}`",)
    if match := re.fullmatch(r"([0-9]{1,2})\.\s*([0-9]{1,2})\.\s*([0-9]{4})", text):
        return (f"write `{match[3]}-{int(match[2]):02}-{int(match[1]):02}`",)
    if match := re.match(r"([0-9]{4}-[0-9]{2}-[0-9]{2})[T ]+([0-9]{1,2}:[0-9]{2})", text):
        return (f"write the day alone, `{match[1]}`, and the time in the event: `at: {match[2]}`",)
    return (_FORM, "a day that is not known well is `2026-05`, `2026-05-14~` or `2026-W19`")
