"""How dates, counts, shares and readings are written; words come from the catalogue."""

import math
import re
from calendar import monthrange
from collections.abc import Sequence
from datetime import date
from functools import partial
from typing import overload

from markupsafe import Markup

from filialog.journal.quantities import Age, Count, Reading, When
from filialog.messages.words import Words

__all__ = [
    "age_text",
    "chance_text",
    "chance_word",
    "count_text",
    "day_text",
    "decimal_text",
    "either_text",
    "list_text",
    "month_text",
    "p_value_text",
    "portion_text",
    "reading_text",
    "share_text",
    "short_day_text",
    "short_when_text",
    "signed_text",
    "value_text",
    "when_text",
]

NO_BREAK = "\N{NO-BREAK SPACE}"
_MINUS = "\N{MINUS SIGN}"
_MOST_PARTS = 8
"""A share is told as so many in so many up to this number."""
_DECIMALS = re.compile(r"\d\.(\d+)")
_CHANCES = (
    (0.0, "none"),
    (0.05, "very-unlikely"),
    (0.35, "unlikely"),
    (0.65, "even"),
    (0.95, "likely"),
)
"""Upper limits of the words for a probability; above the last: very likely, and 1: certain."""


def day_text(words: Words, day: date) -> str:
    """Write a day out: `14 March 2026`."""
    month = words("month", pick=str(day.month))
    return words("date.day", day=day.day, month=month, year=day.year)


def short_day_text(words: Words, day: date) -> str:
    """Write a day with its month cut short: `14 Mar 2026`."""
    month = words("month-short", pick=str(day.month))
    return words("date.day", day=day.day, month=month, year=day.year)


def month_text(words: Words, *, year: int, month: int) -> str:
    """Write a month: `March 2026`."""
    return words("date.month", month=words("month", pick=str(month)), year=year)


