"""Broods, their parents as sets, and the crosses they belong to."""

from collections.abc import Mapping

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.rows import BroodRow
from filialog.journal.parentage import ParentSet
from filialog.journal.parents import NamedCross, NamedParents, named_crosses
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


def _sexes(reader: Reader, _: str) -> Mapping[str, Sexes]:
    checked = reader.journal("sexes")
    return sexes_of(checked.journal, checked.names)


SEXES: NodeKind[Mapping[str, Sexes]] = NodeKind("sexes", _sexes)
"""Recorded sexes of all groups."""


def _broods(reader: Reader, _: str) -> tuple[str, ...]:
    return tuple(reader.journal("named parents").parents)


BROODS: NodeKind[tuple[str, ...]] = NodeKind("broods", _broods)
"""All broods, by day of hatching."""


def _brood(reader: Reader, group: str) -> BroodRow | None:
    checked = reader.journal(f"parents of {group}")
    named = checked.parents.get(group)
    parents = checked.parentage.of(group)
    if named is None or parents is None:
        return None
    hatched = named.hatched
    return BroodRow(
        group=group,
        when=hatched.when,
        tank=hatched.tank,
        cross=_cross_of(named, parents.dams, parents.sires),
        dams=parents.dams,
        sires=parents.sires,
        mating=parents.mating,
        count=hatched.count(),
        event=hatched.id,
    )


BROOD: NodeKind[BroodRow | None] = NodeKind("brood", _brood)
"""A brood with its parents; None for a group that is none."""


def _cross_of(named: NamedParents, dams: ParentSet, sires: ParentSet) -> str:
    """Name the cross: as the keeper did, or by its parents, or after the brood."""
    if named.cross is not None:
        return named.cross
    certain = all(side.groups and (side.named or len(side.groups) == 1) for side in (dams, sires))
    if certain:
        return f"{' or '.join(dams.groups)} by {' or '.join(sires.groups)}"
    # Who else was in the tank can change with every late note; the brood's name does not.
    return f"parents of {named.brood}"


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
