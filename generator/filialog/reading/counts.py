"""Numbers of animals, with bounds.

A plain number is exact. `~12` is a convention: a fifth less to a fifth more, at least one
either way, and never below one (common practice, no source). `10-14` and `12+` say their
bounds; `some` is one or more.
"""

import math
import re
from functools import lru_cache

from filialog.journal.keys import Key
from filialog.journal.quantities import Count
from filialog.reading.node import Node
from filialog.reading.scalars import report_slip, scalar_text
from filialog.reading.sheet import Sheet

__all__ = ["MOST_ANIMALS", "parse_count", "read_count"]

MOST_ANIMALS = 1_000_000
"""A larger number is taken for a slip."""

_EXACT = re.compile(r"[0-9]+")
_ABOUT = re.compile(r"~\s*([0-9]+)")
_RANGE = re.compile(r"([0-9]+)\s*-\s*([0-9]+)")
_AT_LEAST = re.compile(r"([0-9]+)\s*\+")
_LESS = re.compile(r"<\s*([0-9]+)")
_MORE = re.compile(r">\s*([0-9]+)")
_NEGATIVE = re.compile(r"[-−]\s*[0-9]+")
_WORDS = {
    "a few": "some",
    "few": "some",
    "several": "some",
    "many": "some",
    "lots": "some",
    "unknown": "some",
    "?": "some",
    "none": "0",
    "zero": "0",
    "one": "1",
    "a": "1",
    "two": "2",
    "three": "3",
}


@lru_cache(maxsize=4096)
def parse_count(text: str) -> Count | None:
    """Return the count that a text means, None where it means none.

    >>> parse_count("~12")
    Count(low=9, high=15, text='~12')
    >>> parse_count("some").high is None
    True
    """
    if _EXACT.fullmatch(text):
        number = int(text[:12])
        return Count(low=number, high=number, text=text)
    if text == "some":
        return Count(low=1, high=None, text=text)
    if match := _ABOUT.fullmatch(text):
        number = int(match[1][:12])
        low = min(number - 1, math.floor(number * 0.8))
        return Count(
            low=max(low, min(number, 1)), high=max(number + 1, math.ceil(number * 1.2)), text=text
        )
    if match := _RANGE.fullmatch(text):
        low, high = int(match[1][:12]), int(match[2][:12])
        return Count(low=low, high=high, text=text) if low <= high else None
    if match := _AT_LEAST.fullmatch(text):
        return Count(low=int(match[1][:12]), high=None, text=text)
    return None


def read_count(node: Node, key: Key, sheet: Sheet) -> Count | None:
    """Read a number of animals."""
    written = scalar_text(node, key, sheet)
    if written is None:
        return None
    text = written.strip()
    count = parse_count(text)
    if count is not None and max(count.low, count.high or 0) <= MOST_ANIMALS:
        return count
    if count is not None:
        sheet.fault("R311", node, f"`{key.name}` cannot be `{text}`: too many animals")
    elif _NEGATIVE.fullmatch(text):
        sheet.fault(
            "R306",
            node,
            f"`{key.name}` cannot be less than zero, and is `{text}`",
            helps=("animals that leave are written as `died`, `sold`, `moved` or another event",),
        )
    elif not report_slip(text, node, sheet):
        sheet.fault(
            "R305",
            node,
            f"`{text}` is no number of animals",
            notes=("a count is `12`, `~12`, `10-14`, `12+` or `some`",),
            helps=_ways_out(text),
        )
    return None


def _ways_out(text: str) -> tuple[str, ...]:
    if text.casefold() in _WORDS:
        return (f"write `{_WORDS[text.casefold()]}`",)
    if match := _RANGE.fullmatch(text):
        return (f"write the smaller number first: `{match[2]}-{match[1]}`",)
    if match := _LESS.fullmatch(text):
        return (f"write `0-{max(int(match[1][:12]) - 1, 0)}`",)
    if match := _MORE.fullmatch(text):
        return (f"write `{int(match[1][:12]) + 1}+`",)
    if match := re.fullmatch(r"([0-9]+)\s*\?", text):
        return (f"write `~{match[1]}` where it is not certain",)
    if match := re.fullmatch(
        r"(?:ca\.?|circa|about|around|approx\.?|≈)\s*([0-9]+)", text.casefold()
    ):
        return (f"write `~{match[1]}`",)
    if re.fullmatch(r"[0-9]+\.[0-9]+", text):
        return ("animals are counted whole",)
    if match := re.match(r"([0-9]+)\s+\w", text):
        return (f"write `{match[1]}`; words belong in `note`",)
    return ()
