"""Kinship between groups, and the inbreeding of their members."""

from filialog.lineage.pedigree import (
    Blend,
    Brood,
    Founder,
    Part,
    Pedigree,
    Share,
)

__all__ = ["inbreeding", "kinship_between"]

_State = tuple[int, int, int]
_Equation = tuple[float, list[tuple[float, _State]]]
_Draws = tuple[tuple[float, int], ...]

# What is asked about the pools i and j (i == j is allowed, and i >= j always):
_DRAWN = 0  # kinship of two animals drawn independently; they may be the same animal
_APART = 1  # kinship of two different animals (of a pool of one: of the animal with itself)
_SAME = 2  # probability that two animals drawn independently are one
_INBRED = 3  # inbreeding coefficient of a member of i


def kinship_between(pedigree: Pedigree, pool_a: str, pool_b: str) -> float:
    """Give the coefficient of kinship of two different animals.

    It is also the inbreeding coefficient of the young that the two would have.

    Parameters
    ----------
    pedigree
        The pedigree.
    pool_a, pool_b
        Names of the pools from which one animal each is drawn at random; the order
        does not matter. Twice the same pool means two different members of it.

    Returns
    -------
    float
        Probability in [0, 1] that an allele drawn from one and an allele drawn from
        the other, at one autosomal locus, descend from the same founder allele. For a
        pool of size 1 with itself: that of the animal with itself, (1 + F) / 2.

    Raises
    ------
    DomainError
        If the pedigree has no pool of that name.

    Notes
    -----
    Founders, also those in one pool, are taken as unrelated and not inbred; so is
    every unknown parent, and none of them stands for two broods. The young of one
    brood share one dam and one sire, also where it is not known which. Over sets the
    result is the mean by the declared weights.

    Two broods that draw a parent from one pool of n animals have the same animal
    with probability 1/n, whatever its sex; from a pool of unknown size they have
    different ones. The dam and the sire of one brood are always different animals,
    except in a pool of size 1, which is selfing. Two parts of one pool have no animal
    in common; a part of a pool of size 1 is that animal. Where a blend has no size of
    its own, the sizes of its parts are used.

    If a dam set also holds the animals of the sire set (a blend with the sire in it),
    the inbreeding of the young excludes selfing, while their kinship to others keeps
    the declared weights.

    References
    ----------
    .. [1] Malécot G (1948) Les mathématiques de l'hérédité. Masson, Paris
       (coefficient of kinship; from memory).
    .. [2] Lynch M, Walsh B (1998) Genetics and Analysis of Quantitative Traits.
       Sinauer, p. 775 (the recursion, and candidate sires by their weights).

    Examples
    --------
    >>> from filialog.lineage.pedigree import Brood, Founder, Pool, equal_shares
    >>> old = Pool(name="old", origin=Founder(strain="blue"))
    >>> pair = equal_shares("old")
    >>> young = Pool(name="young", origin=Brood(dams=pair, sires=pair))
    >>> kinship_between(Pedigree(pools=(old, young)), "young", "young")
    0.25
    """
    pedigree.pool(pool_a)
    pedigree.pool(pool_b)
    table = pedigree.once(_Kinships)
    return table.value(_pair(_APART, table.place[pool_a], table.place[pool_b]))


def inbreeding(pedigree: Pedigree, pool: str) -> float:
    """Give the inbreeding coefficient F of one member of a pool.

    Parameters
    ----------
    pedigree
        The pedigree.
    pool
        Name of the pool.

    Returns
    -------
    float
        Wright's F in [0, 1]: the kinship of the member's dam and sire, a mean by
        weights where these are sets. 0 for founders and where a parent is unknown.

    Raises
    ------
    DomainError
        If the pedigree has no pool of that name.

    Notes
    -----
    The assumptions are those of `kinship_between`.

    References
    ----------
    .. [1] Wright S (1922) Coefficients of inbreeding and relationship.
       American Naturalist 56:330-338.

    Examples
    --------
    >>> from filialog.lineage.pedigree import Brood, Founder, Pool, equal_shares
    >>> old = Pool(name="old", origin=Founder(strain="blue"))
    >>> first, second = equal_shares("old"), equal_shares("first")
    >>> young = Pool(name="first", origin=Brood(dams=first, sires=first))
    >>> inbred = Pool(name="second", origin=Brood(dams=second, sires=second))
    >>> inbreeding(Pedigree(pools=(old, young, inbred)), "second")
    0.25
    """
    pedigree.pool(pool)
    table = pedigree.once(_Kinships)
    place = table.place[pool]
    return table.value((_INBRED, place, place))


