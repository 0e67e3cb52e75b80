"""Pools numbered for counting, and the chance that draws from two of them are one animal."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from filialog.lineage.pedigree import Blend, Brood, Founder, Mating, Part, Pedigree, Share

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Coincidence", "Draws", "Node"]

Draws = tuple[tuple[float, int], ...]
"""Weights and numbers of the pools that one animal may come from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """One pool, or the females or the males of one, by numbers instead of names."""

    dams: Draws = ()
    sires: Draws = ()
    """Empty means unknown, where it is a brood."""
    mating: Mating = Mating.ONE
    cloud: Mating = Mating.ONE
    brood: bool = False
    sources: Draws = ()
    """Of what was split or joined; empty for founders and broods."""
    split: tuple[int, bool] | None = None
    """Of which pool it is a part, and whether it was split off or is all of one sex there."""
    size: int | None = None


class Coincidence:
    """Which pools can hold the same animal, and how probably two draws from them are one.

    Nodes are numbered by the links back to their founders. Of a pair the higher number is
    no ancestor of the other, so its sources can stand for it; and what contains one part
    of a pool is opened before another part of it, so the two meet as parts. Only pools
    joined by splits and blends can have animals in common, so the chances are kept in one
    square for each such family.
    """

    def __init__(self, pedigree: Pedigree) -> None:
        self.place, self.nodes = _numbered(pedigree)
        """The number of each name (that of the animal for a part of a single animal), and
        the nodes in the order of their numbers."""
        family = _families(self.nodes)
        members: dict[int, list[int]] = {}
        for number, root in enumerate(family):
            members.setdefault(root, []).append(number)
        self.members = tuple(members.values())
        """The numbers of each family, ascending."""
        numbering = {root: at for at, root in enumerate(members)}
        self.family = [numbering[root] for root in family]
        """For each node the index of its family."""
        self.within = [0] * len(self.nodes)
        """For each node its place in its family."""
        for numbers in self.members:
            for at, number in enumerate(numbers):
                self.within[number] = at
        self._chances: list[NDArray[np.float64]] = []
        self._possible: list[NDArray[np.bool_]] = []
        for numbers in self.members:
            chances, possible = self._of_family(numbers)
            self._chances.append(chances)
            self._possible.append(possible)

    def chance(self, i: int, j: int) -> float:
        """Give the probability that two animals drawn independently are one."""
        if self.family[i] != self.family[j]:
            return 0.0
        return float(self._chances[self.family[i]][self.within[i], self.within[j]])

    def chance_of(self, left: Draws, right: Draws) -> float:
        """Give that probability for two draws by weights."""
        return sum(w * v * self.chance(k, m) for w, k in left for v, m in right)

    def chances(self, i: int, earlier: int) -> "NDArray[np.float64]":
        """Give the probabilities for a node and the first so many of its family."""
        row: NDArray[np.float64] = self._chances[self.family[i]][self.within[i], :earlier]
        return row

    def possible(self, i: int, j: int) -> bool:
        """Say whether an animal can be in both pools, whatever their sizes."""
        if self.family[i] != self.family[j]:
            return False
        return bool(self._possible[self.family[i]][self.within[i], self.within[j]])

    def siblings(self, i: int) -> tuple[int, list[int]]:
        """Give the pool a node is a part of, and the earlier parts it shares no animal with.

        What was split off from a pool can hold its females, so the parts by sex are apart
        from each other only.
        """
        split = self.nodes[i].split
        if split is None:
            return -1, []
        earlier = self.members[self.family[i]][: self.within[i]]
        return split[0], [number for number in earlier if self.nodes[number].split == split]

    def _of_family(self, numbers: list[int]) -> "tuple[NDArray[np.float64], NDArray[np.bool_]]":
        import numpy as np  # noqa: PLC0415 - a quick command should not load it

        chances = np.zeros((len(numbers), len(numbers)))
        possible = np.eye(len(numbers), dtype=bool)
        for at, number in enumerate(numbers):
            node = self.nodes[number]
            sources = [(weight, self.within[source]) for weight, source in node.sources]
            if sources and at:
                row = np.zeros(at)
                for weight, source in sources:
                    row += weight * chances[source, :at]
                can = np.any([possible[source, :at] for _, source in sources], axis=0)
                apart = [self.within[other] for other in self.siblings(number)[1]]
                row[apart] = 0.0
                can[apart] = False
                chances[at, :at] = chances[:at, at] = row
                possible[at, :at] = possible[:at, at] = can
            if node.size is not None:
                chances[at, at] = 1.0 / node.size
            else:
                chances[at, at] = sum(w * v * chances[k, m] for w, k in sources for v, m in sources)
        return chances, possible


