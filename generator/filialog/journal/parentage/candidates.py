"""Who can have been dam and sire of a brood, by the book alone."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

from filialog.journal.events import Event, EventId
from filialog.journal.ledger.book import Cell
from filialog.journal.parentage.breeders import Breeders
from filialog.journal.parentage.claims import Ground, GroundKind
from filialog.journal.parentage.occupancy import Occupancy, Span
from filialog.journal.parentage.remarks import Remark, RemarkKind, Remarks
from filialog.journal.parentage.transfers import Spell, Transfers
from filialog.journal.parentage.windows import LONGEST_DAYS, Incubations, Window, hatching_of

__all__ = ["STORED_DAYS", "Dam", "Evidence", "Met", "dams_among", "least", "sires_of"]

STORED_DAYS = 30
"""Days for which a female moved without eggs can still use sperm of the tank she left.

Sperm is glued to the shell and goes with the next moult; carrying it over was never tested in
these shrimp (the shell of a related one is described in Bauer 1976, J. Nat. Hist. 10:415-440,
abstract read). That an adult moults within a month is common practice, no source.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """All of a journal that candidates are judged by, indexed once."""

    occupancy: Occupancy
    transfers: Transfers
    breeders: Breeders
    remarks: Remarks
    incubations: Incubations
    hatchings: Mapping[str, Sequence[Event]]
    """Hatchings by tank, by day."""
    females_meant: dict[tuple[EventId, RemarkKind], int | None] = field(default_factory=dict)
    """The most females a remark with a number can be about, once worked out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dam:
    """A group that can have been the dam, with when and where she can have conceived."""

    cell: Cell
    """Where she can have been when the young hatched."""
    window: Window
    """Days on which her eggs can have been fertilised."""
    spells: tuple[Spell, ...]
    """Where she can have been since sperm from before the window can have been taken up."""
    grounds: tuple[Ground, ...]
    """What bounds the window."""
    most: int | None
    """Most females of the group."""
    from_outside: bool
    """True where she can have been fertilised before she came on the book."""
    sperm_since: date | None
    """A day on which she moulted, or carried other eggs: no sperm is older than that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """A group whose males a dam can have met."""

    group: str
    cell: Cell
    span: Span
    loose: bool
    """True where only sperm from before a move can have done it."""
    spell: Spell


def dams_among(
    evidence: Evidence, hatched: Event, cells: Iterable[tuple[Cell, Span]], *, brood: str
) -> tuple[Dam, ...]:
    """Return those who can have hatched a brood, given who can have been in the tank."""
    found = []
    unnarrowed = []
    for cell, _ in cells:
        if cell[0] == brood:
            continue
        dam = _dam(evidence, hatched, cell)
        if dam is None:
            continue
        unnarrowed.append(dam)
        narrow = _narrowed(evidence, hatched, dam)
        if narrow.window.first <= narrow.window.last and _is_of_age(evidence, narrow):
            found.append(narrow)
    # Remarks that leave nobody contradict each other: then none of them is used.
    return tuple(found or unnarrowed)


def _is_of_age(evidence: Evidence, dam: Dam) -> bool:
    return evidence.breeders.adult_from(dam.cell[0]) <= dam.window.last


def _dam(evidence: Evidence, hatched: Event, cell: Cell) -> Dam | None:
    occupancy, breeders = evidence.occupancy, evidence.breeders
    hatching = hatching_of(hatched)
    earliest = hatching.first - timedelta(days=LONGEST_DAYS)
    spells = evidence.transfers.spells(
        {cell: hatching.last}, earliest - timedelta(days=STORED_DAYS)
    )
    here = [spell for spell in spells if occupancy.stay(spell.cell, earliest, spell.last)]
    days = evidence.incubations.of(hatched, {spell.cell[1] for spell in here} or {cell[1]})
    window = Window(
        first=hatching.first - timedelta(days=days.high_days),
        last=hatching.last - timedelta(days=days.low_days),
    )
    most = breeders.most_of(cell[0], "dams", hatching.first)
    if most == 0 or breeders.adult_from(cell[0]) > window.last:
        return None
    kind = GroundKind.BY_TEMPERATURE if days.measured else GroundKind.BY_SPECIES
    ground = Ground(kind=kind, days=(days.low_days, days.high_days), events=days.events)
    if most != 1:
        most = least(most, occupancy.most((cell,), hatching.first, hatching.last))
    return Dam(
        cell=cell,
        window=window,
        spells=spells,
        grounds=(ground,),
        most=most,
        from_outside=_from_outside(evidence, spells, window),
        sperm_since=None,
    )