class _Kinships:
    """The kinships of one pedigree, each computed when first needed.

    Pools are numbered by the links back to their founders. Of a pair the higher number
    is no ancestor of the other, so its sources can stand for it; and what contains one
    part of a pool is opened before another part of it, so the two meet as parts. Each
    question is then one linear equation in questions about lower numbers, solved with a
    stack of its own, so that long lines need no deep recursion.
    """

    def __init__(self, pedigree: Pedigree) -> None:
        pools = pedigree.ordered
        rank = {pool.name: number for number, pool in enumerate(pools)}
        self._size = [pool.size for pool in pools]
        animal = list(range(len(pools)))  # a part of a pool of one is the same animal
        for number, pool in enumerate(pools):
            match pool.origin:
                case Part(of=of) if self._size[animal[rank[of]]] == 1:
                    animal[number] = animal[rank[of]]
                case _:
                    pass
        self.place = {name: animal[number] for name, number in rank.items()}
        self._parents: list[tuple[_Draws, _Draws] | None] = [None] * len(pools)
        self._sources: list[_Draws] = [()] * len(pools)
        self._part_of = [-1] * len(pools)
        for number, pool in enumerate(pools):
            match pool.origin:
                case Brood(dams=dams, sires=sires):
                    self._parents[number] = (self._draws(dams), self._draws(sires))
                case Blend(parts=parts):
                    self._sources[number] = self._draws(parts)
                case Part(of=of):
                    self._part_of[number] = self.place[of]
                    self._sources[number] = ((1.0, self.place[of]),)
                case Founder():
                    pass
        self._solved: dict[_State, float] = {}

    def _draws(self, shares: tuple[Share, ...]) -> _Draws:
        return tuple((float(share.weight), self.place[share.pool]) for share in shares)

    def value(self, asked: _State) -> float:
        """Answer one question, and on the way all those it depends on."""
        solved = self._solved
        open_questions: dict[_State, _Equation] = {}
        stack = [asked]
        while stack:
            state = stack[-1]
            if state in solved:
                stack.pop()
                continue
            equation = open_questions.get(state)
            if equation is None:
                equation = open_questions[state] = self._equation(state)
                missing = [term for _, term in equation[1] if term not in solved]
                if missing:
                    stack.extend(missing)
                    continue
            total, terms = equation
            for factor, term in terms:
                total += factor * solved[term]
            solved[state] = total
            stack.pop()
        return solved[asked]

    def _equation(self, state: _State) -> _Equation:
        kind, i, j = state
        if kind == _INBRED:
            return self._inbred(i)
        if kind == _SAME:
            return self._same(i, j)
        if i == j:
            return self._drawn_twice(i) if kind == _DRAWN else self._mates(i)
        parents = self._parents[i]
        if parents is not None:
            draws = (*parents[0], *parents[1])
            return 0.0, [(weight / 2, _pair(_DRAWN, k, j)) for weight, k in draws]
        return self._drawn(i, j) if kind == _DRAWN else self._apart(i, j)

    def _apart(self, i: int, j: int) -> _Equation:
        weights = [weight * (1.0 - self._chance_same(k, j)) for weight, k in self._sources[i]]
        total = sum(weights)
        if total == 0.0:
            return self._drawn(i, j)  # both names mean one and the same animal
        return 0.0, [
            (weight / total, _pair(_APART, k, j))
            for weight, (_, k) in zip(weights, self._sources[i], strict=True)
        ]

    def _inbred(self, i: int) -> _Equation:
        parents = self._parents[i]
        if parents is None:
            return 0.0, [(weight, (_INBRED, k, k)) for weight, k in self._sources[i]]
        return 0.0, _products(_APART, *parents)

    def _same(self, i: int, j: int) -> _Equation:
        if i == j:
            size = self._size[i]
            if size is not None:
                return 1.0 / size, []
            return 0.0, _products(_SAME, self._sources[i], self._sources[i])
        if self._siblings(i, j):
            return 0.0, []
        return 0.0, [(weight, _pair(_SAME, k, j)) for weight, k in self._sources[i]]

    def _drawn(self, i: int, j: int) -> _Equation:
        if self._siblings(i, j):
            return 0.0, [(1.0, (_APART, self._part_of[i], self._part_of[i]))]
        return 0.0, [(weight, _pair(_DRAWN, k, j)) for weight, k in self._sources[i]]

    def _drawn_twice(self, i: int) -> _Equation:
        size = self._size[i]
        if size is not None:
            same = 1.0 / size
            return same / 2, [(same / 2, (_INBRED, i, i)), (1.0 - same, (_APART, i, i))]
        if self._sources[i]:
            return 0.0, _products(_DRAWN, self._sources[i], self._sources[i])
        return 0.0, [(1.0, (_APART, i, i))]

    def _mates(self, i: int) -> _Equation:
        with_itself: _Equation = (0.5, [(0.5, (_INBRED, i, i))])
        if self._size[i] == 1:
            return with_itself
        parents = self._parents[i]
        if parents is not None:
            # An unknown parent is not inbred: shared by both, it adds 1/4 of its 1/2.
            terms = [(0.5, (_INBRED, i, i))]
            terms += [(weight / 8, (_INBRED, k, k)) for draws in parents for weight, k in draws]
            return 0.25, terms
        sources = self._sources[i]
        if not sources:
            return 0.0, []
        weighted = [
            (w * v * (1.0 - self._chance_same(k, m)), _pair(_APART, k, m))
            for w, k in sources
            for v, m in sources
        ]
        total = sum(weight for weight, _ in weighted)
        if total == 0.0:
            return with_itself
        return 0.0, [(weight / total, state) for weight, state in weighted]

    def _chance_same(self, i: int, j: int) -> float:
        return self.value(_pair(_SAME, i, j))

    def _siblings(self, i: int, j: int) -> bool:
        return self._part_of[i] >= 0 and self._part_of[i] == self._part_of[j]


def _pair(kind: int, i: int, j: int) -> _State:
    return (kind, i, j) if i >= j else (kind, j, i)


def _products(kind: int, left: _Draws, right: _Draws) -> list[tuple[float, _State]]:
    return [(w * v, _pair(kind, k, m)) for w, k in left for v, m in right]
