"""Events with a window of days: how the numbers may differ while they may fall on either side."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import chain, pairwise

from filialog.journal.ledger.book import Cell, Pending, Stand
from filialog.journal.ledger.unknowns import Sum, Unknowns

__all__ = ["Deltas", "Window", "pending_by_cell"]

Deltas = tuple[tuple[Cell, Sum], ...]
"""What an event changed, by cell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """An event that was booked on one day and can have been on others."""

    first: date
    booked: date
    last: date
    deltas: Deltas

    def sides(self) -> tuple[Pending, Pending]:
        """Return what it adds before it was booked, and what it takes back after."""
        undone = tuple((cell, Sum().plus(delta, -1)) for cell, delta in self.deltas)
        return (
            Pending(earliest=self.first, latest=self.booked, deltas=self.deltas),
            Pending(earliest=self.booked, latest=self.last, deltas=undone),
        )


def pending_by_cell(
    windows: Iterable[Window],
    stands: Mapping[Cell, Sequence[Stand]],
    unknowns: Unknowns,
    *,
    closed: Mapping[str, date],
) -> dict[Cell, tuple[Pending, ...]]:
    """Return the differences by the cells they concern.

    Days on which an event cannot have been, because a number would fall below zero, are left
    out: before its booking those up to the last such day, after it those from the first on, and
    from the day on which a tank that would still hold animals was `closed`.
    """

    def closings(side: Pending) -> Iterator[date]:
        for cell, delta in side.deltas:
            day = closed.get(cell[1]) if cell[1] is not None else None
            if day is not None and side.earliest <= day < side.latest and unknowns.possible(delta):
                yield day

    sides = [window.sides() for window in windows]
    every: dict[Cell, list[tuple[Pending, Sum]]] = {}
    for side in chain.from_iterable(sides):
        for cell, delta in side.deltas:
            if unknowns.possible(delta):
                every.setdefault(cell, []).append((side, delta))
    found: dict[Cell, list[Pending]] = {}
    for before, after in sides:
        days = [end for _, end in _impossible_days(before, every, stands, unknowns)]
        early = replace(before, earliest=max(days, default=before.earliest))
        days = [start for start, _ in _impossible_days(after, every, stands, unknowns)]
        days.extend(closings(after))
        late = replace(after, latest=min(days, default=after.latest))
        for pending in (early, late):
            if pending.earliest < pending.latest:
                for cell, _ in pending.deltas:
                    found.setdefault(cell, []).append(pending)
    return {cell: tuple(here) for cell, here in found.items()}


def _impossible_days(
    side: Pending,
    raises: Mapping[Cell, Sequence[tuple[Pending, Sum]]],
    stands: Mapping[Cell, Sequence[Stand]],
    unknowns: Unknowns,
) -> Iterator[tuple[date, date]]:
    """Give the stretches of days on which a number would be below zero, whatever else differs."""
    for cell, delta in side.deltas:
        pieces = _pieces(stands[cell], side.earliest, side.latest)
        for (start, number), (end, _) in pairwise((*pieces, (side.latest, Sum()))):
            others = (
                more
                for other, more in raises.get(cell, ())
                if other is not side and other.earliest < end and start < other.latest
            )
            greatest = unknowns.greatest(Sum.of((number, delta, *others)))
            if greatest is not None and greatest < 0:
                yield start, end


def _pieces(stands: Sequence[Stand], first: date, end: date) -> list[tuple[date, Sum]]:
    """Return a cell's numbers from a day up to another, each with the day it begins."""
    number = Sum()
    pieces: dict[date, Sum] = {}
    for stand in stands:
        if stand.day <= first:
            number = stand.number
        elif stand.day < end:
            pieces[stand.day] = stand.number
    return [(first, number), *pieces.items()] if first < end else []