def _from_outside(evidence: Evidence, spells: Iterable[Spell], window: Window) -> bool:
    """Say whether she can have come on the book after she was fertilised."""
    return any(
        event.kind_name != "hatched" and event.when.latest > window.first
        for spell in spells
        for event in evidence.transfers.appeared(spell.cell)
        if event.when.earliest <= spell.last
    )


# --- what was seen of her -------------------------------------------------------------------


def _narrowed(evidence: Evidence, hatched: Event, dam: Dam) -> Dam:
    """Return a dam with her window narrowed by what was seen of her, or of all her like."""
    hatching = hatching_of(hatched)
    groups = {spell.cell[0] for spell in dam.spells}
    tanks = {spell.cell[1] for spell in dam.spells} - {None}
    found = evidence.remarks.between(
        groups,
        (tank for tank in tanks if tank is not None),
        dam.window.first - timedelta(days=STORED_DAYS),
        hatching.first - timedelta(days=1),
    )
    remarks = [
        one
        for one in found
        if one.event.when.latest < hatching.first and _covers(evidence, one, dam)
    ]
    for one in sorted(remarks, key=lambda one: (one.event.when.earliest, one.event.id)):
        when = one.event.when
        if one.kind is RemarkKind.BERRIED:
            if when.latest < dam.window.first:
                dam = replace(dam, sperm_since=when.earliest)
            elif (
                dam.window.first <= when.earliest
                and when.latest < dam.window.last
                and not _another_clutch(evidence, one, dam, hatched)
            ):
                ground = Ground(kind=GroundKind.BERRIED, first=when.latest, events=(one.event.id,))
                narrow = Window(first=dam.window.first, last=when.latest)
                dam = replace(dam, window=narrow, grounds=_with(dam.grounds, ground))
            continue
        if one.kind is not RemarkKind.NOT_BERRIED:
            dam = replace(dam, sperm_since=when.earliest)
        if when.earliest > dam.window.first:
            kind = GroundKind.NOT_YET_BERRIED
            if one.kind is RemarkKind.MOULT:
                kind = GroundKind.MOULTED
            ground = Ground(kind=kind, first=when.earliest, events=(one.event.id,))
            later = Window(first=when.earliest, last=dam.window.last)
            dam = replace(dam, window=later, grounds=_with(dam.grounds, ground))
    return dam


_LOWER = frozenset({GroundKind.NOT_YET_BERRIED, GroundKind.MOULTED})


def _with(grounds: tuple[Ground, ...], ground: Ground) -> tuple[Ground, ...]:
    """Return grounds with one more, in place of the one that bounded the same end."""
    same_end = _LOWER if ground.kind in _LOWER else frozenset({ground.kind})
    return (*(one for one in grounds if one.kind not in same_end), ground)


def _covers(evidence: Evidence, remark: Remark, dam: Dam) -> bool:
    """Say whether a remark is surely one about the dam: about all that she can have been."""
    first, last = remark.event.when.earliest, remark.event.when.latest
    places = {
        spell.cell
        for spell in dam.spells
        if evidence.occupancy.stay(spell.cell, first, min(last, spell.last)) is not None
    }
    if not places or not all(_is_meant(remark, cell) for cell in places):
        return False
    if remark.number is None:
        return len(remark.groups) <= 1
    key = (remark.event.id, remark.kind)
    if key not in evidence.females_meant:
        evidence.females_meant[key] = _most_females_meant(evidence, remark)
    most = evidence.females_meant[key]
    return most is not None and remark.number >= most


def _most_females_meant(evidence: Evidence, remark: Remark) -> int | None:
    first, last = remark.event.when.earliest, remark.event.when.latest
    if remark.groups:
        every = (cell for group in remark.groups for cell in evidence.occupancy.cells_of(group))
    else:
        there = evidence.occupancy.in_tank(remark.tank, first, last)
        every = ((group, remark.tank) for group, _ in there)
    total = 0
    for cell in every:
        if not _is_meant(remark, cell) or evidence.occupancy.stay(cell, first, last) is None:
            continue
        if not evidence.breeders.can_breed(cell[0], "dams", first=first, last=last):
            continue
        most = least(
            evidence.occupancy.most((cell,), first - timedelta(days=1), last),
            evidence.breeders.most_of(cell[0], "dams", first),
        )
        if most is None:
            return None
        total += most
    return total


