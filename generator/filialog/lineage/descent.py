"""The links of a pedigree upwards, with the generations on each and whether it is certain."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from filialog.lineage.pedigree import Blend, Brood, Founder, Origin, Part, Pedigree, Share

if TYPE_CHECKING:
    from numpy.typing import NDArray

__all__ = ["FAR", "Descent", "Link"]

FAR = 1 << 29
"""Stands for the generations to what is no ancestor."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One step between a pool and a pool it comes from."""

    end: int
    """Number of the pool at the other end."""
    generations: int
    """1 between parents and young, 0 where animals were taken or joined."""
    certain: bool
    """Whether there is no other candidate."""


class Descent:
    """For every pool its links up and down, and how far up each other pool is."""

    def __init__(self, pedigree: Pedigree) -> None:
        import numpy as np  # noqa: PLC0415 - a quick command should not load it

        self.names = [pool.name for pool in pedigree.ordered]
        """In an order in which sources stand before what came from them."""
        self.number = {name: number for number, name in enumerate(self.names)}
        count = len(self.names)
        self.up: list[tuple[Link, ...]] = []
        """Links to what each pool comes from."""
        self.down: list[list[Link]] = [[] for _ in range(count)]
        """Links to what came from it."""
        self.above: list[int] = []
        """A bit for each pool that it comes from, and for itself."""
        self.gaps: list[bool] = []
        """Whether an unknown parent is somewhere behind it."""
        self.generations: NDArray[np.int32] = np.full((count, count), FAR, dtype=np.int32)
        """The fewest up from one pool (row) to another; FAR where that is no ancestor."""
        self.certain: NDArray[np.bool_] = np.zeros((count, count), dtype=bool)
        """Whether some way up leads over certain links only."""
        for number, pool in enumerate(pedigree.ordered):
            links = self._links(pool.origin)
            self.up.append(links)
            bits = 1 << number
            fewest, certain = self.generations[number], self.certain[number]
            for link in links:
                back = Link(end=number, generations=link.generations, certain=link.certain)
                self.down[link.end].append(back)
                bits |= self.above[link.end]
                np.minimum(fewest, self.generations[link.end] + link.generations, out=fewest)
                if link.certain:
                    certain |= self.certain[link.end]
            fewest[number] = 0
            certain[number] = True
            self.above.append(bits)
            lacks = isinstance(pool.origin, Brood) and not (pool.origin.dams and pool.origin.sires)
            self.gaps.append(lacks or any(self.gaps[link.end] for link in links))

    def first_common(self, one: int, other: int) -> set[int]:
        """Walk up from a pool and stop at the first pools that the other comes from or is."""
        target = self.above[other]
        found: set[int] = set()
        seen = {one}
        stack = [one]
        while stack:
            number = stack.pop()
            if target >> number & 1:
                found.add(number)
                continue
            for link in self.up[number]:
                if link.end not in seen and self.above[link.end] & target:
                    seen.add(link.end)
                    stack.append(link.end)
        return found

    def _links(self, origin: Origin) -> tuple[Link, ...]:
        match origin:
            case Founder():
                return ()
            case Part(of=of):
                return (Link(end=self.number[of], generations=0, certain=True),)
            case Blend(parts=parts):
                return self._of_set(parts, generations=0)
            case Brood(dams=dams, sires=sires):
                return self._of_set(dams, generations=1) + self._of_set(sires, generations=1)

    def _of_set(self, shares: tuple[Share, ...], *, generations: int) -> tuple[Link, ...]:
        return tuple(
            Link(
                end=self.number[share.pool],
                generations=generations,
                certain=len(shares) == 1,
            )
            for share in shares
        )
