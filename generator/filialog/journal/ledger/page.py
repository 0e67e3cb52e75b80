"""The open book while it is being kept: current numbers, and a way back from a wrong turn."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import TypeVar

from filialog.findings.finding import Finding, Place
from filialog.journal.events import Event, EventId
from filialog.journal.ledger.book import Book, Cell, Difference, Posting, Stand
from filialog.journal.ledger.unknowns import Mark, Sum, Unknowns
from filialog.journal.ledger.windows import Window, pending_by_cell
from filialog.journal.names import Names

__all__ = ["BookPage"]

_Line = TypeVar("_Line")


class BookPage:
    """Numbers of all cells as of the event being posted; every change can be undone."""

    def __init__(
        self, *, names: Names, maturity_days: int | None, places: Mapping[EventId, Place]
    ) -> None:
        self.names = names
        self.touched: dict[Cell, Sum] = {}
        """Cells changed by the event being posted, with what they were before."""
        self.uncertain_groups: set[str] = set()
        """Groups that events which could not be booked would have changed or brought."""
        self.uncertain_tanks: set[str] = set()
        """Tanks that such events would have brought animals to."""
        self._places = places
        self.maturity_days = maturity_days
        self.day = date.min
        self.unknowns = Unknowns()
        self.findings: list[Finding] = []
        self._numbers: dict[Cell, Sum] = {}
        self._tanks_of: dict[str, dict[str | None, None]] = {}
        self._groups_in: dict[str | None, dict[str, None]] = {}
        self._stands: dict[Cell, list[Stand]] = {}
        self._postings: dict[str, list[Posting]] = {}
        self._differences: list[Difference] = []
        self._windows: list[Window] = []
        self._colonies: dict[str, None] = {}
        self._closed: dict[str, tuple[date, Event]] = {}
        self._hatched: dict[str, date] = {}
        self._undo: list[Callable[[], object]] = []

    def begin(self, day: date) -> None:
        """Open a new day; what came before stands."""
        self.day = day
        self._undo.clear()
        self.unknowns.settle()

    # What the book says now

    def place_of(self, event: EventId) -> Place | None:
        """Return where an event stands."""
        return self._places.get(event)

    def number(self, cell: Cell) -> Sum:
        """Return the current number of a cell, with what a colony may have borne since."""
        return self._numbers.get(cell, Sum())

    def stand(self, cell: Cell) -> Sum:
        """Return the number of a cell right after the last event that changed it."""
        stands = self._stands.get(cell)
        return stands[-1].number if stands else Sum()

    def total(self, group: str) -> Sum:
        """Return the number of a group right after the last event, all tanks together."""
        return Sum.of(self.stand(cell) for cell in self.all_cells(group))

    def possible(self, cell: Cell) -> bool:
        """Say whether a cell can hold an animal now."""
        number = self._numbers.get(cell)
        if number is None:
            return False
        if not number.terms:
            return number.number > 0
        return self.unknowns.possible(number)

    def all_cells(self, group: str) -> tuple[Cell, ...]:
        """Return every cell the group ever had."""
        return tuple((group, tank) for tank in self._tanks_of.get(group, ()))

    def all_cells_in(self, tank: str | None) -> tuple[Cell, ...]:
        """Return every cell the tank ever had."""
        return tuple((group, tank) for group in self._groups_in.get(tank, ()))

    def cells_of(self, group: str) -> tuple[Cell, ...]:
        """Return the cells where the group can be now."""
        return tuple(cell for cell in self.all_cells(group) if self.possible(cell))

    def cells_in(self, tank: str | None) -> tuple[Cell, ...]:
        """Return the cells of a tank that may hold animals now.

        Where only solving would show that a cell is empty it is among them: that changes no
        number, since nothing can be taken of it.
        """
        return tuple(
            cell for cell in self.all_cells_in(tank) if self.unknowns.perhaps(self.number(cell))
        )

    def cells_anywhere(self) -> tuple[Cell, ...]:
        """Return all cells that can hold animals now."""
        return tuple(cell for cell in self._numbers if self.possible(cell))

    def exists(self, group: str) -> bool:
        """Say whether the group came into being up to now."""
        return group in self._tanks_of

    def is_colony(self, group: str) -> bool:
        """Say whether the group breeds unrecorded."""
        return group in self._colonies

    def is_young(self, group: str) -> bool:
        """Say whether the group is a brood not yet of the age at which any can have bred."""
        hatched = self._hatched.get(group)
        if hatched is None:
            return False
        return self.maturity_days is None or (self.day - hatched).days < self.maturity_days

    def closed_by(self, tank: str | None) -> Event | None:
        """Return the event that took a tank down, if it is down now."""
        found = self._closed.get(tank) if tank is not None else None
        return found[1] if found else None

    def last_posting(self, group: str) -> Posting | None:
        """Return the last thing that happened to a group."""
        postings = self._postings.get(group)
        return postings[-1] if postings else None

    # What changes it

    def set_number(self, cell: Cell, number: Sum, event: Event) -> None:
        """Change the number of a cell from this day on; a colony may breed from here."""
        group, tank = cell
        if tank not in self._tanks_of.setdefault(group, {}):
            self._tanks_of[group][tank] = None
            self._groups_in.setdefault(tank, {})[group] = None
            self._undo.append(lambda: self._forget(group, tank))
        old = self._numbers.get(cell)
        self.touched.setdefault(cell, old if old is not None else Sum())
        number = self.unknowns.fixed(number)
        now = number
        if group in self._colonies and self.unknowns.possible(number):
            now = number.plus(self.unknowns.unknown(low=0, high=None))
        self._numbers[cell] = now
        self._undo.append(
            lambda: self._numbers.pop(cell) if old is None else self._numbers.update({cell: old})
        )
        self._add(
            self._stands.setdefault(cell, []), Stand(day=self.day, number=number, event=event.id)
        )

    def add_posting(self, posting: Posting) -> None:
        """Write a line of a group's book."""
        self._add(self._postings.setdefault(posting.group, []), posting)

    def add_difference(self, difference: Difference) -> None:
        """Write a difference between book and count."""
        self._add(self._differences, difference)

    def add_pending(self, event: Event) -> None:
        """Note what the event just posted did, where it may have happened on another day."""
        deltas = tuple(
            (cell, delta)
            for cell, old in self.touched.items()
            if (delta := self.stand(cell).plus(old, -1)) != Sum()
        )
        window = Window(
            first=event.when.earliest, booked=self.day, last=event.when.latest, deltas=deltas
        )
        self._add(self._windows, window)

    def add_finding(self, finding: Finding) -> None:
        """Note something odd that stops nothing."""
        self._add(self.findings, finding)

    def mark_colony(self, group: str) -> None:
        """Note that a group breeds unrecorded."""
        if group not in self._colonies:
            self._colonies[group] = None
            self._undo.append(lambda: self._colonies.pop(group))

    def mark_hatched(self, group: str) -> None:
        """Note the day a brood was first seen."""
        if group not in self._hatched:
            self._hatched[group] = self.day
            self._undo.append(lambda: self._hatched.pop(group))

    def close(self, tank: str, event: Event) -> None:
        """Take a tank down."""
        old = self._closed.get(tank)
        self._closed[tank] = (self.day, event)
        self._undo.append(lambda: self._reopen(tank, old))

    def reopen(self, tank: str) -> None:
        """Put a tank to use again."""
        old = self._closed.pop(tank, None)
        if old is not None:
            self._undo.append(lambda: self._reopen(tank, old))

    # The way back

    def mark(self) -> tuple[int, Mark]:
        """Remember this state."""
        return (len(self._undo), self.unknowns.mark())

    def return_to(self, mark: tuple[int, Mark]) -> None:
        """Undo all that came after a mark."""
        number, unknowns = mark
        while len(self._undo) > number:
            self._undo.pop()()
        self.unknowns.return_to(unknowns)

    def finish(self) -> Book:
        """Close the book."""
        stands = {cell: tuple(found) for cell, found in self._stands.items() if found}
        closed = {tank: day for tank, (day, _) in self._closed.items()}
        return Book(
            unknowns=self.unknowns,
            stands=stands,
            postings={group: tuple(found) for group, found in self._postings.items() if found},
            differences=tuple(self._differences),
            pending=pending_by_cell(self._windows, stands, self.unknowns, closed=closed),
            colonies=frozenset(self._colonies),
            closed=closed,
            cells_of={
                group: tuple(cell for cell in self.all_cells(group) if cell in stands)
                for group in self._tanks_of
            },
            cells_at={
                tank: tuple(cell for cell in self.all_cells_in(tank) if cell in stands)
                for tank in self._groups_in
            },
        )

    def _add(self, items: list[_Line], item: _Line) -> None:
        items.append(item)
        self._undo.append(items.pop)

    def _forget(self, group: str, tank: str | None) -> None:
        del self._tanks_of[group][tank]
        if not self._tanks_of[group]:
            del self._tanks_of[group]
        del self._groups_in[tank][group]

    def _reopen(self, tank: str, old: tuple[date, Event] | None) -> None:
        if old is None:
            self._closed.pop(tank, None)
        else:
            self._closed[tank] = old
