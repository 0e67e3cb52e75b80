"""Lengths of time in days, with bounds.

Days and weeks are exact; months and years are as long as the shortest and the longest that
the calendar has. `~` widens by a fifth, at least three days (common practice, no source).
"""

import calendar
import math
import re
from functools import lru_cache

from filialog.journal.keys import Key
from filialog.journal.quantities import Age
from filialog.reading.node import Node
from filialog.reading.scalars import report_slip, scalar_text
from filialog.reading.sheet import Sheet

__all__ = ["parse_age", "read_age"]

_AGE = re.compile(
    r"(?P<about>~?)\s*(?P<low>[0-9]+(?:\.[0-9]+)?)(?:\s*-\s*(?P<high>[0-9]+(?:\.[0-9]+)?))?\s*(?P<unit>[a-z]+)"
)
_UNITS = {
    **dict.fromkeys(("h", "hour", "hours"), "hour"),
    **dict.fromkeys(("d", "day", "days"), "day"),
    **dict.fromkeys(("w", "wk", "week", "weeks"), "week"),
    **dict.fromkeys(("mo", "month", "months"), "month"),
    **dict.fromkeys(("y", "a", "year", "years"), "year"),
}
_DAYS = {"hour": 1 / 24, "day": 1.0, "week": 7.0}
_LONGEST_DAYS = 36_525


@lru_cache(maxsize=1024)
def parse_age(text: str) -> Age | None:
    """Return the length of time that a text means, None where it means none.

    >>> parse_age("6 weeks")
    Age(low_days=42, high_days=42, text='6 weeks')
    >>> parse_age("2 months")
    Age(low_days=59, high_days=62, text='2 months')
    """
    match = _AGE.fullmatch(text)
    if match is None or match["unit"] not in _UNITS:
        return None
    unit = _UNITS[match["unit"]]
    first, last = float(match["low"]), float(match["high"] or match["low"])
    if first > last or last > _LONGEST_DAYS:
        return None
    low, high = _days(first, unit)[0], _days(last, unit)[1]
    if match["about"]:
        low, high = min(low * 0.8, low - 3), max(high * 1.2, high + 3)
    return Age(low_days=max(0, math.floor(low)), high_days=math.ceil(high), text=text)


def read_age(node: Node, key: Key, sheet: Sheet) -> Age | None:
    """Read a length of time."""
    written = scalar_text(node, key, sheet)
    if written is None:
        return None
    text = written.strip()
    age = parse_age(text)
    if age is not None and age.high_days <= 2 * _LONGEST_DAYS:
        return age
    if re.fullmatch(r"~?[0-9]+", text):
        sheet.fault(
            "R310",
            node,
            f"`{key.name}: {text}` has no unit",
            helps=(f"write `{text} d` for days or `{text} weeks`",),
        )
    elif not report_slip(text, node, sheet):
        sheet.fault(
            "R312",
            node,
            f"`{text}` is no length of time",
            helps=("write a number and `d`, `weeks`, `months` or `years`, as in `45 d`",),
        )
    return None


def _days(number: float, unit: str) -> tuple[float, float]:
    if unit in _DAYS:
        return number * _DAYS[unit], number * _DAYS[unit]
    months = number * (12 if unit == "year" else 1)
    return _month_days(math.floor(months))[0], _month_days(math.ceil(months))[1]


@lru_cache(maxsize=256)
def _month_days(months: int) -> tuple[int, int]:
    """Return the fewest and most days that so many months in a row have, over four years."""
    lengths = [calendar.monthrange(2023 + i // 12, i % 12 + 1)[1] for i in range(48)]
    whole, rest = divmod(months, 48)
    sums = [sum(lengths[(start + i) % 48] for i in range(rest)) for start in range(48)]
    return whole * sum(lengths) + min(sums), whole * sum(lengths) + max(sums)
