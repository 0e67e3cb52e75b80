"""What a keeper of a few tanks wrote down, as values and as lines of a diary."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

__all__ = ["BOOKED", "Record", "Share", "diary_line"]

BOOKED = frozenset({"bought", "hatched", "moved", "sorted", "joined", "died"})
"""Kinds of records that change who is where; no two of different days overlap in their windows."""

_FIRST_DAY = date(2026, 1, 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """A part of a group that is taken, or made, by a sorting or a joining."""

    group: str
    count: int | None
    """None for all that are there."""
    females: int | None = None
    males: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """One thing the keeper wrote down; days are numbered from the first of the year."""

    kind: str
    first: int
    last: int
    """First and last day on which it can have happened."""
    tank: str
    group: str | None = None
    of: tuple[str, ...] = ()
    """Groups of which it was one, or some of each."""
    low: int | None = None
    high: int | None = None
    """Bounds of the count; `low` None is no count, `high` None with a `low` is at least so many."""
    females: int | None = None
    males: int | None = None
    to: str | None = None
    new: str | None = None
    """The name the animals go by from then on."""
    berried: bool = False
    shares: tuple[Share, ...] = ()
    temperature_c: float | None = None
    dams: tuple[str, ...] = ()
    """Groups of which one is the dam, as the keeper has it."""
    sires: tuple[str, ...] = ()


def _day(number: int) -> str:
    return (_FIRST_DAY + timedelta(days=number)).isoformat()


def _count(low: int, high: int | None) -> str:
    if high is None:
        return f"{low}+"
    return str(low) if low == high else f"{low}-{high}"


def _of(groups: Sequence[str]) -> str:
    return groups[0] if len(groups) == 1 else f"{{of: [{', '.join(groups)}]}}"


def _share(one: Share) -> str:
    said = {"count": one.count, "females": one.females, "males": one.males}
    inner = ", ".join(f"{key}: {value}" for key, value in said.items() if value is not None)
    return f"{one.group}: {{{inner}}}"


def _parts(shares: Sequence[Share]) -> str:
    if all(one.count is None for one in shares):
        return f"[{', '.join(one.group for one in shares)}]"
    return f"{{{', '.join(f'{one.group}: {one.count}' for one in shares)}}}"


def _said(record: Record) -> Iterator[tuple[str, object]]:
    """Give the keys of an event and what is written there, None where nothing is."""
    kind = record.kind
    yield "temperature", record.temperature_c
    yield "what", "not-berried" if kind == "not-berried" else None
    yield {"hatched": "brood", "sorted": "from"}.get(kind, "group"), record.group
    yield "of", f"[{', '.join(record.of)}]" if record.of else None
    if kind == "sorted":
        yield "into", f"{{{', '.join(map(_share, record.shares))}}}"
    if kind == "joined":
        yield "parts", _parts(record.shares)
    yield {"joined": "into"}.get(kind, "as"), record.new
    yield "count", None if record.low is None else _count(record.low, record.high)
    yield "females", record.females
    yield "males", record.males
    yield "from", record.tank if kind == "strayed" else None
    yield "to", record.to
    yield "berried", "true" if record.berried else None
    yield "dams", _of(record.dams) if record.dams else None
    yield "sires", _of(record.sires) if record.sires else None
    window = f"{_day(record.first)}/{_day(record.last)}"
    yield "when", window if record.first != record.last else None


def diary_line(record: Record) -> str:
    """Write a record as one line of a diary: day, tank and event."""
    kind = {"temperature": "measured", "not-berried": "seen"}.get(record.kind, record.kind)
    inner = ", ".join(f"{key}: {value}" for key, value in _said(record) if value is not None)
    head = _day(record.last) + ("" if kind == "strayed" else f" {record.tank}")
    return f"{head} | {kind}: {{{inner}}}"
