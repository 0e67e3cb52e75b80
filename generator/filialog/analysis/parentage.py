"""Broods, their parents as sets, and the crosses they belong to."""

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Literal

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.rows import BroodRow, Claim, ParentSet
from filialog.analysis.sources import EVENTS_IN_TANK
from filialog.journal.births import first_births
from filialog.journal.events import Event, EventId
from filialog.journal.parents import NamedCross, NamedParents, named_crosses, sides_of
from filialog.journal.sexes import Sexes, sexes_of

__all__ = [
    "BROOD",
    "BROODS",
    "BROODS_OF_CROSS",
    "CROSSES",
    "CROSSES_OF_GROUP",
    "NAMED_CROSSES",
    "SEXES",
]

_Side = Literal["dams", "sires"]

_UNRECORDED_INCUBATION = (14, 42)
"""Fewest and most days from mating to hatching where the species is not known.

Common practice, no source: hobby pages on dwarf shrimp quote 14 to 40 days.
"""


def _sexes(reader: Reader, _: str) -> Mapping[str, Sexes]:
    checked = reader.journal("sexes")
    return sexes_of(checked.journal, checked.names)


SEXES: NodeKind[Mapping[str, Sexes]] = NodeKind("sexes", _sexes)
"""Recorded sexes of all groups."""


def _births(reader: Reader, _: str) -> Mapping[str, tuple[date, Event] | None]:
    checked = reader.journal("births")
    return first_births(checked.names, checked.descent)


_BIRTHS: NodeKind[Mapping[str, tuple[date, Event] | None]] = NodeKind("births", _births)


def _broods(reader: Reader, _: str) -> tuple[str, ...]:
    return tuple(reader.journal("named parents").parents)


BROODS: NodeKind[tuple[str, ...]] = NodeKind("broods", _broods)
"""All broods, by day of hatching."""


def _brood(reader: Reader, group: str) -> BroodRow | None:
    named = reader.journal(f"named parents of {group}").parents.get(group)
    if named is None:
        return None
    dams = _side(reader, named, "dams")
    sires = _side(reader, named, "sires")
    hatched = named.hatched
    return BroodRow(
        group=group,
        when=hatched.when,
        tank=hatched.tank,
        cross=_cross_of(named, dams, sires),
        dams=dams,
        sires=sires,
        mating=hatched.text("mating") or _mating(reader, sires),
        count=hatched.count(),
        event=hatched.id,
    )


BROOD: NodeKind[BroodRow | None] = NodeKind("brood", _brood)
"""A brood with its parents; None for a group that is none."""


def _cross_of(named: NamedParents, dams: ParentSet, sires: ParentSet) -> str:
    """Name the cross: as the keeper did, or by its parents, or after the brood."""
    if named.cross is not None:
        return named.cross
    certain = all(
        side.groups and (side.named or side.claim is Claim.LIKELY) for side in (dams, sires)
    )
    if certain:
        return f"{' or '.join(dams.groups)} by {' or '.join(sires.groups)}"
    # Who else was in the tank can change with every late note; the brood's name does not.
    return f"parents of {named.brood}"


def _mating(reader: Reader, sires: ParentSet) -> str:
    """Say how many sires a brood can have: one only where one male is all there was."""
    if len(sires.groups) == 1:
        sexes = reader.get(SEXES).get(sires.groups[0])
        males = sexes.male_count if sexes is not None else None
        if males is not None and males.exact == 1:
            return "one"
    return "unknown"


def _side(reader: Reader, named: NamedParents, side: _Side) -> ParentSet:
    groups = _known(reader, named.dams if side == "dams" else named.sires)
    if groups:
        claim = Claim.FIRM if len(groups) == 1 else Claim.SET
        return ParentSet(groups=groups, claim=claim, named=True, events=_ids(named.events))
    in_tank = _in_the_tank(reader, named, side)
    groups = in_tank
    events: tuple[EventId, ...] = (named.hatched.id,)
    paired = _pairing_before(reader, named.hatched, side)
    if paired is not None:
        put = _known(reader, _sides_of(paired, side))
        still = tuple(group for group in put if group in in_tank or _place_unknown(reader, group))
        # What was put together and left the tank since is no parent any more.
        if still:
            groups, events = still, (named.hatched.id, paired.id)
    claims = {0: Claim.UNKNOWN, 1: Claim.LIKELY}
    return ParentSet(
        groups=groups, claim=claims.get(len(groups), Claim.SET), named=False, events=events
    )


