"""Kinship between groups, and the inbreeding of their members."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from filialog.lineage.coincidence import Coincidence, Draws, Node
from filialog.lineage.pedigree import Mating, Pedigree

if TYPE_CHECKING:
    from numpy.typing import NDArray

__all__ = ["KinshipRange", "KinshipTable", "kinship_table"]


@dataclass(frozen=True, slots=True, kw_only=True)
class KinshipRange:
    """A kinship or inbreeding coefficient, or its bounds where the mating is not known."""

    low: float
    """Where every brood of unknown mating is of several parents, in [0, 1]."""
    high: float
    """Where each of them is of one, `low` or more and at most 1."""


def kinship_table(pedigree: Pedigree) -> "KinshipTable":
    """Give the kinships of all pools with all.

    Parameters
    ----------
    pedigree
        The pedigree.

    Returns
    -------
    KinshipTable
        Computed once for a pedigree and kept with it.

    Notes
    -----
    Founders, also those in one pool, are taken as unrelated and not inbred; so is
    every unknown parent, and none of them stands for two broods. Over sets the result
    is the mean by the declared weights.

    The young of one brood share one dam and one sire, also where it is not known which.
    Where several sires are recorded, each candidate animal has a share of the young;
    all divisions are taken as equally probable (Dirichlet with all parameters 1), which
    gives two young the same sire with probability 2/(n + 1) for n candidates. Where the
    candidates are not counted, two young have different sires. Where candidates differ
    in weight the division has these as its mean, and n is the number of equal candidates
    that would coincide as often. A cloud of several dams does the same with dams, and
    with pairs of a dam and a sire where there can be several of both. Where it is not
    known whether there was one or several, the table holds both ends: the least for
    several everywhere, the greatest for one everywhere.

    Two broods that draw a parent from one pool of n animals have the same animal
    with probability 1/n; n is the number of its females for dams and of its males for
    sires where these are known, else its size; from a pool of unknown number they have
    different ones. The dam and the sire of one young are always different animals,
    except in a pool of size 1, which is selfing. Two parts of one pool have no animal
    in common; a part of a pool of size 1 is that animal. Where a blend has no size of
    its own, the sizes of its parts are used.

    If a dam set also holds the animals of the sire set (a blend with the sire in it),
    the inbreeding of the young excludes selfing, while their kinship to others keeps
    the declared weights.

    Time and memory grow with the square of the number of pools: 8 bytes for each pair,
    twice that where some mating is not known.

    References
    ----------
    .. [1] Malécot G (1948) Les mathématiques de l'hérédité. Masson, Paris
       (coefficient of kinship; from memory).
    .. [2] Lynch M, Walsh B (1998) Genetics and Analysis of Quantitative Traits.
       Sinauer, p. 775 (the recursion, and candidate sires by their weights).
    .. [3] Wright S (1922) Coefficients of inbreeding and relationship.
       American Naturalist 56:330-338.

    Examples
    --------
    >>> from filialog.lineage.pedigree import Brood, Founder, Pool, equal_shares
    >>> dam = Pool(name="dam", origin=Founder(strain="blue"), size=1)
    >>> males = Pool(name="males", origin=Founder(strain="blue"), size=2)
    >>> of = equal_shares("dam"), equal_shares("males")
    >>> young = Brood(dams=of[0], sires=of[1], mating=Mating.UNKNOWN)
    >>> pools = dam, males, Pool(name="young", origin=young)
    >>> table = kinship_table(Pedigree(pools=pools))
    >>> both = table.mates("young")
    >>> round(both.low, 4), round(both.high, 4)
    (0.2083, 0.25)
    """
    return pedigree.once(KinshipTable)


class KinshipTable:
    """The kinships of all pools of a pedigree, as `kinship_table` computes them.

    Every question raises DomainError if the pedigree has no pool of that name.
    """

    def __init__(self, pedigree: Pedigree) -> None:
        self._pedigree = pedigree
        self.coincidence = Coincidence(pedigree)
        """Which pools can hold the same animal."""
        self._low = _Solved(self.coincidence, unknown=Mating.SEVERAL)
        nodes = self.coincidence.nodes
        open_question = any(Mating.UNKNOWN in (node.mating, node.cloud) for node in nodes)
        self._high = _Solved(self.coincidence, unknown=Mating.ONE) if open_question else self._low

    def between(self, pool_a: str, pool_b: str) -> KinshipRange:
        """Give the kinship of two different animals, one of each pool.

        It is the probability that an allele drawn from one and an allele drawn from the
        other, at one autosomal locus, descend from the same founder allele, and the
        inbreeding coefficient of the young that the two would have. Twice the same pool
        means two members of it; of a pool of size 1, that animal with itself.
        """
        i, j = self._place(pool_a), self._place(pool_b)
        return _range(self._low.apart(i, j), self._high.apart(i, j))

    def drawn(self, pool_a: str, pool_b: str) -> KinshipRange:
        """Give the kinship of two animals drawn independently, which can be the same one."""
        i, j = self._place(pool_a), self._place(pool_b)
        return _range(float(self._low.drawn[i, j]), float(self._high.drawn[i, j]))

    def mates(self, pool: str) -> KinshipRange | None:
        """Give the kinship of two different members of a pool; None for a single animal."""
        i = self._place(pool)
        return None if self.coincidence.chance(i, i) == 1.0 else self.between(pool, pool)

    def itself(self, pool: str) -> KinshipRange:
        """Give the kinship of a member of a pool with itself, (1 + F) / 2."""
        f = self.inbreeding(pool)
        return _range((1.0 + f.low) / 2, (1.0 + f.high) / 2)

    def inbreeding(self, pool: str) -> KinshipRange:
        """Give Wright's F of a member: the kinship of its parents, 0 where one is unknown."""
        i = self._place(pool)
        return _range(self._low.inbreeding[i], self._high.inbreeding[i])

    def row(self, pool: str) -> dict[str, KinshipRange]:
        """Give what `between` gives for a pool with every pool, in the pedigree's order."""
        i = self._place(pool)
        both = list(zip(self._low.apart_row(i), self._high.apart_row(i), strict=True))
        # Many pools of a line have the same kinship: one value serves them all.
        ranges = {ends: _range(*ends) for ends in set(both)}
        place = self.coincidence.place
        return {other.name: ranges[both[place[other.name]]] for other in self._pedigree.pools}

    def _place(self, name: str) -> int:
        return self.coincidence.place[self._pedigree.pool(name).name]


