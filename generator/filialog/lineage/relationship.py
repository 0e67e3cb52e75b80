"""How two groups are related, and through which ancestors."""

from dataclasses import dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING

from filialog.lineage.coincidence import Draws
from filialog.lineage.descent import FAR, Descent
from filialog.lineage.kinship import KinshipRange, kinship_table
from filialog.lineage.pedigree import Blend, Brood, Founder, Mating, Part, Pedigree

if TYPE_CHECKING:
    from numpy.typing import NDArray

__all__ = [
    "CommonAncestor",
    "Relationship",
    "RelationshipKind",
    "Relative",
    "relationship",
    "relatives",
]


class RelationshipKind(Enum):
    """The nearest relationship that two animals can have by the record."""

    SAME_ANIMAL = "same animal"
    """Both names mean one animal."""
    SAME_POOL = "same pool"
    """Two members of one group, or of what was taken from it."""
    SAME_BROOD = "same brood"
    """Two animals of one brood, whatever groups they went to."""
    PARENT_YOUNG = "parent and young"
    FULL_SIBS = "full sibs"
    """Of different broods with the same dam and the same sire."""
    HALF_SIBS = "half sibs"
    """Of different broods with one parent in common."""
    ANCESTOR = "ancestor"
    """One descends from the other, two generations or more."""
    COLLATERAL = "collateral"
    """Both descend from, or belong to, the same pool further back."""
    UNRELATED_BY_RECORD = "unrelated by record"
    """No ancestor in common, back to founders on all sides."""
    UNKNOWN = "unknown"
    """No recorded ancestor in common, but parents that are not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CommonAncestor:
    """A pool that both come from, or that one is and the other comes from."""

    name: str
    """The pool."""
    generations_a: int
    """The fewest generations back to it from the first; 0 for what was taken from it."""
    generations_b: int
    """The fewest generations back to it from the second."""
    possible: bool
    """True where it is an ancestor of one of them only by a set of candidates or a blend."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Relationship:
    """How an animal of one pool is related to a different animal of another."""

    pool_a: str
    pool_b: str
    kind: RelationshipKind
    """The nearest that can be."""
    possible: bool
    """True where the two animals can also be less related than that: a parent is one of
    several animals, a candidate of a set, or not the only one of its brood."""
    generations_a: int | None
    """From the first back to the second (PARENT_YOUNG, ANCESTOR), to the parents (sibs),
    else to the first of `through`; 0 for an ancestor itself; None where there is none."""
    generations_b: int | None
    """The same from the second."""
    through: tuple[CommonAncestor, ...]
    """The nearest pools in common, by the fewest generations on both sides together."""
    kinship: KinshipRange
    """Coefficient of kinship, as `KinshipTable.between` has it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Relative:
    """A pool related to another."""

    name: str
    """The pool."""
    kinship: KinshipRange
    """With the pool that was asked for."""


def relationship(pedigree: Pedigree, pool_a: str, pool_b: str) -> Relationship:
    """Say how two animals are related.

    Parameters
    ----------
    pedigree
        The pedigree.
    pool_a, pool_b
        Names of the pools the animals are in. Twice the same name means two members.

    Returns
    -------
    Relationship
        Swapping the names swaps the two sides and nothing else.

    Raises
    ------
    DomainError
        If the pedigree has no pool of that name.

    Notes
    -----
    The nearest pools in common are the first met on the way up from one of the pools
    that the other comes from or is, and the same from the other side. A generation is
    one brood; splitting and joining are none. A pool is an ancestor only where its
    animals can be the parents: one part of a pool is not the ancestor of what hatched
    from another part of it.

    References
    ----------
    .. [1] Counting only; no source is needed.

    Examples
    --------
    >>> from filialog.lineage.pedigree import Pool, equal_shares
    >>> old = [Pool(name=name, origin=Founder(strain="blue"), size=1) for name in "abc"]
    >>> one = Brood(dams=equal_shares("a"), sires=equal_shares("b"))
    >>> two = Brood(dams=equal_shares("c"), sires=equal_shares("b"))
    >>> young = Pool(name="one", origin=one), Pool(name="two", origin=two)
    >>> found = relationship(Pedigree(pools=(*old, *young)), "one", "two")
    >>> found.kind.value, found.possible, [ancestor.name for ancestor in found.through]
    ('half sibs', False, ['b'])
    """
    pedigree.pool(pool_a)
    pedigree.pool(pool_b)
    table = kinship_table(pedigree)
    # Two ways between a pair can be equally near, so the sides are looked at in one order.
    first, second = sorted((pool_a, pool_b))
    pair = _Pair(pedigree, first, second)
    kind, possible, generations = pair.found()
    found = Relationship(
        pool_a=first,
        pool_b=second,
        kind=kind,
        possible=possible,
        generations_a=generations[0],
        generations_b=generations[1],
        through=pair.through,
        kinship=table.between(pool_a, pool_b),
    )
    return found if pool_a == first else _turned(found)


def relatives(pedigree: Pedigree, pool: str) -> tuple[Relative, ...]:
    """List the pools that are related to a pool, most related first.

    Parameters
    ----------
    pedigree
        The pedigree.
    pool
        Name of the pool.

    Returns
    -------
    tuple of Relative
        Every other pool that has an ancestor in common with it, or is one, by its
        greatest kinship, then by name. A kinship can be 0 here, as between the young
        of different animals of one founder pool.

    Raises
    ------
    DomainError
        If the pedigree has no pool of that name.

    Notes
    -----
    As `kinship_table`.

    References
    ----------
    .. [1] As `kinship_table`.

    Examples
    --------
    >>> from filialog.lineage.pedigree import Pool, equal_shares
    >>> old = [Pool(name=name, origin=Founder(strain="blue"), size=1) for name in "ab"]
    >>> young = Pool(name="young", origin=Brood(dams=equal_shares("b")))
    >>> lines = Pedigree(pools=(*old, young))
    >>> [(relative.name, relative.kinship.high) for relative in relatives(lines, "young")]
    [('b', 0.25)]
    """
    row = kinship_table(pedigree).row(pool)
    descent = pedigree.once(Descent)
    here = descent.above[descent.number[pool]]
    found = [
        Relative(name=name, kinship=row[name])
        for name, above in zip(descent.names, descent.above, strict=True)
        if above & here and name != pool
    ]
    found.sort(key=lambda one: (-one.kinship.high, -one.kinship.low, one.name))
    return tuple(found)


def _turned(found: Relationship) -> Relationship:
    return replace(
        found,
        pool_a=found.pool_b,
        pool_b=found.pool_a,
        generations_a=found.generations_b,
        generations_b=found.generations_a,
        through=tuple(
            replace(one, generations_a=one.generations_b, generations_b=one.generations_a)
            for one in found.through
        ),
    )


_Kind = tuple[RelationshipKind, bool, tuple[int | None, int | None]]


class _Bodies:
    """What is asked of a pedigree again for each pair of pools."""

    def __init__(self, pedigree: Pedigree) -> None:
        import numpy as np  # noqa: PLC0415 - a quick command should not load it

        self.descent = pedigree.once(Descent)
        self.same = kinship_table(pedigree).coincidence
        self.node = [self.same.place[name] for name in self.descent.names]
        """For each pool the number its animals have in the table of kinships."""
        self.holding: dict[int, list[int]] = {}
        """For each family of nodes its pools."""
        self.whole: list[int] = []
        """For each pool the one that its splits began with."""
        self.brood: NDArray[np.bool_] = np.zeros(len(self.node), dtype=bool)
        self.ties: NDArray[np.bool_] = np.zeros(len(self.node), dtype=bool)
        """Whether any two animals that come from a pool are related."""
        for number, pool in enumerate(pedigree.ordered):
            self.holding.setdefault(self.same.family[self.node[number]], []).append(number)
            part = isinstance(pool.origin, Part)
            self.whole.append(self.whole[self.descent.up[number][0].end] if part else number)
            match pool.origin:
                case Brood(mating=mating, cloud=cloud):
                    self.brood[number] = True
                    tied = Mating.ONE in (mating, cloud)
                case Part():
                    tied = bool(self.ties[self.whole[number]])
                case Blend() | Founder():
                    tied = False
            self.ties[number] = tied or pool.size == 1

    def can_share(self, one: int) -> list[int]:
        """Give the pools that can hold an animal of a pool."""
        node = self.node[one]
        family = self.holding[self.same.family[node]]
        return [other for other in family if self.same.possible(self.node[other], node)]


class _Pair:
    """Two pools, looked at from the first."""

    def __init__(self, pedigree: Pedigree, pool_a: str, pool_b: str) -> None:
        self._all = pedigree.once(_Bodies)
        self._descent = self._all.descent
        self._same = self._all.same
        self._ends = (self._descent.number[pool_a], self._descent.number[pool_b])
        a, b = self._ends
        nearest = self._descent.first_common(a, b) | self._descent.first_common(b, a)
        through = [self._common(number) for number in nearest]
        through.sort(
            key=lambda one: (
                one.generations_a + one.generations_b,
                max(one.generations_a, one.generations_b),
                one.name,
            )
        )
        self.through = tuple(through)

    def found(self) -> _Kind:
        """Give the kind, whether it is only possible, and the generations of both sides."""
        if not self.through:
            gap = any(self._descent.gaps[number] for number in self._ends)
            kind = RelationshipKind.UNKNOWN if gap else RelationshipKind.UNRELATED_BY_RECORD
            return kind, False, (None, None)
        one = self._one_animal()
        if one is not None:
            return one
        a, b = self._ends
        up, down = self._ancestor(a, b), self._ancestor(b, a)
        for known, sides in ((up, (1, 0)), (down, (0, 1))):
            if known is not None and known[0] == 1:
                return RelationshipKind.PARENT_YOUNG, not known[1], sides
        sibs = self._sibs()
        if sibs is not None:
            return sibs
        if up is not None and (down is None or up[0] <= down[0]):
            return RelationshipKind.ANCESTOR, not up[1], (up[0], 0)
        if down is not None:
            return RelationshipKind.ANCESTOR, not down[1], (0, down[0])
        nearest = self.through[0]
        certain = self._descent.certain
        surely = bool((certain[a] & certain[b] & self._all.ties).any())
        return (
            RelationshipKind.COLLATERAL,
            not surely,
            (nearest.generations_a, nearest.generations_b),
        )

    def _common(self, number: int) -> CommonAncestor:
        a, b = self._ends
        generations, certain = self._descent.generations, self._descent.certain
        return CommonAncestor(
            name=self._descent.names[number],
            generations_a=int(generations[a, number]),
            generations_b=int(generations[b, number]),
            possible=not (certain[a, number] and certain[b, number]),
        )

    def _one_animal(self) -> _Kind | None:
        """Recognise animals of one pool: of a group, or of a brood."""
        a, b = (self._all.node[number] for number in self._ends)
        if self._same.chance(a, b) == 1.0:
            return RelationshipKind.SAME_ANIMAL, False, (0, 0)
        common = self.through[0]
        if common.generations_a or common.generations_b:
            return None
        whole = self._all.whole[self._descent.number[common.name]]
        brood = self._all.brood[whole]
        kind = RelationshipKind.SAME_BROOD if brood else RelationshipKind.SAME_POOL
        return kind, common.possible, (0, 0)

    def _ancestor(self, young: int, old: int) -> tuple[int, bool] | None:
        """Give the generations from one pool up to the other, and whether that is certain."""
        generations, certain = self._descent.generations[young], self._descent.certain[young]
        found: dict[int, bool] = {}
        for parent in self._all.can_share(old):
            one = self._same.chance(self._all.node[parent], self._all.node[old]) == 1.0
            for link in self._descent.down[parent]:
                if link.generations and generations[link.end] < FAR:
                    away = int(generations[link.end]) + 1
                    sure = one and link.certain and bool(certain[link.end])
                    found[away] = found.get(away, False) or sure
        return min(found.items(), default=None)

    def _sibs(self) -> _Kind | None:
        """Compare the parents of the broods that the two were taken from."""
        a, b = self._ends
        certain = self._descent.certain
        best: tuple[int, bool] | None = None
        for one in self._broods(a):
            for other in self._broods(b):
                for shared, alike in self._shared_parents(one, other):
                    sure = alike and bool(certain[a, one] and certain[b, other])
                    if best is None or (shared, sure) > best:
                        best = shared, sure
        if best is None:
            return None
        kind = RelationshipKind.FULL_SIBS if best[0] == 2 else RelationshipKind.HALF_SIBS
        return kind, not best[1], (1, 1)

    def _broods(self, end: int) -> list[int]:
        here = (self._descent.generations[end] == 0) & self._all.brood
        numbers: list[int] = here.nonzero()[0].tolist()
        return numbers

    def _shared_parents(self, a: int, b: int) -> list[tuple[int, bool]]:
        """Give how many parents two broods can share, either way round."""
        one, two = (self._same.nodes[self._all.node[number]] for number in (a, b))
        found = []
        for pairs in (
            ((one.dams, two.dams), (one.sires, two.sires)),
            ((one.dams, two.sires), (one.sires, two.dams)),
        ):
            can = [pair for pair in pairs if self._can_be_one(*pair)]
            sure = [pair for pair in pairs if self._same.chance_of(*pair) == 1.0]
            if can:
                found.append((len(can), len(can) == len(sure)))
        return found

    def _can_be_one(self, left: Draws, right: Draws) -> bool:
        return any(self._same.possible(k, m) for _, k in left for _, m in right)