def _known(reader: Reader, groups: tuple[str, ...]) -> tuple[str, ...]:
    """Leave out groups that this view of the journal does not hold."""
    names = reader.journal("all groups").names
    return tuple(group for group in groups if group in names.origins)


def _sides_of(event: Event, side: _Side) -> tuple[str, ...]:
    dams, sires = sides_of(event)
    return dams if side == "dams" else sires


def _pairing_before(reader: Reader, hatched: Event, side: _Side) -> Event | None:
    """Find the last pairing in the tank that can have led to a hatching."""
    if hatched.tank is None:
        return None
    _, last = _conception(reader, hatched)
    found = [
        event
        for event in reader.get(EVENTS_IN_TANK, hatched.tank)
        if event.kind_name == "paired" and event.when.earliest <= last and _sides_of(event, side)
    ]
    return max(found, key=lambda event: (event.when.latest, event.id), default=None)


def _in_the_tank(reader: Reader, named: NamedParents, side: _Side) -> tuple[str, ...]:
    """List who can have been the parent, of an age and sex to breed.

    A dam was in the tank at some time from conception to hatching; she can have been moved in
    carrying eggs, so sires are sought in every tank where a dam can have been at conception.
    """
    hatched = named.hatched
    if hatched.tank is None:
        return ()
    first, last = _conception(reader, hatched)
    there = _occupants(reader, hatched.tank, first, hatched.when.latest)
    dams = [group for group in there if _can_breed(reader, named, group, "dams", last)]
    if side == "dams":
        return tuple(dams)
    places = reader.get(_TANKS_OF_GROUP)
    before = {name for dam in dams for name in _taken_from(reader, dam)}
    tanks = {hatched.tank, *(tank for name in before for tank in places.get(name, ()))}
    around = {tank: set(_occupants(reader, tank, first, last)) for tank in tanks}
    candidates = {
        group
        for tank, groups in around.items()
        if tank == hatched.tank or groups & before
        for group in groups
    }
    return tuple(
        group for group in sorted(candidates) if _can_breed(reader, named, group, "sires", last)
    )


def _occupants(reader: Reader, tank: str, first: date, last: date) -> tuple[str, ...]:
    return reader.get(_OCCUPANTS, f"{first} {last} {tank}")


def _groups_in(reader: Reader, subject: str) -> tuple[str, ...]:
    first, last, tank = subject.split(" ", 2)
    book = reader.journal(f"book of {tank}").book
    return book.groups_in(tank, date.fromisoformat(first), date.fromisoformat(last))


_OCCUPANTS: NodeKind[tuple[str, ...]] = NodeKind("occupants", _groups_in)
"""Groups that can have been in a tank in a window, subject first day, last day and tank."""


def _taken_from(reader: Reader, group: str) -> frozenset[str]:
    """Return a group and all groups its animals were taken from, under whatever name."""
    steps = reader.journal("descent").descent.steps
    found: set[str] = set()
    stack = [group]
    while stack:
        name = stack.pop()
        if name not in found:
            found.add(name)
            stack.extend(step.source for step in steps.get(name, ()) if not step.parent)
    return frozenset(found)


def _can_breed(reader: Reader, named: NamedParents, group: str, side: _Side, last: date) -> bool:
    """Say whether a group can hold animals of one sex that were adult on a day."""
    species = reader.journal("species").journal.species
    maturity = timedelta(days=species.earliest_maturity_days if species else 0)
    birth = reader.get(_BIRTHS).get(group)
    recorded = reader.get(SEXES).get(group)
    right_sex = recorded is None or (recorded.females if side == "dams" else recorded.males)
    adult = birth is None or birth[0] + maturity <= last
    return right_sex and adult and group != named.brood


