"""Which column each node of a pedigree stands in, and how matings join the columns."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from filialog.domain_error import DomainError
from filialog.pages.drawing.pedigree_node import PedigreeNode, Side

__all__ = ["MAX_NODES", "Union", "columns_of", "known_parents", "unions_of"]

MAX_NODES = 400
_SIDE_ORDER: dict[Side, int] = {"sire": 0, "part": 1, "dam": 2}
"""The nomenclature puts the male first; here, where mates stand one below the other, above."""

Parents = tuple[tuple[str, Side], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Union:
    """Everyone with the same drawn parents, or every set with the same members."""

    parents: Parents
    """Key and side of each parent, sires first."""
    children: tuple[str, ...]
    """Keys of the young, or of the sets, sorted."""
    column: int
    """The column just left of the nearest parent: there the lines join."""
    first: int
    """The column of the child furthest to the left."""
    related: bool
    """Whether the mates are kin."""

    @property
    def is_part(self) -> bool:
        """Whether this joins the members of a set and not mates."""
        return self.parents[0][1] == "part"


def known_parents(nodes: Sequence[PedigreeNode]) -> dict[str, Parents]:
    """Return the drawn parents of every node by key, sires first; refuse what cannot be drawn."""
    if not 1 <= len(nodes) <= MAX_NODES:
        raise DomainError("number of pedigree nodes", len(nodes), f"1 to {MAX_NODES}")
    keys = [node.key for node in nodes]
    twice = sorted({key for key in keys if keys.count(key) > 1})
    if twice:
        raise DomainError("pedigree node key", twice[0], "each key once")
    known = set(keys)
    return {
        node.key: tuple(
            sorted(
                {parent for parent in node.parents if parent[0] in known},
                key=lambda parent: (_SIDE_ORDER[parent[1]], parent[0]),
            )
        )
        for node in sorted(nodes, key=lambda node: node.key)
    }


def _children(parents: Mapping[str, Parents]) -> dict[str, list[str]]:
    children: dict[str, list[str]] = {key: [] for key in parents}
    for key, above in parents.items():
        for parent in sorted({parent for parent, _ in above}):
            children[parent].append(key)
    return children


def _young_first(parents: Mapping[str, Parents], children: Mapping[str, list[str]]) -> list[str]:
    """Return the keys so that every child comes before its parents."""
    waiting = {key: len(young) for key, young in children.items()}
    ready = [key for key, count in waiting.items() if count == 0]
    ordered: list[str] = []
    for key in ready:
        ordered.append(key)
        for parent in dict.fromkeys(parent for parent, _ in parents[key]):
            waiting[parent] -= 1
            if waiting[parent] == 0:
                ready.append(parent)
    if len(ordered) < len(parents):
        stuck = min(key for key, count in waiting.items() if count > 0)
        raise DomainError("pedigree", stuck, "no animal among its own ancestors")
    return ordered


def columns_of(parents: Mapping[str, Parents]) -> dict[str, int]:
    """Return the column of each node: 0 for the last generation, ancestors to the right.

    Every node starts just right of its furthest child. A side branch that ends early is then
    moved towards its parents while that makes the lines shorter.
    """
    children = _children(parents)
    order = _young_first(parents, children)
    column = dict.fromkeys(parents, 0)
    for key in order:
        column[key] = 1 + max((column[child] for child in children[key]), default=-1)
    for _ in range(len(parents)):
        before = dict(column)
        for key in reversed(order):
            _move_branch(key, column, parents, children)
        if column == before:
            break
    used = {old: new for new, old in enumerate(sorted(set(column.values())))}
    return {key: used[place] for key, place in column.items()}


def _move_branch(
    key: str,
    column: dict[str, int],
    parents: Mapping[str, Parents],
    children: Mapping[str, list[str]],
) -> None:
    """Move a node with all its descendants as near to their other parents as the nearest lets."""
    branch = {key}
    waiting = [key]
    for member in waiting:
        for child in children[member]:
            if child not in branch:
                branch.add(child)
                waiting.append(child)
    mates = {up for member in branch for up, _ in parents[member]} - branch
    branch |= {mate for mate in mates if not parents[mate] and branch.issuperset(children[mate])}
    slack = [
        column[up] - column[member] - 1
        for member in branch
        for up, _ in parents[member]
        if up not in branch
    ]
    if slack:
        for member in branch:
            column[member] += min(slack)


def unions_of(
    parents: Mapping[str, Parents],
    column: Mapping[str, int],
    *,
    kin: Collection[str] = (),
) -> tuple[Union, ...]:
    """Return the matings and the sets of a pedigree, in the order of their first child's key.

    `kin` holds the keys of the young whose parents are kin.
    """
    grouped: dict[Parents, list[str]] = {}
    for key, above in parents.items():
        mates = tuple(parent for parent in above if parent[1] != "part")
        members = tuple(parent for parent in above if parent[1] == "part")
        for together in (mates, members):
            if together:
                grouped.setdefault(together, []).append(key)
    return tuple(
        Union(
            parents=above,
            children=tuple(young),
            column=min(column[parent] for parent, _ in above) - 1,
            first=min(column[child] for child in young),
            related={side for _, side in above} == {"dam", "sire"}
            and any(child in kin for child in young),
        )
        for above, young in grouped.items()
    )
