"""The parents of every brood: named by the keeper, or found in the book."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from filialog.journal.descent import Descent
from filialog.journal.events import Event, EventId
from filialog.journal.ledger import Book
from filialog.journal.ledger.book import Cell
from filialog.journal.names import Names
from filialog.journal.parentage.breeders import Breeders, Side
from filialog.journal.parentage.candidates import (
    STORED_DAYS,
    Dam,
    Evidence,
    Met,
    dams_among,
    least,
    sires_of,
)
from filialog.journal.parentage.claims import DOUBTS, Claim, Ground, GroundKind, ParentSet, lowered
from filialog.journal.parentage.grounds import bounds, moves, nowhere, put_together, tanks_of
from filialog.journal.parentage.kin import Kin
from filialog.journal.parentage.occupancy import Occupancy, Span
from filialog.journal.parentage.pairings import Pairings
from filialog.journal.parentage.remarks import Remarks
from filialog.journal.parentage.ruled_out import RuledOut, Search, ruled_out
from filialog.journal.parentage.taints import Taints
from filialog.journal.parentage.transfers import Transfers
from filialog.journal.parentage.windows import LONGEST_DAYS, UNSEEN_DAYS, Incubations, hatching_of
from filialog.journal.parents import NamedParents
from filialog.journal.records import Journal

__all__ = ["BroodParents", "Parentage"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BroodParents:
    """Both sides of a brood."""

    dams: ParentSet
    sires: ParentSet
    mating: str
    """`one`, `several` or `unknown`: how many sires it can have."""


@dataclass(frozen=True, slots=True)
class _Found:
    """One side as found: groups, most animals of each, and what was met on the way."""

    groups: tuple[str, ...]
    most: int | None
    grounds: tuple[Ground, ...]
    doubts: tuple[Ground, ...]
    not_excluded: tuple[str, ...] = ()


class Parentage:
    """The parents of the broods of one journal; its events are indexed once."""

    def __init__(
        self,
        journal: Journal,
        names: Names,
        parents: Mapping[str, NamedParents],
        descent: Descent,
        book: Book,
    ) -> None:
        events = journal.events()
        self._names = names
        self._parents = parents
        self._events = {event.id: event for event in events}
        self._book = book
        occupancy = Occupancy(book)
        breeders = Breeders(journal, names, descent, book, occupancy, unseen_days=UNSEEN_DAYS)
        hatchings: dict[str, list[Event]] = {}
        for event in events:
            if event.kind_name == "hatched" and event.tank is not None:
                hatchings.setdefault(event.tank, []).append(event)
        self._evidence = Evidence(
            occupancy=occupancy,
            transfers=Transfers(events, names, occupancy),
            breeders=breeders,
            remarks=Remarks(events),
            incubations=Incubations(events, journal.species),
            hatchings=hatchings,
        )
        self._taints = Taints(events, maturity_days=breeders.maturity_days)
        self._pairings = Pairings(events)
        self._kin = Kin(names, descent)
        self._done: dict[str, BroodParents] = {}
        self._dams: dict[str, tuple[Dam, ...]] = {}
        self._ruled_out: dict[str, tuple[RuledOut, ...]] = {}

    def of(self, brood: str) -> BroodParents | None:
        """Return the parents of a brood; None for a group that is none."""
        named = self._parents.get(brood)
        if named is None:
            return None
        if brood not in self._done:
            self._done[brood] = self._parents_of(named)
        return self._done[brood]

    def ruled_out(self, brood: str) -> tuple[RuledOut, ...]:
        """Return the named parents of a brood that the book rules out, a side at a time."""
        if brood not in self._ruled_out:
            self._ruled_out[brood] = tuple(self._rule_out(self._parents[brood]))
        return self._ruled_out[brood]

    def can_be(self, group: str, side: Side, hatched: Event) -> bool:
        """Say whether a group can hold parents of a side, by the sexes that were written down."""
        back = timedelta(days=LONGEST_DAYS + STORED_DAYS)
        return self._evidence.breeders.can_be(group, side, hatched.when.earliest - back)

    def _rule_out(self, named: NamedParents) -> Iterator[RuledOut]:
        search = Search(
            evidence=self._evidence,
            kin=self._kin,
            taints=self._taints,
            book=self._book,
            events=self._events,
        )
        sides: tuple[tuple[Side, tuple[str, ...]], ...] = (
            ("dams", self._known(named.dams)),
            ("sires", self._known(named.sires)),
        )
        for side, groups in sides:
            dams = self._dams_of(named)
            found = (
                ruled_out(search, named, side=side, groups=groups, dams=dams) if groups else None
            )
            if found is not None:
                yield found

    def _parents_of(self, named: NamedParents) -> BroodParents:
        against = {one.side: one for one in self.ruled_out(named.brood)}
        dams = self._dams_of(named)
        met = tuple(sires_of(self._evidence, named.hatched, dams, brood=named.brood))
        names: dict[Side, tuple[str, ...]] = {
            "dams": self._known(named.dams),
            "sires": self._known(named.sires),
        }
        sides: dict[Side, ParentSet] = {}
        for side, groups in names.items():
            found = self._found_dams(named, dams)
            if side == "sires":
                found = self._found_sires(named, dams, met)
            if groups:
                sides[side] = self._as_named(named, side, groups, found, against.get(side))
            else:
                sides[side] = self._as_found(named, found)
        mating = named.hatched.text("mating") or _mating(sides["sires"])
        return BroodParents(dams=sides["dams"], sires=sides["sires"], mating=mating)

    def _known(self, groups: Iterable[str]) -> tuple[str, ...]:
        """Leave out groups that this view of the journal does not hold."""
        return tuple(group for group in groups if group in self._names.origins)

    # Who can have been it

    def _dams_of(self, named: NamedParents) -> tuple[Dam, ...]:
        """Return the possible dams: those named, as far as the book has them there, or all."""
        if named.brood not in self._dams:
            self._dams[named.brood] = self._all_dams(named)
        return self._dams[named.brood]

    def _all_dams(self, named: NamedParents) -> tuple[Dam, ...]:
        hatched = named.hatched
        if hatched.tank is None:
            return ()
        days = hatching_of(hatched)
        cells: list[tuple[Cell, Span]] = [
            ((group, tank), span)
            for tank in (hatched.tank, None)
            for group, span in self._evidence.occupancy.in_tank(tank, days.first, days.last)
        ]
        groups = self._known(named.dams)
        if groups:
            kin = self._kin.of(groups)
            meant = [one for one in cells if one[0][0] in kin]
            return dams_among(self._evidence, hatched, meant or cells, brood=named.brood)
        return dams_among(self._evidence, hatched, cells, brood=named.brood)

    def _found_dams(self, named: NamedParents, dams: Sequence[Dam]) -> _Found:
        hatched = named.hatched
        days = hatching_of(hatched)
        groups = tuple(sorted({dam.cell[0] for dam in dams}))
        grounds: list[Ground] = []
        if groups and hatched.tank is not None:
            grounds.append(
                Ground(
                    kind=GroundKind.IN_TANK,
                    tanks=(hatched.tank,),
                    first=days.first,
                    last=days.last,
                    events=(hatched.id,),
                )
            )
            put = self._pairings.before(hatched, "dams", _last_day(dams))
            if put is not None and self._pairings.meant(put, "dams", groups, self._kin):
                grounds.append(put_together(put))
        doubts = [*self._outsiders(named, dams), *nowhere(dam.cell for dam in dams)]
        most = _sum(dam.most for dam in dams)
        return _Found(groups, most, tuple(grounds), tuple(doubts))

    def _found_sires(self, named: NamedParents, dams: Sequence[Dam], met: Sequence[Met]) -> _Found:
        if not dams:
            return _Found((), None, (), self._outsiders(named, dams))
        hatched = named.hatched
        last = _last_day(dams)
        put = self._pairings.before(hatched, "sires", last)
        firm = {one.group for one in met if not one.loose}
        groups = tuple(sorted({one.group for one in met}))
        loose = tuple(group for group in groups if group not in firm) if firm else ()
        tanks = tuple(sorted({one.cell[1] for one in met if one.cell[1] is not None}))
        grounds: list[Ground] = []
        if groups:
            first = min(dam.window.first for dam in dams)
            grounds.append(
                Ground(
                    kind=GroundKind.IN_TANK,
                    tanks=tanks,
                    first=first,
                    last=last,
                    events=(hatched.id,),
                )
            )
            grounds += bounds(dams)
            if put is not None and self._pairings.meant(put, "sires", groups, self._kin):
                grounds.append(put_together(put))
        grounds += moves(met, loose)
        # An outsider that was the dam may have brought her eggs along.
        outsiders = (*self._outsiders(named, dams), *self._tainted(tanks or tanks_of(dams), last))
        doubts = [*dict.fromkeys(outsiders), *nowhere(one.cell for one in met)]
        outside = [dam for dam in dams if dam.from_outside]
        if outside:
            doubts.append(
                Ground(
                    kind=GroundKind.CAME_WITH_EGGS,
                    groups=tuple(sorted({dam.cell[0] for dam in outside})),
                )
            )
        return _Found(groups, self._most_sires(met), tuple(grounds), tuple(doubts), loose)

    def _most_sires(self, met: Sequence[Met]) -> int | None:
        """Return how many males there can have been at most, each group for itself."""
        cells: dict[str, dict[Cell, Span]] = {}
        for one in met:
            old = cells.setdefault(one.group, {}).get(one.cell, one.span)
            cells[one.group][one.cell] = (min(old[0], one.span[0]), max(old[1], one.span[1]))
        counts = []
        for group, places in sorted(cells.items()):
            first = min(span[0] for span in places.values())
            most = self._evidence.breeders.most_of(group, "sires", first)
            if most != 1:  # nothing the book says makes it less
                number = _sum(
                    self._evidence.occupancy.most((cell,), *span) for cell, span in places.items()
                )
                most = least(most, number)
            counts.append(most)
        return _sum(counts)

    def _outsiders(self, named: NamedParents, dams: Sequence[Dam]) -> tuple[Ground, ...]:
        """Return why the dam can have been an animal of another tank, or the young be its own.

        It can have got in where the young hatched, or earlier where they took her from.
        """
        found = self._tainted(
            (named.hatched.tank,) if named.hatched.tank is not None else (),
            hatching_of(named.hatched).last,
        )
        for spell in (spell for dam in dams for spell in dam.spells):
            if spell.cell[1] is not None:
                found += self._tainted((spell.cell[1],), spell.last)
        return tuple(dict.fromkeys(found))

    def _tainted(self, tanks: Iterable[str], last: date) -> list[Ground]:
        return [
            Ground(
                kind=GroundKind.ITEM_MOVED if one.item else GroundKind.STRAYED,
                tanks=(one.tank,),
                first=one.event.when.earliest,
                events=(one.event.id,),
            )
            for one in self._taints.of_tanks(tanks, last)
        ]

    # How well it is known

    def _as_named(
        self,
        named: NamedParents,
        side: Side,
        groups: tuple[str, ...],
        found: _Found,
        against: RuledOut | None,
    ) -> ParentSet:
        events = tuple(event.id for event in named.events)
        grounds = [Ground(kind=GroundKind.NAMED, events=events)]
        doubts = [one for one in found.doubts if one.kind in _OF_NAMED]
        if against is not None:
            doubts.append(
                Ground(
                    kind=GroundKind.AGAINST_BOOK,
                    groups=against.groups,
                    events=(against.event.id,) if against.event is not None else (),
                )
            )
        claim = Claim.FIRM if len(groups) == 1 else Claim.SET
        most = self._most_named(named, side, groups)
        return ParentSet(
            groups=groups,
            claim=lowered(claim) if doubts else claim,
            named=True,
            events=_events(events, grounds, doubts),
            grounds=(*grounds, *doubts),
            most=most,
        )

    def _most_named(self, named: NamedParents, side: Side, groups: tuple[str, ...]) -> int | None:
        for event in named.events:
            said = event.parents(side)
            if said is not None and said.count is not None:
                return said.count.high
        last = named.hatched.when.latest
        counts = []
        for group in groups:
            most = self._evidence.breeders.most_of(group, side, last - timedelta(days=LONGEST_DAYS))
            cells = self._evidence.occupancy.cells_of(group)
            if cells and most != 1:
                first = last - timedelta(days=LONGEST_DAYS)
                most = least(most, self._evidence.occupancy.most(cells, first, last))
            counts.append(most)
        return _sum(counts)

    def _as_found(self, named: NamedParents, found: _Found) -> ParentSet:
        if not found.groups:
            return ParentSet(
                groups=(),
                claim=Claim.UNKNOWN,
                named=False,
                events=_events((named.hatched.id,), (), found.doubts),
                grounds=found.doubts,
            )
        claim = Claim.SET
        if len(found.groups) == 1:
            claim = Claim.FIRM if found.most == 1 else Claim.LIKELY
        return ParentSet(
            groups=found.groups,
            claim=lowered(claim) if found.doubts else claim,
            named=False,
            events=_events((named.hatched.id,), found.grounds, found.doubts),
            grounds=(*found.grounds, *found.doubts),
            most=found.most,
            not_excluded=found.not_excluded,
        )


def _mating(sires: ParentSet) -> str:
    """Return how many sires there can have been: one only where one animal is all there was."""
    doubted = any(one.kind in DOUBTS for one in sires.grounds)
    return "one" if sires.most == 1 and not doubted else "unknown"


_OF_NAMED = frozenset({GroundKind.STRAYED, GroundKind.ITEM_MOVED})
"""Doubts that touch what the keeper named, too."""


def _last_day(dams: Sequence[Dam]) -> date:
    return max((dam.window.last for dam in dams), default=date.min)


def _events(
    first: Iterable[EventId], grounds: Iterable[Ground], doubts: Iterable[Ground]
) -> tuple[EventId, ...]:
    rest = (event for one in (*grounds, *doubts) for event in one.events)
    return tuple(dict.fromkeys((*first, *rest)))


def _sum(counts: Iterable[int | None]) -> int | None:
    total = 0
    for count in counts:
        if count is None:
            return None
        total += count
    return total
