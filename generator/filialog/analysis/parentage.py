"""Broods, their parents as sets, and the crosses they belong to."""

from collections.abc import Mapping
from datetime import date, timedelta

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.rows import BroodRow, Claim, ParentSet
from filialog.analysis.sources import EVENTS_IN_TANK
from filialog.journal.births import first_births
from filialog.journal.events import Event, EventId
from filialog.journal.parents import NamedParents, sides_of
from filialog.journal.sexes import Sexes, sexes_of

__all__ = ["BROOD", "BROODS", "BROODS_OF_CROSS", "CROSSES", "SEXES"]

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


def _side(reader: Reader, named: NamedParents, side: str) -> ParentSet:
    groups = named.dams if side == "dams" else named.sires
    if groups:
        claim = Claim.FIRM if len(groups) == 1 else Claim.SET
        return ParentSet(groups=groups, claim=claim, named=True, events=_ids(named.events))
    paired = _pairing_before(reader, named.hatched, side)
    if paired is not None:
        groups = sides_of(paired)[0 if side == "dams" else 1]
        claim = Claim.LIKELY if len(groups) == 1 else Claim.SET
        return ParentSet(
            groups=groups, claim=claim, named=False, events=(named.hatched.id, paired.id)
        )
    groups = _in_the_tank(reader, named, side)
    claims = {0: Claim.UNKNOWN, 1: Claim.LIKELY}
    return ParentSet(
        groups=groups,
        claim=claims.get(len(groups), Claim.SET),
        named=False,
        events=(named.hatched.id,),
    )


def _pairing_before(reader: Reader, hatched: Event, side: str) -> Event | None:
    """Find the last pairing in the tank that can have led to a hatching."""
    if hatched.tank is None:
        return None
    shortest, _ = _incubation(reader)
    latest = hatched.when.latest - timedelta(days=shortest)
    found = [
        event
        for event in reader.get(EVENTS_IN_TANK, hatched.tank)
        if event.kind_name == "paired"
        and event.when.earliest <= latest
        and sides_of(event)[0 if side == "dams" else 1]
    ]
    return max(found, key=lambda event: (event.when.latest, event.id), default=None)


def _in_the_tank(reader: Reader, named: NamedParents, side: str) -> tuple[str, ...]:
    """List who can have been in the tank, of an age and sex to breed, at the conception."""
    hatched = named.hatched
    if hatched.tank is None:
        return ()
    checked = reader.journal(f"book of {hatched.tank}")
    shortest, longest = _incubation(reader)
    first = hatched.when.earliest - timedelta(days=longest)
    last = hatched.when.latest - timedelta(days=shortest)
    species = checked.journal.species
    maturity = timedelta(days=species.earliest_maturity_days if species else 0)
    births = reader.get(_BIRTHS)
    sexes = reader.get(SEXES)
    found = []
    for group in checked.book.groups_in(hatched.tank, first, last):
        birth = births.get(group)
        recorded = sexes.get(group)
        right_sex = recorded is None or (recorded.females if side == "dams" else recorded.males)
        adult = birth is None or birth[0] + maturity <= last
        if right_sex and adult and group != named.brood:
            found.append(group)
    return tuple(found)


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
