"""How a group is related to the others, and through whom."""

from filialog.analysis.nodes import NodeKind, Reader
from filialog.analysis.pedigrees import PEDIGREE, group_of_pool
from filialog.analysis.relation_rows import RelationRow, RelativesRow
from filialog.lineage import (
    Relationship,
    RelationshipKind,
    kinship_table,
    relationship,
    relatives,
)

__all__ = ["RELATIVES", "relation_row"]

_ALL_EXPLAINED = 100
_NEAREST_EXPLAINED = 24
"""Up to a hundred relatives are explained one by one; of more, only the nearest, and the others
by their kinship alone: in a closed line of a thousand groups everybody is kin to everybody."""


def _relatives(reader: Reader, group: str) -> RelativesRow:
    pedigree = reader.get(PEDIGREE)
    names = reader.journal("all groups").names.origins
    found = [one for one in relatives(pedigree, group) if one.name in names]
    most = len(found) if len(found) <= _ALL_EXPLAINED else _NEAREST_EXPLAINED
    rows = [relation_row(relationship(pedigree, group, one.name)) for one in found[:most]]
    related = {group, *(one.name for one in found)}
    apart = [name for name in names if name not in related]
    open_ends = [
        name
        for name in apart
        if relationship(pedigree, group, name).kind is RelationshipKind.UNKNOWN
    ]
    mates = kinship_table(pedigree).mates(group)
    return RelativesRow(
        group=group,
        mates_low=None if mates is None else mates.low,
        mates_high=None if mates is None else mates.high,
        relatives=tuple(rows),
        further=tuple((one.name, one.kinship.low, one.kinship.high) for one in found[most:]),
        unrelated=tuple(name for name in apart if name not in open_ends),
        unknown=tuple(open_ends),
    )


def relation_row(found: Relationship) -> RelationRow:
    """Return a relationship as a row: what the second is to the first."""
    ends = {found.pool_a, found.pool_b}
    through = (group_of_pool(one.name) for one in found.through)
    return RelationRow(
        other=found.pool_b,
        kind=found.kind,
        possible=found.possible,
        generations_here=found.generations_a,
        generations_there=found.generations_b,
        through=tuple(dict.fromkeys(name for name in through if name not in ends)),
        kinship_low=found.kinship.low,
        kinship_high=found.kinship.high,
    )


RELATIVES: NodeKind[RelativesRow] = NodeKind("relatives", _relatives)
"""The groups related to a group, most related first."""
