"""The finished book: who is in which tank on a day, and how every group came to its number."""

from bisect import bisect_right
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
    """What an event with a window of days did: within the window it may not have happened yet."""

    earliest: date
    latest: date
    deltas: tuple[tuple[Cell, Sum], ...]


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
    pending: tuple[Pending, ...]
    colonies: frozenset[str]
    """Groups that breed unrecorded."""
    closed: Mapping[str, date]
    """Tanks taken down, and when."""

    def count(self, total: Sum) -> Count:
        """Return the exact bounds of a sum of animals."""
        low, high = self.unknowns.bounds(total)
        return Count(low=max(low, 0), high=high, text=bounds_text(max(low, 0), high))

    def number_in(self, cells: Iterable[Cell], day: date) -> Count:
        """Return how many animals the cells hold together at the end of a day."""
        wanted = frozenset(cells)
        total = Sum.of(self._stand(cell, day) for cell in sorted(wanted, key=_cell_key))
        return self._hull(total, wanted, day)

    def number_of(self, group: str, day: date) -> Count:
        """Return how many animals of a group there are, all tanks together."""
        return self.number_in((cell for cell in self.stands if cell[0] == group), day)

    def holdings(self, day: date) -> tuple[Holding, ...]:
        """Return who is where at the end of a day: every cell that can hold animals then."""
        rows = []
        for cell in sorted(self.stands, key=_cell_key):
            count = self.number_in((cell,), day)
            if count.high is None or count.high > 0:
                rows.append(Holding(group=cell[0], tank=cell[1], count=count))
        return tuple(rows)

    def groups_in(self, tank: str, first: date, last: date) -> tuple[str, ...]:
        """Return the groups that can have been in a tank on some day of a window."""
        found = []
        for cell, stands in self.stands.items():
            if cell[1] != tank:
                continue
            within = [stand for stand in stands if first <= stand.day <= last]
            before = self._stand(cell, first)
            early = any(
                pending.earliest <= last and any(delta[0] == cell for delta in pending.deltas)
                for pending in self.pending
            )
            sums = [before, *(stand.number for stand in within)]
            if early or any(self._possible(one) for one in sums):
                found.append(cell[0])
        return tuple(sorted(found))

    def _possible(self, number: Sum) -> bool:
        high = self.unknowns.greatest(number)
        return high is None or high > 0

    def _stand(self, cell: Cell, day: date) -> Sum:
        stands = self.stands[cell]
        position = bisect_right(stands, day, key=lambda stand: stand.day)
        return stands[position - 1].number if position else Sum()

    def _hull(self, total: Sum, cells: frozenset[Cell], day: date) -> Count:
        """Bounds over both cases, that events with an open window have happened or not."""
        least, most = total, total
        for pending in self.pending:
            if not pending.earliest <= day < pending.latest:
                continue
            delta = Sum.of(number for cell, number in pending.deltas if cell in cells)
            if not delta.terms and not delta.number:
                continue
            low, high = self.unknowns.bounds(delta)
            if low < 0:
                least = least.plus(delta)
            if high is None or high > 0:
                most = most.plus(delta)
        low = max(self.unknowns.least(least), 0)
        high = self.unknowns.greatest(most)
        return Count(low=low, high=high, text=bounds_text(low, high))


def _cell_key(cell: Cell) -> tuple[str, str]:
    return (cell[0], cell[1] or "")
