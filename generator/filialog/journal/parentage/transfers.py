"""How animals got from one group and tank to another, and where they can have been before."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import accumulate

from filialog.journal.events import Event
from filialog.journal.kinds import Books
from filialog.journal.ledger.book import Cell
from filialog.journal.ledger.cells import amount_of
from filialog.journal.names import Names
from filialog.journal.parentage.occupancy import Occupancy

__all__ = ["Spell", "Transfer", "Transfers"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Transfer:
    """Animals going from one cell of the book to another."""

    event: Event
    groups: tuple[str, ...]
    """Groups they can have been of; empty where any group of the tank can be meant."""
    tank: str | None
    """The tank they left; None where the event does not say."""
    to_group: str | None
    """The group they form from then on; None where they keep theirs."""
    to_tank: str | None
    """The tank they got to; None where it is the one they left, or not said."""
    berried: bool
    """True where a female with eggs is said to be among them."""

    @property
    def alone(self) -> bool:
        """True where it was one animal."""
        amount = amount_of(self.event)
        return amount is not None and amount.high == 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Spell:
    """A cell in which an animal can have been, looked at from a later day."""

    cell: Cell
    last: date
    """The last day it can have been there."""
    loose: bool
    """True where it has to have been moved to another tank since, and not as a berried one."""
    carried: date | None
    """The earliest day since on which it was moved with eggs; None where it never was."""
    left_by: Transfer | None
    """The transfer it has to have left by; None for where it is on the later day."""


class Transfers:
    """All transfers of a journal, by the group they lead to."""

    def __init__(self, events: Iterable[Event], names: Names, occupancy: Occupancy) -> None:
        self._occupancy = occupancy
        found: dict[str, list[Transfer]] = {}
        of_tank: dict[str | None, list[Transfer]] = {}
        self._arrivals: dict[Cell, list[Event]] = {}
        for event in events:
            for one in _transfers_of(event, names):
                if one.to_group is not None:
                    found.setdefault(one.to_group, []).append(one)
                elif one.groups:
                    for group in one.groups:
                        found.setdefault(group, []).append(one)
                else:
                    of_tank.setdefault(one.to_tank, []).append(one)
            if event.kind.books is Books.APPEARS:
                new = event.text("brood" if event.kind_name == "hatched" else "group")
                if new is not None:
                    self._arrivals.setdefault((new, event.tank), []).append(event)
        self._to_group = {group: _Timeline(some) for group, some in found.items()}
        self._to_tank = {tank: _Timeline(some) for tank, some in of_tank.items()}

    def appeared(self, cell: Cell) -> Sequence[Event]:
        """Return the events that brought animals into a cell from outside, or hatched them."""
        return self._arrivals.get(cell, ())

    def into(self, cell: Cell, first: date, last: date) -> Iterator[Transfer]:
        """Give the transfers that can have led into a cell on some day of a window."""
        group, tank = cell
        for timeline in (self._to_group.get(group), self._to_tank.get(tank)):
            for one in timeline.between(first, last) if timeline is not None else ():
                if one.to_tank is None or one.to_tank == tank:
                    yield one

    def spells(self, start: Mapping[Cell, date], first: date) -> tuple[Spell, ...]:
        """Return where animals can have been since a day that are in some cells later.

        `start` gives those cells with the last day on which they are there.
        """
        best: dict[tuple[Cell, bool, date | None], Spell] = {}
        waiting = [
            Spell(cell=cell, last=last, loose=False, carried=None, left_by=None)
            for cell, last in start.items()
        ]
        while waiting:
            spell = waiting.pop()
            key = (spell.cell, spell.loose, spell.carried)
            if key in best and best[key].last >= spell.last:
                continue
            best[key] = spell
            for one in self.into(spell.cell, first, spell.last):
                last = min(spell.last, one.event.when.latest)
                for cell in self._sources(one, spell.cell, first, last):
                    changed = cell[1] != spell.cell[1]
                    loose = spell.loose or (changed and not one.berried)
                    carried = one.event.when.latest if one.berried and one.alone else spell.carried
                    waiting.append(
                        Spell(cell=cell, last=last, loose=loose, carried=carried, left_by=one)
                    )
        return tuple(
            sorted(
                best.values(),
                key=_spell_key,
            )
        )

    def _sources(self, one: Transfer, target: Cell, first: date, last: date) -> Iterator[Cell]:
        """Give the cells from which a transfer can have taken what came into another."""
        since = max(first, one.event.when.earliest)
        if one.groups:
            named = one.groups if one.to_group is not None else (target[0],)
            cells: Iterable[Cell] = (
                cell
                for group in named
                for cell in self._occupancy.cells_of(group)
                if one.tank is None or cell[1] in (one.tank, None)
            )
        else:
            group = None if one.to_group is not None else target[0]
            cells = (
                (name, tank)
                for tank in {one.tank: None, None: None}
                for name, _ in self._occupancy.in_tank(tank, since, last)
                if group in (None, name)
            )
        for cell in cells:
            if cell != target and self._occupancy.stay(cell, since, last) is not None:
                yield cell


def _spell_key(spell: Spell) -> tuple[str, str, bool, date]:
    return (spell.cell[0], spell.cell[1] or "", spell.loose, spell.carried or date.max)


class _Timeline:
    """Transfers by day, of which those of a window are found fast."""

    def __init__(self, transfers: Iterable[Transfer]) -> None:
        self._all = sorted(transfers, key=lambda one: (one.event.when.earliest, one.event.id))
        self._latest = list(accumulate((one.event.when.latest for one in self._all), max))

    def between(self, first: date, last: date) -> Iterator[Transfer]:
        """Give those that can have been on a day of a window, the newest first."""
        position = bisect_right(self._all, last, key=lambda one: one.event.when.earliest)
        while position and self._latest[position - 1] >= first:
            position -= 1
            if self._all[position].event.when.latest >= first:
                yield self._all[position]


def _transfers_of(event: Event, names: Names) -> Iterator[Transfer]:
    """Give what an event takes from where to where."""
    single = event.text("group")
    source = event.text("from")
    groups = (single,) if single is not None else event.names("of")
    if event.kind_name == "moved":
        target = event.text("to")
        joins = target if target not in names.tanks and target in names.groups else None
        to_tank = None if joins is not None else target
        tank = source if source in names.tanks else None
        if tank is None and event.tank != to_tank:
            tank = event.tank
        if not groups and source is not None and source != tank:
            groups = (source,)
        yield Transfer(
            event=event,
            groups=groups,
            tank=tank,
            to_group=event.text("as") or joins,
            to_tank=to_tank,
            berried=event.flag("berried"),
        )
    elif event.kind_name in ("sorted", "chosen"):
        taken = (source or single,) if source or single else groups
        new = [one.group for one in event.sortings()]
        if event.kind_name == "chosen" and (into := event.text("into")) is not None:
            new = [into]
        for group in new:
            yield Transfer(
                event=event,
                groups=tuple(name for name in taken if name is not None),
                tank=event.tank,
                to_group=group,
                to_tank=event.tank,
                berried=False,
            )
    elif event.kind_name == "joined":
        parts = tuple(part.group for part in event.parts()) or event.names("of")
        yield Transfer(
            event=event,
            groups=parts,
            tank=None,
            to_group=event.text("into"),
            to_tank=event.tank,
            berried=False,
        )