def _numbered(pedigree: Pedigree) -> tuple[dict[str, int], tuple[Node, ...]]:
    """Turn pools to nodes, adding those for the females and the males of a pool."""
    drafts: list[tuple[int, Node]] = []
    place: dict[str, int] = {}
    females: dict[int, int] = {}
    males: dict[int, int] = {}
    for pool in pedigree.ordered:
        match pool.origin:
            case Founder():
                node = Node(size=pool.size)
            case Part(of=of):
                if drafts[place[of]][1].size == 1:
                    place[pool.name] = place[of]
                    continue
                split = (place[of], False)
                node = Node(sources=((1.0, place[of]),), split=split, size=pool.size)
            case Blend(parts=parts):
                node = Node(sources=_draws(parts, place, {}), size=pool.size)
            case Brood(dams=dams, sires=sires):
                node = Node(
                    dams=_draws(dams, place, females),
                    sires=_draws(sires, place, males),
                    mating=pool.origin.mating,
                    cloud=pool.origin.cloud,
                    brood=True,
                    size=pool.size,
                )
        here = place[pool.name] = len(drafts)
        behind = (*node.dams, *node.sires, *node.sources)
        links = 1 + max((drafts[source][0] for _, source in behind), default=-1)
        drafts.append((links, node))
        for known, of_sex in ((pool.females, females), (pool.males, males)):
            if known is not None and pool.size != 1:
                of_sex[here] = len(drafts)
                node = Node(sources=((1.0, here),), split=(here, True), size=known)
                drafts.append((links + 1, node))
    order = sorted(range(len(drafts)), key=lambda number: drafts[number][0])
    new = {old: number for number, old in enumerate(order)}
    nodes = tuple(_renumbered(drafts[old][1], new) for old in order)
    return {name: new[old] for name, old in place.items()}, nodes


def _draws(shares: Iterable[Share], place: dict[str, int], of_sex: dict[int, int]) -> Draws:
    """Sum the weights by number; two names can mean one animal."""
    weights: dict[int, Fraction] = {}
    for share in shares:
        number = place[share.pool]
        number = of_sex.get(number, number)
        weights[number] = weights.get(number, Fraction(0)) + share.weight
    return tuple((float(weight), number) for number, weight in weights.items())


def _renumbered(node: Node, new: dict[int, int]) -> Node:
    def moved(draws: Draws) -> Draws:
        return tuple((weight, new[number]) for weight, number in draws)

    return Node(
        dams=moved(node.dams),
        sires=moved(node.sires),
        mating=node.mating,
        cloud=node.cloud,
        brood=node.brood,
        sources=moved(node.sources),
        split=None if node.split is None else (new[node.split[0]], node.split[1]),
        size=node.size,
    )


def _families(nodes: tuple[Node, ...]) -> list[int]:
    """Give for each node the lowest number that splits and blends join it with."""
    root = list(range(len(nodes)))

    def find(number: int) -> int:
        while root[number] != number:
            root[number] = root[root[number]]
            number = root[number]
        return number

    for number, node in enumerate(nodes):
        for _, source in node.sources:
            low, high = sorted((find(number), find(source)))
            root[high] = low
    return [find(number) for number in range(len(nodes))]