def _range(low: float, high: float) -> KinshipRange:
    # The two ends are summed apart, so equal ones can differ in the last digit.
    return KinshipRange(low=min(low, high), high=high)


class _Solved:
    """All kinships under one reading of the matings that are not known.

    The table is filled row by row as in Emik & Terrill's tabular method; beside the
    kinship of independent draws, that of different animals is kept where it is another
    number: inside the families of pools that can have animals in common.
    """

    def __init__(self, coincidence: Coincidence, *, unknown: Mating) -> None:
        import numpy as np  # noqa: PLC0415 - a quick command should not load it

        self._same = coincidence
        self._unknown = unknown
        nodes = coincidence.nodes
        self.inbreeding = [0.0] * len(nodes)
        self.drawn: NDArray[np.float64] = np.zeros((len(nodes), len(nodes)))
        self._apart: list[NDArray[np.float64]] = [
            np.zeros((len(numbers), len(numbers))) for numbers in coincidence.members
        ]
        for number, node in enumerate(nodes):
            if node.brood:
                half = [(weight / 2, source) for weight, source in (*node.dams, *node.sires)]
                self._fill(number, half)
                self.inbreeding[number] = self._couples(node)
            else:
                self._fill(number, node.sources)
                self.inbreeding[number] = sum(
                    weight * self.inbreeding[source] for weight, source in node.sources
                )
            self._fill_apart(number, node)
            self._fill_self(number, node)

    def apart(self, i: int, j: int) -> float:
        """Give the kinship of two different animals."""
        same = self._same
        if same.family[i] != same.family[j]:
            return float(self.drawn[i, j])
        return float(self._apart[same.family[i]][same.within[i], same.within[j]])

    def apart_row(self, i: int) -> list[float]:
        """Give that kinship for a node with all nodes."""
        same = self._same
        row = self.drawn[i].copy()
        family = same.family[i]
        row[list(same.members[family])] = self._apart[family][same.within[i]]
        numbers: list[float] = row.tolist()
        return numbers

    def _fill(self, i: int, draws: Draws | list[tuple[float, int]]) -> None:
        row = self.drawn[i, :i]
        for weight, source in draws:
            row += weight * self.drawn[source, :i]
        whole, siblings = self._same.siblings(i)
        if siblings:
            row[siblings] = self.apart(whole, whole)
        self.drawn[:i, i] = row

    def _fill_apart(self, i: int, node: Node) -> None:
        import numpy as np  # noqa: PLC0415 - a quick command should not load it

        same = self._same
        at = same.within[i]
        if not at:
            return
        square = self._apart[same.family[i]]
        row = self.drawn[i, same.members[same.family[i]][:at]]
        if node.sources:
            total = np.zeros(at)
            mean = np.zeros(at)
            for weight, source in node.sources:
                different = weight * (1.0 - same.chances(source, at))
                total += different
                mean += different * square[same.within[source], :at]
            # Where nothing is left, both names mean one and the same animal.
            some = total > _NOTHING
            row[some] = mean[some] / total[some]
        square[at, :at] = square[:at, at] = row

    def _fill_self(self, i: int, node: Node) -> None:
        same = self._same
        mates = self._mates(i, node)
        self._apart[same.family[i]][same.within[i], same.within[i]] = mates
        if node.size is not None:
            one = 1.0 / node.size
            drawn = one * (1.0 + self.inbreeding[i]) / 2 + (1.0 - one) * mates
        elif node.sources:
            drawn = self._products(node.sources, node.sources)
        else:
            drawn = mates
        self.drawn[i, i] = drawn

    def _mates(self, i: int, node: Node) -> float:
        with_itself = (1.0 + self.inbreeding[i]) / 2
        if node.size == 1:
            return with_itself
        if node.brood:
            one_dam, one_sire = self._sharing(node)
            return (
                self.inbreeding[i] / 2
                + self._through(node.dams, one_dam)
                + self._through(node.sires, one_sire)
            )
        total = mean = 0.0
        for w, k in node.sources:
            for v, m in node.sources:
                different = w * v * (1.0 - self._same.chance(k, m))
                total += different
                mean += different * self.apart(k, m)
        if not node.sources:
            return 0.0
        return mean / total if total > _NOTHING else with_itself

    def _sharing(self, node: Node) -> tuple[float, float]:
        """Give the chance, beyond that of two draws, that mates have one dam and one sire."""
        dams = self._same.chance_of(node.dams, node.dams)
        sires = self._same.chance_of(node.sires, node.sires)
        many_dams = self._several(node.cloud)
        many_sires = self._several(node.mating)
        if many_dams and many_sires:
            pair = _copied(dams * sires)
            return pair, pair
        return _copied(dams) if many_dams else 1.0, _copied(sires) if many_sires else 1.0

    def _several(self, mating: Mating) -> bool:
        return (self._unknown if mating is Mating.UNKNOWN else mating) is Mating.SEVERAL

    def _through(self, draws: Draws, shared: float) -> float:
        """Give what the parents of one sex add to the kinship of mates."""
        if not draws:
            return shared / 8  # an unknown parent is not inbred
        one = sum(weight * (1.0 + self.inbreeding[parent]) for weight, parent in draws) / 8
        if shared == 1.0:
            return one
        return shared * one + (1.0 - shared) * self._products(draws, draws) / 4

    def _products(self, left: Draws, right: Draws) -> float:
        return float(sum(w * v * self.drawn[k, m] for w, k in left for v, m in right))

    def _couples(self, node: Node) -> float:
        """Give the kinship of a dam and a sire."""
        return sum(w * v * self.apart(k, m) for w, k in node.dams for v, m in node.sires)


_NOTHING = 1e-12
"""Weights are sums of rounded numbers: what is left of them below this is nothing."""


def _copied(chance: float) -> float:
    """Give the chance that a second draw takes over the first, of n = 1 / chance candidates.

    Draws from shares that are Dirichlet with all parameters 1 are those of Pólya's urn: the
    second is the first with probability 1 / (n + 1), else a new one of the n.
    """
    return chance / (1.0 + chance)