def _is_meant(remark: Remark, cell: Cell) -> bool:
    group, tank = cell
    if remark.groups:
        return group in remark.groups and remark.tank in (None, tank)
    return tank is not None and tank == remark.tank


def _another_clutch(evidence: Evidence, seen: Remark, dam: Dam, hatched: Event) -> bool:
    """Say whether eggs seen on a day can have been others than those of the brood."""
    since, until = seen.event.when.earliest, hatching_of(hatched).first
    tanks = {spell.cell[1] for spell in dam.spells if spell.last >= since}
    if any(
        event.id != hatched.id
        and event.when.latest >= since
        and event.when.earliest <= hatched.when.latest
        for tank in tanks
        for event in evidence.hatchings.get(tank or "", ())
    ):
        return True
    lost = evidence.remarks.between(
        {spell.cell[0] for spell in dam.spells}, (tank for tank in tanks if tank), since, until
    )
    return any(one.kind is RemarkKind.DROPPED for one in lost)


# --- whom she met ---------------------------------------------------------------------------


def sires_of(
    evidence: Evidence, hatched: Event, dams: Iterable[Dam], *, brood: str
) -> Iterator[Met]:
    """Give the groups whose males can have fertilised the eggs of one of some dams."""
    looked: set[tuple[object, ...]] = set()
    for dam in dams:
        for spell in dam.spells:
            stay = _days_with_males(evidence, hatched, dam, spell)
            if stay is None:
                continue
            # Many dams of one tank met the same males.
            move = spell.left_by.event.id if spell.left_by is not None else None
            key = (spell.cell[1], stay, spell.loose, move)
            if key not in looked:
                looked.add(key)
                yield from _males_beside(evidence, spell, stay, brood=brood)


def _days_with_males(evidence: Evidence, hatched: Event, dam: Dam, spell: Spell) -> Span | None:
    """Return the days of a spell on which a dam can have met the sire."""
    if _came_with_these_eggs(evidence, hatched, spell.cell, dam):
        return None
    first = dam.window.first
    other_eggs = spell.carried is not None and spell.carried < first
    if spell.loose and not other_eggs:
        # She can have taken sperm of males she left along.
        first -= timedelta(days=STORED_DAYS)
        first = max(first, dam.sperm_since or first, evidence.breeders.adult_from(dam.cell[0]))
    return evidence.occupancy.stay(spell.cell, first, min(spell.last, dam.window.last))


def _males_beside(evidence: Evidence, spell: Spell, stay: Span, *, brood: str) -> Iterator[Met]:
    tank = spell.cell[1]
    places = (tank, None) if tank is not None else evidence.occupancy.tanks()
    for place in places:
        for group, span in evidence.occupancy.in_tank(place, *stay):
            if group != brood and evidence.breeders.can_breed(
                group, "sires", first=span[0], last=span[1]
            ):
                yield Met(
                    group=group, cell=(group, place), span=span, loose=spell.loose, spell=spell
                )


def _came_with_these_eggs(evidence: Evidence, hatched: Event, cell: Cell, dam: Dam) -> bool:
    """Say whether all that can have been in a cell came there with the eggs of the brood."""
    if evidence.transfers.appeared(cell):
        return False
    hatching = hatching_of(hatched)
    arrivals = list(evidence.transfers.into(cell, dam.window.first, hatching.last))
    if not arrivals or not all(one.berried and one.alone for one in arrivals):
        return False
    came = min(one.event.when.earliest for one in arrivals)
    before = evidence.occupancy.stay(
        cell, dam.window.first - timedelta(days=1), came - timedelta(days=1)
    )
    if before is not None:
        return False
    since = min(arrivals, key=lambda one: one.event.when.earliest).event
    seen = Remark(kind=RemarkKind.BERRIED, event=since, groups=(cell[0],), tank=cell[1], number=1)
    there = replace(dam, spells=tuple(one for one in dam.spells if one.cell == cell))
    return not _another_clutch(evidence, seen, there, hatched)


def least(one: int | None, other: int | None) -> int | None:
    """Return the smaller of two bounds, of which None is none."""
    if one is None or other is None:
        return one if other is None else other
    return min(one, other)