def when_text(words: Words, when: When) -> str:
    """Write a day with its bounds, fit to follow a verb: `between 1 and 9 May 2026`."""
    exact = when.exact
    if exact is not None:
        day = day_text(words, exact)
        return words("date.about", day=day) if when.about else words("date.on", day=day)
    first, last = when.earliest, when.latest
    if when.about:
        middle = date.fromordinal((first.toordinal() + last.toordinal()) // 2)
        return words("date.about", day=month_text(words, year=middle.year, month=middle.month))
    if _whole_month(first, last):
        return words("date.in", month=month_text(words, year=first.year, month=first.month))
    return words("date.between", first=_opening(words, first, last), last=day_text(words, last))


def short_when_text(words: Words, when: When) -> str:
    """Write a day with its bounds for a narrow column: `1–9 May 2026`."""
    exact = when.exact
    if exact is not None:
        day = short_day_text(words, exact)
    else:
        first, last = when.earliest, when.latest
        end = short_day_text(words, last)
        if (first.year, first.month) == (last.year, last.month):
            start = str(first.day)
        else:
            start = short_day_text(words, first)
        day = words("date.short-window", first=start, last=end)
    return words("date.about", day=day) if when.about else day


def _whole_month(first: date, last: date) -> bool:
    same = (first.year, first.month) == (last.year, last.month)
    return same and first.day == 1 and last.day == monthrange(last.year, last.month)[1]


def _opening(words: Words, first: date, last: date) -> str:
    """Write the first day of a window without what its last day repeats."""
    if (first.year, first.month) == (last.year, last.month):
        return str(first.day)
    if first.year == last.year:
        return words("date.day-month", day=first.day, month=words("month", pick=str(first.month)))
    return day_text(words, first)


def count_text(words: Words, count: Count) -> str:
    """Write a number of animals: `12`, `10 to 14`, `at least 12`, `about 12`, `some`."""
    writing = count.text.strip()
    if writing.startswith("~") and writing[1:].strip().isdecimal():
        return words("count.about", n=int(writing[1:]))
    if count.exact is not None:
        return str(count.exact)
    if count.high is None:
        return words("count.at-least", n=count.low) if count.low else words("count.some")
    if count.low == 0:
        return words("count.at-most", n=count.high)
    return words("count.range", low=count.low, high=count.high)


def age_text(words: Words, age: Age) -> str:
    """Write an age in days."""
    if age.low_days == age.high_days:
        return words("age", number=age.low_days, n=age.low_days)
    return words("age.range", low=age.low_days, high=age.high_days)


def decimal_text(words: Words, value: float, *, decimals: int) -> str:
    """Write a number with at most so many decimals, without zeros at the end."""
    text = f"{value:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    text = "0" if text in {"-0", ""} else text
    return text.replace("-", _MINUS).replace(".", words("number.decimal"))


def signed_text(words: Words, value: float, *, decimals: int) -> str:
    """Write a difference with its sign."""
    text = decimal_text(words, value, decimals=decimals)
    return text if text == "0" or text.startswith(_MINUS) else f"+{text}"


def share_text(words: Words, share: float, *, whole: bool = False) -> str:
    """Write a share as per cent: three digits, or whole per cents where it is a rough one.

    What is neither none nor all is never written as 0 % or 100 %.
    """
    percent = share * 100
    near = 0.5 if whole else 0.05
    if 0.0 < percent < near:
        limit = decimal_text(words, 1.0 if whole else 0.1, decimals=1)
        return words("share.below", n=limit)
    if 100 - near < percent < 100 and not math.isclose(percent, 100, abs_tol=1e-9):
        limit = decimal_text(words, 99.0 if whole else 99.9, decimals=1)
        return words("share.above", n=limit)
    decimals = 0 if whole or percent >= 99.95 else 1 if percent >= 10 else 2
    return words("share", n=decimal_text(words, percent, decimals=decimals))


def portion_text(words: Words, share: float) -> str:
    """Write what part of some animals: `2 in 3`, `none`, `every one`, else as per cent."""
    if share <= 0.0:
        return words("portion.none")
    if math.isclose(share, 1.0, abs_tol=1e-9):
        return words("portion.every")
    for whole in range(2, _MOST_PARTS + 1):
        part = round(share * whole)
        if math.isclose(share, part / whole, abs_tol=1e-9):
            return words("portion", n=part, of=whole)
    return share_text(words, share)


def p_value_text(words: Words, p_value: float) -> str:
    """Write a p value: `0.62`, `0.004`, `below 0.001`."""
    if p_value < 0.001:
        return words("p-value.below", n=decimal_text(words, 0.001, decimals=3))
    decimals = 3 if p_value < 0.01 else 2
    return decimal_text(words, p_value, decimals=decimals)


def value_text(words: Words, value: float, unit: str, *, decimals: int = 0) -> str:
    """Write a value with its unit, a no-break space between; with so many decimals at least."""
    short, padded = f"{value:.6g}", f"{value:.{decimals}f}"
    number = (
        (padded if math.isclose(float(padded), value, rel_tol=1e-6) else short)
        .replace("-", _MINUS)
        .replace(".", words("number.decimal"))
    )
    return f"{number}{NO_BREAK}{unit}" if unit else number


def reading_text(words: Words, reading: Reading) -> str:
    """Write a water reading with its bounds and unit, to the decimals the keeper wrote."""
    low, high, unit = reading.low, reading.high, reading.unit
    # A pH of 6.0 was read to a tenth; 6 would say less than the keeper did.
    written = max((len(found) for found in _DECIMALS.findall(reading.text)), default=0)
    write = partial(value_text, words, decimals=written)
    if low is not None and low == high:
        return write(low, unit)
    if low is not None and high is not None:
        return words("reading.range", low=write(low, ""), high=write(high, unit))
    if high is not None:
        return words("reading.below", value=write(high, unit))
    if low is not None:
        return words("reading.above", value=write(low, unit))
    return reading.text


def chance_word(probability: float) -> str:
    """Name the word for a probability, a key of the family `chance`."""
    if probability >= 1.0 or math.isclose(probability, 1.0, abs_tol=1e-9):
        return "certain"
    return next((word for limit, word in _CHANCES if probability <= limit), "very-likely")


def chance_text(words: Words, probability: float) -> str:
    """Write a probability in words and as per cent: `likely, 66.7 %`."""
    word = chance_word(probability)
    if word in {"certain", "none"}:
        return words("chance", pick=word)
    return words("chance.with-share", word=words("chance", pick=word),
                 share=share_text(words, probability))  # fmt: skip


@overload
def list_text(words: Words, items: Sequence[Markup]) -> Markup: ...
@overload
def list_text(words: Words, items: Sequence[str]) -> str: ...
def list_text(words: Words, items: Sequence[str]) -> str:
    """Join items: `a, b and c`."""
    return _joined(words, items, last=words("list.and"))


@overload
def either_text(words: Words, items: Sequence[Markup]) -> Markup: ...
@overload
def either_text(words: Words, items: Sequence[str]) -> str: ...
def either_text(words: Words, items: Sequence[str]) -> str:
    """Join items of which one holds: `a, b or c`."""
    return _joined(words, items, last=words("list.or"))


def _joined(words: Words, items: Sequence[str], *, last: str) -> str:
    if any(isinstance(item, Markup) for item in items):
        comma: str = Markup(words("list.comma"))  # noqa: S704 - the catalogue's own words
        last = Markup(last)  # noqa: S704 - the catalogue's own words
    else:
        comma = words("list.comma")
    if len(items) < 2:
        return items[0] if items else comma[:0]
    return comma.join(items[:-1]) + last + items[-1]