def _tanks_of_group(reader: Reader, _: str) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for group, tank in reader.journal("book").book.stands:
        found.setdefault(group, []).extend([tank] if tank is not None else [])
    return {group: tuple(tanks) for group, tanks in found.items()}


_TANKS_OF_GROUP: NodeKind[Mapping[str, tuple[str, ...]]] = NodeKind(
    "tanks-of-group", _tanks_of_group
)


def _place_unknown(reader: Reader, group: str) -> bool:
    """Say whether the book has animals of a group without knowing in which tank."""
    stands = reader.journal(f"book of {group}").book.stands
    return (group, None) in stands or group not in reader.get(_TANKS_OF_GROUP)


def _conception(reader: Reader, hatched: Event) -> tuple[date, date]:
    """Return the first and the last day on which a brood can have been conceived."""
    shortest, longest = _incubation(reader)
    return (
        hatched.when.earliest - timedelta(days=longest),
        hatched.when.latest - timedelta(days=shortest),
    )


def _incubation(reader: Reader) -> tuple[int, int]:
    species = reader.journal("species").journal.species
    if species is None:
        return _UNRECORDED_INCUBATION
    return (species.incubation_low_days, species.incubation_high_days)


def _ids(events: tuple[Event, ...]) -> tuple[EventId, ...]:
    return tuple(event.id for event in events)


def _broods_by_cross(reader: Reader, _: str) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, list[str]] = {}
    for group in reader.get(BROODS):
        row = reader.get(BROOD, group)
        if row is not None:
            found.setdefault(row.cross, []).append(group)
    return {cross: tuple(broods) for cross, broods in found.items()}


_BROODS_BY_CROSS: NodeKind[Mapping[str, tuple[str, ...]]] = NodeKind(
    "broods-by-cross", _broods_by_cross
)


def _crosses(reader: Reader, _: str) -> tuple[str, ...]:
    return tuple(reader.get(_BROODS_BY_CROSS))


CROSSES: NodeKind[tuple[str, ...]] = NodeKind("crosses", _crosses)
"""All crosses that had young, by the first hatching."""


def _broods_of_cross(reader: Reader, cross: str) -> tuple[str, ...]:
    return reader.get(_BROODS_BY_CROSS).get(cross, ())


BROODS_OF_CROSS: NodeKind[tuple[str, ...]] = NodeKind("broods-of-cross", _broods_of_cross)
"""The broods of a cross, by day of hatching."""


def _crosses_by_parent(reader: Reader, _: str) -> Mapping[str, tuple[str, ...]]:
    found: dict[str, dict[str, None]] = {}
    for cross, broods in reader.get(_BROODS_BY_CROSS).items():
        for brood in broods:
            row = reader.get(BROOD, brood)
            for parent in (*row.dams.groups, *row.sires.groups) if row is not None else ():
                found.setdefault(parent, {})[cross] = None
    return {parent: tuple(crosses) for parent, crosses in found.items()}


_CROSSES_BY_PARENT: NodeKind[Mapping[str, tuple[str, ...]]] = NodeKind(
    "crosses-by-parent", _crosses_by_parent
)


def _crosses_of_group(reader: Reader, group: str) -> tuple[str, ...]:
    return reader.get(_CROSSES_BY_PARENT).get(group, ())


CROSSES_OF_GROUP: NodeKind[tuple[str, ...]] = NodeKind("crosses-of-group", _crosses_of_group)
"""The crosses a group was a parent of, by the first hatching."""


def _named_crosses(reader: Reader, _: str) -> Mapping[str, NamedCross]:
    return named_crosses(reader.journal("named crosses").journal)


NAMED_CROSSES: NodeKind[Mapping[str, NamedCross]] = NodeKind("named-crosses", _named_crosses)
"""The crosses the keeper gave a name, by name."""
