"""The finished book: who is in which tank on a day, and how every group came to its number."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from filialog.journal.events import EventId
from filialog.journal.ledger.unknowns import Sum, Unknowns
from filialog.journal.quantities import Count, When, bounds_text

__all__ = ["Book", "Cell", "Difference", "Holding", "Pending", "Posting", "Stand"]

Cell = tuple[str, str | None]
"""A group in a tank; None where the tank is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Posting:
    """What one event did to the number of one group."""

    event: EventId
    when: When
    kind_name: str
    group: str
    tank: str | None
    to_tank: str | None
    """Where a move went."""
    other_group: str | None
    """The group animals came from or went to, where it is another one."""
    change: Sum | None
    """Animals that came or went; None where the event changed no number."""
    gained: bool
    after: Sum
    """The group in all tanks, right after."""
    shared_with: tuple[str, ...] = ()
    """Other groups the animals can have been of."""
    unaccounted: bool = False
    """True where the change is a difference between book and count."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A count that disagreed with the book, and by how much."""

    event: EventId
    groups: tuple[str, ...]
    """Groups whose number was put right; empty where no group of the book can have been meant."""
    tank: str | None
    number: Sum
    found: bool
    """True where there were more than on the book, false where some were missing."""
    colony: bool
    """True where unrecorded births explain it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """A cell's number from one day on."""

    day: date
    number: Sum
    event: EventId


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """How the numbers would differ on the days on which an event may fall on either side.

    Before an event with a window of days is booked, it may have happened already; after it is
    booked, and before the window ends, it may not have happened yet.
    """

    earliest: date
    """First day on which the numbers may differ."""
    latest: date
    """First day on which they cannot differ any more."""
    deltas: tuple[tuple[Cell, Sum], ...]
    """What is to be added to the numbers of the book."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """How many animals of a group are in a tank."""

    group: str
    tank: str | None
    count: Count


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """The book of one journal up to a day."""

    unknowns: Unknowns
    stands: Mapping[Cell, tuple[Stand, ...]]
    """Every change of every cell, by day; the last of a day counts."""
    postings: Mapping[str, tuple[Posting, ...]]
    """By group, in order of booking."""
    differences: tuple[Difference, ...]
    pending: Mapping[Cell, tuple[Pending, ...]]
    """By the cells they concern."""
    colonies: frozenset[str]
    """Groups that breed unrecorded."""
    closed: Mapping[str, date]
    """Tanks taken down, and when."""
    cells_of: Mapping[str, tuple[Cell, ...]]
    """Every cell of a group, by group."""
    cells_at: Mapping[str | None, tuple[Cell, ...]]
    """Every cell of a tank, by tank."""

    def count(self, total: Sum) -> Count:
        """Return the exact bounds of a sum of animals."""
        low, high = self.unknowns.bounds(total)
        return Count(low=max(low, 0), high=high, text=bounds_text(max(low, 0), high))

    def number_in(self, cells: Iterable[Cell], day: date) -> Count:
        """Return how many animals the cells hold together at the end of a day."""
        wanted = sorted({cell for cell in cells if cell in self.stands}, key=_cell_key)
        stands = [self._stand(cell, day) for cell in wanted]
        total = Sum.of(stands)
        least, most = self._either_way(wanted, day)
        low = max(self.unknowns.least(Sum.of((total, *least))), 0)
        high = self.unknowns.greatest(Sum.of((total, *most)))
        if any(
            cell[0] in self.colonies and self.unknowns.possible(stand)
            for cell, stand in zip(wanted, stands, strict=True)
        ):
            high = None
        return Count(low=low, high=high, text=bounds_text(low, high))

    def number_of(self, group: str, day: date) -> Count:
        """Return how many animals of a group there are, all tanks together."""
        return self.number_in(self.cells_of.get(group, ()), day)

    def holdings(self, day: date) -> tuple[Holding, ...]:
        """Return who is where at the end of a day: every cell that can hold animals then."""
        rows = []
        for cell in sorted(self.stands, key=_cell_key):
            count = self.number_in((cell,), day)
            if count.high is None or count.high > 0:
                rows.append(Holding(group=cell[0], tank=cell[1], count=count))
        return tuple(rows)

    def groups_in(self, tank: str, first: date, last: date) -> tuple[str, ...]:
        """Return the groups that can have been in a tank on some day of a window.

        A group that left on the first day was there on that day, so it is among them.
        """
        return tuple(
            sorted(
                cell[0]
                for cell in self.cells_at.get(tank, ())
                if self._can_have_been(cell, first, last)
            )
        )

    def _can_have_been(self, cell: Cell, first: date, last: date) -> bool:
        stands = self.stands[cell]
        start = bisect_left(stands, first, key=lambda stand: stand.day)
        stop = bisect_right(stands, last, key=lambda stand: stand.day)
        if any(self.unknowns.possible(one.number) for one in stands[max(start - 1, 0) : stop]):
            return True
        return any(
            pending.earliest <= last
            and first < pending.latest
            and any(
                self.unknowns.possible(delta) for other, delta in pending.deltas if other == cell
            )
            for pending in self.pending.get(cell, ())
        )

    def _stand(self, cell: Cell, day: date) -> Sum:
        stands = self.stands[cell]
        position = bisect_right(stands, day, key=lambda stand: stand.day)
        return stands[position - 1].number if position else Sum()

    def _either_way(self, cells: list[Cell], day: date) -> tuple[list[Sum], list[Sum]]:
        """Return what events that may fall on either side of a day take away, and what they add."""
        here = {
            id(pending): pending
            for cell in cells
            for pending in self.pending.get(cell, ())
            if pending.earliest <= day < pending.latest
        }
        least: list[Sum] = []
        most: list[Sum] = []
        for pending in here.values():
            delta = Sum.of(number for cell, number in pending.deltas if cell in cells)
            if self.unknowns.possible(Sum().plus(delta, -1)):
                least.append(delta)
            if self.unknowns.possible(delta):
                most.append(delta)
        return least, most


def _cell_key(cell: Cell) -> tuple[str, str]:
    return (cell[0], cell[1] or "")
