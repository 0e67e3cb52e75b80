"""On which days a group can have had animals in a tank."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from datetime import date, timedelta

from filialog.journal.ledger import Book
from filialog.journal.ledger.book import Cell
from filialog.journal.ledger.unknowns import Sum

__all__ = ["Occupancy", "Span"]

Span = tuple[date, date]
"""First and last day; an animal that left on a day was there on that day."""


class Occupancy:
    """The book, asked for places instead of numbers; every cell is worked out once."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._spans: dict[Cell, tuple[Span, ...]] = {}
        self._most: dict[tuple[Cell, date], int | None] = {}
        self._gains: dict[Cell, tuple[date, ...]] = {}

    def stay(self, cell: Cell, first: date, last: date) -> Span | None:
        """Return the first and last day of a window on which a cell can have held animals."""
        if first > last:
            return None
        spans = self._spans.get(cell)
        if spans is None:
            spans = self._spans[cell] = self._all_spans(cell)
        position = bisect_left(spans, first, key=lambda span: span[1])
        found = None
        for start, end in spans[position:]:
            if start > last:
                break
            found = (found[0] if found else max(start, first), min(end, last))
        return found

    def in_tank(self, tank: str | None, first: date, last: date) -> tuple[tuple[str, Span], ...]:
        """Return the groups that can have been in a tank, each with its days in the window."""
        return tuple(
            (cell[0], span)
            for cell in self._book.cells_at.get(tank, ())
            if (span := self.stay(cell, first, last)) is not None
        )

    def cells_of(self, group: str) -> tuple[Cell, ...]:
        """Return every cell a group ever had."""
        return self._book.cells_of.get(group, ())

    def tanks(self) -> tuple[str | None, ...]:
        """Return every tank that ever held animals."""
        return tuple(self._book.cells_at)

    def most(self, cells: Iterable[Cell], first: date, last: date) -> int | None:
        """Return the most animals the cells can have held, each on its fullest day of a window."""
        total = 0
        for cell in sorted(set(cells), key=lambda cell: (cell[0], cell[1] or "")):
            # Between two gains the number only falls.
            days = {first - timedelta(days=1)}
            days.update(day for day in self._gains_of(cell) if first <= day <= last)
            for day in sorted(days):
                if (cell, day) not in self._most:
                    self._most[cell, day] = self._number(cell, day)
            counts = [self._most[cell, day] for day in days]
            if None in counts:
                return None
            total += max(count for count in counts if count is not None)
        return total

    def _gains_of(self, cell: Cell) -> tuple[date, ...]:
        """Return the days on which a cell can have gained animals."""
        if cell not in self._gains:
            gaining = {
                posting.event
                for posting in self._book.postings.get(cell[0], ())
                if posting.gained or posting.kind_name == "moved"
            }
            days = {
                stand.day for stand in self._book.stands.get(cell, ()) if stand.event in gaining
            }
            days.update(pending.earliest for pending in self._book.pending.get(cell, ()))
            self._gains[cell] = tuple(sorted(days))
        return self._gains[cell]

    def _number(self, cell: Cell, day: date) -> int | None:
        """Return the most animals in a cell at the end of a day, as the book bounds them."""
        book = self._book
        stands = book.stands.get(cell, ())
        position = bisect_right(stands, day, key=lambda stand: stand.day)
        number = stands[position - 1].number if position else Sum()
        if cell[0] in book.colonies and book.unknowns.possible(number):
            return None
        more = (
            delta
            for pending in book.pending.get(cell, ())
            if pending.earliest <= day < pending.latest
            for other, delta in pending.deltas
            if other == cell and book.unknowns.possible(delta)
        )
        return book.unknowns.greatest(Sum.of((number, *more)))

    def _all_spans(self, cell: Cell) -> tuple[Span, ...]:
        book = self._book
        stands = book.stands.get(cell, ())
        found: list[Span] = []
        for number, stand in enumerate(stands):
            if book.unknowns.possible(stand.number):
                end = stands[number + 1].day if number + 1 < len(stands) else date.max
                found.append((stand.day, end))
        found.extend(
            (pending.earliest, pending.latest)
            for pending in book.pending.get(cell, ())
            if any(
                other == cell and book.unknowns.possible(delta) for other, delta in pending.deltas
            )
        )
        merged: list[Span] = []
        for start, end in sorted(found):
            if merged and start <= merged[-1][1]:
                merged[-1] = (merged[-1][0], max(merged[-1][1], end))
            else:
                merged.append((start, end))
        return tuple(merged)
